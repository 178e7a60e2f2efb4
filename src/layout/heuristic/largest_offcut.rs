// SPDX-License-Identifier: MIT
//! The largest offcut: the emptiest sheet is laid again, so that what is left of it is of use.

use crate::layout::heuristic::builder::SheetBuilder;
use crate::layout::heuristic::constructive::fill;
use crate::layout::heuristic::order::{SortKey, by_size};
use crate::layout::heuristic::rule::Rule;
use crate::layout::model::instance::Instance;
use crate::layout::model::packing::{PackedSheet, Packing};

/// Lays the emptiest sheet again so that its largest empty rectangle is as large as can be.
pub(crate) fn with_largest_offcut<B: SheetBuilder>(instance: &Instance, mut packing: Packing) -> Packing {
    let Some(last) = packing.emptiest(instance) else { return packing };
    let old = &packing.laid[last];
    let mut left = vec![0; instance.kinds.len()];
    for put in &old.placed {
        left[put.kind] += 1;
    }
    let mut builder = B::default();
    let mut best = (B::largest_offcut(instance, old), old.placed.clone());
    for key in SortKey::ALL {
        let mut order = by_size(instance, key);
        order.retain(|&kind| left[kind] > 0);
        for rule in Rule::ALL {
            builder.open(&instance.sizes[old.size], instance.least(&order));
            fill(instance, &order, &left, rule, &mut builder);
            if builder.laid() < old.placed.len() {
                continue;
            }
            let laid = PackedSheet { size: old.size, times: old.times, placed: builder.placed() };
            let empty = B::largest_offcut(instance, &laid);
            if empty > best.0 {
                best = (empty, laid.placed);
            }
        }
    }
    packing.laid[last].placed = best.1;
    packing
}
