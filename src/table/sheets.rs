// SPDX-License-Identifier: MIT
//! The sheets, and what there is to take away, in words and pictures for the page.

use super::{album, words};
use crate::length::Units;
use crate::picture;
use crate::sheets::{Sheet, StockSheets, Tally};
use crate::work::{Files, Work};
use crate::write;
use serde_json::{Value, json};

/// The sheets of a work that goes together and was laid out; none of another.
pub(super) fn sheets(work: &Work) -> Option<Value> {
    if work.stopped() || work.paths.is_empty() {
        return None;
    }
    let stocks: Vec<Value> = work.stocks.iter().map(|laid| stock(work, laid)).collect();
    let costs: Option<f64> = work.stocks.iter().map(|laid| Tally::of(&work.album, laid).cost).sum();
    Some(json!({
        "sentence": sentence(work, costs),
        "proven": work.stocks.iter().all(|laid| laid.proven_least),
        "counts": work.stocks.iter().map(StockSheets::count).sum::<u64>(),
        "stocks": stocks,
    }))
}

/// `9 sheets of card, 4 of paper; no layout can do it in fewer.`
fn sentence(work: &Work, costs: Option<f64>) -> String {
    let name = |laid: &StockSheets| work.album.stocks.get(laid.stock).map_or("", |stock| stock.name.as_str());
    let counts: Vec<String> =
        work.stocks.iter().map(|laid| format!("{} of {}", words::counted(laid.count(), "sheet"), name(laid))).collect();
    let open: Vec<&str> = work.stocks.iter().filter(|laid| !laid.proven_least).map(name).collect();
    let least = if open.is_empty() {
        "no layout can do it in fewer".to_owned()
    } else {
        format!("whether the {} can be done in fewer is not known", open.join(" and "))
    };
    let costs = costs.map_or_else(String::new, |cost| format!(", {cost:.2} in all"));
    format!("{}{costs}; {least}.", counts.join(", "))
}

fn stock(work: &Work, laid: &StockSheets) -> Value {
    let Some(stock) = work.album.stocks.get(laid.stock) else { return Value::Null };
    let cost = Tally::of(&work.album, laid).cost;
    let least = if laid.proven_least {
        "no layout can do it in fewer".to_owned()
    } else if stock.sheets.len() == 1 {
        format!("perhaps it can be done in {}, surely not in fewer", laid.lower_bound)
    } else {
        "with several sizes of sheet it is not known whether fewer would do".to_owned()
    };
    let cost = cost.map_or_else(String::new, |cost| format!(", {cost:.2} in all"));
    json!({
        "name": stock.name,
        "way": format!("stocks.{}", stock.name),
        "sheet": album::names(stock),
        "sentence": format!(
            "{}{cost}, {:.0} % of them used; {least}.", words::counted(laid.count(), "sheet"), laid.used_percent
        ),
        "sheets": laid.sheets.iter().map(|one| sheet(work, laid.stock, one)).collect::<Vec<_>>(),
    })
}

fn sheet(work: &Work, stock: usize, sheet: &Sheet) -> Value {
    let times = if sheet.times == 1 { "cut once".to_owned() } else { format!("cut {} times", sheet.times) };
    let parts = words::counted(sheet.placements.len() as u64, "part");
    let offcuts: Vec<String> =
        sheet.offcuts.iter().map(|[_, _, width, height]| offcut(work, *width, *height)).collect();
    json!({
        "name": sheet.name,
        "picture": write::drawing(&picture::sheet(&work.album, &work.kit, stock, sheet)),
        "words": format!("{times}, {parts}"),
        "offcuts": offcuts,
    })
}

/// What is left over, measured down to what a ruler shows.
fn offcut(work: &Work, width: f64, height: f64) -> String {
    let step = if work.album.units == Units::In { 25.4 / 16.0 } else { 1.0 };
    let down = |mm: f64| crate::length::Length::from_mm((mm / step + 1e-6).floor() * step);
    words::sides(&work.album, down(width), down(height))
}

/// What there is to take away.
pub(super) fn take(work: &Work) -> Value {
    let names: Vec<&str> = work.paths.iter().map(|sheet| sheet.name.as_str()).collect();
    let sheets: u64 = work.stocks.iter().map(StockSheets::count).sum();
    let sentence = if work.stopped() || names.is_empty() {
        "Nothing to cut yet: mend first what stops it. The album file can be kept at any time.".to_owned()
    } else {
        format!(
            "{} to cut, as SVG and DXF, with their pictures, the cutting list and the guide.",
            words::counted(sheets, "sheet")
        )
    };
    json!({ "sentence": sentence, "names": names, "formats": Files::ALL.formats })
}
