// SPDX-License-Identifier: MIT
//! Exact bin packing of few boxes: every way to share them out among sheets is tried, which settles how many it takes.
//!
//! In: kinds of boxes, one size of sheet, whether it is cut from edge to edge, steps that may be spent. Out: a number of
//! sheets that cannot be beaten, and a layout; where the steps sufficed, the same number. Never: looks at more than a few
//! thousand loads.
//!
//! A load is so many of each kind. Which loads fit on one sheet comes from the exact search for one sheet or, for a trimmer,
//! from all outlines that a load can have (every cut parts a load in two); then dynamic programming over loads.

use crate::layout::exact::answer::{Answer, Feasibility, SameBoxes};
use crate::layout::exact::one_sheet::lie;
use crate::layout::model::one_size::{BoxType, MOST_KINDS, OneSizeProblem};
use crate::layout::model::packing::PlacedBox;

/// No more loads than this.
const MOST_LOADS: usize = 2500;
/// No more boxes than this.
const MOST_BOXES: u64 = 24;
/// Steps that one load may take.
const EACH_LOAD: u64 = 300_000;
/// More outlines of one load than this are not kept, so what depends on them is not settled.
const MOST_OUTLINES: usize = 60;

/// What is certain.
#[derive(Clone, Debug)]
pub(crate) struct Settled {
    /// No layout takes fewer sheets.
    pub(crate) least: u64,
    /// The sheets of a layout, if one was found.
    pub(crate) sheets: Option<Vec<Vec<PlacedBox>>>,
}

/// One way to cut a load: its outline, and how it came about.
#[derive(Clone, Copy, Debug)]
struct Outline {
    width: i64,
    height: i64,
    made: Made,
}

#[derive(Clone, Copy, Debug)]
enum Made {
    Box {
        kind: usize,
    },
    /// Two loads and which of their outlines, beside or above each other.
    Two {
        first: (usize, usize),
        second: (usize, usize),
        beside: bool,
    },
}

/// Tries everything. None if there are too many boxes for that, or the steps ran out.
pub(crate) fn settle(problem: &OneSizeProblem, trimmer: bool, steps: &mut u64) -> Option<Settled> {
    let boxes = problem.boxes.iter().map(|kind| kind.count).fold(0, u64::saturating_add);
    let mut loads = 1_usize;
    for kind in &problem.boxes {
        let choices = usize::try_from(kind.count).ok()?.checked_add(1)?;
        loads = loads.checked_mul(choices).filter(|&loads| loads <= MOST_LOADS)?;
    }
    if boxes == 0 || boxes > MOST_BOXES || problem.boxes.len() > MOST_KINDS {
        return None;
    }
    let mut subsets = Subsets::new(problem, trimmer, loads);
    if trimmer {
        subsets.cut(steps)?;
    } else {
        subsets.lay(steps)?;
    }
    let (least, _) = subsets.fewest(true, steps)?;
    let (most, parts) = subsets.fewest(false, steps)?;
    let sheets = most.map(|_| parts).and_then(|parts| parts.into_iter().map(|load| subsets.placed(load)).collect());
    Some(Settled { least: least.unwrap_or(1), sheets })
}

struct Subsets<'a> {
    problem: &'a OneSizeProblem,
    /// Sheets are cut from edge to edge.
    trimmer: bool,
    /// The loads by number: so many of each kind.
    loads: Vec<Vec<u64>>,
    /// What one more of a kind adds to a load's number.
    weight: Vec<usize>,
    known: Vec<Feasibility>,
    outlines: Vec<Vec<Outline>>,
    /// By load, whether all its outlines are there.
    complete: Vec<bool>,
}

impl<'a> Subsets<'a> {
    fn new(problem: &'a OneSizeProblem, trimmer: bool, count: usize) -> Self {
        let mut weight = Vec::new();
        let mut product = 1;
        for kind in &problem.boxes {
            weight.push(product);
            product *= usize::try_from(kind.count).unwrap_or(0) + 1;
        }
        let load = |number: usize| {
            let copies =
                |(&weight, kind): (&usize, &BoxType)| u64::try_from(number / weight).unwrap_or(0) % (kind.count + 1);
            weight.iter().zip(&problem.boxes).map(copies).collect()
        };
        let loads = (0..count).map(load).collect();
        Self {
            problem,
            trimmer,
            loads,
            weight,
            known: vec![Feasibility::Never; count],
            outlines: vec![Vec::new(); count],
            complete: vec![true; count],
        }
    }

    /// Whether some box can be taken away so that the rest fits nowhere; or two boxes never share a sheet.
    fn hopeless(&self, number: usize) -> bool {
        let load = &self.loads[number];
        let boxes: u64 = load.iter().sum();
        let kinds = || (0..load.len()).filter(|&kind| load[kind] > 0);
        let fewer = boxes > 1 && kinds().any(|kind| self.known[number - self.weight[kind]] == Feasibility::Never);
        let apart = kinds().any(|one| {
            kinds().any(|other| (one != other || load[one] > 1) && self.problem.share[one] >> other & 1 == 0)
        });
        fewer || apart
    }

    /// Which loads fit on a sheet, however it is cut.
    fn lay(&mut self, steps: &mut u64) -> Option<()> {
        for number in 1..self.loads.len() {
            if self.hopeless(number) {
                continue;
            }
            if *steps == 0 {
                return None;
            }
            let mut own = EACH_LOAD.min(*steps);
            let before = own;
            let answer = lie(&self.batches(number), self.problem.width, self.problem.height, &mut own);
            *steps -= before - own;
            self.known[number] = answer.fit();
        }
        Some(())
    }

    fn batches(&self, number: usize) -> Vec<SameBoxes> {
        let some = self.loads[number].iter().zip(&self.problem.boxes).enumerate().filter(|(_, (count, _))| **count > 0);
        some.map(|(kind, (&count, box_type))| SameBoxes {
            kind,
            orientations: box_type.orientations.clone(),
            count: usize::try_from(count).unwrap_or(usize::MAX),
        })
        .collect()
    }

    /// Which loads can be cut from a sheet from edge to edge.
    fn cut(&mut self, steps: &mut u64) -> Option<()> {
        for number in 1..self.loads.len() {
            if self.hopeless(number) {
                continue;
            }
            let mut outlines: Vec<Outline> = Vec::new();
            let boxes: u64 = self.loads[number].iter().sum();
            let mut all = true;
            if boxes == 1 {
                let kind = self.loads[number].iter().position(|&count| count > 0)?;
                for &(width, height) in &self.problem.boxes[kind].orientations {
                    self.offer(&mut outlines, Outline { width, height, made: Made::Box { kind } });
                }
            }
            for first in 1..=number / 2 {
                *steps = steps.checked_sub(1)?;
                let second = number - first;
                if !self.holds(number, first) {
                    continue;
                }
                all &= self.complete[first] && self.complete[second];
                for a in 0..self.outlines[first].len() {
                    for b in 0..self.outlines[second].len() {
                        *steps = steps.checked_sub(2)?;
                        let (one, other) = (self.outlines[first][a], self.outlines[second][b]);
                        for beside in [true, false] {
                            let (width, height) = if beside {
                                (one.width + other.width, one.height.max(other.height))
                            } else {
                                (one.width.max(other.width), one.height + other.height)
                            };
                            let made = Made::Two { first: (first, a), second: (second, b), beside };
                            self.offer(&mut outlines, Outline { width, height, made });
                        }
                    }
                }
            }
            if outlines.len() > MOST_OUTLINES {
                outlines.truncate(MOST_OUTLINES);
                all = false;
            }
            self.known[number] = match (outlines.is_empty(), all) {
                (false, _) => Feasibility::Fits,
                (true, true) => Feasibility::Never,
                (true, false) => Feasibility::Unsettled,
            };
            self.complete[number] = all;
            self.outlines[number] = outlines;
        }
        Some(())
    }

    /// Keeps an outline unless it is too large or another is no larger either way.
    fn offer(&self, outlines: &mut Vec<Outline>, new: Outline) {
        if new.width > self.problem.width || new.height > self.problem.height {
            return;
        }
        if outlines.iter().any(|old| old.width <= new.width && old.height <= new.height) {
            return;
        }
        outlines.retain(|old| old.width < new.width || old.height < new.height);
        outlines.push(new);
    }

    fn holds(&self, number: usize, part: usize) -> bool {
        self.loads[part].iter().zip(&self.loads[number]).all(|(part, whole)| part <= whole)
    }

    /// The fewest sheets for all boxes and the load of each; with loads that are not settled, or without.
    fn fewest(&self, unsettled: bool, steps: &mut u64) -> Option<(Option<u64>, Vec<usize>)> {
        let counts = |number: usize| match self.known[number] {
            Feasibility::Fits => true,
            Feasibility::Never => false,
            Feasibility::Unsettled => unsettled,
        };
        let loads: Vec<usize> = (1..self.loads.len()).filter(|&number| counts(number)).collect();
        let mut least: Vec<Option<(u64, usize)>> = vec![None; self.loads.len()];
        for number in 1..self.loads.len() {
            *steps = steps.checked_sub(u64::try_from(loads.len()).unwrap_or(u64::MAX))?;
            // The first kind must be on some sheet, so it may as well be on this one.
            let first = self.loads[number].iter().position(|&count| count > 0)?;
            let mut best: Option<(u64, usize)> = None;
            for &load in loads.iter().take_while(|&&load| load <= number) {
                if self.loads[load][first] == 0 || !self.holds(number, load) {
                    continue;
                }
                let rest = if load == number { Some(0) } else { least[number - load].map(|(sheets, _)| sheets) };
                if let Some(sheets) = rest.map(|rest| rest + 1).filter(|&s| best.is_none_or(|(other, _)| s < other)) {
                    best = Some((sheets, load));
                }
            }
            least[number] = best;
        }
        let all = self.loads.len() - 1;
        let mut parts = Vec::new();
        let mut left = all;
        while left > 0 {
            let Some((_, load)) = least[left] else { break };
            parts.push(load);
            left -= load;
        }
        Some((least[all].map(|(sheets, _)| sheets), parts))
    }

    /// Where a load that fits lies.
    fn placed(&self, number: usize) -> Option<Vec<PlacedBox>> {
        if !self.trimmer {
            let mut steps = EACH_LOAD;
            return match lie(&self.batches(number), self.problem.width, self.problem.height, &mut steps) {
                Answer::Yes(placed) => Some(placed),
                Answer::No | Answer::Unknown => None,
            };
        }
        let mut placed = Vec::new();
        self.put(number, 0, (0, 0), &mut placed);
        Some(placed)
    }

    fn put(&self, number: usize, which: usize, (x, y): (i64, i64), placed: &mut Vec<PlacedBox>) {
        let Outline { width, height, made } = self.outlines[number][which];
        match made {
            Made::Box { kind } => placed.push(PlacedBox { kind, x, y, width, height }),
            Made::Two { first, second, beside } => {
                let one = self.outlines[first.0][first.1];
                self.put(first.0, first.1, (x, y), placed);
                let at = if beside { (x + one.width, y) } else { (x, y + one.height) };
                self.put(second.0, second.1, at, placed);
            }
        }
    }
}
