// SPDX-License-Identifier: MIT
//! JSON text as a tree whose every value knows where it stands.

use super::Source;
use super::fault::{self, Fault};
use crate::finding::{Arg, Finding, Place, Said};
use jsonc_parser::ast;
use jsonc_parser::common::Ranged;
use std::ops::Range;

/// A value and the bytes it was written with.
#[derive(Clone, Debug)]
pub struct Node {
    /// Where it stands.
    pub range: Range<usize>,
    /// What it is.
    pub tree: Tree,
}

/// What a value is.
#[derive(Clone, Debug)]
pub enum Tree {
    /// `{ … }` as (name, where the name stands, value), in the file's order.
    Object(Vec<(String, Range<usize>, Node)>),
    /// `[ … ]`
    Array(Vec<Node>),
    /// `"…"`
    Text(String),
    /// A finite number.
    Number(f64),
    /// `true` or `false`
    Flag(bool),
    /// `null`
    Null,
}

impl Tree {
    /// What to call it in a message: `a number`.
    #[must_use]
    pub const fn what(&self) -> Said {
        Said::new(match self {
            Self::Object(_) => "found-object",
            Self::Array(_) => "found-list",
            Self::Text(_) => "found-text",
            Self::Number(_) => "found-number",
            Self::Flag(_) => "found-flag",
            Self::Null => "found-null",
        })
    }
}

impl Node {
    /// Reads the whole text.
    ///
    /// # Errors
    /// A finding with line and column where the text is not JSON.
    pub fn read(source: &Source) -> Result<Self, Box<Finding>> {
        // serde_json is the judge of what is JSON (it also refuses endless nesting, which the second
        // parser, that knows places, would not survive).
        if let Err(error) = serde_json::from_str::<serde_json::Value>(source.text()) {
            return Err(Box::new(not_json(source, &error)));
        }
        let options = jsonc_parser::ParseOptions {
            allow_comments: false,
            allow_loose_object_property_names: false,
            allow_trailing_commas: false,
            allow_missing_commas: false,
            allow_single_quoted_strings: false,
            allow_hexadecimal_numbers: false,
            allow_unary_plus_numbers: false,
        };
        let parsed = jsonc_parser::parse_to_ast(source.text(), &jsonc_parser::CollectOptions::default(), &options)
            .ok()
            .and_then(|result| result.value);
        let unread = || Box::new(refused(Said::new("not-json"), Said::NOTHING, &source.spot(1, 1)));
        parsed.map(|value| convert(&value)).ok_or_else(unread)
    }

    /// The same without its places.
    #[must_use]
    pub fn to_value(&self) -> serde_json::Value {
        match &self.tree {
            Tree::Object(fields) => fields.iter().map(|(name, _, node)| (name.clone(), node.to_value())).collect(),
            Tree::Array(items) => items.iter().map(Self::to_value).collect(),
            Tree::Text(text) => text.as_str().into(),
            Tree::Number(number) => (*number).into(),
            Tree::Flag(flag) => (*flag).into(),
            Tree::Null => serde_json::Value::Null,
        }
    }

    /// The value under `name`, the last one where it stands twice.
    #[must_use]
    pub fn get(&self, name: &str) -> Option<&Self> {
        match &self.tree {
            Tree::Object(fields) => fields.iter().rev().find(|(key, ..)| key == name).map(|(.., node)| node),
            _ => None,
        }
    }

    /// The value that a way leads to, written as [`Place::path`](crate::finding::Place) writes it; this one for an empty way.
    ///
    /// ```
    /// use hingeleaf::fields::{Node, Source, Tree};
    /// let source = Source::new("a.json", br#"{ "pages": [{ "kind": "pocket" }] }"#.to_vec()).unwrap();
    /// let root = Node::read(&source).unwrap();
    /// assert!(matches!(&root.at("pages[0].kind").unwrap().tree, Tree::Text(kind) if kind == "pocket"));
    /// ```
    #[must_use]
    pub fn at(&self, way: &str) -> Option<&Self> {
        if way.is_empty() {
            return Some(self);
        }
        way.split('.').try_fold(self, |node, step| {
            let (name, numbers) = step.split_once('[').map_or((step, ""), |(name, rest)| (name, rest));
            let node = node.get(name)?;
            if numbers.is_empty() {
                return Some(node);
            }
            let number: usize = numbers.strip_suffix(']')?.parse().ok()?;
            match &node.tree {
                Tree::Array(items) => items.get(number),
                _ => None,
            }
        })
    }
}

fn convert(value: &ast::Value<'_>) -> Node {
    let span = value.range();
    let tree = match value {
        ast::Value::StringLit(text) => Tree::Text(text.value.to_string()),
        // serde_json has seen the number before us and refused what is out of range.
        ast::Value::NumberLit(number) => Tree::Number(number.value.parse().unwrap_or(f64::MAX)),
        ast::Value::BooleanLit(flag) => Tree::Flag(flag.value),
        ast::Value::Object(object) => Tree::Object(
            object
                .properties
                .iter()
                .map(|property| {
                    let name = property.name.range();
                    (property.name.as_str().to_owned(), name.start..name.end, convert(&property.value))
                })
                .collect(),
        ),
        ast::Value::Array(array) => Tree::Array(array.elements.iter().map(convert).collect()),
        ast::Value::NullKeyword(_) => Tree::Null,
    };
    Node { range: span.start..span.end, tree }
}

/// Says in a crafter's words why a text is not JSON. `error` gives the place where our own look finds nothing.
fn not_json(source: &Source, error: &serde_json::Error) -> Finding {
    let Some((at, fault)) = fault::first(source.text()) else {
        return refused(Said::new("not-json"), Said::NOTHING, &source.spot(error.line(), error.column()));
    };
    let place = Place { width: 1, ..source.place(&(at..at), "") };
    if matches!(fault, Fault::NoComma | Fault::NoValue)
        && let Some(fraction) = bare_fraction(source.line(place.line), place.column)
    {
        let said = |key| Said::new(key).with("fraction", Arg::code(&fraction));
        return refused(said("not-json-bare-fraction"), said("not-json-bare-fraction-help"), &place);
    }
    if matches!(fault, Fault::BareName)
        && let Some((found, place)) = decimal_comma(source.line(place.line), &place)
    {
        let pointed = found.replace(',', ".");
        let text = Said::new("comma-in-number").with("found", Arg::code(found));
        return refused(text, Said::new("length-comma-help").with("pointed", Arg::code(pointed)), &place);
    }
    let [text, help] = fault.keys();
    refused(Said::new(text), Said::new(help), &place)
}

fn refused(text: Said, help: Said, place: &Place) -> Finding {
    Finding::stop("not-json", Said::NOTHING, text).help(help).at(Some(place))
}

/// The fraction written without quotes, `6 1/2` or `1/4`, that a column lies in or right behind.
fn bare_fraction(line: &str, column: usize) -> Option<String> {
    let letters: Vec<char> = line.chars().collect();
    let of_it = |at: usize| letters.get(at).is_some_and(|c| c.is_ascii_digit() || matches!(c, '/' | ' '));
    let at = column.checked_sub(1)?;
    let start = (0..=at).rev().take_while(|&at| of_it(at)).last()?;
    let end = (at..letters.len()).take_while(|&at| of_it(at)).last()?;
    let text: String = letters[start..=end].iter().collect();
    let text = text.trim();
    let (over, under) = text.split_once('/')?;
    (!over.is_empty() && !under.is_empty() && !under.contains(['/', ' '])).then(|| text.to_owned())
}

/// The number with a decimal comma, `0,35`, of which a place is the first digit behind the comma; and where all of it stands.
fn decimal_comma(line: &str, place: &Place) -> Option<(String, Place)> {
    let letters: Vec<char> = line.chars().collect();
    let comma = place.column.checked_sub(2)?;
    let is_digit = |at: &usize| letters.get(*at).is_some_and(char::is_ascii_digit);
    let start = (0..comma).rev().take_while(is_digit).last()?;
    let end = (comma + 1..letters.len()).take_while(is_digit).last()?;
    let found = letters[start..=end].iter().collect();
    (letters[comma] == ',').then(|| (found, Place { column: start + 1, width: end + 1 - start, ..place.clone() }))
}
