// SPDX-License-Identifier: MIT
//! Reads one value by what its field takes.

use super::field::{Field, Takes, nearest};
use super::reader::Reader;
use super::sentences::{is, meant, meant_or, unknown_word, wanted};
use super::steers::steers;
use super::tree::{Node, Tree};
use super::value::Value;
use crate::finding::{Arg, Place, Said};
use crate::length::{Allow, Length, LengthError, Units};

/// Prices and weights beyond this are slips of the pen, and sums of them must stay numbers: our choice.
const MOST_AMOUNT: f64 = 1e6;

/// Most letters of a text.
const LONGEST_TEXT: usize = 2000;

impl Reader<'_> {
    pub(super) fn value(&mut self, node: &Node, path: &str, field: &Field) -> Option<Value> {
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
    pub(crate) fn choice(
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
        for (index, item) in items.iter().take(self.longest_list()).enumerate() {
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
    pub(crate) fn wrong_type(&mut self, name: &str, form: impl Into<Arg>, found: &Tree, help: Said, place: &Place) {
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
