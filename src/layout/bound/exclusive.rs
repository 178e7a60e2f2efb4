// SPDX-License-Identifier: MIT
//! The clique bound: boxes that exclude each other pairwise lie on as many sheets as they take one kind at a time.
//!
//! In: boxes and a sheet. Out: which of them exclude each other, and so how many sheets they take at least. Never: more steps
//! than it is given; a search that is broken off has found a clique all the same.
//!
//! Kinds that exclude each other are the nodes of a graph, weighted with the sheets that each takes by itself; the heaviest
//! clique bounds the whole. Found by branch and bound, the sum of what may still come as the bound (compare Carraghan and
//! Pardalos 1990).

use std::cmp::Reverse;
use std::collections::BTreeMap;

use crate::layout::bound::relaxation::Relaxation;
use crate::layout::model::one_size::{BoxType, MOST_KINDS};

/// So many different boxes are compared with each other.
const MOST_COMPARED: usize = 500;

/// Branches that are looked at: some tenths of a millisecond.
const MOST_STEPS: u32 = 20_000;

/// Items by their numbers, and how many of each.
pub(crate) type CountedItems = Vec<(usize, u64)>;

/// How many there are.
pub(crate) fn number(items: &CountedItems) -> u64 {
    items.iter().map(|&(_, count)| count).fold(0, u64::saturating_add)
}

/// Boxes of which no two can share a sheet, whatever they are; picked greedily, the thickest first.
pub(crate) fn alone(relaxation: &Relaxation) -> CountedItems {
    let mut large: Vec<(usize, &BoxType)> =
        relaxation.kinds().filter(|(_, one)| !relaxation.may_share(one, one)).collect();
    large.sort_by_key(|(_, one)| Reverse(thickness(one)));
    let mut alone: Vec<(usize, &BoxType)> = Vec::new();
    for (item, one) in large {
        if alone.len() < MOST_COMPARED && alone.iter().all(|(_, other)| !relaxation.may_share(one, other)) {
            alone.push((item, one));
        }
    }
    alone.into_iter().map(|(item, one)| (item, one.count)).collect()
}

/// The side that excludes the most.
fn thickness(one: &BoxType) -> i64 {
    one.orientations.iter().map(|&(width, height)| width.min(height)).min().unwrap_or(0)
}

/// Equal boxes that share no sheet with those of another such group.
#[derive(Clone, Debug)]
pub(crate) struct ExclusiveGroup {
    /// Which items they are.
    pub(crate) items: CountedItems,
    /// So many sheets they take by themselves: one each where no two of them share one, else what their area needs.
    pub(crate) sheets: u64,
    /// No two of them share a sheet.
    pub(crate) alone: bool,
}

/// So many sheets they take together.
pub(crate) fn sheets(groups: &[ExclusiveGroup]) -> u64 {
    groups.iter().map(|group| group.sheets).fold(0, u64::saturating_add)
}

/// Groups of which no two share a sheet and which take the most sheets, as far as that is found. Only orientations in which a
/// box goes onto the sheet at all count.
pub(crate) fn groups(relaxation: &Relaxation) -> Vec<ExclusiveGroup> {
    let mut alike: BTreeMap<Vec<(i64, i64)>, CountedItems> = BTreeMap::new();
    for (item, orientations, count) in relaxation.boxes() {
        alike.entry(orientations).or_default().push((item, count));
    }
    let kind = |(orientations, items): (_, CountedItems)| (BoxType { orientations, count: number(&items) }, items);
    let mut kinds: Vec<(BoxType, CountedItems)> =
        alike.into_iter().filter(|(orientations, _)| !orientations.is_empty()).map(kind).collect();
    kinds.sort_by_key(|(one, _)| Reverse(thickness(one)));
    kinds.truncate(MOST_KINDS);
    let is_alone = |one: &BoxType| !relaxation.may_share(one, one);
    let sheets = |one: &BoxType| if is_alone(one) { one.count } else { relaxation.by_area_of(one) };
    let weights: Vec<u64> = kinds.iter().map(|(one, _)| sheets(one)).collect();
    let row = |one: &BoxType| {
        let bits =
            kinds.iter().enumerate().map(|(bit, (other, _))| u128::from(!relaxation.may_share(one, other)) << bit);
        bits.fold(0, |row, bit| row | bit)
    };
    let excludes: Vec<u128> = kinds.iter().map(|(one, _)| row(one)).collect();
    let group = |kind: usize| {
        let (one, items) = &kinds[kind];
        ExclusiveGroup { items: items.clone(), sheets: weights[kind], alone: is_alone(one) }
    };
    heaviest_clique(&weights, &excludes).into_iter().map(group).collect()
}

/// The heaviest clique that was found; `excludes` has a bit for each kind that a kind shares no sheet with.
fn heaviest_clique(weights: &[u64], excludes: &[u128]) -> Vec<usize> {
    let mut order: Vec<usize> = (0..weights.len().min(MOST_KINDS)).collect();
    order.sort_by_key(|&kind| (Reverse(weights[kind]), kind));
    let mut search = ExclusiveSearch { weights, excludes, best: 0, clique: Vec::new(), steps: MOST_STEPS };
    search.branch(&order, &mut Vec::new(), 0);
    search.clique
}

struct ExclusiveSearch<'a> {
    weights: &'a [u64],
    excludes: &'a [u128],
    best: u64,
    clique: Vec<usize>,
    steps: u32,
}

impl ExclusiveSearch<'_> {
    /// Adds one of the kinds that exclude all those taken so far, the heaviest first.
    fn branch(&mut self, left: &[usize], clique: &mut Vec<usize>, taken: u64) {
        if taken > self.best {
            (self.best, self.clique) = (taken, clique.clone());
        }
        let mut all: u64 = left.iter().map(|&kind| self.weights[kind]).fold(0, u64::saturating_add);
        for (number, &kind) in left.iter().enumerate() {
            if self.steps == 0 || taken.saturating_add(all) <= self.best {
                return;
            }
            self.steps -= 1;
            let row = self.excludes.get(kind).copied().unwrap_or_default();
            let next: Vec<usize> = left[number + 1..].iter().copied().filter(|&other| row >> other & 1 == 1).collect();
            clique.push(kind);
            self.branch(&next, clique, taken.saturating_add(self.weights[kind]));
            clique.pop();
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
        assert_eq!(heaviest_clique(&[4, 2, 3, 1], &excludes), [0, 2, 3]);
        // A heavy kind that shares with all others stands alone.
        assert_eq!(heaviest_clique(&[4, 2, 3, 1, 9], &[0b1110, 0b1001, 0b1001, 0b0111, 0]), [4]);
        assert_eq!(heaviest_clique(&[], &[]), [0; 0]);
    }
}
