// SPDX-License-Identifier: MIT
//! Column generation: the sheets that are worth most, whatever it takes, for long runs, where a better sheet is cut a hundred
//! times.
//!
//! In: what each kind is worth. Out: sheets that are worth more than asked for, with everything in its place. Never: makes
//! do with a greedy rule; that is quicker, and done before.
//!
//! The columns of Gilmore and Gomory (1961), by the same branch and bound that proves the least number of sheets, but for the
//! boxes as they are laid: with the gap, and no smaller than they are; for a trimmer by the guillotine knapsack.

use crate::layout::bound::guillotine_pricing::GuillotinePricer;
use crate::layout::bound::pricing::{EACH_HEAVY, Pricer, Pricing};
use crate::layout::model::instance::Instance;
use crate::layout::model::one_size::{MOST_KINDS, OneSizeProblem};
use crate::layout::model::packing::PlacedBox;

/// Sets of one answer that are laid, the heaviest first.
const MOST_LAID: usize = 6;

/// Asks for sheets again and again.
pub(crate) struct ColumnGenerator<'a> {
    /// Sheets that can be cut from edge to edge; none where they take too many boxes.
    guillotine: Option<GuillotinePricer>,
    /// Sheets of any kind; none for a trimmer.
    free: Option<Pricer<'a>>,
}

/// The instance's boxes on its first sheet; none where there are too many kinds.
pub(crate) fn problem(instance: &Instance) -> Option<OneSizeProblem> {
    instance.one_size_problem().filter(|_| instance.kinds.len() <= MOST_KINDS)
}

impl<'a> ColumnGenerator<'a> {
    /// Prices boxes on one size of sheet, for so many steps of each search in all.
    pub(crate) fn new(problem: &'a OneSizeProblem, trimmer: bool, steps: u64) -> Self {
        let free = if trimmer { None } else { Pricer::new(problem, EACH_HEAVY, steps) };
        Self { guillotine: GuillotinePricer::new(problem, steps), free }
    }

    /// Sheets for a trimmer that are worth more than `limit`, and the steps it took; none where there are none, or no steps are
    /// left. Quick, and what it misses is in the rounding.
    pub(crate) fn guillotine_sheets(&mut self, worth: &[u64], limit: u64) -> (Vec<Vec<PlacedBox>>, u64) {
        let Some(pricer) = self.guillotine.as_mut().filter(|pricer| pricer.steps() > 0) else { return (Vec::new(), 0) };
        let before = pricer.steps();
        (pricer.sheets(worth, limit), before - pricer.steps())
    }

    /// The same for sheets of any kind, by branch and bound.
    pub(crate) fn free_sheets(&mut self, worth: &[u64], limit: u64) -> (Vec<Vec<PlacedBox>>, u64) {
        let Some(pricer) = &mut self.free else { return (Vec::new(), 0) };
        let before = pricer.steps();
        let sets = pricer.heavy(worth, limit).sets;
        let laid = |set| {
            let set = pricer.filled(set)?;
            pricer.laid(&set)
        };
        let sheets = sets.iter().rev().take(MOST_LAID).filter_map(laid).collect();
        (sheets, before - pricer.steps())
    }
}
