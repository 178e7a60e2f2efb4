// SPDX-License-Identifier: MIT
//! The JSON Schema of a kind file.

use super::tables::{
    CORNER_FIELDS, FLAP_FIELDS, FORMAT, HOLE_FIELDS, JOIN_FIELDS, KIND_FIELDS, MARK_FIELDS, NEED_FIELDS, NOTCH_FIELDS,
    PANEL_DRAWN_FIELDS, PANEL_FIELDS, PAPER_FIELDS, PIECE_FIELDS, POCKET_FIELDS, SIZE_FIELDS, WINDOW_DRAWN_FIELDS,
};
use crate::fields::{Field, file_schema, object_schema};
use serde_json::{Value, json};

/// The schema of a kind file.
#[must_use]
pub fn schema() -> Value {
    let list = |fields: &[Field], nested: &[(&str, Value)]| json!({ "type": "array", "items": object_schema(&[fields], nested) });
    let by_name = |of: Value| json!({ "type": "object", "additionalProperties": of });
    let formula = json!({ "type": ["string", "number"] });
    let formulas = |count: usize| json!({ "type": "array", "items": formula, "minItems": count, "maxItems": count });
    let panel = json!({ "type": "string", "pattern": "^[^/]+/[^/]+$" });
    let panels = json!({ "type": "array", "items": panel, "minItems": 2, "maxItems": 2 });
    let faces = json!({ "type": "array", "items": { "enum": ["front", "back"] }, "minItems": 2, "maxItems": 2 });
    let sides = json!({ "enum": ["spine", "fore-edge", "head", "tail"] });
    let rows = json!({ "$ref": "#/$defs/panels" });
    let row = row(&formulas);
    let size = object_schema(
        &[SIZE_FIELDS],
        &[
            (
                "takes",
                json!({ "anyOf": [{ "enum": ["length", "count"] }, { "type": "array", "items": { "type": "string" }, "minItems": 2 }] }),
            ),
            ("usual", json!({ "anyOf": [formula, formulas(2)] })),
        ],
    );
    let nested = [
        ("sizes", by_name(size)),
        ("pieces", by_name(object_schema(&[PIECE_FIELDS], &[("panels", rows)]))),
        (
            "joins",
            list(
                JOIN_FIELDS,
                &[("stick", panel.clone()), ("onto", panel.clone()), ("faces", faces.clone()), ("at", formulas(2))],
            ),
        ),
        (
            "pockets",
            list(
                POCKET_FIELDS,
                &[
                    ("between", panels.clone()),
                    ("faces", faces),
                    ("open", json!({ "anyOf": [sides.clone(), { "type": "array", "items": sides, "minItems": 1 }] })),
                ],
            ),
        ),
        ("flaps", list(FLAP_FIELDS, &[("flap", panel.clone()), ("over", panel.clone()), ("riser", panel.clone())])),
        ("papers", list(PAPER_FIELDS, &[("on", panel.clone())])),
        ("hangs", json!({ "anyOf": [panel, panels] })),
        ("needs", list(NEED_FIELDS, &[])),
        ("example", json!({ "type": "object" })),
    ];
    let mut schema = file_schema("A kind file", FORMAT, KIND_FIELDS, &nested);
    schema["$defs"] = json!({ "panels": row });
    schema
}

/// The schema of a row of panels.
fn row(formulas: &dyn Fn(usize) -> Value) -> Value {
    let list = |fields: &[Field], nested: &[(&str, Value)]| json!({ "type": "array", "items": object_schema(&[fields], nested) });
    let rows = json!({ "$ref": "#/$defs/panels" });
    let drawn = object_schema(&[WINDOW_DRAWN_FIELDS], &[]);
    let hole = [
        ("round", formulas(2)),
        ("window", formulas(4)),
        ("outline", drawn),
        ("at", formulas(2)),
        ("slit", formulas(4)),
        ("step", formulas(2)),
    ];
    let mark = [("line", formulas(4)), ("cross", formulas(2))];
    list(
        PANEL_FIELDS,
        &[
            ("taper", formulas(2)),
            ("corners", list(CORNER_FIELDS, &[])),
            ("notches", list(NOTCH_FIELDS, &[])),
            ("outline", object_schema(&[PANEL_DRAWN_FIELDS], &[])),
            ("holes", list(HOLE_FIELDS, &hole)),
            ("marks", list(MARK_FIELDS, &mark)),
            ("left", rows.clone()),
            ("right", rows.clone()),
            ("head", rows.clone()),
            ("tail", rows.clone()),
        ],
    )
}
