// SPDX-License-Identifier: MIT
//! Sheets that come from a drawer, and can't have what a cutter file asks of all sheets: register marks, a bed that they share.
//! Of those that are bought, `fit` tells it before anything is laid.

use crate::cutter::Cutter;
use crate::finding::{Arg, Finding, Said};
use crate::length::{Length, Units};
use crate::sheets::{Sheet, StockSheets};
use crate::stock::Stock;
use std::collections::BTreeMap;

/// What is to be said of a stock's sheets, once for each size.
pub(super) fn told(stocks: &[Stock], laid: &StockSheets, usual: &Cutter) -> Vec<Finding> {
    let Some(stock) = stocks.get(laid.stock) else { return Vec::new() };
    let lies = |sheet: &&Sheet| stock.sheets.get(sheet.size).is_some_and(|size| size.lies.is_some());
    let sizes: BTreeMap<usize, &Sheet> = laid.sheets.iter().filter(lies).map(|sheet| (sheet.size, sheet)).collect();
    sizes.into_values().flat_map(|sheet| of_sheet(stock, sheet, stock.cutter(usual))).collect()
}

fn of_sheet(stock: &Stock, sheet: &Sheet, cutter: &Cutter) -> Vec<Finding> {
    let about = || Said::new("about-stock").with("stock", Arg::term(stock.name.clone()));
    let length = |length: Length| Arg::Length(length, Units::Mm);
    let name = stock.sheets.get(sheet.size).map(|size| size.name.clone()).unwrap_or_default();
    let mut findings = Vec::new();
    if let Some(marks) = cutter.marks.filter(|_| sheet.register.is_empty()) {
        let text = Said::new("marks-left-out").with("sheet", &name).with("number", marks.number as usize);
        let text = text.with("size", length(marks.size)).with("inset", length(marks.inset));
        let finding = Finding::warn("marks-left-out", about(), text).help(Said::new("marks-left-out-help"));
        findings.push(finding.at(stock.place.as_ref()));
    }
    if cutter.bed_places(Length::from_mm(sheet.width), Length::from_mm(sheet.height)).is_err() {
        let text = Said::new("bed-alone").with("sheet", &name).with("field", Arg::field("sheets_a_bed"));
        findings.push(Finding::note("bed-places", about(), text).at(stock.place.as_ref()));
    }
    findings
}
