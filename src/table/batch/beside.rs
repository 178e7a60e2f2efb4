// SPDX-License-Identifier: MIT
//! The albums that lie on the table beside a batch, and the kits or groups of makers that are made of them.

use crate::album::Album;
use crate::fields::{Node, Source, Tree};
use crate::finding::{Arg, Finding};
use crate::parts;
use crate::table::beside::{self, NamedFiles};
use crate::table::hand::{gone, plain as value};
use crate::table::on_table::TableFile;
use serde_json::Value;

/// The id of the finding that an album is not there.
pub(super) const MISSING: &str = "no-album-here";

/// An album's text by its name.
pub(super) fn album(beside: &[TableFile], name: &str) -> Result<Source, Box<Finding>> {
    beside::source(beside, name, [MISSING, "album-not-on-the-table"])
}

/// An album as its file is, without a batch's changes, where it can be read.
pub(super) fn plain(beside: &[TableFile], name: &str) -> Option<(Album, Source, Node)> {
    let source = album(beside, name).ok()?;
    let album = read(&source, beside)?;
    let root = Node::read(&source).ok()?;
    Some((album, source, root))
}

/// An album with its own kinds, where it can be read.
pub(super) fn read(source: &Source, beside: &[TableFile]) -> Option<Album> {
    let mut files = NamedFiles::default();
    parts::read_album(source, &mut |name| files.kind_file(name, (beside, &[]))).value
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
pub(super) fn album_of(root: &Node, albums: &[TableFile], owner: &str) -> Result<(Album, Source, Node), Box<Finding>> {
    let name = album_name(root, owner).unwrap_or_default();
    plain(albums, name).ok_or_else(|| gone(Arg::code(name)))
}

/// A name that no kit has: this one, else with a number behind.
pub(super) fn free_name(root: &Node, name: &str) -> String {
    let taken = |name: &str| kits(root).iter().any(|kit| text(kit, "name") == Some(name));
    let stem = name.rsplit_once('-').filter(|(_, number)| number.parse::<u32>().is_ok()).map_or(name, |(stem, _)| stem);
    let numbered = (2..).map(|number| {
        let end = format!("-{number}");
        // A name has 32 letters at most.
        let room: String = stem.chars().take(32 - end.len()).collect();
        room.trim_end_matches('-').to_owned() + &end
    });
    std::iter::once(name.to_owned()).chain(numbered).find(|name| !taken(name)).unwrap_or_default()
}

/// What stands for a value on the page, where it is not one word or number: as the file has it.
pub(super) fn shown(node: &Node) -> String {
    match &node.tree {
        Tree::Text(text) => text.clone(),
        Tree::Number(number) => number.to_string(),
        Tree::Flag(flag) => flag.to_string(),
        _ => value(node).unwrap_or(Value::Null).to_string(),
    }
}
