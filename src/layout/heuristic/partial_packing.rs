// SPDX-License-Identifier: MIT
//! Partial packings: single sheets and the boxes that have no place on them.

use std::collections::BTreeSet;

use crate::layout::model::packing::{PackedSheet, Packing, PlacedBox};

/// One sheet of it.
#[derive(Clone, Debug)]
pub(crate) struct SingleSheet {
    pub(crate) size: usize,
    pub(crate) placed: Vec<PlacedBox>,
}

/// Single sheets and the boxes that have no place.
#[derive(Clone, Debug, Default)]
pub(crate) struct PartialPacking {
    pub(crate) sheets: Vec<SingleSheet>,
    pub(crate) unplaced: Vec<usize>,
}

impl PartialPacking {
    /// Takes the sheets of a packing one by one, the last ones first and no more than `most`; the rest stays as it is. Of a
    /// packing with more sheets only the shortest runs are taken, and whole, so that long runs stay one sheet cut many times.
    /// All that is left over counts as boxes without a place, so the caller sees to it that this is not much.
    pub(crate) fn unroll(packing: &Packing, most: usize) -> (Self, Vec<PackedSheet>) {
        let mut shortest: Vec<usize> = (0..packing.laid.len()).collect();
        shortest.sort_by_key(|&run| packing.laid[run].times);
        let mut room = u64::try_from(most).unwrap_or(u64::MAX);
        let taken: BTreeSet<usize> = shortest
            .into_iter()
            .map_while(|run| {
                room = room.checked_sub(packing.laid[run].times)?;
                Some(run)
            })
            .collect();
        let (mut open, mut kept) = (Vec::new(), Vec::new());
        for (number, laid) in packing.laid.iter().enumerate() {
            if taken.contains(&number) { open.push(laid.clone()) } else { kept.push(laid.clone()) }
        }
        let mut state = Self::default();
        while open.iter().any(|laid| laid.times > 0) {
            for laid in open.iter_mut().rev().filter(|laid| laid.times > 0) {
                laid.times -= 1;
                state.sheets.push(SingleSheet { size: laid.size, placed: laid.placed.clone() });
            }
        }
        let loose = packing.left.iter().enumerate();
        state.unplaced = loose
            .flat_map(|(kind, &count)| std::iter::repeat_n(kind, usize::try_from(count).unwrap_or(usize::MAX)))
            .collect();
        (state, kept)
    }

    /// Gives up a sheet: its boxes have no place.
    pub(crate) fn drop_sheet(&mut self, number: usize) {
        let dropped = self.sheets.remove(number);
        self.unplaced.extend(dropped.placed.iter().map(|put| put.kind));
    }

    /// The sheets as part of a packing.
    pub(crate) fn into_laid(self) -> impl Iterator<Item = PackedSheet> {
        self.sheets.into_iter().map(|one| PackedSheet { size: one.size, times: 1, placed: one.placed })
    }
}
