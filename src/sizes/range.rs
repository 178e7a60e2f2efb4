// SPDX-License-Identifier: MIT
//! Which page sizes are tried.

use super::print_sizes::PrintSize;
use crate::length::{Length, Units};

/// So many steps either way are the most that are tried: 2401 sizes. Our choice.
pub const MOST_STEPS: u32 = 24;

/// A page has at least and at most this width and height, mm, as in the album file.
pub(super) const SMALLEST: f64 = 1.0;
pub(super) const LARGEST: f64 = 2000.0;

/// Which sizes to try.
#[derive(Clone, Debug)]
pub struct Range {
    /// From one size to the next.
    pub step: Length,
    /// How many steps narrower, wider, shorter and taller.
    pub steps: u32,
    /// Prints whose pages are wanted, in reach of the steps or not.
    pub prints: Vec<PrintSize>,
}

impl Range {
    /// What is tried unless told otherwise, our choice: 1 mm up to 6 mm either way, or 1/16 in up to 1/4 in.
    ///
    /// ```
    /// use hingeleaf::{length::Units, sizes::Range};
    /// assert_eq!(Range::usual(Units::In).steps, 4);
    /// ```
    #[must_use]
    pub fn usual(units: Units) -> Self {
        let step = units.step();
        let within = match units {
            Units::In => Length::from_inches(0.25),
            Units::Mm | Units::Cm => Length::from_mm(6.0),
        };
        Self { step, steps: steps(step, within).unwrap_or(0), prints: Vec::new() }
    }

    /// How far it reaches either way.
    #[must_use]
    pub fn within(&self) -> Length {
        self.step * f64::from(self.steps)
    }
}

/// How many whole steps lie within a distance; none where there are more than [`MOST_STEPS`], or no steps at all.
#[must_use]
pub fn steps(step: Length, within: Length) -> Option<u32> {
    let (step, within) = (step.eighths(), within.eighths());
    let count = if step > 0 && within >= 0 { within / step } else { return None };
    u32::try_from(count).ok().filter(|&count| count <= MOST_STEPS)
}
