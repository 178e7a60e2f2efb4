// SPDX-License-Identifier: MIT
//! What the mixes of a kit take, as lists and reports show it.
//!
//! In: sheets that others laid. Out: [`MixTable`]. Never: lays a sheet.

use super::{Mix, MixPack, choice};
use crate::album::Entry;

/// A choice that is worked out.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Chosen {
    /// What is packed so that every mix can be made.
    pub packed: MixPack,
    /// What the mixes take.
    pub table: MixTable,
}

/// The mixes of a kit, and what they take.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct MixTable {
    /// The kinds that there are to choose from.
    pub kinds: Vec<Entry>,
    /// How many pages each copy has.
    pub pages: u32,
    /// How many mixes there are.
    pub mixes: u64,
    /// Those that were worked out: all of them where they are few.
    pub rows: Vec<MixRow>,
    /// The mix that takes the most sheets; none where nothing is laid.
    pub worst: Option<WorstMix>,
}

/// A mix that was worked out.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct MixRow {
    /// The mix.
    pub mix: Mix,
    /// Its sheets by stock, all copies of the same mix; none where they were not laid.
    pub sheets: Option<Vec<MixSheets>>,
}

/// How many sheets of a stock a mix takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct MixSheets {
    /// Number of the stock in the kit's album.
    pub stock: usize,
    /// How many sheets.
    pub sheets: u64,
    /// No layout has fewer.
    pub lower_bound: u64,
}

/// The mix that takes the most sheets.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct WorstMix {
    /// Its number among those that were worked out.
    pub row: usize,
    /// How many sheets it is laid on.
    pub sheets: u64,
    /// No mix needs more than this, laid well; none where that is not known.
    pub at_most: Option<u64>,
    /// Some mix needs so many, laid however well.
    pub at_least: u64,
}

impl Chosen {
    pub(crate) const fn new(packed: MixPack, table: MixTable) -> Self {
        Self { packed, table }
    }
}

impl MixTable {
    /// Of so many mixes of so many pages some that are worked out; nothing is laid yet.
    pub(crate) fn new(kinds: Vec<Entry>, (pages, mixes): (u32, u64), rows: Vec<Mix>) -> Self {
        let rows = rows.into_iter().map(|mix| MixRow { mix, sheets: None }).collect();
        Self { kinds, pages, mixes, rows, worst: None }
    }

    /// Whether all mixes were worked out.
    #[must_use]
    pub fn is_whole(&self) -> bool {
        u64::try_from(self.rows.len()).is_ok_and(|rows| rows == self.mixes)
    }

    /// What a kind is called in files for programs: `pocket`, `pocket-2`.
    #[must_use]
    pub fn called(&self, kind: usize) -> String {
        choice::called(&self.kinds, kind)
    }
}

impl MixRow {
    /// All of its sheets; none where they were not laid.
    #[must_use]
    pub fn all(&self) -> Option<u64> {
        Some(self.sheets.as_ref()?.iter().map(|one| one.sheets).sum())
    }

    /// No layout of it has fewer.
    #[must_use]
    pub fn least(&self) -> Option<u64> {
        Some(self.sheets.as_ref()?.iter().map(|one| one.lower_bound).sum())
    }
}

impl MixSheets {
    pub(crate) const fn new(stock: usize, sheets: u64, lower_bound: u64) -> Self {
        Self { stock, sheets, lower_bound }
    }
}

impl WorstMix {
    pub(crate) const fn new(row: usize, sheets: u64, at_most: Option<u64>, at_least: u64) -> Self {
        Self { row, sheets, at_most, at_least }
    }

    /// Whether it is known to the sheet.
    #[must_use]
    pub fn is_exact(&self) -> bool {
        self.at_most == Some(self.at_least)
    }
}
