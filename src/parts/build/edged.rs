// SPDX-License-Identifier: MIT
//! What is cut of a piece's edges besides what its kind says.

use crate::album::FinishWord;
use crate::contour::Contour;
use crate::net::{EdgeCut, Net};

/// The cuts of one piece, in the numbers of the net that its kind states.
#[derive(Clone, Debug, Default)]
pub(in crate::parts) struct PieceEdges {
    /// Edges and corners.
    pub cuts: Vec<EdgeCut>,
    /// The patterns of its edges, each once.
    pub patterns: Vec<FinishWord>,
    /// Rows of cuts.
    pub holes: Vec<Contour>,
}

impl PieceEdges {
    /// A net with its edges cut.
    pub(in crate::parts) fn cut(&self, net: Net) -> Net {
        let mut net = if self.cuts.is_empty() { net } else { net.edged(&self.cuts) };
        net.holes.extend(self.holes.iter().cloned());
        net
    }
}
