// SPDX-License-Identifier: MIT
//! How a batch or a class begins: from an album on the table.

use super::beside::read;
use crate::album::Album;
use crate::batch;
use crate::fields::Source;
use crate::table::on_table::TableFile;
use serde_json::{Value, json};

/// A class begins with so many makers: our choice.
const MAKERS: u32 = 4;

/// A batch of one kit, the album as it is, or a class of one group that makes it; none where it can't be read.
pub(in crate::table) fn start(source: &Source, beside: &[TableFile], class: bool) -> Option<Value> {
    let album = read(source, beside)?;
    let kit = kit(&album, source.name());
    let stem = source.name().strip_suffix(".json").unwrap_or(source.name());
    let (title, units) = (json!(album.title), json!(album.units.name()));
    let of = if class {
        format!(
            "\"class\": {{\n    \"album\": {},\n    \"makers\": [\n      {{ \"name\": \"group\", \"count\": {MAKERS} }}\n    ]\n  }}",
            kit["album"]
        )
    } else {
        let (name, album, copies) = (&kit["name"], &kit["album"], &kit["copies"]);
        format!("\"kits\": [\n    {{ \"name\": {name}, \"album\": {album}, \"copies\": {copies} }}\n  ]")
    };
    let head = format!("\"format\": \"{}\",\n  \"title\": {title},\n  \"units\": {units}", batch::FORMAT);
    let what = if class { "class" } else { "batch" };
    Some(json!({ "name": format!("{stem}-{what}.json"), "text": format!("{{\n  {head},\n  {of}\n}}\n") }))
}

/// A kit that is the album as it is.
pub(super) fn kit(album: &Album, file: &str) -> Value {
    json!({ "name": name(&album.title), "album": file, "copies": album.copies })
}

/// A kit's name from an album's: `tide-table`.
fn name(title: &str) -> String {
    let letter = |c: char| if c.is_ascii_alphanumeric() { c.to_ascii_lowercase() } else { '-' };
    let slug: String = title.chars().map(letter).take(32).collect();
    let mut words = slug.split('-').filter(|word| !word.is_empty());
    let first = words.next().unwrap_or("kit").to_owned();
    words.fold(first, |name, word| name + "-" + word)
}
