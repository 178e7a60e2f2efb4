// SPDX-License-Identifier: MIT
//! Steps: over the whole width with the picture at the left, or two or three side by side, each below its picture, where that is
//! lower.

use super::placed::{PlacedContent, TaggedAs, TypesetBlock, TypesetContent};
use super::setter::{CautionNodes, GAP, Setter, column};
use super::table::{TableNodes, has_room, within};
use super::tree::{StructureRole, StructureTree};
use crate::guide::{Figure, Line, Step};
use crate::length::tolerance::SAME;

/// A step to be set, with the heading and the picture after it that are its own.
pub(super) struct Cell<'a> {
    pub(super) heading: Option<&'a Line>,
    pub(super) step: &'a Step,
    pub(super) after: Option<&'a Figure>,
    pub(super) number: usize,
}

/// A step as it is set in a width: its heading, its picture, its words.
#[derive(Default)]
struct TypesetStep<'a> {
    heading: TypesetBlock<'a>,
    picture: TypesetBlock<'a>,
    words: TypesetBlock<'a>,
    /// What stands below both, over the whole width.
    table: TypesetBlock<'a>,
}

/// Room for pictures beside words, mm, and their largest height.
const BESIDE: f64 = 64.0;
const HIGHEST: f64 = 64.0;
/// The largest height of pictures that stand two in a row, and three: our choice.
const HIGHEST_OF: [f64; COLUMNS.len()] = [60.0, 42.0];
/// The largest height of a picture over a table: our choice.
const BESIDE_TABLE: f64 = 38.0;
/// What a step of a heading and a line takes besides its picture, so that two rows of large pictures go on a page.
const LEAST_WORDS: f64 = 21.0;
/// Side of the box to tick.
const TICK: f64 = 4.2;
/// Below a heading, below a picture.
const UNDER_HEADING: f64 = 1.6;
const UNDER_PICTURE: f64 = 2.4;
/// Pictures whose heights differ by less than this stand in one row, mm.
const ALIKE: f64 = 15.0;

/// Steps that follow one another, each as it is set alone, two in a row, and three: which it is follows from where pages end.
pub(super) struct StepRun<'a> {
    alone: Vec<TypesetBlock<'a>>,
    narrow: [Vec<TypesetStep<'a>>; COLUMNS.len()],
    /// From one step of a row of two, or of three, to the next.
    apart: [f64; COLUMNS.len()],
}

/// Steps as they may be set.
pub(super) fn steps<'a>(setter: &mut Setter<'a>, cells: &[Cell<'a>], section: usize) -> StepRun<'a> {
    let (wide, high) = setter.look.room();
    let (mut list, mut alone) = (None, Vec::new());
    let mut narrow = COLUMNS.map(|_| Vec::new());
    for cell in cells {
        let nodes = Nodes::of(&mut setter.tree, cell, section, &mut list);
        alone.push(over(set(setter, cell, &nodes, wide, (BESIDE, HIGHEST))));
        for ((all, columns), highest) in narrow.iter_mut().zip(COLUMNS).zip(HIGHEST_OF) {
            let own = column(wide, columns);
            all.push(set(setter, cell, &nodes, own, (own, highest.min(high / 2.0 - LEAST_WORDS))));
        }
    }
    StepRun { alone, narrow, apart: COLUMNS.map(|columns| column(wide, columns) + GAP) }
}

impl<'a> StepRun<'a> {
    /// The steps in rows, from a height on a page of a height on: so that they end on the first page that they can, and as high as
    /// they can there. Between rows lies a gap.
    pub(super) fn rows(&self, from: f64, high: f64, gap: f64) -> Vec<usize> {
        let lone: Vec<f64> = self.alone.iter().map(|block| block.height).collect();
        let heights =
            |at: usize| -> Vec<f64> { self.narrow[at].windows(COLUMNS[at]).map(|row| words_at(row).1).collect() };
        arranged(&lone, &[heights(0), heights(1)], [from, high, gap])
    }

    /// How high the first row is where it holds so many.
    pub(super) fn height(&self, columns: Option<usize>) -> f64 {
        let several = COLUMNS.iter().position(|one| Some(*one) == columns);
        match several.and_then(|index| self.narrow[index].get(..COLUMNS[index])) {
            Some(row) => words_at(row).1,
            None => self.alone.first().map_or(0.0, |block| block.height),
        }
    }

    /// The rows themselves, each a block that stays together.
    pub(super) fn set(mut self, rows: &[usize]) -> Vec<TypesetBlock<'a>> {
        let (mut placed, mut at) = (Vec::new(), 0);
        for &columns in rows {
            let row = at..at + columns;
            at = row.end;
            placed.push(match COLUMNS.iter().position(|one| *one == columns) {
                Some(index) => {
                    let row = self.narrow[index].get_mut(row).unwrap_or_default();
                    side_by_side(row.iter_mut().map(std::mem::take).collect(), self.apart[index])
                }
                None => self.alone.get_mut(row.start).map(std::mem::take).unwrap_or_default(),
            });
        }
        placed
    }
}

/// How many steps a row of several holds.
const COLUMNS: [usize; 2] = [2, 3];

/// Where the steps up to one of them end: the page, how low on it; how many the last row holds.
#[derive(Clone, Copy)]
struct Ends {
    page: u32,
    low: f64,
    columns: usize,
}

/// How many steps each row holds: so that all end on the first page that they can, as high as they can. A row of several is as
/// high as a page at most; what is alone may go on.
fn arranged(alone: &[f64], several: &[Vec<f64>; 2], [from, high, gap]: [f64; 3]) -> Vec<usize> {
    let mut ends = vec![Ends { page: 0, low: from, columns: 0 }];
    for index in 0..alone.len() {
        let mut best: Option<Ends> = None;
        // Where it comes to the same, full rows go first.
        let lone = std::iter::once((1, alone));
        for (columns, heights) in lone.chain(COLUMNS.into_iter().zip(several.iter().map(Vec::as_slice))) {
            let Some(first) = (index + 1).checked_sub(columns) else { continue };
            let Some(height) = heights.get(first).filter(|height| columns == 1 || **height <= high) else { continue };
            let end = ends[first].below(*height, high, gap, columns);
            if best.is_none_or(|best| (end.page, end.low + SAME) < (best.page, best.low)) {
                best = Some(end);
            }
        }
        ends.extend(best);
    }
    let (mut rows, mut index) = (Vec::new(), alone.len());
    while let Some(columns) = ends.get(index).map(|ends| ends.columns).filter(|columns| *columns > 0) {
        rows.push(columns);
        index -= columns;
    }
    rows.reverse();
    rows
}

impl Ends {
    /// A row below.
    fn below(self, height: f64, high: f64, gap: f64, columns: usize) -> Self {
        let low = if self.low > 0.0 { self.low + gap } else { 0.0 } + height;
        if low <= high + SAME {
            return Self { page: self.page, low, columns };
        }
        // What is higher than a page fills it and goes on.
        let (mut page, mut low) = (self.page + 1, height);
        while low > high + SAME {
            (page, low) = (page + 1, low - high);
        }
        Self { page, low, columns }
    }
}

/// What of the tree a step's things are.
struct Nodes {
    heading: Option<usize>,
    figure: Option<usize>,
    label: usize,
    head: usize,
    lines: Vec<usize>,
    warn: Option<CautionNodes>,
    table: Option<TableNodes>,
}

impl Nodes {
    fn of(tree: &mut StructureTree, cell: &Cell<'_>, section: usize, list: &mut Option<usize>) -> Self {
        let step = cell.step;
        let heading = cell.heading.map(|line| tree.add(Some(section), StructureRole::Heading(3, line.plain())));
        // Headings stand between lists.
        if heading.is_some() {
            *list = None;
        }
        let list = *list.get_or_insert_with(|| tree.add(Some(section), StructureRole::List { numbered: true }));
        let item = tree.add(Some(list), StructureRole::Item);
        let (label, body) = (tree.add(Some(item), StructureRole::Label), tree.add(Some(item), StructureRole::Body));
        let shown = |tree: &mut StructureTree, figure: &Figure| {
            tree.add(Some(body), StructureRole::Figure(figure.shows.plain()))
        };
        let figure = step.figure.as_ref().map(|figure| shown(tree, figure));
        let head = tree.add(Some(body), StructureRole::Words);
        let lines = step.lines.iter().map(|_| tree.add(Some(body), StructureRole::Words)).collect();
        let warn = (!step.warn.is_empty()).then(|| CautionNodes::of(tree, step.warn.len(), body));
        let table = step.table.as_ref().map(|table| TableNodes::of(tree, table, body));
        let figure = figure.or_else(|| cell.after.map(|figure| shown(tree, figure)));
        Self { heading, figure, label, head, lines, warn, table }
    }
}

/// A step's heading, picture and words, in widths and a height for the picture.
fn set<'a>(setter: &Setter<'a>, cell: &Cell<'a>, nodes: &Nodes, wide: f64, room: (f64, f64)) -> TypesetStep<'a> {
    let heading = cell.heading.zip(nodes.heading);
    let heading = heading.map(|(line, node)| setter.words(line, setter.look.heading(3), wide, node));
    // A table is what its step is about: the picture leaves the page to it.
    let high = if cell.step.table.is_some() { room.1.min(BESIDE_TABLE) } else { room.1 };
    let room = (room.0, high);
    let figure = cell.step.figure.as_ref().or(cell.after).zip(nodes.figure);
    let picture = figure.map(|(figure, node)| Setter::picture(figure, room, node)).unwrap_or_default();
    let beside = if picture.placed.is_empty() || room.0 >= wide { 0.0 } else { room.0 + GAP };
    let (mut words, mut table) = (words(setter, cell, nodes, wide - beside), TypesetBlock::default());
    // Beside a picture a table would be narrow.
    if let Some(rows) = cell.step.table.as_ref().zip(nodes.table.as_ref()) {
        if room.0 < wide {
            table = within(setter, rows.0, rows.1, wide);
        } else {
            let indent = indent(setter, cell);
            if !has_room(setter, rows.0, wide - indent) {
                // No row takes it.
                table.height = f64::INFINITY;
            }
            words.below(within(setter, rows.0, rows.1, wide - indent), indent, setter.look.mm(0.9));
        }
    }
    TypesetStep { heading: heading.unwrap_or_default(), picture, words, table }
}

/// How far from the left a step's words stand, for its box and its number. Two figures are usual; so that heads begin below
/// each other.
fn indent(setter: &Setter<'_>, cell: &Cell<'_>) -> f64 {
    let (look, size) = (&setter.look, setter.look.head().size);
    let wide = |figures: &str| setter.faces.plain.width(figures, size);
    look.mm(TICK) + look.mm(3.4) + wide("00").max(wide(&cell.number.to_string()))
}

/// What a step says, with its box and its number.
fn words<'a>(setter: &Setter<'a>, cell: &Cell<'a>, nodes: &Nodes, wide: f64) -> TypesetBlock<'a> {
    let look = &setter.look;
    let (tick, head) = (look.mm(TICK), look.head());
    let number = Line::text(cell.number.to_string());
    let (at, indent) = (tick + look.mm(1.6), indent(setter, cell));
    let mut block = TypesetBlock::default();
    let y = (head.leading - tick) / 2.0;
    let what = TypesetContent::Frame { line: look.mm(0.35) };
    block.placed.push(PlacedContent { what, of: TaggedAs::Artifact, x: 0.0, y: y.max(0.0), width: tick, height: tick });
    block.put(setter.words(&number, look.number(), wide - at, nodes.label), at, 0.0);
    block.put(setter.words(&cell.step.head, head, wide - indent, nodes.head), indent, 0.0);
    for (line, node) in cell.step.lines.iter().zip(&nodes.lines) {
        block.below(setter.words(line, look.body(), wide - indent, *node), indent, look.mm(0.9));
    }
    if let Some(nodes) = &nodes.warn {
        block.below(setter.caution(&cell.step.warn, wide - indent, nodes), indent, look.mm(1.8));
    }
    block
}

/// The picture at the left, the words at the right.
fn over(set: TypesetStep<'_>) -> TypesetBlock<'_> {
    let (mut block, mut below) = (set.heading, TypesetBlock::default());
    let beside = if set.picture.placed.is_empty() { 0.0 } else { BESIDE + GAP };
    below.put(set.picture, 0.0, 0.0);
    below.put(set.words, beside, 0.0);
    block.below(below, 0.0, UNDER_HEADING);
    if !set.table.placed.is_empty() {
        block.below(set.table, 0.0, UNDER_PICTURE);
    }
    block
}

/// Where the words of a row stand, and how high the row is. Words begin at one height unless the pictures above them differ
/// much; then each stands below its own.
fn words_at(row: &[TypesetStep<'_>]) -> (Vec<f64>, f64) {
    let highest = |of: &dyn Fn(&TypesetStep<'_>) -> f64| row.iter().map(of).fold(0.0, f64::max);
    let heading = highest(&|set| set.heading.height);
    let heading = if heading > 0.0 { heading + UNDER_HEADING } else { 0.0 };
    let picture = highest(&|set| set.picture.height);
    let alike = row.iter().all(|set| set.picture.height > picture - ALIKE);
    let below = |set: &TypesetStep<'_>| match set.picture.height {
        own if own <= 0.0 => heading,
        own => heading + UNDER_PICTURE + if alike { picture } else { own },
    };
    let words: Vec<f64> = row.iter().map(below).collect();
    let ends = row.iter().zip(&words).map(|(set, y)| y + set.words.height).fold(0.0, f64::max);
    (words, ends + highest(&|set| set.table.height))
}

/// Some side by side, headings at one height, each picture above its words.
fn side_by_side(row: Vec<TypesetStep<'_>>, apart: f64) -> TypesetBlock<'_> {
    let (words, _) = words_at(&row);
    let (mut block, mut x) = (TypesetBlock::default(), 0.0);
    for (set, y) in row.into_iter().zip(words) {
        block.put(set.heading, x, 0.0);
        let above = y - UNDER_PICTURE - set.picture.height;
        block.put(set.picture, x, above);
        block.put(set.words, x, y);
        x += apart;
    }
    block
}
