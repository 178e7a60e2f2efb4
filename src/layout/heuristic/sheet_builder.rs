// SPDX-License-Identifier: MIT
//! Sheet builder: what a heuristic needs of one open sheet, whatever kind of layout it is.

use crate::layout::heuristic::rule::Rule;
use crate::layout::model::cut_tree::CutTree;
use crate::layout::model::instance::{Instance, ItemType, Orientation};
use crate::layout::model::packing::{PackedSheet, Packing, PlacedBox};
use crate::layout::model::problem::Effort;

/// One sheet that boxes are being laid on.
pub(crate) trait SheetBuilder: Default {
    /// Starts over with an empty sheet of this size, for boxes that are no smaller than `least` either way.
    fn open(&mut self, instance: &Instance, size: usize, least: Orientation);

    /// Lays up to so many copies of a kind, as many as fit, until `most` boxes lie on the sheet.
    fn offer(&mut self, number: usize, kind: &ItemType, copies: u64, rule: Rule, most: usize);

    /// How many boxes lie on the sheet.
    fn laid(&self) -> usize;

    /// Where they lie.
    fn placed(&self) -> Vec<PlacedBox>;

    /// The steps counted since this was last asked.
    fn steps(&mut self) -> u64;

    /// Area of the largest rectangle, grown by the gap, that is empty on a sheet and can be cut out of it.
    fn largest_offcut(instance: &Instance, sheet: &PackedSheet) -> i64;

    /// The last touch, which leaves every box on its sheet.
    fn finish(_instance: &Instance, packing: Packing, _effort: Effort) -> Packing {
        packing
    }

    /// How a sheet is cut apart, where that is part of the layout; and its boxes where those cuts leave them.
    fn cut_tree(_instance: &Instance, _sheet: &PackedSheet) -> Option<(CutTree, Vec<PlacedBox>)> {
        None
    }
}
