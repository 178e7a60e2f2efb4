// SPDX-License-Identifier: MIT
//! What is done on the back of a sheet: for machines that turn it over.

use crate::fields::words;

/// What is done on the back of sheets.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct BackSide {
    /// Where folds that work both ways are scored.
    pub both_ways: BothWays,
}

words! {
    /// Where folds that work both ways are scored.
    pub enum BothWays {
        /// On the front, as all scores are.
        Front = "front",
        /// On the front and, by a file of its own, on the back.
        BothSides = "both-sides",
    }
}

impl Default for BackSide {
    fn default() -> Self {
        Self { both_ways: BothWays::Front }
    }
}
