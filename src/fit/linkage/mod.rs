// SPDX-License-Identifier: MIT
//! The album laid open, as a plane linkage seen from its tail: a base, a gusset from each root, a page on each gusset.
//!
//! In: roots, gussets, widths, thicknesses. Out: how the leaves lie when the album is opened between two of them.
//! Never: knows an album file or a part; judges.
//!
//! Opened between two leaves, those before lie to the left and those behind to the right, the first and the last on
//! the table. The base tips until the leaves lie as low as they can: it rests where the sum of weight times height is
//! least; one that is loose is drawn up off the table as well, where that lets them lie lower. Leaves are stiff, gussets
//! are strings, and whoever opens the album draws each leaf outward until its gusset is taut; friction holds it there.
//!
//! Because a stiff leaf may stick out over the edge of the stack below it, it lies flat in an album as soon as its
//! gusset is as long as the stack is high. [`reach`] tells what it takes where it may not.
//!
//! Where both sides lean so much that the two leaves on top would meet over the middle, they pass through each other
//! here; the album is far too thick then, and its true lift is a little more.

mod closed;
mod gusset;
mod posture;
mod section;
mod side;
mod sides;
mod tried;

use crate::contour::{Point, Vec2};
use crate::length::tolerance::SAME;
pub use section::{Bar, CrossSection, Leaf, Opening};
use side::Rest;
use sides::Sides;
use tried::{ALL_OPENINGS, SpareBuffers, Tried};

/// How a leaf's gusset stands when the leaf lies flat on a stack.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reach {
    /// How far the spine edge is drawn in towards its root, mm.
    pub shift: f64,
    /// The gusset's slope, radians.
    pub angle: f64,
}

/// Whether a gusset lets its leaf lie flat on a stack `height` mm above its root, the stack's edge `away` mm from it.
///
/// None if the leaf can't lie flat: the straight way over the edge, sqrt(height² + away²), is longer than the gusset.
/// The taut gusset is the hypotenuse of a right triangle with the height as one side.
///
/// ```
/// use hingeleaf::fit::linkage::reach;
/// let flat = reach(12.7, 8.0, 0.0).ok_or("does not reach")?;
/// assert!((flat.shift - 2.836).abs() < 5e-4);
/// assert!((flat.angle.to_degrees() - 39.04).abs() < 5e-3);
/// assert!(reach(12.7, 8.0, 10.0).is_none()); // it would take 12.806 mm
/// # Ok::<(), &str>(())
/// ```
#[must_use]
pub fn reach(gusset: f64, height: f64, away: f64) -> Option<Reach> {
    let sound = [gusset, height, away].iter().all(|size| size.is_finite() && *size >= 0.0);
    if !sound || height.hypot(away) > gusset {
        return None;
    }
    if height <= 0.0 {
        return Some(Reach { shift: 0.0, angle: 0.0 });
    }
    let level = ((gusset - height) * (gusset + height)).sqrt();
    Some(Reach { shift: gusset - level, angle: height.atan2(level) })
}
impl CrossSection {
    /// The album opened so that `between` leaves lie to the left; at most all of them.
    #[must_use]
    pub fn opened(&self, between: usize) -> Opening {
        let section = self.tamed();
        let between = between.min(section.leaves.len());
        let mut sides = section.sides();
        section.at_rest(between, &mut Tried::new(&section, SpareBuffers::new()), &mut sides)
    }

    /// The opening whose top leaf lies least flat, with the number of leaves to its left; none if there are not two
    /// leaves.
    #[must_use]
    pub fn worst(&self) -> Option<(usize, Opening)> {
        let section = self.tamed();
        let mut sides = section.sides();
        let mut tried = Tried::new(&section, SpareBuffers::new());
        let mut worst: Option<Opening> = None;
        // No fore-edge lifts more than its page is wide: beside one that stands no other opening is worse.
        let widest = section.leaves.iter().map(|leaf| leaf.width).fold(0.0, f64::max);
        let mut look = |between: usize| {
            if let Some(worst) = worst.as_ref().filter(|worst| worst.lift + SAME >= widest) {
                return worst.between;
            }
            let opening = section.at_rest(between, &mut tried, &mut sides);
            if worst.as_ref().is_none_or(|worst| opening.lift > worst.lift + SAME) {
                worst = Some(opening);
            }
            worst.as_ref().map_or(between, |worst| worst.between)
        };
        let mut found = section.looked_at().map(&mut look).last()?;
        // Openings change little from one to the next: about the worst that was looked at, ever nearer ones are.
        let mut step = section.step();
        while step > 1 {
            step = step.div_ceil(2);
            let about = [found.saturating_sub(step).max(1), (found + step).min(section.leaves.len() - 1)];
            for between in about {
                found = look(between);
            }
        }
        worst.map(|opening| (opening.between, opening))
    }

    /// The openings that are looked at: all of them, and of very many so many, as far apart as each other.
    fn looked_at(&self) -> impl Iterator<Item = usize> + use<> {
        (1..self.leaves.len()).step_by(self.step())
    }

    fn step(&self) -> usize {
        self.leaves.len().pow(2).div_ceil(ALL_OPENINGS.pow(2)).max(1)
    }
    /// The album at rest, opened with `between` leaves on the left.
    fn at_rest(&self, between: usize, tried: &mut Tried, sides: &mut Sides) -> Opening {
        let (tilt, high) = self.posture(between, tried, sides);
        self.lay(between, (tilt, high), f64::INFINITY, sides);
        let (sine, cosine) = tilt.sin_cos();
        let low = (-self.base * sine).max(0.0) + high;
        let ends = [Point::new(0.0, low), Point::new(self.base * cosine, self.base.mul_add(sine, low))];
        let up = Vec2::new(-sine, cosine);
        let Sides([left, right]) = sides;
        let place = |leaf: &Leaf, rest: &Rest, hand: f64| {
            let world = |point: Point| Point::new(if hand < 0.0 { -point.x } else { ends[1].x + point.x }, point.y);
            let root = ends[0].lerp(ends[1], if self.base > 0.0 { leaf.root / self.base } else { 0.0 });
            leaf.bar(root + up * leaf.stands_back, world(rest.from), world(rest.from + rest.along * leaf.width))
        };
        let (on_left, on_right) = self.leaves.split_at(between);
        let mut bars: Vec<Bar> = on_left.iter().zip(&left.bars).map(|(leaf, rest)| place(leaf, rest, -1.0)).collect();
        bars.extend(on_right.iter().zip(right.bars.iter().rev()).map(|(leaf, rest)| place(leaf, rest, 1.0)));
        let mut opening = Opening { between, tilt, base: ends, bars, leaf: 0, lift: 0.0, slope: 0.0 };
        for (leaf, top) in [(between.checked_sub(1), left.bars.last()), (Some(between), right.bars.last())] {
            let (Some(leaf), Some(top)) = (leaf, top) else { continue };
            let lift = (self.leaves[leaf].width * top.along.y).abs();
            if leaf + 1 == between || left.bars.is_empty() || lift > opening.lift + SAME {
                (opening.leaf, opening.lift, opening.slope) = (leaf, lift, top.along.y.atan2(top.along.x));
            }
        }
        opening
    }
}
