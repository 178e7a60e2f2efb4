// SPDX-License-Identifier: MIT
//! Sheets that are there anyway, and may be filled.
//!
//! In: sheets that are laid. Out: how many of each size; stocks that have no more of them. Never: lays one.

use crate::sheets::StockSheets;
use crate::stock::Stock;

/// Sheets that are filled, and no more of them.
#[derive(Clone, Debug)]
pub(super) struct FilledSheets {
    /// How many of each size of each stock, by its number.
    counts: Vec<Vec<u32>>,
    laid: Vec<StockSheets>,
}

impl FilledSheets {
    pub(super) fn of(stocks: &[Stock], laid: &[StockSheets]) -> Self {
        let used = |stock: &Stock, size: usize| {
            let shared = |laid: &&StockSheets| stocks.get(laid.stock).is_some_and(|one| one.bought() == stock.bought());
            let used: u64 = laid.iter().filter(shared).filter_map(|laid| laid.by_size().get(&size).copied()).sum();
            u32::try_from(used).unwrap_or(u32::MAX)
        };
        let counts = stocks.iter().map(|stock| (0..stock.sheets.len()).map(|size| used(stock, size)).collect());
        Self { counts: counts.collect(), laid: laid.to_vec() }
    }

    /// No more sheets than these.
    pub(super) fn limit(&self, stocks: &mut [Stock]) {
        for (stock, counts) in stocks.iter_mut().zip(&self.counts) {
            for (size, count) in stock.sheets.iter_mut().zip(counts) {
                size.count = Some(*count);
            }
        }
    }

    /// Whether sheets are no more than these.
    pub(super) fn holds(&self, stocks: &[Stock], laid: &[StockSheets]) -> bool {
        let more = Self::of(stocks, laid).counts;
        more.iter().flatten().zip(self.counts.iter().flatten()).all(|(more, count)| more <= count)
    }

    /// What is sure is said of the sheets that had to be: what fills them does not count.
    pub(super) fn is_as_sure(&self, sheets: &mut [StockSheets]) {
        for laid in sheets {
            let same = |before: &&StockSheets| before.stock == laid.stock && before.count() == laid.count();
            if let Some(before) = self.laid.iter().find(same) {
                (laid.lower_bound, laid.proven_least) = (before.lower_bound, before.proven_least);
                laid.why.clone_from(&before.why);
            }
        }
    }
}
