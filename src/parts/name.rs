// SPDX-License-Identifier: MIT
//! What a piece is called: a name in parts, so that each language can put it together in its own way.
//!
//! In: terms of the model, and numbers. Out: the name as the list, the report and the messages have it. Never: is taken apart
//! from its words again.

use std::fmt;

/// What a piece is called. Numbers count from 1.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum PieceName {
    /// A term of the model: `belly band`.
    Term(String),
    /// One of several: `tag 2`.
    Counted(Box<Self>, usize),
    /// One of the copies of an insert: `tag 2 no. 3`.
    Copy(Box<Self>, usize),
    /// One of the leaves of a booklet: `booklet 1 leaf 2`.
    Leaf(Box<Self>, usize),
    /// One of the pieces of an insert: `travel sleeve 1 band`.
    OfInsert(Box<Self>, Box<Self>),
    /// What of a page it is: `page 2 front`.
    OfPage(usize, Box<Self>),
    /// What of any page of a kind it is: `kind 2 front`.
    OfKind(usize, Box<Self>),
    /// What is there for a page: `stub 1 of page 2`.
    ForPage(Box<Self>, usize),
    /// One of the lengths that a strip is joined from: `cover, piece 2`.
    Length(Box<Self>, usize),
    /// The panel on a face: `panel for page 2 front`.
    PanelFor(Box<Self>),
    /// What the panels of a side are cut from: `block for page 2 front`.
    BlockFor(Box<Self>),
}

impl PieceName {
    /// One of several.
    #[must_use]
    pub fn counted(self, number: usize) -> Self {
        Self::Counted(self.into(), number)
    }

    /// What of a page it is.
    #[must_use]
    pub fn of_page(self, page: usize) -> Self {
        Self::OfPage(page, self.into())
    }

    /// What is of a page, said of any page of a kind.
    #[must_use]
    pub fn of_kind(self, kind: usize) -> Self {
        let inner = |what: Box<Self>| Box::new(what.of_kind(kind));
        match self {
            Self::OfPage(_, what) => Self::OfKind(kind, what),
            Self::PanelFor(face) => Self::PanelFor(inner(face)),
            Self::BlockFor(side) => Self::BlockFor(inner(side)),
            Self::Length(what, number) => Self::Length(inner(what), number),
            other => other,
        }
    }

    /// With a word before its first one: `front pocket 2` for `pocket 2`.
    #[must_use]
    pub fn after(self, word: &str) -> Self {
        match self {
            Self::Term(term) if term.is_empty() => Self::Term(word.to_owned()),
            Self::Term(term) => Self::Term(format!("{word} {term}")),
            Self::Counted(what, number) => what.after(word).counted(number),
            other => other,
        }
    }
}

impl From<&str> for PieceName {
    fn from(term: &str) -> Self {
        Self::Term(term.to_owned())
    }
}

impl From<&PieceName> for String {
    fn from(name: &PieceName) -> Self {
        name.to_string()
    }
}

impl fmt::Display for PieceName {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Term(term) => out.write_str(term),
            Self::Counted(what, number) => write!(out, "{what} {number}"),
            Self::Copy(what, number) => write!(out, "{what} no. {number}"),
            Self::Leaf(what, number) => write!(out, "{what} leaf {number}"),
            Self::OfInsert(insert, what) => write!(out, "{insert} {what}"),
            Self::OfPage(page, what) => write!(out, "page {page} {what}"),
            Self::OfKind(kind, what) => write!(out, "kind {kind} {what}"),
            Self::ForPage(what, page) => write!(out, "{what} of page {page}"),
            Self::Length(what, number) => write!(out, "{what}, piece {number}"),
            Self::PanelFor(what) => write!(out, "panel for {what}"),
            Self::BlockFor(what) => write!(out, "block for {what}"),
        }
    }
}
