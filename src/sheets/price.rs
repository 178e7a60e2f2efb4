// SPDX-License-Identifier: MIT
//! Why there are so many sheets: what kerf, gap and margin cost, and which parts just miss lying side by side.
//!
//! In: an album, its kit, its sheets. Out: a note for each stock that would do with fewer sheets if nothing were lost to the
//! tool. Never: moves a part.
//!
//! A stock whose parts' area alone needs as many sheets is not looked at. For the others the parts are laid once without
//! kerf, gap and margin, and where that saves a sheet, once more for each row of parts that just misses, made as much
//! smaller as it misses by. Only a row whose mending saves a sheet is named.

use super::stock_parts::StockParts;
use super::{Search, StockSheets};
use crate::album::Order;
use crate::cutter::Cutter;
use crate::finding::{Arg, Finding, Said};
use crate::layout::{Effort, Item, Layout, Watch};
use crate::length::Length;
use crate::parts::Kit;
use crate::stock::{OwnCutter, Stock};
use crate::usable::Lie;
use std::cmp::Reverse;

/// So many parts of a stock are looked at, those with the largest area first, and so many rows are laid: our choice.
const MOST_PARTS: usize = 24;
const MOST_ROWS: usize = 6;

/// What kerf, gap and margin cost in sheets, stock by stock.
#[must_use]
pub fn price_of_cutting(
    order: Order<'_>,
    kit: &Kit,
    cutter: &Cutter,
    laid: &[StockSheets],
    search: Search,
    watch: &dyn Watch,
) -> Vec<Finding> {
    let loses = |cutter: &Cutter| [cutter.kerf, cutter.gap, cutter.margin] != [Length::ZERO; 3];
    let bare = |stock: &Stock| {
        let none =
            Cutter { kerf: Length::ZERO, gap: Length::ZERO, margin: Length::ZERO, ..stock.cutter(cutter).clone() };
        Stock { own: Some(OwnCutter::Settings(none)), ..stock.clone() }
    };
    let stocks: Vec<Stock> = order.stocks.iter().map(bare).collect();
    let bare = Order { stocks: &stocks, ..order };
    let search = Search { effort: Effort::Low, ..search };
    let of_stock = |laid: &StockSheets| {
        let count = laid.count();
        if !order.stocks.get(laid.stock).is_some_and(|stock| loses(stock.cutter(cutter))) {
            return None;
        }
        let without = StockParts::new(bare, kit, cutter, laid.stock, search)?;
        // Where sizes are mixed, fewer sheets need not be less card.
        if without.usable.sheets.len() != 1 || count < 2 || without.least_by_area() >= count {
            return None;
        }
        let fewer = sheets(&without.lay(true, watch).ok()?);
        let with = StockParts::new(order, kit, cutter, laid.stock, search)?;
        (fewer < count).then(|| said(order, &with, count, fewer, watch))
    };
    laid.iter().filter_map(of_stock).collect()
}

fn sheets(layout: &Layout) -> u64 {
    layout.sheets.iter().map(|sheet| u64::from(sheet.times)).sum()
}

/// Parts side by side, or one above the other, that lack a little room.
struct TightRow {
    /// Which of the stock's parts, and the side that lies in the row, eighths of a micrometre; one or two of them.
    sides: Vec<(usize, i64)>,
    /// How many there are.
    many: i64,
    upright: bool,
    /// What they measure together, and what the sheet has for them.
    need: i64,
    room: i64,
    /// What they would have with no kerf, gap and margin.
    whole: i64,
    /// Area of all pieces of these parts, mm².
    area: f64,
}

fn said(order: Order<'_>, of_stock: &StockParts<'_>, count: u64, fewer: u64, watch: &dyn Watch) -> Finding {
    let lost = lost(of_stock.cutter);
    let says = |key| Said::new(key).with("count", count).with("fewer", fewer).with("lost", lost.clone());
    let finding =
        |text: Said| Finding::note("price-of-cutting", of_stock.about(), text).at(of_stock.stock.place.as_ref());
    let length = |eighths: i64| Arg::Length(Length::from_eighths(eighths), order.units);
    let Some((row, less, then)) = mended(order, of_stock, count, watch) else {
        return finding(says("price-of-cutting")).help(Said::new("price-of-cutting-help").with("lost", lost));
    };
    let kind = |at: usize| Arg::term(of_stock.kit.parts[of_stock.parts[at]].kind);
    let text = match row.sides[..] {
        [(one, _), (other, side)] => says("price-of-cutting-pair")
            .with("other", kind(other))
            .with("beside", length(side))
            .with("kind", kind(one)),
        _ => says("price-of-cutting-row").with("many", row.many.unsigned_abs()).with("kind", kind(row.sides[0].0)),
    };
    let text = text
        .with("side", length(row.sides[0].1))
        .with("way", Said::new(if row.upright { "one-above-the-other" } else { "side-by-side" }))
        .with("need", length(row.need))
        .with("room", length(row.room));
    let spare = row.whole - row.need;
    let help = Said::new(if spare > 0 { "price-of-cutting-mend" } else { "price-of-cutting-mend-to-nothing" })
        .with("less", length(less))
        .with("sheets", then)
        .with("lost", lost)
        .with("spare", length(spare));
    finding(text).measured(Length::from_eighths(row.need), Length::from_eighths(row.room)).help(help)
}

/// `kerf, gap and margin`, those that there are.
fn lost(cutter: &Cutter) -> Arg {
    let all = [("kerf", cutter.kerf), ("gap", cutter.gap), ("margin", cutter.margin)];
    Arg::All(all.into_iter().filter(|(_, size)| *size > Length::ZERO).map(|(name, _)| Arg::term(name)).collect())
}

/// The row whose mending saves the most sheets, what each of its parts must be smaller by, and the sheets then.
fn mended(order: Order<'_>, of_stock: &StockParts<'_>, count: u64, watch: &dyn Watch) -> Option<(TightRow, i64, u64)> {
    let mark = order.units.finest().eighths();
    let items = of_stock.items(true);
    let mut best: Option<(TightRow, i64, u64)> = None;
    for row in rows(of_stock).into_iter().take(MOST_ROWS) {
        let miss = (row.need - row.room).max(0);
        let less = -(-miss).div_euclid(row.many * mark) * mark;
        let mut items = items.clone();
        for &(at, side) in &row.sides {
            let part = &of_stock.kit.parts[of_stock.parts[at]];
            let smaller = |item: &mut i64, mm: f64| {
                if Length::from_mm(mm).eighths() == side {
                    *item -= less;
                }
            };
            let Item { width, height, .. } = &mut items[at];
            let sizes = (part.flat.width, part.flat.height);
            let sizes = if of_stock.is_sideways(part) { (sizes.1, sizes.0) } else { sizes };
            smaller(width, sizes.0);
            smaller(height, sizes.1);
        }
        let Ok(layout) = of_stock.lay_items(&items, watch) else { continue };
        let then = sheets(&layout);
        if then < best.as_ref().map_or(count, |(_, _, then)| *then) {
            best = Some((row, less, then));
        }
    }
    best
}

/// Rows that would lie on a sheet if nothing were lost to the tool, and do not; those of most area first.
fn rows(of_stock: &StockParts<'_>) -> Vec<TightRow> {
    let Some(first) = of_stock.usable.sheets.first() else { return Vec::new() };
    let area = |at: usize| {
        let part = &of_stock.kit.parts[of_stock.parts[at]];
        part.flat.area() * f64::from(part.count)
    };
    let mut by_area: Vec<usize> = (0..of_stock.parts.len()).collect();
    by_area.sort_by(|&one, &other| area(other).total_cmp(&area(one)));
    by_area.truncate(MOST_PARTS);
    let mut rows = Vec::new();
    for upright in [false, true] {
        let whole = (if upright { first.stood.height } else { first.stood.width }).eighths();
        let within = if upright { first.height } else { first.width };
        let room = |many: i64| {
            let Cutter { kerf, gap, .. } = of_stock.cutter;
            within - many * kerf.eighths() - (many - 1) * gap.eighths()
        };
        let mut sides: Vec<(usize, i64)> = Vec::new();
        for &at in &by_area {
            let part = &of_stock.kit.parts[of_stock.parts[at]];
            let (width, height) =
                (Length::from_mm(part.flat.width).eighths(), Length::from_mm(part.flat.height).eighths());
            let turned = of_stock.lie(part) == Lie::Sideways;
            let (this, other) = if upright == turned { (width, height) } else { (height, width) };
            sides.push((at, this));
            if of_stock.lie(part) == Lie::Any && other != this {
                sides.push((at, other));
            }
        }
        for (number, &(at, side)) in sides.iter().enumerate() {
            let many = if side > 0 { whole / side } else { 0 };
            if many > 1 && many * side > room(many) {
                let (need, room) = (many * side, room(many));
                rows.push(TightRow { sides: vec![(at, side)], many, upright, need, room, whole, area: area(at) });
            }
            for &(other, beside) in &sides[number + 1..] {
                let need = side + beside;
                if need <= whole && need > room(2) {
                    let area = if other == at { area(at) } else { area(at) + area(other) };
                    let sides = vec![(at, side), (other, beside)];
                    rows.push(TightRow { sides, many: 2, upright, need, room: room(2), whole, area });
                }
            }
        }
    }
    // Rows of equal parts before pairs, then by area; the order of before among equals.
    rows.sort_by(|one, other| {
        Reverse(one.sides.len() == 1).cmp(&Reverse(other.sides.len() == 1)).then(other.area.total_cmp(&one.area))
    });
    rows
}
