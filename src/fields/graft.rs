// SPDX-License-Identifier: MIT
//! A file with values of another file put into it, each value knowing in which of the two it stands.
//!
//! In: two files' texts, ways into the first, values of the second. Out: a tree to read, and a [`Source`] that places its values.
//! Never: a changed text: a maker is sent to the line that they wrote.

use super::source::Source;
use super::tree::{Node, Tree};
use crate::finding::Finding;
use std::ops::Range;

/// A file's tree, changed by another file.
#[derive(Clone, Debug)]
pub struct Grafted {
    source: Source,
    root: Node,
    /// What is added to a place of the other file.
    behind: usize,
}

/// The file has no such place.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct NoSuchPlace;

/// A step of a way: into an object, or to an entry of a list.
enum WayStep<'p> {
    Field(&'p str),
    Entry(usize),
}

impl Grafted {
    /// A file that nothing is changed in yet; `other` is where changes will come from.
    ///
    /// # Errors
    /// The file's text is not JSON.
    pub fn new(file: &Source, other: &Source) -> Result<Self, Box<Finding>> {
        let root = Node::read(file)?;
        Ok(Self { behind: file.text().len() + 1, source: file.followed_by(other), root })
    }

    /// What places its values.
    #[must_use]
    pub const fn source(&self) -> &Source {
        &self.source
    }

    /// Its values.
    #[must_use]
    pub const fn root(&self) -> &Node {
        &self.root
    }

    /// Puts a value of the other file to the place that a way leads to, written as [`Place::path`](crate::finding::Place)
    /// writes it; `name` is where the way stands. An object is merged into one that stands there; `null` takes out what does.
    ///
    /// # Errors
    /// The file has not what the way leads into; nothing is changed then.
    ///
    /// ```
    /// use hingeleaf::fields::{Grafted, Node, Source, Tree};
    /// let album = Source::new("a.json", br#"{ "page": { "width": 100, "seam": 9 } }"#.to_vec()).unwrap();
    /// let order = Source::new("b.json", br#"{ "width": 120, "seam": null }"#.to_vec()).unwrap();
    /// let change = Node::read(&order).unwrap();
    /// let mut changed = Grafted::new(&album, &order).unwrap();
    /// changed.put("page", &(0..1), &change).unwrap();
    /// let page = changed.root().at("page").unwrap();
    /// assert!(page.get("seam").is_none());
    /// let width = page.get("width").unwrap();
    /// assert_eq!(changed.source().place(&width.range, "page.width").to_string(), "b.json, line 1, column 12 (page.width)");
    /// assert!(changed.put("pages[3].pocket", &(0..1), &change).is_err());
    /// ```
    pub fn put(&mut self, path: &str, name: &Range<usize>, value: &Node) -> Result<(), NoSuchPlace> {
        let steps = steps(path).ok_or(NoSuchPlace)?;
        let (last, way) = steps.split_last().ok_or(NoSuchPlace)?;
        let mut at = &mut self.root;
        for step in way {
            at = at.child(step).ok_or(NoSuchPlace)?;
        }
        let name = shifted(name, self.behind);
        at.put(last, &name, moved(value, self.behind))
    }
}

impl Node {
    fn child(&mut self, step: &WayStep<'_>) -> Option<&mut Self> {
        match (step, &mut self.tree) {
            (WayStep::Field(name), Tree::Object(fields)) => {
                fields.iter_mut().rev().find(|(key, ..)| key == name).map(|(.., node)| node)
            }
            (WayStep::Entry(number), Tree::Array(items)) => items.get_mut(*number),
            _ => None,
        }
    }

    fn put(&mut self, step: &WayStep<'_>, name: &Range<usize>, value: Self) -> Result<(), NoSuchPlace> {
        match (step, &mut self.tree) {
            (WayStep::Field(field), Tree::Object(fields)) => put_field(fields, field, name, value),
            (WayStep::Entry(number), Tree::Array(items)) if *number < items.len() => {
                if matches!(value.tree, Tree::Null) {
                    items.remove(*number);
                } else {
                    items[*number].take(value);
                }
            }
            _ => return Err(NoSuchPlace),
        }
        Ok(())
    }

    /// Becomes a value; of two objects the fields are merged.
    fn take(&mut self, value: Self) {
        match (&mut self.tree, value.tree) {
            (Tree::Object(fields), Tree::Object(others)) => {
                for (field, name, value) in others {
                    put_field(fields, &field, &name, value);
                }
            }
            (_, tree) => *self = Self { tree, ..value },
        }
    }
}

fn put_field(fields: &mut Vec<(String, Range<usize>, Node)>, field: &str, name: &Range<usize>, value: Node) {
    let at = fields.iter().rposition(|(key, ..)| key == field);
    match (at, &value.tree) {
        (Some(at), Tree::Null) => {
            fields.remove(at);
        }
        (Some(at), _) => fields[at].2.take(value),
        (None, Tree::Null) => {}
        (None, _) => fields.push((field.to_owned(), name.clone(), value)),
    }
}

/// The steps of `pages[0].pocket`; nothing where it is no way.
fn steps(path: &str) -> Option<Vec<WayStep<'_>>> {
    let mut steps = Vec::new();
    for part in path.split('.') {
        let (name, mut numbers) = part.find('[').map_or((part, ""), |at| part.split_at(at));
        if name.is_empty() {
            return None;
        }
        steps.push(WayStep::Field(name));
        while !numbers.is_empty() {
            let (number, rest) = numbers.strip_prefix('[')?.split_once(']')?;
            steps.push(WayStep::Entry(number.parse().ok()?));
            numbers = rest;
        }
    }
    Some(steps)
}

fn shifted(range: &Range<usize>, by: usize) -> Range<usize> {
    range.start + by..range.end + by
}

/// A value at its places behind the first file.
fn moved(node: &Node, by: usize) -> Node {
    let tree = match &node.tree {
        Tree::Object(fields) => Tree::Object(
            fields.iter().map(|(key, name, value)| (key.clone(), shifted(name, by), moved(value, by))).collect(),
        ),
        Tree::Array(items) => Tree::Array(items.iter().map(|item| moved(item, by)).collect()),
        other => other.clone(),
    };
    Node { range: shifted(&node.range, by), tree }
}
