// SPDX-License-Identifier: MIT
//! What the maker says of buying and selling: packs of sheets, tape and glue with their prices, hours, shares.
//!
//! In: `packs`, `supplies` and `selling` of an album file or a batch file. Out: [`Terms`]. Never: works out a cost.

mod file_fields;
mod packs;
mod read;
mod schema;
mod several;
mod supplies;

pub use file_fields::decimals;
pub(crate) use file_fields::{PACK_FIELDS, PACKS, SELLING, SELLING_FIELDS, SUPPLIES, SUPPLY_FIELDS};
pub use packs::Packs;
pub(crate) use packs::read as read_packs;
pub(crate) use read::read;
pub(crate) use schema::schemas;
pub(crate) use several::Differs;
pub(crate) use supplies::serving;
pub use supplies::{Supplied, Supply};

use crate::exact::Exact;
use crate::finding::Place;

/// All that a file says of buying and selling, each word with its place.
#[derive(Clone, Debug, Default)]
#[non_exhaustive]
pub struct Terms {
    /// The packs that sheets are sold in, by the stock and the sheet that they are of.
    pub packs: Packs,
    /// What is bought besides: tape, glue.
    pub supplies: Vec<(Supply, Place)>,
    /// What the work costs, and what comes on top.
    pub selling: Selling,
}

/// What the work costs, and what comes on top of all cost.
#[derive(Clone, Debug, Default)]
#[non_exhaustive]
pub struct Selling {
    /// What money is called, as it is to be shown.
    pub currency: Option<String>,
    /// An hour of hands.
    pub hour: Option<Exact>,
    /// An hour of the machine.
    pub machine_hour: Option<Exact>,
    /// Minutes of hands that each kit takes besides: packing, answering letters.
    pub minutes_a_kit: Option<Exact>,
    /// What a kit goes out in.
    pub packaging: Option<Exact>,
    /// On cost, as a part of one.
    pub overhead: Option<Exact>,
    /// On cost and overhead.
    pub profit: Option<Exact>,
    /// On the price.
    pub fees: Option<Exact>,
    /// On the price.
    pub tax: Option<Exact>,
    /// The same by the names of the fields, with their places.
    pub said: Vec<(&'static str, String, Place)>,
}

impl Terms {
    /// Whether nothing is said.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.packs.is_empty() && self.supplies.is_empty() && self.selling.said.is_empty()
    }
}
