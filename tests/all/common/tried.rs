// SPDX-License-Identifier: MIT
//! An open album laid the slow way: no tangents, no case for each way of lying, only "does it pass through anything?",
//! asked of many positions. Each page in turn, from the table up, takes the lowest that it finds.

use hingeleaf::contour::{Point, Vec2};
use hingeleaf::fit::linkage::{CrossSection, Leaf};
use std::f64::consts::FRAC_PI_2;

/// Deeper than this, mm, is through.
pub(crate) const TOUCH: f64 = 1e-4;
/// How hard pages are drawn outward, as a share of their weight.
const PULL: f64 = 0.02;

/// The corners of a bar.
pub(crate) fn corners(from: Point, along: Vec2, width: f64, thickness: f64) -> [Point; 4] {
    let (far, up) = (from + along * width, Vec2::new(-along.y, along.x) * (thickness / 2.0));
    [from - up, far - up, far + up, from + up]
}

/// Whether two convex shapes share more than their edges: no line of either separates them.
pub(crate) fn through(one: &[Point], two: &[Point]) -> bool {
    let separated = |shape: &[Point], other: &[Point]| {
        (0..shape.len()).any(|index| {
            let way = shape[(index + 1) % shape.len()] - shape[index];
            if way.hypot() < 1e-12 {
                return false;
            }
            let normal = Vec2::new(-way.y, way.x) / way.hypot();
            let span = |points: &[Point]| {
                points
                    .iter()
                    .map(|point| point.to_vec2().dot(normal))
                    .fold((f64::MAX, f64::MIN), |(low, high), at| (low.min(at), high.max(at)))
            };
            let ((low, high), (other_low, other_high)) = (span(shape), span(other));
            high < other_low + TOUCH || other_high < low + TOUCH
        })
    };
    !separated(one, two) && !separated(two, one)
}

/// One side in its own frame, the base's end at x = 0 and outward to the right.
struct Tried {
    base: [Point; 2],
    /// What all roots stand on.
    block: Vec<Point>,
    depth: f64,
    bars: Vec<[Point; 4]>,
    energy: f64,
    slope: f64,
}

impl Tried {
    fn new(base: f64, depth: f64, rise: f64) -> Self {
        let end = Point::new(0.0, (-base * rise.sin()).max(0.0));
        let ends = [end, end + Vec2::new(-rise.cos(), rise.sin()) * base];
        let up = Vec2::new(rise.sin(), rise.cos()) * depth;
        let mut block = ends.to_vec();
        if depth > 0.0 {
            block.extend([ends[1] + up, ends[0] + up]);
        }
        Self { base: ends.map(|end| end + up), block, depth, bars: Vec::new(), energy: 0.0, slope: 0.0 }
    }

    fn free(&self, root: Point, from: Point, slope: f64, leaf: &Leaf) -> bool {
        let bar = corners(from, Vec2::new(slope.cos(), slope.sin()), leaf.width, leaf.thickness);
        let inward = self.base[1] - self.base[0];
        let below = (from - root).dot(Vec2::new(inward.y, -inward.x)) < -TOUCH * inward.hypot();
        // A gusset leaves the base upward, but for the one at its end, and passes through no page.
        let upward = !below || root.distance(self.base[0]) <= TOUCH;
        upward
            && bar.iter().all(|corner| corner.y > -TOUCH)
            && !through(&bar, &self.block)
            && !(self.depth > 0.0 && through(&[root, from], &self.block))
            && !self.bars.iter().any(|other| through(&bar, other) || through(&[root, from], other))
    }

    /// How far down a page swings from upright; none where it can't even stand.
    fn swing(&self, root: Point, from: Point, leaf: &Leaf, start: f64, step: f64) -> Option<f64> {
        let mut last = None;
        let mut slope = start;
        while slope >= -FRAC_PI_2 {
            match (self.free(root, from, slope, leaf), last) {
                (true, _) => last = Some(slope),
                (false, Some(_)) => break,
                (false, None) => {}
            }
            slope -= step;
        }
        let (mut high, mut low) = (last?, last? - step);
        for _ in 0..14 {
            let middle = f64::midpoint(high, low);
            if self.free(root, from, middle, leaf) { high = middle } else { low = middle }
        }
        Some(high)
    }

    fn lay(&mut self, leaf: &Leaf, from_end: f64) -> Option<()> {
        let inward = self.base[1] - self.base[0];
        let root = if from_end > 0.0 { self.base[0] + inward / inward.hypot() * from_end } else { self.base[0] };
        let spent = root.distance(self.base[0]);
        // A gusset may lie along the block and hang from its end.
        let hangs = self.depth > 0.0 && spent > TOUCH && spent <= leaf.gusset;
        let mut ways = vec![(root, leaf.gusset)];
        ways.extend(hangs.then_some((self.base[0], leaf.gusset - spent)));
        let mut best: Option<(f64, Point, Point, f64)> = None;
        for (root, gusset) in ways {
            let found = self.about(leaf, root, gusset);
            if let Some(found) = found.filter(|found| best.is_none_or(|best| found.0 < best.0)) {
                best = Some(found);
            }
        }
        let (_, _, from, slope) = best?;
        self.bars.push(corners(from, Vec2::new(slope.cos(), slope.sin()), leaf.width, leaf.thickness));
        self.energy += leaf.weight * (from.y + leaf.width / 2.0 * slope.sin());
        self.slope = slope;
        Some(())
    }

    /// The lowest that a page comes to lie on a gusset about a root: its cost, root, spine edge and slope.
    fn about(&self, leaf: &Leaf, root: Point, gusset: f64) -> Option<(f64, Point, Point, f64)> {
        let mut best: Option<(f64, f64, f64, f64)> = None;
        let mut about = (0.0, 180.0);
        for (count, spread) in [(72, 180.0), (20, 6.0), (20, 0.7)] {
            about.1 = spread;
            for number in 0..=count {
                let angle = (about.0 + spread * (2.0 * f64::from(number) / f64::from(count) - 1.0)).to_radians();
                for share in [1.0, 0.8, 0.6, 0.3] {
                    let from = root + Vec2::new(angle.cos(), angle.sin()) * (gusset * share);
                    let Some(slope) = self.swing(root, from, leaf, FRAC_PI_2, 0.06) else { continue };
                    let middle = from + Vec2::new(slope.cos(), slope.sin()) * (leaf.width / 2.0);
                    let cost = middle.y - PULL * middle.x;
                    if best.is_none_or(|best| cost < best.0) {
                        best = Some((cost, angle.to_degrees(), share, slope));
                    }
                }
            }
            about.0 = best?.1;
        }
        let (cost, angle, share, slope) = best?;
        let from = root + Vec2::new(angle.to_radians().cos(), angle.to_radians().sin()) * (gusset * share);
        Some((cost, root, from, slope))
    }
}

/// Both sides at one tilt: energy and the slopes of the two pages on top.
pub(crate) fn tried(section: &CrossSection, between: usize, tilt: f64) -> Option<(f64, [f64; 2])> {
    let depth = section.leaves.iter().map(|leaf| leaf.stands_back).fold(f64::INFINITY, f64::min);
    let mut sides = [tilt, -tilt].map(|tilt| Tried::new(section.base, depth, tilt));
    for leaf in &section.leaves[..between] {
        sides[0].lay(leaf, leaf.root)?;
    }
    for leaf in section.leaves[between..].iter().rev() {
        sides[1].lay(leaf, section.base - leaf.root)?;
    }
    Some((sides[0].energy + sides[1].energy, [sides[0].slope, sides[1].slope]))
}
