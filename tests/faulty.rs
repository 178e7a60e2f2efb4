// SPDX-License-Identifier: MIT
//! Every album of `fixtures/faulty` can be read and does not go together, or not well: `check` says so by the finding that
//! its file is named after, in the words beside it.
//!
//! `ID.json` or `ID.WHAT.json` is the album, the same name with `.txt` what is expected. `UPDATE_GOLDEN=1` writes the
//! expectations anew and still fails, so that nothing is accepted unseen.
#![allow(clippy::unwrap_used, reason = "a test may stop where it fails")]

mod common;

use serde_json::Value;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::{Command, Output};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/faulty")
}

fn check(name: &str, more: &[&str]) -> Output {
    let file = format!("{name}.json");
    Command::new(env!("CARGO_BIN_EXE_hingeleaf"))
        .current_dir(folder())
        .args(["check", &file])
        .args(more)
        .output()
        .unwrap()
}

#[test]
fn every_faulty_album_is_caught_by_the_finding_it_is_named_after() {
    let mut names: Vec<String> = fs::read_dir(folder())
        .unwrap()
        .map(|entry| entry.unwrap().path())
        .filter(|path| path.extension().is_some_and(|ending| ending == "json"))
        .map(|path| path.file_stem().unwrap().to_string_lossy().into_owned())
        .collect();
    names.sort();
    assert!(names.len() >= 25, "only {} faulty albums", names.len());
    let mut different = Vec::new();
    for name in &names {
        let id = name.split('.').next().unwrap();
        let said: Value = serde_json::from_slice(&check(name, &["--json"]).stdout).unwrap();
        let levels: Vec<(&str, &str)> = said["findings"]
            .as_array()
            .unwrap()
            .iter()
            .map(|finding| (finding["id"].as_str().unwrap(), finding["level"].as_str().unwrap()))
            .collect();
        // Nothing graver is said than what the fault is.
        assert_eq!(levels.first().map(|(first, _)| *first), Some(id), "{name}: {levels:?}");
        let run = check(name, &[]);
        let stops = levels.iter().any(|(_, level)| *level == "stop");
        assert_eq!(run.status.code(), Some(i32::from(stops)), "{name}");
        let words = format!("{}{}", String::from_utf8(run.stderr).unwrap(), String::from_utf8(run.stdout).unwrap());
        assert!(!words.contains("panicked") && words.len() < 4000, "{name}: {words}");
        let beside = folder().join(format!("{name}.txt"));
        if fs::read_to_string(&beside).unwrap_or_default() != words {
            if std::env::var_os("UPDATE_GOLDEN").is_some() {
                fs::write(&beside, &words).unwrap();
            }
            different.push(format!("== {name}\n{words}"));
        }
    }
    assert!(different.is_empty(), "{} messages differ:\n{}", different.len(), different.join("\n"));
}
