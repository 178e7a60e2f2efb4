// SPDX-License-Identifier: MIT
//! Where a straight stroke meets contours, and what of it lies outside holes.

use super::{Contour, Edge, Point, Rect, SAME};
use crate::length::tolerance::{PARALLEL, ROUNDING};

/// The pieces of the stroke `from`–`to` that lie outside all `holes`, in order.
///
/// A score is split where a window or a punched hole crosses it.
///
/// ```
/// # use hingeleaf::contour::{outside, Contour, Point};
/// let hole = Contour::circle(Point::new(50.0, 0.0), 5.0);
/// let pieces = outside(Point::new(0.0, 0.0), Point::new(100.0, 0.0), &[hole]);
/// assert_eq!(pieces.len(), 2);
/// assert!((pieces[0].1.x - 45.0).abs() < 1e-9 && (pieces[1].0.x - 55.0).abs() < 1e-9);
/// ```
#[must_use]
pub fn outside(from: Point, to: Point, holes: &[Contour]) -> Vec<(Point, Point)> {
    let length = from.distance(to);
    let mut shares = vec![0.0, 1.0];
    for edge in holes.iter().flat_map(Contour::edges) {
        shares.extend(meets(from, to, edge));
    }
    shares.sort_by(f64::total_cmp);
    let mut pieces: Vec<(f64, f64)> = Vec::new();
    for pair in shares.windows(2) {
        let (start, end) = (pair[0], pair[1]);
        if (end - start) * length < SAME
            || holes.iter().any(|hole| hole.contains(from.lerp(to, f64::midpoint(start, end))))
        {
            continue;
        }
        match pieces.last_mut() {
            // A stroke that only touches a hole goes on in one piece.
            Some(last) if (start - last.1) * length < SAME => last.1 = end,
            _ => pieces.push((start, end)),
        }
    }
    pieces.into_iter().map(|(start, end)| (at(from, to, start), at(from, to, end))).collect()
}

/// From which to which share of a line it lies within a box, its edges included; none where it keeps out (Liang and Barsky 1984).
///
/// ```
/// # use hingeleaf::contour::{Point, Rect, within};
/// let page = Rect::new(0.0, 0.0, 10.0, 10.0);
/// assert_eq!(within([Point::new(-10.0, 5.0), Point::new(10.0, 5.0)], page), Some([0.5, 1.0]));
/// assert_eq!(within([Point::new(-10.0, 5.0), Point::new(-5.0, 5.0)], page), None);
/// ```
#[must_use]
pub fn within([from, to]: [Point; 2], space: Rect) -> Option<[f64; 2]> {
    let (way, mut start, mut end) = (to - from, 0.0_f64, 1.0_f64);
    for (step, gap) in [
        (-way.x, from.x - space.x0),
        (way.x, space.x1 - from.x),
        (-way.y, from.y - space.y0),
        (way.y, space.y1 - from.y),
    ] {
        if step.abs() < ROUNDING {
            if gap < 0.0 {
                return None;
            }
        } else if step < 0.0 {
            start = start.max(gap / step);
        } else {
            end = end.min(gap / step);
        }
    }
    (start <= end).then_some([start, end])
}

/// The ends themselves where they are meant, so that no digit is lost.
fn at(from: Point, to: Point, share: f64) -> Point {
    if share <= 0.0 {
        from
    } else if share >= 1.0 {
        to
    } else {
        from.lerp(to, share)
    }
}

/// The shares of the stroke, from 0 to 1, at which it meets an edge.
fn meets(from: Point, to: Point, edge: Edge) -> Vec<f64> {
    let along = to - from;
    let mut found = Vec::new();
    if edge.is_line() {
        let side = edge.to - edge.from;
        let across = along.cross(side);
        if across.abs() > ROUNDING {
            let start = edge.from - from;
            let (share, other) = (start.cross(side) / across, start.cross(along) / across);
            if (-PARALLEL..=1.0 + PARALLEL).contains(&other) {
                found.push(share);
            }
        }
    } else {
        // |from + s along - centre|² = r², solved for s.
        let start = from - edge.centre();
        let (a, b, c) = (along.hypot2(), 2.0 * start.dot(along), start.hypot2() - edge.radius().powi(2));
        let under = b.mul_add(b, -4.0 * a * c);
        if under >= 0.0 && a > 0.0 {
            for root in [-under.sqrt(), under.sqrt()] {
                let share = (root - b) / (2.0 * a);
                if edge.spans(from.lerp(to, share)) {
                    found.push(share);
                }
            }
        }
    }
    found.retain(|share| (0.0..=1.0).contains(share));
    found
}
