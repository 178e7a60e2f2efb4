// SPDX-License-Identifier: MIT
//! How a file takes down places: its unit, its last decimal, which way y counts.
//!
//! What is smaller than the last decimal is not written: an edge whose ends would be the same numbers, the bow of an arc
//! that can't be told from a line. Readers divide by both.

use super::number::alike;
use crate::contour::{Edge, Point};

/// How a file takes down places.
#[derive(Clone, Copy, Debug)]
pub(super) struct Frame {
    /// How many of the file's units make a millimetre.
    pub scale: f64,
    /// How many decimals its numbers have at most.
    pub decimals: u32,
    /// The sheet's height in mm where y counts downwards from its top.
    pub down_from: Option<f64>,
}

impl Frame {
    /// A point's numbers, not yet rounded.
    pub(super) fn numbers(&self, point: Point) -> (f64, f64) {
        let y = self.down_from.map_or(point.y, |height| height - point.y);
        (point.x * self.scale, y * self.scale)
    }

    /// Whether two points come out as the same numbers.
    pub(super) fn meet(&self, one: Point, other: Point) -> bool {
        // Rounding is slow, and few points are within reach of it.
        if (one.x - other.x).abs().max((one.y - other.y).abs()) > 2.0 * self.step() {
            return false;
        }
        let ((x0, y0), (x1, y1)) = (self.numbers(one), self.numbers(other));
        alike(x0, x1, self.decimals) && alike(y0, y1, self.decimals)
    }

    /// The edges that are worth writing. Each begins with the numbers that the one before ended with: what is left
    /// out begins and ends with the same.
    pub(super) fn edges(self, edges: impl Iterator<Item = Edge>) -> impl Iterator<Item = Edge> {
        let worth = edges.filter(move |edge| !self.meet(edge.from, edge.to));
        worth.map(move |edge| if self.is_flat(edge) { Edge { bulge: 0.0, ..edge } } else { edge })
    }

    /// The last decimal, mm.
    fn step(&self) -> f64 {
        1.0 / (self.scale * f64::from(10_u32.pow(self.decimals)))
    }

    /// Whether an edge keeps to its chord within the rounding of a number, half a step: a bulge is the ratio of what
    /// its middle stands off to half the chord.
    fn is_flat(&self, edge: Edge) -> bool {
        edge.is_line() || edge.from.distance(edge.to) * edge.bulge.abs() < self.step()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_smaller_than_a_decimal_is_left_out() {
        let frame = Frame { scale: 1.0, decimals: 4, down_from: Some(297.0) };
        let edge = |x0, x1, bulge| Edge { from: Point::new(x0, 5.0), to: Point::new(x1, 5.0), bulge };
        // A rise of 0.04 thousandths over 80 mm, and one of 0.08.
        let edges = [edge(0.0, 0.000_04, 0.4), edge(0.000_04, 80.0, 1e-6), edge(80.0, 160.0, -2e-6)];
        let kept: Vec<Edge> = frame.edges(edges.into_iter()).collect();
        assert_eq!(kept, [Edge { bulge: 0.0, ..edges[1] }, edges[2]]);
    }
}
