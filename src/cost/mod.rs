// SPDX-License-Identifier: MIT
//! What an order costs, what to ask for a kit, what one more costs.
//!
//! In: what the maker says of buying and selling, the sheets of an order, what each kit takes. Out: a [`Cost`], every amount in
//! it exact. Never: rounds (who writes an amount does, once), makes up a price.
//!
//! What is bought comes in whole packs, and the order pays for all of them. Each kit bears its share: of sheets by the area of
//! its parts, of all else by how much it takes. Kits that are sold bear what spare ones cost.

mod asking;
mod machine;
mod needs;
mod shares;
mod worked;

pub use asking::AskingPrice;
pub use machine::{MachineTime, machine_time};
pub use needs::{KitNeeds, OrderNeeds};

use crate::exact::Exact;
use crate::selling::{Supplied, Terms};
use crate::stock::Stock;

/// What an order costs.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Cost {
    /// What money is called, where that is said.
    pub currency: Option<String>,
    /// How many decimals amounts are rounded to when they are written, a half up.
    pub decimals: usize,
    /// What the whole order takes: sheets, tape, glue, time.
    pub rows: Vec<CostRow>,
    /// What one of each kit costs, in the order's order; never empty.
    pub kits: Vec<KitCost>,
    /// The whole order.
    pub order: AskingPrice,
}

/// What costs something.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CostWhat {
    /// Sheets of a stock in one of its sizes, by their numbers.
    Sheets(usize, usize),
    /// Tape, glue and the like.
    Supply(Supplied),
    /// Time of the machine.
    Machine,
    /// Time of hands.
    Hands,
    /// What a kit goes out in.
    Packaging,
}

/// Something that the order takes.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct CostRow {
    /// What it is.
    pub what: CostWhat,
    /// What it is called: `card A4`, `tape 6 mm`.
    pub name: String,
    /// How much of it; nothing where that is not known.
    pub quantity: Option<Exact>,
    /// What that is counted in.
    pub unit: &'static str,
    /// What it is sold for, where that is said.
    pub sold: Option<SoldBy>,
}

/// What so much of something is sold for.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct SoldBy {
    /// So much.
    pub per: Exact,
    /// Costs this.
    pub price: Exact,
    /// Whether it is sold in whole packs of so much only.
    pub whole: bool,
}

/// What one kit costs.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct KitCost {
    /// Its name, where it is a batch's.
    pub name: Option<String>,
    /// How many are made, spares among them.
    pub made: u32,
    /// How many are sold.
    pub sold: u32,
    /// What it has of each row of the order.
    pub shares: Vec<KitShare>,
    /// What one of those that are sold costs, and what to ask for it.
    pub asked: AskingPrice,
    /// What one more would cost: what it uses up, at its price by the sheet and metre, and its time.
    pub one_more: Exact,
    /// The rows of which one more would need another pack.
    pub another_pack: Vec<usize>,
}

/// What all kits of one name have of a row of the order.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct KitShare {
    /// The number of the row.
    pub row: usize,
    /// How much: of sheets the area of the parts, else as the row is counted.
    pub quantity: Exact,
    /// What that is counted in.
    pub unit: &'static str,
    /// What one kit that is sold bears of the row's cost, where that is known.
    pub cost: Option<Exact>,
}

impl CostRow {
    /// How many packs of it are bought, where it is sold in packs.
    #[must_use]
    pub fn packs(&self) -> Option<u64> {
        let sold = self.sold.as_ref().filter(|sold| sold.whole)?;
        Some(self.quantity.as_ref()?.over(&sold.per)?.up())
    }

    /// How much of the packs is left over.
    #[must_use]
    pub fn left(&self) -> Option<Exact> {
        let all = Exact::whole(self.packs()?).times(&self.sold.as_ref()?.per);
        all.minus(self.quantity.as_ref()?)
    }

    /// What it costs the order.
    #[must_use]
    pub fn cost(&self) -> Option<Exact> {
        let sold = self.sold.as_ref()?;
        self.packs().map_or_else(|| self.at_use(), |packs| Some(Exact::whole(packs).times(&sold.price)))
    }

    /// What it would cost if just as much could be bought as is used.
    #[must_use]
    pub fn at_use(&self) -> Option<Exact> {
        let sold = self.sold.as_ref()?;
        Some(self.quantity.as_ref()?.over(&sold.per)?.times(&sold.price))
    }
}

impl Cost {
    /// Whether the maker says anything of buying and selling, a sheet's own price aside.
    #[must_use]
    pub fn is_asked(terms: &Terms, stocks: &[Stock]) -> bool {
        !terms.is_empty() || stocks.iter().flat_map(|stock| &stock.sheets).any(|size| size.pack.is_some())
    }

    /// An amount as it is written: rounded once, a half up.
    #[must_use]
    pub fn shown(&self, amount: &Exact) -> String {
        amount.fixed(self.decimals)
    }

    /// What has no price, or is not known: it is in no amount.
    pub fn without_price(&self) -> impl Iterator<Item = &CostRow> {
        self.rows.iter().filter(|row| row.cost().is_none())
    }
}
