// SPDX-License-Identifier: MIT
//! Equal sheets: as many sheets alike as can be, for these are one file and are cut as a stack.
//!
//! In: a packing. Out: one of fewer different sheets that is as good in all else, or the same. Never: takes another sheet, leaves
//! a smaller offcut.
//!
//! A sheet that there is already is cut as often as the boxes allow, and the rest is laid by constructive rules, which repeat
//! sheets themselves.

use std::cmp::Reverse;

use crate::layout::heuristic::constructive::{Construction, SheetChoice, build, supplies};
use crate::layout::heuristic::largest_offcut::with_largest_offcut;
use crate::layout::heuristic::objective::objective;
use crate::layout::heuristic::rule::Rule;
use crate::layout::heuristic::sheet_builder::SheetBuilder;
use crate::layout::heuristic::sort_key::{SortKey, by_size};
use crate::layout::model::instance::Instance;
use crate::layout::model::packing::{PackedSheet, Packing};
use crate::layout::parallel::Meter;

/// No more sheets are tried as the one that is repeated, those first that take most away.
const MOST_REPEATED: usize = 8;
/// The rest is laid by these, which fill best.
static RULES: [Rule; 2] = [Rule::ShortSide, Rule::Touch];
const KEYS: [SortKey; 2] = [SortKey::Area, SortKey::LongSide];

/// The packing with fewer different sheets where that costs nothing; so many steps at most begin.
pub(crate) fn with_equal_sheets<B: SheetBuilder>(
    instance: &Instance,
    packing: Packing,
    steps: u64,
    meter: &Meter,
) -> Packing {
    let mut best = packing.tidied(instance);
    if !best.complete() || best.laid.len() < 2 {
        return best;
    }
    let mut tried: Vec<(u64, PackedSheet)> =
        best.laid.iter().filter_map(|laid| Some((often(instance, laid)?, laid.clone()))).collect();
    tried.retain(|(often, laid)| *often > laid.times);
    tried.sort_by_key(|(often, laid)| Reverse(laid.filled().unsigned_abs().saturating_mul(*often)));
    let mut builder = B::default();
    let mut spent = 0;
    for (often, repeated) in tried.into_iter().take(MOST_REPEATED) {
        for key in KEYS {
            for rules in RULES.chunks(1) {
                if spent > steps || meter.stopped() {
                    return best;
                }
                let order = by_size(instance, key);
                let how = Construction { order: &order, rules, choice: SheetChoice::Fullest };
                let found = repeated_and_rest(instance, (&repeated, often), &how, &mut builder);
                let taken = builder.steps();
                spent += taken;
                meter.step(taken);
                let Some(found) = found.filter(|found| found.laid.len() < best.laid.len()) else { continue };
                let found = with_largest_offcut::<B>(instance, found).tidied(instance);
                let fewer = found.laid.len() < best.laid.len();
                if fewer && objective::<B>(&found, instance) <= objective::<B>(&best, instance) {
                    best = found;
                }
            }
        }
    }
    best
}

/// How often a sheet can be cut before one of its kinds runs out, or the sheets do.
fn often(instance: &Instance, laid: &PackedSheet) -> Option<u64> {
    let mut on_it = vec![0; instance.kinds.len()];
    for put in &laid.placed {
        on_it[put.kind] += 1;
    }
    let often = instance.kinds.iter().zip(&on_it).filter(|(_, on_it)| **on_it > 0);
    let often = often.map(|(kind, on_it)| kind.count / on_it).min()?;
    Some(often.min(instance.sizes[laid.size].supply.unwrap_or(u64::MAX)))
}

fn repeated_and_rest(
    instance: &Instance,
    (repeated, often): (&PackedSheet, u64),
    how: &Construction,
    builder: &mut impl SheetBuilder,
) -> Option<Packing> {
    let (mut left, mut supply) = (instance.counts(), supplies(instance));
    for put in &repeated.placed {
        left[put.kind] = left[put.kind].checked_sub(often)?;
    }
    supply[repeated.size] = supply[repeated.size].map(|count| count.saturating_sub(often));
    let mut found = build(instance, how, left, supply, builder);
    found.laid.insert(0, PackedSheet { times: often, ..repeated.clone() });
    found.complete().then_some(found)
}
