// SPDX-License-Identifier: MIT
//! What there is to start from: the file that the table was opened with, examples, kinds, sheets.

use super::{album, drawer, machine, on_table, pictures};
use crate::album::{Role, starter};
use crate::fields::Source;
use crate::length::Units;
use crate::paper;
use crate::parts;
use crate::work::Work;
use serde_json::{Value, json};

/// Albums to start from: their file's name, what they are, their text.
const EXAMPLES: &[(&str, &str, &str)] = &[
    (
        "tide-table.json",
        "Pockets and wallets on A4 card, in millimetres",
        include_str!("../../fixtures/tide-table.json"),
    ),
    (
        "seed-ledger.json",
        "Pockets and wallets on letter card, in inches",
        include_str!("../../fixtures/seed-ledger.json"),
    ),
    (
        "garden-year.json",
        "Five pages in a wrap cover, with papers and tags",
        include_str!("../../fixtures/garden-year.json"),
    ),
];

/// Cutter files to start from: their file's name, what they are for, their text.
const CUTTERS: &[(&str, &str, &str)] = &[
    ("blade-on-card.json", "A swivelling blade in card", include_str!("../../fixtures/cutters/blade-on-card.json")),
    (
        "blade-on-printed-card.json",
        "A blade in card that is printed first",
        include_str!("../../fixtures/cutters/blade-on-printed-card.json"),
    ),
    ("laser-on-card.json", "A laser in card", include_str!("../../fixtures/cutters/laser-on-card.json")),
    ("laser-on-board.json", "A laser in board", include_str!("../../fixtures/cutters/laser-on-board.json")),
    ("pen-alone.json", "A pen that draws what is cut by hand", include_str!("../../fixtures/cutters/pen-alone.json")),
];

/// Sheets that have no standard name but are sold: our choice, common in shops.
const SOLD: [&str; 3] = ["12x12in", "300x300mm", "50x70cm"];

/// An album file that the table is opened with.
#[derive(Clone, Debug)]
pub struct Opened {
    /// Its name.
    pub name: String,
    /// What it holds.
    pub text: String,
    /// The drawings that it names, by the names that it calls them by, and what they hold.
    pub drawings: Vec<(String, String)>,
    /// The files that it names, and that these name: an order's albums, drawers, cutters.
    pub files: Vec<LaidFile>,
}

/// A file that lies beside it.
#[derive(Clone, Debug)]
pub struct LaidFile {
    /// Its name.
    pub name: String,
    /// What it holds.
    pub text: String,
    /// The drawings that it names.
    pub drawings: Vec<(String, String)>,
}

/// Everything that the page has to know before it shows an album.
pub(super) fn open(opened: Option<&Opened>) -> Value {
    let all = parts::kinds();
    let kinds = |role: Role| album::kinds(&all, role);
    let sheets = paper::named_sheets().iter().map(|sheet| {
        let size = format!("{} × {} mm", sheet.width.plain(Units::Mm), sheet.height.plain(Units::Mm));
        json!({ "value": sheet.name, "label": format!("{} ({size})", sheet.name) })
    });
    let sold = SOLD.iter().map(|name| json!({ "value": name, "label": name }));
    json!({
        "file": opened.map(|opened| json!({
            "name": opened.name,
            "text": opened.text,
            "batch": kind(&opened.name, &opened.text) == "batch",
            "drawings": drawings(&opened.drawings),
            "files": opened.files.iter().map(laid).collect::<Vec<_>>(),
        })),
        "drawer": drawer::empty(),
        "cutter": machine::empty(),
        "measured": machine::no_readings(),
        "cutters": CUTTERS.iter().map(|(name, about, text)| json!({ "name": name, "about": about, "text": text })).collect::<Vec<_>>(),
        "starters": { "mm": starter(Units::Mm), "in": starter(Units::In) },
        "examples": EXAMPLES.iter().map(shown).collect::<Vec<_>>(),
        "kinds": {
            "page": kinds(Role::Page), "spine": kinds(Role::Spine), "cover": kinds(Role::Cover), "insert": kinds(Role::Insert),
        },
        "sheets": sheets.chain(sold).collect::<Vec<_>>(),
    })
}

fn drawings(list: &[(String, String)]) -> Vec<Value> {
    list.iter().map(|(name, text)| json!({ "name": name, "text": text })).collect()
}

fn laid(LaidFile { name, text, drawings: drawn }: &LaidFile) -> Value {
    let mut file = json!({ "name": name, "text": text });
    if !drawn.is_empty() {
        file["drawings"] = drawings(drawn).into();
    }
    let kind = kind(name, text);
    if kind != "album" {
        file["kind"] = kind.into();
    }
    file
}

fn kind(name: &str, text: &str) -> &'static str {
    Source::new(name, text.as_bytes().to_vec()).map_or("album", |source| on_table::kind(&source))
}

fn shown(&(name, about, text): &(&str, &str, &str)) -> Value {
    let source = Source::new(name, text.into()).ok();
    let album = source.and_then(|source| parts::read_album(&source, &mut parts::no_kind_files).value);
    let title = album.as_ref().map_or_else(String::new, |album| album.title.clone());
    let work = album.map(|album| Work::fit(album, crate::cutter::Cutter::default()));
    let picture = work.map(|work| pictures::open(&work.album, &work.kit, &pictures::folded(&work.album, &work.kit)));
    json!({ "name": name, "title": title, "about": about, "text": text, "picture": picture })
}
