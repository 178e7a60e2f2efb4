// SPDX-License-Identifier: MIT
//! The clique bound: boxes that exclude each other pairwise lie on as many sheets as they take one kind at a time.
//!
//! In: kinds of boxes, which of them share a sheet, how many sheets each takes alone. Out: a number that no layout can beat.
//! Never: more steps than it is given; a search that is broken off has found a clique all the same.
//!
//! Kinds that exclude each other are the nodes of a graph, weighted with the sheets that each takes by itself; the heaviest
//! clique bounds the whole. Found by branch and bound, the sum of what may still come as the bound (compare Carraghan and
//! Pardalos 1990).

/// No more kinds fit into the bits of a row.
pub(crate) const MOST_KINDS: usize = 128;

/// Branches that are looked at: some tenths of a millisecond.
const MOST_STEPS: u32 = 20_000;

/// The weight of the heaviest clique that was found; `excludes` has a bit for each kind that a kind shares no sheet with.
pub(crate) fn heaviest_clique(weights: &[u64], excludes: &[u128]) -> u64 {
    let mut order: Vec<usize> = (0..weights.len().min(MOST_KINDS)).collect();
    order.sort_by_key(|&kind| (std::cmp::Reverse(weights[kind]), kind));
    let mut search = ExclusiveSearch { weights, excludes, best: 0, steps: MOST_STEPS };
    search.branch(&order, 0);
    search.best
}

struct ExclusiveSearch<'a> {
    weights: &'a [u64],
    excludes: &'a [u128],
    best: u64,
    steps: u32,
}

impl ExclusiveSearch<'_> {
    /// Adds one of the kinds that exclude all those taken so far, the heaviest first.
    fn branch(&mut self, left: &[usize], taken: u64) {
        self.best = self.best.max(taken);
        let mut all: u64 = left.iter().map(|&kind| self.weights[kind]).fold(0, u64::saturating_add);
        for (number, &kind) in left.iter().enumerate() {
            if self.steps == 0 || taken.saturating_add(all) <= self.best {
                return;
            }
            self.steps -= 1;
            let row = self.excludes.get(kind).copied().unwrap_or_default();
            let next: Vec<usize> = left[number + 1..].iter().copied().filter(|&other| row >> other & 1 == 1).collect();
            self.branch(&next, taken.saturating_add(self.weights[kind]));
            all = all.saturating_sub(self.weights[kind]);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Worked by hand: 0 excludes 1 and 2, which share; 3 excludes 1, 2 and 0. 0 and 3 with either of the others.
    #[test]
    fn the_heaviest_clique_of_four() {
        let excludes = [0b1110, 0b1001, 0b1001, 0b0111];
        assert_eq!(heaviest_clique(&[4, 2, 3, 1], &excludes), 8);
        // A heavy kind that shares with all others stands alone.
        assert_eq!(heaviest_clique(&[4, 2, 3, 1, 9], &[0b1110, 0b1001, 0b1001, 0b0111, 0]), 9);
        assert_eq!(heaviest_clique(&[], &[]), 0);
    }
}
