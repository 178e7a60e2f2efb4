// SPDX-License-Identifier: MIT
//! One large leftover: boxes of the emptiest sheet go into gaps of others, until what is left of it is of use.
//!
//! In: a packing. Out: the same boxes on as many sheets of the same sizes, of which one has a larger empty rectangle. Never: takes
//! another sheet, breaks equal sheets apart.
//!
//! The leftover that is wanted is laid as a box of its own: ruin and recreate looks for a place for it and for all others, a
//! trimmer's tree parts it from them as it parts any box. Its depth is halved in on, first across the sheet, then up it.

use std::cmp::Reverse;

use crate::layout::heuristic::late_acceptance::Limits;
use crate::layout::heuristic::objective::objective;
use crate::layout::heuristic::partial_packing::{PartialPacking, SingleSheet};
use crate::layout::heuristic::ruin_recreate::{self, Ruin};
use crate::layout::model::instance::Instance;
use crate::layout::model::packing::{PackedSheet, Packing};
use crate::layout::parallel::Meter;

/// Depths that are tried each way: our choice.
const DEPTHS: u64 = 4;
/// Less than this part of a sheet is not worth a search: our choice.
const WORTH_A_SEARCH: i64 = 40;
/// No more sheets are taken apart, the emptiest ones.
const MOST_SHEETS: usize = 24;

/// The packing with as large an empty rectangle on the emptiest sheet as so many steps find.
pub(crate) fn with_larger_leftover<B: Ruin>(
    instance: &Instance,
    packing: Packing,
    steps: u64,
    meter: &Meter,
) -> Packing {
    let (mut best, share) = (packing, steps / (2 * DEPTHS));
    let Some(last) = best.emptiest(instance).map(|last| &best.laid[last]) else { return best };
    if share == 0 || last.times != 1 || !best.complete() {
        return best;
    }
    let size = last.size;
    let sheet = &instance.sizes[size];
    let empty = |laid: &PackedSheet| instance.sizes[laid.size].area() - laid.filled();
    for upright in [false, true] {
        let (across, whole) = if upright { (sheet.height, sheet.width) } else { (sheet.width, sheet.height) };
        let worth = whole / WORTH_A_SEARCH;
        let (single, kept) = taken_apart(&best, &empty);
        let free: i64 = single.iter().filter(|laid| laid.size == size).map(|laid| empty(laid).max(0)).sum();
        let depth_of = |packing: &Packing| objective::<B>(packing, instance).offcut.0 / across.max(1);
        let (mut reached, mut too_deep) = (depth_of(&best), free.min(sheet.area()) / across.max(1) + 1);
        for number in 0..DEPTHS {
            let depth = reached + (too_deep - reached) / 2;
            if depth - reached < worth || meter.stopped() {
                break;
            }
            let wanted = if upright { (depth, across) } else { (across, depth) };
            let found = with_room::<B>(instance, &single, wanted, (number, share), meter)
                .map(|laid| Packing { laid: laid.into_iter().chain(kept.iter().cloned()).collect(), ..best.clone() })
                .filter(|found| objective::<B>(found, instance) < objective::<B>(&best, instance));
            match found {
                Some(found) => {
                    reached = depth_of(&found).max(depth);
                    best = found;
                }
                None => too_deep = depth,
            }
        }
    }
    best
}

/// The sheets that are cut once, the emptiest ones, and all others.
fn taken_apart(packing: &Packing, empty: &dyn Fn(&PackedSheet) -> i64) -> (Vec<PackedSheet>, Vec<PackedSheet>) {
    let (mut single, mut kept): (Vec<PackedSheet>, Vec<PackedSheet>) =
        packing.laid.iter().cloned().partition(|laid| laid.times == 1);
    single.sort_by_key(|laid| Reverse(empty(laid)));
    kept.extend(single.drain(single.len().min(MOST_SHEETS)..));
    (single, kept)
}

/// The boxes of single sheets on the same sheets, with room left for a rectangle on one of them.
fn with_room<B: Ruin>(
    instance: &Instance,
    single: &[PackedSheet],
    (width, height): (i64, i64),
    (number, budget): (u64, u64),
    meter: &Meter,
) -> Option<Vec<PackedSheet>> {
    let wanted = instance.kinds.len();
    let instance = instance.with_room(width, height);
    let one = |laid: &PackedSheet| SingleSheet { size: laid.size, placed: laid.placed.clone() };
    let from = PartialPacking { sheets: single.iter().map(one).collect(), unplaced: vec![wanted] };
    let step = |steps: u64| meter.step(steps);
    let found = ruin_recreate::run::<B>(&instance, from, (number, false), &Limits { budget, step: &step });
    let found = found.state;
    let mut laid: Vec<PackedSheet> = if found.unplaced.is_empty() { found.into_laid().collect() } else { return None };
    for laid in &mut laid {
        laid.placed.retain(|put| put.kind != wanted);
    }
    laid.retain(|laid| !laid.placed.is_empty());
    Some(laid)
}
