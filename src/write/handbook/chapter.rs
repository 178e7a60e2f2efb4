// SPDX-License-Identifier: MIT
//! What chapters are made of.

use super::passage::Passage;
use crate::album::Language;

/// A command as it is typed.
#[derive(Clone, Debug)]
pub struct HandbookCommand {
    /// Its name.
    pub name: String,
    /// What it does.
    pub about: String,
    /// How it is typed.
    pub usage: String,
    /// Its options and what they do.
    pub options: Vec<(String, String)>,
    /// Examples, a line each.
    pub examples: Vec<String>,
}

/// A chapter: a page of its own.
#[derive(Debug)]
pub(super) struct Chapter {
    /// The page's name.
    pub file: &'static str,
    pub title: String,
    /// The language of its text.
    pub language: Language,
    /// Whether some of it is in English all the same, marked as such.
    pub partly_english: bool,
    pub passages: Vec<Passage>,
}
