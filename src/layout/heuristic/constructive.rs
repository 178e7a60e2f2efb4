// SPDX-License-Identifier: MIT
//! Constructive heuristic: lays a whole problem in one go, opens sheets one after the other and fills each as far as it goes.
//!
//! In: an order of the kinds, a rule for places and one for choosing the next sheet. Out: a packing. A sheet once filled
//! is repeated as often as the counts allow, so five hundred kits cost little more than one. Never: looks back.

use crate::layout::heuristic::objective::objective;
use crate::layout::heuristic::rule::Rule;
use crate::layout::heuristic::sheet_builder::SheetBuilder;
use crate::layout::heuristic::sort_key::{SortKey, by_size};
use crate::layout::model::instance::Instance;
use crate::layout::model::packing::{PackedSheet, Packing, PlacedBox};

/// Which sheet to open where there are several sizes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum SheetChoice {
    /// The one that gets the most onto what it costs; the cheapest that takes all that is left.
    Fullest,
    /// The smallest that takes anything.
    Smallest,
    /// The largest that takes anything.
    Largest,
}

impl SheetChoice {
    pub(crate) const ALL: [Self; 3] = [Self::Fullest, Self::Smallest, Self::Largest];
}

/// How one constructive search works.
#[derive(Clone, Debug)]
pub(crate) struct Construction<'a> {
    pub(crate) order: &'a [usize],
    /// Each sheet is filled by that of these which gets the most onto it.
    pub(crate) rules: &'static [Rule],
    pub(crate) choice: SheetChoice,
}

/// Lays what is `left` on new sheets, of which `supply` says how many of each size there are.
pub(crate) fn build(
    instance: &Instance,
    how: &Construction,
    mut left: Vec<u64>,
    mut supply: Vec<Option<u64>>,
    builder: &mut impl SheetBuilder,
) -> Packing {
    let mut laid = Vec::new();
    let mut used = vec![0; left.len()];
    let mut order: Vec<usize> = how.order.iter().copied().filter(|&kind| left[kind] > 0).collect();
    while !order.is_empty() {
        let Some((size, placed)) = next_sheet(instance, how, &order, &left, &supply, builder) else { break };
        used.fill(0);
        for put in &placed {
            used[put.kind] += 1;
        }
        let often = order.iter().filter(|&&kind| used[kind] > 0).map(|&kind| left[kind] / used[kind]).min();
        let times = often.unwrap_or(1).max(1).min(supply[size].unwrap_or(u64::MAX));
        for &kind in &order {
            left[kind] = left[kind].saturating_sub(used[kind].saturating_mul(times));
        }
        supply[size] = supply[size].map(|count| count.saturating_sub(times));
        order.retain(|&kind| left[kind] > 0);
        laid.push(PackedSheet { size, times, placed });
    }
    Packing { laid, left }
}

/// Lays what is `left` by every rule over every order, and keeps the best.
pub(crate) fn in_one_go<B: SheetBuilder>(instance: &Instance, left: &[u64], supply: &[Option<u64>]) -> Packing {
    let mut builder = B::default();
    let mut best: Option<Packing> = None;
    for key in SortKey::ALL {
        let order = by_size(instance, key);
        for rules in Rule::sets(instance.sizes.len() > 1) {
            let how = Construction { order: &order, rules, choice: SheetChoice::Fullest };
            let packing = build(instance, &how, left.to_vec(), supply.to_vec(), &mut builder);
            if best.as_ref().is_none_or(|best| objective::<B>(&packing, instance) < objective::<B>(best, instance)) {
                best = Some(packing);
            }
        }
    }
    best.unwrap_or_default()
}

/// The sizes' supplies before anything is laid.
pub(crate) fn supplies(instance: &Instance) -> Vec<Option<u64>> {
    instance.sizes.iter().map(|size| size.supply).collect()
}

/// Chooses a size and fills one sheet of it. Counted sheets come before those of which there are as many as needed.
fn next_sheet(
    instance: &Instance,
    how: &Construction,
    order: &[usize],
    left: &[u64],
    supply: &[Option<u64>],
    builder: &mut impl SheetBuilder,
) -> Option<(usize, Vec<PlacedBox>)> {
    for counted in [true, false] {
        let mut sizes: Vec<usize> =
            (0..instance.sizes.len()).filter(|&s| supply[s].is_some() == counted && supply[s] != Some(0)).collect();
        match how.choice {
            SheetChoice::Largest => sizes.sort_by_key(|&s| std::cmp::Reverse(instance.sizes[s].area())),
            SheetChoice::Smallest => sizes.sort_by_key(|&s| instance.sizes[s].area()),
            SheetChoice::Fullest => sizes.sort_by_key(|&s| instance.sizes[s].cost),
        }
        let mut best: Option<(usize, Vec<PlacedBox>, u128)> = None;
        for size in sizes {
            let area = |placed: &[PlacedBox]| placed.iter().map(|put| put.area().unsigned_abs()).sum::<u64>();
            let mut placed: Vec<PlacedBox> = Vec::new();
            for &rule in how.rules {
                builder.open(instance, size, instance.least(order));
                fill(instance, order, left, rule, builder);
                let found = builder.placed();
                if placed.is_empty() || area(&found) > area(&placed) {
                    placed = found;
                }
            }
            if placed.is_empty() {
                continue;
            }
            let done = how.choice != SheetChoice::Fullest || takes_all(&placed, order, left);
            let filled = u128::from(area(&placed));
            let better = best.as_ref().is_none_or(|(other, _, most)| {
                filled.saturating_mul(instance.sizes[*other].cost) > most.saturating_mul(instance.sizes[size].cost)
            });
            if done || better {
                best = Some((size, placed, filled));
            }
            if done {
                break;
            }
        }
        if let Some((size, placed, _)) = best {
            return Some((size, placed));
        }
    }
    None
}

fn takes_all(placed: &[PlacedBox], order: &[usize], left: &[u64]) -> bool {
    let wanted = order.iter().map(|&kind| left[kind]).fold(0, u64::saturating_add);
    u64::try_from(placed.len()).is_ok_and(|laid| laid == wanted)
}

/// No sheet takes more boxes than this, so that four thousand million tags on a huge sheet are many equal sheets.
const MOST_ON_A_SHEET: usize = 20_000;

/// Offers every kind in turn, as many of it as fit.
pub(crate) fn fill(instance: &Instance, order: &[usize], left: &[u64], rule: Rule, builder: &mut impl SheetBuilder) {
    for &kind in order {
        builder.offer(kind, &instance.kinds[kind], left[kind], rule, MOST_ON_A_SHEET);
        if builder.laid() >= MOST_ON_A_SHEET {
            return;
        }
    }
}

/// The boxes of one sheet laid again on such a sheet, by each rule over each order, as often as all of them go onto it.
pub(crate) fn laid_again<B: SheetBuilder>(
    instance: &Instance,
    old: &PackedSheet,
    orders: &[Vec<usize>],
    rules: &[Rule],
    found: &mut dyn FnMut(PackedSheet),
) {
    let mut left = vec![0; instance.kinds.len()];
    for put in &old.placed {
        left[put.kind] += 1;
    }
    let mut builder = B::default();
    let mut seen: Vec<Vec<usize>> = Vec::new();
    for order in orders {
        let order: Vec<usize> = order.iter().copied().filter(|&kind| left[kind] > 0).collect();
        if seen.contains(&order) {
            continue;
        }
        for &rule in rules {
            builder.open(instance, old.size, instance.least(&order));
            fill(instance, &order, &left, rule, &mut builder);
            if builder.laid() == old.placed.len() {
                found(PackedSheet { size: old.size, times: old.times, placed: builder.placed() });
            }
        }
        seen.push(order);
    }
}
