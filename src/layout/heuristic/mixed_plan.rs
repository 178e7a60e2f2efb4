// SPDX-License-Identifier: MIT
//! Mixed plan: for long runs on sheets of several sizes, the cheapest mix of sheets that are worth most.
//!
//! In: a packing. Out: a cheaper one, if sheets by the covering programme make one. Never: touches the counted sheets.
//!
//! Columns of all sizes for one programme (Gilmore and Gomory 1961), from the guillotine knapsack; the programme's whole
//! sheets are taken, then those that it uses most of, one after the other, or what is left is laid in one go.

use std::collections::BTreeMap;

use crate::layout::bound::guillotine_pricing::GuillotinePricer;
use crate::layout::bound::pricing::{Pricing, SHEET_WORTH, whole_worth};
use crate::layout::bound::simplex::{CuttingPattern, Programme};
use crate::layout::heuristic::constructive::in_one_go;
use crate::layout::heuristic::objective::objective;
use crate::layout::heuristic::set_covering::wanted;
use crate::layout::heuristic::sheet_builder::SheetBuilder;
use crate::layout::model::instance::{BinType, Instance};
use crate::layout::model::one_size::{BoxType, MOST_KINDS, OneSizeProblem};
use crate::layout::model::packing::{PackedSheet, Packing, PlacedBox};
use crate::layout::numbers::{SHEETS_ROUNDING, nearly, share, whole};
use crate::layout::parallel::Meter;

/// Exchanges for each programme, and rounds of new sheets.
const MOST_EXCHANGES: usize = 600;
const ROUNDS: usize = 200;
/// From which part of it on a sheet is taken that is not used as a whole; all are tried.
const LEAST_PARTS: [f64; 4] = [1.0, 0.7, 0.4, 2.0 * SHEETS_ROUNDING];
/// A sheet is new if it is worth so much more than it costs.
const MORE: u64 = SHEET_WORTH / 10_000;

/// A size that is bought, and the kinds that go on it.
struct BoughtSize {
    number: usize,
    kinds: Vec<usize>,
    problem: OneSizeProblem,
    /// What a sheet costs, where the dearest costs one.
    share: f64,
}

/// A sheet that may be cut.
struct PlanColumn {
    size: usize,
    placed: Vec<PlacedBox>,
}

/// A cheaper packing with the same counted sheets, for so many steps at most.
pub(crate) fn cheaper<B: SheetBuilder>(
    instance: &Instance,
    best: &Packing,
    steps: u64,
    meter: &Meter,
) -> Option<Packing> {
    let (counted, bought): (Vec<PackedSheet>, Vec<PackedSheet>) =
        best.laid.iter().cloned().partition(|laid| instance.sizes[laid.size].supply.is_some());
    let mut left = vec![0; instance.kinds.len()];
    for laid in &bought {
        for put in &laid.placed {
            left[put.kind] += laid.times;
        }
    }
    let sizes = sizes(instance)?;
    let columns: Vec<PlanColumn> =
        bought.into_iter().map(|laid| PlanColumn { size: laid.size, placed: laid.placed }).collect();
    let used = programme(&sizes, &left, columns, steps, meter)?;
    let mut found: Option<Packing> = None;
    for least_part in LEAST_PARTS {
        let mut laid = counted.clone();
        let left = taken(&used, left.clone(), least_part, &mut laid);
        let supply: Vec<Option<u64>> = instance.sizes.iter().map(|size| size.supply.map(|_| 0)).collect();
        let rest = in_one_go::<B>(instance, &left, &supply);
        laid.extend(rest.laid);
        let packing = Packing { laid, left: rest.left };
        let better = |than: &Packing| objective::<B>(&packing, instance) < objective::<B>(than, instance);
        if better(found.as_ref().unwrap_or(best)) {
            found = Some(packing);
        }
    }
    found
}

/// The sizes that are bought, and not for nothing; none where there are too many kinds.
fn sizes(instance: &Instance) -> Option<Vec<BoughtSize>> {
    let bought = || instance.sizes.iter().enumerate().filter(|(_, size)| size.supply.is_none());
    let dearest = bought().map(|(_, size)| size.cost).max().filter(|&cost| cost > 0)?;
    if instance.kinds.len() > MOST_KINDS || bought().any(|(_, size)| size.cost == 0) {
        return None;
    }
    let of = |(number, size): (usize, &BinType)| {
        let ways = |kind: &usize| {
            let fits = instance.kinds[*kind].orientations().iter();
            let fits = fits.filter(|way| way.width <= size.width && way.height <= size.height);
            let orientations: Vec<(i64, i64)> = fits.map(|way| (way.width, way.height)).collect();
            (!orientations.is_empty()).then(|| (*kind, BoxType { orientations, count: instance.kinds[*kind].count }))
        };
        let kinds: Vec<usize> = (0..instance.kinds.len()).collect();
        let (kinds, boxes): (Vec<usize>, Vec<BoxType>) = kinds.iter().filter_map(ways).unzip();
        let share_of = vec![u128::MAX; boxes.len()];
        let problem = OneSizeProblem { width: size.width, height: size.height, boxes, share: share_of };
        BoughtSize { number, kinds, problem, share: share(size.cost, dearest) }
    };
    Some(bought().map(of).filter(|size| !size.kinds.is_empty()).collect())
}

/// The sheets that cover what is `left` for the least, each as often as the programme uses it, the most used first.
fn programme(
    sizes: &[BoughtSize],
    left: &[u64],
    mut columns: Vec<PlanColumn>,
    steps: u64,
    meter: &Meter,
) -> Option<Vec<(f64, PlanColumn)>> {
    let rows: Vec<usize> = (0..left.len()).filter(|&kind| left[kind] > 0).collect();
    let mut row = vec![None; left.len()];
    for (number, &kind) in rows.iter().enumerate() {
        row[kind] = Some(number);
    }
    let each = steps / u64::try_from(sizes.len()).unwrap_or(1).max(1);
    let mut pricers: Vec<GuillotinePricer> =
        sizes.iter().map(|size| GuillotinePricer::new(&size.problem, each)).collect::<Option<_>>()?;
    let mut master = Programme::new(rows.iter().map(|&kind| nearly(left[kind])).collect());
    let share_of = |number: usize| sizes.iter().find(|size| size.number == number).map_or(1.0, |size| size.share);
    let pattern = |column: &PlanColumn| {
        let mut on_it: BTreeMap<usize, f64> = BTreeMap::new();
        for row in column.placed.iter().filter_map(|put| row[put.kind]) {
            *on_it.entry(row).or_default() += 1.0 / share_of(column.size);
        }
        on_it.into_iter().collect::<CuttingPattern>()
    };
    for column in &columns {
        master.add(pattern(column));
    }
    for _ in 0..ROUNDS {
        let (_, worth, exchanges) = master.solve(MOST_EXCHANGES);
        let mut spent = master.exchange_steps().saturating_mul(u64::try_from(exchanges + 1).unwrap_or(1));
        let mut new = false;
        for (size, pricer) in sizes.iter().zip(&mut pricers) {
            let before = pricer.steps();
            let of = |&kind: &usize| row[kind].map_or(0, |row| whole_worth(worth[row]));
            let here: Vec<u64> = size.kinds.iter().map(of).collect();
            for mut placed in pricer.sheets(&here, whole(nearly(SHEET_WORTH) * size.share) + MORE) {
                for put in &mut placed {
                    put.kind = size.kinds[put.kind];
                }
                let column = PlanColumn { size: size.number, placed };
                master.add(pattern(&column));
                columns.push(column);
                new = true;
            }
            spent += before - pricer.steps();
        }
        if !new || !meter.step(spent) || pricers.iter().any(|pricer| pricer.steps() == 0) {
            break;
        }
    }
    master.solve(MOST_EXCHANGES);
    // The first patterns of a programme are single boxes.
    let amounts = master.amounts().into_iter().skip(rows.len());
    let mut used: Vec<(f64, PlanColumn)> =
        amounts.zip(columns).filter(|(amount, _)| *amount > SHEETS_ROUNDING).collect();
    used.sort_by(|one, other| other.0.total_cmp(&one.0));
    Some(used)
}

/// Takes each sheet as often as it is used as a whole, then one more of those of which at least such a part is used, the
/// largest part first; what is left then.
fn taken(used: &[(f64, PlanColumn)], mut left: Vec<u64>, least_part: f64, laid: &mut Vec<PackedSheet>) -> Vec<u64> {
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
