// SPDX-License-Identifier: MIT
//! What the page asks: about which file, beside which albums, with which machine, after which change.

use super::change::Wanted;
use super::kit::Machine;
use serde::Deserialize;

/// What every question about an album or a batch holds.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Question {
    pub name: String,
    pub text: String,
    #[serde(default)]
    pub machine: Machine,
    #[serde(default)]
    pub change: Option<Wanted>,
    /// Which file of the kit.
    #[serde(default)]
    pub file: String,
    /// Which kinds of file of the kit; all where it is empty.
    #[serde(default)]
    pub formats: Vec<String>,
    /// The files that lie beside it: a batch's albums, drawers, cutters.
    #[serde(default)]
    pub albums: Vec<TableAlbum>,
    /// Whether a class is to begin, and no batch.
    #[serde(default)]
    pub class: bool,
}

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
