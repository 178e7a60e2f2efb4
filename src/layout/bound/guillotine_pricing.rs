// SPDX-License-Identifier: MIT
//! Pricing for a trimmer: the sheets that are worth most, by the guillotine knapsack.
//!
//! In: boxes, a sheet, what each box is worth. Out: sheets that can be cut and are worth more than asked for, or the most
//! that any sheet holds. Never: proves by what was rounded down.
//!
//! Where lengths are too many to be told apart, sheets come from a knapsack with lengths rounded down, and only when that has
//! no more of them, the bound and further sets come from one with lengths rounded up.

use crate::layout::bound::fitting::Set;
use crate::layout::bound::guillotine_knapsack::GuillotineKnapsack;
use crate::layout::bound::heaviest_set::Heavy;
use crate::layout::bound::pricing::{Pricing, SHEET_WORTH};
use crate::layout::bound::raster::RasterRounding;
use crate::layout::model::one_size::OneSizeProblem;
use crate::layout::model::packing::PlacedBox;

/// Looks at two pieces that one question may take: for sheets, and for a proof.
const LOOKS_FOR_SHEETS: usize = 6_000_000;
const LOOKS_FOR_PROOF: usize = 24_000_000;
/// Sheets of one answer.
const MOST_SHEETS: usize = 6;
/// By so much a sheet must be worth more than a sheet costs before it is taken to be new.
const MORE: u64 = SHEET_WORTH / 10_000;

/// Asks for sheets again and again.
pub(crate) struct GuillotinePricer {
    /// Finds sheets that can be cut.
    sheets: GuillotineKnapsack,
    /// Misses no sheet; none where the other one misses none either.
    proof: Option<GuillotineKnapsack>,
    /// Sheets that were found on the way and can be cut.
    met: Vec<Vec<PlacedBox>>,
    steps: u64,
}

impl GuillotinePricer {
    /// For so many steps in all. None where sheets take too many boxes.
    pub(crate) fn new(problem: &OneSizeProblem, steps: u64) -> Option<Self> {
        let exact = GuillotineKnapsack::new(problem, RasterRounding::Up, LOOKS_FOR_PROOF)?;
        if exact.exact() {
            return Some(Self { sheets: exact, proof: None, met: Vec::new(), steps });
        }
        let sheets = GuillotineKnapsack::new(problem, RasterRounding::Down, LOOKS_FOR_SHEETS)?;
        Some(Self { sheets, proof: Some(exact), met: Vec::new(), steps })
    }

    /// Sheets that were found on the way and can be cut.
    pub(crate) fn met(self) -> Vec<Vec<PlacedBox>> {
        self.met
    }

    /// Sheets worth more than `limit` that can be cut, the best first.
    pub(crate) fn sheets(&mut self, worth: &[u64], limit: u64) -> Vec<Vec<PlacedBox>> {
        self.spend(self.sheets.steps());
        self.sheets.ask(worth);
        self.sheets.sheets(limit, MOST_SHEETS)
    }
}

impl Pricing for GuillotinePricer {
    fn steps(&self) -> u64 {
        self.steps
    }

    fn spend(&mut self, steps: u64) {
        self.steps = self.steps.saturating_sub(steps);
    }

    fn heavy(&mut self, worth: &[u64], limit: u64) -> Heavy {
        self.spend(self.sheets.steps());
        let most = self.sheets.ask(worth);
        let set = |placed: &Vec<PlacedBox>| {
            let mut set: Set = placed.iter().filter_map(|put| u8::try_from(put.kind).ok()).collect();
            set.sort_unstable();
            set
        };
        // The lightest first.
        let sets = |sheets: &[Vec<PlacedBox>]| sheets.iter().rev().map(set).collect();
        if let Some(proof) = self.proof.as_mut().filter(|_| most <= limit.max(SHEET_WORTH + MORE)) {
            self.steps = self.steps.saturating_sub(proof.steps());
            let most = Some(proof.ask(worth));
            return Heavy { sets: sets(&proof.sheets(limit, MOST_SHEETS)), most };
        }
        let sheets = self.sheets.sheets(limit, MOST_SHEETS);
        let heavy = Heavy { sets: sets(&sheets), most: self.proof.is_none().then_some(most) };
        self.met.extend(sheets);
        heavy
    }

    fn filled(&mut self, _set: &Set) -> Option<Set> {
        None
    }
}
