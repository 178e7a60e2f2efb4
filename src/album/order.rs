// SPDX-License-Identifier: MIT
//! What sheets are laid, drawn and listed for: stocks, how many kits, in what state they are handed over.
//!
//! In: an album, or what several have in common. Out: an [`Order`]. Never: knows what an album is made of.

use super::{Album, Handed, Spares};
use crate::finding::Arg;
use crate::length::{Length, Units};
use crate::stock::{Pattern, Stock};

/// What sheets are laid for.
#[derive(Clone, Copy, Debug)]
#[non_exhaustive]
pub struct Order<'a> {
    /// Its name.
    pub title: &'a str,
    /// What its maker measures in.
    pub units: Units,
    /// How often each part's count is made, spare kits among them.
    pub copies: u32,
    /// What of that is spare: so many of the kits, and so many more of each part over all of them.
    pub spares: Spares,
    /// The stocks, by their numbers.
    pub stocks: &'a [Stock],
    /// In what state they are handed over, where that is said.
    pub handed_over: Option<&'a [Handed]>,
}

impl<'a> Order<'a> {
    /// The name of a stock; empty where there is no such number.
    #[must_use]
    pub fn stock_name(&self, number: usize) -> &'a str {
        self.stocks.get(number).map_or("", |stock| stock.name.as_str())
    }

    /// What a stock is called in the file; empty where there is no such number.
    #[must_use]
    pub fn bought(&self, number: usize) -> &'a str {
        self.stocks.get(number).map_or("", Stock::bought)
    }

    /// How many of a part are made besides what the kits take.
    #[must_use]
    pub fn besides(&self, part_count: u32) -> u32 {
        self.spares.parts.of(part_count.saturating_mul(self.copies))
    }

    /// How many of a part are made, of which a kit takes so many.
    #[must_use]
    pub fn pieces(&self, part_count: u32) -> u64 {
        u64::from(part_count) * u64::from(self.copies) + u64::from(self.besides(part_count))
    }

    /// The same order without what is spare.
    #[must_use]
    pub fn without_spares(self) -> Self {
        Self { copies: self.copies.saturating_sub(self.spares.kits), spares: Spares::default(), ..self }
    }

    /// What the drawer calls a stock whose sheets of a size lie there.
    #[must_use]
    pub fn lies(&self, stock: usize, size: usize) -> Option<&'a str> {
        self.stocks.get(stock)?.sheets.get(size)?.lies.as_deref()
    }

    /// A length, mm, as findings say it: in the maker's units.
    #[must_use]
    pub fn length(&self, mm: f64) -> Arg {
        Arg::Length(Length::from_mm(mm), self.units)
    }

    /// Whether a piece of a stock serves upside down as well: its pattern has no up and down.
    #[must_use]
    pub fn serves_turned(&self, stock: usize) -> bool {
        self.stocks.get(stock).is_none_or(|stock| stock.pattern != Pattern::OneWay)
    }

    /// Whether a stock is handed over in whole sheets.
    #[must_use]
    pub fn is_handed_whole(&self, stock: usize) -> bool {
        let is_ready = self.stocks.get(stock).is_some_and(|stock| stock.ready);
        !is_ready && self.handed_over.and_then(|handed| handed.get(stock)) == Some(&Handed::Sheets)
    }

    /// Whether a stock is handed over cut and not scored.
    #[must_use]
    pub fn is_unscored(&self, stock: usize) -> bool {
        self.handed_over.and_then(|handed| handed.get(stock)) == Some(&Handed::Cut)
    }

    /// Whether each kit's parts of a stock have sheets of their own, because these are handed over whole.
    #[must_use]
    pub fn is_apart(&self, stock: usize) -> bool {
        self.copies > 1 && self.is_handed_whole(stock)
    }
}

impl Album {
    /// What its sheets are laid for.
    #[must_use]
    pub fn order(&self) -> Order<'_> {
        Order {
            title: &self.title,
            units: self.units,
            copies: self.made(),
            spares: self.spares.unwrap_or_default(),
            stocks: &self.stocks,
            handed_over: self.handed_over.as_deref(),
        }
    }
}
