// SPDX-License-Identifier: MIT
//! Column pool: the sheets that the searches have met, each set of boxes once.
//!
//! In: sheets with boxes on them. Out: the same, in the order in which they were first met, whatever the threads. Never:
//! keeps two with the same boxes, or more than it has room for.

use std::collections::BTreeMap;

use crate::layout::model::packing::{Packing, PlacedBox};

/// No more sheets are kept.
const MOST_KEPT: usize = 6000;
/// No sheet with more boxes is kept: choosing among such sheets saves little and takes long.
pub(crate) const MOST_BOXES: usize = 60;

/// Sheets of one size.
#[derive(Clone, Debug, Default)]
pub(crate) struct ColumnPool {
    /// By the kinds on it, in order, a kind as often as it is there: where it stands in the list.
    known: BTreeMap<Vec<usize>, usize>,
    sheets: Vec<(Vec<usize>, Vec<PlacedBox>)>,
}

impl ColumnPool {
    /// Keeps a sheet unless one with the same boxes is there. Says whether it did.
    pub(crate) fn keep(&mut self, placed: &[PlacedBox]) -> bool {
        if placed.is_empty() || placed.len() > MOST_BOXES || self.sheets.len() >= MOST_KEPT {
            return false;
        }
        let mut kinds: Vec<usize> = placed.iter().map(|put| put.kind).collect();
        kinds.sort_unstable();
        if self.known.contains_key(&kinds) {
            return false;
        }
        self.known.insert(kinds.clone(), self.sheets.len());
        self.sheets.push((kinds, placed.to_vec()));
        true
    }

    pub(crate) fn keep_all(&mut self, packing: &Packing) {
        for laid in &packing.laid {
            self.keep(&laid.placed);
        }
    }

    /// The kinds on each sheet, in order, and where they lie.
    pub(crate) fn sheets(&self) -> &[(Vec<usize>, Vec<PlacedBox>)] {
        &self.sheets
    }
}
