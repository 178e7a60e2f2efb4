// SPDX-License-Identifier: MIT
//! The files that there are: sound ones, broken ones, those that are kept.

use super::tree::Json;
use hingeleaf::fields::Source;
use hingeleaf::finding::{Finding, Said};
use std::collections::BTreeMap;
use std::fs;
use std::path::{Path, PathBuf};

/// All files of the fixtures that are not too long, by their way in it.
pub(crate) struct Corpus(BTreeMap<PathBuf, Vec<u8>>);

/// Longer ones are for other tests.
const LONGEST: u64 = 40_000;

impl Corpus {
    pub(crate) fn new() -> Self {
        let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures");
        let mut found = BTreeMap::new();
        walk(&root, &root, &mut found);
        assert!(found.len() > 100, "only {} files", found.len());
        Self(found)
    }

    /// Those with this end of their name under one of these folders.
    pub(crate) fn under<'c>(&'c self, folders: &'c [&str], end: &'c str) -> impl Iterator<Item = (&'c Path, &'c [u8])> {
        let wanted = move |path: &Path| {
            let folder = path.parent().unwrap_or(Path::new("")).to_string_lossy().into_owned();
            folders.contains(&folder.as_str()) && path.extension().is_some_and(|ending| ending == end)
        };
        self.0.iter().filter(move |(path, _)| wanted(path)).map(|(path, bytes)| (path.as_path(), bytes.as_slice()))
    }

    /// The JSON files there that are of a format, else do not say any.
    pub(crate) fn of_format(&self, folders: &[&str], format: &str) -> Vec<Json> {
        let says = format!("hingeleaf-{format}/");
        let files = self.under(folders, "json");
        let texts = files.filter_map(|(_, bytes)| std::str::from_utf8(bytes).ok());
        let found: Vec<Json> = texts.filter(|text| text.contains(&says)).filter_map(Json::read).collect();
        assert!(!found.is_empty(), "no file of {format}");
        found
    }

    /// A file as a file of `fixtures` names it.
    pub(crate) fn source(&self, name: &str) -> Result<Source, Box<Finding>> {
        let missing = || Box::new(Finding::stop("file", Said::NOTHING, Said::new("edit-not-json")));
        let name = name.trim_start_matches("./").trim_start_matches("../");
        Source::new(name, self.0.get(Path::new(name)).ok_or_else(missing)?.clone())
    }

    /// The kind files that an album names.
    pub(crate) fn kinds(&self, name: &str) -> Result<Vec<Source>, Box<Finding>> {
        let within: Vec<Source> = self
            .under(&[name.trim_end_matches('/')], "json")
            .filter_map(|(path, bytes)| Source::new(&path.to_string_lossy(), bytes.to_vec()).ok())
            .collect();
        if within.is_empty() { self.source(name).map(|source| vec![source]) } else { Ok(within) }
    }
}

fn walk(root: &Path, folder: &Path, into: &mut BTreeMap<PathBuf, Vec<u8>>) {
    for entry in fs::read_dir(folder).expect("the fixtures are there") {
        let path = entry.expect("the folder can be read").path();
        if path.is_dir() {
            if !path.ends_with("golden") {
                walk(root, &path, into);
            }
        } else if path.metadata().is_ok_and(|about| about.len() <= LONGEST) {
            let bytes = fs::read(&path).expect("a fixture can be read");
            into.insert(path.strip_prefix(root).expect("it lies there").to_path_buf(), bytes);
        }
    }
}
