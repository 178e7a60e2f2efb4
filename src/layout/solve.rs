// SPDX-License-Identifier: MIT
//! The solver: which method is tried after which, and how many steps each may take.
//!
//! In: the instance, what is known of the bound, how much effort. Out: the best packing met. All searches are numbered; the
//! best result wins and the lowest number among equals, so neither threads nor time have a say. Never: changes what a search
//! does.
//!
//! Constructive rules come first, and of few boxes every packing. Then, where effort allows, the bound by patterns; if that
//! leaves hope, set covering with columns generated on the way, and ruin and recreate towards one sheet fewer, again and
//! again. Work is counted in steps (one empty rectangle looked at, some seven nanoseconds).

use crate::layout::bound::closing::{CoverAnswer, close};
use crate::layout::bound::fitting::{FitOracle, Set};
use crate::layout::bound::guillotine_pricing::GuillotinePricer;
use crate::layout::bound::lower_bound::LowerBound;
use crate::layout::bound::mixed_sizes;
use crate::layout::bound::patterns::{self, ColumnSource};
use crate::layout::bound::pricing::{EACH_HEAVY, Pricer, Pricing};
use crate::layout::exact::few_boxes;
use crate::layout::heuristic::column_generation;
use crate::layout::heuristic::column_pool::{self, ColumnPool};
use crate::layout::heuristic::descent::{DescentEffort, descend};
use crate::layout::heuristic::greedy_columns::GreedyFiller;
use crate::layout::heuristic::largest_offcut::with_largest_offcut;
use crate::layout::heuristic::mixed_plan;
use crate::layout::heuristic::multi_start::{StartEffort, multi_start};
use crate::layout::heuristic::objective::cost;
use crate::layout::heuristic::ruin_recreate::Ruin;
use crate::layout::heuristic::set_covering::{LONG_RUN, cover};
use crate::layout::heuristic::sheet_builder::SheetBuilder;
use crate::layout::model::instance::Instance;
use crate::layout::model::packing::{PackedSheet, Packing, PlacedBox};
use crate::layout::model::problem::{Effort, Problem, Watch};
use crate::layout::numbers::{nearly, share};
use crate::layout::parallel::Meter;
use crate::layout::wishes::as_liked;

/// Sheets that are filled for one question of the bound by patterns.
const GREEDY_SHEETS: usize = 24;

/// Where sheets used in part take so much of one more than one sheet fewer, better layouts are hardly met.
const REMOTE: f64 = 0.12;

/// With sheets of several sizes the bound of a long run may take so many times the steps.
const MIXED_TIMES: u64 = 4;

/// Counted steps for each method.
struct Budget {
    start: StartEffort,
    exact: u64,
    /// For the bound by patterns.
    patterns: u64,
    /// For set covering over the patterns that were met.
    covering: u64,
    /// For one sheet fewer, again and again.
    descent: DescentEffort,
    /// For the bound by patterns that a trimmer can cut.
    guillotine: u64,
    /// For what a maker likes among layouts of as few sheets.
    wishes: u64,
}

impl Budget {
    fn new(effort: Effort, instance: &Instance) -> Self {
        // Beyond so many pieces, effort grows no more.
        let pieces = instance.pieces().min(100);
        // The bound says less of sheets for a trimmer, and the search for them gains more by looking longer.
        let trimmer = instance.trimmer;
        // Steps go by the square of the pieces; where there is time, forty pieces get as many as a hundred.
        let square = if instance.one_size() { (250 * pieces).min(10_000) } else { pieces * pieces };
        let start = |steps: u64, perturbed_orders: usize| StartEffort { steps: steps * pieces, perturbed_orders };
        match effort {
            Effort::Low => Self {
                start: start(15_000, 0),
                exact: 100_000,
                patterns: 0,
                covering: 0,
                descent: DescentEffort::default(),
                guillotine: 0,
                wishes: 0,
            },
            Effort::Normal => Self {
                start: start(40_000, 24),
                exact: 2_000_000,
                patterns: 2_000_000 + 4_000 * pieces * pieces,
                covering: 2_000_000 + 4_000 * pieces * pieces,
                descent: DescentEffort { ruin: 18_000 * pieces * pieces, covering: 3_500 * pieces * pieces },
                guillotine: 20_000 * pieces * pieces,
                wishes: 10_000 * pieces,
            },
            Effort::High => Self {
                start: start(400_000, 120),
                exact: 50_000_000,
                patterns: if trimmer { 40_000 } else { 60_000 } * square,
                covering: 10_000 * square,
                descent: DescentEffort {
                    ruin: if trimmer { 80_000 } else { 60_000 } * square,
                    covering: 15_000 * square,
                },
                guillotine: 200_000 * square,
                wishes: 300_000 * pieces,
            },
        }
    }

    fn steps(&self) -> u64 {
        self.start.steps
            + self.exact
            + self.patterns
            + self.covering
            + self.descent.ruin
            + self.descent.covering
            + self.guillotine
            + 2 * self.wishes
    }
}

/// What the search found.
pub(crate) struct SearchOutcome {
    pub(crate) packing: Packing,
    /// The part of what is bought that another layout could save at most, where sizes are mixed.
    pub(crate) savable: Option<f64>,
    /// True if the watch called it off.
    pub(crate) cut_short: bool,
}

/// Searches until the bound is met or the effort is spent.
pub(crate) fn solve<B: Ruin>(
    problem: &Problem,
    instance: &Instance,
    bound: &mut LowerBound,
    watch: &dyn Watch,
) -> SearchOutcome {
    let Problem { effort, threads, .. } = *problem;
    let budget = Budget::new(effort, instance);
    let meter = Meter::new(watch, budget.steps());
    let mut columns = ColumnPool::default();
    let mut best = multi_start::<B>(instance, &budget.start, threads, &meter, &mut columns);
    let (mut hope, mut in_part) = (false, 0.0);
    if best.complete() && best.sheets() > bound.reach(best.sheets()) && budget.exact > 0 {
        best = settled(instance, bound, best, budget.exact, &meter);
    }
    let many_on_a_sheet = best.laid.iter().any(|laid| laid.placed.len() > column_pool::MOST_BOXES);
    if best.complete() && best.sheets() > bound.reach(best.sheets()) && budget.patterns > 0 && !many_on_a_sheet {
        let found = raised::<B>(instance, bound, best.sheets(), budget.patterns, &meter, &mut columns);
        (hope, in_part, best) = (found.hope, found.sum, found.packing.unwrap_or(best));
    }
    if best.complete() && instance.repeated() && best.sheets() > bound.reach(best.sheets()) {
        hope |= guillotine_columns(instance, bound, best.sheets(), budget.guillotine, &meter, &mut columns);
    }
    let mut covering = budget.covering;
    while hope && covering > 0 && !meter.stopped() && best.complete() && best.sheets() > bound.known() {
        let (found, spent) = cover::<B>(instance, &mut columns, best.sheets() - 1, covering, &meter);
        covering = covering.saturating_sub(spent.max(1));
        let Some(found) = found else { break };
        best = found;
    }
    let remote = in_part > nearly(best.sheets().saturating_sub(1)) + REMOTE;
    let descent = if remote { budget.descent.shortened() } else { budget.descent };
    best = descend::<B>(instance, bound, best, descent, (threads, &meter), &mut columns);
    if best.complete() && instance.repeated() && !instance.one_size() && budget.guillotine > 0 && !meter.stopped() {
        best = mixed_plan::cheaper::<B>(instance, &best, budget.guillotine, &meter).unwrap_or(best);
    }
    let packing = as_liked::<B>(instance, with_largest_offcut::<B>(instance, best), (effort, budget.wishes), &meter);
    let savable = savable(problem, instance, &packing, budget.patterns, &meter);
    SearchOutcome { packing: packing.tidied(instance), savable, cut_short: meter.stopped() }
}

/// The part of what is bought that another layout could save at most, where sizes are mixed.
fn savable(problem: &Problem, instance: &Instance, packing: &Packing, steps: u64, meter: &Meter) -> Option<f64> {
    let bought = cost(packing, instance, false);
    if instance.one_size() || !packing.complete() || bought == 0 {
        return None;
    }
    let steps = if instance.repeated() { MIXED_TIMES * steps } else { steps };
    let least = mixed_sizes::least_bought(problem, instance, packing, bought, steps, meter);
    Some(share(bought.saturating_sub(least), bought))
}

/// Tries everything where there are few boxes. Takes its layout only if that has fewer sheets: ours has the larger offcut.
fn settled(instance: &Instance, bound: &mut LowerBound, best: Packing, steps: u64, meter: &Meter) -> Packing {
    let mut left = steps;
    let Some(problem) = instance.one_size_problem().filter(|_| bound.possible()) else { return best };
    let found = few_boxes::settle(&problem, instance.trimmer, &mut left);
    if instance.trimmer || bound.same(instance) {
        // A trimmer cuts every box out, whatever the part in it looks like, and each cut is as wide as the gap.
        if let Some(found) = &found {
            bound.learn(found.least);
        }
    } else if let Some(proven) = bound.problem().and_then(|boxes| few_boxes::settle(boxes, false, &mut left)) {
        bound.learn(proven.least);
    }
    meter.step(steps - left);
    let sheets = found.and_then(|found| found.sheets).filter(|_| instance.endless());
    match sheets {
        Some(sheets) if u64::try_from(sheets.len()).is_ok_and(|count| count < best.sheets()) => {
            let laid = sheets.into_iter().map(|placed| PackedSheet { size: 0, times: 1, placed }).collect();
            Packing { laid, left: vec![0; instance.kinds.len()] }
        }
        _ => best,
    }
}

/// What raising the bound by patterns showed.
#[derive(Default)]
struct Raised {
    hope: bool,
    /// The sheets that it takes if they could be used in part, as far as is known.
    sum: f64,
    /// A layout that is as good as the bound.
    packing: Option<Packing>,
}

/// Raises the bound by patterns; says what hope there is of a better layout.
fn raised<B: SheetBuilder>(
    instance: &Instance,
    bound: &mut LowerBound,
    sheets: u64,
    budget: u64,
    meter: &Meter,
    pool: &mut ColumnPool,
) -> Raised {
    let Some(problem) = bound.problem() else { return Raised::default() };
    let seeds: Vec<Set> = pool.sheets().iter().map(|(kinds, _)| bound.set(kinds.iter().copied())).collect();
    let filler = GreedyFiller::<B>::new(instance);
    let mut source = GreedySource { filler, counts: instance.counts(), bound, pool, meter };
    let Some(mut pricer) = Pricer::new(problem, EACH_HEAVY, budget) else { return Raised::default() };
    let counts: Vec<u64> = problem.boxes.iter().map(|box_type| box_type.count).collect();
    let found = patterns::bound(&counts, &seeds, bound.known(), sheets, &mut pricer, &mut source);
    let (mut least, mut packing) = (found.bound, None);
    let met = pricer.met();
    let closed = found.almost.filter(|_| least + 1 == sheets && sheets <= LONG_RUN).map(|(worth, most)| {
        let before = pricer.steps();
        let closed = close(&mut pricer, &counts, &worth, most, least);
        meter.step(before - pricer.steps());
        closed
    });
    if closed == Some(CoverAnswer::Never) {
        least = sheets;
    }
    if let Some(own) = column_generation::problem(instance).filter(|_| !instance.trimmer && instance.endless()) {
        let mut oracle = FitOracle::new(&own, EACH_HEAVY, budget / 8);
        let mut laid = |set: &Set, left: &mut [u64]| oracle.laid_kinds(&bound.own(set, left)?);
        met.iter().filter_map(|set| laid(set, &mut instance.counts())).for_each(|placed| {
            pool.keep(&placed);
        });
        if let Some(CoverAnswer::With(sets)) = closed {
            let mut left = instance.counts();
            let placed: Option<Vec<_>> = sets.iter().map(|set| laid(set, &mut left)).collect();
            let sheet = |placed| PackedSheet { size: 0, times: 1, placed };
            packing = placed
                .filter(|_| left.iter().all(|&left| left == 0))
                .map(|placed| Packing { laid: placed.into_iter().map(sheet).collect(), left });
        }
    }
    bound.learn(least);
    Raised { hope: found.hope, sum: found.sum, packing }
}

/// Adds sheets that a trimmer can cut as long as used in part they do with fewer; says whether there is hope of a better layout.
/// For a trimmer this raises the bound.
fn guillotine_columns(
    instance: &Instance,
    bound: &mut LowerBound,
    sheets: u64,
    budget: u64,
    meter: &Meter,
    pool: &mut ColumnPool,
) -> bool {
    let Some(problem) = column_generation::problem(instance).filter(|_| budget > 0 && bound.possible()) else {
        return false;
    };
    let Some(mut pricer) = GuillotinePricer::new(&problem, budget) else { return false };
    let set = |kinds: &[usize]| kinds.iter().filter_map(|&kind| u8::try_from(kind).ok()).collect();
    let seeds: Vec<Set> = pool.sheets().iter().map(|(kinds, _)| set(kinds)).collect();
    let found = patterns::bound(&instance.counts(), &seeds, bound.known(), sheets, &mut pricer, &mut OnlySteps(meter));
    if instance.trimmer {
        bound.learn(found.bound);
    }
    for placed in pricer.met() {
        pool.keep(&placed);
    }
    found.hope
}

/// No quick columns: those that are searched for come as quickly.
struct OnlySteps<'a>(&'a Meter<'a>);

impl ColumnSource for OnlySteps<'_> {
    fn columns(&mut self, _worth: &[u64]) -> (Vec<Set>, u64) {
        (Vec::new(), 0)
    }

    fn step(&mut self, steps: u64) -> bool {
        self.0.step(steps)
    }
}

/// Quick columns for the bound by patterns, filled as the searches fill sheets; what it fills goes to the pool.
struct GreedySource<'a, B> {
    filler: GreedyFiller<'a, B>,
    counts: Vec<u64>,
    bound: &'a LowerBound,
    pool: &'a mut ColumnPool,
    meter: &'a Meter<'a>,
}

impl<B: SheetBuilder> ColumnSource for GreedySource<'_, B> {
    fn columns(&mut self, worth: &[u64]) -> (Vec<Set>, u64) {
        let (sheets, steps) = self.filler.sheets(&self.bound.worth(worth), &self.counts, GREEDY_SHEETS);
        let set = |placed: &Vec<PlacedBox>| {
            self.pool.keep(placed);
            self.bound.set(placed.iter().map(|put| put.kind))
        };
        (sheets.iter().map(set).collect(), steps)
    }

    fn step(&mut self, steps: u64) -> bool {
        self.meter.step(steps)
    }
}
