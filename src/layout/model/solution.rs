// SPDX-License-Identifier: MIT
//! The solution: sheets with placements, a lower bound; or why there is none.
//!
//! What a caller is told. Lengths are whole eighths of a micrometre.

use std::fmt;

use super::cut_tree::CutTree;
use super::problem::Turn;

/// One item on a sheet.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Placement {
    /// Number of the item in the problem.
    pub item: usize,
    /// Left edge of the turned item's box, from the left of the usable area, in eighths of a micrometre.
    pub x: i64,
    /// Lower edge of the turned item's box, from the bottom of the usable area, in eighths of a micrometre.
    pub y: i64,
    /// How the item is turned.
    pub turn: Turn,
}

/// A sheet with items on it.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct LaidSheet {
    /// Number of the sheet in the problem.
    pub sheet: usize,
    /// How many sheets are laid just like this.
    pub times: u32,
    /// What lies on each of them, from bottom to top.
    pub placements: Vec<Placement>,
    /// How a trimmer cuts it; only in trimmer layouts.
    pub cuts: Option<CutTree>,
}

/// Where everything goes.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Layout {
    /// The sheets; where one is not full, it is the last.
    pub sheets: Vec<LaidSheet>,
    /// No layout of these items on these sheets does with fewer. 1 where sizes are mixed, 0 where there are no items.
    pub lower_bound: u64,
    /// The bound is met. Never where sizes are mixed.
    pub proven_least: bool,
    /// Where sizes are mixed and something is bought beside the counted sheets: no layout saves more than this part of what it
    /// costs (area where a price is missing). 0 where none is cheaper.
    pub savable: Option<f64>,
    /// The watch stopped the search.
    pub cut_short: bool,
}

/// Why there is no layout.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum NoLayout {
    /// These items fit none of the sheets in any turn allowed.
    TooBig {
        /// Numbers of all such items in the problem.
        items: Vec<usize>,
    },
    /// The counted sheets are used up, and there are no others.
    OutOfSheets {
        /// Items that found no place, and how many of each.
        left: Vec<(usize, u32)>,
    },
}

impl fmt::Display for NoLayout {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::TooBig { items } => write!(f, "{} of the parts fit on none of the sheets", items.len()),
            Self::OutOfSheets { left } => {
                let parts: u64 = left.iter().map(|&(_, count)| u64::from(count)).sum();
                write!(f, "there are too few sheets: {parts} parts are left over")
            }
        }
    }
}

impl std::error::Error for NoLayout {}
