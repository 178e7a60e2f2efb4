// SPDX-License-Identifier: MIT
//! One entry of `stocks`.

use super::paper;
use super::{CaliperFrom, Grain, Pattern, SheetSize, Stock};
use crate::fields::{Fallback, Field, Node, Reader, Takes, Tree, Values, nearest, object_schema};
use crate::finding::Place;
use crate::length::{Length, excerpt};
use serde_json::{Value, json};

/// The forms of `sheet`, in words.
const SHEET_FORM: &str = "a sheet's name or size (\"A4\", \"12x12in\", \"300x200mm\"), or a list of them";

/// The fields of a stock.
pub const STOCK_FIELDS: &[Field] = &[
    Field::new("sheet", Takes::Nested(SHEET_FORM), Fallback::Rule("A4"), "the sheet it comes in"),
    Field::new(
        "caliper",
        Takes::Caliper,
        Fallback::Rule("worked out from the grammage, else 0.3 mm"),
        "thickness of one sheet",
    ),
    Field::new(
        "grammage",
        Takes::AmountOrText("a number of g/m², or a weight with its grade: \"65 lb cover\""),
        Fallback::Rule("not known"),
        "weight of a square metre",
    ),
    Field::new(
        "grain",
        Takes::Choice(&["long", "short", "width", "height"]),
        Fallback::Rule("not stated"),
        "the side of the sheet that the fibres run along",
    ),
    Field::new(
        "pattern",
        Takes::Choice(&["none", "all-over", "one-way"]),
        Fallback::Choice("none"),
        "whether it is patterned, and has an up and a down",
    ),
    Field::new("price", Takes::Amount, Fallback::Rule("not known"), "price of one sheet"),
    Field::new(
        "count",
        Takes::Count { least: 1, most: 1_000_000 },
        Fallback::Rule("as many as needed"),
        "how many sheets there are",
    ),
];

/// The fields of one size where several are listed as objects.
const SIZE_FIELDS: &[Field] = &[
    Field::new("sheet", Takes::Text, Fallback::Needed, "a sheet's name or size"),
    Field::new("price", Takes::Amount, Fallback::Rule("the stock's"), "price of one"),
    Field::new(
        "count",
        Takes::Count { least: 1, most: 1_000_000 },
        Fallback::Rule("the stock's"),
        "how many there are",
    ),
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
    let values = reader.object(node, path, "a stock", &[STOCK_FIELDS])?;
    let sheets = sheets(reader, &values, path);
    let grammage = grammage(reader, &values);
    let (caliper, caliper_from) = match (values.maybe_length("caliper"), grammage) {
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
        grain: values.text("grain").map(|word| match word {
            "long" => Grain::Long,
            "short" => Grain::Short,
            "width" => Grain::Width,
            _ => Grain::Height,
        }),
        pattern: match values.text("pattern") {
            Some("all-over") => Pattern::AllOver,
            Some("one-way") => Pattern::OneWay,
            _ => Pattern::None,
        },
    })
}

fn sheets(reader: &mut Reader<'_>, values: &Values, path: &str) -> Vec<SheetSize> {
    let (count, price) = (values.count("count"), values.amount("price"));
    let a4 = || SheetSize { count, price, ..Stock::a4_card().sheets.remove(0) };
    let Some(node) = values.nested("sheet") else { return vec![a4()] };
    let path = format!("{path}.sheet");
    let mut sizes = Vec::new();
    let items = match &node.tree {
        Tree::Array(_) => reader
            .list(node, &path, "\"sheet\"")
            .iter()
            .enumerate()
            .map(|(index, item)| (item, format!("{path}[{index}]")))
            .collect(),
        _ => vec![(node, path.clone())],
    };
    if items.is_empty() {
        let place = reader.place(&node.range, &path);
        reader.problem("empty", "\"sheet\" is an empty list", format!("give {SHEET_FORM}"), &place);
    }
    for (item, path) in items {
        let place = reader.place(&item.range, &path);
        match &item.tree {
            Tree::Text(text) => sizes.extend(one(reader, text, &place, count, price)),
            Tree::Object(_) if item.range != node.range => {
                if let Some(size) = reader.object(item, &path, "a sheet size", &[SIZE_FIELDS])
                    && let (Some(text), Some(at)) = (size.text("sheet"), size.place("sheet"))
                {
                    sizes.extend(one(reader, text, at, size.count("count").or(count), size.amount("price").or(price)));
                }
            }
            other => {
                reader.problem("wrong-type", format!("\"sheet\" takes {SHEET_FORM}, not {}", other.what()), "", &place);
            }
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
        Ok((name, width, height)) => Some(SheetSize { name, width, height, count, price }),
        Err((what, help)) => {
            reader.problem("bad-sheet", what, help, place);
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
/// assert!(hingeleaf::stock::sheet_size("A44").unwrap_err().1.contains("\"A4\""));
/// ```
pub fn sheet_size(text: &str) -> Result<(String, Length, Length), (String, String)> {
    if let Some(named) = paper::sheet(text.trim()) {
        return Ok((named.name.to_owned(), named.width, named.height));
    }
    let shown = excerpt(text);
    let looks_like_size =
        text.chars().any(|c| matches!(c, 'x' | 'X' | '×')) && text.chars().any(|c| c.is_ascii_digit());
    if !looks_like_size {
        let names: Vec<&str> = paper::named_sheets().iter().map(|sheet| sheet.name).collect();
        let help = nearest(text.trim(), names.iter().copied()).map_or_else(
            || format!("name one of {}, or give its size as \"12x12in\" or \"300x200mm\"", names.join(", ")),
            |name| format!("did you mean \"{name}\"? Sizes of your own are written \"12x12in\" or \"300x200mm\""),
        );
        return Err((format!("there is no sheet \"{shown}\""), help));
    }
    let (width, height) = paper::parse_size(text).map_err(|error| (error.what, error.help))?;
    let side = |length: Length| (5.0..=5000.0).contains(&length.mm());
    if !side(width) || !side(height) {
        return Err((format!("a sheet of {shown} is no sheet"), "each side must lie between 5 mm and 5 m".into()));
    }
    Ok((text.trim().to_owned(), width, height))
}

fn grammage(reader: &mut Reader<'_>, values: &Values) -> Option<f64> {
    let place = values.place("grammage").cloned()?;
    let gsm = match (values.amount("grammage"), values.text("grammage")) {
        (Some(number), _) => number,
        (None, Some(text)) => match paper::parse_grammage(text) {
            Ok(gsm) => gsm,
            Err(error) => {
                reader.problem("bad-weight", error.what, error.help, &place);
                return None;
            }
        },
        (None, None) => return None,
    };
    if !(20.0..=5000.0).contains(&gsm) {
        let shown = (gsm * 10.0).round() / 10.0;
        reader.problem(
            "out-of-range",
            format!("\"grammage\" is {shown} g/m², and must lie between 20 and 5000"),
            "check the number and its unit",
            &place,
        );
        return None;
    }
    Some(gsm)
}
