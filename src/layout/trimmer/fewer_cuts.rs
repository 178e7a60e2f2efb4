// SPDX-License-Identifier: MIT
//! Cut reduction: the same boxes on the same sheets, with cuts from edge to edge where that is free, few cuts, few settings of the
//! trimmer's stop.
//!
//! In: a packing. Out: the same packing with sheets laid again where that is less work. Never: moves a box to another sheet,
//! makes the largest offcut smaller.

use std::cmp::Reverse;
use std::collections::{BTreeMap, BTreeSet};

use crate::layout::heuristic::constructive::laid_again;
use crate::layout::heuristic::rule::Rule;
use crate::layout::heuristic::sheet_builder::SheetBuilder;
use crate::layout::heuristic::sort_key::{SortKey, by_size};
use crate::layout::model::instance::Instance;
use crate::layout::model::packing::{PackedSheet, Packing, PlacedBox};

use super::cut_plan::work;

/// With more boxes on a sheet than this it stays as it is.
const MOST_BOXES: usize = 120;
/// No more different sheets are laid again.
const MOST_SHEETS: usize = 300;

/// What an empty rectangle on a sheet is worth, in whatever way the layout is cut.
pub(crate) type OffcutOf = fn(&Instance, &PackedSheet) -> i64;

/// The less the better: the offcut, then whether edge-to-edge cuts do, then cuts and settings that no sheet before had, then settings.
type CutWork = (Reverse<i64>, bool, usize, usize);

/// Lays each sheet again by a few `rules` over all orders and keeps the least work.
pub(crate) fn with_fewer_cuts<B: SheetBuilder>(
    instance: &Instance,
    mut packing: Packing,
    rules: &[Rule],
    offcut: OffcutOf,
) -> Packing {
    let emptiest = packing.emptiest(instance);
    let orders: Vec<Vec<usize>> = SortKey::ALL.into_iter().map(|key| by_size(instance, key)).collect();
    // Sheets with the same boxes become equal, so that they are listed once.
    let mut known: BTreeMap<(usize, Vec<usize>), Vec<PlacedBox>> = BTreeMap::new();
    let mut again = Relaying { instance, orders: &orders, rules, set: BTreeSet::new() };
    for (number, laid) in packing.laid.iter_mut().enumerate() {
        if laid.placed.len() > MOST_BOXES {
            continue;
        }
        let mut kinds: Vec<usize> = laid.placed.iter().map(|put| put.kind).collect();
        kinds.sort_unstable();
        let keep_offcut = emptiest == Some(number);
        let key = (laid.size, kinds);
        if keep_offcut {
            laid.placed = again.least_work::<B>(laid, Some(offcut));
        } else if let Some(placed) = known.get(&key) {
            laid.placed.clone_from(placed);
        } else if known.len() < MOST_SHEETS {
            laid.placed = again.least_work::<B>(laid, None);
            known.insert(key, laid.placed.clone());
        }
    }
    packing
}

/// Lays sheets again, one after the other.
struct Relaying<'a> {
    instance: &'a Instance,
    orders: &'a [Vec<usize>],
    rules: &'a [Rule],
    /// What the stop is set to for the sheets that are laid so far: set once, it serves them all.
    set: BTreeSet<i64>,
}

impl Relaying<'_> {
    fn judge(&self, laid: &PackedSheet, offcut: Option<OffcutOf>) -> (CutWork, BTreeSet<i64>) {
        let offcut = Reverse(offcut.map_or(0, |offcut| offcut(self.instance, laid)));
        let Some((cuts, stops)) = work(self.instance, laid) else {
            return ((offcut, true, 0, 0), BTreeSet::new());
        };
        let new = stops.difference(&self.set).count();
        ((offcut, false, cuts + new, stops.len()), stops)
    }

    /// The least work among some layouts of the boxes on one sheet.
    fn least_work<B: SheetBuilder>(&mut self, old: &PackedSheet, offcut: Option<OffcutOf>) -> Vec<PlacedBox> {
        let mut best = (self.judge(old, offcut), old.placed.clone());
        laid_again::<B>(self.instance, old, self.orders, self.rules, &mut |laid| {
            let judged = self.judge(&laid, offcut);
            if judged.0 < best.0.0 {
                best = (judged, laid.placed);
            }
        });
        self.set.append(&mut best.0.1);
        best.1
    }
}
