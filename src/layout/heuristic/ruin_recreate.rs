// SPDX-License-Identifier: MIT
//! One sheet fewer: takes a few sheets apart and lays them again, many times, until nothing is left over.
//!
//! In: sheets, and boxes that have no place on them. Out: the same sheets with as little as possible left over; nothing
//! left is the goal. This is ruin and recreate (Schrimpf and others 2000) towards a goal, with late acceptance (Burke and
//! Bykov 2017). Never: opens a sheet.

use std::cmp::Reverse;

use std::collections::BTreeSet;

use crate::layout::heuristic::builder::Bench;
use crate::layout::heuristic::open_sheet::{OpenSheet, Rule};
use crate::layout::heuristic::order::{Key, misjudged};
use crate::layout::model::instance::Frame;
use crate::layout::model::packing::{Draft, Laid, Put};
use crate::layout::random::Dice;

/// A change is taken if it is no worse than what was held this many changes ago.
const MEMORY: usize = 20;
/// No more sheets are taken apart at once.
const MOST_RUINED: usize = 3;
/// Steps that a turn costs beside those on the benches.
const EACH_TURN: u64 = 60;
/// Steps between two looks at the watch.
const BREATH: u64 = 20_000;

/// One sheet of a state.
#[derive(Clone, Debug)]
pub(crate) struct One {
    pub(crate) size: usize,
    pub(crate) puts: Vec<Put>,
}

/// Single sheets and the boxes that have no place.
#[derive(Clone, Debug, Default)]
pub(crate) struct State {
    pub(crate) sheets: Vec<One>,
    pub(crate) pool: Vec<usize>,
}

impl State {
    /// Area of the boxes without a place.
    pub(crate) fn missing(&self, frame: &Frame) -> u128 {
        missing(frame, &self.pool)
    }

    /// Takes the sheets of a draft one by one, the last ones first and no more than `most`; the rest stays as it is. Of a
    /// draft with more sheets only the shortest runs are taken, and whole, so that long runs stay one sheet cut many times.
    /// All that is left over goes to the pool, so the caller sees to it that this is not much.
    pub(crate) fn unroll(draft: &Draft, most: usize) -> (Self, Vec<Laid>) {
        let mut shortest: Vec<usize> = (0..draft.laid.len()).collect();
        shortest.sort_by_key(|&run| draft.laid[run].times);
        let mut room = u64::try_from(most).unwrap_or(u64::MAX);
        let taken: BTreeSet<usize> = shortest
            .into_iter()
            .map_while(|run| {
                room = room.checked_sub(draft.laid[run].times)?;
                Some(run)
            })
            .collect();
        let (mut open, mut kept) = (Vec::new(), Vec::new());
        for (number, laid) in draft.laid.iter().enumerate() {
            if taken.contains(&number) { open.push(laid.clone()) } else { kept.push(laid.clone()) }
        }
        let mut state = Self::default();
        while open.iter().any(|laid| laid.times > 0) {
            for laid in open.iter_mut().rev().filter(|laid| laid.times > 0) {
                laid.times -= 1;
                state.sheets.push(One { size: laid.size, puts: laid.puts.clone() });
            }
        }
        let loose = draft.left.iter().enumerate();
        state.pool = loose
            .flat_map(|(kind, &count)| std::iter::repeat_n(kind, usize::try_from(count).unwrap_or(usize::MAX)))
            .collect();
        (state, kept)
    }

    /// Gives up a sheet: its boxes go to the pool.
    pub(crate) fn drop_sheet(&mut self, number: usize) {
        let dropped = self.sheets.remove(number);
        self.pool.extend(dropped.puts.iter().map(|put| put.kind));
    }

    /// The sheets as part of a draft.
    pub(crate) fn into_laid(self) -> impl Iterator<Item = Laid> {
        self.sheets.into_iter().map(|one| Laid { size: one.size, times: 1, puts: one.puts })
    }
}

/// Area of these boxes.
pub(crate) fn missing(frame: &Frame, pool: &[usize]) -> u128 {
    pool.iter().map(|&kind| u128::from(frame.kinds[kind].area().unsigned_abs())).sum()
}

/// How a sheet is taken apart.
#[derive(Clone, Copy)]
enum Ruin {
    All,
    LeftOf(i64),
    RightOf(i64),
    Below(i64),
    Above(i64),
    Some(usize),
}

impl Ruin {
    fn any(dice: &mut Dice, width: i64, height: i64, few: bool) -> Self {
        if dice.chance(if few { 75 } else { 25 }) {
            return Self::All;
        }
        let eighths = |size: i64, dice: &mut Dice| size / 8 * i64::try_from(2 + dice.below(5)).unwrap_or(4);
        match dice.below(5) {
            0 => Self::LeftOf(eighths(width, dice)),
            1 => Self::RightOf(eighths(width, dice)),
            2 => Self::Below(eighths(height, dice)),
            3 => Self::Above(eighths(height, dice)),
            _ => Self::Some(20 + dice.below(60)),
        }
    }

    fn spares(self, put: &Put, dice: &mut Dice) -> bool {
        match self {
            Self::All => false,
            Self::LeftOf(x) => put.x >= x,
            Self::RightOf(x) => put.x + put.width <= x,
            Self::Below(y) => put.y >= y,
            Self::Above(y) => put.y + put.height <= y,
            Self::Some(percent) => !dice.chance(percent),
        }
    }
}

/// What stays fixed during one pursuit.
pub(crate) struct Pursuit<'a> {
    pub(crate) frame: &'a Frame,
    /// Counted steps that may be spent.
    pub(crate) budget: u64,
    /// Hears of steps; false when the search is called off.
    pub(crate) step: &'a (dyn Fn(u64) -> bool + Sync),
}

impl Pursuit<'_> {
    /// The best state found, and the steps it took.
    pub(crate) fn run(&self, mut state: State, number: u64) -> (State, u64) {
        let mut dice = Dice::new(number);
        let mut benches: [OpenSheet; MOST_RUINED] = Default::default();
        let mut now = state.missing(self.frame);
        let mut best = state.clone();
        let mut least = now;
        let mut memory = vec![now; MEMORY];
        let (mut spent, mut told) = (0, 0);
        let mut turn = 0;
        while least > 0 && spent < self.budget && !state.sheets.is_empty() {
            let mut ruined = pick(&state, &mut dice);
            ruined.sort_unstable();
            ruined.dedup();
            let pool = self.relay(&state, &ruined, &mut benches, &mut dice);
            let then = missing(self.frame, &pool);
            let slot = turn % MEMORY;
            turn += 1;
            if then <= now || then <= memory[slot] {
                for (&sheet, bench) in ruined.iter().zip(&mut benches) {
                    std::mem::swap(&mut state.sheets[sheet].puts, &mut bench.puts);
                }
                state.pool = pool;
                now = then;
                if now < least {
                    least = now;
                    best.clone_from(&state);
                }
            }
            memory[slot] = now;
            spent += EACH_TURN + benches.iter_mut().map(Bench::steps).sum::<u64>();
            if spent - told >= BREATH {
                if !(self.step)(spent - told) {
                    return (best, spent);
                }
                told = spent;
            }
        }
        (self.step)(spent - told);
        (best, spent)
    }

    /// Lays the ruined sheets and the pool again on the benches; returns the new pool.
    fn relay(&self, state: &State, ruined: &[usize], benches: &mut [OpenSheet], dice: &mut Dice) -> Vec<usize> {
        let mut loose: Vec<usize> = Vec::with_capacity(state.pool.len() + 16);
        let mut kept: Vec<Put> = Vec::new();
        let mut ends = [0; MOST_RUINED];
        for (&sheet, end) in ruined.iter().zip(&mut ends) {
            let one = &state.sheets[sheet];
            let size = &self.frame.sizes[one.size];
            let ruin = Ruin::any(dice, size.width, size.height, one.puts.len() < 8);
            for put in &one.puts {
                if ruin.spares(put, dice) {
                    kept.push(*put);
                } else {
                    loose.push(put.kind);
                }
            }
            *end = kept.len();
        }
        let from_sheets = loose.len();
        loose.extend(&state.pool);
        // Only now is it known which empty rectangles are of any use.
        let least = self.frame.least(&loose);
        let mut start = 0;
        for ((&sheet, bench), end) in ruined.iter().zip(&mut *benches).zip(ends) {
            bench.open(&self.frame.sizes[state.sheets[sheet].size], least);
            for put in &kept[start..end] {
                bench.keep(*put);
            }
            start = end;
        }
        let key = Key::ALL[dice.below(Key::ALL.len())];
        let percent = [5, 20, 60, 100][dice.below(4)];
        let eager = dice.chance(20);
        let mut keyed: Vec<(Reverse<i64>, usize)> = loose
            .iter()
            .enumerate()
            .map(|(number, &kind)| {
                let size = misjudged(key.of(self.frame.kinds[kind].pose()).0, percent, dice);
                // Boxes that have waited may go first.
                let size = if eager && number >= from_sheets { size.saturating_mul(2) } else { size };
                (Reverse(size), kind)
            })
            .collect();
        keyed.sort_unstable();
        let rule = Rule::ALL[dice.below(Rule::ALL.len())];
        let first_fit = dice.chance(50);
        let mut pool = Vec::new();
        for (_, kind) in keyed {
            let open = benches[..ruined.len()].iter_mut();
            let found = if first_fit {
                open.enumerate().find_map(|(number, bench)| Some((number, bench.spot(&self.frame.kinds[kind], rule)?)))
            } else {
                open.enumerate()
                    .filter_map(|(number, bench)| Some((number, bench.spot(&self.frame.kinds[kind], rule)?)))
                    .min_by_key(|(_, spot)| spot.worth)
            };
            match found {
                Some((number, spot)) => benches[number].lay(kind, &spot),
                None => pool.push(kind),
            }
        }
        pool
    }
}

/// One to three different sheets.
fn pick(state: &State, dice: &mut Dice) -> Vec<usize> {
    let wanted = match dice.below(10) {
        0..3 => 1,
        3..8 => 2,
        _ => MOST_RUINED,
    };
    (0..wanted).map(|_| dice.below(state.sheets.len())).collect()
}
