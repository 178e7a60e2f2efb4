// SPDX-License-Identifier: MIT
//! In what state card is handed over, as a form with a row a stock: `handed_over` of an album, a batch, a group of makers.

use super::form::FormFile;
use super::hand::{Hand, value_of};
use super::words;
use crate::album::Handed;
use crate::fields::{Change, Node, Tree};
use crate::finding::{Arg, Finding, Said};
use serde_json::{Map, Value, json};

const FIELD: &str = "handed_over";

/// The states, and what the page calls them.
const STATES: [(Handed, &str); 3] =
    [(Handed::Sheets, "handed-sheets"), (Handed::Cut, "handed-cut"), (Handed::Scored, "handed-scored")];

/// The object and the stock of `class.makers[0].handed_over.card`.
pub(super) fn parted(path: &str) -> Option<(&str, &str)> {
    let at = path.find("handed_over.").filter(|at| *at == 0 || path[..*at].ends_with('.'))? + FIELD.len();
    Some((&path[..at], &path[at + 1..]))
}

/// A row for each of these stocks; `usual` is what holds where nothing is said of any.
pub(super) fn rows(file: &FormFile<'_>, way: &str, stocks: &[String], usual: &'static str) -> Vec<Value> {
    let path = if way.is_empty() { FIELD.to_owned() } else { format!("{way}.{FIELD}") };
    let node = file.root.at(&path);
    let choices: Vec<Value> = STATES
        .iter()
        .map(|(state, key)| json!({ "value": state.word(), "label": words::say(&Said::new(key)) }))
        .collect();
    let row = |stock: &String| {
        let said = node.and_then(|node| of(node, stock));
        // Where some are named, the others are whole sheets.
        let usual =
            if node.is_some() { words::say(&Said::new("handed-sheets")) } else { words::say(&Said::new(usual)) };
        json!({
            "path": format!("{path}.{stock}"),
            "label": words::say(&Said::new("handed-over-of").with("stock", Arg::code(stock))),
            "about": "",
            "value": said.unwrap_or_default(),
            "given": said.is_some(),
            "needed": false,
            "usual": usual,
            "takes": "choice",
            "choices": choices,
        })
    };
    stocks.iter().map(row).collect()
}

/// What is said of a stock.
fn of<'n>(node: &'n Node, stock: &str) -> Option<&'n str> {
    match &node.tree {
        Tree::Text(word) => Some(word),
        _ => match &node.get(stock)?.tree {
            Tree::Text(word) => Some(word),
            _ => None,
        },
    }
}

/// Says it of one stock; nothing typed leaves that stock out. What is the same of all stocks is said in one word.
pub(super) fn set(
    hand: &mut Hand,
    way: &str,
    (stock, typed): (&str, &str),
    stocks: &[String],
) -> Result<(), Box<Finding>> {
    let root = Node::read(&hand.source)?;
    let before = root.at(way).map(|node| value_of(&hand.source, node));
    let mut entries = match before {
        Some(Value::Object(entries)) => entries,
        Some(word @ Value::String(_)) => stocks.iter().map(|stock| (stock.clone(), word.clone())).collect(),
        _ => Map::new(),
    };
    if typed.is_empty() {
        entries.shift_remove(stock);
    } else {
        entries.insert(stock.to_owned(), typed.into());
    }
    let path = way.to_owned();
    let Some(first) = entries.values().next().cloned() else {
        return if root.at(way).is_some() { hand.alter(&Change::Remove { path }) } else { Ok(()) };
    };
    let same = stocks.iter().all(|stock| entries.get(stock) == Some(&first));
    let value = if same { first } else { Value::Object(entries) };
    hand.alter(&Change::Set { path, value })
}
