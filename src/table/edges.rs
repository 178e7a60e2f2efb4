// SPDX-License-Identifier: MIT
//! The edges of a page or an insert, for the page: which are free, what may be done to them, what is done.

use super::form::{self, FormFile};
use super::hand::{Hand, gone};
use super::words;
use crate::album::{CornerWord, EDGE_FIELDS, EDGES, Entry, FinishWord};
use crate::fields::{Change, Choices, Node, Tree};
use crate::finding::Finding;
use serde_json::{Value, json};

/// What the page shows of an entry's edges; none where none of them is free and nothing is asked of them.
pub(super) fn form(file: &FormFile<'_>, way: &str, entry: &Entry, free: &[String]) -> Option<Value> {
    if free.is_empty() && entry.edges.is_empty() {
        return None;
    }
    let choices = |words: &mut dyn Iterator<Item = &str>| -> Vec<Value> {
        words.map(|word| json!({ "value": word, "label": words::choice(word) })).collect()
    };
    let places: Vec<Value> =
        free.iter().map(|name| json!({ "value": name, "label": name.replace('/', ", ") })).collect();
    let one = |number: usize| {
        let own = format!("{way}.{}[{number}]", EDGES.name());
        let mut rows = form::rows(file, &own, EDGE_FIELDS, &|_| None);
        let place = format!("{own}.on");
        for row in rows.iter_mut().filter(|row| row["path"] == place.as_str()) {
            row["takes"] = "choice".into();
            row["choices"] = places.clone().into();
        }
        json!({ "way": own, "rows": rows })
    };
    let cuts: Vec<Value> = choices(&mut FinishWord::WORDS.iter().chain(CornerWord::WORDS).copied());
    Some(json!({ "free": places, "cuts": cuts, "list": (0..entry.edges.len()).map(one).collect::<Vec<_>>() }))
}

/// Asks one thing more of an entry's edges.
pub(super) fn add(hand: &mut Hand, root: &Node, way: &str, on: &str, cut: &str) -> Result<(), Box<Finding>> {
    let field = if CornerWord::WORDS.contains(&cut) { "corners" } else { "finish" };
    let known = field == "corners" || FinishWord::WORDS.contains(&cut);
    let entry = root.at(way).filter(|_| known).ok_or_else(|| gone(way))?;
    let value = json!({ "on": on, field: cut });
    let list = format!("{way}.{}", EDGES.name());
    match entry.get(EDGES.name()).map(|node| &node.tree) {
        Some(Tree::Array(items)) => hand.alter(&Change::Insert { list, at: items.len(), value }),
        _ => hand.alter(&Change::Set { path: list, value: json!([value]) }),
    }
}

/// The list of edges that an entry of it stands in, where it is the only one.
pub(super) fn last_of(root: &Node, path: &str) -> Option<String> {
    let (list, _) = path.strip_suffix(']')?.rsplit_once('[')?;
    let alone = matches!(&root.at(list)?.tree, Tree::Array(items) if items.len() == 1);
    (alone && list.ends_with(&format!(".{}", EDGES.name()))).then(|| list.to_owned())
}
