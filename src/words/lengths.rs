// SPDX-License-Identifier: MIT
//! What is said of a text that is no length.

use crate::finding::{Arg, Said};
use crate::length::LengthError;
use std::fmt;

impl LengthError {
    /// What is wrong with it, without the way out.
    #[must_use]
    pub fn what(&self) -> Said {
        let (key, found) = match self {
            Self::Empty => return Said::new("no-length"),
            Self::UnknownUnit { found, unit, .. } => {
                let what = Said::new("length-of-unknown-unit").with("found", Arg::quoted(found));
                return what.with("unit", Arg::quoted(unit));
            }
            Self::NoNumber { found } => ("length-without-number", found),
            Self::NotFinite { found } => ("length-not-finite", found),
            Self::ZeroDenominator { found } => ("length-by-zero", found),
            Self::BadFraction { found } => ("length-bad-fraction", found),
            Self::Comma { found, .. } => ("comma-in-number", found),
            Self::Point { found } => ("length-in-points", found),
            Self::Feet { found } => ("length-in-feet", found),
            Self::TwoUnits { found } => ("length-of-two-units", found),
            Self::TwoNumbers { found } => ("length-of-two-numbers", found),
            Self::TooLong { found } => ("length-too-long", found),
        };
        Said::new(key).with("found", Arg::quoted(found))
    }

    /// The way out: what is allowed, and an example to copy.
    #[must_use]
    pub fn help(&self) -> Said {
        match self {
            Self::Empty | Self::NoNumber { .. } | Self::NotFinite { .. } => Said::new("no-length-help"),
            Self::ZeroDenominator { .. } => Said::new("length-by-zero-help"),
            Self::BadFraction { .. } => Said::new("length-bad-fraction-help"),
            Self::Comma { pointed, joined: None, .. } => {
                Said::new("length-comma-help").with("pointed", Arg::code(pointed))
            }
            Self::Comma { pointed, joined: Some(joined), .. } => {
                let help = Said::new("length-comma-help-either").with("pointed", Arg::code(pointed));
                help.with("joined", Arg::code(joined))
            }
            Self::UnknownUnit { instead: Some(instead), .. } => {
                Said::new("length-of-unknown-unit-help-meant").with("instead", Arg::quoted(instead))
            }
            Self::UnknownUnit { instead: None, .. } => Said::new("length-of-unknown-unit-help"),
            Self::Point { .. } => Said::new("length-in-points-help"),
            Self::Feet { .. } => Said::new("length-in-feet-help"),
            Self::TwoUnits { .. } => Said::new("length-of-two-units-help"),
            Self::TwoNumbers { .. } => Said::new("length-of-two-numbers-help"),
            Self::TooLong { .. } => Said::new("length-too-long-help"),
        }
    }
}

impl fmt::Display for LengthError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.what(), self.help())
    }
}

impl std::error::Error for LengthError {}
