// SPDX-License-Identifier: MIT
//! Cuts for a blade that swivels: its axis runs ahead of its tip.
//!
//! The tip trails straight behind the axis. So that it stays on the line, the axis runs ahead by the trail along each line,
//! on a wider arc round each curve, and turns about the tip at each corner.

use super::walk::turned;
use crate::contour::{Edge, Point, Vec2};
use std::f64::consts::FRAC_PI_2;

/// Bends smaller than this are none, radians.
const NO_BEND: f64 = 1e-3;

/// The axis's way for a tip that runs along these edges, mm.
pub(super) fn axis(edges: &[Edge], trail: f64) -> Vec<Edge> {
    let mut way = Vec::with_capacity(2 * edges.len());
    for (index, &edge) in edges.iter().enumerate() {
        let led = ahead(edge, trail);
        if let Some(before) = index.checked_sub(1).map(|before| edges[before]) {
            let bend = before.bend_to(edge);
            if bend.abs() > NO_BEND {
                swivel(&mut way, edge.from, led.from, bend);
            }
        }
        way.push(led);
    }
    way
}

/// Which way an edge leaves its start, as a way of length 1.
fn leaves(edge: Edge) -> Vec2 {
    turned((edge.to - edge.from).normalize(), -edge.angle() / 2.0)
}

/// The axis's way along one edge: a line is moved on, an arc becomes one about the same centre.
fn ahead(edge: Edge, trail: f64) -> Edge {
    let arrives = turned((edge.to - edge.from).normalize(), edge.angle() / 2.0);
    Edge { from: edge.from + leaves(edge) * trail, to: edge.to + arrives * trail, bulge: edge.bulge }
}

/// Turns about the tip by `bend`, until the axis is at `to`: in arcs of up to 90 degrees.
fn swivel(way: &mut Vec<Edge>, tip: Point, to: Point, bend: f64) {
    let pieces = if bend.abs() > FRAC_PI_2 + NO_BEND { 2 } else { 1 };
    let each = bend / f64::from(pieces);
    let point = |left: i32| tip + turned(to - tip, -each * f64::from(left));
    for piece in (0..pieces).rev() {
        way.push(Edge { from: point(piece + 1), to: point(piece), bulge: (each / 4.0).tan() });
    }
}
