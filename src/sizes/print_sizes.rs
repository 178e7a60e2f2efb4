// SPDX-License-Identifier: MIT
//! Sizes of photo prints and cards that people put into albums.
//!
//! Sources: 2R to 8R are the inch sizes behind ISO 1008 (the standard's own table not seen); 9x13 and 10x15 are the usual
//! makings of these nominal centimetre names; 3x4 and 4x6 in cards are common practice; ID-1 is ISO/IEC 7810, from memory.

use crate::finding::{Arg, Said};
use crate::length::{Length, Ruler, Units, excerpt};
use crate::paper::{self, PaperError};

/// A print or card: its short and its long side.
#[derive(Clone, Debug, PartialEq)]
pub struct PrintSize {
    /// What people call it.
    pub name: String,
    /// Short side.
    pub short: Length,
    /// Long side.
    pub long: Length,
}

/// The names, short and long sides in mm.
pub const PRINTS: &[(&str, f64, f64)] = &[
    ("2R", 63.5, 88.9),
    ("3R", 88.9, 127.0),
    ("4R", 101.6, 152.4),
    ("5R", 127.0, 177.8),
    ("8R", 203.2, 254.0),
    ("9x13", 89.0, 127.0),
    ("10x15", 102.0, 152.0),
    ("3x4in", 76.2, 101.6),
    ("4x6in", 101.6, 152.4),
    ("5x7in", 127.0, 177.8),
    ("ID-1", 53.98, 85.6),
];

/// The prints that are looked for unasked: those of the maker's own measure.
pub(super) fn usual(units: Units) -> impl Iterator<Item = PrintSize> {
    let names: &[&str] = match units {
        Units::In => &["3x4in", "4x6in", "5x7in"],
        Units::Mm | Units::Cm => &["9x13", "10x15"],
    };
    names.iter().filter_map(|name| print(name).ok())
}

/// The print of this name or size: `4R`, `10x15`, `4x6in`, `100x150mm`.
///
/// ```
/// use hingeleaf::{length::Length, sizes::print};
/// assert_eq!(print("6x4in").map(|print| print.long), Ok(Length::from_inches(6.0)));
/// ```
///
/// # Errors
/// What is wrong with it, and how to write it.
pub fn print(text: &str) -> Result<PrintSize, PaperError> {
    if let Some(&(name, short, long)) = PRINTS.iter().find(|(name, ..)| name.eq_ignore_ascii_case(text.trim())) {
        return Ok(PrintSize { name: name.into(), short: Length::from_mm(short), long: Length::from_mm(long) });
    }
    let Ok((name, width, height)) = paper::sheet_size(text) else {
        let names = PRINTS.iter().map(|&(name, ..)| Arg::code(name)).collect();
        let what = Said::new("print-not-known").with("print", Arg::quoted(excerpt(text)));
        return Err(PaperError { what, help: Said::new("print-not-known-help").with("names", Arg::Row(names)) });
    };
    Ok(PrintSize { name, short: width.min(height), long: width.max(height) })
}

impl PrintSize {
    /// Its sides in words: `102 x 152 mm`.
    #[must_use]
    pub fn sides(&self, units: Units) -> String {
        let show = |side: Length| side.show(units, Ruler::SixtyFourth);
        format!("{} x {}", show(self.short), show(self.long))
    }
}
