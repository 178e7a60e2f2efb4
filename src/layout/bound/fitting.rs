// SPDX-License-Identifier: MIT
//! Fit oracle: which sets of boxes lie on one sheet together, and how.
//!
//! In: sets of boxes, steps that may be spent. Out: whether they fit; each is looked at once. Never: says never of a set that
//! it could not settle.

use std::collections::BTreeMap;

use crate::layout::exact::one_sheet::{Answer, Feasibility, MOST_BOXES, SameBoxes, lie};
use crate::layout::model::one_size::OneSizeProblem;
use crate::layout::model::packing::PlacedBox;

/// Kinds of boxes, in order, a kind as often as it is there.
pub(crate) type Set = Vec<u8>;

/// Sets whose answers are remembered.
const MOST_KNOWN: usize = 200_000;
/// Steps that one set may take.
const EACH_SET: u64 = 40_000;

/// Answers for one problem.
pub(crate) struct FitOracle<'a> {
    problem: &'a OneSizeProblem,
    known: BTreeMap<Set, Feasibility>,
    /// Steps that are left.
    steps: u64,
    /// Steps that a set may take which matters.
    hard: u64,
}

impl<'a> FitOracle<'a> {
    pub(crate) fn new(problem: &'a OneSizeProblem, hard: u64, steps: u64) -> Self {
        Self { problem, known: BTreeMap::new(), steps, hard }
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

/// How often a kind is in a set, whose equal kinds lie together.
fn times(set: &[u8], kind: u8) -> usize {
    set.partition_point(|&other| other <= kind) - set.partition_point(|&other| other < kind)
}
