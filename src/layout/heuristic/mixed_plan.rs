// SPDX-License-Identifier: MIT
//! Mixed plan: for long runs on sheets of several sizes, the cheapest mix of sheets that are worth most.
//!
//! In: a packing. Out: a cheaper one, if sheets by the covering programme make one. Never: touches the counted sheets.
//!
//! Columns of all sizes for one programme (Gilmore and Gomory 1961), by diving: what the programme uses as a whole is taken, or
//! else one of the sheets that it uses most of, and what is left asks for sheets of its own. On the way down what is left is laid
//! in one go as well, in several ways; the cheapest of all counts.

use std::collections::BTreeSet;

use crate::layout::bound::pricing::{SHEET_WORTH, whole_worth};
use crate::layout::bound::simplex::Programme;
use crate::layout::bound::whole_sums::next_sum;
use crate::layout::heuristic::column_generation::ColumnGenerator;
use crate::layout::heuristic::constructive::in_one_go;
use crate::layout::heuristic::objective::{cost, objective};
use crate::layout::heuristic::set_covering::wanted;
use crate::layout::heuristic::sheet_builder::SheetBuilder;
use crate::layout::model::instance::{Instance, MILLIONTHS};
use crate::layout::model::mixed_size::{MixedSize, dearest, sizes_as_laid};
use crate::layout::model::one_size::MOST_KINDS;
use crate::layout::model::packing::{PackedSheet, Packing, PlacedBox};
use crate::layout::numbers::{SHEETS_ROUNDING, nearly, whole};
use crate::layout::parallel::Meter;
use crate::layout::random::Random;

/// Exchanges for each programme, and rounds of new sheets: for the whole, and for what is left.
const MOST_EXCHANGES: usize = 600;
const ROUNDS: usize = 200;
const LATER_ROUNDS: usize = 6;
/// Ways down.
const DIVES: u64 = 12;
/// From which part of it on a sheet is taken that is not used as a whole; all are tried.
const LEAST_PARTS: [f64; 4] = [1.0, 0.7, 0.4, 2.0 * SHEETS_ROUNDING];
/// A sheet is new if it is worth so much more than it costs.
const MORE: u64 = SHEET_WORTH / 10_000;

/// A sheet that may be cut.
#[derive(Clone, Debug)]
struct PlanColumn {
    size: usize,
    placed: Vec<PlacedBox>,
}

/// How often a sheet is used, and the part of it that is wanted.
type UsedColumn = (f64, PlanColumn);

/// A cheaper packing with the same counted sheets, for so many steps at most.
pub(crate) fn cheaper<B: SheetBuilder>(
    instance: &Instance,
    best: &Packing,
    steps: u64,
    meter: &Meter,
) -> Option<Packing> {
    let dearest = dearest(instance)?;
    let sizes: Vec<MixedSize> = sizes_as_laid(instance).into_iter().filter(|size| size.supply.is_none()).collect();
    if instance.kinds.len() > MOST_KINDS || sizes.iter().any(|size| !size.is_bought()) {
        return None;
    }
    let (counted, bought): (Vec<PackedSheet>, Vec<PackedSheet>) =
        best.laid.iter().cloned().partition(|laid| instance.sizes[laid.size].supply.is_some());
    let mut left = vec![0; instance.kinds.len()];
    for laid in &bought {
        for put in &laid.placed {
            left[put.kind] += laid.times;
        }
    }
    let each = steps / u64::try_from(sizes.len()).unwrap_or(1).max(1);
    let generators = sizes.iter().map(|size| ColumnGenerator::new(&size.problem, instance.trimmer, each)).collect();
    let columns = bought.into_iter().map(|laid| PlanColumn { size: laid.size, placed: laid.placed }).collect();
    let mut plan = MixedPlan { sizes: &sizes, generators, columns, steps, meter };
    let (sum, used) = plan.programme(&left, ROUNDS);
    // No whole sheets of these cost less.
    let least = next_sum(instance, rounded_down(sum, dearest));
    let mut found: Option<Packing> = None;
    let mut offer = |taken: &[PackedSheet], left: &[u64]| {
        let packing = completed::<B>(instance, counted.iter().chain(taken).cloned().collect(), left);
        let better = |than: &Packing| objective::<B>(&packing, instance) < objective::<B>(than, instance);
        if better(found.as_ref().unwrap_or(best)) {
            found = Some(packing);
        }
        cost(found.as_ref().unwrap_or(best), instance, false) <= least
    };
    let mut done = false;
    for least_part in LEAST_PARTS {
        let mut laid = Vec::new();
        let left = taken(&used, left.clone(), least_part, &mut laid);
        done = offer(&laid, &left);
    }
    for number in 0..DIVES {
        if done || plan.steps == 0 || meter.stopped() {
            break;
        }
        done = plan.dive(&used, &left, number, &mut offer);
    }
    found
}

/// The sum of a programme as a cost, less what it may be off by.
fn rounded_down(sum: f64, dearest: u128) -> u128 {
    let millionths = whole((sum - SHEETS_ROUNDING).max(0.0) * MILLIONTHS);
    u128::from(millionths).saturating_mul(dearest) / u128::from(whole(MILLIONTHS))
}

/// These sheets, and what is left laid in one go.
fn completed<B: SheetBuilder>(instance: &Instance, mut laid: Vec<PackedSheet>, left: &[u64]) -> Packing {
    let supply: Vec<Option<u64>> = instance.sizes.iter().map(|size| size.supply.map(|_| 0)).collect();
    let rest = in_one_go::<B>(instance, left, &supply);
    laid.extend(rest.laid);
    Packing { laid, left: rest.left }
}

/// Takes sheets and laid boxes, and what is left then; says whether nothing cheaper is to be had.
type Offer<'a> = &'a mut dyn FnMut(&[PackedSheet], &[u64]) -> bool;

struct MixedPlan<'a> {
    sizes: &'a [MixedSize],
    /// By size.
    generators: Vec<ColumnGenerator<'a>>,
    columns: Vec<PlanColumn>,
    /// Steps that are left.
    steps: u64,
    meter: &'a Meter<'a>,
}

impl MixedPlan<'_> {
    /// Takes what is used as a whole, or one sheet, and asks again for what is left; the later ways are less faithful.
    fn dive(&mut self, used: &[UsedColumn], left: &[u64], number: u64, offer: Offer) -> bool {
        let mut random = Random::new(number);
        let (mut used, mut left) = (used.to_vec(), left.to_vec());
        let mut laid: Vec<PackedSheet> = Vec::new();
        while !used.is_empty() {
            let before = laid.len();
            for (amount, column) in &used {
                take(column, whole(amount + SHEETS_ROUNDING), &mut left, &mut laid);
            }
            if laid.len() == before {
                let place = if number == 0 { 0 } else { random.below(used.len().min(4)) };
                take(&used[place].1, 1, &mut left, &mut laid);
            }
            if offer(&laid, &left) {
                return true;
            }
            if self.steps == 0 || self.meter.stopped() || left.iter().all(|&count| count == 0) {
                break;
            }
            used = self.programme(&left, LATER_ROUNDS).1;
        }
        false
    }

    /// What covers what is `left` for the least, in so many of the dearest, and how often each sheet is used, the most used first;
    /// after so many rounds of new sheets at most.
    fn programme(&mut self, left: &[u64], rounds: usize) -> (f64, Vec<UsedColumn>) {
        let rows: Vec<usize> = (0..left.len()).filter(|&kind| left[kind] > 0).collect();
        let mut row = vec![None; left.len()];
        for (number, &kind) in rows.iter().enumerate() {
            row[kind] = Some(number);
        }
        let mut master = Programme::new(rows.iter().map(|&kind| nearly(left[kind])).collect());
        // The sheets of the programme, what of them is still wanted, each set once.
        let mut known: BTreeSet<(usize, Vec<usize>)> = BTreeSet::new();
        let mut asked: Vec<PlanColumn> = Vec::new();
        let mut seen = 0;
        for round in 0..=rounds {
            let before = asked.len();
            for column in &self.columns[seen..] {
                // Of the whole a sheet may hold more than is wanted, or sheets that do would be found again and again.
                let placed = if rounds == ROUNDS { column.placed.clone() } else { wanted(&column.placed, left) };
                let mut kinds: Vec<usize> = placed.iter().filter_map(|put| row[put.kind]).collect();
                kinds.sort_unstable();
                let Some(size) = self.sizes.iter().find(|size| size.number == column.size) else { continue };
                if !kinds.is_empty() && known.insert((column.size, kinds.clone())) {
                    master.add(size.pattern(kinds.into_iter()));
                    asked.push(PlanColumn { size: column.size, placed });
                }
            }
            seen = self.columns.len();
            let (sum, worth, exchanges) = master.solve(MOST_EXCHANGES);
            self.spend(master.exchange_steps().saturating_mul(u64::try_from(exchanges + 1).unwrap_or(1)));
            let worth: Vec<u64> = row.iter().map(|row| row.map_or(0, |row| whole_worth(worth[row]))).collect();
            let new = asked.len() > before && round < rounds && self.steps > 0 && self.new_sheets(&worth);
            if !new {
                // The first patterns of a programme are single boxes.
                let amounts = master.amounts().into_iter().skip(rows.len());
                let mut used: Vec<UsedColumn> =
                    amounts.zip(asked).filter(|(amount, _)| *amount > SHEETS_ROUNDING).collect();
                used.sort_by(|one, other| other.0.total_cmp(&one.0));
                return (sum, used);
            }
        }
        (0.0, Vec::new())
    }

    /// Looks for sheets that are worth more than they cost; those that a trimmer can cut come first, as they come soon.
    fn new_sheets(&mut self, worth: &[u64]) -> bool {
        for free in [false, true] {
            let before = self.columns.len();
            let mut spent = 0;
            for (size, generator) in self.sizes.iter().zip(&mut self.generators) {
                let (here, limit) = (size.worths(worth), whole(nearly(SHEET_WORTH) * size.share) + MORE);
                let (sheets, steps) =
                    if free { generator.free_sheets(&here, limit) } else { generator.guillotine_sheets(&here, limit) };
                spent += steps;
                for mut placed in sheets {
                    for put in &mut placed {
                        put.kind = size.kinds[put.kind];
                    }
                    self.columns.push(PlanColumn { size: size.number, placed });
                }
            }
            self.spend(spent);
            if self.columns.len() > before || !self.meter.step(spent) {
                return !self.meter.stopped();
            }
        }
        false
    }

    fn spend(&mut self, steps: u64) {
        self.steps = self.steps.saturating_sub(steps);
    }
}

/// Takes each sheet as often as it is used as a whole, then one more of those of which at least such a part is used, the
/// largest part first; what is left then.
fn taken(used: &[UsedColumn], mut left: Vec<u64>, least_part: f64, laid: &mut Vec<PackedSheet>) -> Vec<u64> {
    for (amount, column) in used {
        take(column, whole(amount + SHEETS_ROUNDING), &mut left, laid);
    }
    let mut parts: Vec<(f64, &PlanColumn)> =
        used.iter().map(|(amount, column)| ((amount + SHEETS_ROUNDING).fract(), column)).collect();
    parts.retain(|(part, _)| *part > least_part);
    parts.sort_by(|one, other| other.0.total_cmp(&one.0));
    for (_, column) in parts {
        take(column, 1, &mut left, laid);
    }
    left
}

/// Lays a sheet so many times, fewer where not all that is on it is still wanted so often.
fn take(column: &PlanColumn, times: u64, left: &mut [u64], laid: &mut Vec<PackedSheet>) {
    let placed = wanted(&column.placed, left);
    let mut on_it = vec![0; left.len()];
    for put in &placed {
        on_it[put.kind] += 1;
    }
    let most = placed.iter().map(|put| left[put.kind] / on_it[put.kind]).min().unwrap_or(0);
    let times = times.min(most);
    if times > 0 {
        for (left, on_it) in left.iter_mut().zip(&on_it) {
            *left -= on_it * times;
        }
        laid.push(PackedSheet { size: column.size, times, placed });
    }
}
