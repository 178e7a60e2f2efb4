// SPDX-License-Identifier: MIT
//! Counting: so many points for a box of each kind, of which no sheet holds more than so many.
//!
//! In: boxes, one size of sheet, a number of sheets that is known to be needed. Out: few points by which that is seen. Never:
//! points that have not been proven, or more of them than can be counted by hand.
//!
//! One point for each of the largest boxes does where few of them lie on a sheet. Else points come from dual feasible functions
//! or from the linear programme over patterns: what the boxes are worth by them, in halves, thirds and so on of a sheet.
//! Wherever points come from, it is asked of the exact search whether a sheet holds more.

use std::cmp::Reverse;

use crate::layout::bound::dual_pairs::{self, WHOLE};
use crate::layout::bound::fitting::Set;
use crate::layout::bound::patterns::{self, ColumnSource};
use crate::layout::bound::pricing::{Pricing, SHEET_WORTH};
use crate::layout::model::one_size::{BoxType, OneSizeProblem};

/// What a point is worth where they are counted on a sheet; 64 are worth what a sheet is.
const POINT: u64 = SHEET_WORTH / 64;
/// Boxes on a sheet that are counted one by one.
const MOST_BOXES: u64 = 64;
/// Pairs of dual functions that are tried.
const PAIRS: usize = 3_000;
/// What the boxes' parts of a sheet are to be multiplied with.
const SCALE: u64 = SHEET_WORTH / WHOLE;
/// Points of a sheet that are still easily counted: our choice.
const MOST_POINTS: u64 = 12;

/// Points by kind; no sheet holds more than so many.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct Counting {
    pub(crate) points: Vec<u64>,
    pub(crate) most: u64,
}

/// Points by which these boxes take no fewer sheets than `bound`, which is more than one; none where none are soon found.
/// `seeds` are sheets that are known; the second pricer is for the linear programme, so that whatever it takes leaves steps for
/// what is made of it.
pub(crate) fn counted(
    problem: &OneSizeProblem,
    [pricer, for_worth]: [&mut dyn Pricing; 2],
    seeds: &[Set],
    bound: u64,
) -> Option<Counting> {
    if let Some(found) = one_each(problem, pricer, bound) {
        return Some(found);
    }
    let scaled = |sizes: Vec<u32>| -> Vec<u64> { sizes.into_iter().map(|size| u64::from(size) * SCALE).collect() };
    let by_functions = dual_pairs::proving(problem, PAIRS, bound).map(scaled);
    if let Some(found) = by_functions.and_then(|worth| by_worth(problem, pricer, &worth, bound)) {
        return Some(found);
    }
    let counts: Vec<u64> = problem.boxes.iter().map(|one| one.count).collect();
    let worth = patterns::bound(&counts, seeds, bound - 1, bound, for_worth, &mut NoColumns).worth;
    by_worth(problem, pricer, &worth, bound)
}

/// One point for each box of one kind, or of the largest by this or that measure.
fn one_each(problem: &OneSizeProblem, pricer: &mut dyn Pricing, bound: u64) -> Option<Counting> {
    let mut asked: Vec<Vec<usize>> = Vec::new();
    for (kinds, most) in candidates(problem, bound) {
        if asked.contains(&kinds) || (kinds.len() == 1 && in_rows(problem, kinds[0]) > most) {
            continue;
        }
        if pricer.steps() == 0 {
            return None;
        }
        let points: Vec<u64> = (0..problem.boxes.len()).map(|kind| kinds.contains(&kind).into()).collect();
        if holds_no_more(pricer, &points, most) {
            return Some(Counting { points, most });
        }
        asked.push(kinds);
    }
    None
}

/// Kinds that would take so many sheets if no sheet held more than so many of their boxes.
fn candidates(problem: &OneSizeProblem, bound: u64) -> Vec<(Vec<usize>, u64)> {
    let measures: [fn(i64, i64) -> i64; 3] = [i64::min, |width, height| width * height, i64::max];
    let size = |kind: usize, measure: fn(i64, i64) -> i64| {
        problem.boxes[kind].orientations.first().map_or(0, |&(width, height)| measure(width, height))
    };
    // With more than this on a sheet, one fewer might do.
    let most = |kinds: &[usize]| {
        let boxes = kinds.iter().map(|&kind| problem.boxes[kind].count).fold(0, u64::saturating_add);
        boxes.saturating_sub(1) / (bound - 1)
    };
    let mut candidates: Vec<(Vec<usize>, u64)> =
        (0..problem.boxes.len()).map(|kind| (vec![kind], most(&[kind]))).collect();
    for measure in measures {
        let mut order: Vec<usize> = (0..problem.boxes.len()).collect();
        order.sort_by_key(|&kind| (Reverse(size(kind, measure)), kind));
        let mut before = 0;
        for number in 1..=order.len() {
            let mut kinds = order[..number].to_vec();
            kinds.sort_unstable();
            let most = most(&kinds);
            // As many of more kinds lie on a sheet more easily.
            if most > before {
                candidates.push((kinds, most));
            }
            before = most;
        }
    }
    candidates.retain(|(_, most)| (1..MOST_BOXES).contains(most));
    candidates
}

/// So many boxes of a kind lie on a sheet in plain rows.
fn in_rows(problem: &OneSizeProblem, kind: usize) -> u64 {
    let BoxType { orientations, count } = &problem.boxes[kind];
    let rows = |&(width, height): &(i64, i64)| (problem.width / width.max(1)) * (problem.height / height.max(1));
    orientations.iter().map(rows).max().unwrap_or(0).unsigned_abs().min(*count)
}

/// Whether no sheet holds more points, as far as is soon known.
fn holds_no_more(pricer: &mut dyn Pricing, points: &[u64], most: u64) -> bool {
    let worth: Vec<u64> = points.iter().map(|points| points * POINT).collect();
    let heavy = pricer.heavy(&worth, most * POINT);
    heavy.sets.is_empty() && heavy.most.is_some_and(|found| found < (most + 1) * POINT)
}

/// Points by the part of a sheet that each box is worth, in halves, thirds and so on.
fn by_worth(problem: &OneSizeProblem, pricer: &mut dyn Pricing, worth: &[u64], bound: u64) -> Option<Counting> {
    let mut asked: Vec<Vec<u64>> = Vec::new();
    for of_sheet in 1..=MOST_POINTS {
        let nearest = |worth: &u64| (worth * of_sheet + SHEET_WORTH / 2) / SHEET_WORTH;
        let points: Vec<u64> = worth.iter().map(nearest).collect();
        let all: u64 = points.iter().zip(&problem.boxes).map(|(points, one)| points.saturating_mul(one.count)).sum();
        // With more than this on a sheet, one fewer might do.
        let most = all.saturating_sub(1) / (bound - 1);
        if asked.contains(&points) || !(1..=MOST_POINTS).contains(&most) || points.iter().any(|&one| one > most) {
            continue;
        }
        if pricer.steps() == 0 {
            return None;
        }
        if holds_no_more(pricer, &points, most) {
            return Some(Counting { points, most });
        }
        asked.push(points);
    }
    None
}

/// The pricer's own sets are all there is.
struct NoColumns;

impl ColumnSource for NoColumns {
    fn columns(&mut self, _worth: &[u64]) -> (Vec<Set>, u64) {
        (Vec::new(), 0)
    }

    fn step(&mut self, _steps: u64) -> bool {
        true
    }
}
