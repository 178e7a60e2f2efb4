// SPDX-License-Identifier: MIT
//! The batch as the page's forms: what holds for all kits, and each kit with what is otherwise in it than in its album.

use super::otherwise::{of_field, otherwise};
use super::{beside, class};
use crate::album::{Album, EDGE_FIELDS, EdgeDone, PAGE_FIELDS, PANEL_FIELDS, Role, SPARE_FIELDS};
use crate::batch::{BatchKit, CHOICE_FIELDS, KIT_FIELDS, TOP_FIELDS};
use crate::fields::{Field, Node};
use crate::finding::{Arg, Said};
use crate::outline::OUTLINE_FIELDS;
use crate::stock::STOCK_FIELDS;
use crate::table::album::{entry_form, kinds};
use crate::table::form::{self, FormFile};
use crate::table::on_table::TableFile;
use crate::table::{handed, terms, words};
use crate::work::BatchWork;
use serde_json::{Map, Value, json};

/// Everything of a batch that can be changed.
pub(super) fn forms(work: &BatchWork, root: &Node, albums: &[TableFile]) -> Value {
    let batch = &work.batch;
    let file = FormFile { root, units: batch.units, stocks: &work.merged.stocks };
    let kits: Vec<Value> =
        batch.kits.iter().enumerate().map(|(number, kit)| of_kit(work, root, albums, number, kit)).collect();
    let mut offers = Map::new();
    for name in kits.iter().filter_map(|kit| kit["album"].as_str()) {
        if !offers.contains_key(name) {
            offers.insert(name.to_owned(), offered(albums, name));
        }
    }
    if let Some(name) = beside::album_name(root, "class").filter(|_| beside::is_class(root)) {
        offers.entry(name).or_insert_with(|| offered(albums, name));
    }
    let top = TOP_FIELDS.iter().filter(|field| matches!(field.name, "title" | "together" | "language"));
    let many: u64 = batch.kits.iter().map(|kit| u64::from(batch.times(kit))).sum();
    let said = if batch.class.is_some() { "class-of-groups" } else { "batch-of-kits" };
    let sentence = Said::new(said).with("kits", batch.kits.len()).with("copies", many);
    json!({
        "title": batch.title,
        "units": batch.units.name(),
        "sentence": words::say(&sentence),
        "top": form::rows(&file, "", top, &|_| None),
        "spares": form::rows(&file, "spares", SPARE_FIELDS, &|_| None),
        "handed": handed::rows(&file, "", &class::bought(root, albums, ""), "handed-as-albums"),
        "kits": kits,
        "class": batch.class.as_ref().map(|_| class::form(batch, root, albums)),
        "offers": offers,
        "terms": terms::forms(&file, &work.merged.stocks, work.cost()),
    })
}

fn of_kit(work: &BatchWork, root: &Node, albums: &[TableFile], number: usize, kit: &BatchKit) -> Value {
    let way = format!("{}[{number}]", beside::list(root));
    if work.batch.class.is_some() {
        return class::group(root, albums, &way, kit);
    }
    let file = FormFile { root, units: kit.album.units, stocks: &kit.album.stocks };
    let held = |field: &Field| (field.name == "copies").then(|| kit.album.copies.to_string());
    let mut rows = form::rows(&file, &way, KIT_FIELDS, &held);
    let album = root.at(&format!("{way}.album")).map(beside::shown).unwrap_or_default();
    for row in &mut rows {
        // What is said of files is of no use here.
        let named = row["path"] == format!("{way}.name");
        row["about"] = if named { words::say(&Said::new("kit-is-called")) } else { String::new() }.into();
    }
    for row in &mut rows {
        class::offer_albums(row, albums);
    }
    let (changes, papers) = otherwise(&file, &way, &album, albums);
    let said = Said::new("kit-in-short")
        .with("copies", work.batch.times(kit))
        .with("album", kit.album.title.as_str())
        .with("changes", changes.len())
        .with("own", papers.len())
        .with("papers", Arg::All(papers.iter().filter_map(|one| one["name"].as_str()).map(Arg::code).collect()))
        .with("chosen", kit.choice.as_ref().map_or(0, |choice| u64::from(choice.pages)));
    json!({
        "way": way,
        "name": kit.name,
        "album": album,
        "sentence": words::say(&said),
        "rows": rows,
        "changes": changes,
        "papers": papers,
        "choice": kit.choice.as_ref().map(|_| choice(&file, &way, &kit.album)),
    })
}

/// How pages are chosen: how many, and each kind with its rows.
fn choice(file: &FormFile<'_>, way: &str, album: &Album) -> Value {
    let of = album.pages.iter().enumerate();
    json!({
        "rows": form::rows(file, &format!("{way}.choice"), CHOICE_FIELDS, &|_| None),
        "kinds": kinds(&album.kinds, Role::Page),
        "of": of.map(|(kind, entry)| entry_form(album, file, &format!("{way}.choice.of[{kind}]"), entry)).collect::<Vec<_>>(),
    })
}

/// What may be otherwise in a kit, by where it stands in the album: what the album's file holds the object of.
fn offered(albums: &[TableFile], name: &str) -> Value {
    let Some((album, _, root)) = beside::plain(albums, name) else { return json!([]) };
    let mut groups: Vec<Value> = Vec::new();
    let mut offer = |way: String, fields: Vec<&'static Field>, paper: Option<&str>| {
        if root.at(&way).is_none() {
            return;
        }
        let rows: Vec<Value> = fields
            .into_iter()
            .filter_map(|field| {
                let within = format!("{way}.{}", field.name);
                let mut row = of_field(&album, &root, &within)?;
                row["label"] = words::named(&within).into();
                Some(row)
            })
            .collect();
        let place = words::capital(&crate::words::place(&format!("{way}.")));
        groups.push(json!({ "label": place, "rows": rows, "paper": paper }));
    };
    for stock in album.stocks.iter().filter(|stock| stock.is_named()) {
        offer(
            format!("stocks.{}", stock.name),
            STOCK_FIELDS.iter().collect(),
            (!stock.ready).then_some(stock.bought()),
        );
    }
    offer("page".into(), PAGE_FIELDS.iter().collect(), None);
    let all = |entry: &crate::album::Entry| entry.kind.fields.iter().chain(&entry.kind.common()[1..]).collect();
    for (list, entries) in [("pages", &album.pages), ("inserts", &album.inserts)] {
        for (number, entry) in entries.iter().enumerate() {
            offer(format!("{list}[{number}]"), all(entry), None);
            let of_drawing = OUTLINE_FIELDS.iter().filter(|field| field.name != "file");
            offer(format!("{list}[{number}].outline"), of_drawing.collect(), None);
            for (at, edge) in entry.edges.iter().enumerate() {
                // A corner stays a corner, what is done along an edge goes along it.
                let other =
                    if matches!(edge.done, EdgeDone::Corners(_)) { ["finish", "depth"] } else { ["corners"; 2] };
                let of_edge = EDGE_FIELDS.iter().filter(|field| !other.contains(&field.name));
                offer(format!("{list}[{number}].edges[{at}]"), of_edge.collect(), None);
            }
        }
    }
    offer("spine".into(), all(&album.spine), None);
    if let Some(cover) = &album.cover {
        offer("cover".into(), all(cover), None);
    }
    offer("panels".into(), PANEL_FIELDS.iter().collect(), None);
    groups.into()
}
