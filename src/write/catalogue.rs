// SPDX-License-Identifier: MIT
//! The catalogue: every kind with its parameters, and the sheet sizes, as text and as JSON.

use crate::album::{Kind, PAGE_FIELDS, PANEL_FIELDS, TOP_FIELDS};
use crate::fields::{Fallback, Field, Takes};
use crate::length::{Length, Ruler, Units};
use crate::paper;
use crate::stock::STOCK_FIELDS;
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::fmt::Write;

/// What the catalogue's JSON says of itself, and the file that it is where plates are written.
pub(super) const FORMAT: &str = "hingeleaf-catalogue/1";
pub(super) const FILE: &str = "catalogue.json";

/// The catalogue for people.
#[must_use]
pub fn catalogue(kinds: &[&'static Kind]) -> String {
    let mut out = String::new();
    for (title, fields) in [
        ("The album file", TOP_FIELDS),
        ("page", PAGE_FIELDS),
        ("panels", PANEL_FIELDS),
        ("each of stocks", STOCK_FIELDS),
    ] {
        let _ = writeln!(out, "{title}");
        table(&mut out, fields.iter());
        out.push('\n');
    }
    for kind in kinds {
        let _ = writeln!(out, "{} ({})\n    {}", kind.name, kind.role.word(), kind.about);
        table(&mut out, kind.fields.iter().chain(&kind.common()[1..]));
        out.push('\n');
    }
    out.push_str("Sheets\n");
    for sheet in paper::named_sheets() {
        let (mm, inches) =
            (|side: Length| side.plain(Units::Mm), |side: Length| side.show(Units::In, Ruler::SixtyFourth));
        let _ = writeln!(out, "      {:<8} {} x {} mm", sheet.name, mm(sheet.width), mm(sheet.height));
        if matches!(sheet.name, "letter" | "legal" | "tabloid") {
            let _ = writeln!(out, "      {:<8} {} x {}", "", inches(sheet.width), inches(sheet.height));
        }
    }
    out.push_str("      or any size: \"12x12in\", \"300x200mm\"\n");
    out
}

fn table<'a>(out: &mut String, fields: impl Iterator<Item = &'a Field>) {
    for field in fields {
        let _ = writeln!(out, "      {:<13} {}\n{:20}{}", field.name, field.about, "", words(field));
    }
}

/// The catalogue for programs: every part an object with its `kind`.
#[must_use]
pub fn catalogue_json(kinds: &[&'static Kind]) -> String {
    json(&value(kinds))
}

/// The same beside its plates, with the files that it lies with and their digests.
pub(super) fn listed(kinds: &[&'static Kind], files: &BTreeMap<String, String>) -> String {
    let mut value = value(kinds);
    value["files"] = files.iter().map(|(name, sha256)| json!({ "name": name, "sha256": sha256 })).collect();
    json(&value)
}

fn json(value: &Value) -> String {
    let mut text = serde_json::to_string_pretty(value).unwrap_or_default();
    text.push('\n');
    text
}

fn value(kinds: &[&'static Kind]) -> Value {
    let parts: Vec<Value> = kinds
        .iter()
        .map(|kind| {
            let fields: Vec<Value> = kind.fields.iter().chain(&kind.common()[1..]).map(field).collect();
            json!({ "kind": kind.name, "role": kind.role.word(), "about": kind.about, "fields": fields })
        })
        .collect();
    let sheets: Vec<Value> = paper::named_sheets()
        .iter()
        .map(|sheet| json!({ "name": sheet.name, "width_mm": sheet.width.mm(), "height_mm": sheet.height.mm(), "source": sheet.source }))
        .collect();
    json!({ "format": FORMAT, "parts": parts, "sheets": sheets })
}

/// What a field takes and what holds without it: `0 to 2000 mm, 6 mm or 1/4 in if left out`.
pub(super) fn words(field: &Field) -> String {
    let takes = match field.takes {
        Takes::Length { least, most } => {
            format!("{} to {} mm", Length::from_mm(least).plain(Units::Mm), Length::from_mm(most).plain(Units::Mm))
        }
        Takes::Caliper => "a thickness".into(),
        Takes::Count { least, most } => format!("{least} to {most}"),
        Takes::CountOr { least, most, word } => format!("{least} to {most}, or {word}"),
        Takes::Amount => "a number".into(),
        Takes::Text => "a text".into(),
        Takes::Choice(words) => words.join(" or "),
        Takes::Flag => "true or false".into(),
        Takes::Counts => "a list of numbers".into(),
        Takes::Texts(form) | Takes::AmountOrText(form) | Takes::Nested(form) => form.into(),
    };
    let (mm, inch) = (
        |value| Length::from_mm(value).show(Units::Mm, Ruler::SixtyFourth),
        |value| Length::from_inches(value).show(Units::In, Ruler::SixtyFourth),
    );
    let without = match field.fallback {
        Fallback::Needed => "must be given".into(),
        Fallback::Length { mm: 0.0, .. } => "0 if left out".into(),
        Fallback::Length { mm: metric, inch: inches } => format!("{} or {} if left out", mm(metric), inch(inches)),
        Fallback::Count(count) => format!("{count} if left out"),
        Fallback::Choice(word) => format!("{word} if left out"),
        Fallback::Flag(flag) => format!("{flag} if left out"),
        Fallback::Rule(rule) => format!("if left out: {rule}"),
    };
    format!("{takes}; {without}")
}

fn field(field: &Field) -> Value {
    let mut object =
        json!({ "name": field.name, "about": field.about, "needed": matches!(field.fallback, Fallback::Needed) });
    let mut set = |name: &str, value: Value| object[name] = value;
    match field.takes {
        Takes::Length { least, most } => {
            set("takes", "length".into());
            set("least_mm", json!(least));
            set("most_mm", json!(most));
        }
        Takes::Count { least, most } => {
            set("takes", "whole number".into());
            set("least", json!(least));
            set("most", json!(most));
        }
        Takes::CountOr { least, most, word } => {
            set("takes", "whole number or word".into());
            set("least", json!(least));
            set("most", json!(most));
            set("words", json!([word]));
        }
        Takes::Choice(words) => {
            set("takes", "word".into());
            set("words", json!(words));
        }
        Takes::Caliper => set("takes", "caliper".into()),
        Takes::Amount => set("takes", "number".into()),
        Takes::Text => set("takes", "text".into()),
        Takes::Flag => set("takes", "true or false".into()),
        Takes::Counts => set("takes", "list of whole numbers".into()),
        Takes::Texts(form) | Takes::AmountOrText(form) | Takes::Nested(form) => set("takes", form.into()),
    }
    match field.fallback {
        Fallback::Needed => {}
        Fallback::Length { mm, inch } => {
            set("default_mm", json!(mm));
            set("default_in", json!(inch));
        }
        Fallback::Count(count) => set("default", json!(count)),
        Fallback::Choice(word) => set("default", json!(word)),
        Fallback::Flag(flag) => set("default", json!(flag)),
        Fallback::Rule(rule) => set("otherwise", json!(rule)),
    }
    object
}
