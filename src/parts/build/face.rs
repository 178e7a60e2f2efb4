// SPDX-License-Identifier: MIT
//! Faces of pages and covers that panels of patterned paper can be stuck on.

use crate::contour::{Contour, Corner, Rect};
use crate::parts::bond::Side;
use crate::parts::kit::Owner;
use crate::parts::name::PieceName;

/// A face that shows on the finished album.
#[derive(Clone, Debug)]
pub(in crate::parts) struct Plain {
    /// `page 1 front`.
    pub name: PieceName,
    /// What it is a face of.
    pub owner: Owner,
    /// With what else it is looked at.
    pub looks: Looks,
    pub width: f64,
    pub height: f64,
    /// Windows and slots that must stay open, from its lower left corner as the reader sees it.
    pub holes: Vec<Contour>,
    /// Whether nobody misses a panel where it is too narrow for one: a spine.
    pub slim: bool,
    /// Where it lies as its side of the page is looked at, for patterns that run on; none where it shows beside nothing.
    pub lies: Option<FacePlace>,
    /// Its corners, lower left, lower right, upper right, upper left, as the reader sees it.
    pub corners: [Corner; 4],
    /// The face, its lower left corner as the reader of the album sees it, and the way to the right.
    pub side: Side,
}

/// Where a face lies on its side of the page, mm from the lower left of that side as the reader sees it.
#[derive(Clone, Copy, Debug)]
pub(in crate::parts) struct FacePlace {
    /// Its lower left corner.
    pub at: (f64, f64),
    /// What of it shows where another piece lies over it.
    pub shows: Option<Rect>,
}

/// With what else a face is looked at.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(in crate::parts) enum Looks {
    /// Between this page and the next one; 0 is the inside of the front cover and the front of page 1.
    Opening(usize),
    /// The outside of the cover.
    Outside,
}
