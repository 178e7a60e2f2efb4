// SPDX-License-Identifier: MIT
//! The albums that lie on the table beside a batch, and the kits or groups of makers that are made of them.

use crate::album::Album;
use crate::fields::{Node, Source, Tree};
use crate::finding::{Arg, Finding};
use crate::parts;
use crate::table::beside;
use crate::table::hand::gone;
use crate::table::question::TableAlbum;

/// The id of the finding that an album is not there.
pub(super) const MISSING: &str = "no-album-here";

/// An album's text by its name.
pub(super) fn album(beside: &[TableAlbum], name: &str) -> Result<Source, Box<Finding>> {
    beside::source(beside, name, [MISSING, "album-not-on-the-table"])
}

/// An album as its file is, without a batch's changes, where it can be read.
pub(super) fn plain(beside: &[TableAlbum], name: &str) -> Option<(Album, Source, Node)> {
    let source = album(beside, name).ok()?;
    let album = parts::read_album(&source, &mut parts::no_kind_files).value?;
    let root = Node::read(&source).ok()?;
    Some((album, source, root))
}

/// Whether a batch file is a class.
pub(super) fn is_class(root: &Node) -> bool {
    root.get("class").is_some()
}

/// The way to the kits of a batch file, or to the groups of a class, which are its kits.
pub(super) fn list(root: &Node) -> &'static str {
    if is_class(root) { "class.makers" } else { "kits" }
}

/// The kits of a batch file, or the groups of a class.
pub(super) fn kits(root: &Node) -> &[Node] {
    match root.at(list(root)).map(|node| &node.tree) {
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

/// The name of the album that a kit, a group or a class is made of.
pub(super) fn album_name<'n>(root: &'n Node, owner: &str) -> Option<&'n str> {
    let own = root.at(owner).and_then(|node| text(node, "album"));
    let of_class = || root.get("class").and_then(|class| text(class, "album"));
    let of_first = || kits(root).iter().find_map(|kit| text(kit, "album"));
    own.or_else(of_class).or_else(of_first)
}

/// The album file of a kit, a group or a class, as it is without changes.
pub(super) fn album_of(root: &Node, albums: &[TableAlbum], owner: &str) -> Result<(Album, Source, Node), Box<Finding>> {
    let name = album_name(root, owner).unwrap_or_default();
    plain(albums, name).ok_or_else(|| gone(Arg::code(name)))
}
