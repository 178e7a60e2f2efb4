// SPDX-License-Identifier: MIT
//! An album with the files that it names: its own kinds, its cutters, its drawer, its drawings, as they lie on the table.

use super::beside::NamedFiles;
use super::question::Question;
use super::{drawn, likeness};
use crate::album::Album;
use crate::fields::Source;
use crate::finding::Checked;
use crate::parts;

/// An album, and what is told of the files that it names.
pub(super) struct AlbumRead {
    pub album: Checked<Album>,
    pub files: NamedFiles,
}

impl AlbumRead {
    pub(super) fn of(source: &Source, question: &Question) -> Self {
        let mut files = NamedFiles::default();
        let mut album =
            parts::read_album(source, &mut |name| files.kind_file(name, (&question.files, &question.drawings)));
        files.cutters(album.value.iter_mut(), &question.files);
        if let Some(album) = &mut album.value {
            files.drawer(&mut album.drawer, &question.files);
            files.drawn = drawn::of_album(album, &question.drawings);
            files.say(likeness::of_album(album, &question.drawings));
        }
        Self { album, files }
    }
}
