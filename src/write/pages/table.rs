// SPDX-License-Identifier: MIT
//! Tables: columns as wide as what stands in them, rows that stay whole, heads that come again on the next page.

use super::flow::Piece;
use super::lines::{on_one, widest};
use super::placed::{Block, Of, Placed, What};
use super::setter::Setter;
use super::tree::Role;
use super::words::Style;
use crate::guide::{Line, Table};

/// Between columns, above and below what stands in a row, mm.
const BETWEEN: f64 = 3.0;
const AIR: f64 = 0.9;
/// Lines under the head and under a row.
const UNDER: [f64; 2] = [0.5, 0.15];

/// A table as pieces: its caption, its head, its rows. The head is one of the heads that come again.
pub(super) fn table<'a>(
    setter: &mut Setter<'a>,
    table: &'a Table,
    section: usize,
    heads: &mut Vec<Block<'a>>,
) -> Vec<Piece<'a>> {
    let look = setter.look;
    let node = setter.tree.add(Some(section), Role::Table);
    let mut pieces = Vec::new();
    let columns = columns(setter, table);
    if !table.caption.is_empty() {
        let caption = setter.tree.add(Some(node), Role::Caption);
        let words = setter.words(&table.caption, look.strong(), look.room().0, caption);
        pieces.push(Piece::new(words, look.mm(3.0)).kept());
    }
    let head = setter.tree.add(Some(node), Role::Head);
    let row = setter.tree.add(Some(head), Role::Row);
    let nodes: Vec<usize> = table.head.iter().map(|_| setter.tree.add(Some(row), Role::ColumnHead)).collect();
    let block = one_row(setter, &table.head, &nodes, &columns, look.column(), UNDER[0]);
    let under = heads.len();
    heads.push(block.clone());
    pieces.push(Piece::new(block, look.mm(if pieces.is_empty() { 3.0 } else { 0.4 })).kept());
    let rows = setter.tree.add(Some(node), Role::Rows);
    let last = table.rows.len();
    for (number, cells) in (1..).zip(&table.rows) {
        let row = setter.tree.add(Some(rows), Role::Row);
        let role = |column: usize| if column == 0 { Role::RowHead } else { Role::Cell };
        let nodes: Vec<usize> =
            (0..cells.len().min(columns.len())).map(|column| setter.tree.add(Some(row), role(column))).collect();
        let block = one_row(setter, cells, &nodes, &columns, look.cell(), UNDER[1]);
        // No row stands alone below the head, nor at the top of the next page.
        let keep = last > 2 && (number == 1 || number + 1 == last);
        pieces.push(Piece { block, before: 0.0, keep, under: Some(under) });
    }
    pieces
}

fn one_row<'a>(
    setter: &Setter<'a>,
    cells: &[Line],
    nodes: &[usize],
    columns: &[f64],
    style: Style,
    line: f64,
) -> Block<'a> {
    let air = setter.look.mm(AIR);
    let (mut row, mut x) = (Block { height: air, ..Block::default() }, 0.0);
    for ((cell, node), wide) in cells.iter().zip(nodes).zip(columns) {
        let mut words = setter.words(cell, style, *wide, *node);
        if words.placed.is_empty() {
            // An empty cell is a cell all the same, so that what stands beside it keeps its column.
            let what = What::Words { text: " ".into(), size: style.size, bold: false, soft: false, width: 0.0 };
            let place = Placed { what, of: Of::Node(*node), x: 0.0, y: 0.0, width: 0.0, height: style.leading };
            words.placed.push(place);
            words.height = style.leading;
        }
        row.put(words, x, air);
        x += wide + BETWEEN;
    }
    let wide = (x - BETWEEN).max(0.0);
    row.bar([0.0, row.height + air, wide, line], line < UNDER[0]);
    row
}

/// How wide columns are. Where all stands on one line, that and a share of what is left; else what the longest words take, and of
/// the rest as much as each column lacks of standing on one line.
fn columns(setter: &Setter<'_>, table: &Table) -> Vec<f64> {
    let count = table.head.len();
    let (body, head) = (setter.look.cell(), setter.look.column());
    let most = |column: usize, measure: &dyn Fn(&Line, Style) -> f64| {
        let cells = table.rows.iter().filter_map(|row| row.get(column)).map(|cell| measure(cell, body));
        cells.chain(table.head.get(column).map(|cell| measure(cell, head))).fold(0.0, f64::max)
    };
    let wanted: Vec<f64> = (0..count).map(|column| most(column, &|line, style| on_one(setter.faces, line, style))).collect();
    let least: Vec<f64> = (0..count).map(|column| most(column, &|line, style| widest(setter.faces, line, style))).collect();
    #[allow(clippy::cast_precision_loss, reason = "a table has a few columns")]
    let room = setter.look.room().0 - BETWEEN * count.saturating_sub(1) as f64;
    shares(&wanted, &least, room)
}

fn shares(wanted: &[f64], least: &[f64], room: f64) -> Vec<f64> {
    let (all, needed) = (wanted.iter().sum::<f64>(), least.iter().sum::<f64>());
    let grown = |from: &[f64], by: &dyn Fn(usize) -> f64| {
        from.iter().enumerate().map(|(column, wide)| wide + by(column)).collect::<Vec<f64>>()
    };
    if all <= room {
        let spare = (room - all) / all.max(1.0);
        grown(wanted, &|column| wanted[column] * spare)
    } else if needed <= room {
        let share = (room - needed) / (all - needed).max(1e-9);
        grown(least, &|column| (wanted[column] - least[column]) * share)
    } else {
        // Words are parted: half of the room is shared alike, half by what they lack.
        #[allow(clippy::cast_precision_loss, reason = "a table has a few columns")]
        let alike = room / 2.0 / least.len() as f64;
        least.iter().map(|wide| alike + wide / needed * room / 2.0).collect()
    }
}
