// SPDX-License-Identifier: MIT
//! What paper an album's guide, labels and templates are printed on unless it is said.

use super::Album;
use crate::length::Units;
use crate::paper::Paper;
use crate::stock::Stock;

impl Album {
    /// Letter where the pages' own card comes in inches, or else where the maker measures so; otherwise A4.
    #[must_use]
    pub fn paper(&self) -> Paper {
        usual(self.stocks.get(self.page.stock), self.units)
    }
}

/// The same, from the pages' card.
pub(super) fn usual(card: Option<&Stock>, units: Units) -> Paper {
    let sheet = card.and_then(|stock| stock.sheets.first());
    let letter = match sheet.map(|sheet| sheet.name.as_str()) {
        Some("letter" | "legal" | "tabloid") => true,
        Some(name) if name.starts_with(['A', 'B', 'R', 'S']) => false,
        _ => units == Units::In,
    };
    if letter { Paper::Letter } else { Paper::A4 }
}
