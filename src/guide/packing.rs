// SPDX-License-Identifier: MIT
//! What goes into each bag, in packing order, and how large and heavy bags and parcels are.

use super::bits::{Block, Figure, Section, Table};
use super::desk::Desk;
use super::line::{Line, What};
use super::list::Row;
use super::{measure, pictures};
use crate::album::Handed;

/// A bag is so much wider and taller than what goes in, mm: our choice.
const EASE: f64 = 10.0;

/// Columns of the list.
const HEADS: [&str; 5] = ["mark", "piece", "size", "each", "all"];

pub(super) fn section(desk: &Desk<'_>) -> Section {
    let rows = packed(desk);
    let mut table: Vec<Vec<Line>> = rows.iter().filter_map(|row| piece(desk, row)).collect();
    table.extend(sheets(desk));
    let table = Table {
        caption: desk.say("pack-caption", vec![("n", kits(desk))]),
        head: HEADS.iter().map(|head| desk.tell(&format!("pack-head-{head}"))).collect(),
        rows: table,
    };
    let mut blocks = vec![Block::Words(desk.tell("pack-words")), Block::Table(table.without_empty_columns())];
    blocks.extend(
        pictures::pieces(desk, &rows)
            .into_iter()
            .map(|picture| Block::Figure(Figure { picture, shows: desk.tell("pack-picture") })),
    );
    blocks.push(Block::Words(desk.tell("pack-guide")));
    blocks.push(Block::Words(desk.tell("pack-needs")));
    blocks.extend(bulk(desk, &rows).into_iter().map(Block::Words));
    Section { id: "pack", heading: desk.tell("pack-heading"), blocks }
}

fn kits(desk: &Desk<'_>) -> Line {
    measure::count(u64::from(desk.kits), What::Kits, "")
}

/// The parts that are handed over as pieces: the largest first, for they go in below.
fn packed<'a>(desk: &'a Desk<'_>) -> Vec<&'a Row> {
    let whole = |row: &Row| {
        desk.part(row.part).is_some_and(|part| desk.job.album.handed_over(part.stock) == Some(Handed::Sheets))
    };
    let mut rows: Vec<&Row> = desk.rows.iter().filter(|row| !whole(row)).collect();
    let area = |row: &Row| desk.part(row.part).map_or(0.0, |part| part.flat.width * part.flat.height);
    rows.sort_by(|one, two| area(two).total_cmp(&area(one)));
    rows
}

fn piece(desk: &Desk<'_>, row: &Row) -> Option<Vec<Line>> {
    let part = desk.part(row.part)?;
    let size = vec![
        ("width", desk.length(part.flat.width, What::Width, &part.id)),
        ("height", desk.length(part.flat.height, What::Height, &part.id)),
    ];
    Some(vec![
        Line::mark(row.mark.clone()),
        Line::text(desk.words.term(part.kind)),
        desk.say("cut-size", size),
        measure::count(u64::from(part.count), What::InBag, &part.id),
        measure::count(row.count, What::Count, &part.id),
    ])
}

/// Whole sheets that are handed over: a row for each size.
fn sheets(desk: &Desk<'_>) -> Vec<Vec<Line>> {
    let album = desk.job.album;
    let mut rows = Vec::new();
    for laid in desk.job.stocks.iter().filter(|laid| album.handed_over(laid.stock) == Some(Handed::Sheets)) {
        let Some(stock) = desk.stock(laid.stock) else { continue };
        for (number, size) in stock.sheets.iter().enumerate() {
            let of_size = laid.sheets.iter().filter(|sheet| sheet.size == number);
            let count: u64 = of_size.map(|sheet| u64::from(sheet.times)).sum();
            if count == 0 {
                continue;
            }
            let sides = vec![
                ("width", desk.length(size.width.mm(), What::SheetWidth, &stock.name)),
                ("height", desk.length(size.height.mm(), What::SheetHeight, &stock.name)),
            ];
            rows.push(vec![
                Line::default(),
                desk.say("pack-sheet", vec![("stock", Line::text(stock.name.clone()))]),
                desk.say("cut-size", sides),
                measure::count(count / u64::from(desk.kits), What::SheetsInBag, &stock.name),
                measure::count(count, What::Sheets, &stock.name),
            ]);
        }
    }
    rows
}

/// How large and heavy a bag and all of them are, where that is known.
fn bulk(desk: &Desk<'_>, rows: &[&Row]) -> Vec<Line> {
    let album = desk.job.album;
    let of_part = |row: &&Row| {
        let part = desk.part(row.part)?;
        let stock = desk.stock(part.stock)?;
        let size = (part.flat.width, part.flat.height);
        let weight = stock.grammage.map(|grammage| part.flat.area() / 1e6 * grammage);
        Some((size, f64::from(part.count), stock.caliper.mm(), weight))
    };
    let mut things: Vec<((f64, f64), f64, f64, Option<f64>)> = rows.iter().filter_map(of_part).collect();
    for laid in desk.job.stocks.iter().filter(|laid| album.handed_over(laid.stock) == Some(Handed::Sheets)) {
        let Some(stock) = desk.stock(laid.stock) else { continue };
        things.extend(laid.sheets.iter().map(|sheet| {
            let weight = stock.grammage.map(|grammage| sheet.width * sheet.height / 1e6 * grammage);
            let each = f64::from(sheet.times) / f64::from(desk.kits);
            ((sheet.width, sheet.height), each, stock.caliper.mm(), weight)
        }));
    }
    let (mut short, mut long, mut thick) = (0.0f64, 0.0f64, 0.0f64);
    for ((width, height), count, caliper, _) in &things {
        short = short.max(width.min(*height));
        long = long.max(width.max(*height));
        thick += count * caliper;
    }
    if things.is_empty() {
        return Vec::new();
    }
    let length = |mm: f64| desk.length(super::given::roughly(desk, mm), What::Length, "bag");
    let size =
        |thick: f64| vec![("width", length(short + EASE)), ("height", length(long + EASE)), ("thick", length(thick))];
    let mut lines = vec![desk.say("pack-bag", size(thick))];
    // As high as so many bags of the thickness that is said.
    let mut all = size(super::given::roughly(desk, thick) * f64::from(desk.kits));
    all.push(("n", kits(desk)));
    if desk.kits > 1 {
        lines.push(desk.say("pack-parcel", all));
    }
    let weight: Option<f64> = things.iter().map(|(_, count, _, weight)| Some(count * (*weight)?)).sum();
    lines.push(match weight {
        Some(weight) => desk.say(
            "pack-weight",
            vec![("weight", desk.measure.weight(weight)), ("all", desk.measure.weight(weight * f64::from(desk.kits)))],
        ),
        None => desk.tell("pack-weight-unknown"),
    });
    lines
}
