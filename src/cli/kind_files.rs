// SPDX-License-Identifier: MIT
//! The kind files that albums name: a file, or all of a folder, found from the folder of the file that names them.

use super::inputs::{Ended, source, source_as};
use super::say;
use hingeleaf::fields::Source;
use hingeleaf::finding::{Arg, Finding, Said};
use hingeleaf::outline;
use std::fs;
use std::path::{Path, PathBuf};

/// More files than this are no folder of kinds: our choice.
const MOST_FILES: usize = 500;

/// The kind files of a name; each text is kept in `sources`, so that findings can show its lines.
pub(super) fn kind_files(folder: &Path, name: &str, sources: &mut Vec<Source>) -> Result<Vec<Source>, Box<Finding>> {
    let path = folder.join(name);
    if path.extension().is_some_and(|ending| !ending.eq_ignore_ascii_case("json")) && !path.is_dir() {
        return Ok(vec![drawing(folder, name, sources)?]);
    }
    let files = if path.is_dir() { of_folder(&path)? } else { vec![path] };
    let mut found = Vec::new();
    for file in files {
        let source = source(&file, "no-kind-file-help").map_err(first)?;
        if !sources.iter().any(|known| known.name() == source.name()) {
            sources.push(source.clone());
        }
        found.push(source);
    }
    Ok(found)
}

/// A drawing that a kind names.
pub(super) fn drawing(folder: &Path, name: &str, sources: &mut Vec<Source>) -> Result<Source, Box<Finding>> {
    let found = source_as(&folder.join(name), "no-drawing-help", outline::drawing).map_err(first)?;
    if !sources.iter().any(|known| known.name() == found.name()) {
        sources.push(found.clone());
    }
    Ok(found)
}

/// The JSON files of a folder, by name.
pub(super) fn of_folder(folder: &Path) -> Result<Vec<PathBuf>, Box<Finding>> {
    let stop = |key: &'static str, error: String| {
        let text =
            Said::new(key).with("folder", Arg::code(say::name(folder))).with("error", error).with("most", MOST_FILES);
        Box::new(Finding::stop("kinds-folder", Said::NOTHING, text).help(Said::new("kinds-folder-help")))
    };
    let entries = fs::read_dir(folder).map_err(|error| stop("kinds-folder-closed", error.to_string()))?;
    let mut files: Vec<PathBuf> = entries
        .filter_map(|entry| entry.ok().map(|entry| entry.path()))
        .filter(|path| path.extension().is_some_and(|ending| ending.eq_ignore_ascii_case("json")) && path.is_file())
        .collect();
    files.sort();
    match files.len() {
        0 => Err(stop("kinds-folder-empty", String::new())),
        1..=MOST_FILES => Ok(files),
        _ => Err(stop("kinds-folder-full", String::new())),
    }
}

fn first(ended: Ended) -> Box<Finding> {
    let first = ended.findings.into_iter().next();
    Box::new(first.unwrap_or_else(|| Finding::stop("file", Said::NOTHING, Said::new("no-file"))))
}
