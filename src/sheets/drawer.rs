// SPDX-License-Identifier: MIT
//! What an order takes from the drawer, and what lies there afterwards.
//!
//! In: stocks with what lies there among their sheets, the sheets that are laid. Out: a [`DrawerRow`] for each size; a
//! [`Drawer`] of what is left. Never: writes it.

use super::StockSheets;
use crate::drawer::{Drawer, DrawerSheet};
use crate::length::tolerance::WHOLE;
use crate::length::{Length, Units};
use crate::stock::{SheetSize, Stock};

/// One size that lies in the drawer.
#[derive(Clone, Debug, PartialEq)]
pub struct DrawerRow {
    /// Number of a stock that it is of; those that share its sheets have no row of their own.
    pub stock: usize,
    /// What the drawer calls that stock.
    pub name: String,
    /// Number of the size among the stock's.
    pub size: usize,
    /// How many lie there.
    pub lie: u32,
    /// How many are taken.
    pub taken: u32,
}

impl DrawerRow {
    /// How many are left.
    #[must_use]
    pub const fn left(&self) -> u32 {
        self.lie.saturating_sub(self.taken)
    }
}

/// What lies in the drawer of these stocks, and what is taken of it.
#[must_use]
pub fn drawer_rows(stocks: &[Stock], laid: &[StockSheets]) -> Vec<DrawerRow> {
    let mut rows: Vec<DrawerRow> = Vec::new();
    for (number, stock) in stocks.iter().enumerate() {
        if stocks[..number].iter().any(|known| known.bought() == stock.bought()) {
            continue;
        }
        for (size, sheet) in stock.sheets.iter().enumerate() {
            let Some(name) = &sheet.lies else { continue };
            let of_stock = |laid: &&StockSheets| stocks[laid.stock].bought() == stock.bought();
            let taken = laid.iter().filter(of_stock).map(|laid| laid.by_size().get(&size).copied().unwrap_or(0)).sum();
            let taken = u32::try_from(u64::min(taken, u64::from(u32::MAX))).unwrap_or(u32::MAX);
            rows.push(DrawerRow { stock: number, name: name.clone(), size, lie: sheet.count.unwrap_or(0), taken });
        }
    }
    rows
}

/// What is left of laid sheets and worth keeping, by what their stocks are called in the drawer. Sizes are rounded down to a
/// tenth of a millimetre, as they lie on the sheet, the largest first.
#[must_use]
pub fn offcuts(stocks: &[Stock], laid: &[StockSheets]) -> Drawer {
    let mut all: Vec<(&str, (i64, i64), u32)> = Vec::new();
    for laid in laid {
        let Some(stock) = stocks.get(laid.stock) else { continue };
        let lies = stock.sheets.iter().find_map(|size| size.lies.as_deref());
        let name = lies.unwrap_or_else(|| stock.bought());
        for sheet in &laid.sheets {
            let one = |&[_, _, width, height]: &[f64; 4]| (name, (tenths(width), tenths(height)), sheet.times);
            all.extend(sheet.offcuts.iter().map(one));
        }
    }
    let order = |name: &str| all.iter().position(|(known, ..)| *known == name);
    let mut sorted = all.clone();
    sorted.sort_by_key(|&(name, (width, height), _)| (order(name), std::cmp::Reverse((width * height, width))));
    let mut drawer = Drawer::default();
    let plain = |tenths: i64| Length::from_eighths(tenths * 800);
    for (name, (width, height), count) in sorted {
        let (width, height) = (plain(width), plain(height));
        let called = format!("{}x{}mm", width.plain(Units::Mm), height.plain(Units::Mm));
        drawer.put(name, DrawerSheet { name: called, width, height, count });
    }
    drawer
}

/// What lies in a drawer after an order: what it has not taken, and what it leaves of its sheets.
#[must_use]
pub fn left_in_drawer(drawer: &Drawer, stocks: &[Stock], laid: &[StockSheets]) -> Drawer {
    let mut left = drawer.clone();
    for row in drawer_rows(stocks, laid) {
        let size: &SheetSize = &stocks[row.stock].sheets[row.size];
        let same = |sheet: &&mut DrawerSheet| (sheet.width, sheet.height) == (size.width, size.height);
        let of_stock = left.stocks.iter_mut().find(|stock| stock.name == row.name);
        if let Some(sheet) = of_stock.and_then(|stock| stock.sheets.iter_mut().find(same)) {
            sheet.count = sheet.count.saturating_sub(row.taken);
        }
    }
    for stock in offcuts(stocks, laid).stocks {
        stock.sheets.into_iter().for_each(|sheet| left.put(&stock.name, sheet));
    }
    left
}

#[allow(clippy::cast_possible_truncation, reason = "a float-to-integer cast saturates")]
fn tenths(mm: f64) -> i64 {
    (mm * 10.0 + WHOLE).floor() as i64
}
