// SPDX-License-Identifier: MIT
//! The types in which fields are read: what a [`Value`] gives where it is asked for as one of them.

use super::tree::Node;
use super::value::Value;
use crate::finding::Place;
use crate::length::Length;

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
