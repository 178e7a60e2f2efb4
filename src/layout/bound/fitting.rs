// SPDX-License-Identifier: MIT
//! Fit oracle: which sets of boxes lie on one sheet together, and how.
//!
//! In: sets of boxes, steps that may be spent. Out: whether they fit; each is looked at once. Never: says never of a set that
//! it could not settle.

use std::collections::BTreeMap;

use crate::layout::exact::answer::{Answer, Feasibility, SameBoxes};
use crate::layout::exact::one_sheet::{MOST_BOXES, lie};
use crate::layout::model::one_size::{BoxType, OneSizeProblem};
use crate::layout::model::packing::PlacedBox;

/// Kinds of boxes, in order, a kind as often as it is there.
pub(crate) type Set = Vec<u8>;

/// Sets whose answers are remembered.
const MOST_KNOWN: usize = 200_000;
/// Steps to tell whether three boxes fit.
const EACH_THIRD: usize = 6;
/// Steps that one set may take.
const EACH_SET: u64 = 40_000;

/// Answers for one problem.
pub(crate) struct FitOracle<'a> {
    problem: &'a OneSizeProblem,
    known: BTreeMap<Set, Feasibility>,
    /// For two kinds, those that a third box on their sheet may be of.
    thirds: Vec<Option<u128>>,
    /// Steps that are left.
    steps: u64,
    /// Steps that a set may take which matters.
    hard: u64,
}

impl<'a> FitOracle<'a> {
    pub(crate) fn new(problem: &'a OneSizeProblem, hard: u64, steps: u64) -> Self {
        Self {
            problem,
            known: BTreeMap::new(),
            thirds: vec![None; problem.boxes.len() * problem.boxes.len()],
            steps,
            hard,
        }
    }

    pub(crate) fn problem(&self) -> &'a OneSizeProblem {
        self.problem
    }

    /// Steps that are left.
    pub(crate) fn steps(&self) -> u64 {
        self.steps
    }

    pub(crate) fn spend(&mut self, steps: u64) {
        self.steps = self.steps.saturating_sub(steps);
    }

    /// Counts so many equal looks.
    pub(crate) fn spend_many(&mut self, count: usize) {
        self.spend(u64::try_from(count).unwrap_or(u64::MAX));
    }

    /// The kinds of which a box lies on one sheet with one each of two others.
    pub(crate) fn thirds(&mut self, one: usize, two: usize) -> u128 {
        let pair = one.min(two) * self.problem.boxes.len() + one.max(two);
        if let Some(known) = self.thirds[pair] {
            return known;
        }
        self.spend_many(EACH_THIRD * self.problem.boxes.len());
        let OneSizeProblem { width, height, boxes, .. } = self.problem;
        let fits = |third: &BoxType| three_lie([&boxes[one], &boxes[two], third], (*width, *height));
        let thirds = boxes.iter().enumerate().fold(0, |row, (kind, third)| row | u128::from(fits(third)) << kind);
        self.thirds[pair] = Some(thirds);
        thirds
    }

    /// Whether a set fits on one sheet, as far as that is soon known.
    pub(crate) fn fits(&mut self, set: &[u8]) -> Feasibility {
        if let Some(&known) = self.known.get(set) {
            return known;
        }
        self.asked(set, EACH_SET)
    }

    /// The same for a set that matters.
    pub(crate) fn settled(&mut self, set: &[u8]) -> Feasibility {
        match self.known.get(set) {
            Some(&known) if known != Feasibility::Unsettled => known,
            // One of them must not take it all.
            _ => self.asked(set, self.hard.min(self.steps / 8)),
        }
    }

    fn asked(&mut self, set: &[u8], most: u64) -> Feasibility {
        if set.len() > MOST_BOXES {
            return Feasibility::Unsettled;
        }
        let mut steps = most.min(self.steps);
        let before = steps;
        let answer = lie(&self.batches(set), self.problem.width, self.problem.height, &mut steps);
        self.steps -= before - steps;
        let known = answer.fit();
        if self.known.len() < MOST_KNOWN || self.known.contains_key(set) {
            self.known.insert(set.to_vec(), known);
        }
        known
    }

    /// The same for kinds that are not in order.
    pub(crate) fn laid_kinds(&mut self, kinds: &[usize]) -> Option<Vec<PlacedBox>> {
        let mut set: Set = kinds.iter().filter_map(|&kind| u8::try_from(kind).ok()).collect();
        set.sort_unstable();
        self.laid(&set)
    }

    /// How a set lies on one sheet, where that is certain.
    pub(crate) fn laid(&mut self, set: &[u8]) -> Option<Vec<PlacedBox>> {
        let mut steps = self.hard.min(self.steps);
        let before = steps;
        let answer = lie(&self.batches(set), self.problem.width, self.problem.height, &mut steps);
        self.steps -= before - steps;
        if let Answer::Yes(placed) = answer { Some(placed) } else { None }
    }

    fn batches(&self, set: &[u8]) -> Vec<SameBoxes> {
        let mut batches: Vec<SameBoxes> = Vec::new();
        for &kind in set {
            let kind = usize::from(kind);
            match batches.last_mut() {
                Some(last) if last.kind == kind => last.count += 1,
                _ => {
                    batches.push(SameBoxes {
                        kind,
                        orientations: self.problem.boxes[kind].orientations.clone(),
                        count: 1,
                    });
                }
            }
        }
        batches
    }

    /// Adds boxes to a set as long as some fit, the largest first. None if it is not certain that the set itself fits.
    pub(crate) fn filled(&mut self, set: &Set) -> Option<Set> {
        if self.settled(set) != Feasibility::Fits {
            return None;
        }
        let mut set = set.clone();
        let mut kinds: Vec<usize> = (0..self.problem.boxes.len()).collect();
        let area = |kind: usize| {
            self.problem.boxes[kind].orientations.first().map_or(0, |orientation| orientation.0 * orientation.1)
        };
        kinds.sort_by_key(|&kind| (std::cmp::Reverse(area(kind)), kind));
        let mut room =
            self.problem.width * self.problem.height - set.iter().map(|&kind| area(usize::from(kind))).sum::<i64>();
        for kind in kinds {
            let Ok(number) = u8::try_from(kind) else { continue };
            loop {
                let area = area(kind);
                let held = times(&set, number);
                let more = u64::try_from(held).is_ok_and(|held| held < self.problem.boxes[kind].count);
                let shares = set.iter().all(|&other| self.problem.share[usize::from(other)] >> kind & 1 == 1);
                if !more || !shares || area > room || set.len() >= MOST_BOXES {
                    break;
                }
                let mut larger = set.clone();
                larger.push(number);
                larger.sort_unstable();
                if self.fits(&larger) != Feasibility::Fits {
                    break;
                }
                set = larger;
                room -= area;
            }
        }
        Some(set)
    }
}

/// Whether three boxes lie on a sheet. A straight cut parts one of them from the others, however they lie.
fn three_lie(boxes: [&BoxType; 3], sheet: (i64, i64)) -> bool {
    let row = |a: i64, b: i64, c: i64, whole: i64| a + b + c <= whole;
    // The first beside the other two, of which one lies beside or on the other; and the same with the sides exchanged.
    let parted = |a: (i64, i64), b: (i64, i64), c: (i64, i64)| {
        let beside = a.0 + b.0.max(c.0) <= sheet.0 && b.1 + c.1 <= sheet.1 || row(a.0, b.0, c.0, sheet.0);
        let above = a.1 + b.1.max(c.1) <= sheet.1 && b.0 + c.0 <= sheet.0 || row(a.1, b.1, c.1, sheet.1);
        beside || above
    };
    let goes = |way: &&(i64, i64)| way.0 <= sheet.0 && way.1 <= sheet.1;
    let [first, second, third] = boxes.map(|one| one.orientations.iter().filter(goes));
    first.clone().any(|&a| {
        second.clone().any(|&b| third.clone().any(|&c| parted(a, b, c) || parted(b, a, c) || parted(c, a, b)))
    })
}

/// How often a kind is in a set, whose equal kinds lie together.
fn times(set: &[u8], kind: u8) -> usize {
    set.partition_point(|&other| other <= kind) - set.partition_point(|&other| other < kind)
}
