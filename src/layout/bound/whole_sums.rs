// SPDX-License-Identifier: MIT
//! Sums of whole sheets: what can be paid for sheets of several prices.
//!
//! In: prices, an amount. Out: the least sum of them that is no less. Never: looks at more sums than it has time for.

use crate::layout::model::instance::{Instance, MILLIONTHS};
use crate::layout::numbers::{nearly, whole};

/// So many sums of whole sheets are looked at.
const MOST_SUMS: u64 = 100_000;

/// The least sum of whole sheets' costs that is no less than this, where sums are few enough to be looked at.
pub(crate) fn next_sum(instance: &Instance, least: u128) -> u128 {
    let bought = instance.sizes.iter().filter(|size| size.supply.is_none());
    sum_of(bought.map(|size| size.cost).collect(), least)
}

/// The least sum of such prices, each as often as one likes, that is no less than an amount; the amount itself where sums are too
/// many to be looked at. Good to a millionth.
pub(crate) fn least_sum(prices: &[f64], least: f64) -> f64 {
    // What is lost to rounding must not make the next sum of it.
    let least_whole = u128::from(whole(least.mul_add(MILLIONTHS, -0.5)));
    let sum =
        sum_of(prices.iter().map(|price| u128::from(whole(price.mul_add(MILLIONTHS, 0.5)))).collect(), least_whole);
    nearly(u64::try_from(sum).unwrap_or(u64::MAX)) / MILLIONTHS
}

fn sum_of(mut costs: Vec<u128>, least: u128) -> u128 {
    costs.sort_unstable();
    costs.dedup();
    costs.reverse();
    let mut left = MOST_SUMS;
    smallest_sum(&costs, least, &mut left).filter(|_| left > 0).map_or(least, |sum| sum.max(least))
}

/// The same, from costs, the largest first; stops counting when too many sums were looked at.
fn smallest_sum(costs: &[u128], least: u128, left: &mut u64) -> Option<u128> {
    let (&cost, others) = costs.split_first()?;
    if cost == 0 || *left == 0 {
        *left = 0;
        return None;
    }
    if others.is_empty() {
        *left -= 1;
        return least.div_ceil(cost).checked_mul(cost);
    }
    let mut best: Option<u128> = None;
    let mut spent = 0_u128;
    while *left > 0 {
        let rest = least.saturating_sub(spent);
        let sum = if rest == 0 { Some(0) } else { smallest_sum(others, rest, left) };
        best = [best, sum.and_then(|sum| sum.checked_add(spent))].into_iter().flatten().min();
        if rest == 0 {
            break;
        }
        spent = spent.checked_add(cost)?;
    }
    best
}
