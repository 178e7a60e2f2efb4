// SPDX-License-Identifier: MIT
//! What stands on a page, and where: millimetres, y down.

use super::tree::Tree;
use crate::picture::Picture;

/// What something on a page belongs to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Of {
    /// Something in the tree, by its number.
    Node(usize),
    /// Nothing: it adorns, or says again what is said before.
    Nothing,
    /// The page's foot.
    Foot,
}

/// What stands on a page.
#[derive(Clone, Debug)]
pub enum What<'a> {
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
pub struct Placed<'a> {
    /// What it is.
    pub what: What<'a>,
    /// What it belongs to.
    pub of: Of,
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
pub struct Page<'a> {
    /// What stands on it.
    pub placed: Vec<Placed<'a>>,
}

/// A guide on paper.
#[derive(Clone, Debug)]
pub struct Pages<'a> {
    /// The pages.
    pub pages: Vec<Page<'a>>,
    /// What the things on them are, in the order of reading.
    pub tree: Tree,
    /// How wide and high the paper is, mm.
    pub paper: (f64, f64),
    /// How wide the white at its edges is, mm.
    pub margin: f64,
}

/// Things that stand together, from an upper left of their own.
#[derive(Clone, Debug, Default)]
pub(super) struct Block<'a> {
    pub(super) placed: Vec<Placed<'a>>,
    pub(super) height: f64,
}

impl Block<'_> {
    /// Puts others in, so far from the upper left; it reaches as low as these do.
    pub(super) fn put(&mut self, other: Self, x: f64, y: f64) {
        self.height = self.height.max(y + other.height);
        self.placed.extend(other.placed.into_iter().map(|one| Placed { x: one.x + x, y: one.y + y, ..one }));
    }

    /// Puts others below what is there, so far from its left.
    pub(super) fn below(&mut self, other: Self, x: f64, gap: f64) {
        let y = if self.placed.is_empty() { 0.0 } else { self.height + gap };
        self.put(other, x, y);
    }

    /// The same as an adornment: what is said a second time.
    pub(super) fn again(&self) -> Self {
        let placed = self.placed.iter().map(|one| Placed { of: Of::Nothing, ..one.clone() }).collect();
        Self { placed, height: self.height }
    }

    pub(super) fn bar(&mut self, [x, y, width, height]: [f64; 4], soft: bool) {
        self.placed.push(Placed { what: What::Bar { soft }, of: Of::Nothing, x, y, width, height });
        self.height = self.height.max(y + height);
    }
}
