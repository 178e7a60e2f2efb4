// SPDX-License-Identifier: MIT
//! What to mind, where it matters: blades, trimmers, machines, adhesives, photographs (check values M1 to M8).

use super::bits::{Block, Section};
use super::desk::Desk;
use super::line::Line;
use crate::stock::By;

/// Before the first cut.
pub(super) fn cutting(desk: &Desk<'_>) -> Block {
    let mut keys = vec!["caution-rules", "caution-blade", "caution-blade-cap"];
    // Where all sheets are cut on a trimmer, no machine is told of.
    if !desk.plans.is_empty() {
        keys.push("caution-trimmer");
    }
    if desk.plans.is_empty() || !desk.cut_by(By::Machine).is_empty() {
        keys.extend(["caution-machine", "caution-laser", "caution-laser-light", "caution-laser-vinyl"]);
    }
    of(desk, &keys)
}

/// Before the first glue.
pub(super) fn gluing(desk: &Desk<'_>) -> Block {
    of(desk, &["caution-glue", "caution-glue-label", "caution-glue-photo"])
}

/// Before photographs go in.
pub(super) fn photographs(desk: &Desk<'_>) -> Block {
    of(desk, &["caution-photo", "caution-photo-paper"])
}

/// At the end, once more what comes first.
pub(super) fn last(desk: &Desk<'_>) -> Section {
    let blocks = vec![of(desk, &["caution-first", "caution-keep"])];
    Section { id: "mind", heading: desk.tell("mind-heading"), blocks }
}

/// All in a few lines, for whoever has made one before: blade, trimmer, laser, glue.
pub(super) fn short(desk: &Desk<'_>) -> Section {
    let cuts = desk.rows.iter().any(|row| desk.cuts(row.part));
    let all = cuts.then(|| cutting(desk)).into_iter().chain([gluing(desk)]).flat_map(|block| match block {
        Block::Caution(lines) => lines,
        _ => Vec::new(),
    });
    let first = desk.tell("caution-rules");
    let lines: Vec<Line> =
        all.filter(|line| *line != first).chain([desk.tell("caution-first"), desk.tell("caution-keep")]).collect();
    Section { id: "mind", heading: desk.tell("mind-heading"), blocks: vec![Block::Caution(lines)] }
}

fn of(desk: &Desk<'_>, keys: &[&str]) -> Block {
    Block::Caution(keys.iter().map(|key| desk.tell(key)).collect())
}
