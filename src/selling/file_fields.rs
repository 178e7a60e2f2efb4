// SPDX-License-Identifier: MIT
//! The fields of `packs`, `supplies` and `selling`.

use crate::fields::{AmountOrText, Fallback, Field, Key, Nested, Text, needed, rule};

pub(crate) const PACKS: Key<Nested> = Key::nested(
    "packs",
    "{ … } of packs by their stocks",
    Fallback::Rule("sheets are bought one by one"),
    "how many sheets of a stock are sold together, and for how much; a pack's price beats a sheet's",
);
pub(crate) const SUPPLIES: Key<Nested> = Key::nested(
    "supplies",
    "{ … } of tapes, glue and the like",
    Fallback::Rule("not known"),
    "what tape, glue, ribbon, thread, photo corners and ready-made covers are sold in, and for how much",
);
pub(crate) const SELLING: Key<Nested> = Key::nested(
    "selling",
    "{ … } with hour, profit and the like",
    Fallback::Rule("not known"),
    "what work costs and what comes on top, for the price to ask",
);

pub(super) const PACK_OF: Key<u32> = Key::count("of", (1, 1_000_000), needed(), "how many sheets are in a pack");
pub(super) const PRICE: Key<f64> = Key::amount("price", needed(), "what it costs");

/// The fields of a pack.
pub(crate) const PACK_FIELDS: &[Field] = &[PACK_OF.field, PRICE.field];

/// The forms of a supply's `of`, in words.
pub(super) const SUPPLY_FORM: &str = "how much of it: \"25 m\", \"100 ml\", or a number of pieces";

pub(super) const SUPPLY_OF: Key<AmountOrText> =
    Key::amount_or_text("of", SUPPLY_FORM, needed(), "how much is sold together");

/// The fields of a supply.
pub(crate) const SUPPLY_FIELDS: &[Field] = &[SUPPLY_OF.field, PRICE.field];

pub(super) const CURRENCY: Key<Option<Text>> =
    Key::text("currency", rule("none"), "what money is called, as it is to be shown: \"EUR\"");
pub(super) const HOUR: Key<Option<f64>> =
    Key::amount("hour", rule("not known"), "what an hour of hands costs: the steps, and what each kit takes besides");
pub(super) const MACHINE_HOUR: Key<Option<f64>> =
    Key::amount("machine_hour", rule("not known"), "what an hour of the machine costs");
pub(super) const MINUTES_A_KIT: Key<Option<f64>> =
    Key::amount("minutes_a_kit", rule("none"), "minutes of hands that each kit takes besides its steps");
pub(super) const PACKAGING: Key<Option<f64>> =
    Key::amount("packaging", rule("none"), "what the packaging of a kit costs");

/// The form of a share, in words.
pub(super) const SHARE_FORM: &str = "a share: \"15 %\"";

const fn share(name: &'static str, about: &'static str) -> Key<Option<AmountOrText>> {
    Key::amount_or_text(name, SHARE_FORM, rule("none"), about)
}
pub(super) const OVERHEAD: Key<Option<AmountOrText>> = share("overhead", "what comes on top of the cost: rent, tools");
pub(super) const PROFIT: Key<Option<AmountOrText>> = share("profit", "what comes on top of cost and overhead");
pub(super) const FEES: Key<Option<AmountOrText>> = share("fees", "what is taken off the price by who sells it");
pub(super) const TAX: Key<Option<AmountOrText>> = share("tax", "what is taken off the price by the state");

/// The fields of `selling`.
pub(crate) const SELLING_FIELDS: &[Field] = &[
    CURRENCY.field,
    HOUR.field,
    MACHINE_HOUR.field,
    MINUTES_A_KIT.field,
    PACKAGING.field,
    OVERHEAD.field,
    PROFIT.field,
    FEES.field,
    TAX.field,
];

/// Decimals of an amount in a file: more are a slip.
pub(super) const MOST_DECIMALS: usize = 6;

/// Overhead and profit beyond this, in hundredths, are a slip: our choice.
pub(super) const MOST_ON_TOP: u64 = 1000;

/// Currencies without a hundredth, and those with a thousandth, by ISO 4217 (its list of 2024); all others have hundredths.
const WHOLE: &[&str] = &[
    "BIF", "CLP", "DJF", "GNF", "ISK", "JPY", "KMF", "KRW", "PYG", "RWF", "UGX", "UYI", "VND", "VUV", "XAF", "XOF",
    "XPF",
];
const THOUSANDTHS: &[&str] = &["BHD", "IQD", "JOD", "KWD", "LYD", "OMR", "TND"];

/// How many decimals an amount of a currency is rounded to.
///
/// ```
/// use hingeleaf::selling::decimals;
/// assert_eq!([decimals("EUR"), decimals("JPY"), decimals("KWD"), decimals("£")], [2, 0, 3, 2]);
/// ```
#[must_use]
pub fn decimals(currency: &str) -> usize {
    match currency {
        _ if WHOLE.contains(&currency) => 0,
        _ if THOUSANDTHS.contains(&currency) => 3,
        _ => 2,
    }
}
