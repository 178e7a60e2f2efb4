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
use crate::layout::bound::pricing::{Pricer, Pricing};
use crate::layout::model::instance::Instance;
use crate::layout::model::one_size::{MOST_KINDS, OneSizeProblem};
use crate::layout::model::packing::PlacedBox;

/// Sets of one answer that are laid, the heaviest first.
const MOST_LAID: usize = 6;

/// Asks for sheets again and again.
pub(crate) enum ColumnGenerator<'a> {
    /// Any layouts.
    Free(Pricer<'a>),
    /// Those that can be cut from edge to edge.
    Trimmer(GuillotinePricer),
}

/// The instance's boxes on its first sheet; none where there are too many kinds.
pub(crate) fn problem(instance: &Instance) -> Option<OneSizeProblem> {
    instance.one_size_problem().filter(|_| instance.kinds.len() <= MOST_KINDS)
}

impl<'a> ColumnGenerator<'a> {
    /// Prices boxes on one size of sheet, for so many steps in all.
    pub(crate) fn new(problem: &'a OneSizeProblem, trimmer: bool, steps: u64) -> Option<Self> {
        if trimmer {
            return Some(Self::Trimmer(GuillotinePricer::new(problem, steps)?));
        }
        Some(Self::Free(Pricer::new(problem, steps)?))
    }

    /// Sheets that are worth more than `limit`, and the steps it took; none where there are none, or no steps are left.
    pub(crate) fn sheets(&mut self, worth: &[u64], limit: u64) -> (Vec<Vec<PlacedBox>>, u64) {
        match self {
            Self::Trimmer(pricer) => {
                let before = pricer.steps();
                let sheets = if before > 0 { pricer.sheets(worth, limit) } else { Vec::new() };
                (sheets, before - pricer.steps())
            }
            Self::Free(pricer) => {
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
    }
}
