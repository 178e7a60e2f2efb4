// SPDX-License-Identifier: MIT
//! What is to be said where parts lie in windows of others: the order of cuts matters then.

use crate::finding::{Arg, Finding, Said};
use crate::parts::Kit;
use crate::sheets::{StockSheets, hosts};
use crate::stock::Stock;

/// A note on a stock's sheets, where parts lie in windows on some of them.
pub(super) fn told(kit: &Kit, stocks: &[Stock], laid: &StockSheets) -> Option<Finding> {
    let within = |placed: &[_]| hosts(kit, placed).into_iter().flatten().count();
    let sheets: Vec<(&str, usize, u32)> =
        laid.sheets.iter().map(|sheet| (sheet.name.as_str(), within(&sheet.placements), sheet.times)).collect();
    let with: Vec<&(&str, usize, u32)> = sheets.iter().filter(|(_, count, _)| *count > 0).collect();
    let (first, ..) = with.first()?;
    let pieces: u64 = with.iter().map(|(_, count, times)| u64::try_from(*count).unwrap_or(0) * u64::from(*times)).sum();
    let stock = stocks.get(laid.stock)?;
    let text = Said::new("in-windows").with("pieces", pieces).with("sheet", *first).with("more", with.len() - 1);
    let about = Said::new("about-stock").with("stock", Arg::term(stock.name.clone()));
    Some(Finding::note("in-windows", about, text).help(Said::new("in-windows-help")).at(stock.place.as_ref()))
}
