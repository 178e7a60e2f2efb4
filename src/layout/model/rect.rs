// SPDX-License-Identifier: MIT
//! Rectangles with sides along the sheet's.

use crate::layout::model::problem::Turn;

/// A rectangle with sides along the sheet's, in eighths of a micrometre.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Rect {
    pub(crate) left: i64,
    pub(crate) bottom: i64,
    pub(crate) right: i64,
    pub(crate) top: i64,
}

impl Rect {
    pub(crate) fn new(left: i64, bottom: i64, width: i64, height: i64) -> Self {
        Self { left, bottom, right: left + width, top: bottom + height }
    }

    /// The same farther to the right and up.
    pub(crate) fn moved(&self, x: i64, y: i64) -> Self {
        Self { left: self.left + x, bottom: self.bottom + y, right: self.right + x, top: self.top + y }
    }

    /// A rectangle of a box of this width and height, after a turn of that box.
    pub(crate) fn turned(&self, turn: Turn, (width, height): (i64, i64)) -> Self {
        let Self { left, bottom, right, top } = *self;
        match turn {
            Turn::None => *self,
            Turn::Quarter => Self { left: height - top, bottom: left, right: height - bottom, top: right },
            Turn::Half => Self { left: width - right, bottom: height - top, right: width - left, top: height - bottom },
            Turn::ThreeQuarter => Self { left: bottom, bottom: width - right, right: top, top: width - left },
        }
    }

    pub(crate) fn width(&self) -> i64 {
        self.right - self.left
    }

    pub(crate) fn height(&self) -> i64 {
        self.top - self.bottom
    }

    /// Fits an `i64`: no side is longer than `instance::LONGEST` twice.
    pub(crate) fn area(&self) -> i64 {
        self.width() * self.height()
    }

    pub(crate) fn overlaps(&self, other: &Self) -> bool {
        self.left < other.right && other.left < self.right && self.bottom < other.top && other.bottom < self.top
    }

    pub(crate) fn holds(&self, other: &Self) -> bool {
        self.left <= other.left && self.bottom <= other.bottom && self.right >= other.right && self.top >= other.top
    }
}
