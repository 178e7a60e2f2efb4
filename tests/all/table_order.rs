// SPDX-License-Identifier: MIT
//! Drawers, classes, what is handed over and in which language at the table.

use crate::common::web::Table;
use crate::common::{TempDir, files, hingeleaf, project};
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};
use std::process::Command;

fn fixture(name: &str) -> String {
    std::fs::read_to_string(project().join(format!("fixtures/{name}.json"))).unwrap()
}

/// A file on the table, with what lies beside it.
struct Shown<'t> {
    table: &'t Table,
    name: String,
    text: String,
    beside: Vec<Value>,
}

impl<'t> Shown<'t> {
    fn new(table: &'t Table, name: &str, text: String) -> Self {
        Self { table, name: name.to_owned(), text, beside: Vec::new() }
    }

    fn with(mut self, name: &str, kind: &str, text: &str) -> Self {
        self.beside.push(json!({ "name": name, "kind": kind, "text": text }));
        self
    }

    fn question(&self) -> Value {
        json!({ "name": self.name, "text": self.text, "files": self.beside })
    }

    fn ask(&self, change: &Value) -> Value {
        let mut question = self.question();
        if !change.is_null() {
            question["change"] = change.clone();
        }
        self.table.post("work", question.to_string().as_bytes()).json()
    }

    #[track_caller]
    fn set(&mut self, path: &str, typed: &str) -> Value {
        let answer = self.ask(&json!({ "do": "set", "path": path, "typed": typed }));
        assert_ne!(answer["refused"], true, "{path}: {}", answer["findings"]);
        answer["text"].as_str().unwrap().clone_into(&mut self.text);
        answer
    }

    fn file(&self) -> Value {
        serde_json::from_str(&self.text).unwrap()
    }

    /// What the text of the drawer beside it is after a change; what is refused is told by its field and words.
    fn drawer(&mut self, change: &Value) -> Result<Value, (String, String)> {
        let drawer = self.beside.iter_mut().find(|one| one["kind"] == "drawer").unwrap();
        let question = json!({ "name": drawer["name"], "text": drawer["text"], "change": change });
        let answer = self.table.post("work", question.to_string().as_bytes()).json();
        assert_eq!(answer["kind"], "drawer");
        if answer["refused"] == true {
            let said = |value: &Value| value.as_str().unwrap_or_default().to_owned();
            return Err((said(&answer["field"]), said(&answer["findings"][0]["text"])));
        }
        drawer["text"] = answer["text"].clone();
        Ok(serde_json::from_str(answer["text"].as_str().unwrap()).unwrap())
    }

    /// The zip's files.
    fn zip(&self) -> BTreeMap<PathBuf, Vec<u8>> {
        self.table.post("kit", self.question().to_string().as_bytes()).unzipped()
    }
}

/// The zip holds what the command line writes for the file in it, and what that is made from, these files.
#[track_caller]
fn makes_itself_again(shown: &Shown<'_>, from: &[&str], more: &[&str]) -> TempDir {
    let said = shown.ask(&Value::Null)["take"]["command"].as_str().unwrap().to_owned();
    assert_eq!(said, format!("hingeleaf kit {} --out kit", shown.name));
    let taken = shown.zip();
    let folder = TempDir::new("order-zip");
    for name in from {
        let bytes = taken.get(Path::new(name)).unwrap_or_else(|| panic!("no {name} in {:?}", taken.keys()));
        folder.put(name, String::from_utf8(bytes.clone()).unwrap());
    }
    let words: Vec<&str> = said.split(' ').skip(1).chain(more.iter().copied()).collect();
    let run = Command::new(env!("CARGO_BIN_EXE_hingeleaf")).args(&words).current_dir(folder.path()).output().unwrap();
    assert!(run.status.success(), "{}", String::from_utf8_lossy(&run.stderr));
    let mut written = files(&folder.join("kit"));
    for name in from {
        written.insert(PathBuf::from(name), taken[Path::new(name)].clone());
    }
    written.insert("command.txt".into(), format!("{said}\n").into_bytes());
    assert_eq!(taken.keys().collect::<Vec<_>>(), written.keys().collect::<Vec<_>>());
    for (name, bytes) in &written {
        assert!(taken[name] == *bytes, "{} differs", name.display());
    }
    folder
}

/// Tags of 105 x 148.5 mm on their own stock: four of them are an A4 sheet (210 x 297 mm, ISO 216).
fn tags(count: u32, more: &str) -> String {
    format!(
        r#"{{ "format": "hingeleaf-album/1", {more}
            "stocks": {{ "card": {{ "sheet": "A3", "caliper": 0.3 }}, "notes": {{ "sheet": "A4", "caliper": 0.3 }} }},
            "page": {{ "width": 130, "height": 160, "stock": "card" }},
            "pages": [{{ "kind": "pocket" }}, {{ "kind": "pocket" }}],
            "inserts": [{{ "kind": "tag", "width": 105, "height": 148.5, "hole": 0, "corner": 0, "stock": "notes", "count": {count} }}] }}"#
    )
}

const EMPTY: &str = "{\n  \"format\": \"hingeleaf-drawer/1\",\n  \"stocks\": {}\n}\n";

/// What is said of each size in the drawer.
fn said(answer: &Value) -> Vec<(String, String)> {
    let stocks = answer["drawer"]["stocks"].as_array().unwrap().iter();
    let sheets = stocks.flat_map(|stock| stock["sheets"].as_array().unwrap());
    sheets.map(|one| (one["name"].as_str().unwrap().to_owned(), one["said"].as_str().unwrap().to_owned())).collect()
}

/// What is put into the drawer is taken from it first, four tags a sheet; the rest is bought.
#[test]
fn what_lies_there_is_taken_first() {
    let table = Table::start();
    let mut album = Shown::new(&table, "tags.json", tags(18, "")).with("drawer.json", "drawer", EMPTY);
    let before = album.ask(&Value::Null);
    assert_eq!((&before["drawer"]["name"], &before["drawer"]["own"]), (&Value::Null, &json!(false)));
    assert_eq!((&before["drawer"]["names"], &before["drawer"]["left"]), (&json!(["drawer.json"]), &Value::Null));
    let answer = album.set("drawer", "drawer.json");
    assert_eq!(album.file()["drawer"], "drawer.json");
    assert_eq!(answer["drawer"]["may"], json!(["card", "notes"]));
    // 18 tags are five sheets: three that lie there, two that are bought.
    let put = |sheet: &str, count: &str| json!({ "do": "lies", "stock": "notes", "sheet": sheet, "count": count });
    album.drawer(&put("A4", "2")).unwrap();
    let file = album.drawer(&put("210x297mm", "1")).unwrap();
    assert_eq!(file["stocks"], json!({ "notes": [{ "sheet": "A4", "count": 3 }] }), "one size is one line");
    let answer = album.ask(&Value::Null);
    assert_eq!(said(&answer), [("A4".to_owned(), "3 are taken, nothing is left".to_owned())]);
    assert_eq!(answer["drawer"]["sentence"], "3 of 3 sheets and offcuts are taken");
    // Eight lie there: five are taken, three stay.
    album.drawer(&json!({ "do": "set", "path": "drawer.stocks.notes[0].count", "typed": "8" })).unwrap();
    album.drawer(&json!({ "do": "lies", "stock": "reed", "sheet": "A5", "count": "" })).unwrap();
    let answer = album.ask(&Value::Null);
    assert_eq!(
        said(&answer),
        [
            ("A4".to_owned(), "5 are taken, 3 are left".to_owned()),
            ("A5".to_owned(), "not used: nothing is cut from reed here".to_owned())
        ]
    );
    assert_eq!(answer["fit"]["stopped"], false, "{}", answer["fit"]["findings"]);
    // After the job: what is left, half a sheet of the last one (two tags of 105 mm side by side), and the other paper's.
    let rows = answer["drawer"]["left"]["rows"].as_array().unwrap().clone();
    let of = |stock: &str| -> Vec<(&str, &str)> {
        let rows = rows.iter().filter(|row| row[0] == stock);
        rows.map(|row| (row[1].as_str().unwrap(), row[2].as_str().unwrap())).collect()
    };
    assert_eq!(of("notes"), [("A4", "3"), ("210x148.5mm", "1")], "{rows:?}");
    assert_eq!(of("reed"), [("A5", "1")]);
    // The command line leaves the same in it.
    let mut question = album.question();
    question["file"] = "drawer-after.json".into();
    let after = table.post("file", question.to_string().as_bytes());
    assert_eq!(after.status, 200);
    let folder = makes_itself_again(&album, &["tags.json", "drawer.json"], &["--update-drawer"]);
    assert_eq!(std::fs::read_to_string(folder.join("drawer.json")).unwrap(), after.text());
    // Where there is no drawer, there is none after the job.
    let mut none = Shown::new(&table, "tags.json", tags(4, "")).question();
    none["file"] = "drawer-after.json".into();
    assert_eq!(table.post("file", none.to_string().as_bytes()).status, 404);
}

/// What can't lie there is refused, at its field; the rest of the file stays as it is.
#[test]
fn a_drawer_is_changed_line_by_line() {
    let table = Table::start();
    let text = "{ \"format\": \"hingeleaf-drawer/1\", \"stocks\": { \"paper.ochre\": [{ \"sheet\": \"A4\" }], \"card\": [{ \"sheet\": \"A3\", \"count\": 2 }] } }";
    let mut album = Shown::new(&table, "a.json", tags(4, "")).with("d.json", "drawer", text);
    let set = |path: &str, typed: &str| json!({ "do": "set", "path": path, "typed": typed });
    // A stock's name may have a dot in it.
    let file = album.drawer(&set("drawer.stocks.paper.ochre[0].count", "7")).unwrap();
    assert_eq!(file["stocks"]["paper.ochre"], json!([{ "sheet": "A4", "count": 7 }]));
    let file = album.drawer(&set("drawer.stocks.card[0].count", "")).unwrap();
    assert_eq!(file["stocks"]["card"], json!([{ "sheet": "A3" }]));
    for (change, field, words) in [
        (set("drawer.stocks.card[0].sheet", "A44"), "Sheet or offcut", "there is no sheet"),
        (set("drawer.stocks.card[0].sheet", ""), "Sheet or offcut", "needs"),
        (set("drawer.stocks.card[0].count", "-1"), "How many lie there", "whole number"),
        (set("drawer.stocks.card[0].count", "1.5"), "How many lie there", "whole number"),
        (set("drawer.stocks.card[0].colour", "red"), "Lies colour", "colour"),
        (set("drawer.stocks.card[4].count", "1"), "How many lie there", "not there any more"),
        (set("drawer.stocks.card", "1"), "Lies card", "not there any more"),
        (set("stocks.card[0].count", "1"), "How many lie there", "not there any more"),
        (json!({ "do": "take", "path": "drawer.stocks.nothing[0]" }), "", "not there any more"),
        (json!({ "do": "take", "path": "drawer.stocks.nothing" }), "", "not there any more"),
        (json!({ "do": "take", "path": "drawer.stocks.card[1]" }), "", "not there any more"),
        (json!({ "do": "lies", "stock": "Left Over", "sheet": "A4", "count": "1" }), "", "can't be called"),
        (json!({ "do": "lies", "stock": "", "sheet": "A4", "count": "1" }), "", "missing"),
        (json!({ "do": "lies", "stock": "card", "sheet": " ", "count": "1" }), "", "missing"),
        (json!({ "do": "lies", "stock": "card", "sheet": "A4", "count": "lots" }), "", "no count"),
        (json!({ "do": "lies", "stock": "card", "sheet": "A4", "count": "2000000" }), "", "whole number"),
        (json!({ "do": "panels" }), "", "not there any more"),
    ] {
        let (at, said) = album.drawer(&change).expect_err(&change.to_string());
        assert!(at == field && said.contains(words), "{change}: {at}: {said}");
    }
    let file = album.drawer(&json!({ "do": "take", "path": "drawer.stocks.card[0]" })).unwrap();
    assert_eq!(file["stocks"], json!({ "paper.ochre": [{ "sheet": "A4", "count": 7 }] }));
    let wanted = "{\n  \"format\": \"hingeleaf-drawer/1\",\n  \"stocks\": {\n    \"paper.ochre\": [\n      { \"sheet\": \"A4\", \"count\": 7 }\n    ]\n  }\n}\n";
    assert_eq!(album.beside[0]["text"], wanted);
}

/// What is wrong with a drawer is told by its file, line, column and field, and stops the job; a whole one does not. What can be
/// mended is mended step by step.
#[test]
fn a_torn_drawer_is_told_at_its_place() {
    let table = Table::start();
    let text = tags(4, r#""drawer": "torn.json","#);
    let torn = Shown::new(&table, "a.json", text.clone()).with("torn.json", "drawer", &fixture("drawers/torn"));
    let batch =
        json!({ "format": "hingeleaf-batch/1", "drawer": "torn.json", "kits": [{ "name": "a", "album": "a.json" }] });
    let mut in_batch =
        Shown::new(&table, "b.json", batch.to_string()).with("torn.json", "drawer", &fixture("drawers/torn"));
    in_batch.beside.push(json!({ "name": "a.json", "text": tags(4, "") }));
    for shown in [&torn, &in_batch] {
        let answer = shown.ask(&Value::Null);
        assert_eq!((&answer["fit"]["stopped"], &answer["sheets"]), (&json!(true), &Value::Null));
        let told: Vec<String> = answer["fit"]["findings"]
            .as_array()
            .unwrap()
            .iter()
            .filter(|one| one["file"] == "torn.json")
            .map(|one| {
                format!(
                    "{} {}:{} {}",
                    one["level"].as_str().unwrap(),
                    one["line"],
                    one["column"],
                    one["path"].as_str().unwrap()
                )
            })
            .collect();
        // By the lines of fixtures/drawers/torn.json, counted by hand.
        for wanted in [
            "stop 5:18 drawer.stocks.card[0].sheet",
            "stop 6:24 drawer.stocks.card[1].cuont",
            "stop 7:7 drawer.stocks.card[2]",
            "stop 8:7 drawer.stocks.card[3]",
            "stop 10:5 drawer.stocks.Left Over",
            "stop 11:14 drawer.stocks.paper",
        ] {
            assert!(told.iter().any(|one| one.starts_with(wanted)), "{wanted} in {told:#?}");
        }
        assert_eq!(table.post("kit", shown.question().to_string().as_bytes()).status, 409);
        assert_eq!(answer["drawer"]["editable"], true);
        assert_eq!(answer["drawer"]["sentence"], "can’t be used yet");
    }
    let whole =
        Shown::new(&table, "a.json", text.clone()).with("torn.json", "drawer", &fixture("drawers/bottom-drawer"));
    assert_eq!(whole.ask(&Value::Null)["fit"]["stopped"], false);
    // Each step is taken, though what is left is not whole yet.
    let mut mended = torn;
    for change in [
        json!({ "do": "set", "path": "drawer.stocks.card[0].sheet", "typed": "A4" }),
        json!({ "do": "take", "path": "drawer.stocks.card[3]" }),
        json!({ "do": "take", "path": "drawer.stocks.card[2]" }),
        json!({ "do": "take", "path": "drawer.stocks.card[1]" }),
        json!({ "do": "take", "path": "drawer.stocks.Left Over" }),
        json!({ "do": "take", "path": "drawer.stocks.paper" }),
    ] {
        mended.drawer(&change).unwrap();
    }
    assert_eq!(mended.ask(&Value::Null)["fit"]["stopped"], false);
    // What is no JSON is shown as a text alone; what is not on the table is asked for.
    let cut = Shown::new(&table, "a.json", text.clone()).with("torn.json", "drawer", "{ \"format\": ");
    let answer = cut.ask(&Value::Null);
    assert_eq!((&answer["drawer"]["editable"], &answer["drawer"]["stocks"]), (&json!(false), &json!([])));
    assert_eq!(
        (&answer["fit"]["findings"][0]["file"], &answer["fit"]["findings"][0]["line"]),
        (&json!("torn.json"), &json!(1))
    );
    let answer = Shown::new(&table, "a.json", text).ask(&Value::Null);
    let first = &answer["fit"]["findings"][0];
    assert_eq!((&first["path"], &first["level"]), (&json!("drawer"), &json!("stop")), "{first}");
    assert!(first["text"].as_str().unwrap().contains("torn.json"), "{first}");
}

/// A batch takes its own drawer, else its albums'; the zip has it.
#[test]
fn a_batch_takes_from_a_drawer() {
    let table = Table::start();
    let drawer = r#"{ "format": "hingeleaf-drawer/1", "stocks": { "notes": [{ "sheet": "A4", "count": 1 }] } }"#;
    let of_album = tags(4, r#""drawer": "d.json","#);
    let batch = json!({ "format": "hingeleaf-batch/1", "kits": [{ "name": "a", "album": "a.json", "copies": 3 }] });
    let mut shown = Shown::new(&table, "b.json", batch.to_string()).with("d.json", "drawer", drawer);
    shown.beside.push(json!({ "name": "a.json", "text": of_album }));
    let answer = shown.ask(&Value::Null);
    assert_eq!((&answer["drawer"]["name"], &answer["drawer"]["own"]), (&json!("d.json"), &json!(false)));
    assert_eq!(said(&answer), [("A4".to_owned(), "1 is taken, nothing is left".to_owned())]);
    let answer = shown.set("drawer", "d.json");
    assert_eq!(answer["drawer"]["own"], true);
    makes_itself_again(&shown, &["b.json", "a.json", "d.json"], &[]);
}

/// A cutter's file that a stock names is found on the table, and goes along; one that is not there, or is broken, is told.
#[test]
fn a_cutter_lies_beside() {
    let table = Table::start();
    let text = tags(4, "").replace(r#""sheet": "A3","#, r#""sheet": "A3", "cutter": "laser.json","#);
    let shown = |cutter: &str| Shown::new(&table, "a.json", text.clone()).with("laser.json", "cutter", cutter);
    let answer = Shown::new(&table, "a.json", text.clone()).ask(&Value::Null);
    let first = &answer["fit"]["findings"][0];
    assert_eq!((&first["path"], &answer["fit"]["stopped"]), (&json!("stocks.card.cutter"), &json!(true)), "{first}");
    let answer = shown(r#"{ "format": "hingeleaf-cutter/1", "kerf": "wide" }"#).ask(&Value::Null);
    let first = &answer["fit"]["findings"][0];
    assert_eq!(
        (&first["file"], &first["line"], &first["path"]),
        (&json!("laser.json"), &json!(1), &json!("stocks.card.cutter")),
        "{first}"
    );
    let sound = shown(r#"{ "format": "hingeleaf-cutter/1", "kerf": 0.2, "margin": 4 }"#);
    assert_eq!(sound.ask(&Value::Null)["fit"]["stopped"], false);
    makes_itself_again(&sound, &["a.json", "laser.json"], &[]);
}

/// A class of three groups, made by fields from one.
fn class_of_three(table: &Table) -> Shown<'_> {
    let ask = json!({ "name": "tags.json", "text": tags(4, ""), "class": true });
    let begun = table.post("batch", ask.to_string().as_bytes()).json();
    let mut class = Shown::new(table, "tags-class.json", begun["text"].as_str().unwrap().to_owned()).with(
        "blade.json",
        "cutter",
        r#"{ "format": "hingeleaf-cutter/1", "margin": 2 }"#,
    );
    class.beside.push(json!({ "name": "tags.json", "text": tags(4, "") }));
    assert_eq!(begun["name"], "tags-class.json");
    let answer = class.ask(&Value::Null);
    assert_eq!(answer["fit"]["stopped"], false, "{}", answer["fit"]["findings"]);
    assert_eq!(answer["batch"]["sentence"], "1 group of makers, 4 albums to be made in all.");
    let add = class.ask(&json!({ "do": "add-group" }));
    add["text"].as_str().unwrap().clone_into(&mut class.text);
    let copy = class.ask(&json!({ "do": "copy", "list": "class.makers", "at": 1 }));
    copy["text"].as_str().unwrap().clone_into(&mut class.text);
    for (path, typed) in [
        ("class.makers[0].name", "window"),
        ("class.makers[0].count", "2"),
        ("class.makers[0].by", "trimmer"),
        ("class.makers[1].count", "1"),
        ("class.makers[1].sheet.card", "tabloid"),
        ("class.makers[1].cutter", "blade.json"),
        ("class.makers[2].count", "1"),
        ("class.makers[2].cutter", "(own)"),
        ("class.makers[2].cutter.gap", "1"),
        ("class.makers[2].handed_over.card", "scored"),
        ("class.makers[2].change.pages[0].kind", ""),
        ("class.change.page.seam", "13"),
        ("class.shared_by", "2"),
        ("class.brings", "Aprons, all sizes; a kettle ;"),
        ("language", "de"),
        ("handed_over.notes", "cut"),
    ] {
        class.set(path, typed);
    }
    class
}

/// A class begins with one group, whose makers, sheets, tool and what they are handed are said by fields.
#[test]
fn a_class_is_made() {
    let table = Table::start();
    let class = class_of_three(&table);
    assert_eq!(
        class.file()["class"],
        json!({
            "album": "tags.json",
            "makers": [
                { "name": "window", "count": 2, "by": "trimmer" },
                { "name": "group-2", "count": 1, "sheet": { "card": "tabloid" }, "cutter": "blade.json" },
                { "name": "group-3", "count": 1, "cutter": { "gap": 1 }, "handed_over": { "card": "scored" } }
            ],
            "change": { "page.seam": 13 },
            "shared_by": 2,
            "brings": ["Aprons, all sizes", "a kettle"]
        })
    );
    assert_eq!(class.file()["handed_over"], json!({ "notes": "cut" }));
    let answer = class.ask(&Value::Null);
    assert_eq!(answer["fit"]["stopped"], false, "{}", answer["fit"]["findings"]);
    assert_eq!(answer["take"]["makers"], json!(["window", "group-2", "group-3"]));
    // The teacher's list is in the page's language; what is handed out in that of the class.
    let sections: Vec<&str> =
        answer["tables"].as_array().unwrap().iter().map(|one| one["heading"].as_str().unwrap()).collect();
    assert!(sections.contains(&"Bring this to the class") && sections.contains(&"Pack the bags"), "{sections:?}");
    let folder = makes_itself_again(&class, &["tags-class.json", "tags.json", "blade.json"], &[]);
    for name in ["window", "group-2", "group-3"] {
        let page = std::fs::read_to_string(folder.join(&format!("kit/makers/{name}.html"))).unwrap();
        assert!(page.contains("lang=\"de\""), "{name}");
    }
}

/// What a class can't say is refused, at its field; what is left empty goes.
#[test]
fn what_a_group_can_not_be_is_refused() {
    let table = Table::start();
    let mut class = class_of_three(&table);
    for (path, typed, field) in [
        ("class.makers[1].sheet.card", "A33", "Sheet of card"),
        ("class.makers[1].name", "window", "Name of the group"),
        ("class.makers[1].count", "0", "How many makers"),
        ("class.makers[1].cutter.kerf", "0.1", "Kerf"),
        ("class.makers[2].cutter.kerf", "wide", "Kerf"),
        ("class.makers[9].count", "1", "How many makers"),
        ("class.shared_by", "0", "Makers who share a trimmer, a machine, a punch"),
        ("class.album", "nowhere.json", "Its album"),
    ] {
        let answer = class.ask(&json!({ "do": "set", "path": path, "typed": typed }));
        assert_eq!((&answer["refused"], &answer["field"]), (&json!(true), &json!(field)), "{path}");
    }
    for path in
        ["class.brings", "class.makers[1].sheet.card", "class.makers[1].cutter", "class.makers[2].handed_over.card"]
    {
        class.set(path, "");
    }
    let makers = class.file()["class"]["makers"].clone();
    assert_eq!(makers[1], json!({ "name": "group-2", "count": 1 }));
    assert_eq!(makers[2].get("handed_over"), None);
    let taken = class.ask(&json!({ "do": "take", "path": "class.makers[0]" }));
    assert_eq!(taken["batch"]["kits"].as_array().unwrap().len(), 2);
}

/// A fault of one group is told with its name, at its field; its mend is a change of that group alone.
#[test]
fn a_fault_of_a_group_is_its_own() {
    let table = Table::start();
    let class = |second: &Value| {
        json!({ "format": "hingeleaf-batch/1", "class": { "album": "tide-table.json", "makers": [{ "name": "one", "count": 1 }, second] } }).to_string()
    };
    let shown = |second: &Value| {
        let mut shown = Shown::new(&table, "c.json", class(second));
        shown.beside.push(json!({ "name": "tide-table.json", "text": fixture("tide-table") }));
        shown
    };
    // 148 - 110 leaves 38 mm to close, which a flap of 30 mm does not reach over.
    let mut broken = shown(&json!({ "name": "two", "count": 1, "change": { "pages[1].overflap": 30 } }));
    let answer = broken.ask(&Value::Null);
    let first = &answer["fit"]["findings"][0];
    assert_eq!((&first["path"], &first["level"]), (&json!("class.makers[1].change.pages[1].overflap"), &json!("stop")));
    assert!(first["about"].as_str().unwrap().starts_with("two, "), "{first}");
    let mend = first["mend"].clone();
    let mended = broken.set(mend["path"].as_str().unwrap(), mend["typed"].as_str().unwrap());
    assert_eq!(mended["fit"]["stopped"], false, "{}", mended["fit"]["findings"]);
    let small = shown(&json!({ "name": "two", "count": 1, "sheet": { "card": "A5" } })).ask(&Value::Null);
    let first = &small["fit"]["findings"][0];
    assert_eq!(first["path"], "class.makers[1]", "{first}");
    assert_eq!(shown(&json!({ "name": "two", "count": 1 })).ask(&Value::Null)["fit"]["stopped"], false);
}

/// One sheet that stands for several stocks is shown at each of them, and said of each once one is another.
#[test]
fn one_sheet_stands_for_several_stocks() {
    let table = Table::start();
    let text = json!({ "format": "hingeleaf-batch/1", "class": { "album": "a.json", "makers": [{ "name": "one", "count": 1, "sheet": "A4" }] } });
    let mut shown = Shown::new(&table, "c.json", text.to_string());
    let album = tags(4, "").replace("\"sheet\": \"A3\"", "\"sheet\": \"letter\"");
    shown.beside.push(json!({ "name": "a.json", "text": album }));
    let sheets = |answer: &Value| -> Vec<(Value, Value)> {
        let rows = answer["batch"]["kits"][0]["sheets"].as_array().unwrap();
        rows.iter().map(|row| (row["value"].clone(), row["usual"].clone())).collect()
    };
    let pair = |value: &str, usual: &str| (json!(value), json!(usual));
    assert_eq!(sheets(&shown.ask(&Value::Null)), [pair("A4", "letter"), pair("A4", "A4")]);
    let answer = shown.set("class.makers[0].sheet.notes", "A3");
    assert_eq!(shown.file()["class"]["makers"][0]["sheet"], json!({ "card": "A4", "notes": "A3" }));
    assert_eq!(sheets(&answer), [pair("A4", "letter"), pair("A3", "A4")]);
}

/// In what state card is handed over is said of each stock; what is the same of all in one word. An album has it, too.
#[test]
fn what_is_handed_over_is_said_of_each_stock() {
    let table = Table::start();
    let mut album = Shown::new(&table, "a.json", tags(4, ""));
    album.set("handed_over.card", "scored");
    assert_eq!(album.file()["handed_over"], json!({ "card": "scored" }));
    let answer = album.set("handed_over.notes", "scored");
    assert_eq!(album.file()["handed_over"], "scored");
    let rows = answer["album"]["handed"].as_array().unwrap();
    assert_eq!(rows.iter().map(|row| &row["value"]).collect::<Vec<_>>(), ["scored", "scored"]);
    album.set("handed_over.notes", "");
    assert_eq!(album.file()["handed_over"], json!({ "card": "scored" }));
    let answer = album.set("handed_over.card", "");
    assert_eq!(album.file().get("handed_over"), None);
    assert_eq!(answer["album"]["handed"][0]["usual"], "whole sheets");
    let refused = album.ask(&json!({ "do": "set", "path": "handed_over.card", "typed": "folded" }));
    assert_eq!(refused["refused"], true);
    // A batch wins over its albums, and speaks its own language on paper; the page's tables stay the page's.
    let mut batch = Shown::new(
        &table,
        "b.json",
        json!({ "format": "hingeleaf-batch/1", "kits": [{ "name": "a", "album": "a.json", "copies": 2 }] }).to_string(),
    );
    batch.beside.push(json!({ "name": "a.json", "text": tags(4, "\"language\": \"de\",") }));
    assert_eq!(batch.ask(&Value::Null)["batch"]["handed"][0]["usual"], "as each album says");
    batch.set("handed_over.card", "cut");
    batch.set("selling.packaging", "1");
    let price = |answer: &Value| answer["tables"].to_string().contains("Packaging");
    assert!(price(&batch.ask(&Value::Null)));
    let answer = batch.set("language", "de");
    assert!(price(&answer) && !answer["tables"].to_string().contains("Verpackung"), "{}", answer["tables"]);
    let job = String::from_utf8(batch.zip()[Path::new("job.html")].clone()).unwrap();
    assert!(job.contains("Verpackung") && job.contains("lang=\"de\""));
    let mut german = Shown::new(&table, "a.json", tags(4, "\"language\": \"de\", \"copies\": 2,"));
    assert!(price(&german.set("selling.packaging", "1")));
}

/// A class file whose album and cutter lie in other folders is opened with them; on the table all lie in one place. Files that are
/// brought from elsewhere are called by their names alone, all else stays byte for byte.
#[test]
fn a_class_is_opened_with_its_files() {
    let path = project().join("fixtures/batches/paper-evening.json");
    let table = Table::start_with(&[path.to_str().unwrap()]);
    let file = table.post("open", b"{}").json()["file"].clone();
    let text = std::fs::read_to_string(&path).unwrap();
    let wanted = text.replace("../tide-table.json", "tide-table.json").replace("../cutters/", "");
    assert_eq!(file["text"], wanted);
    assert_eq!(
        file["files"],
        json!([
            { "name": "tide-table.json", "text": fixture("tide-table") },
            { "name": "blade-12in.json", "text": fixture("cutters/blade-12in"), "kind": "cutter" }
        ])
    );
    let names = json!({ "tide-table.json": "tide-table.json", "blade-12in.json": "blade-12in.json" });
    let question = json!({ "name": "c.json", "text": text, "change": { "do": "call-files", "names": names } });
    assert_eq!(table.post("work", question.to_string().as_bytes()).json()["text"], wanted);
    // The form says what the file says.
    let question = json!({ "name": "c.json", "text": wanted, "files": file["files"] });
    let group = table.post("work", question.to_string().as_bytes()).json()["batch"]["kits"][1].clone();
    assert_eq!((&group["name"], &group["machine"]["row"]["value"]), (&json!("long-table"), &json!("blade-12in.json")));
    // An album and a drawer of one name in two folders are told apart.
    let folder = TempDir::new("opened");
    std::fs::create_dir(folder.join("sub")).unwrap();
    let album = folder.put("a.json", tags(4, r#""drawer": "sub/a.json","#));
    folder.put("sub/a.json", EMPTY);
    let table = Table::start_with(&[album.to_str().unwrap()]);
    let file = table.post("open", b"{}").json()["file"].clone();
    assert_eq!(file["files"], json!([{ "name": "a-2.json", "text": EMPTY, "kind": "drawer" }]));
    assert!(file["text"].as_str().unwrap().contains(r#""drawer": "a-2.json""#), "{}", file["text"]);
    assert_eq!(hingeleaf(["check", album.to_str().unwrap()]).code, 0);
}

/// Whatever is asked of a class or a drawer, it is answered: taken, or refused in words.
#[test]
fn nonsense_is_answered() {
    let mut table = Table::start();
    let class = r#"{ "format": "hingeleaf-batch/1", "class": { "album": "a.json", "makers": [{ "name": "one", "count": 1 }] } }"#;
    let of = |text: &str, name: &str| json!({ "name": name, "text": text, "files": [{ "name": "a.json", "text": tags(1, "") }] });
    let ways = [
        "",
        "class",
        "class.",
        "class.makers",
        "class.makers[",
        "class.makers[0]",
        "class.makers[0].",
        "class.makers[9].name",
        "class.makers[0].sheet",
        "class.makers[0].sheet.",
        "class.makers[0].sheet.a.b",
        "class.makers[0].cutter",
        "class.makers[0].cutter.x",
        "class.makers[0].handed_over",
        "class.makers[0].handed_over.",
        "class.makers[0].handed_over.x.y",
        "class.makers[7].handed_over.card",
        "class.change.x",
        "handed_over",
        "handed_over.",
        "handed_over.x",
        "drawer",
        "drawer.",
        "drawer.stocks",
        "drawer.stocks.[0].x",
        "drawer.stocks.card[99999999999999999999].count",
        "\u{e9}.handed_over.\u{1f600}",
    ];
    let mut answers = 0;
    for (text, name) in [
        (class, "c.json"),
        (EMPTY, "d.json"),
        ("{ \"format\": \"hingeleaf-drawer/1\" }", "d.json"),
        ("{ \"format\": \"hingeleaf-drawer/1\", \"stocks\": [1] }", "d.json"),
    ] {
        for way in ways {
            for change in [
                json!({ "do": "set", "path": way, "typed": "1" }),
                json!({ "do": "set", "path": way, "typed": "" }),
                json!({ "do": "take", "path": way }),
                json!({ "do": "copy", "list": way, "at": 3 }),
                json!({ "do": "lies", "stock": way, "sheet": way, "count": way }),
                json!({ "do": "add-group" }),
                json!({ "do": "choose", "path": way }),
                json!({ "do": "own-paper", "path": way, "like": "notes", "name": "moss" }),
            ] {
                let mut question = of(text, name);
                question["change"] = change.clone();
                let answer = table.post("work", question.to_string().as_bytes()).json();
                let refused = answer["refused"] == true && !answer["findings"][0]["text"].as_str().unwrap().is_empty();
                assert!(refused || answer["text"].is_string(), "{change}: {answer}");
                answers += 1;
            }
        }
    }
    assert!(answers > 800 && table.is_alive());
}
