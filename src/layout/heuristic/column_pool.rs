// SPDX-License-Identifier: MIT
//! Column pool: the sheets that the searches have met, each set of boxes once.
//!
//! In: sheets with boxes on them. Out: the same, in the order in which they were first met, whatever the threads. Never:
//! keeps two with the same boxes, or more than it has room for.

use std::collections::BTreeMap;

use crate::layout::model::packing::{Packing, PlacedBox};

/// No more sheets are kept.
const MOST_KEPT: usize = 6000;
/// So many more of those that one search of many thousand sheets met.
const MOST_MET: usize = 14_000;
/// No sheet with more boxes is kept: choosing among such sheets saves little and takes long.
pub(crate) const MOST_BOXES: usize = 60;

/// Sheets of one size.
#[derive(Clone, Debug, Default)]
pub(crate) struct ColumnPool {
    /// By the kinds on it, in order, a kind as often as it is there: where it stands in the list.
    known: BTreeMap<Vec<usize>, usize>,
    sheets: Vec<(Vec<usize>, Vec<PlacedBox>)>,
    /// How many of them a search met.
    met: usize,
}

impl ColumnPool {
    /// Keeps a sheet unless one with the same boxes is there. Says whether it did.
    pub(crate) fn keep(&mut self, placed: &[PlacedBox]) -> bool {
        self.sheets.len() - self.met < MOST_KEPT && self.add(placed)
    }

    /// Keeps what a search met, beside the others.
    pub(crate) fn keep_met(&mut self, met: &Self) {
        for (_, placed) in &met.sheets {
            if self.met < MOST_MET && self.add(placed) {
                self.met += 1;
            }
        }
    }

    fn add(&mut self, placed: &[PlacedBox]) -> bool {
        if placed.is_empty() || placed.len() > MOST_BOXES {
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

#[cfg(test)]
mod tests {
    use super::*;

    fn boxes(kinds: &[usize]) -> Vec<PlacedBox> {
        kinds.iter().map(|&kind| PlacedBox { kind, x: 0, y: 0, width: 1, height: 1 }).collect()
    }

    /// A full pool takes no more by rule, yet what a search met; neither takes the same boxes twice, in whatever order.
    #[test]
    fn what_a_search_met_is_kept_beside_the_others() {
        let mut pool = ColumnPool::default();
        assert!(pool.keep(&boxes(&[2, 1])));
        assert!(!pool.keep(&boxes(&[1, 2])));
        (0..MOST_KEPT + 5).for_each(|kind| {
            pool.keep(&boxes(&[kind, kind]));
        });
        assert_eq!(pool.sheets().len(), MOST_KEPT);
        let mut met = ColumnPool::default();
        assert!(met.keep(&boxes(&[1, 2])) && met.keep(&boxes(&[7, 8, 9])));
        pool.keep_met(&met);
        assert_eq!(pool.sheets().len(), MOST_KEPT + 1);
        assert_eq!(pool.sheets()[MOST_KEPT].0, [7, 8, 9]);
        assert!(!pool.keep(&boxes(&[8, 8, 8])));
    }
}
