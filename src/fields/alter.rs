// SPDX-License-Identifier: MIT
//! Changes of a file's text, one at a time: a field set or taken away, an entry put into a list, moved, taken out.
//!
//! In: a file's text, what to change. Out: the same text byte for byte but for that, in the style of what stands beside
//! it. Never: knows what an album is, touches a file.

use super::edit::{EditProblem, add, names_a_field, quoted};
use super::source::Source;
use super::tree::{Node, Tree};
use crate::length::excerpt;
use serde_json::Value;
use std::ops::Range;

/// One change of a file's text; every way is written as [`Place::path`](crate::finding::Place) writes it.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub enum Change {
    /// This value stands at `path` afterwards; objects on the way that are not there yet are made.
    Set {
        /// The way to it.
        path: String,
        /// What it should be.
        value: Value,
    },
    /// Nothing stands at `path` afterwards, which is a field or an entry of a list.
    Remove {
        /// The way to it.
        path: String,
    },
    /// A new entry of a list, before the one that has this number now, or at the end.
    Insert {
        /// The way to the list.
        list: String,
        /// Its number afterwards, from 0.
        at: usize,
        /// What it is.
        value: Value,
    },
    /// An entry of a list gets another number; those between move up.
    Move {
        /// The way to the list.
        list: String,
        /// Its number now, from 0.
        from: usize,
        /// Its number afterwards.
        to: usize,
    },
}

/// The file's text with one change.
///
/// # Errors
/// See [`EditProblem`]; nothing is changed then.
///
/// ```
/// use hingeleaf::fields::{Change, Source, alter};
/// let source = Source::new("a.json", br#"{ "pages": [{ "kind": "pocket" }, { "kind": "frame" }] }"#.to_vec()).unwrap();
/// let text = alter(&source, &Change::Move { list: "pages".into(), from: 1, to: 0 })?;
/// assert_eq!(text, r#"{ "pages": [{ "kind": "frame" }, { "kind": "pocket" }] }"#);
/// # Ok::<(), hingeleaf::fields::EditProblem>(())
/// ```
pub fn alter(source: &Source, change: &Change) -> Result<String, EditProblem> {
    let root = Node::read(source).map_err(|_| EditProblem::NotJson)?;
    let (range, new) = match change {
        Change::Set { path, value } => set(source, &root, path, value)?,
        Change::Remove { path } => (taken(&root, path)?, String::new()),
        Change::Insert { list, at, value } => inserted(source, &root, list, *at, &written(value))?,
        Change::Move { list, from, to } => moved(source, &root, list, *from, *to)?,
    };
    let old = source.text();
    let (before, after) = (old.get(..range.start).unwrap_or_default(), old.get(range.end..).unwrap_or_default());
    Ok([source.mark(), before, &new, after].concat())
}

fn set(source: &Source, root: &Node, path: &str, value: &Value) -> Result<(Range<usize>, String), EditProblem> {
    if path.is_empty() {
        return Err(EditProblem::NoPlace(String::new()));
    }
    if let Some(node) = root.at(path) {
        return Ok((node.range.clone(), written(value)));
    }
    let (mut way, name) = parted(path);
    if !names_a_field(path) {
        return Err(EditProblem::NoPlace(excerpt(path)));
    }
    let mut text = format!("{}: {}", quoted(name), written(value));
    loop {
        if let Some(object) = root.at(way) {
            return match object.tree {
                Tree::Object(_) => Ok(add(source, object, &[text])),
                _ => Err(EditProblem::NoPlace(excerpt(path))),
            };
        }
        let (up, name) = parted(way);
        // Entries of lists are not made on the way.
        if way.is_empty() || !names_a_field(way) {
            return Err(EditProblem::NoPlace(excerpt(path)));
        }
        text = format!("{}: {{ {text} }}", quoted(name));
        way = up;
    }
}

fn taken(root: &Node, path: &str) -> Result<Range<usize>, EditProblem> {
    let nothing = || EditProblem::NoPlace(excerpt(path));
    if let Some((list, number)) = entry(path) {
        let items = items(root, list)?;
        let ranges: Vec<Range<usize>> = items.iter().map(|item| item.range.clone()).collect();
        return without(&ranges, number).ok_or_else(nothing);
    }
    let (way, name) = parted(path);
    let Some(Node { tree: Tree::Object(entries), .. }) = root.at(way) else { return Err(nothing()) };
    let ranges: Vec<Range<usize>> = entries.iter().map(|(_, name, node)| name.start..node.range.end).collect();
    let number = entries.iter().rposition(|(key, ..)| key == name).ok_or_else(nothing)?;
    without(&ranges, number).ok_or_else(nothing)
}

/// What goes when one of several things with commas between them goes.
fn without(ranges: &[Range<usize>], number: usize) -> Option<Range<usize>> {
    let own = ranges.get(number)?;
    let before = number.checked_sub(1).and_then(|before| ranges.get(before));
    Some(match (ranges.get(number + 1), before) {
        (Some(next), _) => own.start..next.start,
        (None, Some(before)) => before.end..own.end,
        (None, None) => own.clone(),
    })
}

fn inserted(
    source: &Source,
    root: &Node,
    list: &str,
    at: usize,
    text: &str,
) -> Result<(Range<usize>, String), EditProblem> {
    let Some(node) = root.at(list) else {
        let (way, name) = parted(list);
        let Some(object @ Node { tree: Tree::Object(_), .. }) = root.at(way).filter(|_| names_a_field(list)) else {
            return Err(EditProblem::NoPlace(excerpt(list)));
        };
        return Ok(add(source, object, &[format!("{}: [ {text} ]", quoted(name))]));
    };
    let items = items(root, list)?;
    let (Some(first), Some(last)) = (items.first(), items.last()) else {
        return Ok((node.range.clone(), format!("[ {text} ]")));
    };
    let between = |from: usize, to: usize| source.text().get(from..to).unwrap_or_default().to_owned();
    let apart = if let Some(second) = items.get(1) {
        between(first.range.end, second.range.start)
    } else {
        let lead = between(node.range.start + 1, first.range.start);
        if lead.contains('\n') { format!(",{lead}") } else { ", ".into() }
    };
    Ok(match items.get(at) {
        Some(item) => (item.range.start..item.range.start, format!("{text}{apart}")),
        None => (last.range.end..last.range.end, format!("{apart}{text}")),
    })
}

fn moved(
    source: &Source,
    root: &Node,
    list: &str,
    from: usize,
    to: usize,
) -> Result<(Range<usize>, String), EditProblem> {
    let items = items(root, list)?;
    let (low, high) = (from.min(to), from.max(to));
    let Some(span) = items.get(low..=high) else { return Err(EditProblem::NoPlace(excerpt(list))) };
    let text = |range: Range<usize>| source.text().get(range).unwrap_or_default();
    let mut texts: Vec<&str> = span.iter().map(|item| text(item.range.clone())).collect();
    if from < to {
        texts.rotate_left(1);
    } else {
        texts.rotate_right(1);
    }
    // What stands between the entries stays where it is.
    let gaps = span.iter().zip(span.iter().skip(1)).map(|(one, two)| text(one.range.end..two.range.start));
    let mut new = String::new();
    for (text, gap) in texts.into_iter().zip(gaps.chain([""])) {
        new += text;
        new += gap;
    }
    let whole = span.iter().map(|item| item.range.clone()).reduce(|one, two| one.start..two.end).unwrap_or(0..0);
    Ok((whole, new))
}

fn items<'n>(root: &'n Node, list: &str) -> Result<&'n [Node], EditProblem> {
    match root.at(list) {
        Some(Node { tree: Tree::Array(items), .. }) => Ok(items),
        _ => Err(EditProblem::NoPlace(excerpt(list))),
    }
}

/// The list and number of `pages[3]`.
fn entry(path: &str) -> Option<(&str, usize)> {
    let (list, number) = path.strip_suffix(']')?.rsplit_once('[')?;
    Some((list, number.parse().ok()?))
}

fn parted(path: &str) -> (&str, &str) {
    path.rsplit_once('.').unwrap_or(("", path))
}

/// A value as album files write it: on one line, with space inside brackets of objects.
fn written(value: &Value) -> String {
    match value {
        Value::Object(fields) if !fields.is_empty() => {
            let fields: Vec<String> =
                fields.iter().map(|(name, value)| format!("{}: {}", quoted(name), written(value))).collect();
            format!("{{ {} }}", fields.join(", "))
        }
        Value::Array(items) => format!("[{}]", items.iter().map(written).collect::<Vec<_>>().join(", ")),
        other => other.to_string(),
    }
}
