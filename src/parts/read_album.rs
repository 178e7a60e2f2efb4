// SPDX-License-Identifier: MIT
//! Reads an album with every kind that it may be of.

use super::kinds::kinds;
use super::own::{KindFiles, kinds_of};
use crate::album::{self, Album};
use crate::fields::Source;
use crate::finding::Checked;

/// Reads an album with the kinds that it brings along.
#[must_use]
pub fn read_album(source: &Source, files: &mut KindFiles<'_>) -> Checked<Album> {
    let own = kinds_of(&kinds(), source, None, files);
    let album = album::read(source, &own.kinds);
    own.with(album)
}
