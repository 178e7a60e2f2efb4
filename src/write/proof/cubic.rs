// SPDX-License-Identifier: MIT
//! Cubic curves that stand for arcs and lines, made arcs and lines again.

use super::{Bow, Rounding, near};
use crate::contour::{Point, Vec2};

/// The arc or the line that a cubic stands for; none where it is neither.
pub(super) fn cubic(ends: [Point; 4], rounding: Rounding) -> Option<Bow> {
    let at = |t: f64| {
        let weights = [(1.0 - t).powi(3), 3.0 * t * (1.0 - t).powi(2), 3.0 * t * t * (1.0 - t), t.powi(3)];
        let sum = ends.iter().zip(weights).map(|(end, weight)| end.to_vec2() * weight);
        sum.fold(Vec2::ZERO, |all, one| all + one)
    };
    let [from, _, _, to] = ends;
    let chord = to - from;
    let long = chord.hypot();
    if long <= 0.0 {
        return None;
    }
    // To the right of its way, as the rise of a bow is.
    let off = |t: f64| chord.cross(from.to_vec2() - at(t)) / long;
    let rise = off(0.5);
    let steps = 4.0 * rounding.step;
    if rise.abs() <= steps {
        // As flat as this, it lies on its chord all the way.
        return [0.25, 0.75].iter().all(|t| near(off(*t), 0.0, 2.0 * steps)).then_some(Bow { from, to, rise });
    }
    let radius = (long * long / 4.0 + rise * rise) / (2.0 * rise.abs());
    let centre = from.midpoint(to) + Vec2::new(-chord.y, chord.x) / long * ((radius - rise.abs()) * rise.signum());
    // A rise that is a step off is, in a long flat arc, a radius that is far off; its points are not.
    let slack = steps + radius.min(long) * CUBIC;
    let on = |t: f64| near((at(t) - centre.to_vec2()).hypot(), radius, slack);
    (on(0.25) && on(0.75)).then_some(Bow { from, to, rise })
}

/// How far a cubic for an eighth of a circle stands off it, of its radius: less than this.
const CUBIC: f64 = 1e-5;
