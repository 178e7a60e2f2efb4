// SPDX-License-Identifier: MIT
//! Sentences in words: for the terminal and reports, or for the page.
//!
//! In: a [`Said`], who reads it. Out: text. Never: holds a sentence itself; these stand in Fluent tables (`en/*.ftl`), one
//! folder a language. A message's `.page` attribute is how the page says it, where that differs; `.shown`, where it shows the
//! file's text.

mod lengths;

use crate::finding::{Arg, Finding, Said};
use crate::length::{Length, Ruler, Units};
use fluent_bundle::concurrent::FluentBundle;
use fluent_bundle::{FluentArgs, FluentResource, FluentValue};
use std::borrow::Cow;
use std::fmt;
use std::sync::LazyLock;
use unic_langid::LanguageIdentifier;

/// The tables of one language, a file a room.
const ENGLISH: &[&str] = &[
    include_str!("en/common.ftl"),
    include_str!("en/reading.ftl"),
    include_str!("en/selling.ftl"),
    include_str!("en/outline.ftl"),
    include_str!("en/drawer.ftl"),
    include_str!("en/kind_file.ftl"),
    include_str!("en/parts.ftl"),
    include_str!("en/fit.ftl"),
    include_str!("en/batch.ftl"),
    include_str!("en/sheets.ftl"),
    include_str!("en/labels.ftl"),
    include_str!("en/editions.ftl"),
    include_str!("en/commands.ftl"),
    include_str!("en/page.ftl"),
];

static IN_ENGLISH: LazyLock<FluentBundle<FluentResource>> = LazyLock::new(|| bundle(None));

/// The same with quotes as they are printed.
static PRINTED: LazyLock<FluentBundle<FluentResource>> = LazyLock::new(|| bundle(Some(printed)));

fn bundle(letters: Option<fn(&str) -> Cow<'_, str>>) -> FluentBundle<FluentResource> {
    let tag: LanguageIdentifier = "en".parse().unwrap_or_default();
    let mut bundle = FluentBundle::new_concurrent(vec![tag]);
    bundle.set_use_isolating(false);
    bundle.set_transform(letters);
    for table in ENGLISH {
        // A table with a fault gives all its sound entries; a test holds every table to having none.
        let resource = FluentResource::try_new((*table).to_owned()).unwrap_or_else(|(resource, _)| resource);
        bundle.add_resource_overriding(resource);
    }
    bundle
}

/// Quotes of a table's text as they are printed; what goes into its places never comes here.
fn printed(text: &str) -> Cow<'_, str> {
    if !text.contains('"') {
        return text.into();
    }
    let mut before = None;
    let mut letters = text.chars().peekable();
    let mut out = String::with_capacity(text.len() + 8);
    while let Some(letter) = letters.next() {
        let opens = match before {
            Some(before) => matches!(before, ' ' | '('),
            None => letters.peek().is_some_and(|next| next.is_alphanumeric()),
        };
        out.push(match letter {
            '"' if opens => '“',
            '"' => '”',
            other => other,
        });
        before = Some(letter);
    }
    out.into()
}

/// Who reads it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Voice {
    /// Somebody with the file before them, at a terminal or in a report: fields are called as in the file.
    File,
    /// Somebody at the page: fields are called as on the page.
    Page,
    /// Somebody at the page, with the file's text before them: fields are called as in the file.
    Shown,
}

impl Voice {
    /// The attribute of a message that has it in other words.
    const fn attribute(self) -> Option<&'static str> {
        match self {
            Self::File => None,
            Self::Page => Some("page"),
            Self::Shown => Some("shown"),
        }
    }
}

/// A sentence in words; its key where the tables have none.
#[must_use]
pub fn say(said: &Said, voice: Voice) -> String {
    let key = said.key();
    if key.is_empty() {
        return String::new();
    }
    let table = if voice == Voice::Page { &PRINTED } else { &IN_ENGLISH };
    let message = table.get_message(key);
    debug_assert!(message.is_some(), "there are no words for {key}");
    let Some(message) = message else { return key.to_owned() };
    let otherwise = voice.attribute().and_then(|name| message.get_attribute(name));
    let Some(pattern) = otherwise.map(|attribute| attribute.value()).or(message.value()) else {
        return key.to_owned();
    };
    let mut args = FluentArgs::new();
    for (place, arg) in said.args() {
        args.set(*place, value(arg, voice));
    }
    let mut lacks = Vec::new();
    let words = table.format_pattern(pattern, Some(&args), &mut lacks).into_owned();
    debug_assert!(lacks.is_empty(), "{key} lacks something: {lacks:?}");
    words
}

impl fmt::Display for Said {
    /// In the words of the file.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&say(self, Voice::File))
    }
}

impl Finding {
    /// Its first line: `stop[too-big]: page 1 front: …`.
    #[must_use]
    pub fn headline(&self) -> String {
        let about = if self.about.is_empty() { String::new() } else { format!("{}: ", self.about) };
        format!("{}[{}]: {about}{}", self.level.word(), self.id, self.text)
    }
}

fn value(arg: &Arg, voice: Voice) -> FluentValue<'static> {
    match arg {
        // Numbers of things are asked about: one page, two pages.
        #[allow(clippy::cast_precision_loss, reason = "nothing is counted beyond 2^53")]
        Arg::Count(count) => FluentValue::from(*count as f64),
        other => FluentValue::from(worded(other, voice)),
    }
}

fn worded(arg: &Arg, voice: Voice) -> String {
    match arg {
        Arg::Length(length, units) => self::length(*length, *units, voice),
        Arg::Roughly(length, units) => self::length(length.read_off(*units), *units, voice),
        Arg::Count(count) => count.to_string(),
        Arg::Number(number, decimals) => {
            let text = format!("{number:.*}", usize::from(*decimals));
            if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.').to_owned() } else { text }
        }
        Arg::Term(word) => term(word),
        Arg::Own(text) | Arg::Code(text) => text.clone(),
        Arg::Quoted(text) => quoted(text, voice),
        Arg::Field(name) => field(name, voice),
        Arg::Said(said) => say(said, voice),
        Arg::All(args) => joined(args, voice, ["list-more", "list-and"]),
        Arg::Any(args) => joined(args, voice, ["list-more", "list-or"]),
        Arg::Either(args) => joined(args, voice, ["list-or"; 2]),
        Arg::Row(args) => args.iter().map(|arg| worded(arg, voice)).collect::<Vec<_>>().join(", "),
    }
}

/// A length; on the page without the remark by how little a fraction of an inch is off, of which a sentence may have six.
#[must_use]
pub fn length(length: Length, units: Units, voice: Voice) -> String {
    let text = length.show(units, Ruler::SixtyFourth);
    match (voice, text.split_once(" (")) {
        (Voice::Page | Voice::Shown, Some((bare, _))) => bare.to_owned(),
        _ => text,
    }
}

fn quoted(text: &str, voice: Voice) -> String {
    match voice {
        Voice::File | Voice::Shown => format!("\"{text}\""),
        Voice::Page => format!("“{text}”"),
    }
}

/// A field as its voice knows it: `spine.lead_in` in the file, “lead-in” (the spine) on the page.
fn field(name: &str, voice: Voice) -> String {
    match (voice, name.rsplit_once('.')) {
        (Voice::File | Voice::Shown, None) => quoted(name, voice),
        (Voice::File | Voice::Shown, Some(_)) => name.to_owned(),
        (Voice::Page, None) => quoted(&label(name), voice),
        (Voice::Page, Some((_, last))) => format!("{} ({})", quoted(&label(last), voice), place(name)),
    }
}

/// What the place is called that a way in the file leads to: `page 2` for `pages[1].overflap`.
#[must_use]
pub fn place(path: &str) -> String {
    let top = path.split('.').next().unwrap_or_default();
    let named = |key, arg: Arg| say(&Said::new(key).with("name", arg), Voice::Page);
    let numbered = |list: &str, key| {
        let number: usize = top.strip_prefix(list)?.strip_prefix('[')?.strip_suffix(']')?.parse().ok()?;
        Some(named(key, Arg::from(number.saturating_add(1))))
    };
    let stock = || {
        let name = path.strip_prefix("stocks.")?.split('.').next()?;
        Some(named("place-stock", Arg::from(name)))
    };
    numbered("pages", "place-a-page").or_else(|| numbered("inserts", "place-insert")).or_else(stock).unwrap_or_else(
        || {
            let key = match top {
                "page" => "place-every-page",
                "panels" => "place-panels",
                "spine" => "place-spine",
                "cover" => "place-cover",
                "cutter" => "place-machine",
                _ => "place-album",
            };
            say(&Said::new(key), Voice::Page)
        },
    )
}

/// What a field is called on the page.
#[must_use]
pub fn label(name: &str) -> String {
    let key = format!("field-{}", name.replace('_', "-"));
    entry(&key).unwrap_or_else(|| name.replace(['_', '-'], " "))
}

/// What is said of a field on the page, where that is more than its own table says.
#[must_use]
pub fn about(name: &str) -> Option<String> {
    entry(&format!("about-{}", name.replace('_', "-")))
}

/// What a field's choice is called on the page.
#[must_use]
pub fn choice(word: &str) -> String {
    entry(&format!("choice-{word}")).unwrap_or_else(|| word.replace(['_', '-'], " "))
}

/// A word of the model as the language has it.
#[must_use]
pub fn term(word: &str) -> String {
    let slug: String =
        word.chars().map(|c| if c.is_ascii_alphanumeric() { c.to_ascii_lowercase() } else { '-' }).collect();
    entry(&format!("term-{slug}")).unwrap_or_else(|| word.to_owned())
}

/// An entry without places.
fn entry(key: &str) -> Option<String> {
    let pattern = IN_ENGLISH.get_message(key)?.value()?;
    Some(IN_ENGLISH.format_pattern(pattern, None, &mut Vec::new()).into_owned())
}

/// `a, b and c`
fn joined(args: &[Arg], voice: Voice, [more, last]: [&'static str; 2]) -> String {
    let mut rest = args.iter().peekable();
    let Some(first) = rest.next() else { return String::new() };
    let mut so_far = worded(first, voice);
    while let Some(next) = rest.next() {
        let key = if rest.peek().is_some() { more } else { last };
        so_far = say(&Said::new(key).with("these", so_far).with("this", worded(next, voice)), voice);
    }
    so_far
}

/// Every key that the tables have.
#[must_use]
pub fn keys() -> Vec<&'static str> {
    let key =
        |line: &'static str| line.split_once(" =").map(|(key, _)| key).filter(|key| !key.contains([' ', '#', '.']));
    ENGLISH.iter().flat_map(|table| table.lines().filter_map(key)).collect()
}

/// What is wrong with the tables themselves: entries that could not be read.
#[must_use]
pub fn faults() -> Vec<String> {
    let faults = |table: &&str| match FluentResource::try_new((**table).to_owned()) {
        Ok(_) => Vec::new(),
        Err((_, errors)) => errors.iter().map(ToString::to_string).collect(),
    };
    ENGLISH.iter().flat_map(faults).collect()
}
