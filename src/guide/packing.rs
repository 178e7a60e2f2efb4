// SPDX-License-Identifier: MIT
//! What goes into each bag, in packing order, and how large and heavy bags and parcels are.

use super::bits::{Block, Figure, Section, Table};
use super::desk::Desk;
use super::line::{Line, What};
use super::list::Row;
use super::{measure, pictures};
use crate::sheets::StockSheets;
use crate::stock::{SheetSize, Stock};

/// A bag is so much wider and taller than what goes in, mm: our choice.
const EASE: f64 = 10.0;

/// Columns of the list.
const HEADS: [&str; 5] = ["mark", "piece", "size", "each", "all"];

pub(super) fn section(desk: &Desk<'_>) -> Section {
    let rows = packed(desk);
    let mut packed: Vec<(f64, Vec<Line>)> = rows.iter().filter_map(|row| piece(desk, row)).collect();
    packed.extend(sheets(desk));
    packed.sort_by(|(one, _), (other, _)| other.total_cmp(one));
    let table = Table {
        caption: desk.say("pack-caption", vec![("n", kits(desk))]),
        head: HEADS.iter().map(|head| desk.tell(&format!("pack-head-{head}"))).collect(),
        rows: packed.into_iter().map(|(_, row)| row).collect(),
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

/// What is over when all is packed: so many of each part.
pub(super) fn over(desk: &Desk<'_>, besides: impl Fn(usize) -> u32) -> Vec<Block> {
    let spare = |row: &Row| (besides(row.part) > 0).then(|| Row { count: besides(row.part).into(), ..row.clone() });
    let rows: Vec<Line> = desk.rows.iter().filter_map(spare).map(|row| desk.times(&row)).collect();
    if rows.is_empty() {
        return Vec::new();
    }
    vec![Block::Words(desk.tell("pack-over")), Block::List(rows)]
}

fn kits(desk: &Desk<'_>) -> Line {
    measure::count(u64::from(desk.kits), What::Kits, "")
}

/// The parts that are handed over as pieces: the largest first, for they go in below.
fn packed<'a>(desk: &'a Desk<'_>) -> Vec<&'a Row> {
    let mut rows: Vec<&Row> = desk.rows.iter().filter(|row| desk.is_packed(row)).collect();
    let area = |row: &Row| desk.part(row.part).map_or(0.0, |part| part.flat.width * part.flat.height);
    rows.sort_by(|one, two| area(two).total_cmp(&area(one)));
    rows
}

/// A row of the list, with the area that it goes in by.
fn piece(desk: &Desk<'_>, row: &Row) -> Option<(f64, Vec<Line>)> {
    let part = desk.part(row.part)?;
    let line = vec![
        Line::mark(row.mark.clone()),
        Line::text(desk.words.term(part.kind)),
        desk.size(part),
        measure::count(u64::from(part.count), What::InBag, &part.id),
        of_all(desk, u64::from(part.count) * u64::from(desk.kits), What::Count, &part.id),
    ];
    Some((part.flat.width * part.flat.height, line))
}

/// How many there are in all bags; nothing where one bag is all.
fn of_all(desk: &Desk<'_>, count: u64, what: What, of: &str) -> Line {
    if desk.kits > 1 { measure::count(count, what, of) } else { Line::default() }
}

/// The sheets of stocks that are handed over whole.
fn whole<'a>(desk: &'a Desk<'_>) -> impl Iterator<Item = &'a StockSheets> {
    desk.job.stocks.iter().filter(|laid| desk.job.album.is_handed_whole(laid.stock))
}

/// A row for each size of these, with its area.
fn sheets(desk: &Desk<'_>) -> Vec<(f64, Vec<Line>)> {
    let row = |(stock, size, count): (&Stock, &SheetSize, u64)| {
        let line = vec![
            Line::default(),
            desk.say("pack-sheet", vec![("stock", Line::text(stock.name.clone()))]),
            desk.say("cut-size", desk.sheet_sides(stock, size)),
            measure::count(count / u64::from(desk.kits), What::SheetsInBag, &stock.name),
            of_all(desk, count, What::Sheets, &stock.name),
        ];
        (size.width.mm() * size.height.mm(), line)
    };
    whole(desk).flat_map(|laid| desk.bought(laid)).map(row).collect()
}

/// What lies in a bag: its width and height, how many there are, how thick one is, mm; its weight in grams where that is known.
struct Packed {
    size: (f64, f64),
    count: f64,
    caliper: f64,
    weight: Option<f64>,
}

/// How large and heavy a bag and all of them are, where that is known.
fn bulk(desk: &Desk<'_>, rows: &[&Row]) -> Vec<Line> {
    let of_part = |row: &&Row| {
        let part = desk.part(row.part)?;
        let stock = desk.stock(part.stock)?;
        let size = (part.flat.width, part.flat.height);
        let weight = stock.grammage.map(|grammage| part.flat.area() / 1e6 * grammage);
        Some(Packed { size, count: f64::from(part.count), caliper: stock.caliper.mm(), weight })
    };
    let mut things: Vec<Packed> = rows.iter().filter_map(of_part).collect();
    for laid in whole(desk) {
        let Some(stock) = desk.stock(laid.stock) else { continue };
        things.extend(laid.sheets.iter().map(|sheet| {
            let weight = stock.grammage.map(|grammage| sheet.width * sheet.height / 1e6 * grammage);
            let count = f64::from(sheet.times) / f64::from(desk.kits);
            Packed { size: (sheet.width, sheet.height), count, caliper: stock.caliper.mm(), weight }
        }));
    }
    let (mut short, mut long, mut thick) = (0.0f64, 0.0f64, 0.0f64);
    for Packed { size: (width, height), count, caliper, .. } in &things {
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
    let weight: Option<f64> = things.iter().map(|one| Some(one.count * one.weight?)).sum();
    lines.push(match weight {
        Some(weight) => desk.say(
            "pack-weight",
            vec![
                ("n", kits(desk)),
                ("weight", desk.measure.weight(weight)),
                ("all", desk.measure.weight(weight * f64::from(desk.kits))),
            ],
        ),
        None => desk.tell("pack-weight-unknown"),
    });
    lines
}
