// SPDX-License-Identifier: MIT
//! What a text names of other files, and how it is made to call them as they are called on the table.
//!
//! In: texts. Out: names of files; the text that calls them otherwise, else byte for byte the same. Never: what these files say.

use super::hand::Hand;
use crate::fields::{Node, Source, Tree};
use crate::finding::Finding;
use crate::outline::OUTLINE;
use serde_json::Value;
use std::collections::BTreeMap;
use std::ops::Range;

/// The fields that name files of the table.
const NAMING: [&str; 3] = ["album", "cutter", "drawer"];

/// The fields that name pictures of a stock: each file has its own of these, too.
pub(super) const PICTURES: [&str; 2] = ["picture", "picture_back"];

/// The field that names the files of an album's own kinds.
const KINDS: &str = "kinds";

/// `PlacedNames` with where they stand.
type PlacedNames = Vec<(Range<usize>, String)>;

/// The names of files in a text; those of drawings apart, for each file has its own.
#[derive(Debug, Default)]
struct NamesIn {
    files: PlacedNames,
    drawings: PlacedNames,
}

impl NamesIn {
    fn of(source: &Source) -> Self {
        let mut found = Self::default();
        if let Ok(root) = Node::read(source) {
            found.find(&root, false);
        }
        found
    }

    fn find(&mut self, node: &Node, outline: bool) {
        let fields = match &node.tree {
            Tree::Object(fields) => fields,
            Tree::Array(items) => return items.iter().for_each(|item| self.find(item, false)),
            _ => return,
        };
        for (field, _, value) in fields {
            // A change of an album says it by its way: `stocks.card.cutter`, `inserts[0].outline.file`.
            let mut way = field.rsplit('.');
            let (last, before) = (way.next().unwrap_or(field), way.next());
            let drawing =
                last == "file" && before.map_or(outline, |before| before == OUTLINE.name()) || PICTURES.contains(&last);
            match &value.tree {
                Tree::Text(name) if NAMING.contains(&last) => self.files.push((value.range.clone(), name.clone())),
                _ if last == KINDS => self.find_kinds(value),
                Tree::Text(name) if drawing => self.drawings.push((value.range.clone(), name.clone())),
                _ => self.find(value, last == OUTLINE.name()),
            }
        }
    }

    /// Kind files: one, or a list of such, each with a version or without.
    fn find_kinds(&mut self, node: &Node) {
        match &node.tree {
            Tree::Text(name) => self.files.push((node.range.clone(), name.clone())),
            Tree::Array(items) => items.iter().for_each(|item| self.find_kinds(item)),
            Tree::Object(_) => node.get("file").into_iter().for_each(|file| self.find_kinds(file)),
            _ => {}
        }
    }
}

fn once(names: PlacedNames) -> Vec<String> {
    let mut once: Vec<String> = Vec::new();
    for (_, name) in names {
        if !once.contains(&name) {
            once.push(name);
        }
    }
    once
}

/// The files that a text names, each once; no drawings.
#[must_use]
pub fn names(source: &Source) -> Vec<String> {
    once(NamesIn::of(source).files)
}

/// The drawings that a text names, each once.
#[must_use]
pub fn drawings(source: &Source) -> Vec<String> {
    once(NamesIn::of(source).drawings)
}

/// A text with other names; all else stays byte for byte.
fn renamed(source: &Source, names: PlacedNames, own: &mut dyn FnMut(&str) -> Option<String>) -> String {
    let mut text = source.text().to_owned();
    let mut changes: Vec<(Range<usize>, String)> = Vec::new();
    for (range, name) in names {
        changes.extend(own(&name).filter(|own| *own != name).map(|own| (range, own)));
    }
    for (range, own) in changes.into_iter().rev() {
        text.replace_range(range, &Value::from(own).to_string());
    }
    source.mark().to_owned() + &text
}

/// A text that calls files as they are called on the table.
fn calling(source: &Source, own: &dyn Fn(&str) -> Option<String>) -> String {
    renamed(source, NamesIn::of(source).files, &mut |name| own(name))
}

/// A text that calls drawings otherwise.
pub(super) fn calling_drawings(source: &Source, own: &mut dyn FnMut(&str) -> Option<String>) -> String {
    renamed(source, NamesIn::of(source).drawings, own)
}

/// The name without the folders before it.
pub(super) fn bare(name: &str) -> &str {
    name.rsplit(['/', '\\']).next().unwrap_or(name)
}

/// A name that none has: this one, else with a number before its ending.
pub(super) fn free(name: &str, is_free: &dyn Fn(&str) -> bool) -> String {
    let (stem, end) = name.rsplit_once('.').map_or((name, String::new()), |(stem, end)| (stem, format!(".{end}")));
    let numbered = (2..).map(|number| format!("{stem}-{number}{end}"));
    std::iter::once(name.to_owned()).chain(numbered).find(|one| is_free(one)).unwrap_or_default()
}

/// An album's text that names the files of a folder of kinds one by one; `of` gives what a name is a folder of, none where it is none.
#[must_use]
pub fn unfolded(source: &Source, of: &mut dyn FnMut(&str) -> Option<Vec<String>>) -> String {
    let root = Node::read(source).ok();
    let mut changes: Vec<(Range<usize>, String)> = Vec::new();
    let mut known: Vec<String> = Vec::new();
    let mut files = |name: &str| {
        let files = of(name)?.into_iter().filter(|file| !known.contains(file)).collect::<Vec<_>>();
        known.extend(files.iter().cloned());
        Some(files.into_iter().map(|file| Value::from(file).to_string()).collect::<Vec<_>>().join(", "))
    };
    if let Some(kinds) = root.as_ref().and_then(|root| root.get(KINDS)) {
        match &kinds.tree {
            Tree::Text(name) => {
                changes.extend(files(name).map(|files| (kinds.range.clone(), format!("[{files}]"))));
            }
            Tree::Array(items) => changes.extend(items.iter().filter_map(|item| match &item.tree {
                Tree::Text(name) => {
                    files(name).filter(|files| !files.is_empty()).map(|files| (item.range.clone(), files))
                }
                _ => None,
            })),
            _ => {}
        }
    }
    let mut text = source.text().to_owned();
    for (range, files) in changes.into_iter().rev() {
        text.replace_range(range, &files);
    }
    source.mark().to_owned() + &text
}

/// Calls files as they are called on the table, in whatever folder they were; `folder` holds the kind files of a folder that is named.
pub(super) fn call_files(
    hand: &mut Hand,
    names: &BTreeMap<String, String>,
    folder: &[String],
) -> Result<(), Box<Finding>> {
    if !folder.is_empty() {
        // A page is handed files, never a folder: what is no file's name is where they lay.
        let is_file = |said: &str| names.contains_key(said) || bare(said).to_lowercase().ends_with(".json");
        let text = unfolded(&hand.source, &mut |said| (!is_file(said)).then(|| folder.to_vec()));
        hand.take(text)?;
    }
    let text = calling(&hand.source, &|said| names.get(said).or_else(|| names.get(bare(said))).cloned());
    hand.take(text)
}

/// Files of several folders as they lie on the table, the first one first. Each comes with the way to it, which a file that names it
/// says from its own folder; on the table it is called by its name alone, by another one where that is taken.
#[must_use]
pub fn brought(files: &[(String, String)]) -> Vec<(String, String)> {
    let mut names: Vec<String> = Vec::new();
    for (way, _) in files {
        let own = free(bare(way), &|one| names.iter().all(|known| known != one));
        names.push(own);
    }
    let one = |((way, text), name): (&(String, String), &String)| {
        let own = |said: &str| {
            let to = beside_of(way, said);
            files.iter().position(|(way, _)| *way == to).map(|number| names[number].clone())
        };
        let text =
            Source::new(name, text.clone().into_bytes()).map_or_else(|_| text.clone(), |read| calling(&read, &own));
        (name.clone(), text)
    };
    files.iter().zip(&names).map(one).collect()
}

/// The way to a file that another one names, from that one's folder.
#[must_use]
pub fn beside_of(way: &str, said: &str) -> String {
    let folder = way.rfind(['/', '\\']).map_or("", |end| &way[..=end]);
    if said.starts_with(['/', '\\']) { said.to_owned() } else { format!("{folder}{said}") }
}
