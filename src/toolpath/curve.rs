// SPDX-License-Identifier: MIT
//! Curves for machines that know less than arcs.

use super::walk::stretch;
use crate::contour::Edge;
use crate::cutter::{Curves, Manner};
use crate::length::tolerance::PARALLEL;

/// Arcs that become cubics are no wider than this: the cubic stands off an eighth of a circle by 4 millionths of its radius
/// (derived: the usual cubic with handles 4/3 tan(angle/4)).
const WIDEST: f64 = std::f64::consts::FRAC_PI_4 + PARALLEL;

/// The edges as the machine takes them: arcs, arcs short enough for cubics, or short lines within the tolerance.
pub(super) fn as_written(edges: Vec<Edge>, manner: &Manner) -> Vec<Edge> {
    let widest = |edge: &Edge| match manner.curves {
        // A chord stands off its arc by r (1 - cos(angle/2)).
        Curves::Lines => 2.0 * (1.0 - manner.curve_tolerance.mm() / edge.radius()).clamp(0.0, 1.0 - PARALLEL).acos(),
        _ => WIDEST,
    };
    let pieces = |edge: Edge| {
        if edge.is_line() || manner.curves == Curves::Arcs {
            return vec![edge];
        }
        #[allow(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a quarter circle in steps, saturating"
        )]
        let count = (edge.angle().abs() / widest(&edge)).ceil().clamp(1.0, 10_000.0) as u32;
        let flat = manner.curves == Curves::Lines;
        let piece = |step: u32| {
            let piece = stretch(edge, f64::from(step) / f64::from(count), f64::from(step + 1) / f64::from(count));
            if flat { Edge { bulge: 0.0, ..piece } } else { piece }
        };
        (0..count).map(piece).collect()
    };
    edges.into_iter().flat_map(pieces).collect()
}
