// SPDX-License-Identifier: MIT
//! A section as blocks of the flow: its heading and all its blocks in order.

use super::flow::Flow;
use super::look::GuideForm;
use super::placed::{FlowBlock, TypesetBlock};
use super::setter::{CautionNodes, FEW, GAP, ItemNodes, Setter, column, fitting, in_columns};
use super::step::{Cell, steps};
use super::table::table;
use super::tree::StructureRole;
use crate::guide::{Block, Figure, Line, Section, Step};
use crate::length::tolerance::SAME;
use crate::picture::Mark;

/// Sections one after the other.
pub(super) struct Sections<'a> {
    pub(super) setter: Setter<'a>,
    pub(super) flow: Vec<Flow<'a>>,
    /// Heads of tables, for the pages that their rows go on.
    pub(super) heads: Vec<TypesetBlock<'a>>,
    /// How many steps there were.
    pub(super) steps: usize,
}

/// Between things, mm.
const BEFORE_SECTION: f64 = 7.0;
const BEFORE_HEADING: f64 = 4.6;
const BEFORE_FIGURE: f64 = 3.0;
const BEFORE_STEP: f64 = 5.0;
const BEFORE_CAUTION: f64 = 2.6;
const BEFORE_WORDS: f64 = 1.6;
const BEFORE_ITEM: f64 = 0.7;
/// The largest share of a page's height that a picture by itself, or a list in columns, takes.
const SHARE: f64 = 0.45;
/// How much smaller than drawn pictures are at least.
const SMALLEST: f64 = 0.55;

impl<'a> Sections<'a> {
    /// A heading of the second level with a line above it, and all below it.
    pub(super) fn section(&mut self, section: &'a Section) {
        let node = self.open(&section.heading);
        let mut blocks = section.blocks.as_slice();
        while let Some((first, rest)) = blocks.split_first() {
            blocks = match first {
                Block::Figure(_) => self.figures(blocks, node),
                Block::Steps(_) => self.steps(blocks, node),
                // Steps under headings stand beside one another, the first of each with its heading.
                Block::Heading(_) if headed(blocks).is_some() => self.steps(blocks, node),
                _ => {
                    self.block(first, section.id, node);
                    rest
                }
            };
        }
    }

    pub(super) fn push(&mut self, block: FlowBlock<'a>) {
        self.flow.push(Flow::Block(block));
    }

    /// Begins a section.
    pub(super) fn open(&mut self, heading: &Line) -> usize {
        let look = self.setter.look;
        let node = self.setter.tree.add(None, StructureRole::Section);
        let wide = look.room().0;
        let mut block = TypesetBlock::default();
        block.bar([0.0, 0.0, wide, look.mm(0.5)], false);
        let words = self.setter.heading(heading, 2, wide, Some(node));
        block.put(words, 0.0, look.mm(2.0));
        self.push(FlowBlock::new(block, look.mm(BEFORE_SECTION)).kept());
        node
    }

    fn block(&mut self, block: &'a Block, section: &str, node: usize) {
        let look = self.setter.look;
        let wide = look.room().0;
        match block {
            Block::Words(line) => self.words(line, node),
            Block::Heading(line) => {
                let words = self.setter.heading(line, 3, wide, Some(node));
                self.push(FlowBlock::new(words, look.mm(BEFORE_HEADING)).kept());
            }
            Block::List(list) => self.list(list, section == "order" && look.form == GuideForm::Card, node),
            Block::Table(one) => {
                let rows = table(&mut self.setter, one, node, &mut self.heads);
                self.flow.extend(rows.into_iter().map(Flow::Block));
            }
            Block::Caution(list) => {
                let nodes = CautionNodes::of(&mut self.setter.tree, list.len(), node);
                let block = self.setter.caution(list, wide, &nodes);
                self.push(FlowBlock::new(block, look.mm(BEFORE_CAUTION)));
            }
            Block::Figure(_) | Block::Steps(_) => {}
        }
    }

    /// A paragraph; what follows a heading stays with what comes next.
    pub(super) fn words(&mut self, line: &Line, node: usize) {
        let look = self.setter.look;
        let words = self.setter.paragraph(line, look.body(), look.room().0, node);
        let keep = matches!(self.flow.last(), Some(Flow::Block(one)) if one.keep);
        self.push(FlowBlock { keep, ..FlowBlock::new(words, look.mm(BEFORE_WORDS)) });
    }

    fn list(&mut self, list: &[Line], numbered: bool, section: usize) {
        let look = self.setter.look;
        let (wide, high) = look.room();
        let node = self.setter.tree.add(Some(section), StructureRole::List { numbered });
        let nodes: Vec<ItemNodes> = list.iter().map(|_| ItemNodes::of(&mut self.setter.tree, node)).collect();
        let label = |index: usize| if numbered { format!("{}.", index + 1) } else { "–".into() };
        let set = |setter: &Setter<'a>, wide: f64| -> Vec<TypesetBlock<'a>> {
            let all = list.iter().zip(&nodes).enumerate();
            all.map(|(index, (line, nodes))| setter.item(&label(index), line, wide, *nodes)).collect()
        };
        let most = if look.form == GuideForm::Card { 3 } else { 2 };
        let columns = (2..=most).rev().filter(|_| list.len() >= FEW).find_map(|columns| {
            let items = set(&self.setter, column(wide, columns));
            let one_line = items.iter().all(|item| item.height <= look.body().leading * 1.01);
            let block = in_columns(items, columns, column(wide, columns) + GAP, look.mm(BEFORE_ITEM));
            (one_line && block.height <= high * SHARE).then_some(block)
        });
        if let Some(block) = columns {
            self.push(FlowBlock::new(block, look.mm(BEFORE_WORDS)));
            return;
        }
        let last = list.len();
        for (number, item) in (1..).zip(set(&self.setter, wide)) {
            let before = look.mm(if number == 1 { BEFORE_WORDS } else { BEFORE_ITEM });
            // None stands alone at a page's end or beginning.
            let keep = last > 1 && (number == 1 || number + 1 == last);
            self.push(FlowBlock { keep, ..FlowBlock::new(item, before) });
        }
    }

    /// Pictures that follow one another, as many in a row as there is room for. Those without words may be smaller to share one.
    fn figures<'b>(&mut self, blocks: &'b [Block], node: usize) -> &'b [Block]
    where
        'b: 'a,
    {
        let (wide, high) = self.setter.look.room();
        let figures: Vec<&'a Figure> = blocks.iter().map_while(figure_of).collect();
        let all: f64 = figures.iter().map(|figure| figure.picture.width).sum();
        let gaps: f64 = figures.iter().skip(1).map(|_| GAP).sum();
        let smaller = ((wide - gaps) / all).clamp(SMALLEST, 1.0);
        let share = if figures.iter().any(|figure| has_words(figure)) { 1.0 } else { smaller };
        let (mut row, mut x) = (TypesetBlock::default(), 0.0);
        for figure in &figures {
            let own = (figure.picture.width * share, figure.picture.height * share);
            let (block, width) = self.figure(figure, (own.0.min(wide), own.1.min(high * SHARE)), node);
            if x > 0.0 && x + width > wide + SAME {
                self.push(FlowBlock::new(std::mem::take(&mut row), BEFORE_FIGURE));
                x = 0.0;
            }
            row.put(block, x, 0.0);
            x += width + GAP;
        }
        self.push(FlowBlock::new(row, BEFORE_FIGURE));
        blocks.get(figures.len()..).unwrap_or_default()
    }

    fn figure(&mut self, figure: &'a Figure, room: (f64, f64), section: usize) -> (TypesetBlock<'a>, f64) {
        let node = self.setter.tree.add(Some(section), StructureRole::Figure(figure.shows.plain()));
        let width = figure.picture.width * fitting((figure.picture.width, figure.picture.height), room);
        (Setter::picture(figure, room, node), width)
    }

    /// Steps that follow one another: those of one block, and those under the headings after it.
    fn steps<'b>(&mut self, mut blocks: &'b [Block], section: usize) -> &'b [Block]
    where
        'b: 'a,
    {
        let mut cells: Vec<Cell<'a>> = Vec::new();
        if let Some((Block::Steps(list), rest)) = blocks.split_first() {
            cells.extend(list.iter().map(|step| self.cell(None, step)));
            blocks = rest;
        }
        while let Some((heading, steps)) = headed(blocks) {
            let rest = blocks.get(2..).unwrap_or_default();
            let after = if let [step] = steps { picture_of(step, rest) } else { None };
            for (number, step) in steps.iter().enumerate() {
                let heading = (number == 0).then_some(heading);
                cells.push(Cell { after, ..self.cell(heading, step) });
            }
            blocks = rest.get(usize::from(after.is_some())..).unwrap_or_default();
        }
        let before = self.setter.look.mm(BEFORE_STEP);
        let run = steps(&mut self.setter, &cells, section);
        self.flow.push(Flow::Steps(run, before));
        blocks
    }

    fn cell(&mut self, heading: Option<&'a Line>, step: &'a Step) -> Cell<'a> {
        self.steps += 1;
        Cell { heading, step, after: None, number: self.steps }
    }
}

fn figure_of(block: &Block) -> Option<&Figure> {
    if let Block::Figure(figure) = block { Some(figure) } else { None }
}

fn has_words(figure: &Figure) -> bool {
    figure.picture.marks.iter().any(|mark| matches!(mark, Mark::Words { .. }))
}

/// A heading and the steps under it.
fn headed(blocks: &[Block]) -> Option<(&Line, &[Step])> {
    match blocks {
        [Block::Heading(heading), Block::Steps(steps), ..] if !steps.is_empty() => Some((heading, steps)),
        _ => None,
    }
}

/// The picture that comes after a step that has none of its own.
fn picture_of<'a>(step: &Step, after: &'a [Block]) -> Option<&'a Figure> {
    match after {
        [Block::Figure(_), Block::Figure(_), ..] => None,
        [Block::Figure(figure), ..] => step.figure.is_none().then_some(figure),
        _ => None,
    }
}
