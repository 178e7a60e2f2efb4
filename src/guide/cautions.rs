// SPDX-License-Identifier: MIT
//! What to mind, where it matters: blades, lasers, adhesives, photographs (check values M1 to M8).

use super::bits::{Block, Section};
use super::desk::Desk;
use super::line::Line;

/// Before the first cut.
pub(super) fn cutting(desk: &Desk<'_>) -> Block {
    of(desk, &["caution-rules", "caution-blade", "caution-blade-cap", "caution-laser", "caution-laser-vinyl"])
}

/// Before the first glue.
pub(super) fn gluing(desk: &Desk<'_>) -> Block {
    of(desk, &["caution-glue", "caution-glue-label", "caution-glue-photo"])
}

/// Before photographs go in.
pub(super) fn photographs(desk: &Desk<'_>) -> Vec<Line> {
    vec![desk.tell("caution-photo"), desk.tell("caution-photo-paper")]
}

/// At the end, once more what comes first.
pub(super) fn last(desk: &Desk<'_>) -> Section {
    let blocks = vec![of(desk, &["caution-first", "caution-keep"])];
    Section { id: "mind", heading: desk.tell("mind-heading"), blocks }
}

fn of(desk: &Desk<'_>, keys: &[&str]) -> Block {
    Block::Caution(keys.iter().map(|key| desk.tell(key)).collect())
}
