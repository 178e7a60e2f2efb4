// SPDX-License-Identifier: MIT
//! Narrow shapes that stand for lines, made lines again: the middle between their two sides, which are so far apart.

use super::{Bow, Pull, Rounding, near};
use crate::contour::{Edge, Point, Vec2};

/// The lines that the shapes of one path stand for; `meant` says which of them close, and so have two sides of their own.
///
/// # Errors
/// A shape that is none of the width, or of no line that is meant.
pub(super) fn middles(
    shapes: &[Pull<Bow>],
    meant: &[Pull<Edge>],
    (width, rounding): (f64, Rounding),
) -> Result<Vec<Pull<Bow>>, String> {
    let mut shapes = shapes.iter().peekable();
    let mut found = Vec::new();
    for line in meant {
        // What is as small as a step may have been left out, or not.
        let start = line.edges.first().map(|edge| edge.from);
        let near =
            |shape: &Pull<Bow>| shape.edges.first().zip(start).is_some_and(|(edge, at)| edge.from.distance(at) < width);
        if rounding.is_tiny(line) && !shapes.peek().is_some_and(|shape| near(shape)) {
            continue;
        }
        let one = shapes.next().ok_or("a shape is missing")?;
        if !one.closed {
            return Err("a shape is left open".into());
        }
        let (left, right): (Vec<Bow>, Vec<Bow>) = if line.closed {
            let other = shapes.next().filter(|other| other.closed).ok_or("a shape has one side only")?;
            (one.edges.clone(), other.edges.clone())
        } else {
            // As many edges there as back, and a short one across at either end.
            if one.edges.len() % 2 != 0 {
                return Err("a shape does not come back to its start".into());
            }
            let count = one.edges.len() / 2;
            let half = |from: usize| one.edges.iter().copied().skip(from).take(count.saturating_sub(1)).collect();
            (half(0), half(count))
        };
        if left.len() != right.len() {
            return Err("the two sides of a shape are not alike".into());
        }
        let mut edges = Vec::new();
        for (one, other) in left.iter().zip(right.iter().rev()) {
            let middle = between(*one, *other);
            // Where it turns sharply the sides have an edge more, round a single point.
            if middle.from.distance(middle.to) > 2.0 * rounding.step {
                is_wide(*one, *other, width, 4.0 * rounding.step)?;
                edges.push(middle);
            }
        }
        // Each begins where the one before ends.
        found.push(Pull { closed: line.closed, edges });
    }
    shapes.next().map_or(Ok(found), |_| Err("there is a shape that was never meant".into()))
}

/// What runs in the middle of two sides, the second of which runs back.
fn between(one: Bow, other: Bow) -> Bow {
    let (from, to) = (one.from.midpoint(other.to), one.to.midpoint(other.from));
    // A side within a tight arc runs the other way round its centre: so the places count, not how far they stand off.
    let off = top(one).midpoint(top(other)) - from.midpoint(to);
    let chord = to - from;
    let rise = if chord.hypot() > 0.0 { off.cross(chord) / chord.hypot() } else { 0.0 };
    Bow { from, to, rise }
}

/// The middle of a bow, to the right of its way where it rises.
fn top(bow: Bow) -> Point {
    let chord = bow.to - bow.from;
    let long = chord.hypot();
    let right = if long > 0.0 { Vec2::new(chord.y, -chord.x) / long } else { Vec2::ZERO };
    bow.from.midpoint(bow.to) + right * bow.rise
}

/// What a bend that is taken for none adds to the width there, of the width: less than this (1 / cos(0.025) is 1.0003).
const SPREAD: f64 = 4e-4;

/// Whether two sides run beside each other at this distance.
fn is_wide(one: Bow, other: Bow, width: f64, slack: f64) -> Result<(), String> {
    let slack = slack + width * SPREAD;
    let chord = one.to - one.from;
    let off = |point: Point| (chord.cross(point - one.from) / chord.hypot()).abs();
    let wide = |found: f64| near(found, width, slack);
    // What the rounding of a short side's ends makes of a place further along.
    let beside = |point: Point| {
        let far = point.distance(one.from) / chord.hypot();
        near(off(point), width, slack * (1.0 + far))
    };
    // Of an arc's sides the ends are as far apart; of a line's they may meet others at a corner.
    let straight = one.rise.abs() <= slack && other.rise.abs() <= slack;
    let fine = if straight {
        chord.hypot() <= slack || (beside(other.from) && beside(other.to))
    } else {
        wide(one.from.distance(other.to)) && wide(one.to.distance(other.from))
    };
    if fine { Ok(()) } else { Err("a shape is not as wide as was meant".into()) }
}
