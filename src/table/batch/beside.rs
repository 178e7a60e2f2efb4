// SPDX-License-Identifier: MIT
//! The albums that lie on the table beside a batch.

use crate::album::Album;
use crate::fields::{Node, Source, Tree};
use crate::finding::{Arg, Finding, Said};
use crate::length::excerpt;
use crate::parts;
use crate::table::hand::gone;
use crate::table::on_table::TableAlbum;

/// The id of the finding that an album is not there.
pub(super) const MISSING: &str = "no-album-here";

/// An album's text by its name.
pub(super) fn album(beside: &[TableAlbum], name: &str) -> Result<Source, Box<Finding>> {
    let Some(text) = beside.iter().find(|one| one.name == name).and_then(|one| one.text.as_ref()) else {
        let text = Said::new("album-not-on-the-table").with("file", Arg::code(excerpt(name)));
        let finding = Finding::stop(MISSING, Said::NOTHING, text);
        return Err(Box::new(finding.help(Said::new("album-not-on-the-table-help"))));
    };
    Source::new(name, text.clone().into_bytes())
}

/// An album as its file is, without a batch's changes, where it can be read.
pub(super) fn plain(beside: &[TableAlbum], name: &str) -> Option<(Album, Source, Node)> {
    let source = album(beside, name).ok()?;
    let album = parts::read_album(&source, &mut parts::no_kind_files).value?;
    let root = Node::read(&source).ok()?;
    Some((album, source, root))
}

/// The kits of a batch file.
pub(super) fn kits(root: &Node) -> &[Node] {
    match root.get("kits").map(|node| &node.tree) {
        Some(Tree::Array(kits)) => kits,
        _ => &[],
    }
}

/// A field that is a text.
pub(super) fn text<'n>(node: &'n Node, field: &str) -> Option<&'n str> {
    match &node.get(field)?.tree {
        Tree::Text(text) => Some(text),
        _ => None,
    }
}

/// The album files that a batch file names, each once.
pub(in crate::table) fn albums(name: &str, batch: &str) -> Vec<String> {
    let source = Source::new(name, batch.as_bytes().to_vec()).ok();
    let Some(root) = source.and_then(|source| Node::read(&source).ok()) else { return Vec::new() };
    let mut names: Vec<String> = Vec::new();
    for name in kits(&root).iter().filter_map(|kit| text(kit, "album")) {
        if names.iter().all(|known| known != name) {
            names.push(name.to_owned());
        }
    }
    names
}

/// The album file of a kit, as it is without changes.
pub(super) fn album_of(root: &Node, albums: &[TableAlbum], kit: usize) -> Result<(Album, Source, Node), Box<Finding>> {
    let name = kits(root).get(kit).and_then(|kit| text(kit, "album")).unwrap_or_default();
    plain(albums, name).ok_or_else(|| gone(Arg::code(name)))
}
