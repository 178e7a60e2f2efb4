// SPDX-License-Identifier: MIT
//! How pieces are joined: which sides of them lie on each other.

use crate::contour::{Point, Vec2};

/// A face of a panel.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Face {
    /// The one that shows.
    Front,
    /// The other.
    Back,
}

impl Face {
    /// Its name in names of faces.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Front => "front",
            Self::Back => "back",
        }
    }
}

/// One side of a bond: a face of a panel, and the point and direction in the flat piece (before any half
/// turn) that meet the point and direction of the other side.
#[derive(Clone, Copy, Debug)]
pub struct Side {
    /// Number of the piece.
    pub piece: usize,
    /// Number of its panel.
    pub panel: usize,
    /// Which face.
    pub face: Face,
    /// A point of the panel's plane, mm.
    pub at: Point,
    /// A direction in it.
    pub along: Vec2,
}

/// How two pieces are joined.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Hold {
    /// With tape or glue.
    Stuck,
    /// One slides into the other.
    Slid,
}

/// Two sides that lie on each other in the finished album. The first bond that reaches a piece places it,
/// every further bond is a check.
#[derive(Clone, Copy, Debug)]
pub struct Bond {
    /// How they hold.
    pub hold: Hold,
    /// The seam, tab, base or panel.
    pub one: Side,
    /// What it lies on.
    pub other: Side,
}
