// SPDX-License-Identifier: MIT
//! Words that a run is expected to say, in files that lie beside what it is run on: `NAME.json` and `NAME.txt`.
//!
//! `UPDATE_GOLDEN=1` writes the expectations anew and still fails, so that nothing is accepted unseen.

use std::fs;
use std::path::{Path, PathBuf};

/// What was said otherwise than it stands in a folder.
#[derive(Debug)]
pub(crate) struct Golden {
    folder: PathBuf,
    different: Vec<String>,
}

impl Golden {
    /// Nothing yet, of a folder.
    pub(crate) fn of(folder: &Path) -> Self {
        Self { folder: folder.to_owned(), different: Vec::new() }
    }

    /// The names of the JSON files in it, in order.
    pub(crate) fn names(&self) -> Vec<String> {
        let files = fs::read_dir(&self.folder).unwrap().map(|entry| entry.unwrap().path());
        let named = files.filter(|path| path.extension().is_some_and(|ending| ending == "json"));
        let mut names: Vec<String> =
            named.map(|path| path.file_stem().unwrap().to_string_lossy().into_owned()).collect();
        names.sort();
        names
    }

    /// Takes down what was said of one.
    pub(crate) fn said(&mut self, name: &str, words: &str) {
        let beside = self.folder.join(format!("{name}.txt"));
        if fs::read_to_string(&beside).unwrap_or_default() != words {
            if std::env::var_os("UPDATE_GOLDEN").is_some() {
                fs::write(&beside, words).unwrap();
            }
            self.different.push(format!("== {name}\n{words}"));
        }
    }

    /// Holds all of it to what stands there.
    #[track_caller]
    pub(crate) fn holds(self) {
        assert!(self.different.is_empty(), "{} answers differ:\n{}", self.different.len(), self.different.join("\n"));
    }
}
