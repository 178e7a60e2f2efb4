// SPDX-License-Identifier: MIT
//! `"packs"`: how many sheets of a stock are sold together.
//!
//! ```json
//! "packs": { "card": { "of": 25, "price": 9.5 }, "paper A3": { "of": 10, "price": 12 } }
//! ```
//!
//! A key is a stock; where that comes in several sizes, a stock and a sheet. In a batch, stocks of one name that are two are
//! called apart: `paper.ochre`.

use super::file_fields::{MOST_DECIMALS, PACK_FIELDS, PACK_OF, PACKS, PRICE};
use crate::exact::Exact;
use crate::fields::{Node, Reader, Tree, Values, meant_or};
use crate::finding::{Arg, Place, Said};
use crate::length::excerpt;
use crate::stock::{Pack, SheetSize, Stock};

/// Packs by the stock, or the stock and the sheet, that they are of.
#[derive(Clone, Debug, Default)]
pub struct Packs(Vec<(String, Pack, Place)>);

impl Packs {
    /// Whether there are none.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// Puts the sheets of a stock into the packs that are said of it; `names` are what the stock is called, the nearest to it
    /// first. What its sheets were in before is beaten by what is said here.
    pub fn put(&self, stock: &mut Stock, names: &[&str]) {
        for size in &mut stock.sheets {
            let keys = names.iter().flat_map(|name| [of_size(name, size), (*name).to_owned()]);
            let found = keys.into_iter().find_map(|key| self.0.iter().find(|(known, ..)| *known == key));
            if let Some((_, pack, _)) = found {
                size.pack = Some(pack.clone());
            }
        }
    }
}

/// `card A3`
fn of_size(name: &str, size: &SheetSize) -> String {
    format!("{name} {}", size.name)
}

/// All that packs may be of.
fn keys<'s>(stocks: impl Iterator<Item = (&'s str, &'s Stock)>) -> Vec<String> {
    let of = |(name, stock): (&str, &Stock)| {
        let sizes: Vec<String> = match stock.sheets.as_slice() {
            [_] => Vec::new(),
            several => several.iter().map(|size| of_size(name, size)).collect(),
        };
        [vec![name.to_owned()], sizes].concat()
    };
    let mut keys: Vec<String> = Vec::new();
    for key in stocks.flat_map(of) {
        if !keys.contains(&key) {
            keys.push(key);
        }
    }
    keys
}

/// Reads them; `stocks` are all that there are, by what they may be called.
pub(crate) fn read<'s>(
    reader: &mut Reader<'_>,
    node: &Node,
    stocks: impl Iterator<Item = (&'s str, &'s Stock)>,
) -> Packs {
    let name = PACKS.name();
    let mut packs = Packs::default();
    let known = keys(stocks);
    let Tree::Object(entries) = &node.tree else {
        let place = reader.place(&node.range, name);
        reader.wrong_type(name, Said::new("form-packs"), &node.tree, Said::new("packs-help"), &place);
        return packs;
    };
    for (stock, range, value) in entries {
        let path = format!("{name}.{}", excerpt(stock));
        let place = reader.place(range, &path);
        if packs.0.iter().any(|(key, ..)| key == stock) {
            let text = Said::new("twice").with("name", Arg::quoted(excerpt(stock)));
            reader.problem("twice", text, Said::new("twice-help"), &place);
        } else if !known.contains(stock) {
            let help = meant_or("unknown-pack-help", stock, known.iter().map(String::as_str));
            let text = Said::new("unknown-pack").with("name", Arg::quoted(excerpt(stock)));
            reader.problem("unknown-stock", text, help, &place);
        } else if let Some(values) = reader.object(value, &path, Said::new("a-pack"), &[PACK_FIELDS]) {
            let price = price(reader, &values);
            packs.0.push((stock.clone(), Pack { of: values.get(PACK_OF).max(1), price }, place));
        }
    }
    packs
}

/// A price; one that is finer than money is told, and stands as nought.
pub(super) fn price(reader: &mut Reader<'_>, values: &Values) -> Exact {
    money(reader, values.get(PRICE), PRICE.name(), values.place(PRICE).cloned().as_ref())
}

/// An amount of a file, exactly as it stands there.
pub(super) fn money(reader: &mut Reader<'_>, said: f64, name: &str, place: Option<&Place>) -> Exact {
    let amount = Exact::written(said).unwrap_or_else(Exact::zero);
    if let Some(place) = place.filter(|_| !amount.has_at_most(MOST_DECIMALS)) {
        let text = Said::new("too-fine").with("field", Arg::field(name)).with("most", MOST_DECIMALS);
        reader.problem("out-of-range", text, Said::new("too-fine-help"), place);
        return Exact::zero();
    }
    amount
}
