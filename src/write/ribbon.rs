// SPDX-License-Identifier: MIT
//! Strokes as narrow filled shapes, for programs that see no strokes.
//!
//! A shape has two sides, each half a hairline off the stroke: edge by edge the middle between them is the stroke.

use super::frame::Frame;
use crate::contour::{Edge, Point, Vec2};
use crate::toolpath::StrokePath;

/// Bends smaller than this are none, radians: the sides of a hairline of 1 mm are off by a thousandth of it then.
const NO_BEND: f64 = 0.05;

/// Lines that turn by more than this have no common corner on their outer side, radians: it would stand far out.
const SHARP: f64 = 2.0;

/// The closed ways round the shapes of a stroke: two for what closes, its outside and its inside, one for all else.
pub(super) fn ribbons(run: &StrokePath, frame: Frame, hairline: f64) -> Vec<Vec<Edge>> {
    let half = hairline / 2.0;
    let open = |edges: Vec<Edge>| {
        let [mut round, mut back] = [half, -half].map(|off| side(&edges, off, false, frame));
        back = reversed(&back);
        if let (Some(from), Some(first), Some(last)) = (round.last(), round.first(), back.last()) {
            let caps = [(from.to, back[0].from), (last.to, first.from)].map(|(from, to)| Edge { from, to, bulge: 0.0 });
            round.push(caps[0]);
            round.extend(back);
            round.push(caps[1]);
        }
        round
    };
    let ways = match run {
        StrokePath::Straight(pieces) => {
            let lines = pieces.iter().map(|&(from, to)| Edge { from, to, bulge: 0.0 });
            lines.map(|line| open(frame.edges(std::iter::once(line)).collect())).collect()
        }
        StrokePath::Open(edges) => vec![open(frame.edges(edges.iter().copied()).collect())],
        StrokePath::Closed(contour) => {
            let edges: Vec<Edge> = frame.edges(contour.edges()).collect();
            vec![side(&edges, half, true, frame), reversed(&side(&edges, -half, true, frame))]
        }
    };
    ways.into_iter().filter(|way| !way.is_empty()).collect()
}

/// The other way along.
fn reversed(edges: &[Edge]) -> Vec<Edge> {
    edges.iter().rev().map(|edge| edge.reversed()).collect()
}

/// What runs beside some edges, so far to their left, mm.
fn side(edges: &[Edge], off: f64, closed: bool, frame: Frame) -> Vec<Edge> {
    let count = edges.len();
    if count == 0 {
        return Vec::new();
    }
    let mut out = Vec::with_capacity(2 * count);
    // Where what is before the first edge ends: its own start where nothing is.
    let corner = |index: usize| -> (Point, Point) {
        let before = if index > 0 || closed { edges.get((index + count - 1) % count) } else { None };
        let after = edges.get(index).or_else(|| edges.first().filter(|_| closed));
        match (before, after) {
            (Some(one), Some(other)) => turn(*one, *other, off),
            (Some(one), None) => (one.to + ends(*one).1 * off, one.to + ends(*one).1 * off),
            (None, Some(other)) => (other.from + ends(*other).0 * off, other.from + ends(*other).0 * off),
            (None, None) => (Point::ZERO, Point::ZERO),
        }
    };
    for (index, edge) in edges.iter().enumerate() {
        let (before, from) = corner(index);
        if index > 0 && before.distance(from) > 0.0 {
            out.push(Edge { from: before, to: from, bulge: 0.0 });
        }
        let to = corner(index + 1).0;
        let bulge = if frame.meet(from, to) { 0.0 } else { edge.bulge };
        out.push(Edge { from, to, bulge });
    }
    // Where what closes turns at its start.
    if closed
        && let (before, from) = corner(count)
        && before.distance(from) > 0.0
    {
        out.push(Edge { from: before, to: from, bulge: 0.0 });
    }
    out
}

/// Where one edge's side ends and the next one's begins, so far to the left of both.
fn turn(one: Edge, other: Edge, off: f64) -> (Point, Point) {
    let (arrives, leaves) = (ends(one).1, ends(other).0);
    let bend = one.bend_to(other).abs();
    let both_lines = one.is_line() && other.is_line();
    if bend < NO_BEND || (both_lines && bend < SHARP) {
        // The corner of two lines that run beside theirs.
        let both = arrives + leaves;
        let at = other.from + both * (2.0 * off / both.hypot2());
        return (at, at);
    }
    (other.from + arrives * off, other.from + leaves * off)
}

/// Which way is left where an edge begins and where it ends, each of length 1.
fn ends(edge: Edge) -> (Vec2, Vec2) {
    let chord = (edge.to - edge.from).normalize();
    let left = Vec2::new(-chord.y, chord.x);
    let turned = |angle: f64| {
        let (sin, cos) = angle.sin_cos();
        Vec2::new(left.x * cos - left.y * sin, left.x * sin + left.y * cos)
    };
    let half = edge.angle() / 2.0;
    (turned(-half), turned(half))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::contour::Contour;

    fn of(run: &StrokePath, hairline: f64) -> Vec<Vec<Edge>> {
        ribbons(run, Frame { scale: 1.0, decimals: 4, down_from: None }, hairline)
    }

    /// By hand: a line of 30 and 0.2 wide holds 6 mm²; a square of 10 has 10.2² - 9.8² = 8; a ring of radius 5 has 2 pi 5 0.2.
    #[test]
    fn shapes_are_as_long_as_the_stroke_and_as_wide_as_asked() {
        let area = |ways: &[Vec<Edge>]| -> f64 {
            let one =
                |way: &Vec<Edge>| Contour::new(way.iter().map(|edge| (edge.from.x, edge.from.y, edge.bulge))).area();
            ways.iter().map(one).sum::<f64>().abs()
        };
        let line = of(&StrokePath::Straight(vec![(Point::ZERO, Point::new(0.0, 30.0))]), 0.2);
        assert!((area(&line) - 6.0).abs() < 1e-9 && line.len() == 1 && line[0].len() == 4);
        let square = of(&StrokePath::Closed(Contour::rectangle(3.0, 4.0, 10.0, 10.0)), 0.2);
        assert!((area(&square) - 8.0).abs() < 1e-9 && square.len() == 2);
        let ring = of(&StrokePath::Closed(Contour::circle(Point::new(9.0, 9.0), 5.0)), 0.2);
        assert!((area(&ring) - std::f64::consts::TAU).abs() < 1e-6, "{}", area(&ring));
    }
}
