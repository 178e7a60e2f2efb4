// SPDX-License-Identifier: MIT
//! The ways of a batch file's fields on the page, and the field that a finding is at.
//!
//! A way is written as a file's other ways are: `kits[0].copies`. A key with a dot in it stands in the way as it is, behind the object
//! that holds it: `kits[0].change.stocks.paper.colour`, `packs.paper.ochre.price`.

use crate::fields::{Node, Tree};
use crate::finding::Place;
use crate::table::words;

/// What a way leads to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum BatchWay<'p> {
    /// A value of a kit's album, by its way in that.
    Change(usize, &'p str),
    /// Anything else.
    Plain,
}

pub(super) fn way(path: &str) -> BatchWay<'_> {
    let change = || {
        let (number, rest) = path.strip_prefix("kits[")?.split_once(']')?;
        Some(BatchWay::Change(number.parse().ok()?, rest.strip_prefix(".change.")?))
    };
    change().unwrap_or(BatchWay::Plain)
}

/// The number of the kit that a way leads into.
pub(super) fn kit(path: &str) -> Option<usize> {
    path.strip_prefix("kits[")?.split_once(']')?.0.parse().ok()
}

/// The deepest field round a place of the text.
pub(super) fn at(root: &Node, offset: usize) -> String {
    let (mut node, mut way) = (root, String::new());
    loop {
        match &node.tree {
            Tree::Object(fields) => {
                let found = fields.iter().find(|(_, name, value)| (name.start..value.range.end).contains(&offset));
                let Some((key, _, value)) = found else { return way };
                way = if way.is_empty() { key.clone() } else { format!("{way}.{key}") };
                node = value;
            }
            Tree::Array(items) => {
                let found = items.iter().enumerate().find(|(_, item)| item.range.contains(&offset));
                let Some((number, item)) = found else { return way };
                way = format!("{way}[{number}]");
                node = item;
            }
            _ => return way,
        }
    }
}

/// The field of the batch file that a place in it is about.
pub(super) fn of(root: &Node, text: &str, place: &Place) -> String {
    let before: usize = text.split_inclusive('\n').take(place.line.saturating_sub(1)).map(str::len).sum();
    let line = text.get(before..).unwrap_or_default();
    let column: usize = line.chars().take(place.column.saturating_sub(1)).map(char::len_utf8).sum();
    let deepest = at(root, before + column);
    // What is not there has its place at the object that lacks it.
    let lacks = place.path.starts_with(&format!("{deepest}."));
    if lacks || deepest.is_empty() { place.path.clone() } else { deepest }
}

/// A field with the place that it stands at, as the page calls it.
pub(super) fn named(path: &str) -> String {
    match way(path) {
        BatchWay::Change(_, within) => words::named(within),
        BatchWay::Plain => {
            let (way, name) = path.rsplit_once('.').unwrap_or(("", path));
            words::label_in(way, name)
        }
    }
}
