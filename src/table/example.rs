// SPDX-License-Identifier: MIT
//! A new entry of a kind, for an album of any size and unit: its example, made to fit.

use super::hand::{gone, plain};
use crate::album::{Album, Kind, Role};
use crate::fields::{Fallback, Field, Node, Source, Takes, Tree};
use crate::finding::{Arg, Finding, Said};
use crate::length::Units;
use crate::parts;
use crate::stock;
use serde_json::{Map, Value};

/// The sizes of a page in the examples' albums, mm.
const PAGE: (f64, f64) = (148.0, 190.0);
/// Fields that lie along the page's height; all others go with its width.
const UPRIGHT: [&str; 4] = ["height", "front", "tuck", "raise"];

/// An entry, and stocks that it names and the album may lack.
#[derive(Debug, Default)]
struct ExampleEntry {
    /// Its fields without the kind.
    fields: Map<String, Value>,
    /// Stocks by name.
    stocks: Vec<(String, Value)>,
}

/// A kind by its name, of these.
pub(super) fn kind_of(kinds: &[&'static Kind], (role, name): (Role, &str)) -> Option<&'static Kind> {
    kinds.iter().copied().find(|kind| kind.role == role && kind.name == name)
}

/// The kind of spine that an album has which names none.
pub(super) fn spine_kind() -> &'static str {
    parts::kinds().iter().find(|kind| kind.role == Role::Spine).map_or("", |kind| kind.name)
}

/// An entry of a file, and stocks that it names and the album may lack.
#[derive(Debug)]
pub(super) struct NewEntry {
    /// The entry.
    pub entry: Value,
    /// Stocks by name.
    pub stocks: Vec<(String, Value)>,
}

/// A new entry of a kind for an album; what stands at its place `before` and this kind takes, too, is kept.
pub(super) fn new_entry(
    album: &Album,
    root: &Node,
    before: Option<&Node>,
    (role, name): (Role, &str),
) -> Result<NewEntry, Box<Finding>> {
    let gone_kind = || gone(Said::new("the-kind").with("kind", Arg::quoted(name)));
    let kind = kind_of(&album.kinds, (role, name)).ok_or_else(gone_kind)?;
    let ExampleEntry { fields, stocks } = entry(album, root, kind);
    let mut entry = Map::new();
    entry.insert("kind".into(), kind.name.into());
    entry.extend(fields);
    // Sizes that were read off something bought are no wish for what is cut, nor the other way round.
    let was = before.and_then(|node| node.get("kind")).and_then(plain);
    let was = was.as_ref().and_then(Value::as_str).and_then(|name| kind_of(&album.kinds, (role, name)));
    let ready = kind.ready.is_some() || was.is_some_and(|kind| kind.ready.is_some());
    if let Some(Node { tree: Tree::Object(fields), .. }) = before.filter(|_| !ready) {
        for (name, _, node) in fields {
            let takes = kind.fields.iter().chain(&kind.common()[1..]).any(|field| field.name == *name);
            if let Some(value) = plain(node).filter(|_| takes) {
                entry.insert(name.clone(), value);
            }
        }
    }
    Ok(NewEntry { entry: entry.into(), stocks })
}

/// What a new entry of a kind says: as another one of that kind in the album does where it can't do without, else as the
/// kind's example does, smaller where the page is.
fn entry(album: &Album, root: &Node, kind: &Kind) -> ExampleEntry {
    let mut entry = ExampleEntry::default();
    let Some(maker) = parts::maker_of_kind(kind) else { return entry };
    let twin = ["pages", "inserts"].into_iter().find_map(|list| twin(root, list, kind.name));
    let text = parts::example(maker);
    let Some(example) = Source::new("example", text.into()).ok().and_then(|source| Node::read(&source).ok()) else {
        return entry;
    };
    let role = kind.role.word();
    let own = [format!("{role}s[0]"), role.to_owned()]
        .into_iter()
        .find_map(|way| example.at(&way).filter(|node| node.get("kind").is_some()));
    for field in kind.fields {
        let needed = matches!(field.fallback, Fallback::Needed);
        let twins = twin.filter(|_| needed).and_then(|twin| twin.get(field.name)).and_then(plain);
        let fitted = || fitted(album, field, own?.get(field.name)?);
        if let Some(value) = twins.or_else(fitted) {
            entry.fields.insert(field.name.into(), value);
        }
    }
    for name in entry.fields.values().filter_map(Value::as_str).filter(|name| stock::is_name(name)) {
        let lacking = album.stocks.iter().all(|stock| stock.name != *name);
        if let Some(stock) = example.at(&format!("stocks.{name}")).filter(|_| lacking).and_then(plain) {
            entry.stocks.push((name.to_owned(), in_mm(stock)));
        }
    }
    entry
}

fn twin<'n>(root: &'n Node, list: &str, kind: &str) -> Option<&'n Node> {
    let Some(Node { tree: Tree::Array(items), .. }) = root.at(list) else { return None };
    items.iter().find(|node| matches!(node.get("kind"), Some(Node { tree: Tree::Text(name), .. }) if name == kind))
}

/// A value of the example for this album: lengths in its units, on a mark of a ruler, no larger than the page asks for.
fn fitted(album: &Album, field: &Field, node: &Node) -> Option<Value> {
    let (Takes::Length { .. }, Tree::Number(mm)) = (field.takes, &node.tree) else { return plain(node) };
    let share =
        if UPRIGHT.contains(&field.name) { album.page.height.mm() / PAGE.1 } else { album.page.width.mm() / PAGE.0 };
    let share = if field.measured { share.min(1.0) } else { 1.0 };
    let size = mm * share;
    let number = |number: f64| plain(&Node { range: 0..0, tree: Tree::Number(number) });
    match album.units {
        Units::Mm => number(size.round()),
        Units::Cm => number(size.round() / 10.0),
        Units::In => {
            let step = Units::In.step();
            Some((step * (size / step.mm()).round()).plain(Units::In).into())
        }
    }
}

/// A stock of an example, whose bare caliper is in mm, for an album in any unit.
fn in_mm(mut stock: Value) -> Value {
    if let Some(caliper) = stock.get("caliper").and_then(Value::as_f64) {
        stock["caliper"] = format!("{caliper} mm").into();
    }
    stock
}
