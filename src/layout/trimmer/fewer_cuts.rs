// SPDX-License-Identifier: MIT
//! Cut reduction: the same boxes on the same sheets, with fewer cuts and fewer settings of the trimmer's stop.
//!
//! In: a packing. Out: the same packing with sheets laid again where that is less work. Never: moves a box to another sheet,
//! makes the largest offcut smaller.

use std::cmp::Reverse;
use std::collections::BTreeMap;

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

/// Lays each sheet again by a few `rules` over all orders and keeps the least work.
pub(crate) fn with_fewer_cuts<B: SheetBuilder>(instance: &Instance, mut packing: Packing, rules: &[Rule]) -> Packing {
    let emptiest = packing.emptiest(instance);
    let orders: Vec<Vec<usize>> = SortKey::ALL.into_iter().map(|key| by_size(instance, key)).collect();
    // Sheets with the same boxes become equal, so that they are listed once.
    let mut known: BTreeMap<(usize, Vec<usize>), Vec<PlacedBox>> = BTreeMap::new();
    for (number, laid) in packing.laid.iter_mut().enumerate() {
        if laid.placed.len() > MOST_BOXES {
            continue;
        }
        let mut kinds: Vec<usize> = laid.placed.iter().map(|put| put.kind).collect();
        kinds.sort_unstable();
        let keep_offcut = emptiest == Some(number);
        let key = (laid.size, kinds);
        if keep_offcut {
            laid.placed = again::<B>(instance, laid, &orders, rules, true);
        } else if let Some(placed) = known.get(&key) {
            laid.placed.clone_from(placed);
        } else if known.len() < MOST_SHEETS {
            laid.placed = again::<B>(instance, laid, &orders, rules, false);
            known.insert(key, laid.placed.clone());
        }
    }
    packing
}

/// The least work among some layouts of the boxes on one sheet.
fn again<B: SheetBuilder>(
    instance: &Instance,
    old: &PackedSheet,
    orders: &[Vec<usize>],
    rules: &[Rule],
    keep_offcut: bool,
) -> Vec<PlacedBox> {
    let judge = |laid: &PackedSheet| {
        let offcut = if keep_offcut { B::largest_offcut(instance, laid) } else { 0 };
        Some((Reverse(offcut), work(instance, laid)?))
    };
    let mut best = (judge(old), old.placed.clone());
    laid_again::<B>(instance, old, orders, rules, &mut |laid| {
        let judged = judge(&laid);
        if judged.is_some() && (best.0.is_none() || judged < best.0) {
            best = (judged, laid.placed);
        }
    });
    best.1
}
