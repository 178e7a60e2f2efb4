// SPDX-License-Identifier: MIT
//! What the page asks: about which file, beside which albums, with which machine, after which change.

use super::change::Wanted;
use super::kit::Machine;
use super::on_table::TableAlbum;
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
