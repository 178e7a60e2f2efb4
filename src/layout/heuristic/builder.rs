// SPDX-License-Identifier: MIT
//! What a search needs of one sheet that is being laid, whatever kind of layout it is.

use crate::layout::heuristic::open_sheet::Rule;
use crate::layout::heuristic::ruin_recreate::{Pursuit, State};
use crate::layout::model::instance::{Frame, Kind, Pose, Size};
use crate::layout::model::packing::{Draft, Put};
use crate::layout::model::problem::Effort;

/// A sheet on the bench.
pub(crate) trait Bench: Default {
    /// Starts over with an empty sheet, for boxes that are no smaller than `least` either way.
    fn open(&mut self, size: &Size, least: Pose);

    /// Lays up to so many copies of a kind, as many as fit, until `most` boxes lie on the sheet.
    fn offer(&mut self, number: usize, kind: &Kind, copies: u64, rule: Rule, most: usize);

    /// How many boxes lie on the sheet.
    fn laid(&self) -> usize;

    /// Where they lie.
    fn puts(&self) -> Vec<Put>;

    /// The steps counted since this was last asked.
    fn steps(&mut self) -> u64;

    /// Tries to lay what is left over as well: the best state found, and the steps it took.
    fn pursue(pursuit: &Pursuit, state: State, number: u64) -> (State, u64);

    /// The last touch, which leaves every box on its sheet.
    fn finish(_frame: &Frame, draft: Draft, _effort: Effort) -> Draft {
        draft
    }
}
