// SPDX-License-Identifier: MIT
//! An album that is tried: with another page, another count, another text, or as it is.
//!
//! In: an album, the cutter. Out: what is asked of it: its parts alone; how well it goes together ([`Trial::fit`]); how many
//! sheets it takes ([`Trial::tally`]). Each later stage says here what it knows of a trial, so that all who try albums try
//! them alike. Never: chooses what to try.

use crate::album::Album;
use crate::cutter::Cutter;
use crate::finding::{Checked, Finding};
use crate::parts::{self, Kit};

/// An album and its parts.
#[derive(Clone, Debug)]
pub struct Trial<'a> {
    /// The album.
    pub album: Album,
    /// The machine.
    pub cutter: &'a Cutter,
    made: Checked<Kit>,
}

impl<'a> Trial<'a> {
    /// Works out the parts of an album.
    #[must_use]
    pub fn of(album: Album, cutter: &'a Cutter) -> Self {
        let made = parts::kit(&album, cutter);
        Self { album, cutter, made }
    }

    /// Its parts; none where they can't be made.
    #[must_use]
    pub const fn kit(&self) -> Option<&Kit> {
        self.made.value.as_ref()
    }

    /// What there is to say of its parts, gravest first.
    #[must_use]
    pub fn findings(&self) -> &[Finding] {
        &self.made.findings
    }

    /// The album and its parts; no parts where they can't be made.
    #[must_use]
    pub(crate) fn into_parts(self) -> (Album, Kit) {
        (self.album, self.made.value.unwrap_or_default())
    }

    /// The same album with one of each insert that it wants as often as it comes free; none where it wants none so.
    #[must_use]
    pub(crate) fn with_a_spare_each(&self) -> Option<Self> {
        Some(Self::of(self.album.with_a_spare_each()?, self.cutter))
    }
}
