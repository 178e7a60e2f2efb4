// SPDX-License-Identifier: MIT
//! Late acceptance: a change is taken if it is no worse than what was held a number of changes ago.
//!
//! In: a neighbourhood (how a state is changed), a state, steps that may be spent. Out: the best state met. Never: knows
//! what a state is (Burke and Bykov 2017).

use crate::layout::random::Random;

/// Steps between two looks at the watch.
const STEPS_BETWEEN_REPORTS: u64 = 20_000;

/// How states are changed.
pub(crate) trait Neighbourhood {
    /// What is changed.
    type State: Clone;

    /// Thinks of a changed state and keeps it; how far that is from the goal, which is 0.
    fn change(&mut self, state: &Self::State, random: &mut Random) -> u128;

    /// Makes the state the one last thought of.
    fn take(&mut self, state: &mut Self::State);

    /// The steps counted since this was last asked.
    fn steps(&mut self) -> u64;
}

/// How long is searched.
pub(crate) struct Limits<'a> {
    /// Counted steps that may be spent.
    pub(crate) budget: u64,
    /// Hears of steps; false when the search is called off.
    pub(crate) step: &'a (dyn Fn(u64) -> bool + Sync),
}

/// The best state met from one that is so far from the goal, and the steps it took.
pub(crate) fn search<N: Neighbourhood>(
    neighbourhood: &mut N,
    memory: usize,
    limits: &Limits,
    (mut state, mut now): (N::State, u128),
    random: &mut Random,
) -> (N::State, u64) {
    let (mut best, mut least) = (state.clone(), now);
    let mut memory = vec![now; memory];
    let (mut spent, mut told) = (0, 0);
    let mut turn = 0;
    while least > 0 && spent < limits.budget {
        let then = neighbourhood.change(&state, random);
        let slot = turn % memory.len();
        turn += 1;
        if then <= now || then <= memory[slot] {
            neighbourhood.take(&mut state);
            now = then;
            if now < least {
                least = now;
                best.clone_from(&state);
            }
        }
        memory[slot] = now;
        spent += neighbourhood.steps();
        if spent - told >= STEPS_BETWEEN_REPORTS {
            if !(limits.step)(spent - told) {
                return (best, spent);
            }
            told = spent;
        }
    }
    (limits.step)(spent - told);
    (best, spent)
}
