// SPDX-License-Identifier: MIT
//! One side of an open album: its pages laid one on another, from the table up.
//!
//! In: the base's slope, the leaves that lie on this side, the lowest first. Out: where each bar rests, the sum of
//! weight times height. Never: knows left from right; looks for a slope.
//!
//! The frame of a side: x runs outward from the base's own end on this side, y up from the table.
//!
//! ```text
//!                 n
//!       S ________|____________ F     a page's mid line, from its spine edge S to its fore-edge F
//!      / gusset   d ->
//!     R                               its root, on the base
//!      \ base
//!       E_______________________      the base's end on this side; the table
//! ```
//!
//! A page lies flush on what is under it if its gusset reaches. If its root stands too low, the page leans over a
//! corner and its fore-edge lifts: its line is then the common tangent of two circles, one of the gusset's length
//! about the root, one of half the page's thickness about the corner. If its root stands too high, the spine edge
//! hangs from it and the fore-edge rests below.

mod block;

use super::section::Leaf;
use crate::contour::{Point, Rect, Vec2};
use crate::length::tolerance::SAME;

/// Less than this is no distance, mm.
const TOUCHING: f64 = 1e-9;

/// A page whose way to its fore-edge has less than this share along the table stands.
const STANDS: f64 = 0.05;

/// By how much of half its thickness a sloping page's spine edge may press against the side of what it hangs beside.
const PRESS: f64 = 0.2;
/// What a bound is lower than arithmetic might make it, mm.
pub(super) const SLACK: f64 = 1e-3;

/// How many times a leaf's weight is set against each mm of it that is under the table.
const THROUGH: f64 = 100.0;

/// With its middle so many times its half thickness over the table a page's end is clear of it, whatever is lost in rounding.
const CLEAR: f64 = 1.001;

/// The mid line of a bar at rest.
#[derive(Clone, Copy)]
pub(super) struct Rest {
    /// The spine edge.
    pub(super) from: Point,
    /// Unit vector to the fore-edge; never points inward.
    pub(super) along: Vec2,
}

/// Square to a direction, upward from a line that runs outward.
fn normal(along: Vec2) -> Vec2 {
    Vec2::new(-along.y, along.x)
}

/// How far the farthest point of a box lies from a point, along a direction.
fn highest(of: Rect, from: Point, up: Vec2) -> f64 {
    let x = if up.x > 0.0 { of.x1 } else { of.x0 };
    let y = if up.y > 0.0 { of.y1 } else { of.y0 };
    (Point::new(x, y) - from).dot(up)
}

/// A direction turned downward by the angle of this sine.
fn lowered(along: Vec2, sine: f64) -> Vec2 {
    let sine = sine.clamp(-1.0, 1.0);
    let cosine = sine.mul_add(-sine, 1.0).max(0.0).sqrt();
    outward(Vec2::new(along.x.mul_add(cosine, along.y * sine), along.y.mul_add(cosine, -along.x * sine)))
}

/// A page that would fall over to the other side stands upright.
fn outward(along: Vec2) -> Vec2 {
    if along.x >= 0.0 { along } else { Vec2::new(0.0, along.y.signum()) }
}

/// The line of a page that passes its gusset's length above its root, and lies on a corner. A page for which there is
/// no room between the two stands upright.
fn tangent(root: Point, gusset: f64, half: f64, corner: Point) -> Vec2 {
    let way = corner - root;
    let length = way.hypot();
    if length < TOUCHING || half - gusset > length {
        return Vec2::new(0.0, 1.0);
    }
    lowered(way / length, (gusset - half) / length)
}

/// A page to be laid.
#[derive(Clone, Copy, Debug)]
struct Page {
    root: Point,
    gusset: f64,
    width: f64,
    half: f64,
}

/// Pages laid on one side.
pub(super) struct LaidSide {
    /// The base's end on the table's side.
    foot: Point,
    /// The upper corner over it: where all roots stand higher than the base, what lies beneath them is solid.
    end: Point,
    /// Unit vector along the base, inward.
    inward: Vec2,
    /// Whether the base falls inward: this is its high end.
    high: bool,
    /// Whether the roots stand on something that goes down to the base.
    solid: bool,
    /// A point of the line that the next page lies on, and the line's direction.
    surface: (Point, Vec2),
    /// The upper corners of the spine edges laid so far, each with the box of it and all below it.
    corners: Vec<(Point, Rect)>,
    /// Every bar laid so far.
    pub(super) bars: Vec<Rest>,
    /// The sum of weight times height of each bar's middle.
    pub(super) energy: f64,
}

impl LaidSide {
    pub(super) fn new(leaves: usize) -> Self {
        Self {
            foot: Point::ZERO,
            end: Point::ZERO,
            inward: Vec2::new(-1.0, 0.0),
            high: false,
            solid: false,
            surface: (Point::ZERO, Vec2::new(1.0, 0.0)),
            corners: Vec::with_capacity(leaves),
            bars: Vec::with_capacity(leaves),
            energy: 0.0,
        }
    }

    /// Clears the side for a base of this length and depth that rises inward by the angle of this sine and cosine, its
    /// lower end this high over the table.
    pub(super) fn clear(&mut self, (base, depth): (f64, f64), high: f64, (sine, cosine): (f64, f64)) {
        self.foot = Point::new(0.0, (-base * sine).max(0.0) + high);
        self.end = self.foot + Vec2::new(sine, cosine) * depth;
        self.inward = Vec2::new(-cosine, sine);
        self.high = sine < 0.0;
        self.solid = (self.end - self.foot).hypot() > TOUCHING;
        self.surface = (Point::ZERO, Vec2::new(1.0, 0.0));
        self.corners.clear();
        self.bars.clear();
        self.energy = 0.0;
    }

    /// Lays the next leaf; its root is `from_end` away from the base's end.
    pub(super) fn lay(&mut self, leaf: &Leaf, from_end: f64) {
        let up = Vec2::new(self.inward.y, -self.inward.x);
        let root = self.foot + self.inward * from_end + up * leaf.stands_back;
        let page = Page { root, gusset: leaf.gusset, width: leaf.width, half: leaf.thickness / 2.0 };
        let mut rest = self.settle(page);
        if self.solid {
            rest = self.over_the_block(page, rest);
        } else if self.high && from_end > TOUCHING && Self::is_in_the_way(self.end, page, rest) {
            rest = self.over(self.end, page);
        }
        let top = rest.from + normal(rest.along) * page.half;
        self.surface = (top, rest.along);
        let only = Rect::from_points(top, top);
        let below = self.corners.last().map_or(only, |(_, below)| below.union_pt(top));
        self.corners.push((top, below));
        self.bars.push(rest);
        self.energy += leaf.weight * (leaf.width / 2.0).mul_add(rest.along.y, rest.from.y);
        // What would go through the table is no posture to settle in. A page whose ends stand clear of it does not, and need not
        // be reckoned exactly.
        let ends = [rest.from.y, rest.along.y * leaf.width + rest.from.y];
        if ends.into_iter().any(|end| end < CLEAR * page.half + SLACK) {
            let ends = [rest.from.y, rest.along.y.mul_add(leaf.width, rest.from.y)];
            let deep = ends.map(|end| page.half.mul_add(rest.along.x, -end)).into_iter().fold(0.0, f64::max);
            self.energy += THROUGH * leaf.weight * deep;
        }
    }

    /// Whether what was laid last lies flat.
    pub(super) fn lies_flat(&self) -> bool {
        self.bars.last().is_none_or(|rest| rest.along.y.abs() < TOUCHING)
    }

    /// Where a page rests on what is laid so far, if the base's end is not in its way.
    #[inline]
    fn settle(&self, page: Page) -> Rest {
        let Page { root, gusset, width, half } = page;
        let (start, along) = self.surface;
        let up = normal(along);
        let start = start + up * half;
        let above = (root - start).dot(up);
        // The lowest leaf lies on the table; a gusset too short for that draws the base up a little.
        if above < -gusset - TOUCHING
            && let Some(&(corner, _)) = self.corners.last()
        {
            return self.clear_of_corners(page, tangent(root, gusset, half, corner));
        }
        let foot = (root - start).dot(along);
        let mut rest = if above <= gusset {
            let out = (gusset - above).max(0.0) * (gusset + above);
            Rest { from: start + along * (foot + out.max(0.0).sqrt()), along }
        } else {
            let from = root - up * gusset;
            Rest { from, along: lowered(along, share(above - gusset, width)) }
        };
        // Through the base there is no way: the gusset lies on it, and hangs from its end if it reaches so far.
        if !self.high && !self.solid && self.under_base(root, rest.from) {
            let spent = (self.end - root).hypot();
            if spent > gusset {
                let from = root - self.inward * gusset;
                rest = Rest { from, along: lowered(along, share((from - start).dot(up), width)) };
            } else if spent > TOUCHING {
                return self.hung(page, spent);
            }
        }
        self.on_the_table(page, self.over_lower_corners(page, rest))
    }

    /// The same with the page hung from the base's end, so much of its gusset spent on the way there.
    #[inline(never)]
    fn hung(&self, page: Page, spent: f64) -> Rest {
        self.settle(Page { root: self.end, gusset: page.gusset - spent, ..page })
    }

    fn under_base(&self, root: Point, from: Point) -> bool {
        (from - root).dot(Vec2::new(self.inward.y, -self.inward.x)) < -TOUCHING
    }

    /// A flush page that overhangs a page leaning under it may meet a corner further down.
    fn over_lower_corners(&self, page: Page, rest: Rest) -> Rest {
        if rest.along.y <= TOUCHING {
            return rest;
        }
        let up = normal(rest.along);
        let meets = |corner: &Point| {
            let way = *corner - rest.from;
            way.dot(rest.along) > TOUCHING && way.dot(up) > TOUCHING - page.half
        };
        // Where not even the box of all that is below comes so high, none of them does.
        let near = |below: &Rect| highest(*below, rest.from, up) > TOUCHING - page.half - SAME;
        let near = self.corners.iter().rev().skip(1).take_while(|(_, below)| near(below));
        match near.map(|(corner, _)| *corner).find(meets) {
            Some(corner) if (corner - page.root).hypot() > page.gusset => {
                self.clear_of_corners(page, tangent(page.root, page.gusset, page.half, corner))
            }
            _ => rest,
        }
    }

    /// A leaning page, raised until it clears every corner.
    fn clear_of_corners(&self, page: Page, along: Vec2) -> Rest {
        let Page { root, gusset, half, .. } = page;
        let mut along = along;
        for &(corner, below) in self.corners.iter().rev() {
            if highest(below, root, normal(along)) <= gusset - half - SAME {
                break;
            }
            let way = corner - root;
            if way.dot(normal(along)) > gusset - half + TOUCHING && way.dot(along) > 0.0 {
                along = tangent(root, gusset, half, corner);
            }
        }
        Rest { from: root + normal(along) * gusset, along }
    }

    /// A page that slopes down must not run into the table: it slides back, or its fore-edge rests there.
    fn on_the_table(&self, page: Page, rest: Rest) -> Rest {
        let Page { root, gusset, width, half } = page;
        let fore_edge = rest.along.y.mul_add(width, rest.from.y) - half * rest.along.x;
        if fore_edge >= -TOUCHING || rest.along.y >= -TOUCHING || self.bars.is_empty() {
            return rest;
        }
        let slid = rest.from + rest.along * (fore_edge / -rest.along.y);
        if (slid - root).hypot() <= gusset + TOUCHING {
            return Rest { from: slid, ..rest };
        }
        let along = lowered(Vec2::new(1.0, 0.0), share(rest.from.y - half, width));
        Rest { along, ..rest }
    }

    /// Whether a page or its gusset would pass through an end of the base.
    fn is_in_the_way(end: Point, page: Page, rest: Rest) -> bool {
        let way = end - rest.from;
        if way.dot(rest.along) > 0.0 {
            return way.dot(normal(rest.along)) > SAME - page.half;
        }
        (rest.from - page.root).cross(end - page.root) > TOUCHING
    }

    /// Where a page rests that has to go over an end of the base.
    fn over(&self, end: Point, page: Page) -> Rest {
        let Page { root, gusset, width, half } = page;
        let spent = (end - root).hypot();
        if spent <= gusset {
            // The gusset lies along the base up to its end and hangs from there.
            return self.settle(Page { root: end, gusset: gusset - spent, ..page });
        }
        let leaning = self.clear_of_corners(page, tangent(root, gusset, half, end));
        let (start, surface) = self.surface;
        // The fore-edge may come down on what lies there before the gusset is taut.
        if (leaning.from + leaning.along * width - start).dot(normal(surface)) >= half {
            return leaning;
        }
        self.lies_over(end, page, leaning).unwrap_or(leaning)
    }

    /// A page that lies over a corner, its fore-edge on what is there, pulled outward as far as its gusset lets it; none where
    /// it can't. It is looked for from a rest on.
    fn lies_over(&self, end: Point, page: Page, from: Rest) -> Option<Rest> {
        let Page { root, gusset, width, half } = page;
        let (start, surface) = self.surface;
        let up = normal(surface);
        let start = start + up * half;
        let mut rest = from;
        for _ in 0..4 {
            let touch = end + normal(rest.along) * half;
            let reach = (rest.from - touch).dot(rest.along) + width;
            let along = lowered(surface, share((touch - start).dot(up), reach));
            let touch = end + normal(along) * half;
            let way = root - touch;
            let aside = way.dot(normal(along));
            let out = ((gusset - aside).max(0.0) * (gusset + aside)).max(0.0).sqrt();
            let out = (way.dot(along) + out).min(0.0);
            rest = Rest { from: touch + along * out, along };
        }
        ((rest.from - root).hypot() <= gusset + SAME).then_some(rest)
    }

    /// Whether a page clears the spine edges laid so far, and the line on which it lies.
    fn clears(&self, page: Page, rest: Rest) -> bool {
        let meets = |corner: &Point| {
            let way = *corner - rest.from;
            way.dot(rest.along) > TOUCHING && way.dot(normal(rest.along)) > SAME - page.half
        };
        // Where not even the box of all that is below comes so high, none of them does.
        let near = |below: &Rect| highest(*below, rest.from, normal(rest.along)) > -page.half - SAME;
        let mut near = self.corners.iter().rev().take_while(|(_, below)| near(below));
        let (start, surface) = self.surface;
        let fore_edge = rest.from + rest.along * page.width - normal(rest.along) * page.half;
        (fore_edge - start).dot(normal(surface)) > -SAME && !near.any(|(corner, _)| meets(corner))
    }
}

/// A height over a length; upright where there is no length.
fn share(height: f64, length: f64) -> f64 {
    if length > TOUCHING { (height / length).clamp(-1.0, 1.0) } else { 0.0 }
}
