// SPDX-License-Identifier: MIT
//! The handbook's own words in its language, and how what there is in English alone is marked.

use crate::guide::Words;

/// The words of the chapters.
#[derive(Clone, Copy)]
pub(super) struct BookWords<'w> {
    pub words: &'w Words,
    /// The language of what there is in English alone; nothing where all is English.
    pub english: Option<&'static str>,
}

impl<'w> BookWords<'w> {
    pub(super) const fn new(words: &'w Words, foreign: bool) -> Self {
        Self { words, english: if foreign { Some("en") } else { None } }
    }

    /// A sentence of the tables.
    pub(super) fn text(self, key: &str) -> String {
        self.words.text(key)
    }
}
