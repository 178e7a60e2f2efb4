// SPDX-License-Identifier: MIT
//! Tables: columns as wide as what stands in them, rows that stay whole, heads that come again on the next page.

use super::lines::{on_one, set, widest};
use super::placed::{FlowBlock, PlacedContent, TaggedAs, TypesetBlock, TypesetContent};
use super::setter::Setter;
use super::tree::{StructureRole, StructureTree};
use super::words::Style;
use crate::guide::{Line, Table};

/// Between columns, above and below what stands in a row, mm.
const BETWEEN: f64 = 3.0;
const AIR: f64 = 0.9;
/// Lines under the head and under a row.
const UNDER: [f64; 2] = [0.5, 0.15];

/// A table as blocks of the flow: its caption, its head, its rows. The head is one of the heads that come again.
pub(super) fn table<'a>(
    setter: &mut Setter<'a>,
    table: &'a Table,
    section: usize,
    heads: &mut Vec<TypesetBlock<'a>>,
) -> Vec<FlowBlock<'a>> {
    let look = setter.look;
    let node = setter.tree.add(Some(section), StructureRole::Table);
    let mut flow = Vec::new();
    let columns = columns(setter, table, look.room().0);
    if !table.caption.is_empty() {
        let caption = setter.tree.add(Some(node), StructureRole::Caption);
        let words = setter.words(&table.caption, look.strong(), look.room().0, caption);
        flow.push(FlowBlock::new(words, look.mm(3.0)).kept());
    }
    let head = setter.tree.add(Some(node), StructureRole::Head);
    let row = setter.tree.add(Some(head), StructureRole::Row);
    let nodes: Vec<usize> = table.head.iter().map(|_| setter.tree.add(Some(row), StructureRole::ColumnHead)).collect();
    let block = one_row(setter, &table.head, &nodes, &columns, look.column(), UNDER[0]);
    let under = heads.len();
    heads.push(block.clone());
    flow.push(FlowBlock::new(block, look.mm(if flow.is_empty() { 3.0 } else { 0.4 })).kept());
    let rows = setter.tree.add(Some(node), StructureRole::Rows);
    let last = table.rows.len();
    for (number, cells) in (1..).zip(&table.rows) {
        let row = setter.tree.add(Some(rows), StructureRole::Row);
        let nodes: Vec<usize> =
            (0..cells.len().min(columns.len())).map(|column| setter.tree.add(Some(row), cell_role(column))).collect();
        let block = one_row(setter, cells, &nodes, &columns, look.cell(), UNDER[1]);
        // No row stands alone below the head, nor at the top of the next page.
        let keep = last > 2 && (number == 1 || number + 1 == last);
        flow.push(FlowBlock { block, before: 0.0, keep, under: Some(under) });
    }
    flow
}

/// What of the tree a table of a step is: its heads, and the cells of its rows.
pub(super) struct TableNodes {
    heads: Vec<usize>,
    rows: Vec<Vec<usize>>,
}

impl TableNodes {
    pub(super) fn of(tree: &mut StructureTree, table: &Table, of: usize) -> Self {
        let node = tree.add(Some(of), StructureRole::Table);
        let head = tree.add(Some(node), StructureRole::Head);
        let row = tree.add(Some(head), StructureRole::Row);
        let heads = table.head.iter().map(|_| tree.add(Some(row), StructureRole::ColumnHead)).collect();
        let rows = tree.add(Some(node), StructureRole::Rows);
        let cells = |tree: &mut StructureTree, cells: &Vec<Line>| {
            let row = tree.add(Some(rows), StructureRole::Row);
            (0..cells.len()).map(|column| tree.add(Some(row), cell_role(column))).collect()
        };
        let rows = table.rows.iter().map(|row| cells(tree, row)).collect();
        Self { heads, rows }
    }
}

fn cell_role(column: usize) -> StructureRole {
    if column == 0 { StructureRole::RowHead } else { StructureRole::Cell }
}

/// Whether a width has room for a table without parting a word.
pub(super) fn has_room(setter: &Setter<'_>, table: &Table, wide: f64) -> bool {
    let style = |row: usize| if row == 0 { setter.look.column() } else { setter.look.cell() };
    let rows = || std::iter::once(&table.head).chain(&table.rows).enumerate();
    let least = |column: usize| {
        let cells = rows().filter_map(|(row, cells)| Some(widest(setter.faces, cells.get(column)?, style(row))));
        cells.fold(0.0, f64::max)
    };
    let count = table.head.len();
    (0..count).map(least).sum::<f64>() + BETWEEN * number(count.saturating_sub(1)) <= wide
}

/// A table of a step, which stays whole.
pub(super) fn within<'a>(setter: &Setter<'a>, table: &Table, nodes: &TableNodes, wide: f64) -> TypesetBlock<'a> {
    let look = setter.look;
    let columns = columns(setter, table, wide);
    let mut block = one_row(setter, &table.head, &nodes.heads, &columns, look.column(), UNDER[0]);
    for (cells, nodes) in table.rows.iter().zip(&nodes.rows) {
        block.below(one_row(setter, cells, nodes, &columns, look.cell(), UNDER[1]), 0.0, 0.0);
    }
    block
}

fn one_row<'a>(
    setter: &Setter<'a>,
    cells: &[Line],
    nodes: &[usize],
    columns: &[f64],
    style: Style,
    line: f64,
) -> TypesetBlock<'a> {
    let air = setter.look.mm(AIR);
    let (mut row, mut x) = (TypesetBlock { height: air, ..TypesetBlock::default() }, 0.0);
    for ((cell, node), wide) in cells.iter().zip(nodes).zip(columns) {
        let mut words = setter.words(cell, style, *wide, *node);
        if words.placed.is_empty() {
            // An empty cell is a cell all the same, so that what stands beside it keeps its column.
            let what =
                TypesetContent::Words { text: " ".into(), size: style.size, bold: false, soft: false, width: 0.0 };
            let place =
                PlacedContent { what, of: TaggedAs::Node(*node), x: 0.0, y: 0.0, width: 0.0, height: style.leading };
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

/// How wide columns are: of the ways to share the room, the one with the fewest lines.
fn columns(setter: &Setter<'_>, table: &Table, wide: f64) -> Vec<f64> {
    let count = table.head.len();
    let (body, head) = (setter.look.cell(), setter.look.column());
    let most = |column: usize, measure: &dyn Fn(&Line, Style) -> f64| {
        let cells = table.rows.iter().filter_map(|row| row.get(column)).map(|cell| measure(cell, body));
        cells.chain(table.head.get(column).map(|cell| measure(cell, head))).fold(0.0, f64::max)
    };
    let wanted: Vec<f64> =
        (0..count).map(|column| most(column, &|line, style| on_one(setter.faces, line, style))).collect();
    let least: Vec<f64> =
        (0..count).map(|column| most(column, &|line, style| widest(setter.faces, line, style))).collect();
    let room = wide - BETWEEN * number(count.saturating_sub(1));
    let high = |columns: &[f64]| -> f64 {
        let cell = |(cell, wide): (&Line, &f64)| set(setter.faces, cell, body, *wide, TaggedAs::Artifact).height;
        table.rows.iter().map(|row| row.iter().zip(columns).map(cell).fold(0.0, f64::max)).sum()
    };
    let ways = ways(&wanted, &least, room);
    // The first of equals.
    ways.into_iter().map(|way| (high(&way), way)).min_by(|one, other| one.0.total_cmp(&other.0)).unwrap_or_default().1
}

/// Ways to share a room among columns of a width on one line, and of a longest word.
fn ways(wanted: &[f64], least: &[f64], room: f64) -> Vec<Vec<f64>> {
    let (all, needed) = (wanted.iter().sum::<f64>(), least.iter().sum::<f64>());
    let pairs = || wanted.iter().zip(least);
    if all <= room {
        // All on one line, and of what is left a share.
        let spare = (room - all) / all.max(1.0);
        return vec![wanted.iter().map(|wide| wide * (1.0 + spare)).collect()];
    }
    if needed > room {
        // Words are parted: half of the room is shared alike, half by what they lack.
        let alike = room / 2.0 / number(least.len());
        return vec![least.iter().map(|wide| alike + wide / needed * room / 2.0).collect()];
    }
    // Each as much more as it lacks; or narrow ones all that they want, and wide ones what is left; or between the two.
    let share = (room - needed) / (all - needed);
    let lacking: Vec<f64> = pairs().map(|(most, least)| least + (most - least) * share).collect();
    let level = level(room, &|level| pairs().map(|(most, least)| level.clamp(*least, most.max(*least))).collect());
    let between = lacking.iter().zip(&level).map(|(one, other)| f64::midpoint(*one, *other)).collect();
    vec![level, between, lacking]
}

/// Columns up to the level at which they fill the room.
fn level(room: f64, wide: &dyn Fn(f64) -> Vec<f64>) -> Vec<f64> {
    let (mut low, mut high) = (0.0, room);
    for _ in 0..40 {
        let middle = f64::midpoint(low, high);
        if wide(middle).iter().sum::<f64>() <= room { low = middle } else { high = middle }
    }
    wide(low)
}

#[allow(clippy::cast_precision_loss, reason = "a table has a few columns")]
fn number(count: usize) -> f64 {
    count as f64
}
