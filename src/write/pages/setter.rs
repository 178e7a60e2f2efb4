// SPDX-License-Identifier: MIT
//! What everything is set with: fonts, sizes, the tree that grows with it; words, lists, cautions, pictures.

use super::super::pdf::FontFaces;
use super::lines::set;
use super::look::{GuideForm, Look};
use super::placed::{PlacedContent, TaggedAs, TypesetBlock, TypesetContent};
use super::tree::{StructureRole, StructureTree};
use super::words::Style;
use crate::guide::{Figure, Guide, Line};

/// Sets things, and says in the tree what they are.
pub(super) struct Setter<'a> {
    pub(super) guide: &'a Guide,
    pub(super) faces: &'static FontFaces,
    pub(super) look: Look,
    pub(super) tree: StructureTree,
}

/// What of the tree a thing of a list is.
#[derive(Clone, Copy, Debug)]
pub(super) struct ItemNodes {
    label: usize,
    words: usize,
}

impl ItemNodes {
    pub(super) fn of(tree: &mut StructureTree, list: usize) -> Self {
        let item = tree.add(Some(list), StructureRole::Item);
        let (label, body) = (tree.add(Some(item), StructureRole::Label), tree.add(Some(item), StructureRole::Body));
        Self { label, words: tree.add(Some(body), StructureRole::Words) }
    }
}

/// What of the tree a caution is.
#[derive(Clone, Debug)]
pub(super) struct CautionNodes {
    head: usize,
    items: Vec<ItemNodes>,
}

impl CautionNodes {
    pub(super) fn of(tree: &mut StructureTree, many: usize, of: usize) -> Self {
        let node = tree.add(Some(of), StructureRole::Caution);
        let head = tree.add(Some(node), StructureRole::Words);
        let list = tree.add(Some(node), StructureRole::List { numbered: false });
        Self { head, items: (0..many).map(|_| ItemNodes::of(tree, list)).collect() }
    }
}

/// Between a caution's bar and its words, mm.
const INDENT: f64 = 3.6;

impl<'a> Setter<'a> {
    /// Words of something in the tree.
    pub(super) fn words(&self, line: &Line, style: Style, wide: f64, node: usize) -> TypesetBlock<'a> {
        set(self.faces, line, style, wide, TaggedAs::Node(node))
    }

    /// A heading; what it is called in the tree is what it says.
    pub(super) fn heading(&mut self, line: &Line, level: u16, wide: f64, of: Option<usize>) -> TypesetBlock<'a> {
        let node = self.tree.add(of, StructureRole::Heading(level, line.plain()));
        self.words(line, self.look.heading(level), wide, node)
    }

    /// A paragraph.
    pub(super) fn paragraph(&mut self, line: &Line, style: Style, wide: f64, of: usize) -> TypesetBlock<'a> {
        let node = self.tree.add(Some(of), StructureRole::Words);
        self.words(line, style, wide, node)
    }

    /// A thing of a list, with its number or a dash before it.
    pub(super) fn item(&self, label: &str, line: &Line, wide: f64, nodes: ItemNodes) -> TypesetBlock<'a> {
        let style = self.look.body();
        let indent = self.faces.plain.width(label, style.size) + 0.5 * style.size;
        let mut block = self.words(&Line::text(label), style, wide, nodes.label);
        block.put(self.words(line, style, wide - indent, nodes.words), indent, 0.0);
        block
    }

    /// What to mind, with a bar beside all of it.
    pub(super) fn caution(&self, list: &[Line], wide: f64, nodes: &CautionNodes) -> TypesetBlock<'a> {
        let (indent, wide) = (self.look.mm(INDENT), wide - self.look.mm(INDENT));
        let mind = Line::text(self.guide.word("page-caution"));
        let mut words = self.words(&mind, self.look.strong(), wide, nodes.head);
        let gap = self.look.mm(0.4);
        // On a card there is room for little.
        let columns = if self.look.form == GuideForm::Card && list.len() > FEW { 2 } else { 1 };
        let own = column(wide, columns);
        let items = list.iter().zip(&nodes.items).map(|(line, nodes)| self.item("–", line, own, *nodes)).collect();
        words.below(in_columns(items, columns, own + GAP, gap), 0.0, gap);
        let mut block = TypesetBlock::default();
        block.bar([0.0, 0.0, self.look.mm(1.1), words.height], false);
        block.put(words, indent, 0.0);
        block
    }

    /// A picture in a room; never larger than it is drawn.
    pub(super) fn picture(figure: &'a Figure, (wide, high): (f64, f64), node: usize) -> TypesetBlock<'a> {
        let picture = &figure.picture;
        let scale = fitting((picture.width, picture.height), (wide, high));
        let (width, height) = (picture.width * scale, picture.height * scale);
        let what = TypesetContent::Picture { picture, scale };
        TypesetBlock {
            placed: vec![PlacedContent { what, of: TaggedAs::Node(node), x: 0.0, y: 0.0, width, height }],
            height,
        }
    }
}

/// A list of fewer things is not set in columns.
pub(super) const FEW: usize = 4;

/// Things in columns, read down each.
pub(super) fn in_columns(items: Vec<TypesetBlock<'_>>, columns: usize, step: f64, gap: f64) -> TypesetBlock<'_> {
    let each = items.len().div_ceil(columns).max(1);
    let (mut block, mut column, mut x) = (TypesetBlock::default(), TypesetBlock::default(), 0.0);
    for (index, item) in items.into_iter().enumerate() {
        if index > 0 && index % each == 0 {
            block.put(std::mem::take(&mut column), x, 0.0);
            x += step;
        }
        column.below(item, 0.0, gap);
    }
    block.put(column, x, 0.0);
    block
}

/// How much smaller something must be to go into a room.
pub(super) fn fitting((width, height): (f64, f64), (wide, high): (f64, f64)) -> f64 {
    (wide / width.max(1.0)).min(high / height.max(1.0)).min(1.0)
}

/// Between columns and between pictures, mm.
pub(super) const GAP: f64 = 6.0;

/// How wide each of some columns is.
#[allow(clippy::cast_precision_loss, reason = "three at most")]
pub(super) fn column(wide: f64, columns: usize) -> f64 {
    (wide - GAP * (columns - 1) as f64) / columns as f64
}
