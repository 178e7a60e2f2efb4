// SPDX-License-Identifier: MIT
//! Descent: one sheet fewer, again and again, by ruin and recreate, then by set covering over what it met.
//!
//! In: a packing, steps that may be spent. Out: the best packing met. Never: opens more sheets than there were.
//!
//! Ruin and recreate meets thousands of well-filled sheets on its way and holds one packing at a time; where it ends with a
//! box or two left over, sheets that it held at different moments may cover all boxes together. So what it met is kept as
//! columns, and set covering chooses among them (as Monaci and Toth 2006 do with the sheets of their heuristics).

use crate::layout::bound::lower_bound::LowerBound;
use crate::layout::heuristic::column_pool::ColumnPool;
use crate::layout::heuristic::objective::objective;
use crate::layout::heuristic::one_fewer::one_fewer;
use crate::layout::heuristic::ruin_recreate::Ruin;
use crate::layout::heuristic::set_covering::{LONG_RUN, cover};
use crate::layout::model::instance::Instance;
use crate::layout::model::packing::Packing;
use crate::layout::parallel::Meter;

/// Counted steps of each method.
#[derive(Clone, Copy, Default)]
pub(crate) struct DescentEffort {
    pub(crate) ruin: u64,
    pub(crate) covering: u64,
}

/// The part of its effort that descent gets where even sheets used in part would not do with fewer.
const SHORTENED: u64 = 4;

impl DescentEffort {
    /// For where there is little hope.
    pub(crate) fn shortened(self) -> Self {
        Self { ruin: self.ruin / SHORTENED, covering: self.covering / SHORTENED }
    }
}

/// Does with fewer sheets as long as the bound leaves hope and steps are left.
pub(crate) fn descend<B: Ruin>(
    instance: &Instance,
    bound: &mut LowerBound,
    mut best: Packing,
    mut left: DescentEffort,
    (threads, meter): (usize, &Meter),
    columns: &mut ColumnPool,
) -> Packing {
    while !meter.stopped() && (!best.complete() || best.sheets() > bound.reach(best.sheets())) {
        if left.ruin > 0 {
            let Some((next, spent)) = one_fewer::<B>(instance, &best, left.ruin, threads, meter, columns) else {
                break;
            };
            let fewer = next.sheets() < best.sheets() || !best.complete();
            let better = objective::<B>(&next, instance) < objective::<B>(&best, instance);
            // A larger offcut is not worth breaking long runs for.
            let improved = better && (fewer || best.sheets() <= LONG_RUN);
            if improved {
                best = next;
            }
            let goes_on = improved && fewer;
            left.ruin = if goes_on { left.ruin.saturating_sub(spent.max(1)) } else { 0 };
            if goes_on {
                continue;
            }
        }
        if left.covering == 0 || !best.complete() {
            break;
        }
        let (found, spent) = cover::<B>(instance, columns, best.sheets() - 1, left.covering, meter);
        left.covering = left.covering.saturating_sub(spent.max(1));
        let Some(found) = found else { break };
        best = found;
    }
    best
}
