// SPDX-License-Identifier: MIT
//! What a machine may do to a run: no room, no memory, no rights, folders that go away, another run beside it, names written in two
//! ways. Nothing of the maker's is lost, nothing stands half, and words say what happened.
//!
//! A full disk and folders that may not be written have their tests in `kit.rs`, kills in `kills.rs`, links and locks in `kept.rs`.

use crate::common::{Run, TempDir, files, hingeleaf, names, project};
use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};
use std::time::{Duration, Instant};

const SMALL: &str = r#"{
  "format": "hingeleaf-album/1",
  "stocks": { "card": { "sheet": "A4", "caliper": 0.3 } },
  "page": { "width": 90, "height": 120 },
  "pages": [{ "kind": "pocket" }]
}"#;

/// A run after some words of a shell.
fn after(shell: &str, words: &[&str], folder: &Path) -> Run {
    let line = format!("{shell}; exec \"$0\" \"$@\"");
    let mut command = Command::new("sh");
    command.args(["-c", &line, env!("CARGO_BIN_EXE_hingeleaf")]).args(words).current_dir(folder);
    Run::of(command.output().unwrap())
}

/// Ended as the machine's failure, in words, without a trace of its makers.
#[track_caller]
fn failed(run: &Run, words: &[&str]) {
    assert_eq!(run.code, 3, "{run:?}");
    assert!(run.err.contains("stop[machine]") && !run.err.contains("panicked"), "{run:?}");
    assert!(words.iter().all(|word| run.err.contains(word)), "{run:?}");
}

/// Where no file may become larger than 4 KB, as with a quota that is used up: told, and nothing is left.
#[test]
fn files_that_may_not_grow_are_told() {
    let temp = TempDir::new("quota");
    let album = temp.put("album.json", SMALL);
    let shell = "trap '' XFSZ; ulimit -f 8";
    let kit = ["kit", album.to_str().unwrap(), "--effort", "low", "--formats", "svg,html", "--out", "out"];
    failed(&after(shell, &kit, temp.path()), &["out", "too large"]);
    failed(&after("trap '' XFSZ; ulimit -f 1", &["new", "new.json"], temp.path()), &["new.json"]);
    assert_eq!(temp.names(), ["album.json"]);
}

/// An album of 4 GB, most of it not even there, and one without end: refused at once, and with little memory.
#[test]
fn a_file_of_four_gigabytes_is_refused_at_once() {
    let temp = TempDir::new("four-gigabytes");
    fs::File::create(temp.join("album.json")).unwrap().set_len(4 << 30).unwrap();
    let begun = Instant::now();
    for command in ["check", "kit", "sizes", "compare"] {
        let more: &[&str] = match command {
            "kit" => &["--out", "out"],
            "compare" => &["album.json"],
            _ => &[],
        };
        let words: Vec<&str> = [command, "album.json"].into_iter().chain(more.iter().copied()).collect();
        let run = after("ulimit -v 131072", &words, temp.path());
        assert_eq!(run.code, 2, "{command}: {run:?}");
        assert!(run.err.contains("this file has 4294 MB") && run.err.contains("album.json"), "{command}: {run:?}");
    }
    if Path::new("/dev/zero").exists() {
        let run = after("ulimit -v 131072", &["check", "/dev/zero"], temp.path());
        assert!(run.code == 2 && run.err.contains("8 MB"), "{run:?}");
    }
    assert!(begun.elapsed() < Duration::from_secs(20), "{:?}", begun.elapsed());
    assert_eq!(temp.names(), ["album.json"]);
}

/// 256 MiB of address space are enough for every fixture's sheets and texts.
#[test]
fn a_quarter_of_a_gigabyte_is_enough() {
    let temp = TempDir::new("memory");
    let largest = "sorting-office.json";
    let album = project().join("fixtures").join(largest);
    let words = ["kit", album.to_str().unwrap(), "--effort", "low", "--threads", "2", "--out", "out"];
    let run = after("ulimit -v 262144", &words, temp.path());
    assert_eq!(run.code, 0, "{run:?}");
    assert!(temp.join("out/report.json").is_file());
}

/// Where there is too little memory to begin with, the run ends by itself, and what was there stays as it was.
#[test]
fn a_run_without_memory_leaves_the_old_folder() {
    let temp = TempDir::new("no-memory");
    let album = project().join("fixtures/tide-table.json");
    let words = ["kit", album.to_str().unwrap(), "--effort", "low", "--formats", "svg", "--replace", "--out", "out"];
    assert_eq!(after("true", &words, temp.path()).code, 0);
    let before = files(&temp.join("out"));
    for kilobytes in [30_000, 40_000, 50_000, 60_000] {
        let line = format!("ulimit -v {kilobytes}; exec \"$0\" \"$@\" --formats svg,dxf,csv,html --copies 3");
        let mut command = Command::new("sh");
        command.args(["-c", &line, env!("CARGO_BIN_EXE_hingeleaf")]).args(words).current_dir(temp.path());
        let done = command.output().unwrap();
        let now = files(&temp.join("out"));
        assert!(done.status.success() || now == before, "{kilobytes}: half a folder: {:?}", now.keys());
    }
    // The next run takes away what such a one left.
    assert_eq!(after("true", &words, temp.path()).code, 0);
    assert_eq!(files(&temp.join("out")), before);
    assert_eq!(temp.names(), ["out"]);
}

/// The folder that a kit is being made in goes away under it.
#[test]
fn a_folder_that_goes_away_midway_is_told() {
    let temp = TempDir::new("gone-midway");
    let album = project().join("fixtures/sketchbook.json");
    let mut told = 0;
    // How long a run writes depends on the machine: until some have lost their folder.
    for round in 0..60 {
        if told > 2 {
            break;
        }
        let home = temp.join("home");
        let _ = fs::remove_dir_all(&home);
        fs::create_dir(&home).unwrap();
        let child = Command::new(env!("CARGO_BIN_EXE_hingeleaf"))
            .args(["kit", album.to_str().unwrap(), "--effort", "low", "--formats", "svg,dxf,csv", "--out"])
            .arg(home.join("kit"))
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        // From its first file on, a little later or sooner each time.
        let begun = Instant::now();
        while names(&home).is_empty() && begun.elapsed() < Duration::from_secs(10) {
            std::thread::sleep(Duration::from_micros(200));
        }
        std::thread::sleep(Duration::from_millis(round % 6 * 4));
        let _ = fs::remove_dir_all(&home);
        let run = Run::of(child.wait_with_output().unwrap());
        if run.code == 0 {
            continue;
        }
        failed(&run, &["kit"]);
        told += 1;
        // Nothing is made anew in a folder that somebody took away.
        assert!(!home.join("kit").exists(), "round {round}");
    }
    assert!(told > 2, "only {told} runs lost their folder");
}

/// Several runs into one folder: whoever comes second is told, and the folder is one kit's, whole.
#[test]
fn runs_into_one_folder_make_one_kit() {
    let temp = TempDir::new("one-folder");
    let album = project().join("fixtures/tide-table.json");
    let command = |copies: &str, out: &str| {
        let mut command = Command::new(env!("CARGO_BIN_EXE_hingeleaf"));
        command.args(["kit", album.to_str().unwrap(), "--effort", "low", "--formats", "svg,csv", "--replace"]);
        command.args(["--copies", copies, "--out", out]).current_dir(temp.path());
        command.stdout(Stdio::piped()).stderr(Stdio::piped());
        command
    };
    let copies = ["1", "2", "3", "4"];
    let whole = copies.map(|copies| {
        assert!(command(copies, copies).output().unwrap().status.success());
        files(&temp.join(copies))
    });
    for _ in 0..4 {
        let children = copies.map(|copies| command(copies, "out").spawn().unwrap());
        let runs = children.map(|child| Run::of(child.wait_with_output().unwrap()));
        assert!(runs.iter().any(|run| run.code == 0), "{runs:?}");
        for run in runs.iter().filter(|run| run.code != 0) {
            assert!(run.code == 3 || run.code == 2, "{run:?}");
            assert!(run.err.contains("out") && run.err.contains("help:") && !run.err.contains("panicked"), "{run:?}");
        }
        assert!(whole.contains(&files(&temp.join("out"))), "{runs:?}");
    }
    assert_eq!(temp.names(), ["1", "2", "3", "4", "out"]);
}

/// Run in a folder that was taken away: what needs no folder works, what needs one says so.
#[test]
fn a_working_folder_that_is_gone_is_told() {
    let temp = TempDir::new("unlinked");
    let album = temp.put("album.json", SMALL);
    let album = album.to_str().unwrap();
    let gone = "mkdir gone && cd gone && rmdir ../gone";
    assert_eq!(after(gone, &["check", album], temp.path()).code, 0);
    let out = temp.join("out");
    let kit = ["kit", album, "--effort", "low", "--formats", "svg", "--out"];
    let there: Vec<&str> = kit.iter().copied().chain([out.to_str().unwrap()]).collect();
    assert_eq!(after(gone, &there, temp.path()).code, 0);
    let nowhere: Vec<&str> = kit.iter().copied().chain(["out"]).collect();
    failed(&after(gone, &nowhere, temp.path()), &["out"]);
    failed(&after(gone, &["new", "album.json"], temp.path()), &["album.json"]);
    assert_eq!(after(gone, &["check", "album.json"], temp.path()).code, 2);
    assert_eq!(temp.names(), ["album.json", "out"]);
}

/// A home that is not there or may not be written is nobody's business here, and nothing is written into one that may.
#[test]
fn no_home_is_needed() {
    let temp = TempDir::new("home");
    let album = temp.put("album.json", SMALL);
    let home = temp.join("home");
    fs::create_dir(&home).unwrap();
    let there = format!("export HOME='{}' XDG_CONFIG_HOME= XDG_CACHE_HOME=", home.display());
    for (round, shell) in ["unset HOME", "export HOME=/nowhere/at/all", &there].into_iter().enumerate() {
        let out = format!("out-{round}");
        let words = ["kit", album.to_str().unwrap(), "--effort", "low", "--formats", "svg", "--out", &out];
        let run = after(shell, &words, temp.path());
        assert_eq!((run.code, run.err.as_str()), (0, ""), "{shell}: {run:?}");
    }
    assert!(names(&home).is_empty(), "{:?}", names(&home));
}

/// "é" as one letter and as two: where the disk tells such names apart they are two files; each is found by its own name, and another
/// name is told as one that is not there.
#[test]
fn names_in_either_form_are_found() {
    let (one, two) = ("ausl\u{e9}.json", "ausle\u{301}.json");
    for (name, other) in [(one, two), (two, one)] {
        let temp = TempDir::new("forms");
        temp.put(name, SMALL);
        let run = after("true", &["check", name], temp.path());
        assert_eq!(run.code, 0, "{run:?}");
        let out = format!("kit-{name}");
        let kit = ["kit", name, "--effort", "low", "--formats", "svg", "--out", &out];
        assert_eq!(after("true", &kit, temp.path()).code, 0);
        assert!(temp.join(&out).join("report.json").is_file());
        let run = after("true", &["check", other], temp.path());
        // A disk that takes both for one name finds it.
        assert!(run.code == 0 || (run.code == 2 && run.err.contains("there is no file")), "{run:?}");
        // A batch that names it.
        let batch = |album: &str| {
            format!(r#"{{ "format": "hingeleaf-batch/1", "kits": [{{ "name": "a", "album": "{album}" }}] }}"#)
        };
        temp.put("batch.json", batch(name));
        assert_eq!(after("true", &["check", "batch.json"], temp.path()).code, 0);
        temp.put("batch.json", batch(other));
        let run = after("true", &["check", "batch.json"], temp.path());
        assert!(run.code == 0 || (run.code == 2 && run.err.contains("line 1, column")), "{run:?}");
    }
}

/// Nothing asks what time it is, so no clock that is set back changes anything: files that are as old as can be, or of the future,
/// are read and replaced as others are.
#[test]
fn no_file_is_judged_by_its_age() {
    let temp = TempDir::new("clock");
    let album = temp.put("album.json", SMALL);
    let out = temp.join("out");
    let words = ["kit", album.to_str().unwrap(), "--effort", "low", "--formats", "svg", "--replace", "--out"];
    let kit = || hingeleaf(words.iter().copied().chain([out.to_str().unwrap()]));
    assert_eq!(kit().code, 0);
    let before = files(&out);
    let year = Duration::from_hours(365 * 24);
    let now = std::time::SystemTime::now();
    for time in [std::time::UNIX_EPOCH, now - year, now + 20 * year] {
        for file in [&album, &out.join("report.json"), &out.join("sheets/stock-01.svg")] {
            if file.is_file() {
                fs::File::options().write(true).open(file).unwrap().set_modified(time).unwrap();
            }
        }
        let run = kit();
        assert_eq!(run.code, 0, "{run:?}");
        assert_eq!(files(&out), before);
    }
    let clocks = files(&project().join("src")).into_iter().filter(|(path, bytes)| {
        let text = String::from_utf8_lossy(bytes);
        path.extension().is_some_and(|ending| ending == "rs")
            && (text.contains("SystemTime") || text.contains("UNIX_EPOCH"))
    });
    assert_eq!(clocks.map(|(path, _)| path).collect::<Vec<_>>(), Vec::<std::path::PathBuf>::new());
}
