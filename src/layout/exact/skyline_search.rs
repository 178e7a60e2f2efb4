// SPDX-License-Identifier: MIT
//! Search along a skyline: where many boxes are equal, whether they lie on one sheet.
//!
//! In: boxes, a sheet, steps that may be spent. Out: their places, or that there are none, or that the steps ran out. Never: says no
//! before every case has been looked at.
//!
//! Any layout can be pushed to the left and down until nothing moves. Then every left edge is a sum of widths of other
//! boxes, and every box stands on the sheet's edge or on boxes that begin lower (Herz 1972; Christofides and Whitlock
//! 1977). So boxes are laid in the order of their lower edges, each at one of those sums and as low as it goes. What
//! lies empty below the last lower edge stays empty, so the rest must fit above it by area. Equal boxes have few such sums;
//! boxes that all differ have too many.

use std::collections::BTreeSet;

use crate::layout::exact::answer::{Answer, SameBoxes, spend, transposed};
use crate::layout::exact::skyline::{Skyline, Sums};
use crate::layout::model::packing::PlacedBox;

/// More left edges than this are not tried.
const MOST_EDGES: usize = 2000;

/// Looks for a layout of all boxes; takes what it needs from `steps`.
pub(crate) fn lie(batches: &[SameBoxes], width: i64, height: i64, steps: &mut u64) -> Answer {
    let exchanged = transposed(batches);
    let (across, upward) = (sums(batches, width, steps), sums(&exchanged, height, steps));
    let upright = match (&across, &upward) {
        (None, None) => return Answer::Unknown,
        (Some(across), Some(upward)) => across.len() <= upward.len(),
        (across, _) => across.is_some(),
    };
    let (across, upward) = (Sums::new(across), Sums::new(upward));
    if upright {
        return SkylineSearch::new(batches, (width, height), (across, upward)).answer(steps);
    }
    match SkylineSearch::new(&exchanged, (height, width), (upward, across)).answer(steps) {
        Answer::Yes(placed) => {
            let back = |put: PlacedBox| PlacedBox { x: put.y, y: put.x, width: put.height, height: put.width, ..put };
            Answer::Yes(placed.into_iter().map(back).collect())
        }
        other => other,
    }
}

/// Every sum of widths that a sheet takes, in order.
fn sums(batches: &[SameBoxes], width: i64, steps: &mut u64) -> Option<Vec<i64>> {
    let mut sums = vec![0];
    for batch in batches {
        for _ in 0..batch.count {
            let before = sums.len();
            for orientation in &batch.orientations {
                let more: Vec<i64> =
                    sums[..before].iter().map(|sum| sum + orientation.0).filter(|&sum| sum <= width).collect();
                sums.extend(more);
            }
            spend(steps, sums.len());
            sums.sort_unstable();
            sums.dedup();
            if sums.len() > MOST_EDGES {
                return None;
            }
        }
    }
    Some(sums)
}

/// States that are remembered as hopeless.
const MOST_HOPELESS: usize = 20_000;

struct SkylineSearch {
    width: i64,
    height: i64,
    batches: Vec<SameBoxes>,
    /// Left edges that a box may have.
    edges: Vec<i64>,
    /// Boxes that begin beyond this are pushed to the right.
    middle: i64,
    /// Sums of widths, and of heights.
    across: Sums,
    upward: Sums,
    placed: Vec<PlacedBox>,
    /// Area of what is not placed yet.
    left: i64,
    /// Of this batch there is one box. It may be held to the left and lower half: the rest are mirror images.
    held: Option<usize>,
    /// What was met and led nowhere.
    hopeless: BTreeSet<Vec<i64>>,
}

impl SkylineSearch {
    fn new(batches: &[SameBoxes], (width, height): (i64, i64), (across, upward): (Sums, Sums)) -> Self {
        let mut batches = batches.to_vec();
        batches.sort_by_key(|batch| std::cmp::Reverse((batch.area(), batch.kind)));
        let left = batches.iter().map(|batch| batch.area() * i64::try_from(batch.count).unwrap_or(0)).sum();
        let held = batches.iter().position(|batch| batch.count == 1);
        let (edges, middle) = across.edges(width);
        let (placed, hopeless) = (Vec::new(), BTreeSet::new());
        Self { width, height, batches, edges, middle, across, upward, placed, left, held, hopeless }
    }

    fn answer(mut self, steps: &mut u64) -> Answer {
        match self.lay((0, -1), &Skyline::new(self.width), steps) {
            Some(true) => Answer::Yes(self.placed),
            Some(false) => Answer::No,
            None => Answer::Unknown,
        }
    }

    /// Lays one more box beyond `last`, the lower edge and left edge of the box before it. None: the steps ran out.
    fn lay(&mut self, last: (i64, i64), skyline: &Skyline, steps: &mut u64) -> Option<bool> {
        if self.left == 0 {
            return Some(true);
        }
        for number in 0..self.batches.len() {
            if self.batches[number].count == 0 {
                continue;
            }
            for orientation in 0..self.batches[number].orientations.len() {
                let (width, height) = self.batches[number].orientations[orientation];
                let (mut right, mut top) = (self.width - width, self.height - height);
                if self.held == Some(number) {
                    top /= 2;
                    if right / 2 < self.middle {
                        right /= 2;
                    }
                }
                // Half of a little less than nothing would be nothing.
                if top < last.0 || self.width < width || self.height < height {
                    continue;
                }
                for edge in 0..self.edges.len() {
                    let x = self.edges[edge];
                    if x > right {
                        break;
                    }
                    spend(steps, 1 + self.placed.len() / 2);
                    if *steps == 0 {
                        return None;
                    }
                    let y = skyline.top(x, x + width);
                    if y > top || (y, x) <= last {
                        continue;
                    }
                    let kind = self.batches[number].kind;
                    self.placed.push(PlacedBox { kind, x, y, width, height });
                    self.left -= width * height;
                    self.batches[number].count -= 1;
                    let higher = skyline.with(x, x + width, y + height);
                    if self.deeper((y, x), &higher, steps)? {
                        return Some(true);
                    }
                    self.batches[number].count += 1;
                    self.left += width * height;
                    self.placed.pop();
                }
            }
        }
        Some(false)
    }

    /// Goes on from here, unless that is known to lead nowhere.
    fn deeper(&mut self, last: (i64, i64), skyline: &Skyline, steps: &mut u64) -> Option<bool> {
        spend(steps, 12 + 6 * skyline.len());
        if !self.hopeful(last, skyline) {
            return Some(false);
        }
        spend(steps, 16 + 4 * skyline.len());
        let mut state = skyline.above(last.0);
        state.extend([last.0, last.1]);
        state.extend(self.batches.iter().map(|batch| i64::try_from(batch.count).unwrap_or(0)));
        if self.hopeless.contains(&state) {
            return Some(false);
        }
        let found = self.lay(last, skyline, steps)?;
        if !found && self.hopeless.len() < MOST_HOPELESS {
            self.hopeless.insert(state);
        }
        Some(found)
    }

    /// Whether the rest may fit beyond this place, by area and one by one.
    fn hopeful(&self, last: (i64, i64), skyline: &Skyline) -> bool {
        let floor = last.0;
        let open = || self.batches.iter().enumerate().filter(|(_, batch)| batch.count > 0);
        let Some(lowest) = open().flat_map(|(_, batch)| batch.orientations.iter().map(|way| way.1)).min() else {
            return true;
        };
        self.left <= skyline.room(last, lowest, self.height, &self.across, &self.upward)
            && self.left <= skyline.rows(floor, self.height, &self.across)
            && open().all(|(number, batch)| {
                batch.orientations.iter().any(|orientation| {
                    let top = self.height - orientation.1;
                    floor <= top && (self.held != Some(number) || floor <= top / 2)
                })
            })
    }
}
