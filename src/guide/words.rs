// SPDX-License-Identifier: MIT
//! The guide's words, looked up in one table for each language.
//!
//! In: a key, and what goes into its places. Out: a [`Line`]. Never: holds a word itself.
//!
//! The tables are Fluent files (`words/en.ftl`), whose plural forms are each language's own. A number stands in a sentence as
//! `{$n}`; where the sentence depends on how many, it asks `$n_is`.

use super::line::{Bit, Line, Number};
use super::measure::NumberSigns;
use crate::album::Language;
use crate::parts::PieceName;
use fluent_bundle::{FluentArgs, FluentBundle, FluentResource, FluentValue};
use unic_langid::LanguageIdentifier;

/// The first of the letters that stand for what goes into a sentence: no person writes them (Unicode, private use).
const FIRST: u32 = 0xE100;

/// The words of one language.
pub struct Words {
    bundle: FluentBundle<FluentResource>,
    language: Language,
}

impl Words {
    /// The words of a language.
    #[must_use]
    pub fn new(language: Language) -> Self {
        let table = match language {
            Language::English => include_str!("words/en.ftl"),
            Language::German => include_str!("words/de.ftl"),
        };
        let tag: LanguageIdentifier = language.word().parse().unwrap_or_default();
        let mut bundle = FluentBundle::new(vec![tag]);
        bundle.set_use_isolating(false);
        // A table with a fault gives all its sound entries; a test holds every table to having none.
        let resource = FluentResource::try_new(table.to_owned()).unwrap_or_else(|(resource, _)| resource);
        bundle.add_resource_overriding(resource);
        Self { bundle, language }
    }

    /// The language's tag, as pages state it.
    #[must_use]
    pub const fn language(&self) -> &'static str {
        self.language.word()
    }

    /// How the language writes numbers.
    #[must_use]
    pub fn notation(&self) -> NumberSigns {
        NumberSigns {
            decimal: self.text("number-decimal"),
            inch: self.text("unit-inch"),
            foot: self.text("unit-foot"),
            hour: self.text("unit-hour"),
        }
    }

    /// Whether there is an entry.
    #[must_use]
    pub fn has(&self, key: &str) -> bool {
        self.bundle.has_message(key)
    }

    /// An entry without places, as plain words.
    #[must_use]
    pub fn text(&self, key: &str) -> String {
        self.line(key, Vec::new()).plain()
    }

    /// An entry with plain words in its places, as plain words.
    #[must_use]
    pub fn with<const N: usize>(&self, key: &str, places: [(&str, String); N]) -> String {
        self.line(key, places.map(|(name, text)| (name, Line::text(text))).into()).plain()
    }

    /// A name from the model, such as a part's or a panel's: as the table has it, else as it is.
    #[must_use]
    pub fn term(&self, name: &str) -> String {
        self.term_of("term", name, name)
    }

    /// What a piece is called: `panel for page 1 front flap`, `tag 2 no. 3`.
    #[must_use]
    pub fn name(&self, name: &PieceName) -> String {
        self.name_by("term", name)
    }

    /// A piece's name by terms of a sort. A face may need another word than the piece of the same name: the front of a page is
    /// no part of it.
    fn name_by(&self, sort: &str, name: &PieceName) -> String {
        let said = |key: &str, what: &PieceName, number: usize| {
            self.with(key, [("what", self.name_by(sort, what)), ("number", number.to_string())])
        };
        let face = |key: &str, face: &PieceName| self.with(key, [("what", self.name_by("term-face", face))]);
        match name {
            PieceName::Term(term) => self.term_of(sort, term, &self.term(term)),
            PieceName::Counted(what, number) => said("name-counted", what, *number),
            PieceName::Copy(what, number) => said("name-no", what, *number),
            PieceName::Leaf(what, number) => said("name-leaf", what, *number),
            PieceName::OfInsert(insert, what) => {
                let names = [("insert", insert), ("what", what)];
                self.with("name-of-insert", names.map(|(place, name)| (place, self.name_by(sort, name))))
            }
            PieceName::OfPage(page, what) => said("name-of-page", what, *page),
            PieceName::OfKind(kind, what) => said("name-of-kind", what, *kind),
            PieceName::ForPage(what, page) => said("name-on-page", what, *page),
            PieceName::Length(what, number) => said("name-length", what, *number),
            PieceName::PanelFor(what) => face("name-panel", what),
            PieceName::BlockFor(what) => face("name-block", what),
        }
    }

    /// A name of which there are several sorts: a kind of page, of cover; else what is said instead.
    #[must_use]
    pub fn term_of(&self, sort: &str, name: &str, otherwise: &str) -> String {
        let slug: String =
            name.chars().map(|c| if c.is_ascii_alphanumeric() { c.to_ascii_lowercase() } else { '-' }).collect();
        let key = format!("{sort}-{slug}");
        if self.has(&key) { self.text(&key) } else { otherwise.to_owned() }
    }

    /// An entry with what goes into its places. An entry that is missing shows its key.
    #[must_use]
    pub fn line(&self, key: &str, places: Vec<(&str, Line)>) -> Line {
        let Some(pattern) = self.bundle.get_message(key).and_then(|message| message.value()) else {
            return Line::text(key);
        };
        let (names, lines): (Vec<&str>, Vec<Line>) = places.into_iter().unzip();
        let mut args = FluentArgs::new();
        for (index, (name, line)) in (0..).zip(names.iter().zip(&lines)) {
            if let [Bit::Number(Number { value, .. })] = line.0[..] {
                args.set(format!("{name}_is"), FluentValue::from(value));
            } else {
                args.set(format!("{name}_is"), line.plain());
            }
            args.set((*name).to_owned(), char::from_u32(FIRST + index).unwrap_or(' ').to_string());
        }
        let text = self.bundle.format_pattern(pattern, Some(&args), &mut Vec::new());
        let mut line = Line::default();
        let mut words = String::new();
        for c in text.chars() {
            let index = u32::from(c).checked_sub(FIRST).and_then(|index| usize::try_from(index).ok());
            match index.and_then(|index| lines.get(index)) {
                Some(place) => {
                    if !words.is_empty() {
                        line.0.push(Bit::Text(std::mem::take(&mut words)));
                    }
                    line.0.extend(place.0.iter().cloned());
                }
                None => words.push(c),
            }
        }
        if !words.is_empty() {
            line.0.push(Bit::Text(words));
        }
        line
    }

    /// Several with semicolons between.
    #[must_use]
    pub fn joined(lines: impl IntoIterator<Item = Line>) -> Line {
        let mut all = Line::default();
        for line in lines {
            if !all.is_empty() {
                all.0.extend(Line::text("; ").0);
            }
            all.0.extend(line.0);
        }
        all
    }

    /// `upright or lying`.
    #[must_use]
    pub fn either(&self, items: Vec<Line>) -> Line {
        let mut items = items.into_iter();
        let first = items.next().unwrap_or_default();
        items.fold(first, |these, this| self.line("list-or", vec![("these", these), ("this", this)]))
    }

    /// `1, 2, 4`.
    #[must_use]
    pub fn row(&self, items: Vec<Line>) -> Line {
        let mut items = items.into_iter();
        let first = items.next().unwrap_or_default();
        items.fold(first, |these, this| self.line("list-more", vec![("these", these), ("this", this)]))
    }

    /// `1, 2 and 4`.
    #[must_use]
    pub fn list(&self, items: Vec<Line>) -> Line {
        let mut items = items.into_iter();
        let Some(mut so_far) = items.next() else { return Line::default() };
        let mut rest = items.peekable();
        while let Some(next) = rest.next() {
            let key = if rest.peek().is_some() { "list-more" } else { "list-last" };
            so_far = self.line(key, vec![("these", so_far), ("this", next)]);
        }
        so_far
    }
}
