// SPDX-License-Identifier: MIT
//! Pricing: the sets of boxes that are worth most on one sheet, by a given worth of each box.
//!
//! In: boxes, a sheet, what each box is worth in whole numbers. Out: sets of boxes that share a sheet and are worth more
//! than asked for, or the proof that there are none. Never: proves by rounding; a set that it could not settle counts as
//! one that fits.
//!
//! These are the columns of Gilmore and Gomory (1961). The branch and bound over sets is held short by knapsacks: sizes
//! from pairs of dual feasible functions, of which no sheet holds more than the whole.

use std::cmp::Reverse;

use crate::layout::bound::dual_pairs::{DualPairs, Pair};
use crate::layout::bound::fitting::{FitOracle, Set};
use crate::layout::bound::heaviest_set::{Heavy, KNAPSACKS, Knapsack, heaviest};
use crate::layout::model::one_size::OneSizeProblem;
use crate::layout::model::packing::PlacedBox;
use crate::layout::numbers::{nearly, whole};

/// What a whole sheet is worth, and so a box at most.
pub(crate) const SHEET_WORTH: u64 = 1 << 30;
/// Steps that a set may take which is worth more than its sheet.
pub(crate) const EACH_HEAVY: u64 = 1_000_000;
/// Pairs of dual functions that the knapsacks are chosen from.
const PAIRS: usize = 1000;
/// Pairs of functions that are looked at again.
const CANDIDATES: usize = 300;
/// Knapsacks that those of one question are chosen from.
const SHORTLIST: usize = 48;
/// Questions after which the knapsacks are chosen anew.
const QUESTIONS_A_CHOICE: usize = 12;

/// A linear programme's worth of one box, in whole numbers.
pub(crate) fn whole_worth(worth: f64) -> u64 {
    whole(worth.min(1.0) * nearly(SHEET_WORTH))
}

/// Whoever is asked for heavy sets again and again.
pub(crate) trait Pricing {
    /// Steps that are left.
    fn steps(&self) -> u64;

    /// Counts steps that were taken for it elsewhere.
    fn spend(&mut self, steps: u64);

    /// Looks for sets that are worth more than `limit`.
    fn heavy(&mut self, worth: &[u64], limit: u64) -> Heavy;

    /// Adds boxes to a set as long as some fit. None if it is not certain that the set itself fits.
    fn filled(&mut self, set: &Set) -> Option<Set>;
}

/// Branch and bound over sets, for layouts of any kind.
pub(crate) struct Pricer<'a> {
    oracle: FitOracle<'a>,
    pairs: DualPairs<'a>,
    questions: usize,
    /// Pairs of functions that were among the best once.
    candidates: Vec<Pair>,
    /// The sizes that the best of them give.
    shortlist: Vec<Vec<u32>>,
}

impl<'a> Pricer<'a> {
    /// For so many steps in all, and so many for each set that matters.
    pub(crate) fn new(problem: &'a OneSizeProblem, each: u64, steps: u64) -> Option<Self> {
        let pairs = DualPairs::new(problem.width, problem.height, &problem.boxes, PAIRS)?;
        let oracle = FitOracle::new(problem, each, steps);
        Some(Self { oracle, pairs, questions: 0, candidates: Vec::new(), shortlist: Vec::new() })
    }

    /// How a set lies on one sheet, where that is certain.
    pub(crate) fn laid(&mut self, set: &[u8]) -> Option<Vec<PlacedBox>> {
        self.oracle.laid(set)
    }

    /// Chooses the pairs of functions anew, for boxes of about this worth.
    fn choose_pairs(&mut self, worth: &[u64]) {
        if self.candidates.is_empty() {
            self.candidates = self.pairs.pairs().collect();
        }
        self.oracle.spend_many(self.candidates.len() * worth.len() * 12);
        self.candidates = self.pairs.strongest(&self.candidates, worth, CANDIDATES);
        let chosen = self.candidates.iter().take(SHORTLIST);
        self.shortlist = chosen.map(|&pair| self.pairs.sizes(pair)).collect();
    }

    /// The knapsacks that hold these boxes to the least worth.
    fn knapsacks(&mut self, worth: &[u64], order: &[usize]) -> Vec<Knapsack> {
        self.oracle.spend_many(self.shortlist.len() * order.len() * 2);
        let boxes = &self.oracle.problem().boxes;
        let mut knapsacks: Vec<(u64, Knapsack)> = Vec::new();
        for sizes in &self.shortlist {
            let knapsack = Knapsack::new(sizes, worth, order);
            let counts = |place: usize| boxes[order[place]].count;
            knapsacks.push((knapsack.load(0, u128::MAX, &|place| worth[order[place]], &counts), knapsack));
        }
        knapsacks.sort_by_key(|(load, _)| *load);
        knapsacks.truncate(KNAPSACKS);
        knapsacks.into_iter().map(|(_, knapsack)| knapsack).collect()
    }
}

impl Pricing for Pricer<'_> {
    fn steps(&self) -> u64 {
        self.oracle.steps()
    }

    fn spend(&mut self, steps: u64) {
        self.oracle.spend(steps);
    }

    fn heavy(&mut self, worth: &[u64], limit: u64) -> Heavy {
        if self.questions.is_multiple_of(QUESTIONS_A_CHOICE) {
            self.choose_pairs(worth);
        }
        self.questions += 1;
        let mut order: Vec<usize> = (0..worth.len()).filter(|&kind| worth[kind] > 0).collect();
        order.sort_by_key(|&kind| (Reverse(worth[kind]), kind));
        let knapsacks = self.knapsacks(worth, &order);
        heaviest(&mut self.oracle, worth, order, knapsacks, limit)
    }

    fn filled(&mut self, set: &Set) -> Option<Set> {
        self.oracle.filled(set)
    }
}
