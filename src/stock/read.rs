// SPDX-License-Identifier: MIT
//! One entry of `stocks`.

use super::{By, CaliperFrom, Grain, OwnCutter, Pattern, PictureFile, SheetSize, Stock, StockPictures};
use crate::cutter;
use crate::fields::{
    Amount, AmountOrText, Fallback, Field, Key, Nested, Node, Reader, Text, Tree, Values, join, needed, object_schema,
    rule,
};
use crate::finding::{Arg, Finding, Place, Said};
use crate::length::Length;
use crate::paper::{self, sheet_size};
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
const COLOUR: Key<Option<Text>> =
    Key::text("colour", rule("another one for each stock"), "its colour in pictures, as \"#RRGGBB\"");
const PICTURE: Key<Option<Text>> = Key::text("picture", rule("none"), "a picture of its sheet, PNG or JPEG");
const PICTURE_WIDTH: Key<Option<Length>> =
    Key::size("picture_width", rule("the sheet's"), "how wide the paper in the picture is");
const PICTURE_BACK: Key<Option<Text>> =
    Key::text("picture_back", rule("none"), "a picture of its back, where that is printed, too");
const PRICE: Key<Option<f64>> = Key::amount("price", rule("not known"), "price of one sheet");
const COUNT: Key<Option<u32>> =
    Key::count("count", (1, 1_000_000), rule("as many as needed"), "how many sheets there are");

/// The forms of `cutter`, in words.
const CUTTER_FORM: &str = "a cutter file's name (\"laser.json\"), or { … } as it has";
const BY: Key<By> = Key::choice("by", By::Machine.usual(), "what it is cut by; on a trimmer from edge to edge");
const CUTTER: Key<Nested> = Key::nested(
    "cutter",
    CUTTER_FORM,
    Fallback::Rule("the usual machine; on a trimmer no kerf, no margin and no gap"),
    "what it is cut with, where that is not what other stocks are cut with",
);

/// The fields of a stock.
pub(crate) const STOCK_FIELDS: &[Field] = &[
    SHEET.field,
    CALIPER.field,
    GRAMMAGE.field,
    GRAIN.field,
    PATTERN.field,
    COLOUR.field,
    PICTURE.field,
    PICTURE_WIDTH.unmeasured().field,
    PICTURE_BACK.field,
    PRICE.field,
    COUNT.field,
    BY.field,
    CUTTER.field,
];

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
    object_schema(
        &[STOCK_FIELDS],
        &[("sheet", json!({ "anyOf": [size, sizes] })), ("cutter", own_schema()), ("colour", colour_schema())],
    )
}

/// The JSON Schema of a colour.
fn colour_schema() -> Value {
    json!({ "type": "string", "pattern": "^#[0-9A-Fa-f]{6}$" })
}

/// The JSON Schema of a cutter of its own.
#[must_use]
pub(crate) fn own_schema() -> Value {
    json!({ "anyOf": [{ "type": "string", "minLength": 1 }, cutter::own_schema()] })
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
        shares: None,
        sheets,
        caliper,
        caliper_from,
        grammage,
        grain: values.get(GRAIN),
        pattern: values.get(PATTERN),
        colour: colour(reader, &values),
        pictures: pictures(reader, &values),
        ready: false,
        by: values.get(BY),
        own: values.get(CUTTER).and_then(|node| read_own(reader, node, path)),
    })
}

/// The pictures that are named; nobody read them yet.
fn pictures(reader: &mut Reader<'_>, values: &Values) -> StockPictures {
    let named = |key: Key<Option<Text>>| {
        values.get(key).map(|name| PictureFile::new(name.to_owned(), values.place(key).cloned(), reader.units))
    };
    let pictures = StockPictures { front: named(PICTURE), back: named(PICTURE_BACK), width: values.get(PICTURE_WIDTH) };
    if pictures.width.is_some() && pictures.front.is_none() && pictures.back.is_none() {
        let finding = Finding::note("picture-width-alone", Said::NOTHING, Said::new("picture-width-alone"));
        let finding = finding.help(Said::new("picture-width-alone-help"));
        reader.findings.push(finding.at(values.place(PICTURE_WIDTH)));
    }
    pictures
}

/// The colour that is said, of its three parts.
fn colour(reader: &mut Reader<'_>, values: &Values) -> Option<[u8; 3]> {
    let said = values.get(COLOUR)?;
    let place = values.place(COLOUR).cloned();
    let code = cutter::colour_code(said).and_then(|code| u32::from_str_radix(&code[1..], 16).ok());
    match (code, place) {
        (Some(code), _) => {
            let [_, red, green, blue] = code.to_be_bytes();
            Some([red, green, blue])
        }
        (None, Some(place)) => {
            let text = Said::new("bad-stock-colour").with("said", Arg::quoted(crate::length::excerpt(said)));
            reader.problem("bad-colour", text, Said::new("bad-stock-colour-help"), &place);
            None
        }
        (None, None) => None,
    }
}

/// A cutter of a stock's own, under `cutter` of the object that `path` leads to.
pub(crate) fn read_own(reader: &mut Reader<'_>, node: &Node, path: &str) -> Option<OwnCutter> {
    let path = join(path, CUTTER.name());
    let place = reader.place(&node.range, &path);
    match &node.tree {
        Tree::Text(name) if name.trim().is_empty() => {
            reader.empty(CUTTER.name(), CUTTER_FORM, &place);
            None
        }
        Tree::Text(name) => Some(OwnCutter::File { name: name.clone(), place }),
        Tree::Object(_) => cutter::read_own(reader, node, &path).map(OwnCutter::Settings),
        other => {
            reader.wrong_type(CUTTER.name(), Arg::term(CUTTER_FORM), other, Said::NOTHING, &place);
            None
        }
    }
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
        Ok((name, width, height)) => Some(SheetSize { name, width, height, count, price, pack: None, lies: None }),
        Err(error) => {
            reader.problem("bad-sheet", error.what, error.help, place);
            None
        }
    }
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
