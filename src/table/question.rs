// SPDX-License-Identifier: MIT
//! What the page asks: about which file, beside which albums, with which machine, after which change.

use super::change::Wanted;
use super::kit::Machine;
use super::on_table::{TableAlbum, TableDrawing};
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
    /// The albums that lie beside a batch.
    #[serde(default)]
    pub albums: Vec<TableAlbum>,
    /// The drawings that the file names.
    #[serde(default)]
    pub drawings: Vec<TableDrawing>,
    /// What it is compared with.
    #[serde(default)]
    pub against: Option<TableFile>,
}

impl TableFile {
    /// The same question about this file.
    pub(super) fn question(&self, asked: &Question) -> Question {
        let Self { name, text, albums, drawings, .. } = self.clone();
        let machine = asked.machine.clone();
        Question {
            name,
            text,
            machine,
            change: None,
            file: String::new(),
            formats: Vec::new(),
            albums,
            drawings,
            against: None,
        }
    }
}

/// A file on the table, with all that belongs to it.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct TableFile {
    pub name: String,
    pub text: String,
    /// What the page calls it.
    #[serde(default)]
    pub called: Option<String>,
    #[serde(default)]
    pub albums: Vec<TableAlbum>,
    #[serde(default)]
    pub drawings: Vec<TableDrawing>,
}
