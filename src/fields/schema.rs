// SPDX-License-Identifier: MIT
//! JSON Schema (draft 2020-12) from the same tables of fields that files are read with.

use super::field::{Fallback, Field, Takes};
use serde_json::{Map, Value, json};

/// The schema of a whole file; `nested` holds the schemas of fields that have readers of their own.
#[must_use]
pub fn file_schema(title: &str, format: &str, fields: &[Field], nested: &[(&str, Value)]) -> Value {
    let mut schema = object_schema(&[fields], nested);
    schema["$schema"] = "https://json-schema.org/draft/2020-12/schema".into();
    schema["title"] = title.into();
    schema["properties"]["$schema"] = json!({ "type": "string" });
    schema["properties"]["format"] = json!({ "const": format });
    schema
}

/// The schema of an object with these fields.
#[must_use]
pub fn object_schema(tables: &[&[Field]], nested: &[(&str, Value)]) -> Value {
    let mut properties = Map::new();
    let mut required = Vec::new();
    for field in tables.iter().flat_map(|table| table.iter()) {
        let known = nested.iter().find(|(name, _)| *name == field.name);
        let mut schema = known.map_or_else(|| takes(field.takes), |(_, schema)| schema.clone());
        if let Value::Object(schema) = &mut schema {
            schema.insert("description".into(), described(field).into());
        }
        properties.insert(field.name.into(), schema);
        if matches!(field.fallback, Fallback::Needed) {
            required.push(field.name);
        }
    }
    let mut object = json!({ "type": "object", "additionalProperties": false, "properties": properties });
    if !required.is_empty() {
        object["required"] = json!(required);
    }
    object
}

fn described(field: &Field) -> String {
    let without = match field.fallback {
        Fallback::Needed => return field.about.into(),
        Fallback::Length { mm: 0.0, .. } => "0".into(),
        Fallback::Length { mm, inch } => format!("{mm} mm, in inch files {inch} in"),
        Fallback::Count(count) => count.to_string(),
        Fallback::Choice(word) => word.into(),
        Fallback::Flag(flag) => flag.to_string(),
        Fallback::Rule(rule) => rule.into(),
    };
    format!("{}; if left out: {without}", field.about)
}

fn takes(takes: Takes) -> Value {
    match takes {
        // A bare number is in the file's units, so the range can only be said of its sign.
        Takes::Length { .. } | Takes::Caliper => {
            json!({ "anyOf": [{ "type": "number", "minimum": 0 }, { "type": "string", "minLength": 1 }] })
        }
        Takes::Count { least, most } => json!({ "type": "integer", "minimum": least, "maximum": most }),
        Takes::CountOr { least, most, word } => {
            json!({ "anyOf": [{ "type": "integer", "minimum": least, "maximum": most }, { "const": word }] })
        }
        Takes::Amount => json!({ "type": "number", "minimum": 0 }),
        Takes::Text => json!({ "type": "string", "maxLength": 2000 }),
        Takes::Choice(words) => json!({ "enum": words }),
        Takes::Flag => json!({ "type": "boolean" }),
        Takes::Counts => json!({ "type": "array", "items": { "type": "integer", "minimum": 1 } }),
        Takes::Texts(_) => {
            let text = json!({ "type": "string" });
            json!({ "anyOf": [text, { "type": "array", "minItems": 1, "items": text }] })
        }
        Takes::AmountOrText(_) => json!({ "anyOf": [{ "type": "number", "minimum": 0 }, { "type": "string" }] }),
        Takes::Nested(_) => json!({}),
    }
}
