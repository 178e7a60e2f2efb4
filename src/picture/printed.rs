// SPDX-License-Identifier: MIT
//! A page that is a picture: of templates, of labels.

use super::Picture;

/// A page to print.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct PrintedPage {
    /// The whole sheet of paper, at true size.
    pub picture: Picture,
    /// What it is called in short, for a bookmark: the letters of its parts, its number.
    pub name: String,
    /// What it shows, in words for those who do not see it.
    pub shows: String,
}

impl PrintedPage {
    /// A page with its name and what it shows.
    #[must_use]
    pub const fn new(picture: Picture, name: String, shows: String) -> Self {
        Self { picture, name, shows }
    }
}
