// SPDX-License-Identifier: MIT
//! Packing: a layout in the searches' own terms.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use crate::layout::model::instance::Instance;
use crate::layout::model::rect::Rect;

/// One box on a sheet, grown by the gap.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct PlacedBox {
    pub(crate) kind: usize,
    pub(crate) x: i64,
    pub(crate) y: i64,
    pub(crate) width: i64,
    pub(crate) height: i64,
}

impl PlacedBox {
    pub(crate) fn rect(&self) -> Rect {
        Rect::new(self.x, self.y, self.width, self.height)
    }

    pub(crate) fn area(&self) -> i64 {
        self.width * self.height
    }
}

/// A sheet with boxes on it, and how often it is cut.
#[derive(Clone, Debug)]
pub(crate) struct PackedSheet {
    pub(crate) size: usize,
    pub(crate) times: u64,
    pub(crate) placed: Vec<PlacedBox>,
}

impl PackedSheet {
    pub(crate) fn filled(&self) -> i64 {
        self.placed.iter().map(PlacedBox::area).sum()
    }
}

/// Sheets, and how many of each kind are on none of them.
#[derive(Clone, Debug, Default)]
pub(crate) struct Packing {
    pub(crate) laid: Vec<PackedSheet>,
    pub(crate) left: Vec<u64>,
}

impl Packing {
    pub(crate) fn sheets(&self) -> u64 {
        self.laid.iter().map(|laid| laid.times).fold(0, u64::saturating_add)
    }

    pub(crate) fn complete(&self) -> bool {
        self.left.iter().all(|&count| count == 0)
    }

    /// The sheet with the least on it, for its size.
    pub(crate) fn emptiest(&self, instance: &Instance) -> Option<usize> {
        let empty = |laid: &PackedSheet| instance.sizes[laid.size].area() - laid.filled();
        (0..self.laid.len()).max_by_key(|&number| (empty(&self.laid[number]), number))
    }

    /// Puts equal sheets together and the emptiest one last.
    pub(crate) fn tidied(mut self, instance: &Instance) -> Self {
        let mut times: BTreeMap<(usize, Vec<PlacedBox>), u64> = BTreeMap::new();
        let mut order = Vec::new();
        for mut laid in self.laid {
            laid.placed.sort_unstable_by_key(|put| (put.y, put.x, put.kind));
            let count = times.entry((laid.size, laid.placed.clone())).or_insert(0);
            if *count == 0 {
                order.push((laid.size, laid.placed));
            }
            *count += laid.times;
        }
        self.laid = order
            .into_iter()
            .map(|(size, placed)| {
                let key = (size, placed);
                let times = times.get(&key).copied().unwrap_or(1);
                PackedSheet { size, times, placed: key.1 }
            })
            .collect();
        self.laid.sort_by_key(|laid| (laid.size, Reverse(laid.times), Reverse(laid.filled())));
        if let Some(last) = self.emptiest(instance) {
            let last = self.laid.remove(last);
            self.laid.push(last);
        }
        self
    }
}
