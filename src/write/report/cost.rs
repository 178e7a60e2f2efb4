// SPDX-License-Identifier: MIT
//! `"cost"` of the report: amounts and quantities as decimals in texts, so that no reader makes binary fractions of them.

use crate::cost::{AskingPrice, Cost, CostRow, KitCost, KitShare};
use crate::write::cost::share_of;
use schemars::JsonSchema;
use serde::Serialize;

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct CostReport<'a> {
    /// What money is called.
    #[serde(skip_serializing_if = "Option::is_none")]
    currency: Option<&'a str>,
    /// How many decimals amounts are rounded to, a half up.
    decimals: usize,
    /// What the whole order takes.
    rows: Vec<CostLine<'a>>,
    kits: Vec<KitLine<'a>>,
    order: AskedLine,
    /// The names of rows that are in no amount: they have no price, or how much is taken is not known.
    without_price: Vec<&'a str>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct CostLine<'a> {
    what: &'a str,
    /// Nothing where it is not known.
    #[serde(skip_serializing_if = "Option::is_none")]
    quantity: Option<String>,
    unit: &'static str,
    /// How much is sold together.
    #[serde(skip_serializing_if = "Option::is_none")]
    per: Option<String>,
    /// How many packs are bought.
    #[serde(skip_serializing_if = "Option::is_none")]
    packs: Option<u64>,
    /// How much of them is left over.
    #[serde(skip_serializing_if = "Option::is_none")]
    left: Option<String>,
    /// What so much costs.
    #[serde(skip_serializing_if = "Option::is_none")]
    price: Option<String>,
    #[serde(skip_serializing_if = "Option::is_none")]
    cost: Option<String>,
}

/// What one of a kit's copies that are sold costs.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct KitLine<'a> {
    #[serde(skip_serializing_if = "Option::is_none")]
    name: Option<&'a str>,
    /// How many are made, spares among them.
    made: u32,
    /// How many are sold.
    sold: u32,
    shares: Vec<ShareLine<'a>>,
    #[serde(flatten)]
    asked: AskedLine,
    /// What one more would cost.
    one_more: String,
    /// Of what one more would need another pack.
    another_pack: Vec<&'a str>,
}

/// What all copies of a kit have of something; `cost` is one kit's.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ShareLine<'a> {
    what: &'a str,
    quantity: String,
    unit: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    cost: Option<String>,
}

#[derive(Serialize, JsonSchema)]
struct AskedLine {
    cost: String,
    overhead: String,
    profit: String,
    fees: String,
    tax: String,
    price: String,
}

pub(super) fn cost_report(cost: &Cost) -> CostReport<'_> {
    CostReport {
        currency: cost.currency.as_deref(),
        decimals: cost.decimals,
        rows: cost.rows.iter().map(|row| line(cost, row)).collect(),
        kits: cost.kits.iter().map(|kit| kit_line(cost, kit)).collect(),
        order: asked(cost, &cost.order),
        without_price: cost.without_price().map(|row| row.name.as_str()).collect(),
    }
}

fn line<'a>(cost: &Cost, row: &'a CostRow) -> CostLine<'a> {
    CostLine {
        what: &row.name,
        quantity: row.quantity.as_ref().map(ToString::to_string),
        unit: row.unit,
        per: row.sold.as_ref().map(|sold| sold.per.to_string()),
        packs: row.packs(),
        left: row.left().map(|left| left.to_string()),
        price: row.sold.as_ref().map(|sold| sold.price.to_string()),
        cost: row.cost().map(|amount| cost.shown(&amount)),
    }
}

fn kit_line<'a>(cost: &'a Cost, kit: &'a KitCost) -> KitLine<'a> {
    let name = |row: usize| cost.rows.get(row).map_or("", |row| row.name.as_str());
    let share = |share: &KitShare| ShareLine {
        what: name(share.row),
        quantity: share_of(&share.quantity),
        unit: share.unit,
        cost: share.cost.as_ref().map(|amount| cost.shown(amount)),
    };
    KitLine {
        name: kit.name.as_deref(),
        made: kit.made,
        sold: kit.sold,
        shares: kit.shares.iter().map(share).collect(),
        asked: asked(cost, &kit.asked),
        one_more: cost.shown(&kit.one_more),
        another_pack: kit.another_pack.iter().map(|row| name(*row)).collect(),
    }
}

fn asked(cost: &Cost, asked: &AskingPrice) -> AskedLine {
    let AskingPrice { cost: own, overhead, profit, fees, tax, price } = asked;
    let [own, overhead, profit, fees, tax, price] = [own, overhead, profit, fees, tax, price].map(|of| cost.shown(of));
    AskedLine { cost: own, overhead, profit, fees, tax, price }
}
