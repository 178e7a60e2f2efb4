// SPDX-License-Identifier: MIT
//! One edge: a straight line or a circular arc.

use super::{Point, QUARTER, Rect, SAME, Vec2, Vertex};
use crate::length::tolerance::{PARALLEL, ROUNDING};
use lyon_geom::{Angle, Arc};

/// An edge from one point to the next.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Edge {
    /// Where it starts.
    pub from: Point,
    /// Where it ends.
    pub to: Point,
    /// Tangent of a quarter of its angle, positive counter-clockwise, 0 for a straight line.
    pub bulge: f64,
}

impl Edge {
    /// Whether it is straight.
    #[must_use]
    pub fn is_line(self) -> bool {
        self.bulge.abs() < PARALLEL
    }

    /// The same edge the other way.
    #[must_use]
    pub const fn reversed(self) -> Self {
        Self { from: self.to, to: self.from, bulge: -self.bulge }
    }

    /// The arc's angle in radians, positive counter-clockwise; 0 for a line.
    #[must_use]
    pub fn angle(self) -> f64 {
        4.0 * self.bulge.atan()
    }

    /// By how much the way turns from the end of this edge into the next, radians from -pi to pi, positive to the left.
    #[must_use]
    pub(crate) fn bend_to(self, next: Self) -> f64 {
        let out = (next.to - next.from).atan2() - next.angle() / 2.0;
        let arrived = (self.to - self.from).atan2() + self.angle() / 2.0;
        (out - arrived + std::f64::consts::PI).rem_euclid(std::f64::consts::TAU) - std::f64::consts::PI
    }

    /// The arc's radius in mm: chord (1 + b²) / (4 |b|); infinite for a line.
    ///
    /// ```
    /// # use hingeleaf::contour::{Edge, Point};
    /// let quarter = Edge { from: Point::new(10.0, 0.0), to: Point::new(0.0, 10.0), bulge: 0.414_213_562_373 };
    /// assert!((quarter.radius() - 10.0).abs() < 1e-9);
    /// ```
    #[must_use]
    pub fn radius(self) -> f64 {
        if self.is_line() {
            return f64::INFINITY;
        }
        self.from.distance(self.to) * self.bulge.mul_add(self.bulge, 1.0) / (4.0 * self.bulge.abs())
    }

    /// The handles of a cubic curve for it: 4/3 tan(a/4) of the radius along the tangents of an arc of no more than a quarter turn. A
    /// quarter of radius r stands off by 0.0003 r (Goldapp, *Computer Aided Geometric Design* 8, 1991).
    #[must_use]
    pub fn handles(self) -> [Point; 2] {
        let centre = self.centre();
        let long = 4.0 / 3.0 * self.bulge;
        let left = |way: Vec2| Vec2::new(-way.y, way.x);
        [self.from + left(self.from - centre) * long, self.to - left(self.to - centre) * long]
    }

    /// The arc's centre; the middle of a line.
    #[must_use]
    pub fn centre(self) -> Point {
        let middle = self.from.midpoint(self.to);
        if self.is_line() {
            return middle;
        }
        // From the chord's middle, square to the chord, by radius - sagitta (signed): c (1 - b²) / (4 b).
        let chord = self.to - self.from;
        middle + Vec2::new(-chord.y, chord.x) * ((1.0 - self.bulge * self.bulge) / (4.0 * self.bulge))
    }

    /// Length in mm.
    #[must_use]
    pub fn length(self) -> f64 {
        if self.is_line() { self.from.distance(self.to) } else { self.radius() * self.angle().abs() }
    }

    /// Signed area between chord and arc, mm².
    #[must_use]
    pub(crate) fn segment_area(self) -> f64 {
        if self.is_line() {
            return 0.0;
        }
        let angle = self.angle();
        self.radius().powi(2) * (angle - angle.sin()) / 2.0
    }

    /// The smallest upright box around it.
    #[must_use]
    pub fn bounds(self) -> Rect {
        let chord = Rect::from_points(self.from, self.to);
        if self.is_line() {
            return chord;
        }
        let round = self.arc().bounding_box();
        let round = Rect::new(round.min.x, round.min.y, round.max.x, round.max.y);
        // The end points are exact, the arc's extremes are computed: noise must not widen the box.
        let pick = |exact: f64, computed: f64| if (exact - computed).abs() < PARALLEL { exact } else { computed };
        Rect::new(
            pick(chord.x0, round.x0),
            pick(chord.y0, round.y0),
            pick(chord.x1, round.x1),
            pick(chord.y1, round.y1),
        )
        .union(chord)
    }

    /// The least distance from a point, mm.
    #[must_use]
    pub fn distance(self, point: Point) -> f64 {
        let ends = self.from.distance(point).min(self.to.distance(point));
        if self.is_line() {
            let along = self.to - self.from;
            let share = (point - self.from).dot(along) / along.hypot2();
            return if (0.0..=1.0).contains(&share) { (self.from + along * share).distance(point) } else { ends };
        }
        if self.spans(point) { (self.centre().distance(point) - self.radius()).abs() } else { ends }
    }

    /// Whether the ray from the arc's centre through a point meets the arc.
    pub(super) fn spans(self, point: Point) -> bool {
        let centre = self.centre();
        let start = (self.from - centre).atan2();
        let full = std::f64::consts::TAU;
        let swept = ((point - centre).atan2() - start) * self.bulge.signum();
        swept.rem_euclid(full) <= self.angle().abs() + ROUNDING || full - swept.rem_euclid(full) < ROUNDING
    }

    /// The arc for the library that flattens and boxes arcs.
    #[must_use]
    pub fn arc(self) -> Arc<f64> {
        let centre = self.centre();
        Arc {
            center: lyon_geom::point(centre.x, centre.y),
            radii: lyon_geom::vector(self.radius(), self.radius()),
            start_angle: Angle::radians((self.from - centre).atan2()),
            sweep_angle: Angle::radians(self.angle()),
            x_rotation: Angle::zero(),
        }
    }

    /// Adds this edge in pieces of at most 90 degrees.
    pub(super) fn split_to_quarters(self, into: &mut Vec<Vertex>) {
        if self.from.distance(self.to) < SAME {
            return;
        }
        if self.is_line() {
            into.push(Vertex { at: self.from, bulge: 0.0 });
            return;
        }
        if self.bulge.abs() <= QUARTER + ROUNDING {
            into.push(Vertex { at: self.from, bulge: self.bulge });
            return;
        }
        // The middle of the arc stands square on the chord's middle, bulge x chord / 2 away, to the right
        // of a counter-clockwise arc.
        let chord = self.to - self.from;
        let middle = self.from.midpoint(self.to) + Vec2::new(chord.y, -chord.x) * (self.bulge / 2.0);
        let half = (self.bulge.atan() / 2.0).tan();
        Self { from: self.from, to: middle, bulge: half }.split_to_quarters(into);
        Self { from: middle, to: self.to, bulge: half }.split_to_quarters(into);
    }
}
