// SPDX-License-Identifier: MIT
//! From a drawer file's text to a [`Drawer`].

use super::{Drawer, DrawerSheet, DrawerStock, is_stock_name};
use crate::fields::{
    Fallback, Field, Key, Nested, Node, Reader, Source, Takes, Text, Tree, Values, file_schema, needed, number,
    object_schema,
};
use crate::finding::{Arg, Checked, Said};
use crate::length::excerpt;
use crate::paper::sheet_size;
use serde_json::{Value, json};

/// What the file's `format` must say.
pub const FORMAT: &str = "hingeleaf-drawer/1";

/// More sizes of one stock than this are a mistake: our choice.
const MOST_SIZES: usize = 500;

/// More sheets of one size than this are a slip of the pen: our choice.
const MOST_SHEETS: u32 = 1_000_000;

const STOCKS: Key<Nested> =
    Key::nested("stocks", "{ … } of lists of sheets by the stock's name", Fallback::Needed, "what lies in the drawer");

/// The fields of the file's top object.
const TOP_FIELDS: &[Field] = &[
    Field::new("format", Takes::Text, Fallback::Needed, "which kind of file this is: \"hingeleaf-drawer/1\""),
    STOCKS.field,
];

const SHEET: Key<Text> = Key::text(
    "sheet",
    needed(),
    "a sheet's name, or its size as it lies: across first, then along the grain or up the pattern",
);
const COUNT: Key<u32> = Key::count("count", (0, MOST_SHEETS), number(1), "how many of them lie there");

/// The fields of a sheet.
const SHEET_FIELDS: &[Field] = &[SHEET.field, COUNT.field];

/// The JSON Schema of a drawer file.
#[must_use]
pub fn schema() -> Value {
    let stocks = json!({
        "type": "object",
        "propertyNames": { "pattern": "^[a-z0-9][a-z0-9-]{0,31}(\\.[a-z0-9][a-z0-9-]{0,31})?$" },
        "additionalProperties": { "type": "array", "items": object_schema(&[SHEET_FIELDS], &[]) },
    });
    file_schema("A drawer file", FORMAT, TOP_FIELDS, &[("stocks", stocks)])
}

/// Reads a drawer file.
#[must_use]
pub fn read(source: &Source) -> Checked<Drawer> {
    let mut reader = Reader::new(source);
    let Some(top) = reader.top(TOP_FIELDS, FORMAT) else { return Checked::none(reader.findings) };
    let stocks = top.get(STOCKS).map(|node| stocks(&mut reader, node)).unwrap_or_default();
    Checked::new(Drawer { stocks }, reader.findings)
}

fn stocks(reader: &mut Reader<'_>, node: &Node) -> Vec<DrawerStock> {
    let mut stocks: Vec<DrawerStock> = Vec::new();
    let Tree::Object(entries) = &node.tree else {
        let place = reader.place(&node.range, STOCKS.name());
        reader.wrong_type(STOCKS.name(), Said::new("form-drawer"), &node.tree, Said::new("drawer-help"), &place);
        return stocks;
    };
    for (name, range, value) in entries {
        let path = format!("{}.{}", STOCKS.name(), excerpt(name));
        let place = reader.place(range, &path);
        if stocks.iter().any(|stock| stock.name == *name) {
            let text = Said::new("twice-stock").with("name", Arg::quoted(excerpt(name)));
            reader.problem("twice", text, Said::new("twice-stock-help"), &place);
            continue;
        }
        if !is_stock_name(name) {
            let text = Said::new("bad-name").with("name", Arg::quoted(excerpt(name)));
            reader.problem("bad-name", text, Said::new("bad-name-help"), &place);
        }
        stocks.push(DrawerStock { name: name.clone(), place: Some(place), sheets: sheets(reader, value, &path) });
    }
    stocks
}

fn sheets(reader: &mut Reader<'_>, node: &Node, path: &str) -> Vec<DrawerSheet> {
    let list = reader.list(node, path, path);
    if list.len() > MOST_SIZES {
        let place = reader.place(&node.range, path);
        let text = Said::new("too-many-entries").with("field", Arg::field(path)).with("count", list.len());
        reader.problem("too-many", text.with("most", MOST_SIZES), Said::NOTHING, &place);
        return Vec::new();
    }
    let mut all = Drawer::default();
    for (index, node) in list.iter().enumerate() {
        let values = reader.object(node, &format!("{path}[{index}]"), Said::new("a-sheet-size"), &[SHEET_FIELDS]);
        if let Some(sheet) = values.and_then(|values| sheet(reader, &values)) {
            let size = (sheet.width, sheet.height);
            all.put("", sheet);
            let lies =
                all.stocks.iter().flat_map(|stock| &stock.sheets).find(|known| (known.width, known.height) == size);
            // What is written back must be taken again.
            if let Some(lies) = lies.filter(|lies| lies.count > MOST_SHEETS) {
                let text = Said::new("drawer-too-many").with("count", lies.count).with("most", MOST_SHEETS);
                let place = reader.place(&node.range, &format!("{path}[{index}]"));
                reader.problem("out-of-range", text, Said::new("drawer-too-many-help"), &place);
                break;
            }
        }
    }
    all.stocks.into_iter().flat_map(|stock| stock.sheets).collect()
}

fn sheet(reader: &mut Reader<'_>, values: &Values) -> Option<DrawerSheet> {
    let place = values.says(SHEET).then(|| values.place(SHEET)).flatten()?.clone();
    match sheet_size(values.get(SHEET)) {
        Ok((name, width, height)) => Some(DrawerSheet { name, width, height, count: values.get(COUNT) }),
        Err(error) => {
            reader.problem("bad-sheet", error.what, error.help, &place);
            None
        }
    }
}
