// SPDX-License-Identifier: MIT
//! Pairs: two equal parts with a slanted side that lie head to tail and take less card than their boxes.
//!
//! In: an item with its true outline, the gap. Out: the boxes that a pair of it may take, and where the two lie in them. Never:
//! mirrors a part, turns it otherwise than its turns allow, or lets true outlines come nearer than kerf and gap.
//!
//! ```text
//!    +-----------+----+    the second comes from the right, half turned, at one height after another at which
//!    |          /    /|    corners of the two meet, and goes as far to the left as it can;
//!    |   1     /    / |    then from the left, from above and from below
//!    |        /  2    |
//!    +-------+--------+
//! ```

use crate::contour::{Contour, Point, Vec2};
use crate::layout::model::instance::trim;
use crate::layout::model::problem::{Item, Turn, Turns};
use crate::layout::model::side::RightSide;
use crate::layout::numbers::{EIGHTHS_PER_MM, nearest, share};

/// A pair takes less than two boxes by one part in so many at least: our choice. Less is the rounding of a corner.
const LEAST_SAVED: i64 = 50;
/// Added to what arithmetic says, in eighths of a micrometre: more than all rounding.
const GUARD: i64 = 2;
/// No more heights than this are tried from each side, those first at which the two lie most nearly level: our choice.
const MOST_HEIGHTS: usize = 48;
/// Fewer where a side has many pieces: no more pieces than this are passed in all, so that a drawing of hundreds of arcs takes
/// no longer than a plain part.
const MOST_PASSED: usize = 10_000;
/// Outlines with corners at more heights are tried level alone.
const MOST_CORNERS: usize = 64;
/// Outlines with more corners are not paired: our choice.
const MOST_VERTICES: usize = 500;

/// Two of an item in one box; the second is half turned.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct HeadToTail {
    /// Area of its box, grown by the gap.
    area: i64,
    pub(crate) width: i64,
    pub(crate) height: i64,
    /// Lower left of the first one's box in it, and of the second one's.
    pub(crate) at: [(i64, i64); 2],
}

/// The turns that a pair of such an item may take: those that both of it may.
pub(crate) fn turns_of_pair(turns: Turns) -> Option<Turns> {
    let both = |one: Turn, other: Turn| turns.allows(one) && turns.allows(other);
    match (both(Turn::None, Turn::Half), both(Turn::Quarter, Turn::ThreeQuarter)) {
        (true, true) => Some(Turns::NONE.and(Turn::Quarter)),
        (true, false) => Some(Turns::NONE),
        (false, true) => Some(Turns::only(Turn::Quarter)),
        (false, false) => None,
    }
}

/// The boxes that two of an item may take together, each in its own way the best: of the least area, level side by side, level one
/// above the other, and the least long; by their areas. None where there are no two, they may not lie head to tail, or that saves too little.
pub(crate) fn head_to_tail(item: &Item, gap: i64) -> Vec<HeadToTail> {
    let outline = item.contour.as_ref().filter(|_| item.count > 1 && turns_of_pair(item.turns).is_some());
    let Some(outline) =
        outline.filter(|outline| (3..=MOST_VERTICES).contains(&outline.vertices().len()) && saves(outline))
    else {
        return Vec::new();
    };
    let (bounds, gap) = (outline.bounds(), trim(gap, 0));
    let size = (trim(item.width, 1), trim(item.height, 1));
    let way = [size.0 - nearest(bounds.width() * EIGHTHS_PER_MM), size.1 - nearest(bounds.height() * EIGHTHS_PER_MM)];
    // A box that is smaller than its outline is a question of how many would go on, not a part.
    if way.iter().any(|way| *way < -1) {
        return Vec::new();
    }
    let way = way[0].max(way[1]).max(0);
    let at_zero = outline.shifted(Vec2::new(-bounds.x0, -bounds.y0));
    let mut found = Vec::new();
    for (crosswise, mirrored) in [(false, false), (false, true), (true, false), (true, true)] {
        let seen = as_seen(&at_zero, crosswise, mirrored);
        let size = if crosswise { (size.1, size.0) } else { size };
        found.extend(
            from_the_right(&seen, size, (gap, way)).into_iter().map(|pair| pair.back(size.0, crosswise, mirrored)),
        );
    }
    let mut best: Vec<HeadToTail> = Vec::new();
    best.extend(found.iter().min());
    best.extend(found.iter().filter(|pair| pair.height == size.1).min());
    best.extend(found.iter().filter(|pair| pair.width == size.0).min());
    best.extend(found.iter().min_by_key(|pair| (pair.width.max(pair.height), **pair)));
    best.sort_unstable();
    // Where a pair may lie on its side, a box and the same on its side are one.
    let on_side = turns_of_pair(item.turns).is_some_and(|turns| turns.upright() && turns.sideways());
    let size = |pair: &HeadToTail| (pair.width.max(pair.height), pair.width.min(pair.height));
    let mut kept: Vec<HeadToTail> = Vec::new();
    for pair in best {
        let same = |other: &HeadToTail| {
            (other.width, other.height) == (pair.width, pair.height) || (on_side && size(other) == size(&pair))
        };
        if !kept.iter().any(same) {
            kept.push(pair);
        }
    }
    kept
}

/// Whether an outline leaves enough of its box for a pair to save anything.
fn saves(outline: &Contour) -> bool {
    let (area, all) = (outline.area(), outline.bounds().area());
    area > 0.0 && (all - area) * share(u128::from(LEAST_SAVED.unsigned_abs()), 1) >= all
}

/// The outline as it is seen from the side that the second one comes from; its lower left at the origin.
fn as_seen(outline: &Contour, crosswise: bool, mirrored: bool) -> Contour {
    let seen = if crosswise {
        outline.mirrored(|point| Point::new(point.y, point.x)).counter_clockwise()
    } else {
        outline.clone().counter_clockwise()
    };
    let width = seen.bounds().width();
    if mirrored { seen.mirrored(|point| Point::new(width - point.x, point.y)).counter_clockwise() } else { seen }
}

/// The pairs whose second part comes from the right; `size` is the item's box as it is seen, `way` what the tool takes of it.
fn from_the_right(outline: &Contour, size: (i64, i64), (gap, way): (i64, i64)) -> Vec<HeadToTail> {
    let mm = |eighths: i64| share(u128::from(eighths.unsigned_abs()), 1) / EIGHTHS_PER_MM;
    let bounds = outline.bounds();
    let apart = mm(gap + way);
    let side = RightSide::new(outline, apart / 2.0);
    let grown = |width: i64, height: i64| (width + gap) * (height + gap);
    let plain = 2 * grown(size.0, size.1);
    let pair = |up: i64| {
        let lifted = if up < 0 { -mm(up) } else { mm(up) };
        let reach = side.reach(bounds.height() + lifted)?;
        let right = nearest(((reach - bounds.width()) * EIGHTHS_PER_MM).ceil()) + GUARD;
        let (width, height) = (size.0 + right.abs(), size.1 + up.abs());
        let meet = right.abs() + GUARD < size.0 - way && up.abs() + GUARD < size.1 - way;
        let at = [((-right).max(0), (-up).max(0)), (right.max(0), up.max(0))];
        let area = grown(trim(width, 1), trim(height, 1));
        (meet && plain - area >= plain / LEAST_SAVED).then_some(HeadToTail { area, width, height, at })
    };
    let tried = (MOST_PASSED / side.levels().max(1)).clamp(1, MOST_HEIGHTS);
    heights(outline, apart).into_iter().take(tried).filter_map(pair).collect()
}

/// How much higher than the first the second is tried, in eighths of a micrometre: level first, then where corners meet, or are
/// as far from each other as they must be.
fn heights(outline: &Contour, apart: f64) -> Vec<i64> {
    let top = outline.bounds().height();
    let mut corners: Vec<f64> = outline.vertices().iter().map(|vertex| vertex.at.y).collect();
    corners.sort_by(f64::total_cmp);
    corners.dedup_by(|one, other| nearest((*one - *other) * EIGHTHS_PER_MM) == 0);
    if corners.len() > MOST_CORNERS {
        return vec![0];
    }
    let of_two = |one: &f64| {
        let meet = corners.iter().map(move |other| one + other - top);
        meet.flat_map(|up| [up, up - apart, up + apart]).map(|up| nearest(up * EIGHTHS_PER_MM)).collect::<Vec<_>>()
    };
    let mut heights: Vec<i64> = corners.iter().flat_map(of_two).chain([0]).collect();
    heights.sort_unstable_by_key(|up| (up.abs(), *up));
    heights.dedup_by(|one, other| (*one - *other).abs() <= GUARD);
    heights
}

impl HeadToTail {
    /// The same for the item as it is drawn; `wide` is its box as it was seen.
    fn back(self, wide: i64, crosswise: bool, mirrored: bool) -> Self {
        let place = |(x, y): (i64, i64)| {
            let x = if mirrored { self.width - x - wide } else { x };
            if crosswise { (y, x) } else { (x, y) }
        };
        let (width, height) = if crosswise { (self.height, self.width) } else { (self.width, self.height) };
        Self { width, height, at: self.at.map(place), ..self }
    }

    /// By how much its box is smaller than two of the item's, both grown by the gap.
    pub(crate) fn saved(&self, item: &Item, gap: i64) -> i64 {
        let grown = |size: i64| trim(size, 1) + trim(gap, 0);
        2 * grown(item.width) * grown(item.height) - self.area
    }
}
