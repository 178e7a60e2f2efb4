// SPDX-License-Identifier: MIT
//! A class on the page: its groups of makers, the sheets that they have, what they cut with, what they are handed.

use super::beside::{self, free_name, kits};
use super::otherwise::otherwise;
use super::reading::BatchRead;
use super::ways;
use crate::batch::{Batch, BatchKit, CLASS_FIELDS, MAKER_FIELDS};
use crate::cutter;
use crate::fields::{Change, Field, Node, Source, Tree};
use crate::finding::{Arg, Finding, Said};
use crate::paper::sheet_size;
use crate::stock::{SheetSize, Stock};
use crate::table::form::{self, FormFile};
use crate::table::hand::{Hand, value_of};
use crate::table::on_table::TableFile;
use crate::table::{album as table_album, handed, words};
use serde_json::{Map, Value, json};

/// What stands in the list of machines for one that is described in the file itself.
const OWN: &str = "(own)";

/// What is said between several things that the teacher brings.
const BETWEEN: &str = "; ";

/// The whole class, but for its groups.
pub(super) fn form(batch: &Batch, root: &Node, albums: &[TableFile]) -> Value {
    let stocks = batch.kits.first().map_or(&[][..], |kit| &kit.album.stocks);
    let file = FormFile { root, units: batch.units, stocks };
    let fields = CLASS_FIELDS.iter().filter(|field| matches!(field.name, "album" | "shared_by"));
    let mut rows = form::rows(&file, "class", fields, &|_| None);
    for row in &mut rows {
        offer_albums(row, albums);
    }
    let mut brings = form::rows(&file, "class", CLASS_FIELDS.iter().filter(|field| field.name == "brings"), &|_| None);
    for row in &mut brings {
        let said = root.at("class.brings").map(|node| items(node).join(BETWEEN)).unwrap_or_default();
        row["value"] = said.into();
        row["about"] = words::say(&Said::new("class-brings")).into();
    }
    rows.extend(brings);
    let album = beside::album_name(root, "class").unwrap_or_default();
    let (changes, papers) = otherwise(&file, "class", album, albums);
    json!({ "way": "class", "name": batch.title, "album": album, "rows": rows, "changes": changes, "papers": papers })
}

fn items(node: &Node) -> Vec<&str> {
    match &node.tree {
        Tree::Text(text) => vec![text],
        Tree::Array(items) => items
            .iter()
            .filter_map(|item| if let Tree::Text(text) = &item.tree { Some(text.as_str()) } else { None })
            .collect(),
        _ => Vec::new(),
    }
}

/// An album is one of those on the table.
pub(super) fn offer_albums(row: &mut Value, albums: &[TableFile]) {
    if row["path"].as_str().is_some_and(|path| path.ends_with("album")) {
        let of = |one: &&TableFile| one.kind() == "album";
        row["takes"] = "choice".into();
        row["choices"] = albums.iter().filter(of).map(|one| json!({ "value": one.name, "label": one.name })).collect();
    }
}

/// A group of makers.
pub(super) fn group(root: &Node, albums: &[TableFile], way: &str, kit: &BatchKit) -> Value {
    let file = FormFile { root, units: kit.album.units, stocks: &kit.album.stocks };
    let fields = MAKER_FIELDS.iter().filter(|field| matches!(field.name, "name" | "count" | "album" | "by"));
    let mut rows = form::rows(&file, way, fields, &|_| None);
    let tool = format!("{way}.by");
    for row in &mut rows {
        // What is said of files is of no use here.
        if row["path"] != tool {
            let named = row["path"] == format!("{way}.name");
            row["about"] = if named { words::say(&Said::new("group-is-called")) } else { String::new() }.into();
        }
        offer_albums(row, albums);
    }
    let album = beside::album_name(root, way).unwrap_or_default();
    let stocks = bought(root, albums, way);
    let (changes, papers) = otherwise(&file, way, album, albums);
    let said = Said::new("group-in-short")
        .with("makers", kit.album.copies)
        .with("album", kit.album.title.as_str())
        .with("sheets", Arg::Row(sheets_in_short(kit).into_iter().map(Arg::Own).collect()));
    json!({
        "way": way,
        "name": kit.name,
        "album": album,
        "sentence": words::say(&said),
        "rows": rows,
        "sheets": sheets(root, albums, way, kit),
        "machine": machine(&file, way, albums),
        "handed": handed::rows(&file, way, &stocks, "handed-as-whole"),
        "changes": changes,
        "papers": papers,
    })
}

/// `A4`, each once.
fn sheets_in_short(kit: &BatchKit) -> Vec<String> {
    let mut all: Vec<String> = Vec::new();
    for stock in kit.album.stocks.iter().filter(|stock| !stock.ready) {
        let name = table_album::names(stock);
        if !all.contains(&name) {
            all.push(name);
        }
    }
    all
}

/// A row for each stock: the sheet that the group has of it.
fn sheets(root: &Node, albums: &[TableFile], way: &str, kit: &BatchKit) -> Vec<Value> {
    let plain = beside::plain(albums, beside::album_name(root, way).unwrap_or_default());
    let node = root.at(&format!("{way}.sheet"));
    let row = |name: String| {
        let usual = plain.as_ref().and_then(|(album, ..)| album.stocks.iter().find(|stock| stock.name == name));
        let said = said_of(node, &name, &kit.album.stocks);
        json!({
            "path": format!("{way}.sheet.{name}"),
            "label": words::say(&Said::new("sheet-of-stock").with("stock", Arg::code(&name))),
            "about": "",
            "value": said.clone().unwrap_or_default(),
            "given": said.is_some(),
            "needed": false,
            "usual": usual.map(table_album::names).unwrap_or_default(),
            "takes": "sheet",
            // It may be as in the album again.
            "frees": true,
        })
    };
    bought(root, albums, way).into_iter().map(row).collect()
}

/// The sheet that a group says it has of a stock: by that stock's name, or as one sheet that stands for whatever comes in nearly its size.
fn said_of(node: Option<&Node>, stock: &str, stocks: &[Stock]) -> Option<String> {
    match &node?.tree {
        Tree::Text(text) => {
            let (_, width, height) = sheet_size(text).ok()?;
            let lies = |size: &SheetSize| (size.width, size.height) == (width, height);
            let is_it = |one: &&Stock| one.bought() == stock && matches!(one.sheets.as_slice(), [size] if lies(size));
            stocks.iter().find(is_it).map(|_| text.clone())
        }
        _ => match &node?.get(stock)?.tree {
            Tree::Text(text) => Some(text.clone()),
            _ => None,
        },
    }
}

/// What the group cuts with: the usual machine, one whose file lies on the table, one that is described here.
fn machine(file: &FormFile<'_>, way: &str, files: &[TableFile]) -> Value {
    let path = format!("{way}.cutter");
    let node = file.root.at(&path);
    let (value, own) = match node.map(|node| &node.tree) {
        Some(Tree::Text(name)) => (name.clone(), false),
        Some(Tree::Object(_)) => (OWN.to_owned(), true),
        _ => (String::new(), false),
    };
    let option = |value: &str, label: String| json!({ "value": value, "label": label });
    let known = files.iter().filter(|one| one.kind() == "cutter");
    let choices: Vec<Value> = known
        .map(|one| option(&one.name, one.name.clone()))
        .chain([option(OWN, words::say(&Said::new("machine-of-its-own")))])
        .collect();
    let plain = |field: &&Field| matches!(field.name, "kerf" | "margin" | "gap" | "shared_cuts");
    let rows = if own { form::rows(file, &path, cutter::SETTINGS.iter().filter(plain), &|_| None) } else { Vec::new() };
    let row = json!({
        "path": path,
        "label": words::say(&Said::new("machine-of-group")),
        "about": "",
        "value": value,
        "given": node.is_some(),
        "needed": false,
        "usual": words::say(&Said::new("machine-as-all")),
        "takes": "choice",
        "choices": choices,
    });
    json!({ "row": row, "rows": rows })
}

/// The stocks of a kit's, a group's or all albums, as they are bought, each once.
pub(super) fn bought(root: &Node, albums: &[TableFile], way: &str) -> Vec<String> {
    let own = ways::owner(way).and_then(|owner| beside::album_name(root, owner));
    let of_kits = || {
        let name = |number: usize| beside::album_name(root, &format!("{}[{number}]", beside::list(root)));
        (0..kits(root).len()).filter_map(name).collect()
    };
    let names: Vec<&str> = own.map_or_else(of_kits, |name| vec![name]);
    let mut all: Vec<String> = Vec::new();
    for (album, ..) in names.into_iter().filter_map(|name| beside::plain(albums, name)) {
        for stock in album.stocks.iter().filter(|stock| !stock.ready) {
            if !all.iter().any(|known| known == stock.bought()) {
                all.push(stock.bought().to_owned());
            }
        }
    }
    all
}

/// Another group of makers.
pub(super) fn add_group(hand: &mut Hand, root: &Node) -> Result<(), Box<Finding>> {
    let group = json!({ "name": free_name(root, "group"), "count": 4 });
    hand.alter(&Change::Insert { list: "class.makers".into(), at: kits(root).len(), value: group })
}

/// Sets what a class says in a manner of its own; nothing where it is like any other field.
pub(super) fn set(
    hand: &mut Hand,
    root: &Node,
    albums: &[TableFile],
    (path, typed): (&str, &str),
) -> Option<Result<(), Box<Finding>>> {
    if path == "class.brings" {
        let said: Vec<Value> = typed.split(';').map(str::trim).filter(|one| !one.is_empty()).map(Value::from).collect();
        return Some(put(hand, root, path, (!said.is_empty()).then(|| said.into())));
    }
    let group = ways::owner(path).filter(|owner| owner.starts_with("class.makers["))?;
    let within = path.strip_prefix(group)?.strip_prefix('.')?;
    if within == "cutter" {
        let value = match typed {
            "" => None,
            OWN => Some(json!({})),
            name => Some(name.into()),
        };
        return Some(put(hand, root, path, value));
    }
    let stock = within.strip_prefix("sheet.")?;
    Some(set_sheet(hand, root, albums, (group, stock, typed)))
}

/// The sheet of one stock. One that stood for several is said of each of these then.
fn set_sheet(
    hand: &mut Hand,
    root: &Node,
    albums: &[TableFile],
    (group, stock, typed): (&str, &str, &str),
) -> Result<(), Box<Finding>> {
    let path = format!("{group}.sheet");
    let node = root.at(&path);
    let mut entries = match node.map(|node| (node, &node.tree)) {
        Some((node, Tree::Object(_))) => value_of(&hand.source, node).as_object().cloned().unwrap_or_default(),
        Some((_, Tree::Text(text))) => {
            let stocks = stocks_of(&hand.source, albums, group);
            let names = bought(root, albums, group).into_iter();
            names
                .filter(|name| said_of(node, name, &stocks).is_some())
                .map(|name| (name, text.clone().into()))
                .collect()
        }
        _ => Map::new(),
    };
    if typed.is_empty() {
        entries.shift_remove(stock);
    } else {
        entries.insert(stock.to_owned(), typed.into());
    }
    put(hand, root, &path, (!entries.is_empty()).then(|| entries.into()))
}

/// The stocks of a group as they are now, in the sheets that it has; none where the file can't be read.
fn stocks_of(source: &Source, albums: &[TableFile], group: &str) -> Vec<Stock> {
    let number = group.rsplit_once('[').and_then(|(_, end)| end.strip_suffix(']')?.parse::<usize>().ok());
    let batch = BatchRead::without_drawings(source, albums).batch.value;
    let kit = number.zip(batch).and_then(|(number, batch)| batch.kits.into_iter().nth(number));
    kit.map(|kit| kit.album.stocks).unwrap_or_default()
}

fn put(hand: &mut Hand, root: &Node, path: &str, value: Option<Value>) -> Result<(), Box<Finding>> {
    let path = path.to_owned();
    match value {
        Some(value) => hand.alter(&Change::Set { path, value }),
        None if root.at(&path).is_some() => hand.alter(&Change::Remove { path }),
        None => Ok(()),
    }
}
