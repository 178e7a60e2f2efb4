// SPDX-License-Identifier: MIT
//! What a stock would take if it were cut the other way: on a trimmer instead of by machine, or by machine instead.
//!
//! In: an order, its parts, its sheets. Out: a note for each stock that would do with fewer sheets. Never: lays a stock the
//! other way for good.
//!
//! A machine loses its margin, kerf and gap; a trimmer loses what cuts from edge to edge can't reach, and cuts no more than
//! straight sides. Where sizes of sheet are mixed, fewer sheets need not be less card, so nothing is said of them.

use super::stock_parts::StockParts;
use super::{Search, StockSheets};
use crate::album::Order;
use crate::cutter::Cutter;
use crate::finding::{Arg, Finding, Said};
use crate::fit::beyond_trimmer;
use crate::layout::{Effort, Watch};
use crate::length::{Length, Units};
use crate::parts::Kit;
use crate::stock::{By, Stock};

/// The stocks that take fewer sheets when they are cut the other way, each with both counts. Who lets a trimmer cut all has
/// chosen already.
#[must_use]
pub fn other_way(
    order: Order<'_>,
    kit: &Kit,
    usual: &Cutter,
    laid: &[StockSheets],
    search: Search,
    watch: &dyn Watch,
) -> Vec<Finding> {
    if search.trimmer {
        return Vec::new();
    }
    let search = Search { effort: Effort::Low, ..search };
    laid.iter().filter_map(|laid| of_stock(order, kit, usual, laid, search, watch)).collect()
}

fn of_stock(
    order: Order<'_>,
    kit: &Kit,
    usual: &Cutter,
    laid: &StockSheets,
    search: Search,
    watch: &dyn Watch,
) -> Option<Finding> {
    let now = order.stocks.get(laid.stock)?;
    let by = if now.by == By::Machine { By::Trimmer } else { By::Machine };
    let straight =
        |stock: usize| kit.parts.iter().filter(|part| part.stock == stock).all(|part| beyond_trimmer(part).is_empty());
    // Where a machine loses nothing, it lays whatever a trimmer does.
    if laid.count() < 2 || by == By::Trimmer && (!loses(now.cutter(usual)) || !straight(laid.stock)) {
        return None;
    }
    let stocks: Vec<Stock> = order.stocks.iter().map(|stock| Stock { by, own: None, ..stock.clone() }).collect();
    let parts = StockParts::new(Order { stocks: &stocks, ..order }, kit, usual, laid.stock, search)?;
    let count = laid.count();
    if parts.usable.sheets.len() != 1 || parts.least_by_area() >= count {
        return None;
    }
    let layout = parts.lay(true, watch).ok()?;
    let fewer: u64 = layout.sheets.iter().map(|sheet| u64::from(sheet.times)).sum();
    let machine = if by == By::Machine { usual } else { now.cutter(usual) };
    let (text, help) = match by {
        By::Machine => ("other-way-machine", "other-way-machine-help"),
        By::Trimmer => ("other-way-trimmer", "other-way-trimmer-help"),
    };
    let text = Said::new(text).with("count", count).with("fewer", fewer).with("settings", settings(machine));
    let finding = Finding::note("other-way", parts.about(), text).help(Said::new(help));
    (fewer < count).then(|| finding.at(now.place.as_ref()))
}

fn loses(cutter: &Cutter) -> bool {
    [cutter.kerf, cutter.gap, cutter.margin] != [Length::ZERO; 3]
}

fn settings(cutter: &Cutter) -> Said {
    let mm = |length: Length| Arg::Length(length, Units::Mm);
    Said::new("kerf-gap-margin")
        .with("kerf", mm(cutter.kerf))
        .with("gap", mm(cutter.gap))
        .with("margin", mm(cutter.margin))
}
