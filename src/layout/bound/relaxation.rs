// SPDX-License-Identifier: MIT
//! The relaxed problem: what of the shapes every layout must respect, and the bounds that follow from it.
//!
//! In: items with their true shapes, one size of sheet, the gap. Out: a number that no layout can beat. Never: rounds in
//! its own favour; every bound is decided in whole numbers, floating ones only say where to look.
//!
//! A box (an item without a contour) may not be nested, so its sides count; an item with a contour counts by its area and by
//! the sides of a box inside it. Holes count as filled, so of what may lie in a hole of another item as many as may are left out,
//! and as much of their area; all others keep apart by what is within their outer outlines. Shapes are grown by half the gap all round, with round corners (`area`); the square inside
//! that round corner does the same for boxes.

use std::collections::BTreeMap;

use crate::contour::Contour;
use crate::layout::bound::area::{PI_LESS, PI_MORE, eighths, grown_box, grown_shape};
use crate::layout::bound::inscribed;
use crate::layout::model::instance::trim;
use crate::layout::model::one_size::{BoxType, MOST_KINDS, OneSizeProblem};
use crate::layout::model::problem::Item;
use crate::layout::numbers::{EIGHTHS_PER_MM, nearest, whole};

/// One size of sheet and what must go on it.
#[derive(Clone, Debug)]
pub(crate) struct Relaxation {
    width: i64,
    height: i64,
    gap: i64,
    boxes: Vec<BoxType>,
    /// The number of the item that each box is.
    items: Vec<usize>,
    /// Area of all shapes, grown by half the gap all round.
    area: u128,
    any: bool,
    /// Some items have outlines of their own.
    shaped: bool,
}

/// How many boxes are alike, and which items they are.
type EqualItems = (u64, Vec<usize>);

impl Relaxation {
    /// The need of `items` on sheets of this usable size.
    pub(crate) fn new(items: &[Item], width: i64, height: i64, gap: i64) -> Self {
        let gap = trim(gap, 0);
        let mut relaxation = Self {
            width: trim(width, 0),
            height: trim(height, 0),
            gap,
            boxes: Vec::new(),
            items: Vec::new(),
            area: 0,
            any: false,
            shaped: false,
        };
        let rooms = rooms(items, gap);
        for (number, item) in items.iter().enumerate().filter(|(_, item)| item.count > 0) {
            relaxation.any = true;
            let (width, height) = (trim(item.width, 1), trim(item.height, 1));
            // No more of them than this lie in holes; all others keep apart from what lies in none.
            let within = rooms.iter().filter(|room| room.takes(number, item)).map(|room| room.most(item, gap));
            let within = within.fold(0, u64::saturating_add);
            relaxation.shaped |= within > 0;
            let count = u64::from(item.count).saturating_sub(within);
            if let Some(contour) = outline(item) {
                relaxation.shaped = true;
                let inner = inscribed::box_inside(contour).map(|(width, height)| (eighths(width), eighths(height)));
                if let Some((inner_width, inner_height)) = inner.filter(|inner| inner.0 > 0 && inner.1 > 0) {
                    relaxation.add(number, item, (inner_width.min(width), inner_height.min(height)), count);
                }
            } else {
                relaxation.add(number, item, (width, height), count);
            }
            relaxation.area = relaxation.area.saturating_add(grown(item, gap).saturating_mul(u128::from(item.count)));
        }
        relaxation.area = relaxation.area.saturating_sub(most_within(items, &rooms, gap));
        relaxation
    }

    fn add(&mut self, number: usize, item: &Item, (width, height): (i64, i64), count: u64) {
        if count == 0 {
            return;
        }
        let mut orientations = Vec::new();
        if item.turns.upright() {
            orientations.push((width, height));
        }
        if item.turns.sideways() && (width != height || orientations.is_empty()) {
            orientations.push((height, width));
        }
        // An orientation in which it does not go onto the sheet would let it share one with more than it can.
        if orientations.iter().any(|size| self.goes(size)) {
            orientations.retain(|size| self.goes(size));
        }
        self.boxes.push(BoxType { orientations, count });
        self.items.push(number);
    }

    /// Whether a box goes onto the sheet like this.
    fn goes(&self, size: &(i64, i64)) -> bool {
        size.0 <= self.width && size.1 <= self.height
    }

    /// Whether some parts are more than the boxes that stand for them here.
    pub(crate) fn shaped(&self) -> bool {
        self.shaped
    }

    /// So many sheets have the area of all shapes.
    pub(crate) fn by_area(&self) -> u64 {
        self.sheets_of(self.area)
    }

    /// So many sheets have the area of some boxes of a kind, with half the gap round each.
    pub(crate) fn by_area_of(&self, kind: &BoxType) -> u64 {
        let (width, height) = kind.orientations.first().copied().unwrap_or_default();
        self.sheets_of(grown_box(width, height, self.gap, PI_LESS).saturating_mul(u128::from(kind.count)))
    }

    fn sheets_of(&self, area: u128) -> u64 {
        let sheet = grown_box(self.width, self.height, self.gap, PI_MORE).max(1);
        u64::try_from(area.div_ceil(sheet)).unwrap_or(u64::MAX)
    }

    /// Without the boxes of items of which some may lie in a hole: what is said of the others is true of all of them.
    pub(crate) fn without_nested(mut self, items: &[Item]) -> Self {
        let whole = |(item, one): &(usize, BoxType)| u64::from(items[*item].count) == one.count;
        (self.items, self.boxes) = self.items.into_iter().zip(self.boxes).filter(whole).unzip();
        self
    }

    /// The sheet and the boxes for dual functions, grown by as much of the gap as holds corner to corner.
    pub(crate) fn grown(&self) -> ((i64, i64), Vec<BoxType>) {
        let grow = self.grow();
        let boxes = self.boxes.iter().map(|one| one.grown(grow)).collect();
        ((self.width + grow, self.height + grow), boxes)
    }

    /// The largest square in the corner circle has a side of gap / sqrt 2.
    fn grow(&self) -> i64 {
        (self.gap * self.gap / 2).isqrt()
    }

    /// Whether there is anything to lay.
    pub(crate) fn any(&self) -> bool {
        self.any
    }

    /// The boxes for the bound by patterns: equal ones together, grown by as much of the gap as holds corner to corner;
    /// and the kind of each item that is a box. None where there are more kinds than it takes.
    pub(crate) fn one_size_problem(&self) -> Option<(OneSizeProblem, BTreeMap<usize, u8>)> {
        let mut kinds: BTreeMap<Vec<(i64, i64)>, EqualItems> = BTreeMap::new();
        for (box_type, &item) in self.boxes.iter().zip(&self.items) {
            let mut orientations = box_type.orientations.clone();
            orientations.sort_unstable();
            let kind = kinds.entry(orientations).or_default();
            kind.0 += box_type.count;
            kind.1.push(item);
        }
        if kinds.is_empty() || kinds.len() > MOST_KINDS {
            return None;
        }
        let of_items = kinds.values().zip(0_u8..).flat_map(|((_, items), kind)| items.iter().map(move |&i| (i, kind)));
        let of_items = of_items.collect();
        let boxes: Vec<BoxType> =
            kinds.into_iter().map(|(orientations, (count, _))| BoxType { orientations, count }).collect();
        Some((self.problem_of(&boxes), of_items))
    }

    /// Each item that is held by a box: its number, the ways in which the box goes onto the sheet, none where there are none, and
    /// how many.
    pub(crate) fn boxes(&self) -> impl Iterator<Item = (usize, Vec<(i64, i64)>, u64)> {
        self.kinds().map(|(item, one)| {
            let mut orientations: Vec<(i64, i64)> =
                one.orientations.iter().filter(|size| self.goes(size)).copied().collect();
            orientations.sort_unstable();
            (item, orientations, one.count)
        })
    }

    /// Each item that is held by a box, by its number, and the box.
    pub(crate) fn kinds(&self) -> impl Iterator<Item = (usize, &BoxType)> {
        self.items.iter().copied().zip(&self.boxes)
    }

    /// These boxes on this sheet, no more than [`MOST_KINDS`] of them.
    pub(crate) fn problem_of(&self, boxes: &[BoxType]) -> OneSizeProblem {
        let share = |one: &BoxType| {
            let bits = boxes.iter().enumerate().map(|(kind, other)| u128::from(self.may_share(one, other)) << kind);
            bits.fold(0, |row, bit| row | bit)
        };
        let (share, grow) = (boxes.iter().map(share).collect(), self.grow());
        let boxes = boxes.iter().map(|one| one.grown(grow)).collect();
        OneSizeProblem { width: self.width + grow, height: self.height + grow, boxes, share }
    }

    /// The area that all shapes need, and the area of the sheet; both grown by half the gap all round.
    pub(crate) fn areas(&self) -> (u128, u128) {
        (self.area, grown_box(self.width, self.height, self.gap, PI_MORE))
    }

    /// Whether a box of one kind and one of another go onto one sheet.
    pub(crate) fn may_share(&self, one: &BoxType, other: &BoxType) -> bool {
        one.orientations.iter().any(|a| {
            other.orientations.iter().any(|b| {
                let (beside, above) = (self.width - a.0 - b.0, self.height - a.1 - b.1);
                beside >= self.gap
                    || above >= self.gap
                    || (beside >= 0 && above >= 0 && beside * beside + above * above >= self.gap * self.gap)
            })
        })
    }
}

/// An item's outline, where it is not its box.
fn outline(item: &Item) -> Option<&Contour> {
    item.contour.as_ref().filter(|contour| !contour.is_box())
}

/// The least area of an item with its holes filled, grown by half the gap all round.
fn grown(item: &Item, gap: i64) -> u128 {
    let grown = grown_box(trim(item.width, 1), trim(item.height, 1), gap, PI_LESS);
    outline(item).map_or(grown, |contour| grown.min(grown_shape(contour.area(), gap)))
}

/// The most area that items in holes can take, each grown by half the gap all round: no more than the holes have, nor than what
/// goes into them.
fn most_within(items: &[Item], rooms: &[RoomInside], gap: i64) -> u128 {
    let all = |takes: &dyn Fn(usize, &Item) -> bool| {
        let taken = items.iter().enumerate().filter(|(number, item)| item.count > 0 && takes(*number, item));
        let areas = taken.map(|(_, item)| grown(item, gap).saturating_mul(u128::from(item.count)));
        areas.fold(0, u128::saturating_add)
    };
    let each = rooms.iter().map(|room| {
        let rooms = room.area.saturating_mul(u128::from(room.count));
        rooms.min(all(&|number, item| room.takes(number, item)))
    });
    let any = all(&|number, item| rooms.iter().any(|room| room.takes(number, item)));
    each.fold(0, u128::saturating_add).min(any)
}

/// A hole in which some other item may lie: whose it is, its box less what keeps items from its edge, its area.
struct RoomInside {
    of: usize,
    width: i64,
    height: i64,
    /// Its item may lie on its side.
    sideways: bool,
    area: u128,
    /// How many there are of its item.
    count: u32,
}

/// What rounding may take off a hole, in eighths of a micrometre.
const ROUNDED: i64 = 4;

impl RoomInside {
    /// No more of an item than this lie in all such holes, by its area.
    fn most(&self, item: &Item, gap: i64) -> u64 {
        let each = self.area / grown(item, gap).max(1);
        u64::try_from(each.saturating_mul(u128::from(self.count))).unwrap_or(u64::MAX)
    }

    /// Whether an item might lie in it; a quick answer that is right when it is no.
    fn takes(&self, number: usize, item: &Item) -> bool {
        let (width, height) = (trim(item.width, 1), trim(item.height, 1));
        number != self.of
            && ((width <= self.width && height <= self.height)
                || ((item.turns.sideways() || self.sideways) && height <= self.width && width <= self.height))
    }
}

/// The holes in which other items may lie, whichever way the items that have them are turned.
fn rooms(items: &[Item], gap: i64) -> Vec<RoomInside> {
    let mut rooms = Vec::new();
    for (of, item) in items.iter().enumerate().filter(|(_, item)| item.count > 0) {
        let Some(outline) = &item.contour else { continue };
        // An item in the hole keeps the gap from its edge, and the tool takes its way on both sides.
        let way = (item.width - nearest(outline.bounds().width() * EIGHTHS_PER_MM)).max(0);
        let room = |hole: &Contour| {
            let bounds = hole.bounds();
            let side = |mm: f64| nearest(mm * EIGHTHS_PER_MM) - way - 2 * gap + ROUNDED;
            let (width, height) = (side(bounds.width()), side(bounds.height()));
            let area = whole((hole.area().abs() * EIGHTHS_PER_MM * EIGHTHS_PER_MM).ceil());
            RoomInside { of, width, height, sideways: item.turns.sideways(), area: u128::from(area), count: item.count }
        };
        let others = |room: &RoomInside| {
            items.iter().enumerate().any(|(number, other)| other.count > 0 && room.takes(number, other))
        };
        rooms.extend(item.holes.iter().map(room).filter(others));
    }
    rooms
}
