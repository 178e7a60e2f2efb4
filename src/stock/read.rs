// SPDX-License-Identifier: MIT
//! One entry of `stocks`.

use super::paper::{self, PaperError};
use super::{CaliperFrom, Grain, Pattern, SheetSize, Stock};
use crate::fields::{
    Amount, AmountOrText, Fallback, Field, Key, Nested, Node, Reader, Text, Tree, Values, nearest, needed,
    object_schema, rule,
};
use crate::finding::{Arg, Place, Said};
use crate::length::{Length, excerpt};
use serde_json::{Value, json};

/// The forms of `sheet`, in words.
const SHEET_FORM: &str = "a sheet's name or size (\"A4\", \"12x12in\", \"300x200mm\"), or a list of them";

const SHEET: Key<Nested> = Key::nested("sheet", SHEET_FORM, Fallback::Rule("A4"), "the sheet it comes in");
const CALIPER: Key<Option<Length>> =
    Key::caliper("caliper", rule("worked out from the grammage, else 0.3 mm"), "thickness of one sheet");
const GRAMMAGE: Key<Option<AmountOrText>> = Key::amount_or_text(
    "grammage",
    "a number of g/m², or a weight with its grade: \"65 lb cover\"",
    rule("not known"),
    "weight of a square metre",
);
const GRAIN: Key<Option<Grain>> =
    Key::choice("grain", rule("not stated"), "the side of the sheet that the fibres run along");
const PATTERN: Key<Pattern> =
    Key::choice("pattern", Pattern::None.usual(), "whether it is patterned, and has an up and a down");
const PRICE: Key<Option<f64>> = Key::amount("price", rule("not known"), "price of one sheet");
const COUNT: Key<Option<u32>> =
    Key::count("count", (1, 1_000_000), rule("as many as needed"), "how many sheets there are");

/// The fields of a stock.
pub(crate) const STOCK_FIELDS: &[Field] =
    &[SHEET.field, CALIPER.field, GRAMMAGE.field, GRAIN.field, PATTERN.field, PRICE.field, COUNT.field];

const SIZE: Key<Option<Text>> = Key::text("sheet", needed(), "a sheet's name or size");

/// The fields of one size where several are listed as objects.
const SIZE_FIELDS: &[Field] = &[
    SIZE.field,
    PRICE.otherwise(rule("the stock's")).worded("price of one").field,
    COUNT.otherwise(rule("the stock's")).worded("how many there are").field,
];

/// The JSON Schema of one stock.
#[must_use]
pub fn schema() -> Value {
    let size = json!({ "type": "string" });
    let sizes =
        json!({ "type": "array", "minItems": 1, "items": { "anyOf": [size, object_schema(&[SIZE_FIELDS], &[])] } });
    object_schema(&[STOCK_FIELDS], &[("sheet", json!({ "anyOf": [size, sizes] }))])
}

/// Reads one stock.
pub fn read(reader: &mut Reader<'_>, name: &str, node: &Node, path: &str) -> Option<Stock> {
    let values = reader.object(node, path, Said::new("a-stock"), &[STOCK_FIELDS])?;
    let sheets = sheets(reader, &values, path);
    let grammage = grammage(reader, &values);
    let (caliper, caliper_from) = match (values.get(CALIPER), grammage) {
        (Some(caliper), _) => (caliper, CaliperFrom::Measured),
        (None, Some(gsm)) => (paper::estimate_caliper(gsm), CaliperFrom::Grammage),
        (None, None) => (Stock::a4_card().caliper, CaliperFrom::Guess),
    };
    Some(Stock {
        place: values.whole().cloned(),
        name: name.to_owned(),
        sheets,
        caliper,
        caliper_from,
        grammage,
        grain: values.get(GRAIN),
        pattern: values.get(PATTERN),
    })
}

fn sheets(reader: &mut Reader<'_>, values: &Values, path: &str) -> Vec<SheetSize> {
    let (count, price) = (values.get(COUNT), values.get(PRICE));
    let a4 = || SheetSize { count, price, ..Stock::a4_card().sheets.remove(0) };
    let Some(node) = values.get(SHEET) else { return vec![a4()] };
    let path = format!("{path}.sheet");
    let mut sizes = Vec::new();
    let items = match &node.tree {
        Tree::Array(_) => reader
            .list(node, &path, SHEET.name())
            .iter()
            .enumerate()
            .map(|(index, item)| (item, format!("{path}[{index}]")))
            .collect(),
        _ => vec![(node, path.clone())],
    };
    if items.is_empty() {
        let place = reader.place(&node.range, &path);
        reader.empty(SHEET.name(), SHEET_FORM, &place);
    }
    for (item, path) in items {
        let place = reader.place(&item.range, &path);
        match &item.tree {
            Tree::Text(text) => sizes.extend(one(reader, text, &place, count, price)),
            Tree::Object(_) if item.range != node.range => {
                if let Some(size) = reader.object(item, &path, Said::new("a-sheet-size"), &[SIZE_FIELDS])
                    && let (Some(text), Some(at)) = (size.get(SIZE), size.place(SIZE))
                {
                    sizes.extend(one(reader, text, at, size.get(COUNT).or(count), size.get(PRICE).or(price)));
                }
            }
            other => reader.wrong_type(SHEET.name(), Arg::term(SHEET_FORM), other, Said::NOTHING, &place),
        }
    }
    if sizes.is_empty() {
        sizes.push(a4());
    }
    sizes
}

fn one(
    reader: &mut Reader<'_>,
    text: &str,
    place: &Place,
    count: Option<u32>,
    price: Option<f64>,
) -> Option<SheetSize> {
    match sheet_size(text) {
        Ok((name, width, height)) => Some(SheetSize { name, width, height, count, price, pack: None }),
        Err(error) => {
            reader.problem("bad-sheet", error.what, error.help, place);
            None
        }
    }
}

/// A sheet by its standard name, or by its width and height with a unit: its name, width and height.
///
/// # Errors
/// What is wrong and what to do about it.
///
/// ```
/// let (name, width, _) = hingeleaf::stock::sheet_size("12x12in").unwrap();
/// assert_eq!((name.as_str(), width.mm()), ("12x12in", 304.8));
/// assert!(hingeleaf::stock::sheet_size("A44").unwrap_err().help.to_string().contains("\"A4\""));
/// ```
pub fn sheet_size(text: &str) -> Result<(String, Length, Length), PaperError> {
    if let Some(named) = paper::sheet(text.trim()) {
        return Ok((named.name.to_owned(), named.width, named.height));
    }
    let shown = excerpt(text);
    let looks_like_size =
        text.chars().any(|c| matches!(c, 'x' | 'X' | '×')) && text.chars().any(|c| c.is_ascii_digit());
    if !looks_like_size {
        let names: Vec<&str> = paper::named_sheets().iter().map(|sheet| sheet.name).collect();
        let help = match nearest(text.trim(), names.iter().copied()) {
            Some(name) => Said::new("bad-sheet-help-meant").with("name", Arg::quoted(name)),
            None => Said::new("bad-sheet-help").with("names", Arg::Row(names.into_iter().map(Arg::code).collect())),
        };
        return Err(PaperError { what: Said::new("bad-sheet").with("name", Arg::quoted(shown)), help });
    }
    let (width, height) = paper::parse_size(text)?;
    let side = |length: Length| (5.0..=5000.0).contains(&length.mm());
    if !side(width) || !side(height) {
        let what = Said::new("bad-sheet-sides").with("size", shown);
        return Err(PaperError { what, help: Said::new("bad-sheet-sides-help") });
    }
    Ok((text.trim().to_owned(), width, height))
}

fn grammage(reader: &mut Reader<'_>, values: &Values) -> Option<f64> {
    let place = values.place(GRAMMAGE).cloned()?;
    let gsm = match values.get(GRAMMAGE)? {
        Amount::Number(number) => number,
        Amount::Text(text) => match paper::parse_grammage(text) {
            Ok(gsm) => gsm,
            Err(error) => {
                reader.problem("bad-weight", error.what, error.help, &place);
                return None;
            }
        },
    };
    if !(20.0..=5000.0).contains(&gsm) {
        let text = Said::new("out-of-range-grammage").with("field", Arg::field(GRAMMAGE.name()));
        let text = text.with("found", Arg::Number((gsm * 10.0).round() / 10.0, 1));
        reader.problem("out-of-range", text, Said::new("out-of-range-help"), &place);
        return None;
    }
    Some(gsm)
}
