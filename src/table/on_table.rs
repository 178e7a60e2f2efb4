// SPDX-License-Identifier: MIT
//! A file on the table, as the page sends it along.

use serde::Deserialize;

/// A file on the table: its name, and its text where the question is about it.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct TableAlbum {
    /// The name that files call it by.
    pub name: String,
    /// What its file says.
    #[serde(default)]
    pub text: Option<String>,
    /// What kind of file it is, where it is no album.
    #[serde(default)]
    kind: Option<String>,
}

impl TableAlbum {
    /// `album`, `drawer`, `cutter`
    pub(super) fn kind(&self) -> &str {
        self.kind.as_deref().unwrap_or("album")
    }
}
