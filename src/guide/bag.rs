// SPDX-License-Identifier: MIT
//! What comes cut: the pieces of the kit, to be laid out and looked over.

use super::bits::{Block, Section};
use super::cutting;
use super::desk::Desk;
use super::list::Row;

/// Columns of the list; where scores come made, they are no work.
const HEADS: [&str; 5] = ["mark", "name", "there", "size", "back"];

/// Lay out what comes cut; nothing where all comes in sheets.
pub(super) fn section(desk: &Desk<'_>) -> Option<Section> {
    let made = |row: &Row| desk.part(row.part).is_some_and(|part| !desk.job.album.is_ready(part.stock));
    let given = |row: &Row| made(row) && !desk.cuts(row.part);
    if !desk.rows.iter().any(given) {
        return None;
    }
    let unscored = |row: &Row| given(row) && desk.scores(row.part) && folds(desk, row);
    let scored = |row: &Row| given(row) && !desk.scores(row.part) && folds(desk, row);
    let any = |which: &dyn Fn(&Row) -> bool| desk.rows.iter().any(which);
    let key = match (any(&scored), any(&unscored)) {
        (true, false) => "bag-words-scored",
        (true, true) => "bag-words-mixed",
        _ => "bag-words",
    };
    let mut blocks = vec![
        Block::Words(desk.tell(key)),
        Block::Words(desk.tell("bag-front")),
        Block::Words(desk.tell("bag-words-letters")),
    ];
    blocks.extend(cutting::tables(desk, &given, &HEADS));
    blocks.push(Block::Words(desk.tell("bag-missing")));
    Some(Section { id: "bag", heading: desk.tell("bag-heading"), blocks })
}

fn folds(desk: &Desk<'_>, row: &Row) -> bool {
    desk.part(row.part).is_some_and(|part| !part.flat.scores.is_empty())
}
