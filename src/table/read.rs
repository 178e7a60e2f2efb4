// SPDX-License-Identifier: MIT
//! An album with the files that it names: its cutters and its drawer, as they lie beside it on the table.

use super::beside::Beside;
use super::question::Question;
use crate::album::{self as albums, Album};
use crate::fields::Source;
use crate::finding::Checked;
use crate::parts;

/// An album, and what is told of the files that it names.
pub(super) struct AlbumRead {
    pub album: Checked<Album>,
    pub files: Beside,
}

impl AlbumRead {
    pub(super) fn of(source: &Source, question: &Question) -> Self {
        let mut album = albums::read(source, &parts::kinds());
        let mut files = Beside::default();
        files.cutters(album.value.iter_mut(), &question.albums);
        if let Some(album) = &mut album.value {
            files.drawer(&mut album.drawer, &question.albums);
        }
        Self { album, files }
    }
}
