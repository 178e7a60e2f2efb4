// SPDX-License-Identifier: MIT
//! The linear programming bound by patterns: what each box is worth if sheets could be used in part, and the most that one sheet can hold.
//!
//! In: boxes, a sheet, sets of boxes that are known to fit on one, how many sheets a layout takes. Out: a number of sheets
//! that no layout can beat, and the sets met on the way. Never: trusts a floating number; they only choose the worths.
//!
//! Whatever whole worths the boxes are given: if no sheet can hold more than `m`, all boxes together need at least their
//! worth by `m` sheets, rounded up (Farley 1990). The best worths are the dual values of the covering programme, to which
//! the heaviest sets are added one after the other (Gilmore and Gomory 1961). Conflicts between boxes, weighted or not, are
//! among the worths that this finds.

use std::collections::BTreeSet;

use crate::layout::bound::fitting::Set;
use crate::layout::bound::heaviest_set::Heavy;
use crate::layout::bound::pricing::{Pricing, SHEET_WORTH, whole_worth};
use crate::layout::bound::simplex::Programme;
use crate::layout::model::one_size::MOST_KINDS;
use crate::layout::numbers::{nearly, share, sheets_up};

/// By so much a set must be worth more than a sheet to be added: a ten thousandth, far above what worths are off by.
const MORE: u64 = SHEET_WORTH / 10_000;
/// Demands are raised by up to 17 times this part of themselves, each by another, so that the programme does not go round in
/// circles among equal bases; far less than a box.
const SPREAD: f64 = 1e-7;
/// Exchanges between two questions.
const MOST_EXCHANGES: usize = 400;
/// Sets of one answer that are added.
const MOST_ADDED: usize = 6;

/// Short of a proof by less than this, a thirtieth of a sheet, it is looked at which sheets a layout could have.
const CLOSE: u64 = SHEET_WORTH / 30;

/// What came of it.
#[derive(Clone, Debug)]
pub(crate) struct Outcome {
    /// No layout takes fewer sheets.
    pub(crate) bound: u64,
    /// Used in part, the sheets met would do with fewer, so there may be a better layout.
    pub(crate) hope: bool,
    /// So many of them, counting parts.
    pub(crate) sum: f64,
    /// What the boxes were worth at last.
    pub(crate) worth: Vec<u64>,
    /// What the boxes are worth where that is just short of a proof, and the most that a sheet holds by it.
    pub(crate) almost: Option<(Vec<u64>, u64)>,
}

/// How the caller takes part.
pub(crate) trait ColumnSource {
    /// Sets that are worth much on one sheet, found quickly; and the steps they took.
    fn columns(&mut self, worth: &[u64]) -> (Vec<Set>, u64);

    /// Hears of steps; false to end it.
    fn step(&mut self, steps: u64) -> bool;
}

/// Raises the bound `known` towards `sheets`. `seeds` are sets that fit on a sheet.
pub(crate) fn bound(
    counts: &[u64],
    seeds: &[Set],
    known: u64,
    sheets: u64,
    pricer: &mut dyn Pricing,
    source: &mut dyn ColumnSource,
) -> Outcome {
    let mut outcome = Outcome { bound: known, hope: false, sum: 0.0, worth: Vec::new(), almost: None };
    if counts.len() > MOST_KINDS {
        return outcome;
    }
    let mut master = Master::new(counts);
    for seed in seeds {
        master.add_new(seed);
    }
    let mut goal = sheets;
    let mut answered = false;
    while pricer.steps() > 0 {
        let before = pricer.steps();
        let (sum, worth, exchanges) = master.programme.solve(MOST_EXCHANGES);
        let cost = master.programme.exchange_steps().saturating_mul(u64::try_from(exchanges + 1).unwrap_or(1));
        pricer.spend(cost);
        // The programme's own sum falls from turn to turn; what it has fallen below cannot be shown by it.
        goal = goal.min(sheets_up(sum));
        outcome.hope = goal < sheets;
        outcome.sum = sum;
        // Where the programme says that the bound may do, what is worth most then shows which sheets a layout could have.
        let short = goal <= outcome.bound;
        let closing =
            outcome.bound + 1 == sheets && sum > nearly(outcome.bound) - share(CLOSE.into(), SHEET_WORTH.into());
        // With nothing exchanged, the question that was answered would be asked again.
        if short && !closing || (answered && exchanges == 0) {
            break;
        }
        let worth: Vec<u64> = worth.iter().map(|&worth| whole_worth(worth)).collect();
        outcome.worth.clone_from(&worth);
        let (columns, cost) = source.columns(&worth);
        pricer.spend(cost);
        let weight = |set: &Set| set.iter().map(|&kind| worth[usize::from(kind)]).sum::<u64>();
        let heavy = columns.iter().filter(|column| weight(column) > SHEET_WORTH + MORE);
        if heavy.filter(|column| master.add_new(column)).count() > 0 {
            if !source.step(before - pricer.steps()) {
                break;
            }
            continue;
        }
        let all = counts.iter().zip(&worth).map(|(&count, &worth)| u128::from(count) * u128::from(worth));
        let all = all.fold(0, u128::saturating_add);
        // If no sheet holds more than this, it takes `goal` of them.
        let limit = all.saturating_sub(1) / u128::from((goal - 1).max(1));
        let limit = if short { SHEET_WORTH + MORE } else { u64::try_from(limit).unwrap_or(u64::MAX) };
        let Heavy { sets, most } = pricer.heavy(&worth, limit);
        answered = most.is_some();
        if let Some(most) = most {
            let needed = u64::try_from(all.div_ceil(u128::from(most.max(1)))).unwrap_or(0);
            outcome.bound = outcome.bound.max(needed);
            let hold = u128::from(outcome.bound) * u128::from(most);
            let close = outcome.bound + 1 == sheets && hold < all.saturating_add(u128::from(CLOSE));
            outcome.almost = close.then(|| (worth.clone(), most));
        }
        if sets.is_empty() || (!short && outcome.bound >= goal) || !source.step(before - pricer.steps()) {
            break;
        }
        for set in sets.iter().rev().take(MOST_ADDED) {
            master.add(pricer.filled(set).as_ref().unwrap_or(set));
        }
    }
    outcome
}

/// The restricted master programme: the demands, and the patterns met so far.
struct Master {
    programme: Programme,
    known: BTreeSet<Set>,
}

impl Master {
    fn new(counts: &[u64]) -> Self {
        let spread = |kind: usize| 1.0 + SPREAD * nearly(u64::try_from(kind % 17).unwrap_or(0));
        let demand = counts.iter().enumerate().map(|(kind, &count)| nearly(count) * spread(kind)).collect();
        Self { programme: Programme::new(demand), known: BTreeSet::new() }
    }

    fn add(&mut self, set: &Set) {
        self.known.insert(set.clone());
        self.programme.add(pattern(set));
    }

    /// Adds a set unless it is there. Says whether it did.
    fn add_new(&mut self, set: &Set) -> bool {
        let new = !self.known.contains(set);
        if new {
            self.add(set);
        }
        new
    }
}

fn pattern(set: &Set) -> Vec<(usize, f64)> {
    let mut pattern: Vec<(usize, f64)> = Vec::new();
    for &kind in set {
        let kind = usize::from(kind);
        match pattern.last_mut() {
            Some((last, count)) if *last == kind => *count += 1.0,
            _ => pattern.push((kind, 1.0)),
        }
    }
    pattern
}
