// SPDX-License-Identifier: MIT
//! The cut tree of a sheet: which edge-to-edge (guillotine) cuts take it apart, and what each piece is.

use std::cmp::Reverse;

/// Which way a cut runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum CutDirection {
    /// Up and down the sheet, at an x.
    Upright,
    /// From left to right, at a y.
    Level,
}

/// A rectangle of a sheet, and what becomes of it. Lengths are eighths of a micrometre in the frame of the placements:
/// x from the left and y from the bottom of the usable area.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum CutTree {
    /// A part, with nothing to be trimmed off: the number of its placement on the sheet.
    Part(usize),
    /// What is left over: left, bottom, width and height. Where a part ends closer to an edge than the gap, width or
    /// height is 0.
    Offcut([i64; 4]),
    /// It is cut again.
    Cut(CutNode),
}

/// A rectangle that is cut from edge to edge, once or several times side by side.
///
/// There is one piece more than there are cuts. The first begins where the rectangle does, each other one the gap
/// behind the cut before it (the gap is lost); each ends at its cut, the last where the rectangle does.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct CutNode {
    /// Left edge of the rectangle.
    pub left: i64,
    /// Lower edge of the rectangle.
    pub bottom: i64,
    /// Its width.
    pub width: i64,
    /// Its height.
    pub height: i64,
    /// Which way all these cuts run.
    pub way: CutDirection,
    /// Where they lie, in the sheet's frame (x if upright, y if level), in order.
    pub at: Vec<i64>,
    /// What they part, in the same order.
    pub pieces: Vec<CutTree>,
}

impl CutTree {
    /// How many cuts it takes.
    ///
    /// ```
    /// use hingeleaf::layout::{CutDirection, CutNode, CutTree};
    /// let (way, at) = (CutDirection::Upright, vec![40, 80]);
    /// let pieces = vec![CutTree::Part(0), CutTree::Part(1), CutTree::Offcut([80, 0, 20, 60])];
    /// let piece = CutTree::Cut(CutNode { left: 0, bottom: 0, width: 100, height: 60, way, at, pieces });
    /// assert_eq!(piece.cuts(), 2);
    /// assert_eq!(piece.offcuts(10), [[80, 0, 20, 60]]);
    /// ```
    #[must_use]
    pub fn cuts(&self) -> usize {
        match self {
            Self::Cut(cut) => cut.at.len() + cut.pieces.iter().map(Self::cuts).sum::<usize>(),
            Self::Part(_) | Self::Offcut(_) => 0,
        }
    }

    /// What is left over and at least this wide and high: left, bottom, width and height, the largest first.
    #[must_use]
    pub fn offcuts(&self, at_least: i64) -> Vec<[i64; 4]> {
        let mut found = Vec::new();
        self.collect(at_least.max(1), &mut found);
        found.sort_by_key(|&[left, bottom, width, height]| (Reverse(width * height), bottom, left));
        found
    }

    /// Gives every part the number that stands at its old one.
    pub(crate) fn renumber(&mut self, numbers: &[usize]) {
        match self {
            Self::Part(number) => *number = numbers[*number],
            Self::Cut(cut) => cut.pieces.iter_mut().for_each(|piece| piece.renumber(numbers)),
            Self::Offcut(_) => {}
        }
    }

    fn collect(&self, least: i64, found: &mut Vec<[i64; 4]>) {
        match self {
            Self::Offcut(rect) if rect[2] >= least && rect[3] >= least => found.push(*rect),
            Self::Cut(cut) => cut.pieces.iter().for_each(|piece| piece.collect(least, found)),
            Self::Part(_) | Self::Offcut(_) => {}
        }
    }
}
