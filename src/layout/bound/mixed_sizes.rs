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
use crate::layout::bound::guillotine_pricing::GuillotinePricer;
use crate::layout::bound::heaviest_set::Heavy;
use crate::layout::bound::pricing::{Pricer, Pricing, SHEET_WORTH, whole_worth};
use crate::layout::bound::relaxation::Relaxation;
use crate::layout::bound::simplex::{CuttingPattern, Programme};
use crate::layout::bound::whole_sums::next_sum;
use crate::layout::model::instance::Instance;
use crate::layout::model::mixed_size::{MixedSize, dearest, sizes_as_laid};
use crate::layout::model::one_size::{BoxType, MOST_KINDS};
use crate::layout::model::packing::{PackedSheet, Packing};
use crate::layout::model::problem::Problem;
use crate::layout::numbers::{nearly, share, whole};
use crate::layout::parallel::Meter;

/// Exchanges between two questions.
const MOST_EXCHANGES: usize = 400;
/// Sets of one answer that are added.
const MOST_ADDED: usize = 6;
/// Rounds of sheets that a trimmer can cut.
const MOST_CUT_ROUNDS: usize = 100;
/// Steps that a set may take which is worth more than its sheet.
const HARD_SET: u64 = 4_000_000;
/// By so much a set must be worth more than its sheet to be added; far above what worths are off by.
const MORE: u64 = SHEET_WORTH / 10_000;

/// The boxes, and the sizes that any of them goes on.
struct MixedSizes {
    /// By kind.
    counts: Vec<u64>,
    sizes: Vec<MixedSize>,
    /// The kind of each item.
    of_items: BTreeMap<usize, usize>,
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
    let least = next_sum(instance, by_area(instance, &of_size)).min(bought);
    if least >= bought || steps == 0 {
        return least;
    }
    let mixed = if instance.trimmer { as_laid(instance) } else { mixed_sizes(instance, &of_size) };
    let Some(mixed) = mixed else { return least };
    let MixedSizes { counts, sizes, .. } = &mixed;
    let mut master = Programme::new(counts.iter().map(|&count| nearly(count)).collect());
    for pattern in seeds(instance, &mixed, known) {
        master.add(pattern);
    }
    let mut rounds = Rounds { instance, counts, sizes, meter, master, least, bought };
    let each = steps / u64::try_from(sizes.len()).unwrap_or(1).max(1);
    rounds.cut(each);
    if !instance.trimmer {
        rounds.laid(each);
    }
    rounds.least
}

/// The programme, and what has been shown by it.
struct Rounds<'a> {
    instance: &'a Instance,
    counts: &'a [u64],
    sizes: &'a [MixedSize],
    meter: &'a Meter<'a>,
    master: Programme,
    least: u128,
    bought: u128,
}

impl Rounds<'_> {
    /// Rounds with sheets that a trimmer can cut. They show nothing of others, but bring the worths near to what they will be.
    fn cut(&mut self, steps: u64) {
        let pricers = self.sizes.iter().map(|size| GuillotinePricer::new(&size.problem, steps));
        let Some(mut pricers) = pricers.collect::<Option<Vec<_>>>() else { return };
        if self.instance.trimmer {
            self.raise(&mut pricers, MORE);
            return;
        }
        for _ in 0..MOST_CUT_ROUNDS {
            let (worth, _) = self.worth();
            let before: u64 = pricers.iter().map(Pricing::steps).sum();
            let mut new = false;
            for (size, pricer) in self.sizes.iter().zip(&mut pricers).filter(|(size, _)| size.is_bought()) {
                for placed in pricer.sheets(&size.worths(&worth), limit(size, MORE)) {
                    self.master.add(size.pattern(placed.iter().map(|put| size.kinds[put.kind])));
                    new = true;
                }
            }
            let spent = before - pricers.iter().map(Pricing::steps).sum::<u64>();
            if !new || !self.meter.step(spent) || pricers.iter().any(|pricer| pricer.steps() == 0) {
                break;
            }
        }
    }

    /// Rounds with sheets of any kind. What a sheet may be worth at most is brought down in turns: the first are soon done, and show
    /// something even where the last are not.
    fn laid(&mut self, steps: u64) {
        let pricers = self.sizes.iter().map(|size| Pricer::new(&size.problem, HARD_SET, steps));
        let Some(mut pricers) = pricers.collect::<Option<Vec<_>>>() else { return };
        let (_, sum) = self.worth();
        let Some(dearest) = dearest(self.instance) else { return };
        // By so much the programme is above what is known, which may be nothing.
        let mut above = (sum / share(self.least, dearest) - 1.0).min(1.0);
        loop {
            above *= 0.5;
            let more = whole(nearly(SHEET_WORTH) * above).max(MORE);
            if self.least >= self.bought || !self.raise(&mut pricers, more) || more == MORE {
                return;
            }
        }
    }

    /// What each kind is worth, and the programme's sum.
    fn worth(&mut self) -> (Vec<u64>, f64) {
        let (sum, worth, exchanges) = self.master.solve(MOST_EXCHANGES);
        let exchanges = u64::try_from(exchanges + 1).unwrap_or(1);
        self.meter.step(self.master.exchange_steps().saturating_mul(exchanges));
        (worth.into_iter().map(whole_worth).collect(), sum)
    }

    /// Adds sets that are worth more than their sheets, by such a part of what the dearest costs, until there are none: that shows
    /// something. False if the steps do not suffice.
    fn raise<P: Pricing>(&mut self, pricers: &mut [P], more: u64) -> bool {
        while pricers.iter().all(|pricer| pricer.steps() > 0) {
            let before: u64 = pricers.iter().map(Pricing::steps).sum();
            let (worth, _) = self.worth();
            let mut most = Vec::new();
            let mut added = 0;
            for (size, pricer) in self.sizes.iter().zip(pricers.iter_mut()) {
                let heavy = pricer.heavy(&size.worths(&worth), limit(size, more));
                most.push(heavy.most);
                // Of a size of which there is enough none is bought.
                if size.is_bought() {
                    added += take(size, &heavy, pricer, &mut self.master);
                }
            }
            let most: Option<Vec<u64>> = most.into_iter().collect();
            if let Some(most) = &most {
                let shown = next_sum(self.instance, needed(self.counts, &worth, self.sizes, most));
                self.least = self.least.max(shown.min(self.bought));
            }
            let spent = before - pricers.iter().map(Pricing::steps).sum::<u64>();
            if !self.meter.step(spent) {
                return false;
            }
            if added == 0 || self.least >= self.bought {
                return most.is_some();
            }
        }
        false
    }
}

/// What a sheet of this size may be worth.
fn limit(size: &MixedSize, more: u64) -> u64 {
    whole(nearly(SHEET_WORTH + more) * size.share)
}

/// Adds what is worth more than a sheet of this size; how many.
fn take<P: Pricing>(size: &MixedSize, heavy: &Heavy, pricer: &mut P, master: &mut Programme) -> usize {
    let sets: Vec<&Set> = heavy.sets.iter().rev().take(MOST_ADDED).collect();
    for set in &sets {
        let set = pricer.filled(set).unwrap_or_else(|| (*set).clone());
        master.add(size.pattern(set.iter().map(|&kind| size.kinds[usize::from(kind)])));
    }
    sets.len()
}

/// The boxes as they are laid, which is no less than what a trimmer cuts out.
fn as_laid(instance: &Instance) -> Option<MixedSizes> {
    if instance.kinds.len() > MOST_KINDS {
        return None;
    }
    let members =
        instance.kinds.iter().zip(0..).flat_map(|(kind, number)| kind.members().iter().map(move |m| (m.0, number)));
    Some(MixedSizes { counts: instance.counts(), sizes: sizes_as_laid(instance), of_items: members.collect() })
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
    let dearest = dearest(instance)?;
    let mut sizes = Vec::new();
    for (number, (size, relaxation)) in instance.sizes.iter().zip(of_size).enumerate() {
        let goes =
            kinds.iter().enumerate().filter(|(_, (ways, _))| ways.get(number).is_some_and(|ways| !ways.is_empty()));
        let (kinds, boxes): (Vec<usize>, Vec<BoxType>) =
            goes.map(|(kind, (ways, &count))| (kind, BoxType { orientations: ways[number].clone(), count })).unzip();
        if !boxes.is_empty() {
            sizes.push(MixedSize::new(number, size, dearest, relaxation.problem_of(&boxes), kinds));
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
