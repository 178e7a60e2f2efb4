// SPDX-License-Identifier: MIT
//! A report's blocks and sheets, which name its parts.

use super::edition::{EditionBlock, EditionSheet};
use super::report_values::{COUNT, MOST, STOCK, number_in};
use crate::fields::{Fallback, Field, Key, Nested, Node, Reader, Text, Values, Word, needed, rule};
use crate::finding::{Arg, Finding, Said};
use crate::length::excerpt;
use std::collections::{BTreeMap, BTreeSet};

const NAME: Key<Text> = Key::text("name", needed(), "its name");
const RUNS: Key<Word> = Key::word("runs", &["right", "up"], "right", "which way its parts follow each other");
const MEMBERS: Key<Nested> = Key::nested("parts", "a list of parts", Fallback::Needed, "its parts");
const KIT: Key<Option<Text>> = Key::text("kit", rule("it is of an album"), "the kit that it is of");
const BLOCK: &[Field] = &[KIT.field, NAME.field, COUNT.field, RUNS.field, MEMBERS.field];

const PART: Key<Text> = Key::text("part", needed(), "the id of a part");
const BEHIND: Key<Nested> =
    Key::nested("behind_mm", "a number", Fallback::Needed, "how far behind the one before it it starts, mm");
const MEMBER: &[Field] = &[PART.field, BEHIND.field];

const TIMES: Key<u32> = Key::count("times", (0, MOST), needed(), "how many times it is cut");
const PLACEMENTS: Key<Nested> = Key::nested("placements", "a list of placements", Fallback::Needed, "the parts on it");
const SHEET: &[Field] = &[NAME.field, STOCK.field, TIMES.field, PLACEMENTS.field];
const PLACEMENT: &[Field] = &[PART.field];

/// What is read, and the parts that may be named.
pub(super) struct Lists<'r, 's, 'p> {
    pub reader: &'r mut Reader<'s>,
    pub by_id: BTreeMap<&'p str, usize>,
}

impl Lists<'_, '_, '_> {
    /// The blocks, each with the kit of a batch that it is of.
    pub(super) fn blocks(&mut self, node: &Node) -> Vec<(Option<String>, EditionBlock)> {
        let mut blocks = Vec::new();
        for (index, node) in self.reader.list(node, "blocks", "blocks").iter().enumerate() {
            let path = format!("blocks[{index}]");
            let Some(values) = self.reader.object(node, &path, Said::new("a-block"), &[BLOCK]) else { continue };
            let mut parts = Vec::new();
            for (path, member) in self.named(values.get(MEMBERS), &format!("{path}.parts"), MEMBER) {
                let behind = member.get(BEHIND);
                let behind = behind.and_then(|node| number_in(self.reader, node, &path, BEHIND.name()));
                parts.extend(self.part(&member).zip(behind));
            }
            let (name, count, upright) = (values.get(NAME).to_owned(), values.get(COUNT), values.get(RUNS) == "up");
            blocks.push((values.get(KIT).map(str::to_owned), EditionBlock { name, count, upright, parts }));
        }
        blocks
    }

    pub(super) fn sheets(&mut self, node: &Node) -> Vec<EditionSheet> {
        let mut sheets = Vec::new();
        for (index, node) in self.reader.list(node, "sheets", "sheets").iter().enumerate() {
            let path = format!("sheets[{index}]");
            let Some(values) = self.reader.object(node, &path, Said::new("a-sheet"), &[SHEET]) else { continue };
            let placed = self.named(values.get(PLACEMENTS), &format!("{path}.placements"), PLACEMENT);
            let parts: BTreeSet<usize> = placed.iter().filter_map(|(_, placed)| self.part(placed)).collect();
            let (name, stock) = (values.get(NAME).to_owned(), values.get(STOCK).to_owned());
            sheets.push(EditionSheet { name, stock, times: values.get(TIMES), parts });
        }
        sheets
    }

    /// A list of objects that name a part each, with the way to each.
    fn named(&mut self, node: Option<&Node>, path: &str, fields: &[Field]) -> Vec<(String, Values)> {
        let Some(node) = node else { return Vec::new() };
        let name = path.rsplit('.').next().unwrap_or(path);
        let mut found = Vec::new();
        for (index, node) in self.reader.list(node, path, name).iter().enumerate() {
            let path = format!("{path}[{index}]");
            let values = self.reader.object(node, &path, Said::new("a-placement"), &[fields]);
            found.extend(values.map(|values| (path, values)));
        }
        found
    }

    fn part(&mut self, values: &Values) -> Option<usize> {
        let id = values.get(PART);
        let part = self.by_id.get(id).copied();
        if part.is_none() && values.says(PART) {
            let text = Said::new("no-such-part").with("name", Arg::quoted(excerpt(id)));
            let finding = Finding::stop("no-such-part", Said::NOTHING, text).help(Said::new("made-again-help"));
            self.reader.findings.push(finding.at(values.place(PART)));
        }
        part
    }
}
