// SPDX-License-Identifier: MIT
//! The reason of a lower bound: why no layout takes fewer sheets, as an argument that whoever cuts the sheets can follow.

/// Why no layout takes fewer sheets than so many. Items go by their numbers in the problem.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Reason {
    /// The items have more area, half the gap round each, than one sheet fewer.
    Area,
    /// If each of these items counts so many points, no sheet holds more than `most` of them.
    AtMost {
        /// The items.
        of: Vec<CountedItem>,
        /// So many points lie on a sheet at most. Where it is one, no two items share a sheet.
        most: u64,
    },
    /// No sheet holds items of two of these groups, and each group takes so many by itself.
    Apart(Vec<ApartGroup>),
    /// There is no such short argument: every way to fill a sheet was weighed up, and fewer hold no more than a part of it all.
    Weighed,
}

/// Items that count.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct CountedItem {
    /// Number of the item.
    pub item: usize,
    /// How many there are.
    pub count: u64,
    /// So much each counts, 1 or more.
    pub points: u64,
}

/// Items that share no sheet with those of another group.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct ApartGroup {
    /// The items; their boxes are alike.
    pub of: Vec<CountedItem>,
    /// So many sheets they take at least.
    pub sheets: u64,
    /// One sheet for each, because no two of them share one; else it is their area that takes so many.
    pub each_alone: bool,
}
