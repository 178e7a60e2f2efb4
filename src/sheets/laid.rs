// SPDX-License-Identifier: MIT
//! Sheets with their parts in place, and how hard they are looked for.

use super::argument::WhyNoFewer;
use crate::cutter::RegisterMark;
use crate::layout::Effort;
use crate::parts::{CutFrom, Kit};
use crate::stock::By;
use std::collections::BTreeMap;
use std::collections::btree_map::Entry;

/// All sheets of one stock.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct StockSheets {
    /// Number of the stock.
    pub stock: usize,
    /// The sheets, equal ones once.
    pub sheets: Vec<Sheet>,
    /// No layout needs fewer sheets than this.
    pub lower_bound: u64,
    /// Whether the layout meets that bound.
    pub proven_least: bool,
    /// Why that bound holds. Nothing where it takes no reason, sizes are mixed, or several lots are laid one after the other.
    pub why: Option<WhyNoFewer>,
    /// Where sizes are mixed and something is bought: no layout saves more than this part of what its sheets cost, in whole packs
    /// where they are sold so, by area where they have no price. 0 where none is cheaper.
    pub savable: Option<f64>,
    /// Part area over whole sheet area, percent.
    pub used_percent: f64,
    /// Whether the search was stopped before its end.
    pub cut_short: bool,
}

impl StockSheets {
    /// How many sheets to cut.
    #[must_use]
    pub fn count(&self) -> u64 {
        self.sheets.iter().map(|sheet| u64::from(sheet.times)).sum()
    }

    /// The sheets of several lots, laid one after the other, as those of one order; placements are counted on.
    #[must_use]
    pub fn joined(lots: Vec<Vec<Self>>) -> Vec<Self> {
        let mut all: BTreeMap<usize, Self> = BTreeMap::new();
        let mut copies: BTreeMap<usize, u32> = BTreeMap::new();
        for mut laid in lots.into_iter().flatten() {
            let mut most = copies.clone();
            for placed in laid.sheets.iter_mut().flat_map(|sheet| &mut sheet.placements) {
                placed.copy += copies.get(&placed.part).copied().unwrap_or_default();
                let most = most.entry(placed.part).or_default();
                *most = placed.copy.max(*most);
            }
            copies = most;
            match all.entry(laid.stock) {
                Entry::Vacant(first) => {
                    first.insert(laid);
                }
                Entry::Occupied(mut known) => known.get_mut().add(laid),
            }
        }
        all.into_values().collect()
    }

    fn add(&mut self, other: Self) {
        let whole = |laid: &Self| -> f64 {
            laid.sheets.iter().map(|sheet| sheet.width * sheet.height * f64::from(sheet.times)).sum()
        };
        let (own, others) = (whole(self), whole(&other));
        if own + others > 0.0 {
            self.used_percent = self.used_percent.mul_add(own, other.used_percent * others) / (own + others);
        }
        self.lower_bound = self.lower_bound.saturating_add(other.lower_bound);
        self.proven_least &= other.proven_least;
        self.why = None;
        // Each lot may be the cheapest and yet not all together, when packs are shared out.
        self.savable = None;
        self.cut_short |= other.cut_short;
        self.sheets.extend(other.sheets);
    }

    /// How many sheets of each size in use, by the number of the size.
    #[must_use]
    pub fn by_size(&self) -> BTreeMap<usize, u64> {
        let mut counts = BTreeMap::new();
        for sheet in &self.sheets {
            *counts.entry(sheet.size).or_default() += u64::from(sheet.times);
        }
        counts
    }
}

/// One sheet with parts in place.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Sheet {
    /// Its name, and that of its files: `card-01`.
    pub name: String,
    /// Number of its size among the stock's sheets.
    pub size: usize,
    /// Width as it lies, mm.
    pub width: f64,
    /// Height as it lies, mm.
    pub height: f64,
    /// How many times it is cut.
    pub times: u32,
    /// Whether it is of spare parts alone, of a stock whose sheets are each kit's own.
    pub spare: bool,
    /// What is printed on it first, so that the machine finds the print again; none of the parts comes near.
    pub register: Vec<RegisterMark>,
    /// The parts on it.
    pub placements: Vec<Placed>,
    /// What is left of it worth keeping: x, y, width and height, mm.
    pub offcuts: Vec<[f64; 4]>,
    /// How a trimmer cuts it apart, where it is laid for one.
    pub cuts: Option<TrimPiece>,
}

impl Sheet {
    /// What it is laid for; a machine can cut what a trimmer can as well.
    #[must_use]
    pub const fn by(&self) -> By {
        if self.cuts.is_some() { By::Trimmer } else { By::Machine }
    }
}

/// A rectangle of a sheet, and what becomes of it on the trimmer.
#[derive(Clone, Debug, PartialEq)]
pub enum TrimPiece {
    /// A part: the number of its placement on the sheet.
    Part(usize),
    /// What is left over: x, y, width and height, mm.
    Offcut([f64; 4]),
    /// It is cut again.
    Cut(TrimCut),
}

/// A rectangle that is cut from edge to edge, once or several times side by side.
#[derive(Clone, Debug, PartialEq)]
pub struct TrimCut {
    /// The rectangle: x, y, width and height, mm.
    pub rect: [f64; 4],
    /// Whether the cuts run upright, at an x; else level, at a y.
    pub upright: bool,
    /// Where they lie on the sheet, mm, in order.
    pub at: Vec<f64>,
    /// What they part, in the same order.
    pub pieces: Vec<TrimPiece>,
}

/// A part in place.
#[derive(Clone, Debug, PartialEq)]
pub struct Placed {
    /// Number of the part.
    pub part: usize,
    /// Counts the part's placements over all written sheets, from 1.
    pub copy: u32,
    /// Left edge of the turned part's nominal box on the sheet, mm.
    pub x: f64,
    /// Lower edge of the turned part's nominal box on the sheet, mm.
    pub y: f64,
    /// Quarter turns counter-clockwise.
    pub quarters: u8,
}

impl Placed {
    /// From where it is cut, of a sheet of this number among the stock's sizes.
    #[must_use]
    pub const fn cut_from(&self, size: usize) -> CutFrom {
        CutFrom { size, x: self.x, y: self.y, quarters: self.quarters }
    }
}

/// Notes with each part from where it is cut first, for whoever draws it.
pub fn note_cuts(kit: &mut Kit, stocks: &[StockSheets]) {
    for sheet in stocks.iter().flat_map(|stock| &stock.sheets) {
        for placed in &sheet.placements {
            if let Some(part) = kit.parts.get_mut(placed.part) {
                part.cut.get_or_insert_with(|| placed.cut_from(sheet.size));
            }
        }
    }
}

/// How hard to look, and how.
#[derive(Clone, Copy, Debug)]
pub struct Search {
    /// How hard.
    pub effort: Effort,
    /// Whether a trimmer must be able to cut every sheet apart from edge to edge, whatever its stock is said to be cut by.
    pub trimmer: bool,
    /// On how many threads; the result is the same for any number.
    pub threads: usize,
}
