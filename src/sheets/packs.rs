// SPDX-License-Identifier: MIT
//! Whole packs: where a stock comes in several sizes that are sold in packs, the mix whose packs cost the least.
//!
//! In: a stock's parts and their layout by the price of single sheets. Out: that layout, or another whose packs cost less. Never:
//! asks about packs where there is one size, for there fewest sheets are fewest packs.
//!
//! Tried are the mixes that do without some of the sizes, then sets of packs that would cost less, the cheapest first.

use super::stock_parts::StockParts;
use crate::exact::Exact;
use crate::layout::{self, Effort, Item, Layout, Watch};
use std::collections::BTreeMap;

/// Sizes sold in packs that are tried against each other: our choice.
const MOST_SIZES: usize = 3;
/// Sets of packs that are looked at, and that are laid: our choice.
const MOST_SETS: usize = 100_000;
const MOST_TRIED: usize = 12;
/// Prices that differ by less are the same: it is rounding.
const CENT: f64 = 1e-6;

impl StockParts<'_> {
    /// The layout itself, or one whose packs cost less.
    pub(super) fn in_whole_packs(&self, honour_grain: bool, first: Layout, watch: &dyn Watch) -> Layout {
        let bought: Vec<usize> = (0..self.supply.len()).filter(|&size| self.supply[size].is_none()).collect();
        let size = |at: usize| &self.stock.sheets[self.usable.sheets[at].size];
        let packed = bought.iter().any(|&at| size(at).pack.as_ref().is_some_and(|pack| pack.of > 1));
        if !packed
            || bought.len() < 2
            || bought.len() > MOST_SIZES
            || bought.iter().any(|&at| size(at).sold().is_none())
        {
            return first;
        }
        let cost = |layout: &Layout| self.cost_of_packs(layout);
        let Some(by_sheet) = self.cost_of_sheets(&first) else { return first };
        let least = first.savable.map(|savable| by_sheet * (1.0 - savable));
        let mut best = first;
        let lay = |supply: &[Option<u32>], effort: Effort| {
            let mut mix = self.clone();
            mix.supply = supply.to_vec();
            mix.search.effort = effort;
            mix.lay_items(&self.items(honour_grain), watch).ok()
        };
        let mut chosen = None;
        for supply in self.without(&bought) {
            if let Some(found) = lay(&supply, self.trying()).filter(|found| cost(found) < cost(&best)) {
                (best, chosen) = (found, Some(supply));
            }
        }
        let sets = self.sets_of_packs(&bought, least.unwrap_or_default(), cost(&best).near());
        for supply in sets {
            if let Some(found) = lay(&supply, self.trying()) {
                (best, chosen) = (found, Some(supply));
                break;
            }
        }
        // The one that counts is laid as well as any.
        let again = chosen.filter(|_| self.trying() != self.search.effort);
        if let Some(found) =
            again.and_then(|supply| lay(&supply, self.search.effort)).filter(|one| cost(one) <= cost(&best))
        {
            best = found;
        }
        best.savable = least.map(|least| self.savable_packs(least, &cost(&best)));
        best
    }

    /// Mixes are tried with less effort, or they would take many times as long as a layout does.
    fn trying(&self) -> Effort {
        match self.search.effort {
            Effort::High => Effort::Normal,
            Effort::Normal | Effort::Low => Effort::Low,
        }
    }

    /// How many of each size there may be, where some sizes are not bought at all.
    fn without(&self, bought: &[usize]) -> Vec<Vec<Option<u32>>> {
        let one = |without: usize| {
            let mut supply = self.supply.clone();
            for (_, &size) in bought.iter().enumerate().filter(|(bit, _)| without >> bit & 1 == 1) {
                supply[size] = Some(0);
            }
            supply
        };
        (1..(1_usize << bought.len()) - 1).map(one).collect()
    }

    /// Sets of packs that cost `least` or more and less than a known layout's, as many sheets of each size as are in them; those
    /// that might hold all parts, by their area.
    fn sets_of_packs(&self, bought: &[usize], least: f64, known: f64) -> Vec<Vec<Option<u32>>> {
        let price =
            |size: usize| self.stock.sheets[self.usable.sheets[size].size].sold().map_or(0.0, |pack| pack.price.near());
        let area = |size: usize| {
            let sheet = &self.usable.sheets[size];
            nearly(sheet.width.max(0)) * nearly(sheet.height.max(0))
        };
        let one = |item: &Item| nearly(item.width) * nearly(item.height) * f64::from(item.count);
        // A part with an outline of its own is no larger than its box, so the boxes are what layouts need.
        let there = self.supply.iter().enumerate().filter_map(|(size, count)| Some(area(size) * f64::from((*count)?)));
        let needed = self.items(false).iter().map(one).sum::<f64>() - there.sum::<f64>();
        let mut sets: Vec<(f64, Vec<u32>)> = vec![(0.0, Vec::new())];
        for &size in bought {
            let mut more = Vec::new();
            for (cost, counts) in &sets {
                let mut cost = *cost;
                for packs in 0.. {
                    if cost >= known - CENT || more.len() > MOST_SETS {
                        break;
                    }
                    more.push((cost, [counts.as_slice(), &[packs]].concat()));
                    cost += price(size);
                    if price(size) <= 0.0 {
                        break;
                    }
                }
            }
            sets = more;
        }
        if sets.len() > MOST_SETS {
            return Vec::new();
        }
        let sheets = |packs: u32, size: usize| u32::try_from(u64::from(packs) * self.pack_of(size)).unwrap_or(u32::MAX);
        let holds = |counts: &[u32]| {
            counts.iter().zip(bought).map(|(&packs, &size)| area(size) * f64::from(sheets(packs, size))).sum::<f64>()
        };
        sets.retain(|(cost, counts)| *cost >= least - CENT && holds(counts) >= needed);
        sets.sort_by(|one, other| one.0.total_cmp(&other.0).then_with(|| one.1.cmp(&other.1)));
        sets.truncate(MOST_TRIED);
        let supply = |(_, counts): (f64, Vec<u32>)| {
            let mut supply = self.supply.clone();
            for (&packs, &size) in counts.iter().zip(bought) {
                supply[size] = Some(sheets(packs, size));
            }
            supply
        };
        sets.into_iter().map(supply).collect()
    }

    fn pack_of(&self, size: usize) -> u64 {
        let pack = self.stock.sheets[self.usable.sheets[size].size].sold();
        pack.map_or(1, |pack| u64::from(pack.of.max(1)))
    }

    /// What the packs of the sheets cost that do not lie there already; nothing where one has no price.
    fn cost_of_packs(&self, layout: &Layout) -> Exact {
        let mut cost = Exact::zero();
        for (size, count) in counts(layout).into_iter().filter(|(size, _)| self.supply[*size].is_none()) {
            if let Some(pack) = self.stock.sheets[self.usable.sheets[size].size].sold() {
                cost = cost.plus(&Exact::whole(count.div_ceil(self.pack_of(size))).times(&pack.price));
            }
        }
        cost
    }

    /// The same by the sheet.
    fn cost_of_sheets(&self, layout: &Layout) -> Option<f64> {
        let bought = counts(layout).into_iter().filter(|(size, _)| self.supply[*size].is_none());
        let each = |(size, count): (usize, u64)| {
            let sheet = self.stock.sheets[self.usable.sheets[size].size].each()?;
            Some(sheet * Exact::whole(count).near())
        };
        bought.map(each).sum()
    }

    /// What part of such a cost another mix could save, if its sheets cost no less than `least` one by one: the least sum of whole
    /// packs that is worth that is the least there can be.
    fn savable_packs(&self, least: f64, cost: &Exact) -> f64 {
        let sold = (0..self.supply.len()).filter(|&size| self.supply[size].is_none());
        let prices =
            sold.filter_map(|size| Some(self.stock.sheets[self.usable.sheets[size].size].sold()?.price.near()));
        let cost = cost.near();
        let least = layout::least_sum(&prices.collect::<Vec<_>>(), least).min(cost);
        if cost > 0.0 { (cost - least) / cost } else { 0.0 }
    }
}

#[allow(clippy::cast_precision_loss, reason = "areas are compared, not kept")]
fn nearly(eighths: i64) -> f64 {
    eighths as f64
}

/// How many sheets of each size, by its number in the layout.
fn counts(layout: &Layout) -> BTreeMap<usize, u64> {
    let mut counts = BTreeMap::new();
    for laid in &layout.sheets {
        *counts.entry(laid.sheet).or_default() += u64::from(laid.times);
    }
    counts
}
