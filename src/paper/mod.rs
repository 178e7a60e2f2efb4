// SPDX-License-Identifier: MIT
//! What the paper trade knows: sheet sizes by name, weights, thicknesses.
//!
//! In: names, sizes, weights and grades as people write them. Out: lengths, g/m² and grams, with the source of every
//! table. Never: lets one sheet stand in for another, guesses the grade of a weight in pounds, or calls an estimated
//! caliper measured.

use crate::finding::Said;
use std::fmt;

mod printer;
mod size;
mod weight;
mod written;

pub use printer::Paper;
pub use size::{NamedSheet, Trim, named_sheets, parse_size, sheet, trimmed_tolerance, untrimmed_tolerance};
pub use weight::{
    BULK_COATED, CALIPER_DOUBT, Grade, caliper_at_bulk, estimate_caliper, grammage_from_pounds, parse_grammage,
    pounds_from_grammage, sheet_mass,
};
pub use written::sheet_size;

/// Why a size or a weight cannot be used.
///
/// Displayed, it says what was found and then how to write it.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct PaperError {
    /// What was found.
    pub what: Said,
    /// What is allowed, with an example to copy.
    pub help: Said,
}

impl fmt::Display for PaperError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.what, self.help)
    }
}

impl std::error::Error for PaperError {}
