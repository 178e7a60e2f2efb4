// SPDX-License-Identifier: MIT
//! What a kind of page, spine, cover or insert is to the album file; which ones there are stands in `parts::kinds`.

use super::edges::EDGES;
use crate::fields::{CountOrWord, Counts, Field, Key, Text, needed, rule, words};
use crate::kind_file::KindFile;
use crate::length::Length;
use crate::stock::By;

/// The place in the album that a kind fills.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
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
    /// Its own fields; those of `COMMON` come on top.
    pub fields: &'static [Field],
    /// Where it is bought or made before instead of cut: the field that says how thick it is. It has no stock and no grain then.
    pub ready: Option<Key<Length>>,
    /// What it is made by, where that stands in a kind file.
    pub file: Option<&'static KindFile>,
}

words! {
    /// Which way an entry's grain runs.
    pub enum EntryGrain {
        /// Along the spine.
        Spine = "spine",
        /// Any way.
        Free = "free",
    }
}

/// The field that says how many of an insert there are.
pub const COUNT: Key<CountOrWord> =
    Key::count_or("count", (1, 1000), "spare", "how many; spare is as many as come free on what the sheets leave over");

/// Which kind an entry is.
pub(crate) const KIND: Key<Text> = Key::text("kind", needed(), "which kind it is");
/// The stock that an entry is cut from.
pub const STOCK: Key<Option<Text>> = Key::text("stock", rule("the page's stock"), "the stock it is cut from");
/// Which way an entry's grain runs.
pub const GRAIN: Key<Option<EntryGrain>> = Key::choice(
    "grain",
    rule("spine for hinge strips and covers, else free"),
    "whether its grain must run along the spine",
);

/// What an entry is cut by.
pub(crate) const BY: Key<Option<By>> = Key::choice(
    "by",
    rule("as its stock is"),
    "what it is cut by; what is cut otherwise than the rest of its stock has sheets of its own",
);

/// The field that says which pages an insert goes into.
pub(crate) const INSERT_PAGES: Key<Option<Counts>> =
    Key::counts("pages", rule("every page with a pocket, in order"), "the pages whose pockets they go into");

impl Kind {
    /// The fields that it has besides its own.
    #[must_use]
    pub(crate) const fn common(&self) -> &'static [Field] {
        match (self.ready, self.role) {
            (Some(_), _) => &[KIND.field],
            (None, Role::Page | Role::Insert) => EDGED,
            (None, Role::Spine | Role::Cover) => COMMON,
        }
    }
}

/// Fields that every entry of what is cut has.
const COMMON: &[Field] = &[KIND.field, STOCK.field, GRAIN.field, BY.field];

/// The same of what has edges that are free.
const EDGED: &[Field] = &[KIND.field, STOCK.field, GRAIN.field, BY.field, EDGES.field];
