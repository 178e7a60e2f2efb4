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
use super::tree::Node;
use super::value::Value;
use crate::finding::Place;
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

/// A type in which a field may be read.
pub trait Held {
    /// What reading it gives.
    type Read<'v>;
    /// What it is in there; nothing where it is something else.
    fn read(value: &Value) -> Option<Self::Read<'_>>;
    /// What stands for a value that could not be read; its file is refused.
    fn unread<'v>() -> Self::Read<'v>;
}

/// The words of which a field takes one; the macro `words!` states them.
pub trait Choices: Sized {
    /// As they stand in files.
    const WORDS: &'static [&'static str];
}
impl<T: Choices> Choices for Option<T> {
    const WORDS: &'static [&'static str] = T::WORDS;
}

/// A text.
#[derive(Debug)]
pub struct Text;
/// One text or a list of texts, each with its place.
#[derive(Debug)]
pub struct Texts;
/// A word out of a list.
#[derive(Debug)]
pub struct Word;
/// A list of whole numbers, each with its place.
#[derive(Debug)]
pub struct Counts;
/// A whole number, or the word that says how it is found: then nothing is read.
#[derive(Debug)]
pub struct CountOrWord;
/// A number, or a text in a form of its own.
#[derive(Debug)]
pub struct AmountOrText;
/// A value for another reader.
#[derive(Debug)]
pub struct Nested;

/// What an [`AmountOrText`] holds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Amount<'v> {
    /// A number.
    Number(f64),
    /// A text.
    Text(&'v str),
}

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

impl<T: Held> Held for Option<T> {
    type Read<'v> = Option<T::Read<'v>>;

    fn read(value: &Value) -> Option<Self::Read<'_>> {
        T::read(value).map(Some)
    }

    fn unread<'v>() -> Self::Read<'v> {
        None
    }
}

/// States how types are read from a [`Value`].
macro_rules! held {
    ($($type:ty: $read:ty, $pattern:pat => $value:expr, $unread:expr;)*) => {$(
        impl Held for $type {
            type Read<'v> = $read;

            fn read(value: &Value) -> Option<Self::Read<'_>> {
                match value {
                    $pattern => Some($value),
                    _ => None,
                }
            }

            fn unread<'v>() -> Self::Read<'v> {
                $unread
            }
        }
    )*};
}

held! {
    Length: Length, Value::Length(length) => *length, Length::ZERO;
    u32: u32, Value::Count(count) => *count, 1;
    f64: f64, Value::Amount(amount) => *amount, 0.0;
    bool: bool, Value::Flag(flag) => *flag, false;
    Text: &'v str, Value::Text(text) => text.as_str(), "";
    Word: &'static str, Value::Choice(word) => word, "";
    Texts: &'v [(String, Place)], Value::Texts(texts) => texts.as_slice(), &[];
    Counts: &'v [(u32, Place)], Value::Counts(counts) => counts.as_slice(), &[];
}

impl Held for CountOrWord {
    type Read<'v> = Option<u32>;

    fn read(value: &Value) -> Option<Self::Read<'_>> {
        match value {
            Value::Count(count) => Some(Some(*count)),
            Value::Choice(_) => Some(None),
            _ => None,
        }
    }

    fn unread<'v>() -> Self::Read<'v> {
        Some(1)
    }
}

impl Held for AmountOrText {
    type Read<'v> = Amount<'v>;

    fn read(value: &Value) -> Option<Self::Read<'_>> {
        match value {
            Value::Amount(amount) => Some(Amount::Number(*amount)),
            Value::Text(text) => Some(Amount::Text(text)),
            _ => None,
        }
    }

    fn unread<'v>() -> Self::Read<'v> {
        Amount::Number(0.0)
    }
}

impl Held for Nested {
    type Read<'v> = Option<&'v Node>;

    fn read(value: &Value) -> Option<Self::Read<'_>> {
        match value {
            Value::Nested(node) => Some(Some(node)),
            _ => None,
        }
    }

    fn unread<'v>() -> Self::Read<'v> {
        None
    }
}

/// States the words that a field takes as a type, its first word standing for one that could not be read.
///
/// ```ignore
/// words! {
///     /// The form of a pocket's upper edge.
///     pub enum Mouth { Slanted = "slanted", Straight = "straight" }
/// }
/// const MOUTH: Key<Mouth> = Key::choice("mouth", Mouth::Slanted.usual(), "the form of its upper edge");
/// ```
macro_rules! words {
    ($(#[$meta:meta])* $vis:vis enum $name:ident {
        $(#[$first_meta:meta])* $first:ident = $first_word:literal
        $(, $(#[$each_meta:meta])* $each:ident = $word:literal)* $(,)?
    }) => {
        $(#[$meta])*
        #[derive(Clone, Copy, Debug, PartialEq, Eq)]
        $vis enum $name { $(#[$first_meta])* $first, $($(#[$each_meta])* $each,)* }

        impl $name {
            /// It holds where the field is left out.
            #[allow(dead_code, reason = "some fields have a rule instead")]
            pub(crate) const fn usual(self) -> $crate::fields::Otherwise<Self> {
                $crate::fields::Otherwise::word(match self {
                    Self::$first => $first_word,
                    $(Self::$each => $word,)*
                })
            }
        }

        impl $crate::fields::Choices for $name {
            const WORDS: &'static [&'static str] = &[$first_word $(, $word)*];
        }

        impl $crate::fields::Held for $name {
            type Read<'v> = Self;

            fn read(value: &$crate::fields::Value) -> Option<Self::Read<'_>> {
                match value {
                    $crate::fields::Value::Choice($first_word) => Some(Self::$first),
                    $($crate::fields::Value::Choice($word) => Some(Self::$each),)*
                    _ => None,
                }
            }

            fn unread<'v>() -> Self::Read<'v> {
                Self::$first
            }
        }
    };
}
pub(crate) use words;

impl<T: Choices> Otherwise<T> {
    /// A word; only [`words!`] makes it.
    pub(crate) const fn word(word: &'static str) -> Self {
        Self::new(Fallback::Choice(word))
    }
}
