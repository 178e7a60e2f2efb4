// SPDX-License-Identifier: MIT
//! The JSON Schema of an album file.

use super::edges::{self, EDGES};
use super::file_fields::{FORMAT, PAGE_FIELDS, PANEL_FIELDS, TOP_FIELDS};
use super::hand_over;
use super::kind::{Kind, Role};
use super::spares;
use crate::fields::{file_schema, object_schema};
use crate::outline;
use crate::selling;
use crate::stock;
use serde_json::{Value, json};

/// The schema of an album file whose entries may be of these kinds.
#[must_use]
pub fn schema(kinds: &[&'static Kind]) -> Value {
    let entry = |role: Role| entry_schema(kinds, role);
    let stocks = json!({
        "type": "object",
        "propertyNames": { "pattern": "^[a-z0-9][a-z0-9-]{0,31}$" },
        "additionalProperties": stock::schema(),
    });
    let mut nested = vec![
        ("handed_over", hand_over::schema()),
        ("spares", spares::schema()),
        ("stocks", stocks),
        ("page", object_schema(&[PAGE_FIELDS], &[])),
        ("pages", json!({ "type": "array", "minItems": 1, "items": entry(Role::Page) })),
        ("spine", entry(Role::Spine)),
        ("cover", entry(Role::Cover)),
        ("panels", object_schema(&[PANEL_FIELDS], &[])),
        ("labels", object_schema(&[super::label_grid::LABEL_FIELDS], &[])),
        ("inserts", json!({ "type": "array", "items": entry(Role::Insert) })),
    ];
    nested.extend(selling::schemas());
    let mut schema = file_schema("An album file", FORMAT, TOP_FIELDS, &nested);
    // Without kinds of its own an album has the built-in ones alone.
    let built_in = |role: Role| {
        let names: Vec<&str> = kinds.iter().filter(|kind| kind.role == role).map(|kind| kind.name).collect();
        json!({ "items": { "properties": { "kind": { "enum": names } } } })
    };
    schema["if"] = json!({ "required": ["kinds"] });
    schema["then"] = json!(true);
    schema["else"] = json!({ "properties": { "pages": built_in(Role::Page), "inserts": built_in(Role::Insert) } });
    schema
}

/// The schema of an entry that is of one of these kinds and of this role.
pub(crate) fn entry_schema(kinds: &[&'static Kind], role: Role) -> Value {
    let of_role = kinds.iter().filter(|kind| kind.role == role);
    let one = |kind: &&'static Kind| {
        let nested =
            [("kind", json!({ "const": kind.name })), ("outline", outline::schema()), (EDGES.name(), edges::schema())];
        object_schema(&[kind.common(), kind.fields], &nested)
    };
    let mut all: Vec<Value> = of_role.map(one).collect();
    // A kind of one's own says in its own file which fields it has.
    if matches!(role, Role::Page | Role::Insert) {
        let names: Vec<&str> = kinds.iter().filter(|kind| kind.role == role).map(|kind| kind.name).collect();
        let own = json!({ "type": "string", "pattern": "^[a-z][a-z0-9-]*$", "not": { "enum": names } });
        all.push(json!({ "type": "object", "properties": { "kind": own }, "required": ["kind"] }));
    }
    // A role without a kind takes nothing.
    if all.is_empty() { json!({ "not": {} }) } else { json!({ "oneOf": all }) }
}
