// SPDX-License-Identifier: MIT
//! Sheet sizes, by name and by measure.
//!
//! In: a sheet's name or its two sides as a person writes them. Out: width and height, how far a standard sheet may
//! be off, and the standard. Never: lets one sheet stand in for another, takes a size without a unit.

use crate::finding::{Arg, Said};
use crate::length::Allow;
use crate::length::Length;
use crate::length::Units;
use crate::length::excerpt;

use super::PaperError;

/// Whether a standard sheet is cut to its final size.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Trim {
    /// Cut to size; the tolerance of ISO 216 holds.
    Trimmed,
    /// As it leaves the mill, to be trimmed later; the tolerance of ISO 479 holds.
    Untrimmed,
    /// Not an ISO sheet: no tolerance is known.
    Unstated,
}

/// A sheet that has a name.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NamedSheet {
    /// The name as it is printed: `A4`, `SRA3`, `letter`.
    pub name: &'static str,
    /// The shorter side.
    pub width: Length,
    /// The longer side.
    pub height: Length,
    /// Whether it is cut to its final size.
    pub trim: Trim,
    /// Where the size is laid down.
    pub source: &'static str,
}

impl NamedSheet {
    const fn new(name: &'static str, width: f64, height: f64, trim: Trim, source: &'static str) -> Self {
        Self { name, width: Length::from_mm(width), height: Length::from_mm(height), trim, source }
    }

    /// How far the width and the height of a real sheet may be off, where a standard says.
    ///
    /// ```
    /// use hingeleaf::length::Length;
    /// use hingeleaf::paper::sheet;
    /// let off = sheet("RA2").and_then(|ra2| ra2.tolerance());
    /// assert_eq!(off, Some((Length::from_mm(3.0), Length::from_mm(4.0))));
    /// ```
    #[must_use]
    pub fn tolerance(&self) -> Option<(Length, Length)> {
        match self.trim {
            Trim::Trimmed => Some((trimmed_tolerance(self.width), trimmed_tolerance(self.height))),
            Trim::Untrimmed => Some((untrimmed_tolerance(self.width), untrimmed_tolerance(self.height))),
            Trim::Unstated => None,
        }
    }
}

const ISO_216: &str = "ISO 216:2007";
const ISO_217: &str = "ISO 217:2013 cl. 5.1, 5.2 (numbers from secondary tables)";

/// Every sheet that has a name here.
static NAMED_SHEETS: [NamedSheet; 17] = [
    NamedSheet::new("A2", 420.0, 594.0, Trim::Trimmed, ISO_216),
    NamedSheet::new("A3", 297.0, 420.0, Trim::Trimmed, ISO_216),
    NamedSheet::new("A4", 210.0, 297.0, Trim::Trimmed, ISO_216),
    NamedSheet::new("A5", 148.0, 210.0, Trim::Trimmed, ISO_216),
    NamedSheet::new("A6", 105.0, 148.0, Trim::Trimmed, ISO_216),
    NamedSheet::new("B3", 353.0, 500.0, Trim::Trimmed, ISO_216),
    NamedSheet::new("B4", 250.0, 353.0, Trim::Trimmed, ISO_216),
    NamedSheet::new("B5", 176.0, 250.0, Trim::Trimmed, ISO_216),
    NamedSheet::new("RA2", 430.0, 610.0, Trim::Untrimmed, ISO_217),
    NamedSheet::new("RA3", 305.0, 430.0, Trim::Untrimmed, ISO_217),
    NamedSheet::new("RA4", 215.0, 305.0, Trim::Untrimmed, ISO_217),
    NamedSheet::new("SRA2", 450.0, 640.0, Trim::Untrimmed, ISO_217),
    NamedSheet::new("SRA3", 320.0, 450.0, Trim::Untrimmed, ISO_217),
    NamedSheet::new("SRA4", 225.0, 320.0, Trim::Untrimmed, ISO_217),
    NamedSheet::new("letter", 215.9, 279.4, Trim::Unstated, "ASME Y14.1, size A"),
    NamedSheet::new("legal", 215.9, 355.6, Trim::Unstated, "common practice, no source (not in ASME Y14.1)"),
    NamedSheet::new("tabloid", 279.4, 431.8, Trim::Unstated, "ASME Y14.1, size B"),
];

/// Every sheet that has a name, in the order in which people are shown them.
#[must_use]
pub fn named_sheets() -> &'static [NamedSheet] {
    &NAMED_SHEETS
}

/// The sheet of this name, in capitals or not.
///
/// ```
/// use hingeleaf::paper::sheet;
/// let a4 = sheet("a4").map(|sheet| (sheet.name, sheet.width.mm(), sheet.height.mm()));
/// assert_eq!(a4, Some(("A4", 210.0, 297.0)));
/// assert_eq!(sheet("A0"), None);
/// ```
#[must_use]
pub fn sheet(name: &str) -> Option<&'static NamedSheet> {
    let name = name.trim();
    NAMED_SHEETS.iter().find(|sheet| sheet.name.eq_ignore_ascii_case(name))
}

/// How far a side of a trimmed sheet may be off either way: 1.5 mm up to 150 mm, 2 mm up to 600 mm, 3 mm above.
/// Source: ISO 216, value from memory (clause not seen).
///
/// ```
/// use hingeleaf::length::Length;
/// use hingeleaf::paper::trimmed_tolerance;
/// assert_eq!(trimmed_tolerance(Length::from_mm(297.0)), Length::from_mm(2.0));
/// ```
#[must_use]
pub fn trimmed_tolerance(side: Length) -> Length {
    step(side, &[(150.0, 1.5), (600.0, 2.0)], 3.0)
}

/// How far a side of an untrimmed sheet may be off either way: 3 mm up to 600 mm, 4 mm up to 1000 mm, 5 mm above.
/// Source: ISO 479:1975 cl. 4 (since replaced by ISO 217).
///
/// ```
/// use hingeleaf::length::Length;
/// use hingeleaf::paper::untrimmed_tolerance;
/// assert_eq!(untrimmed_tolerance(Length::from_mm(640.0)), Length::from_mm(4.0));
/// ```
#[must_use]
pub fn untrimmed_tolerance(side: Length) -> Length {
    step(side, &[(600.0, 3.0), (1000.0, 4.0)], 5.0)
}

/// The value of the first step that `side` does not pass.
fn step(side: Length, steps: &[(f64, f64)], beyond: f64) -> Length {
    let found = steps.iter().find(|(to, _)| side.mm() <= *to);
    Length::from_mm(found.map_or(beyond, |(_, value)| *value))
}

/// Reads a sheet size of one's own, width first: `12x12in`, `300 x 200 mm`, `8 1/2 x 11 in`, `12×12in`.
///
/// One unit serves both sides; each may have its own. A standard name is not a size: see [`sheet`].
///
/// # Errors
/// If there are not two sides, no unit, a side that is no length (see [`crate::length::LengthError`]), or a side
/// that is not more than zero.
///
/// ```
/// use hingeleaf::length::Length;
/// use hingeleaf::paper::parse_size;
/// assert_eq!(parse_size("8 1/2 x 11 in")?, (Length::from_mm(215.9), Length::from_mm(279.4)));
/// let error = parse_size("12x12").unwrap_err();
/// assert_eq!(error.to_string(), "\"12x12\" has no unit: write \"12x12in\" or \"12x12mm\"");
/// # Ok::<(), hingeleaf::paper::PaperError>(())
/// ```
pub fn parse_size(text: &str) -> Result<(Length, Length), PaperError> {
    let text = text.trim();
    let found = excerpt(text);
    let sides: Vec<&str> = text.split(['x', 'X', '×']).map(str::trim).collect();
    let quoted = |key| Said::new(key).with("found", Arg::quoted(&found));
    let no_size = || PaperError { what: quoted("size-of-no-sides"), help: Said::new("size-of-no-sides-help") };
    let [width, height] = sides[..] else { return Err(no_size()) };
    if [width, height].iter().any(|side| !side.contains(char::is_numeric)) {
        return Err(no_size());
    }
    let (first, second) = (unit_of(width), unit_of(height));
    if first.is_empty() && second.is_empty() {
        let help = Said::new("size-without-unit-help").with("found", Arg::code(&found));
        return Err(PaperError { what: quoted("without-unit"), help });
    }
    Ok((side(width, first, second, &found)?, side(height, second, first, &found)?))
}

/// What stands after the last figure.
fn unit_of(side: &str) -> &str {
    let figures = side.trim_end_matches(|c: char| !c.is_numeric() && c != '.');
    side.get(figures.len()..).unwrap_or("")
}

/// One side of a size; where it has no unit of its own it has the other side's.
fn side(side: &str, own: &str, others: &str, found: &str) -> Result<Length, PaperError> {
    let quoted = |key| Said::new(key).with("found", Arg::quoted(found));
    let written = if own.is_empty() { format!("{side} {others}") } else { side.to_owned() };
    let length = Length::parse(&written, Units::Mm, Allow::Plain).map_err(|error| PaperError {
        what: quoted("size-with-bad-side").with("what", error.what()),
        help: error.help(),
    })?;
    if length > Length::ZERO {
        Ok(length)
    } else {
        Err(PaperError { what: quoted("size-of-nothing"), help: Said::new("size-of-nothing-help") })
    }
}
