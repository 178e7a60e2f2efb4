// SPDX-License-Identifier: MIT
//! Rows of small cuts along an edge or a fold: perforations along it, slits square to it.
//!
//! ```text
//!   ------------------------      ------------------------    an edge or a fold
//!                       | depth     |  |  |  |  |  |  | depth
//!    ---  ---  ---  ---  ---        |  |  |  |  |  |  |   size
//!    size, half of that between     size from one to the next
//! ```
//!
//! A cut is a slot half a millimetre wide, as those of a corner mount are (G3): less closes up when the tool's own width is taken off.

use crate::contour::{Contour, Edge, Vec2};
use crate::length::tolerance::WHOLE;

/// Width of a cut, mm.
pub(in crate::parts) const SLOT: f64 = 0.5;

/// A row of cuts, mm.
#[derive(Clone, Copy, Debug)]
pub(super) struct SlotRow {
    /// Whether they stand square to the edge.
    pub square: bool,
    /// How long each is.
    pub size: f64,
    /// How far they are from the edge.
    pub depth: f64,
}

impl SlotRow {
    /// How far into the card it reaches.
    pub(super) fn deep(self) -> f64 {
        self.depth + if self.square { self.size } else { SLOT / 2.0 }
    }

    /// Its cuts along a run of a straight edge, the card to the left of it; none where not one goes in.
    pub(super) fn cuts(self, line: Edge, [start, end]: [f64; 2]) -> Vec<Contour> {
        // It begins as far from a corner as it is from its edge.
        let (start, end) = (start + self.depth, end - self.depth);
        let length = (end - start).max(0.0);
        let whole = |count: f64| {
            #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "it saturates; edges are short")]
            let count = (count + WHOLE).clamp(0.0, 2000.0) as u32;
            count
        };
        let along = (line.to - line.from).normalize();
        let into = Vec2::new(-along.y, along.x);
        let slot = |at: f64, deep: f64, wide: f64, high: f64| {
            let low = line.from + along * at + into * deep;
            let corners = [low, low + along * wide, low + along * wide + into * high, low + into * high];
            Contour::polygon(corners.map(|corner| (corner.x, corner.y)))
        };
        if self.square {
            let count = whole(length / self.size);
            let apart = length / f64::from(count.max(1));
            let at = |index: u32| start + (f64::from(index) + 0.5).mul_add(apart, -SLOT / 2.0);
            return (0..count).map(|index| slot(at(index), self.depth, SLOT, self.size)).collect();
        }
        let tie = self.size / 2.0;
        let count = whole((length - tie) / (self.size + tie));
        let tie = f64::from(count).mul_add(-self.size, length) / f64::from(count + 1);
        let at = |index: u32| start + f64::from(index).mul_add(self.size + tie, tie);
        (0..count).map(|index| slot(at(index), self.depth - SLOT / 2.0, self.size, SLOT)).collect()
    }
}
