// SPDX-License-Identifier: MIT
//! Dual feasible functions.
//!
//! In: the boxes of a problem, a side of the sheet. Out: functions that may tell something about them. Never: looks at a
//! layout.
//!
//! A dual feasible function replaces lengths by other lengths such that what fitted in a row still fits. (Fekete
//! and Schepers 2004; Carlier, Clautiaux and Moukrim 2007).

use std::cmp::Ordering;

use crate::layout::model::one_size::BoxType;

/// A function on lengths from 0 to the sheet's side, in whole numbers.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum Dual {
    /// What is under the threshold vanishes, what leaves less than it counts as everything. Threshold 1 changes nothing.
    Threshold(i64),
    /// How many pieces of this length fit (Carlier, Clautiaux and Moukrim's f1).
    Pieces(i64),
    /// Rounds down to so many parts of the whole, unless exact (Fekete and Schepers' u).
    Parts(i64),
    /// How many of the problem's own boxes up to half the side fit; a longer box counts as those that it keeps out (Carlier,
    /// Clautiaux and Moukrim's data-dependent f).
    Own(OwnBoxes),
}

impl Dual {
    pub(crate) fn of(&self, length: i64, whole: i64) -> i64 {
        match self {
            Self::Threshold(least) => {
                if length > whole - least {
                    whole
                } else if length < *least {
                    0
                } else {
                    length
                }
            }
            Self::Pieces(piece) => match (2 * length).cmp(&whole) {
                Ordering::Greater => 2 * (whole / piece - (whole - length) / piece),
                Ordering::Equal => whole / piece,
                Ordering::Less => 2 * (length / piece),
            },
            Self::Parts(parts) => {
                let scaled = (parts + 1) * length;
                if scaled % whole == 0 { length * parts } else { scaled / whole * whole }
            }
            Self::Own(row) if 2 * length > whole => row.most(whole) - row.most(whole - length),
            Self::Own(row) => i64::from(length >= row.least),
        }
    }

    /// What the whole side becomes.
    pub(crate) fn whole(&self, whole: i64) -> i64 {
        match self {
            Self::Threshold(_) => whole,
            Self::Pieces(piece) => 2 * (whole / piece),
            Self::Parts(parts) => whole * parts,
            Self::Own(row) => row.most(whole),
        }
    }
}

/// The problem's boxes that are no shorter than `least` and no longer than half the side, the shortest first.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) struct OwnBoxes {
    least: i64,
    /// A length, and how many boxes of what length all together lie before it.
    steps: Vec<(i64, i64, i64)>,
    end: (i64, i64),
}

impl OwnBoxes {
    /// A box that may turn can be in a row once only: it counts with the shorter of its lengths that count at all.
    fn new(least: i64, whole: i64, boxes: &[BoxType], along: SideAlong) -> Self {
        let length = |box_type: &BoxType| {
            box_type.orientations.iter().map(along).filter(|l| (least..=whole / 2).contains(l)).min()
        };
        let count = |box_type: &BoxType| i64::try_from(box_type.count).unwrap_or(i64::MAX);
        let mut sorted: Vec<(i64, i64)> = boxes.iter().filter_map(|b| Some((length(b)?, count(b)))).collect();
        sorted.sort_unstable();
        let mut end = (0_i64, 0_i64);
        let steps = sorted.into_iter().map(|(length, count)| {
            let step = (length, end.0, end.1);
            end = (end.0.saturating_add(count), end.1.saturating_add(length.saturating_mul(count)));
            step
        });
        Self { least, steps: steps.collect(), end }
    }

    /// The most boxes that fit into `room`.
    fn most(&self, room: i64) -> i64 {
        let from = self.steps.partition_point(|&(_, _, before)| before <= room);
        match from.checked_sub(1).and_then(|last| self.steps.get(last)) {
            None => 0,
            Some(_) if self.end.1 <= room => self.end.0,
            Some(&(length, count, before)) => count + (room - before) / length.max(1),
        }
    }
}

/// Which side of an orientation runs along the sheet's side in question.
pub(crate) type SideAlong = fn(&(i64, i64)) -> i64;

/// Rounding to more parts than this is as good as no rounding.
const MOST_PARTS: i64 = 24;

/// Thresholds at which some box appears, vanishes or becomes everything; thinned evenly to `most`.
pub(crate) fn functions(whole: i64, boxes: &[BoxType], along: &[SideAlong], most: usize) -> Vec<Dual> {
    let lengths = || {
        boxes
            .iter()
            .flat_map(|box_type| &box_type.orientations)
            .flat_map(|orientation| along.iter().map(move |of| of(orientation)))
    };
    let steps = useful(lengths().flat_map(|length| [length, length + 1, whole - length + 1]).chain([1]), whole);
    let pieces = useful(lengths().flat_map(|length| [length, whole - length]), whole);
    let share = most.saturating_sub(usize::try_from(MOST_PARTS).unwrap_or(0) / 2).max(3) / 2;
    let mut functions = vec![Dual::Threshold(1)];
    functions.extend(thinned(&steps, share).map(Dual::Threshold));
    functions.extend(thinned(&pieces, share).map(Dual::Pieces));
    functions.extend((1..=MOST_PARTS).map(Dual::Parts));
    functions
}

/// Functions that count the problem's own boxes, from every length up; thinned evenly to `most`.
pub(crate) fn own(whole: i64, boxes: &[BoxType], along: SideAlong, most: usize) -> impl Iterator<Item = Dual> {
    let least = useful(boxes.iter().flat_map(|box_type| box_type.orientations.iter().map(along)), whole);
    let least: Vec<i64> = thinned(&least, most).collect();
    least.into_iter().map(move |least| Dual::Own(OwnBoxes::new(least, whole, boxes, along)))
}

/// The lengths that can be thresholds, in order.
fn useful(lengths: impl Iterator<Item = i64>, whole: i64) -> Vec<i64> {
    let mut useful: Vec<i64> = lengths.filter(|length| (1..=whole / 2).contains(length)).collect();
    useful.sort_unstable();
    useful.dedup();
    useful
}

fn thinned(list: &[i64], most: usize) -> impl Iterator<Item = i64> {
    let step = list.len().div_ceil(most.max(1)).max(1);
    list.iter().copied().step_by(step)
}
