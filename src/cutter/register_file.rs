// SPDX-License-Identifier: MIT
//! The fields of a cutter file that say which register marks sheets have.

use super::register::{MarkShape, MarkSides, RegisterMarks};
use crate::fields::{Fallback, Field, Key, Nested, Node, Reader, Tree, Values, join, number, object_schema, usual};
use crate::finding::{Arg, Said};
use crate::length::Length;
use serde_json::Value;

const MARKS_FORM: &str = "{ \"shape\": \"corner\", \"size\": 8, \"inset\": 10, \"number\": 4 }";
pub(super) const MARKS: Key<Nested> = Key::nested(
    "marks",
    MARKS_FORM,
    Fallback::Rule("none"),
    "register marks, for sheets that are printed before they are cut",
);

const SHAPE: Key<MarkShape> = Key::choice("shape", MarkShape::Corner.usual(), "what each mark looks like");
const SIZE: Key<Length> =
    Key::length("size", usual(8.0, 0.25), "how wide and tall a mark is").within(2.0, 50.0).unmeasured();
const INSET: Key<Length> = Key::length("inset", usual(10.0, 0.375), "how far a mark stands from the sheet's edges")
    .within(1.0, 100.0)
    .unmeasured();
const NUMBER: Key<u32> =
    Key::count("number", (2, 6), number(4), "how many marks a sheet has; three or five tell which way round it lies");
const LINE: Key<Length> =
    Key::length("line", usual(0.5, 0.02), "how broad a mark's printed lines are").within(0.1, 5.0).unmeasured();
const ALONG: Key<MarkSides> =
    Key::choice("along", MarkSides::Short.usual(), "along which sides of a sheet its marks stand");
const BLEED: Key<Length> =
    Key::length("bleed", usual(0.0, 0.0), "how far what is printed on a part runs on past its cut")
        .within(0.0, 20.0)
        .unmeasured();

/// The fields of `marks`.
pub(crate) const MARKS_FIELDS: &[Field] =
    &[SHAPE.field, SIZE.field, INSET.field, NUMBER.field, LINE.field, ALONG.field, BLEED.field];

/// The schema of the field that is read here.
pub(super) fn schema() -> (&'static str, Value) {
    ("marks", object_schema(&[MARKS_FIELDS], &[]))
}

/// The marks, as the file says them.
pub(super) fn marks(reader: &mut Reader<'_>, values: &Values, path: &str) -> Option<RegisterMarks> {
    let node = values.get(MARKS)?;
    one(reader, node, &join(path, MARKS.name()))
}

fn one(reader: &mut Reader<'_>, node: &Node, path: &str) -> Option<RegisterMarks> {
    if !matches!(node.tree, Tree::Object(_)) {
        let place = reader.place(&node.range, path);
        reader.wrong_type(MARKS.name(), Arg::term(MARKS_FORM), &node.tree, Said::NOTHING, &place);
        return None;
    }
    let values = reader.object(node, path, Arg::field(MARKS.name()), &[MARKS_FIELDS])?;
    Some(RegisterMarks {
        shape: values.get(SHAPE),
        size: values.get(SIZE),
        inset: values.get(INSET),
        number: values.get(NUMBER),
        line: values.get(LINE),
        along: values.get(ALONG),
        bleed: values.get(BLEED),
    })
}
