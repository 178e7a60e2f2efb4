// SPDX-License-Identifier: MIT
//! The files that lie on the table beside the one that is shown: a batch's albums, drawers, cutters; all in one place.
//!
//! In: texts with their names, as the page keeps them. Out: what a file names of them, read; a text that calls them otherwise.

use super::hand::Hand;
use super::on_table::TableAlbum;
use crate::album::Album;
use crate::batch;
use crate::cutter::{self, Cutter};
use crate::drawer::{self, NamedDrawer};
use crate::fields::{Node, Source, Tree};
use crate::finding::{Arg, Finding, Place, Said};
use crate::length::excerpt;
use crate::stock::OwnCutter;
use serde_json::Value;
use std::collections::BTreeMap;
use std::ops::Range;

/// The fields that name files of the table.
const NAMING: [&str; 3] = ["album", "cutter", "drawer"];

/// Files that are named by files that are named go no further than this: a batch names albums, these a drawer.
const DEEP: usize = 3;

/// What kind of file a text says that it is: `album` for whatever says no other.
pub(super) fn kind(source: &Source) -> &'static str {
    let format = Node::read(source).ok().and_then(|root| root.get("format").map(|node| node.tree.clone()));
    match format {
        Some(Tree::Text(format)) if format == batch::FORMAT => "batch",
        Some(Tree::Text(format)) if format == drawer::FORMAT => "drawer",
        Some(Tree::Text(format)) if format == cutter::FORMAT => "cutter",
        _ => "album",
    }
}

/// A file's text by its name; `missing` says that there is none, and its help what to do.
pub(super) fn source(beside: &[TableAlbum], name: &str, missing: [&'static str; 2]) -> Result<Source, Box<Finding>> {
    let Some(text) = beside.iter().find(|one| one.name == name).and_then(|one| one.text.as_ref()) else {
        let [id, help] = missing;
        let text = Said::new("not-on-the-table").with("file", Arg::code(excerpt(name)));
        return Err(Box::new(Finding::stop(id, Said::NOTHING, text).help(Said::new(help))));
    };
    Source::new(name, text.clone().into_bytes())
}

/// What a file names of the others, and where that is told on the page.
#[derive(Debug, Default)]
pub(super) struct NamedFiles {
    /// What is wrong with it.
    pub findings: Vec<Finding>,
    /// What the drawer is called, where one is named.
    pub drawer_name: Option<String>,
    /// Its text, where it lies on the table.
    pub drawer: Option<Source>,
    /// The cutters' texts, and the fields that name them.
    cutters: Vec<(Source, String)>,
}

impl NamedFiles {
    /// Gives albums the cutters that they name.
    pub(super) fn cutters<'a>(&mut self, albums: impl Iterator<Item = &'a mut Album>, beside: &[TableAlbum]) {
        let mut known: Vec<(String, Option<Cutter>)> = Vec::new();
        for stock in albums.flat_map(|album| &mut album.stocks) {
            let Some(OwnCutter::File { name, place }) = &stock.own else { continue };
            let read = known.iter().find(|(known, _)| known == name).map(|(_, read)| read.clone());
            let read =
                read.unwrap_or_else(|| match source(beside, name, ["no-cutter-here", "cutter-not-on-the-table"]) {
                    Ok(source) => {
                        let read = cutter::read(&source);
                        let limits = read.value.iter().flat_map(Cutter::findings);
                        self.findings.extend(limits.map(|finding| finding.at(Some(place))));
                        self.findings.extend(read.findings);
                        self.cutters.push((source, place.path.clone()));
                        read.value
                    }
                    Err(finding) => {
                        self.findings.push(finding.at(Some(place)));
                        None
                    }
                });
            known.push((name.clone(), read.clone()));
            if let Some(read) = read {
                stock.own = Some(OwnCutter::Settings(read));
            }
        }
    }

    /// Reads the drawer that a file names.
    pub(super) fn drawer(&mut self, named: &mut Option<NamedDrawer>, beside: &[TableAlbum]) {
        let Some(NamedDrawer::File { name, place }) = named else { return };
        self.drawer_name = Some(name.clone());
        match source(beside, name, ["no-drawer-here", "drawer-not-on-the-table"]) {
            Ok(source) => {
                let read = drawer::read(&source);
                self.findings.extend(read.findings);
                self.drawer = Some(source);
                *named = read.value.map(NamedDrawer::Read);
            }
            Err(finding) => self.findings.push(finding.at(Some(place))),
        }
    }

    /// The file that a place is in, and the field of the page that what is found there is at; none in the file itself.
    pub(super) fn of(&self, place: &Place) -> Option<(&Source, String)> {
        let is_it = |source: &Source| *place.file == *source.name();
        let drawer = self.drawer.as_ref().filter(|drawer| is_it(drawer));
        let drawer = drawer.map(|drawer| (drawer, format!("drawer.{}", place.path)));
        let cutter = || self.cutters.iter().find(|(source, _)| is_it(source));
        drawer.or_else(|| cutter().map(|(source, path)| (source, path.clone())))
    }
}

/// The names of files in a text, each with where it stands.
fn named(node: &Node, found: &mut Vec<(Range<usize>, String)>) {
    match &node.tree {
        Tree::Object(fields) => {
            for (field, _, value) in fields {
                match &value.tree {
                    // A change of an album says it by its way: `stocks.card.cutter`.
                    Tree::Text(name) if NAMING.contains(&field.rsplit('.').next().unwrap_or(field)) => {
                        found.push((value.range.clone(), name.clone()));
                    }
                    _ => named(value, found),
                }
            }
        }
        Tree::Array(items) => items.iter().for_each(|item| named(item, found)),
        _ => {}
    }
}

fn names_in(source: &Source) -> Vec<(Range<usize>, String)> {
    let mut found = Vec::new();
    if let Ok(root) = Node::read(source) {
        named(&root, &mut found);
    }
    found
}

/// The files that a text names, each once.
#[must_use]
pub fn names(source: &Source) -> Vec<String> {
    let mut names: Vec<String> = Vec::new();
    for (_, name) in names_in(source) {
        if !names.contains(&name) {
            names.push(name);
        }
    }
    names
}

/// A text that calls files as they are called on the table; all else stays byte for byte.
pub(super) fn calling(source: &Source, own: &dyn Fn(&str) -> Option<String>) -> String {
    let mut text = source.text().to_owned();
    for (range, name) in names_in(source).into_iter().rev() {
        if let Some(own) = own(&name).filter(|own| *own != name) {
            text.replace_range(range, &Value::from(own).to_string());
        }
    }
    source.mark().to_owned() + &text
}

/// Calls files as they are called on the table, in whatever folder they were.
pub(super) fn call_files(hand: &mut Hand, names: &BTreeMap<String, String>) -> Result<(), Box<Finding>> {
    let alone = |said: &str| said.rsplit(['/', '\\']).next().unwrap_or(said).to_owned();
    let text = calling(&hand.source, &|said| names.get(said).or_else(|| names.get(&alone(said))).cloned());
    hand.take(text)
}

/// All files of the table that a text names, and that these name in turn.
pub(super) fn needed<'f>(source: &Source, beside: &'f [TableAlbum]) -> Vec<(&'f str, &'f str)> {
    let mut all: Vec<(&str, &str)> = Vec::new();
    let mut from = vec![source.clone()];
    for _ in 0..DEEP {
        let mut next = Vec::new();
        for name in from.iter().flat_map(names) {
            let file = beside.iter().find(|one| one.name == name);
            let Some((name, text)) = file.and_then(|one| Some((one.name.as_str(), one.text.as_deref()?))) else {
                continue;
            };
            if all.iter().all(|(known, _)| *known != name) {
                all.push((name, text));
                next.extend(Source::new(name, text.as_bytes().to_vec()));
            }
        }
        from = next;
    }
    all
}

/// Files of several folders as they lie on the table, the first one first. Each comes with the way to it, which a file that names it
/// says from its own folder; on the table it is called by its name alone, by another one where that is taken.
#[must_use]
pub fn brought(files: &[(String, String)]) -> Vec<(String, String)> {
    let mut names: Vec<String> = Vec::new();
    for (way, _) in files {
        let file = way.rsplit(['/', '\\']).next().unwrap_or(way);
        let (stem, end) = file.rsplit_once('.').map_or((file, String::new()), |(stem, end)| (stem, format!(".{end}")));
        let mut numbered = (2..).map(|number| format!("{stem}-{number}{end}"));
        let free = |one: &String| !names.contains(one);
        let own = Some(file.to_owned()).filter(&free).or_else(|| numbered.find(&free));
        names.push(own.unwrap_or_default());
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
