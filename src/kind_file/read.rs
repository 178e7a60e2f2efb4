// SPDX-License-Identifier: MIT
//! From a kind file's text to the checked [`KindFile`].

use super::formula::Quantity;
use super::kind_words::Fills;
use super::model::{KindFile, KindNeed, KindSize, SizeTakes, Usual};
use super::parse::{KnownName, OWN_WORDS};
use super::reading::{KindReading, last, usual_names};
use super::symbol::Symbol;
use super::tables::{
    ABOUT, BECAUSE, EXAMPLE, FLAPS, FORMAT, HANGS, IS, JOINS, KIND_FIELDS, LAYERS, LEAST, MIRRORED, MOST, NAME,
    NEED_FIELDS, NEED_SIZE, NEEDS, PAPERS, PIECES, POCKETS, PRINTS, PULL, SIZE_FIELDS, SIZES, TAKES, THAT, USUAL,
    VERSION,
};
use crate::fields::{Field, Node, Reader, Source, Tree, Values, join, meant_or, of_kind};
use crate::finding::{Arg, Checked, Place, Said, stops};
use crate::length::tolerance::SAME;
use crate::length::{Allow, Length, Units, excerpt};

/// Fields that every entry has, or that a kind gets from its role: no size may be called so.
const TAKEN: &[&str] =
    &["kind", "stock", "grain", "by", "count", "pages", "size", "across", "thickness", "content", "edges", "outline"];

/// Whether a file says that it is a kind file; what can't be read is none.
#[must_use]
pub fn is_kind_file(source: &Source) -> bool {
    let root = Node::read(source).ok();
    matches!(root.as_ref().and_then(|root| root.get("format")), Some(Node { tree: Tree::Text(format), .. }) if of_kind(format, FORMAT))
}

/// Reads a kind file.
#[must_use]
pub fn read(source: &Source) -> Checked<KindFile> {
    let mut reader = Reader::new(source);
    let kind = match Node::read(source) {
        Ok(node) => read_at(&mut reader, &node, ""),
        Err(finding) => {
            reader.findings.push(*finding);
            None
        }
    };
    match kind {
        Some(kind) => Checked::new(kind, reader.findings),
        None => Checked::none(reader.findings),
    }
}

/// Reads a kind that stands at `path` of another file; nothing where anything is wrong with it.
pub fn read_at(reader: &mut Reader<'_>, node: &Node, path: &str) -> Option<KindFile> {
    let (units, before) = (reader.units, reader.findings.len());
    let values = reader.file_within(node, path, Said::new("a-kind-file"), (&[KIND_FIELDS], FORMAT));
    let mut reading = KindReading {
        reader,
        kind: String::new(),
        alone: true,
        names: usual_names(),
        pieces: Vec::new(),
        drawings: Vec::new(),
    };
    let kind = values.and_then(|values| reading.kind(&values, (path, node)));
    reader.units = units;
    kind.filter(|_| !stops(&reader.findings[before..]))
}

impl KindReading<'_, '_> {
    fn kind(&mut self, values: &Values, (path, node): (&str, &Node)) -> Option<KindFile> {
        let name = self.kind_name(values.get(NAME), values.place(NAME));
        self.kind.clone_from(&name);
        let way = |field: &str| join(path, field);
        let fills = values.get(IS);
        let sizes = values.get(SIZES).map(|node| self.sizes(node, &way("sizes"))).unwrap_or_default();
        let pieces = values.get(PIECES).map(|node| self.kind_pieces(node, &way("pieces"))).unwrap_or_default();
        let joins = values.get(JOINS).map(|node| self.joins(node, &way("joins"))).unwrap_or_default();
        let pockets = values.get(POCKETS).map(|node| self.pockets(node, &way("pockets"))).unwrap_or_default();
        let flaps = values.get(FLAPS).map(|node| self.flaps(node, &way("flaps"), &sizes)).unwrap_or_default();
        let papers = values.get(PAPERS).map(|node| self.papers(node, &way("papers"))).unwrap_or_default();
        let hangs = values.get(HANGS).map(|node| self.hangs(node, &way("hangs"))).unwrap_or_default();
        let needs = values.get(NEEDS).map(|node| self.needs(node, &way("needs"), &sizes)).unwrap_or_default();
        self.of_its_role(values, fills);
        let pull = self.condition(values.get(PULL), values.place(PULL));
        let layers = self.formula_or(values.get(LAYERS), values.place(LAYERS), Quantity::Number);
        let example = values.get(EXAMPLE).map(|node| node.to_value().to_string());
        Some(KindFile {
            example: example.unwrap_or_else(|| format!("{{ \"kind\": \"{name}\" }}")),
            name,
            fills,
            about: values.get(ABOUT).to_owned(),
            version: values.get(VERSION).map(str::to_owned),
            sizes,
            pieces,
            joins,
            pockets,
            flaps,
            papers,
            hangs,
            mirrored: self.condition(values.get(MIRRORED), values.place(MIRRORED)),
            needs,
            pull,
            layers,
            prints: values.get(PRINTS),
            drawings: std::mem::take(&mut self.drawings),
            text: node.to_value().to_string(),
            place: values.whole()?.clone(),
        })
    }

    fn kind_name(&mut self, name: &str, place: Option<&Place>) -> String {
        let sound = |name: &str| {
            let mut letters = name.chars();
            letters.next().is_some_and(|first| first.is_ascii_lowercase())
                && name.len() <= 32
                && letters.all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '-')
        };
        if let Some(place) = place.filter(|_| !sound(name) && !name.is_empty()) {
            let text = Said::new("bad-kind-name").with("name", Arg::quoted(excerpt(name)));
            self.reader.problem("bad-name", text, Said::new("bad-kind-name-help"), place);
        }
        name.to_owned()
    }

    /// What only an insert or only a page has.
    fn of_its_role(&mut self, values: &Values, fills: Fills) {
        let wrong: &[Field] = match fills {
            Fills::Page => &[PULL.field, LAYERS.field, PRINTS.field],
            Fills::Insert => &[POCKETS.field, FLAPS.field, PAPERS.field, HANGS.field, MIRRORED.field],
        };
        for field in wrong.iter().filter(|field| values.says(**field)) {
            if let Some(place) = values.place(*field) {
                let text = Said::new("not-of-this-role").with("field", Arg::field(field.name));
                let text = text.with("role", Arg::term(fills.word()));
                self.reader.problem("not-of-this-role", text, Said::new("not-of-this-role-help"), place);
            }
        }
    }

    fn sizes(&mut self, node: &Node, path: &str) -> Vec<KindSize> {
        let mut sizes = Vec::new();
        for (name, place, node) in self.named(node, path) {
            let path = format!("{path}.{name}");
            self.size_name(name, &place);
            let values = self.reader.object(node, &path, Said::new("a-size"), &[SIZE_FIELDS]);
            let takes = values.as_ref().and_then(|values| values.get(TAKES));
            let takes = takes.and_then(|node| self.takes(node, &format!("{path}.takes"))).unwrap_or(SizeTakes::Length);
            if let Some(values) = values {
                sizes.push(self.size(name, &values, takes.clone(), &path));
            }
            let number = sizes.len().saturating_sub(1);
            let known = match takes {
                SizeTakes::Length => KnownName::Value(Symbol::Size(number), Quantity::Length),
                SizeTakes::Count => KnownName::Value(Symbol::Size(number), Quantity::Number),
                SizeTakes::Words(words) => KnownName::Choice(number, words),
            };
            self.names.0.push((name.to_owned(), known));
        }
        sizes
    }

    fn size(&mut self, name: &str, values: &Values, takes: SizeTakes, path: &str) -> KindSize {
        let measure = if takes == SizeTakes::Count { Quantity::Number } else { Quantity::Length };
        let usual = values.get(USUAL);
        let usual = usual.and_then(|node| self.usual(node, &format!("{path}.usual"), &takes, measure));
        let [least, most] = [LEAST, MOST].map(|key| self.formula_or(values.get(key), values.place(key), measure));
        let whole = values.whole();
        KindSize {
            name: name.to_owned(),
            about: values.get(ABOUT).to_owned(),
            takes,
            usual,
            least,
            most,
            place: whole.cloned().unwrap_or_else(|| self.reader.place(&(0..0), path)),
        }
    }

    fn size_name(&mut self, name: &str, place: &Place) {
        let sound = name.chars().next().is_some_and(|first| first.is_ascii_lowercase())
            && name.len() <= 32
            && name.chars().all(|c| c.is_ascii_lowercase() || c.is_ascii_digit() || c == '_');
        let taken =
            TAKEN.contains(&name) || OWN_WORDS.contains(&name) || self.names.0.iter().any(|(known, _)| known == name);
        let (text, help) = match (sound, taken) {
            (false, _) => ("bad-size-name", "bad-size-name-help"),
            (true, true) => ("size-name-taken", "size-name-taken-help"),
            (true, false) => return,
        };
        let text = Said::new(text).with("name", Arg::quoted(excerpt(name)));
        self.reader.problem("bad-name", text, Said::new(help), place);
    }

    fn takes(&mut self, node: &Node, path: &str) -> Option<SizeTakes> {
        let place = self.reader.place(&node.range, path);
        match &node.tree {
            Tree::Text(word) if word == "length" => Some(SizeTakes::Length),
            Tree::Text(word) if word == "count" => Some(SizeTakes::Count),
            Tree::Array(_) => {
                let items = self.entries(node, path);
                let word = |item: &Node| match &item.tree {
                    Tree::Text(word) => Some(word.clone()).filter(|word| is_word(word)),
                    _ => None,
                };
                let words: Option<Vec<String>> = items.iter().map(word).collect();
                let words = words.filter(|words| words.len() >= 2);
                if words.is_none() {
                    self.reader.problem("bad-words", Said::new("bad-words"), Said::new("bad-words-help"), &place);
                }
                words.map(SizeTakes::Words)
            }
            other => {
                let form = Arg::term("\"length\", \"count\", or a list of words");
                self.reader.wrong_type(last(path), form, other, Said::NOTHING, &place);
                None
            }
        }
    }

    fn usual(&mut self, node: &Node, path: &str, takes: &SizeTakes, measure: Quantity) -> Option<Usual> {
        match (takes, &node.tree) {
            (SizeTakes::Words(words), tree) => {
                let place = self.reader.place(&node.range, path);
                let Tree::Text(word) = tree else {
                    self.reader.wrong_type(last(path), Arg::term("one of its words"), tree, Said::NOTHING, &place);
                    return None;
                };
                let number = words.iter().position(|known| known == word);
                if number.is_none() {
                    let text = Said::new("unknown-word").with("field", Arg::field(last(path)));
                    let help = meant_or("allowed", word, words.iter().map(String::as_str));
                    self.reader.problem("unknown-word", text.with("word", Arg::quoted(excerpt(word))), help, &place);
                }
                number.map(Usual::Word)
            }
            (SizeTakes::Length, Tree::Array(_)) => {
                let items = self.some(node, path, 2)?;
                let mm = self.length(&items[0], path, Units::Mm)?.mm();
                let inch = self.length(&items[1], path, Units::In)?.inches();
                // What a ruler has is meant to the last bit.
                let marked = (inch * 64.0).round() / 64.0;
                let inch = if (inch - marked).abs() < SAME { marked } else { inch };
                Some(Usual::Each { mm, inch })
            }
            _ => Some(Usual::Formula(self.formula_of(node, path, measure))),
        }
    }

    fn length(&mut self, node: &Node, path: &str, units: Units) -> Option<Length> {
        let place = self.reader.place(&node.range, path);
        let read = match &node.tree {
            Tree::Number(number) => Length::from_number(*number, units),
            Tree::Text(text) => Length::parse(text, units, Allow::Plain),
            other => {
                self.reader.wrong_type(last(path), Said::new("form-any-length"), other, Said::NOTHING, &place);
                return None;
            }
        };
        read.map_err(|error| {
            let text = Said::new("bad-length").with("field", Arg::field(last(path))).with("what", error.what());
            self.reader.problem("bad-length", text, error.help(), &place);
        })
        .ok()
    }

    /// The number of a size by its name.
    pub(super) fn size_called(&mut self, name: &str, place: Option<&Place>, sizes: &[KindSize]) -> Option<usize> {
        let found = sizes.iter().position(|size| size.name == name);
        if let (None, Some(place)) = (found, place) {
            let text = Said::new("no-such-size").with("name", Arg::quoted(excerpt(name)));
            let help = meant_or("no-such-size-help", name, sizes.iter().map(|size| size.name.as_str()));
            self.reader.problem("no-such-size", text, help, place);
        }
        found
    }

    fn needs(&mut self, node: &Node, path: &str, sizes: &[KindSize]) -> Vec<KindNeed> {
        let mut needs = Vec::new();
        for (number, node) in self.entries(node, path).iter().enumerate() {
            let path = format!("{path}[{number}]");
            let Some(values) = self.reader.object(node, &path, Said::new("a-need"), &[NEED_FIELDS]) else { continue };
            let that = self.condition(values.says(THAT).then(|| values.get(THAT)), values.place(THAT));
            let size = values.get(NEED_SIZE).and_then(|name| self.size_called(name, values.place(NEED_SIZE), sizes));
            if let (Some(that), Some(place)) = (that, values.whole().cloned()) {
                needs.push(KindNeed { that, because: values.get(BECAUSE).to_owned(), size, place });
            }
        }
        needs
    }
}

fn is_word(word: &str) -> bool {
    word.len() <= 32
        && word.chars().next().is_some_and(char::is_alphabetic)
        && word.chars().all(|c| c.is_alphanumeric() || c == '_')
}
