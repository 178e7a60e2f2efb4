// SPDX-License-Identifier: MIT
//! A row of panels that may have to be made in pieces, and the places where it is cut.

use crate::contour::Contour;
use crate::net::{Along, Net, RowPanel, Sense};

/// A row of panels that may have to be made in pieces.
#[derive(Clone, Debug)]
pub(in crate::parts) struct PanelRow {
    pub along: Along,
    /// Its breadth, mm.
    pub breadth: f64,
    pub leaves: Vec<RowPanel>,
    /// The leaf that stays put when it is folded.
    pub root: usize,
    /// Windows and slots, none of them over a fold.
    pub holes: Vec<Contour>,
    /// Stretches of it on which something is stuck that needs them in one piece.
    pub whole: Vec<(f64, f64)>,
    /// Width of the seams that join pieces, mm.
    pub lap: f64,
}

impl PanelRow {
    /// The row in one piece.
    pub(in crate::parts) fn net(&self) -> Net {
        let whole = Net::row(self.along, self.breadth, &self.leaves, self.root);
        self.holes.iter().cloned().fold(whole, Net::with_hole)
    }

    /// Where each leaf starts, and the end.
    pub(super) fn starts(&self) -> Vec<f64> {
        let mut at = 0.0;
        let mut starts = vec![at];
        for leaf in &self.leaves {
            at += leaf.depth();
            starts.push(at);
        }
        starts
    }

    /// The stretch of the row that a hole takes.
    pub(super) fn run(&self, hole: &Contour) -> (f64, f64) {
        let bounds = hole.bounds();
        if self.along == Along::Across { (bounds.x0, bounds.x1) } else { (bounds.y0, bounds.y1) }
    }
}

/// A place where a row is cut: its lap turns like the panel that it is stuck on.
#[derive(Clone, Copy, Debug)]
pub(super) struct Break {
    pub at: f64,
    pub lap: f64,
    pub fold: (Sense, f64),
}

/// How far a fold leans outwards, seen from the front: 1 for a right-angled mountain, -1 for a valley.
pub(super) fn lean((sense, degrees): (Sense, f64)) -> f64 {
    let sine = degrees.to_radians().sin();
    if sense == Sense::Mountain { sine } else { -sine }
}
