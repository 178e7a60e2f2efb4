// SPDX-License-Identifier: MIT
//! The task as the searches see it: boxes that may touch, on sheets that may be filled to the rim.
//!
//! In: the job. Out: kinds of equal boxes and sizes of sheets, both grown by the gap to the right and upwards, so that a
//! gap between boxes becomes "do not overlap"; and, at the end, the way back from kinds to items. Never: searches.

use std::collections::BTreeMap;

use crate::layout::model::packing::{Draft, Laid, Put};
use crate::layout::model::problem::{Cuts, Item, Job, Sheet, Turn};
use crate::layout::model::solution::{LaidSheet, NoLayout, Placement};
use crate::layout::trimmer::cut_plan;

/// No sheet, gap or part counts as longer than this (134 m), so that every area fits an `i64`.
pub(crate) const LONGEST: i64 = 1 << 30;

/// One way to lay a box, grown by the gap.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Pose {
    pub(crate) width: i64,
    pub(crate) height: i64,
}

/// Boxes that are equal to the searches, whatever items they come from.
#[derive(Clone, Debug)]
pub(crate) struct Kind {
    poses: [Pose; 2],
    pose_count: usize,
    pub(crate) count: u64,
    members: Vec<(usize, u32)>,
}

impl Kind {
    /// The one or two ways to lay it.
    pub(crate) fn poses(&self) -> &[Pose] {
        &self.poses[..self.pose_count]
    }

    /// The first pose: the narrow one where both are allowed.
    pub(crate) fn pose(&self) -> Pose {
        self.poses[0]
    }

    pub(crate) fn area(&self) -> i64 {
        self.poses[0].width * self.poses[0].height
    }

    /// The job's items that it stands for, and how many of each.
    pub(crate) fn members(&self) -> &[(usize, u32)] {
        &self.members
    }
}

/// A sheet that can be opened.
#[derive(Clone, Debug)]
pub(crate) struct Size {
    pub(crate) width: i64,
    pub(crate) height: i64,
    /// How many there are; `None` is as many as needed.
    pub(crate) supply: Option<u64>,
    /// What one costs: millionths of its price where every sheet has one, its area otherwise.
    pub(crate) cost: u128,
}

impl Size {
    pub(crate) fn area(&self) -> i64 {
        self.width * self.height
    }
}

/// The task.
#[derive(Clone, Debug)]
pub(crate) struct Frame {
    pub(crate) kinds: Vec<Kind>,
    pub(crate) sizes: Vec<Size>,
    pub(crate) gap: i64,
    /// Every sheet is cut apart from edge to edge.
    pub(crate) trimmer: bool,
}

impl Frame {
    pub(crate) fn new(job: &Job, cuts: Cuts) -> Result<Self, NoLayout> {
        let gap = trim(job.gap, 0);
        let mut grouped: BTreeMap<(Pose, Pose), Vec<(usize, u32)>> = BTreeMap::new();
        let sizes = sizes(job.sheets, gap);
        let mut too_big = Vec::new();
        for (number, item) in job.items.iter().enumerate().filter(|(_, item)| item.count > 0) {
            let poses = poses(item, gap);
            let fits = |pose: &Pose| sizes.iter().any(|size| pose.width <= size.width && pose.height <= size.height);
            match (poses.iter().min(), poses.iter().max()) {
                (Some(&narrow), Some(&wide)) if poses.iter().any(fits) || sizes.is_empty() => {
                    grouped.entry((narrow, wide)).or_default().push((number, item.count));
                }
                _ => too_big.push(number),
            }
        }
        if !too_big.is_empty() {
            return Err(NoLayout::TooBig { items: too_big });
        }
        let kinds: Vec<Kind> = grouped
            .into_iter()
            .map(|((narrow, wide), members)| Kind {
                poses: [narrow, wide],
                pose_count: if narrow == wide { 1 } else { 2 },
                count: members.iter().map(|&(_, count)| u64::from(count)).sum(),
                members,
            })
            .collect();
        Ok(Self { kinds, sizes, gap, trimmer: cuts == Cuts::Trimmer })
    }

    /// The least width and the least height of any pose of these kinds.
    pub(crate) fn least(&self, kinds: &[usize]) -> Pose {
        let none = Pose { width: 2 * LONGEST, height: 2 * LONGEST };
        kinds.iter().flat_map(|&kind| self.kinds[kind].poses()).fold(none, |least, pose| Pose {
            width: least.width.min(pose.width),
            height: least.height.min(pose.height),
        })
    }

    pub(crate) fn counts(&self) -> Vec<u64> {
        self.kinds.iter().map(|kind| kind.count).collect()
    }

    /// All the pieces there are.
    pub(crate) fn pieces(&self) -> u64 {
        self.kinds.iter().map(|kind| kind.count).fold(0, u64::saturating_add)
    }

    /// Whether there is but one size of sheet, however many entries it has.
    pub(crate) fn one_size(&self) -> bool {
        self.sizes.windows(2).all(|pair| pair[0].width == pair[1].width && pair[0].height == pair[1].height)
    }

    /// Gives the boxes of a draft back to the items they stand for. A sheet that repeats stays one entry as long as the
    /// items' counts allow, so equal parts of several items do not break a long run into many short ones.
    pub(crate) fn deal(&self, draft: &Draft, items: &[Item]) -> Vec<LaidSheet> {
        let mut hands: Vec<Vec<(usize, u32)>> = self.kinds.iter().map(|kind| kind.members.clone()).collect();
        let mut sheets = Vec::new();
        for laid in &draft.laid {
            let slots = slots(laid);
            let cut = if self.trimmer { cut_plan::cuts(self, laid) } else { None };
            let (cuts, puts) = cut.map_or((None, laid.puts.clone()), |(piece, puts)| (Some(piece), puts));
            let mut left = laid.times;
            while left > 0 {
                let run = slots.iter().map(|(&kind, &slots)| longest_run(&hands[kind], slots)).min().unwrap_or(0);
                let run = run.min(u32::try_from(left).unwrap_or(u32::MAX));
                if run == 0 {
                    break;
                }
                let placements =
                    puts.iter().filter_map(|put| self.placement(put, &mut hands[put.kind], run, items)).collect();
                sheets.push(LaidSheet { sheet: laid.size, times: run, placements, cuts: cuts.clone() });
                left -= u64::from(run);
            }
        }
        sheets
    }

    fn placement(&self, put: &Put, hand: &mut [(usize, u32)], run: u32, items: &[Item]) -> Option<Placement> {
        let (item, left) = hand.iter_mut().find(|(_, left)| *left >= run)?;
        *left -= run;
        let (item, wanted) = (*item, items.get(*item)?);
        let as_drawn = trim(wanted.width, 1) + self.gap == put.width && trim(wanted.height, 1) + self.gap == put.height;
        let turns: &[Turn] = if as_drawn { &[Turn::None, Turn::Half] } else { &[Turn::Quarter, Turn::ThreeQuarter] };
        // A square of which only quarter turns are allowed looks as drawn and is not.
        let turn = turns.iter().chain(&Turn::ALL).copied().find(|&turn| wanted.turns.allows(turn))?;
        Some(Placement { item, x: put.x, y: put.y, turn })
    }

    /// What a draft leaves undone, by item.
    pub(crate) fn left_over(&self, draft: &Draft) -> Vec<(usize, u32)> {
        let mut left: Vec<(usize, u32)> = Vec::new();
        for (kind, &count) in self.kinds.iter().zip(&draft.left) {
            let mut missing = count;
            for &(item, held) in kind.members.iter().rev() {
                let part = u32::try_from(missing).unwrap_or(u32::MAX).min(held);
                if part > 0 {
                    left.push((item, part));
                    missing -= u64::from(part);
                }
            }
        }
        left.sort_unstable();
        left
    }
}

/// How often one sheet uses each kind.
fn slots(laid: &Laid) -> BTreeMap<usize, u64> {
    let mut slots = BTreeMap::new();
    for put in &laid.puts {
        *slots.entry(put.kind).or_insert(0) += 1;
    }
    slots
}

/// The most sheets in a row that give each of `slots` places one item for all of them.
fn longest_run(hand: &[(usize, u32)], slots: u64) -> u32 {
    let enough = |run: u32| hand.iter().map(|&(_, left)| u64::from(left / run)).sum::<u64>() >= slots;
    let (mut good, mut bad) = (0, hand.iter().map(|&(_, left)| left).max().unwrap_or(0).saturating_add(1));
    while bad - good > 1 {
        let middle = good + (bad - good) / 2;
        if enough(middle) { good = middle } else { bad = middle }
    }
    good
}

/// A size kept within what the engine counts with.
pub(crate) fn trim(size: i64, least: i64) -> i64 {
    size.clamp(least, LONGEST)
}

/// The different boxes that the allowed turns make of an item, grown by the gap.
fn poses(item: &Item, gap: i64) -> Vec<Pose> {
    // A part longer than the longest sheet must stay longer, or it would seem to fit.
    let grown = |size: i64| size.clamp(1, LONGEST + 1) + gap;
    let (width, height) = (grown(item.width), grown(item.height));
    let mut poses = Vec::new();
    if item.turns.upright() {
        poses.push(Pose { width, height });
    }
    if item.turns.sideways() {
        poses.push(Pose { width: height, height: width });
    }
    poses
}

fn sizes(sheets: &[Sheet], gap: i64) -> Vec<Size> {
    let priced = sheets.iter().all(|sheet| sheet.price.is_some_and(|price| price.is_finite() && price >= 0.0));
    sheets
        .iter()
        .map(|sheet| {
            let (width, height) = (trim(sheet.width, 0), trim(sheet.height, 0));
            let area = u128::from(width.unsigned_abs()) * u128::from(height.unsigned_abs());
            Size {
                width: width + gap,
                height: height + gap,
                supply: sheet.count.map(u64::from),
                cost: if priced { millionths(sheet.price.unwrap_or(0.0)) } else { area },
            }
        })
        .collect()
}

/// A price in whole millionths, so that equal sums are equal whatever order they are added in.
fn millionths(price: f64) -> u128 {
    u128::from(crate::layout::numbers::whole(price * 1e6 + 0.5))
}
