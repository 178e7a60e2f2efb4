// SPDX-License-Identifier: MIT
//! Reads objects against their fields and collects every problem on the way.

use super::field::{Fallback, Field, Takes, nearest};
use super::source::Source;
use super::steers::steers;
use super::tree::{Node, Tree};
use super::value::Value;
use super::values::Values;
use crate::finding::{Finding, Place, Said};
use crate::length::{Allow, Length, LengthError, Units, excerpt};
use std::ops::Range;

/// Prices and weights beyond this are slips of the pen, and sums of them must stay numbers: our choice.
const MOST_AMOUNT: f64 = 1e6;

/// Most values of one list that are looked at; more are a mistake, not an album.
const LONGEST_LIST: usize = 2000;

/// Reads one file.
#[derive(Debug)]
pub struct Reader<'s> {
    source: &'s Source,
    /// The file's units, once they are known.
    pub units: Units,
    /// Every problem met so far.
    pub findings: Vec<Finding>,
}

impl<'s> Reader<'s> {
    /// Starts on a file, in mm until [`Reader::units`] says otherwise.
    #[must_use]
    pub const fn new(source: &'s Source) -> Self {
        Self { source, units: Units::Mm, findings: Vec::new() }
    }

    /// The place of a value.
    #[must_use]
    pub fn place(&self, range: &Range<usize>, path: &str) -> Place {
        self.source.place(range, path)
    }

    /// Reports a problem with a value.
    pub fn problem(&mut self, id: &'static str, text: impl Into<Said>, help: impl Into<Said>, place: &Place) {
        self.findings.push(Finding::stop(id, "", text).help(help).at(Some(place)));
    }

    /// Reads the file's top object: checks `format`, and takes up `units` before any other field is read.
    pub fn top(&mut self, fields: &[Field], format: &'static str) -> Option<Values> {
        let node = match Node::read(self.source) {
            Ok(node) => node,
            Err(finding) => {
                self.findings.push(*finding);
                return None;
            }
        };
        if let Some(Node { tree: Tree::Text(units), .. }) = node.get("units")
            && let Some(known) = Units::parse(units)
        {
            self.units = known;
        }
        if let Some(said) = node.get("format") {
            let right = matches!(&said.tree, Tree::Text(text) if text == format);
            if !right {
                let found = match &said.tree {
                    Tree::Text(text) => format!("\"{}\"", excerpt(text)),
                    other => other.what().to_owned(),
                };
                let place = self.place(&said.range, "format");
                self.problem(
                    "wrong-format",
                    format!("the format is {found}, and this must be a file of format \"{format}\""),
                    format!("write \"format\": \"{format}\" if it is one"),
                    &place,
                );
                // What else is wrong with it is of no account when it is another kind of file.
                return None;
            }
        }
        self.object(&node, "", "the file", &[fields])
    }

    /// Reads an object; nothing where the value isn't one.
    pub fn object(&mut self, node: &Node, path: &str, what: &str, tables: &[&[Field]]) -> Option<Values> {
        let whole = self.place(&node.range, path);
        let Tree::Object(entries) = &node.tree else {
            self.problem(
                "wrong-type",
                format!("{what} must be an object {{ … }}, not {}", node.tree.what()),
                "write { \"name\": value, … }; `hingeleaf new FILE` writes a file to look at",
                &whole,
            );
            return None;
        };
        let known = || tables.iter().flat_map(|table| table.iter());
        let mut values = Values::new(whole, known());
        let mut seen: Vec<&str> = Vec::new();
        // Fields that a misspelt name was meant for are not reported as missing as well.
        let mut meant: Vec<&str> = Vec::new();
        for (name, range, value) in entries {
            let at = join(path, name);
            if seen.contains(&name.as_str()) {
                let place = self.place(range, &at);
                self.problem(
                    "twice",
                    format!("\"{}\" stands here twice", excerpt(name)),
                    "take one of the two away",
                    &place,
                );
                continue;
            }
            seen.push(name);
            if name == "$schema" && path.is_empty() {
                continue;
            }
            let Some(field) = known().find(|field| field.name == name) else {
                let place = self.place(range, &at);
                let help = unknown_help(name, known().map(|field| field.name));
                meant.extend(nearest(name, known().map(|field| field.name)));
                self.problem("unknown-field", format!("{what} has no field \"{}\"", excerpt(name)), help, &place);
                continue;
            };
            if let Some(read) = self.value(value, &at, field) {
                let place = self.place(&value.range, &at);
                values.put(field.name, read, Some(place));
            }
        }
        for field in known() {
            if seen.contains(&field.name) || meant.contains(&field.name) {
                continue;
            }
            match field.fallback {
                Fallback::Needed => {
                    let help = format!("add \"{}\": {}", field.name, wanted(field.takes));
                    // The end of the object is where the maker will add it.
                    let place = self.place(&(node.range.start..node.range.start + 1), &join(path, field.name));
                    self.problem("missing", format!("{what} needs \"{}\": {}", field.name, field.about), help, &place);
                }
                Fallback::Length { .. } => {
                    if let Some(length) = field.fallback.length(self.units) {
                        values.put(field.name, Value::Length(length), None);
                    }
                }
                Fallback::Count(count) => values.put(field.name, Value::Count(count), None),
                Fallback::Choice(word) => values.put(field.name, Value::Choice(word), None),
                Fallback::Flag(flag) => values.put(field.name, Value::Flag(flag), None),
                Fallback::Rule(_) => {}
            }
        }
        Some(values)
    }

    /// Reads a list; empty where the value isn't one.
    pub fn list<'n>(&mut self, node: &'n Node, path: &str, what: &str) -> &'n [Node] {
        let place = self.place(&node.range, path);
        match &node.tree {
            Tree::Array(items) if items.len() > LONGEST_LIST => {
                self.problem(
                    "too-many",
                    format!("{what}: {} entries, and at most {LONGEST_LIST} make sense", items.len()),
                    "",
                    &place,
                );
                &[]
            }
            Tree::Array(items) => items,
            other => {
                self.problem(
                    "wrong-type",
                    format!("{what} must be a list [ … ], not {}", other.what()),
                    "put what there is between [ and ], with commas between",
                    &place,
                );
                &[]
            }
        }
    }

    fn value(&mut self, node: &Node, path: &str, field: &Field) -> Option<Value> {
        let place = self.place(&node.range, path);
        let name = field.name;
        match (field.takes, &node.tree) {
            (Takes::Nested(_), _) => Some(Value::Nested(node.clone())),
            (Takes::Length { least, most }, tree) => {
                self.length(tree, &place, name, Allow::Plain, least, most).map(Value::Length)
            }
            (Takes::Caliper, tree) => self.length(tree, &place, name, Allow::Caliper, 0.01, 20.0).map(Value::Length),
            (Takes::CountOr { word, .. }, Tree::Text(text)) if text.trim().parse::<f64>().is_err() => {
                if text == word {
                    return Some(Value::Choice(word));
                }
                let help = nearest(text, [word]).map_or_else(
                    || format!("write a whole number, or \"{word}\""),
                    |word| format!("did you mean \"{word}\"?"),
                );
                self.problem("unknown-word", format!("\"{name}\" can't be \"{}\"", excerpt(text)), help, &place);
                None
            }
            (Takes::Count { least, most } | Takes::CountOr { least, most, .. }, tree) => {
                self.count(tree, &place, name, least, most).map(Value::Count)
            }
            (Takes::Amount | Takes::AmountOrText(_), Tree::Number(number)) => {
                if *number < 0.0 {
                    self.problem(
                        "out-of-range",
                        format!("\"{name}\" is {number}, and can't be less than 0"),
                        "",
                        &place,
                    );
                    return None;
                }
                if *number > MOST_AMOUNT {
                    let text = format!("\"{name}\" is {number:e}, and can't be more than {MOST_AMOUNT}");
                    self.problem("out-of-range", text, "check the number", &place);
                    return None;
                }
                Some(Value::Amount(*number))
            }
            (Takes::Text | Takes::AmountOrText(_), Tree::Text(text)) => {
                if text.chars().count() > 2000 {
                    self.problem("too-long", format!("\"{name}\" has more than 2000 letters"), "shorten it", &place);
                    return None;
                }
                self.printable(name, text, &place).then(|| Value::Text(text.clone()))
            }
            (Takes::Choice(words), Tree::Text(text)) => {
                if let Some(&word) = words.iter().find(|&&word| word == text) {
                    return Some(Value::Choice(word));
                }
                let help = unknown_help(text, words.iter().copied());
                self.problem("unknown-word", format!("\"{name}\" can't be \"{}\"", excerpt(text)), help, &place);
                None
            }
            (Takes::Flag, Tree::Flag(flag)) => Some(Value::Flag(*flag)),
            (Takes::Counts, Tree::Array(_)) => {
                let before = self.findings.len();
                let counts = self
                    .list(node, path, name)
                    .iter()
                    .enumerate()
                    .filter_map(|(index, item)| {
                        let place = self.place(&item.range, &format!("{path}[{index}]"));
                        self.count(&item.tree, &place, name, 1, 100_000).map(|count| (count, place))
                    })
                    .collect();
                (self.findings.len() == before).then_some(Value::Counts(counts))
            }
            (Takes::Texts(_), Tree::Text(text)) => {
                self.printable(name, text, &place).then(|| Value::Texts(vec![(text.clone(), place)]))
            }
            (Takes::Texts(form), Tree::Array(items)) => {
                let mut texts = Vec::new();
                for (index, item) in items.iter().take(LONGEST_LIST).enumerate() {
                    let place = self.place(&item.range, &format!("{path}[{index}]"));
                    match &item.tree {
                        Tree::Text(text) if !self.printable(name, text, &place) => {}
                        Tree::Text(text) => texts.push((text.clone(), place)),
                        other => self.problem(
                            "wrong-type",
                            format!("\"{name}\" takes {form}, not {}", other.what()),
                            "",
                            &place,
                        ),
                    }
                }
                if items.is_empty() {
                    self.problem("empty", format!("\"{name}\" is an empty list"), format!("give {form}"), &place);
                }
                Some(Value::Texts(texts))
            }
            (takes, tree) => {
                self.problem(
                    "wrong-type",
                    format!("\"{name}\" takes {}, not {}", wanted(takes), tree.what()),
                    "",
                    &place,
                );
                None
            }
        }
    }

    /// Whether a text can be printed: whoever reads a list or a guide must see what the maker wrote, and a terminal must
    /// not be steered by it.
    fn printable(&mut self, name: &str, text: &str, place: &Place) -> bool {
        let odd = |c: &char| steers(*c) && !matches!(c, '\n' | '\r' | '\t');
        let Some(found) = text.chars().find(odd) else { return true };
        let text = format!("\"{name}\" has a character that can't be printed, U+{:04X}", u32::from(found));
        self.problem(
            "unprintable",
            text,
            "write it anew; copying from another program may bring such characters along",
            place,
        );
        false
    }

    fn length(
        &mut self,
        tree: &Tree,
        place: &Place,
        name: &str,
        allow: Allow,
        least: f64,
        most: f64,
    ) -> Option<Length> {
        let read: Result<Length, LengthError> = match tree {
            Tree::Number(number) => Length::from_number(*number, self.units),
            Tree::Text(text) => Length::parse(text, self.units, allow),
            other => {
                let help = "write a number, or a text with its unit: \"8 1/2 in\", \"216 mm\"";
                self.problem("wrong-type", format!("\"{name}\" takes a length, not {}", other.what()), help, place);
                return None;
            }
        };
        let length = match read {
            Ok(length) => length,
            Err(error) => {
                self.problem("bad-length", format!("\"{name}\": {}", error.what()), error.help(), place);
                return None;
            }
        };
        let ruler = crate::length::Ruler::SixtyFourth;
        if length.mm() < least || length.mm() > most {
            let found = length.show(self.units, ruler);
            let text = if length.mm() < 0.0 {
                format!("\"{name}\" is {found}, and a size can't be less than 0")
            } else {
                let (low, high) =
                    (Length::from_mm(least).show(Units::Mm, ruler), Length::from_mm(most).show(Units::Mm, ruler));
                format!("\"{name}\" is {found}, and must lie between {low} and {high}")
            };
            self.problem("out-of-range", text, "check the number and its unit", place);
            return None;
        }
        Some(length)
    }

    fn count(&mut self, tree: &Tree, place: &Place, name: &str, least: u32, most: u32) -> Option<u32> {
        let Tree::Number(number) = tree else {
            let help = match tree {
                Tree::Text(text) if text.trim().parse::<u32>().is_ok() => {
                    format!("write {} without quotes", text.trim())
                }
                _ => format!("write a whole number, {}", least.max(1)),
            };
            self.problem("wrong-type", format!("\"{name}\" takes a whole number, not {}", tree.what()), help, place);
            return None;
        };
        if number.fract() != 0.0 || *number < f64::from(least) || *number > f64::from(most) {
            self.problem(
                "out-of-range",
                format!("\"{name}\" is {number}, and must be a whole number from {least} to {most}"),
                "",
                place,
            );
            return None;
        }
        #[allow(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "whole and within u32, as just checked"
        )]
        Some(*number as u32)
    }
}

fn wanted(takes: Takes) -> String {
    match takes {
        Takes::Length { .. } | Takes::Caliper => "a length, 140 or \"5 1/2 in\"".into(),
        Takes::Count { .. } => "a whole number".into(),
        Takes::CountOr { word, .. } => format!("a whole number or \"{word}\""),
        Takes::Amount => "a number".into(),
        Takes::Text => "a text in double quotes".into(),
        Takes::Choice(words) => one_of(words.iter().copied()),
        Takes::Flag => "true or false".into(),
        Takes::Counts => "a list of whole numbers, [1, 4]".into(),
        Takes::Texts(form) | Takes::AmountOrText(form) | Takes::Nested(form) => form.into(),
    }
}

/// "Did you mean", or where nothing is near, what there is.
pub(super) fn unknown_help<'a>(word: &str, known: impl Iterator<Item = &'a str> + Clone) -> String {
    nearest(word, known.clone()).map_or_else(
        || format!("allowed: {}", known.collect::<Vec<_>>().join(", ")),
        |name| format!("did you mean \"{name}\"?"),
    )
}

fn one_of<'a>(words: impl Iterator<Item = &'a str>) -> String {
    words.map(|word| format!("\"{word}\"")).collect::<Vec<_>>().join(" or ")
}

fn join(path: &str, name: &str) -> String {
    let name = excerpt(name);
    if path.is_empty() { name } else { format!("{path}.{name}") }
}
