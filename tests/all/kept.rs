// SPDX-License-Identifier: MIT
//! What is the maker's stays theirs: files in a folder that is replaced, files that are being read, links, names.

use crate::common::{Run, TempDir, files, hingeleaf, not_run};
use serde_json::Value;
use std::fs;
use std::path::Path;
use std::process::{Command, Stdio};

const SMALL: &str = r#"{
  "format": "hingeleaf-album/1",
  "page": { "width": 90, "height": 120 },
  "pages": [{ "kind": "pocket" }]
}"#;

/// A kit that is made again where it is already.
fn kit(album: &Path, out: &Path, more: &[&str]) -> Run {
    let words = ["kit", album.to_str().unwrap(), "--effort", "low", "--formats", "svg,csv", "--replace", "--out"];
    hingeleaf(words.iter().copied().chain([out.to_str().unwrap()]).chain(more.iter().copied()))
}

#[test]
fn what_the_maker_put_into_the_folder_is_kept() {
    let temp = TempDir::new("kept");
    let (album, out) = (temp.put("album.json", SMALL), temp.join("out"));
    assert_eq!(kit(&album, &out, &[]).code, 0);
    fs::write(out.join("notes.txt"), "cut on Friday").unwrap();
    fs::write(out.join("sheets/photo.jpg"), "not a photo").unwrap();
    fs::create_dir_all(out.join("mine/deep")).unwrap();
    fs::write(out.join("mine/deep/er.txt"), "deep").unwrap();
    std::os::unix::fs::symlink("nowhere", out.join("link")).unwrap();
    let made = fs::metadata(out.join("notes.txt")).unwrap().modified().unwrap();
    for copies in ["3", "1"] {
        let run = kit(&album, &out, &["--copies", copies]);
        assert_eq!(run.code, 0, "{run:?}");
        assert!(run.out.contains("Kept link and 3 more, which were there and are not the kit's."), "{}", run.out);
        assert_eq!(fs::read_to_string(out.join("notes.txt")).unwrap(), "cut on Friday");
        assert_eq!(fs::metadata(out.join("notes.txt")).unwrap().modified().unwrap(), made);
        assert_eq!(fs::read_to_string(out.join("sheets/photo.jpg")).unwrap(), "not a photo");
        assert_eq!(fs::read_to_string(out.join("mine/deep/er.txt")).unwrap(), "deep");
        assert_eq!(fs::read_link(out.join("link")).unwrap(), Path::new("nowhere"));
    }
    assert_eq!(temp.names(), ["album.json", "out"], "something is left beside the folder");
}

#[test]
fn a_sound_folder_is_replaced_without_a_word() {
    let temp = TempDir::new("kept-none");
    let (album, out) = (temp.put("album.json", SMALL), temp.join("out"));
    assert_eq!(kit(&album, &out, &["--copies", "9"]).code, 0);
    let sheets = files(&out.join("sheets")).len();
    let run = kit(&album, &out, &[]);
    assert!(run.code == 0 && !run.out.contains("Kept"), "{run:?}");
    assert!(files(&out.join("sheets")).len() <= sheets);
    let report: Value = serde_json::from_slice(&fs::read(out.join("report.json")).unwrap()).unwrap();
    let listed: Vec<&str> =
        report["files"].as_array().unwrap().iter().map(|file| file["name"].as_str().unwrap()).collect();
    let there = files(&out);
    let mut there: Vec<&str> = there.keys().map(|path| path.to_str().unwrap()).collect();
    there.sort_unstable();
    assert_eq!(listed, there);
}

#[test]
fn an_album_in_the_folder_that_it_is_made_into_is_not_lost() {
    let temp = TempDir::new("kept-input");
    let out = temp.join("out");
    let first = temp.put("album.json", SMALL);
    assert_eq!(kit(&first, &out, &[]).code, 0);
    let within = out.join("album.json");
    fs::write(&within, SMALL).unwrap();
    fs::write(out.join("laser.json"), r#"{ "format": "hingeleaf-cutter/1", "kerf": 0.1 }"#).unwrap();
    let cutter = out.join("laser.json");
    assert_eq!(kit(&within, &out, &["--cutter", cutter.to_str().unwrap()]).code, 0);
    assert_eq!(fs::read_to_string(&within).unwrap(), SMALL);
    assert!(cutter.is_file());
}

#[test]
fn a_file_that_was_changed_since_is_not_written_over() {
    let temp = TempDir::new("kept-changed");
    let (album, out) = (temp.put("album.json", SMALL), temp.join("out"));
    assert_eq!(kit(&album, &out, &[]).code, 0);
    fs::write(out.join("cutting-list.csv"), "my own remarks").unwrap();
    let before = files(&out);
    let run = kit(&album, &out, &[]);
    assert_eq!(run.code, 2, "{run:?}");
    assert!(run.err.contains("cutting-list.csv") && run.err.contains("changed since"), "{}", run.err);
    assert_eq!(files(&out), before);
    // Under another name it is the maker's, and stays.
    fs::rename(out.join("cutting-list.csv"), out.join("my-list.csv")).unwrap();
    assert_eq!(kit(&album, &out, &[]).code, 0);
    assert_eq!(fs::read_to_string(out.join("my-list.csv")).unwrap(), "my own remarks");
}

#[test]
fn a_folder_that_does_not_say_what_is_ours_is_left_alone() {
    let temp = TempDir::new("kept-earlier");
    let (album, out) = (temp.put("album.json", SMALL), temp.join("out"));
    assert_eq!(kit(&album, &out, &[]).code, 0);
    let mut report: Value = serde_json::from_slice(&fs::read(out.join("report.json")).unwrap()).unwrap();
    report.as_object_mut().unwrap().remove("files");
    fs::write(out.join("report.json"), report.to_string()).unwrap();
    // An album may have any name, one of a kit's files too.
    fs::write(out.join("guide.html"), SMALL).unwrap();
    let run = kit(&out.join("guide.html"), &out, &[]);
    assert_eq!(run.code, 2, "{run:?}");
    assert!(run.err.contains("an earlier version"), "{}", run.err);
    assert_eq!(fs::read_to_string(out.join("guide.html")).unwrap(), SMALL);
}

#[test]
fn a_report_that_was_changed_since_is_not_written_over() {
    let temp = TempDir::new("kept-report");
    let (album, out) = (temp.put("album.json", SMALL), temp.join("out"));
    assert_eq!(kit(&album, &out, &[]).code, 0);
    let report = out.join("report.json");
    let text = fs::read_to_string(&report).unwrap();
    fs::write(&report, text.replacen("\"title\": \"Album\"", "\"title\": \"My album\"", 1)).unwrap();
    let run = kit(&album, &out, &[]);
    assert!(run.code == 2 && run.err.contains("report.json"), "{run:?}");
    fs::write(&report, text).unwrap();
    assert_eq!(kit(&album, &out, &[]).code, 0);
}

#[test]
fn folders_that_nobody_may_write_to_block_nothing() {
    // An administrator may write everywhere: this is tried as somebody else.
    let temp = TempDir::new("kept-rights");
    let (album, home) = (temp.put("album.json", SMALL), temp.join("home"));
    fs::create_dir(&home).unwrap();
    let as_nobody = |script: &str| {
        let words = ["--reuid=65534", "--regid=65534", "--clear-groups", "sh", "-c", script];
        Command::new("setpriv").args(words).current_dir(&home).output()
    };
    let open = Command::new("chmod").args(["-R", "a+rwX"]).arg(temp.path()).status().unwrap();
    let program = temp.join("program");
    fs::copy(env!("CARGO_BIN_EXE_hingeleaf"), &program).unwrap();
    let make =
        format!("{} kit {} --out k --replace --formats csv --effort low --json", program.display(), album.display());
    let script = format!(
        "umask 022; {make} && mkdir k/mine && echo x > k/mine/x && chmod 555 k/mine && {make} && {make} && ls -A"
    );
    match as_nobody(&script) {
        Ok(done) if open.success() && !String::from_utf8_lossy(&done.stderr).contains("setpriv:") => {
            let said = String::from_utf8_lossy(&done.stdout);
            assert!(done.status.success(), "{said} {}", String::from_utf8_lossy(&done.stderr));
            assert_eq!(said.lines().last(), Some("k"), "something is left beside the folder");
            assert_eq!(fs::read_to_string(home.join("k/mine/x")).unwrap(), "x\n");
        }
        _ => not_run("no other user could be tried (that takes an administrator and setpriv)"),
    }
}

#[test]
fn what_a_killed_run_left_gives_back_what_is_not_ours() {
    let temp = TempDir::new("kept-killed");
    let (album, out) = (temp.put("album.json", SMALL), temp.join("out"));
    assert_eq!(kit(&album, &out, &[]).code, 0);
    // As after a kill right behind the exchange: the old folder stands beside, with something that came into it late.
    let old = temp.join(".out.hingeleaf-new");
    assert_eq!(kit(&album, &old, &["--copies", "2"]).code, 0);
    fs::write(old.join("late.txt"), "late").unwrap();
    fs::write(out.join("twice.txt"), "new").unwrap();
    fs::write(old.join("twice.txt"), "old").unwrap();
    assert_eq!(kit(&album, &out, &[]).code, 0);
    assert_eq!(fs::read_to_string(out.join("late.txt")).unwrap(), "late");
    assert_eq!(fs::read_to_string(out.join("twice.txt")).unwrap(), "new");
    assert_eq!(fs::read_to_string(out.join("twice (kept 1).txt")).unwrap(), "old");
    assert_eq!(temp.names(), ["album.json", "out"]);
}

#[test]
fn links_under_our_own_names_stop_nobody() {
    for name in [".out.hingeleaf-new", ".out.hingeleaf-old", ".out.hingeleaf-lock"] {
        let temp = TempDir::new("kept-links");
        let (album, out) = (temp.put("album.json", SMALL), temp.join("out"));
        std::os::unix::fs::symlink(temp.join("nowhere"), temp.join(name)).unwrap();
        let run = kit(&album, &out, &[]);
        assert_eq!(run.code, 0, "{name}: {run:?}");
        assert_eq!(temp.names(), ["album.json", "out"], "{name}");
    }
}

#[test]
fn a_catalogue_keeps_what_is_not_its_own() {
    let temp = TempDir::new("kept-catalogue");
    let out = temp.join("plates");
    let make = || hingeleaf(["catalogue", "--replace", "--out", out.to_str().unwrap()]);
    assert_eq!(make().code, 0);
    fs::write(out.join("mine.txt"), "mine").unwrap();
    assert_eq!(make().code, 0);
    assert_eq!(fs::read_to_string(out.join("mine.txt")).unwrap(), "mine");
    fs::write(out.join("tag.svg"), "my own tag").unwrap();
    assert_eq!(make().code, 2);
    assert_eq!(fs::read_to_string(out.join("tag.svg")).unwrap(), "my own tag");
}

#[test]
fn runs_that_make_one_parent_at_once_all_succeed() {
    let temp = TempDir::new("kept-parents");
    let album = temp.put("album.json", SMALL);
    for round in 0..6 {
        let parent = temp.join(&format!("deep-{round}/er/still"));
        let start = |number: u32| {
            let out = parent.join(format!("kit-{number}"));
            let words =
                ["kit", album.to_str().unwrap(), "--effort", "low", "--formats", "csv", "--out", out.to_str().unwrap()];
            Command::new(env!("CARGO_BIN_EXE_hingeleaf"))
                .args(words)
                .stdout(Stdio::null())
                .stderr(Stdio::piped())
                .spawn()
        };
        let running: Vec<_> = (0..6).map(|number| start(number).unwrap()).collect();
        for run in running {
            let done = run.wait_with_output().unwrap();
            assert!(done.status.success(), "{}", String::from_utf8_lossy(&done.stderr));
        }
    }
}

#[test]
fn offcuts_are_saved_with_the_kit_or_neither_is() {
    let temp = TempDir::new("kept-offcuts");
    let (album, out) = (temp.put("album.json", SMALL), temp.join("out"));
    let nowhere = temp.join("none/left.json");
    let run = kit(&album, &out, &["--save-offcuts", nowhere.to_str().unwrap()]);
    assert_eq!(run.code, 2, "{run:?}");
    assert!(run.err.contains("there is no folder") && !out.exists(), "{}", run.err);
    let within = out.join("left.json");
    assert_eq!(kit(&album, &out, &["--save-offcuts", within.to_str().unwrap()]).code, 0);
    assert!(serde_json::from_slice::<Value>(&fs::read(&within).unwrap()).is_ok());
    // Nor do they take the place of a file of the kit.
    for name in ["report.json", "sheets/card-01.svg"] {
        let fresh = temp.join("fresh");
        let run = kit(&album, &fresh, &["--save-offcuts", fresh.join(name).to_str().unwrap()]);
        assert!(run.code == 2 && run.err.contains("a file of the kit itself") && !fresh.exists(), "{run:?}");
    }
    // A kit that is refused leaves no offcuts behind either.
    fs::write(out.join("cutting-list.csv"), "mine").unwrap();
    let beside = temp.join("beside.json");
    assert_eq!(kit(&album, &out, &["--save-offcuts", beside.to_str().unwrap()]).code, 2);
    assert!(!beside.exists());
}

#[test]
fn stocks_whose_long_names_begin_alike_keep_their_own_offcuts() {
    let temp = TempDir::new("kept-names");
    let (one, two) = ("heavy-cream-card-for-pages-a", "heavy-cream-card-for-pages-b");
    let text = format!(
        r#"{{ "format": "hingeleaf-album/1", "stocks": {{ "{one}": {{ "sheet": "A4" }}, "{two}": {{ "sheet": "A3" }} }},
        "page": {{ "width": 90, "height": 120 }}, "pages": [{{ "kind": "pocket" }}, {{ "kind": "pocket", "stock": "{two}" }}] }}"#
    );
    let (album, left) = (temp.put("album.json", text), temp.join("left.json"));
    assert_eq!(kit(&album, &temp.join("out"), &["--save-offcuts", left.to_str().unwrap()]).code, 0);
    let saved: Value = serde_json::from_slice(&fs::read(&left).unwrap()).unwrap();
    let names: Vec<&String> = saved["stocks"].as_object().unwrap().keys().collect();
    assert_eq!(names, [one, two], "{saved}");
}

#[test]
fn what_cannot_be_written_is_a_failure() {
    let temp = TempDir::new("kept-full");
    let album = temp.put("album.json", SMALL);
    let album = album.to_str().unwrap();
    let new = temp.join("new.json");
    for words in [
        vec!["check", album],
        vec!["check", album, "--json"],
        vec!["sizes", album, "--within", "1", "--effort", "low"],
        vec!["catalogue"],
        vec!["catalogue", "--json"],
        vec!["schema", "album"],
        vec!["licences"],
        vec!["new", new.to_str().unwrap()],
        vec!["--help"],
        vec!["table", "--no-browser"],
    ] {
        let full = fs::OpenOptions::new().write(true).open("/dev/full").unwrap();
        let run = Command::new(env!("CARGO_BIN_EXE_hingeleaf")).args(&words).stdout(full).output().unwrap();
        assert_eq!(run.status.code(), Some(3), "{words:?}");
        assert!(String::from_utf8_lossy(&run.stderr).contains("can't be written"), "{words:?}");
        // A reader that went away is none.
        if words[0] != "table" && words[0] != "new" {
            let mut piped =
                Command::new(env!("CARGO_BIN_EXE_hingeleaf")).args(&words).stdout(Stdio::piped()).spawn().unwrap();
            drop(piped.stdout.take());
            assert_eq!(piped.wait().unwrap().code(), Some(0), "{words:?}");
        }
    }
}

#[test]
fn the_next_command_can_be_pasted() {
    let temp = TempDir::new("kept-paste");
    for name in ["my album.json", "it's.json", "-x.json", "plain.json", "$HOME.json"] {
        let words: &[&str] = &["new", "--", name];
        let run = Command::new(env!("CARGO_BIN_EXE_hingeleaf")).current_dir(temp.path()).args(words).output().unwrap();
        let said = String::from_utf8(run.stdout).unwrap();
        let next = said.lines().last().unwrap().trim();
        let command = format!("{next} --formats csv --effort low");
        let done = Command::new("sh").current_dir(temp.path()).args(["-c", &command]).output().unwrap();
        assert!(done.status.success(), "{next}: {}", String::from_utf8_lossy(&done.stderr));
        assert!(temp.join("kit/report.json").is_file(), "{next}");
    }
}

#[test]
fn no_name_steers_the_terminal() {
    let temp = TempDir::new("kept-terminal");
    let run = hingeleaf(["check", temp.join("a\u{1b}[31m\u{202e}b.json").to_str().unwrap()]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("there is no file"), "{}", run.err);
    assert!(!run.err.contains(['\u{1b}', '\u{202e}']), "{:?}", run.err);
    let run = hingeleaf(["check", temp.join("x\nstop[forged]: y").to_str().unwrap()]);
    assert!(run.code == 2 && !run.err.contains("\nstop[forged]"), "{}", run.err);
    for text in ["a\\u001b[31mb", "a\\u202eb", "a\\u0085b", "a\\u0000b"] {
        for field in ["title", "maker", "edition", "notes"] {
            let album = SMALL.replacen('{', &format!("{{ \"{field}\": \"{text}\","), 1);
            let run = hingeleaf(["check", temp.put("album.json", album).to_str().unwrap()]);
            assert_eq!(run.code, 2, "{field} {text}");
            assert!(run.err.contains("can't be printed"), "{}", run.err);
        }
    }
    // Letters of any language, and lines of notes, are the maker's own.
    let album = SMALL.replacen('{', r#"{ "title": "Été – 花 – عيد", "notes": "one\ntwo","#, 1);
    assert_eq!(hingeleaf(["check", temp.put("album.json", album).to_str().unwrap()]).code, 0);
}

#[test]
fn prices_stay_numbers() {
    let temp = TempDir::new("kept-price");
    let with = |price: &str| {
        let text =
            SMALL.replacen('{', &format!(r#"{{ "stocks": {{ "card": {{ "sheet": "A4", "price": {price} }} }},"#), 1);
        temp.put("album.json", text)
    };
    let run = kit(&with("1e308"), &temp.join("out"), &[]);
    assert_eq!(run.code, 2, "{run:?}");
    assert!(run.err.contains("\"price\"") && run.err.contains("can't be more than 1000000"), "{}", run.err);
    assert_eq!(kit(&with("1000000"), &temp.join("out"), &[]).code, 0);
}
