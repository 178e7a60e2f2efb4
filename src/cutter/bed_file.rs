// SPDX-License-Identifier: MIT
//! The field of a cutter file that says how many sheets lie on its bed.

use super::bed::SheetsABed;
use crate::fields::{Fallback, Field, Key, Nested, Node, Reader, Tree, Values, join, needed, object_schema};
use crate::finding::{Arg, Said};
use crate::length::Length;
use serde_json::{Value, json};

/// Most sheets that make sense on one bed: our choice.
const MOST_SHEETS: u32 = 50;
const FORM: &str = "a whole number from 1 to 50, \"fill\", or places as [{ \"x\": 0, \"y\": 0 }]";
pub(super) const SHEETS_A_BED: Key<Nested> =
    Key::nested("sheets_a_bed", FORM, Fallback::Rule("one file a sheet"), "how many sheets lie on the bed at once");
const FILL: &str = "fill";

const X: Key<Length> =
    Key::length("x", needed(), "from the bed's left edge to a sheet's").within(0.0, 5000.0).unmeasured();
const Y: Key<Length> =
    Key::length("y", needed(), "from the bed's lower edge to a sheet's").within(0.0, 5000.0).unmeasured();
/// The fields of a place.
pub(super) const PLACE_FIELDS: &[Field] = &[X.field, Y.field];

/// The schema of the field that is read here.
pub(super) fn schema() -> (&'static str, Value) {
    let count = json!({ "type": "integer", "minimum": 1, "maximum": MOST_SHEETS });
    let place = object_schema(&[PLACE_FIELDS], &[]);
    let places = json!({ "type": "array", "minItems": 1, "maxItems": MOST_SHEETS, "items": place });
    ("sheets_a_bed", json!({ "anyOf": [count, { "const": FILL }, places] }))
}

/// What the file says of it.
pub(super) fn sheets_a_bed(reader: &mut Reader<'_>, values: &Values, path: &str) -> Option<SheetsABed> {
    let node = values.get(SHEETS_A_BED)?;
    let path = join(path, SHEETS_A_BED.name());
    let place = reader.place(&node.range, &path);
    match &node.tree {
        Tree::Number(many) => {
            let known = (1..=MOST_SHEETS).find(|count| (f64::from(*count) - many).abs() < f64::EPSILON);
            if known.is_none() {
                refuse(reader, node, &path);
            }
            known.map(SheetsABed::Count)
        }
        Tree::Text(word) if word == FILL => Some(SheetsABed::Fill),
        Tree::Array(items) if (1..=MOST_SHEETS as usize).contains(&items.len()) => {
            let places: Vec<_> = items
                .iter()
                .enumerate()
                .filter_map(|(number, item)| one(reader, item, &format!("{path}[{number}]")))
                .collect();
            (places.len() == items.len()).then_some(SheetsABed::At(places))
        }
        Tree::Text(_) | Tree::Array(_) => {
            refuse(reader, node, &path);
            None
        }
        other => {
            reader.wrong_type(SHEETS_A_BED.name(), Arg::term(FORM), other, Said::NOTHING, &place);
            None
        }
    }
}

fn refuse(reader: &mut Reader<'_>, node: &Node, path: &str) {
    let place = reader.place(&node.range, path);
    let text = Said::new("bad-sheets-a-bed").with("field", Arg::field(SHEETS_A_BED.name()));
    let text = text.with("form", Arg::term(FORM));
    reader.problem("out-of-range", text, Said::new("bad-sheets-a-bed-help"), &place);
}

fn one(reader: &mut Reader<'_>, node: &Node, path: &str) -> Option<(Length, Length)> {
    if !matches!(node.tree, Tree::Object(_)) {
        refuse(reader, node, path);
        return None;
    }
    let values = reader.object(node, path, Arg::field(SHEETS_A_BED.name()), &[PLACE_FIELDS])?;
    (values.says(X) && values.says(Y)).then(|| (values.get(X), values.get(Y)))
}
