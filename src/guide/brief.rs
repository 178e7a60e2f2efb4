// SPDX-License-Identifier: MIT
//! The list of a card with many pieces: in sentences, kind by kind, for a row each would not go on one page.

use super::bits::{Block, Section, Table};
use super::cutting;
use super::desk::Desk;
use super::line::{Line, What};
use super::list::{Lies, Row};
use super::measure;
use super::scoring::{self, FenceEdge, ScoreMark};
use super::words::Words;
use crate::net::Sense;

/// A card of more pieces than these lists them in sentences, and of more than those in the maker's units alone: our choice.
const MOST_ROWS: usize = 8;
const MOST_IN_BOTH: usize = 14;

/// Whether a card has so many pieces that they are told in sentences.
pub(super) fn is_long(desk: &Desk<'_>) -> bool {
    desk.rows.len() > MOST_ROWS
}

/// Whether it has so many that the other system is left to the guide.
pub(super) fn is_in_one_system(desk: &Desk<'_>) -> bool {
    desk.rows.len() > MOST_IN_BOTH
}

/// Columns of the sheets that say what they are where there is no head above them.
const SHEETS: [(&str, &str); 4] = [
    ("need-head-weight", "card-sheets-weight"),
    ("need-head-count", "card-sheets-count"),
    ("need-head-buy", "card-sheets-buy"),
    ("need-head-price", "card-sheets-price"),
];

/// The sheets that are cut, each in a line.
pub(super) fn sheets(desk: &Desk<'_>, table: &Table) -> Block {
    let line = |row: &Vec<Line>| {
        let told = |(column, (cell, head)): (usize, (&Line, &Line))| match column {
            // The stock and its sheet need no head.
            0 | 1 => cell.clone(),
            _ => {
                let key = SHEETS.iter().find(|(name, _)| *head == desk.tell(name)).map_or("", |(_, key)| key);
                desk.say(key, vec![("n", cell.clone())])
            }
        };
        let cells = row.iter().zip(&table.head).enumerate().filter(|(_, (cell, _))| !cell.is_empty());
        desk.words.row(cells.map(told).collect())
    };
    Block::List(table.rows.iter().map(line).collect())
}

/// Columns of the list where it is a table: who has made one before knows what to write on the backs.
const SHORT: [&str; 6] = ["mark", "piece", "count", "size", "scores", "lies"];

/// The list alone.
pub(super) fn section(desk: &Desk<'_>) -> Section {
    // What is ready-made is not cut.
    let cut = |row: &Row| desk.part(row.part).is_some_and(|part| !desk.job.album.is_ready(part.stock));
    let mut blocks = if is_long(desk) { pieces(desk) } else { cutting::tables(desk, &cut, &SHORT) };
    blocks.push(Block::List(cutting::notes(desk)));
    Section { id: "cut", heading: desk.tell("cut-heading"), blocks }
}

/// The pieces, a paragraph for each stock.
fn pieces(desk: &Desk<'_>) -> Vec<Block> {
    let paragraph = |(number, stock): (usize, &crate::stock::Stock)| {
        let of_stock = |row: &&Row| desk.part(row.part).is_some_and(|part| part.stock == number);
        let mut kinds: Vec<(&str, Lies, Vec<Line>)> = Vec::new();
        for row in desk.rows.iter().filter(of_stock) {
            let kind = desk.part(row.part).map_or("", |part| part.kind);
            match kinds.iter_mut().find(|(known, lies, _)| (*known, *lies) == (kind, row.lies)) {
                Some((.., pieces)) => pieces.push(piece(desk, row)),
                None => kinds.push((kind, row.lies, vec![piece(desk, row)])),
            }
        }
        let kinds = kinds.into_iter().map(|(kind, lies, pieces)| of_kind(desk, kind, lies, pieces));
        let pieces = kinds.reduce(|all, kind| all.then(&kind)).unwrap_or_default();
        let said = || desk.say("card-stock", vec![("stock", desk.called(stock).into()), ("pieces", pieces.clone())]);
        (!pieces.is_empty()).then(|| Block::Words(said()))
    };
    desk.job.album.stocks.iter().enumerate().filter(|(_, stock)| !stock.ready).filter_map(paragraph).collect()
}

fn of_kind(desk: &Desk<'_>, kind: &str, lies: Lies, pieces: Vec<Line>) -> Line {
    let places = vec![("kind", Line::text(desk.words.term(kind))), ("pieces", Words::joined(pieces))];
    match lies {
        Lies::Any => desk.say("card-kind", places),
        _ => desk.say("card-kind-lies", places.into_iter().chain([("lies", desk.tell(cutting::lies(lies)))]).collect()),
    }
}

/// A piece by its letter and its size, with its scores where it has any.
fn piece(desk: &Desk<'_>, row: &Row) -> Line {
    let Some(part) = desk.part(row.part) else { return Line::default() };
    let size = desk.sides_in(&desk.measure, part, if row.long { "cut-size-long" } else { "cut-size" });
    let mut piece = desk.say("card-piece", vec![("mark", Line::mark(row.mark.clone())), ("size", size)]);
    if row.count > 1 {
        let count = measure::count(row.count, What::Count, &part.id);
        piece = desk.say("part-times", vec![("n", count), ("part", piece)]);
    }
    if part.flat.scores.is_empty() {
        return piece;
    }
    desk.say("card-scored", vec![("piece", piece), ("scores", scores(desk, row.part))])
}

/// The scores of a part from its left, then from its top; those that fold one way together.
fn scores(desk: &Desk<'_>, part: usize) -> Line {
    let marks = scoring::marks(desk.kit(), part);
    let at = |mark: &ScoreMark| {
        let at = vec![("at", desk.length(mark.at, mark.edge.what(false), desk.id(part)))];
        desk.say(
            match (scoring::between_grooves(mark.at), mark.only.is_some()) {
                (true, true) => "card-between-part",
                (true, false) => "card-between",
                (false, true) => "card-at-part",
                (false, false) => "card-at",
            },
            at,
        )
    };
    let of_edge = |edge: FenceEdge| {
        let folds = [Sense::Valley, Sense::Mountain, Sense::Both].into_iter().filter_map(|sense| {
            let here: Vec<Line> =
                marks.iter().filter(|mark| mark.edge == edge && mark.sense == sense).map(at).collect();
            let fold = Line::text(desk.words.text(cutting::sense(sense)));
            (!here.is_empty()).then(|| desk.say("card-folds", vec![("at", desk.words.list(here)), ("fold", fold)]))
        });
        let folds: Vec<Line> = folds.collect();
        let key = if edge == FenceEdge::Left { "scores-left" } else { "scores-top" };
        (!folds.is_empty()).then(|| desk.say(key, vec![("scores", desk.words.row(folds))]))
    };
    let slanted = (!scoring::slanted(desk.kit(), part).is_empty()).then(|| desk.tell("scores-slanted"));
    Words::joined([FenceEdge::Left, FenceEdge::Top].into_iter().filter_map(of_edge).chain(slanted))
}
