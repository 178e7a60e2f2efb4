// SPDX-License-Identifier: MIT
//! Descent: one sheet fewer, again and again, by ruin and recreate and by set covering in turn.
//!
//! In: a packing, steps that may be spent. Out: the best packing met. Never: opens more sheets than there were.
//!
//! Ruin and recreate meets thousands of well-filled sheets on its way and holds one packing at a time; where it ends with a
//! box or two left over, sheets that it held at different moments often cover all boxes together. So what it met is kept as
//! columns, and set covering chooses among them (as Monaci and Toth 2006 do with the sheets of their heuristics). Where
//! that, too, leaves something over, ruin and recreate goes on from there.

use crate::layout::bound::lower_bound::LowerBound;
use crate::layout::heuristic::column_pool::ColumnPool;
use crate::layout::heuristic::objective::objective;
use crate::layout::heuristic::one_fewer::one_fewer;
use crate::layout::heuristic::partial_packing::PartialPacking;
use crate::layout::heuristic::ruin_recreate::Ruin;
use crate::layout::heuristic::set_covering::{LONG_RUN, cover};
use crate::layout::model::instance::Instance;
use crate::layout::model::packing::Packing;
use crate::layout::parallel::Meter;

/// How long is searched.
#[derive(Clone, Copy)]
pub(crate) struct DescentEffort {
    /// From so many starts, one after the other, as long as no sheet is saved.
    pub(crate) rounds: u64,
    /// Counted steps of ruin and recreate in the first round; each other takes half as many as the one before.
    pub(crate) ruin: u64,
    /// Counted steps of set covering, each round.
    pub(crate) covering: u64,
}

impl DescentEffort {
    /// All steps.
    pub(crate) fn steps(&self) -> u64 {
        (0..self.rounds).map(|round| self.ruin_in(round) + self.covering).sum()
    }

    /// Steps of ruin and recreate in this round.
    fn ruin_in(&self, round: u64) -> u64 {
        self.ruin >> round.min(63)
    }
}

/// Does with fewer sheets as long as the bound leaves hope and steps are left.
pub(crate) fn descend<B: Ruin>(
    instance: &Instance,
    bound: &mut LowerBound,
    mut best: Packing,
    effort: DescentEffort,
    (threads, meter): (usize, &Meter),
    columns: &mut ColumnPool,
) -> Packing {
    let mut left = effort.steps();
    let mut round = 0;
    let mut near: Option<PartialPacking> = None;
    while left > 0 && !meter.stopped() && !(best.complete() && best.sheets() <= bound.reach(best.sheets())) {
        let (steps, pool) = (left.min(effort.ruin_in(round)), (&mut *columns, near.as_ref()));
        let Some((next, spent)) = one_fewer::<B>(instance, &best, (round, steps), threads, meter, pool) else { break };
        near = None;
        left = left.saturating_sub(spent.max(1));
        let fewer = next.sheets() < best.sheets() || !best.complete();
        let better = objective::<B>(&next, instance) < objective::<B>(&best, instance);
        // A larger offcut is not worth breaking long runs for.
        let improved = better && (fewer || best.sheets() <= LONG_RUN);
        if improved {
            best = next;
        }
        if improved && fewer {
            continue;
        }
        round += 1;
        if !best.complete() || meter.stopped() {
            break;
        }
        let covered = cover::<B>(instance, columns, best.sheets() - 1, effort.covering, meter);
        left = left.saturating_sub(covered.steps);
        near = covered.nearest;
        match covered.packing {
            Some(found) => {
                best = found;
                near = None;
            }
            None if round >= effort.rounds => break,
            None => {}
        }
    }
    best
}
