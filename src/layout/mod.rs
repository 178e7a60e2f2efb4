// SPDX-License-Identifier: MIT
//! Lays flat parts on stock sheets so that as few sheets as possible are used, and says how few would do at least.
//!
//! In: items (a bounding box, optionally the true contour, the turns they may take, how many), sheets (usable area, how
//! many there are, price), the least gap between items, how much effort. Out: sheets with placements, equal sheets once
//! with `times`; a proven bound; what is left over as free rectangles. Never: alters an outline, knows albums, grain or
//! kerf, reads a file or a clock. The same problem gives the same layout on any number of threads.
//!
//! All lengths are whole eighths of a micrometre, so 1/64 in (exactly 3175 of them) and 1 mm (8000) add up without
//! rounding. x runs right and y up from the sheet's lower left. Sizes below 1 count as 1; no sheet is used beyond 134 m or
//! for more than 20,000 parts.
//!
//! ```
//! use hingeleaf::layout::{Effort, Item, Problem, SheetType, Turns, Unwatched, lay_out};
//!
//! let inch = 64 * 3175;
//! let panel = Item { width: 5 * inch, height: 7 * inch, contour: None, holes: Vec::new(), turns: Turns::ANY, count: 8 };
//! let sheet = SheetType { width: 12 * inch, height: 12 * inch, count: None, price: None };
//! let problem = Problem { items: &[panel], sheets: &[sheet], gap: 0, effort: Effort::Low, threads: 1 };
//! let layout = lay_out(&problem, &Unwatched)?;
//! assert_eq!(layout.sheets.len(), 1); // four panels round an empty middle,
//! assert_eq!(layout.sheets[0].times, 2); // twice
//! assert!(layout.proven_least);
//! # Ok::<(), hingeleaf::layout::NoLayout>(())
//! ```

mod bound;
mod exact;
mod heuristic;
mod model;
mod numbers;
mod offcuts;
mod parallel;
mod random;
mod solve;
mod trimmer;
mod wishes;

use self::bound::lower_bound::LowerBound;
pub(crate) use self::bound::whole_sums::least_sum;
use self::heuristic::objective::objective;
use self::heuristic::open_sheet::OpenSheet;
use self::heuristic::openings::{is_better, is_worth_it, opened};
use self::heuristic::pairs::{PairedItems, attempts, repacked};
use self::heuristic::ruin_recreate::Ruin;
use self::model::assignment::{deal, left_over};
use self::model::instance::Instance;
use self::model::packing::Packing;
use self::solve::{SearchOutcome, solve};
use self::trimmer::open_tree::OpenTree;

pub use self::model::cut_tree::{CutDirection, CutNode, CutTree};
pub use self::model::problem::{Cuts, Effort, Item, Problem, SheetType, Turn, Turns, Unwatched, Watch};
pub use self::model::reason::{ApartGroup, CountedItem, Reason};
pub use self::model::solution::{LaidSheet, Layout, NoLayout, Placement};
pub use self::offcuts::offcuts;

/// Lays all items on sheets.
///
/// The aims, first things first: as little as can be is bought beside the counted sheets and as much as can be lies on
/// them; least cost (area where a price is missing); fewest sheets; the largest free rectangle on the emptiest sheet. With
/// one size of sheet this is: fewest sheets, then the largest offcut. With more effort than [`Effort::Low`] a maker's further wishes
/// are heard where they take nothing from that: equal sheets, edge-to-edge cuts, few settings of a trimmer's stop.
///
/// # Errors
/// [`NoLayout::TooBig`] with every item that fits no sheet; [`NoLayout::OutOfSheets`] if counted sheets do not suffice.
pub fn lay_out(problem: &Problem, watch: &dyn Watch) -> Result<Layout, NoLayout> {
    lay_out_for(problem, Cuts::Free, watch)
}

/// The same, for any cutter or for a trimmer. Trimmer layouts carry their cuts; few cuts and few settings of the stop are
/// their last aim. The bound of free layouts holds for them as well; in long runs they have a higher one of their own.
///
/// ```
/// use hingeleaf::layout::{Cuts, Effort, Item, Problem, SheetType, Turns, Unwatched, lay_out_for};
///
/// let panel = Item { width: 5, height: 7, contour: None, holes: Vec::new(), turns: Turns::ANY, count: 3 };
/// let sheet = SheetType { width: 12, height: 12, count: None, price: None };
/// let problem = Problem { items: &[panel], sheets: &[sheet], gap: 0, effort: Effort::Low, threads: 1 };
/// let layout = lay_out_for(&problem, Cuts::Trimmer, &Unwatched)?;
/// assert_eq!(layout.sheets.len(), 1); // a fourth panel would need a cut that stops halfway
/// let cuts = layout.sheets[0].cuts.as_ref().map_or(0, |piece| piece.cuts());
/// assert!(cuts <= 6);
/// # Ok::<(), hingeleaf::layout::NoLayout>(())
/// ```
///
/// # Errors
/// As [`lay_out`].
pub fn lay_out_for(problem: &Problem, cuts: Cuts, watch: &dyn Watch) -> Result<Layout, NoLayout> {
    let instance = Instance::new(problem, cuts)?;
    match cuts {
        Cuts::Free => lay_out_with::<OpenSheet>(problem, instance, opened(problem), watch),
        // A cut from edge to edge goes through whatever is round a window, and through one of a pair.
        Cuts::Trimmer => lay_out_with::<OpenTree>(problem, instance, None, watch),
    }
}

/// Why no layout takes fewer sheets than a bound that came with one, which is for these sheets; nothing where that is one sheet, or
/// sheets are mixed.
///
/// It is worked out anew, as the shortest argument that does, and takes milliseconds where that is not at hand.
///
/// ```
/// use hingeleaf::layout::{Cuts, Effort, Item, Problem, Reason, SheetType, Turns, Unwatched, lay_out, reason};
///
/// let wide = Item { width: 7, height: 4, contour: None, holes: Vec::new(), turns: Turns::NONE, count: 3 };
/// let tall = Item { width: 4, height: 10, contour: None, holes: Vec::new(), turns: Turns::NONE, count: 1 };
/// let sheet = SheetType { width: 10, height: 10, count: None, price: None };
/// let problem = Problem { items: &[wide, tall], sheets: &[sheet], gap: 0, effort: Effort::Normal, threads: 1 };
/// let layout = lay_out(&problem, &Unwatched)?;
/// assert_eq!((layout.lower_bound, layout.proven_least), (3, true));
/// // With a point for a wide one and two for the tall one, a sheet has room for two points, and there are five.
/// let reason = reason(&problem, Cuts::Free, layout.lower_bound, &layout.sheets);
/// assert!(matches!(reason, Some(Reason::AtMost { most: 2, .. })));
/// # Ok::<(), hingeleaf::layout::NoLayout>(())
/// ```
#[must_use]
pub fn reason(problem: &Problem, cuts: Cuts, lower_bound: u64, sheets: &[LaidSheet]) -> Option<Reason> {
    bound::reason::reason(problem, cuts, (lower_bound, sheets))
}

fn lay_out_with<B: Ruin>(
    problem: &Problem,
    mut instance: Instance,
    opened: Option<Instance>,
    watch: &dyn Watch,
) -> Result<Layout, NoLayout> {
    if instance.kinds.is_empty() {
        return Ok(Layout { sheets: Vec::new(), lower_bound: 0, proven_least: true, savable: None, cut_short: false });
    }
    // Boxes that keep apart need what they would need if windows were card; what is promised holds with parts in windows, too.
    let windows = problem.items.iter().any(|item| !item.holes.is_empty()) && !instance.trimmer;
    let filled: Vec<Item> = problem.items.iter().map(|item| Item { holes: Vec::new(), ..item.clone() }).collect();
    let as_boxes = Problem { items: &filled, ..*problem };
    let mut bound = LowerBound::new(&as_boxes, &instance);
    let mut outcome = solve::<B>(problem, &instance, &mut bound, watch);
    if windows {
        bound = LowerBound::new(problem, opened.as_ref().unwrap_or(&instance));
    }
    if let Some(opened) = opened.filter(|_| !watch.stop()) {
        bound.of_kinds(&opened);
        let found = solve::<B>(problem, &opened, &mut bound, watch);
        outcome.cut_short |= found.cut_short;
        let worth = |of: &SearchOutcome, instance: &Instance| objective::<B>(&of.packing, instance);
        if is_worth_it(&found.packing, worth(&found, &opened), worth(&outcome, &instance)) {
            outcome = SearchOutcome { cut_short: outcome.cut_short, ..found };
            instance = opened;
        }
    }
    let paired =
        if instance.trimmer { None } else { with_pairs::<B>(problem, (&instance, &mut outcome), &mut bound, watch) };
    let (SearchOutcome { packing, savable, cut_short }, instance) = (outcome, &instance);
    if !packing.complete() {
        return Err(NoLayout::OutOfSheets { left: left_over(instance, &packing) });
    }
    let sheets = packing.sheets();
    bound.reach(sheets);
    let lower_bound = bound.settled(sheets);
    Ok(Layout {
        sheets: paired.unwrap_or_else(|| deal(instance, &packing, problem.items, B::cut_tree)),
        lower_bound,
        proven_least: bound.possible() && lower_bound == sheets,
        savable,
        cut_short,
    })
}

/// The sheets with parts in pairs, where that is better than what was found without; the outcome is of these sheets then.
///
/// Every way to pair is tried with little effort, and the best of them once more with as much as is asked for.
fn with_pairs<B: Ruin>(
    problem: &Problem,
    (instance, outcome): (&Instance, &mut SearchOutcome),
    bound: &mut LowerBound,
    watch: &dyn Watch,
) -> Option<Vec<LaidSheet>> {
    let worth = |packing: &Packing| objective::<B>(packing, instance);
    let mut laid = |problem: &Problem, way: &PairedItems, paired: &Instance| {
        bound.of_kinds(paired);
        let found = solve::<B>(problem, paired, bound, watch);
        outcome.cut_short |= found.cut_short;
        let sheets = found.packing.complete().then(|| way.sheets(paired, &found.packing))?;
        let packing = repacked(&sheets, problem.items, instance);
        Some((worth(&packing), SearchOutcome { packing, ..found }, sheets))
    };
    let quick = Problem { effort: Effort::Low, ..*problem };
    let ways = attempts(problem).into_iter().filter_map(|way| Some((way.instance(problem)?, way)));
    let mut tried: Vec<_> =
        ways.take_while(|_| !watch.stop()).map(|(paired, way)| (laid(&quick, &way, &paired), way, paired)).collect();
    // Where sheets are short the first way is as good as any.
    tried.sort_by_key(|(found, ..)| found.as_ref().map_or((1, None), |found| (0, Some(found.0))));
    let (found, way, paired) = tried.into_iter().next()?;
    let more = if problem.effort == quick.effort || watch.stop() { None } else { laid(problem, &way, &paired) };
    let (reached, found, sheets) = found.into_iter().chain(more).min_by_key(|found| found.0)?;
    if !is_better(&found.packing, reached, worth(&outcome.packing)) {
        return None;
    }
    *outcome = SearchOutcome { cut_short: outcome.cut_short, ..found };
    Some(sheets)
}
