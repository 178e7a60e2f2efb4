// SPDX-License-Identifier: MIT
//! Knapsack: sizes of boxes of which no sheet holds more than the whole, and what worth that leaves room for.
//!
//! In: a size and a worth for each kind. Out: a worth that no sheet exceeds: what is worth most for its size goes in first, the
//! last box in part (Dantzig 1957). Never: less than a sheet may hold.

use crate::layout::bound::dual_pairs::WHOLE;

/// Sizes of which a sheet holds [`WHOLE`], by kind.
pub(crate) struct Knapsack {
    pub(crate) sizes: Vec<u64>,
    /// Kinds by worth for size, the most first.
    by_value: Vec<u8>,
}

impl Knapsack {
    /// From the size of each kind.
    pub(crate) fn new(sizes: &[u32], worth: &[u64], order: &[usize]) -> Self {
        let sizes: Vec<u64> = sizes.iter().map(|&size| u64::from(size)).collect();
        let mut by_value: Vec<u8> = order.iter().filter_map(|&kind| u8::try_from(kind).ok()).collect();
        // What is worth nothing comes last: its part of nothing compares with none.
        let at = |kind: u8| (worth[usize::from(kind)], sizes[usize::from(kind)]);
        by_value.sort_by(|&a, &b| {
            let ((worth_a, size_a), (worth_b, size_b)) = (at(a), at(b));
            let nothing = (worth_a == 0).cmp(&(worth_b == 0));
            nothing.then_with(|| (worth_b * size_a).cmp(&(worth_a * size_b))).then(a.cmp(&b))
        });
        Self { sizes, by_value }
    }

    /// The most that an empty sheet holds of all boxes; rounded up.
    pub(crate) fn whole_load(&self, worth: &[u64], count: &dyn Fn(usize) -> u64) -> u64 {
        let mut load = 0;
        self.fill(0, u128::MAX, worth, count, |so_far| {
            load = so_far;
            true
        });
        load
    }

    /// Whether a sheet on which `used` is taken may get more worth than this from these kinds.
    pub(crate) fn holds_more(&self, used: u64, kinds: u128, worth: &[u64], left: &[u64], than: u64) -> bool {
        let mut more = false;
        self.fill(used, kinds, worth, &|kind| left[kind], |load| {
            more = load > than;
            !more
        });
        more
    }

    /// Puts in what is worth most for its size, the last box in part, and says after each kind what all is worth; until it
    /// hears no.
    fn fill(
        &self,
        used: u64,
        kinds: u128,
        worth: &[u64],
        count: &dyn Fn(usize) -> u64,
        mut goes_on: impl FnMut(u64) -> bool,
    ) {
        let (mut room, mut load) = (WHOLE.saturating_sub(used), 0_u64);
        for kind in self.by_value.iter().map(|&kind| usize::from(kind)).filter(|&kind| kinds >> kind & 1 == 1) {
            let (size, count) = (self.sizes[kind], count(kind));
            let all = size.saturating_mul(count);
            let whole = all <= room;
            let more = if whole { worth[kind].saturating_mul(count) } else { (worth[kind] * room).div_ceil(size) };
            load = load.saturating_add(more);
            if !goes_on(load) || !whole {
                return;
            }
            room -= all;
        }
    }
}
