// SPDX-License-Identifier: MIT
//! What of a drawing lies within a tile.

use crate::contour::{self, Contour, Edge, Point, Rect, Vec2};
use crate::length::tolerance::SAME;
use crate::picture::{Mark, words_box};

/// Arcs that a tile cuts through are drawn as lines that stand off by no more than this, mm: a tenth of a hair's breadth.
const FINE: f64 = 0.01;

/// The marks, or what of them lies within a box. Words that do not lie within it as a whole are left out.
pub(super) fn within(marks: Vec<Mark>, space: Rect) -> Vec<Mark> {
    marks.into_iter().flat_map(|mark| clipped(mark, space)).collect()
}

fn clipped(mark: Mark, space: Rect) -> Vec<Mark> {
    match mark {
        Mark::Line { points, pen } => {
            lines(&points, space).into_iter().map(|points| Mark::Line { points, pen }).collect()
        }
        Mark::Words { at, size, ref text, upwards } => {
            let room = words_box(at, size, text, upwards);
            if space.union(room) == space { vec![mark] } else { Vec::new() }
        }
        Mark::Shape { contours, fill, pen } => {
            let outlines: Vec<Vec<Point>> = contours.iter().map(flattened).collect();
            let mut found = Vec::new();
            if fill.is_some() {
                let contours = outlines.iter().map(|outline| area(outline, space)).filter(|outline| outline.len() > 2);
                let contours: Vec<Contour> =
                    contours.map(|outline| Contour::polygon(outline.iter().map(|point| (point.x, point.y)))).collect();
                if !contours.is_empty() {
                    found.push(Mark::Shape { contours, fill, pen: None });
                }
            }
            if let Some(pen) = pen {
                for mut outline in outlines {
                    outline.extend(outline.first().copied());
                    found.extend(lines(&outline, space).into_iter().map(|points| Mark::Line { points, pen }));
                }
            }
            found
        }
    }
}

/// The corners of an outline, its arcs taken apart.
fn flattened(contour: &Contour) -> Vec<Point> {
    contour.edges().flat_map(|edge| std::iter::once(edge.from).chain(between(edge))).collect()
}

/// Points on an arc between its ends, close enough that nothing between them stands off further than allowed: the sagitta of
/// an angle a is r (1 - cos a/2).
fn between(edge: Edge) -> Vec<Point> {
    if edge.is_line() {
        return Vec::new();
    }
    let (centre, angle) = (edge.centre(), edge.angle());
    let step = 2.0 * (1.0 - FINE / edge.radius().max(FINE)).acos();
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "an arc of a metre takes some hundreds")]
    let count = (angle.abs() / step).ceil().clamp(1.0, 4096.0) as u32;
    let spoke = edge.from - centre;
    let at = |index: u32| {
        let (sine, cosine) = (angle * f64::from(index) / f64::from(count)).sin_cos();
        centre + Vec2::new(spoke.x * cosine - spoke.y * sine, spoke.x * sine + spoke.y * cosine)
    };
    (1..count).map(at).collect()
}

/// The runs of a line that lie within a box.
fn lines(points: &[Point], space: Rect) -> Vec<Vec<Point>> {
    let mut runs: Vec<Vec<Point>> = Vec::new();
    for pair in points.windows(2) {
        let Some([from, to]) = segment([pair[0], pair[1]], space) else { continue };
        match runs.last_mut() {
            Some(run) if run.last().is_some_and(|last| last.distance(from) < SAME) => run.push(to),
            _ => runs.push(vec![from, to]),
        }
    }
    runs
}

/// The stretch of a line within a box; none where no more than a point of it is.
fn segment([from, to]: [Point; 2], space: Rect) -> Option<[Point; 2]> {
    let ends = contour::within([from, to], space)?.map(|share| from + (to - from) * share);
    (ends[0].distance(ends[1]) > SAME).then_some(ends)
}

/// What of an area lies within a box (Sutherland and Hodgman 1974): where it comes apart, the pieces hang together along the
/// box's edge.
fn area(outline: &[Point], space: Rect) -> Vec<Point> {
    let sides: [(Vec2, f64); 4] = [
        (Vec2::new(1.0, 0.0), space.x0),
        (Vec2::new(-1.0, 0.0), -space.x1),
        (Vec2::new(0.0, 1.0), space.y0),
        (Vec2::new(0.0, -1.0), -space.y1),
    ];
    let mut kept = outline.to_vec();
    for (inward, at) in sides {
        let deep = |point: Point| point.to_vec2().dot(inward) - at;
        let before = std::mem::take(&mut kept);
        for (index, &to) in before.iter().enumerate() {
            let from = before[(index + before.len() - 1) % before.len()];
            let (out, in_) = (deep(from), deep(to));
            if (out < 0.0) != (in_ < 0.0) {
                kept.push(from + (to - from) * (out / (out - in_)));
            }
            if in_ >= 0.0 {
                kept.push(to);
            }
        }
    }
    kept
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_lies_within_is_kept_and_nothing_else() {
        let space = Rect::new(0.0, 0.0, 10.0, 10.0);
        let zigzag = [Point::new(-5.0, 5.0), Point::new(5.0, 5.0), Point::new(5.0, 15.0), Point::new(8.0, 5.0)];
        let runs = lines(&zigzag, space);
        assert_eq!(runs.len(), 2);
        assert_eq!(runs[0], [Point::new(0.0, 5.0), Point::new(5.0, 5.0), Point::new(5.0, 10.0)]);
        assert!((runs[1][0] - Point::new(6.5, 10.0)).hypot() < 1e-9);
        // A disc of radius 5 about the box's corner: a quarter of it is inside.
        let disc = area(&flattened(&Contour::circle(Point::ZERO, 5.0)), space);
        let inside = Contour::polygon(disc.iter().map(|point| (point.x, point.y))).area();
        assert!((inside - 25.0 * std::f64::consts::FRAC_PI_4).abs() < 0.05, "{inside}");
        assert!(area(&flattened(&Contour::circle(Point::new(-20.0, 0.0), 5.0)), space).is_empty());
    }
}
