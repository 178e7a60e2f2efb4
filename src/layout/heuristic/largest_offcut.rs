// SPDX-License-Identifier: MIT
//! The largest offcut: the emptiest sheet is laid again, so that what is left of it is of use.

use crate::layout::heuristic::constructive::laid_again;
use crate::layout::heuristic::rule::Rule;
use crate::layout::heuristic::sheet_builder::SheetBuilder;
use crate::layout::heuristic::sort_key::{SortKey, by_size};
use crate::layout::model::instance::Instance;
use crate::layout::model::packing::Packing;

/// Lays the emptiest sheet again so that its largest empty rectangle is as large as can be.
pub(crate) fn with_largest_offcut<B: SheetBuilder>(instance: &Instance, mut packing: Packing) -> Packing {
    let Some(last) = packing.emptiest(instance) else { return packing };
    let old = &packing.laid[last];
    let orders = SortKey::ALL.map(|key| by_size(instance, key));
    let mut best = (B::largest_offcut(instance, old), old.placed.clone());
    laid_again::<B>(instance, old, &orders, &Rule::ALL, &mut |laid| {
        let empty = B::largest_offcut(instance, &laid);
        if empty > best.0 {
            best = (empty, laid.placed);
        }
    });
    packing.laid[last].placed = best.1;
    packing
}
