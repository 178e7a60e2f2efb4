// SPDX-License-Identifier: MIT
//! What every part of a kind file is read with: names, formulas, lists.

use super::drawn::KindDrawing;
use super::formula::{Condition, Formula, Quantity, Term, Test};
use super::kind_words::FaceWord;
use super::model::PanelAt;
use super::parse::{self, KnownName, Names};
use super::symbol::Symbol;
use super::token::FormulaFault;
use crate::fields::{Amount, Choices, Node, Reader, Tree, Values, meant_or};
use crate::finding::{Arg, Place, Said};
use crate::length::excerpt;

/// Most entries of any list of a kind file: our choice.
pub(super) const MOST_ENTRIES: usize = 60;

/// Reads one kind file.
pub(super) struct KindReading<'r, 's> {
    pub reader: &'r mut Reader<'s>,
    /// What the kind is called.
    pub kind: String,
    /// Whether it has one piece only.
    pub alone: bool,
    /// Names that a formula may use.
    pub names: Names,
    /// The pieces by name, each with its panels' names.
    pub pieces: Vec<(String, Vec<String>)>,
    /// The drawings that it names.
    pub drawings: Vec<KindDrawing>,
}

/// The names that every formula may use.
pub(super) fn usual_names() -> Names {
    let lengths = [
        ("width", Symbol::Width),
        ("height", Symbol::Height),
        ("seam", Symbol::Seam),
        ("tab", Symbol::Tab),
        ("caliper", Symbol::Caliper),
    ];
    let lengths =
        lengths.into_iter().map(|(name, symbol)| (name.to_owned(), KnownName::Value(symbol, Quantity::Length)));
    Names(lengths.chain([("nth".to_owned(), KnownName::Value(Symbol::Nth, Quantity::Number))]).collect())
}

impl KindReading<'_, '_> {
    /// Reports a fault of a formula at its letter.
    fn fault(&mut self, fault: FormulaFault, written: &str, place: &Place) {
        let mut at = place.clone();
        // Where letters of the text are written in another way the column is not known.
        if place.width == written.chars().count() + 2 {
            at.column += 1 + fault.at;
            at.width = 1;
        }
        self.reader.problem("bad-formula", fault.text, fault.help, &at);
    }

    /// A formula that comes to this; what stands for one that can't be read does not matter, its file is refused.
    pub(super) fn formula(&mut self, said: Amount<'_>, place: &Place, wanted: Quantity) -> Formula {
        let (term, text) = match said {
            Amount::Number(number) => {
                if wanted == Quantity::Length && number != 0.0 {
                    let text = Said::new("formula-bare-number").with("number", number.to_string());
                    let help = Said::new("formula-bare-number-help").with("number", number.to_string());
                    self.reader.problem("bad-formula", text, help, place);
                }
                (Term::Value(number), number.to_string())
            }
            Amount::Text(text) => {
                let read = parse::formula(text, &self.names, wanted);
                let term = read.unwrap_or_else(|fault| {
                    self.fault(fault, text, place);
                    Term::Value(0.0)
                });
                (term, text.to_owned())
            }
        };
        Formula { term, measure: wanted, text, place: place.clone() }
    }

    /// The same where it may be left out.
    /// Says of an object that some of its fields do not go together.
    pub(super) fn not_together(&mut self, values: &Values, path: &str, (text, help): (Said, Said)) {
        let place = values.whole().cloned().unwrap_or_else(|| self.reader.place(&(0..0), path));
        self.reader.problem("one-of-two", text, help, &place);
    }

    pub(super) fn formula_or(
        &mut self,
        said: Option<Amount<'_>>,
        place: Option<&Place>,
        wanted: Quantity,
    ) -> Option<Formula> {
        said.zip(place).map(|(said, place)| self.formula(said, place, wanted))
    }

    /// A formula of a value that is not a field's own.
    pub(super) fn formula_of(&mut self, node: &Node, path: &str, wanted: Quantity) -> Formula {
        let place = self.reader.place(&node.range, path);
        match &node.tree {
            Tree::Number(number) => self.formula(Amount::Number(*number), &place, wanted),
            Tree::Text(text) => self.formula(Amount::Text(text), &place, wanted),
            other => {
                self.reader.wrong_type(last(path), Arg::term("a length or a formula"), other, Said::NOTHING, &place);
                Formula { term: Term::Value(0.0), measure: wanted, text: String::new(), place }
            }
        }
    }

    /// So many formulas in a list.
    pub(super) fn formulas<const N: usize>(&mut self, node: &Node, path: &str) -> Option<[Formula; N]> {
        let items = self.some(node, path, N)?;
        let read = items.iter().enumerate();
        let read: Vec<Formula> =
            read.map(|(number, item)| self.formula_of(item, &format!("{path}[{number}]"), Quantity::Length)).collect();
        read.try_into().ok()
    }

    /// A list of so many.
    pub(super) fn some<'n>(&mut self, node: &'n Node, path: &str, count: usize) -> Option<&'n [Node]> {
        let items = self.entries(node, path);
        if matches!(node.tree, Tree::Array(_)) && items.len() != count {
            let place = self.reader.place(&node.range, path);
            let text = Said::new("wants-so-many").with("field", Arg::field(last(path))).with("count", count);
            let help = Said::new("wants-so-many-help").with("count", count);
            self.reader.problem("wants-so-many", text.with("found", items.len()), help, &place);
        }
        (items.len() == count).then_some(items)
    }

    /// A list of not too many.
    pub(super) fn entries<'n>(&mut self, node: &'n Node, path: &str) -> &'n [Node] {
        let items = self.reader.list(node, path, last(path));
        if items.len() > MOST_ENTRIES {
            let place = self.reader.place(&node.range, path);
            let text = Said::new("too-many-entries").with("field", Arg::field(last(path))).with("count", items.len());
            self.reader.problem("too-many", text.with("most", MOST_ENTRIES), Said::NOTHING, &place);
            return &[];
        }
        items
    }

    /// An object by names, each once; nothing where it is none.
    pub(super) fn named<'n>(&mut self, node: &'n Node, path: &str) -> Vec<(&'n str, Place, &'n Node)> {
        let place = self.reader.place(&node.range, path);
        let Tree::Object(entries) = &node.tree else {
            let form = Arg::term("{ … } of names");
            self.reader.wrong_type(last(path), form, &node.tree, Said::NOTHING, &place);
            return Vec::new();
        };
        if entries.len() > MOST_ENTRIES {
            let text = Said::new("too-many-entries").with("field", Arg::field(last(path))).with("count", entries.len());
            self.reader.problem("too-many", text.with("most", MOST_ENTRIES), Said::NOTHING, &place);
            return Vec::new();
        }
        let mut found: Vec<(&str, Place, &Node)> = Vec::new();
        for (name, range, value) in entries {
            let place = self.reader.place(range, &format!("{path}.{}", excerpt(name)));
            if found.iter().any(|(known, ..)| known == name) {
                let text = Said::new("twice").with("name", Arg::quoted(excerpt(name)));
                self.reader.problem("twice", text, Said::new("twice-help"), &place);
            } else {
                found.push((name, place, value));
            }
        }
        found
    }

    /// A condition.
    pub(super) fn condition(&mut self, said: Option<&str>, place: Option<&Place>) -> Option<Condition> {
        let (text, place) = said.zip(place)?;
        let test = parse::condition(text, &self.names).unwrap_or_else(|fault| {
            self.fault(fault, text, place);
            Test::All(Vec::new())
        });
        Some(Condition { test, text: text.to_owned(), place: place.clone() })
    }

    /// Two faces; `usual` where they are left out.
    pub(super) fn faces(&mut self, node: Option<&Node>, path: &str, usual: [FaceWord; 2]) -> [FaceWord; 2] {
        let Some(items) = node.and_then(|node| self.some(node, path, 2)) else { return usual };
        let mut faces = usual;
        for (number, item) in items.iter().enumerate() {
            if let Some(face) = self.word(item, &format!("{path}[{number}]"), &FaceWord::ALL, FaceWord::word) {
                faces[number] = face;
            }
        }
        faces
    }

    /// One of some words.
    pub(super) fn word<T: Choices + Copy>(
        &mut self,
        node: &Node,
        path: &str,
        all: &[T],
        word: impl Fn(T) -> &'static str,
    ) -> Option<T> {
        let found = self.reader.choice(node, path, last(path), T::WORDS)?;
        all.iter().copied().find(|one| word(*one) == found)
    }

    /// A panel as `piece/panel`.
    pub(super) fn panel(&mut self, node: &Node, path: &str) -> Option<PanelAt> {
        let place = self.reader.place(&node.range, path);
        let Tree::Text(text) = &node.tree else {
            let form = Arg::term("a panel as \"piece/panel\"");
            self.reader.wrong_type(last(path), form, &node.tree, Said::NOTHING, &place);
            return None;
        };
        let (piece, panel) = text.split_once('/').map_or((text.as_str(), ""), |(piece, panel)| (piece, panel));
        let found = self.pieces.iter().position(|(name, _)| name == piece);
        if let Some(number) = found
            && self.pieces[number].1.iter().any(|name| name == panel)
        {
            return Some(PanelAt { piece: number, panel: panel.to_owned(), text: text.clone(), place });
        }
        // Pieces that can't be read are told already.
        if !self.pieces.is_empty() {
            let panels = |(piece, panels): &(String, Vec<String>)| {
                panels.iter().map(|panel| format!("{piece}/{panel}")).collect::<Vec<String>>()
            };
            let all: Vec<String> = self.pieces.iter().flat_map(panels).collect();
            let said = Said::new("no-such-panel").with("panel", Arg::quoted(excerpt(text)));
            let help = meant_or("no-such-panel-help", text, all.iter().map(String::as_str));
            self.reader.problem("no-such-panel", said, help, &place);
        }
        None
    }
}

/// The last name of a way: `at` of `joins[0].at`.
pub(super) fn last(path: &str) -> &str {
    let name = path.rsplit('.').next().unwrap_or(path);
    name.split('[').next().unwrap_or(name)
}
