// SPDX-License-Identifier: MIT
//! What the page asks to change, as changes of the album file's text.

use super::hand::{Hand, gone, page_number, refused, unchanged, value, value_of};
use super::{edges, example, groups, handed, named, terms, units, words};
use crate::album::{self, Album, EDGE_FIELDS, Kind, PAGE_FIELDS, PANEL_FIELDS, Role, TOP_FIELDS};
use crate::fields::{self, Change, Field, Node, Source, Tree};
use crate::finding::{Arg, Finding, Said};
use crate::length::{Length, Units};
use crate::mend::mend;
use crate::outline::OUTLINE_FIELDS;
use crate::selling::SELLING_FIELDS;
use crate::stock::{self, Pattern, STOCK_FIELDS};
use crate::work::Work;
use serde::Deserialize;
use serde_json::{Value, json};
use std::collections::BTreeMap;

/// One change, as the page asks for it.
#[derive(Clone, Debug, Deserialize)]
#[serde(tag = "do", rename_all = "kebab-case", deny_unknown_fields)]
pub(super) enum Wanted {
    /// What was typed or chosen for a field; nothing typed leaves the field out.
    Set { path: String, typed: String },
    /// Another kind for a page, spine, cover or insert; a cover or spine that is not there yet comes in.
    Kind { path: String, kind: String },
    /// A field's object or an entry of a list goes.
    Take { path: String },
    /// A new entry of a list.
    Add { list: String, at: usize, kind: String },
    /// An edge or corners of an entry are cut in a pattern.
    AddEdge { path: String, on: String, cut: String },
    /// The same entry again, right behind it.
    Copy { list: String, at: usize },
    /// An entry gets another place.
    Move { list: String, from: usize, to: usize },
    /// Panels on the faces.
    Panels {},
    /// A new stock.
    Stock { name: String },
    /// One length as a finding wants it, in eighths of a micrometre.
    Mend { path: String, eighths: i64 },
    /// Every length that a finding wants changed.
    MendAll {},
    /// The page's size, in eighths of a micrometre.
    PageSize { width: i64, height: i64 },
    /// What the maker measures in.
    Units { units: String },
    /// A pack of sheets or a supply, with what it is sold in and for.
    Sold { list: String, name: String, of: String, price: String },
    /// Another kit of a batch, from an album on the table.
    AddKit { album: String },
    /// The pages of a kit of a batch are chosen by who gets it.
    Choose { path: String },
    /// A kit of a batch is cut from a paper of its own instead of this one.
    OwnPaper { path: String, like: String, name: String },
    /// Another group of makers of a class.
    AddGroup {},
    /// Files that it names are called otherwise on the table; each by its name alone.
    CallFiles {
        names: BTreeMap<String, String>,
        /// Kind files that were brought, for an album that names the folder in which they lay.
        #[serde(default)]
        folder: Vec<String>,
    },
    /// One more file of an own kind.
    AddKindFile { name: String },
    /// More sheets lie in the drawer.
    Lies { stock: String, sheet: String, count: String },
}

impl Wanted {
    /// The field that it is about, where it is about one.
    pub(super) fn field(&self) -> Option<&str> {
        match self {
            Self::Set { path, .. } => Some(path),
            _ => None,
        }
    }
}

/// A changed text, and what the maker should know about the change.
#[derive(Debug)]
pub(super) struct Changed {
    pub text: String,
    pub notes: Vec<Said>,
}

/// Changes a text; `judge` works an album out for mends.
pub(super) fn apply(
    source: &Source,
    album: &Album,
    wanted: &Wanted,
    judge: &dyn Fn(&Source) -> Option<Work>,
) -> Result<Changed, Box<Finding>> {
    let root = Node::read(source)?;
    let mut hand = Hand { source: source.clone(), notes: Vec::new() };
    match wanted {
        Wanted::Set { path, typed } => {
            let all = groups::ways(&root, path).unwrap_or_else(|| vec![path.clone()]);
            if all.is_empty() {
                return Err(gone(path.as_str()));
            }
            for way in all {
                set(&mut hand, album, &root, (&way, typed))?;
            }
        }
        Wanted::Kind { path, kind } => {
            let value = hand.entry(album, &root, path, kind)?;
            hand.alter(&Change::Set { path: path.clone(), value })?;
        }
        Wanted::Take { path } if terms::taken(&mut hand, path)? => {}
        Wanted::Take { path } => {
            let whole = edges::last_of(&root, path).unwrap_or_else(|| path.clone());
            hand.alter(&Change::Remove { path: whole })?;
            if let Some(number) = page_number(path) {
                hand.renumber(&|page| (page != number).then(|| if page > number { page - 1 } else { page }))?;
            }
        }
        Wanted::Add { list, at, kind } => {
            let value = hand.entry(album, &root, list, kind)?;
            hand.insert(list, *at, value)?;
        }
        Wanted::AddEdge { path, on, cut } => edges::add(&mut hand, &root, path, on, cut)?,
        Wanted::Copy { list, at } => {
            let node = root.at(&format!("{list}[{at}]")).ok_or_else(|| gone(list.as_str()))?;
            hand.insert(list, at.saturating_add(1), value_of(source, node))?;
        }
        Wanted::Move { list, from, to } => hand.shift(list, *from, *to)?,
        Wanted::Panels {} => {
            let patterned = album.stocks.iter().find(|stock| stock.pattern != Pattern::None);
            let value = patterned.map_or_else(|| json!({}), |stock| json!({ "stock": stock.name }));
            hand.alter(&Change::Set { path: "panels".into(), value })?;
        }
        Wanted::Stock { name } => hand.stock(&root, name.trim())?,
        Wanted::Mend { path, eighths } => hand.lengths(&[(path, *eighths)], album)?,
        Wanted::PageSize { width, height } => {
            hand.lengths(&[("page.width", *width), ("page.height", *height)], album)?;
        }
        Wanted::MendAll {} => hand.mend_all(album, judge)?,
        Wanted::Units { units } => {
            let to = Units::parse(units).ok_or_else(|| refused("no-unit", Said::new("no-unit"), "no-unit-help"))?;
            units::convert(&mut hand, album, to)?;
            hand.notes.extend(units::moved(album, &hand.source));
        }
        Wanted::Sold { list, name, of, price } => terms::sold(&mut hand, list, name, [of, price])?,
        Wanted::CallFiles { names, folder } => named::call_files(&mut hand, names, folder)?,
        Wanted::AddKindFile { name } => hand.kind_file(&root, name)?,
        Wanted::AddKit { .. } | Wanted::Choose { .. } | Wanted::OwnPaper { .. } | Wanted::AddGroup {} => {
            return Err(gone(Said::new("the-batch")));
        }
        Wanted::Lies { .. } => return Err(gone(Said::new("the-drawer"))),
    }
    Ok(Changed { text: hand.source.mark().to_owned() + hand.source.text(), notes: hand.notes })
}

/// A file that can't be read yet, with its files called as they are called on the table; nothing else is changed of such.
pub(super) fn of_unread(source: &Source, wanted: &Wanted) -> Option<String> {
    let Wanted::CallFiles { names, folder } = wanted else { return None };
    let mut hand = Hand { source: source.clone(), notes: Vec::new() };
    named::call_files(&mut hand, names, folder).ok()?;
    Some(hand.source.mark().to_owned() + hand.source.text())
}

impl Hand {
    fn lengths(&mut self, lengths: &[(&str, i64)], album: &Album) -> Result<(), Box<Finding>> {
        let lengths: Vec<(&str, Length)> =
            lengths.iter().map(|(path, eighths)| (*path, Length::from_eighths(*eighths))).collect();
        let text = fields::edit(&self.source, &lengths, album.units, &album::left_out(&album.kinds));
        self.take(text.map_err(|problem| unchanged(&problem))?)
    }

    pub(super) fn insert(&mut self, list: &str, at: usize, value: Value) -> Result<(), Box<Finding>> {
        self.alter(&Change::Insert { list: list.into(), at, value })?;
        if list == "pages" {
            self.renumber(&|page| Some(if page > at { page + 1 } else { page }))?;
        }
        Ok(())
    }

    /// An entry gets another place, and inserts go with the pages.
    fn shift(&mut self, list: &str, from: usize, to: usize) -> Result<(), Box<Finding>> {
        self.alter(&Change::Move { list: list.into(), from, to })?;
        if list == "pages" {
            let (from, to) = (from.saturating_add(1), to.saturating_add(1));
            self.renumber(&|page| {
                Some(match page {
                    page if page == from => to,
                    page if from < page && page <= to => page - 1,
                    page if to <= page && page < from => page + 1,
                    page => page,
                })
            })?;
        }
        Ok(())
    }

    /// One more kind file, after those that are named.
    fn kind_file(&mut self, root: &Node, name: &str) -> Result<(), Box<Finding>> {
        if named::names(&self.source).iter().any(|known| known == name) {
            return Ok(());
        }
        let mut files = match root.get("kinds").map(|node| value_of(&self.source, node)) {
            Some(Value::Array(files)) => files,
            one => one.into_iter().collect(),
        };
        files.push(name.into());
        self.alter(&Change::Set { path: "kinds".into(), value: files.into() })
    }

    /// A new stock.
    fn stock(&mut self, root: &Node, name: &str) -> Result<(), Box<Finding>> {
        self.keep_card()?;
        if !stock::is_name(name) {
            let text = Said::new("stock-name").with("name", Arg::quoted(crate::length::excerpt(name)));
            return Err(refused("stock-name", text, "stock-name-help"));
        }
        if root.at("stocks").is_some_and(|stocks| stocks.get(name).is_some()) {
            let text = Said::new("stock-twice").with("name", Arg::quoted(name));
            return Err(refused("twice", text, "stock-twice-help"));
        }
        self.alter(&Change::Set { path: format!("stocks.{name}"), value: json!({ "sheet": "A4" }) })
    }

    /// Every length that a finding wants changed.
    fn mend_all(&mut self, album: &Album, judge: &dyn Fn(&Source) -> Option<Work>) -> Result<(), Box<Finding>> {
        let mended = mend(&self.source, judge).ok_or_else(|| gone(Said::new("what-a-finding-speaks-of")))?;
        for change in &mended.changes {
            let note = Said::new("mend").with("field", words::named(&change.path));
            self.notes.push(note.with("to", album.length(change.to.mm())));
        }
        self.source = mended.source;
        Ok(())
    }

    /// A new entry of a kind; what stands at `path` and this kind takes, too, is kept. Stocks that it wants come in.
    pub(super) fn entry(&mut self, album: &Album, root: &Node, path: &str, name: &str) -> Result<Value, Box<Finding>> {
        let example::NewEntry { entry, stocks } =
            example::new_entry(album, root, root.at(path), (role_of(path), name))?;
        for (name, value) in stocks {
            self.keep_card()?;
            self.alter(&Change::Set { path: format!("stocks.{name}"), value })?;
            self.notes.push(Said::new("paper-is-new").with("paper", name));
        }
        Ok(entry)
    }

    /// The card that holds where a file names no stock is not lost by naming another.
    fn keep_card(&mut self) -> Result<(), Box<Finding>> {
        let root = Node::read(&self.source)?;
        if root.at("stocks").is_some() {
            return Ok(());
        }
        self.alter(&Change::Set { path: "stocks".into(), value: json!({ "card": { "sheet": "A4" } }) })
    }

    /// Lets inserts follow the pages that they go into; a number of a page becomes another one, or goes.
    fn renumber(&mut self, new: &dyn Fn(usize) -> Option<usize>) -> Result<(), Box<Finding>> {
        let before = self.source.clone();
        let root = Node::read(&before)?;
        let Some(Node { tree: Tree::Array(inserts), .. }) = root.at("inserts") else { return Ok(()) };
        for (index, insert) in inserts.iter().enumerate() {
            let Some(Value::Array(pages)) = insert.get("pages").map(|node| value_of(&before, node)) else {
                continue;
            };
            let number = |page: &Value| page.as_u64().and_then(|page| usize::try_from(page).ok());
            let after: Vec<usize> = pages.iter().filter_map(number).filter_map(new).collect();
            let path = format!("inserts[{index}].pages");
            if after.is_empty() {
                self.notes.push(Said::new("insert-lost-its-page").with("insert", index + 1));
                self.alter(&Change::Remove { path })?;
            } else if json!(after) != json!(pages) {
                self.alter(&Change::Set { path, value: json!(after) })?;
            }
        }
        Ok(())
    }
}

fn set(hand: &mut Hand, album: &Album, root: &Node, (path, typed): (&str, &str)) -> Result<(), Box<Finding>> {
    if let Some((list, name, field)) = terms::parted(path) {
        return terms::set(hand, (list, name, field.name), value(field, typed.trim()));
    }
    if let Some((way, stock)) = handed::parted(path) {
        let names: Vec<String> = stock::names(&album.stocks).map(str::to_owned).collect();
        return handed::set(hand, way, (stock, typed.trim()), &names);
    }
    let (way, name) = path.rsplit_once('.').unwrap_or(("", path));
    let field = field(&album.kinds, root, way, name).ok_or_else(|| gone(path))?;
    let typed = typed.trim();
    if typed.is_empty() {
        return if root.at(path).is_some() { hand.alter(&Change::Remove { path: path.into() }) } else { Ok(()) };
    }
    let value = value(field, typed);
    if way == "spine" && root.at(way).is_none() {
        let kind = example::spine_kind();
        return hand.alter(&Change::Set { path: way.into(), value: json!({ "kind": kind, name: value }) });
    }
    hand.alter(&Change::Set { path: path.into(), value })?;
    if way.starts_with("stocks.") && name == "sheet" {
        for (old, note) in [("price", "price-of-the-other-sheet"), ("count", "count-of-the-other-sheet")] {
            let path = format!("{way}.{old}");
            if root.at(&path).is_some() {
                hand.alter(&Change::Remove { path })?;
                hand.notes.push(Said::new(note));
            }
        }
    }
    Ok(())
}

/// The field that a way and a name lead to, where entries may be of these kinds.
pub(super) fn field(kinds: &[&'static Kind], root: &Node, way: &str, name: &str) -> Option<&'static Field> {
    let find = |fields: &'static [Field]| fields.iter().find(|field| field.name == name);
    match way {
        "" => find(TOP_FIELDS),
        "page" => find(PAGE_FIELDS),
        "panels" => find(PANEL_FIELDS),
        "selling" => find(SELLING_FIELDS),
        _ if way.starts_with("stocks.") => find(STOCK_FIELDS),
        _ if way.ends_with(".outline") => find(OUTLINE_FIELDS),
        _ if way.contains(".edges[") => find(EDGE_FIELDS),
        _ => {
            let kind = match root.at(way).and_then(|entry| entry.get("kind")).map(|kind| &kind.tree) {
                Some(Tree::Text(kind)) => kind.as_str(),
                _ if way == "spine" => example::spine_kind(),
                _ => return None,
            };
            let kind = example::kind_of(kinds, (role_of(way), kind))?;
            find(kind.fields).or_else(|| find(kind.common()))
        }
    }
}

fn role_of(way: &str) -> Role {
    match way.split(['[', '.']).next() {
        Some("spine") => Role::Spine,
        Some("cover") => Role::Cover,
        Some("inserts") => Role::Insert,
        _ => Role::Page,
    }
}
