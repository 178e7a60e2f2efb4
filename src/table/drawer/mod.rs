// SPDX-License-Identifier: MIT
//! The drawer on the page: what lies there, what the job takes of it, what is left.
//!
//! In: a job with its stocks, the drawer's text. Out: its rows; the text with a change. Never: a sheet's place; `sheets` says what
//! is taken.

mod changes;

pub(super) use changes::work;

use super::beside::NamedFiles;
use super::question::Question;
use super::words;
use crate::drawer::{self, Drawer, NamedDrawer};
use crate::fields::{Node, Source, Tree};
use crate::finding::{Arg, Said};
use crate::paper::sheet_size;
use crate::sheets::{DrawerRow, StockSheets, drawer_rows, left_in_drawer};
use crate::stock::Stock;
use crate::work::Work;
use serde_json::{Value, json};

/// Where the drawer's own ways begin on the page.
const OWN: &str = "drawer.";

/// What the drawer after the job is asked for as.
pub(super) const AFTER: &str = "drawer-after.json";

/// A drawer with nothing in it.
pub(super) fn empty() -> String {
    drawer::text(&Drawer::default())
}

/// What is asked of the drawer: the job's stocks with what lies there, its sheets.
#[derive(Clone, Copy, Debug)]
pub(super) struct DrawnOrder<'a> {
    /// What lies there, where that is known.
    pub drawer: Option<&'a Drawer>,
    pub stocks: &'a [Stock],
    /// None where nothing is laid.
    pub laid: &'a [StockSheets],
}

impl<'a> DrawnOrder<'a> {
    /// The same of an album.
    pub(super) fn of(work: &'a Work) -> Self {
        let laid: &[StockSheets] = if work.stopped() { &[] } else { &work.stocks };
        let drawer = work.album.drawer.as_ref().and_then(NamedDrawer::known);
        DrawnOrder { drawer, stocks: &work.album.stocks, laid }
    }
}

/// The drawer's form.
pub(super) fn form(order: &DrawnOrder<'_>, files: &NamedFiles, (source, question): (&Source, &Question)) -> Value {
    let names: Vec<&str> =
        question.files.iter().filter(|one| one.kind() == "drawer").map(|one| one.name.as_str()).collect();
    let root = files.drawer.as_ref().and_then(|source| Node::read(source).ok());
    let stocks = root.as_ref().map_or_else(Vec::new, |root| stocks(root, order));
    let taken: u32 = drawer_rows(order.stocks, order.laid).iter().map(|row| row.taken).sum();
    let lie: u32 = order.drawer.map_or(0, |drawer| {
        drawer.stocks.iter().flat_map(|stock| &stock.sheets).fold(0, |all, sheet| all.saturating_add(sheet.count))
    });
    let state = match (&files.drawer_name, order.drawer, order.laid) {
        (None, ..) => "none",
        (_, None, _) => "unread",
        (.., []) => "lies",
        _ => "taken",
    };
    let said = Said::new("drawer-in-short").with("state", state).with("lie", lie).with("taken", taken);
    json!({
        "name": files.drawer_name,
        // An order may take its albums' drawer.
        "own": Node::read(source).is_ok_and(|root| root.get("drawer").is_some()),
        "names": names,
        "text": files.drawer.as_ref().map(|source| source.mark().to_owned() + source.text()),
        "sentence": words::say(&said),
        "editable": root.is_some_and(|root| matches!(root.tree, Tree::Object(_))),
        "stocks": stocks,
        "may": may(order),
        "as": words::capital(&words::say(&Said::new("lies-as"))),
        "left": left(order),
    })
}

/// The names that stocks may have in a drawer.
fn may(order: &DrawnOrder<'_>) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for stock in order.stocks.iter().filter(|stock| !stock.ready) {
        // What was first called in the order is called so in the drawer.
        if !names.iter().any(|name| name == stock.bought()) {
            names.push(stock.bought().to_owned());
        }
    }
    names
}

/// What lies there, by stock: each size as it was entered, and what is taken of it.
fn stocks(root: &Node, order: &DrawnOrder<'_>) -> Vec<Value> {
    let Some(Tree::Object(entries)) = root.get("stocks").map(|node| &node.tree) else { return Vec::new() };
    let rows = drawer_rows(order.stocks, order.laid);
    let one = |(name, _, node): &(String, std::ops::Range<usize>, Node)| {
        let way = format!("{OWN}stocks.{name}");
        let items: &[Node] = if let Tree::Array(items) = &node.tree { items } else { &[] };
        let mut told: Vec<String> = Vec::new();
        let sheets: Vec<Value> = items
            .iter()
            .enumerate()
            .map(|(number, item)| {
                let (way, sheet, count) = (format!("{way}[{number}]"), word(item, "sheet"), word(item, "count"));
                // A size that stands there twice is told of once.
                let size = sheet_size(&sheet).ok().map(|(size, ..)| size).filter(|size| !told.contains(size));
                let said = size.as_ref().map(|size| taken(&rows, order, (name, size))).unwrap_or_default();
                told.extend(size);
                json!({ "way": way, "name": sheet, "rows": [row(&way, "sheet", &sheet), row(&way, "count", &count)], "said": said })
            })
            .collect();
        json!({ "name": name, "way": way, "sheets": sheets })
    };
    entries.iter().map(one).collect()
}

/// What stands in a field, as it was written.
fn word(item: &Node, field: &str) -> String {
    match item.get(field).map(|node| &node.tree) {
        Some(Tree::Text(text)) => text.clone(),
        Some(Tree::Number(number)) => number.to_string(),
        _ => String::new(),
    }
}

fn row(way: &str, field: &str, value: &str) -> Value {
    json!({
        "path": format!("{way}.{field}"),
        "label": words::label(&format!("lies-{field}")),
        "about": "",
        "value": value,
        "given": !value.is_empty(),
        "needed": field == "sheet",
        "usual": if field == "count" { "1" } else { "" },
        "takes": if field == "count" { "number" } else { "text" },
    })
}

/// `2 are taken, 10 are left`
fn taken(rows: &[DrawerRow], order: &DrawnOrder<'_>, (stock, size): (&str, &str)) -> String {
    let is_it = |row: &&DrawerRow| {
        let of = order.stocks.get(row.stock).and_then(|stock| stock.sheets.get(row.size));
        row.name == stock && of.is_some_and(|of| of.name == size)
    };
    let said = match rows.iter().find(is_it) {
        Some(row) if !order.laid.is_empty() => {
            Said::new("drawer-takes").with("taken", row.taken).with("left", row.left())
        }
        None if order.drawer.is_some() => Said::new("drawer-not-used").with("stock", Arg::code(stock)),
        _ => return String::new(),
    };
    words::say(&said)
}

/// What lies there after the job, a row a size; none where nothing is laid or the drawer can't be read.
fn left(order: &DrawnOrder<'_>) -> Option<Value> {
    let after = after(order)?;
    let before = order.drawer?;
    let known = |stock: &str, sheet: &drawer::DrawerSheet| {
        let of = before.stocks.iter().find(|one| one.name == stock);
        let same = |one: &&drawer::DrawerSheet| (one.width, one.height) == (sheet.width, sheet.height);
        of.and_then(|one| one.sheets.iter().find(same)).map_or(0, |one| one.count)
    };
    let rows: Vec<Value> = after
        .stocks
        .iter()
        .flat_map(|stock| stock.sheets.iter().map(move |sheet| (stock.name.as_str(), sheet)))
        .filter(|(_, sheet)| sheet.count > 0)
        .map(|(stock, sheet)| {
            let new = sheet.count.saturating_sub(known(stock, sheet));
            let note = Said::new("drawer-new").with("new", new).with("all", sheet.count);
            json!([stock, sheet.name, sheet.count.to_string(), words::say(&note)])
        })
        .collect();
    let head = ["stock", "sheet", "count", "new"].map(|name| words::say(&Said::new(heading(name))));
    json!({ "caption": words::say(&Said::new("drawer-after")), "head": head, "rows": rows }).into()
}

fn heading(name: &str) -> &'static str {
    match name {
        "stock" => "drawer-head-stock",
        "sheet" => "drawer-head-sheet",
        "count" => "drawer-head-count",
        _ => "drawer-head-new",
    }
}

/// The drawer as it is after the job.
fn after(order: &DrawnOrder<'_>) -> Option<Drawer> {
    let drawer = order.drawer.filter(|_| !order.laid.is_empty())?;
    Some(left_in_drawer(drawer, order.stocks, order.laid))
}

/// The same as its file.
pub(super) fn text_after(order: &DrawnOrder<'_>) -> Option<String> {
    after(order).map(|drawer| drawer::text(&drawer))
}
