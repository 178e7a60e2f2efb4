// SPDX-License-Identifier: MIT
//! What lies on the table beside the file that a question is about: albums, drawings.

use serde::Deserialize;

/// A drawing on the table.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct TableDrawing {
    /// The name that a file calls it by.
    pub name: String,
    /// What it holds.
    pub text: String,
}

/// An album on the table: its name, and its text where the question is about it.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct TableAlbum {
    /// The name that a batch file calls it by.
    pub name: String,
    /// What its file says.
    #[serde(default)]
    pub text: Option<String>,
    /// The drawings that it names.
    #[serde(default)]
    pub drawings: Vec<TableDrawing>,
}
