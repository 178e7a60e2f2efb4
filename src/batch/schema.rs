// SPDX-License-Identifier: MIT
//! The JSON Schema of a batch file.

use super::file_fields::{CHOICE_FIELDS, FORMAT, KIT_FIELDS, TOP_FIELDS};
use crate::album::{Role, entry_schema, handed_over_schema, spares_schema};
use crate::fields::{file_schema, object_schema};
use crate::parts;
use crate::selling;
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
    let mut nested = vec![
        ("kits", json!({ "type": "array", "minItems": 1, "items": kit })),
        ("handed_over", handed_over_schema()),
        ("spares", spares_schema()),
    ];
    nested.extend(selling::schemas());
    file_schema("A batch file", FORMAT, TOP_FIELDS, &nested)
}
