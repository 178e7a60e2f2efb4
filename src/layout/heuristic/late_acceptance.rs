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

    /// Thinks of a changed state and keeps it; how far that is from the goal, which is 0. None as soon as it is seen to be
    /// farther than `most`.
    fn change(&mut self, state: &Self::State, most: u128, random: &mut Random) -> Option<u128>;

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
        let slot = turn % memory.len();
        turn += 1;
        if let Some(then) = neighbourhood.change(&state, now.max(memory[slot]), random) {
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

#[cfg(test)]
mod tests {
    use super::*;

    /// Walks along a line towards 0, and notes what it was allowed and what was taken.
    struct LineWalk {
        thought: u128,
        most: u128,
        farther: u32,
    }

    impl Neighbourhood for LineWalk {
        type State = u128;

        fn change(&mut self, state: &u128, most: u128, random: &mut Random) -> Option<u128> {
            self.thought = (state + u128::try_from(random.below(7)).unwrap_or(0)).saturating_sub(3);
            self.most = most;
            self.farther += u32::from(self.thought > *state && self.thought <= most);
            (self.thought <= most).then_some(self.thought)
        }

        fn take(&mut self, state: &mut u128) {
            assert!(self.thought <= self.most);
            *state = self.thought;
        }

        fn steps(&mut self) -> u64 {
            1
        }
    }

    /// It reaches the goal; changes away from it are allowed at times, as far as what was held before, and none beyond is taken.
    #[test]
    fn a_walk_reaches_its_goal_by_changes_that_may_be_worse_for_a_while() {
        let mut walk = LineWalk { thought: 0, most: 0, farther: 0 };
        let limits = Limits { budget: 100_000, step: &|_| true };
        let (best, steps) = search(&mut walk, 20, &limits, (400, 400), &mut Random::new(3));
        assert_eq!(best, 0);
        assert!(steps < 10_000 && walk.farther > 0, "{steps} steps, {} farther", walk.farther);
    }
}
