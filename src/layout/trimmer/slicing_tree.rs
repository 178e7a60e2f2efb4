// SPDX-License-Identifier: MIT
//! The slicing tree of a sheet: rows and columns, which is what edge-to-edge cuts can take apart.
//!
//! In: boxes, and where in the tree they go. Out: the boxes' places on the sheet. Never: decides where a box goes.
//!
//! A row's members stand side by side, a column's one above the other; everything is pushed left and down. Nothing says
//! where empty space is: it is the slack by which a member may grow before the sheet overflows. So a box may be added
//! beside or above any member, not only where a cut has left something over (compare the insertions of Fleszar 2013).

use crate::layout::model::packing::PlacedBox;
use crate::layout::model::rect::Rect;

use super::separate::apart;
use crate::layout::model::cut_tree::CutDirection;

/// What a node is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Form {
    /// Members side by side; upright cuts part them.
    Row,
    /// Members one above the other; level cuts part them.
    Column,
    /// `across` times `up` equal boxes.
    Block(SimpleBlock),
}

/// Equal boxes without a gap.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) struct SimpleBlock {
    pub(crate) kind: usize,
    pub(crate) width: i64,
    pub(crate) height: i64,
    pub(crate) across: i64,
    pub(crate) up: i64,
}

impl Form {
    pub(super) fn other(self) -> Self {
        if self == Self::Row { Self::Column } else { Self::Row }
    }

    pub(super) fn is_block(self) -> bool {
        matches!(self, Self::Block(_))
    }
}

/// A block, or a row or column with its members right after it.
#[derive(Clone, Copy, Debug)]
pub(super) struct SlicingNode {
    pub(super) form: Form,
    /// This node and all below it.
    pub(super) span: usize,
    pub(super) width: i64,
    pub(super) height: i64,
    /// How much wider and taller it may grow.
    pub(super) wider: i64,
    pub(super) taller: i64,
}

/// The sheet.
#[derive(Clone, Debug, Default)]
pub(crate) struct SlicingTree {
    pub(super) nodes: Vec<SlicingNode>,
    pub(super) width: i64,
    pub(super) height: i64,
}

impl SlicingTree {
    pub(crate) fn empty(width: i64, height: i64) -> Self {
        Self { nodes: Vec::new(), width, height }
    }

    /// Starts over, and keeps the memory.
    pub(crate) fn reset(&mut self, width: i64, height: i64) {
        self.nodes.clear();
        (self.width, self.height) = (width, height);
    }

    /// How many nodes there are.
    pub(crate) fn len(&self) -> usize {
        self.nodes.len()
    }

    /// How many nodes hang on this one, itself included.
    pub(crate) fn span(&self, node: usize) -> usize {
        self.nodes[node].span
    }

    /// The block that this node is, if it is one.
    pub(crate) fn block(&self, node: usize) -> Option<SimpleBlock> {
        if let Form::Block(block) = self.nodes[node].form { Some(block) } else { None }
    }

    /// Works out all sizes and slacks again.
    pub(crate) fn measure(&mut self) {
        for number in (0..self.nodes.len()).rev() {
            self.size(number);
        }
        if let Some(root) = self.nodes.first_mut() {
            root.wider = self.width - root.width;
            root.taller = self.height - root.height;
        }
        for number in 0..self.nodes.len() {
            let parent = self.nodes[number];
            if parent.form.is_block() {
                continue;
            }
            let mut at = number + 1;
            while at < number + parent.span {
                let member = &mut self.nodes[at];
                (member.wider, member.taller) = (parent.wider, parent.taller);
                if parent.form == Form::Row {
                    member.taller += parent.height - member.height;
                } else {
                    member.wider += parent.width - member.width;
                }
                at += member.span;
            }
        }
    }

    fn size(&mut self, number: usize) {
        let SlicingNode { form, span, .. } = self.nodes[number];
        let (mut width, mut height) = (0, 0);
        if let Form::Block(block) = form {
            (width, height) = (block.width * block.across, block.height * block.up);
        }
        let mut at = number + 1;
        while at < number + span {
            let member = &self.nodes[at];
            if form == Form::Row {
                (width, height) = (width + member.width, height.max(member.height));
            } else {
                (width, height) = (width.max(member.width), height + member.height);
            }
            at += member.span;
        }
        (self.nodes[number].width, self.nodes[number].height) = (width, height);
    }

    /// Takes over another tree without the blocks that are not to be `kept`; members low or narrow first.
    pub(crate) fn keep(&mut self, other: &Self, kept: &dyn Fn(usize) -> bool) {
        self.reset(other.width, other.height);
        if !other.nodes.is_empty() {
            self.copy(other, 0, kept);
        }
        self.measure();
    }

    /// Copies one node and what hangs on it; false if nothing of it is kept.
    fn copy(&mut self, other: &Self, number: usize, kept: &dyn Fn(usize) -> bool) -> bool {
        let from = other.nodes[number];
        if from.form.is_block() {
            if kept(number) {
                self.nodes.push(from);
            }
            return kept(number);
        }
        let head = self.nodes.len();
        self.nodes.push(from);
        let mut members = 0;
        let mut at = number + 1;
        while at < number + from.span {
            let start = self.nodes.len();
            if self.copy(other, at, kept) {
                if self.nodes[start].form == from.form {
                    // A row in a row is one row.
                    self.nodes.remove(start);
                    members += 1;
                } else {
                    self.sort_in(head, start);
                }
                members += 1;
            }
            at += other.nodes[at].span;
        }
        if members < 2 {
            self.nodes.remove(head);
        } else {
            self.nodes[head].span = self.nodes.len() - head;
            self.size(head);
        }
        members > 0
    }

    /// Moves the last member of an unfinished row or column to where its size belongs.
    fn sort_in(&mut self, head: usize, start: usize) {
        let row = self.nodes[head].form == Form::Row;
        let cross = |node: &SlicingNode| if row { node.height } else { node.width };
        let last = cross(&self.nodes[start]);
        let mut at = head + 1;
        while at < start && cross(&self.nodes[at]) <= last {
            at += self.nodes[at].span;
        }
        let length = self.nodes.len() - start;
        self.nodes[at..].rotate_right(length);
    }

    /// Where the boxes lie.
    pub(crate) fn placed(&self) -> Vec<PlacedBox> {
        let mut placed = Vec::new();
        if !self.nodes.is_empty() {
            self.put(0, 0, 0, &mut placed);
        }
        placed
    }

    fn put(&self, number: usize, x: i64, y: i64, placed: &mut Vec<PlacedBox>) {
        let node = &self.nodes[number];
        if let Form::Block(SimpleBlock { kind, width, height, across, up }) = node.form {
            for row in 0..up {
                placed.extend((0..across).map(|column| PlacedBox {
                    kind,
                    x: x + column * width,
                    y: y + row * height,
                    width,
                    height,
                }));
            }
            return;
        }
        let (mut x, mut y) = (x, y);
        let mut at = number + 1;
        while at < number + node.span {
            self.put(at, x, y, placed);
            let member = &self.nodes[at];
            if node.form == Form::Row {
                x += member.width;
            } else {
                y += member.height;
            }
            at += member.span;
        }
    }

    /// The tree of boxes that edge-to-edge cuts can part; boxes that they cannot are left out and returned.
    pub(crate) fn of(placed: &[PlacedBox], width: i64, height: i64) -> (Self, Vec<usize>) {
        let mut tree = Self::empty(width, height);
        let mut lost = Vec::new();
        let all: Vec<(usize, Rect)> = placed.iter().enumerate().map(|(number, put)| (number, put.rect())).collect();
        tree.grow(placed, &all, &mut lost);
        let mut tidy = Self::empty(width, height);
        tidy.keep(&tree, &|_| true);
        (tidy, lost)
    }

    fn grow(&mut self, placed: &[PlacedBox], members: &[(usize, Rect)], lost: &mut Vec<usize>) {
        if let [(number, _)] = *members {
            let PlacedBox { kind, width, height, .. } = placed[number];
            self.nodes.push(node(Form::Block(SimpleBlock { kind, width, height, across: 1, up: 1 }), 1));
            self.size(self.nodes.len() - 1);
            return;
        }
        for (way, form) in [(CutDirection::Upright, Form::Row), (CutDirection::Level, Form::Column)] {
            let groups = apart(members, way);
            if groups.len() > 1 {
                let head = self.nodes.len();
                self.nodes.push(node(form, 1));
                for group in groups {
                    self.grow(placed, &group, lost);
                }
                self.nodes[head].span = self.nodes.len() - head;
                return;
            }
        }
        // A free layout; trimmer layouts never come here with anything.
        lost.extend(members.iter().map(|&(number, _)| placed[number].kind));
    }
}

pub(super) fn node(form: Form, span: usize) -> SlicingNode {
    SlicingNode { form, span, width: 0, height: 0, wider: 0, taller: 0 }
}
