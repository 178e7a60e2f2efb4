// SPDX-License-Identifier: MIT
//! The stocks of several kits as one list: what is the same card is one stock.
//!
//! In: the kits. Out: the stocks, each name once, and which of them each kit's are. Never: looks at a part.
//!
//! Stocks of a name that differ in anything are stocks of their own, and are called by their first kit: `paper.ochre`.

use super::BatchKit;
use crate::stock::Stock;

/// The stocks of all kits.
pub(super) struct MergedStocks {
    /// Each once.
    pub all: Vec<Stock>,
    /// By kit, by the stock's number in its album: its number among all.
    pub of: Vec<Vec<usize>>,
}

impl MergedStocks {
    pub(super) fn of(kits: &[BatchKit]) -> Self {
        let (mut all, mut first): (Vec<Stock>, Vec<&str>) = (Vec::new(), Vec::new());
        let mut of = Vec::with_capacity(kits.len());
        for kit in kits {
            let mut number = |stock: &Stock| {
                all.iter().position(|known| known.is_same(stock)).unwrap_or_else(|| {
                    all.push(stock.clone());
                    first.push(&kit.name);
                    all.len() - 1
                })
            };
            of.push(kit.album.stocks.iter().map(&mut number).collect());
        }
        let names: Vec<String> = all.iter().map(|stock| stock.name.clone()).collect();
        for (number, stock) in all.iter_mut().enumerate() {
            if names.iter().filter(|name| **name == names[number]).count() > 1 {
                stock.name = format!("{}.{}", names[number], first[number]);
            }
        }
        // What shares the sheets of a stock is called by it, whatever that is called now.
        for (kit, numbers) in kits.iter().zip(&of) {
            let numbers: &Vec<usize> = numbers;
            for (own, number) in kit.album.stocks.iter().zip(numbers) {
                let shared =
                    own.shares.as_ref().and_then(|name| kit.album.stocks.iter().position(|one| one.name == *name));
                if let Some(shared) = shared {
                    all[*number].shares = Some(all[numbers[shared]].name.clone());
                }
            }
        }
        // Of a kit's name and what a stock is cut by, one may be like the other.
        for number in 1..all.len() {
            let (before, rest) = all.split_at_mut(number);
            while before.iter().any(|known| known.name == rest[0].name) {
                rest[0].name.push_str(".more");
            }
        }
        Self { all, of }
    }
}

/// What a stock of the order is called in its album: `paper` of `paper.ochre`.
pub(crate) fn base(name: &str) -> &str {
    name.split('.').next().unwrap_or(name)
}
