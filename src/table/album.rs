// SPDX-License-Identifier: MIT
//! The album as the page's forms: its pages in a run, its spine, cover, papers, panels and inserts.

use super::form::{self, FormFile};
use super::named::PICTURES;
use super::pictures::AlbumSeen;
use super::{drawn, edges, groups, handed, likeness, words};
use crate::album::{Album, Entry, Kind, PAGE_FIELDS, PANEL_FIELDS, Role, TOP_FIELDS};
use crate::fields::{Fallback, Field, Node, Value as Held, Values};
use crate::finding::{Arg, Said};
use crate::length::Ruler;
use crate::parts::{Face, Kit, free_edges};
use crate::picture::{stuff_of, swatch};
use crate::stock::{self, STOCK_FIELDS, Stock};
use crate::work::Work;
use crate::write;
use serde_json::{Value, json};

/// What is seen of an album, before anything else is known of it.
pub(super) fn seen(album: &Album, kit: &Kit) -> Value {
    let AlbumSeen { strip, open } = AlbumSeen::of(album, kit);
    let page = |(entry, (picture, face)): (&Entry, &(usize, Face))| json!({ "kind": entry.kind.name, "picture": picture, "shows": face.word() });
    let pages: Vec<Value> = album.pages.iter().zip(&strip.pages).map(page).collect();
    json!({ "pages": pages, "pictures": strip.pictures, "open": open })
}

/// Everything of an album that can be changed; without the pictures where these were seen before.
pub(super) fn forms(work: &Work, root: &Node, there: &dyn Fn(&str) -> bool, seen_before: bool) -> Value {
    let (album, kit) = (&work.album, &work.kit);
    let file = &FormFile::of(album, root);
    let of_values = |way: &str, fields: &'static [Field], values: &Values| {
        form::rows(file, way, fields, &|field| form::held(values, album.units, field))
    };
    let one = |way: &str, entry: &Entry| entry_form(album, file, way, entry);
    let list = |name: &str, entries: &[Entry]| -> Vec<Value> {
        entries.iter().enumerate().map(|(index, entry)| one(&format!("{name}[{index}]"), entry)).collect()
    };
    let mut pages = list("pages", &album.pages);
    let mut inserts = list("inserts", &album.inserts);
    let free = free_edges(album, &work.cutter);
    let listed = [("pages", &album.pages), ("inserts", &album.inserts)];
    for (((name, entries), forms), free) in listed.into_iter().zip([&mut pages, &mut inserts]).zip(&free) {
        for (number, ((entry, form), free)) in entries.iter().zip(forms.iter_mut()).zip(free).enumerate() {
            form["edges"] = json!(edges::form(file, &format!("{name}[{number}]"), entry, free));
        }
    }
    let seen = (!seen_before).then(|| AlbumSeen::of(album, kit));
    let of_pages = seen.iter().flat_map(|seen| &seen.strip.pages);
    for (page, (picture, face)) in pages.iter_mut().zip(of_pages) {
        page["picture"] = json!(picture);
        page["shows"] = face.word().into();
    }
    let is_made = !kit.pieces.is_empty();
    let top = form::rows(file, "", TOP_FIELDS.iter().filter(|field| shown_on_top(field)), &|field| {
        (field.name == "tolerance").then(|| album.show(album.tolerance.mm()))
    });
    let stocks: Vec<String> = stock::names(&album.stocks).map(str::to_owned).collect();
    let mut forms = json!({
        "title": album.title,
        "handed": handed::rows(file, "", &stocks, "handed-as-whole"),
        "units": album.units.name(),
        "sentence": sentence(album),
        "top": top,
        "page": of_values("page", PAGE_FIELDS, &album.page.values),
        "groups": groups::forms(&pages),
        "pages": pages,
        "drawn": is_made,
        "spine": one("spine", &album.spine),
        "cover": album.cover.as_ref().map(|cover| one("cover", cover)),
        "panels": album.panels.as_ref().map(|panels| of_values("panels", PANEL_FIELDS, &panels.values)),
        "inserts": inserts,
        "kinds": { "page": kinds(&album.kinds, Role::Page), "insert": kinds(&album.kinds, Role::Insert) },
        "stocks": album.stocks.iter().filter(|stock| stock.is_named()).map(|stock| stock_form(album, file, stock, there)).collect::<Vec<_>>(),
    });
    if let Some(AlbumSeen { strip, open }) = seen {
        forms["pictures"] = strip.pictures.into();
        forms["open"] = open.into();
    }
    forms
}

/// The kinds of a role, to choose from.
pub(super) fn kinds(all: &[&'static Kind], role: Role) -> Vec<Value> {
    let of = all.iter().filter(|kind| kind.role == role);
    of.map(|kind| json!({ "kind": kind.name, "label": words::kind(kind.name), "about": kind.about })).collect()
}

fn shown_on_top(field: &Field) -> bool {
    matches!(field.name, "title" | "bound" | "copies" | "language" | "tolerance")
}

pub(super) fn entry_form(album: &Album, file: &FormFile<'_>, way: &str, entry: &Entry) -> Value {
    let held = |field: &Field| match field.name {
        "stock" => Some(album.stocks.get(entry.stock).map_or_else(String::new, |stock| stock.bought().to_owned())),
        _ => form::held(&entry.values, album.units, field).or_else(|| reckoned(entry, field)),
    };
    json!({
        "way": way,
        "kind": entry.kind.name,
        "label": words::kind(entry.kind.name),
        "about": entry.kind.about,
        "rows": form::rows(file, way, entry.kind.fields, &held),
        "more": form::rows(file, way, &entry.kind.common()[1..], &held),
        "outline": drawn::form(file, way, entry),
    })
}

/// What stands in a kind file's own letters is no word for who makes an album: that it follows from other sizes is.
fn reckoned(entry: &Entry, field: &Field) -> Option<String> {
    let formula = entry.kind.file.is_some()
        && matches!(field.fallback, Fallback::Rule(_))
        && entry.kind.fields.iter().any(|own| own.name == field.name);
    formula.then(|| words::say(&Said::new("follows-from-sizes")))
}

fn stock_form(album: &Album, file: &FormFile<'_>, stock: &Stock, there: &dyn Fn(&str) -> bool) -> Value {
    let way = format!("stocks.{}", stock.name);
    let held = |field: &Field| match field.name {
        "sheet" => Some(names(stock)),
        "caliper" => Some(stock.caliper.show(album.units, Ruler::SixtyFourth)),
        _ => None,
    };
    let used = |number: usize| {
        let is = |other: usize| album.stocks.get(other).is_some_and(|other| other.bought() == stock.name);
        let named = |entry: &Entry| is(entry.stock);
        album.page.stock == number
            || album.pages.iter().chain(&album.inserts).chain([&album.spine]).chain(&album.cover).any(named)
            || album.panels.as_ref().is_some_and(|panels| panels.stocks.iter().any(|stock| is(*stock)))
            || album.cover.as_ref().is_some_and(|cover| {
                // Its board, covering and lining are named by fields of its own.
                cover.kind.fields.iter().any(
                    |field| matches!(cover.values.value(field.name), Some(Held::Text(name)) if *name == stock.name),
                )
            })
    };
    let number = album.stocks.iter().position(|other| other.name == stock.name);
    let look = stuff_of(&album.stocks, number.unwrap_or(album.stocks.len()));
    // A mark of a ruler says little of a caliper: by how much it is off belongs to it.
    let caliper = Arg::Own(stock.caliper.show(album.units, Ruler::SixtyFourth));
    let sentence = Said::new("paper-thick").with("sheets", names(stock)).with("caliper", caliper);
    json!({
        "name": stock.name,
        "way": way,
        "looks": write::cutout(&swatch(&look)),
        "colour": look.colour().to_string(),
        "used": number.is_some_and(used),
        "sentence": words::say(&sentence),
        "pictures": likeness::form(stock, &way, there),
        "rows": form::rows(file, &way, STOCK_FIELDS.iter().filter(|field| !PICTURES.contains(&field.name)), &held),
    })
}

/// The sheets that a stock comes in: `A4, A3`.
pub(super) fn names(stock: &Stock) -> String {
    stock.sheets.iter().map(|sheet| sheet.name.as_str()).collect::<Vec<_>>().join(", ")
}

/// `4 pages of 148 × 190 mm on a flexi hinge, in a wrap cover.`
fn sentence(album: &Album) -> String {
    let kind = |entry: &Entry| words::kind(entry.kind.name).to_lowercase();
    let said = Said::new(if album.cover.is_some() { "album-in-a-cover" } else { "album-without-cover" })
        .with("pages", album.pages.len())
        .with("size", words::about_sides(album, album.page.width, album.page.height))
        .with("spine", kind(&album.spine))
        .with("cover", album.cover.as_ref().map(kind).unwrap_or_default());
    words::say(&said.with("copies", album.copies))
}
