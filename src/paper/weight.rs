// SPDX-License-Identifier: MIT
//! Weights of paper in g/m² and in pounds of a grade, and what they say about caliper and mass.
//!
//! In: weights as people write them, grades, g/m². Out: g/m², pounds, an estimated caliper, grams a sheet. Never:
//! guesses the grade of a weight in pounds, or calls an estimated caliper measured.

use crate::finding::{Arg, Said};
use crate::length::Length;
use crate::length::excerpt;

use super::PaperError;

/// A kind of paper whose weight in the USA is that of 500 sheets of its own basic size.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Grade {
    /// Writing and copying paper.
    Bond,
    /// Book and text paper.
    Text,
    /// Cover card.
    Cover,
    /// Bristol.
    Bristol,
    /// Index card.
    Index,
    /// Tag.
    Tag,
}

impl Grade {
    /// All of them, in the order they are listed to people.
    pub const ALL: [Self; 6] = [Self::Bond, Self::Text, Self::Cover, Self::Bristol, Self::Index, Self::Tag];

    /// Its name, as in `65 lb cover`.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Bond => "bond",
            Self::Text => "text",
            Self::Cover => "cover",
            Self::Bristol => "bristol",
            Self::Index => "index",
            Self::Tag => "tag",
        }
    }

    /// Width and height of the sheet of which 500 are weighed. Source: US paper trade conversion tables (several
    /// agree).
    ///
    /// ```
    /// use hingeleaf::length::Length;
    /// use hingeleaf::paper::Grade;
    /// let (width, height) = Grade::Cover.basic_size();
    /// assert_eq!((width, height), (Length::from_inches(20.0), Length::from_inches(26.0)));
    /// ```
    #[must_use]
    pub fn basic_size(self) -> (Length, Length) {
        let (width, height) = match self {
            Self::Bond => (17.0, 22.0),
            Self::Text => (25.0, 38.0),
            Self::Cover => (20.0, 26.0),
            Self::Bristol => (22.5, 28.5),
            Self::Index => (25.5, 30.5),
            Self::Tag => (24.0, 36.0),
        };
        (Length::from_inches(width), Length::from_inches(height))
    }

    /// The grade of this name, in capitals or not.
    ///
    /// ```
    /// use hingeleaf::paper::Grade;
    /// assert_eq!(Grade::parse("Cover"), Some(Grade::Cover));
    /// assert_eq!(Grade::parse("covr"), None);
    /// ```
    #[must_use]
    pub fn parse(name: &str) -> Option<Self> {
        let name = name.trim();
        Self::ALL.into_iter().find(|grade| grade.name().eq_ignore_ascii_case(name))
    }

    /// The grade that was probably meant.
    fn near(name: &str) -> Option<Self> {
        let name = name.to_lowercase();
        match name.as_str() {
            "book" | "offset" => Some(Self::Text),
            "writing" | "ledger" | "copy" => Some(Self::Bond),
            "card" | "cardstock" | "card stock" => Some(Self::Cover),
            _ => {
                let (grade, slips) =
                    Self::ALL.map(|grade| (grade, slips(&name, grade.name()))).into_iter().min_by_key(|(_, n)| *n)?;
                (slips <= 2 && slips * 2 < grade.name().len()).then_some(grade)
            }
        }
    }
}

/// How many letters must be added, dropped or changed to turn one word into the other.
fn slips(from: &str, to: &str) -> usize {
    let to: Vec<char> = to.chars().collect();
    let mut row: Vec<usize> = (0..=to.len()).collect();
    // No grade has a name half as long as 40 letters.
    for (above, letter) in (1..).zip(from.chars().take(40)) {
        let mut corner = above - 1;
        let mut left = above;
        for (cell, other) in row.iter_mut().skip(1).zip(&to) {
            let changed = corner + usize::from(letter != *other);
            corner = *cell;
            *cell = changed.min(corner + 1).min(left + 1);
            left = *cell;
        }
        if let Some(first) = row.first_mut() {
            *first = above;
        }
    }
    row.last().copied().unwrap_or(usize::MAX)
}

/// Grams in a pound (the international pound, 1959).
const POUND_GRAMS: f64 = 453.592_37;

/// Sheets in a ream.
const REAM_SHEETS: f64 = 500.0;

/// What one pound of a grade is in g/m².
fn pound_grammage(grade: Grade) -> f64 {
    let (width, height) = grade.basic_size();
    POUND_GRAMS / (REAM_SHEETS * square_metres(width, height))
}

/// Grammage in g/m² of a paper that weighs so many pounds in its grade.
///
/// Exact; printed tables that use the trade constant 1406.5 in place of 1406.139 run 0.026 % higher.
/// Source: computed from 453.59237 g, 500 sheets, 0.0254 m and the basic size.
///
/// ```
/// use hingeleaf::paper::{Grade, grammage_from_pounds};
/// assert!((grammage_from_pounds(110.0, Grade::Cover) - 297.5).abs() < 0.05);
/// ```
#[must_use]
pub fn grammage_from_pounds(pounds: f64, grade: Grade) -> f64 {
    pounds * pound_grammage(grade)
}

/// Pounds that a paper of this grammage, in g/m², weighs in a grade; undoes [`grammage_from_pounds`].
///
/// ```
/// use hingeleaf::paper::{Grade, grammage_from_pounds, pounds_from_grammage};
/// let as_text = pounds_from_grammage(grammage_from_pounds(80.0, Grade::Cover), Grade::Text);
/// assert!((as_text - 146.2).abs() < 0.1);
/// ```
#[must_use]
pub fn pounds_from_grammage(gsm: f64, grade: Grade) -> f64 {
    gsm / pound_grammage(grade)
}

/// More than any board an album is made with, in g/m². Our choice.
const HEAVIEST: f64 = 10_000.0;

/// Reads a weight and gives it in g/m²: `280 gsm`, `280 g/m2`, `280 g/m²`, `65 lb cover`, `65# cover`.
///
/// # Errors
/// If there is no number, unit or grade that can be read, or the weight is not above zero and at most 10 kg/m².
/// Pounds without a grade are refused, and the help says what each grade would make of them.
///
/// ```
/// use hingeleaf::paper::parse_grammage;
/// assert!((parse_grammage("280 gsm")? - 280.0).abs() < 1e-9);
/// assert!((parse_grammage("65 lb cover")? - 175.77).abs() < 0.01);
/// let error = parse_grammage("110 lb").unwrap_err();
/// let help = error.help.to_string();
/// assert!(help.contains("text 162.8") && help.contains("cover 297.5"));
/// # Ok::<(), hingeleaf::paper::PaperError>(())
/// ```
pub fn parse_grammage(text: &str) -> Result<f64, PaperError> {
    let text = text.trim();
    let found = excerpt(text);
    let end = text.find(|c: char| !c.is_ascii_digit() && !"+-.".contains(c)).unwrap_or(text.len());
    let (figures, rest) = text.split_at(end);
    let refused = |key, help| PaperError { what: Said::new(key).with("found", Arg::quoted(&found)), help };
    let usual = || Said::new("weight-help");
    let Ok(number) = figures.parse::<f64>() else { return Err(refused("weight-without-number", usual())) };
    if rest.strip_prefix(',').is_some_and(|after| after.starts_with(|c: char| c.is_ascii_digit())) {
        return Err(refused("comma-in-number", Said::new("weight-comma-help")));
    }
    let unit = rest.trim().to_lowercase();
    let gsm = match unit.as_str() {
        "" => {
            let help = Said::new("weight-without-unit-help").with("figures", Arg::code(figures));
            return Err(refused("without-unit", help));
        }
        "gsm" | "g/m2" | "g/m²" | "g/m^2" | "g/sqm" => number,
        _ => match pounds(&unit) {
            Some(grade) => pounds_to_gsm(number, figures, grade, &found)?,
            None => return Err(unknown_unit(figures, &unit, &found)),
        },
    };
    if gsm > 0.0 && gsm <= HEAVIEST {
        return Ok(gsm);
    }
    Err(refused(if gsm > 0.0 { "weight-too-heavy" } else { "weight-of-nothing" }, usual()))
}

/// The grade's name after a word or sign for pounds, if it starts with one.
fn pounds(unit: &str) -> Option<&str> {
    let rest = ["pounds", "pound", "lbs", "lb", "#"].into_iter().find_map(|word| unit.strip_prefix(word))?;
    Some(rest.strip_prefix('.').unwrap_or(rest).trim())
}

fn pounds_to_gsm(number: f64, figures: &str, grade: &str, found: &str) -> Result<f64, PaperError> {
    if let Some(grade) = Grade::parse(grade) {
        return Ok(grammage_from_pounds(number, grade));
    }
    let figures = Arg::code(figures);
    if grade.is_empty() {
        let each = |grade: Grade| {
            let gsm = Arg::code(format!("{:.1}", grammage_from_pounds(number, grade)));
            Arg::from(Said::new("weight-in-grade").with("grade", Arg::code(grade.name())).with("gsm", gsm))
        };
        let help = Said::new("weight-without-grade-help").with("figures", figures);
        return Err(PaperError {
            what: Said::new("weight-without-grade").with("found", Arg::quoted(found)),
            help: help.with("grades", Arg::Row(Grade::ALL.map(each).into())),
        });
    }
    let help = match Grade::near(grade) {
        Some(near) => Said::new("weight-of-unknown-grade-help-meant").with("grade", Arg::code(near.name())),
        None => Said::new("weight-of-unknown-grade-help"),
    };
    let known = Arg::Row(Grade::ALL.map(|grade| Arg::code(grade.name())).into());
    let what = Said::new("weight-of-unknown-grade").with("found", Arg::quoted(found));
    Err(PaperError {
        what: what.with("grade", Arg::quoted(excerpt(grade))),
        help: help.with("figures", figures).with("grades", known),
    })
}

fn unknown_unit(figures: &str, unit: &str, found: &str) -> PaperError {
    let meant = match Grade::parse(unit).or_else(|| Grade::near(unit)) {
        Some(grade) => Some(format!("{figures} lb {}", grade.name())),
        None if unit.starts_with('g') => Some(format!("{figures} gsm")),
        None => None,
    };
    let what = Said::new("weight-of-unknown-unit").with("found", Arg::quoted(found));
    PaperError {
        what: what.with("unit", Arg::quoted(excerpt(unit))),
        help: meant
            .map_or(Said::new("weight-help"), |meant| Said::new("did-you-mean").with("name", Arg::quoted(meant))),
    }
}

/// Bulk of uncoated card, in cm³/g. Source: common practice (1.0 to 1.4); a US weight and caliper chart implies
/// 1.03 to 1.16.
pub(crate) const BULK_UNCOATED: f64 = 1.2;

/// Bulk of coated card, in cm³/g. Source: common practice, no source (0.8 to 1.0).
pub const BULK_COATED: f64 = 0.9;

/// How far an estimated caliper may be off either way, as a share of it. Source: common practice; uncoated bulks
/// of 1.0 and 1.4 would be 17 % off.
pub const CALIPER_DOUBT: f64 = 0.15;

/// Caliper of card of so many g/m² and so much bulk in cm³/g. Source: definition of specific volume, ISO 534; the
/// thickness in micrometres is grammage times bulk.
///
/// ```
/// use hingeleaf::length::Length;
/// use hingeleaf::paper::caliper_at_bulk;
/// let caliper = caliper_at_bulk(300.0, 0.9);
/// assert!((caliper - Length::from_mm(0.27)).abs() < Length::from_mm(1e-9));
/// ```
#[must_use]
pub fn caliper_at_bulk(gsm: f64, bulk: f64) -> Length {
    Length::from_mm(gsm * bulk / 1000.0)
}

/// Caliper of uncoated card of so many g/m², where nobody has measured it.
///
/// Takes a bulk of `BULK_UNCOATED`. Real card differs by 15 % either way (`CALIPER_DOUBT`), coated card is thinner
/// yet, so whoever prints this says that it is an estimate. Source: ISO 534 for the definition, common practice for
/// the bulk.
///
/// ```
/// use hingeleaf::length::Length;
/// use hingeleaf::paper::estimate_caliper;
/// let caliper = estimate_caliper(280.0); // 280 g/m² x 1.2 cm³/g = 336 µm
/// assert!((caliper - Length::from_mm(0.336)).abs() < Length::from_mm(1e-9));
/// ```
#[must_use]
pub fn estimate_caliper(gsm: f64) -> Length {
    caliper_at_bulk(gsm, BULK_UNCOATED)
}

/// Mass in grams of a sheet of so many g/m². Source: definition of grammage, ISO 536.
///
/// ```
/// use hingeleaf::length::Length;
/// use hingeleaf::paper::sheet_mass;
/// let mass = sheet_mass(Length::from_mm(210.0), Length::from_mm(297.0), 80.0); // 1/16 m², nearly
/// assert!((mass - 4.9896).abs() < 1e-9);
/// ```
#[must_use]
pub fn sheet_mass(width: Length, height: Length, gsm: f64) -> f64 {
    square_metres(width, height) * gsm
}

const SQUARE_MM_PER_SQUARE_METRE: f64 = 1_000_000.0;

fn square_metres(width: Length, height: Length) -> f64 {
    width.mm() * height.mm() / SQUARE_MM_PER_SQUARE_METRE
}
