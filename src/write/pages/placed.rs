// SPDX-License-Identifier: MIT
//! What stands on a page, and where: millimetres, y down.

use super::tree::StructureTree;
use crate::picture::Picture;

/// What something on a page is tagged as.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TaggedAs {
    /// Something in the tree, by its number.
    Node(usize),
    /// Nothing: it adorns, or it says again what is said before.
    Artifact,
    /// The page's foot.
    Footer,
}

/// What stands on a page.
#[derive(Clone, Debug)]
pub enum TypesetContent<'a> {
    /// A run of words on a line; placed by its base line.
    Words {
        /// What they say.
        text: String,
        /// The letters' em, mm.
        size: f64,
        /// Whether they are bold.
        bold: bool,
        /// Whether they are grey.
        soft: bool,
        /// How wide they stand, mm, without a space at the end.
        width: f64,
    },
    /// An empty box: round a letter, or to be ticked.
    Frame {
        /// Its line's width, mm.
        line: f64,
    },
    /// A filled box, as thin as a line or thicker.
    Bar {
        /// Whether it is grey.
        soft: bool,
    },
    /// A picture.
    Picture {
        /// The picture.
        picture: &'a Picture,
        /// How much smaller it is.
        scale: f64,
    },
}

/// Something in its place.
#[derive(Clone, Debug)]
pub struct PlacedContent<'a> {
    /// What it is.
    pub what: TypesetContent<'a>,
    /// What it belongs to.
    pub of: TaggedAs,
    /// Its left edge.
    pub x: f64,
    /// Its top edge.
    pub y: f64,
    /// Its width.
    pub width: f64,
    /// Its height; of words that of their line.
    pub height: f64,
}

/// A page.
#[derive(Clone, Debug)]
pub struct TypesetPage<'a> {
    /// What stands on it.
    pub placed: Vec<PlacedContent<'a>>,
}

/// A guide on paper.
#[derive(Clone, Debug)]
pub struct TypesetGuide<'a> {
    /// The pages.
    pub pages: Vec<TypesetPage<'a>>,
    /// What the things on them are, in the order of reading.
    pub tree: StructureTree,
    /// How wide and high the paper is, mm.
    pub paper: (f64, f64),
    /// How wide the white at its edges is, mm.
    pub margin: f64,
}

/// Things that stand together, from an upper left of their own.
#[derive(Clone, Debug, Default)]
pub(super) struct TypesetBlock<'a> {
    pub(super) placed: Vec<PlacedContent<'a>>,
    pub(super) height: f64,
}

impl TypesetBlock<'_> {
    /// Puts others in, so far from the upper left; it reaches as low as these do.
    pub(super) fn put(&mut self, other: Self, x: f64, y: f64) {
        self.height = self.height.max(y + other.height);
        self.placed.extend(other.placed.into_iter().map(|one| PlacedContent { x: one.x + x, y: one.y + y, ..one }));
    }

    /// Puts others below what is there, so far from its left.
    pub(super) fn below(&mut self, other: Self, x: f64, gap: f64) {
        let y = if self.placed.is_empty() { 0.0 } else { self.height + gap };
        self.put(other, x, y);
    }

    /// The same as an adornment: what is said a second time.
    pub(super) fn again(&self) -> Self {
        let placed = self.placed.iter().map(|one| PlacedContent { of: TaggedAs::Artifact, ..one.clone() }).collect();
        Self { placed, height: self.height }
    }

    pub(super) fn bar(&mut self, [x, y, width, height]: [f64; 4], soft: bool) {
        self.placed.push(PlacedContent {
            what: TypesetContent::Bar { soft },
            of: TaggedAs::Artifact,
            x,
            y,
            width,
            height,
        });
        self.height = self.height.max(y + height);
    }
}

/// A block of the flow: what stays on one page.
#[derive(Clone, Debug)]
pub(super) struct FlowBlock<'a> {
    pub(super) block: TypesetBlock<'a>,
    /// Room above it, unless it begins a page, mm.
    pub(super) before: f64,
    /// Whether what follows must stand on the same page.
    pub(super) keep: bool,
    /// Which of the heads stands above it where it begins a page.
    pub(super) under: Option<usize>,
}

impl<'a> FlowBlock<'a> {
    pub(super) fn new(block: TypesetBlock<'a>, before: f64) -> Self {
        Self { block, before, keep: false, under: None }
    }

    pub(super) fn kept(self) -> Self {
        Self { keep: true, ..self }
    }
}
