// SPDX-License-Identifier: MIT
//! An object of the album file as rows of a form: each field with its name, what it holds and what it takes.

use super::words;
use crate::album::Album;
use crate::fields::{Fallback, Field, Node, Takes, Tree, Value as Held, Values};
use crate::length::tolerance::READ;
use crate::length::{Allow, Length, Ruler, Units};
use crate::stock::{self, Stock};
use serde_json::{Value, json};

/// The file that a form changes: its values, its unit, the stocks that its fields may name.
#[derive(Clone, Copy, Debug)]
pub(super) struct FormFile<'a> {
    pub root: &'a Node,
    pub units: Units,
    pub stocks: &'a [Stock],
}

impl<'a> FormFile<'a> {
    pub(super) fn of(album: &'a Album, root: &'a Node) -> Self {
        Self { root, units: album.units, stocks: &album.stocks }
    }
}

/// The rows of an object that stands at `way`, where it is in the file at all; `held` says what holds for a field.
pub(super) fn rows<'f>(
    file: &FormFile<'_>,
    way: &str,
    fields: impl IntoIterator<Item = &'f Field>,
    held: &dyn Fn(&Field) -> Option<String>,
) -> Vec<Value> {
    fields.into_iter().filter_map(|field| row(file, way, field, held(field))).collect()
}

/// What an object's values hold for a field, in words.
pub(super) fn held(values: &Values, units: Units, field: &Field) -> Option<String> {
    Some(match values.value(field.name)? {
        Held::Length(length) => length.show(units, Ruler::SixtyFourth),
        Held::Count(count) => count.to_string(),
        Held::Amount(amount) => amount.to_string(),
        Held::Text(text) => words::choice(text),
        Held::Choice(word) => words::choice(word),
        Held::Flag(flag) => yes(*flag).into(),
        _ => return None,
    })
}

const fn yes(flag: bool) -> &'static str {
    if flag { "yes" } else { "no" }
}

/// One field's row; none where an object of its own describes it.
pub(super) fn row(file: &FormFile<'_>, way: &str, field: &Field, held: Option<String>) -> Option<Value> {
    let FormFile { root, units, stocks } = *file;
    let path = if way.is_empty() { field.name.to_owned() } else { format!("{way}.{}", field.name) };
    let node = root.at(&path);
    let (value, exact) = node.map_or((String::new(), None), |node| shown(field, node, units));
    let usual = held.filter(|_| node.is_none()).unwrap_or_else(|| fallback(field, units));
    let mut row = json!({
        "path": path,
        "label": words::label_in(way, field.name),
        "about": field.about,
        "value": value,
        "given": node.is_some(),
        "needed": matches!(field.fallback, Fallback::Needed),
        "usual": usual,
    });
    let mut set = |name: &str, value: Value| row[name] = value;
    if let Some(exact) = exact {
        set("exact", exact.into());
    }
    let choices = |words: &mut dyn Iterator<Item = (String, String)>| -> Value {
        words.map(|(value, label)| json!({ "value": value, "label": label })).collect()
    };
    match field.takes {
        Takes::Length { least, most } => {
            set("takes", "length".into());
            set("units", units.name().into());
            let show = |mm: f64| Length::from_mm(mm).show(units, Ruler::Sixteenth);
            let plain = |text: String| text.split(" (").next().unwrap_or_default().to_owned();
            set("range", format!("{} to {}", plain(show(least)), plain(show(most))).into());
        }
        Takes::Caliper => {
            set("takes", "length".into());
            set("units", units.name().into());
        }
        Takes::Count { least, most } => {
            set("takes", "number".into());
            set("range", format!("{least} to {most}").into());
        }
        Takes::CountOr { least, most, word } => {
            set("takes", "text".into());
            set("range", format!("{least} to {most}, or {word}").into());
        }
        Takes::Amount => set("takes", "number".into()),
        Takes::Choice(known) => {
            set("takes", "choice".into());
            let mut known = known.iter().map(|word| ((*word).to_owned(), words::choice(word)));
            set("choices", choices(&mut known));
        }
        Takes::Flag => {
            set("takes", "choice".into());
            let mut known = [("true", "yes"), ("false", "no")].map(|(a, b)| (a.to_owned(), b.to_owned())).into_iter();
            set("choices", choices(&mut known));
        }
        Takes::Text if is_stock(field.name) => {
            set("takes", "choice".into());
            let mut names = stock::names(stocks).map(|name| (name.to_owned(), name.to_owned()));
            set("choices", choices(&mut names));
        }
        Takes::Text if is_colour(field.name) => set("takes", "colour".into()),
        Takes::Nested(_) if field.name == "sheet" => set("takes", "sheet".into()),
        // What an object of its own describes has a form of its own.
        Takes::Nested(_) => return None,
        Takes::Counts | Takes::Text | Takes::Texts(_) | Takes::AmountOrText(_) => set("takes", "text".into()),
    }
    Some(row)
}

/// Fields that name a stock.
pub(super) fn is_stock(name: &str) -> bool {
    matches!(name, "stock" | "board" | "covering" | "endpaper" | "lining")
}

/// Fields that say a colour.
fn is_colour(name: &str) -> bool {
    name == "colour"
}

/// What a field is filled with, and what the file says where that is not the same length.
fn shown(field: &Field, node: &Node, units: Units) -> (String, Option<String>) {
    let number = |number: f64| number.to_string();
    if matches!(field.takes, Takes::Length { .. }) {
        let length = match &node.tree {
            Tree::Number(number) => Length::from_number(*number, units).ok(),
            Tree::Text(text) => Length::parse(text, units, Allow::Plain).ok(),
            _ => None,
        };
        if let Some(length) = length {
            let plain = length.plain(units);
            let back = Length::parse(&plain, units, Allow::Plain).ok();
            let exact = back.is_none_or(|back| (back - length).abs().mm() > READ);
            return (plain, exact.then(|| length.show(Units::Mm, Ruler::SixtyFourth)));
        }
    }
    let one = |node: &Node| match &node.tree {
        Tree::Number(value) => number(*value),
        Tree::Text(text) => text.clone(),
        Tree::Flag(flag) => flag.to_string(),
        Tree::Object(_) => match node.get("sheet").map(|sheet| &sheet.tree) {
            Some(Tree::Text(text)) => text.clone(),
            _ => String::new(),
        },
        Tree::Array(_) | Tree::Null => String::new(),
    };
    match &node.tree {
        Tree::Array(items) => (items.iter().map(one).collect::<Vec<_>>().join(", "), None),
        _ => (one(node), None),
    }
}

/// What holds where a field is left out, in words.
fn fallback(field: &Field, units: Units) -> String {
    match field.fallback {
        Fallback::Needed => String::new(),
        Fallback::Length { .. } => {
            field.fallback.length(units).map_or_else(String::new, |length| length.show(units, Ruler::SixtyFourth))
        }
        Fallback::Count(count) => count.to_string(),
        Fallback::Choice(word) => words::choice(word),
        Fallback::Flag(flag) => yes(flag).into(),
        Fallback::Rule(rule) => rule.into(),
    }
}
