// SPDX-License-Identifier: MIT
//! Whom a text speaks to, and so what it leaves out: who is handed pieces cut and scored is told nothing of cutting and scoring.

use crate::album::{Album, Handed};

/// Whom a text speaks to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Audience {
    /// Who puts one kit together, from what is handed over.
    Kit,
    /// Who makes all kits, as far as they are handed over.
    Shop,
}

impl Audience {
    /// Whether this reader cuts the parts of a stock. Where the maker says nothing of what is handed over, both are told.
    #[must_use]
    pub fn cuts(self, album: &Album, stock: usize) -> bool {
        self.does(album, stock, Handed::Cut)
    }

    /// Whether this reader scores them.
    #[must_use]
    pub fn scores(self, album: &Album, stock: usize) -> bool {
        self.does(album, stock, Handed::Scored)
    }

    /// The shop does all up to the state that is handed over, the other the rest.
    fn does(self, album: &Album, stock: usize, done: Handed) -> bool {
        // What is ready-made nobody makes.
        if album.is_ready(stock) {
            return false;
        }
        let by_shop = album.handed_over(stock).map(|handed| handed >= done);
        by_shop.is_none_or(|by_shop| by_shop == (self == Self::Shop))
    }
}
