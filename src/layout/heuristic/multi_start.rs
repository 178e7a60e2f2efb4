// SPDX-License-Identifier: MIT
//! Multi-start: constructive searches by all rules over all orders, then over orders judged a little wrong.
//!
//! In: the instance, steps that may be spent. Out: the best packing; the sheets met go to the pool of columns. Never: lets
//! threads have a say.

use std::sync::atomic::{AtomicU64, Ordering};

use crate::layout::heuristic::column_pool::ColumnPool;
use crate::layout::heuristic::constructive::{Construction, SheetChoice, build, supplies};
use crate::layout::heuristic::objective::{Objective, objective};
use crate::layout::heuristic::rule::Rule;
use crate::layout::heuristic::sheet_builder::SheetBuilder;
use crate::layout::heuristic::sort_key::{SortKey, by_size, perturbed};
use crate::layout::model::instance::Instance;
use crate::layout::model::packing::Packing;
use crate::layout::parallel::{self, Meter};
use crate::layout::random::Random;

/// In percent, how much sizes are overrated at most in orders judged wrong.
const OVERRATED: usize = 30;
/// Orders judged wrong go by so many of the keys, the first ones.
const PERTURBED_KEYS: usize = 3;

/// How long is tried.
pub(crate) struct StartEffort {
    /// No search begins when those before it have taken so many steps.
    pub(crate) steps: u64,
    /// Orders judged a little wrong, for each rule of choosing a sheet.
    pub(crate) perturbed_orders: usize,
}

/// All rules over all orders, then orders judged a little wrong.
pub(crate) fn multi_start<B: SheetBuilder>(
    instance: &Instance,
    effort: &StartEffort,
    threads: usize,
    meter: &Meter,
    columns: &mut ColumnPool,
) -> Packing {
    let mut orders: Vec<Vec<usize>> = Vec::new();
    for key in SortKey::ALL {
        let order = by_size(instance, key);
        if !orders.contains(&order) {
            orders.push(order);
        }
    }
    let choices: &[SheetChoice] = if instance.sizes.len() > 1 { &SheetChoice::ALL } else { &SheetChoice::ALL[..1] };
    let rules = Rule::sets(instance.sizes.len() > 1);
    let regular = orders.len() * rules.len() * choices.len();
    let searches = regular + effort.perturbed_orders * choices.len();
    let construction_of = |number: usize| {
        let choice = choices[number / rules.len() % choices.len()];
        let order = number / rules.len() / choices.len();
        (orders.get(order).cloned(), rules[number % rules.len()], choice)
    };
    // What each search took. Searches begin while those before them have not used up the budget. With several threads one
    // may begin too early; its result is not looked at, so the threads change nothing.
    let taken: Vec<AtomicU64> = (0..searches).map(|_| AtomicU64::new(0)).collect();
    let in_time = |number: usize| {
        let before = taken[..number].iter().map(|steps| steps.load(Ordering::Relaxed)).fold(0, u64::saturating_add);
        before < effort.steps
    };
    let packings = parallel::run(threads, searches, &|number| {
        // The first search is run whatever the watch says, so that there is something to return.
        if number > 0 && (meter.stopped() || !in_time(number)) {
            return None;
        }
        let (order, rules, choice) = construction_of(number);
        let order = order.unwrap_or_else(|| {
            let mut random = Random::new(u64::try_from(number).unwrap_or(0));
            perturbed(instance, SortKey::ALL[number % PERTURBED_KEYS], OVERRATED, &mut random)
        });
        let mut builder = B::default();
        let how = Construction { order: &order, rules, choice };
        let packing = build(instance, &how, instance.counts(), supplies(instance), &mut builder);
        let steps = builder.steps();
        taken[number].store(steps, Ordering::Relaxed);
        meter.step(steps);
        Some(packing)
    });
    let mut best: Option<(Objective, Packing)> = None;
    for packing in
        packings.into_iter().enumerate().filter(|&(number, _)| in_time(number)).filter_map(|(_, packing)| packing)
    {
        let objective = objective::<B>(&packing, instance);
        if instance.one_size() {
            columns.keep_all(&packing);
        }
        if best.as_ref().is_none_or(|(best, _)| objective < *best) {
            best = Some((objective, packing));
        }
    }
    best.map_or_else(|| Packing { laid: Vec::new(), left: instance.counts() }, |(_, packing)| packing)
}
