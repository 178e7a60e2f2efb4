// SPDX-License-Identifier: MIT
//! What an album takes at one page size.

use crate::album::Album;
use crate::length::Length;
use crate::sheets::Tally;

/// Two costs closer than this share of them are the same, of a kit's money or mm² of its sheets.
pub(super) const ALIKE: f64 = 1e-9;

/// The album at one size of page.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Size {
    /// Width of the page.
    pub width: Length,
    /// Height of the page.
    pub height: Length,
    /// Sheets of each stock in use, for the whole batch.
    pub tallies: Vec<Tally>,
    /// What one kit's share of all sheets costs; none where a sheet has no price.
    pub cost: Option<f64>,
    /// One kit's share of the area of all sheets, mm².
    pub area: f64,
}

impl Size {
    /// An album's tallies at a size of its page, with their share for one kit.
    pub(super) fn of(album: &Album, width: Length, height: Length, tallies: Vec<Tally>) -> Self {
        let copies = f64::from(album.made().max(1));
        let cost = tallies.iter().map(|tally| tally.cost).sum::<Option<f64>>().map(|cost| cost / copies);
        let area = tallies.iter().map(|tally| tally.area).sum::<f64>() / copies;
        Self { width, height, tallies, cost, area }
    }

    /// How many sheets of a stock it takes.
    #[must_use]
    pub fn sheets(&self, stock: usize) -> u64 {
        self.tallies.iter().find(|tally| tally.stock == stock).map_or(0, |tally| tally.sheets)
    }

    /// What is compared between sizes: cost where it is known, else area.
    pub(super) fn weight(&self) -> f64 {
        self.cost.unwrap_or(self.area)
    }

    pub(super) fn is(&self, width: Length, height: Length) -> bool {
        (self.width.eighths(), self.height.eighths()) == (width.eighths(), height.eighths())
    }
}
