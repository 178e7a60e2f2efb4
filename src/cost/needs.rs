// SPDX-License-Identifier: MIT
//! What an order takes, row by row: sheets, tape and glue, time, packaging.

use super::machine::MachineTime;
use super::{CostRow, CostWhat, SoldBy};
use crate::exact::Exact;
use crate::selling::{Selling, Supplied, Terms, serving};
use crate::sheets::StockSheets;
use crate::stock::Stock;

/// What an order is worked out from.
#[derive(Clone, Debug)]
pub struct OrderNeeds<'a> {
    /// What the maker says.
    pub terms: &'a Terms,
    /// The stocks, in their packs.
    pub stocks: &'a [Stock],
    /// The sheets.
    pub laid: &'a [StockSheets],
    /// The kits.
    pub kits: Vec<KitNeeds>,
    /// Tenths of a minute of hands that the order takes once, however many kits of which name: cutting its sheets on a trimmer.
    pub once: u64,
}

/// What one kit of an order takes.
#[derive(Clone, Debug)]
pub struct KitNeeds {
    /// Its name, where it is a batch's.
    pub name: Option<String>,
    /// How many are made, spares among them.
    pub made: u32,
    /// How many are sold.
    pub sold: u32,
    /// The net area of its parts on each stock, all kits, mm².
    pub areas: Vec<u64>,
    /// What one takes besides sheets, in the units of [`Supplied::unit`].
    pub supplies: Vec<(Supplied, Exact)>,
    /// Tenths of a minute of hands that the steps of one take.
    pub hands: u64,
    /// What the machine is busy for all of them.
    pub machine: MachineTime,
}

/// A row, and how much each kit has of it, by which its cost is shared.
pub(super) struct SharedRow {
    pub row: CostRow,
    /// By kit.
    pub each: Vec<Exact>,
    /// What that is counted in.
    pub unit: &'static str,
}

/// All rows.
pub(super) fn rows(order: &OrderNeeds<'_>) -> Vec<SharedRow> {
    let mut rows = sheets(order);
    rows.extend(supplies(order));
    let selling = &order.terms.selling;
    rows.extend(machine(order, selling));
    rows.extend(hands(order, selling));
    rows.extend(packaging(order, selling));
    rows
}

/// What is cut in several ways is bought once.
fn sheets(order: &OrderNeeds<'_>) -> Vec<SharedRow> {
    let mut rows: Vec<SharedRow> = Vec::new();
    for laid in order.laid {
        let Some(stock) = order.stocks.get(laid.stock) else { continue };
        for (number, count) in laid.by_size() {
            // What lay in the drawer was paid for by another order.
            let Some(size) = stock.sheets.get(number).filter(|size| size.lies.is_none()) else { continue };
            let sold = size.sold();
            let sold = sold.map(|pack| SoldBy { per: Exact::whole(pack.of.into()), price: pack.price, whole: true });
            let row = CostRow {
                what: CostWhat::Sheets(laid.stock, number),
                name: format!("{} {}", stock.bought(), size.name),
                quantity: Some(Exact::whole(count)),
                unit: "sheets",
                sold,
            };
            let area = |kit: &KitNeeds| Exact::whole(kit.areas.get(laid.stock).copied().unwrap_or_default());
            let each: Vec<Exact> = order.kits.iter().map(area).collect();
            match rows.iter_mut().find(|known| known.row.name == row.name && known.row.sold == row.sold) {
                Some(SharedRow { row, each: all, .. }) => {
                    row.quantity = row.quantity.as_ref().map(|sum| sum.plus(&Exact::whole(count)));
                    all.iter_mut().zip(&each).for_each(|(all, one)| *all = all.plus(one));
                }
                None => rows.push(SharedRow { row, each, unit: "mm2" }),
            }
        }
    }
    rows
}

/// What serves several kits, or in several widths, is one row.
fn supplies(order: &OrderNeeds<'_>) -> Vec<SharedRow> {
    let mut rows: Vec<SharedRow> = Vec::new();
    for (number, kit) in order.kits.iter().enumerate() {
        for (needed, amount) in &kit.supplies {
            let all = amount.times(&Exact::whole(kit.made.into()));
            if all.is_zero() {
                continue;
            }
            let supply = serving(&order.terms.supplies, *needed).map(|number| &order.terms.supplies[number].0);
            let name = supply.map_or_else(|| called(*needed), |supply| supply.name.clone());
            let at = rows.iter().position(|row| row.row.name == name).unwrap_or_else(|| {
                let sold = supply.map(|one| SoldBy { per: one.of.clone(), price: one.price.clone(), whole: true });
                let (what, unit) = (CostWhat::Supply(*needed), needed.unit());
                let row = CostRow { what, name, quantity: Some(Exact::zero()), unit, sold };
                rows.push(SharedRow { row, each: vec![Exact::zero(); order.kits.len()], unit });
                rows.len() - 1
            });
            let row = &mut rows[at];
            row.row.quantity = row.row.quantity.as_ref().map(|sum| sum.plus(&all));
            row.each[number] = row.each[number].plus(&all);
        }
    }
    rows
}

/// What a thing is called that the maker has no word for; widths to a tenth of a millimetre.
fn called(what: Supplied) -> String {
    let wide = |name: &str, width: Option<f64>| {
        width.map_or_else(|| name.to_owned(), |mm| format!("{name} {} mm", (mm * 10.0).round() / 10.0))
    };
    match what {
        Supplied::Tape(width) => wide("tape", width),
        Supplied::Ribbon(width) => wide("ribbon", width),
        Supplied::Glue => "glue".to_owned(),
        Supplied::Thread => "thread".to_owned(),
        Supplied::Corners => "corners".to_owned(),
        Supplied::Cover => "cover".to_owned(),
    }
}

/// An hour's price, by the minute.
fn by_the_hour(price: Option<&Exact>) -> Option<SoldBy> {
    price.map(|price| SoldBy { per: Exact::whole(60), price: price.clone(), whole: false })
}

fn tenths(count: u64) -> Exact {
    Exact::ratio(count, 10).unwrap_or_else(Exact::zero)
}

/// Nothing where the machine has nothing to do; of a machine whose speed nobody knows the time is not known either.
fn machine(order: &OrderNeeds<'_>, selling: &Selling) -> Option<SharedRow> {
    if order.kits.iter().all(|kit| kit.machine == MachineTime::Idle) {
        return None;
    }
    let known = order.kits.iter().all(|kit| kit.machine != MachineTime::Unknown);
    let seconds = |kit: &KitNeeds| match kit.machine {
        MachineTime::Seconds(seconds) if known => seconds,
        _ => 0.0,
    };
    // What is begun counts once for the whole order, as the job sheet has it; kits share it by their milliseconds.
    let quantity = known.then(|| tenths(MachineTime::tenths(order.kits.iter().map(seconds).sum())));
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "bounded by what lies on sheets")]
    let each = |kit: &KitNeeds| Exact::whole((seconds(kit) * 1000.0).round().max(0.0) as u64);
    let each: Vec<Exact> = order.kits.iter().map(each).collect();
    let sold = by_the_hour(selling.machine_hour.as_ref());
    let row = CostRow { what: CostWhat::Machine, name: "machine".to_owned(), quantity, unit: "min", sold };
    Some(SharedRow { row, each, unit: "min" })
}

fn hands(order: &OrderNeeds<'_>, selling: &Selling) -> Option<SharedRow> {
    let besides = selling.minutes_a_kit.clone().unwrap_or_else(Exact::zero);
    let of = |kit: &KitNeeds| {
        let steps = tenths(kit.hands).times(&Exact::whole(kit.made.into()));
        steps.plus(&besides.times(&Exact::whole(kit.sold.into())))
    };
    let each: Vec<Exact> = order.kits.iter().map(of).collect();
    let all = each.iter().cloned().sum::<Exact>().plus(&tenths(order.once));
    if all.is_zero() {
        return None;
    }
    let sold = by_the_hour(selling.hour.as_ref());
    let row = CostRow { what: CostWhat::Hands, name: "hands".to_owned(), quantity: Some(all), unit: "min", sold };
    Some(SharedRow { row, each, unit: "min" })
}

/// Every kit that is sold goes out in something.
fn packaging(order: &OrderNeeds<'_>, selling: &Selling) -> Option<SharedRow> {
    let price = selling.packaging.clone()?;
    let each: Vec<Exact> = order.kits.iter().map(|kit| Exact::whole(kit.sold.into())).collect();
    let row = CostRow {
        what: CostWhat::Packaging,
        name: "packaging".to_owned(),
        quantity: Some(each.iter().cloned().sum()),
        unit: "kits",
        sold: Some(SoldBy { per: Exact::whole(1), price, whole: true }),
    };
    Some(SharedRow { row, each, unit: "kits" })
}
