// SPDX-License-Identifier: MIT
//! An earlier edition at the table: the page says what the command says, and gives the sheets that it writes.

use crate::common::web::Table;
use crate::common::{TempDir, files, project};
use serde_json::{Value, json};
use std::process::{Command, Output};

fn fixture(name: &str) -> String {
    std::fs::read_to_string(project().join(format!("fixtures/{name}.json"))).unwrap()
}

fn run(folder: &TempDir, words: &[&str]) -> Output {
    let run = Command::new(env!("CARGO_BIN_EXE_hingeleaf")).args(words).current_dir(folder.path()).output().unwrap();
    assert!(run.status.success(), "{words:?}: {}", String::from_utf8_lossy(&run.stderr));
    run
}

/// The page's sentences as the terminal sets them, in its quotes.
fn lines(told: &Value, indent: &str) -> String {
    let one = |one: &Value| {
        let text = one["text"].as_str().unwrap().replace(['“', '”'], "\"");
        format!("{indent}{text}\n") + &lines(&one["under"], &format!("{indent}  "))
    };
    told.as_array().unwrap().iter().map(one).collect()
}

/// What stands on the table, and what it is compared with.
struct Editions<'t> {
    table: &'t Table,
    folder: &'t TempDir,
    question: Value,
    old: &'t str,
    new: &'t str,
}

impl Editions<'_> {
    fn answer(&self) -> Value {
        let reply = self.table.post("compare", self.question.to_string().as_bytes());
        assert_eq!(reply.status, 200, "{}", reply.text());
        reply.json()
    }

    /// The page says, and gives to take away, what the command does with the same files.
    #[track_caller]
    fn is_as_the_command_says(&self) -> Value {
        let answer = self.answer();
        let out = format!("again-{}", self.folder.names().len());
        let said = String::from_utf8(run(self.folder, &["compare", self.old, self.new]).stdout).unwrap();
        assert_eq!(lines(&answer["told"], ""), said);
        run(self.folder, &["compare", self.old, self.new, "--only-changed", "--out", &out]);
        let reply = self.table.post("recut", self.question.to_string().as_bytes());
        if self.folder.join(&out).exists() {
            assert_eq!(reply.status, 200, "{}", reply.text());
            let (taken, written) = (reply.unzipped(), files(&self.folder.join(&out)));
            assert_eq!(taken.keys().collect::<Vec<_>>(), written.keys().collect::<Vec<_>>());
            for (name, bytes) in &written {
                assert!(taken[name] == *bytes, "{} differs", name.display());
            }
            assert!(!answer["sheets"].is_null());
        } else {
            assert_eq!((reply.status, &answer["sheets"]), (409, &Value::Null));
        }
        answer
    }
}

/// A longer flap is another piece; a title is none. A report of the old kit says the same of it as its album does.
#[test]
fn an_album_is_compared_as_the_command_does() {
    let (table, folder) = (Table::start(), TempDir::new("table-compare"));
    let old = fixture("tide-table");
    let longer = old.replace("\"overflap\": 45, \"faces\": \"back\"", "\"overflap\": 48, \"faces\": \"back\"");
    let other = longer.replace("\"count\": 4", "\"count\": 3").replace("Tide Table", "Tide Table II");
    folder.put("old.json", &old);
    run(&folder, &["kit", "old.json", "--out", "kit"]);
    let report = std::fs::read_to_string(folder.join("kit/report.json")).unwrap();
    folder.put("report.json", &report);
    for (number, new) in [old.replace("Harbour Paper", "Quay Paper"), longer, other].into_iter().enumerate() {
        let name = format!("new-{number}.json");
        folder.put(&name, &new);
        for (file, text) in [("old.json", &old), ("report.json", &report)] {
            let question = json!({ "name": name, "text": new, "against": { "name": file, "text": text } });
            let editions = Editions { table: &table, folder: &folder, question, old: file, new: &name };
            let answer = editions.is_as_the_command_says();
            assert_eq!(answer["sheets"].is_null(), number == 0, "{answer}");
        }
    }
}

/// Another maker of a drawing cuts another piece, and nothing else.
#[test]
fn another_drawing_is_another_piece() {
    let (table, folder) = (Table::start(), TempDir::new("table-compare-drawn"));
    let read = |name: &str| std::fs::read_to_string(project().join("fixtures/drawn").join(name)).unwrap();
    let (album, kite, fish) = (read("kite-day.json"), read("kite.svg"), read("fish.dxf"));
    let wider = kite.replace("M90 30 C110 62", "M90 30 C114 62");
    assert_ne!(kite, wider);
    for (sub, kite) in [("old", &kite), ("new", &wider)] {
        std::fs::create_dir(folder.join(sub)).unwrap();
        for (name, text) in [("kite-day.json", &album), ("kite.svg", kite), ("fish.dxf", &fish)] {
            folder.put(&format!("{sub}/{name}"), text);
        }
    }
    let drawings = |kite: &str| json!([{ "name": "kite.svg", "text": kite }, { "name": "fish.dxf", "text": fish }]);
    let question = json!({
        "name": "new/kite-day.json", "text": album, "drawings": drawings(&wider),
        "against": { "name": "old/kite-day.json", "text": album, "drawings": drawings(&kite) },
    });
    let (old, new) = ("old/kite-day.json", "new/kite-day.json");
    let answer = Editions { table: &table, folder: &folder, question, old, new }.is_as_the_command_says();
    let said = lines(&answer["told"], "");
    assert!(said.contains("shape-1") && !said.contains("shape-2"), "{said}");
}

/// Kits of a batch, one with a longer flap, one more of the other.
#[test]
fn a_batch_is_compared_as_the_command_does() {
    let (table, folder) = (Table::start(), TempDir::new("table-compare-batch"));
    let album = fixture("tide-table");
    let batch = |copies: u32, overflap: u32| {
        let kits = json!([
            { "name": "grey", "album": "tide-table.json", "copies": copies },
            { "name": "long", "album": "tide-table.json", "copies": 1, "change": { "pages[1].overflap": overflap } },
        ]);
        json!({ "format": "hingeleaf-batch/1", "title": "Fair", "kits": kits }).to_string()
    };
    let (old, new) = (batch(2, 45), batch(3, 48));
    for (name, text) in [("tide-table.json", &album), ("old.json", &old), ("new.json", &new)] {
        folder.put(name, text);
    }
    let albums = json!([{ "name": "tide-table.json", "text": album }]);
    let against = json!({ "name": "old.json", "text": old, "files": albums });
    let question = json!({ "name": "new.json", "text": new, "files": albums, "against": against });
    let editions = Editions { table: &table, folder: &folder, question, old: "old.json", new: "new.json" };
    let said = lines(&editions.is_as_the_command_says()["told"], "");
    assert!(said.contains("grey: 3 instead of 2 are made"), "{said}");
    // An album beside a batch is an order of one.
    let question = json!({ "name": "new.json", "text": new, "files": albums, "against": { "name": "tide-table.json", "text": album } });
    let editions = Editions { table: &table, folder: &folder, question, old: "tide-table.json", new: "new.json" };
    editions.is_as_the_command_says();
}

/// What can't be compared with says why, with its places; the page goes on.
#[test]
fn what_can_not_be_compared_with_says_so() {
    let table = Table::start();
    let (good, torn) = (fixture("tide-table"), fixture("tide-table").replace("\"overflap\": 45", "\"overflap\": 30"));
    let asked = |text: &str, old: &str| {
        let question = json!({ "name": "new.json", "text": text, "against": { "name": "old.json", "text": old } });
        table.post("compare", question.to_string().as_bytes())
    };
    let answer = asked(&good, "{ \"format\": \"hingeleaf-album/1\",\n  \"titel\": 1 }").json();
    assert!(answer["trouble"].as_str().unwrap().contains("can’t be read"), "{answer}");
    assert!(answer["findings"].as_array().unwrap().iter().any(|one| one["line"] == 2), "{answer}");
    let answer = asked(&good, &torn).json();
    assert!(answer["trouble"].as_str().unwrap().contains("does not go together"), "{answer}");
    assert_eq!(answer["findings"][0]["level"], "stop");
    for old in ["", "no file", "{}", "{ \"format\": \"hingeleaf-report/1\" }", "{ \"format\": \"hingeleaf-cutter/1\" }"]
    {
        assert!(asked(&good, old).json()["trouble"].is_string(), "{old}");
    }
    // The new one has to go together, too.
    assert_eq!(asked(&torn, &good).status, 409);
    let nothing = json!({ "name": "new.json", "text": good });
    assert!(table.post("compare", nothing.to_string().as_bytes()).json()["trouble"].is_string());
    assert_eq!(table.post("recut", nothing.to_string().as_bytes()).status, 409);
    // What the page calls an edition it is called.
    let question = json!({ "name": "new.json", "text": good, "against": { "name": "old.json", "text": good, "called": "new.json as it was opened" } });
    let answer = table.post("compare", question.to_string().as_bytes()).json();
    assert!(answer["told"][0]["text"].as_str().unwrap().contains("in new.json as it was opened"), "{answer}");
}
