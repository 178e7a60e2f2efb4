// SPDX-License-Identifier: MIT
//! The order of battle: simple searches first, then, where effort allows, one sheet fewer again and again.
//!
//! In: the task, a bound, how much effort. Out: the best draft met. All searches are numbered; the best result wins and
//! the lowest number among equals, so neither threads nor time have a say. Never: changes what a search does.
//!
//! Work is counted in steps (one empty rectangle looked at, some seven nanoseconds). Between the two phases large batches
//! get their sheets by column generation (`cover`, with `worthy`).

use std::sync::atomic::{AtomicU64, AtomicUsize, Ordering};

use crate::layout::bound::lower_bound::Proof;
use crate::layout::bound::patterns;
use crate::layout::bound::pricing::Set;
use crate::layout::bound::relaxation::Boxed;
use crate::layout::exact::few_boxes::{self, Few};
use crate::layout::heuristic::builder::Bench;
use crate::layout::heuristic::column_pool::{self, Pool};
use crate::layout::heuristic::constructive::{Choice, Plan, build, fill, in_one_go, supplies};
use crate::layout::heuristic::greedy_columns::Guesser;
use crate::layout::heuristic::open_sheet::Rule;
use crate::layout::heuristic::order::{Key, by_size, shaken};
use crate::layout::heuristic::ruin_recreate::{Pursuit, State};
use crate::layout::heuristic::set_covering::{self, LONG_RUN};
use crate::layout::model::instance::Frame;
use crate::layout::model::packing::{Draft, Laid, Put, Score, largest_empty};
use crate::layout::model::problem::{Effort, Watch};
use crate::layout::parallel::{self, Meter};
use crate::layout::random::Dice;

/// So many pursuits are run side by side towards one sheet fewer; the lowest number that gets there wins.
const PURSUITS: usize = 4;
/// Sheets that a pursuit works on. What is beyond stays as the simple searches left it.
const MOST_SHEETS: usize = 120;
/// A pursuit cannot do anything sensible with more loose boxes than this.
const MOST_LOOSE: u64 = 2000;

/// Sheets that are filled for one guess at the bound by patterns.
const GUESSES: usize = 24;

/// Counted steps for each of the two phases.
struct Budget {
    simple: u64,
    pursuit: u64,
    proof: u64,
    exact: u64,
    shakes: usize,
}

impl Budget {
    fn new(effort: Effort, frame: &Frame) -> Self {
        let pieces = frame.pieces().min(100);
        match effort {
            Effort::Low => Self { simple: 15_000 * pieces, pursuit: 0, proof: 0, exact: 100_000, shakes: 0 },
            Effort::Normal => Self {
                simple: 40_000 * pieces,
                pursuit: 10_000 * pieces * pieces,
                proof: 2_000_000 + 3_000 * pieces * pieces,
                exact: 2_000_000,
                shakes: 24,
            },
            Effort::High => Self {
                simple: 400_000 * pieces,
                pursuit: 100_000 * pieces * pieces,
                proof: 60_000 * pieces * pieces,
                exact: 50_000_000,
                shakes: 120,
            },
        }
    }
}

/// What the search found.
pub(crate) struct Found {
    pub(crate) draft: Draft,
    /// True if the watch called it off.
    pub(crate) cut_short: bool,
}

/// Searches until the bound is met or the effort is spent.
pub(crate) fn search<B: Bench>(
    frame: &Frame,
    proof: &mut Proof,
    effort: Effort,
    threads: usize,
    watch: &dyn Watch,
) -> Found {
    let budget = Budget::new(effort, frame);
    let meter = Meter::new(watch, budget.simple + budget.pursuit + 2 * budget.proof + budget.exact);
    let mut pool = Pool::default();
    let mut best = simple::<B>(frame, &budget, threads, &meter, &mut pool);
    let mut hope = false;
    if best.complete() && best.sheets() > proof.reach(best.sheets()) && budget.exact > 0 {
        best = settled(frame, proof, best, budget.exact, &meter);
    }
    let crumbs = best.laid.iter().any(|laid| laid.puts.len() > column_pool::MOST_BOXES);
    if best.complete() && best.sheets() > proof.reach(best.sheets()) && budget.proof > 0 && !crumbs {
        hope = patterns::<B>(frame, proof, best.sheets(), &budget, &meter, &mut pool);
    }
    let mut covering = budget.proof;
    while hope && covering > 0 && !meter.stopped() && best.complete() && best.sheets() > proof.known() {
        let (found, spent) = set_covering::cover::<B>(frame, &mut pool, best.sheets() - 1, covering, &meter);
        covering = covering.saturating_sub(spent.max(1));
        let Some(found) = found else { break };
        best = found;
    }
    let mut left = budget.pursuit;
    while left > 0 && !meter.stopped() && !(best.complete() && best.sheets() <= proof.reach(best.sheets())) {
        let Some((next, spent)) = pursue::<B>(frame, &best, left, threads, &meter) else { break };
        left = left.saturating_sub(spent.max(1));
        let fewer = next.sheets() < best.sheets() || !best.complete();
        // A larger offcut is not worth breaking long runs for.
        let improved = next.score(frame) < best.score(frame) && (fewer || best.sheets() <= LONG_RUN);
        if improved {
            best = next;
        }
        if !improved || !fewer {
            break;
        }
    }
    let draft = B::finish(frame, roomiest::<B>(frame, best), effort);
    Found { draft: draft.tidied(frame), cut_short: meter.stopped() }
}

/// All rules over all orders, then orders judged a little wrong.
fn simple<B: Bench>(frame: &Frame, budget: &Budget, threads: usize, meter: &Meter, pool: &mut Pool) -> Draft {
    let mut orders: Vec<Vec<usize>> = Vec::new();
    for key in Key::ALL {
        let order = by_size(frame, key);
        if !orders.contains(&order) {
            orders.push(order);
        }
    }
    let choices: &[Choice] = if frame.sizes.len() > 1 { &Choice::ALL } else { &Choice::ALL[..1] };
    let regular = orders.len() * Rule::ALL.len() * choices.len();
    let searches = regular + budget.shakes * choices.len();
    let plan_of = |number: usize| {
        let rule = Rule::ALL[number % Rule::ALL.len()];
        let choice = choices[number / Rule::ALL.len() % choices.len()];
        let order = number / Rule::ALL.len() / choices.len();
        (orders.get(order).cloned(), rule, choice)
    };
    // What each search took. Searches begin while those before them have not used up the budget. With several threads one
    // may begin too early; its result is not looked at, so the threads change nothing.
    let taken: Vec<AtomicU64> = (0..searches).map(|_| AtomicU64::new(0)).collect();
    let in_time = |number: usize| {
        let before = taken[..number].iter().map(|steps| steps.load(Ordering::Relaxed)).fold(0, u64::saturating_add);
        before < budget.simple
    };
    let drafts = parallel::run(threads, searches, &|number| {
        // The first search is run whatever the watch says, so that there is something to return.
        if number > 0 && (meter.stopped() || !in_time(number)) {
            return None;
        }
        let (order, rule, choice) = plan_of(number);
        let order = order.unwrap_or_else(|| {
            let mut dice = Dice::new(u64::try_from(number).unwrap_or(0));
            shaken(frame, Key::ALL[number % 3], 30, &mut dice)
        });
        let mut bench = B::default();
        let plan = Plan { order: &order, rule, choice };
        let draft = build(frame, &plan, frame.counts(), supplies(frame), &mut bench);
        let steps = bench.steps();
        taken[number].store(steps, Ordering::Relaxed);
        meter.step(steps);
        Some(draft)
    });
    let mut best: Option<(Score, Draft)> = None;
    for draft in drafts.into_iter().enumerate().filter(|&(number, _)| in_time(number)).filter_map(|(_, draft)| draft) {
        let score = draft.score(frame);
        if frame.one_size() {
            pool.keep_all(&draft);
        }
        if best.as_ref().is_none_or(|(best, _)| score < *best) {
            best = Some((score, draft));
        }
    }
    best.map_or_else(|| Draft { laid: Vec::new(), left: frame.counts() }, |(_, draft)| draft)
}

/// Tries everything where there are few boxes. Takes its layout only if that has fewer sheets: ours has the larger offcut.
fn settled(frame: &Frame, proof: &mut Proof, best: Draft, steps: u64, meter: &Meter) -> Draft {
    let mut left = steps;
    let kinds = frame.kinds.iter().map(|kind| {
        let poses = kind.poses().iter().map(|pose| (pose.width, pose.height)).collect();
        Boxed { poses, count: kind.count }
    });
    let Some(size) = frame.sizes.first().filter(|_| proof.possible()) else { return best };
    let few = Few {
        width: size.width,
        height: size.height,
        kinds: kinds.collect(),
        share: vec![u128::MAX; frame.kinds.len()],
        trimmer: frame.trimmer,
    };
    let found = few_boxes::settle(&few, &mut left);
    if frame.trimmer || proof.same(frame) {
        // A trimmer cuts every box out, whatever the part in it looks like, and each cut is as wide as the gap.
        if let Some(found) = &found {
            proof.learn(found.least);
        }
    } else if let Some(bound) = proof.few().and_then(|few| few_boxes::settle(&few, &mut left)) {
        proof.learn(bound.least);
    }
    meter.step(steps - left);
    let enough = frame.sizes.len() == 1 && size.supply.is_none();
    let sheets = found.and_then(|found| found.sheets).filter(|_| enough);
    match sheets {
        Some(sheets) if u64::try_from(sheets.len()).is_ok_and(|count| count < best.sheets()) => {
            let laid = sheets.into_iter().map(|puts| Laid { size: 0, times: 1, puts }).collect();
            Draft { laid, left: vec![0; frame.kinds.len()] }
        }
        _ => best,
    }
}

/// Raises the bound by patterns; says whether there is hope of a better layout. It is helped by the searches' own benches.
fn patterns<B: Bench>(
    frame: &Frame,
    proof: &mut Proof,
    sheets: u64,
    budget: &Budget,
    meter: &Meter,
    pool: &mut Pool,
) -> bool {
    let Some(room) = proof.room() else { return false };
    let seeds: Vec<Set> = pool.sheets().iter().map(|(kinds, _)| proof.set(kinds.iter().copied())).collect();
    let mut helper = Filler { guesser: Guesser::<B>::new(frame), counts: frame.counts(), proof, pool, meter };
    let found = patterns::bound(room, &seeds, proof.known(), sheets, budget.proof, &mut helper);
    proof.learn(found.bound);
    found.hope
}

/// Guesses for the bound by patterns; what it fills goes to the pool.
struct Filler<'a, B> {
    guesser: Guesser<'a, B>,
    counts: Vec<u64>,
    proof: &'a Proof,
    pool: &'a mut Pool,
    meter: &'a Meter<'a>,
}

impl<B: Bench> patterns::Helper for Filler<'_, B> {
    fn guess(&mut self, worth: &[u64]) -> (Vec<Set>, u64) {
        let (sheets, steps) = self.guesser.sheets(&self.proof.worth(worth), &self.counts, GUESSES);
        let set = |puts: &Vec<Put>| {
            self.pool.keep(puts);
            self.proof.set(puts.iter().map(|put| put.kind))
        };
        (sheets.iter().map(set).collect(), steps)
    }

    fn step(&mut self, steps: u64) -> bool {
        self.meter.step(steps)
    }
}

/// Tries to do with one sheet fewer. Also returns the steps it took, those of the searches that count.
fn pursue<B: Bench>(frame: &Frame, from: &Draft, budget: u64, threads: usize, meter: &Meter) -> Option<(Draft, u64)> {
    if from.left.iter().fold(0, |sum: u64, &count| sum.saturating_add(count)) > MOST_LOOSE {
        return None;
    }
    // What is pursued comes out as single sheets: of a long run, few.
    let most = if from.sheets() > LONG_RUN { frame.kinds.len() + 2 } else { MOST_SHEETS };
    let (start, kept) = State::unroll(from, most);
    let share = budget / u64::try_from(PURSUITS).unwrap_or(1);
    let winner = AtomicUsize::new(usize::MAX);
    let runs = parallel::run(threads, PURSUITS, &|number| {
        let mut state = start.clone();
        if from.complete() {
            give_up_one(frame, &mut state, number);
        }
        if u64::try_from(state.pool.len()).unwrap_or(u64::MAX) > MOST_LOOSE {
            return None;
        }
        let beaten = || winner.load(Ordering::Relaxed) < number;
        let step = |steps: u64| meter.step(steps) && !beaten();
        let pursuit = Pursuit { frame, budget: share, step: &step };
        let (state, spent) =
            if beaten() { return None } else { B::pursue(&pursuit, state, u64::try_from(number).unwrap_or(0)) };
        if state.pool.is_empty() {
            winner.fetch_min(number, Ordering::Relaxed);
        }
        Some((state, spent))
    });
    let mut spent = 0;
    let mut best: Option<Draft> = None;
    for (state, steps) in runs.into_iter().flatten() {
        spent += steps;
        let done = state.pool.is_empty();
        let draft = completed::<B>(frame, state, &kept);
        if best.as_ref().is_none_or(|best| draft.score(frame) < best.score(frame)) {
            best = Some(draft);
        }
        // Later runs may or may not have been called off by this one, so they do not count.
        if done {
            break;
        }
    }
    best.map(|draft| (draft, spent))
}

/// Each pursuit starts by giving up another of the emptiest sheets; the dearer ones where prices differ.
fn give_up_one(frame: &Frame, state: &mut State, number: usize) {
    let mut candidates: Vec<usize> = (0..state.sheets.len()).collect();
    candidates.sort_by_key(|&sheet| {
        let one = &state.sheets[sheet];
        let size = &frame.sizes[one.size];
        let filled: i64 = one.puts.iter().map(Put::area).sum();
        (size.supply.is_some(), filled)
    });
    if !candidates.is_empty() {
        state.drop_sheet(candidates[number % candidates.len().min(PURSUITS)]);
    }
}

/// Puts what a pursuit could not place on sheets of its own.
fn completed<B: Bench>(frame: &Frame, mut state: State, kept: &[Laid]) -> Draft {
    let mut left = vec![0; frame.kinds.len()];
    for kind in state.pool.drain(..) {
        left[kind] += 1;
    }
    let mut supply = supplies(frame);
    let mut laid: Vec<Laid> = kept.to_vec();
    laid.extend(state.into_laid());
    for one in &laid {
        supply[one.size] = supply[one.size].map(|count| count.saturating_sub(one.times));
    }
    let rest = in_one_go::<B>(frame, &left, &supply);
    laid.extend(rest.laid);
    Draft { laid, left: rest.left }
}

/// Lays the emptiest sheet again so that its largest empty rectangle is as large as can be.
fn roomiest<B: Bench>(frame: &Frame, mut draft: Draft) -> Draft {
    let Some(last) = draft.emptiest(frame) else { return draft };
    let old = &draft.laid[last];
    let mut left = vec![0; frame.kinds.len()];
    for put in &old.puts {
        left[put.kind] += 1;
    }
    let mut bench = B::default();
    let mut best = (largest_empty(frame, old), old.puts.clone());
    for key in Key::ALL {
        let mut order = by_size(frame, key);
        order.retain(|&kind| left[kind] > 0);
        for rule in Rule::ALL {
            bench.open(&frame.sizes[old.size], frame.least(&order));
            fill(frame, &order, &left, rule, &mut bench);
            if bench.laid() < old.puts.len() {
                continue;
            }
            let laid = Laid { size: old.size, times: old.times, puts: bench.puts() };
            let empty = largest_empty(frame, &laid);
            if empty > best.0 {
                best = (empty, laid.puts);
            }
        }
    }
    draft.laid[last].puts = best.1;
    draft
}
