// SPDX-License-Identifier: MIT
//! The bound by patterns: what each box is worth if sheets could be used in part, and the most that one sheet can hold.
//!
//! In: boxes, a sheet, sets of boxes that are known to fit on one, how many sheets a layout takes. Out: a number of sheets
//! that no layout can beat, and the sets met on the way. Never: trusts a floating number; they only choose the worths.
//!
//! Whatever whole worths the boxes are given: if no sheet can hold more than `m`, all boxes together need at least their
//! worth by `m` sheets, rounded up (Farley 1990). The best worths are the dual values of the covering programme, to which
//! the heaviest sets are added one after the other (Gilmore and Gomory 1961). Conflicts between boxes, weighted or not, are
//! among the worths that this finds.

use std::collections::BTreeSet;

use crate::layout::bound::pricing::{Heavy, MOST_KINDS, Pricer, Room, Set};
use crate::layout::bound::simplex::Programme;
use crate::layout::numbers::{nearly, whole};

/// A whole box is worth this at most.
const ONE: u64 = 1 << 30;
/// Questions after which the rows of sizes are chosen anew.
const LOOK_ROUND: usize = 12;
/// Pairs of dual functions that the rows of sizes are chosen from.
const PAIRS: usize = 1000;
/// Exchanges between two questions.
const MOST_EXCHANGES: usize = 400;
/// Sets of one answer that are added.
const MOST_ADDED: usize = 6;

/// What came of it.
#[derive(Clone, Debug, Default)]
pub(crate) struct Outcome {
    /// No layout takes fewer sheets.
    pub(crate) bound: u64,
    /// Used in part, the sheets met would do with fewer, so there may be a better layout.
    pub(crate) hope: bool,
    /// Sets that fit on one sheet, in the order in which they were met.
    pub(crate) sets: Vec<Set>,
}

/// How the caller takes part.
pub(crate) trait Helper {
    /// Quick guesses of sets that are worth much on one sheet; and the steps they took.
    fn guess(&mut self, worth: &[u64]) -> (Vec<Set>, u64);

    /// Hears of steps; false to end it.
    fn step(&mut self, steps: u64) -> bool;
}

/// Raises the bound `known` towards `sheets`. `seeds` are sets that fit on a sheet.
pub(crate) fn bound(
    room: &Room,
    seeds: &[Set],
    known: u64,
    sheets: u64,
    budget: u64,
    helper: &mut dyn Helper,
) -> Outcome {
    let mut outcome = Outcome { bound: known, ..Outcome::default() };
    if room.boxes.len() > MOST_KINDS {
        return outcome;
    }
    let Some(mut pricer) = Pricer::new(room, PAIRS, budget) else { return outcome };
    // A little more of each keeps the programme from going round in circles.
    let demand =
        |(kind, count): (usize, u64)| nearly(count) * (1.0 + 1e-7 * nearly(u64::try_from(kind % 17).unwrap_or(0)));
    let counts: Vec<u64> = room.boxes.iter().map(|boxed| boxed.count).collect();
    let mut programme = Programme::new(counts.iter().copied().enumerate().map(demand).collect());
    let mut there: BTreeSet<Set> = BTreeSet::new();
    for seed in seeds {
        if there.insert(seed.clone()) {
            programme.add(pattern(seed));
        }
    }
    let mut goal = sheets;
    let mut questions = 0_usize;
    while pricer.steps > 0 {
        let before = pricer.steps;
        let (sum, worth, exchanges) = programme.solve(MOST_EXCHANGES);
        let cost = programme.exchange_steps().saturating_mul(u64::try_from(exchanges + 1).unwrap_or(1));
        pricer.steps = pricer.steps.saturating_sub(cost);
        // The programme's own sum falls from turn to turn; what it has fallen below cannot be shown by it.
        goal = goal.min(whole((sum - 1e-6).ceil()));
        outcome.hope = goal < sheets;
        if goal <= outcome.bound {
            break;
        }
        let worth: Vec<u64> = worth.iter().map(|&worth| whole(worth.min(1.0) * nearly(ONE))).collect();
        let all = counts.iter().zip(&worth).map(|(&count, &worth)| u128::from(count) * u128::from(worth));
        let all = all.fold(0, u128::saturating_add);
        let (guesses, cost) = helper.guess(&worth);
        pricer.steps = pricer.steps.saturating_sub(cost);
        let weight = |set: &Set| set.iter().map(|&kind| worth[usize::from(kind)]).sum::<u64>();
        let mut added = false;
        for guess in guesses {
            if weight(&guess) > ONE + ONE / 10_000 && there.insert(guess.clone()) {
                programme.add(pattern(&guess));
                added = true;
            }
        }
        if added {
            if !helper.step(before - pricer.steps) {
                break;
            }
            continue;
        }
        if questions.is_multiple_of(LOOK_ROUND) {
            pricer.look_round(&worth);
        }
        questions += 1;
        // If no sheet holds more than this, it takes `goal` of them.
        let limit = all.saturating_sub(1) / u128::from((goal - 1).max(1));
        let Heavy { sets, most } = pricer.heavy(&worth, u64::try_from(limit).unwrap_or(u64::MAX));
        if let Some(most) = most {
            let needed = u64::try_from(all.div_ceil(u128::from(most.max(1)))).unwrap_or(0);
            outcome.bound = outcome.bound.max(needed);
        }
        if sets.is_empty() || outcome.bound >= goal || !helper.step(before - pricer.steps) {
            break;
        }
        for set in sets.iter().rev().take(MOST_ADDED) {
            if let Some(filled) = pricer.filled(set) {
                there.insert(filled.clone());
                programme.add(pattern(&filled));
                outcome.sets.push(filled);
            } else {
                there.insert(set.clone());
                programme.add(pattern(set));
            }
        }
    }
    outcome
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
