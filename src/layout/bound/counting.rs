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
    if let Some(found) = first_that_holds(pricer, one_each(problem, bound)) {
        return Some(found);
    }
    if let Some(sizes) = dual_pairs::proving(problem, PAIRS, bound) {
        let worth: Vec<u64> = sizes.into_iter().map(|size| u64::from(size) * SCALE).collect();
        if let Some(found) = first_that_holds(pricer, by_worth(problem, &worth, bound)) {
            return Some(found);
        }
    }
    let counts: Vec<u64> = problem.boxes.iter().map(|one| one.count).collect();
    let worth = patterns::bound(&counts, seeds, bound - 1, bound, for_worth, &mut NoColumns).worth;
    first_that_holds(pricer, by_worth(problem, &worth, bound))
}

/// The first of these that holds, as far as is soon known.
fn first_that_holds(pricer: &mut dyn Pricing, candidates: impl IntoIterator<Item = Counting>) -> Option<Counting> {
    let mut asked: Vec<Counting> = Vec::new();
    for counting in candidates {
        if asked.contains(&counting) {
            continue;
        }
        if pricer.steps() == 0 {
            return None;
        }
        if counting.holds(pricer) {
            return Some(counting);
        }
        asked.push(counting);
    }
    None
}

impl Counting {
    /// These points, and the most that a sheet may hold of them if so many are to be needed: with more, one fewer might do.
    fn new(problem: &OneSizeProblem, points: Vec<u64>, bound: u64) -> Self {
        let all = points.iter().zip(&problem.boxes).map(|(points, one)| points.saturating_mul(one.count));
        let all = all.fold(0, u64::saturating_add);
        Self { points, most: all.saturating_sub(1) / (bound - 1) }
    }

    /// Whether no sheet holds more points, as far as is soon known.
    fn holds(&self, pricer: &mut dyn Pricing) -> bool {
        let worth: Vec<u64> = self.points.iter().map(|points| points * POINT).collect();
        let heavy = pricer.heavy(&worth, self.most * POINT);
        heavy.sets.is_empty() && heavy.most.is_some_and(|found| found < (self.most + 1) * POINT)
    }
}

/// One point for each box of one kind, or of the largest by this or that measure.
fn one_each(problem: &OneSizeProblem, bound: u64) -> Vec<Counting> {
    let measures: [fn(i64, i64) -> i64; 3] = [i64::min, |width, height| width * height, i64::max];
    let size = |kind: usize, measure: fn(i64, i64) -> i64| {
        problem.boxes[kind].orientations.first().map_or(0, |&(width, height)| measure(width, height))
    };
    let counting = |kinds: &[usize]| {
        let points = (0..problem.boxes.len()).map(|kind| kinds.contains(&kind).into()).collect();
        Counting::new(problem, points, bound)
    };
    let single = (0..problem.boxes.len()).map(|kind| (kind, counting(&[kind])));
    let mut countings: Vec<Counting> =
        single.filter(|(kind, one)| in_rows(problem, *kind) <= one.most).map(|(_, one)| one).collect();
    for measure in measures {
        let mut order: Vec<usize> = (0..problem.boxes.len()).collect();
        order.sort_by_key(|&kind| (Reverse(size(kind, measure)), kind));
        let largest = (1..=order.len()).map(|number| counting(&order[..number]));
        // As many of more kinds lie on a sheet more easily.
        let mut before = 0;
        countings.extend(largest.filter(|one| one.most > std::mem::replace(&mut before, one.most)));
    }
    countings.retain(|one| (1..MOST_BOXES).contains(&one.most));
    countings
}

/// So many boxes of a kind lie on a sheet in plain rows.
fn in_rows(problem: &OneSizeProblem, kind: usize) -> u64 {
    let BoxType { orientations, count } = &problem.boxes[kind];
    let rows = |&(width, height): &(i64, i64)| (problem.width / width.max(1)) * (problem.height / height.max(1));
    orientations.iter().map(rows).max().unwrap_or(0).unsigned_abs().min(*count)
}

/// Points by the part of a sheet that each box is worth, in halves, thirds and so on.
fn by_worth(problem: &OneSizeProblem, worth: &[u64], bound: u64) -> impl Iterator<Item = Counting> {
    let points = move |of_sheet: u64| {
        let nearest = |worth: &u64| (worth * of_sheet + SHEET_WORTH / 2) / SHEET_WORTH;
        Counting::new(problem, worth.iter().map(nearest).collect(), bound)
    };
    let easily_counted =
        |one: &Counting| (1..=MOST_POINTS).contains(&one.most) && one.points.iter().all(|&points| points <= one.most);
    (1..=MOST_POINTS).map(points).filter(easily_counted)
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
