// SPDX-License-Identifier: MIT
//! From a cost to the price that is asked.

use crate::exact::Exact;
use crate::selling::Selling;

/// A cost, what comes on top of it, and the price that leaves room for all.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct AskingPrice {
    /// What it costs.
    pub cost: Exact,
    /// On the cost.
    pub overhead: Exact,
    /// On cost and overhead.
    pub profit: Exact,
    /// On the price.
    pub fees: Exact,
    /// On the price.
    pub tax: Exact,
    /// What is asked: cost, overhead, profit, and the fees and the tax of this very price.
    pub price: Exact,
}

impl AskingPrice {
    /// Cost 100, overhead 15 %, profit 40 %: 161 must be left. Fees of 6 % and a tax of 19 % take a quarter of the price, so that is
    /// 161 / 0.75 = 214.666…, and 12.88 and 40.786… of it go.
    ///
    /// ```
    /// use hingeleaf::{cost::AskingPrice, exact::Exact, selling::Selling};
    /// let mut selling = Selling::default();
    /// [selling.overhead, selling.profit, selling.fees, selling.tax] = ["15 %", "40 %", "6 %", "19 %"].map(Exact::percent);
    /// let asked = AskingPrice::of(Exact::whole(100), &selling);
    /// assert_eq!([asked.price, asked.fees, asked.tax].map(|amount| amount.fixed(2)), ["214.67", "12.88", "40.79"]);
    /// ```
    #[must_use]
    pub fn of(cost: Exact, selling: &Selling) -> Self {
        let part = |of: &Exact, share: &Option<Exact>| share.as_ref().map_or_else(Exact::zero, |share| of.times(share));
        let overhead = part(&cost, &selling.overhead);
        let both = cost.plus(&overhead);
        let profit = part(&both, &selling.profit);
        let left = Exact::whole(1).minus(&selling.taken()).unwrap_or_else(Exact::zero);
        // Reading refuses shares that leave nothing.
        let price = both.plus(&profit).over(&left).unwrap_or_else(Exact::zero);
        let (fees, tax) = (part(&price, &selling.fees), part(&price, &selling.tax));
        Self { cost, overhead, profit, fees, tax, price }
    }
}
