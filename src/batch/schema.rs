// SPDX-License-Identifier: MIT
//! The JSON Schema of a batch file.

use super::file_fields::{CHOICE_FIELDS, CLASS_FIELDS, FORMAT, KIT_FIELDS, MAKER_FIELDS, TOP_FIELDS};
use crate::album::{Role, entry_schema, handed_over_schema, spares_schema};
use crate::fields::{file_schema, object_schema};
use crate::parts;
use crate::selling;
use crate::stock::own_schema;
use serde_json::{Value, json};

/// The schema of a batch file.
#[must_use]
pub fn schema() -> Value {
    let pages = json!({ "type": "array", "minItems": 1, "items": entry_schema(&parts::kinds(), Role::Page) });
    let kit = object_schema(
        &[KIT_FIELDS],
        &[
            ("name", json!({ "type": "string", "pattern": "^[a-z0-9][a-z0-9-]{0,31}$" })),
            ("change", json!({ "type": "object" })),
            ("choice", object_schema(&[CHOICE_FIELDS], &[("of", pages)])),
        ],
    );
    let name = json!({ "type": "string", "pattern": "^[a-z0-9][a-z0-9-]{0,31}$" });
    let sheet = json!({ "type": "string", "minLength": 1 });
    let sheets = json!({ "anyOf": [sheet, { "type": "object", "additionalProperties": sheet }] });
    let makers = object_schema(
        &[MAKER_FIELDS],
        &[
            ("name", name),
            ("change", json!({ "type": "object" })),
            ("sheet", sheets),
            ("cutter", own_schema()),
            ("handed_over", handed_over_schema()),
        ],
    );
    let makers = json!({ "type": "array", "minItems": 1, "items": makers });
    let class = object_schema(&[CLASS_FIELDS], &[("change", json!({ "type": "object" })), ("makers", makers)]);
    let mut nested = vec![
        ("class", class),
        ("kits", json!({ "type": "array", "minItems": 1, "items": kit })),
        ("handed_over", handed_over_schema()),
        ("spares", spares_schema()),
    ];
    nested.extend(selling::schemas());
    let mut schema = file_schema("A batch file", FORMAT, TOP_FIELDS, &nested);
    schema["oneOf"] = json!([{ "required": ["kits"] }, { "required": ["class"] }]);
    schema
}
