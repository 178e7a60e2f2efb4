// SPDX-License-Identifier: MIT
//! The description of one field: what it takes, and what holds when it is left out.

use crate::length::{Length, Units};

/// One field of an object in a file.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Field {
    /// Its name in the file.
    pub name: &'static str,
    /// What it takes.
    pub takes: Takes,
    /// What holds when it is left out.
    pub fallback: Fallback,
    /// What it means, in one short sentence without a full stop.
    pub about: &'static str,
    /// Whether it is a length that the maker measures off, to cut or score there.
    pub measured: bool,
}

/// What a field takes.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum Takes {
    /// A length from `least` to `most` millimetres; a bare number is in the file's units.
    Length {
        /// Smallest allowed, mm.
        least: f64,
        /// Largest allowed, mm.
        most: f64,
    },
    /// A thickness of card; also takes points (0.001 in).
    Caliper,
    /// A whole number from `least` to `most`.
    Count {
        /// Smallest allowed.
        least: u32,
        /// Largest allowed.
        most: u32,
    },
    /// A whole number from `least` to `most`, or a word that says how it is found.
    CountOr {
        /// Smallest allowed.
        least: u32,
        /// Largest allowed.
        most: u32,
        /// The word.
        word: &'static str,
    },
    /// A number of at least zero without a unit: money, a weight.
    Amount,
    /// Free text.
    Text,
    /// One of these words.
    Choice(&'static [&'static str]),
    /// `true` or `false`.
    Flag,
    /// A list of whole numbers from 1.
    Counts,
    /// One text or a list of texts, in a form its reader knows.
    Texts(&'static str),
    /// A number, or a text in a form its reader knows.
    AmountOrText(&'static str),
    /// An object, a list or a choice of forms that its own reader takes apart; the text says of what.
    Nested(&'static str),
}

/// What holds when a field is left out.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub enum Fallback {
    /// It must be there.
    Needed,
    /// This length: so many mm in a metric file, so many inches in an inch file.
    Length {
        /// In files in mm or cm: millimetres.
        mm: f64,
        /// In files in inches: inches.
        inch: f64,
    },
    /// This number.
    Count(u32),
    /// This word.
    Choice(&'static str),
    /// This.
    Flag(bool),
    /// Worked out from other fields, as the words say.
    Rule(&'static str),
}

impl Field {
    /// A length that may be zero, up to 2 m.
    #[must_use]
    pub const fn length(name: &'static str, fallback: Fallback, about: &'static str) -> Self {
        Self { name, takes: Takes::Length { least: 0.0, most: 2000.0 }, fallback, about, measured: true }
    }

    /// A size: a length of at least 1 mm, up to 2 m.
    #[must_use]
    pub const fn size(name: &'static str, fallback: Fallback, about: &'static str) -> Self {
        Self { name, takes: Takes::Length { least: 1.0, most: 2000.0 }, fallback, about, measured: true }
    }

    /// The same field, as one that nothing is cut or scored to: a thickness.
    #[must_use]
    pub const fn unmeasured(mut self) -> Self {
        self.measured = false;
        self
    }

    /// A field of another kind.
    #[must_use]
    pub const fn new(name: &'static str, takes: Takes, fallback: Fallback, about: &'static str) -> Self {
        Self { name, takes, fallback, about, measured: false }
    }
}

impl Fallback {
    /// The length that holds in a file of these units.
    #[must_use]
    pub fn length(self, units: Units) -> Option<Length> {
        match (self, units) {
            (Self::Length { inch, .. }, Units::In) => Some(Length::from_inches(inch)),
            (Self::Length { mm, .. }, _) => Some(Length::from_mm(mm)),
            _ => None,
        }
    }
}

/// The known word nearest to a misspelt one, if any is near enough to be meant.
///
/// ```
/// assert_eq!(hingeleaf::fields::nearest("gussett", ["tab", "gusset"]), Some("gusset"));
/// assert_eq!(hingeleaf::fields::nearest("zebra", ["tab", "gusset"]), None);
/// ```
pub fn nearest<'a>(word: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    let word = word.to_lowercase();
    let limit = (word.chars().count() / 3).clamp(1, 4);
    known
        .into_iter()
        .map(|name| (strsim::osa_distance(&word, &name.to_lowercase()), name))
        .filter(|&(distance, _)| distance <= limit)
        .min_by_key(|&(distance, _)| distance)
        .map(|(_, name)| name)
}
