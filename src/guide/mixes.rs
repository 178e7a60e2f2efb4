// SPDX-License-Identifier: MIT
//! What the mixes of kits take whose pages are chosen: for who makes the order, and buys for it.

use super::bits::{Block, Section, Table};
use super::desk::Desk;
use super::job::GuideJob;
use super::line::{Line, What};
use super::measure;
use crate::batch::{Chosen, Mix, MixRow, MixTable, WorstMix};

/// A table a kit; nothing where no kit's pages are chosen.
pub(super) fn section(desk: &Desk<'_>, kits: &[(&str, &GuideJob<'_>, &Chosen)]) -> Option<Section> {
    let mut blocks = vec![Block::Words(desk.tell("mixes-words"))];
    for (name, job, Chosen { packed, table, .. }) in kits {
        blocks.push(Block::Heading(Line::text(*name)));
        blocks.push(Block::List((0..table.kinds.len()).map(|kind| kind_line(desk, table, kind)).collect()));
        blocks.push(Block::Table(mix_table(desk, job, table)));
        if let Some(worst) = table.worst.filter(|_| !table.is_whole()) {
            blocks.push(Block::Words(bound(desk, table, worst)));
        }
        match (packed.proven, table.is_whole()) {
            (true, _) if packed.by_place => blocks.push(Block::Words(desk.tell("mixes-places"))),
            (true, _) => {}
            (false, true) => blocks.push(Block::Caution(vec![desk.tell("mixes-in-order")])),
            (false, false) => blocks.push(Block::Caution(vec![desk.tell("mixes-not-proven")])),
        }
    }
    (!kits.is_empty()).then(|| Section { id: "mixes", heading: desk.tell("mixes-heading"), blocks })
}

fn count(many: u64, what: What) -> Line {
    measure::count(many, what, "mixes")
}

fn kind_number(kind: usize) -> Line {
    count(u64::try_from(kind + 1).unwrap_or(u64::MAX), What::Many)
}

fn kind_line(desk: &Desk<'_>, table: &MixTable, kind: usize) -> Line {
    let about = table.kinds.get(kind).map(|entry| desk.words.term_of("page", entry.kind.name, entry.kind.about));
    let about = Line::text(about.unwrap_or_default());
    desk.say("mixes-kind", vec![("n", kind_number(kind)), ("kind", about)])
}

/// `3 of kind 1, 1 of kind 2`
fn mix_line(desk: &Desk<'_>, mix: &Mix) -> Line {
    let taken = mix.counts.iter().enumerate().filter(|(_, count)| **count > 0);
    let one = |(kind, many): (usize, &u32)| {
        desk.say("mixes-pages", vec![("n", count(u64::from(*many), What::Many)), ("kind", kind_number(kind))])
    };
    desk.words.row(taken.map(one).collect())
}

fn mix_table(desk: &Desk<'_>, job: &GuideJob<'_>, table: &MixTable) -> Table {
    let mut stocks: Vec<usize> =
        table.rows.iter().flat_map(|row| row.sheets.iter().flatten()).map(|sheets| sheets.stock).collect();
    stocks.sort_unstable();
    stocks.dedup();
    let row = |(number, row): (usize, &MixRow)| {
        let of = |stock: &usize| {
            let sheets = row.sheets.iter().flatten().find(|sheets| sheets.stock == *stock);
            sheets.map_or_else(Line::default, |sheets| count(sheets.sheets, What::Sheets))
        };
        let all = row.all().map_or_else(Line::default, |all| count(all, What::Sheets));
        let worst = table.worst.is_some_and(|worst| worst.row == number);
        let mut cells = vec![mix_line(desk, &row.mix)];
        cells.extend(stocks.iter().map(of));
        cells.extend([all, if worst { desk.tell("mixes-most") } else { Line::default() }]);
        cells
    };
    let mut head = vec![desk.tell("mixes-head-mix")];
    head.extend(stocks.iter().map(|stock| Line::text(job.album.stock_name(*stock))));
    head.extend(["mixes-head-all", "mixes-head-note"].map(|key| desk.tell(key)));
    let copies = measure::count(u64::from(desk_copies(job)), What::Kits, "mixes");
    Table {
        caption: desk.say("mixes-caption", vec![("n", copies)]),
        head,
        rows: table.rows.iter().enumerate().map(row).collect(),
    }
}

fn desk_copies(job: &GuideJob<'_>) -> u32 {
    job.album.copies.max(1)
}

fn bound(desk: &Desk<'_>, table: &MixTable, worst: WorstMix) -> Line {
    let rows = count(u64::try_from(table.rows.len()).unwrap_or(u64::MAX), What::Many);
    let places = vec![("n", count(table.mixes, What::Many)), ("tried", rows)];
    match worst.at_most {
        Some(most) => {
            desk.say("mixes-bound", places.into_iter().chain([("most", count(most, What::Sheets))]).collect())
        }
        None => desk.say("mixes-tried", places),
    }
}
