// SPDX-License-Identifier: MIT
//! The program as a person runs it: what a kit holds, what is refused, and that a folder is whole or not there.

use crate::common;

use crate::common::{Run, TempDir, files, fixtures, hingeleaf, names, near};
use serde_json::Value;
use std::collections::BTreeMap;
use std::fs;
use std::path::Path;
use std::process::Command;

/// How hard to look: an unoptimised program takes its time.
const EFFORT: &str = if cfg!(debug_assertions) { "low" } else { "normal" };

/// A pocket page and a hinge: three pieces, two of them the same.
const SMALL: &str = r#"{
  "format": "hingeleaf-album/1",
  "stocks": { "card": { "sheet": "A4", "caliper": 0.3 } },
  "page": { "width": 90, "height": 120, "stock": "card" },
  "pages": [{ "kind": "pocket" }]
}"#;

fn kit(album: &Path, out: &Path, more: &[&str]) -> Run {
    let words = ["kit", album.to_str().unwrap(), "--out", out.to_str().unwrap(), "--effort", EFFORT];
    hingeleaf(words.iter().chain(more))
}

#[track_caller]
fn done(run: &Run) {
    assert_eq!(run.code, 0, "{run:?}");
}

/// The run ended so, and says so in words that contain these.
#[track_caller]
fn refused(run: &Run, code: i32, words: &[&str]) {
    assert_eq!(run.code, code, "{run:?}");
    for word in words {
        assert!(run.err.contains(word), "{word:?} is not in {}", run.err);
    }
    assert!(!run.err.contains("panicked"));
}

fn report(folder: &Path) -> Value {
    serde_json::from_slice(&fs::read(folder.join("report.json")).unwrap()).unwrap()
}

fn list<'a>(value: &'a Value, name: &str) -> &'a Vec<Value> {
    value[name].as_array().unwrap_or_else(|| panic!("{name} is no list in {value}"))
}

fn text<'a>(value: &'a Value, name: &str) -> &'a str {
    value[name].as_str().unwrap_or_else(|| panic!("{name} is no text in {value}"))
}

fn whole(value: &Value, name: &str) -> u64 {
    value[name].as_u64().unwrap_or_else(|| panic!("{name} is no whole number in {value}"))
}

fn number(value: &Value, name: &str) -> f64 {
    value[name].as_f64().unwrap_or_else(|| panic!("{name} is no number in {value}"))
}

/// What a report says must agree with itself: every part is cut count x copies times, its placements are numbered from
/// 1, and the stocks' sheets are the sum of the sheets' times.
#[track_caller]
fn adds_up(report: &Value) {
    let copies = whole(report, "copies");
    let mut placed: BTreeMap<&str, (u64, Vec<u64>)> = BTreeMap::new();
    let mut sheets: BTreeMap<&str, u64> = BTreeMap::new();
    for sheet in list(report, "sheets") {
        let times = whole(sheet, "times");
        *sheets.entry(text(sheet, "stock")).or_default() += times;
        for placement in list(sheet, "placements") {
            let part = placed.entry(text(placement, "part")).or_default();
            part.0 += times;
            part.1.push(whole(placement, "copy"));
            assert!([0, 90, 180, 270].contains(&whole(placement, "turn_deg")));
        }
    }
    for part in list(report, "parts") {
        let (cut, mut numbers) = placed.remove(text(part, "id")).unwrap();
        assert_eq!(cut, whole(part, "count") * copies, "{part}");
        numbers.sort_unstable();
        assert!(numbers.iter().zip(1..).all(|(found, wanted)| *found == wanted), "{part}: {numbers:?}");
    }
    assert!(placed.is_empty(), "placed, and no part: {placed:?}");
    let areas: BTreeMap<&str, f64> =
        list(report, "parts").iter().map(|part| (text(part, "id"), number(part, "area_mm2"))).collect();
    for layout in list(report, "layouts") {
        let stock = text(layout, "stock");
        assert_eq!(Some(whole(layout, "sheets")), sheets.remove(stock));
        assert!(whole(layout, "lower_bound") <= whole(layout, "sheets"));
        let (mut used, mut all) = (0.0, 0.0);
        for sheet in list(report, "sheets").iter().filter(|sheet| text(sheet, "stock") == stock) {
            let times = number(sheet, "times");
            all += times * number(sheet, "width_mm") * number(sheet, "height_mm");
            used += times * list(sheet, "placements").iter().map(|one| areas[text(one, "part")]).sum::<f64>();
        }
        near(number(layout, "used_percent"), 100.0 * used / all, 1e-3);
    }
    assert!(sheets.is_empty());
}

#[test]
fn the_same_album_gives_the_same_bytes() {
    let folder = TempDir::new("same");
    for album in fixtures() {
        let machine = ["--kerf", "0.1", "--gap", "1", "--margin", "3"];
        let made = |name: &str, threads: &str| {
            let out = folder.join(name);
            let more: Vec<&str> = machine.into_iter().chain(["--replace", "--threads", threads]).collect();
            done(&kit(&album, &out, &more));
            files(&out)
        };
        let first = made("one", "1");
        assert!(first == made("again", "1"), "{album:?}: another run gives another kit");
        assert!(first == made("eight", "8"), "{album:?}: eight threads give another kit");

        let said = report(&folder.join("one"));
        adds_up(&said);
        for sheet in list(&said, "sheets") {
            for ending in ["svg", "dxf"] {
                let file = format!("sheets/{}.{ending}", text(sheet, "name"));
                assert!(first.contains_key(Path::new(&file)), "{file} is not there");
            }
        }
        let svgs = first.keys().filter(|path| path.extension().is_some_and(|ending| ending == "svg")).count();
        assert_eq!(svgs, list(&said, "sheets").len());
    }
    assert_eq!(folder.names(), ["again", "eight", "one"], "nothing else is left beside them");
}

#[test]
fn a_kit_is_cut_as_often_as_it_is_asked_for() {
    let folder = TempDir::new("copies");
    let album = folder.put("album.json", SMALL);
    let out = folder.join("kit");
    done(&kit(&album, &out, &["--copies", "7", "--formats", "svg,csv"]));
    let said = report(&out);
    adds_up(&said);
    assert_eq!(whole(&said, "copies"), 7);
    // Front and back are one part on plain card: two a kit; the hinge's T is the other.
    let counts: Vec<(&str, u64)> =
        list(&said, "parts").iter().map(|part| (text(part, "id"), whole(part, "count"))).collect();
    assert_eq!(counts, [("page-1-front", 2), ("hinge-t", 1)]);
    let rows = fs::read_to_string(out.join("cutting-list.csv")).unwrap();
    let rows: Vec<&str> = rows.split_terminator("\r\n").collect();
    assert_eq!(rows[0], "name,stock,width,height,count,scores,grain");
    assert!(rows[1].starts_with("page-1-front,card,90,132,14,"), "{}", rows[1]);
    assert!(rows[2].starts_with("hinge-t,card,46,120,7,"), "{}", rows[2]);
    assert_eq!(rows.len(), 3);
    assert!(names(&out.join("sheets")).iter().all(|name| name.contains(".svg")), "only what was asked for");
    for (copies, code) in [("0", 2), ("-1", 2), ("10001", 2), ("many", 2), ("1", 0)] {
        let run = kit(&album, &folder.join(&format!("copies{copies}")), &["--copies", copies]);
        assert_eq!(run.code, code, "{copies}: {run:?}");
    }
}

#[test]
fn another_sheet_can_be_taken() {
    let folder = TempDir::new("sheet");
    let album = folder.put(
        "album.json",
        SMALL.replace("0.3 } }", r#"0.3 }, "paper": { "sheet": "A4" } }, "panels": { "stock": "paper" }"#),
    );
    // ISO 216: A3 is 297 x 420, A4 210 x 297.
    let (a3, a4) = ([297.0, 420.0], [210.0, 297.0]);
    for (index, (words, card, paper)) in [
        (vec!["--sheet", "A3"], a3, a3),
        (vec!["--sheet", "card=A3"], a3, a4),
        (vec!["--sheet", "A3", "--sheet", "paper=210x297mm"], a3, a4),
        (vec![], a4, a4),
    ]
    .into_iter()
    .enumerate()
    {
        let out = folder.join(&index.to_string());
        done(&kit(&album, &out, &words));
        for sheet in list(&report(&out), "sheets") {
            let mut sides = [number(sheet, "width_mm"), number(sheet, "height_mm")];
            sides.sort_by(f64::total_cmp);
            let wanted = if text(sheet, "stock") == "card" { card } else { paper };
            assert!(
                sides.iter().zip(wanted).all(|(side, wanted)| (side - wanted).abs() < 1e-9),
                "{words:?}: {sides:?}"
            );
        }
    }
    refused(&kit(&album, &folder.join("no"), &["--sheet", "crad=A3"]), 2, &["crad", "card=A3"]);
    refused(&kit(&album, &folder.join("no"), &["--sheet", "card=A33"]), 2, &["A33", "A3"]);
    assert!(!folder.join("no").exists());
}

#[test]
fn what_stands_there_is_not_overwritten_unasked() {
    let folder = TempDir::new("replace");
    let album = folder.put("album.json", SMALL);
    let out = folder.join("kit");
    let before = |out: &Path| files(out);

    // A kit of ours: refused, then replaced as a whole, but for what is the maker's.
    done(&kit(&album, &out, &["--kerf", "0.5"]));
    let first = before(&out);
    refused(&kit(&album, &out, &[]), 2, &["there already", "--replace"]);
    assert!(before(&out) == first, "a refused run leaves the folder alone");
    fs::write(out.join("note.txt"), "mine").unwrap();
    done(&kit(&album, &out, &["--replace"]));
    assert!(before(&out) != first && fs::read_to_string(out.join("note.txt")).unwrap() == "mine");

    // A folder that holds no report of ours.
    for (name, report) in [
        ("photographs", None),
        ("other", Some(r#"{ "format": "something-else/1" }"#)),
        ("torn", Some(r#"{ "format": "hingeleaf-report/1""#)),
    ] {
        let foreign = folder.join(name);
        fs::create_dir(&foreign).unwrap();
        fs::write(foreign.join("holiday.txt"), "sea").unwrap();
        if let Some(report) = report {
            fs::write(foreign.join("report.json"), report).unwrap();
        }
        let first = before(&foreign);
        refused(&kit(&album, &foreign, &["--replace"]), 2, &[name, "left alone"]);
        refused(&kit(&album, &foreign, &[]), 2, &[name]);
        assert!(before(&foreign) == first, "{name}");
    }
    // A file in the way.
    let file = folder.put("plan", "a file");
    for more in [&["--replace"][..], &[]] {
        refused(&kit(&album, &file, more), 2, &["plan", "file"]);
    }
    assert_eq!(fs::read(&file).unwrap(), b"a file");
    // A folder without a name of its own.
    for name in [".", "..", "/"] {
        refused(&kit(&album, Path::new(name), &["--replace"]), 2, &[]);
    }
    assert_eq!(folder.names(), ["album.json", "kit", "other", "photographs", "plan", "torn"]);
}

/// What does not fit leaves nothing: no folder, none on the way to it, and an older kit as it was.
#[test]
fn a_kit_that_fails_leaves_nothing() {
    let folder = TempDir::new("fails");
    let album = folder.put("album.json", SMALL);
    let large = folder.put("large.json", SMALL.replace("\"width\": 90", "\"width\": 900"));
    let broken = folder.put("broken.json", &SMALL[..60]);
    done(&kit(&album, &folder.join("kit"), &[]));
    let first = files(&folder.join("kit"));
    for (file, code) in [(&large, 1), (&broken, 2)] {
        refused(&kit(file, &folder.join("new"), &[]), code, &[]);
        refused(&kit(file, &folder.join("kit"), &["--replace"]), code, &[]);
        assert!(files(&folder.join("kit")) == first, "the older kit is still there");
        assert_eq!(folder.names(), ["album.json", "broken.json", "kit", "large.json"]);
    }
}

#[test]
fn a_stock_with_too_few_sheets_is_said() {
    let folder = TempDir::new("count");
    let album = |count: u32| {
        let text = SMALL.replace(r#""A4","#, &format!(r#""A4", "count": {count},"#));
        folder.put(&format!("album{count}.json"), text)
    };
    // Two pieces of 90 x 132 and one of 46 x 120 go onto one sheet of 210 x 297; nine of them do not.
    done(&kit(&album(1), &folder.join("one"), &[]));
    let run = kit(&album(1), &folder.join("many"), &["--copies", "9"]);
    refused(&run, 1, &["stock card", "not enough sheets", "count"]);
    assert!(!folder.join("many").exists());
    let run = kit(&album(20), &folder.join("many"), &["--copies", "9"]);
    done(&run);
}

#[test]
fn findings_come_as_json_for_programs() {
    let folder = TempDir::new("json");
    let album = folder.put("album.json", SMALL);
    let large = folder.put("large.json", SMALL.replace("\"width\": 90", "\"width\": 900"));
    let broken = folder.put("broken.json", &SMALL[..60]);
    let missing = folder.join("missing.json");
    for (file, code, id) in
        [(&album, 0, None), (&large, 1, Some("too-big")), (&broken, 2, Some("not-json")), (&missing, 2, Some("file"))]
    {
        for command in ["check", "kit"] {
            let mut words = vec![command, file.to_str().unwrap(), "--json"];
            let out = folder.join(&format!("kit{code}"));
            words.extend(if command == "kit" { vec!["--out", out.to_str().unwrap()] } else { vec![] });
            let run = hingeleaf(&words);
            assert_eq!(run.code, code, "{command}: {run:?}");
            assert_eq!(run.err, "", "{command}: a program reads one stream");
            let json = run.json();
            let findings = list(&json, "findings");
            assert_eq!(findings.iter().any(|finding| finding["level"] == "stop"), code != 0, "{json}");
            for finding in findings {
                assert!(["stop", "warn", "note"].contains(&text(finding, "level")));
                assert!(!text(finding, "id").is_empty() && !text(finding, "text").is_empty());
            }
            if let Some(id) = id {
                let stop = findings.iter().find(|finding| finding["level"] == "stop").unwrap();
                assert_eq!(text(stop, "id"), id);
            }
            assert_eq!(out.exists(), command == "kit" && code == 0);
        }
    }
    // Both numbers of a part that is too large: 900 on a sheet that is 297 on its longer side.
    let json = hingeleaf(["check", large.to_str().unwrap(), "--json"]).json();
    let stop = &list(&json, "findings")[0];
    near(number(stop, "measured_mm"), 900.0, 1e-6);
    near(number(stop, "allowed_mm"), 297.0, 1e-6);
    // Wrong arguments too.
    let run = hingeleaf(["kit", "--json", "--no-such-thing"]);
    assert_eq!((run.code, run.json()["findings"][0]["level"].as_str()), (2, Some("stop")), "{run:?}");
}

#[test]
fn the_exit_code_says_how_it_went() {
    let folder = TempDir::new("codes");
    let album = folder.put("album.json", SMALL);
    let file = album.to_str().unwrap();
    for (words, code) in [
        (vec!["--help"], 0),
        (vec!["--version"], 0),
        (vec!["kit", "--help"], 0),
        (vec!["check", file], 0),
        (vec!["check", file, "--sheet", "80x200mm"], 1),
        (vec!["check", file, "--kerf", "-1"], 2),
        (vec!["check", file, "--kerf", "6"], 2),
        (vec!["check", file, "--margin", "wide"], 2),
        (vec!["check", file, "--dxf-version", "R9"], 2),
        (vec!["check", file, "--score", "2"], 2),
        (vec!["check", file, "--colours", "cut=red"], 2),
        (vec!["check"], 2),
        (vec!["kit", file], 2),
        (vec!["bind", file], 2),
    ] {
        let run = hingeleaf(&words);
        assert_eq!(run.code, code, "{words:?}: {run:?}");
        assert_eq!(run.out.is_empty(), code == 2, "{words:?}: {run:?}");
        assert!(code != 2 || !run.err.is_empty(), "{words:?} says what is wrong");
    }
    for command in ["new", "check", "kit", "sizes", "catalogue"] {
        assert!(hingeleaf([command, "--help"]).out.contains("Example"), "{command} shows an example");
    }
}

#[test]
fn scores_can_be_perforated() {
    let folder = TempDir::new("score");
    let album = folder.put("album.json", SMALL);
    let strokes = |name: &str, more: &[&str]| {
        let out = folder.join(name);
        done(&kit(&album, &out, more));
        let svg = fs::read_to_string(out.join("sheets/card-01.svg")).unwrap();
        let dxf = fs::read_to_string(out.join("sheets/card-01.dxf")).unwrap();
        let scores: Vec<&str> = svg.lines().filter(|line| line.contains("data-fold")).collect();
        let pieces: usize = scores.iter().map(|path| path.matches('M').count()).sum();
        (scores.len(), pieces, dxf.matches("\r\nLINE\r\n").count())
    };
    // Two pocket pieces with one score each, 90 long; a T with five, four of them 120 long and one 120 - 2 x 6 = 108.
    assert_eq!(strokes("line", &[]), (7, 7, 7));
    assert_eq!(strokes("said", &["--score", "line"]), (7, 7, 7));
    // Cuts of 2 with ties of at least 1, one more tie than cuts: floor((length - 1) / 3). The page hangs by all folds of the T:
    // ties there are at least as long as cuts, floor((length - 2) / 4).
    let cuts = 2 * 29 + 4 * 29 + 26;
    assert_eq!(strokes("dash", &["--score", "2,1"]), (7, cuts, cuts));
}

#[test]
fn new_writes_an_album_that_works_and_overwrites_none() {
    let folder = TempDir::new("new");
    for units in ["mm", "in"] {
        let file = folder.join(&format!("{units}.json"));
        let name = file.to_str().unwrap();
        done(&hingeleaf(["new", name, "--units", units]));
        let first = fs::read(&file).unwrap();
        refused(&hingeleaf(["new", name]), 2, &[name, "there already"]);
        assert!(fs::read(&file).unwrap() == first, "it is left alone");
        let run = kit(&file, &folder.join(units), &["--kerf", "0.1", "--gap", "1", "--margin", "3", "--json"]);
        done(&run);
        assert!(list(&run.json(), "findings").iter().all(|finding| finding["level"] == "note"), "{}", run.out);
        adds_up(&report(&folder.join(units)));
    }
    refused(&hingeleaf(["new", folder.path().to_str().unwrap()]), 2, &[]);
    let deep = folder.join("no").join("such").join("album.json");
    refused(&hingeleaf(["new", deep.to_str().unwrap()]), 3, &["album.json"]);
    let run = hingeleaf(["new", folder.join("mm.json").to_str().unwrap(), "--json"]);
    assert_eq!((run.code, run.json()["findings"][0]["id"].as_str()), (2, Some("exists")));
}

#[test]
fn the_catalogue_names_every_kind() {
    let json = hingeleaf(["catalogue", "--json"]).json();
    let parts = list(&json, "parts");
    let kinds: Vec<&str> = parts.iter().map(|part| text(part, "kind")).collect();
    for kind in ["pocket", "wallet", "flexi-hinge", "tag"] {
        assert!(kinds.contains(&kind), "{kind} is not in {kinds:?}");
    }
    let wallet = &parts[kinds.iter().position(|kind| *kind == "wallet").unwrap()];
    let fields: Vec<&str> = list(wallet, "fields").iter().map(|field| text(field, "name")).collect();
    assert!(["pocket", "overflap", "faces"].iter().all(|field| fields.contains(field)), "{fields:?}");
    assert!(list(&json, "sheets").iter().any(|sheet| sheet["name"] == "SRA3" && sheet["width_mm"] == 320.0));
    let words = hingeleaf(["catalogue"]);
    assert!(words.code == 0 && kinds.iter().all(|kind| words.out.contains(kind)));
}

/// As a user who may not write there: exit 3, in words with the system's reason, and nothing is left.
#[cfg(unix)]
#[test]
fn a_folder_that_may_not_be_written_is_the_machines_failure() {
    use std::os::unix::fs::PermissionsExt;
    let folder = TempDir::new("perms");
    let album = folder.put("album.json", SMALL);
    let shut = folder.join("shut");
    fs::create_dir(&shut).unwrap();
    fs::set_permissions(&shut, fs::Permissions::from_mode(0o555)).unwrap();
    let (out, words) = (shut.join("kit"), [env!("CARGO_BIN_EXE_hingeleaf"), "kit", album.to_str().unwrap(), "--out"]);
    // An administrator may write anywhere, so somebody else has to try.
    let administrator = fs::write(shut.join("probe"), "").is_ok();
    let other: &[&str] = &["setpriv", "--reuid=65534", "--regid=65534", "--clear-groups", "--"];
    let prefix = if administrator { other } else { &[] };
    if administrator {
        fs::remove_file(shut.join("probe")).unwrap();
        let able = Command::new("setpriv").args(&prefix[1..]).args([words[0], "--version"]).output();
        if !able.as_ref().is_ok_and(|run| run.status.success()) {
            return common::not_run(&format!(
                "no other user could run the program, so permissions were not tried: {able:?}"
            ));
        }
    }
    let words: Vec<&str> = prefix.iter().copied().chain(words).chain([out.to_str().unwrap()]).collect();
    let run = Run::of(Command::new(words[0]).args(&words[1..]).output().unwrap());
    refused(&run, 3, &["kit", "ermission"]);
    assert!(names(&shut).is_empty());
    fs::set_permissions(&shut, fs::Permissions::from_mode(0o755)).unwrap();
}

/// On a disk with 64 kB in all: exit 3 with the system's reason, and what was written is taken away again.
#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_is_the_machines_failure() {
    let folder = TempDir::new("full-disk");
    let disk = folder.join("disk");
    fs::create_dir(&disk).unwrap();
    let mounted = Command::new("mount").args(["-t", "tmpfs", "-o", "size=64k", "tmpfs"]).arg(&disk).status();
    if !mounted.is_ok_and(|status| status.success()) {
        return common::not_run("no small disk could be mounted (that takes an administrator)");
    }
    let album = format!("{}/fixtures/tide-table.json", env!("CARGO_MANIFEST_DIR"));
    let run = hingeleaf([
        "kit",
        &album,
        "--effort",
        "low",
        "--formats",
        "svg,dxf",
        "--out",
        disk.join("kit").to_str().unwrap(),
    ]);
    let left = names(&disk);
    assert!(Command::new("umount").arg(&disk).status().unwrap().success());
    refused(&run, 3, &["kit", "space"]);
    assert!(left.is_empty(), "{left:?}");
}

#[test]
fn a_kit_that_fails_makes_no_folders_on_the_way() {
    let folder = TempDir::new("deep");
    let large = folder.put("large.json", SMALL.replace("\"width\": 90", "\"width\": 900"));
    refused(&kit(&large, &folder.join("new").join("deep").join("kit"), &[]), 1, &[]);
    assert_eq!(folder.names(), ["large.json"]);
}

/// Offcuts come out as a drawer that the next album can name, and are not written over anything.
#[test]
fn offcuts_are_a_drawer_for_the_next_album() {
    let folder = TempDir::new("offcuts");
    let (album, saved) = (folder.put("album.json", SMALL), folder.join("left.json"));
    let options = ["--save-offcuts", saved.to_str().unwrap()];
    assert_eq!(kit(&album, &folder.join("kit"), &options).code, 0);
    let drawer: Value = serde_json::from_slice(&fs::read(&saved).unwrap()).unwrap();
    let report: Value = serde_json::from_slice(&fs::read(folder.join("kit").join("report.json")).unwrap()).unwrap();
    // As many as the report says, and none larger than it says.
    let said: u64 = list(&report, "sheets")
        .iter()
        .map(|sheet| list(sheet, "offcuts").len() as u64 * sheet["times"].as_u64().unwrap())
        .sum();
    let entries: Vec<&Value> =
        drawer["stocks"].as_object().unwrap().values().flat_map(|s| s.as_array().unwrap()).collect();
    assert!(said > 0 && entries.iter().map(|entry| entry["count"].as_u64().unwrap()).sum::<u64>() == said, "{drawer}");
    // Another album takes them: its parts are small enough for any of them.
    let name = drawer["stocks"].as_object().unwrap().keys().next().unwrap();
    let next = format!(
        r#"{{ "format": "hingeleaf-album/1", "drawer": "left.json", "stocks": {{ "{name}": {{ "sheet": "A4" }} }},
             "page": {{ "width": 30, "height": 40, "seam": 5 }}, "pages": [{{ "kind": "pocket" }}],
             "spine": {{ "kind": "flexi-hinge", "tab": 8 }} }}"#
    );
    let next = folder.put("next.json", next);
    assert_eq!(kit(&next, &folder.join("next"), &[]).code, 0);
    let report: Value = serde_json::from_slice(&fs::read(folder.join("next").join("report.json")).unwrap()).unwrap();
    assert!(list(&report, "sheets").iter().any(|sheet| sheet["from_drawer"] == true), "{report}");
    refused(&kit(&album, &folder.join("again"), &options), 2, &["left.json", "already"]);
    assert!(!folder.join("again").exists());
}
