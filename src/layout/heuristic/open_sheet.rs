// SPDX-License-Identifier: MIT
//! Open sheet of a free layout, while it is being laid: where may the next box go, and which place is best?
//!
//! In: boxes in the order in which somebody wants them laid, and a rule. Out: their places. Never: moves a box again.

use std::sync::Arc;

use crate::layout::heuristic::max_rects::{Space, empty_rects};
use crate::layout::heuristic::rule::Rule;
use crate::layout::heuristic::sheet_builder::SheetBuilder;
use crate::layout::model::instance::{Instance, ItemType, Orientation};
use crate::layout::model::packing::{PackedSheet, PlacedBox};
use crate::layout::model::rect::Rect;

/// With more boxes on the sheet than this, `Touch` takes too long and has little to gain; `Low` stands in for it.
const MOST_TOUCHED: usize = 150;

/// A place for a box, and how good it is: the smaller the better.
#[derive(Clone, Copy, Debug)]
pub(crate) struct SheetSpot {
    pub(crate) worth: (i64, i64),
    x: i64,
    y: i64,
    orientation: Orientation,
}

/// The sheet being laid.
#[derive(Clone, Debug, Default)]
pub(crate) struct OpenSheet {
    space: Space,
    width: i64,
    height: i64,
    /// The kinds, where what lies on the sheet leaves room in its box.
    open: Option<Arc<[ItemType]>>,
    pub(crate) placed: Vec<PlacedBox>,
    /// Steps counted since the caller last took them.
    pub(crate) steps: usize,
}

impl SheetBuilder for OpenSheet {
    fn open(&mut self, instance: &Instance, size: usize, least: Orientation) {
        let size = &instance.sizes[size];
        self.open.clone_from(&instance.open);
        self.space.reset(size.width, size.height, least.width, least.height);
        (self.width, self.height) = (size.width, size.height);
        self.placed.clear();
    }

    fn offer(&mut self, number: usize, kind: &ItemType, copies: u64, rule: Rule, most: usize) {
        self.steps += 1;
        for _ in 0..copies {
            if self.placed.len() >= most {
                return;
            }
            let Some(spot) = self.spot(kind, rule) else { return };
            self.lay(number, &spot);
        }
    }

    fn laid(&self) -> usize {
        self.placed.len()
    }

    fn placed(&self) -> Vec<PlacedBox> {
        self.placed.clone()
    }

    fn steps(&mut self) -> u64 {
        u64::try_from(std::mem::take(&mut self.steps)).unwrap_or(u64::MAX)
    }

    fn largest_offcut(instance: &Instance, sheet: &PackedSheet) -> i64 {
        empty_rects(instance, sheet).iter().map(Rect::area).max().unwrap_or(0)
    }
}

impl OpenSheet {
    /// Lays a box where it is told to be.
    pub(crate) fn keep(&mut self, put: PlacedBox) {
        let solid = self.open.as_ref().map_or(&[][..], |kinds| kinds[put.kind].solid(put.width));
        if solid.is_empty() {
            self.steps += self.space.take(&put.rect());
        }
        for rect in solid {
            self.steps += self.space.take(&rect.moved(put.x, put.y));
        }
        self.placed.push(put);
    }

    pub(crate) fn lay(&mut self, kind: usize, spot: &SheetSpot) {
        self.keep(PlacedBox {
            kind,
            x: spot.x,
            y: spot.y,
            width: spot.orientation.width,
            height: spot.orientation.height,
        });
    }

    /// The best place for one more of a kind; the first of equals.
    pub(crate) fn spot(&mut self, kind: &ItemType, rule: Rule) -> Option<SheetSpot> {
        let rule = if rule == Rule::Touch && self.placed.len() > MOST_TOUCHED { Rule::Low } else { rule };
        let mut best: Option<SheetSpot> = None;
        for &orientation in kind.orientations() {
            if !self.space.may_hold(orientation.width, orientation.height) {
                continue;
            }
            for room in self.space.free() {
                if orientation.width > room.width() || orientation.height > room.height() {
                    continue;
                }
                let spot = if rule == Rule::Touch {
                    self.touching(orientation, room)
                } else {
                    SheetSpot { worth: worth(rule, orientation, room), x: room.left, y: room.bottom, orientation }
                };
                if best.is_none_or(|best| spot.worth < best.worth) {
                    best = Some(spot);
                }
            }
            self.steps += self.space.free().len() * if rule == Rule::Touch { 1 + self.placed.len() } else { 1 };
        }
        best
    }

    fn touching(&self, orientation: Orientation, room: &Rect) -> SheetSpot {
        let rows = [room.bottom, room.top - orientation.height];
        let columns = [room.left, room.right - orientation.width];
        let spare = room.area() - orientation.width * orientation.height;
        let mut best = SheetSpot { worth: (i64::MAX, 0), x: room.left, y: room.bottom, orientation };
        for y in rows {
            for x in columns {
                let worth = (-self.touch(&Rect::new(x, y, orientation.width, orientation.height)), spare);
                if worth < best.worth {
                    best = SheetSpot { worth, x, y, orientation };
                }
            }
        }
        best
    }

    /// Length of the edge that a box would share with the rim and with other boxes.
    fn touch(&self, at: &Rect) -> i64 {
        let shared = |a: (i64, i64), b: (i64, i64)| (a.1.min(b.1) - a.0.max(b.0)).max(0);
        let mut length = 0;
        if at.left == 0 {
            length += at.height();
        }
        if at.right == self.width {
            length += at.height();
        }
        if at.bottom == 0 {
            length += at.width();
        }
        if at.top == self.height {
            length += at.width();
        }
        for put in &self.placed {
            let (right, top) = (put.x + put.width, put.y + put.height);
            if put.x == at.right || right == at.left {
                length += shared((put.y, top), (at.bottom, at.top));
            }
            if put.y == at.top || top == at.bottom {
                length += shared((put.x, right), (at.left, at.right));
            }
        }
        length
    }
}

fn worth(rule: Rule, orientation: Orientation, room: &Rect) -> (i64, i64) {
    let beside = room.width() - orientation.width;
    let above = room.height() - orientation.height;
    let (short, long) = (beside.min(above), beside.max(above));
    match rule {
        Rule::ShortSide => (short, long),
        Rule::LongSide => (long, short),
        Rule::Area | Rule::Touch => (room.area() - orientation.width * orientation.height, short),
        Rule::Low => (room.bottom + orientation.height, room.left),
        Rule::Left => (room.left + orientation.width, room.bottom),
    }
}
