// SPDX-License-Identifier: MIT
//! A file on the table, as the page sends it along: its name, its text, what kind of file it is, its drawings.

use crate::fields::{Node, Source, Tree, of_kind};
use crate::{batch, coupon, cutter, drawer, editions, kind_file};
use serde::Deserialize;

/// A drawing on the table. It belongs to the file that names it: two albums may each have their own of one name.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct TableDrawing {
    /// The name that a file calls it by.
    pub name: String,
    /// What it holds.
    pub text: String,
}

/// A file that lies beside the one that a question is about: its name, and its text where the question needs it.
#[derive(Clone, Debug, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct TableFile {
    /// The name that files call it by.
    pub name: String,
    /// What it says.
    #[serde(default)]
    pub text: Option<String>,
    /// What kind of file it is, where it is no album.
    #[serde(default)]
    kind: Option<String>,
    /// The drawings that it names.
    #[serde(default)]
    pub drawings: Vec<TableDrawing>,
}

impl TableFile {
    /// `album`, `drawer`, `cutter`, `kind`, `measured`
    pub(super) fn kind(&self) -> &str {
        self.kind.as_deref().unwrap_or("album")
    }
}

/// What kind of file a text says that it is: `album` for whatever says no other.
pub(super) fn kind(source: &Source) -> &'static str {
    let format = Node::read(source).ok().and_then(|root| root.get("format").map(|node| node.tree.clone()));
    match format {
        Some(Tree::Text(format)) if of_kind(&format, batch::FORMAT) => "batch",
        Some(Tree::Text(format)) if of_kind(&format, drawer::FORMAT) => "drawer",
        Some(Tree::Text(format)) if of_kind(&format, cutter::FORMAT) => "cutter",
        Some(Tree::Text(format)) if of_kind(&format, editions::REPORT_FORMAT) => "report",
        Some(Tree::Text(format)) if of_kind(&format, kind_file::FORMAT) => "kind",
        Some(Tree::Text(format)) if of_kind(&format, coupon::FORMAT) => "measured",
        _ => "album",
    }
}
