// SPDX-License-Identifier: MIT
//! Lays a whole job in one go: opens sheets one after the other and fills each as far as it goes.
//!
//! In: an order of the kinds, a rule for places and one for choosing the next sheet. Out: a draft. A sheet once filled
//! is repeated as often as the counts allow, so five hundred kits cost little more than one. Never: looks back.

use crate::layout::heuristic::builder::Bench;
use crate::layout::heuristic::open_sheet::Rule;
use crate::layout::heuristic::order::{Key, by_size};
use crate::layout::model::instance::Frame;
use crate::layout::model::packing::{Draft, Laid, Put};

/// Which sheet to open where there are several sizes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Choice {
    /// The one that gets the most onto what it costs; the cheapest that takes all that is left.
    Fullest,
    /// The smallest that takes anything.
    Smallest,
    /// The largest that takes anything.
    Largest,
}

impl Choice {
    pub(crate) const ALL: [Self; 3] = [Self::Fullest, Self::Smallest, Self::Largest];
}

/// How one constructive search works.
#[derive(Clone, Debug)]
pub(crate) struct Plan<'a> {
    pub(crate) order: &'a [usize],
    pub(crate) rule: Rule,
    pub(crate) choice: Choice,
}

/// Lays what is `left` on new sheets, of which `supply` says how many of each size there are.
pub(crate) fn build(
    frame: &Frame,
    plan: &Plan,
    mut left: Vec<u64>,
    mut supply: Vec<Option<u64>>,
    bench: &mut impl Bench,
) -> Draft {
    let mut laid = Vec::new();
    let mut used = vec![0; left.len()];
    let mut order: Vec<usize> = plan.order.iter().copied().filter(|&kind| left[kind] > 0).collect();
    while !order.is_empty() {
        let Some((size, puts)) = next_sheet(frame, plan, &order, &left, &supply, bench) else { break };
        used.fill(0);
        for put in &puts {
            used[put.kind] += 1;
        }
        let often = order.iter().filter(|&&kind| used[kind] > 0).map(|&kind| left[kind] / used[kind]).min();
        let times = often.unwrap_or(1).max(1).min(supply[size].unwrap_or(u64::MAX));
        for &kind in &order {
            left[kind] = left[kind].saturating_sub(used[kind].saturating_mul(times));
        }
        supply[size] = supply[size].map(|count| count.saturating_sub(times));
        order.retain(|&kind| left[kind] > 0);
        laid.push(Laid { size, times, puts });
    }
    Draft { laid, left }
}

/// Lays what is `left` by every rule over every order, and keeps the best.
pub(crate) fn in_one_go<B: Bench>(frame: &Frame, left: &[u64], supply: &[Option<u64>]) -> Draft {
    let mut bench = B::default();
    let mut best: Option<Draft> = None;
    for key in Key::ALL {
        let order = by_size(frame, key);
        for rule in Rule::ALL {
            let plan = Plan { order: &order, rule, choice: Choice::Fullest };
            let draft = build(frame, &plan, left.to_vec(), supply.to_vec(), &mut bench);
            if best.as_ref().is_none_or(|best| draft.score(frame) < best.score(frame)) {
                best = Some(draft);
            }
        }
    }
    best.unwrap_or_default()
}

/// The sizes' supplies before anything is laid.
pub(crate) fn supplies(frame: &Frame) -> Vec<Option<u64>> {
    frame.sizes.iter().map(|size| size.supply).collect()
}

/// Chooses a size and fills one sheet of it. Counted sheets come before those of which there are as many as needed.
fn next_sheet(
    frame: &Frame,
    plan: &Plan,
    order: &[usize],
    left: &[u64],
    supply: &[Option<u64>],
    bench: &mut impl Bench,
) -> Option<(usize, Vec<Put>)> {
    for counted in [true, false] {
        let mut sizes: Vec<usize> =
            (0..frame.sizes.len()).filter(|&s| supply[s].is_some() == counted && supply[s] != Some(0)).collect();
        match plan.choice {
            Choice::Largest => sizes.sort_by_key(|&s| std::cmp::Reverse(frame.sizes[s].area())),
            Choice::Smallest => sizes.sort_by_key(|&s| frame.sizes[s].area()),
            Choice::Fullest => sizes.sort_by_key(|&s| frame.sizes[s].cost),
        }
        let mut best: Option<(usize, Vec<Put>, u128)> = None;
        for size in sizes {
            bench.open(&frame.sizes[size], frame.least(order));
            fill(frame, order, left, plan.rule, bench);
            if bench.laid() == 0 {
                continue;
            }
            let puts = bench.puts();
            let done = plan.choice != Choice::Fullest || takes_all(&puts, order, left);
            let filled = u128::from(puts.iter().map(|put| put.area().unsigned_abs()).sum::<u64>());
            let better = best.as_ref().is_none_or(|(other, _, most)| {
                filled.saturating_mul(frame.sizes[*other].cost) > most.saturating_mul(frame.sizes[size].cost)
            });
            if done || better {
                best = Some((size, puts, filled));
            }
            if done {
                break;
            }
        }
        if let Some((size, puts, _)) = best {
            return Some((size, puts));
        }
    }
    None
}

fn takes_all(puts: &[Put], order: &[usize], left: &[u64]) -> bool {
    let wanted = order.iter().map(|&kind| left[kind]).fold(0, u64::saturating_add);
    u64::try_from(puts.len()).is_ok_and(|laid| laid == wanted)
}

/// No sheet takes more boxes than this, so that four thousand million tags on a huge sheet are many equal sheets.
const MOST_ON_A_SHEET: usize = 20_000;

/// Offers every kind in turn, as many of it as fit.
pub(crate) fn fill(frame: &Frame, order: &[usize], left: &[u64], rule: Rule, bench: &mut impl Bench) {
    for &kind in order {
        bench.offer(kind, &frame.kinds[kind], left[kind], rule, MOST_ON_A_SHEET);
        if bench.laid() >= MOST_ON_A_SHEET {
            return;
        }
    }
}
