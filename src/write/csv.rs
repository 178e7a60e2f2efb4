// SPDX-License-Identifier: MIT
//! The cutting list as CSV (RFC 4180): one row a distinct part.

use crate::album::Order;
use crate::batch::{Batch, Merged};
use crate::length::Length;
use crate::length::tolerance::SAME;
use crate::net::Score;
use crate::parts::{Kit, Part};
use crate::stock::Pattern;
use std::fmt::Write;

/// The cutting list, stock by stock. Sizes are in the album's units without a suffix; scores are measured
/// from the left and from the top edge, as the piece lies with its front up. The list of a batch ends its rows with how many
/// each kit takes; before that, where pages of a kit are chosen, for which of their kinds the part is, and how many a page takes.
#[must_use]
pub fn cutting_list(order: Order<'_>, kit: &Kit, batch: Option<(&Batch, &Merged)>) -> String {
    let mut out = String::from("name,stock,width,height,count,scores,grain");
    let chosen = batch.filter(|(_, merged)| merged.chosen.iter().any(Option::is_some));
    out += if chosen.is_some() { ",pages" } else { "" };
    out += if batch.is_some() { ",kits\r\n" } else { "\r\n" };
    for (number, stock) in order.stocks.iter().enumerate().filter(|(_, stock)| !stock.ready) {
        for (at, part) in kit.parts.iter().enumerate().filter(|(_, part)| part.stock == number && part.count > 0) {
            let plain = |mm: f64| Length::from_mm(mm).plain(order.units);
            let grain = match (stock.pattern, part.along_grain) {
                (Pattern::OneWay, _) if part.sideways => "pattern's top at the left",
                (Pattern::OneWay, _) => "pattern upright",
                (_, true) if stock.grain.is_some() => "upright",
                _ => "any",
            };
            let mut cells = vec![
                part.id.clone(),
                stock.name.clone(),
                plain(part.flat.width),
                plain(part.flat.height),
                order.pieces(part.count).to_string(),
                scores(part, plain),
                grain.to_owned(),
            ];
            cells.extend(chosen.map(|(batch, merged)| pages(batch, merged, at)));
            cells.extend(batch.map(|(batch, merged)| kits(batch, merged, at)));
            let cells: Vec<String> = cells.into_iter().map(cell).collect();
            let _ = write!(out, "{}\r\n", cells.join(","));
        }
    }
    out
}

/// `grey 4; ochre 4`
fn kits(batch: &Batch, merged: &Merged, part: usize) -> String {
    let rows: Vec<String> = merged.kits_with(batch, part).map(|(kit, count)| format!("{kit} {count}")).collect();
    rows.join("; ")
}

/// `your-choice pocket 1; your-choice wallet 2`
fn pages(batch: &Batch, merged: &Merged, part: usize) -> String {
    let rows: Vec<String> =
        merged.kinds_with(batch, part).map(|(kit, kind, count)| format!("{kit} {kind} {count}")).collect();
    rows.join("; ")
}

/// `left 12 both; left 18 valley; top 12 mountain`
fn scores(part: &Part, plain: impl Fn(f64) -> String) -> String {
    let mut marks: Vec<(bool, f64, &str)> =
        part.flat.scores.iter().map(|score| mark(score, part.flat.height)).collect();
    marks.sort_by(|one, two| one.0.cmp(&two.0).then(one.1.total_cmp(&two.1)));
    // A score that a hole splits is one score to the hand.
    marks.dedup_by(|one, two| one.0 == two.0 && (one.1 - two.1).abs() < SAME);
    let words: Vec<String> = marks
        .into_iter()
        .map(|(top, at, fold)| format!("{} {} {fold}", if top { "top" } else { "left" }, plain(at)))
        .collect();
    words.join("; ")
}

fn mark(score: &Score, height: f64) -> (bool, f64, &'static str) {
    let level = (score.from.y - score.to.y).abs() < (score.from.x - score.to.x).abs();
    (level, if level { height - score.from.y } else { score.from.x }, score.sense.word())
}

/// Quotes a cell where it must be. A cell that a spreadsheet would take for a formula cannot come up: names
/// are ids of ours, sizes begin with a digit.
pub(super) fn cell(text: String) -> String {
    if text.contains(['"', ',', '\r', '\n']) { format!("\"{}\"", text.replace('"', "\"\"")) } else { text }
}
