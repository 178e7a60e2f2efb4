// SPDX-License-Identifier: MIT
//! In what state card is handed to the one who puts a kit together: `"handed_over"` of an album file.
//!
//! ```json
//! "handed_over": "scored"
//! "handed_over": { "card": "scored", "paper": "sheets" }
//! ```

use super::Album;
use super::file_fields::HANDED_OVER;
use crate::fields::{Choices, Held, Node, Reader, Tree, Value, meant_or, words};
use crate::finding::{Arg, Said};
use crate::length::excerpt;
use crate::stock::Stock;
use serde_json::json;

words! {
    /// In what state the card of a stock is handed over, from what has had least done to it.
    #[derive(PartialOrd, Ord, Hash)]
    pub enum Handed {
        /// As whole sheets: whoever makes the kit cuts and scores them.
        Sheets = "sheets",
        /// As pieces: cut, holes and all, not scored.
        Cut = "cut",
        /// As pieces that are cut and scored.
        Scored = "scored",
    }
}

impl Album {
    /// In what state a stock is handed over; nothing where the maker says nothing of it.
    #[must_use]
    pub fn handed_over(&self, stock: usize) -> Option<Handed> {
        self.handed_over.as_ref()?.get(stock).copied()
    }

    /// Says in what state a stock is handed over, or all of them.
    pub fn hand_over(&mut self, stock: Option<usize>, handed: Handed) {
        let all = self.handed_over.get_or_insert_with(|| vec![Handed::Sheets; self.stocks.len()]);
        let name = |stock: usize| self.stocks.get(stock).map(Stock::bought);
        for (number, one) in all.iter_mut().enumerate() {
            if stock.is_none_or(|stock| name(stock) == name(number)) {
                *one = handed;
            }
        }
    }

    /// Whether a stock is handed over in whole sheets.
    #[must_use]
    pub fn is_handed_whole(&self, stock: usize) -> bool {
        self.order().is_handed_whole(stock)
    }

    /// Whether each kit's parts of a stock have sheets of their own, because these are handed over whole.
    #[must_use]
    pub fn is_apart(&self, stock: usize) -> bool {
        self.order().is_apart(stock)
    }

    /// Whether somebody makes something for those who put the kits together, and so wants a sheet of its own.
    #[must_use]
    pub fn has_shop(&self) -> bool {
        self.made() > 1 || self.handed_over.iter().flatten().any(|handed| *handed != Handed::Sheets)
    }
}

/// Reads it: one for each of the stocks, given by name.
pub(crate) fn read(reader: &mut Reader<'_>, node: &Node, stocks: &[&str]) -> Vec<Handed> {
    let (name, mut handed) = (HANDED_OVER.name(), vec![Handed::Sheets; stocks.len()]);
    let word = |reader: &mut Reader<'_>, node: &Node, path: &str, name: &str| {
        let word = reader.choice(node, path, name, Handed::WORDS)?;
        Handed::read(&Value::Choice(word))
    };
    match &node.tree {
        Tree::Text(_) => {
            if let Some(all) = word(reader, node, name, name) {
                handed.fill(all);
            }
        }
        Tree::Object(entries) => {
            let mut seen: Vec<&str> = Vec::new();
            for (stock, range, value) in entries {
                let path = format!("{name}.{stock}");
                let place = reader.place(range, &path);
                if seen.contains(&stock.as_str()) {
                    let text = Said::new("twice").with("name", Arg::quoted(excerpt(stock)));
                    reader.problem("twice", text, Said::new("twice-help"), &place);
                    continue;
                }
                seen.push(stock);
                let Some(number) = stocks.iter().position(|one| *one == stock) else {
                    let help = meant_or("unknown-stock-help", stock, stocks.iter().copied());
                    let text = Said::new("unknown-stock").with("name", Arg::quoted(excerpt(stock)));
                    reader.problem("unknown-stock", text.with("stocks", Arg::field("stocks")), help, &place);
                    continue;
                };
                if let Some(read) = word(reader, value, &path, stock) {
                    handed[number] = read;
                }
            }
        }
        other => {
            let place = reader.place(&node.range, name);
            reader.wrong_type(name, Said::new("form-handed-over"), other, Said::new("handed-over-help"), &place);
        }
    }
    handed
}

/// The same for all stocks, those that share another one's sheets among them.
pub(super) fn of_all(mut handed: Vec<Handed>, stocks: &[Stock]) -> Vec<Handed> {
    for stock in stocks.iter().skip(handed.len()) {
        let shared = stocks.iter().position(|one| one.name == stock.bought());
        let as_shared = shared.and_then(|shared| handed.get(shared)).copied();
        handed.push(as_shared.unwrap_or(Handed::Sheets));
    }
    handed
}

/// What a file may say, as a JSON Schema.
pub(crate) fn schema() -> serde_json::Value {
    let word = json!({ "enum": Handed::WORDS });
    json!({ "oneOf": [word, { "type": "object", "additionalProperties": word }] })
}
