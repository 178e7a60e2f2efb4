// SPDX-License-Identifier: MIT
//! The sheets, and what there is to take away, in words and pictures for the page.

use super::question::Question;
use super::{album, taken, words};
use crate::album::Album;
use crate::finding::{Arg, Said};
use crate::length::Length;
use crate::parts::Kit;
use crate::picture;
use crate::sheets::{Sheet, StockSheets, Tally};
use crate::work::{Files, Work};
use crate::write;
use serde_json::{Value, json};

/// Parts laid on sheets: of an album, or of a batch, for which an album with its title, units and stocks stands.
#[derive(Clone, Copy, Debug)]
pub(super) struct LaidOrder<'a> {
    pub album: &'a Album,
    pub kit: &'a Kit,
    pub stocks: &'a [StockSheets],
}

/// The sheets of a work that goes together and was laid out; none of another.
pub(super) fn sheets(work: &Work) -> Option<Value> {
    let Work { album, kit, stocks, .. } = work;
    (!work.stopped()).then(|| laid(&LaidOrder { album, kit, stocks })).flatten()
}

/// The sheets that are laid, if any are.
pub(super) fn laid(work: &LaidOrder<'_>) -> Option<Value> {
    if work.stocks.is_empty() {
        return None;
    }
    let stocks: Vec<Value> = work.stocks.iter().map(|laid| stock(work, laid)).collect();
    let costs: Option<f64> = work.stocks.iter().map(|laid| Tally::of(work.album.order(), laid).cost).sum();
    Some(json!({
        "sentence": sentence(work, costs),
        "line": line(work, costs),
        "proven": work.stocks.iter().all(|laid| laid.proven_least),
        "counts": work.stocks.iter().map(StockSheets::count).sum::<u64>(),
        "stocks": stocks,
        "printed_first": work.stocks.iter().flat_map(|laid| &laid.sheets).any(|sheet| !sheet.register.is_empty()),
    }))
}

/// `9 sheets of card, 4 sheets of paper; no layout can do it in fewer.`
fn sentence(work: &LaidOrder<'_>, costs: Option<f64>) -> String {
    let name = |laid: &StockSheets| work.album.stock_name(laid.stock).to_owned();
    let open: Vec<Arg> =
        work.stocks.iter().filter(|laid| !laid.proven_least).map(|laid| Arg::Own(name(laid))).collect();
    let said = Said::new(if open.is_empty() { "sheets-in-all" } else { "sheets-in-all-or-fewer" })
        .with("counts", counts(work))
        .with("papers", Arg::All(open));
    words::say(&costing(work.album, said, costs))
}

/// `9 sheets of card, 4 sheets of paper (cost in all: 5.10 EUR)`
fn line(work: &LaidOrder<'_>, costs: Option<f64>) -> String {
    words::say(&costing(work.album, Said::new("sheets-line").with("counts", counts(work)), costs))
}

fn counts(work: &LaidOrder<'_>) -> Arg {
    let name = |laid: &StockSheets| work.album.stock_name(laid.stock).to_owned();
    let count =
        |laid| Arg::from(Said::new("sheets-of").with("sheets", StockSheets::count(laid)).with("paper", name(laid)));
    Arg::Row(work.stocks.iter().map(count).collect())
}

/// The same with what it costs, where that is known.
fn costing(album: &Album, said: Said, cost: Option<f64>) -> Said {
    let said = said.with("priced", usize::from(cost.is_some()));
    let amount = format!("{:.2}", cost.unwrap_or_default());
    let currency = album.terms.selling.currency.as_deref();
    said.with("cost", Arg::code(currency.map_or(amount.clone(), |currency| format!("{amount} {currency}"))))
}

fn stock(work: &LaidOrder<'_>, laid: &StockSheets) -> Value {
    let Some(stock) = work.album.stocks.get(laid.stock) else { return Value::Null };
    let key = match (laid.proven_least, stock.sheets.len(), laid.savable) {
        (true, ..) => "paper-proven",
        (false, 1, _) => "paper-or-fewer",
        (.., None) => "paper-of-several-sizes",
        (.., Some(0.0)) => "paper-cheapest",
        (.., Some(_)) => "paper-or-cheaper",
    };
    let priced = stock.sheets.iter().all(|size| size.each().is_some());
    let said = Said::new(key)
        .with("sheets", laid.count())
        .with("used", Arg::Number(laid.used_percent, 0))
        .with("bound", laid.lower_bound)
        .with("by_price", usize::from(priced))
        .with("savable", Arg::Number(100.0 * laid.savable.unwrap_or_default(), 1));
    json!({
        "name": stock.name,
        "way": format!("stocks.{}", stock.bought()),
        "sheet": album::names(stock),
        "sentence": words::say(&costing(work.album, said, Tally::of(work.album.order(), laid).cost)),
        "why": laid.why.as_ref().map(|why| words::say(&Said::new("paper-why").with("why", why.said()))),
        "sheets": laid.sheets.iter().map(|one| sheet(work, laid.stock, one)).collect::<Vec<_>>(),
    })
}

fn sheet(work: &LaidOrder<'_>, stock: usize, sheet: &Sheet) -> Value {
    let said = Said::new("sheet-cut").with("times", sheet.times).with("parts", sheet.placements.len());
    let offcuts: Vec<String> =
        sheet.offcuts.iter().map(|[_, _, width, height]| offcut(work, *width, *height)).collect();
    json!({
        "name": sheet.name,
        "picture": write::linked(&picture::sheet(work.album.order(), work.kit, stock, sheet, &|_| String::new())),
        "words": words::say(&said),
        "offcuts": offcuts,
    })
}

/// What is left over, measured down to what a ruler shows.
fn offcut(work: &LaidOrder<'_>, width: f64, height: f64) -> String {
    let down = |mm: f64| Length::from_mm(mm).down_to_a_step(work.album.units);
    words::sides(work.album, down(width), down(height))
}

/// What there is to take away.
pub(super) fn take(work: &Work, question: &Question) -> Value {
    let names = work.cut_names();
    let sheets: u64 = work.stocks.iter().map(StockSheets::count).sum();
    let nothing = work.stopped() || work.stocks.is_empty();
    let sentence = Said::new(if nothing { "nothing-to-cut" } else { "to-cut" }).with("sheets", sheets);
    let command = (!nothing).then(|| taken::command(question));
    json!({ "sentence": words::say(&sentence), "names": names, "formats": Files::ALL.formats, "command": command })
}
