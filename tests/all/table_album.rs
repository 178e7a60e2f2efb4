// SPDX-License-Identifier: MIT
//! What the table does to an album's text, and what it gives to take away.

use crate::common::web::{Table, unzipped};
use crate::common::{TempDir, files, fixtures, hingeleaf, kit, project};
use hingeleaf::parts::Kit;
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::path::PathBuf;

fn fixture(name: &str) -> String {
    std::fs::read_to_string(project().join(format!("fixtures/{name}.json"))).unwrap()
}

#[track_caller]
fn text(answer: &Value) -> &str {
    answer["text"].as_str().unwrap_or_else(|| panic!("refused: {}", answer["findings"]))
}

/// A kit's parts with the corners of their outlines, mm.
fn sizes(kit: &Kit) -> Vec<(String, Vec<f64>)> {
    let corners = |part: &hingeleaf::parts::Part| {
        part.flat.outline.vertices().iter().flat_map(|v| [v.at.x, v.at.y, v.bulge]).collect()
    };
    kit.parts.iter().map(|part| (format!("{} x{}", part.id, part.count), corners(part))).collect()
}

/// Another unit alters no size that the file says or leaves out, of any album, whichever way. What is worked out from
/// other sizes lies on a mark of the maker's ruler (0.5 mm, 1/32 in), so it may move by one mark; then that is said.
#[test]
fn another_unit_is_another_way_of_writing_alone() {
    let table = Table::start();
    let (mut same, mut moved) = (0, 0);
    for path in fixtures() {
        let before = std::fs::read_to_string(&path).unwrap();
        let was = serde_json::from_str::<Value>(&before).unwrap();
        if !was["kinds"].is_null() {
            // Its kinds lie in a folder, which the page does not see; `table_kinds` has such an album.
            continue;
        }
        let units = was["units"].as_str().unwrap_or("mm").to_owned();
        let parts = sizes(&kit(&before));
        for to in ["mm", "cm", "in"].into_iter().filter(|to| *to != units) {
            let about = format!("{} in {to}", path.display());
            let there = table.work(&before, &json!({ "do": "units", "units": to }));
            assert_eq!(there["album"]["units"], to);
            let said = there["notes"].to_string().contains("worked out");
            let now = sizes(&kit(text(&there)));
            assert_eq!(now.len(), parts.len(), "{about}");
            let mut apart: f64 = 0.0;
            for ((name, one), (other_name, other)) in parts.iter().zip(&now) {
                assert_eq!((name, one.len()), (other_name, other.len()), "{about}");
                apart = one.iter().zip(other).map(|(a, b)| (a - b).abs()).fold(apart, f64::max);
            }
            // The longest is a band: two lengths and two widths, each on a mark beyond a size of the cover's that is on a
            // mark itself. So it is at most eight marks of 1/32 in off.
            assert!(apart < 8.0 * 25.4 / 32.0, "{about}: {apart} mm");
            assert_eq!(apart > 1e-6, said, "{about}: {apart} mm, and it is said {}", there["notes"]);
            if said {
                moved += 1;
            } else {
                same += 1;
            }
            let back = table.work(text(&there), &json!({ "do": "units", "units": units }));
            let back_parts = sizes(&kit(text(&back)));
            let whole: Vec<f64> = parts.iter().flat_map(|(_, numbers)| numbers.clone()).collect();
            let again: Vec<f64> = back_parts.iter().flat_map(|(_, numbers)| numbers.clone()).collect();
            assert!(whole.iter().zip(&again).all(|(a, b)| (a - b).abs() < 1e-6), "{about} and back");
            let back: Value = serde_json::from_str(text(&back)).unwrap();
            assert_eq!(back["page"]["width"].is_number(), was["page"]["width"].is_number(), "{about}");
        }
    }
    assert!(same > 0 && moved > 0, "{same} stayed, {moved} moved");
}

/// Sizes that were read off a bought cover are not those of one that is cut after it; between covers that are cut they stay. No
/// form is shown for a stock that no file has.
#[test]
fn sizes_of_a_bought_cover_stay_with_it() {
    let table = Table::start();
    let kind = |before: &str, kind: &str| table.work(before, &json!({ "do": "kind", "path": "cover", "kind": kind }));
    let cover = |answer: &Value| -> Value { serde_json::from_str::<Value>(text(answer)).unwrap()["cover"].clone() };
    let wrap = kind(&fixture("tide-table"), "wrap");
    let square = table.work(text(&wrap), &json!({ "do": "set", "path": "cover.square", "typed": "4" }));
    let case = kind(text(&square), "case");
    assert_eq!(cover(&case)["square"], cover(&square)["square"]);
    assert!(!cover(&square)["square"].is_null(), "{}", square["findings"]);
    let bought = kind(text(&case), "ready-made");
    assert!(cover(&bought)["square"].is_null() && cover(&bought)["spine"].is_number(), "{}", cover(&bought));
    let names = |answer: &Value| answer["album"]["stocks"].as_array().map(Vec::len);
    assert_eq!(names(&bought), names(&case));
    assert!(!bought["album"].to_string().contains("ready-made cover"), "{}", bought["album"]["stocks"]);
    assert_eq!(cover(&kind(text(&bought), "wrap")), json!({ "kind": "wrap" }));
}

#[test]
fn every_kind_can_come_into_every_unit() {
    let table = Table::start();
    let opened = table.post("open", b"{}").json();
    for album in ["tide-table", "seed-ledger", "sketchbook"] {
        let before = fixture(album);
        for kind in opened["kinds"]["page"].as_array().unwrap() {
            let kind = kind["kind"].as_str().unwrap();
            let added = table.work(&before, &json!({ "do": "add", "list": "pages", "at": 1, "kind": kind }));
            assert_eq!(added["album"]["pages"][1]["kind"], kind, "{album}: {}", added["findings"]);
            let other = table.work(&before, &json!({ "do": "kind", "path": "pages[1]", "kind": kind }));
            assert_eq!(other["album"]["pages"][1]["kind"], kind, "{album}: {}", other["findings"]);
        }
        for kind in opened["kinds"]["insert"].as_array().unwrap() {
            let added = table.work(&before, &json!({ "do": "add", "list": "inserts", "at": 99, "kind": kind["kind"] }));
            let last =
                added["album"]["inserts"].as_array().unwrap_or_else(|| panic!("{}", added["findings"])).last().unwrap();
            assert_eq!(last["kind"], kind["kind"], "{album}");
        }
        for role in ["spine", "cover"] {
            for kind in opened["kinds"][role].as_array().unwrap() {
                let other = table.work(&before, &json!({ "do": "kind", "path": role, "kind": kind["kind"] }));
                assert_eq!(other["album"][role]["kind"], kind["kind"], "{album}: {}", other["findings"]);
            }
        }
    }
}

/// A page that is added so to a plain album goes together with it: its sizes are made for the page.
#[test]
fn a_new_page_goes_together_with_a_plain_album() {
    let table = Table::start();
    let opened = table.post("open", b"{}").json();
    for units in ["mm", "in"] {
        let plain = opened["starters"][units].as_str().unwrap();
        for kind in opened["kinds"]["page"].as_array().unwrap() {
            let added = table.work(plain, &json!({ "do": "add", "list": "pages", "at": 0, "kind": kind["kind"] }));
            // A page for a print of 4 x 6 in is not smaller than the print; the plain albums' pages may be.
            if kind["kind"] == "frame" || kind["kind"] == "corner-mount" {
                continue;
            }
            // Doors and leaves that fold out take more than an A4 or letter sheet: that is the sheet's matter.
            for finding in added["fit"]["findings"].as_array().unwrap() {
                assert!(
                    finding["level"] != "stop" || finding["id"] == "too-big",
                    "{units} {}: {finding}",
                    kind["kind"]
                );
            }
        }
    }
}

/// Inserts are for pages by number, and pages change numbers: the tags of pages 1 and 4 stay with their pages.
#[test]
fn inserts_follow_their_pages() {
    let table = Table::start();
    let before = fixture("tide-table");
    let pages = |answer: &Value| serde_json::from_str::<Value>(text(answer)).unwrap()["inserts"][0]["pages"].clone();
    let change = |change: Value| table.work(&before, &change);
    // Page 1 becomes page 3; 2 and 3 become 1 and 2; 4 stays.
    assert_eq!(pages(&change(json!({ "do": "move", "list": "pages", "from": 0, "to": 2 }))), json!([3, 4]));
    // Page 4 becomes page 2; 1 stays.
    assert_eq!(pages(&change(json!({ "do": "move", "list": "pages", "from": 3, "to": 1 }))), json!([1, 2]));
    // A page before both, and a copy of page 1 right behind it.
    assert_eq!(pages(&change(json!({ "do": "add", "list": "pages", "at": 0, "kind": "pocket" }))), json!([2, 5]));
    assert_eq!(pages(&change(json!({ "do": "copy", "list": "pages", "at": 0 }))), json!([1, 5]));
    assert_eq!(pages(&change(json!({ "do": "take", "path": "pages[1]" }))), json!([1, 3]));
    let gone = change(json!({ "do": "take", "path": "pages[0]" }));
    assert_eq!(pages(&gone), json!([3]));
    let none = table.work(text(&gone), &json!({ "do": "take", "path": "pages[2]" }));
    assert_eq!(pages(&none), Value::Null);
    assert!(none["notes"][0].as_str().unwrap().contains("goes where there is room"), "{}", none["notes"]);
}

#[test]
fn what_is_typed_stands_in_the_file_as_it_was_typed() {
    let table = Table::start();
    let before = fixture("tide-table");
    let width = |typed: &str| {
        let answer = table.work(&before, &json!({ "do": "set", "path": "page.width", "typed": typed }));
        if answer["refused"] == true {
            answer["findings"][0]["text"].clone()
        } else {
            serde_json::from_str::<Value>(text(&answer)).unwrap()["page"]["width"].clone()
        }
    };
    assert_eq!(width("150"), 150);
    assert_eq!(width(" 150.5 "), 150.5);
    assert_eq!(width("5 1/2 in"), "5 1/2 in");
    assert_eq!(width("15cm"), "15cm");
    for wrong in ["150,5", "wide", "1/0", "-3", "0"] {
        assert!(width(wrong).as_str().unwrap().len() > 10, "{wrong}: nothing is said");
    }
    // A list, a choice, and what is left out again.
    let set = |path: &str, typed: &str| {
        let answer = table.work(&before, &json!({ "do": "set", "path": path, "typed": typed }));
        serde_json::from_str::<Value>(text(&answer)).unwrap()
    };
    assert_eq!(set("inserts[0].pages", "4, 1")["inserts"][0]["pages"], json!([4, 1]));
    assert_eq!(set("pages[1].faces", "front")["pages"][1]["faces"], "front");
    assert_eq!(set("pages[1].faces", "")["pages"][1].get("faces"), None);
    // The price was the other sheet's.
    let sheet = set("stocks.card.sheet", "12x12in");
    assert_eq!((&sheet["stocks"]["card"]["sheet"], sheet["stocks"]["card"].get("price")), (&json!("12x12in"), None));
    // Nothing else of the text is another.
    let changed = table.work(&before, &json!({ "do": "set", "path": "page.width", "typed": "150" }));
    assert_eq!(text(&changed), before.replace("\"width\": 148,", "\"width\": 150,"));
}

/// The mends that findings offer are taken, one by one, and the album goes together.
#[test]
fn a_mend_mends() {
    let table = Table::start();
    // 148 - 110 leaves 38 mm to close, which a flap of 30 mm does not reach over.
    let broken =
        fixture("tide-table").replace("\"overflap\": 45, \"faces\": \"back\"", "\"overflap\": 30, \"faces\": \"back\"");
    let answer = table.work(&broken, &Value::Null);
    assert_eq!(answer["fit"]["stopped"], true);
    assert_eq!(answer["sheets"], Value::Null);
    let mend = &answer["fit"]["findings"][0]["mend"];
    assert!(mend["words"].as_str().unwrap().starts_with("Page 2, closing flap: "), "{mend}");
    let mended = table.work(&broken, &json!({ "do": "mend", "path": mend["path"], "eighths": mend["eighths"] }));
    assert_eq!(mended["fit"]["stopped"], false, "{}", mended["fit"]["findings"]);
    let all = table.work(&broken, &json!({ "do": "mend-all" }));
    assert_eq!(all["fit"]["stopped"], false);
    assert!(all["notes"][0].as_str().unwrap().contains("closing flap"), "{}", all["notes"]);
}

/// A cutter file with these settings.
fn cutter(settings: &Value) -> String {
    let mut file = settings.clone();
    file["format"] = "hingeleaf-cutter/1".into();
    file.to_string()
}

#[test]
fn the_zip_is_the_kit_that_the_command_line_writes() {
    let table = Table::start();
    for (name, machine, options) in [
        ("orchard-notes", json!({}), vec![]),
        (
            "tide-table",
            json!({ "text": cutter(&json!({ "kerf": 0.1, "gap": 1, "margin": "1/8 in" })), "trimmer": true }),
            vec!["--kerf", "0.1", "--gap", "1", "--margin", "1/8in", "--trimmer"],
        ),
    ] {
        let folder = TempDir::new("zip");
        let album = folder.put(&format!("{name}.json"), fixture(name));
        let out = folder.join("kit");
        let asked: Vec<&str> =
            [vec!["kit", album.to_str().unwrap(), "--out", out.to_str().unwrap()], options.clone()].concat();
        let run = hingeleaf(asked);
        assert_eq!(run.code, 0, "{run:?}");
        let written: BTreeMap<PathBuf, Vec<u8>> = files(&out);
        let question = json!({ "name": album.to_str().unwrap(), "text": fixture(name), "machine": machine });
        let zipped = || {
            let reply = table.post("kit", question.to_string().as_bytes());
            assert_eq!(reply.status, 200, "{}", reply.text());
            reply.body
        };
        let bytes = zipped();
        assert_eq!(bytes, zipped(), "two zips of one album differ");
        let mut taken = unzipped(&bytes);
        // Beside it lies what it is made from, and how.
        let file = format!("{name}.json");
        assert_eq!(taken.remove(&PathBuf::from(&file)), Some(fixture(name).into_bytes()));
        let machine = taken.remove(&PathBuf::from("my-cutter.json"));
        assert_eq!(machine.is_some(), !options.is_empty(), "{name}");
        let more = if options.is_empty() { "" } else { " --cutter my-cutter.json --trimmer" };
        let command = format!("hingeleaf kit {file} --out kit{more}\n");
        assert_eq!(taken.remove(&PathBuf::from("command.txt")), Some(command.into_bytes()));
        assert_eq!(taken.keys().collect::<Vec<_>>(), written.keys().collect::<Vec<_>>());
        assert!(taken == written, "files differ");
    }
    // An album that does not go together gives nothing to cut.
    let broken = fixture("tide-table").replace("\"overflap\": 45", "\"overflap\": 30");
    let question = json!({ "name": "a.json", "text": broken });
    assert_eq!(table.post("kit", question.to_string().as_bytes()).status, 409);
}

/// A size of the machine that can't be used is named where it was typed, stops the work and gives nothing to cut.
#[test]
fn a_machine_that_can_not_be_told_stops_the_work() {
    let table = Table::start();
    for (name, typed) in [("margin", "500"), ("margin", "x"), ("gap", "-1"), ("kerf", "1/0 in"), ("kerf", "title")] {
        let question = json!({ "name": "a.json", "text": fixture("tide-table"), "machine": { "text": cutter(&json!({ name: typed })) } });
        let bytes = question.to_string().into_bytes();
        let answer = table.post("work", &bytes).json();
        let first = &answer["fit"]["findings"][0];
        assert_eq!((&first["path"], &first["level"]), (&json!(format!("cutter.{name}")), &json!("stop")), "{typed}");
        assert_eq!(answer["machine"]["findings"][0], *first, "{typed}");
        assert_eq!((&answer["fit"]["stopped"], &answer["sheets"]), (&json!(true), &Value::Null), "{typed}");
        assert!(answer["fit"]["sentence"].as_str().unwrap().starts_with("Nothing can be cut"), "{}", answer["fit"]);
        assert!(answer["take"]["sentence"].as_str().unwrap().starts_with("Nothing to cut"), "{}", answer["take"]);
        assert!(first["text"].as_str().unwrap().contains(&typed[..1]), "{first}");
        for question in ["better", "sizes", "kit"] {
            assert_eq!(table.post(question, &bytes).status, 409, "{question} with {typed}");
        }
    }
}

/// Register marks and sheets on a bed are switched on and off; places that a file states stay when they are chosen again.
#[test]
fn marks_and_beds_are_set_on_the_page() {
    let table = Table::start();
    let set = |text: &str, path: &str, typed: &str| -> String {
        let question =
            json!({ "name": "c.json", "text": text, "change": { "do": "set", "path": path, "typed": typed } });
        let answer = table.post("work", question.to_string().as_bytes()).json();
        answer["text"].as_str().unwrap_or_else(|| panic!("{path}: {answer}")).to_owned()
    };
    let read = |text: &str| serde_json::from_str::<Value>(text).unwrap();
    let nothing = cutter(&json!({}));
    let marked = set(&nothing, "cutter.marks", "more");
    assert_eq!(read(&marked)["marks"], json!({ "shape": "corner", "number": 4 }));
    let ring = set(&marked, "cutter.marks.shape", "ring");
    assert_eq!(read(&set(&ring, "cutter.marks.bleed", "1.5"))["marks"]["bleed"], json!(1.5));
    assert_eq!(set(&ring, "cutter.marks", ""), nothing);
    for (typed, written) in [("fill", json!("fill")), ("4", json!(4))] {
        let bed = set(&nothing, "cutter.sheets_a_bed", typed);
        assert_eq!(read(&bed)["sheets_a_bed"], written);
        assert_eq!(set(&bed, "cutter.sheets_a_bed", ""), nothing);
    }
    let places = cutter(&json!({ "sheets_a_bed": [{ "x": 5, "y": 5 }] }));
    assert_eq!(set(&places, "cutter.sheets_a_bed", "stated"), places);
    let question = json!({ "name": "a.json", "text": fixture("tide-table"), "machine": { "text": places } });
    let answer = table.post("work", question.to_string().as_bytes()).json();
    // A bed of unknown size is told at the bed, and the row shows what the file has.
    assert_eq!(answer["machine"]["findings"][0]["path"], "cutter.bed");
    let groups = answer["machine"]["groups"].as_array().unwrap().iter();
    let mut rows = groups.flat_map(|group| group["rows"].as_array().unwrap());
    let row = rows.find(|row| row["path"] == "cutter.sheets_a_bed").unwrap();
    assert_eq!((&row["value"], &row["given"]), (&json!("stated"), &json!(true)));
}

/// Every field that a cutter file may have stands on the page once, is written where it belongs, and limits are told at a field.
#[test]
fn all_of_a_cutter_file_is_on_the_page() {
    let table = Table::start();
    let ask = |text: &str| {
        let question = json!({ "name": "a.json", "text": fixture("tide-table"), "machine": { "text": text } });
        table.post("work", question.to_string().as_bytes()).json()
    };
    let set = |text: &str, path: &str, typed: &str| -> String {
        let question =
            json!({ "name": "c.json", "text": text, "change": { "do": "set", "path": path, "typed": typed } });
        let answer = table.post("work", question.to_string().as_bytes()).json();
        answer["text"].as_str().unwrap_or_else(|| panic!("{path}: {answer}")).to_owned()
    };
    let paths = |answer: &Value| -> Vec<String> {
        let groups = answer["machine"]["groups"].as_array().unwrap().iter();
        let rows = groups.flat_map(|group| group["rows"].as_array().unwrap());
        rows.map(|row| row["path"].as_str().unwrap().to_owned()).collect()
    };
    let nothing = cutter(&json!({}));
    // The schema, which is made for editors, says what there is; the head and `$schema` are no settings.
    let schema: Value =
        serde_json::from_str(&std::fs::read_to_string(project().join("fixtures/schemas/cutter.json")).unwrap())
            .unwrap();
    let shown = paths(&ask(&nothing));
    for name in schema["properties"].as_object().unwrap().keys() {
        if !matches!(name.as_str(), "format" | "units" | "$schema") {
            let way = format!("cutter.{name}");
            assert!(shown.iter().any(|path| *path == way || path.starts_with(&format!("{way}."))), "{name} is missing");
        }
    }
    // One number for all three is parted where one of them becomes another.
    let parted = set(&cutter(&json!({ "passes": 2 })), "cutter.passes.score", "3");
    let parted: Value = serde_json::from_str(&parted).unwrap();
    assert_eq!(parted["passes"], json!({ "cut": 2, "score": 3, "draw": 2 }));
    let nicked = set(&nothing, "cutter.nicks", "more");
    let answer = ask(&nicked);
    assert!(paths(&answer).contains(&"cutter.nicks.small_under".to_owned()));
    assert_eq!(answer["machine"]["findings"][0]["path"], "cutter.gap", "nicks without a gap");
    assert_eq!((&answer["fit"]["stopped"], &answer["sheets"]), (&json!(true), &Value::Null));
    let sound = ask(&set(&nicked, "cutter.gap", "1"));
    assert_eq!((&sound["machine"]["findings"], &sound["fit"]["stopped"]), (&json!([]), &json!(false)));
    assert_eq!(set(&nicked, "cutter.nicks", ""), nothing);
    // What was measured: a row of ten strips of 98 mm and a slot of 100.2 mm make (100.2 - 98) / 11 = 0.2 mm.
    let measured = |slots: f64| {
        json!({ "format": "hingeleaf-measured/1", "scale": { "across": 100 }, "strips": 98, "slots": slots })
            .to_string()
    };
    let worked = |slots: f64| {
        let machine = json!({ "text": nicked, "measured": measured(slots) });
        let question = json!({ "name": "a.json", "text": fixture("tide-table"), "machine": machine });
        table.post("work", question.to_string().as_bytes()).json()["machine"]["measured"].clone()
    };
    let made: Value = serde_json::from_str(worked(100.2)["text"].as_str().unwrap()).unwrap();
    assert_eq!((made["kerf"].as_f64(), made["nicks"]["count"].as_f64()), (Some(0.2), Some(2.0)));
    let broken = worked(300.0);
    assert_eq!((&broken["text"], &broken["findings"][0]["path"]), (&Value::Null, &json!("measured.slots")));
}

/// Names that the maker gave are called so, however a field of the same name is called on the page.
#[test]
fn the_makers_own_names_are_not_reworded() {
    let table = Table::start();
    let before = fixture("tide-table");
    let said = |text: &str, change: &Value| {
        let answer = table.work(text, change);
        assert_eq!(answer["refused"], true, "{change}");
        format!("{}; {}", answer["findings"][0]["text"], answer["findings"][0]["help"])
    };
    let set = |path: &str, typed: &str| json!({ "do": "set", "path": path, "typed": typed });
    for name in ["pitch", "grain", "turn_in", "page.width", "cover.turn_in", "1 in (0.1 mm over)", "a\" \"pitch\" \"b"]
    {
        for path in ["page.stock", "stocks.card.sheet", "page.width"] {
            let words = said(&before, &set(path, name));
            let own = name.replace('"', "\\\"");
            assert!(words.contains(&format!("“{own}”")), "{path}, {name}: {words}");
        }
    }
    // The field is called as on the page, what was typed is not.
    let words = said(&before, &set("spine.lead_in", "pitch"));
    assert!(words.contains("“lead-in (clipped corner of the tab)”: “pitch”"), "{words}");
    let pitch = before.replacen("\"stocks\": {", "\"stocks\": { \"pitch\": { \"sheet\": \"A4\" },", 1);
    assert_ne!(pitch, before);
    let words = said(&pitch, &json!({ "do": "stock", "name": "pitch" }));
    assert!(words.contains("“pitch” already"), "{words}");
    // A file that is shown as a text speaks of its own names.
    let torn = table.work(&before.replace("\"width\"", "\"titel\""), &Value::Null);
    assert_eq!(torn["unread"], true);
    assert!(torn["findings"].to_string().contains("\\\"titel\\\""), "{}", torn["findings"]);
}
