// SPDX-License-Identifier: MIT
//! The lines of a hatch, one by one, for what has no patterns or draws them slowly.

use crate::contour::{Contour, Point, Vec2, outside};
use crate::length::tolerance::READ;

/// How broad a line of a hatch is, mm.
pub(super) const HATCH_LINE: f64 = 0.25;

/// Lines over what is filled, as far as it goes: of a line in the fill every second stretch between its edges. They go as a
/// browser turns them, `turn` degrees clockwise from upright.
pub(super) fn hatch(contours: &[Contour], apart: f64, turn: f64) -> Vec<[Point; 2]> {
    let Some(bounds) = contours.iter().map(Contour::bounds).reduce(|all, one| all.union(one)) else {
        return Vec::new();
    };
    let step = apart.max(0.1);
    let (sin, cos) = turn.to_radians().sin_cos();
    // Along a line, and square to it.
    let (along, across) = (Vec2::new(sin, cos), Vec2::new(cos, -sin));
    let corners = [(bounds.x0, bounds.y0), (bounds.x1, bounds.y0), (bounds.x0, bounds.y1), (bounds.x1, bounds.y1)]
        .map(|(x, y)| Vec2::new(x, y));
    let ends = |way: Vec2| {
        corners
            .iter()
            .map(|corner| corner.dot(way))
            .fold((f64::MAX, f64::MIN), |(low, high), at| (low.min(at), high.max(at)))
    };
    let ((from, to), (first, last)) = (ends(along), ends(across));
    let mut lines = Vec::new();
    let mut at = (first / step).floor() * step;
    while at <= last {
        let end = |far: f64| (across * at + along * far).to_point();
        lines.extend(filled([end(from), end(to)], contours));
        at += step;
    }
    lines
}

/// What of a line lies in the fill: in an odd number of its contours.
fn filled([from, to]: [Point; 2], contours: &[Contour]) -> Vec<[Point; 2]> {
    let pieces = contours.iter().flat_map(|contour| outside(from, to, std::slice::from_ref(contour)));
    let mut ends: Vec<Point> = pieces.flat_map(|(start, end)| [start, end]).chain([from, to]).collect();
    ends.sort_by(|one, two| from.distance(*one).total_cmp(&from.distance(*two)));
    let in_fill = |pair: &&[Point]| {
        let middle = pair[0].midpoint(pair[1]);
        let around = contours.iter().filter(|contour| contour.contains(middle)).count();
        pair[0].distance(pair[1]) > READ && around % 2 == 1
    };
    ends.windows(2).filter(in_fill).map(|pair| [pair[0], pair[1]]).collect()
}
