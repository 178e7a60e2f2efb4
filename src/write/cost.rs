// SPDX-License-Identifier: MIT
//! `cost.csv` (RFC 4180): what the order takes and costs, then what one of each kit does.
//!
//! Every amount is worked out exactly and rounded once, when it is written here: so a column may differ from its sum by a cent.

use super::csv::cell;
use crate::cost::{AskingPrice, Cost, CostRow, KitCost};
use crate::exact::Exact;
use std::fmt::Write;

/// The columns.
const HEAD: [&str; 9] = ["of", "what", "quantity", "unit", "per", "packs", "price", "cost", "currency"];

/// What an order costs. Rows of the `order` are of all kits: `price` is for so much as stands under `per`, and where there are
/// `packs`, the cost is theirs. Rows of a kit have what all its copies take; the cost is one kit's.
#[must_use]
pub fn cost(cost: &Cost) -> String {
    let mut out = HEAD.join(",") + "\r\n";
    let mut put = |cells: [String; 8]| {
        let money = cells[7].is_empty();
        let currency = cost.currency.clone().filter(|_| !money).unwrap_or_default();
        let cells: Vec<String> = cells.into_iter().chain([currency]).map(cell).collect();
        let _ = write!(out, "{}\r\n", cells.join(","));
    };
    for row in &cost.rows {
        put(of_order(cost, row));
    }
    asked(cost, "order", &cost.order, &mut put);
    for kit in &cost.kits {
        of_kit(cost, kit, &mut put);
    }
    out
}

fn of_order(cost: &Cost, row: &CostRow) -> [String; 8] {
    let sold = row.sold.as_ref();
    [
        "order".to_owned(),
        row.name.clone(),
        row.quantity.as_ref().map(ToString::to_string).unwrap_or_default(),
        row.unit.to_owned(),
        sold.map(|sold| sold.per.to_string()).unwrap_or_default(),
        row.packs().map(|packs| packs.to_string()).unwrap_or_default(),
        sold.map(|sold| sold.price.to_string()).unwrap_or_default(),
        row.cost().map(|amount| cost.shown(&amount)).unwrap_or_default(),
    ]
}

fn of_kit(cost: &Cost, kit: &KitCost, put: &mut dyn FnMut([String; 8])) {
    let of = kit.name.as_deref().map_or_else(|| "kit".to_owned(), |name| format!("kit {name}"));
    let line = |what: &str, quantity: String, unit: &str, amount: String| {
        let [none, nothing, empty] = [(); 3].map(|()| String::new());
        [of.clone(), what.to_owned(), quantity, unit.to_owned(), none, nothing, empty, amount]
    };
    put(line("made", kit.made.to_string(), "kits", String::new()));
    put(line("sold", kit.sold.to_string(), "kits", String::new()));
    for share in &kit.shares {
        let name = cost.rows.get(share.row).map_or("", |row| row.name.as_str());
        let amount = share.cost.as_ref().map(|amount| cost.shown(amount)).unwrap_or_default();
        put(line(name, share_of(&share.quantity), share.unit, amount));
    }
    asked(cost, &of, &kit.asked, put);
    put(line("one more", String::new(), "", cost.shown(&kit.one_more)));
}

/// How much a kit has of a row: to three decimals, where a part of it has no end.
pub(super) fn share_of(quantity: &Exact) -> String {
    if quantity.has_at_most(3) { quantity.to_string() } else { quantity.fixed(3) }
}

fn asked(cost: &Cost, of: &str, asked: &AskingPrice, put: &mut dyn FnMut([String; 8])) {
    let AskingPrice { cost: own, overhead, profit, fees, tax, price } = asked;
    let rows = [
        ("cost", own),
        ("overhead", overhead),
        ("profit", profit),
        ("fees", fees),
        ("tax", tax),
        ("price to ask", price),
    ];
    for (what, amount) in rows {
        let [quantity, unit, per, packs, each] = [(); 5].map(|()| String::new());
        put([of.to_owned(), what.to_owned(), quantity, unit, per, packs, each, cost.shown(amount)]);
    }
}
