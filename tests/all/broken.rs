// SPDX-License-Identifier: MIT
//! Broken album files: each is refused with its exit code, at its line and column, in words that help, and nothing is
//! written.

use crate::common::{Run, TempDir, hingeleaf};
use std::fs;

/// A sound album to break, one fault at a time.
const SOUND: &str = r#"{
  "format": "hingeleaf-album/1",
  "units": "mm",
  "stocks": { "card": { "sheet": "A4", "caliper": 0.3 } },
  "page": { "width": 140, "height": 180, "seam": 12, "stock": "card" },
  "pages": [
    { "kind": "pocket" },
    { "kind": "wallet", "pocket": 100, "overflap": 50, "faces": "front" }
  ],
  "spine": { "kind": "flexi-hinge", "pitch": 6, "tab": 12, "lead_in": 6 },
  "inserts": [{ "kind": "tag", "width": 80, "height": 150, "pages": [1] }]
}
"#;

/// One fault: what is replaced by what, where it is reported (the first of these letters in the broken text), how the
/// program ends, and what it must say.
struct Fault {
    from: &'static str,
    to: &'static str,
    at: &'static str,
    code: i32,
    says: &'static [&'static str],
}

const fn wrong(from: &'static str, to: &'static str, at: &'static str, says: &'static [&'static str]) -> Fault {
    Fault { from, to, at, code: 2, says }
}

const fn misfit(from: &'static str, to: &'static str, at: &'static str, says: &'static [&'static str]) -> Fault {
    Fault { from, to, at, code: 1, says }
}

const FAULTS: &[Fault] = &[
    // Not JSON.
    wrong("12, \"stock\"", "12 \"stock\"", "\"stock\": \"card\" }", &["comma"]),
    wrong("[1] }]\n}", "[1] }],\n}", "}\n\u{3}", &["comma"]),
    wrong("\"kind\": \"pocket\"", "kind: \"pocket\"", "kind: ", &["double quotes"]),
    wrong("140", "140,25", "140,25", &["140,25", "comma", "write 140.25 with a point"]),
    // A number in the place of a name is nobody's decimal where the comma stands apart.
    wrong("140", "140, 25", "25, \"height\"", &["double quotes"]),
    wrong("140", "1e999", "9, \"height\"", &["number", "too large"]),
    // Wrong types and missing things.
    wrong("140", "null", "null", &["width", "length", "null", "216 mm"]),
    wrong("140", "\"a lot\"", "\"a lot\"", &["width", "a lot", "number"]),
    wrong("140", "[140]", "[140]", &["width", "length", "list"]),
    wrong(
        "{ \"width\": 140, \"height\": 180, \"seam\": 12, \"stock\": \"card\" }",
        "140",
        "140",
        &["page", "group of fields", "number"],
    ),
    wrong("[1]", "1", "1 }]", &["pages", "list"]),
    wrong("[1]", "[1.5]", "1.5", &["pages", "1.5", "whole number"]),
    wrong("\"height\": 180, ", "", "{ \"width\": 140", &["page", "needs", "height"]),
    wrong(
        "hingeleaf-album/1",
        "hingeleaf-album/9",
        "\"hingeleaf-album/9\"",
        &["hingeleaf-album/9", "hingeleaf-album/1"],
    ),
    // Misspelt.
    wrong("\"seam\"", "\"saem\"", "\"saem\"", &["saem", "did you mean \"seam\""]),
    wrong("\"spine\"", "\"spline\"", "\"spline\"", &["spline", "did you mean \"spine\""]),
    wrong("\"pocket\" }", "\"poket\" }", "\"poket\"", &["page", "poket", "did you mean \"pocket\""]),
    wrong("\"flexi-hinge\"", "\"zipper\"", "\"zipper\"", &["spine", "zipper", "flexi-hinge"]),
    wrong("\"A4\"", "\"A44\"", "\"A44\"", &["sheet", "A44", "did you mean \"A4\""]),
    wrong("\"mm\"", "\"feet\"", "\"feet\"", &["units", "feet", "mm, cm, in"]),
    wrong("\"stock\": \"card\"", "\"stock\": \"crad\"", "\"crad\"", &["stock", "crad", "did you mean \"card\""]),
    wrong("\"front\"", "\"fornt\"", "\"fornt\"", &["faces", "fornt", "did you mean \"front\""]),
    wrong("\"card\": {", "\"Card Stock\": {", "\"Card Stock\"", &["Card Stock", "small letters"]),
    // Twice.
    wrong("\"height\": 180", "\"height\": 180, \"width\": 150", "\"width\": 150", &["width", "twice"]),
    // Numbers that no one can cut.
    wrong("140", "-140", "-140", &["width", "-140"]),
    wrong("140", "0", "0, \"height\"", &["width", "0 mm", "1 mm"]),
    wrong("140", "\"200 m\"", "\"200 m\"", &["width", "200 m"]),
    wrong("140", "9000", "9000", &["width", "9000 mm", "2000 mm"]),
    wrong("140", "\"1/0\"", "\"1/0\"", &["width", "1/0", "zero"]),
    wrong("0.3", "\"12 mm thick\"", "\"12 mm thick\"", &["caliper", "12 mm thick"]),
    wrong("0.3", "0.3, \"grammage\": \"65 lb\"", "\"65 lb\"", &["65 lb", "grade", "65 lb cover"]),
    wrong("0.3", "0.3, \"count\": 0", "0 }", &["count", "1"]),
    // Pages that are not there.
    wrong("\"pages\": [\n", "\"pages\": [], \"inserts\": [\n", "[], ", &["at least one page", "pocket"]),
    wrong("[1]", "[3]", "3] }]", &["no page 3", "has 2"]),
    // Sound to read, impossible to make.
    misfit("\"overflap\": 50", "\"overflap\": 30", "30, ", &["page 2", "flap", "10 mm", "46 mm"]),
    misfit("\"overflap\": 50", "\"overflap\": 150", "150, ", &["page 2", "flap", "150 mm", "140 mm"]),
    misfit("\"pocket\": 100", "\"pocket\": 141", "141", &["page 2", "pocket", "141 mm", "140 mm"]),
    // The hinge's tab, 12, takes its part of the pocket.
    misfit("\"width\": 80", "\"width\": 130", "130", &["tag 1", "130 mm", "page 1", "128 mm"]),
    misfit("150, \"pages\"", "181, \"pages\"", "181", &["tag 1", "181 mm", "page 1"]),
    misfit("\"lead_in\": 6", "\"lead_in\": 90", "90 }", &["lead-in", "90 mm", "half"]),
    // 300 + 12 tall on a sheet of 297. The wallet's pocket front has two seams: the tallest page that fits is 273.
    misfit(
        "180",
        "300",
        "{ \"kind\": \"pocket\" }",
        &["page 1 front", "312 mm", "15 mm too", "A4", "273 mm", "larger sheet"],
    ),
];

/// Line and column, from 1, counted in characters.
fn place(text: &str, at: &str) -> (usize, usize) {
    // The last letter of all is marked, for faults that are only met there.
    let marked = format!("{text}\u{3}");
    let offset = marked.find(at).unwrap_or_else(|| panic!("{at:?} is not in {text}"));
    let before = &marked[..offset];
    (before.matches('\n').count() + 1, before.rsplit('\n').next().unwrap().chars().count() + 1)
}

/// Nothing that only its makers could read.
#[track_caller]
fn plainly_said(run: &Run) {
    for noise in
        ["panicked", "RUST_BACKTRACE", "Some(", "Err(", "Ok(", "unwrap", "::", "\\u{", "src/", "serde", "jsonc"]
    {
        assert!(!run.err.contains(noise), "{noise:?} in {}", run.err);
    }
    assert_eq!(run.out, "", "faults are told on the other stream");
    assert!(run.err.contains("stop["));
}

/// Runs `kit` on the one file in a folder of its own; nothing may be left beside that file.
#[track_caller]
fn kit(folder: &TempDir, name: &str) -> Run {
    let before = folder.names();
    let file = folder.join(name);
    let run = hingeleaf(["kit", file.to_str().unwrap(), "--out", folder.join("out").to_str().unwrap()]);
    assert_eq!(folder.names(), before, "{name}: {run:?}");
    run
}

#[test]
fn the_album_that_is_broken_here_is_sound() {
    let folder = TempDir::new("sound");
    let file = folder.put("album.json", SOUND);
    let run = hingeleaf(["check", file.to_str().unwrap()]);
    assert_eq!((run.code, run.err.as_str()), (0, ""), "{run:?}");
}

#[test]
fn every_fault_is_refused_at_its_place() {
    let folder = TempDir::new("faults");
    for (number, fault) in FAULTS.iter().enumerate() {
        let name = format!("album-{number}.json");
        assert!(SOUND.contains(fault.from), "{}", fault.from);
        let text = SOUND.replacen(fault.from, fault.to, 1);
        folder.put(&name, &text);
        let run = kit(&folder, &name);
        assert_eq!(run.code, fault.code, "{}: {run:?}", fault.to);
        plainly_said(&run);
        for word in fault.says {
            assert!(run.err.contains(word), "{}: {word:?} is not in\n{}", fault.to, run.err);
        }
        let (line, column) = place(&text, fault.at);
        let said = format!("{name}, line {line}, column {column}");
        assert!(run.err.contains(&said), "{}: {said:?} is not in\n{}", fault.to, run.err);
        fs::remove_file(folder.join(&name)).unwrap();
    }
}

/// The same facts for programs: level, line, column and the way to the value.
#[test]
fn faults_come_as_json_with_their_place() {
    let folder = TempDir::new("json");
    for fault in FAULTS {
        let text = SOUND.replacen(fault.from, fault.to, 1);
        let file = folder.put("album.json", &text);
        let run = hingeleaf(["check", file.to_str().unwrap(), "--json"]);
        assert_eq!((run.code, run.err.as_str()), (fault.code, ""), "{}: {run:?}", fault.to);
        let json = run.json();
        let place = place(&text, fault.at);
        let found = json["findings"].as_array().unwrap().iter().any(|finding| {
            let spot = |name: &str| finding["place"][name].as_u64().and_then(|number| usize::try_from(number).ok());
            finding["level"] == "stop" && (spot("line"), spot("column")) == (Some(place.0), Some(place.1))
        });
        assert!(found, "{}: no finding at {place:?} in {json}", fault.to);
    }
}

#[test]
fn files_that_are_no_albums_are_refused() {
    let folder = TempDir::new("files");
    let brackets = [vec![b'['; 100_000], vec![b']'; 100_000]].concat();
    let cut_off = &SOUND[..SOUND.len() / 2];
    let at_end = format!("line {}", place(cut_off, "\u{3}").0);
    let latin1 = SOUND.replace("front", "fr\u{f6}nt").chars().map(|c| u8::try_from(c).unwrap()).collect::<Vec<u8>>();
    let (line, column) = place(SOUND, "ont\"");
    let at_o = format!("line {line}, column {column}");
    let deep = format!("{}\"a\": {}1{}", "{", "{\"a\": ".repeat(5000), "}".repeat(5001));
    for (name, bytes, says) in [
        ("empty.json", &b""[..], vec!["empty", "hingeleaf new"]),
        ("blank.json", b" \n\t\n", vec!["empty"]),
        ("cut-off.json", cut_off.as_bytes(), vec!["ends too early", at_end.as_str()]),
        ("latin1.json", &latin1, vec!["UTF-8", at_o.as_str()]),
        ("picture.json", b"\x89PNG\r\n\x1a\n\x00\x00", vec!["UTF-8", "line 1, column 1"]),
        ("brackets.json", &brackets, vec!["too deeply", "line 1"]),
        ("deep.json", deep.as_bytes(), vec!["too deeply", "line 1"]),
        ("list.json", b"[1, 2]", vec!["group of fields", "list"]),
        ("text.json", b"\"album\"", vec!["group of fields", "text"]),
        ("nothing.json", b"{}", vec!["format", "page", "pages"]),
        ("words.json", b"Dear album,\n", vec!["line 1"]),
        ("zeros.json", &[0; 64], vec!["line 1"]),
    ] {
        folder.put(name, bytes);
        let run = kit(&folder, name);
        assert_eq!(run.code, 2, "{name}: {run:?}");
        plainly_said(&run);
        assert!(run.err.contains(name), "{name}: {}", run.err);
        for word in says {
            assert!(run.err.contains(word), "{name}: {word:?} is not in\n{}", run.err);
        }
    }
    // No file, and a folder in its place.
    let run = kit(&folder, "missing.json");
    plainly_said(&run);
    assert!(run.code == 2 && run.err.contains("no file") && run.err.contains("missing.json"), "{run:?}");
    fs::create_dir(folder.join("folder.json")).unwrap();
    let run = kit(&folder, "folder.json");
    plainly_said(&run);
    assert!(run.code == 2 && run.err.contains("folder, not a file"), "{run:?}");
}

/// A byte order mark and other line ends are no fault.
#[test]
fn what_editors_add_is_no_fault() {
    let folder = TempDir::new("editors");
    for text in [format!("\u{feff}{SOUND}"), SOUND.replace('\n', "\r\n"), SOUND.trim_end().to_owned()] {
        let file = folder.put("album.json", &text);
        assert_eq!(hingeleaf(["check", file.to_str().unwrap()]).code, 0, "{text:?}");
        // Lines and columns are still those of the editor.
        let broken = text.replace("\"seam\"", "\"saem\"");
        let file = folder.put("album.json", &broken);
        let run = hingeleaf(["check", file.to_str().unwrap()]);
        assert!(run.err.contains("line 5, column 42"), "{}", run.err);
    }
}

#[test]
fn all_faults_are_told_at_once() {
    let folder = TempDir::new("all");
    let text = SOUND
        .replace("\"seam\"", "\"saem\"")
        .replace("\"A4\"", "\"A44\"")
        .replace("\"front\"", "\"fornt\"")
        .replace("[1]", "[9]")
        .replace("\"pitch\": 6", "\"pitch\": -6");
    folder.put("album.json", &text);
    let cutter =
        folder.put("cutter.json", "{ \"format\": \"hingeleaf-cutter/1\",\n  \"kerf\": -1, \"bed\": \"large\" }");
    let file = folder.join("album.json");
    let run = hingeleaf([
        "kit",
        file.to_str().unwrap(),
        "--out",
        folder.join("out").to_str().unwrap(),
        "--cutter",
        cutter.to_str().unwrap(),
        "--formats",
        "svg,dfx",
    ]);
    assert_eq!(run.code, 2);
    plainly_said(&run);
    for (at, word) in
        [("\"saem\"", "seam"), ("\"A44\"", "A44"), ("\"fornt\"", "front"), ("9] }]", "page 9"), ("-6", "pitch")]
    {
        let (line, column) = place(&text, at);
        assert!(run.err.contains(&format!("line {line}, column {column}")), "{at}: {}", run.err);
        assert!(run.err.contains(word), "{word}: {}", run.err);
    }
    for word in ["cutter.json, line 2, column 11", "kerf", "cutter.json, line 2, column 22", "bed", "dfx", "dxf"] {
        assert!(run.err.contains(word), "{word}: {}", run.err);
    }
    assert!(!folder.join("out").exists());
}

#[test]
fn unknown_formats_are_refused() {
    let folder = TempDir::new("formats");
    let file = folder.put("album.json", SOUND);
    for (formats, says) in
        [("dfx", vec!["dfx", "did you mean dxf"]), ("svg,doc", vec!["doc", "svg", "dxf"]), ("SVG", vec!["SVG", "svg"])]
    {
        let run = hingeleaf([
            "kit",
            file.to_str().unwrap(),
            "--out",
            folder.join("out").to_str().unwrap(),
            "--formats",
            formats,
        ]);
        assert_eq!(run.code, 2, "{formats}: {run:?}");
        plainly_said(&run);
        assert!(says.iter().all(|word| run.err.contains(word)), "{formats}: {}", run.err);
        assert_eq!(folder.names(), ["album.json"]);
    }
}

/// What was typed wrong is told together with what is wrong in the files.
#[test]
fn wrong_arguments_are_told_with_the_faults_of_the_files() {
    let folder = TempDir::new("arguments");
    let album = folder.put("album.json", SOUND.replace("\"seam\"", "\"saem\""));
    let cutter = folder.put("cutter.json", "{ \"format\": \"hingeleaf-cutter/1\", \"kerf\": -1 }");
    let words = ["check", album.to_str().unwrap(), "--cutter", cutter.to_str().unwrap()];
    let run = hingeleaf(words.into_iter().chain(["--gap", "900", "--sheet", "card=A33", "--bed", "huge"]));
    assert_eq!(run.code, 2);
    for word in ["saem", "kerf", "--gap must lie between 0 and 200 mm", "--sheet", "A33", "--bed", "huge"] {
        assert!(run.err.contains(word), "{word}: {}", run.err);
    }
}

/// A negative length is a length that is refused, not a misspelt option.
#[test]
fn a_negative_length_is_refused_as_one() {
    let folder = TempDir::new("negative");
    let album = folder.put("album.json", SOUND);
    let run = hingeleaf(["check", album.to_str().unwrap(), "--gap", "-2"]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("gap") && run.err.contains("200 mm"), "{}", run.err);
}
