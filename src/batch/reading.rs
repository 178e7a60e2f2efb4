// SPDX-License-Identifier: MIT
//! What reads a batch file: its albums as they are found, with the batch's changes in them.

use super::file_fields::{CHANGE, CHOICE, NAME};
use crate::album::{self, Kind};
use crate::fields::{Grafted, Node, Reader, Source, Tree, Values};
use crate::finding::{Arg, Finding, Place, Said};
use crate::length::excerpt;
use crate::parts::{self, KindFiles, KindsRead};
use crate::stock::is_name;
use std::path::Path;

/// Gives the text of an album by the name that a batch file calls it; the finding says why there is none.
pub type Albums<'a> = dyn FnMut(&str) -> Result<Source, Box<Finding>> + 'a;

/// A batch file that is being read.
pub(super) struct BatchReading<'r, 's> {
    pub(super) source: &'s Source,
    pub(super) reader: Reader<'s>,
    pub(super) kinds: &'r [&'static Kind],
    pub(super) albums: &'r mut Albums<'r>,
    /// Kind files that the albums name.
    pub(super) kind_files: &'r mut KindFiles<'r>,
    /// The album files that were asked for.
    pub(super) files: Vec<(String, Result<Source, Box<Finding>>)>,
    /// By kit, what is wrong with its album.
    pub(super) of_albums: Vec<(String, Vec<Finding>)>,
}

/// Which file an album is read from, and what is changed in it.
pub(super) struct AlbumOf<'v> {
    pub file: &'v str,
    /// Where the file is named.
    pub place: &'v Place,
    /// What is changed, with the object that says so; the last one wins.
    pub changes: &'v [(Option<&'v Node>, &'v Values)],
    /// Whether all is cut one way, whatever single pages say.
    pub one_way: bool,
}

impl BatchReading<'_, '_> {
    pub(super) fn name(&mut self, name: &str, others: &[String], values: &Values) {
        let Some(place) = values.says(NAME).then(|| values.place(NAME)).flatten().cloned() else { return };
        if !is_name(name) {
            let text = Said::new("bad-kit-name").with("name", Arg::quoted(excerpt(name)));
            self.reader.problem("bad-name", text, Said::new("bad-kit-name-help"), &place);
        } else if others.iter().any(|other| other == name) {
            let text = Said::new("twice-kit").with("name", Arg::quoted(name));
            self.reader.problem("twice", text, Said::new("twice-kit-help"), &place);
        }
    }

    /// An album with changes in it; what is wrong with it names the kit.
    pub(super) fn changed_album(&mut self, name: &str, of: &AlbumOf<'_>) -> Option<album::Album> {
        let changed = self.changed(name, of)?;
        let own = self.kinds_of(of.file, &changed);
        let read = album::read_changed(&changed, &own.kinds);
        let read = own.with(read);
        self.of_albums.push((name.to_owned(), read.findings));
        read.value
    }

    /// The kinds that an album may be of; the files that it names are found from its own folder.
    pub(super) fn kinds_of(&mut self, file: &str, changed: &Grafted) -> KindsRead {
        let folder = Path::new(file).parent().unwrap_or(Path::new("")).to_path_buf();
        let mut files = |name: &str| (self.kind_files)(&folder.join(name).to_string_lossy());
        parts::kinds_of(self.kinds, changed.source(), Some(changed.root()), &mut files)
    }

    /// An album file with the changes in it.
    pub(super) fn changed(&mut self, name: &str, of: &AlbumOf<'_>) -> Option<Grafted> {
        let source = self.file(of.file, of.place)?;
        let mut changed = match Grafted::new(&source, self.source) {
            Ok(changed) => changed,
            Err(finding) => {
                self.of_albums.push((name.to_owned(), vec![*finding]));
                return None;
            }
        };
        for (node, values) in of.changes {
            if let Some(node) = node {
                self.change(&mut changed, node, of.file, values);
            }
        }
        if of.one_way {
            take_out_ways(&mut changed);
        }
        Some(changed)
    }

    /// An album file's text; that it is not there is told once.
    fn file(&mut self, file: &str, place: &Place) -> Option<Source> {
        if let Some((_, known)) = self.files.iter().find(|(name, _)| name == file) {
            return known.as_ref().ok().cloned();
        }
        let found = (self.albums)(file);
        if let Err(finding) = &found {
            // Where it is called, unless the file itself says where it is wrong.
            let place = finding.place.clone().unwrap_or_else(|| place.clone());
            self.reader.findings.push((**finding).clone().at(Some(&place)));
        }
        self.files.push((file.to_owned(), found.clone()));
        found.ok()
    }

    fn change(&mut self, changed: &mut Grafted, node: &Node, file: &str, values: &Values) {
        let Tree::Object(changes) = &node.tree else {
            if let Some(place) = values.place(CHANGE).cloned() {
                let text = Said::new("wrong-type-object").with("what", Arg::field(CHANGE.name()));
                let text = text.with("found", node.tree.what());
                self.reader.problem("wrong-type", text, Said::new("change-help"), &place);
            }
            return;
        };
        let chosen = values.says(CHOICE);
        for (way, range, value) in changes {
            if chosen && (way == "pages" || way.starts_with("pages[") || way.starts_with("pages.")) {
                let place = self.reader.place(range, way);
                let text = Said::new("change-and-choice").with("way", Arg::quoted(excerpt(way)));
                let text = text.with("choice", Arg::field(CHOICE.name()));
                let help = Said::new("change-and-choice-help").with("of", Arg::field("choice.of"));
                self.reader.problem("change-and-choice", text, help, &place);
                continue;
            }
            if changed.put(way, range, value).is_err() {
                let place = self.reader.place(range, way);
                let text = Said::new("change-no-place").with("way", Arg::quoted(excerpt(way)));
                let text = text.with("file", Arg::code(excerpt(file)));
                self.reader.problem("change-no-place", text, Said::new("change-no-place-help"), &place);
            }
        }
    }
}

/// Takes out what single pages, inserts, the spine, the cover, the papers say of what they are cut by.
fn take_out_ways(album: &mut Grafted) {
    let nothing = Node { range: 0..0, tree: Tree::Null };
    let entries = |of: &str| match album.root().get(of).map(|node| &node.tree) {
        Some(Tree::Array(items)) => (0..items.len()).map(|number| format!("{of}[{number}].by")).collect(),
        Some(Tree::Object(_)) => vec![format!("{of}.by")],
        _ => Vec::new(),
    };
    let ways: Vec<String> = ["pages", "inserts", "spine", "cover", "panels"].into_iter().flat_map(entries).collect();
    for way in ways {
        // What is no object has no such field, and is told when it is read.
        let _ = album.put(&way, &(0..0), &nothing);
    }
}
