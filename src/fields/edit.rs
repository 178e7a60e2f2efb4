// SPDX-License-Identifier: MIT
//! Changes of single lengths in a file's text.
//!
//! In: a file's text, and what some of its lengths should be. Out: the same text byte for byte but for those lengths,
//! each written in the way that the file writes lengths. Never: knows what an album is, touches a file.

use super::source::Source;
use super::tree::{Node, Tree};
use crate::finding::{Arg, Said};
use crate::length::tolerance::WHOLE;
use crate::length::{Allow, Length, Units, excerpt};
use std::collections::BTreeMap;
use std::fmt;
use std::ops::Range;

/// More decimals than a length can need to be told from its neighbours, an eighth of a micrometre away.
const MOST_DECIMALS: usize = 12;

/// Why a text can't be changed so.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum EditProblem {
    /// The text is not JSON.
    NotJson,
    /// The file has no such object.
    NoPlace(String),
    /// What stands there is neither a number nor a text.
    NoLength(String),
    /// The same length twice.
    Twice(String),
    /// The new length is not a finite number.
    NotFinite(String),
}

impl EditProblem {
    /// What there is to say of it.
    #[must_use]
    pub fn said(&self) -> Said {
        let (key, path) = match self {
            Self::NotJson => return Said::new("edit-not-json"),
            Self::NoPlace(path) => ("edit-no-place", path),
            Self::NoLength(path) => ("edit-no-length", path),
            Self::Twice(path) => ("edit-twice", path),
            Self::NotFinite(path) => ("edit-not-finite", path),
        };
        Said::new(key).with("path", Arg::code(path))
    }
}

impl fmt::Display for EditProblem {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.said().fmt(f)
    }
}

impl std::error::Error for EditProblem {}

/// The file's text with these lengths, each under its way as [`Place::path`](crate::finding::Place) writes it:
/// `pages[1].overflap`, `spine.lead_in`.
///
/// A length that is there keeps its form: a bare number stays one in `units`, the file's; a text stays one, with its
/// unit, and in inches with a fraction where a ruler has it. One that is not there becomes the last field of its object,
/// in that object's style. What is written reads back to the same eighth of a micrometre. `left_out` names objects that
/// need not be in the file, with the `kind` that they have then; those are added at the file's end.
///
/// # Errors
/// See [`EditProblem`]; nothing is changed then.
///
/// ```
/// use hingeleaf::fields::{Source, edit};
/// use hingeleaf::length::{Length, Units};
/// let source = Source::new("a.json", br#"{ "page": { "width": "6 in" } }"#.to_vec()).unwrap();
/// let mends = [("page.width", Length::from_inches(6.25)), ("page.seam", Length::from_inches(0.5))];
/// let text = edit(&source, &mends, Units::Mm, &[])?;
/// assert_eq!(text, r#"{ "page": { "width": "6 1/4 in", "seam": "1/2 in" } }"#);
/// # Ok::<(), hingeleaf::fields::EditProblem>(())
/// ```
pub fn edit(
    source: &Source,
    mends: &[(&str, Length)],
    units: Units,
    left_out: &[(&str, &str)],
) -> Result<String, EditProblem> {
    let root = Node::read(source).map_err(|_| EditProblem::NotJson)?;
    let mut edits: Vec<(Range<usize>, String)> = Vec::new();
    // New fields by the object that takes them, which is told by where it starts.
    let mut added: BTreeMap<usize, (&Node, Vec<String>)> = BTreeMap::new();
    let mut objects: Vec<(&str, Vec<String>)> = Vec::new();
    for (index, &(path, value)) in mends.iter().enumerate() {
        if !value.mm().is_finite() {
            return Err(EditProblem::NotFinite(excerpt(path)));
        }
        if mends[..index].iter().any(|(earlier, _)| *earlier == path) {
            return Err(EditProblem::Twice(excerpt(path)));
        }
        let (way, name) = path.rsplit_once('.').unwrap_or(("", path));
        if !names_a_field(path) {
            return Err(EditProblem::NoPlace(excerpt(path)));
        }
        if let Some(object) = root.at(way) {
            let Tree::Object(entries) = &object.tree else { return Err(EditProblem::NoPlace(excerpt(path))) };
            if let Some(node) = object.get(name) {
                let hand = Notation::of(node).ok_or_else(|| EditProblem::NoLength(excerpt(path)))?;
                edits.push((node.range.clone(), hand.write(value, units)));
            } else {
                let text = quoted(name)
                    + &colon(source, entries)
                    + &Notation::among(entries, value, units).write(value, units);
                added.entry(object.range.start).or_insert_with(|| (object, Vec::new())).1.push(text);
            }
        } else if let Some((_, kind)) = left_out.iter().find(|(object, _)| *object == way) {
            let text = paste(name, value, units);
            match objects.iter_mut().find(|(object, _)| *object == way) {
                Some((_, fields)) => fields.push(text),
                None => objects.push((way, vec![format!("\"kind\": {}", quoted(kind)), text])),
            }
        } else {
            return Err(EditProblem::NoPlace(excerpt(path)));
        }
    }
    for (name, fields) in objects {
        let Tree::Object(entries) = &root.tree else { return Err(EditProblem::NotJson) };
        let text = format!("{}{}{{ {} }}", quoted(name), colon(source, entries), fields.join(", "));
        added.entry(root.range.start).or_insert_with(|| (&root, Vec::new())).1.push(text);
    }
    edits.extend(added.into_values().map(|(object, fields)| add(source, object, &fields)));
    // A new field comes right behind the last one, which may itself be changed.
    edits.sort_by_key(|(range, _)| (range.start, range.end));
    let (mut text, mut done) = (source.mark().to_owned(), 0);
    for (range, new) in edits {
        text += source.text().get(done..range.start).unwrap_or_default();
        text += &new;
        done = range.end;
    }
    Ok(text + source.text().get(done..).unwrap_or_default())
}

/// Whether a way ends in a field's name: in something, and in no entry of a list.
pub(super) fn names_a_field(path: &str) -> bool {
    let name = path.rsplit_once('.').map_or(path, |(_, name)| name);
    !name.is_empty() && !path.starts_with('.') && !name.contains(['[', ']'])
}

/// A field with its length as it can be put into any file of these units: `"overflap": 45`, `"overflap": "1 3/4"`.
#[must_use]
pub fn paste(name: &str, value: Length, units: Units) -> String {
    format!("{}: {}", quoted(name), Notation::usual(value, units).write(value, units))
}

/// Puts fields at an object's end, parted as its last two are.
pub(super) fn add(source: &Source, object: &Node, fields: &[String]) -> (Range<usize>, String) {
    let entries = match &object.tree {
        Tree::Object(entries) => entries.as_slice(),
        _ => &[],
    };
    let Some((_, name, last)) = entries.last() else {
        return (object.range.clone(), format!("{{ {} }}", fields.join(", ")));
    };
    let before = source.text().get(object.range.start..name.start).unwrap_or_default();
    let mut apart = &before[before.trim_end().len()..];
    // The space behind the bracket of `{"a": 1}` says nothing of how fields are parted.
    if entries.len() == 1 && !apart.contains('\n') {
        apart = if colon(source, entries).ends_with(' ') { " " } else { "" };
    }
    (last.range.end..last.range.end, fields.iter().flat_map(|field| [",", apart, field]).collect())
}

/// What stands between a name and its value in this object.
fn colon(source: &Source, entries: &[(String, Range<usize>, Node)]) -> String {
    let usual = || ": ".to_owned();
    entries.last().map_or_else(usual, |(_, name, value)| {
        let between = source.text().get(name.end..value.range.start).unwrap_or_default();
        if between.contains('\n') { usual() } else { between.to_owned() }
    })
}

/// The way of writing a length.
enum Notation {
    /// A bare number.
    Number,
    /// A text: whether its number is a decimal, and what follows the number.
    Text { decimal: bool, unit: String },
}

impl Notation {
    /// How this one is written; none where it is neither a number nor a text.
    fn of(node: &Node) -> Option<Self> {
        match &node.tree {
            Tree::Number(_) => Some(Self::Number),
            Tree::Text(text) => {
                let number = |c: char| {
                    c.is_numeric()
                        || c.is_whitespace()
                        || ".,/+-\u{2044}\u{2215}\u{2212}\u{2010}\u{2011}\u{2013}".contains(c)
                };
                let end = text.find(|c| !number(c)).unwrap_or(text.len());
                let (number, _) = text.split_at(end);
                let unit = text[number.trim_end().len()..].trim_end().to_owned();
                Some(Self::Text { decimal: number.contains('.'), unit })
            }
            _ => None,
        }
    }

    /// How an object's lengths are written, the last one first; a whole number could be either way.
    fn among(entries: &[(String, Range<usize>, Node)], value: Length, units: Units) -> Self {
        let of = |node: &Node| match &node.tree {
            Tree::Text(text) => Length::parse(text, units, Allow::Plain).ok().and_then(|_| Self::of(node)),
            Tree::Number(number) if number.fract() != 0.0 => Some(Self::Number),
            _ => None,
        };
        entries.iter().rev().find_map(|(.., node)| of(node)).unwrap_or_else(|| Self::usual(value, units))
    }

    /// How lengths are written in a file of these units where nothing else is known.
    fn usual(value: Length, units: Units) -> Self {
        let whole = (value.inches() - value.inches().round()).abs() < WHOLE;
        if units == Units::In && !whole { Self::Text { decimal: false, unit: String::new() } } else { Self::Number }
    }

    /// The length as it stands in the file.
    fn write(&self, value: Length, units: Units) -> String {
        let one = one_of(units);
        let Self::Text { decimal, unit } = self else { return decimals(value, one) };
        let scale = if unit.trim().is_empty() {
            Some(one)
        } else {
            Length::parse(&format!("1{unit}"), units, Allow::Caliper).ok()
        };
        let reads = |text: &String| {
            Length::parse(text, units, Allow::Caliper).is_ok_and(|read| read.eighths() == value.eighths())
        };
        let fraction = scale
            .filter(|scale| !decimal && scale.eighths() == one_of(Units::In).eighths())
            .map(|_| format!("{}{unit}", value.plain(Units::In)));
        let text = fraction
            .filter(reads)
            .or_else(|| scale.map(|scale| decimals(value, scale) + unit).filter(reads))
            .unwrap_or_else(|| format!("{} mm", decimals(value, Length::from_mm(1.0))));
        quoted(&text)
    }
}

/// One of these units.
fn one_of(units: Units) -> Length {
    Length::from_number(1.0, units).unwrap_or(Length::from_mm(1.0))
}

/// How many `one`s a length is, with the fewest decimals that still tell it from its neighbours.
fn decimals(value: Length, one: Length) -> String {
    let count = value.mm() / one.mm();
    let tells = |text: &String| text.parse().is_ok_and(|count: f64| (one * count).eighths() == value.eighths());
    let text = (0..MOST_DECIMALS).map(|places| format!("{count:.places$}")).find(tells);
    let text = text.unwrap_or_else(|| count.to_string());
    if text == "-0" { "0".into() } else { text }
}

/// A text as JSON writes it.
pub(super) fn quoted(text: &str) -> String {
    serde_json::Value::from(text).to_string()
}
