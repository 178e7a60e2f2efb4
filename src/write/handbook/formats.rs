// SPDX-License-Identifier: MIT
//! The files' fields in words, from their schemas.

use super::book_words::BookWords;
use super::passage::Passage;
use maud::html;
use serde_json::Value;

/// Deeper fields are told where their kinds are.
const DEEPEST: usize = 3;

/// The fields of a format, one a row.
pub(super) fn format(said: BookWords<'_>, schema: &Value) -> Passage {
    let title = schema["title"].as_str().unwrap_or_default();
    let mut rows = Vec::new();
    fields(schema, "", 0, &mut rows);
    let table = html! {
        table class="fields" {
            thead { tr { @for key in ["page-book-field", "page-book-says"] { th scope="col" { (said.text(key)) } } } }
            tbody lang=[said.english] {
                @for (name, needed, about) in &rows {
                    tr {
                        td { @if *needed { strong { code { (name) } } } @else { code { (name) } } }
                        td { (about) }
                    }
                }
            }
        }
    };
    Passage::new(2, title, &table)
}

fn fields(schema: &Value, way: &str, depth: usize, rows: &mut Vec<(String, bool, String)>) {
    let empty = serde_json::Map::new();
    let needed = |name: &str| schema["required"].as_array().is_some_and(|all| all.iter().any(|one| one == name));
    for (name, field) in schema["properties"].as_object().unwrap_or(&empty) {
        if name == "$schema" {
            continue;
        }
        let path = if way.is_empty() { name.clone() } else { format!("{way}.{name}") };
        rows.push((path.clone(), needed(name), about(field)));
        if depth < DEEPEST {
            within(field, &path, depth + 1, rows);
        }
    }
}

/// The fields of what a field holds: an object, each of a list, each of a name.
fn within(field: &Value, path: &str, depth: usize, rows: &mut Vec<(String, bool, String)>) {
    let kinds = |one: &Value| one["properties"].get("kind").is_some();
    let choices = ["anyOf", "oneOf"].into_iter().filter_map(|name| field[name].as_array()).flatten();
    for one in std::iter::once(field).chain(choices) {
        if one["properties"].is_object() && !kinds(one) {
            fields(one, path, depth, rows);
        }
        if one["items"].is_object() {
            within(&one["items"], &format!("{path}[…]"), depth, rows);
        }
        if one["additionalProperties"].is_object() {
            within(&one["additionalProperties"], &format!("{path}.NAME"), depth, rows);
        }
    }
}

/// What a field means and takes.
fn about(field: &Value) -> String {
    let mut parts = Vec::new();
    parts.extend(field["description"].as_str().map(str::to_owned));
    if let Some(only) = field["const"].as_str() {
        parts.push(format!("always \"{only}\""));
    }
    let choices = ["anyOf", "oneOf"].into_iter().filter_map(|name| field[name].as_array()).flatten();
    for one in std::iter::once(field).chain(choices) {
        if let Some(words) = one["enum"].as_array() {
            let words: Vec<&str> = words.iter().filter_map(Value::as_str).collect();
            parts.push(format!("one of {}", words.join(", ")));
        }
        if let (Some(least), Some(most)) = (one["minimum"].as_f64(), one["maximum"].as_f64()) {
            parts.push(format!("from {least} to {most}"));
        }
    }
    parts.dedup();
    parts.join("; ")
}
