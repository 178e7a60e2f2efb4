// SPDX-License-Identifier: MIT
//! Drawings at the table: brought in for an insert, told where they are at fault, taken away with the album.

use crate::common::web::Table;
use crate::common::{TempDir, files, project};
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::process::Command;

fn drawn(name: &str) -> String {
    std::fs::read_to_string(project().join("fixtures/drawn").join(name)).unwrap()
}

fn drawing(name: &str, text: &str) -> Value {
    json!({ "name": name, "text": text })
}

/// The album with its two drawings.
fn kite_day() -> Value {
    json!({
        "name": "kite-day.json", "text": drawn("kite-day.json"),
        "drawings": [drawing("kite.svg", &drawn("kite.svg")), drawing("fish.dxf", &drawn("fish.dxf"))],
    })
}

#[track_caller]
pub(crate) fn ask(table: &Table, name: &str, question: &Value) -> Value {
    let reply = table.post(name, question.to_string().as_bytes());
    assert_eq!(reply.status, 200, "{}", reply.text());
    reply.json()
}

/// The same question with a change, which must be taken.
#[track_caller]
pub(crate) fn change(table: &Table, question: &mut Value, change: &Value) -> Value {
    let mut asked = question.clone();
    asked["change"] = change.clone();
    let answer = ask(table, "work", &asked);
    assert_ne!(answer["refused"], true, "{change}: {}", answer["findings"]);
    question["text"] = answer["text"].clone();
    answer
}

fn shapes(answer: &Value) -> Vec<String> {
    let parts = answer["folds"]["parts"].as_array().unwrap();
    let shapes = parts.iter().filter(|part| part["id"].as_str().unwrap().starts_with("shape"));
    shapes.map(|part| part["size"].as_str().unwrap().to_owned()).collect()
}

fn grave(answer: &Value) -> Vec<&Value> {
    answer["fit"]["findings"].as_array().unwrap().iter().filter(|one| one["level"] != "note").collect()
}

/// As large as the drawings are: the kite is 160 x 220 and is asked for 90 wide, so 90 / 160 x 220 = 123.75 tall; the fish is drawn
/// 104 x 44.
#[test]
fn what_is_drawn_is_cut_shown_and_laid() {
    let table = Table::start();
    let answer = ask(&table, "work", &kite_day());
    assert_eq!(answer["fit"]["stopped"], false, "{}", answer["fit"]["findings"]);
    assert_eq!(shapes(&answer), ["90 × 123.75 mm", "104 × 44 mm"]);
    let inserts = &answer["album"]["inserts"];
    assert_eq!((&inserts[0]["outline"]["file"], &inserts[0]["outline"]["there"]), (&json!("kite.svg"), &json!(true)));
    let rows: Vec<&str> =
        inserts[0]["outline"]["rows"].as_array().unwrap().iter().map(|row| row["path"].as_str().unwrap()).collect();
    for field in ["unit", "width", "height", "layer", "scores", "fold"] {
        assert!(rows.contains(&format!("inserts[0].outline.{field}").as_str()), "{field}: {rows:?}");
    }
    assert!(!answer["sheets"].is_null());
    for name in ["better", "folds", "sizes"] {
        ask(&table, name, &kite_day());
    }
    // A page that stays another way leaves the drawing where it is; a drawing in a folder is known by its own name.
    let mut moved = kite_day();
    moved["text"] = drawn("kite-day.json").replace("\"kite.svg\"", "\"shapes/kite.svg\"").into();
    assert_eq!(shapes(&ask(&table, "work", &moved)), ["90 × 123.75 mm", "104 × 44 mm"]);
    // Other kinds take no drawing.
    let tags = json!({ "name": "a.json", "text": std::fs::read_to_string(project().join("fixtures/tide-table.json")).unwrap() });
    assert_eq!(ask(&table, "work", &tags)["album"]["inserts"][0]["outline"], Value::Null);
}

#[test]
fn a_drawing_is_chosen_changed_and_let_go() {
    let table = Table::start();
    let mut question = kite_day();
    let set = |field: &str, typed: &str| json!({ "do": "set", "path": format!("inserts[0].outline.{field}"), "typed": typed });
    let answer = change(&table, &mut question, &json!({ "do": "take", "path": "inserts[0].outline" }));
    assert_eq!(answer["album"]["inserts"][0]["outline"]["file"], Value::Null);
    // Our own cloud is 80 mm wide.
    assert!(shapes(&answer)[0].starts_with("80 × "), "{:?}", shapes(&answer));
    let answer = change(&table, &mut question, &set("file", "fish.dxf"));
    assert_eq!(shapes(&answer)[0], "104 × 44 mm");
    let answer = change(&table, &mut question, &set("width", "52"));
    assert_eq!(shapes(&answer)[0], "52 × 22 mm");
    let answer = change(&table, &mut question, &set("width", ""));
    assert_eq!(shapes(&answer)[0], "104 × 44 mm");
    let answer = change(&table, &mut question, &set("unit", "cm"));
    // 1040 mm wide: too large for its sheet, A4, which takes 297 along its side: 297 mm, and one length mends it.
    let found = grave(&answer);
    let big = found.iter().find(|one| one["id"] == "too-big").unwrap_or_else(|| panic!("{found:?}"));
    assert_eq!(big["mend"]["path"], "inserts[0].outline.width");
    assert!(big["mend"]["words"].as_str().unwrap().contains("297 mm"), "{}", big["mend"]);
    let mend = json!({ "do": "mend", "path": big["mend"]["path"], "eighths": big["mend"]["eighths"] });
    let answer = change(&table, &mut question, &mend);
    assert!(!grave(&answer).iter().any(|one| one["id"] == "too-big"), "{:?}", grave(&answer));
    let answer = change(&table, &mut question, &json!({ "do": "mend-all" }));
    assert_eq!(answer["fit"]["stopped"], false, "{}", answer["fit"]["findings"]);
    // Another unit of the album is another way of writing alone.
    let before = shapes(&answer);
    let mut inches = kite_day();
    let answer = change(&table, &mut inches, &json!({ "do": "units", "units": "in" }));
    let file: Value = serde_json::from_str(inches["text"].as_str().unwrap()).unwrap();
    assert_eq!(file["inserts"][0]["outline"]["width"], "90 mm");
    // The shapes stay as they are; the trial hinge, worked out on the ruler's marks, is 46.4125 mm instead of 46 mm wide.
    let told = "Sizes that are worked out now lie on the marks of another ruler: parts change by 0.42 mm at most.";
    assert_eq!(answer["notes"], json!([told]));
    assert_ne!(before, shapes(&answer));
}

/// The fault of a drawing stands at its line and column, and at the field that names it.
#[test]
fn faults_of_a_drawing_are_told_where_they_are() {
    let table = Table::start();
    let with = |svg: &str| {
        let mut question = kite_day();
        question["drawings"][0]["text"] = svg.into();
        ask(&table, "work", &question)
    };
    // The path on line 2 begins at column 3, and is open.
    let answer = with(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"90mm\" viewBox=\"0 0 90 90\">\n  <g id=\"fold\"/><path id=\"wing\" d=\"M0 0 H90 V90\"/>\n</svg>",
    );
    let found = grave(&answer);
    let told: Vec<(&str, &Value, &Value)> =
        found.iter().map(|one| (one["id"].as_str().unwrap(), &one["line"], &one["column"])).collect();
    assert!(!told.iter().any(|(id, ..)| *id == "outline-unread"), "{told:?}");
    let of_layer = found.iter().find(|one| one["id"] == "outline-no-layer").unwrap_or_else(|| panic!("{told:?}"));
    assert_eq!((&of_layer["path"], &of_layer["file"]), (&json!("inserts[0].outline"), &Value::Null));
    let answer = with(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"90mm\" viewBox=\"0 0 90 90\">\n  <path id=\"wing\" d=\"M0 0 H90 V90\"/>\n  <g id=\"fold\"><path d=\"M0 0 V9\"/></g>\n</svg>",
    );
    let found = grave(&answer);
    let open = found.iter().find(|one| one["file"] == "kite.svg").unwrap_or_else(|| panic!("{found:?}"));
    assert_eq!((&open["line"], &open["column"], &open["level"]), (&json!(2), &json!(3), &json!("stop")), "{open}");
    assert_eq!(open["path"], "inserts[0].outline.file");
    assert!(open["written"].as_str().unwrap().contains("<path id=\"wing\""), "{open}");
    assert_eq!((&answer["fit"]["stopped"], &answer["sheets"]), (&json!(true), &Value::Null));
    // Nothing is taken away of it.
    let mut question = kite_day();
    question["drawings"][0]["text"] = "no drawing".into();
    assert_eq!(table.post("kit", question.to_string().as_bytes()).status, 409);
    // What a drawing does not say is asked for at the field that says it.
    let answer = with(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 9 9\"><path d=\"M0 0 H9 V9 Z\"/><g id=\"fold\"/></svg>",
    );
    assert!(!grave(&answer).is_empty());
    let mut question = kite_day();
    question["text"] = drawn("kite-day.json").replace(", \"width\": 90, \"scores\": \"fold\"", "").into();
    let answer = ask(&table, "work", &question);
    assert_eq!(
        (&grave(&answer)[0]["id"], &grave(&answer)[0]["path"]),
        (&json!("outline-no-unit"), &json!("inserts[0].outline.width"))
    );
    // One that is not there.
    let mut question = kite_day();
    question["drawings"] = json!([drawing("fish.dxf", &drawn("fish.dxf"))]);
    let answer = ask(&table, "work", &question);
    let found = grave(&answer);
    assert_eq!((&found[0]["id"], &found[0]["path"]), (&json!("outline-unread"), &json!("inserts[0].outline")));
    assert!(found[0]["text"].as_str().unwrap().contains("“kite.svg” is not on the table"), "{}", found[0]);
    assert_eq!((&answer["album"]["inserts"][0]["outline"]["there"], found.len()), (&json!(false), 1));
}

pub(crate) fn zipped(table: &Table, question: &Value) -> BTreeMap<PathBuf, Vec<u8>> {
    table.post("kit", question.to_string().as_bytes()).unzipped()
}

/// What the command line makes of a zip's own files is what is in the zip.
#[track_caller]
pub(crate) fn makes_itself(taken: &BTreeMap<PathBuf, Vec<u8>>, file: &str, beside: &[&str]) {
    let folder = TempDir::new("drawn-zip");
    let from: Vec<&str> = [&[file], beside].concat();
    for name in &from {
        let bytes = taken.get(Path::new(name)).unwrap_or_else(|| panic!("no {name} among {:?}", taken.keys()));
        folder.put(name, bytes);
    }
    let words = ["kit", file, "--out", "kit"];
    assert_eq!(taken[Path::new("command.txt")], format!("hingeleaf {}\n", words.join(" ")).into_bytes());
    let run = Command::new(env!("CARGO_BIN_EXE_hingeleaf")).args(words).current_dir(folder.path()).output().unwrap();
    assert!(run.status.success(), "{}", String::from_utf8_lossy(&run.stderr));
    let mut written = files(&folder.join("kit"));
    written.extend(from.iter().map(|name| (PathBuf::from(name), taken[Path::new(name)].clone())));
    written.insert("command.txt".into(), taken[Path::new("command.txt")].clone());
    assert_eq!(taken.keys().collect::<Vec<_>>(), written.keys().collect::<Vec<_>>());
    for (name, bytes) in &written {
        assert!(taken[name] == *bytes, "{} differs", name.display());
    }
}

#[test]
fn the_zip_holds_the_album_with_its_drawings_and_makes_itself_again() {
    let table = Table::start();
    makes_itself(&zipped(&table, &kite_day()), "kite-day.json", &["kite.svg", "fish.dxf"]);
    // What stood in folders lies at the top, each under a name of its own.
    let mut folders = kite_day();
    let text = drawn("kite-day.json")
        .replace("\"kite.svg\"", "\"one/shape.svg\"")
        .replace("\"fish.dxf\"", "\"two/shape.svg\"");
    folders["text"] = text.into();
    folders["drawings"] =
        json!([drawing("one/shape.svg", &drawn("kite.svg")), drawing("two/shape.svg", &drawn("fish.dxf"))]);
    let taken = zipped(&table, &folders);
    assert_eq!(taken[Path::new("shape.svg")], drawn("kite.svg").into_bytes());
    assert_eq!(taken[Path::new("shape-2.svg")], drawn("fish.dxf").into_bytes());
    makes_itself(&taken, "kite-day.json", &["shape.svg", "shape-2.svg"]);
}

/// Two albums of a batch whose drawings share a name, and a kit that is cut along the other one.
#[test]
fn a_batch_keeps_the_drawings_of_its_albums_apart() {
    let table = Table::start();
    let other =
        drawn("kite-day.json").replace("Kite Day", "Sea Day").replace("\"fish.dxf\"", "\"kite.svg\", \"width\": 60");
    let batch = json!({ "format": "hingeleaf-batch/1", "title": "Fair", "kits": [
        { "name": "kite", "album": "kite-day.json" },
        { "name": "sea", "album": "sea-day.json", "change": { "inserts[0].outline": { "file": "own.svg", "width": 70, "scores": null } } },
    ] });
    let leaf = std::fs::read_to_string(project().join("fixtures/faulty/leaf.svg")).unwrap();
    let question = json!({
        "name": "fair.json", "text": batch.to_string(), "drawings": [drawing("own.svg", &leaf)],
        "files": [
            kite_day(),
            { "name": "sea-day.json", "text": other, "drawings": [drawing("kite.svg", &leaf)] },
        ],
    });
    let answer = ask(&table, "work", &question);
    assert_eq!(answer["fit"]["stopped"], false, "{}", answer["fit"]["findings"]);
    let taken = zipped(&table, &question);
    let list = String::from_utf8(taken[Path::new("cutting-list.csv")].clone()).unwrap();
    // The kite 90 wide of the one; of the other the leaf, 160 x 80, 70 and 60 wide.
    for size in ["90,123.75,", "70,35,", "60,30,"] {
        assert!(list.contains(size), "{size}: {list}");
    }
    assert_eq!(taken[Path::new("kite.svg")], drawn("kite.svg").into_bytes());
    assert_eq!(taken[Path::new("kite-2.svg")], leaf.into_bytes());
    makes_itself(
        &taken,
        "fair.json",
        &["kite-day.json", "sea-day.json", "kite.svg", "kite-2.svg", "fish.dxf", "own.svg"],
    );
    // A fault is told once: at the album that names the drawing, or in the batch where that does.
    let torn = |which: &dyn Fn(&mut Value)| {
        let mut torn = question.clone();
        which(&mut torn);
        let answer = ask(&table, "work", &torn);
        let found = grave(&answer);
        assert_eq!(found.len(), 1, "{found:?}");
        (found[0]["file"].clone(), found[0]["path"].clone())
    };
    let of_album = torn(&|question| question["files"][0]["drawings"][0]["text"] = "<svg".into());
    assert_eq!(of_album, (json!("kite.svg"), json!("kits[0].album")));
    let of_batch = torn(&|question| question["drawings"][0]["text"] = "<svg".into());
    assert_eq!(of_batch, (json!("own.svg"), json!("kits[1].change.inserts[0].outline.file")));
}

/// The program brings the drawings of the file that it is opened with; those that are not there are left to the page.
#[test]
fn the_table_is_opened_with_drawings() {
    let folder = TempDir::new("drawn-open");
    let album = folder.put("kite-day.json", drawn("kite-day.json"));
    folder.put("kite.svg", drawn("kite.svg"));
    let table = Table::start_with(&[album.to_str().unwrap()]);
    let file = table.post("open", b"{}").json()["file"].clone();
    assert_eq!(file["drawings"], json!([drawing("kite.svg", &drawn("kite.svg"))]));
    let batch = json!({ "format": "hingeleaf-batch/1", "kits": [{ "name": "kite", "album": "sub/kite-day.json" }] });
    std::fs::create_dir(folder.join("sub")).unwrap();
    for name in ["kite-day.json", "kite.svg", "fish.dxf"] {
        folder.put(&format!("sub/{name}"), drawn(name));
    }
    let batch = folder.put("fair.json", batch.to_string());
    let table = Table::start_with(&[batch.to_str().unwrap()]);
    let file = table.post("open", b"{}").json()["file"].clone();
    assert_eq!(file["files"][0]["drawings"], kite_day()["drawings"]);
    let question =
        json!({ "name": file["name"], "text": file["text"], "files": file["files"], "drawings": file["drawings"] });
    assert_eq!(ask(&table, "work", &question)["fit"]["stopped"], false);
}
