// SPDX-License-Identifier: MIT
//! What you need: sheets with a spare, tape, glue, tools, time; what a kit costs and weighs.

use super::audience::Audience;
use super::bits::{Block, Section, Table};
use super::desk::Desk;
use super::holding::{self, Stick};
use super::joints;
use super::line::{Line, What};
use super::small::SmallThings;
use super::{brief, deeds, measure, scoring, shaping, trimmer};
use crate::album::Album;
use crate::fit::order::Doing;
use crate::length::tolerance::SAME;
use crate::parts::{Deed, Kit, Part};
use crate::sheets::{DrawerRow, Sheet, drawer_rows};
use crate::stock::{SheetSize, Stock};

/// One sheet in so many is bought more, for what goes wrong: our choice.
const SPARE: u64 = 10;

/// So much more tape than the joints need: our choice.
pub(super) const MORE_TAPE: f64 = 1.1;

/// Minutes that things take a practised hand, for one kit: our choice, to be told apart from a measurement by "about".
const SETTING_UP: f64 = 15.0;
pub(super) const A_CUT: f64 = 0.5;
const A_SHEET: f64 = 5.0;
pub(super) const A_SCORE: f64 = 0.3;
pub(super) const A_JOINT: f64 = 3.0;

pub(super) fn section(desk: &Desk<'_>) -> Section {
    ready(desk, false)
}

/// The same for who teaches: how long it takes stands with each section there.
pub(super) fn teaching(desk: &Desk<'_>) -> Section {
    ready(desk, true)
}

/// The same for an order of several kits, whose tape and glue are each kit's own: sheets, tools, what the sheets cost.
pub(super) fn of_order(desk: &Desk<'_>) -> Section {
    let mut blocks = vec![Block::Words(desk.tell("need-words-shop"))];
    blocks.extend(sheets(desk).map(|mut table| {
        if let Some(last) = table.head.iter_mut().find(|head| **head == desk.tell("need-head-price")) {
            *last = desk.tell("batch-head-price");
        }
        Block::Table(table)
    }));
    blocks.extend(drawer(desk));
    if let Some(cost) = cost(desk) {
        blocks.push(Block::Words(desk.say("batch-cost", vec![("cost", desk.measure.price(cost))])));
    }
    blocks.push(Block::Heading(desk.tell("need-tools")));
    blocks.push(Block::List(tools(desk).into_iter().map(|key| desk.tell(key)).collect()));
    Section { id: "need", heading: desk.tell("need-heading-shop"), blocks }
}

fn ready(desk: &Desk<'_>, teaching: bool) -> Section {
    let shop = desk.reader == Audience::Shop;
    let mut blocks = vec![Block::Words(desk.tell(if shop { "need-words-shop" } else { "need-words" }))];
    blocks.extend(sheets(desk).map(Block::Table));
    blocks.extend(drawer(desk));
    let supplies = supplies(desk);
    if !supplies.is_empty() {
        blocks.push(Block::Heading(desk.tell(if shop { "need-stick-shop" } else { "need-stick" })));
        blocks.push(Block::List(supplies));
    }
    let tools = tools(desk);
    if !tools.is_empty() {
        blocks.push(Block::Heading(desk.tell("need-tools")));
        blocks.push(Block::List(tools.into_iter().map(|key| desk.tell(key)).collect()));
    }
    if !shop && !teaching {
        blocks.push(Block::Words(desk.say("need-time", vec![("time", time(desk))])));
    }
    blocks.extend(per_kit(desk).into_iter().map(Block::Words));
    let heading = desk.tell(if shop { "need-heading-shop" } else { "need-heading" });
    Section { id: "need", heading, blocks }
}

/// Tape, glue and small things for all that the reader speaks of.
pub(super) fn supplies(desk: &Desk<'_>) -> Vec<Line> {
    let tape = tape(desk);
    let mut supplies: Vec<Line> = Vec::new();
    if !tape.is_empty() {
        supplies.extend(tape.iter().map(|&(width, length)| {
            let width = measure::number(desk.measure.show_both(width), width, What::TapeWidth, "");
            let length = desk.measure.run(length * f64::from(desk.kits) * MORE_TAPE, "all");
            desk.say("need-tape", vec![("length", length), ("width", width)])
        }));
        supplies.push(desk.tell("need-glue"));
    }
    supplies.extend(small(desk));
    supplies
}

/// The same for the card: one table; nothing for who is handed no sheet.
pub(super) fn short(desk: &Desk<'_>) -> Option<Section> {
    let heading = desk.tell("need-heading");
    sheets(desk).map(|table| {
        let block = if brief::is_long(desk) { brief::sheets(desk, &table) } else { Block::Table(table) };
        Section { id: "need", heading, blocks: vec![block] }
    })
}

/// The sheets that are cut; who is handed them buys none.
fn sheets(desk: &Desk<'_>) -> Option<Table> {
    let buys = desk.reader == Audience::Shop || !desk.job.album.has_shop();
    let mut rows = Vec::new();
    // The shop buys what it hands over whole, too.
    let laid_out = if desk.reader == Audience::Shop { desk.job.stocks } else { &desk.stocks };
    // What is cut both ways is bought once.
    let mut all: Vec<(&Stock, &SheetSize, u64)> = Vec::new();
    for (stock, size, count) in laid_out.iter().flat_map(|laid| desk.bought(laid)) {
        match all.iter_mut().find(|(known, of, _)| known.bought() == stock.bought() && *of == size) {
            Some((_, _, known)) => *known += count,
            None => all.push((stock, size, count)),
        }
    }
    // What lies in the drawer is taken, not bought.
    for (stock, size, count) in all.into_iter().filter(|(_, size, _)| !buys || size.lies.is_none()) {
        let buy = count + count.div_ceil(SPARE);
        let price = size.each().map_or_else(Line::default, |price| {
            #[allow(clippy::cast_precision_loss, reason = "a count of sheets")]
            let cost = price * count as f64 / f64::from(desk.kits);
            desk.measure.price(cost)
        });
        let mut sides = desk.sheet_sides(stock, size);
        sides.push(("name", Line::text(size.name.clone())));
        let weight = stock.grammage.map_or_else(Line::default, |grammage| {
            let shown = format!("{}{}g/m²", grammage.round(), measure::THIN);
            measure::number(shown, grammage, What::Weight, &stock.name)
        });
        rows.push(vec![
            Line::text(stock.bought()),
            desk.say("need-sheet", sides),
            weight,
            measure::count(count, What::Sheets, &stock.name),
            if buys { measure::count(buy, What::Sheets, "with-spare") } else { Line::default() },
            if buys && desk.job.cost.is_none() { price } else { Line::default() },
        ]);
    }
    let heads = ["stock", "sheet", "weight", "count", "buy", "price"];
    let head = heads.iter().map(|head| desk.tell(&format!("need-head-{head}"))).collect();
    let caption = desk.tell(if buys { "need-caption" } else { "need-caption-given" });
    (!rows.is_empty()).then(|| Table { caption, head, rows }.without_empty_columns())
}

/// What is taken from the drawer, for who has one.
fn drawer(desk: &Desk<'_>) -> Vec<Block> {
    let buys = desk.reader == Audience::Shop || !desk.job.album.has_shop();
    let rows = drawer_rows(&desk.job.album.stocks, desk.job.stocks);
    let line = |row: &DrawerRow| {
        let stock = desk.stock(row.stock)?;
        let size = stock.sheets.get(row.size)?;
        let mut places = desk.sheet_sides(stock, size);
        let count = |count: u32, of: &str| measure::count(count.into(), What::Many, of);
        places.push(("stock", Line::text(stock.bought())));
        places.push(("n", count(row.taken, "taken")));
        places.push(("lie", count(row.lie, "lie")));
        places.push(("left", count(row.left(), "left")));
        Some(desk.say("need-drawer-take", places))
    };
    let lines: Vec<Line> = rows.iter().filter(|row| row.taken > 0 && buys).filter_map(line).collect();
    if lines.is_empty() {
        return Vec::new();
    }
    vec![Block::Heading(desk.tell("need-drawer")), Block::List(lines)]
}

/// What who is handed a kit still needs, each in a word or two.
pub(super) fn of_one(desk: &Desk<'_>) -> Vec<Line> {
    let tape = tape(desk).into_iter().map(|(width, length)| {
        let width = measure::number(desk.measure.show_both(width), width, What::TapeWidth, "");
        let length = desk.measure.run(length * MORE_TAPE, "kit");
        desk.say("label-tape", vec![("length", length), ("width", width)])
    });
    let glue = ["label-glue", "label-brush", "label-folder"].map(|key| desk.tell(key));
    tape.chain(glue).collect()
}

/// Tape of each width that one kit takes, mm, the widest first: enough for whatever is made of it.
pub(super) fn tape(desk: &Desk<'_>) -> Vec<(f64, f64)> {
    let mut most = tape_of(desk.job.album, desk.kit());
    for (width, length) in desk.job.others.iter().flat_map(|(album, kit)| tape_of(album, kit)) {
        match most.iter_mut().find(|(known, _)| (known - width).abs() < SAME) {
            Some((_, most)) => *most = most.max(length),
            None => most.push((width, length)),
        }
    }
    most.sort_by(|one, two| two.0.total_cmp(&one.0));
    most
}

fn tape_of(album: &Album, kit: &Kit) -> Vec<(f64, f64)> {
    let mut sums: Vec<(f64, f64)> = Vec::new();
    for job in joints::jobs(kit) {
        let bonds = (0..job.joints.len()).flat_map(|number| job.bonds_of(number));
        for (index, bond) in bonds.enumerate() {
            let (width, length) = match holding::stick(album, kit, job.doing, bond) {
                Stick::Tape { length, width } | Stick::Round { length, width } => (width, length),
                // Only one face of each tab gets tape.
                Stick::Tab { length, width } if index == 0 => (width, length),
                Stick::Tab { .. } | Stick::Glue | Stick::Slides => continue,
            };
            match sums.iter_mut().find(|(known, _)| (known - width).abs() < SAME) {
                Some((_, sum)) => *sum += length,
                None => sums.push((width, length)),
            }
        }
    }
    sums
}

/// Ribbon, thread, corners and covers for all kits.
fn small(desk: &Desk<'_>) -> Vec<Line> {
    let SmallThings { ribbons, thread, corners, cover } = SmallThings::of(desk);
    let copies = u64::from(desk.kits);
    let mut lines: Vec<Line> = Vec::new();
    for (width, many) in ribbons {
        let width = desk.length(width, What::Length, "ribbon");
        let length = desk.length(super::given::roughly(desk, deeds::RIBBON), What::Length, "ribbon");
        let many = measure::count(many * copies, What::Many, "ribbon");
        lines.push(desk.say("need-ribbon", vec![("width", width), ("length", length), ("n", many)]));
    }
    if thread > 0.0 {
        let thread = desk.measure.run(thread * f64::from(desk.kits), "thread");
        lines.push(desk.say("need-thread", vec![("length", thread)]));
    }
    if corners > 0 {
        let corners = measure::count(corners * copies, What::Many, "corners");
        lines.push(desk.say("need-corners", vec![("n", corners)]));
    }
    lines.extend(cover.and_then(|number| Some(ready_cover(desk, number, desk.part(number)?))));
    lines
}

/// The cover, where it is bought or made before.
fn ready_cover(desk: &Desk<'_>, number: usize, part: &Part) -> Line {
    let sides = [("width", part.flat.width), ("height", part.flat.height)];
    let mut places: Vec<_> = sides.map(|(name, mm)| (name, desk.length(mm, What::Length, &part.id))).into();
    places.push(("mark", desk.mark(number)));
    places.push(("n", measure::count(u64::from(desk.kits), What::Many, "cover")));
    desk.say("need-ready-cover", places)
}

/// The tools that the reader needs.
pub(super) fn tools(desk: &Desk<'_>) -> Vec<&'static str> {
    let kit = desk.kit();
    let trimmer = desk.stocks.iter().flat_map(|stock| &stock.sheets).any(|sheet| sheet.cuts.is_some());
    let (cuts, scores) = (|part: &usize| desk.cuts(*part), |part: &usize| desk.scores(*part));
    let all = || 0..kit.parts.len();
    let folded = |part: usize| !kit.parts[part].flat.scores.is_empty();
    let making = desk.reader == Audience::Kit;
    let sewn = making && kit.deeds.iter().any(|deed| matches!(deed, Deed::Sew { .. }));
    let holes = || all().filter(cuts).flat_map(|part| &kit.parts[part].flat.holes).filter_map(shaping::across);
    let is_cut = all().any(|part| cuts(&part));
    let tools = [
        ("tool-trimmer", trimmer),
        ("tool-pencil", making || is_cut),
        ("tool-rule", true),
        ("tool-knife", is_cut),
        ("tool-scorer", all().filter(scores).any(folded)),
        ("tool-folder", making && all().any(folded)),
        ("tool-punch", holes().any(|across| (shaping::PUNCHED..=shaping::WIDEST_PUNCH).contains(&across))),
        ("tool-compass", holes().any(|across| across > shaping::WIDEST_PUNCH)),
        ("tool-awl", sewn || holes().any(|across| across < shaping::PUNCHED)),
        ("tool-needle", sewn),
        ("tool-brush", making),
        ("tool-paper", making),
        ("tool-weight", making),
    ];
    tools.into_iter().filter(|(_, wanted)| *wanted).map(|(key, _)| key).collect()
}

/// About how long one kit takes, rounded up to half hours.
fn time(desk: &Desk<'_>) -> Line {
    let kit = desk.kit();
    let whole = |count: usize| f64::from(u32::try_from(count).unwrap_or(u32::MAX));
    let mut minutes = SETTING_UP;
    for laid in &desk.stocks {
        for sheet in &laid.sheets {
            let plan = desk.plan(&sheet.name);
            let cuts = |plan: &trimmer::Plan| plan.steps.iter().map(trimmer::TrimStep::cuts).sum::<u32>();
            let one = plan.map_or(A_SHEET, |plan| f64::from(cuts(plan)) * A_CUT);
            minutes += one * f64::from(sheet.times) / f64::from(desk.kits);
        }
    }
    let scores =
        |number: usize| scoring::marks(kit, number).len() * usize::try_from(kit.parts[number].count).unwrap_or(0);
    minutes += A_SCORE * whole((0..kit.parts.len()).filter(|part| desk.scores(*part)).map(scores).sum());
    let stuck = joints::jobs(kit).into_iter().filter(|job| job.doing != Doing::FillPocket);
    let joints = stuck.map(|job| (0..job.joints.len()).map(|number| job.bonds_of(number).len()).sum::<usize>());
    minutes += A_JOINT * whole(joints.sum());
    let halves = (minutes / 30.0).ceil();
    let shown = if (halves / 2.0).fract() > 0.0 {
        let hours = (halves / 2.0).floor();
        if hours < 1.0 { "½".to_owned() } else { format!("{hours}½") }
    } else {
        format!("{}", halves / 2.0)
    };
    measure::number(desk.measure.hours(&shown), halves * 30.0, What::Time, "")
}

/// What the sheets of one kit cost, where each has a price; where all costs are worked out, their chapter says it.
fn cost(desk: &Desk<'_>) -> Option<f64> {
    if desk.job.cost.is_some() {
        return None;
    }
    let copies = f64::from(desk.job.album.made().max(1));
    let sheets = desk.job.stocks.iter().flat_map(|laid| laid.sheets.iter().map(move |sheet| (laid.stock, sheet)));
    let price = |(stock, sheet): (usize, &Sheet)| {
        let size = desk.stock(stock)?.sheets.get(sheet.size)?;
        Some(size.each()? * f64::from(sheet.times) / copies)
    };
    sheets.map(price).sum()
}

/// What a kit costs and weighs, where that is known.
fn per_kit(desk: &Desk<'_>) -> Vec<Line> {
    let album = desk.job.album;
    let mut lines = Vec::new();
    // What a kit costs is between the maker and the shop.
    let told = desk.reader == Audience::Shop || !album.has_shop();
    if let Some(cost) = cost(desk).filter(|_| told) {
        lines.push(desk.say("need-cost", vec![("cost", desk.measure.price(cost))]));
    }
    let weight: Option<f64> = desk
        .kit()
        .parts
        .iter()
        .map(|part| Some(part.flat.area() / 1e6 * desk.stock(part.stock)?.grammage? * f64::from(part.count)))
        .sum();
    // What a shop packs is weighed where it is packed.
    if let Some(weight) = weight.filter(|_| desk.reader == Audience::Kit) {
        lines.push(desk.say("need-weight", vec![("weight", desk.measure.weight(weight))]));
    }
    lines
}
