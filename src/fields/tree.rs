// SPDX-License-Identifier: MIT
//! JSON text as a tree whose every value knows where it stands.

use super::Source;
use super::fault::{self, Fault};
use crate::finding::{Finding, Place};
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
    pub const fn what(&self) -> &'static str {
        match self {
            Self::Object(_) => "an object { … }",
            Self::Array(_) => "a list [ … ]",
            Self::Text(_) => "a text",
            Self::Number(_) => "a number",
            Self::Flag(_) => "true or false",
            Self::Null => "null",
        }
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
        parsed.map(|value| convert(&value)).ok_or_else(|| {
            Box::new(Finding::stop("not-json", "", "this file could not be read as JSON").at(Some(&source.spot(1, 1))))
        })
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
        let place = source.spot(error.line(), error.column());
        return Finding::stop("not-json", "", "this file could not be read as JSON").at(Some(&place));
    };
    let place = Place { width: 1, ..source.place(&(at..at), "") };
    if matches!(fault, Fault::NoComma | Fault::NoValue)
        && let Some(fraction) = bare_fraction(source.line(place.line), place.column)
    {
        return Finding::stop("not-json", "", format!("{fraction} must stand in double quotes"))
            .help(format!("write \"{fraction}\""))
            .at(Some(&place));
    }
    let (text, help) = match fault {
        Fault::Empty => ("this file is empty", "`hingeleaf new FILE` writes one to start from"),
        Fault::EndsEarly => (
            "the file ends too early",
            "a closing } or ] or a quote is missing; perhaps the file was cut off when it was copied",
        ),
        Fault::TooDeep => (
            "brackets are nested too deeply",
            "an album file needs four levels at most: check that this is the file you meant",
        ),
        Fault::LastComma => ("there is a comma with nothing after it", "take the last comma away"),
        Fault::TooLarge => ("this number is too large to mean anything", "lengths go up to 100 m"),
        Fault::NoComma => (
            "a comma is missing before this, or a bracket or quote is not closed",
            "put a comma between two fields or two entries",
        ),
        Fault::NoColon => ("a colon is missing before this", "write \"name\": value"),
        Fault::BareName => {
            ("a field name must stand in double quotes here", "write it as \"name\": value; comments are not allowed")
        }
        Fault::NoValue => (
            "this is neither a number nor a text in double quotes",
            "write 140, or \"5 1/2 in\"; single quotes and words without quotes are not JSON",
        ),
        Fault::OpenText => (
            "a text in quotes goes over the end of its line, or holds a character that can't be typed",
            "close the quote on the same line; a new line within a text is written \\n",
        ),
        Fault::Backslash => ("a backslash does not go with what stands behind it", "write \\\\ for one backslash"),
        Fault::Behind => ("something stands behind the end of the album", "take away what stands behind the last }"),
    };
    Finding::stop("not-json", "", text).help(help).at(Some(&place))
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
