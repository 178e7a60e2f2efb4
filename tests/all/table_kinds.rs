// SPDX-License-Identifier: MIT
//! Kinds of one's own at the table: their files lie beside the album, and they are chosen, sized, cut and taken away like any kind.

use crate::common::web::Table;
use crate::common::{TempDir, project};
use crate::table_drawn::{ask, change, makes_itself, zipped};
use serde_json::{Value, json};

const NAME: &str = "step-pocket.json";

fn kind() -> String {
    std::fs::read_to_string(project().join("tests/all/kinds").join(NAME)).unwrap()
}

/// An album of two such pages, 150 mm high; `names` says how it names the kind file.
fn steps(names: &str) -> String {
    format!(
        r#"{{
  "format": "hingeleaf-album/1",
  "title": "Steps",
  "kinds": {names},
  "stocks": {{ "card": {{ "sheet": "A3", "caliper": 0.3 }} }},
  "page": {{ "width": 120, "height": 150 }},
  "pages": [{{ "kind": "step-pocket" }}, {{ "kind": "step-pocket", "mouth": 60 }}]
}}
"#
    )
}

fn beside(text: &str) -> Value {
    json!([{ "name": NAME, "text": text, "kind": "kind" }])
}

fn question(text: &str) -> Value {
    json!({ "name": "steps.json", "text": text, "files": beside(&kind()) })
}

fn names(list: &Value) -> Vec<&str> {
    list.as_array().unwrap().iter().map(|one| one["kind"].as_str().unwrap()).collect()
}

fn row<'v>(page: &'v Value, name: &str) -> &'v Value {
    let rows = ["rows", "more"].into_iter().flat_map(|list| page[list].as_array().unwrap());
    rows.into_iter().find(|row| row["path"].as_str().unwrap().ends_with(name)).unwrap()
}

/// The words of the pockets' height: what the file says of one, `height / 2` = 75 mm of the other.
#[test]
fn an_album_with_kinds_of_its_own_is_worked_on() {
    let table = Table::start();
    for list in [r#""step-pocket.json""#, r#"["step-pocket.json"]"#, r#"[{ "file": "step-pocket.json" }]"#] {
        let mut question = question(&steps(list));
        let answer = ask(&table, "work", &question);
        assert_eq!(answer["fit"]["stopped"], false, "{}", answer["fit"]["findings"]);
        assert!(names(&answer["album"]["kinds"]["page"]).contains(&"step-pocket"));
        assert!(!names(&answer["album"]["kinds"]["insert"]).contains(&"step-pocket"));
        let mouth = row(&answer["album"]["pages"][1], "mouth");
        assert_eq!((&mouth["value"], &mouth["takes"]), (&json!("60"), &json!("length")));
        assert_eq!(mouth["about"], "height of the pocket");
        // What its kind file says in a formula, the page says in words.
        let usual = &row(&answer["album"]["pages"][0], "mouth")["usual"];
        assert_eq!(usual, "follows from the others");
        change(&table, &mut question, &json!({ "do": "set", "path": "pages[0].mouth", "typed": "55" }));
        let answer =
            change(&table, &mut question, &json!({ "do": "add", "list": "pages", "at": 2, "kind": "step-pocket" }));
        assert_eq!(answer["album"]["pages"].as_array().unwrap().len(), 3);
        assert_eq!(answer["album"]["pages"][2]["kind"], "step-pocket");
        let plain = json!({ "do": "kind", "path": "pages[2]", "kind": "pocket" });
        assert_eq!(change(&table, &mut question, &plain)["album"]["pages"][2]["kind"], "pocket");
        let answer = change(&table, &mut question, &json!({ "do": "units", "units": "in" }));
        // 55 mm = 2.1653 in, 60 mm = 2.3622 in.
        let held: Value = serde_json::from_str(answer["text"].as_str().unwrap()).unwrap();
        for (page, inches) in [(0, 55.0 / 25.4), (1, 60.0 / 25.4)] {
            let mouth = held["pages"][page]["mouth"].to_string();
            let number: f64 = mouth.trim_matches('"').trim_end_matches(" mm").parse().unwrap();
            let number = if mouth.contains("mm") { number / 25.4 } else { number };
            assert!((number - inches).abs() < 0.02, "{mouth}");
        }
    }
    // Without them there is nothing of theirs to choose.
    let answer =
        ask(&table, "work", &question(&steps("[]").replace("step-pocket", "pocket").replace(", \"mouth\": 60", "")));
    assert!(!names(&answer["album"]["kinds"]["page"]).contains(&"step-pocket"));
}

#[test]
fn a_kind_file_that_is_missing_or_broken_is_told_and_mended() {
    let table = Table::start();
    let text = steps(r#"["own/step-pocket.json"]"#);
    let mut question = json!({ "name": "steps.json", "text": text });
    let answer = ask(&table, "work", &question);
    assert_eq!(answer["unread"], true);
    let ids = |answer: &Value| -> Vec<String> {
        answer["findings"].as_array().unwrap().iter().map(|one| one["id"].as_str().unwrap().to_owned()).collect()
    };
    assert_eq!((ids(&answer), &answer["missing"]), (vec!["no-kind-here".to_owned()], &json!(["own/step-pocket.json"])));
    // What was in another folder is called by its name alone, though the album can't be read before that.
    let mut asked = question.clone();
    asked["files"] = beside(&kind());
    asked["change"] = json!({ "do": "call-files", "names": { NAME: NAME } });
    let answer = ask(&table, "work", &asked);
    assert_eq!((&answer["text"], &answer["fit"]["stopped"]), (&json!(steps(r#"["step-pocket.json"]"#)), &json!(false)));
    // Nothing else is changed of what can't be read.
    asked["change"] = json!({ "do": "set", "path": "title", "typed": "No" });
    assert_eq!(ask(&table, "work", &asked)["refused"], true);
    // A mouth that no formula gives, on the file's sixth line at the latest.
    question["text"] = steps(r#"["step-pocket.json"]"#).into();
    question["files"] = beside(&kind().replace("\"height / 2\"", "\"heigth / 2\""));
    let answer = ask(&table, "work", &question);
    let found = answer["findings"].as_array().unwrap().iter().find(|one| one["level"] == "stop").unwrap();
    assert_eq!(
        (answer["unread"].clone(), found["file"].clone(), found["line"].clone()),
        (json!(true), json!(NAME), json!(3))
    );
    // As it is whole, all is well.
    question["files"] = beside(&kind());
    assert_eq!(ask(&table, "work", &question)["fit"]["stopped"], false);
    // On its own it is told as what it is.
    assert_eq!(ask(&table, "work", &json!({ "name": NAME, "text": kind() }))["kind"], "kind");
}

#[test]
fn a_kind_file_is_added_to_an_album() {
    let table = Table::start();
    let text = r#"{ "format": "hingeleaf-album/1", "title": "One", "page": { "width": 120, "height": 150 }, "pages": [{ "kind": "pocket" }] }"#;
    let mut question = question(text);
    let add = json!({ "do": "add-kind-file", "name": NAME });
    let answer = change(&table, &mut question, &add);
    assert!(names(&answer["album"]["kinds"]["page"]).contains(&"step-pocket"));
    let held: Value = serde_json::from_str(answer["text"].as_str().unwrap()).unwrap();
    assert_eq!(held["kinds"], json!([NAME]));
    // Once is enough.
    let before = question["text"].clone();
    assert_eq!(change(&table, &mut question, &add)["text"], before);
    change(&table, &mut question, &json!({ "do": "kind", "path": "pages[0]", "kind": "step-pocket" }));
    let one = r#""kinds": "step-pocket.json""#;
    question["text"] = text.replace("\"title\"", &format!("{one}, \"title\"")).into();
    question["files"] = json!([
        { "name": NAME, "text": kind(), "kind": "kind" },
        { "name": "low.json", "text": kind().replace("\"step-pocket\"", "\"low-pocket\""), "kind": "kind" }
    ]);
    let answer = change(&table, &mut question, &json!({ "do": "add-kind-file", "name": "low.json" }));
    let held: Value = serde_json::from_str(answer["text"].as_str().unwrap()).unwrap();
    assert_eq!(held["kinds"], json!([NAME, "low.json"]));
    let page = &answer["album"]["kinds"]["page"];
    assert!(names(page).contains(&"low-pocket") && names(page).contains(&"step-pocket"));
}

/// The zip has the kind file, and the command line makes the same of it; also for a batch that changes the kind's own size.
#[test]
fn the_zip_holds_kind_files_and_makes_itself_again() {
    let table = Table::start();
    let album = question(&steps(r#"["step-pocket.json"]"#));
    makes_itself(&zipped(&table, &album), "steps.json", &[NAME]);
    let batch = json!({
        "format": "hingeleaf-batch/1",
        "kits": [{ "name": "low", "album": "steps.json" }, { "name": "high", "album": "steps.json" }],
    });
    let mut files = beside(&kind());
    files.as_array_mut().unwrap().push(json!({ "name": "steps.json", "text": album["text"] }));
    let mut question = json!({ "name": "fair.json", "text": batch.to_string(), "files": files });
    let typed = json!({ "do": "set", "path": "kits[1].change.pages[0].mouth", "typed": "90" });
    let answer = change(&table, &mut question, &typed);
    assert_eq!(answer["fit"]["stopped"], false, "{}", answer["fit"]["findings"]);
    assert_eq!(answer["batch"]["kits"][1]["changes"][0]["takes"], "length");
    makes_itself(&zipped(&table, &question), "fair.json", &[NAME, "steps.json"]);
    let answer = change(&table, &mut question, &json!({ "do": "choose", "path": "kits[0]" }));
    let choice = &answer["batch"]["kits"][0]["choice"];
    assert!(names(&choice["kinds"]).contains(&"step-pocket"));
    let begun = ask(&table, "batch", &album);
    assert!(begun["text"].as_str().unwrap().contains("\"steps.json\""));
}

/// An album that names a folder of kinds names the files instead that were brought, each once, and the zip makes itself of them.
#[test]
fn a_folder_of_kinds_becomes_its_files() {
    let table = Table::start();
    let low = kind().replace("\"step-pocket\"", "\"low-pocket\"");
    let both =
        json!([{ "name": NAME, "text": kind(), "kind": "kind" }, { "name": "low.json", "text": low, "kind": "kind" }]);
    for (said, called) in [
        (r#""kinds/""#, r#"["low.json", "step-pocket.json"]"#),
        (r#""kinds""#, r#"["low.json", "step-pocket.json"]"#),
        (r#"["own/kinds/"]"#, r#"["low.json", "step-pocket.json"]"#),
        (r#"["own/step-pocket.json"]"#, r#"["step-pocket.json"]"#),
    ] {
        let mut question = json!({ "name": "steps.json", "text": steps(said), "files": both });
        let names = json!({ NAME: NAME, "low.json": "low.json" });
        question["change"] = json!({ "do": "call-files", "names": names, "folder": ["low.json", NAME] });
        let answer = ask(&table, "work", &question);
        assert_eq!(answer["text"], json!(steps(called)), "{said}");
        assert_eq!(answer["fit"]["stopped"], false, "{said}: {}", answer["fit"]["findings"]);
        question["text"] = answer["text"].clone();
        question.as_object_mut().unwrap().remove("change");
        let files: &[&str] = if called.contains("low") { &["low.json", NAME] } else { &[NAME] };
        makes_itself(&zipped(&table, &question), "steps.json", files);
    }
    // A folder of which nothing was brought stays, and is told.
    let text = steps(r#""kinds/""#);
    let change = json!({ "do": "call-files", "names": {}, "folder": [] });
    let answer = ask(&table, "work", &json!({ "name": "steps.json", "text": text, "change": change }));
    assert_eq!((&answer["text"], &answer["missing"]), (&json!(text), &json!(["kinds/"])));
}

#[test]
fn the_table_is_opened_with_a_folder_of_kinds() {
    let folder = TempDir::new("kinds-folder-open");
    std::fs::create_dir(folder.join("kinds")).unwrap();
    folder.put("kinds/step-pocket.json", kind());
    folder.put("kinds/low.json", kind().replace("\"step-pocket\"", "\"low-pocket\""));
    let album = folder.put("steps.json", steps(r#""kinds/""#));
    let table = Table::start_with(&[album.to_str().unwrap()]);
    let file = table.post("open", b"{}").json()["file"].clone();
    assert_eq!(file["text"], json!(steps(r#"["low.json", "step-pocket.json"]"#)));
    let question = json!({ "name": file["name"], "text": file["text"], "files": file["files"] });
    let answer = ask(&table, "work", &question);
    assert_eq!(answer["fit"]["stopped"], false, "{}", answer["findings"]);
    assert!(names(&answer["album"]["kinds"]["page"]).contains(&"low-pocket"));
}

#[test]
fn the_table_is_opened_with_kind_files() {
    let folder = TempDir::new("kinds-open");
    std::fs::create_dir(folder.join("own")).unwrap();
    folder.put("own/step-pocket.json", kind());
    let album = folder.put("steps.json", steps(r#"["own/step-pocket.json"]"#));
    let table = Table::start_with(&[album.to_str().unwrap()]);
    let file = table.post("open", b"{}").json()["file"].clone();
    assert_eq!((&file["files"], &file["text"]), (&beside(&kind()), &json!(steps(r#"["step-pocket.json"]"#))));
    let question = json!({ "name": file["name"], "text": file["text"], "files": file["files"] });
    assert_eq!(ask(&table, "work", &question)["fit"]["stopped"], false);
}
