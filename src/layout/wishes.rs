// SPDX-License-Identifier: MIT
//! Wishes: what a maker likes among layouts of as few sheets, at the same cost.
//!
//! In: a packing that is settled in sheets and cost. Out: the same boxes on as many sheets of the same sizes. First things first, and
//! none takes from those before it:
//!
//! 1. equal sheets together: they are one file and are cut as a stack;
//! 2. one large leftover, out of sheets that are cut once;
//! 3. edge-to-edge cuts where they are free, so that a trimmer would do;
//! 4. few cuts, and settings of the trimmer's stop that other sheets have already.
//!
//! The last two cost nothing: they lay a sheet again within itself. What a pattern runs on over comes from one place of a sheet in
//! every layout: it is laid as one part. Never: spends a sheet, loosens what a part or a cutter asks for.

use crate::layout::heuristic::equal_sheets::with_equal_sheets;
use crate::layout::heuristic::leftover::with_larger_leftover;
use crate::layout::heuristic::open_sheet::OpenSheet;
use crate::layout::heuristic::ruin_recreate::Ruin;
use crate::layout::heuristic::rule::Rule;
use crate::layout::heuristic::sheet_builder::SheetBuilder;
use crate::layout::model::instance::Instance;
use crate::layout::model::packing::Packing;
use crate::layout::model::problem::Effort;
use crate::layout::parallel::Meter;
use crate::layout::trimmer::fewer_cuts::with_fewer_cuts;
use crate::layout::trimmer::open_tree::OpenTree;

/// By these, sheets of free layouts are laid again for cuts from edge to edge.
const FREE_RULES: [Rule; 2] = [Rule::Area, Rule::Left];

/// The packing as a maker likes it, as far as so many steps for each of the first wishes go.
pub(crate) fn as_liked<B: Ruin>(
    instance: &Instance,
    packing: Packing,
    (effort, steps): (Effort, u64),
    meter: &Meter,
) -> Packing {
    if steps == 0 || meter.stopped() {
        return B::finish(instance, packing, effort);
    }
    let packing = with_equal_sheets::<B>(instance, packing, steps, meter);
    let packing = with_larger_leftover::<B>(instance, packing, steps, meter);
    if instance.trimmer {
        return B::finish(instance, packing, effort);
    }
    with_fewer_cuts::<OpenTree>(instance, packing, &FREE_RULES, OpenSheet::largest_offcut)
}
