// SPDX-License-Identifier: MIT
//! Batches at the table: made from an album, changed, worked out, taken away, brought back.

use crate::common::web::Table;
use crate::common::{TempDir, files, hingeleaf, project};
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::path::PathBuf;
use std::process::Command;

fn fixture(name: &str) -> String {
    std::fs::read_to_string(project().join(format!("fixtures/{name}.json"))).unwrap()
}

/// A batch on the table with its albums, and what was answered last.
struct OnTable<'t> {
    table: &'t Table,
    name: String,
    text: String,
    albums: Vec<(String, String)>,
    machine: Value,
}

impl<'t> OnTable<'t> {
    /// A batch of one album as it is.
    fn of(table: &'t Table, album: &str) -> Self {
        let (name, text) = (format!("{album}.json"), fixture(album));
        let begun = table.post("batch", json!({ "name": name, "text": text }).to_string().as_bytes()).json();
        Self {
            table,
            name: begun["name"].as_str().unwrap().to_owned(),
            text: begun["text"].as_str().unwrap().to_owned(),
            albums: vec![(name, text)],
            machine: json!({}),
        }
    }

    fn question(&self) -> Value {
        let albums: Vec<Value> = self.albums.iter().map(|(name, text)| json!({ "name": name, "text": text })).collect();
        json!({ "name": self.name, "text": self.text, "files": albums, "machine": self.machine })
    }

    fn ask(&self, change: &Value) -> Value {
        let mut question = self.question();
        if !change.is_null() {
            question["change"] = change.clone();
        }
        self.table.post("work", question.to_string().as_bytes()).json()
    }

    /// Makes a change, which must be taken.
    #[track_caller]
    fn change(&mut self, change: &Value) -> Value {
        let answer = self.ask(change);
        assert_ne!(answer["refused"], true, "{change}: {}", answer["findings"]);
        answer["text"].as_str().unwrap().clone_into(&mut self.text);
        answer
    }

    #[track_caller]
    fn set(&mut self, path: &str, typed: &str) -> Value {
        self.change(&json!({ "do": "set", "path": path, "typed": typed }))
    }

    /// What is refused is said, and at which field.
    #[track_caller]
    fn refused(&self, change: &Value) -> (String, String) {
        let answer = self.ask(change);
        assert_eq!(answer["refused"], true, "{change} is taken");
        let said = |value: &Value| value.as_str().unwrap_or_default().to_owned();
        (said(&answer["field"]), said(&answer["findings"][0]["text"]))
    }

    fn file(&self) -> Value {
        serde_json::from_str(&self.text).unwrap()
    }

    /// The zip's files.
    fn zip(&self) -> BTreeMap<PathBuf, Vec<u8>> {
        self.table.post("kit", self.question().to_string().as_bytes()).unzipped()
    }
}

/// A table of a section, by its caption, as rows of cells.
#[track_caller]
fn table_of(answer: &Value, section: &str, caption: &str) -> Vec<Vec<String>> {
    let sections = answer["tables"].as_array().unwrap_or_else(|| panic!("no tables: {}", answer["fit"]));
    let found = sections.iter().find(|one| one["id"] == section).unwrap_or_else(|| panic!("no {section}"));
    let blocks = found["blocks"].as_array().unwrap();
    let held = blocks.iter().find(|block| block["caption"].as_str().is_some_and(|said| said.starts_with(caption)));
    let rows = held.unwrap_or_else(|| panic!("no {caption} in {found}"))["rows"].as_array().unwrap();
    let cells = |row: &Value| row.as_array().unwrap().iter().map(|cell| cell.as_str().unwrap().to_owned()).collect();
    rows.iter().map(cells).collect()
}

/// An album as it is, once, is what its own page makes of it: as many sheets, and nothing to mend.
#[test]
fn a_batch_begins_with_the_album_as_it_is() {
    let table = Table::start();
    for name in ["tide-table", "seed-ledger", "orchard-notes"] {
        let batch = OnTable::of(&table, name);
        let (answer, alone) = (batch.ask(&Value::Null), table.work(&fixture(name), &Value::Null));
        assert_eq!(answer["text"], batch.text);
        assert_eq!(answer["fit"]["stopped"], false, "{name}: {}", answer["fit"]["findings"]);
        assert_eq!(answer["sheets"]["counts"], alone["sheets"]["counts"], "{name}");
        assert_eq!(answer["batch"]["units"], alone["album"]["units"]);
        assert_eq!(batch.file()["kits"][0]["album"], format!("{name}.json"));
        // The same file, read by the command line, is a batch.
        let folder = TempDir::new("begun");
        folder.put(&format!("{name}.json"), fixture(name));
        let file = folder.put("b.json", batch.text.clone());
        assert_eq!(hingeleaf(["check", file.to_str().unwrap()]).code, 0);
    }
    // What can't be read begins none.
    assert_eq!(table.post("batch", json!({ "name": "a.json", "text": "{" }).to_string().as_bytes()).status, 400);
}

/// Kits come, are doubled under names of their own, and go; the file says it all.
#[test]
fn kits_come_and_go() {
    let table = Table::start();
    let mut batch = OnTable::of(&table, "tide-table");
    batch.albums.push(("orchard-notes.json".into(), fixture("orchard-notes")));
    batch.change(&json!({ "do": "copy", "list": "kits", "at": 0 }));
    batch.change(&json!({ "do": "copy", "list": "kits", "at": 1 }));
    batch.change(&json!({ "do": "add-kit", "album": "orchard-notes.json" }));
    let names = |batch: &OnTable<'_>| -> Vec<String> {
        let kits = batch.file()["kits"].as_array().unwrap().clone();
        kits.iter().map(|kit| kit["name"].as_str().unwrap().to_owned()).collect()
    };
    assert_eq!(names(&batch), ["tide-table", "tide-table-2", "tide-table-3", "orchard-notes"]);
    let answer = batch.change(&json!({ "do": "take", "path": "kits[1]" }));
    assert_eq!(names(&batch), ["tide-table", "tide-table-3", "orchard-notes"]);
    assert_eq!(answer["batch"]["kits"].as_array().unwrap().len(), 3);
    // A name that another kit has, a kit too many, an album that is not there: each is refused at its field.
    let set = |path: &str, typed: &str| json!({ "do": "set", "path": path, "typed": typed });
    for (path, typed, words) in [
        ("kits[1].name", "tide-table", "there are two kits called"),
        ("kits[1].name", "Ochre!", "a kit can not be called"),
        ("kits[0].copies", "0", "must be a whole number from 1"),
        ("kits[0].album", "nowhere.json", "there is no nowhere.json on the table"),
        ("spares.parts", "2", ""),
        ("spares.parts", "2.5", "spare parts can not be 2.5"),
        ("together", "apart", ""),
    ] {
        let answer = batch.ask(&set(path, typed));
        if words.is_empty() {
            continue;
        }
        assert_eq!(answer["refused"], true, "{path}: {typed}");
        assert!(answer["findings"][0]["text"].as_str().unwrap().contains(words), "{path}: {}", answer["findings"]);
        assert!(!answer["field"].as_str().unwrap().is_empty());
    }
    assert_eq!(batch.refused(&set("together", "apart")).0, "What shares sheets");
    assert_eq!(batch.ask(&set("spares.parts", "2"))["refused"], Value::Null);
}

/// Each edge that an album has may be otherwise in a kit: its fields are offered, and a list is written as a list.
#[test]
fn edges_are_otherwise_in_a_kit() {
    let table = Table::start();
    let mut batch = OnTable::of(&table, "tide-table");
    let edged = batch.albums[0].1.replacen(
        "\"overflap\": 45,",
        r#""overflap": 45, "edges": [{ "on": "pocket/mouth", "finish": "scallop" }, { "on": "back/flap", "corners": "rounded" }],"#,
        1,
    );
    assert_ne!(edged, batch.albums[0].1);
    batch.albums[0].1 = edged;
    let answer = batch.ask(&Value::Null);
    let offers = answer["batch"]["offers"]["tide-table.json"].as_array().unwrap();
    let paths: Vec<&str> = offers
        .iter()
        .flat_map(|group| group["rows"].as_array().unwrap())
        .filter_map(|row| row["path"].as_str())
        .filter(|path| path.contains("edges"))
        .collect();
    let of = |edge: usize, fields: &[&str]| {
        fields.iter().map(|name| format!("pages[1].edges[{edge}].{name}")).collect::<Vec<_>>()
    };
    assert_eq!(paths, [of(0, &["on", "finish", "size", "depth"]), of(1, &["on", "corners", "size"])].concat());
    batch.set("kits[0].change.pages[1].edges[0].finish", "wave");
    let answer = batch.set("kits[0].change.pages[1].edges[1].size", "7");
    assert_eq!(answer["fit"]["stopped"], false, "{}", answer["fit"]["findings"]);
    let change = &batch.file()["kits"][0]["change"];
    assert_eq!(*change, json!({ "pages[1].edges[0].finish": "wave", "pages[1].edges[1].size": 7 }));
    let row = &answer["batch"]["kits"][0]["changes"][0];
    assert_eq!((&row["value"], &row["usual"]), (&json!("wave"), &json!("scallop")), "{row}");
    let whole = json!([{ "on": "front/mouth", "finish": "notch" }, { "on": "front", "corners": "clipped" }]);
    batch.set("kits[0].change.pages[0].edges", &whole.to_string());
    assert_eq!(batch.file()["kits"][0]["change"]["pages[0].edges"], whole);
}

/// A change stands in the file by the way that findings print, is gone when nothing is typed, and a finding that it causes is
/// at its field and names its kit; the kit beside it stays quiet.
#[test]
fn changes_stand_in_their_kit() {
    let table = Table::start();
    let mut batch = OnTable::of(&table, "tide-table");
    batch.change(&json!({ "do": "copy", "list": "kits", "at": 0 }));
    batch.set("kits[1].name", "deep");
    batch.set("kits[1].change.pages[1].pocket", "105");
    batch.set("kits[1].change.stocks.paper.count", "20");
    assert_eq!(batch.file()["kits"][1]["change"], json!({ "pages[1].pocket": 105, "stocks.paper.count": 20 }));
    // 148 - 105 leaves 43 mm to close, which a flap of 40 mm does not reach over, and one of 45 mm does.
    let answer = batch.set("kits[1].change.pages[1].overflap", "40");
    let finding = &answer["fit"]["findings"][0];
    assert_eq!((&finding["level"], &answer["fit"]["stopped"]), (&json!("stop"), &json!(true)));
    assert!(finding["about"].as_str().unwrap().starts_with("deep"), "{finding}");
    assert_eq!(finding["path"], "kits[1].change.pages[1].overflap");
    assert_eq!(answer["sheets"], Value::Null);
    let rows = answer["batch"]["kits"][1]["changes"].as_array().unwrap();
    let row = rows.iter().find(|row| row["path"] == "kits[1].change.pages[1].overflap").unwrap();
    assert_eq!(
        (&row["value"], &row["usual"], &row["label"]),
        (&json!("40"), &json!("45"), &json!("Page 2, closing flap"))
    );
    // Its mend is a change of that kit alone.
    let mend = &finding["mend"];
    assert_eq!(mend["path"], "kits[1].change.pages[1].overflap", "{mend}");
    let mended = batch.set(mend["path"].as_str().unwrap(), mend["typed"].as_str().unwrap());
    assert_eq!(mended["fit"]["stopped"], false, "{}", mended["fit"]["findings"]);
    let answer = batch.set("kits[1].change.pages[1].overflap", "");
    assert_eq!(answer["fit"]["stopped"], false, "{}", answer["fit"]["findings"]);
    // What an album has not can't be otherwise in a kit.
    let (field, said) =
        batch.refused(&json!({ "do": "set", "path": "kits[0].change.pages[9].pocket", "typed": "100" }));
    assert!(said.contains("pages[9].pocket"), "{field}: {said}");
    // A size of the album's file is mended in the one kit that suffers from it.
    batch.albums[0].1 =
        batch.albums[0].1.replace("\"overflap\": 45, \"faces\": \"back\"", "\"overflap\": 30, \"faces\": \"back\"");
    let first = &batch.ask(&Value::Null)["fit"]["findings"][0];
    assert!(first["about"].as_str().unwrap().starts_with("tide-table, "), "{first}");
    assert_eq!(first["mend"]["path"], "kits[0].change.pages[1].overflap", "{first}");
    // Of a fault that several kits have the album is to be mended: it is at the first one's album.
    let answer = batch.change(&json!({ "do": "take", "path": "kits[1].change" }));
    let first = &answer["fit"]["findings"][0];
    assert_eq!((&first["path"], &first["mend"]), (&json!("kits[0].album"), &Value::Null), "{first}");
    assert!(first["about"].as_str().unwrap().starts_with("tide-table and deep, "), "{first}");
}

/// A colourway: one kit's papers are another's; all that is cut from the one is cut from the other then, and taken back at once.
#[test]
fn a_kit_is_cut_from_a_paper_of_its_own() {
    let table = Table::start();
    let mut batch = OnTable::of(&table, "tide-table");
    let before = batch.ask(&Value::Null)["sheets"]["counts"].as_u64().unwrap();
    batch.change(&json!({ "do": "copy", "list": "kits", "at": 0 }));
    let own = json!({ "do": "own-paper", "path": "kits[1]", "like": "paper", "name": "ochre" });
    let answer = batch.change(&own);
    let change = &batch.file()["kits"][1]["change"];
    assert_eq!(change["panels.stock"], "ochre", "{change}");
    let names: Vec<&str> =
        answer["sheets"]["stocks"].as_array().unwrap().iter().map(|one| one["name"].as_str().unwrap()).collect();
    assert_eq!(names, ["card", "paper", "ochre"]);
    // Each kit's papers are as many as one album's; the card is shared.
    let of = |answer: &Value, name: &str| -> usize {
        let stocks = answer["sheets"]["stocks"].as_array().unwrap();
        let laid = stocks.iter().find(|one| one["name"] == name).unwrap();
        laid["sentence"].as_str().unwrap().split(' ').next().unwrap().parse().unwrap()
    };
    assert_eq!(of(&answer, "paper"), of(&answer, "ochre"));
    assert!(answer["sheets"]["counts"].as_u64().unwrap() <= 2 * before);
    batch.set("kits[1].change.stocks.ochre.price", "1.2");
    assert_eq!(batch.file()["kits"][1]["change"]["stocks.ochre"]["price"], 1.2);
    let (_, said) = batch.refused(&own);
    assert!(said.contains("ochre"), "{said}");
    batch.change(&json!({ "do": "take", "path": "kits[1].change.stocks.ochre" }));
    assert_eq!(batch.file()["kits"][1].get("change"), None);
}

/// Cost and price are those of arithmetic done by hand.
#[test]
fn what_is_sold_has_a_price() {
    let table = Table::start();
    let mut batch = OnTable::of(&table, "tide-table");
    assert_eq!(
        batch.ask(&Value::Null)["tables"].as_array().unwrap().iter().filter(|one| one["id"] == "cost").count(),
        0
    );
    batch.set("kits[0].copies", "4");
    let sheets = |answer: &Value, name: &str| -> u64 {
        let stocks = answer["sheets"]["stocks"].as_array().unwrap();
        let laid = stocks.iter().find(|one| one["name"] == name).unwrap();
        laid["sentence"].as_str().unwrap().split(' ').next().unwrap().parse().unwrap()
    };
    batch.set("selling.currency", "EUR");
    batch.set("selling.packaging", "1.25");
    batch.set("selling.profit", "50 %");
    let answer = batch.set("selling.tax", "20 %");
    let (card, paper) = (sheets(&answer, "card"), sheets(&answer, "paper"));
    // Sheets one by one at 0.25 and 0.90, packaging of four kits; half of it on top; that is 80 % of the price.
    let cost = card * 25 + paper * 90 + 4 * 125;
    let shown = |hundredths: f64| format!("{:.2}", hundredths / 100.0);
    let rows = table_of(&answer, "cost", "From the cost to the price");
    #[allow(clippy::cast_precision_loss, reason = "some hundred cents")]
    let cost = cost as f64;
    assert_eq!(rows.first().unwrap()[1], shown(cost));
    assert_eq!(rows.last().unwrap()[1], shown((cost * 1.5 / 0.8 + 1e-6).round()));
    // What has no price is listed as such, and no longer once it has one.
    let no_price = |answer: &Value, name: &str| {
        let rows = table_of(answer, "cost", "What the order takes");
        rows.iter().any(|row| row[0].contains(name) && row.last().unwrap() == "no price")
    };
    assert!(no_price(&answer, "glue"));
    let answer =
        batch.change(&json!({ "do": "sold", "list": "supplies", "name": "glue", "of": "100 ml", "price": "4" }));
    assert!(!no_price(&answer, "glue"));
    // A pack's price beats a sheet's.
    let answer = batch.change(&json!({ "do": "sold", "list": "packs", "name": "card", "of": "100", "price": "20" }));
    let rows = table_of(&answer, "cost", "What the order takes");
    assert_eq!(rows.iter().find(|row| row[0].starts_with("card")).unwrap().last().unwrap(), "20.00");
    batch.set("packs.card.price", "21");
    assert_eq!(batch.file()["packs"]["card"], json!({ "of": 100, "price": 21 }));
    batch.change(&json!({ "do": "take", "path": "packs.card" }));
    assert_eq!(batch.file().get("packs"), None);
    // Half of a pack is none.
    for change in [
        json!({ "do": "sold", "list": "packs", "name": "card", "of": "", "price": "9" }),
        json!({ "do": "sold", "list": "packs", "name": "reed", "of": "9", "price": "9" }),
        json!({ "do": "sold", "list": "supplies", "name": "string", "of": "9 m", "price": "9" }),
        json!({ "do": "set", "path": "selling.profit", "typed": "40" }),
    ] {
        batch.refused(&change);
    }
}

/// The same fields serve an album by itself, and what it costs then is told.
#[test]
fn an_album_may_say_what_it_is_sold_for() {
    let table = Table::start();
    let before = table.work(&fixture("tide-table"), &Value::Null);
    assert_eq!(before["tables"], Value::Null);
    let answer =
        table.work(&fixture("tide-table"), &json!({ "do": "set", "path": "selling.packaging", "typed": "1.5" }));
    let rows = table_of(&answer, "cost", "What the order takes");
    assert_eq!(rows.iter().find(|row| row[0] == "Packaging").unwrap().last().unwrap(), "1.50");
    let text = answer["text"].as_str().unwrap();
    let sold = json!({ "do": "sold", "list": "supplies", "name": "tape 6.5 mm", "of": "25 m", "price": "3.2" });
    let answer = table.work(text, &sold);
    let row = json!({ "do": "set", "path": "supplies.tape 6.5 mm.price", "typed": "3.4" });
    let answer = table.work(answer["text"].as_str().unwrap(), &row);
    let file: Value = serde_json::from_str(answer["text"].as_str().unwrap()).unwrap();
    assert_eq!(file["supplies"]["tape 6.5 mm"], json!({ "of": "25 m", "price": 3.4 }));
    assert_eq!(answer["terms"]["supplies"][0]["rows"][1]["path"], "supplies.tape 6.5 mm.price");
    let answer = table.work(answer["text"].as_str().unwrap(), &json!({ "do": "take", "path": "supplies.tape 6.5 mm" }));
    assert!(!answer["text"].as_str().unwrap().contains("supplies"), "{}", answer["text"]);
}

/// Pages of the buyer's choice: the kinds of the album's pages to begin with; every mix is listed with its sheets.
#[test]
fn the_buyer_chooses() {
    let table = Table::start();
    let mut batch = OnTable::of(&table, "tide-table");
    batch.set("kits[0].change.pages[1].overflap", "46");
    let answer = batch.change(&json!({ "do": "choose", "path": "kits[0]" }));
    assert!(answer["notes"][0].as_str().unwrap().contains("change"), "{}", answer["notes"]);
    let file = batch.file();
    assert_eq!(file["kits"][0].get("change"), None);
    // The album's pages are a pocket twice, and two wallets that face each other: 3 kinds, C(4 + 2, 2) = 15 mixes of 4.
    assert_eq!(file["kits"][0]["choice"]["of"].as_array().unwrap().len(), 3);
    assert_eq!(table_of(&answer, "mixes", "Sheets").len(), 15);
    batch.change(&json!({ "do": "take", "path": "kits[0].choice.of[2]" }));
    let answer = batch.set("kits[0].choice.pages", "5");
    assert_eq!(table_of(&answer, "mixes", "Sheets").len(), 6);
    let answer = batch.change(&json!({ "do": "add", "list": "kits[0].choice.of", "at": 2, "kind": "frame" }));
    assert_eq!(answer["batch"]["kits"][0]["choice"]["of"][2]["kind"], "frame");
    let answer = batch.change(&json!({ "do": "kind", "path": "kits[0].choice.of[2]", "kind": "pocket" }));
    assert_eq!(answer["batch"]["kits"][0]["choice"]["of"][2]["kind"], "pocket");
    // A flap too short is told at the kind's own field.
    let answer = batch.set("kits[0].choice.of[1].overflap", "30");
    let path = answer["fit"]["findings"][0]["path"].as_str().unwrap();
    assert_eq!(path, "kits[0].choice.of[1].overflap", "{}", answer["fit"]["findings"][0]);
    batch.set("kits[0].choice.of[1].overflap", "45");
    let answer = batch.change(&json!({ "do": "take", "path": "kits[0].choice" }));
    assert_eq!(answer["batch"]["kits"][0]["choice"], Value::Null);
}

/// The zip holds, byte for byte, what the command line writes for the batch file in it, and what that is made from.
#[test]
fn the_zip_makes_itself_again() {
    let table = Table::start();
    for (machine, options) in [
        (json!({}), vec![]),
        (
            json!({
                "text": r#"{ "format": "hingeleaf-cutter/1", "kerf": 0.1, "gap": 1, "margin": "1/8 in" }"#,
                "trimmer": true
            }),
            vec!["--cutter", "my-cutter.json", "--trimmer"],
        ),
    ] {
        let mut batch = OnTable::of(&table, "tide-table");
        batch.albums.push(("orchard-notes.json".into(), fixture("orchard-notes")));
        // An album that no kit is made of stays at home.
        batch.albums.push(("seed-ledger.json".into(), fixture("seed-ledger")));
        batch.machine = machine;
        batch.change(&json!({ "do": "copy", "list": "kits", "at": 0 }));
        batch.change(&json!({ "do": "own-paper", "path": "kits[1]", "like": "paper", "name": "ochre" }));
        batch.change(&json!({ "do": "add-kit", "album": "orchard-notes.json" }));
        batch.set("selling.currency", "EUR");
        let said = batch.set("spares.kits", "1")["take"]["command"].as_str().unwrap().to_owned();
        let taken = batch.zip();
        let folder = TempDir::new("batch-zip");
        let mut from = vec!["tide-table-batch.json", "tide-table.json", "orchard-notes.json"];
        from.extend(options.contains(&"--cutter").then_some("my-cutter.json"));
        for name in &from {
            folder.put(name, String::from_utf8(taken[&PathBuf::from(name)].clone()).unwrap());
        }
        let words = [vec!["kit", "tide-table-batch.json", "--out", "kit"], options].concat();
        assert_eq!(said, format!("hingeleaf {}", words.join(" ")));
        let program = env!("CARGO_BIN_EXE_hingeleaf");
        let run = Command::new(program).args(&words).current_dir(folder.path()).output().unwrap();
        assert!(run.status.success(), "{}", String::from_utf8_lossy(&run.stderr));
        let mut written = files(&folder.join("kit"));
        for name in &from {
            let bytes = std::fs::read(folder.join(name)).unwrap();
            written.insert(PathBuf::from(name), bytes);
        }
        written.insert("command.txt".into(), format!("{said}\n").into_bytes());
        assert_eq!(taken.keys().collect::<Vec<_>>(), written.keys().collect::<Vec<_>>());
        for (name, bytes) in &written {
            assert!(taken[name] == *bytes, "{} differs", name.display());
        }
    }
}

/// A batch whose albums lie in other folders is opened with them; on the table all lie in one place.
#[test]
fn a_batch_is_opened_with_its_albums() {
    let path = project().join("fixtures/batches/spring-fair.json");
    let table = Table::start_with(&[path.to_str().unwrap()]);
    let file = table.post("open", b"{}").json()["file"].clone();
    assert_eq!((&file["name"], &file["batch"]), (&json!("spring-fair.json"), &json!(true)));
    assert_eq!(file["files"], json!([{ "name": "tide-table.json", "text": fixture("tide-table") }]));
    let text = std::fs::read_to_string(&path).unwrap();
    assert_eq!(file["text"], text.replace("../tide-table.json", "tide-table.json"));
    let question = json!({ "name": "spring-fair.json", "text": file["text"], "files": file["files"] });
    let answer = table.post("work", question.to_string().as_bytes()).json();
    assert_eq!(answer["fit"]["stopped"], false, "{}", answer["fit"]);
    // Without its album it can't be worked out, and it is told which is missing.
    let alone = json!({ "name": "spring-fair.json", "text": file["text"] });
    let answer = table.post("work", alone.to_string().as_bytes()).json();
    assert_eq!((&answer["unread"], &answer["missing"]), (&json!(true), &json!(["tide-table.json"])));
    for question in ["better", "kit"] {
        assert_eq!(table.post(question, alone.to_string().as_bytes()).status, 400, "{question}");
    }
    // Where it is called otherwise on the table, the batch calls it so.
    let mut other = alone.clone();
    other["change"] = json!({ "do": "call-files", "names": { "tide-table.json": "tide-table-2.json" } });
    let answer = table.post("work", other.to_string().as_bytes()).json();
    assert_eq!(answer["text"], file["text"].as_str().unwrap().replace("\"tide-table.json", "\"tide-table-2.json"));
}

/// Whatever is asked for, it is answered: taken, or refused in words.
#[test]
fn nonsense_is_answered() {
    let mut table = Table::start();
    let mut batch = OnTable::of(&table, "tide-table");
    batch.change(&json!({ "do": "choose", "path": "kits[0]" }));
    let ways = [
        "",
        ".",
        "kits",
        "kits[",
        "kits[0]",
        "kits[0].",
        "kits[9].name",
        "kits[18446744073709551616].name",
        "kits[-1].copies",
        "kits[0].change.",
        "kits[0].change.x",
        "kits[0].change..",
        "kits[7].change.page.width",
        "kits[0].change.pages[0].kind",
        "kits[0].change.stocks.paper",
        "kits[0].change.stocks.nothing.price",
        "kits[0].choice",
        "kits[0].choice.of[9].pocket",
        "packs",
        "packs.",
        "packs..price",
        "packs.card.price",
        "supplies.x.y",
        "selling",
        "selling.",
        "selling.x",
        "spares.kits.x",
        "pages[0]",
        "together.x",
        "\u{e9}[0].\u{1f600}",
    ];
    let (mut refused, mut taken) = (0, 0);
    for way in ways {
        for change in [
            json!({ "do": "set", "path": way, "typed": "1" }),
            json!({ "do": "set", "path": way, "typed": "" }),
            json!({ "do": "set", "path": way, "typed": "{\"a\": [1, null]}" }),
            json!({ "do": "take", "path": way }),
            json!({ "do": "kind", "path": way, "kind": "pocket" }),
            json!({ "do": "add", "list": way, "at": 0, "kind": "pocket" }),
            json!({ "do": "copy", "list": way, "at": 3 }),
            json!({ "do": "move", "list": way, "from": 0, "to": 99 }),
            json!({ "do": "choose", "path": way }),
            json!({ "do": "own-paper", "path": way, "like": "paper", "name": "a.b" }),
            json!({ "do": "own-paper", "path": way, "like": "nothing", "name": "reed" }),
            json!({ "do": "sold", "list": way, "name": "a.b", "of": "1", "price": "1" }),
            json!({ "do": "mend", "path": way, "eighths": 1 }),
        ] {
            let answer = batch.ask(&change);
            if answer["refused"] == true {
                refused += 1;
                assert!(!answer["findings"][0]["text"].as_str().unwrap().is_empty(), "{change}");
            } else {
                taken += 1;
                assert!(answer["text"].is_string(), "{change}");
            }
        }
    }
    assert!(refused > 300 && taken > 5, "{refused} refused, {taken} taken");
    for change in [json!({ "do": "panels" }), json!({ "do": "add-kit", "album": "../../etc/passwd" })] {
        batch.refused(&change);
    }
    // What an album takes is not asked of a batch, nor the other way round.
    let of_album = table.work(&fixture("tide-table"), &json!({ "do": "choose", "path": "kits[0]" }));
    assert_eq!(of_album["refused"], true);
    assert_eq!(table.post("sizes", batch.question().to_string().as_bytes()).status, 404);
    assert!(table.is_alive());
}
