// SPDX-License-Identifier: MIT
//! The lower bound: how much is known about the least number of sheets, and ways to know more.
//!
//! In: the problem. Out: the best bound so far. Never: works out a dear bound before it is asked to, or one twice.

use std::collections::BTreeMap;

use crate::layout::bound::dual_pairs;
use crate::layout::bound::exclusive;
use crate::layout::bound::fitting::Set;
use crate::layout::bound::relaxation::Relaxation;
use crate::layout::model::instance::Instance;
use crate::layout::model::one_size::OneSizeProblem;
use crate::layout::model::problem::{Effort, Problem};

/// What is known.
pub(crate) struct LowerBound {
    relaxation: Option<Relaxation>,
    problem: Option<OneSizeProblem>,
    /// By item, the kind of the problem that stands for it.
    of_items: BTreeMap<usize, u8>,
    /// By kind of the instance, the kind of the problem that stands for it.
    kinds: Vec<Option<u8>>,
    pairs: usize,
    thorough: bool,
    known: u64,
}

impl LowerBound {
    pub(crate) fn new(problem: &Problem, instance: &Instance) -> Self {
        let relaxation = problem
            .sheets
            .first()
            .filter(|_| instance.one_size())
            .map(|sheet| Relaxation::new(problem.items, sheet.width, sheet.height, problem.gap));
        let known = relaxation.as_ref().map_or(1, quick);
        let pairs = match problem.effort {
            Effort::Low => 3_000,
            Effort::Normal => 40_000,
            Effort::High => 400_000,
        };
        let (problem, of_items) = relaxation.as_ref().and_then(Relaxation::one_size_problem).unzip();
        let of_items = of_items.unwrap_or_default();
        let mut bound = Self { kinds: Vec::new(), problem, of_items, relaxation, pairs, thorough: false, known };
        bound.of_kinds(instance);
        bound
    }

    /// Goes on with another instance of the same problem, whose kinds may be others.
    pub(crate) fn of_kinds(&mut self, instance: &Instance) {
        let kind = |members: &[(usize, u32)]| members.iter().find_map(|(item, _)| self.of_items.get(item).copied());
        self.kinds = instance.kinds.iter().map(|one| kind(one.members())).collect();
    }

    /// Whether there is anything to be known: sheets are of one size.
    pub(crate) fn possible(&self) -> bool {
        self.relaxation.is_some()
    }

    /// The best bound so far.
    pub(crate) fn known(&self) -> u64 {
        self.known
    }

    /// The best bound that dual functions give, if those that cost nothing leave a doubt about `sheets`.
    pub(crate) fn reach(&mut self, sheets: u64) -> u64 {
        if let Some(relaxation) = self.relaxation.as_ref().filter(|_| self.known < sheets && !self.thorough) {
            self.known = self.known.max(thorough(relaxation, self.pairs));
            self.thorough = true;
        }
        self.known
    }

    /// The best bound with boxes that exclude each other, if all others leave a doubt about `sheets`. It comes last and steers
    /// no search.
    pub(crate) fn settled(&mut self, sheets: u64) -> u64 {
        if let Some(relaxation) = self.relaxation.as_ref().filter(|_| self.known < sheets) {
            self.known = self.known.max(exclusive::sheets(&exclusive::groups(relaxation)));
        }
        self.known
    }

    /// No layout takes fewer than this.
    pub(crate) fn learn(&mut self, bound: u64) {
        self.known = self.known.max(bound);
    }

    /// The boxes as they are to be proven with, where that is possible.
    pub(crate) fn problem(&self) -> Option<&OneSizeProblem> {
        self.problem.as_ref()
    }

    /// Whether the bound sees the same boxes as the searches: none could nest, and there is no gap.
    pub(crate) fn same(&self, instance: &Instance) -> bool {
        instance.gap == 0 && self.relaxation.as_ref().is_some_and(|relaxation| !relaxation.shaped())
    }

    /// The instance's kinds for boxes of the problem, taken from what is left of them. None if it has no more.
    pub(crate) fn own(&self, set: &[u8], left: &mut [u64]) -> Option<Vec<usize>> {
        let own = |&of: &u8| {
            let kind = (0..left.len()).find(|&kind| self.kinds[kind] == Some(of) && left[kind] > 0)?;
            left[kind] -= 1;
            Some(kind)
        };
        set.iter().map(own).collect()
    }

    /// Kinds on a sheet as kinds of the problem.
    pub(crate) fn set(&self, kinds: impl Iterator<Item = usize>) -> Set {
        let mut set: Set = kinds.filter_map(|kind| self.kinds[kind]).collect();
        set.sort_unstable();
        set
    }

    /// What each kind of the instance is worth, from the worth of the problem's.
    pub(crate) fn worth(&self, worth: &[u64]) -> Vec<u64> {
        self.kinds.iter().map(|kind| kind.map_or(0, |kind| worth[usize::from(kind)])).collect()
    }
}

/// The bounds that cost next to nothing: area, and boxes of which no two share a sheet.
fn quick(relaxation: &Relaxation) -> u64 {
    relaxation.by_area().max(exclusive::number(&exclusive::alone(relaxation))).max(u64::from(relaxation.any()))
}

/// The best bound that so many pairs of dual functions give.
fn thorough(relaxation: &Relaxation, pairs: usize) -> u64 {
    let ((width, height), boxes) = relaxation.grown();
    dual_pairs::bound(width, height, &boxes, pairs)
}
