// SPDX-License-Identifier: MIT
//! From what an order takes to what it costs.

use super::Cost;
use super::asking::AskingPrice;
use super::needs::{OrderNeeds, rows};
use super::shares::kit;
use crate::selling::decimals;

impl Cost {
    /// What an order costs; nothing where the maker says nothing of buying and selling.
    #[must_use]
    pub fn of(order: &OrderNeeds<'_>) -> Option<Self> {
        if !Self::is_asked(order.terms, order.stocks) || order.kits.is_empty() {
            return None;
        }
        let selling = &order.terms.selling;
        let rows = rows(order);
        let kits = order.kits.iter().map(|needs| kit(order, &rows, needs)).collect();
        let all = rows.iter().filter_map(|row| row.row.cost()).sum();
        Some(Self {
            decimals: decimals(selling.currency.as_deref().unwrap_or_default()),
            currency: selling.currency.clone(),
            kits,
            order: AskingPrice::of(all, selling),
            rows: rows.into_iter().map(|row| row.row).collect(),
        })
    }
}
