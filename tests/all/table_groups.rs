// SPDX-License-Identifier: MIT
//! Several things at once at the table: all pages of a kind in one form, and versions of an album in its zip.

use crate::common::project;
use crate::common::web::Table;
use serde_json::{Value, json};
use std::path::PathBuf;

fn fixture(name: &str) -> String {
    std::fs::read_to_string(project().join(format!("fixtures/{name}.json"))).unwrap()
}

/// The form for all pages of a kind.
fn group<'a>(answer: &'a Value, kind: &str) -> &'a Value {
    let groups = answer["album"]["groups"].as_array().unwrap();
    groups.iter().find(|group| group["kind"] == kind).unwrap_or_else(|| panic!("no form for all of {kind}"))
}

fn row<'a>(group: &'a Value, name: &str) -> &'a Value {
    let rows = group["rows"].as_array().unwrap().iter().chain(group["more"].as_array().unwrap());
    let path = format!("pages[{}].{name}", group["kind"].as_str().unwrap());
    rows.into_iter().find(|row| row["path"] == path.as_str()).unwrap_or_else(|| panic!("no {path}"))
}

#[test]
fn a_form_for_all_pages_of_a_kind_says_where_they_differ() {
    let table = Table::start();
    let answer = table.work(&fixture("tide-table"), &Value::Null);
    let wallets = group(&answer, "wallet");
    assert_eq!(wallets["label"], "All 2 pages of the kind wallet");
    assert_eq!(wallets["pages"], json!([1, 2]));
    assert_eq!(
        (&row(wallets, "overflap")["value"], &row(wallets, "overflap")["differs"]),
        (&json!("45"), &Value::Null)
    );
    let faces = row(wallets, "faces");
    assert_eq!((&faces["value"], &faces["usual"]), (&json!(""), &json!("they differ")));
    assert_eq!(faces["differs"], "They differ: page 2 has back, page 3 has front.");
    // What is left out is what is usual: no difference from a page that says the same.
    let said =
        fixture("tide-table").replacen("{ \"kind\": \"pocket\" }", "{ \"kind\": \"pocket\", \"stock\": \"card\" }", 1);
    let stock = table.work(&said, &Value::Null);
    let stock = row(group(&stock, "pocket"), "stock");
    assert_eq!((&stock["differs"], &stock["value"], &stock["given"]), (&Value::Null, &json!("card"), &json!(true)));
    // Where each kind is there once, there is nothing to change at once.
    let mut alone: Value = serde_json::from_str(&fixture("tide-table")).unwrap();
    alone["pages"].as_array_mut().unwrap().truncate(2);
    alone["inserts"] = json!([]);
    let alone = table.work(&alone.to_string(), &Value::Null);
    assert_eq!(alone["album"]["groups"], json!([]));
}

#[test]
fn one_change_is_made_in_all_pages_of_a_kind_or_in_none() {
    let table = Table::start();
    let before = fixture("tide-table");
    let set = |path: &str, typed: &str| table.work(&before, &json!({ "do": "set", "path": path, "typed": typed }));
    let answer = set("pages[wallet].overflap", "50");
    let mut wanted: Value = serde_json::from_str(&before).unwrap();
    for page in wanted["pages"].as_array_mut().unwrap() {
        if page["kind"] == "wallet" {
            page["overflap"] = json!(50);
        }
    }
    assert_eq!(serde_json::from_str::<Value>(answer["text"].as_str().unwrap()).unwrap(), wanted);
    // A field that only some say is left out of all of them.
    let answer = set("pages[wallet].faces", "");
    assert!(!answer["text"].as_str().unwrap().contains("faces"), "{}", answer["text"]);
    // What can't be used is refused for all, and says of which pages it speaks.
    let refused = set("pages[wallet].overflap", "many");
    assert_eq!((&refused["refused"], &refused["text"]), (&json!(true), &Value::Null));
    let field = refused["field"].as_str().unwrap();
    assert!(field.starts_with("All pages of the kind wallet, "), "{field}");
    for (path, typed) in
        [("pages[accordion].overflap", "50"), ("pages[wallet].width", "9"), ("pages[wallet]", "9"), ("pages[]", "9")]
    {
        assert_eq!(set(path, typed)["refused"], true, "{path}");
    }
}

#[test]
fn versions_lie_in_the_zip_only_where_they_are_asked_for() {
    let table = Table::start();
    let text = json!({
        "format": "hingeleaf-album/1", "title": "Tide Table", "page": { "width": 120, "height": 150 }, "pages": [{ "kind": "pocket" }],
    });
    let text = text.to_string();
    let older = text.replace("120", "118");
    let kit = |versions: Value| {
        let question = json!({ "name": "tide-table.json", "text": text, "versions": versions });
        table.post("kit", question.to_string().as_bytes()).unzipped()
    };
    let plain = kit(json!([]));
    assert!(plain.keys().all(|path| !path.starts_with("versions")));
    let version = |called: &str, text: &str| json!({ "name": "tide-table.json", "text": text, "called": called });
    let with = kit(json!([
        version("2026-05-04 before: the/spine", &older),
        version("2026-05-04 before: the/spine", &text),
        version("..", "{")
    ]));
    let at = |folder: &str| PathBuf::from(format!("versions/{folder}/tide-table.json"));
    assert_eq!(with[&at("2026-05-04 before- the-spine")], older.as_bytes());
    assert_eq!(with[&at("2026-05-04 before- the-spine-2")], text.as_bytes());
    assert_eq!(with[&at("--")], b"{");
    assert_eq!(with.len(), plain.len() + 3);
    for (path, bytes) in &plain {
        assert!(with[path] == *bytes, "{} is another", path.display());
    }
}
