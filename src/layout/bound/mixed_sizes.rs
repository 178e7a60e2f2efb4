// SPDX-License-Identifier: MIT
//! The bound where sheets are of several sizes: the least that must be bought, whatever the layout.
//!
//! In: the problem, a layout's cost. Out: a cost that no layout can beat. Never: counts what lies there already as bought, or
//! trusts a floating number; they only choose the worths.
//!
//! Whatever whole worths the boxes are given: a sheet of size s, which costs c(s), holds no more than m(s) of them, and the
//! sheets that lie there hold so many m(s) together; what they can't hold must be bought, at no less than the least
//! c(s) / m(s) for a worth. With areas for worths this is the bound by area; the best worths are the dual values of the
//! covering programme whose patterns are of all sizes (Gilmore and Gomory 1961, for stocks of several lengths). What is
//! bought is a sum of whole sheets, so the bound rises to the next such sum.

use std::collections::BTreeMap;

use crate::layout::bound::fitting::Set;
use crate::layout::bound::heaviest_set::Heavy;
use crate::layout::bound::pricing::{Pricer, Pricing, SHEET_WORTH, whole_worth};
use crate::layout::bound::relaxation::Relaxation;
use crate::layout::bound::simplex::{CuttingPattern, Programme};
use crate::layout::model::instance::{Instance, MILLIONTHS};
use crate::layout::model::one_size::{BoxType, MOST_KINDS, OneSizeProblem};
use crate::layout::model::packing::{PackedSheet, Packing};
use crate::layout::model::problem::Problem;
use crate::layout::numbers::{nearly, share, whole};
use crate::layout::parallel::Meter;

/// Exchanges between two questions.
const MOST_EXCHANGES: usize = 400;
/// Sets of one answer that are added.
const MOST_ADDED: usize = 6;
/// By so much a set must be worth more than its sheet to be added; far above what worths are off by.
const MORE: u64 = SHEET_WORTH / 10_000;
/// So many sums of whole sheets are looked at.
const MOST_SUMS: u64 = 100_000;

/// The boxes, and the sizes that any of them goes on.
struct MixedSizes {
    /// By kind.
    counts: Vec<u64>,
    sizes: Vec<MixedSize>,
    /// The kind of each item.
    of_items: BTreeMap<usize, usize>,
}

/// One size of sheet, and what goes on it.
struct MixedSize {
    /// Its number in the instance.
    number: usize,
    problem: OneSizeProblem,
    /// By kind of the problem, the kind of all sizes.
    kinds: Vec<usize>,
    cost: u128,
    supply: Option<u64>,
    /// What a sheet costs in the programme, where the dearest costs one.
    share: f64,
}

/// The least that the sheets bought for any layout cost, in the instance's own measure; `bought` is what a known one costs.
pub(crate) fn least_bought(
    problem: &Problem,
    instance: &Instance,
    known: &Packing,
    bought: u128,
    steps: u64,
    meter: &Meter,
) -> u128 {
    let of_size: Vec<Relaxation> = problem
        .sheets
        .iter()
        .map(|sheet| Relaxation::new(problem.items, sheet.width, sheet.height, problem.gap))
        .collect();
    let whole_sum = |least: u128| next_sum(instance, least).min(bought);
    let mut least = whole_sum(by_area(instance, &of_size));
    if least >= bought || steps == 0 {
        return least;
    }
    let Some(mixed) = mixed_sizes(instance, &of_size) else { return least };
    let MixedSizes { counts, sizes, .. } = &mixed;
    let mut master = Programme::new(counts.iter().map(|&count| nearly(count)).collect());
    for pattern in seeds(instance, &mixed, known) {
        master.add(pattern);
    }
    let mut pricers: Vec<Pricer<'_>> = Vec::new();
    let each = steps / u64::try_from(sizes.len()).unwrap_or(1).max(1);
    for size in sizes {
        let Some(pricer) = Pricer::new(&size.problem, each) else { return least };
        pricers.push(pricer);
    }
    while pricers.iter().all(|pricer| pricer.steps() > 0) {
        let before: u64 = pricers.iter().map(Pricing::steps).sum();
        let (_, worth, exchanges) = master.solve(MOST_EXCHANGES);
        let cost = master.exchange_steps().saturating_mul(u64::try_from(exchanges + 1).unwrap_or(1));
        let worth: Vec<u64> = worth.iter().map(|&worth| whole_worth(worth)).collect();
        let mut most = Vec::new();
        let mut added = 0;
        for (size, pricer) in sizes.iter().zip(&mut pricers) {
            pricer.spend(cost);
            let here: Vec<u64> = size.kinds.iter().map(|&kind| worth[kind]).collect();
            let limit = whole(nearly(SHEET_WORTH) * size.share) + MORE;
            let heavy = pricer.heavy(&here, limit);
            most.push(heavy.most);
            added += size.take(&heavy, pricer, &mut master);
        }
        let most: Option<Vec<u64>> = most.into_iter().collect();
        if let Some(most) = &most {
            least = least.max(whole_sum(needed(counts, &worth, sizes, most)));
        }
        let spent = before - pricers.iter().map(Pricing::steps).sum::<u64>();
        if added == 0 || least >= bought || !meter.step(spent) {
            break;
        }
    }
    least
}

impl MixedSize {
    /// Whether it is bought, and not for nothing.
    fn is_bought(&self) -> bool {
        self.supply.is_none() && self.share > 0.0
    }

    /// Adds what is worth more than a sheet of this size, unless there is enough of the size: it is not bought then.
    fn take(&self, heavy: &Heavy, pricer: &mut Pricer<'_>, master: &mut Programme) -> usize {
        if !self.is_bought() {
            return 0;
        }
        let sets: Vec<&Set> = heavy.sets.iter().rev().take(MOST_ADDED).collect();
        for set in &sets {
            let set = pricer.filled(set).unwrap_or_else(|| (*set).clone());
            master.add(self.pattern(set.iter().map(|&kind| self.kinds[usize::from(kind)])));
        }
        sets.len()
    }

    /// Boxes on one sheet of this size, so many to what the dearest one costs.
    fn pattern(&self, kinds: impl Iterator<Item = usize>) -> CuttingPattern {
        let mut on_it: BTreeMap<usize, f64> = BTreeMap::new();
        for kind in kinds {
            *on_it.entry(kind).or_default() += 1.0 / self.share;
        }
        on_it.into_iter().collect()
    }
}

/// What must be bought at these worths, where no sheet of each size holds more than `most`.
fn needed(counts: &[u64], worth: &[u64], sizes: &[MixedSize], most: &[u64]) -> u128 {
    let all = counts.iter().zip(worth).map(|(&count, &worth)| u128::from(count) * u128::from(worth));
    let all = all.fold(0, u128::saturating_add);
    let there = sizes.iter().zip(most).filter_map(|(size, &most)| Some((size.supply?, most)));
    let there = there.map(|(supply, most)| u128::from(supply) * u128::from(most)).fold(0, u128::saturating_add);
    let bought = sizes.iter().zip(most).filter(|(size, _)| size.supply.is_none());
    at_least(all.saturating_sub(there), bought.map(|(size, &most)| (size.cost, u128::from(most))))
}

/// The bound by area.
fn by_area(instance: &Instance, of_size: &[Relaxation]) -> u128 {
    let all = of_size.first().map_or(0, |relaxation| relaxation.areas().0);
    let areas = || instance.sizes.iter().zip(of_size).map(|(size, relaxation)| (size, relaxation.areas().1));
    let there = areas().filter_map(|(size, area)| Some(area.saturating_mul(size.supply?.into())));
    let there = there.fold(0, u128::saturating_add);
    let bought = areas().filter(|(size, _)| size.supply.is_none());
    at_least(all.saturating_sub(there), bought.map(|(size, area)| (size.cost, area)))
}

/// What so much worth costs at least, from sheets that each cost so much and hold no more than so much of it.
fn at_least(worth: u128, sheets: impl Iterator<Item = (u128, u128)>) -> u128 {
    let of = |(cost, most): (u128, u128)| match worth.checked_mul(cost) {
        Some(product) => product.div_ceil(most),
        // Too large to be told exactly: rounded down.
        None => (worth / most).saturating_mul(cost),
    };
    sheets.filter(|(_, most)| *most > 0).map(of).min().unwrap_or(0)
}

/// The least sum of whole sheets' costs that is no less than this, where sums are few enough to be looked at.
fn next_sum(instance: &Instance, least: u128) -> u128 {
    let bought = instance.sizes.iter().filter(|size| size.supply.is_none());
    sum_of(bought.map(|size| size.cost).collect(), least)
}

/// The least sum of such prices, each as often as one likes, that is no less than an amount; the amount itself where sums are too
/// many to be looked at. Good to a millionth.
pub(crate) fn least_sum(prices: &[f64], least: f64) -> f64 {
    // What is lost to rounding must not make the next sum of it.
    let least_whole = u128::from(whole(least.mul_add(MILLIONTHS, -0.5)));
    let sum =
        sum_of(prices.iter().map(|price| u128::from(whole(price.mul_add(MILLIONTHS, 0.5)))).collect(), least_whole);
    nearly(u64::try_from(sum).unwrap_or(u64::MAX)) / MILLIONTHS
}

fn sum_of(mut costs: Vec<u128>, least: u128) -> u128 {
    costs.sort_unstable();
    costs.dedup();
    costs.reverse();
    let mut left = MOST_SUMS;
    smallest_sum(&costs, least, &mut left).filter(|_| left > 0).map_or(least, |sum| sum.max(least))
}

/// The same, from costs, the largest first; stops counting when too many sums were looked at.
fn smallest_sum(costs: &[u128], least: u128, left: &mut u64) -> Option<u128> {
    let (&cost, others) = costs.split_first()?;
    if cost == 0 || *left == 0 {
        *left = 0;
        return None;
    }
    if others.is_empty() {
        *left -= 1;
        return least.div_ceil(cost).checked_mul(cost);
    }
    let mut best: Option<u128> = None;
    let mut spent = 0_u128;
    while *left > 0 {
        let rest = least.saturating_sub(spent);
        let sum = if rest == 0 { Some(0) } else { smallest_sum(others, rest, left) };
        best = [best, sum.and_then(|sum| sum.checked_add(spent))].into_iter().flatten().min();
        if rest == 0 {
            break;
        }
        spent = spent.checked_add(cost)?;
    }
    best
}

/// The boxes of all sizes: equal ones are one kind, where they are equal on every size. None where they are too many.
fn mixed_sizes(instance: &Instance, of_size: &[Relaxation]) -> Option<MixedSizes> {
    type Ways = Vec<Vec<(i64, i64)>>;
    let mut items: BTreeMap<usize, (Ways, u64)> = BTreeMap::new();
    for relaxation in of_size {
        for (item, ways, count) in relaxation.boxes() {
            let (known, all) = items.entry(item).or_default();
            known.push(ways);
            *all = count;
        }
    }
    let mut kinds: BTreeMap<Ways, u64> = BTreeMap::new();
    for (ways, count) in items.values() {
        *kinds.entry(ways.clone()).or_default() += count;
    }
    if kinds.is_empty() || kinds.len() > MOST_KINDS {
        return None;
    }
    let dearest = instance.sizes.iter().filter(|size| size.supply.is_none()).map(|size| size.cost).max()?;
    let mut sizes = Vec::new();
    for (number, (size, relaxation)) in instance.sizes.iter().zip(of_size).enumerate() {
        let goes =
            kinds.iter().enumerate().filter(|(_, (ways, _))| ways.get(number).is_some_and(|ways| !ways.is_empty()));
        let (kinds, boxes): (Vec<usize>, Vec<BoxType>) =
            goes.map(|(kind, (ways, &count))| (kind, BoxType { orientations: ways[number].clone(), count })).unzip();
        if !boxes.is_empty() {
            let (problem, share) = (relaxation.problem_of(&boxes), share(size.cost, dearest));
            sizes.push(MixedSize { number, problem, kinds, cost: size.cost, supply: size.supply, share });
        }
    }
    let place: BTreeMap<&Ways, usize> = kinds.keys().zip(0..).collect();
    let of_items = items.iter().filter_map(|(&item, (ways, _))| Some((item, *place.get(ways)?))).collect();
    Some(MixedSizes { counts: kinds.values().copied().collect(), sizes, of_items })
}

/// The sheets of a layout, as the programme's first patterns.
fn seeds(instance: &Instance, mixed: &MixedSizes, known: &Packing) -> Vec<CuttingPattern> {
    let kind = |kind: usize| {
        let (item, _) = instance.kinds[kind].members().first()?;
        mixed.of_items.get(item).copied()
    };
    let size = |number: usize| mixed.sizes.iter().find(|size| size.number == number && size.is_bought());
    let pattern = |laid: &PackedSheet| {
        Some(size(laid.size)?.pattern(laid.placed.iter().filter_map(|put| kind(put.kind))))
            .filter(|on_it| !on_it.is_empty())
    };
    known.laid.iter().filter_map(pattern).collect()
}
