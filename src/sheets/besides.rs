// SPDX-License-Identifier: MIT
//! Spare kits and parts on the sheets: where they come free first.
//!
//! In: a stock's parts, with what is spare and without. Out: their layout, and what the spares cost in sheets. Never: leaves a
//! spare out.
//!
//! What is laid with the spares may, for all that is known, take a sheet more than it must: so they are tried on the sheets that
//! the rest takes before another one is opened.

use super::stock_parts::StockParts;
use super::{Search, StockSheets, left};
use crate::album::{Order, Spares};
use crate::cutter::Cutter;
use crate::finding::{Arg, Finding, Said};
use crate::layout::{Layout, NoLayout, Watch};
use crate::parts::Kit;
use crate::stock::Stock;

impl StockParts<'_> {
    /// Lays them, spares among them; `bare` is the same stock without, where anything of it is left then.
    pub(super) fn lay_with_spares(
        &self,
        bare: Option<&StockParts<'_>>,
        watch: &dyn Watch,
    ) -> Result<(Layout, Option<Finding>), NoLayout> {
        let whole = self.lay(true, watch)?;
        let without = bare.map(|bare| bare.lay(true, watch)).transpose()?;
        let then = without.as_ref().map_or(0, sheets);
        if sheets(&whole) <= then {
            return Ok((whole, None));
        }
        if let Some(without) = &without {
            let mut there = self.clone();
            for (number, supply) in there.supply.iter_mut().enumerate() {
                let of_size = without.sheets.iter().filter(|sheet| sheet.sheet == number);
                let used = of_size.map(|sheet| sheet.times).fold(0, u32::saturating_add);
                *supply = Some(used / self.times.max(1));
            }
            if let Ok(free) = there.lay(true, watch) {
                // No more is sure of these sheets than of any others.
                let proven_least = sheets(&free) <= whole.lower_bound;
                return Ok((Layout { lower_bound: whole.lower_bound, proven_least, ..free }, None));
            }
        }
        let finding = self.spares_cost(sheets(&whole), then);
        Ok((whole, Some(finding)))
    }

    fn spares_cost(&self, now: u64, then: u64) -> Finding {
        let text = Said::new("spares-cost").with("more", now - then).with("now", now).with("then", then);
        let help = Said::new("spares-cost-help").with("field", Arg::field("spares"));
        Finding::note("spares", self.about(), text).help(help)
    }
}

fn sheets(layout: &Layout) -> u64 {
    layout.sheets.iter().map(|sheet| u64::from(sheet.times)).sum()
}

/// Sheets for the spare parts of stocks whose other sheets are each kit's own, behind those; what can't be laid stops.
pub fn lay_spare_parts(
    order: Order<'_>,
    kit: &Kit,
    cutter: &Cutter,
    laid: &mut [StockSheets],
    (search, watch): (Search, &dyn Watch),
) -> Vec<Finding> {
    let mut findings = Vec::new();
    for number in 0..laid.len() {
        let stock = laid[number].stock;
        if !order.is_apart(stock) {
            continue;
        }
        let mut spare = Kit { parts: kit.parts.clone(), ..Kit::default() };
        for part in &mut spare.parts {
            part.count = if part.stock == stock { order.besides(part.count) } else { 0 };
        }
        let mut stocks = left(order.stocks, laid.iter().map(|laid| (laid.stock, laid.by_size())));
        less(&mut stocks[stock], &laid[number]);
        stocks[stock].name.push_str(".more");
        let order = Order { copies: 1, spares: Spares::default(), stocks: &stocks, handed_over: None, ..order };
        let Some(parts) = StockParts::new(order, &spare, cutter, stock, search) else { continue };
        match parts.lay(true, watch) {
            Ok(layout) => {
                let mut more = parts.sheets(&layout);
                more.sheets.iter_mut().for_each(|sheet| sheet.spare = true);
                let then = laid[number].count();
                findings.push(parts.spares_cost(then + more.count(), then));
                let joined = StockSheets::joined(vec![vec![laid[number].clone()], vec![more]]);
                laid[number] = joined.into_iter().next().unwrap_or_else(|| laid[number].clone());
            }
            Err(trouble) => findings.extend(parts.trouble(&trouble, watch)),
        }
    }
    findings
}

/// Takes off what is laid already.
fn less(stock: &mut Stock, laid: &StockSheets) {
    for (size, taken) in laid.by_size() {
        if let Some(count) = stock.sheets.get_mut(size).and_then(|size| size.count.as_mut()) {
            *count = count.saturating_sub(u32::try_from(taken).unwrap_or(u32::MAX));
        }
    }
}
