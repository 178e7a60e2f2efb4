// SPDX-License-Identifier: MIT
//! From a curve to lines and circular arcs that keep to it.
//!
//! Lines and arcs of circles stay what they are. Everything else becomes pairs of arcs that leave and reach the curve in its
//! own direction and meet in one (biarcs; Bolton, *Biarc curves*, Computer-Aided Design 7, 1975); a pair that strays is tried
//! again on either half of its way.

use super::curve::Curve;
use crate::contour::{Edge, Point, SAME, Vec2};
use crate::length::tolerance::PARALLEL;
use std::f64::consts::FRAC_PI_2;

/// How far arcs may stray from their curve, mm: half of the hundredth that is promised, the rest for ends that are joined.
const STRAYS: f64 = 0.004;

/// A curve that strays less from its chord is straight, mm.
const STRAIGHT: f64 = 1e-4;

/// How often a curve is halved at most.
const DEEPEST: u32 = 24;

/// At how many places between its ends a piece is held against its arcs.
const LOOKS: u32 = 14;

/// The two half axes of a circle differ by no more than this share: a transform written with six decimals does that.
const ROUND: f64 = 1e-6;

/// By how much a piece turns at most, radians: more than a quarter may be a loop.
const TURNS: f64 = 1.8;

/// Adds the edges of a curve.
pub(super) fn edges(curve: &Curve, into: &mut Vec<Edge>) {
    match curve {
        Curve::Line([from, to]) => put(Edge { from: *from, to: *to, bulge: 0.0 }, into),
        Curve::Round { centre, across, up, start, sweep } => {
            let (wide, tall) = (across.hypot(), up.hypot());
            let quarters = (sweep.abs() / FRAC_PI_2 - PARALLEL).ceil().clamp(1.0, 64.0);
            let round = (wide - tall).abs() <= ROUND * wide && across.dot(*up).abs() <= ROUND * wide * tall;
            #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "whole, from 1 to 64")]
            let count = quarters as u32;
            let share = |number: u32| f64::from(number) / f64::from(count);
            let at = |number: u32| curve.at(share(number));
            if round {
                let _ = (centre, start);
                let bulge = (sweep / quarters / 4.0).tan() * across.cross(*up).signum();
                for number in 0..count {
                    put(Edge { from: at(number), to: at(number + 1), bulge }, into);
                }
            } else {
                for number in 0..count {
                    pieces(curve, share(number), share(number + 1), into);
                }
            }
        }
        Curve::Bezier(_) => pieces(curve, 0.0, 1.0, into),
    }
}

fn put(edge: Edge, into: &mut Vec<Edge>) {
    if edge.from.distance(edge.to) > SAME {
        into.push(edge);
    }
}

/// Adds arcs for the part of a curve from one share of its way to another.
fn pieces(curve: &Curve, from: f64, to: f64, into: &mut Vec<Edge>) {
    let mut open = vec![(from, to, 0)];
    while let Some((from, to, depth)) = open.pop() {
        match piece(curve, from, to) {
            Some(found) => found.into_iter().for_each(|edge| put(edge, into)),
            None if depth >= DEEPEST => put(Edge { from: curve.at(from), to: curve.at(to), bulge: 0.0 }, into),
            None => {
                let middle = f64::midpoint(from, to);
                open.push((middle, to, depth + 1));
                open.push((from, middle, depth + 1));
            }
        }
    }
}

/// Two arcs or a line that keep to a part of a curve, if there are any.
fn piece(curve: &Curve, from: f64, to: f64) -> Option<Vec<Edge>> {
    let share = |look: u32| (to - from).mul_add(f64::from(look) / f64::from(LOOKS + 1), from);
    let seen: Vec<Point> = (0..=LOOKS + 1).map(|look| curve.at(share(look))).collect();
    let (first, last) = (seen[0], seen[seen.len() - 1]);
    let chord = Edge { from: first, to: last, bulge: 0.0 };
    let strays = |edges: &[Edge], most: f64| {
        seen[1..seen.len() - 1]
            .iter()
            .any(|&point| edges.iter().map(|edge| edge.distance(point)).fold(f64::INFINITY, f64::min) > most)
    };
    if first.distance(last) <= SAME {
        let small = seen.iter().all(|point| point.distance(first) <= STRAIGHT);
        return small.then(Vec::new);
    }
    // There and back on one line is no straight line.
    let forward = seen.windows(2).all(|pair| (pair[1] - pair[0]).dot(last - first) >= 0.0);
    if forward && !strays(&[chord], STRAIGHT) {
        return Some(vec![chord]);
    }
    let ways: Vec<Vec2> = (0..=LOOKS + 1).map(|look| curve.way(share(look))).collect::<Option<_>>()?;
    let turned: f64 = ways.windows(2).map(|pair| pair[0].cross(pair[1]).atan2(pair[0].dot(pair[1])).abs()).sum();
    if turned > TURNS {
        return None;
    }
    let pair = biarc((first, ways[0]), (last, ways[ways.len() - 1]))?;
    (!strays(&pair, STRAYS)).then(|| pair.to_vec())
}

/// Two arcs from a point on, the way it says, to another point and its way.
fn biarc((from, out): (Point, Vec2), (to, into): (Point, Vec2)) -> Option<[Edge; 2]> {
    let between = to - from;
    // Both arcs leave their end equally far along its way before they turn: |between - d (out + into)| = 2 d.
    let (along, apart) = (between.dot(out + into), 2.0 * (1.0 - out.dot(into)));
    let reach = if apart > PARALLEL {
        (along.mul_add(along, apart * between.hypot2()).sqrt() - along) / apart
    } else {
        between.hypot2() / (2.0 * along)
    };
    if !reach.is_finite() || reach <= 0.0 {
        return None;
    }
    let middle = from.midpoint(to) + (out - into) * (reach / 2.0);
    let bulge = |way: Vec2, chord: Vec2| (way.cross(chord).atan2(way.dot(chord)) / 2.0).tan();
    let first = Edge { from, to: middle, bulge: bulge(out, middle - from) };
    let second = Edge { from: middle, to, bulge: -bulge(-into, middle - to) };
    let fine = |edge: &Edge| edge.bulge.abs() < 1.0 && edge.from.distance(edge.to) > SAME;
    (fine(&first) && fine(&second)).then_some([first, second])
}
