// SPDX-License-Identifier: MIT
//! Hinge strips laid alike where nobody stated the grain.
//!
//! In: the parts of a stock, their layout. Out: the same layout, or one of as many sheets on which the strips lie alike; a
//! note where that would take more. Never: takes another sheet for it.

use super::StockSheets;
use super::alike::{Alike, is_strip};
use super::stock_parts::StockParts;
use crate::finding::{Arg, Finding, Said};
use crate::layout::{Layout, Turn, Watch};
use crate::parts::Kit;
use std::collections::BTreeMap;

/// Which way all strips of a stock lie on sheets that are laid already; nothing where they lie both ways, or there is but one.
pub(super) fn laid_alike(kit: &Kit, laid: &StockSheets) -> Option<Alike> {
    let all = laid.sheets.iter().flat_map(|sheet| sheet.placements.iter().map(move |placed| (placed, sheet.times)));
    let (mut upright, mut turned) = (0_u64, 0_u64);
    for (placed, times) in all.filter(|(placed, _)| is_strip(kit, placed.part)) {
        *if placed.quarters.is_multiple_of(2) { &mut upright } else { &mut turned } += u64::from(times);
    }
    match (upright, turned) {
        (2.., 0) => Some(Alike::Upright),
        (0, 2..) => Some(Alike::Turned),
        _ => None,
    }
}

impl StockParts<'_> {
    /// Which ways its strips lie in a layout: upright, turned.
    fn ways_of_strips(&self, layout: &Layout) -> [bool; 2] {
        let strips: Vec<bool> = self.parts.iter().map(|&part| is_strip(&self.kit, part)).collect();
        let mut ways = [false; 2];
        for placement in layout.sheets.iter().flat_map(|sheet| &sheet.placements) {
            if strips.get(placement.item).is_some_and(|strip| *strip) {
                ways[usize::from(matches!(placement.turn, Turn::Quarter | Turn::ThreeQuarter))] = true;
            }
        }
        ways
    }

    /// Lays strips alike that lie both ways, where no grain is stated and that takes no more sheets; says so where it does.
    pub(super) fn with_strips_alike(&self, layout: Layout, watch: &dyn Watch) -> (Layout, Option<Finding>) {
        if self.stock.grain.is_some() || self.ways_of_strips(&layout) != [true; 2] {
            return (layout, None);
        }
        let took = used(&layout);
        for alike in [Alike::Upright, Alike::Turned] {
            let mut parts = self.clone();
            parts.alike = Some(alike);
            if let Some(found) = parts.lay(true, watch).ok().filter(|found| used(found) == took) {
                // What is sure of the strips however they lie is what the maker is told.
                let Layout { lower_bound, proven_least, savable, .. } = layout;
                return (Layout { lower_bound, proven_least, savable, ..found }, None);
            }
        }
        let about = Said::new("about-stock").with("stock", &self.stock.name);
        let finding = Finding::note("grain-unknown", about, Said::new("grain-unknown"));
        let help = Said::new("grain-unknown-help").with("grain", Arg::field("grain"));
        (layout, Some(finding.help(help).at(self.stock.place.as_ref())))
    }
}

/// How many sheets of each size a layout takes.
fn used(layout: &Layout) -> BTreeMap<usize, u64> {
    let mut used = BTreeMap::new();
    for sheet in &layout.sheets {
        *used.entry(sheet.sheet).or_default() += u64::from(sheet.times);
    }
    used
}
