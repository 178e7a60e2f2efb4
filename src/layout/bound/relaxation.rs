// SPDX-License-Identifier: MIT
//! How many sheets are needed at least, whoever lays them.
//!
//! In: items with their true shapes, one size of sheet, the gap. Out: a number that no layout can beat. Never: rounds in
//! its own favour; every bound is decided in whole numbers, floating ones only say where to look.
//!
//! A box (an item without a contour) may not be nested, so its sides count; an item with a contour counts by its area and by
//! the sides of a box inside it. The gap is a distance between shapes, corner to corner as well: growing every shape and the sheet by half of it
//! all round (with round corners) makes shapes that do not overlap, and the square inside that round corner does the same
//! for boxes.

use std::collections::BTreeMap;

use crate::layout::bound::dual_feasible;
use crate::layout::bound::inscribed;
use crate::layout::bound::pricing::{MOST_KINDS, Room};
use crate::layout::model::instance::trim;
use crate::layout::model::problem::Item;
use crate::layout::numbers::whole;

/// One size of sheet and what must go on it.
#[derive(Clone, Debug)]
pub(crate) struct Need {
    width: i64,
    height: i64,
    gap: i64,
    boxes: Vec<Boxed>,
    /// The number of the item that each box is.
    items: Vec<usize>,
    /// Area of all shapes, grown by half the gap all round.
    area: u128,
    any: bool,
    /// Some items have outlines of their own.
    shaped: bool,
}

/// An item that is its own bounding box, or the box inside one that is not.
#[derive(Clone, Debug)]
pub(crate) struct Boxed {
    /// Width and height in every pose allowed; one or two of them.
    pub(crate) poses: Vec<(i64, i64)>,
    pub(crate) count: u64,
}

/// How many boxes are alike, and which items they are.
type Alike = (u64, Vec<usize>);

impl Need {
    /// The need of `items` on sheets of this usable size.
    pub(crate) fn new(items: &[Item], width: i64, height: i64, gap: i64) -> Self {
        let gap = trim(gap, 0);
        let mut need = Self {
            width: trim(width, 0),
            height: trim(height, 0),
            gap,
            boxes: Vec::new(),
            items: Vec::new(),
            area: 0,
            any: false,
            shaped: false,
        };
        for (number, item) in items.iter().enumerate().filter(|(_, item)| item.count > 0) {
            need.any = true;
            let (width, height) = (trim(item.width, 1), trim(item.height, 1));
            let mut grown = grown_box(width, height, gap, PI_LESS);
            if let Some(contour) = &item.contour {
                grown = grown.min(grown_shape(contour.area(), gap));
                need.shaped = true;
                let inner = inscribed::box_inside(contour).map(|(width, height)| (eighths(width), eighths(height)));
                if let Some((inner_width, inner_height)) = inner.filter(|inner| inner.0 > 0 && inner.1 > 0) {
                    need.add(number, item, inner_width.min(width), inner_height.min(height));
                }
            } else {
                need.add(number, item, width, height);
            }
            need.area = need.area.saturating_add(grown.saturating_mul(u128::from(item.count)));
        }
        need
    }

    fn add(&mut self, number: usize, item: &Item, width: i64, height: i64) {
        let mut poses = Vec::new();
        if item.turns.upright() {
            poses.push((width, height));
        }
        if item.turns.sideways() && (width != height || poses.is_empty()) {
            poses.push((height, width));
        }
        self.boxes.push(Boxed { poses, count: u64::from(item.count) });
        self.items.push(number);
    }

    /// Whether some parts are more than the boxes that stand for them here.
    pub(crate) fn shaped(&self) -> bool {
        self.shaped
    }

    /// The bounds that cost next to nothing: area, and boxes of which no two share a sheet.
    pub(crate) fn quick(&self) -> u64 {
        let sheet = grown_box(self.width, self.height, self.gap, PI_MORE).max(1);
        let by_area = u64::try_from(self.area.div_ceil(sheet)).unwrap_or(u64::MAX);
        by_area.max(self.loners()).max(u64::from(self.any))
    }

    /// The best bound that `effort` pairs of dual functions give, or `quick` if that is better.
    pub(crate) fn thorough(&self, pairs: usize) -> u64 {
        // The largest square in the corner circle has a side of gap / sqrt 2.
        let grow = (self.gap * self.gap / 2).isqrt();
        let grown = self.boxes.iter().map(|boxed| Boxed {
            poses: boxed.poses.iter().map(|&(width, height)| (width + grow, height + grow)).collect(),
            count: boxed.count,
        });
        self.quick().max(dual_feasible::bound(self.width + grow, self.height + grow, &grown.collect::<Vec<_>>(), pairs))
    }

    /// The boxes for the bound by patterns: equal ones together, grown by as much of the gap as holds corner to corner;
    /// and the kind of each item that is a box. None where there are more kinds than it takes.
    pub(crate) fn room(&self) -> Option<(Room, BTreeMap<usize, u8>)> {
        let grow = (self.gap * self.gap / 2).isqrt();
        let mut kinds: BTreeMap<Vec<(i64, i64)>, Alike> = BTreeMap::new();
        for (boxed, &item) in self.boxes.iter().zip(&self.items) {
            let mut poses = boxed.poses.clone();
            poses.sort_unstable();
            let kind = kinds.entry(poses).or_default();
            kind.0 += boxed.count;
            kind.1.push(item);
        }
        if kinds.is_empty() || kinds.len() > MOST_KINDS {
            return None;
        }
        let of_items = kinds.values().zip(0_u8..).flat_map(|((_, items), kind)| items.iter().map(move |&i| (i, kind)));
        let of_items = of_items.collect();
        let boxes: Vec<Boxed> = kinds.into_iter().map(|(poses, (count, _))| Boxed { poses, count }).collect();
        let share = |one: &Boxed| {
            let bits = boxes.iter().enumerate().map(|(kind, other)| u128::from(self.may_share(one, other)) << kind);
            bits.fold(0, |row, bit| row | bit)
        };
        let share = boxes.iter().map(share).collect();
        let grown = |pose: &(i64, i64)| (pose.0 + grow, pose.1 + grow);
        let boxes = boxes
            .iter()
            .map(|boxed| Boxed { poses: boxed.poses.iter().map(grown).collect(), count: boxed.count })
            .collect();
        Some((Room { width: self.width + grow, height: self.height + grow, boxes, share }, of_items))
    }

    /// How many boxes there are of which no two can share a sheet; picked greedily, the thickest first.
    fn loners(&self) -> u64 {
        let mut large: Vec<&Boxed> = self.boxes.iter().filter(|boxed| !self.may_share(boxed, boxed)).collect();
        let least = |boxed: &Boxed| boxed.poses.iter().map(|&(width, height)| width.min(height)).min().unwrap_or(0);
        large.sort_by_key(|boxed| std::cmp::Reverse(least(boxed)));
        let mut alone: Vec<&Boxed> = Vec::new();
        for boxed in large {
            if alone.len() < MOST_COMPARED && alone.iter().all(|other| !self.may_share(boxed, other)) {
                alone.push(boxed);
            }
        }
        alone.iter().map(|boxed| boxed.count).fold(0, u64::saturating_add)
    }

    fn may_share(&self, one: &Boxed, other: &Boxed) -> bool {
        one.poses.iter().any(|a| {
            other.poses.iter().any(|b| {
                let (beside, above) = (self.width - a.0 - b.0, self.height - a.1 - b.1);
                beside >= self.gap
                    || above >= self.gap
                    || (beside >= 0 && above >= 0 && beside * beside + above * above >= self.gap * self.gap)
            })
        })
    }
}

/// So many different boxes are compared with each other.
const MOST_COMPARED: usize = 500;

/// Millionths of a quarter of pi, a little less and a little more.
const PI_LESS: u128 = 785_398;
const PI_MORE: u128 = 785_399;

/// Area of a box grown by half the gap all round, with round corners.
fn grown_box(width: i64, height: i64, gap: i64, quarter_pi: u128) -> u128 {
    let [width, height, gap] = [width, height, gap].map(|size| u128::from(size.unsigned_abs()));
    let corners = gap * gap * quarter_pi;
    let corners = if quarter_pi == PI_MORE { corners.div_ceil(1_000_000) } else { corners / 1_000_000 };
    width * height + (width + height) * gap + corners
}

/// Whole eighths of a micrometre in so many millimetres.
fn eighths(length: f64) -> i64 {
    i64::try_from(whole(length * 8000.0)).map_or(0, |length| trim(length, 0))
}

/// Least area of a shape of `area` square millimetres grown by half the gap all round.
///
/// Brunn and Minkowski: no shape of that area grows less than a circle does. That holds with notches and bays, where the
/// outline's length would promise too much.
fn grown_shape(area: f64, gap: i64) -> u128 {
    const SQUARE_MILLIMETRE: f64 = 64e6;
    // Far more than the contour's and our own rounding.
    const SAFE: f64 = 1.0 - 1e-9;
    let area = if area.is_finite() { area.max(0.0) * SQUARE_MILLIMETRE } else { 0.0 };
    let half_gap = crate::layout::numbers::nearly(gap.unsigned_abs()) / 2.0;
    let radius = (area / std::f64::consts::PI).sqrt() + half_gap;
    u128::from(whole(std::f64::consts::PI * radius * radius * SAFE))
}
