// SPDX-License-Identifier: MIT
//! Register marks as they are printed.

use super::{Fill, Mark, Pen, Tint};
use crate::cutter::RegisterMark;

/// The black that a machine's eye finds best.
const BLACK: Tint = Tint([0; 3]);

/// A register mark in black, its lines as broad as they are asked for.
#[must_use]
pub fn register_mark(mark: &RegisterMark) -> Vec<Mark> {
    let pen = Pen { width: mark.line, colour: BLACK, dash: &[] };
    let line = |points: &Vec<_>| Mark::Line { points: points.clone(), pen };
    let outline = mark.outline.iter().map(|outline| {
        let (fill, pen) = if mark.solid { (Some(Fill::Flat(BLACK)), None) } else { (None, Some(pen)) };
        Mark::Shape { contours: vec![outline.clone()], fill, pen }
    });
    mark.lines.iter().map(line).chain(outline).collect()
}
