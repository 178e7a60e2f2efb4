// SPDX-License-Identifier: MIT
//! Two editions of a batch: kit by kit, and over the whole order. `tests/outside/test_editions_batch.py` reckons the same from the
//! files alone.

use crate::common::{TempDir, hingeleaf, project};
use serde_json::{Value, json};
use std::fs;
use std::path::{Path, PathBuf};

/// A batch with a kit whose pages are chosen, in a folder with its album.
fn batch(temp: &TempDir, name: &str, change: impl FnOnce(&mut Value)) -> PathBuf {
    let album = fs::read_to_string(project().join("fixtures/tide-table.json")).unwrap();
    temp.put("tide-table.json", &album);
    let mut batch = json!({
        "format": "hingeleaf-batch/1", "title": "Two", "spares": { "kits": 1, "parts": "10 %" },
        "kits": [
            { "name": "plain", "album": "tide-table.json", "copies": 2 },
            { "name": "deep", "album": "tide-table.json", "copies": 3, "change": { "pages[1].pocket": 120 } },
            { "name": "chosen", "album": "tide-table.json", "copies": 2, "change": { "inserts": null },
              "choice": { "pages": 2, "of": [{ "kind": "pocket" }, { "kind": "wallet", "pocket": 110, "overflap": 45 }] } }
        ]
    });
    change(&mut batch);
    temp.put(name, batch.to_string())
}

fn compare(old: &Path, new: &Path) -> Value {
    let words = ["compare", old.to_str().unwrap(), new.to_str().unwrap(), "--effort", "low", "--json"];
    let run = hingeleaf(words);
    assert_eq!(run.code, 0, "{run:?}");
    run.json()
}

fn kit<'v>(said: &'v Value, name: &str) -> &'v Value {
    let kits = said["kits"].as_array().unwrap();
    kits.iter().find(|kit| kit["name"] == name).unwrap_or_else(|| panic!("{name} in {kits:?}"))
}

fn counts(rows: &Value) -> Vec<(String, u64)> {
    let row = |row: &Value| (row["part"].as_str().unwrap().to_owned(), row["count"].as_u64().unwrap());
    rows.as_array().unwrap().iter().map(row).collect()
}

#[test]
fn a_batch_is_as_its_own_report_says() {
    let temp = TempDir::new("editions-batch-same");
    let file = batch(&temp, "order.json", |_| {});
    let out = temp.join("kit");
    let words = ["kit", file.to_str().unwrap(), "--effort", "low", "--formats", "csv", "--out", out.to_str().unwrap()];
    assert_eq!(hingeleaf(words).code, 0);
    let report = out.join("report.json");
    for (old, new) in [(&file, &file), (&report, &file), (&file, &report), (&report, &report)] {
        let said = compare(old, new);
        for kit in said["kits"].as_array().unwrap() {
            assert_eq!(kit["what"], "same", "{kit}");
            assert!(kit["parts"].as_array().unwrap().iter().all(|part| part["what"] == "same"), "{kit}");
            assert_eq!((&kit["pages"], &kit["pages_gone"], &kit["recut"]), (&json!([]), &json!([]), &json!([])));
            assert!(kit.get("chapters").is_none_or(|chapters| *chapters == json!([])), "{kit}");
            assert_eq!(kit["head_changed"], false);
        }
        assert_eq!((&said["recut"], &said["sheets"]), (&json!([]), &json!([])));
    }
    // One that says nothing of what parts are in each kit, as an earlier version wrote it.
    let mut earlier: Value = serde_json::from_slice(&fs::read(&report).unwrap()).unwrap();
    for part in earlier["parts"].as_array_mut().unwrap() {
        part.as_object_mut().unwrap().remove("uses");
    }
    let earlier = temp.put("earlier.json", earlier.to_string());
    let run = hingeleaf(["compare", earlier.to_str().unwrap(), file.to_str().unwrap()]);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("report-without-uses"), "{run:?}");
}

/// One kind of page in a choice: only that kit changes, and what is packed of it is cut again.
#[test]
fn a_kind_that_is_chosen_changes_its_kit_alone() {
    let temp = TempDir::new("editions-batch-choice");
    let old = batch(&temp, "old.json", |_| {});
    let new = batch(&temp, "new.json", |batch| batch["kits"][2]["choice"]["of"][1]["overflap"] = json!(47));
    let said = compare(&old, &new);
    assert_eq!((&kit(&said, "plain")["what"], &kit(&said, "deep")["what"]), (&json!("same"), &json!("same")));
    let chosen = kit(&said, "chosen");
    assert_eq!(chosen["what"], "changed");
    let changed: Vec<&Value> =
        chosen["parts"].as_array().unwrap().iter().filter(|part| part["what"] != "same").collect();
    // A wallet's back is wider by the two; the paper on its flap is, too.
    for part in &changed {
        let [was, is] = [0, 1].map(|at| part["differs"]["width_mm"][at].as_f64().unwrap());
        assert!((is - was - 2.0).abs() < 1e-6, "{part}");
    }
    assert_eq!(changed.len(), 2, "{changed:?}");
    // Two ordered and a spare one of each of two pages, and a tenth more, rounded up: 6 + 1.
    let each: Vec<u64> = counts(&chosen["recut"]).into_iter().map(|(_, count)| count).collect();
    let whole: Vec<u64> = counts(&said["recut"]).into_iter().map(|(_, count)| count).collect();
    let reckoned: Vec<u64> = each.iter().map(|count| 3 * count + (3 * count).div_ceil(10)).collect();
    assert_eq!(whole, reckoned);
}

/// An album is what each kit of a batch was, or what each becomes.
#[test]
fn an_album_is_compared_with_every_kit() {
    let temp = TempDir::new("editions-batch-album");
    let order = batch(&temp, "order.json", |_| {});
    let album = temp.join("tide-table.json");
    let said = compare(&album, &order);
    assert_eq!(said["kits"].as_array().unwrap().len(), 3);
    assert_eq!(kit(&said, "plain")["what"], "same");
    let deep = counts(&kit(&said, "deep")["recut"]);
    assert!(deep.iter().all(|(part, count)| part.starts_with("deep.") && *count == 1), "{deep:?}");
    // Four kits are made, and one part more of each.
    let whole = counts(&said["recut"]);
    for (part, _) in &deep {
        assert!(whole.contains(&(part.clone(), 5)), "{part} in {whole:?}");
    }
    let back = compare(&order, &album);
    let rows: Vec<&Value> = back["kits"].as_array().unwrap().iter().collect();
    assert_eq!(rows.iter().map(|row| row["was"].as_str().unwrap()).collect::<Vec<_>>(), ["plain", "deep", "chosen"]);
    assert!(rows.iter().all(|row| row.get("name").is_none()));
    assert_eq!(rows[0]["recut"], json!([]));
    assert!(!counts(&rows[1]["recut"]).is_empty());
    // A number of kits is no option of a batch.
    let words = ["compare", album.to_str().unwrap(), order.to_str().unwrap(), "--copies", "3"];
    let run = hingeleaf(words);
    assert_eq!(run.code, 2);
    assert!(run.err.contains("--copies"), "{run:?}");
}

/// What is wrong with a batch or its albums is told of both sides, and nothing is compared.
#[test]
fn what_is_wrong_with_a_batch_is_told() {
    let temp = TempDir::new("editions-batch-wrong");
    let sound = batch(&temp, "sound.json", |_| {});
    let broken = batch(&temp, "broken.json", |batch| {
        batch["kits"][0]["album"] = json!("nowhere.json");
        batch["kits"][1]["change"] = json!({ "pages[9].pocket": 3 });
    });
    let run = hingeleaf(["compare", broken.to_str().unwrap(), sound.to_str().unwrap()]);
    assert_eq!(run.code, 2);
    for told in ["nowhere.json", "change-no-place", "broken.json"] {
        assert!(run.err.contains(told), "{told}: {run:?}");
    }
}
