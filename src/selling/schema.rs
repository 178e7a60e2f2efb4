// SPDX-License-Identifier: MIT
//! What files may say of buying and selling, as JSON Schema.

use super::file_fields::{PACK_FIELDS, PACKS, SELLING, SELLING_FIELDS, SUPPLIES, SUPPLY_FIELDS};
use crate::fields::object_schema;
use serde_json::{Value, json};

/// The schemas of the three fields, by their names.
#[must_use]
pub(crate) fn schemas() -> [(&'static str, Value); 3] {
    let share = || json!({ "type": "string", "pattern": "^\\s*[0-9]*\\.?[0-9]*\\s*%\\s*$" });
    let shares = ["overhead", "profit", "fees", "tax"].map(|name| (name, share()));
    let by_name = |fields| json!({ "type": "object", "additionalProperties": object_schema(&[fields], &[]) });
    let names = "^\\s*((tape|ribbon)( .+)?|glue|thread|corners|cover)\\s*$";
    let mut supplies = by_name(SUPPLY_FIELDS);
    supplies["propertyNames"] = json!({ "pattern": names });
    [
        (PACKS.name(), by_name(PACK_FIELDS)),
        (SUPPLIES.name(), supplies),
        (SELLING.name(), object_schema(&[SELLING_FIELDS], &shares)),
    ]
}
