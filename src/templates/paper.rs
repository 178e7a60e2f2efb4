// SPDX-License-Identifier: MIT
//! How much of its paper a printer reaches.

use crate::album::Album;
use crate::length::Length;
use crate::paper::Paper;

/// What templates are printed on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PrinterPaper {
    /// The paper.
    pub paper: Paper,
    /// What the printer leaves blank along every edge.
    pub margin: Length,
}

impl PrinterPaper {
    /// What an album's templates are printed on unless it is said: 1/4 in along every edge is what most printers need at
    /// most (common practice, no source).
    #[must_use]
    pub fn of(album: &Album) -> Self {
        Self { paper: album.paper(), margin: Length::from_mm(6.35) }
    }

    /// The largest margin that leaves anything to print on, mm: our choice.
    pub const MOST_MARGIN: f64 = 15.0;
}
