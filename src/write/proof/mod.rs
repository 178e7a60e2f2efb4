// SPDX-License-Identifier: MIT
//! Reads what was written again, by other code than wrote it, and compares it stroke by stroke with what was meant.
//!
//! A file that says something else than the tool paths must never reach a machine.

mod cubic;
mod dxf;
mod ribbon;
mod svg;
#[cfg(test)]
mod tests;
#[cfg(test)]
mod tests_of_forms;

pub(super) use dxf::dxf;
pub(super) use svg::svg;

use crate::contour::{Edge, Point};
use crate::toolpath::StrokePath;

/// What floating numbers of a sheet's size may be off by, mm.
const NOISE: f64 = 1e-9;

/// An edge as a file has it, mm, y up.
#[derive(Clone, Copy, Debug)]
struct Bow {
    from: Point,
    to: Point,
    /// How far its middle stands off its chord, to the right of its way: positive counter-clockwise, 0 for a line.
    rise: f64,
}

/// Edges that follow one another without the tool being lifted.
#[derive(Debug)]
struct Pull<E> {
    closed: bool,
    edges: Vec<E>,
}

/// Follows what was read and what was meant side by side: everything is there, in its order, and nothing else. Only what is
/// `tiny` may be missing.
fn in_order<F, M>(
    what: &str,
    found: &[F],
    meant: &[M],
    same: impl Fn(&F, &M) -> Result<(), String>,
    tiny: impl Fn(&M) -> bool,
) -> Result<(), String> {
    let mut rest = found.iter().enumerate().peekable();
    for one in meant {
        let judged = match rest.peek() {
            Some((index, read)) => same(read, one).map_err(|why| format!("{what} {}: {why}", index + 1)),
            None => Err(format!("{what} {} is missing", found.len() + 1)),
        };
        match judged {
            Ok(()) => {
                rest.next();
            }
            Err(why) if !tiny(one) => return Err(why),
            Err(_) => {}
        }
    }
    rest.next().map_or(Ok(()), |(index, _)| Err(format!("{what} {} was never meant", index + 1)))
}

/// How a file rounds: the step of its last decimal, mm.
#[derive(Clone, Copy, Debug)]
struct Rounding {
    step: f64,
}

impl Rounding {
    fn pulls(self, found: &[Pull<Bow>], meant: &[Pull<Edge>]) -> Result<(), String> {
        in_order("line", found, meant, |found, meant| self.pull(found, meant), |meant| self.is_tiny(meant))
    }

    fn pull(self, found: &Pull<Bow>, meant: &Pull<Edge>) -> Result<(), String> {
        if found.closed != meant.closed {
            return Err(if meant.closed { "it is left open" } else { "it is closed" }.into());
        }
        let tiny = |edge: &Edge| self.within(edge.from, edge.to, 1.0) && rise(*edge).abs() <= self.step;
        in_order("edge", &found.edges, &meant.edges, |found, meant| self.edge(*found, *meant), tiny)
    }

    fn edge(self, found: Bow, meant: Edge) -> Result<(), String> {
        let place = |point: Point| format!("{:.4}, {:.4}", point.x, point.y);
        for (found, meant) in [(found.from, meant.from), (found.to, meant.to)] {
            if !self.within(found, meant, 0.5) {
                return Err(format!("it comes to {} instead of {} (mm)", place(found), place(meant)));
            }
        }
        if found.from == found.to {
            return Err(format!("it has no length, at {} (mm)", place(found.from)));
        }
        // The rounding of the radius and of both ends tells on an arc's middle: together less than this, for arcs of up
        // to a quarter.
        let (rise, slack) = (rise(meant), 1.5 * self.step + NOISE);
        let other_way = found.rise * rise < 0.0;
        if other_way || !near(found.rise, rise, slack) {
            return Err(format!("its middle stands {:.4} mm off its chord instead of {rise:.4}", found.rise));
        }
        Ok(())
    }

    /// Whether so small a thing may have come out as a single point.
    fn is_tiny(self, meant: &Pull<Edge>) -> bool {
        let ends = |edge: &Edge| [edge.from, edge.to];
        let mut points = meant.edges.iter().flat_map(ends);
        let first = points.next();
        first.is_none_or(|first| points.all(|point| self.within(first, point, 1.0)))
    }

    /// Whether two points are at most so many steps apart, each way.
    fn within(self, one: Point, other: Point, steps: f64) -> bool {
        let slack = steps * self.step + NOISE;
        near(one.x, other.x, slack) && near(one.y, other.y, slack)
    }
}

/// Never so for what is no number.
fn near(one: f64, other: f64, slack: f64) -> bool {
    (one - other).abs() <= slack
}

/// How far the middle of an edge stands off its chord: a bulge is the ratio of that to half the chord.
fn rise(edge: Edge) -> f64 {
    edge.bulge * edge.from.distance(edge.to) / 2.0
}

/// What a stroke is meant to be.
fn pulls(run: &StrokePath) -> Vec<Pull<Edge>> {
    match run {
        StrokePath::Straight(pieces) => {
            let piece = |&(from, to): &(Point, Point)| Edge { from, to, bulge: 0.0 };
            pieces.iter().map(|ends| Pull { closed: false, edges: vec![piece(ends)] }).collect()
        }
        StrokePath::Closed(contour) => vec![Pull { closed: true, edges: contour.edges().collect() }],
        StrokePath::Open(edges) => vec![Pull { closed: false, edges: edges.clone() }],
    }
}
