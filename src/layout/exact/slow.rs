// SPDX-License-Identifier: MIT
//! The slow way, for tests alone: small whole sizes on a board of cells, with no thought of relations, worths or bounds.

use std::collections::BTreeSet;

use crate::layout::model::one_size::{BoxType, MOST_KINDS, OneSizeProblem};
use crate::layout::random::Random;

/// Whether so many of each kind lie on a board of up to 64 cells: the first free cell is the corner of a box, or stays free.
pub(crate) fn lie(problem: &OneSizeProblem, counts: &[u64]) -> bool {
    let free = u64::MAX >> (64 - problem.width * problem.height);
    Board { problem, hopeless: BTreeSet::new() }.filled(free, &mut counts.to_vec())
}

struct Board<'a> {
    problem: &'a OneSizeProblem,
    /// Cells that are free and boxes that are left, where that was tried.
    hopeless: BTreeSet<(u64, Vec<u64>)>,
}

impl Board<'_> {
    fn filled(&mut self, free: u64, counts: &mut Vec<u64>) -> bool {
        let OneSizeProblem { width, height, boxes, .. } = self.problem;
        let area = |kind: &BoxType| kind.orientations[0].0 * kind.orientations[0].1;
        let wanted: i64 =
            boxes.iter().zip(&*counts).map(|(kind, &count)| area(kind) * i64::try_from(count).unwrap_or(0)).sum();
        if wanted == 0 || wanted > i64::from(free.count_ones()) {
            return wanted == 0;
        }
        let state = (free, counts.clone());
        if self.hopeless.contains(&state) {
            return false;
        }
        let cell = i64::from(free.trailing_zeros());
        let (x, y) = (cell % width, cell / width);
        for (kind, one) in boxes.iter().enumerate() {
            for &(w, h) in one.orientations.iter().filter(|_| state.1[kind] > 0) {
                if x + w > *width || y + h > *height {
                    continue;
                }
                let own = (y..y + h).flat_map(|row| (x..x + w).map(move |column| row * width + column));
                let own = own.fold(0_u64, |own, cell| own | 1 << cell);
                counts[kind] -= 1;
                let found = free & own == own && self.filled(free & !own, counts);
                counts[kind] += 1;
                if found {
                    return true;
                }
            }
        }
        let found = self.filled(free & (free - 1), counts);
        if !found {
            self.hopeless.insert(state);
        }
        found
    }
}

/// Every load of boxes, in order: so many of each kind, none first.
pub(crate) fn loads(counts: &[u64]) -> Vec<Vec<u64>> {
    counts.iter().fold(vec![Vec::new()], |loads, &count| {
        loads.iter().flat_map(|load| (0..=count).map(move |own| [load.as_slice(), &[own]].concat())).collect()
    })
}

/// The least number of sheets for all boxes; 0 if one fits on none.
pub(crate) fn least(problem: &OneSizeProblem) -> u64 {
    let counts: Vec<u64> = problem.boxes.iter().map(|kind| kind.count).collect();
    let loads = loads(&counts);
    let fits: Vec<bool> = loads.iter().map(|load| lie(problem, load)).collect();
    let mut least: Vec<u64> = vec![0; loads.len()];
    for (number, load) in loads.iter().enumerate().skip(1) {
        let holds = |part: &Vec<u64>| part.iter().zip(load).all(|(part, whole)| part <= whole);
        let rest = |part: &Vec<u64>| -> Vec<u64> { load.iter().zip(part).map(|(whole, part)| whole - part).collect() };
        let parts = loads[1..=number].iter().zip(&fits[1..=number]).filter(|(part, fits)| **fits && holds(part));
        let with = |part: &Vec<u64>| loads.binary_search(&rest(part)).ok().map(|rest| (rest, least[rest]));
        let known = parts.filter_map(|(part, _)| with(part)).filter(|&(rest, sheets)| rest == 0 || sheets > 0);
        least[number] = known.map(|(_, sheets)| sheets + 1).min().unwrap_or(0);
    }
    least.last().copied().unwrap_or(0)
}

/// A small problem of up to eight boxes: up to so many kinds, most of one box, some of up to four, most of which may turn.
pub(crate) fn problem(random: &mut Random, kinds: usize) -> OneSizeProblem {
    let mut side = |least: i64, sides: usize| least + i64::try_from(random.below(sides)).unwrap_or(0);
    let (square, width, height) = (side(0, 2), side(4, 3), side(4, 3));
    let longest = usize::try_from(side(2, 3)).unwrap_or(2);
    let number = side(1, kinds);
    let (mut boxes, mut left) = (Vec::new(), 8);
    for _ in 0..number {
        let (w, h, turns, count) = (side(1, longest), side(1, longest), side(0, 5), side(0, 12));
        let orientations = if turns > 1 && w != h { vec![(w, h), (h, w)] } else { vec![(w, h)] };
        let count = u64::try_from((count - 7).max(1)).unwrap_or(1).min(left);
        left -= count;
        boxes.extend((count > 0).then_some(BoxType { orientations, count }));
    }
    let share = vec![u128::MAX >> (MOST_KINDS - boxes.len()); boxes.len()];
    OneSizeProblem { width, height: if square == 0 { width } else { height }, boxes, share }
}
