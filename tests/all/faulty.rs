// SPDX-License-Identifier: MIT
//! Every album of `fixtures/faulty` can be read and does not go together, or not well: `check` says so by the finding that
//! its file is named after, in the words beside it.
//!
//! `ID.json` or `ID.WHAT.json` is the album, the same name with `.txt` what is expected. `UPDATE_GOLDEN=1` writes the
//! expectations anew and still fails, so that nothing is accepted unseen.

use crate::common::TempDir;
use crate::common::golden::Golden;
use serde_json::Value;
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

fn names() -> Vec<String> {
    Golden::of(&folder()).names()
}

/// Findings as (id, level), gravest first.
fn found(run: &Output) -> Vec<(String, String)> {
    let said: Value = serde_json::from_slice(&run.stdout).unwrap();
    let word = |finding: &Value, name: &str| finding[name].as_str().unwrap().to_owned();
    said["findings"].as_array().unwrap().iter().map(|one| (word(one, "id"), word(one, "level"))).collect()
}

#[test]
fn every_faulty_album_is_caught_by_the_finding_it_is_named_after() {
    let names = names();
    assert!(names.len() >= 25, "only {} faulty albums", names.len());
    let mut golden = Golden::of(&folder());
    for name in &names {
        let id = name.split('.').next().unwrap();
        let levels = found(&check(name, &["--json"]));
        // Nothing graver is said than what the fault is.
        assert_eq!(levels.first().map(|(first, _)| first.as_str()), Some(id), "{name}: {levels:?}");
        let run = check(name, &[]);
        let stops = levels.iter().any(|(_, level)| level == "stop");
        assert_eq!(run.status.code(), Some(i32::from(stops)), "{name}");
        let words = format!("{}{}", String::from_utf8(run.stderr).unwrap(), String::from_utf8(run.stdout).unwrap());
        assert!(!words.contains("panicked") && words.len() < 4000, "{name}: {words}");
        golden.said(name, &words);
    }
    golden.holds();
}

/// Where a finding carries a mend, the mended album no longer has that fault, and none graver instead.
#[test]
fn a_mend_mends() {
    let temp = TempDir::new("faulty-mended");
    let mut mended = 0;
    for name in names() {
        let id = name.split('.').next().unwrap();
        let before: Value = serde_json::from_slice(&check(&name, &["--json"]).stdout).unwrap();
        if before["findings"][0].get("mend").is_none() || before["findings"][0]["level"] == "note" {
            continue;
        }
        let new = temp.path().join(format!("{name}.json"));
        let after = found(&check(&name, &["--json", "--mend", new.to_str().unwrap()]));
        let grave: Vec<_> = after.iter().filter(|(_, level)| level != "note").collect();
        assert!(grave.is_empty(), "{name}: {grave:?} after mending {id}");
        mended += 1;
    }
    assert!(mended >= 12, "only {mended} albums were mended");
}
