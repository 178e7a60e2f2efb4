// SPDX-License-Identifier: MIT
//! What the page asks: about which file, beside which others, with which machine, after which change.

use super::change::Wanted;
use super::machine::Machine;
use super::on_table::{TableDrawing, TableFile};
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
    /// Whether what is seen of it is to be answered first, in a line of its own.
    #[serde(default)]
    pub first: bool,
    /// Which file of the kit.
    #[serde(default)]
    pub file: String,
    /// The sheet that a test piece is cut from.
    #[serde(default)]
    pub sheet: String,
    /// Which page is drawn, from 0.
    #[serde(default)]
    pub page: usize,
    /// What is drawn instead of a page: `spine` or `cover`.
    #[serde(default)]
    pub part: String,
    /// Which kinds of file of the kit; all where it is empty.
    #[serde(default)]
    pub formats: Vec<String>,
    /// The files that lie beside it: a batch's albums, drawers, cutters.
    #[serde(default)]
    pub files: Vec<TableFile>,
    /// The drawings that the file names.
    #[serde(default)]
    pub drawings: Vec<TableDrawing>,
    /// Whether a class is to begin, and no batch.
    #[serde(default)]
    pub class: bool,
    /// What it is compared with.
    #[serde(default)]
    pub against: Option<EarlierFile>,
    /// Versions of it that lie in the zip, too, each called by its name.
    #[serde(default)]
    pub versions: Vec<EarlierFile>,
}

/// What a file is compared with: an album, a batch or a report, with all that belongs to it.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct EarlierFile {
    pub name: String,
    pub text: String,
    /// What the page calls it.
    #[serde(default)]
    pub called: Option<String>,
    #[serde(default)]
    pub files: Vec<TableFile>,
    #[serde(default)]
    pub drawings: Vec<TableDrawing>,
}

impl EarlierFile {
    /// The same question about this file.
    pub(super) fn question(&self, asked: &Question) -> Question {
        let Self { name, text, files, drawings, .. } = self.clone();
        let (file, formats) = (String::new(), Vec::new());
        let machine = asked.machine.clone();
        Question {
            name,
            text,
            machine,
            change: None,
            first: false,
            file,
            sheet: String::new(),
            page: 0,
            part: String::new(),
            formats,
            files,
            drawings,
            class: false,
            against: None,
            versions: Vec::new(),
        }
    }
}
