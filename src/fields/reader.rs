// SPDX-License-Identifier: MIT
//! Reads objects against their fields and collects every problem on the way.

use super::field::{Fallback, Field, Takes, nearest};
use super::source::Source;
use super::steers::steers;
use super::tree::{Node, Tree};
use super::value::Value;
use super::values::Values;
use crate::finding::{Arg, Finding, Place, Said};
use crate::length::{Allow, Length, LengthError, Units, excerpt};
use std::ops::Range;

/// Prices and weights beyond this are slips of the pen, and sums of them must stay numbers: our choice.
const MOST_AMOUNT: f64 = 1e6;

/// Most values of one list that are looked at; more are a mistake, not an album.
const LONGEST_LIST: usize = 2000;

/// Most letters of a text.
const LONGEST_TEXT: usize = 2000;

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
    pub fn problem(&mut self, id: &'static str, text: Said, help: Said, place: &Place) {
        self.findings.push(Finding::stop(id, Said::NOTHING, text).help(help).at(Some(place)));
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
                    Tree::Text(text) => Arg::quoted(excerpt(text)),
                    other => other.what().into(),
                };
                let place = self.place(&said.range, "format");
                let text = Said::new("wrong-format").with("found", found).with("format", Arg::quoted(format));
                let help = Said::new("wrong-format-help").with("format", Arg::code(format));
                self.problem("wrong-format", text, help, &place);
                // What else is wrong with it is of no account when it is another kind of file.
                return None;
            }
        }
        self.object(&node, "", Said::new("the-file"), &[fields])
    }

    /// Reads an object; nothing where the value isn't one.
    pub fn object(&mut self, node: &Node, path: &str, what: impl Into<Arg>, tables: &[&[Field]]) -> Option<Values> {
        let what = what.into();
        let whole = self.place(&node.range, path);
        let Tree::Object(entries) = &node.tree else {
            let text = Said::new("wrong-type-object").with("what", what).with("found", node.tree.what());
            self.problem("wrong-type", text, Said::new("wrong-type-object-help"), &whole);
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
                let text = Said::new("twice").with("name", Arg::quoted(excerpt(name)));
                self.problem("twice", text, Said::new("twice-help"), &place);
                continue;
            }
            seen.push(name);
            if name == "$schema" && path.is_empty() {
                continue;
            }
            let Some(field) = known().find(|field| field.name == name) else {
                let place = self.place(range, &at);
                let help = meant_or("allowed", name, known().map(|field| field.name));
                meant.extend(nearest(name, known().map(|field| field.name)));
                let text = Said::new("unknown-field").with("what", what.clone());
                self.problem("unknown-field", text.with("name", Arg::quoted(excerpt(name))), help, &place);
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
                    let name = Arg::field(field.name);
                    let help = Said::new("missing-help").with("field", name.clone()).with("form", wanted(field.takes));
                    let text = Said::new("missing").with("what", what.clone()).with("field", name);
                    // The end of the object is where the maker will add it.
                    let place = self.place(&(node.range.start..node.range.start + 1), &join(path, field.name));
                    self.problem("missing", text.with("about", Arg::term(field.about)), help, &place);
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
    pub fn list<'n>(&mut self, node: &'n Node, path: &str, name: &str) -> &'n [Node] {
        let place = self.place(&node.range, path);
        match &node.tree {
            Tree::Array(items) if items.len() > LONGEST_LIST => {
                let text = Said::new("too-many-entries").with("field", Arg::field(name)).with("count", items.len());
                self.problem("too-many", text.with("most", LONGEST_LIST), Said::NOTHING, &place);
                &[]
            }
            Tree::Array(items) => items,
            other => {
                let text = Said::new("wrong-type-list").with("field", Arg::field(name)).with("found", other.what());
                self.problem("wrong-type", text, Said::new("wrong-type-list-help"), &place);
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
                let near = nearest(text, [word]).map(meant);
                let help =
                    near.unwrap_or_else(|| Said::new("unknown-word-or-count-help").with("word", Arg::quoted(word)));
                self.problem("unknown-word", unknown_word(name, text), help, &place);
                None
            }
            (Takes::Count { least, most } | Takes::CountOr { least, most, .. }, tree) => {
                self.count(tree, &place, name, least, most).map(Value::Count)
            }
            (Takes::Amount | Takes::AmountOrText(_), Tree::Number(number)) => self.amount(*number, &place, name),
            (Takes::Text | Takes::AmountOrText(_), Tree::Text(text)) => self.text(text, &place, name),
            (Takes::Choice(words), Tree::Text(_)) => self.choice(node, path, name, words).map(Value::Choice),
            (Takes::Flag, Tree::Flag(flag)) => Some(Value::Flag(*flag)),
            (Takes::Counts, Tree::Array(_)) => self.counts(node, path, name),
            (Takes::Texts(_), Tree::Text(text)) => {
                self.printable(name, text, &place).then(|| Value::Texts(vec![(text.clone(), place)]))
            }
            (Takes::Texts(form), Tree::Array(items)) => Some(self.texts(items, form, path, (&place, name))),
            (takes, tree) => {
                self.wrong_type(name, wanted(takes), tree, Said::NOTHING, &place);
                None
            }
        }
    }

    /// Reads a word out of a list; nothing where it is none of them.
    pub fn choice(
        &mut self,
        node: &Node,
        path: &str,
        name: &str,
        words: &'static [&'static str],
    ) -> Option<&'static str> {
        let place = self.place(&node.range, path);
        let Tree::Text(text) = &node.tree else {
            self.wrong_type(name, wanted(Takes::Choice(words)), &node.tree, Said::NOTHING, &place);
            return None;
        };
        let found = words.iter().find(|&&word| word == text);
        if found.is_none() {
            let help = meant_or("allowed", text, words.iter().copied());
            self.problem("unknown-word", unknown_word(name, text), help, &place);
        }
        found.copied()
    }

    fn amount(&mut self, number: f64, place: &Place, name: &str) -> Option<Value> {
        if number < 0.0 {
            let text = is("amount-below-zero", name, number.to_string());
            self.problem("out-of-range", text, Said::NOTHING, place);
            return None;
        }
        if number > MOST_AMOUNT {
            let text = is("amount-too-large", name, format!("{number:e}"));
            let text = text.with("most", Arg::Number(MOST_AMOUNT, 0));
            self.problem("out-of-range", text, Said::new("amount-too-large-help"), place);
            return None;
        }
        Some(Value::Amount(number))
    }

    fn text(&mut self, text: &str, place: &Place, name: &str) -> Option<Value> {
        if text.chars().count() > LONGEST_TEXT {
            let text = Said::new("too-long").with("field", Arg::field(name)).with("most", LONGEST_TEXT);
            self.problem("too-long", text, Said::new("too-long-help"), place);
            return None;
        }
        self.printable(name, text, place).then(|| Value::Text(text.to_owned()))
    }

    fn counts(&mut self, node: &Node, path: &str, name: &str) -> Option<Value> {
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

    fn texts(&mut self, items: &[Node], form: &'static str, path: &str, (whole, name): (&Place, &str)) -> Value {
        let mut texts = Vec::new();
        for (index, item) in items.iter().take(LONGEST_LIST).enumerate() {
            let place = self.place(&item.range, &format!("{path}[{index}]"));
            match &item.tree {
                Tree::Text(text) if !self.printable(name, text, &place) => {}
                Tree::Text(text) => texts.push((text.clone(), place)),
                other => self.wrong_type(name, Arg::term(form), other, Said::NOTHING, &place),
            }
        }
        if items.is_empty() {
            self.empty(name, form, whole);
        }
        Value::Texts(texts)
    }

    /// Reports a value that its field does not take.
    pub fn wrong_type(&mut self, name: &str, form: impl Into<Arg>, found: &Tree, help: Said, place: &Place) {
        let text = Said::new("wrong-type").with("field", Arg::field(name)).with("form", form);
        self.problem("wrong-type", text.with("found", found.what()), help, place);
    }

    /// Reports a list without an entry.
    pub fn empty(&mut self, name: &str, form: &'static str, place: &Place) {
        let text = Said::new("empty").with("field", Arg::field(name));
        self.problem("empty", text, Said::new("empty-help").with("form", Arg::term(form)), place);
    }

    /// Whether a text can be printed: whoever reads a list or a guide must see what the maker wrote, and a terminal must
    /// not be steered by it.
    fn printable(&mut self, name: &str, text: &str, place: &Place) -> bool {
        let odd = |c: &char| steers(*c) && !matches!(c, '\n' | '\r' | '\t');
        let Some(found) = text.chars().find(odd) else { return true };
        let code = Arg::code(format!("U+{:04X}", u32::from(found)));
        let text = Said::new("unprintable").with("field", Arg::field(name)).with("character", code);
        self.problem("unprintable", text, Said::new("unprintable-help"), place);
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
                let help = Said::new("wrong-type-length-help");
                self.wrong_type(name, Said::new("form-any-length"), other, help, place);
                return None;
            }
        };
        let length = match read {
            Ok(length) => length,
            Err(error) => {
                let text = Said::new("bad-length").with("field", Arg::field(name)).with("what", error.what());
                self.problem("bad-length", text, error.help(), place);
                return None;
            }
        };
        if length.mm() < least || length.mm() > most {
            let found = Arg::Length(length, self.units);
            let text = if length.mm() < 0.0 {
                is("size-below-zero", name, found)
            } else {
                let mm = |mm: f64| Arg::Length(Length::from_mm(mm), Units::Mm);
                is("out-of-range", name, found).with("least", mm(least)).with("most", mm(most))
            };
            self.problem("out-of-range", text, Said::new("out-of-range-help"), place);
            return None;
        }
        Some(length)
    }

    fn count(&mut self, tree: &Tree, place: &Place, name: &str, least: u32, most: u32) -> Option<u32> {
        let Tree::Number(number) = tree else {
            let help = match tree {
                Tree::Text(text) if text.trim().parse::<u32>().is_ok() => {
                    Said::new("count-without-quotes").with("number", text.trim())
                }
                _ => Said::new("wrong-type-count-help").with("number", least.max(1)),
            };
            self.wrong_type(name, Said::new("form-count"), tree, help, place);
            return None;
        };
        if number.fract() != 0.0 || *number < f64::from(least) || *number > f64::from(most) {
            let text = is("count-out-of-range", name, number.to_string()).with("least", least).with("most", most);
            self.problem("out-of-range", text, Said::NOTHING, place);
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

fn wanted(takes: Takes) -> Arg {
    match takes {
        Takes::Length { .. } | Takes::Caliper => Said::new("form-length").into(),
        Takes::Count { .. } => Said::new("form-count").into(),
        Takes::CountOr { word, .. } => Said::new("form-count-or").with("word", Arg::quoted(word)).into(),
        Takes::Amount => Said::new("form-amount").into(),
        Takes::Text => Said::new("form-text").into(),
        Takes::Choice(words) => Arg::Either(words.iter().copied().map(Arg::quoted).collect()),
        Takes::Flag => Said::new("form-flag").into(),
        Takes::Counts => Said::new("form-counts").into(),
        Takes::Texts(form) | Takes::AmountOrText(form) | Takes::Nested(form) => Arg::term(form),
    }
}

/// What a field is, and what is to be said of that.
fn is(key: &'static str, name: &str, found: impl Into<Arg>) -> Said {
    Said::new(key).with("field", Arg::field(name)).with("found", found)
}

fn unknown_word(name: &str, word: &str) -> Said {
    Said::new("unknown-word").with("field", Arg::field(name)).with("word", Arg::quoted(excerpt(word)))
}

/// What a misspelt name was meant to be.
fn meant(name: &str) -> Said {
    Said::new("did-you-mean").with("name", Arg::quoted(name))
}

/// What a misspelt name was meant to be; where nothing is near, the sentence of this key with all the names that there are.
pub fn meant_or<'a>(key: &'static str, name: &str, known: impl Iterator<Item = &'a str> + Clone) -> Said {
    let near = nearest(name, known.clone()).map(meant);
    near.unwrap_or_else(|| Said::new(key).with("names", Arg::Row(known.map(Arg::code).collect())))
}

fn join(path: &str, name: &str) -> String {
    let name = excerpt(name);
    if path.is_empty() { name } else { format!("{path}.{name}") }
}
