// SPDX-License-Identifier: MIT
//! A sentence as data: a key and typed arguments, put into words at the edge.
//!
//! In: lengths, counts, names. Out: [`Said`]. Never: a word of any language; these stand in the tables of `words`.

use crate::length::{Length, Units};

/// A sentence that is not in words yet. Words of a language are none:
///
/// ```compile_fail,E0308
/// use hingeleaf::finding::{Finding, Said};
/// let finding = Finding::stop("too-wide", Said::NOTHING, "it is too wide");
/// ```
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Said {
    key: &'static str,
    args: Vec<(&'static str, Arg)>,
}

/// What goes into a place of a sentence.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum Arg {
    /// A length that somebody chose, in the units of the file that it belongs to.
    Length(Length, Units),
    /// A length that was worked out: shown to 0.1 mm or 1/64 in.
    Roughly(Length, Units),
    /// A number of things.
    Count(u64),
    /// A number with at most so many decimals: degrees, money, per cent.
    Number(f64, u8),
    /// A word of the model that languages have their own for: a part's kind, a panel's name.
    Term(String),
    /// The maker's own words, and names out of the file: they stay as they are.
    Own(String),
    /// A name or a value out of the file, which stands in quotes.
    Quoted(String),
    /// A field of the file, by its name (which stands in quotes) or by the way to it: `overflap`, `spine.lead_in`.
    Field(String),
    /// Something that is typed or pasted: a line of a file, a command.
    Code(String),
    /// A sentence, or a part of one, in its own right.
    Said(Said),
    /// Several, `a, b and c`.
    All(Vec<Arg>),
    /// Several of which one will do, `a, b or c`.
    Any(Vec<Arg>),
    /// Several of which one is written: `a or b or c`.
    Either(Vec<Arg>),
    /// Several, one after the other: `a, b, c`.
    Row(Vec<Arg>),
}

impl Said {
    /// No word.
    pub const NOTHING: Self = Self::new("");

    /// The sentence that stands under a key in the tables, nothing in its places yet.
    #[must_use]
    pub const fn new(key: &'static str) -> Self {
        Self { key, args: Vec::new() }
    }

    /// What a finding is about that has a name: a part, a piece.
    pub fn named(name: impl Into<String>) -> Self {
        Self::new("about-part").with("part", Arg::term(name))
    }

    /// The same with something in one of its places.
    #[must_use]
    pub fn with(mut self, place: &'static str, arg: impl Into<Arg>) -> Self {
        self.args.push((place, arg.into()));
        self
    }

    /// Its key.
    #[must_use]
    pub const fn key(&self) -> &'static str {
        self.key
    }

    /// What goes into its places.
    #[must_use]
    pub fn args(&self) -> &[(&'static str, Arg)] {
        &self.args
    }

    /// Whether nothing is said.
    #[must_use]
    pub const fn is_empty(&self) -> bool {
        self.key.is_empty()
    }
}

impl Arg {
    /// A field by its name or by the way to it.
    pub fn field(name: impl Into<String>) -> Self {
        Self::Field(name.into())
    }

    /// A name or a value out of the file.
    pub fn quoted(text: impl Into<String>) -> Self {
        Self::Quoted(text.into())
    }

    /// A word of the model.
    pub fn term(word: impl Into<String>) -> Self {
        Self::Term(word.into())
    }

    /// Something typed or pasted.
    pub fn code(text: impl Into<String>) -> Self {
        Self::Code(text.into())
    }
}

impl From<Said> for Arg {
    fn from(said: Said) -> Self {
        Self::Said(said)
    }
}

impl From<&str> for Arg {
    fn from(own: &str) -> Self {
        Self::Own(own.to_owned())
    }
}

impl From<&String> for Arg {
    fn from(own: &String) -> Self {
        Self::Own(own.clone())
    }
}

impl From<String> for Arg {
    fn from(own: String) -> Self {
        Self::Own(own)
    }
}

impl From<u32> for Arg {
    fn from(count: u32) -> Self {
        Self::Count(count.into())
    }
}

impl From<u64> for Arg {
    fn from(count: u64) -> Self {
        Self::Count(count)
    }
}

impl From<usize> for Arg {
    fn from(count: usize) -> Self {
        Self::Count(count.try_into().unwrap_or(u64::MAX))
    }
}
