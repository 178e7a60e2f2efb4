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
use crate::layout::bound::heaviest_set::{Heavy, KNAPSACKS, all_heavy, heaviest};
use crate::layout::bound::knapsack::Knapsack;
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
    /// Heavy sets that were filled, each of which lies on a sheet.
    met: Vec<Set>,
}

impl<'a> Pricer<'a> {
    /// For so many steps in all, and so many for each set that matters.
    pub(crate) fn new(problem: &'a OneSizeProblem, each: u64, steps: u64) -> Option<Self> {
        let pairs = DualPairs::new(problem.width, problem.height, &problem.boxes, PAIRS)?;
        let oracle = FitOracle::new(problem, each, steps);
        Some(Self { oracle, pairs, questions: 0, candidates: Vec::new(), shortlist: Vec::new(), met: Vec::new() })
    }

    /// Heavy sets that were filled, each of which lies on a sheet.
    pub(crate) fn met(&mut self) -> Vec<Set> {
        std::mem::take(&mut self.met)
    }

    /// How a set lies on one sheet, where that is certain.
    pub(crate) fn laid(&mut self, set: &[u8]) -> Option<Vec<PlacedBox>> {
        self.oracle.laid(set)
    }

    /// All sets that are worth more than `limit`, of kinds of which `counts` has any; no more than `most` sets. None if it is not
    /// certain that these are all.
    pub(crate) fn all_heavy(&mut self, counts: &[u64], worth: &[u64], limit: u64, most: usize) -> Option<Vec<Set>> {
        let (order, knapsacks) = self.question(worth, |kind| counts[kind] > 0);
        all_heavy(&mut self.oracle, worth, order, knapsacks, (limit, most))
    }

    /// Those kinds that count, the most worth first, and what holds them short.
    fn question(&mut self, worth: &[u64], counts: impl Fn(usize) -> bool) -> (Vec<usize>, Vec<Knapsack>) {
        if self.questions.is_multiple_of(QUESTIONS_A_CHOICE) {
            self.choose_pairs(worth);
        }
        self.questions += 1;
        let mut order: Vec<usize> = (0..worth.len()).filter(|&kind| counts(kind)).collect();
        order.sort_by_key(|&kind| (Reverse(worth[kind]), kind));
        let knapsacks = self.knapsacks(worth, &order);
        (order, knapsacks)
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
            let counts = |kind: usize| boxes[kind].count;
            knapsacks.push((knapsack.whole_load(worth, &counts), knapsack));
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
        let (order, knapsacks) = self.question(worth, |kind| worth[kind] > 0);
        heaviest(&mut self.oracle, worth, order, knapsacks, limit)
    }

    fn filled(&mut self, set: &Set) -> Option<Set> {
        let filled = self.oracle.filled(set);
        self.met.extend(filled.clone());
        filled
    }
}
