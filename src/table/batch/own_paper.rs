// SPDX-License-Identifier: MIT
//! A colourway: a kit that is cut from a paper of its own where its album names another.

use super::{beside, ways};
use crate::fields::{Field, Node, Tree};
use crate::finding::{Arg, Finding, Said};
use crate::length::excerpt;
use crate::stock::{self, STOCK_FIELDS};
use crate::table::form::is_stock;
use crate::table::hand::{Hand, gone, refused, value_of};
use crate::table::on_table::TableFile;
use crate::table::terms;
use serde_json::Value;

/// Puts a paper like another one into a kit, and names it wherever the album names that.
pub(super) fn put(
    hand: &mut Hand,
    root: &Node,
    albums: &[TableFile],
    (path, like, name): (&str, &str, &str),
) -> Result<(), Box<Finding>> {
    let kit = ways::owner(path).ok_or_else(|| gone(path))?;
    let (album, source, of_album) = beside::album_of(root, albums, kit)?;
    if !stock::is_name(name) {
        let text = Said::new("stock-name").with("name", Arg::quoted(excerpt(name)));
        return Err(refused("stock-name", text, "stock-name-help"));
    }
    let change = format!("{kit}.change");
    let way = format!("stocks.{name}");
    let taken = root.at(&change).and_then(|change| change.get(&way)).is_some();
    if taken || of_album.at(&way).is_some() {
        let text = Said::new("stock-twice").with("name", Arg::quoted(name));
        return Err(refused("twice", text, "stock-twice-help"));
    }
    let twin = of_album.at(&format!("stocks.{like}")).ok_or_else(|| gone(Arg::quoted(like)))?;
    let mut named = Vec::new();
    naming(&of_album, "", like, &mut named);
    // A page cut from the first stock names none.
    let unsaid = album.stocks.get(album.page.stock).is_some_and(|stock| stock.bought() == like);
    if unsaid && of_album.at("page.stock").is_none() {
        named.push(("page.stock".to_owned(), name.into()));
    }
    terms::put(hand, &change, &way, Some(value_of(&source, twin)))?;
    for (way, value) in named {
        let value = match value {
            Value::Array(names) => {
                Value::Array(names.into_iter().map(|one| if one == like { name.into() } else { one }).collect())
            }
            _ => name.into(),
        };
        terms::put(hand, &change, &way, Some(value))?;
    }
    hand.notes.push(Said::new("kit-has-its-paper").with("paper", name).with("like", like));
    Ok(())
}

/// The paper and the field that a way leads to, where it is one of a paper that a kit has for itself.
pub(super) fn field<'w>(root: &Node, change: &str, within: &'w str) -> Option<(&'w str, &'static Field)> {
    let (paper, name) = within.rsplit_once('.').filter(|(paper, _)| paper.starts_with("stocks."))?;
    let is_own = matches!(root.at(change)?.get(paper)?.tree, Tree::Object(_));
    STOCK_FIELDS.iter().find(|field| field.name == name).filter(|_| is_own).map(|field| (paper, field))
}

/// Sets a field of such a paper, or leaves it out.
pub(super) fn set(
    hand: &mut Hand,
    change: &str,
    (paper, field): (&str, &str),
    value: Option<&Value>,
) -> Result<(), Box<Finding>> {
    let root = Node::read(&hand.source)?;
    let node = root.at(change).and_then(|change| change.get(paper)).ok_or_else(|| gone(paper))?;
    let mut entry = value_of(&hand.source, node);
    if let (Some(fields), Some(value)) = (entry.as_object_mut(), value) {
        fields.insert(field.to_owned(), value.clone());
    } else if let Some(fields) = entry.as_object_mut() {
        fields.shift_remove(field);
    }
    terms::put(hand, change, paper, Some(entry))
}

/// Takes a change out; with a paper of the kit's own all that is cut from it goes back to the album's.
pub(super) fn take(hand: &mut Hand, change: &str, within: &str) -> Result<(), Box<Finding>> {
    let root = Node::read(&hand.source)?;
    let entries = root.at(change).map(|node| value_of(&hand.source, node));
    terms::put(hand, change, within, None)?;
    let Some((name, entries)) = within.strip_prefix("stocks.").zip(entries.as_ref().and_then(Value::as_object)) else {
        return Ok(());
    };
    for (way, value) in entries.iter().filter(|(way, _)| way.rsplit('.').next().is_some_and(is_stock)) {
        if value == name || value.as_array().is_some_and(|names| names.iter().any(|one| one == name)) {
            terms::put(hand, change, way, None)?;
        }
    }
    Ok(())
}

/// The ways of all fields that name a stock, with what stands there.
fn naming(node: &Node, way: &str, like: &str, found: &mut Vec<(String, Value)>) {
    let is_it = |node: &Node| matches!(&node.tree, Tree::Text(text) if text == like);
    match &node.tree {
        Tree::Object(fields) => {
            for (field, _, value) in fields.iter().filter(|(field, ..)| !(way.is_empty() && field == "stocks")) {
                let path = if way.is_empty() { field.clone() } else { format!("{way}.{field}") };
                match &value.tree {
                    _ if !is_stock(field) => naming(value, &path, like, found),
                    Tree::Text(_) if is_it(value) => found.push((path, like.into())),
                    Tree::Array(names) if names.iter().any(is_it) => {
                        found.push((path, names.iter().filter_map(crate::table::hand::plain).collect()));
                    }
                    _ => {}
                }
            }
        }
        Tree::Array(items) => {
            for (number, item) in items.iter().enumerate() {
                naming(item, &format!("{way}[{number}]"), like, found);
            }
        }
        _ => {}
    }
}
