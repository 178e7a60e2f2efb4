// SPDX-License-Identifier: MIT
//! Maximal empty rectangles: the free space of one sheet.
//!
//! In: the sheet's size and, one after the other, the rectangles that are taken. Out: every empty rectangle that
//! cannot grow in any direction; they overlap each other. Never: decides where anything goes.

use std::cmp::Reverse;

use crate::layout::model::instance::Instance;
use crate::layout::model::packing::PackedSheet;
use crate::layout::model::rect::Rect;

/// More empty rectangles than this are not kept. Losing small ones costs a little room, never correctness, and keeps a
/// sheet of a thousand tags from taking a million comparisons a tag.
const MOST_KEPT: usize = 400;

/// What is still empty on one sheet.
#[derive(Clone, Debug, Default)]
pub(crate) struct Space {
    free: Vec<Rect>,
    pieces: Vec<Rect>,
    least_width: i64,
    least_height: i64,
    widest: i64,
    tallest: i64,
}

impl Space {
    /// Starts over with an empty sheet. Rectangles narrower or lower than the `least` sizes are of no use to the
    /// caller and are forgotten.
    pub(crate) fn reset(&mut self, width: i64, height: i64, least_width: i64, least_height: i64) {
        self.free.clear();
        self.least_width = least_width;
        self.least_height = least_height;
        self.widest = width;
        self.tallest = height;
        self.free.push(Rect::new(0, 0, width, height));
    }

    pub(crate) fn free(&self) -> &[Rect] {
        &self.free
    }

    /// Whether a box might fit; a quick answer that is right when it is no.
    pub(crate) fn may_hold(&self, width: i64, height: i64) -> bool {
        width <= self.widest && height <= self.tallest
    }

    /// Takes `taken` away. Returns the steps that it took.
    pub(crate) fn take(&mut self, taken: &Rect) -> usize {
        self.pieces.clear();
        let mut at = 0;
        while at < self.free.len() {
            let room = self.free[at];
            if room.overlaps(taken) {
                self.free.swap_remove(at);
                self.split(&room, taken);
            } else {
                at += 1;
            }
        }
        let mut steps = at + self.pieces.len();
        let kept = self.free.len();
        for (number, piece) in self.pieces.iter().enumerate() {
            // Of two equal pieces the later one goes. Old rectangles cannot lie in a piece, so they need no test.
            let covered = self.free[..kept].iter().any(|room| room.holds(piece))
                || self.pieces.iter().enumerate().any(|(other, larger)| {
                    other != number && larger.holds(piece) && (larger != piece || other < number)
                });
            if !covered {
                self.free.push(*piece);
            }
            steps += kept + 1;
        }
        if self.free.len() > MOST_KEPT {
            self.free.sort_by_key(|room| (Reverse(room.area()), room.bottom, room.left, room.right));
            self.free.truncate(MOST_KEPT);
        }
        self.widest = self.free.iter().map(Rect::width).max().unwrap_or(0);
        self.tallest = self.free.iter().map(Rect::height).max().unwrap_or(0);
        steps
    }

    fn split(&mut self, room: &Rect, taken: &Rect) {
        let wide_enough = |rect: &Rect| rect.width() >= self.least_width && rect.height() >= self.least_height;
        let sides = [
            (taken.left > room.left, Rect { right: taken.left, ..*room }),
            (taken.right < room.right, Rect { left: taken.right, ..*room }),
            (taken.bottom > room.bottom, Rect { top: taken.bottom, ..*room }),
            (taken.top < room.top, Rect { bottom: taken.top, ..*room }),
        ];
        self.pieces.extend(sides.into_iter().filter(|(there, rect)| *there && wide_enough(rect)).map(|(_, rect)| rect));
    }
}

/// All rectangles, grown by the gap, that are empty on a sheet and cannot grow in any direction.
pub(crate) fn empty_rects(instance: &Instance, laid: &PackedSheet) -> Vec<Rect> {
    let size = &instance.sizes[laid.size];
    let mut space = Space::default();
    space.reset(size.width, size.height, 1, 1);
    for put in &laid.placed {
        space.take(&put.rect());
    }
    space.free().to_vec()
}
