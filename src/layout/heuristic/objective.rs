// SPDX-License-Identifier: MIT
//! The objective: how two packings compare.

use std::cmp::Reverse;

use crate::layout::heuristic::sheet_builder::SheetBuilder;
use crate::layout::model::instance::Instance;
use crate::layout::model::packing::Packing;

/// What a packing is worth: the smaller the better, first things first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(crate) struct Objective {
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
    pub(crate) offcut: Reverse<i64>,
}

impl Objective {
    /// The same with the offcut of another, to compare all else.
    pub(crate) fn but_for_offcut(self, other: Self) -> Self {
        Self { offcut: other.offcut, ..self }
    }
}

/// What a packing is worth in layouts as `B` makes them.
pub(crate) fn objective<B: SheetBuilder>(packing: &Packing, instance: &Instance) -> Objective {
    let area = |(kind, &count): (usize, &u64)| {
        u128::from(instance.kinds[kind].area().unsigned_abs()).saturating_mul(u128::from(count))
    };
    let counted = packing.laid.iter().filter(|laid| instance.sizes[laid.size].supply.is_some());
    let on_counted = counted
        .map(|laid| u128::from(laid.filled().unsigned_abs()).saturating_mul(u128::from(laid.times)))
        .fold(0, u128::saturating_add);
    Objective {
        left: packing.left.iter().enumerate().map(area).fold(0, u128::saturating_add),
        bought: cost(packing, instance, false),
        on_counted: Reverse(on_counted),
        spent: cost(packing, instance, true),
        sheets: packing.sheets(),
        offcut: Reverse(packing.emptiest(instance).map_or(0, |last| B::largest_offcut(instance, &packing.laid[last]))),
    }
}

/// What the sheets cost that are not counted, or all of them.
pub(crate) fn cost(packing: &Packing, instance: &Instance, counted_too: bool) -> u128 {
    let sheets = packing.laid.iter().filter(|laid| counted_too || instance.sizes[laid.size].supply.is_none());
    let costs = sheets.map(|laid| instance.sizes[laid.size].cost.saturating_mul(u128::from(laid.times)));
    costs.fold(0, u128::saturating_add)
}
