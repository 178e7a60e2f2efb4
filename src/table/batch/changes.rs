// SPDX-License-Identifier: MIT
//! What the page asks to change of a batch, as changes of its file's text.

use super::beside::{self, album_of, free_name, kits, text};
use super::ways::{self, BatchWay};
use super::{class, own_paper, start};
use crate::album::{Role, SPARE_FIELDS};
use crate::batch::{CHOICE_FIELDS, CLASS_FIELDS, KIT_FIELDS, MAKER_FIELDS, TOP_FIELDS};
use crate::cutter;
use crate::fields::{Change, Field, Node};
use crate::finding::{Arg, Finding, Said};
use crate::selling::SELLING_FIELDS;
use crate::table::change::{self, Wanted};
use crate::table::example::{self, NewEntry};
use crate::table::hand::{Hand, gone, refused, value, value_of};
use crate::table::on_table::TableFile;
use crate::table::{handed, named, terms};
use serde_json::{Map, Value, json};

/// Makes one change.
pub(super) fn apply(hand: &mut Hand, albums: &[TableFile], wanted: &Wanted) -> Result<(), Box<Finding>> {
    let root = Node::read(&hand.source)?;
    match wanted {
        Wanted::Set { path, typed } => set(hand, &root, albums, (path, typed.trim())),
        Wanted::Take { path } => take(hand, path),
        Wanted::Copy { list, at } if list == beside::list(&root) => copy(hand, &root, *at),
        Wanted::Move { list, from, to } => hand.alter(&Change::Move { list: list.clone(), from: *from, to: *to }),
        Wanted::Add { list, at, kind } => {
            let value = entry(hand, albums, &root, (list, None), kind)?;
            hand.alter(&Change::Insert { list: list.clone(), at: *at, value })
        }
        Wanted::Kind { path, kind } => {
            let value = entry(hand, albums, &root, (path, root.at(path)), kind)?;
            hand.alter(&Change::Set { path: path.clone(), value })
        }
        Wanted::AddKit { album } => add_kit(hand, &root, albums, album),
        Wanted::Choose { path } => choose(hand, &root, albums, path),
        Wanted::OwnPaper { path, like, name } => own_paper::put(hand, &root, albums, (path, like, name.trim())),
        Wanted::Sold { list, name, of, price } => terms::sold(hand, list, name, [of, price]),
        Wanted::CallFiles { names, folder } => named::call_files(hand, names, folder),
        Wanted::AddGroup {} => class::add_group(hand, &root),
        Wanted::Units { units } => hand.alter(&Change::Set { path: "units".into(), value: units.clone().into() }),
        _ => Err(gone(Said::new("the-album"))),
    }
}

fn set(hand: &mut Hand, root: &Node, albums: &[TableFile], (path, typed): (&str, &str)) -> Result<(), Box<Finding>> {
    if let BatchWay::Change(kit, within) = ways::way(path) {
        return set_change(hand, root, albums, (kit, within, typed));
    }
    if let Some((way, stock)) = handed::parted(path) {
        return handed::set(hand, way, (stock, typed), &class::bought(root, albums, way));
    }
    if let Some(done) = class::set(hand, root, albums, (path, typed)) {
        return done;
    }
    if let Some((list, name, field)) = terms::parted(path) {
        return terms::set(hand, (list, name, field.name), value(field, typed));
    }
    let (way, name) = path.rsplit_once('.').unwrap_or(("", path));
    let field = field(root, albums, way, name).ok_or_else(|| gone(path))?;
    let path = path.to_owned();
    if typed.is_empty() {
        return if root.at(&path).is_some() { hand.alter(&Change::Remove { path }) } else { Ok(()) };
    }
    hand.alter(&Change::Set { path, value: value(field, typed) })
}

/// The field that a way and a name lead to.
fn field(root: &Node, albums: &[TableFile], way: &str, name: &str) -> Option<&'static Field> {
    let find = |fields: &'static [Field]| fields.iter().find(|field| field.name == name);
    match way {
        "" => find(TOP_FIELDS),
        "spares" => find(SPARE_FIELDS),
        "selling" => find(SELLING_FIELDS),
        "class" => find(CLASS_FIELDS),
        _ if way.ends_with(".choice") => find(CHOICE_FIELDS),
        _ if way.ends_with(".cutter") => find(cutter::SETTINGS),
        _ if way.starts_with("class.makers[") && way.ends_with(']') => find(MAKER_FIELDS),
        _ if way.starts_with("kits[") && way.ends_with(']') && !way.contains('.') => find(KIT_FIELDS),
        // An entry of a choice is a page.
        _ if way.contains(".choice.of[") => {
            let (album, ..) = album_of(root, albums, ways::owner(way)?).ok()?;
            change::field(&album.kinds, root, way, name)
        }
        _ => None,
    }
}

/// A value of the kit's album that is otherwise in this kit; nothing typed leaves it as it is there.
fn set_change(
    hand: &mut Hand,
    root: &Node,
    albums: &[TableFile],
    (kit, within, typed): (&str, &str, &str),
) -> Result<(), Box<Finding>> {
    let object = format!("{kit}.change");
    if let Some((paper, field)) = own_paper::field(root, &object, within) {
        let value = (!typed.is_empty()).then(|| value(field, typed));
        return own_paper::set(hand, &object, (paper, field.name), value.as_ref());
    }
    if typed.is_empty() {
        let there = root.at(&object).and_then(|change| change.get(within)).is_some();
        return if there { terms::put(hand, &object, within, None) } else { Ok(()) };
    }
    let (album, _, of_album) = album_of(root, albums, kit)?;
    let (way, name) = within.rsplit_once('.').unwrap_or(("", within));
    let as_written = serde_json::from_str(typed).ok();
    let value = match (change::field(&album.kinds, &of_album, way, name), as_written) {
        // What no field of the page stands for is written as the file has it, and so is a list of edges.
        (_, Some(list @ (Value::Array(_) | Value::Object(_)))) | (None, Some(list)) => list,
        (Some(field), _) => value(field, typed),
        (None, None) => typed.into(),
    };
    terms::put(hand, &object, within, Some(value))
}

fn take(hand: &mut Hand, path: &str) -> Result<(), Box<Finding>> {
    if let BatchWay::Change(kit, within) = ways::way(path) {
        return own_paper::take(hand, &format!("{kit}.change"), within);
    }
    if terms::taken(hand, path)? {
        return Ok(());
    }
    hand.alter(&Change::Remove { path: path.to_owned() })
}

/// The same kit again behind itself, under a name of its own.
fn copy(hand: &mut Hand, root: &Node, at: usize) -> Result<(), Box<Finding>> {
    let node = kits(root).get(at).ok_or_else(|| gone("kits"))?;
    let mut kit = value_of(&hand.source, node);
    kit["name"] = free_name(root, text(node, "name").unwrap_or("kit")).into();
    hand.alter(&Change::Insert { list: beside::list(root).into(), at: at.saturating_add(1), value: kit })
}

fn add_kit(hand: &mut Hand, root: &Node, albums: &[TableFile], name: &str) -> Result<(), Box<Finding>> {
    let (album, ..) = beside::plain(albums, name).ok_or_else(|| gone(Arg::code(name)))?;
    let mut kit = start::kit(&album, name);
    kit["name"] = free_name(root, kit["name"].as_str().unwrap_or("kit")).into();
    let at = kits(root).len();
    hand.alter(&Change::Insert { list: "kits".into(), at, value: kit })
}

/// Who gets the kit chooses its pages: as many as the album has, of the kinds that it has.
fn choose(hand: &mut Hand, root: &Node, albums: &[TableFile], path: &str) -> Result<(), Box<Finding>> {
    let kit = ways::owner(path).ok_or_else(|| gone(path))?;
    let (album, source, of_album) = album_of(root, albums, kit)?;
    let mut kinds: Vec<Value> = Vec::new();
    for page in 0..album.pages.len() {
        let entry = of_album.at(&format!("pages[{page}]")).map(|node| value_of(&source, node));
        kinds.extend(entry.filter(|entry| !kinds.contains(entry)));
    }
    let choice = json!({ "pages": album.pages.len(), "of": kinds });
    hand.alter(&Change::Set { path: format!("{kit}.choice"), value: choice })?;
    // What was otherwise in the album's pages has no page any more.
    let change = root.at(&format!("{kit}.change")).map(|node| value_of(&hand.source, node));
    let of_pages = |way: &String| way == "pages" || way.starts_with("pages[") || way.starts_with("pages.");
    let kept = change.as_ref().and_then(Value::as_object);
    let lost: Vec<String> = kept.into_iter().flat_map(Map::keys).filter(|way| of_pages(way)).cloned().collect();
    for way in &lost {
        terms::put(hand, &format!("{kit}.change"), way, None)?;
    }
    if !lost.is_empty() {
        hand.notes.push(Said::new("page-changes-gone").with("count", lost.len()));
    }
    Ok(())
}

/// A new kind of page to choose from; what stands there now and the kind takes, too, is kept. Stocks that it wants come in as
/// changes of the kit.
fn entry(
    hand: &mut Hand,
    albums: &[TableFile],
    root: &Node,
    (path, before): (&str, Option<&Node>),
    kind: &str,
) -> Result<Value, Box<Finding>> {
    let kit = ways::owner(path).filter(|_| path.contains(".choice.of")).ok_or_else(|| gone(path))?;
    let (album, _, of_album) = album_of(root, albums, kit)?;
    let NewEntry { entry, stocks } = example::new_entry(&album, &of_album, before, (Role::Page, kind))?;
    for (name, value) in stocks {
        if of_album.get("stocks").is_none() {
            let text = Said::new("kind-wants-paper").with("paper", name);
            return Err(refused("kind-wants-paper", text, "kind-wants-paper-help"));
        }
        terms::put(hand, &format!("{kit}.change"), &format!("stocks.{name}"), Some(value))?;
        hand.notes.push(Said::new("paper-is-new").with("paper", name));
    }
    Ok(entry)
}
