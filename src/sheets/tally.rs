// SPDX-License-Identifier: MIT
//! How many sheets an album takes, and what they cost: the counts alone, for whoever compares many albums.
//!
//! In: an album that is tried; or sheets that are laid already. Out: a [`Tally`] for each stock in use. Never: says where a part
//! lies.

use super::left;
use super::stock_parts::StockParts;
use super::{Search, StockSheets};
use crate::album::Order;
use crate::layout::Watch;
use crate::trial::Trial;
use std::collections::BTreeMap;

/// How many sheets of one stock a batch takes.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Tally {
    /// Number of the stock.
    pub stock: usize,
    /// How many sheets.
    pub sheets: u64,
    /// No layout needs fewer sheets than this.
    pub lower_bound: u64,
    /// Whether the layout meets that bound.
    pub proven_least: bool,
    /// Price of all these sheets, where every size used has one.
    pub cost: Option<f64>,
    /// Their area, mm².
    pub area: f64,
}

impl Tally {
    /// The tally of sheets that are laid already.
    #[must_use]
    pub fn of(order: Order<'_>, laid: &StockSheets) -> Self {
        let sizes = laid.sheets.iter().map(|sheet| (sheet.size, sheet.times));
        let mut tally = counted(order, laid.stock, sizes);
        (tally.lower_bound, tally.proven_least) = (laid.lower_bound, laid.proven_least);
        tally
    }
}

impl Trial<'_> {
    /// Lays all its stocks for their counts; nothing where some part finds no place, or can't be made.
    #[must_use]
    pub fn tally(&self, search: Search, watch: &dyn Watch) -> Option<Vec<Tally>> {
        let (order, kit) = (self.album.order(), self.kit()?);
        let (mut tallies, mut taken) = (Vec::new(), Vec::new());
        for number in 0..order.stocks.len() {
            let stocks = left(order.stocks, taken.iter().cloned());
            let order = Order { stocks: &stocks, ..order };
            let Some(parts) = StockParts::new(order, kit, self.cutter, number, search) else { continue };
            let layout = if parts.too_many().is_some() { None } else { parts.lay(true, watch).ok() }?;
            let sizes: Vec<(usize, u32)> =
                layout.sheets.iter().map(|sheet| (parts.usable.sheets[sheet.sheet].size, sheet.times)).collect();
            let mut by_size: BTreeMap<usize, u64> = BTreeMap::new();
            for (size, times) in &sizes {
                *by_size.entry(*size).or_default() += u64::from(*times);
            }
            taken.push((number, by_size));
            let mut tally = counted(order, number, sizes.into_iter());
            (tally.lower_bound, tally.proven_least) = (layout.lower_bound, layout.proven_least);
            tallies.push(tally);
        }
        Some(tallies)
    }
}

/// Counts sheets, given by the number of their size and how often each is cut.
fn counted(order: Order<'_>, stock: usize, sizes: impl Iterator<Item = (usize, u32)>) -> Tally {
    let mut tally = Tally { stock, sheets: 0, lower_bound: 0, proven_least: false, cost: Some(0.0), area: 0.0 };
    for (size, times) in sizes {
        let size = &order.stocks[stock].sheets[size];
        let many = f64::from(times);
        tally.sheets += u64::from(times);
        tally.cost = tally.cost.zip(size.each()).map(|(sum, price)| many.mul_add(price, sum));
        tally.area += many * size.width.mm() * size.height.mm();
    }
    tally
}
