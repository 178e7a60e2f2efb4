// SPDX-License-Identifier: MIT
//! The ways of a batch file's fields on the page, and the field that a finding is at.
//!
//! A way is written as a file's other ways are: `kits[0].copies`. A key with a dot in it stands in the way as it is, behind the object
//! that holds it: `kits[0].change.stocks.paper.colour`, `packs.paper.ochre.price`.

use crate::fields::{Node, Tree};
use crate::finding::{Arg, Place, Said};
use crate::table::words;

/// What a way leads to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum BatchWay<'p> {
    /// A value of an album that is otherwise in a kit, a group or a class, by its way in that album.
    Change(&'p str, &'p str),
    /// Anything else.
    Plain,
}

pub(super) fn way(path: &str) -> BatchWay<'_> {
    let change = || {
        let owner = owner(path)?;
        Some(BatchWay::Change(owner, path.strip_prefix(owner)?.strip_prefix(".change.")?))
    };
    change().unwrap_or(BatchWay::Plain)
}

/// The kit, the group or the class that a way leads into: `kits[0]`, `class.makers[1]`, `class`.
pub(super) fn owner(path: &str) -> Option<&str> {
    let entry = |list: &str| {
        let rest = path.strip_prefix(list)?;
        let (number, _) = rest.split_once(']')?;
        number.parse::<usize>().ok().map(|_| &path[..=list.len() + number.len()])
    };
    let class = || path.strip_prefix("class").filter(|rest| rest.is_empty() || rest.starts_with('.')).map(|_| "class");
    entry("kits[").or_else(|| entry("class.makers[")).or_else(class)
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
            let of_stock = |key| words::say(&Said::new(key).with("stock", Arg::code(name)));
            match way.rsplit('.').next() {
                Some("sheet") => of_stock("sheet-of-stock"),
                Some("handed_over") => of_stock("handed-over-of"),
                _ => words::label_in(way, name),
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_way_leads_into_a_kit_a_group_or_the_class() {
        for (path, into) in [
            ("kits[12].change.pages[0].pocket", Some("kits[12]")),
            ("kits[0]", Some("kits[0]")),
            ("class.makers[3].sheet.card", Some("class.makers[3]")),
            ("class.makers", Some("class")),
            ("class", Some("class")),
            ("classes", None),
            ("kits[x].name", None),
            ("spares.kits", None),
        ] {
            assert_eq!(owner(path), into, "{path}");
        }
        assert_eq!(way("class.change.page.seam"), BatchWay::Change("class", "page.seam"));
        assert_eq!(way("kits[1].change.stocks.a.price"), BatchWay::Change("kits[1]", "stocks.a.price"));
        assert_eq!(way("kits[1].name"), BatchWay::Plain);
    }
}
