// SPDX-License-Identifier: MIT
//! Sizes of prints, cards and mounts: by name, or as two sides with a unit.
//!
//! In: `4R`, `10x15`, `4x6in`, `89 x 127 mm`. Out: width and height, how far a real one may be off, where the size comes
//! from. Never: turns one round, takes a bare number that is no name.
//!
//! Names are the trade's, or plain ones of our own. "9x13" and "10x15" are names in whole centimetres for prints of
//! 89 x 127 and 102 x 152 mm: a pocket of clear 100 x 150 mm takes none of the latter.

use crate::fields::meant_or;
use crate::finding::{Arg, Said};
use crate::length::{Length, excerpt};
use crate::paper::{PaperError, parse_size};

/// Thickness of a photo print where nothing is said, mm: 0.15 to 0.28 (P6; secondary, photo-paper references).
pub(crate) const THICK: f64 = 0.23;

/// A print, card or mount that one puts into an album.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Print {
    /// The name as it stands in the file: `4R`; empty for a size of one's own.
    pub name: &'static str,
    /// From left to right.
    pub width: Length,
    /// From bottom to top.
    pub height: Length,
    /// How far either side of a real one may be off.
    pub off: Length,
    /// Where the size comes from.
    pub source: &'static str,
}

impl Print {
    const fn mm(name: &'static str, width: f64, height: f64, off: f64, source: &'static str) -> Self {
        let (width, height) = (Length::from_mm(width), Length::from_mm(height));
        Self { name, width, height, off: Length::from_mm(off), source }
    }

    /// The same print lying on its side.
    #[must_use]
    pub const fn turned(mut self) -> Self {
        (self.width, self.height) = (self.height, self.width);
        self
    }
}

/// Cutting tolerance of prints, mm: either side (common practice, no source).
const CUT: f64 = 1.0;

const INCHES: &str = "inch sizes behind ISO 1008 (the standard's own table not seen)";
const NOMINAL: &str = "general photographic reference: nominal centimetres";
const CARDS: &str = "common practice, no source";
const INSTANT: &str = "value from memory: measure yours";

/// Every size that has a name, upright.
static PRINTS: [Print; 16] = [
    Print::mm("2R", 63.5, 88.9, CUT, INCHES),
    Print::mm("3R", 88.9, 127.0, CUT, INCHES),
    Print::mm("4R", 101.6, 152.4, CUT, INCHES),
    Print::mm("5R", 127.0, 177.8, CUT, INCHES),
    Print::mm("8R", 203.2, 254.0, CUT, INCHES),
    Print::mm("9x13", 89.0, 127.0, 0.5, NOMINAL),
    Print::mm("10x15", 102.0, 152.0, 0.5, NOMINAL),
    Print::mm("3x4-card", 76.2, 101.6, 0.5, CARDS),
    Print::mm("4x6-card", 101.6, 152.4, 0.5, CARDS),
    Print::mm("id-card", 53.98, 85.6, 0.2, "ISO/IEC 7810 ID-1, value from memory"),
    Print::mm("instant-54x86", 54.0, 86.0, CUT, INSTANT),
    Print::mm("instant-72x86", 72.0, 86.0, CUT, INSTANT),
    Print::mm("instant-86x108", 86.0, 108.0, CUT, INSTANT),
    Print::mm("instant-88x107", 88.0, 107.0, CUT, INSTANT),
    Print::mm("cabinet", 107.95, 165.1, 2.0, "Getty Art & Architecture Thesaurus"),
    Print::mm("carte", 63.5, 101.6, 2.0, "carte-de-visite, secondary source"),
];

/// Every size that has a name, in the order in which people are shown them.
#[must_use]
pub fn named_prints() -> &'static [Print] {
    &PRINTS
}

macro_rules! about {
    () => {
        "size of the print, upright: 2R, 3R, 4R, 5R, 8R, 9x13, 10x15, 3x4-card, 4x6-card, id-card, \
    instant-54x86, instant-72x86, instant-86x108, instant-88x107, cabinet, carte, or width x height with a unit: 89x127mm"
    };
}

/// What a field that takes a print says of itself; the names are those of [`named_prints`].
pub const ABOUT: &str = about!();

/// The same, of a card that may follow what the sheets leave over.
pub(in crate::parts) const OR_OFFCUT: &str = concat!(
    about!(),
    "; or offcut: the largest that comes free on what the sheets leave over, in the proportion of 100 x 150"
);

/// Reads the size of a print: a name, in capitals or not, or width x height with a unit.
///
/// # Errors
/// If it is neither, or a side is no length that is more than zero.
///
/// ```
/// use hingeleaf::parts::prints::print;
/// let print_of = |text| print(text).map(|print| (print.width.mm(), print.height.mm()));
/// assert_eq!(print_of("4r")?, (101.6, 152.4));
/// assert_eq!(print_of("4x6in")?, (101.6, 152.4));
/// assert_eq!(print_of("10x15")?, (102.0, 152.0));
/// assert!(print_of("4x6").is_err(), "inches or centimetres?");
/// # Ok::<(), hingeleaf::paper::PaperError>(())
/// ```
pub fn print(text: &str) -> Result<Print, PaperError> {
    let plain: String = text.chars().filter(|c| !c.is_whitespace()).collect();
    let plain = plain.replace('\u{d7}', "x");
    if let Some(named) = PRINTS.iter().find(|print| print.name.eq_ignore_ascii_case(&plain)) {
        return Ok(*named);
    }
    match parse_size(text) {
        Ok((width, height)) => {
            let off = Length::from_mm(CUT);
            Ok(Print { name: "", width, height, off, source: "as the file says" })
        }
        Err(mut error) => {
            let names = || PRINTS.iter().map(|print| print.name);
            // A size that only lacks its unit is told so; anything else was meant to be a name.
            if !text.contains(['x', 'X', '\u{d7}']) {
                error.what = Said::new("bad-print").with("name", Arg::quoted(excerpt(text.trim())));
                error.help = meant_or("bad-print-help", &plain, names());
            }
            Err(error)
        }
    }
}

#[cfg(test)]
mod tests {
    #![allow(clippy::unwrap_used, reason = "a test may stop where it fails")]
    use super::*;

    fn of(text: &str) -> [f64; 2] {
        let print = print(text).unwrap();
        [print.width.mm(), print.height.mm()]
    }

    #[track_caller]
    fn is(text: &str, wanted: [f64; 2]) {
        let found = of(text);
        assert!(found.iter().zip(wanted).all(|(found, wanted)| (found - wanted).abs() < 1e-9), "{text}: {found:?}");
    }

    /// The R sizes are 2 1/2 x 3 1/2, 3 1/2 x 5, 4 x 6, 5 x 7 and 8 x 10 in (the inch sizes behind ISO 1008); an inch is
    /// 25.4 mm exactly.
    #[test]
    fn r_sizes_are_whole_and_half_inches() {
        for (name, wide, tall) in
            [("2R", 2.5, 3.5), ("3R", 3.5, 5.0), ("4R", 4.0, 6.0), ("5R", 5.0, 7.0), ("8R", 8.0, 10.0)]
        {
            let [width, height] = of(name);
            assert!((width - wide * 25.4).abs() < 1e-9 && (height - tall * 25.4).abs() < 1e-9, "{name}");
        }
        // ISO/IEC 7810 ID-1, from memory: 85.60 x 53.98.
        is("id-card", [53.98, 85.6]);
        // Cabinet card 4 1/4 x 6 1/2 in (Getty Art & Architecture Thesaurus).
        let [width, height] = of("cabinet");
        assert!((width - 4.25 * 25.4).abs() < 1e-9 && (height - 6.5 * 25.4).abs() < 1e-9);
    }

    /// "10x15" is 102 x 152: a clear 100 x 150 takes neither it nor a 4R.
    #[test]
    fn names_in_centimetres_are_larger_than_they_say() {
        for name in ["10x15", "4R", "10 x 15", "10×15"] {
            let [width, height] = of(name);
            assert!(width > 100.0 && height > 150.0, "{name}");
        }
        is("9X13", [89.0, 127.0]);
        // With a unit it is what it says.
        is("10x15cm", [100.0, 150.0]);
    }

    #[test]
    fn sizes_of_ones_own_have_a_unit() {
        is("89 x 127 mm", [89.0, 127.0]);
        is("3 1/2 x 5 in", [88.9, 127.0]);
        let error = print("13x18").unwrap_err();
        assert!(error.what.to_string().contains("no unit") && error.help.to_string().contains("13x18mm"), "{error}");
        let error = print("cabnet").unwrap_err();
        assert_eq!(error.help.to_string(), "did you mean \"cabinet\"?");
        assert!(print("zebra").unwrap_err().help.to_string().contains("4R"));
        for bad in ["", "x", "0x5mm", "-3x5in", "4x6x8in", "R"] {
            assert!(print(bad).is_err(), "{bad}");
        }
    }

    #[test]
    fn people_are_told_every_name() {
        assert!(named_prints().iter().all(|print| ABOUT.contains(&format!(" {},", print.name))));
    }

    #[test]
    fn every_name_reads_as_itself_and_stands_upright() {
        for print_ in named_prints() {
            assert_eq!(print(print_.name).unwrap(), *print_);
            assert_eq!(print(&print_.name.to_lowercase()).unwrap(), *print_);
            assert!(print_.width < print_.height && print_.off.mm() > 0.0 && !print_.source.is_empty());
            assert_eq!(print_.turned().turned(), *print_);
        }
    }
}
