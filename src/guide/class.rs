// SPDX-License-Identifier: MIT
//! A class: what the teacher brings, and a page for each group of makers.
//!
//! Small tools are one for each maker; what is large or rarely used is shared, so many makers to one, each group by itself: groups
//! sit at tables of their own.

use super::audience::Audience;
use super::bits::{Block, Guide, Section, Table};
use super::desk::Desk;
use super::job::GuideJob;
use super::line::{Line, What};
use super::{assembly, brief, cautions, folding, measure, need, shaping};
use crate::batch::Class;
use crate::sheets::Sheet;
use crate::stock::By;

/// What makers share: one for several of them. The rest each has (our choice).
const SHARED: [&str; 6] = ["tool-trimmer", "tool-scorer", "tool-punch", "tool-awl", "tool-weight", "tool-machine"];

/// A group of makers.
pub(super) struct TaughtGroup<'g> {
    pub name: &'g str,
    /// How many makers there are.
    pub makers: u32,
    /// Their kit, told to one of them.
    pub desk: Desk<'g>,
}

/// What the teacher brings: sheets for every maker, tools for every group, and what else is said.
pub(super) fn section(desk: &Desk<'_>, class: &Class, groups: &[TaughtGroup<'_>], spare: bool) -> Section {
    let all: u32 = groups.iter().map(|group| group.makers).sum();
    let n = || measure::count(u64::from(all), What::Many, "makers");
    let mut blocks = vec![Block::Words(desk.say("class-words", vec![("n", n())]))];
    blocks.extend(sheets(desk, groups).map(Block::Table));
    let handed: Vec<Line> = groups.iter().filter_map(|group| handed(desk, group)).collect();
    if !handed.is_empty() {
        blocks.push(Block::List(handed));
    }
    blocks.push(Block::Table(tools(desk, class, groups)));
    let shared = measure::count(u64::from(class.shared_by), What::Many, "share");
    blocks.push(Block::Words(desk.say("class-shared", vec![("n", shared)])));
    let mut brings = vec![desk.tell("class-pages")];
    if groups
        .iter()
        .any(|group| group.desk.stocks.iter().flat_map(|laid| &laid.sheets).any(|sheet| sheet.by() == By::Trimmer))
    {
        brings.push(desk.tell("class-templates"));
    }
    brings.push(desk.tell(if spare { "class-spares" } else { "class-no-spares" }));
    brings.extend(class.brings.iter().map(|text| Line::text(text.as_str())));
    blocks.push(Block::List(brings));
    Section { id: "class", heading: desk.tell("class-heading"), blocks }
}

/// The sheets that each maker of a group is given, and all of them.
fn sheets(desk: &Desk<'_>, groups: &[TaughtGroup<'_>]) -> Option<Table> {
    let mut rows = Vec::new();
    for group in groups {
        let own = &group.desk;
        let made = u64::from(own.job.album.copies.max(1));
        for (stock, size, count) in own.stocks.iter().flat_map(|laid| own.bought(laid)) {
            let mut sides = own.sheet_sides(stock, size);
            sides.push(("name", Line::text(size.name.clone())));
            rows.push(vec![
                Line::text(group.name),
                measure::count(u64::from(group.makers), What::Many, "makers"),
                Line::text(stock.bought()),
                desk.say("need-sheet", sides),
                desk.tell(match stock.by {
                    By::Trimmer => "class-by-trimmer",
                    By::Machine => "class-by-machine",
                }),
                measure::count(count, What::SheetsInBag, group.name),
                measure::count(count * made, What::Sheets, group.name),
            ]);
        }
    }
    let head = [
        "class-head-group",
        "class-head-makers",
        "class-head-stock",
        "class-head-sheet",
        "class-head-by",
        "class-head-each",
        "class-head-all",
    ]
    .map(|key| desk.tell(key));
    (!rows.is_empty()).then(|| Table { caption: desk.tell("class-sheets"), head: head.to_vec(), rows })
}

/// A group that is handed pieces.
fn handed(desk: &Desk<'_>, group: &TaughtGroup<'_>) -> Option<Line> {
    let own = &group.desk;
    let is_piece = |row: &super::list::Row| own.is_packed(row) && !own.cuts(row.part);
    let pieces: u64 = own.rows.iter().filter(|row| is_piece(row)).map(|row| row.count).sum();
    let bags = measure::count(u64::from(group.makers), What::Many, "makers");
    let places =
        vec![("group", Line::text(group.name)), ("n", bags), ("pieces", measure::count(pieces, What::InBag, ""))];
    (pieces > 0).then(|| desk.say("class-handed", places))
}

/// How many of each tool there are to be.
fn tools(desk: &Desk<'_>, class: &Class, groups: &[TaughtGroup<'_>]) -> Table {
    let mut all: Vec<(&'static str, u64)> = Vec::new();
    for group in groups {
        let machine = (!group.desk.cut_by(By::Machine).is_empty()).then_some("tool-machine");
        for tool in need::tools(&group.desk).into_iter().chain(machine) {
            let many =
                if SHARED.contains(&tool) { group.makers.div_ceil(class.shared_by.max(1)) } else { group.makers };
            match all.iter_mut().find(|(known, _)| *known == tool) {
                Some((_, all)) => *all += u64::from(many),
                None => all.push((tool, u64::from(many))),
            }
        }
    }
    let row = |(tool, many): (&str, u64)| vec![desk.tell(tool), measure::count(many, What::Many, tool)];
    Table {
        caption: desk.tell("class-tools"),
        head: ["class-head-tool", "class-head-many"].map(|key| desk.tell(key)).to_vec(),
        rows: all.into_iter().map(row).collect(),
    }
}

/// The page of a group: the sheets that one maker has, what is cut of them by which tool, and in which order; the list, the scores.
#[must_use]
pub fn makers(job: &GuideJob<'_>, name: &str, makers: u32) -> Guide {
    let mut desk = Desk::new(job, Audience::Kit);
    if brief::is_in_one_system(&desk) {
        desk.measure = desk.measure.alone();
    }
    let mut list = brief::section(&desk);
    if !desk.rows.iter().any(|row| desk.cuts(row.part)) {
        list.heading = desk.tell("class-pieces");
    }
    let sections = vec![yours(&desk, name, makers), list, assembly::short(&desk), cautions::short(&desk)];
    desk.guide(sections)
}

fn yours(desk: &Desk<'_>, name: &str, makers: u32) -> Section {
    let places = || vec![("group", Line::text(name)), ("n", measure::count(u64::from(makers), What::Many, "makers"))];
    let you = if desk.stocks.is_empty() { "class-you-pieces" } else { "class-you" };
    let mut blocks = vec![Block::Words(desk.say(you, places()))];
    if let Some(short) = need::short(desk) {
        blocks.extend(short.blocks);
    }
    let mut order: Vec<Line> = Vec::new();
    for (by, key) in [(By::Trimmer, "class-cut-trimmer"), (By::Machine, "class-cut-machine")] {
        let sheets = desk.stocks.iter().flat_map(|laid| &laid.sheets).filter(|sheet| sheet.by() == by);
        let names: Vec<Line> = sheets.map(|sheet| times(desk, sheet)).collect();
        if !names.is_empty() {
            order.push(desk.say(key, vec![("sheets", desk.words.list(names))]));
        }
    }
    if order.is_empty() {
        order.push(desk.tell("class-cut-done"));
    }
    order.extend(shaping::section(desk).map(|section| section.heading));
    let scoring = folding::scoring(desk).map(|_| desk.tell("class-score"));
    order.extend(scoring);
    order.extend(folding::section(desk).map(|section| section.heading));
    blocks.push(Block::List(order));
    Section { id: "yours", heading: desk.say("class-yours", places()), blocks }
}

/// `2 × card-01`
fn times(desk: &Desk<'_>, sheet: &Sheet) -> Line {
    let name = Line::text(sheet.name.as_str());
    match sheet.times {
        1 => name,
        times => desk.say(
            "part-times",
            vec![("n", measure::count(u64::from(times), What::Sheets, &sheet.name)), ("part", name)],
        ),
    }
}
