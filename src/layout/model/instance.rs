// SPDX-License-Identifier: MIT
//! The instance as the searches see it: boxes that may touch, on sheets that may be filled to the rim.
//!
//! In: the problem. Out: kinds of equal boxes and sizes of sheets, both grown by the gap to the right and upwards, so that a
//! gap between boxes becomes "do not overlap"; and the items that each kind stands for. Never: searches.

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::layout::model::one_size::{BoxType, OneSizeProblem};
use crate::layout::model::problem::{Cuts, Item, Problem, SheetType};
use crate::layout::model::rect::Rect;
use crate::layout::model::solution::NoLayout;

/// No sheet, gap or part counts as longer than this (134 m), so that every area fits an `i64`.
pub(crate) const LONGEST: i64 = 1 << 30;

/// One way to lay a box, grown by the gap.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Orientation {
    pub(crate) width: i64,
    pub(crate) height: i64,
}

/// Boxes that are equal to the searches, whatever items they come from.
#[derive(Clone, Debug)]
pub(crate) struct ItemType {
    orientations: [Orientation; 2],
    orientation_count: usize,
    pub(crate) count: u64,
    members: Vec<(usize, u32)>,
    /// What it takes of its box in each orientation, grown by the gap; nothing where it takes all of it.
    solids: [Vec<Rect>; 2],
}

impl ItemType {
    /// The one or two ways to lay it.
    pub(crate) fn orientations(&self) -> &[Orientation] {
        &self.orientations[..self.orientation_count]
    }

    /// The first orientation: the narrow one where both are allowed.
    pub(crate) fn orientation(&self) -> Orientation {
        self.orientations[0]
    }

    pub(crate) fn area(&self) -> i64 {
        self.orientations[0].width * self.orientations[0].height
    }

    /// What it takes of its box when that is so wide; nothing where it takes all of it.
    pub(crate) fn solid(&self, width: i64) -> &[Rect] {
        &self.solids[usize::from(self.orientations[0].width != width)]
    }

    /// The problem's items that it stands for, and how many of each.
    pub(crate) fn members(&self) -> &[(usize, u32)] {
        &self.members
    }
}

/// A sheet that can be opened.
#[derive(Clone, Debug)]
pub(crate) struct BinType {
    pub(crate) width: i64,
    pub(crate) height: i64,
    /// How many there are; `None` is as many as needed.
    pub(crate) supply: Option<u64>,
    /// What one costs: millionths of its price where every sheet has one, its area otherwise.
    pub(crate) cost: u128,
}

impl BinType {
    pub(crate) fn area(&self) -> i64 {
        self.width * self.height
    }
}

/// The instance.
#[derive(Clone, Debug)]
pub(crate) struct Instance {
    pub(crate) kinds: Vec<ItemType>,
    pub(crate) sizes: Vec<BinType>,
    pub(crate) gap: i64,
    /// Every sheet is cut apart from edge to edge.
    pub(crate) trimmer: bool,
    /// The kinds, where some of them leave room in their boxes for others.
    pub(crate) open: Option<Arc<[ItemType]>>,
}

impl Instance {
    pub(crate) fn new(problem: &Problem, cuts: Cuts) -> Result<Self, NoLayout> {
        Self::with(problem, cuts, &[])
    }

    /// The same where items take no more of their boxes than `solids` says, by item; what it says nothing of takes all.
    pub(crate) fn with(problem: &Problem, cuts: Cuts, solids: &[Option<Vec<Rect>>]) -> Result<Self, NoLayout> {
        let gap = trim(problem.gap, 0);
        let mut grouped: BTreeMap<EqualBoxes, Vec<(usize, u32)>> = BTreeMap::new();
        let sizes = sizes(problem.sheets, gap);
        let mut too_big = Vec::new();
        for (number, item) in problem.items.iter().enumerate().filter(|(_, item)| item.count > 0) {
            let orientations = orientations(item, gap);
            let fits = |orientation: &Orientation| {
                sizes.iter().any(|size| orientation.width <= size.width && orientation.height <= size.height)
            };
            match (orientations.iter().min(), orientations.iter().max()) {
                (Some(&narrow), Some(&wide)) if orientations.iter().any(fits) || sizes.is_empty() => {
                    let solid = solids.get(number).and_then(Option::as_ref);
                    let solid = |way| solid.map_or_else(Vec::new, |solid| grown(item, solid, way, gap));
                    let alike = (narrow, wide, [solid(narrow), solid(wide)]);
                    grouped.entry(alike).or_default().push((number, item.count));
                }
                _ => too_big.push(number),
            }
        }
        if !too_big.is_empty() {
            return Err(NoLayout::TooBig { items: too_big });
        }
        let kinds: Vec<ItemType> = grouped
            .into_iter()
            .map(|((narrow, wide, solids), members)| ItemType {
                orientations: [narrow, wide],
                orientation_count: if narrow == wide { 1 } else { 2 },
                count: members.iter().map(|&(_, count)| u64::from(count)).sum(),
                members,
                solids,
            })
            .collect();
        let open = kinds.iter().any(|kind| kind.solids.iter().any(|solid| !solid.is_empty()));
        let open = open.then(|| kinds.as_slice().into());
        Ok(Self { kinds, sizes, gap, trimmer: cuts == Cuts::Trimmer, open })
    }

    /// The same with a box of this size besides, which stands for room that is to be left; it is the last kind.
    pub(crate) fn with_room(&self, width: i64, height: i64) -> Self {
        let mut with = self.clone();
        let room = ItemType {
            orientations: [Orientation { width, height }; 2],
            orientation_count: 1,
            count: 1,
            members: Vec::new(),
            solids: [Vec::new(), Vec::new()],
        };
        with.kinds.push(room);
        with.open = with.open.map(|_| with.kinds.as_slice().into());
        with
    }

    /// The boxes on the first size of sheet, any two of which may share one.
    pub(crate) fn one_size_problem(&self) -> Option<OneSizeProblem> {
        let size = self.sizes.first()?;
        let box_type = |kind: &ItemType| BoxType {
            orientations: kind
                .orientations()
                .iter()
                .map(|orientation| (orientation.width, orientation.height))
                .collect(),
            count: kind.count,
        };
        Some(OneSizeProblem {
            width: size.width,
            height: size.height,
            boxes: self.kinds.iter().map(box_type).collect(),
            share: vec![u128::MAX; self.kinds.len()],
        })
    }

    /// Whether all sheets are of one entry, of which there are as many as needed.
    pub(crate) fn endless(&self) -> bool {
        self.sizes.len() == 1 && self.sizes[0].supply.is_none()
    }

    /// The least width and the least height of any orientation of these kinds.
    pub(crate) fn least(&self, kinds: &[usize]) -> Orientation {
        let none = Orientation { width: 2 * LONGEST, height: 2 * LONGEST };
        kinds.iter().flat_map(|&kind| self.kinds[kind].orientations()).fold(none, |least, orientation| Orientation {
            width: least.width.min(orientation.width),
            height: least.height.min(orientation.height),
        })
    }

    pub(crate) fn counts(&self) -> Vec<u64> {
        self.kinds.iter().map(|kind| kind.count).collect()
    }

    /// All the pieces there are.
    pub(crate) fn pieces(&self) -> u64 {
        self.kinds.iter().map(|kind| kind.count).fold(0, u64::saturating_add)
    }

    /// Whether there are several boxes of each kind, taken together.
    pub(crate) fn repeated(&self) -> bool {
        self.pieces() >= 4 * u64::try_from(self.kinds.len()).unwrap_or(u64::MAX)
    }

    /// Whether there is but one size of sheet, however many entries it has.
    pub(crate) fn one_size(&self) -> bool {
        self.sizes.windows(2).all(|pair| pair[0].width == pair[1].width && pair[0].height == pair[1].height)
    }
}

/// A size kept within what the engine counts with.
pub(crate) fn trim(size: i64, least: i64) -> i64 {
    size.clamp(least, LONGEST)
}

/// What makes items equal to the searches: their boxes both ways, and what they take of them.
type EqualBoxes = (Orientation, Orientation, [Vec<Rect>; 2]);

/// What an item takes of its box in one orientation, grown by the gap.
fn grown(item: &Item, solid: &[Rect], way: Orientation, gap: i64) -> Vec<Rect> {
    let (width, height) = (trim(item.width, 1), trim(item.height, 1));
    let Some(turn) = item.turns.taken((width + gap, height + gap) == (way.width, way.height)) else {
        return Vec::new();
    };
    let one = |rect: &Rect| {
        let rect = rect.turned(turn, (width, height));
        Rect { right: rect.right + gap, top: rect.top + gap, ..rect }
    };
    solid.iter().map(one).collect()
}

/// The different boxes that the allowed turns make of an item, grown by the gap.
fn orientations(item: &Item, gap: i64) -> Vec<Orientation> {
    // A part longer than the longest sheet must stay longer, or it would seem to fit.
    let grown = |size: i64| size.clamp(1, LONGEST + 1) + gap;
    let (width, height) = (grown(item.width), grown(item.height));
    let mut orientations = Vec::new();
    if item.turns.upright() {
        orientations.push(Orientation { width, height });
    }
    if item.turns.sideways() {
        orientations.push(Orientation { width: height, height: width });
    }
    orientations
}

fn sizes(sheets: &[SheetType], gap: i64) -> Vec<BinType> {
    let priced = sheets.iter().all(|sheet| sheet.price.is_some_and(|price| price.is_finite() && price >= 0.0));
    sheets
        .iter()
        .map(|sheet| {
            let (width, height) = (trim(sheet.width, 0), trim(sheet.height, 0));
            let area = u128::from(width.unsigned_abs()) * u128::from(height.unsigned_abs());
            BinType {
                width: width + gap,
                height: height + gap,
                supply: sheet.count.map(u64::from),
                cost: if priced { millionths(sheet.price.unwrap_or(0.0)) } else { area },
            }
        })
        .collect()
}

/// Prices are counted in this part of their unit: finer than anything is priced, and sums stay whole.
pub(crate) const MILLIONTHS: f64 = 1e6;

/// A price in whole millionths, so that equal sums are equal whatever order they are added in.
fn millionths(price: f64) -> u128 {
    u128::from(crate::layout::numbers::whole(price * MILLIONTHS + 0.5))
}
