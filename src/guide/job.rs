// SPDX-License-Identifier: MIT
//! What a guide is made from, and whom it speaks to.

use crate::album::{Album, Handed};
use crate::cutter::Cutter;
use crate::fit::Fit;
use crate::parts::Kit;
use crate::sheets::StockSheets;

/// What a guide is made from.
#[derive(Clone, Copy, Debug)]
pub struct GuideJob<'a> {
    /// The album.
    pub album: &'a Album,
    /// Its parts.
    pub kit: &'a Kit,
    /// How it goes together.
    pub fit: &'a Fit,
    /// Its sheets.
    pub stocks: &'a [StockSheets],
    /// The machine.
    pub cutter: &'a Cutter,
    /// Whether lengths stand in both systems.
    pub both_units: bool,
}

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
        let by_shop = album.handed_over(stock).map(|handed| handed >= done);
        by_shop.is_none_or(|by_shop| by_shop == (self == Self::Shop))
    }
}
