// SPDX-License-Identifier: MIT
//! What everything is set with: fonts, sizes, the tree that grows with it; words, lists, cautions, pictures.

use super::super::pdf::Faces;
use super::lines::set;
use super::look::Look;
use super::placed::{Block, Of, Placed, What};
use super::tree::{Role, Tree};
use super::words::Style;
use crate::guide::{Figure, Guide, Line};

/// Sets things, and says in the tree what they are.
pub(super) struct Setter<'a> {
    pub(super) guide: &'a Guide,
    pub(super) faces: &'static Faces,
    pub(super) look: Look,
    pub(super) tree: Tree,
}

/// What of the tree a thing of a list is.
#[derive(Clone, Copy, Debug)]
pub(super) struct ItemNodes {
    label: usize,
    words: usize,
}

impl ItemNodes {
    pub(super) fn of(tree: &mut Tree, list: usize) -> Self {
        let item = tree.add(Some(list), Role::Item);
        let (label, body) = (tree.add(Some(item), Role::Label), tree.add(Some(item), Role::Body));
        Self { label, words: tree.add(Some(body), Role::Words) }
    }
}

/// What of the tree a caution is.
#[derive(Clone, Debug)]
pub(super) struct CautionNodes {
    head: usize,
    items: Vec<ItemNodes>,
}

impl CautionNodes {
    pub(super) fn of(tree: &mut Tree, many: usize, of: usize) -> Self {
        let node = tree.add(Some(of), Role::Caution);
        let head = tree.add(Some(node), Role::Words);
        let list = tree.add(Some(node), Role::List { numbered: false });
        Self { head, items: (0..many).map(|_| ItemNodes::of(tree, list)).collect() }
    }
}

/// Between a caution's bar and its words, mm.
const INDENT: f64 = 3.6;

impl<'a> Setter<'a> {
    /// Words of something in the tree.
    pub(super) fn words(&self, line: &Line, style: Style, wide: f64, node: usize) -> Block<'a> {
        set(self.faces, line, style, wide, Of::Node(node))
    }

    /// A heading; what it is called in the tree is what it says.
    pub(super) fn heading(&mut self, line: &Line, level: u16, wide: f64, of: Option<usize>) -> Block<'a> {
        let node = self.tree.add(of, Role::Heading(level, line.plain()));
        self.words(line, self.look.heading(level), wide, node)
    }

    /// A paragraph.
    pub(super) fn paragraph(&mut self, line: &Line, style: Style, wide: f64, of: usize) -> Block<'a> {
        let node = self.tree.add(Some(of), Role::Words);
        self.words(line, style, wide, node)
    }

    /// A thing of a list, with its number or a dash before it.
    pub(super) fn item(&self, label: &str, line: &Line, wide: f64, nodes: ItemNodes) -> Block<'a> {
        let style = self.look.body();
        let indent = self.faces.plain.width(label, style.size) + 0.5 * style.size;
        let mut block = self.words(&Line::text(label), style, wide, nodes.label);
        block.put(self.words(line, style, wide - indent, nodes.words), indent, 0.0);
        block
    }

    /// What to mind, with a bar beside all of it.
    pub(super) fn caution(&self, list: &[Line], wide: f64, nodes: &CautionNodes) -> Block<'a> {
        let (indent, wide) = (self.look.mm(INDENT), wide - self.look.mm(INDENT));
        let mind = Line::text(self.guide.word("page-caution"));
        let mut words = self.words(&mind, self.look.strong(), wide, nodes.head);
        for (line, nodes) in list.iter().zip(&nodes.items) {
            words.below(self.item("–", line, wide, *nodes), 0.0, self.look.mm(0.4));
        }
        let mut block = Block::default();
        block.bar([0.0, 0.0, self.look.mm(1.1), words.height], false);
        block.put(words, indent, 0.0);
        block
    }

    /// A picture in a room; never larger than it is drawn.
    pub(super) fn picture(figure: &'a Figure, (wide, high): (f64, f64), node: usize) -> Block<'a> {
        let picture = &figure.picture;
        let scale = fitting((picture.width, picture.height), (wide, high));
        let (width, height) = (picture.width * scale, picture.height * scale);
        let what = What::Picture { picture, scale };
        Block { placed: vec![Placed { what, of: Of::Node(node), x: 0.0, y: 0.0, width, height }], height }
    }
}

/// How much smaller something must be to go into a room.
pub(super) fn fitting((width, height): (f64, f64), (wide, high): (f64, f64)) -> f64 {
    (wide / width.max(1.0)).min(high / height.max(1.0)).min(1.0)
}
