// SPDX-License-Identifier: MIT
//! A layout in the searches' own terms, and how two of them compare.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use crate::layout::heuristic::max_rects::Space;
use crate::layout::model::instance::Frame;
use crate::layout::model::rect::Rect;

/// One box on a sheet, grown by the gap.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Put {
    pub(crate) kind: usize,
    pub(crate) x: i64,
    pub(crate) y: i64,
    pub(crate) width: i64,
    pub(crate) height: i64,
}

impl Put {
    pub(crate) fn rect(&self) -> Rect {
        Rect::new(self.x, self.y, self.width, self.height)
    }

    pub(crate) fn area(&self) -> i64 {
        self.width * self.height
    }
}

/// A sheet with boxes on it, and how often it is cut.
#[derive(Clone, Debug)]
pub(crate) struct Laid {
    pub(crate) size: usize,
    pub(crate) times: u64,
    pub(crate) puts: Vec<Put>,
}

impl Laid {
    pub(crate) fn filled(&self) -> i64 {
        self.puts.iter().map(Put::area).sum()
    }
}

/// Sheets, and how many of each kind are on none of them.
#[derive(Clone, Debug, Default)]
pub(crate) struct Draft {
    pub(crate) laid: Vec<Laid>,
    pub(crate) left: Vec<u64>,
}

/// What a draft is worth: the smaller the better, first things first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Score {
    /// Area of the boxes that found no sheet.
    left: u128,
    /// Cost of the sheets that are not counted.
    bought: u128,
    /// Area of the boxes on counted sheets: these are used first, even where that saves no other.
    on_counted: Reverse<u128>,
    /// Cost of all sheets.
    spent: u128,
    /// How many sheets.
    pub(crate) sheets: u64,
    /// Largest empty rectangle on the emptiest sheet.
    offcut: Reverse<i64>,
}

impl Draft {
    pub(crate) fn sheets(&self) -> u64 {
        self.laid.iter().map(|laid| laid.times).fold(0, u64::saturating_add)
    }

    pub(crate) fn complete(&self) -> bool {
        self.left.iter().all(|&count| count == 0)
    }

    pub(crate) fn score(&self, frame: &Frame) -> Score {
        let area = |(kind, &count): (usize, &u64)| {
            u128::from(frame.kinds[kind].area().unsigned_abs()).saturating_mul(u128::from(count))
        };
        let cost = |counted_too: bool| {
            let sheets = self.laid.iter().filter(|laid| counted_too || frame.sizes[laid.size].supply.is_none());
            sheets
                .map(|laid| frame.sizes[laid.size].cost.saturating_mul(u128::from(laid.times)))
                .fold(0, u128::saturating_add)
        };
        let counted = self.laid.iter().filter(|laid| frame.sizes[laid.size].supply.is_some());
        let on_counted = counted
            .map(|laid| u128::from(laid.filled().unsigned_abs()).saturating_mul(u128::from(laid.times)))
            .fold(0, u128::saturating_add);
        Score {
            left: self.left.iter().enumerate().map(area).fold(0, u128::saturating_add),
            bought: cost(false),
            on_counted: Reverse(on_counted),
            spent: cost(true),
            sheets: self.sheets(),
            offcut: Reverse(self.emptiest(frame).map_or(0, |last| largest_empty(frame, &self.laid[last]))),
        }
    }

    /// The sheet with the least on it, for its size.
    pub(crate) fn emptiest(&self, frame: &Frame) -> Option<usize> {
        let empty = |laid: &Laid| frame.sizes[laid.size].area() - laid.filled();
        (0..self.laid.len()).max_by_key(|&number| (empty(&self.laid[number]), number))
    }

    /// Puts equal sheets together and the emptiest one last.
    pub(crate) fn tidied(mut self, frame: &Frame) -> Self {
        let mut times: BTreeMap<(usize, Vec<Put>), u64> = BTreeMap::new();
        let mut order = Vec::new();
        for mut laid in self.laid {
            laid.puts.sort_unstable_by_key(|put| (put.y, put.x, put.kind));
            let count = times.entry((laid.size, laid.puts.clone())).or_insert(0);
            if *count == 0 {
                order.push((laid.size, laid.puts));
            }
            *count += laid.times;
        }
        self.laid = order
            .into_iter()
            .map(|(size, puts)| {
                let key = (size, puts);
                let times = times.get(&key).copied().unwrap_or(1);
                Laid { size, times, puts: key.1 }
            })
            .collect();
        self.laid.sort_by_key(|laid| (laid.size, Reverse(laid.times), Reverse(laid.filled())));
        if let Some(last) = self.emptiest(frame) {
            let last = self.laid.remove(last);
            self.laid.push(last);
        }
        self
    }
}

/// Area of the largest rectangle, grown by the gap, that is empty on a sheet and can be cut out of it.
pub(crate) fn largest_empty(frame: &Frame, laid: &Laid) -> i64 {
    if frame.trimmer {
        return crate::layout::trimmer::cut_plan::largest_offcut(frame, laid).map_or(0, |rect| rect.area());
    }
    empty_rects(frame, laid).iter().map(Rect::area).max().unwrap_or(0)
}

/// All rectangles, grown by the gap, that are empty on a sheet and cannot grow in any direction.
pub(crate) fn empty_rects(frame: &Frame, laid: &Laid) -> Vec<Rect> {
    let size = &frame.sizes[laid.size];
    let mut space = Space::default();
    space.reset(size.width, size.height, 1, 1);
    for put in &laid.puts {
        space.take(&put.rect());
    }
    space.free().to_vec()
}
