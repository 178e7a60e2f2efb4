// SPDX-License-Identifier: MIT
//! What the order costs, what to ask for a kit, what one more would cost: for whoever makes the kits.

use super::bits::{Block, Section, Table};
use super::desk::Desk;
use super::line::{Line, What};
use super::measure;
use crate::cost::{AskingPrice, Cost, CostRow, CostWhat, KitCost};
use crate::exact::Exact;
use crate::selling::Supplied;

/// Columns of what the order takes, and of what kits cost.
const HEADS: [&str; 5] = ["cost-head-what", "cost-head-amount", "cost-head-buy", "cost-head-left", "cost-head-cost"];
const KIT_HEADS: [&str; 5] = ["cost-head-kit", "cost-head-sold", "cost-head-costs", "cost-head-ask", "cost-head-more"];

/// Nothing where the maker says nothing of buying and selling.
pub(super) fn section(desk: &Desk<'_>) -> Option<Section> {
    let cost = desk.job.cost?;
    let caption = desk.say("cost-caption", vec![("currency", currency(desk, cost))]);
    let rows = cost.rows.iter().map(|row| of_row(desk, cost, row)).collect();
    let taken = Table { caption, head: heads(desk, &HEADS), rows }.without_empty_columns();
    let mut blocks = vec![Block::Words(desk.tell("cost-words")), Block::Table(taken), Block::Table(order(desk, cost))];
    let rows = cost.kits.iter().map(|kit| of_kit(desk, cost, kit)).collect();
    let kits = Table { caption: desk.tell("cost-kits"), head: heads(desk, &KIT_HEADS), rows };
    blocks.push(Block::Table(kits.without_empty_columns()));
    let notes = notes(desk, cost);
    if !notes.is_empty() {
        blocks.push(Block::List(notes));
    }
    Some(Section { id: "cost", heading: desk.tell("cost-heading"), blocks })
}

fn heads(desk: &Desk<'_>, keys: &[&str]) -> Vec<Line> {
    keys.iter().map(|key| desk.tell(key)).collect()
}

fn currency(desk: &Desk<'_>, cost: &Cost) -> Line {
    cost.currency.as_deref().map_or_else(|| desk.tell("cost-no-currency"), Line::text)
}

/// An amount as it is written, without what money is called: that stands above.
fn money(desk: &Desk<'_>, cost: &Cost, amount: &Exact) -> Line {
    let shown = desk.measure.notation.write(&cost.shown(amount));
    measure::number(shown, amount.near(), What::Price, "")
}

fn of_row(desk: &Desk<'_>, cost: &Cost, row: &CostRow) -> Vec<Line> {
    let unit = |amount: &Exact| amount_of(desk, row, amount);
    vec![
        named(desk, row),
        row.quantity.as_ref().map_or_else(|| desk.tell("cost-unknown"), unit),
        packs(desk, row),
        row.left().filter(|_| is_packed(row)).as_ref().map_or_else(Line::default, unit),
        row.cost().map_or_else(|| desk.tell("cost-no-price"), |amount| money(desk, cost, &amount)),
    ]
}

/// Whether it is sold in packs of more than one.
fn is_packed(row: &CostRow) -> bool {
    row.sold.as_ref().is_some_and(|sold| sold.whole && sold.per != Exact::whole(1))
}

fn packs(desk: &Desk<'_>, row: &CostRow) -> Line {
    let packs = row.packs().zip(row.sold.as_ref()).filter(|_| is_packed(row));
    packs.map_or_else(Line::default, |(packs, sold)| {
        let count = measure::count(packs, What::Many, "packs");
        desk.say("cost-packs", vec![("n", count), ("of", amount_of(desk, row, &sold.per))])
    })
}

/// How much: `37`, `4.2 m`, `12 ml`, `95.5 min`.
fn amount_of(desk: &Desk<'_>, row: &CostRow, amount: &Exact) -> Line {
    let plain = |unit: &str, what: What| {
        let shown = format!("{}{}{unit}", desk.measure.notation.write(&amount.fixed(1)), measure::THIN);
        measure::number(shown, amount.near(), what, "")
    };
    match (row.what, row.unit) {
        (CostWhat::Sheets(..), _) => measure::count(amount.up(), What::Sheets, &row.name),
        (CostWhat::Machine | CostWhat::Hands, unit) => plain(unit, What::Time),
        (CostWhat::Supply(_), "mm") => desk.measure.run(amount.near(), "order"),
        (CostWhat::Supply(_), "ml") => plain("ml", What::Many),
        (CostWhat::Packaging | CostWhat::Supply(_), _) => measure::count(amount.up(), What::Many, &row.name),
    }
}

/// What it is called: as the maker does, else in the guide's own words.
fn named(desk: &Desk<'_>, row: &CostRow) -> Line {
    let wide = |[key, with_width]: [&str; 2], width: Option<f64>| match width {
        Some(mm) => {
            let width = measure::number(desk.measure.show_both(mm), mm, What::TapeWidth, "");
            desk.say(with_width, vec![("width", width)])
        }
        None => desk.tell(key),
    };
    match row.what {
        CostWhat::Machine => desk.tell("cost-machine"),
        CostWhat::Hands => desk.tell("cost-hands"),
        CostWhat::Packaging => desk.tell("cost-packaging"),
        CostWhat::Sheets(..) => Line::text(row.name.as_str()),
        CostWhat::Supply(_) if row.sold.is_some() => Line::text(row.name.as_str()),
        CostWhat::Supply(Supplied::Tape(width)) => wide(["cost-tape", "cost-tape-wide"], width),
        CostWhat::Supply(Supplied::Ribbon(width)) => wide(["cost-ribbon", "cost-ribbon-wide"], width),
        CostWhat::Supply(Supplied::Glue) => desk.tell("cost-glue"),
        CostWhat::Supply(Supplied::Thread) => desk.tell("cost-thread"),
        CostWhat::Supply(Supplied::Corners) => desk.tell("cost-corners"),
        CostWhat::Supply(Supplied::Cover) => desk.tell("cost-cover"),
    }
}

/// From the cost of all kits to what is asked for them.
fn order(desk: &Desk<'_>, cost: &Cost) -> Table {
    let AskingPrice { cost: own, overhead, profit, fees, tax, price } = &cost.order;
    let rows = [
        ("cost-is-cost", own),
        ("cost-is-overhead", overhead),
        ("cost-is-profit", profit),
        ("cost-is-fees", fees),
        ("cost-is-tax", tax),
        ("cost-is-price", price),
    ];
    let rows = rows.into_iter().filter(|(_, amount)| !amount.is_zero());
    Table {
        caption: desk.tell("cost-order"),
        head: heads(desk, &HEADS[..2]),
        rows: rows.map(|(key, amount)| vec![desk.tell(key), money(desk, cost, amount)]).collect(),
    }
}

fn of_kit(desk: &Desk<'_>, cost: &Cost, kit: &KitCost) -> Vec<Line> {
    vec![
        kit.name.as_deref().map_or_else(Line::default, Line::text),
        measure::count(kit.sold.into(), What::Kits, kit.name.as_deref().unwrap_or_default()),
        money(desk, cost, &kit.asked.cost),
        money(desk, cost, &kit.asked.price),
        money(desk, cost, &kit.one_more),
    ]
}

/// What is in no amount, and where one more kit would open another pack.
fn notes(desk: &Desk<'_>, cost: &Cost) -> Vec<Line> {
    let without: Vec<Line> = cost.without_price().map(|row| named(desk, row)).collect();
    let mut notes = Vec::new();
    if !without.is_empty() {
        notes.push(desk.say("cost-without", vec![("these", desk.words.list(without))]));
    }
    for kit in cost.kits.iter().filter(|kit| !kit.another_pack.is_empty()) {
        let rows = kit.another_pack.iter().filter_map(|row| cost.rows.get(*row));
        let these = desk.words.list(rows.map(|row| named(desk, row)).collect());
        notes.push(match kit.name.as_deref() {
            Some(name) => desk.say("cost-another-of", vec![("kit", Line::text(name)), ("these", these)]),
            None => desk.say("cost-another", vec![("these", these)]),
        });
    }
    notes
}
