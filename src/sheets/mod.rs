// SPDX-License-Identifier: MIT
//! An album's parts laid on the sheets of its stocks.
//!
//! In: an album, its kit, the cutter. Out: [`StockSheets`]: every sheet to cut, with its parts in place.
//! Never: alters a part, writes a file.
//!
//! What [`usable`](crate::usable) says of grain, pattern, margin and kerf becomes here what [`layout`](crate::layout)
//! understands: sheets without their margin, boxes grown by the kerf.

mod alike;
mod argument;
mod besides;
mod blocks;
mod drawer;
mod in_place;
mod laid;
mod packs;
mod pairs;
mod price;
mod says;
mod spare;
mod stock_parts;
mod strips;
mod tally;
mod used_first;
mod ways;
mod why;
mod windows;

pub use argument::{Argument, CountedPart, PartsApart, WhyNoFewer};
pub use besides::lay_spare_parts;
pub use drawer::{DrawerRow, drawer_rows, left_in_drawer, offcuts};
pub(crate) use in_place::WORTH_KEEPING;
pub use laid::{Placed, Search, Sheet, StockSheets, TrimCut, TrimPiece, note_cuts};
pub use pairs::partners;
pub use price::price_of_cutting;
pub use spare::{Filled, fill};
pub use tally::Tally;
pub use ways::other_way;
pub use windows::hosts;

use crate::album::{Order, Spares};
use crate::cutter::Cutter;
use crate::finding::Finding;
use crate::layout::Watch;
use crate::parts::Kit;
use crate::stock::Stock;
use std::collections::BTreeMap;
use stock_parts::StockParts;

/// The stocks when so many sheets of each size are taken: what shares the sheets of another has no more than that leaves.
fn left(stocks: &[Stock], taken: impl Iterator<Item = (usize, BTreeMap<usize, u64>)>) -> Vec<Stock> {
    let mut left = stocks.to_vec();
    for (stock, sizes) in taken {
        let others = left.iter_mut().enumerate().filter(|(number, other)| {
            *number != stock && stocks.get(stock).is_some_and(|stock| stock.bought() == other.bought())
        });
        for (_, other) in others {
            for (size, taken) in &sizes {
                if let Some(count) = other.sheets.get_mut(*size).and_then(|size| size.count.as_mut()) {
                    *count = count.saturating_sub(u32::try_from(*taken).unwrap_or(u32::MAX));
                }
            }
        }
    }
    left
}

/// Lays all parts of all stocks; findings of level stop mean that the sheets are not to be used.
pub fn lay(
    order: Order<'_>,
    kit: &Kit,
    cutter: &Cutter,
    search: Search,
    watch: &dyn Watch,
) -> (Vec<StockSheets>, Vec<Finding>) {
    let bare = (order.spares != Spares::default()).then(|| (order.without_spares(), kit));
    lay_with_spares(order, kit, bare, cutter, (search, watch))
}

/// The same where `bare` is the order without what is spare: what that costs is said.
pub fn lay_with_spares(
    order: Order<'_>,
    kit: &Kit,
    bare: Option<(Order<'_>, &Kit)>,
    cutter: &Cutter,
    (search, watch): (Search, &dyn Watch),
) -> (Vec<StockSheets>, Vec<Finding>) {
    let mut laid: Vec<StockSheets> = Vec::new();
    let mut findings = Vec::new();
    for number in 0..order.stocks.len() {
        let stocks = left(order.stocks, laid.iter().map(|laid| (laid.stock, laid.by_size())));
        let order = Order { stocks: &stocks, ..order };
        let Some(parts) = StockParts::new(order, kit, cutter, number, search) else { continue };
        if let Some(finding) = parts.too_many() {
            findings.push(finding);
            continue;
        }
        let bare = bare.map(|(bare, kit)| (Order { stocks: &stocks, ..bare }, kit));
        let without = bare.and_then(|(bare, kit)| StockParts::new(bare, kit, cutter, number, search));
        let layout = match bare {
            Some(_) => parts.lay_with_spares(without.as_ref(), watch),
            None => parts.lay(true, watch).map(|layout| (layout, None)),
        };
        match layout {
            Ok((layout, finding)) => {
                findings.extend(finding);
                let (layout, finding) = parts.with_strips_alike(layout, watch);
                findings.extend(finding);
                findings.extend(parts.price_of_grain(&layout, watch));
                findings.extend(parts.price_of_apart(&layout, watch));
                findings.extend(parts.jumps());
                laid.push(StockSheets { why: parts.why(&layout), ..parts.sheets(&layout) });
            }
            Err(trouble) => findings.extend(parts.trouble(&trouble, watch)),
        }
    }
    (laid, findings)
}
