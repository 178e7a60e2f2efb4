// SPDX-License-Identifier: MIT
//! The kinds that albums bring along.
//!
//! A kind lives as long as the program, as the built-in ones do, so that names of its panels and fields are as lasting as
//! theirs. The same kind is kept once; how much is kept in all is bounded.

use super::make::make;
use super::sizes::field_of;
use crate::album::{FOLLOWS, Kind, Role};
use crate::fields::{Field, Key, Node, Reader, Source, Text, Tree, needed, rule};
use crate::finding::{Arg, Checked, Finding, Place, Said};
use crate::kind_file::{self, BUILT_IN, Fills, KindFile};
use crate::length::excerpt;
use crate::parts::inserts::insert;
use crate::parts::maker::Maker;
use crate::parts::pages::leaf::CONTENT;
use std::collections::BTreeMap;
use std::sync::{LazyLock, Mutex, PoisonError};

/// Most bytes of kind files that are kept: our choice, some ten thousand kinds.
const MOST_BYTES: usize = 32 * 1024 * 1024;

/// Finds the kind files that an album names: a file or all of a folder, or says why there are none.
pub type KindFiles<'f> = dyn FnMut(&str) -> Result<Vec<Source>, Box<Finding>> + 'f;

/// Finds no kind file: for whoever reads an album and touches no file.
///
/// # Errors
/// Always, saying that the file has not been read.
pub fn no_kind_files(name: &str) -> Result<Vec<Source>, Box<Finding>> {
    let text = Said::new("kind-unread").with("file", Arg::code(excerpt(name)));
    Err(Box::new(Finding::stop("kind-unread", Said::NOTHING, text).help(Said::new("kind-unread-help"))))
}

/// The kinds that an album may be of.
#[derive(Debug)]
pub struct KindsRead {
    /// The built-in ones and its own.
    pub kinds: Vec<&'static Kind>,
    /// What is wrong with its own.
    pub findings: Vec<Finding>,
}

#[derive(Default)]
struct Shelf {
    /// By where they stand and what they say.
    makers: BTreeMap<String, &'static Maker>,
    bytes: usize,
}

static SHELF: LazyLock<Mutex<Shelf>> = LazyLock::new(Mutex::default);

fn key(file: &KindFile) -> String {
    let drawings = file.drawings.iter().map(|drawing| drawing.text.as_str());
    std::iter::once(format!("{} {}", file.place, file.text).as_str()).chain(drawings).collect()
}

/// The maker of a kind of one's own, kept for good; none where too many are kept.
#[must_use]
pub fn shelved(file: KindFile) -> Option<&'static Maker> {
    let mut shelf = SHELF.lock().unwrap_or_else(PoisonError::into_inner);
    let key = key(&file);
    if let Some(known) = shelf.makers.get(&key) {
        return Some(known);
    }
    shelf.bytes += key.len();
    if shelf.bytes > MOST_BYTES {
        return None;
    }
    let maker: &'static Maker = Box::leak(Box::new(maker_of(Box::leak(Box::new(file)))));
    shelf.makers.insert(key, maker);
    Some(maker)
}

/// The same of one that is kept already.
pub(in crate::parts) fn kept(file: &KindFile) -> Option<&'static Maker> {
    SHELF.lock().unwrap_or_else(PoisonError::into_inner).makers.get(&key(file)).copied()
}

/// The maker of a built-in kind that stands in a kind file; none where the file is wrong, which a test holds it not to be.
pub(in crate::parts) fn built_in(text: &'static str) -> Option<&'static Maker> {
    let source = Source::new(BUILT_IN, text.as_bytes().to_vec()).ok()?;
    shelved(kind_file::read(&source).value?)
}

/// How a kind file stands in albums.
pub(in crate::parts) fn maker_of(file: &'static KindFile) -> Maker {
    let own = file.sizes.iter().map(field_of);
    let fields: Vec<Field> = match file.fills {
        Fills::Page => own.chain([CONTENT.field]).collect(),
        Fills::Insert => {
            let named = if file.prints { insert::NAMED } else { &[FOLLOWS] };
            let sides = [insert::WIDTH.field, insert::HEIGHT.field, insert::COUNT.field, insert::THICKNESS.field];
            named.iter().copied().chain(sides).chain(own).chain([insert::PAGES.field]).collect()
        }
    };
    let role = match file.fills {
        Fills::Page => Role::Page,
        Fills::Insert => Role::Insert,
    };
    let kind =
        Kind { name: &file.name, role, about: &file.about, fields: Vec::leak(fields), ready: None, file: Some(file) };
    Maker { kind, make, carry: None, example: &file.example }
}

/// The kinds that an album may be of: the built-in ones and those that it brings along; `root` holds its values where they
/// are not the text's alone.
#[must_use]
pub fn kinds_of(
    built_in: &[&'static Kind],
    source: &Source,
    root: Option<&Node>,
    files: &mut KindFiles<'_>,
) -> KindsRead {
    let mut read = KindsRead { kinds: built_in.to_vec(), findings: Vec::new() };
    // Most albums bring none: their text is not read twice for it.
    let parsed = match root {
        Some(_) => None,
        None if source.text().contains("\"kinds\"") => Node::read(source).ok(),
        None => return read,
    };
    let Some(list) = root.or(parsed.as_ref()).and_then(|root| root.get("kinds")) else { return read };
    let one;
    let items = match &list.tree {
        Tree::Array(items) => items.as_slice(),
        Tree::Text(_) => {
            one = [list.clone()];
            &one
        }
        // The album's own reader says what is wrong with it.
        _ => return read,
    };
    for (number, node) in items.iter().enumerate() {
        let path = format!("kinds[{number}]");
        if node.get("file").is_some() {
            read.versioned(source, (node, &path), files);
            continue;
        }
        match &node.tree {
            Tree::Text(name) => {
                let place = source.place(&node.range, &path);
                read.named(name, &place, None, files);
            }
            Tree::Object(_) => {
                let mut reader = Reader::new(source);
                let mut kind = kind_file::read_at(&mut reader, node, &path);
                let place = source.place(&node.range, &path);
                reader.findings.extend(kind.iter_mut().flat_map(|kind| kind.draw(&mut |file| first(files(file)))));
                read.take(Checked { value: kind, findings: reader.findings }, &place);
            }
            _ => {}
        }
    }
    read
}

/// The first of some files.
fn first(found: Result<Vec<Source>, Box<Finding>>) -> Result<Source, Box<Finding>> {
    let file = found?.into_iter().next();
    file.ok_or_else(|| Box::new(Finding::stop("file", Said::NOTHING, Said::new("no-file"))))
}

/// The folder of a kind file, as it is named: what an album names is the file itself, or its folder.
fn folder(named: &str, file: &str) -> String {
    let bare = file.rsplit(['/', '\\']).next().unwrap_or(file);
    match named.strip_suffix(bare) {
        Some(before) => before.to_owned(),
        None if named.ends_with('/') => named.to_owned(),
        None => format!("{named}/"),
    }
}

/// The fields of a kind file that is named with its version.
const FILE: Key<Text> = Key::text("file", needed(), "the kind file, or a folder of them");
const MADE_WITH: Key<Option<Text>> = Key::text("version", rule("any"), "the version that the album was made with");

impl KindsRead {
    /// Takes the kinds of a file or folder; tells of another version than the album was made with.
    fn named(&mut self, name: &str, place: &Place, version: Option<(&str, &Place)>, files: &mut KindFiles<'_>) {
        let sources = match files(name) {
            Ok(sources) => sources,
            Err(finding) => return self.findings.push(finding.at(Some(place))),
        };
        for source in &sources {
            let mut kind = kind_file::read(source);
            let beside = |file: &str| format!("{}{file}", folder(name, source.name()));
            let drawn = kind.value.iter_mut().flat_map(|kind| kind.draw(&mut |file| first(files(&beside(file)))));
            kind.findings.extend(drawn.collect::<Vec<Finding>>());
            let now = kind.value.as_ref().map(|kind| (kind.name.clone(), kind.version.clone().unwrap_or_default()));
            if let (Some((said, place)), Some((kind, now))) = (version, now)
                && said != now
            {
                let text =
                    Said::new("kind-version").with("kind", Arg::quoted(kind)).with("said", Arg::quoted(excerpt(said)));
                let text = text.with(
                    "now",
                    if now.is_empty() { Said::new("kind-no-version").into() } else { Arg::quoted(excerpt(&now)) },
                );
                let finding = Finding::warn("kind-version", Said::NOTHING, text);
                self.findings.push(finding.help(Said::new("kind-version-help")).at(Some(place)));
            }
            self.take(kind, place);
        }
    }

    /// A file or folder with the version that the album was made with.
    fn versioned(&mut self, source: &Source, (node, path): (&Node, &str), files: &mut KindFiles<'_>) {
        let mut reader = Reader::new(source);
        let values = reader.object(node, path, Arg::field("kinds"), &[&[FILE.field, MADE_WITH.field]]);
        self.findings.append(&mut reader.findings);
        if let Some((values, place)) = values.as_ref().and_then(|values| Some((values, values.place(FILE)?)))
            && values.says(FILE)
        {
            let version = values.get(MADE_WITH).zip(values.place(MADE_WITH));
            self.named(values.get(FILE), place, version, files);
        }
    }

    fn take(&mut self, kind: Checked<KindFile>, named: &Place) {
        self.findings.extend(kind.findings);
        let Some(file) = kind.value else { return };
        let known = self.kinds.iter().any(|kind| kind.name == file.name && kind.role.word() == file.fills.word());
        if known {
            let text = Said::new("kind-name-taken").with("name", Arg::quoted(excerpt(&file.name)));
            let finding = Finding::stop("kind-name-taken", Said::NOTHING, text);
            self.findings.push(finding.help(Said::new("kind-name-taken-help")).at(Some(&file.place)));
            return;
        }
        if let Some(maker) = shelved(file) {
            self.kinds.push(&maker.kind);
        } else {
            let finding = Finding::stop("too-many-kinds", Said::NOTHING, Said::new("too-many-kinds"));
            self.findings.push(finding.help(Said::new("too-many-kinds-help")).at(Some(named)));
        }
    }
}

impl KindsRead {
    /// What was read with these kinds, and what is wrong with them; entries of a kind that could not be read are not told as
    /// well.
    #[must_use]
    pub fn with<T>(self, read: Checked<T>) -> Checked<T> {
        let mut findings = self.findings;
        let broken = crate::finding::stops(&findings);
        findings.extend(read.findings.into_iter().filter(|finding| !broken || finding.id != "unknown-kind"));
        match read.value.filter(|_| !crate::finding::stops(&findings)) {
            Some(value) => Checked::new(value, findings),
            None => Checked::none(findings),
        }
    }
}
