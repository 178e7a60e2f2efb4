// SPDX-License-Identifier: MIT
//! A class: several groups of makers who make the same album, each from the sheets and with the tool that they have.
//!
//! ```json
//! "class": { "album": "tide-table.json", "makers": [
//!     { "name": "table-one", "count": 6, "sheet": "A4", "by": "trimmer" },
//!     { "name": "table-two", "count": 4, "sheet": "letter", "by": "machine", "cutter": "blade-12in.json" },
//!     { "name": "guests", "count": 5, "handed_over": "scored" } ] }
//! ```
//!
//! Each group is a kit of the batch, made as often as it has makers. Unless something is handed over cut, each maker has sheets of
//! their own, as they cut at their own table.

use super::BatchKit;
use super::file_fields::{
    ALBUM, BRINGS, CHANGE, CLASS_FIELDS, MAKER_ALBUM, MAKER_BY, MAKER_COUNT, MAKER_CUTTER, MAKER_FIELDS, MAKER_SHEET,
    MAKERS, NAME, SHARED_BY,
};
use super::reading::{AlbumOf, BatchReading};
use crate::album::{Album, HANDED_OVER, Handed, Spares, read_handed_over};
use crate::fields::{Node, Tree, Values, meant_or};
use crate::finding::{Arg, Place, Said};
use crate::length::excerpt;
use crate::paper::sheet_size;
use crate::stock::{self, By, SheetSize, Stock, read_own};

/// More groups than this are a mistake: our choice.
const MOST_GROUPS: usize = 50;

/// Sheets whose sides differ by less than this part stand for one another: A4 and letter by 6 %, A3 and tabloid by 6 %, A4
/// and legal by 20 %. Our choice.
const NEAR: f64 = 0.1;

/// What a class is besides its kits, which are its groups.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
#[non_exhaustive]
pub struct Class {
    /// How many makers share what not each of them has: a trimmer, a machine, a punch.
    pub shared_by: u32,
    /// What the teacher brings besides, in the teacher's words.
    pub brings: Vec<String>,
}

/// A group of a class, and the sheets that its makers cut.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ClassGroup {
    /// Its name.
    pub name: String,
    /// How many makers there are.
    pub makers: u32,
    /// Their sheets; none where they are handed pieces.
    pub sheets: Vec<GroupSheets>,
}

/// Sheets of one size that a group cuts.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct GroupSheets {
    /// The stock, as it is bought.
    pub stock: String,
    /// What the size is called.
    pub sheet: String,
    /// What they are cut by.
    pub by: By,
    /// How many each maker has.
    pub each: u64,
    /// How many there are for all, those of spare kits among them.
    pub all: u64,
}

/// In what state the stocks of a group are handed over, by their names.
pub(super) type HandedByName = Vec<(String, Handed)>;

impl BatchReading<'_, '_> {
    /// A class, and its groups as kits, each with what it says of handing over.
    pub(super) fn class(&mut self, node: &Node) -> (Option<Class>, Vec<(BatchKit, HandedByName)>) {
        let Some(values) = self.reader.object(node, "class", Arg::field("class"), &[CLASS_FIELDS]) else {
            return (None, Vec::new());
        };
        let brings = values.get(BRINGS).iter().map(|(text, _)| text.clone()).collect();
        let class = Class { shared_by: values.get(SHARED_BY), brings };
        let Some(makers) = values.get(MAKERS) else { return (None, Vec::new()) };
        let list = self.reader.list(makers, "class.makers", MAKERS.name());
        let place = self.reader.place(&makers.range, "class.makers");
        if list.is_empty() && matches!(&makers.tree, Tree::Array(_)) {
            self.reader.problem("no-makers", Said::new("no-makers"), Said::new("no-makers-help"), &place);
        }
        if list.len() > MOST_GROUPS {
            let text = Said::new("too-many-entries").with("field", Arg::field(MAKERS.name())).with("count", list.len());
            self.reader.problem("too-many", text.with("most", MOST_GROUPS), Said::NOTHING, &place);
            return (None, Vec::new());
        }
        let mut names: Vec<String> = Vec::new();
        let mut kits = Vec::new();
        for (number, node) in list.iter().enumerate() {
            let path = format!("class.makers[{number}]");
            let Some(group) = self.reader.object(node, &path, Said::new("a-group"), &[MAKER_FIELDS]) else { continue };
            let name = group.get(NAME).to_owned();
            self.name(&name, &names, &group);
            kits.extend(self.group(&name, &values, &group, &path));
            names.push(name);
        }
        (Some(class), kits)
    }

    fn group(&mut self, name: &str, class: &Values, group: &Values, path: &str) -> Option<(BatchKit, HandedByName)> {
        let own = group.get(MAKER_ALBUM).zip(group.place(MAKER_ALBUM));
        let of_class = class.says(ALBUM).then(|| class.get(ALBUM)).zip(class.place(ALBUM));
        let (file, place) = own.or(of_class).map(|(file, place)| (file.to_owned(), place.clone()))?;
        let of = AlbumOf {
            file: &file,
            place: &place,
            changes: &[(class.get(CHANGE), class), (group.get(CHANGE), group)],
            // A group that says what it cuts with cuts all with it.
            one_way: group.get(MAKER_BY).is_some(),
        };
        let mut album = self.changed_album(name, &of)?;
        album.copies = group.get(MAKER_COUNT);
        let before = album.stocks.clone();
        self.sheets_of(&mut album, group, path);
        self.tool_of(&mut album, group, path);
        album.hand_over(None, Handed::Sheets);
        let handed = group.get(HANDED_OVER).map(|node| self.handed_to(&album, node, path)).unwrap_or_default();
        let others = album.stocks.iter_mut().zip(&before).filter(|(stock, before)| !stock.is_same(before));
        others.for_each(|(stock, _)| beside(stock, name));
        Some((BatchKit { name: name.to_owned(), album, choice: None, spares: Spares::default() }, handed))
    }

    /// The sheets that a group has.
    fn sheets_of(&mut self, album: &mut Album, group: &Values, path: &str) {
        let (Some(node), path) = (group.get(MAKER_SHEET), format!("{path}.sheet")) else { return };
        match &node.tree {
            Tree::Text(text) => {
                let place = self.reader.place(&node.range, &path);
                let Some(sheet) = self.sheet(text, &place) else { return };
                let of_this: Vec<usize> =
                    (0..album.stocks.len()).filter(|of| near(&album.stocks[*of], &sheet)).collect();
                if of_this.is_empty() {
                    let text = Said::new("no-such-sheet").with("sheet", Arg::quoted(excerpt(text)));
                    let first = stock::names(&album.stocks).next().unwrap_or("card").to_owned();
                    let help = Said::new("no-such-sheet-help").with("sheet", sheet.name.as_str());
                    self.reader.problem("no-such-sheet", text, help.with("stock", first), &place);
                }
                for of in of_this {
                    put(&mut album.stocks[of], &sheet, &place);
                }
            }
            Tree::Object(entries) => {
                for (name, range, value) in entries {
                    let way = format!("{path}.{name}");
                    let place = self.reader.place(&value.range, &way);
                    let names: Vec<String> = stock::names(&album.stocks).map(str::to_owned).collect();
                    if !names.contains(name) {
                        let help = meant_or("unknown-stock-help", name, names.iter().map(String::as_str));
                        let text = Said::new("unknown-stock").with("name", Arg::quoted(excerpt(name)));
                        let place = self.reader.place(range, &way);
                        self.reader.problem("unknown-stock", text.with("stocks", Arg::field("stocks")), help, &place);
                        continue;
                    }
                    let Tree::Text(text) = &value.tree else {
                        self.reader.wrong_type(name, Said::new("form-sheet"), &value.tree, Said::NOTHING, &place);
                        continue;
                    };
                    let Some(sheet) = self.sheet(text, &place) else { continue };
                    let these = album.stocks.iter_mut().filter(|stock| !stock.ready && stock.bought() == name);
                    these.for_each(|stock| put(stock, &sheet, &place));
                }
            }
            other => {
                let place = self.reader.place(&node.range, &path);
                self.reader.wrong_type("sheet", Said::new("form-sheet"), other, Said::NOTHING, &place);
            }
        }
    }

    fn sheet(&mut self, text: &str, place: &Place) -> Option<SheetSize> {
        match sheet_size(text) {
            Ok((name, width, height)) => {
                Some(SheetSize { name, width, height, count: None, price: None, pack: None, lies: None })
            }
            Err(error) => {
                self.reader.problem("bad-sheet", error.what, error.help, place);
                None
            }
        }
    }

    /// What a group cuts with.
    fn tool_of(&mut self, album: &mut Album, group: &Values, path: &str) {
        let by = group.get(MAKER_BY);
        let own = group.get(MAKER_CUTTER).and_then(|node| read_own(&mut self.reader, node, path));
        for stock in album.stocks.iter_mut().filter(|stock| !stock.ready) {
            if let Some(by) = by {
                (stock.by, stock.own) = (by, None);
            }
            if let Some(own) = &own {
                stock.own = Some(own.clone());
            }
        }
    }

    /// What a group is handed cut or scored.
    fn handed_to(&mut self, album: &Album, node: &Node, path: &str) -> HandedByName {
        let names: Vec<&str> = stock::names(&album.stocks).collect();
        let before = self.reader.findings.len();
        let handed = read_handed_over(&mut self.reader, node, &names);
        for finding in &mut self.reader.findings[before..] {
            if let Some(place) = &mut finding.place {
                place.path = format!("{path}.{}", place.path);
            }
        }
        names.into_iter().map(str::to_owned).zip(handed).collect()
    }
}

/// What a group is handed cut lies on sheets of its own, which the teacher cuts.
pub(super) fn set_apart(album: &mut Album) {
    let handed: Vec<Option<Handed>> = (0..album.stocks.len()).map(|stock| album.handed_over(stock)).collect();
    for (stock, handed) in album.stocks.iter_mut().zip(handed) {
        if let Some(handed) = handed.filter(|handed| *handed != Handed::Sheets && !stock.ready) {
            beside(stock, handed.word());
        }
    }
}

/// A stock that others of its name are bought with, and that is cut by itself: `card.table-two`.
fn beside(stock: &mut Stock, what: &str) {
    let bought = stock.bought().to_owned();
    stock.name = format!("{}.{what}", stock.name);
    stock.shares = Some(bought);
}

/// Whether a stock comes in a sheet that this one stands for: sides that differ by little, whichever way they are named.
fn near(stock: &Stock, sheet: &SheetSize) -> bool {
    let sides = |size: &SheetSize| {
        let (width, height) = (size.width.mm(), size.height.mm());
        (width.min(height), width.max(height))
    };
    let like = |one: f64, other: f64| (one - other).abs() <= NEAR * one.max(other);
    let (short, long) = sides(sheet);
    !stock.ready && stock.sheets.iter().map(sides).any(|(less, more)| like(less, short) && like(more, long))
}

/// Puts a stock on another sheet. Price and count belong to the sheet that it replaces; where it is the same, all stays.
fn put(stock: &mut Stock, sheet: &SheetSize, place: &Place) {
    let same = |size: &SheetSize| (size.width, size.height) == (sheet.width, sheet.height);
    let known = stock.sheets.iter().find(|size| same(size)).cloned();
    stock.sheets = vec![known.unwrap_or_else(|| sheet.clone())];
    stock.place = Some(place.clone());
}
