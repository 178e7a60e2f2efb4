// SPDX-License-Identifier: MIT
//! Reads objects against their fields and collects every problem on the way.

use super::field::{Fallback, Field, nearest};
use super::format::wrong;
use super::graft::Grafted;
use super::sentences::{join, meant_or, wanted};
use super::source::Source;
use super::tree::{Node, Tree};
use super::value::Value;
use super::values::Values;
use crate::finding::{Arg, Finding, Place, Said};
use crate::length::{Units, excerpt};
use std::ops::Range;

/// Most values of one list that are looked at; more are a mistake, not an album.
const LONGEST_LIST: usize = 2000;

/// The same of a file that a program wrote: an album of 2000 pages has some ten parts for each.
const LONGEST_OF_PROGRAM: usize = 50_000;

/// Reads one file.
#[derive(Debug)]
pub struct Reader<'s> {
    source: &'s Source,
    /// The file's values, where they are not the text's alone.
    root: Option<&'s Node>,
    /// The file's units, once they are known.
    pub units: Units,
    /// Every problem met so far.
    pub findings: Vec<Finding>,
    /// Whether a program wrote it.
    by_program: bool,
}

impl<'s> Reader<'s> {
    /// Starts on a file, in mm until [`Reader::units`] says otherwise.
    #[must_use]
    pub const fn new(source: &'s Source) -> Self {
        Self { source, root: None, units: Units::Mm, findings: Vec::new(), by_program: false }
    }

    /// Starts on a file that another one changed.
    #[must_use]
    pub fn of_changed(file: &'s Grafted) -> Self {
        Self { root: Some(file.root()), ..Self::new(file.source()) }
    }

    /// Starts on a file that a program wrote: its lists may be long, and what another version of the program adds to it is let
    /// pass.
    #[must_use]
    pub const fn of_program(source: &'s Source) -> Self {
        Self { source, root: None, units: Units::Mm, findings: Vec::new(), by_program: true }
    }

    /// Most values of one list that are looked at.
    pub(super) const fn longest_list(&self) -> usize {
        if self.by_program { LONGEST_OF_PROGRAM } else { LONGEST_LIST }
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
        let node = match self.root.map_or_else(|| Node::read(self.source), |root| Ok(root.clone())) {
            Ok(node) => node,
            Err(finding) => {
                self.findings.push(*finding);
                return None;
            }
        };
        self.file_within(&node, "", Said::new("the-file"), (&[fields], format))
    }

    /// Reads what could be a file of its own, at `path` of this one: checks `format`, and takes up `units` from then on.
    pub fn file_within(
        &mut self,
        node: &Node,
        path: &str,
        what: impl Into<Arg>,
        (tables, format): (&[&[Field]], &'static str),
    ) -> Option<Values> {
        if let Some(Node { tree: Tree::Text(units), .. }) = node.get("units")
            && let Some(known) = Units::parse(units)
        {
            self.units = known;
        }
        if let Some(said) = node.get("format") {
            let problem = match &said.tree {
                Tree::Text(text) => wrong(text, format),
                other => {
                    let text =
                        Said::new("wrong-format").with("found", other.what()).with("format", Arg::quoted(format));
                    Some((text, Said::new("wrong-format-help").with("format", Arg::code(format))))
                }
            };
            if let Some((text, help)) = problem {
                let place = self.place(&said.range, &join(path, "format"));
                self.problem("wrong-format", text, help, &place);
                // What else is wrong with it is of no account when it is another kind of file.
                return None;
            }
        }
        let before = self.findings.len();
        let values = self.object(node, path, what, tables);
        // What a file calls itself is one line that can be typed as it stands.
        let at = join(path, "format");
        let lacks =
            |one: &&mut Finding| one.id == "missing" && one.place.as_ref().is_some_and(|place| place.path == at);
        if let Some(finding) = self.findings[before..].iter_mut().find(lacks) {
            finding.help = Said::new("format-missing-help").with("format", Arg::code(format));
        }
        values
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
                if self.by_program {
                    continue;
                }
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
            Tree::Array(items) if items.len() > self.longest_list() => {
                let text = Said::new("too-many-entries").with("field", Arg::field(name)).with("count", items.len());
                self.problem("too-many", text.with("most", self.longest_list()), Said::NOTHING, &place);
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
}
