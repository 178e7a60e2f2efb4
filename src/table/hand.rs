// SPDX-License-Identifier: MIT
//! An album file's text in the hand that changes it.

use crate::fields::{self, Change, Field, Node, Source, Takes, Tree};
use crate::finding::{Arg, Finding, Said};
use serde_json::Value;

/// A text on its way through several changes.
#[derive(Debug)]
pub(super) struct Hand {
    pub source: Source,
    pub notes: Vec<Said>,
}

impl Hand {
    /// Makes one change.
    pub(super) fn alter(&mut self, change: &Change) -> Result<(), Box<Finding>> {
        let text = fields::alter(&self.source, change).map_err(|problem| unchanged(&problem))?;
        self.take(text)
    }

    /// Goes on with another text.
    pub(super) fn take(&mut self, text: String) -> Result<(), Box<Finding>> {
        self.source = Source::new(self.source.name(), text.into_bytes())?;
        Ok(())
    }
}

/// A change that could not be made.
pub(super) fn unchanged(problem: &fields::EditProblem) -> Box<Finding> {
    refused("unchanged", problem.said(), "nothing-was-changed")
}

/// What a change speaks of is not there any more.
pub(super) fn gone(what: impl Into<Arg>) -> Box<Finding> {
    refused("unchanged", Said::new("gone").with("what", what), "nothing-was-changed")
}

/// A refusal that has a way out.
pub(super) fn refused(id: &'static str, text: Said, help: &'static str) -> Box<Finding> {
    Box::new(Finding::stop(id, Said::NOTHING, text).help(Said::new(help)))
}

/// A node as the value that it was read from.
pub(super) fn plain(node: &Node) -> Option<Value> {
    Some(match &node.tree {
        Tree::Object(fields) => {
            Value::Object(fields.iter().filter_map(|(name, _, node)| Some((name.clone(), plain(node)?))).collect())
        }
        Tree::Array(items) => items.iter().filter_map(plain).collect(),
        Tree::Text(text) => text.as_str().into(),
        // A whole number is written as one.
        #[allow(clippy::cast_possible_truncation, reason = "numbers this small have no fraction and fit")]
        Tree::Number(number) if number.fract() == 0.0 && number.abs() < 1e15 => (*number as i64).into(),
        Tree::Number(number) => serde_json::Number::from_f64(*number)?.into(),
        Tree::Flag(flag) => (*flag).into(),
        Tree::Null => Value::Null,
    })
}

/// A node as the value that its text says.
pub(super) fn value_of(source: &Source, node: &Node) -> Value {
    let text = source.text().get(node.range.clone()).unwrap_or_default();
    serde_json::from_str(text).unwrap_or(Value::Null)
}

/// The number of a page, from 1, that a way leads to.
pub(super) fn page_number(path: &str) -> Option<usize> {
    let index: usize = path.strip_prefix("pages[")?.strip_suffix(']')?.parse().ok()?;
    index.checked_add(1)
}

/// What was typed, as the field's reader takes it; what the reader does not take it refuses in its own words.
pub(super) fn value(field: &Field, typed: &str) -> Value {
    let text = || Value::from(typed);
    let number = |typed: &str| -> Option<Value> {
        let plain = typed.chars().all(|c| c.is_ascii_digit() || matches!(c, '.' | '-'));
        let whole = typed.parse::<u32>().ok().map(Value::from);
        let number = || typed.parse::<f64>().ok().and_then(serde_json::Number::from_f64).map(Value::from);
        plain.then(|| whole.or_else(number)).flatten()
    };
    let list = |one: &dyn Fn(&str) -> Option<Value>| -> Option<Value> {
        typed.split([',', ';']).map(str::trim).filter(|part| !part.is_empty()).map(one).collect()
    };
    match field.takes {
        Takes::Length { .. }
        | Takes::Caliper
        | Takes::Count { .. }
        | Takes::CountOr { .. }
        | Takes::Amount
        | Takes::AmountOrText(_) => number(typed).unwrap_or_else(text),
        Takes::Counts => list(&number).unwrap_or_else(text),
        Takes::Flag => typed.parse::<bool>().map_or_else(|_| text(), Value::from),
        Takes::Texts(_) | Takes::Nested(_) if typed.contains(',') => {
            list(&|part| Some(part.into())).unwrap_or_else(text)
        }
        Takes::Texts(_) | Takes::Nested(_) | Takes::Text | Takes::Choice(_) => text(),
    }
}
