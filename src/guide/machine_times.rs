// SPDX-License-Identifier: MIT
//! How long the machine is busy with each sheet, where it is said how fast it is.

use super::bits::{Block, Table};
use super::desk::Desk;
use super::line::{Line, What};
use super::measure;
use crate::cost::MachineTime;
use crate::stock::Stock;
use crate::toolpath::cut_sheets;

/// The sheets of these stocks with their times, and all of them together; nothing where no speed is known.
pub(super) fn times(desk: &Desk<'_>, stocks: &[&Stock]) -> Option<Block> {
    let album = desk.job.album;
    let cut = |stock: usize| {
        let name = album.stocks.get(stock).map(|stock| &stock.name);
        stocks.iter().any(|stock| Some(&stock.name) == name)
    };
    let files = cut_sheets(&album.stocks, desk.job.paths, desk.job.cutter);
    let sheets: Vec<_> = files.iter().filter(|sheet| cut(sheet.stock)).collect();
    if !sheets.iter().any(|sheet| sheet.seconds.is_some()) {
        return None;
    }
    let unknown = || desk.tell("machine-time-unknown");
    let minutes = |seconds: f64| {
        // As the cost has it.
        #[allow(clippy::cast_precision_loss, reason = "bounded by what lies on sheets")]
        let tenths = MachineTime::tenths(seconds) as f64;
        let shown = desk.measure.notation.write(&format!("{:.1}", tenths / 10.0));
        measure::number(format!("{shown}{}min", measure::THIN), tenths / 10.0, What::Time, "")
    };
    let mut rows: Vec<Vec<Line>> = sheets
        .iter()
        .map(|sheet| {
            let each = sheet.seconds.map_or_else(unknown, minutes);
            let all = sheet.seconds.map_or_else(unknown, |seconds| minutes(seconds * f64::from(sheet.times)));
            let times = measure::count(sheet.times.into(), What::Sheets, "");
            vec![Line::text(sheet.name.as_str()), times, each, all]
        })
        .collect();
    let all: Option<f64> = sheets.iter().map(|sheet| Some(sheet.seconds? * f64::from(sheet.times))).sum();
    if rows.len() > 1 {
        let times = sheets.iter().map(|sheet| u64::from(sheet.times)).sum();
        let total = all.map_or_else(unknown, minutes);
        let times = measure::count(times, What::Sheets, "");
        rows.push(vec![desk.tell("machine-time-total"), times, Line::default(), total]);
    }
    let head = ["machine-time-sheet", "machine-time-times", "machine-time-each", "machine-time-all"];
    Some(Block::Table(Table {
        caption: desk.tell("machine-time-caption"),
        head: head.map(|key| desk.tell(key)).to_vec(),
        rows,
    }))
}
