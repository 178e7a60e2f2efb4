// SPDX-License-Identifier: MIT
//! Tabs that are stuck to each other, as a pleat's are.

use crate::net::Use;
use crate::parts::bond::Hold;
use crate::parts::kit::Kit;

impl Kit {
    /// The tab of the same piece that is stuck to the back of this one, a piece and its panel.
    pub(crate) fn twin(&self, (piece, panel): (usize, usize)) -> Option<usize> {
        let of = |panel: usize| self.pieces.get(piece).and_then(|piece| piece.net.panels.get(panel));
        let is_tab = |panel: usize| of(panel).is_some_and(|panel| panel.purpose == Use::Tab);
        let pair = self
            .bonds
            .iter()
            .filter(|bond| bond.one.piece == piece && bond.other.piece == piece && bond.hold == Hold::Stuck)
            .map(|bond| [bond.one.panel, bond.other.panel])
            .find(|pair| pair.contains(&panel) && pair.iter().all(|panel| is_tab(*panel)))?;
        pair.into_iter().find(|other| *other != panel)
    }
}
