// SPDX-License-Identifier: MIT
//! The album laid open, as a plane linkage seen from its tail: a base, a gusset from each root, a page on each gusset.
//!
//! In: roots, gussets, widths, thicknesses. Out: how the leaves lie when the album is opened between two of them.
//! Never: knows an album file or a part; judges.
//!
//! Opened between two leaves, those before lie to the left and those behind to the right, the first and the last on
//! the table. The base tips until the leaves lie as low as they can: it rests where the sum of weight times height is
//! least; one that is loose is drawn up off the table as well, where that lets them lie lower. Leaves are stiff, gussets are strings, and whoever opens the album draws each leaf outward until its gusset
//! is taut; friction holds it there.
//!
//! Because a stiff leaf may stick out over the edge of the stack below it, it lies flat in an album as soon as its
//! gusset is as long as the stack is high. [`reach`] tells what it takes where it may not.
//!
//! Where both sides lean so much that the two leaves on top would meet over the middle, they pass through each other
//! here; the album is far too thick then, and its true lift is a little more.

mod gusset;
mod side;
mod tried;

use crate::contour::{Point, Vec2};
use side::{Rest, Side};
use std::f64::consts::FRAC_PI_2;
use tried::Tried;

/// Of an album with more leaves than this not all openings are laid, and the fewer the more leaves each has: one takes some
/// hundred postures of every leaf. Our choice.
const ALL_OPENINGS: usize = 64;

/// Steps in which the base's tilt is searched at first, each way from flat.
const COARSE: i32 = 30;

/// How often the best of these steps is halved.
const FINE: usize = 17;

/// Larger sizes are taken for this one, mm or times: no number gets out of hand.
const LARGEST: f64 = 1e6;

/// One leaf of the album: a page or a cover.
#[derive(Clone, Debug, PartialEq)]
pub struct Leaf {
    /// Where its gusset is rooted, mm from the left end of the base.
    pub root: f64,
    /// Longest distance from the root to its spine edge, mm.
    pub gusset: f64,
    /// From spine edge to fore-edge, mm.
    pub width: f64,
    /// How thick it lies in the stack, mm.
    pub thickness: f64,
    /// What it weighs, in any unit that is the same for all leaves.
    pub weight: f64,
    /// How much higher than the base its root stands, mm: strips glued one on another raise the inner roots.
    pub stands_back: f64,
    /// A cover keeps its joint whatever the pages' gussets are.
    pub cover: bool,
}

/// The album's cross-section.
#[derive(Clone, Debug, PartialEq)]
pub struct Section {
    /// Width of the base, mm.
    pub base: f64,
    /// The leaves from left to right.
    pub leaves: Vec<Leaf>,
    /// Whether the base tips as it likes; otherwise it is held flat on the table.
    pub free: bool,
    /// Whether a free base may also be drawn up off the table by its gussets, as one without a cover is.
    pub loose: bool,
}

/// A leaf as it lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bar {
    /// Middle of its spine edge.
    pub from: Point,
    /// Middle of its fore-edge.
    pub to: Point,
    /// Thickness, mm.
    pub thickness: f64,
    /// Where its gusset is rooted.
    pub root: Point,
    /// Length of its gusset, mm.
    pub gusset: f64,
    /// Whether it is a cover.
    pub cover: bool,
}

/// An album laid open.
#[derive(Clone, Debug, PartialEq)]
pub struct Opening {
    /// Leaves that lie to the left.
    pub between: usize,
    /// Tilt of the base, radians; positive where its right end is up.
    pub tilt: f64,
    /// Both ends of the base, the left one first.
    pub base: [Point; 2],
    /// Every leaf, in the section's order; the table is at y = 0.
    pub bars: Vec<Bar>,
    /// The leaf of the two on top whose fore-edge differs more in height from its spine edge.
    pub leaf: usize,
    /// That difference, mm.
    pub lift: f64,
    /// The slope of that leaf, radians; positive where its fore-edge is the higher.
    pub slope: f64,
}

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

/// The two sides of an album, used again for every tilt.
struct Sides([Side; 2]);

impl Section {
    /// The album opened so that `between` leaves lie to the left; at most all of them.
    #[must_use]
    pub fn opened(&self, between: usize) -> Opening {
        let section = self.tamed();
        let mut sides = section.sides();
        let tried = Tried::new(&section, &mut sides);
        section.at_rest(between.min(section.leaves.len()), &tried, &mut sides)
    }

    /// The opening whose top leaf lies least flat, with the number of leaves to its left; none if there are not two
    /// leaves.
    #[must_use]
    pub fn worst(&self) -> Option<(usize, Opening)> {
        let section = self.tamed();
        let mut sides = section.sides();
        let tried = Tried::new(&section, &mut sides);
        let mut worst: Option<Opening> = None;
        let mut look = |between: usize| {
            let opening = section.at_rest(between, &tried, &mut sides);
            if worst.as_ref().is_none_or(|worst| opening.lift > worst.lift + 1e-6) {
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

    /// The pages standing on the flat base, side by side where they are too thick for their roots.
    ///
    /// Where they are, they stand as near to their roots as they can (least squares). A page never stands further
    /// aside than its gusset lets it; then it leans, its fore-edge where it has room.
    #[must_use]
    pub fn closed(&self) -> Vec<Bar> {
        let section = self.tamed();
        let places = section.side_by_side();
        let bar = |(leaf, place): (&Leaf, f64)| {
            let aside = (place - leaf.root).clamp(-leaf.gusset, leaf.gusset);
            let rise = ((leaf.gusset - aside) * (leaf.gusset + aside)).max(0.0).sqrt();
            let from = Point::new(leaf.root + aside, leaf.stands_back + rise);
            let lean = (place - from.x).clamp(-leaf.width, leaf.width);
            let tall = ((leaf.width - lean) * (leaf.width + lean)).max(0.0).sqrt();
            let root = Point::new(leaf.root, leaf.stands_back);
            leaf.bar(root, from, Point::new(from.x + lean, from.y + tall))
        };
        section.leaves.iter().zip(places).map(bar).collect()
    }

    /// The same album with one score where each page has its gusset: it turns right at its root.
    #[must_use]
    pub fn one_score(&self) -> Self {
        self.with_gussets(0.0)
    }

    /// The same album with all pages' gussets this long, mm.
    #[must_use]
    pub fn with_gussets(&self, gusset: f64) -> Self {
        let leaf = |leaf: &Leaf| Leaf { gusset: if leaf.cover { leaf.gusset } else { gusset }, ..leaf.clone() };
        Self { leaves: self.leaves.iter().map(leaf).collect(), ..*self }
    }

    /// The same with every number finite and of a size that can be reckoned with.
    fn tamed(&self) -> Self {
        let size = |number: f64| if number.is_finite() { number.clamp(0.0, LARGEST) } else { 0.0 };
        let base = size(self.base);
        let leaf = |leaf: &Leaf| Leaf {
            root: size(leaf.root).min(base),
            gusset: size(leaf.gusset),
            width: size(leaf.width),
            thickness: size(leaf.thickness),
            weight: size(leaf.weight),
            stands_back: size(leaf.stands_back),
            cover: leaf.cover,
        };
        Self { base, leaves: self.leaves.iter().map(leaf).collect(), ..*self }
    }

    /// How deep the solid is that all roots stand on, as on guards and stubs that are stuck face to face, mm.
    fn depth(&self) -> f64 {
        let least = self.leaves.iter().map(|leaf| leaf.stands_back).fold(f64::INFINITY, f64::min);
        if least.is_finite() { least } else { 0.0 }
    }

    /// The openings that are looked at: all of them, and of very many so many, as far apart as each other.
    fn looked_at(&self) -> impl Iterator<Item = usize> + use<> {
        (1..self.leaves.len()).step_by(self.step())
    }

    fn step(&self) -> usize {
        self.leaves.len().pow(2).div_ceil(ALL_OPENINGS.pow(2)).max(1)
    }

    /// How thick all leaves are together: a base is drawn up no higher.
    fn highest(&self) -> f64 {
        self.leaves.iter().map(|leaf| leaf.thickness).sum()
    }

    fn sides(&self) -> Sides {
        Sides([Side::new(self.leaves.len()), Side::new(self.leaves.len())])
    }

    /// Lays all leaves with the base at this tilt, its lower end this high. Gives up as soon as the energy is over `most`;
    /// then it is endless.
    fn lay(&self, between: usize, (tilt, high): (f64, f64), most: f64, Sides([left, right]): &mut Sides) -> f64 {
        let (sine, cosine) = tilt.sin_cos();
        let (on_left, on_right) = self.leaves.split_at(between);
        left.clear((self.base, self.depth()), high, (sine, cosine));
        right.clear((self.base, self.depth()), high, (-sine, cosine));
        for leaf in on_left {
            left.lay(leaf, leaf.root);
            if left.energy > most {
                return f64::INFINITY;
            }
        }
        for leaf in on_right.iter().rev() {
            right.lay(leaf, self.base - leaf.root);
            if left.energy + right.energy > most {
                return f64::INFINITY;
            }
        }
        left.energy + right.energy
    }

    /// The tilt and the height of the base at which the leaves lie lowest; the ones nearest to flat on the table where
    /// several do.
    fn posture(&self, between: usize, tried: &Tried, sides: &mut Sides) -> (f64, f64) {
        let flat = tried.level.energy(between, f64::INFINITY);
        // Lower than flat on the table they can't lie.
        if !self.free || self.base <= 0.0 || tried.level.flat(between) {
            return (0.0, 0.0);
        }
        // What is lost in rounding is no difference.
        let slack = flat.abs().max(1.0) * 1e-9;
        let mut found = Found { at: 0.0, least: flat, slack };
        let step = FRAC_PI_2 / f64::from(COARSE);
        for (tilt, both) in &tried.tilted {
            found.weigh(*tilt, both.energy(between, found.least - slack));
        }
        found.refine(step, (-FRAC_PI_2, FRAC_PI_2), &mut |tilt, most| self.lay(between, (tilt, 0.0), most, sides));
        let mut best = (found.at, 0.0, found.least);
        let highest = self.highest();
        if tried.raised.is_empty() {
            return (best.0, best.1);
        }
        let step_up = highest / f64::from(COARSE);
        // A level base can lie so that the top pages' gussets just reach, in a window too narrow to be met by chance.
        let (left, right) = self.leaves.split_at(between);
        let just = [left.iter().collect::<Vec<_>>(), right.iter().rev().collect()].map(|side| {
            let all: f64 = side.iter().map(|leaf| leaf.thickness).sum();
            side.last().map_or(0.0, |top| all - top.thickness / 2.0 - top.gusset - top.stands_back).clamp(0.0, highest)
        });
        // Drawn up level, and drawn up as it is tipped; then tipped anew.
        let level = best.0 == 0.0;
        for tilt in [0.0, best.0].into_iter().take(if level { 1 } else { 2 }) {
            let mut raised = Found { at: 0.0, least: if tilt == 0.0 { flat } else { best.2 }, slack };
            for (high, both) in &tried.raised {
                let most = raised.least - slack;
                let energy = if tilt == 0.0 {
                    both.energy(between, most)
                } else {
                    self.lay(between, (tilt, *high), most, sides)
                };
                raised.weigh(*high, energy);
            }
            raised.search(just.into_iter(), step_up, (0.0, highest), &mut |high, most| {
                self.lay(between, (tilt, high), most, sides)
            });
            if raised.least < best.2 - slack {
                best = (tilt, raised.at, raised.least);
            }
        }
        if best.1 > 0.0 {
            let mut tipped = Found { at: best.0, least: best.2, slack };
            let height = best.1;
            tipped.search(
                tried.tilted.iter().map(|(tilt, _)| *tilt),
                step,
                (-FRAC_PI_2, FRAC_PI_2),
                &mut |tilt, most| self.lay(between, (tilt, height), most, sides),
            );
            best = (tipped.at, height, tipped.least);
        }
        (best.0, best.1)
    }

    /// The album at rest, opened with `between` leaves on the left.
    fn at_rest(&self, between: usize, tried: &Tried, sides: &mut Sides) -> Opening {
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
            if leaf + 1 == between || left.bars.is_empty() || lift > opening.lift + 1e-9 {
                (opening.leaf, opening.lift, opening.slope) = (leaf, lift, top.along.y.atan2(top.along.x));
            }
        }
        opening
    }

    /// Where the leaves' middles stand when each needs its thickness: as near to their roots as can be, by pooling
    /// neighbours that are too close (Ayer and others, *Annals of Mathematical Statistics* 26, 1955).
    fn side_by_side(&self) -> Vec<f64> {
        // Less the room that the leaves before it take, places only have to rise.
        let mut room = 0.0;
        let mut rooms = Vec::with_capacity(self.leaves.len());
        let mut pools: Vec<(f64, u32)> = Vec::with_capacity(self.leaves.len());
        for (index, leaf) in self.leaves.iter().enumerate() {
            if let Some(before) = index.checked_sub(1) {
                room += f64::midpoint(self.leaves[before].thickness, leaf.thickness);
            }
            rooms.push(room);
            let mut pool = (leaf.root - room, 1);
            while let Some(&(sum, count)) = pools.last()
                && sum / f64::from(count) > pool.0 / f64::from(pool.1)
            {
                pool = (pool.0 + sum, pool.1 + count);
                pools.pop();
            }
            pools.push(pool);
        }
        let means = pools.iter().flat_map(|&(sum, count)| (0..count).map(move |_| sum / f64::from(count)));
        means.zip(rooms).map(|(mean, room)| mean + room).collect()
    }
}

/// The best of what was tried along one way in which the base can move.
struct Found {
    at: f64,
    least: f64,
    slack: f64,
}

impl Found {
    /// Tries these places, and then ever finer around the best of them; `energy` may give up above what it is told.
    fn search(
        &mut self,
        places: impl Iterator<Item = f64>,
        step: f64,
        (lowest, highest): (f64, f64),
        energy: &mut dyn FnMut(f64, f64) -> f64,
    ) {
        for place in places {
            self.weigh(place, energy(place, self.least - self.slack));
        }
        self.refine(step, (lowest, highest), energy);
    }

    /// Tries ever finer around the best so far.
    fn refine(&mut self, step: f64, (lowest, highest): (f64, f64), energy: &mut dyn FnMut(f64, f64) -> f64) {
        // Half as far to either side again and again: from the mirror image this finds the mirror image.
        let mut step = step;
        for _ in 0..FINE {
            step /= 2.0;
            let sides = [self.at - step, self.at + step].map(|place| place.clamp(lowest, highest));
            let energies = sides.map(|place| energy(place, f64::INFINITY));
            // Of two places that are as good, the one nearer to none.
            let tie = (energies[0] - energies[1]).abs() <= self.slack;
            let first = if tie { sides[0].abs() < sides[1].abs() } else { energies[0] < energies[1] };
            let better = usize::from(!first);
            self.weigh(sides[better], energies[better]);
        }
    }

    fn weigh(&mut self, place: f64, energy: f64) {
        if energy < self.least - self.slack {
            (self.at, self.least) = (place, energy);
        }
    }
}

impl Leaf {
    const fn bar(&self, root: Point, from: Point, to: Point) -> Bar {
        Bar { from, to, thickness: self.thickness, root, gusset: self.gusset, cover: self.cover }
    }
}
