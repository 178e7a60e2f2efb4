// SPDX-License-Identifier: MIT
//! Every file of `fixtures/broken` ends with the exit code and the words that stand beside it, and leaves nothing behind.
//!
//! `NAME.json` is the album, `NAME.args` holds options where there are any, `NAME.txt` what is expected.
//! `UPDATE_GOLDEN=1` writes the expectations anew and still fails, so that nothing is accepted unseen.

use crate::common::TempDir;
use crate::common::golden::Golden;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::Command;

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/broken")
}

/// Runs `kit` on a broken file from within its folder, so that messages carry no path of this machine.
fn said(name: &str, out: &Path) -> String {
    let options = fs::read_to_string(folder().join(format!("{name}.args"))).unwrap_or_default();
    let run = Command::new(env!("CARGO_BIN_EXE_hingeleaf"))
        .current_dir(folder())
        .args(["kit", &format!("{name}.json"), "--effort", "low", "--formats", "svg", "--out"])
        .arg(out)
        .args(options.split_whitespace())
        .output()
        .unwrap();
    assert_eq!(String::from_utf8_lossy(&run.stdout), "", "{name} prints to standard output");
    let words = String::from_utf8(run.stderr).unwrap();
    format!("exit {}\n{words}", run.status.code().unwrap_or(-1))
}

#[test]
fn every_broken_file_is_answered_in_the_words_beside_it() {
    let temp = TempDir::new("messages");
    let out = temp.path().join("out");
    let mut golden = Golden::of(&folder());
    let names = golden.names();
    assert!(names.len() >= 50, "only {} broken files", names.len());
    for name in &names {
        let words = said(name, &out);
        assert!(words.starts_with("exit 1\nstop[") || words.starts_with("exit 2\nstop["), "{name}: {words}");
        assert!(!words.contains("panicked") && words.len() < 6000, "{name}: {words}");
        assert_eq!(fs::read_dir(temp.path()).unwrap().count(), 0, "{name} left something behind");
        golden.said(name, &words);
    }
    golden.holds();
}
