// SPDX-License-Identifier: MIT
//! Typed keys: a field is declared once, and read by that declaration as what it takes.
//!
//! ```
//! use hingeleaf::fields::{Key, needed, rule, usual};
//! use hingeleaf::length::Length;
//!
//! const POCKET: Key<Length> = Key::size("pocket", needed(), "width of the pocket's front");
//! const SEAM: Key<Length> = Key::size("seam", usual(12.0, 0.5), "the strip that takes tape or glue");
//! const FRONT: Key<Option<Length>> = Key::size("front", rule("two thirds of the page"), "height of the front");
//! ```
//!
//! A key of another type than its field has does not compile, nor does one that forgets that a rule may hold:
//!
//! ```compile_fail,E0277
//! # use hingeleaf::fields::{Key, needed};
//! const POCKET: Key<u32> = Key::size("pocket", needed(), "width of the pocket's front");
//! ```
//! ```compile_fail,E0308
//! # use hingeleaf::{fields::{Key, rule}, length::Length};
//! const FRONT: Key<Length> = Key::size("front", rule("two thirds of the page"), "height of the front");
//! ```

use super::field::{Fallback, Field, Takes};
use super::held::{AmountOrText, Choices, CountOrWord, Counts, Nested, Text, Texts, Word};
use crate::length::{Length, Units};
use std::marker::PhantomData;

/// A field, and the type in which its value is read.
#[derive(Debug)]
pub struct Key<T> {
    /// The field, as tables of fields hold it.
    pub field: Field,
    reads: PhantomData<fn() -> T>,
}

/// What holds where a field is left out, and so the type in which it is read: an `Option` where a rule holds that only its
/// reader knows.
#[derive(Debug)]
pub struct Otherwise<T> {
    fallback: Fallback,
    reads: PhantomData<fn() -> T>,
}

/// It must be there.
#[must_use]
pub const fn needed<T>() -> Otherwise<T> {
    Otherwise::new(Fallback::Needed)
}

/// A length: so many mm in a metric file, so many inches in an inch file.
#[must_use]
pub const fn usual(mm: f64, inch: f64) -> Otherwise<Length> {
    Otherwise::new(Fallback::Length { mm, inch })
}

/// A number.
#[must_use]
pub const fn number<T: Of<u32>>(count: u32) -> Otherwise<T> {
    Otherwise::new(Fallback::Count(count))
}

/// Worked out from other fields, as the words say.
#[must_use]
pub const fn rule<T>(words: &'static str) -> Otherwise<Option<T>> {
    Otherwise::new(Fallback::Rule(words))
}

impl<T> Otherwise<T> {
    pub(super) const fn new(fallback: Fallback) -> Self {
        Self { fallback, reads: PhantomData }
    }
}

impl Otherwise<Length> {
    /// The length that holds in a file of these units.
    #[must_use]
    pub fn length(&self, units: Units) -> Length {
        self.fallback.length(units).unwrap_or_default()
    }
}

/// What a key may be of: the thing itself, or an `Option` of it.
pub trait Of<T> {}
impl<T> Of<T> for T {}
impl<T> Of<T> for Option<T> {}

impl<T> Key<T> {
    /// A key of a field that takes this.
    const fn of(name: &'static str, takes: Takes, otherwise: &Otherwise<T>, about: &'static str) -> Self {
        Self { field: Field::new(name, takes, otherwise.fallback, about), reads: PhantomData }
    }

    /// The same, as a length that nothing is cut or scored to: a thickness.
    #[must_use]
    pub const fn unmeasured(mut self) -> Self {
        self.field = self.field.unmeasured();
        self
    }

    /// The same where something else holds when it is left out, as another kind has it.
    #[must_use]
    pub const fn otherwise(mut self, otherwise: Otherwise<T>) -> Self {
        self.field.fallback = otherwise.fallback;
        self
    }

    /// The same in other words, as another kind has it.
    #[must_use]
    pub const fn worded(mut self, about: &'static str) -> Self {
        self.field.about = about;
        self
    }

    /// Its name in the file.
    #[must_use]
    pub const fn name(self) -> &'static str {
        self.field.name
    }
}

impl<T: Of<Length>> Key<T> {
    /// A length that may be zero, up to 2 m.
    #[must_use]
    pub const fn length(name: &'static str, otherwise: Otherwise<T>, about: &'static str) -> Self {
        Self { field: Field::length(name, otherwise.fallback, about), reads: PhantomData }
    }

    /// A size: a length of at least 1 mm, up to 2 m.
    #[must_use]
    pub const fn size(name: &'static str, otherwise: Otherwise<T>, about: &'static str) -> Self {
        Self { field: Field::size(name, otherwise.fallback, about), reads: PhantomData }
    }

    /// The same from `least` to `most` mm.
    #[must_use]
    pub const fn within(mut self, least: f64, most: f64) -> Self {
        self.field.takes = Takes::Length { least, most };
        self
    }

    /// A thickness of card.
    #[must_use]
    pub const fn caliper(name: &'static str, otherwise: Otherwise<T>, about: &'static str) -> Self {
        Self::of(name, Takes::Caliper, &otherwise, about)
    }
}

impl<T: Of<u32>> Key<T> {
    /// A whole number from `least` to `most`.
    #[must_use]
    pub const fn count(
        name: &'static str,
        (least, most): (u32, u32),
        otherwise: Otherwise<T>,
        about: &'static str,
    ) -> Self {
        Self::of(name, Takes::Count { least, most }, &otherwise, about)
    }
}

impl Key<CountOrWord> {
    /// A whole number from `least` to `most`, or a word; 1 where it is left out.
    #[must_use]
    pub const fn count_or(
        name: &'static str,
        (least, most): (u32, u32),
        word: &'static str,
        about: &'static str,
    ) -> Self {
        Self::of(name, Takes::CountOr { least, most, word }, &Otherwise::new(Fallback::Count(1)), about)
    }
}

impl<T: Of<f64>> Key<T> {
    /// A number of at least zero without a unit.
    #[must_use]
    pub const fn amount(name: &'static str, otherwise: Otherwise<T>, about: &'static str) -> Self {
        Self::of(name, Takes::Amount, &otherwise, about)
    }
}

impl<T: Of<AmountOrText>> Key<T> {
    /// A number, or a text in a form that its reader knows.
    #[must_use]
    pub const fn amount_or_text(
        name: &'static str,
        form: &'static str,
        otherwise: Otherwise<T>,
        about: &'static str,
    ) -> Self {
        Self::of(name, Takes::AmountOrText(form), &otherwise, about)
    }
}

impl<T: Of<Text>> Key<T> {
    /// A free text.
    #[must_use]
    pub const fn text(name: &'static str, otherwise: Otherwise<T>, about: &'static str) -> Self {
        Self::of(name, Takes::Text, &otherwise, about)
    }
}

impl<T: Choices> Key<T> {
    /// One of the words of `T`.
    #[must_use]
    pub const fn choice(name: &'static str, otherwise: Otherwise<T>, about: &'static str) -> Self {
        Self::of(name, Takes::Choice(T::WORDS), &otherwise, about)
    }
}

impl Key<Word> {
    /// One of these words, read as it stands in the list.
    #[must_use]
    pub const fn word(
        name: &'static str,
        words: &'static [&'static str],
        usual: &'static str,
        about: &'static str,
    ) -> Self {
        Self::of(name, Takes::Choice(words), &Otherwise::new(Fallback::Choice(usual)), about)
    }
}

impl Key<bool> {
    /// `true` or `false`; false where it is left out.
    #[must_use]
    pub const fn flag(name: &'static str, about: &'static str) -> Self {
        Self::of(name, Takes::Flag, &Otherwise::new(Fallback::Flag(false)), about)
    }
}

impl Key<Option<bool>> {
    /// `true` or `false`; where it is left out other fields say which.
    #[must_use]
    pub const fn flag_or(name: &'static str, otherwise: Otherwise<Option<bool>>, about: &'static str) -> Self {
        Self::of(name, Takes::Flag, &otherwise, about)
    }
}

impl<T: Of<Counts>> Key<T> {
    /// A list of whole numbers from 1.
    #[must_use]
    pub const fn counts(name: &'static str, otherwise: Otherwise<T>, about: &'static str) -> Self {
        Self::of(name, Takes::Counts, &otherwise, about)
    }
}

impl Key<Texts> {
    /// One text or a list of texts, in a form that its reader knows; none where a rule holds.
    #[must_use]
    pub const fn texts(name: &'static str, form: &'static str, fallback: Fallback, about: &'static str) -> Self {
        Self::of(name, Takes::Texts(form), &Otherwise::new(fallback), about)
    }
}

impl Key<Nested> {
    /// What its own reader takes apart; `form` says what it is.
    #[must_use]
    pub const fn nested(name: &'static str, form: &'static str, fallback: Fallback, about: &'static str) -> Self {
        Self::of(name, Takes::Nested(form), &Otherwise::new(fallback), about)
    }
}

impl<T> Clone for Key<T> {
    fn clone(&self) -> Self {
        *self
    }
}
impl<T> Copy for Key<T> {}
impl<T> Clone for Otherwise<T> {
    fn clone(&self) -> Self {
        *self
    }
}
impl<T> Copy for Otherwise<T> {}

impl<T> From<Key<T>> for Field {
    fn from(key: Key<T>) -> Self {
        key.field
    }
}

impl<T: Choices> Otherwise<T> {
    /// A word; only [`words!`] makes it.
    pub(crate) const fn word(word: &'static str) -> Self {
        Self::new(Fallback::Choice(word))
    }
}
