// SPDX-License-Identifier: MIT
//! The tree as a PDF's tags, and its sections as bookmarks.

use super::tree::{StructureRole, StructureTree};
use krilla::destination::XyzDestination;
use krilla::geom::{Point, Rect};
use krilla::outline::{Outline, OutlineNode};
use krilla::tagging::{BBox, Identifier, ListNumbering, TableHeaderScope, Tag, TagGroup, TagKind, TagTree};
use std::num::NonZeroU16;

/// What was drawn of each thing in the tree.
pub(super) struct Tags<'a> {
    tree: &'a StructureTree,
    drawn: Vec<Vec<Identifier>>,
    /// On which page each begins, and where.
    at: Vec<Option<(usize, Rect)>>,
}

impl<'a> Tags<'a> {
    pub(super) fn new(tree: &'a StructureTree) -> Self {
        let count = tree.0.len();
        Self { tree, drawn: (0..count).map(|_| Vec::new()).collect(), at: vec![None; count] }
    }

    /// Something of the tree was drawn on a page.
    pub(super) fn drawn(&mut self, node: usize, identifier: Identifier, page: usize, place: Option<Rect>) {
        if let Some(drawn) = self.drawn.get_mut(node) {
            drawn.push(identifier);
        }
        if let (Some(at @ None), Some(place)) = (self.at.get_mut(node), place) {
            *at = Some((page, place));
        }
    }

    /// A bookmark a section.
    pub(super) fn outline(&self) -> Outline {
        let mut outline = Outline::new();
        for (node, at) in self.tree.0.iter().zip(&self.at) {
            if let (StructureRole::Heading(2, title), Some((page, place))) = (&node.role, at) {
                let top = XyzDestination::new(*page, Point::from_xy(0.0, (place.top() - 12.0).max(0.0)));
                outline.push_child(OutlineNode::new(title.clone(), top));
            }
        }
        outline
    }

    /// The tags: every part goes into its whole, the last one first.
    pub(super) fn finish(self) -> TagTree {
        let Self { tree, drawn, at } = self;
        let mut groups: Vec<TagGroup> = Vec::new();
        for ((node, drawn), at) in tree.0.iter().zip(drawn).zip(at) {
            groups.push(TagGroup::with_children(kind(&node.role, at), drawn.into_iter().map(Into::into).collect()));
        }
        let mut whole = TagTree::new();
        let mut children: Vec<Vec<TagGroup>> = (0..groups.len()).map(|_| Vec::new()).collect();
        let mut roots = Vec::new();
        for (index, mut group) in groups.into_iter().enumerate().rev() {
            let parts = std::mem::take(&mut children[index]);
            group.children.extend(parts.into_iter().rev().map(Into::into));
            match tree.0[index].of.and_then(|of| children.get_mut(of)) {
                Some(whole) => whole.push(group),
                None => roots.push(group),
            }
        }
        for root in roots.into_iter().rev() {
            whole.push(root);
        }
        whole
    }
}

fn kind(role: &StructureRole, at: Option<(usize, Rect)>) -> TagKind {
    match role {
        StructureRole::Section => Tag::Section.into(),
        StructureRole::Heading(level, title) => {
            Tag::Hn(NonZeroU16::new(*level).unwrap_or(NonZeroU16::MIN), Some(title.clone())).into()
        }
        StructureRole::Words => Tag::P.into(),
        StructureRole::List { numbered } => {
            Tag::L(if *numbered { ListNumbering::Decimal } else { ListNumbering::None }).into()
        }
        StructureRole::Item => Tag::LI.into(),
        StructureRole::Label => Tag::Lbl.into(),
        StructureRole::Body => Tag::LBody.into(),
        StructureRole::Caution => Tag::Div.into(),
        StructureRole::Table => Tag::Table.into(),
        StructureRole::Caption => Tag::Caption.into(),
        StructureRole::Head => Tag::THead.into(),
        StructureRole::Rows => Tag::TBody.into(),
        StructureRole::Row => Tag::TR.into(),
        StructureRole::ColumnHead => Tag::TH(TableHeaderScope::Column).into(),
        StructureRole::RowHead => Tag::TH(TableHeaderScope::Row).into(),
        StructureRole::Cell => Tag::TD.into(),
        StructureRole::Figure(shows) => {
            Tag::Figure(Some(shows.clone())).with_bbox(at.map(|(page, place)| BBox::new(page, place))).into()
        }
    }
}
