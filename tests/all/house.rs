// SPDX-License-Identifier: MIT
//! The house rules of the source: which stage may name which, how a file opens, how long it may be.

use crate::common::{files, project};
use std::collections::BTreeMap;
use std::path::Path;

/// The stages; each may name only those before it.
const ORDER: [&str; 22] = [
    "length", "finding", "fields", "contour", "stock", "cutter", "usable", "album", "net", "parts", "folded", "fit",
    "layout", "sheets", "sizes", "toolpath", "picture", "guide", "write", "work", "mend", "table",
];

/// Stages that may name even less.
const ONLY: [(&str, &[&str]); 1] = [("layout", &["length", "contour"])];

/// A file that is longer is telling something.
const LONGEST: usize = 500;

/// Every Rust file under src, by its path in it.
fn sources() -> BTreeMap<String, String> {
    let found: BTreeMap<String, String> = files(&project().join("src"))
        .into_iter()
        .filter(|(path, _)| path.extension().is_some_and(|ending| ending == "rs"))
        .map(|(path, bytes)| (path.to_str().unwrap().replace('\\', "/"), String::from_utf8(bytes).unwrap()))
        .collect();
    assert!(found.len() > 30, "src was not found");
    found
}

/// The stage that a file belongs to.
fn stage(path: &str) -> &str {
    Path::new(path).iter().next().unwrap().to_str().unwrap().trim_end_matches(".rs")
}

/// The stages that a file names: `crate::stage`, each in a list `crate::{stage, …}`, or by the way up and over.
fn named(path: &str, text: &str) -> Vec<String> {
    let up = match path.split('/').collect::<Vec<_>>()[..] {
        [_] | [_, "mod.rs"] => "super::",
        _ => "super::super::",
    };
    let mut found = Vec::new();
    for line in text.lines().filter(|line| !line.trim_start().starts_with("//")) {
        for after in line.split("crate::").skip(1).chain(line.split(up).skip(1)) {
            let list = after.strip_prefix('{').map_or(after, |list| list.split('}').next().unwrap_or(list));
            let count = if after.starts_with('{') { usize::MAX } else { 1 };
            found.extend(list.split(',').take(count).filter_map(|one| {
                let word = one.trim().split(|c: char| !c.is_alphanumeric() && c != '_').next()?;
                ORDER.contains(&word).then(|| word.to_owned())
            }));
        }
    }
    found
}

#[test]
fn a_stage_names_only_the_stages_before_it() {
    let mut checked = 0;
    for (path, text) in sources() {
        let Some(at) = ORDER.iter().position(|name| *name == stage(&path)) else { continue };
        let only = ONLY.iter().find(|(name, _)| *name == ORDER[at]).map_or(&ORDER[..at], |(_, only)| *only);
        for name in named(&path, &text).into_iter().filter(|name| *name != ORDER[at]) {
            assert!(only.contains(&name.as_str()), "src/{path} names {name}, and may name only {only:?}");
            checked += 1;
        }
    }
    assert!(checked > 50, "only {checked} imports were found");
}

/// Nothing is built beside the list: a stage is in the order, or it is a root file or the command line.
#[test]
fn every_stage_has_its_place_in_the_order() {
    for path in sources().keys() {
        let stage = stage(path);
        assert!(ORDER.contains(&stage) || ["lib", "main", "cli"].contains(&stage), "src/{path} has no place");
    }
}

/// The library never asks for the command line, and only the two ends touch files: `cli` reads, `write` writes.
#[test]
fn only_the_ends_touch_files_and_the_screen() {
    for (path, text) in sources() {
        let stage = stage(&path);
        let code: Vec<&str> = text.lines().filter(|line| !line.trim_start().starts_with("//")).collect();
        let says = |word: &str| code.iter().any(|line| line.contains(word));
        if !["cli", "write", "main", "table"].contains(&stage) {
            assert!(!says("std::fs") && !says("println!") && !says("std::process"), "src/{path} touches the outside");
        }
        // The page's server answers from what it was given.
        if stage == "table" {
            assert!(
                !says("std::fs") && !says("tokio::fs") && !says("println!"),
                "src/{path} touches files or the screen"
            );
        }
        if !["cli", "main", "table"].contains(&stage) {
            assert!(!says("SystemTime") && !says("Instant::now"), "src/{path} looks at the clock");
            assert!(!says("HashMap") && !says("HashSet"), "src/{path}: the order of a hash map is not ours to know");
        }
    }
}

#[test]
fn every_file_opens_with_its_licence_and_says_what_it_is() {
    for (path, text) in sources() {
        let mut lines = text.lines();
        assert_eq!(lines.next(), Some("// SPDX-License-Identifier: MIT"), "src/{path}");
        assert!(lines.next().is_some_and(|line| line.starts_with("//! ")), "src/{path} does not say what it is");
    }
}

#[test]
fn no_file_is_too_long() {
    for (path, text) in sources() {
        let lines = text.lines().count();
        assert!(lines <= LONGEST, "src/{path} has {lines} lines: it holds more than one thing");
    }
}
