// SPDX-License-Identifier: MIT
//! Set covering: one sheet fewer from the sheets that were met, of which some cover all boxes together.
//!
//! In: sheets of one size, how many may be used. Out: a packing with no more than those, if there is one to be found. Never:
//! proves that there is none.
//!
//! Set covering over the sheets met (Monaci and Toth 2006), by diving: solves the programme that may use sheets in part,
//! takes the sheets that it uses most, and goes on with what is left, for which new sheets are filled on the way.

use std::collections::BTreeMap;

use crate::layout::bound::pricing::{SHEET_WORTH, whole_worth};
use crate::layout::bound::simplex::Programme;
use crate::layout::heuristic::column_generation::{self, ColumnGenerator};
use crate::layout::heuristic::column_pool::ColumnPool;
use crate::layout::heuristic::constructive::{in_one_go, supplies};
use crate::layout::heuristic::greedy_columns::GreedyFiller;
use crate::layout::heuristic::sheet_builder::SheetBuilder;
use crate::layout::model::instance::Instance;
use crate::layout::model::packing::{PackedSheet, Packing, PlacedBox};
use crate::layout::numbers::{SHEETS_ROUNDING, nearly, sheets_up, whole};
use crate::layout::parallel::Meter;
use crate::layout::random::Random;

/// A problem of more sheets than this is a long run: a few sheets, each cut many times.
pub(crate) const LONG_RUN: u64 = 100;
/// With more kinds than this the programme takes too long.
const MOST_KINDS: usize = 150;
/// Rounds of new sheets for each programme, and sheets a round.
const ROUNDS: usize = 12;
const TRIES: usize = 12;
/// The same where sheets are many, so that what a part of one is worth multiplies.
const LONG_ROUNDS: usize = 200;
const LONG_TURNS: usize = 100;
/// Exchanges for each programme.
const MOST_EXCHANGES: usize = 600;
/// Steps that a sheet costs when it is held against those that the programme has.
const NEW_COLUMN: usize = 100;
/// A sheet that is used this much is taken at once.
const NEARLY_ALL: f64 = 0.85;
/// A sheet that a greedy rule filled is new if it is worth a thousandth more than a sheet, one that was searched for if it is
/// worth a ten thousandth more: the rule is asked again and again, the search proves that there is none.
const MORE_GREEDY: u64 = SHEET_WORTH / 1000;
const MORE_SEARCHED: u64 = SHEET_WORTH / 10_000;

/// Whether a few different sheets, each cut many times, make up a layout of so many sheets.
pub(crate) fn is_long(instance: &Instance, sheets: u64) -> bool {
    sheets > LONG_RUN || (instance.repeated() && sheets > 2 * u64::try_from(instance.kinds.len()).unwrap_or(u64::MAX))
}

/// Looks for a packing of at most `sheets` sheets, in dives until `budget` steps are spent. Also returns the steps.
pub(crate) fn cover<B: SheetBuilder>(
    instance: &Instance,
    pool: &mut ColumnPool,
    sheets: u64,
    budget: u64,
    meter: &Meter,
) -> (Option<Packing>, u64) {
    let long = is_long(instance, sheets);
    let problem = long.then(|| column_generation::problem(instance)).flatten();
    let generator = problem.as_ref().map(|problem| ColumnGenerator::new(problem, instance.trimmer, budget / 4));
    let mut diver = Diver {
        instance,
        filler: GreedyFiller::<B>::new(instance),
        generator,
        long,
        pool,
        budget,
        spent: 0,
        told: 0,
        hopeless: false,
    };
    let mut packing = None;
    let mut number = 0;
    while diver.possible() && diver.spent < budget {
        let before = diver.spent;
        packing = diver.dive(sheets, number, meter);
        // Where even sheets used in part do not suffice, another dive does not help.
        if packing.is_some() || diver.spent == before || diver.hopeless || meter.stopped() {
            break;
        }
        number += 1;
    }
    (packing, diver.spent)
}

struct Diver<'a, B> {
    instance: &'a Instance,
    filler: GreedyFiller<'a, B>,
    /// The search for the best sheet of all; only in long runs.
    generator: Option<ColumnGenerator<'a>>,
    long: bool,
    pool: &'a mut ColumnPool,
    budget: u64,
    spent: u64,
    told: u64,
    hopeless: bool,
}

/// How often a sheet of the pool is used, and the part of it that is still wanted.
type Used = (f64, usize);

impl<B: SheetBuilder> Diver<'_, B> {
    /// One size, and enough of it.
    fn possible(&self) -> bool {
        self.instance.sizes.len() == 1
            && self.instance.sizes[0].supply.is_none()
            && self.instance.kinds.len() <= MOST_KINDS
    }

    /// Lays what is left in one go.
    fn completed(&self, mut laid: Vec<PackedSheet>, left: &[u64]) -> Packing {
        let rest = in_one_go::<B>(self.instance, left, &supplies(self.instance));
        laid.extend(rest.laid);
        Packing { laid, left: rest.left }
    }

    fn dive(&mut self, sheets: u64, number: u64, meter: &Meter) -> Option<Packing> {
        let mut random = Random::new(number);
        let mut left = self.instance.counts();
        let mut taken: Vec<PackedSheet> = Vec::new();
        let mut used = 0;
        while left.iter().any(|&count| count > 0) {
            let may = sheets.checked_sub(used).filter(|&may| may > 0)?;
            // What is found for the whole problem is worth looking for longer than what is left in the end.
            let hard = taken.is_empty() && self.spent < self.budget / 2;
            let Some(choice) = self.programme(&left, may, hard, meter) else {
                self.hopeless |= taken.is_empty();
                return None;
            };
            // Single boxes are on no sheet that was met; of a long run nearly all is in place when time runs out.
            if choice.is_empty() || (self.spent >= self.budget && self.long && used > 0) {
                return Some(self.completed(taken, &left)).filter(|packing| packing.sheets() <= sheets);
            }
            if self.spent >= self.budget {
                return None;
            }
            for (amount, sheet) in chosen(choice, number, &mut random) {
                let placed = wanted(&self.pool.sheets()[sheet].1, &left);
                if placed.is_empty() {
                    continue;
                }
                let mut on_it = vec![0; left.len()];
                for put in &placed {
                    on_it[put.kind] += 1;
                }
                let most = placed.iter().map(|put| left[put.kind] / on_it[put.kind]).min().unwrap_or(0);
                let times = whole(amount + SHEETS_ROUNDING).clamp(1, most.max(1)).min(sheets - used);
                if times == 0 {
                    break;
                }
                for (left, on_it) in left.iter_mut().zip(&on_it) {
                    *left = left.saturating_sub(on_it * times);
                }
                used += times;
                taken.push(PackedSheet { size: 0, times, placed });
            }
        }
        Some(Packing { laid: taken, left })
    }

    /// Which sheets cover what is left, each in part; none if that takes more than `may` of them.
    fn programme(&mut self, left: &[u64], may: u64, hard: bool, meter: &Meter) -> Option<Vec<Used>> {
        let kinds: Vec<usize> = (0..left.len()).filter(|&kind| left[kind] > 0).collect();
        let mut row = vec![usize::MAX; left.len()];
        for (number, &kind) in kinds.iter().enumerate() {
            row[kind] = number;
        }
        let mut programme = Programme::new(kinds.iter().map(|&kind| nearly(left[kind])).collect());
        // Parts of sheets that are still wanted, and the sheet that each comes from; the first that has it.
        let mut known: BTreeMap<Vec<(usize, u64)>, usize> = BTreeMap::new();
        let mut from: Vec<usize> = Vec::new();
        let mut seen = 0;
        let hard = hard && self.long;
        let (rounds, enough) = if hard { (LONG_ROUNDS, self.spent + self.budget / 4) } else { (ROUNDS, u64::MAX) };
        for round in 0..=rounds {
            for (number, (on_it, _)) in self.pool.sheets().iter().enumerate().skip(seen) {
                let part = part(on_it, left, &row);
                if part.len() > 1 || part.iter().any(|&(_, count)| count > 1) || round == 0 {
                    known.entry(part).or_insert_with_key(|part| {
                        programme.add(part.iter().map(|&(row, count)| (row, nearly(count))).collect());
                        from.push(number);
                        number
                    });
                }
            }
            self.spent += u64::try_from(NEW_COLUMN * (self.pool.sheets().len() - seen)).unwrap_or(u64::MAX);
            seen = self.pool.sheets().len();
            let (sum, worth, exchanges) = programme.solve(MOST_EXCHANGES);
            let exchanges = u64::try_from(exchanges + 1).unwrap_or(1);
            self.spent += programme.exchange_steps().saturating_mul(exchanges);
            let new = round < rounds && self.spent < enough && self.fill(left, &kinds, &worth, hard);
            if !new {
                if sheets_up(sum) > may {
                    return None;
                }
                // The first patterns of a programme are single boxes.
                let amounts = programme.amounts();
                let used = amounts.iter().skip(kinds.len()).copied().zip(from.iter().copied());
                let mut used: Vec<Used> = used.filter(|(amount, _)| *amount > SHEETS_ROUNDING).collect();
                used.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(&b.1)));
                if !meter.step(self.spent - self.told) {
                    return None;
                }
                self.told = self.spent;
                return Some(used);
            }
        }
        None
    }

    /// Fills new sheets with what is left. Whether one of them is worth more than a sheet.
    fn fill(&mut self, left: &[u64], kinds: &[usize], worth: &[f64], hard: bool) -> bool {
        let mut worths = vec![0; left.len()];
        for (&kind, &worth) in kinds.iter().zip(worth) {
            worths[kind] = whole_worth(worth);
        }
        if self.greedy(left, &worths, 1) {
            return true;
        }
        let Some(mut generator) = self.generator.take() else { return hard && self.greedy(left, &worths, LONG_TURNS) };
        // What the guillotine knapsack knows for certain, chance need not look for.
        let (mut sheets, steps) = generator.guillotine_sheets(&worths, SHEET_WORTH + MORE_SEARCHED);
        self.spent += steps;
        if sheets.is_empty() && hard && !self.instance.trimmer {
            if self.greedy(left, &worths, LONG_TURNS) {
                self.generator = Some(generator);
                return true;
            }
            let (free, steps) = generator.free_sheets(&worths, SHEET_WORTH + MORE_SEARCHED);
            self.spent += steps;
            sheets = free;
        }
        self.generator = Some(generator);
        sheets.iter().filter(|placed| self.pool.keep(placed)).count() > 0
    }

    /// Fills new sheets by a quick rule, in so many turns at most. Whether one of them is worth more than a sheet.
    fn greedy(&mut self, left: &[u64], worths: &[u64], turns: usize) -> bool {
        let mut new = false;
        for _ in 0..turns {
            let (sheets, steps) = self.filler.sheets(worths, left, TRIES);
            self.spent += steps;
            for placed in sheets {
                let worth: u64 = placed.iter().map(|put| worths[put.kind]).sum();
                new |= self.pool.keep(&placed) && worth > SHEET_WORTH + MORE_GREEDY;
            }
            if new {
                break;
            }
        }
        new
    }
}

/// What of a sheet is still wanted, by row of the programme.
fn part(on_it: &[usize], left: &[u64], row: &[usize]) -> Vec<(usize, u64)> {
    let mut part: Vec<(usize, u64)> = Vec::new();
    for &kind in on_it.iter().filter(|&&kind| left[kind] > 0) {
        match part.last_mut() {
            Some((last, count)) if *last == row[kind] => *count = (*count + 1).min(left[kind]),
            _ => part.push((row[kind], 1)),
        }
    }
    part
}

/// What of a sheet is still wanted, where it lies.
pub(crate) fn wanted(placed: &[PlacedBox], left: &[u64]) -> Vec<PlacedBox> {
    let mut open = left.to_vec();
    let mut kept = Vec::new();
    for put in placed {
        if open[put.kind] > 0 {
            open[put.kind] -= 1;
            kept.push(*put);
        }
    }
    kept
}

/// The sheets to take: those used as a whole or nearly, or else the most used one. Later dives are less faithful.
fn chosen(used: Vec<Used>, number: u64, random: &mut Random) -> Vec<Used> {
    let sure: Vec<Used> = used.iter().copied().filter(|(amount, _)| *amount > NEARLY_ALL).collect();
    if !sure.is_empty() {
        return sure;
    }
    let place = if number == 0 { 0 } else { random.below(used.len().min(4)) };
    used.into_iter().skip(place).take(1).collect()
}
