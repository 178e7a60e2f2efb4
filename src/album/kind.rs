// SPDX-License-Identifier: MIT
//! What kinds of page, spine, cover and insert there are, as far as the album file is concerned.

use crate::fields::{Fallback, Field, Takes};

/// The place in the album that a kind fills.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Role {
    /// One leaf.
    Page,
    /// What carries the pages.
    Spine,
    /// What goes round them.
    Cover,
    /// What goes into a pocket.
    Insert,
}

impl Role {
    /// The word on screens.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Page => "page",
            Self::Spine => "spine",
            Self::Cover => "cover",
            Self::Insert => "insert",
        }
    }
}

/// One kind and its fields.
#[derive(Clone, Copy, Debug)]
pub struct Kind {
    /// Its name in the file.
    pub name: &'static str,
    /// The place that it fills.
    pub role: Role,
    /// What it is, in one sentence.
    pub about: &'static str,
    /// Its own fields; those of [`COMMON`] come on top.
    pub fields: &'static [Field],
}

/// The word for as many of an insert as come free.
pub(super) const SPARE: &str = "spare";

/// The field that says how many of an insert there are.
pub const COUNT: Field = Field::new(
    "count",
    Takes::CountOr { least: 1, most: 1000, word: SPARE },
    Fallback::Count(1),
    "how many; spare is as many as come free on what the sheets leave over",
);

/// Fields that every entry has.
pub const COMMON: &[Field] = &[
    Field::new("kind", Takes::Text, Fallback::Needed, "which kind it is"),
    Field::new("stock", Takes::Text, Fallback::Rule("the page's stock"), "the stock it is cut from"),
    Field::new(
        "grain",
        Takes::Choice(&["spine", "free"]),
        Fallback::Rule("spine for hinge strips and covers, else free"),
        "whether its grain must run along the spine",
    ),
];
