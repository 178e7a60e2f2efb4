// SPDX-License-Identifier: MIT
//! What the maker says of buying and selling, as forms: `selling`, `packs`, `supplies` of an album or a batch file.

use super::form::{self, FormFile};
use super::hand::{Hand, gone, refused, value, value_of};
use super::words;
use crate::cost::{Cost, CostWhat};
use crate::fields::{Change, Field, Node, Tree};
use crate::finding::{Finding, Said};
use crate::selling::{PACK_FIELDS, SELLING_FIELDS, SUPPLY_FIELDS};
use crate::stock::Stock;
use serde_json::{Map, Value, json};

/// The forms; `stocks` are all that may be sold in packs, the cost knows what lacks a price.
pub(super) fn forms(file: &FormFile<'_>, stocks: &[Stock], cost: Option<&Cost>) -> Value {
    let held = |_: &Field| None;
    let packs = entries(file, "packs", PACK_FIELDS);
    let supplies = entries(file, "supplies", SUPPLY_FIELDS);
    let bought = stocks.iter().filter(|stock| !stock.ready && stock.shares.is_none());
    let free: Vec<&str> =
        bought.map(|stock| stock.name.as_str()).filter(|name| packs.iter().all(|pack| pack["name"] != *name)).collect();
    json!({
        "selling": form::rows(file, "selling", SELLING_FIELDS, &held),
        "packs": packs,
        "supplies": supplies,
        "unpacked": free,
        "unpriced": cost.map_or_else(Vec::new, unpriced),
    })
}

/// What is taken besides sheets and has no price, by the name that it has among supplies.
fn unpriced(cost: &Cost) -> Vec<&str> {
    let supplies = cost.without_price().filter(|row| matches!(row.what, CostWhat::Supply(_)));
    supplies.map(|row| row.name.as_str()).collect()
}

/// An object's entries, each with its rows.
fn entries(file: &FormFile<'_>, list: &str, fields: &'static [Field]) -> Vec<Value> {
    let Some(Node { tree: Tree::Object(entries), .. }) = file.root.get(list) else { return Vec::new() };
    let one = |(name, _, node): &(String, std::ops::Range<usize>, Node)| {
        let way = format!("{list}.{name}");
        let rows = entry_rows(file, node, (list, &way), fields);
        json!({ "name": name, "way": way, "rows": rows })
    };
    entries.iter().map(one).collect()
}

/// The rows of an object that stands at a way whose last step may have a dot in it; `list` is what it is an entry of.
pub(super) fn entry_rows(
    file: &FormFile<'_>,
    node: &Node,
    (list, way): (&str, &str),
    fields: &'static [Field],
) -> Vec<Value> {
    let own = FormFile { root: node, ..*file };
    let mut rows = form::rows(&own, "", fields, &|_| None);
    for row in &mut rows {
        let field = row["path"].as_str().unwrap_or_default().to_owned();
        row["label"] = words::label_in(list, &field).into();
        row["path"] = format!("{way}.{field}").into();
    }
    rows
}

/// The list, the entry and the field of `packs.paper.ochre.price`.
pub(super) fn parted(path: &str) -> Option<(&'static str, &str, &'static Field)> {
    let (list, fields, rest) = [("packs", PACK_FIELDS), ("supplies", SUPPLY_FIELDS)]
        .into_iter()
        .find_map(|(list, fields)| Some((list, fields, path.strip_prefix(list)?.strip_prefix('.')?)))?;
    let (entry, field) = rest.rsplit_once('.')?;
    Some((list, entry, fields.iter().find(|one| one.name == field)?))
}

/// A new pack or supply.
pub(super) fn add(hand: &mut Hand, list: &str, name: &str, fields: [(&str, Value); 2]) -> Result<(), Box<Finding>> {
    let list = ["packs", "supplies"].into_iter().find(|known| *known == list).ok_or_else(|| gone(list))?;
    let entry: Map<String, Value> = fields.into_iter().map(|(field, value)| (field.to_owned(), value)).collect();
    put(hand, list, name, Some(entry.into()))
}

/// A field of a pack or a supply.
pub(super) fn set(
    hand: &mut Hand,
    (list, name, field): (&'static str, &str, &str),
    value: Value,
) -> Result<(), Box<Finding>> {
    let root = Node::read(&hand.source)?;
    let node = root.get(list).and_then(|list| list.get(name)).ok_or_else(|| gone(name))?;
    let mut entry = value_of(&hand.source, node);
    entry[field] = value;
    put(hand, list, name, Some(entry))
}

/// An entry of an object by its key, which may have dots in it; nothing takes it out, and with the last one the object.
pub(super) fn put(hand: &mut Hand, object: &str, key: &str, value: Option<Value>) -> Result<(), Box<Finding>> {
    let root = Node::read(&hand.source)?;
    let before = root.at(object).map(|node| value_of(&hand.source, node));
    let mut entries = before.as_ref().and_then(Value::as_object).cloned().unwrap_or_default();
    match value {
        Some(value) => {
            entries.insert(key.to_owned(), value);
        }
        None => {
            entries.shift_remove(key).ok_or_else(|| gone(key))?;
        }
    }
    let path = object.to_owned();
    hand.alter(&if entries.is_empty() { Change::Remove { path } } else { Change::Set { path, value: entries.into() } })
}

/// What a pack or a supply lacks when it is added.
pub(super) fn lacks(of: &str, price: &str) -> Option<Said> {
    (of.trim().is_empty() || price.trim().is_empty()).then(|| Said::new("pack-lacks"))
}

/// A new pack or supply, as it was typed.
pub(super) fn sold(hand: &mut Hand, list: &str, name: &str, typed: [&str; 2]) -> Result<(), Box<Finding>> {
    let [of, price] = typed;
    if let Some(said) = lacks(of, price) {
        return Err(refused("pack-lacks", said, "pack-lacks-help"));
    }
    let field = |name: &str, typed: &str| {
        let path = format!("{list}.-.{name}");
        parted(&path).map_or_else(|| typed.into(), |(.., field)| value(field, typed.trim()))
    };
    add(hand, list, name.trim(), [("of", field("of", of)), ("price", field("price", price))])
}

/// Takes a pack or a supply out, if this is one's way.
pub(super) fn taken(hand: &mut Hand, path: &str) -> Result<bool, Box<Finding>> {
    let Some((list, name)) = path.split_once('.').filter(|(list, _)| matches!(*list, "packs" | "supplies")) else {
        return Ok(false);
    };
    put(hand, list, name, None).map(|()| true)
}
