// SPDX-License-Identifier: MIT
//! One curve as a drawing has it: a straight line, a piece of an ellipse, or a rational Bezier curve of any degree.

use crate::contour::{Point, Rect, Vec2};
use crate::length::tolerance::PARALLEL;
use kurbo::Affine;

/// Most points of a Bezier curve: splines of a higher degree are told, not read.
pub(super) const MOST_POINTS: usize = 12;

/// Into how many steps a curve is cut to find how far it reaches.
const STEPS: u32 = 16;

/// A little further on along a curve, as a share of its way.
const NEAR: f64 = 1e-5;

/// A curve, run through from 0 to 1.
#[derive(Clone, Debug)]
pub(super) enum Curve {
    /// A straight line.
    Line([Point; 2]),
    /// Part of an ellipse: `centre + across cos a + up sin a`, `a` from `start` on by `sweep`, radians.
    Round { centre: Point, across: Vec2, up: Vec2, start: f64, sweep: f64 },
    /// A rational Bezier curve: its points as (x w, y w, w), at least two.
    Bezier(Vec<[f64; 3]>),
}

impl Curve {
    /// A Bezier curve whose points weigh alike.
    pub(super) fn bezier(points: &[Point]) -> Self {
        Self::Bezier(points.iter().map(|point| [point.x, point.y, 1.0]).collect())
    }

    /// A circle or ellipse, whole, from its right end round.
    pub(super) const fn ellipse(centre: Point, across: f64, up: f64) -> Self {
        let (across, up) = (Vec2::new(across, 0.0), Vec2::new(0.0, up));
        Self::Round { centre, across, up, start: 0.0, sweep: std::f64::consts::TAU }
    }

    /// The arc from one point to another with a bulge, counter-clockwise where it is positive; a line where there is none.
    pub(super) fn bulged(from: Point, to: Point, bulge: f64) -> Self {
        if bulge.abs() < PARALLEL || from == to {
            return Self::Line([from, to]);
        }
        let edge = crate::contour::Edge { from, to, bulge };
        let (centre, radius) = (edge.centre(), edge.radius());
        let (across, up) = (Vec2::new(radius, 0.0), Vec2::new(0.0, radius));
        Self::Round { centre, across, up, start: (from - centre).atan2(), sweep: edge.angle() }
    }

    /// Where it is at a share of its way.
    pub(super) fn at(&self, share: f64) -> Point {
        match self {
            Self::Line([from, to]) => from.lerp(*to, share),
            Self::Round { centre, across, up, start, sweep } => {
                let (sine, cosine) = sweep.mul_add(share, *start).sin_cos();
                *centre + *across * cosine + *up * sine
            }
            Self::Bezier(points) => {
                let [one, two] = last_two(points, share);
                flat(mix(one, two, share))
            }
        }
    }

    /// Which way it runs there, one long; none where it stands still.
    pub(super) fn way(&self, share: f64) -> Option<Vec2> {
        let way = match self {
            Self::Line([from, to]) => *to - *from,
            Self::Round { across, up, start, sweep, .. } => {
                let (sine, cosine) = sweep.mul_add(share, *start).sin_cos();
                (*up * cosine - *across * sine) * sweep.signum()
            }
            Self::Bezier(points) => {
                let [one, two] = last_two(points, share);
                flat(two) - flat(one)
            }
        };
        // At a cusp, or where two points of a Bezier curve are one, it shows a little further on.
        let long = way.hypot();
        if long > PARALLEL {
            return Some(way / long);
        }
        let (before, after) = ((share - NEAR).max(0.0), (share + NEAR).min(1.0));
        let way = self.at(after) - self.at(before);
        (way.hypot() > 0.0).then(|| way / way.hypot())
    }

    /// The curve in another frame.
    pub(super) fn mapped(&self, map: Affine) -> Self {
        let vector = |vector: Vec2| (map * vector.to_point()) - (map * Point::ORIGIN);
        match self {
            Self::Line([from, to]) => Self::Line([map * *from, map * *to]),
            Self::Round { centre, across, up, start, sweep } => Self::Round {
                centre: map * *centre,
                across: vector(*across),
                up: vector(*up),
                start: *start,
                sweep: *sweep,
            },
            Self::Bezier(points) => {
                let [a, b, c, d, e, f] = map.as_coeffs();
                let one = |&[x, y, w]: &[f64; 3]| [a * x + c * y + e * w, b * x + d * y + f * w, w];
                Self::Bezier(points.iter().map(one).collect())
            }
        }
    }

    /// A box that it does not leave, seldom the smallest.
    pub(super) fn hull(&self) -> Rect {
        match self {
            Self::Line([from, to]) => Rect::from_points(*from, *to),
            Self::Round { centre, across, up, .. } => {
                let (x, y) = (across.x.hypot(up.x), across.y.hypot(up.y));
                Rect::from_points(*centre - Vec2::new(x, y), *centre + Vec2::new(x, y))
            }
            Self::Bezier(points) => {
                let spots = points.iter().map(|&point| flat(point));
                spots.map(|spot| Rect::from_points(spot, spot)).reduce(|all, one| all.union(one)).unwrap_or_default()
            }
        }
    }

    /// The smallest upright box around it.
    pub(super) fn bounds(&self) -> Rect {
        let mut bounds = Rect::from_points(self.at(0.0), self.at(1.0));
        if matches!(self, Self::Line(_)) {
            return bounds;
        }
        let steps = f64::from(STEPS);
        for (x, y) in [(1.0, 0.0), (-1.0, 0.0), (0.0, 1.0), (0.0, -1.0)] {
            let reach = |share: f64| self.at(share).to_vec2().dot(Vec2::new(x, y));
            let farthest =
                (0..=STEPS).map(f64::from).max_by(|&one, &two| reach(one / steps).total_cmp(&reach(two / steps)));
            // Its farthest point lies within a step of the farthest one seen: a third of what is left goes with each look.
            let farthest = farthest.unwrap_or(0.0);
            let (mut low, mut high) = (((farthest - 1.0) / steps).max(0.0), ((farthest + 1.0) / steps).min(1.0));
            for _ in 0..40 {
                let third = (high - low) / 3.0;
                if reach(low + third) < reach(high - third) {
                    low += third;
                } else {
                    high -= third;
                }
            }
            bounds = bounds.union_pt(self.at(f64::midpoint(low, high)));
        }
        bounds
    }

    /// Whether all its numbers are numbers, and none of them is out of all measure.
    pub(super) fn is_sound(&self) -> bool {
        let fine = |number: f64| number.is_finite() && number.abs() < 1e9;
        let all = |numbers: &[f64]| numbers.iter().copied().all(fine);
        match self {
            Self::Line([from, to]) => all(&[from.x, from.y, to.x, to.y]),
            Self::Round { centre, across, up, start, sweep } => {
                all(&[centre.x, centre.y, across.x, across.y, up.x, up.y, *start, *sweep])
            }
            Self::Bezier(points) => {
                (2..=MOST_POINTS).contains(&points.len())
                    && points.iter().all(|point| all(point) && point[2] > PARALLEL)
            }
        }
    }
}

/// The two points between which a Bezier curve runs at a share of its way (de Casteljau).
fn last_two(points: &[[f64; 3]], share: f64) -> [[f64; 3]; 2] {
    let mut kept = [[0.0; 3]; MOST_POINTS];
    let count = points.len().min(MOST_POINTS);
    kept[..count].copy_from_slice(&points[..count]);
    for left in (2..count).rev() {
        for index in 0..left {
            kept[index] = mix(kept[index], kept[index + 1], share);
        }
    }
    [kept[0], kept[1]]
}

fn mix(one: [f64; 3], two: [f64; 3], share: f64) -> [f64; 3] {
    std::array::from_fn(|index| (two[index] - one[index]).mul_add(share, one[index]))
}

fn flat([x, y, w]: [f64; 3]) -> Point {
    Point::new(x / w, y / w)
}
