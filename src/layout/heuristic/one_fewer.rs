// SPDX-License-Identifier: MIT
//! One sheet fewer: several ruin-and-recreate searches side by side, each of which has given up another sheet.
//!
//! In: a packing. Out: the best that was found, with whatever has no place on sheets of its own. The lowest number that gets
//! there wins, so threads have no say.

use std::sync::atomic::{AtomicUsize, Ordering};

use crate::layout::heuristic::column_pool::ColumnPool;
use crate::layout::heuristic::constructive::{in_one_go, supplies};
use crate::layout::heuristic::late_acceptance::Limits;
use crate::layout::heuristic::objective::objective;
use crate::layout::heuristic::partial_packing::PartialPacking;
use crate::layout::heuristic::ruin_recreate::{self, Ruin, Ruined};
use crate::layout::heuristic::set_covering::LONG_RUN;
use crate::layout::heuristic::sheet_builder::SheetBuilder;
use crate::layout::model::instance::Instance;
use crate::layout::model::packing::{PackedSheet, Packing, PlacedBox};
use crate::layout::parallel::{self, Meter};

/// So many searches are run side by side towards one sheet fewer; the lowest number that gets there wins.
const RUNS: usize = 4;
/// Sheets that a search works on. What is beyond stays as it was.
const MOST_SHEETS: usize = 120;
/// A search cannot do anything sensible with more loose boxes than this.
const MOST_LOOSE: u64 = 2000;

/// Tries to do with one sheet fewer. Also returns the steps it took, those of the searches that count; the sheets that these met
/// go to the pool.
pub(crate) fn one_fewer<B: Ruin>(
    instance: &Instance,
    from: &Packing,
    budget: u64,
    threads: usize,
    meter: &Meter,
    pool: &mut ColumnPool,
) -> Option<(Packing, u64)> {
    if from.left.iter().fold(0, |sum: u64, &count| sum.saturating_add(count)) > MOST_LOOSE {
        return None;
    }
    // What is searched comes out as single sheets: of a long run, few.
    let most = if from.sheets() > LONG_RUN { instance.kinds.len() + 2 } else { MOST_SHEETS };
    let (start, kept) = PartialPacking::unroll(from, most);
    let share = budget / u64::try_from(RUNS).unwrap_or(1);
    // Of several sizes no sheets are chosen from.
    let keeps = instance.one_size();
    let winner = AtomicUsize::new(usize::MAX);
    let found = parallel::run(threads, RUNS, &|number| {
        let mut state = start.clone();
        if from.complete() {
            give_up_one(instance, &mut state, number);
        }
        if u64::try_from(state.unplaced.len()).unwrap_or(u64::MAX) > MOST_LOOSE {
            return None;
        }
        let beaten = || winner.load(Ordering::Relaxed) < number;
        let step = |steps: u64| meter.step(steps) && !beaten();
        if beaten() {
            return None;
        }
        let limits = Limits { budget: share, step: &step };
        let stream = u64::try_from(number).unwrap_or(0);
        let ruined = ruin_recreate::run::<B>(instance, state, (stream, keeps), &limits);
        if ruined.state.unplaced.is_empty() {
            winner.fetch_min(number, Ordering::Relaxed);
        }
        Some(ruined)
    });
    let mut spent = 0;
    let mut best: Option<Packing> = None;
    for Ruined { state, steps, met } in found.into_iter().flatten() {
        spent += steps;
        pool.keep_met(&met);
        let done = state.unplaced.is_empty();
        let packing = completed::<B>(instance, state, &kept);
        if best.as_ref().is_none_or(|best| objective::<B>(&packing, instance) < objective::<B>(best, instance)) {
            best = Some(packing);
        }
        // Later runs may or may not have been called off by this one, so they do not count.
        if done {
            break;
        }
    }
    best.map(|packing| (packing, spent))
}

/// Each search starts by giving up another of the emptiest sheets; the dearer ones where prices differ.
fn give_up_one(instance: &Instance, state: &mut PartialPacking, number: usize) {
    let mut candidates: Vec<usize> = (0..state.sheets.len()).collect();
    candidates.sort_by_key(|&sheet| {
        let one = &state.sheets[sheet];
        let size = &instance.sizes[one.size];
        let filled: i64 = one.placed.iter().map(PlacedBox::area).sum();
        (size.supply.is_some(), filled)
    });
    if !candidates.is_empty() {
        state.drop_sheet(candidates[number % candidates.len().min(RUNS)]);
    }
}

/// Puts what a search could not place on sheets of its own.
fn completed<B: SheetBuilder>(instance: &Instance, mut state: PartialPacking, kept: &[PackedSheet]) -> Packing {
    let mut left = vec![0; instance.kinds.len()];
    for kind in state.unplaced.drain(..) {
        left[kind] += 1;
    }
    let mut supply = supplies(instance);
    let mut laid: Vec<PackedSheet> = kept.to_vec();
    laid.extend(state.into_laid());
    for one in &laid {
        supply[one.size] = supply[one.size].map(|count| count.saturating_sub(one.times));
    }
    let rest = in_one_go::<B>(instance, &left, &supply);
    laid.extend(rest.laid);
    Packing { laid, left: rest.left }
}
