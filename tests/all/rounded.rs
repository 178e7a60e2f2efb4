// SPDX-License-Identifier: MIT
//! Sizes rounded to what a ruler has: once, in the album, so that all parts still fit each other.

use crate::common;

use crate::common::{INCH, TempDir, album, fixtures, hingeleaf, near};
use hingeleaf::album::{self, Album};
use hingeleaf::cutter::Cutter;
use hingeleaf::length::{Length, Units};
use hingeleaf::parts;
use hingeleaf::work::Work;
use proptest::prelude::*;
use serde_json::{Value, json};
use std::collections::BTreeMap;
use std::fs;

/// Every kind of size, given and by default, and everything that is not rounded.
const ALL: &str = r#"{
  "format": "hingeleaf-album/1",
  "stocks": { "card": { "sheet": "300x400mm", "caliper": 0.35 } },
  "page": { "width": 148, "height": 190 },
  "pages": [
    { "kind": "pocket" },
    { "kind": "wallet", "pocket": 110, "overflap": 45 },
    { "kind": "pocket" }
  ],
  "spine": { "kind": "flexi-hinge", "pitch": 6.4, "ease": 0.5 },
  "panels": { "reveal": 3 },
  "inserts": [{ "kind": "tag", "width": 90, "height": 130, "thickness": 1.1, "hole": 0 }]
}"#;

/// The album with other values.
fn with(values: &[(&str, Value)]) -> Album {
    let mut json: Value = serde_json::from_str(ALL).unwrap();
    for (way, value) in values {
        *json.pointer_mut(way).unwrap() = value.clone();
    }
    album(&json.to_string())
}

fn step(inches: f64) -> Length {
    Length::from_inches(inches)
}

/// Worked by hand in sixteenths of an inch, 1.5875 mm: the size in mm, the nearest whole number of sixteenths.
#[test]
fn every_size_is_the_nearest_sixteenth() {
    let before = album(ALL);
    let after = before.rounded(step(1.0 / 16.0));
    let sixteenths: BTreeMap<&str, f64> = [
        ("page.width", 93.0),        // 148 / 1.5875 = 93.23
        ("page.height", 120.0),      // 190 / 1.5875 = 119.69
        ("page.seam", 8.0),          // 12, the default, / 1.5875 = 7.56
        ("pages[1].pocket", 69.0),   // 110 / 1.5875 = 69.29
        ("pages[1].overflap", 28.0), // 45 / 1.5875 = 28.35
        ("pages[1].depth", 0.0),     // one score: 0 stays 0
        ("spine.pitch", 4.0),        // 6.4 / 1.5875 = 4.03
        ("spine.tab", 8.0),          // 12, the default
        ("spine.gusset", 4.0),       // 6, the default, / 1.5875 = 3.78
        ("spine.ease", 1.0),         // 0.5 / 1.5875 = 0.31: not 0, for it was more
        ("panels.reveal", 2.0),      // 3 / 1.5875 = 1.89
        ("inserts[0].width", 57.0),  // 90 / 1.5875 = 56.69
        ("inserts[0].height", 82.0), // 130 / 1.5875 = 81.89
        ("inserts[0].hole", 0.0),    // 0 stays 0
        ("inserts[0].corner", 6.0),  // 10, the default, / 1.5875 = 6.30
    ]
    .into();
    let sizes = after.sizes();
    let names: Vec<&str> = sizes.iter().map(|(path, _)| path.as_str()).collect();
    assert_eq!(names.len(), sixteenths.len(), "{names:?}");
    for (path, size) in &sizes {
        near(size.mm(), sixteenths[path.as_str()] * 1.5875, 1e-9);
    }
    near(after.page.width.mm(), 147.6375, 1e-9);
    near(after.page.height.mm(), 190.5, 1e-9);
    // Whichever way the library is asked.
    near(after.page.values.get(album::WIDTH).mm(), 147.6375, 1e-9);
    near(after.panels.as_ref().unwrap().values.get(album::REVEAL).mm(), 3.175, 1e-9);
    near(after.length_at("page.width").unwrap().mm(), 147.6375, 1e-9);
    for (path, size) in &sizes {
        assert_eq!(after.length_at(path), Some(*size), "{path}");
    }
    for none in
        ["", "page", "page.stock", "pages[3].pocket", "pages[1].width", "cover.square", "pages[1.pocket", "spine.wing"]
    {
        assert_eq!(after.length_at(none), None, "{none}");
    }
    // Neither calipers nor the thickness of contents are cut with a ruler.
    near(after.stocks[0].caliper.mm(), 0.35, 1e-12);
    near(after.stocks[0].sheets[0].width.mm(), 300.0, 1e-12);
    near(after.length_at("inserts[0].thickness").unwrap().mm(), 1.1, 1e-12);
    // All but the hole changed; the most is the gusset's or ease's: 0.5 -> 1.5875 is 1.0875 mm.
    let note = after.rounding_note(&before, step(1.0 / 16.0));
    assert_eq!(note.headline(), "note[rounded]: rounded to 1/16 in: 13 sizes changed, by 1.09 mm at most");
    // Rounded again, nothing changes.
    let again = after.rounded(step(1.0 / 16.0));
    assert_eq!(again.sizes(), after.sizes());
    let note = again.rounding_note(&after, step(1.0 / 16.0));
    assert_eq!(note.text.to_string(), "rounded to 1/16 in: no size changed");
}

/// Sizes that follow a rule follow the rounded sizes: a lead-in of half the tab, wings 1 mm under the pitch.
#[test]
fn rules_come_after_rounding() {
    let kit = parts::kit(&album(ALL).rounded(step(1.0 / 16.0)), &Cutter::default()).value.unwrap();
    let (pitch, gusset, tab) = (0.25 * INCH, 0.25 * INCH, 0.5 * INCH);
    let tee = common::part(&kit, "hinge-t");
    near(tee.flat.width, 2.0 * (pitch - 1.0 + gusset + tab), 1e-9);
    near(tee.flat.height, 190.5 - 1.5875, 1e-9);
    let plain =
        parts::kit(&with(&[("/spine/ease", json!(0))]).rounded(step(1.0 / 16.0)), &Cutter::default()).value.unwrap();
    near(common::part(&plain, "hinge-t").flat.height, 190.5, 1e-9);
    // A clipped corner of the strip's tab runs from half the tab down its edge: its outline's corners say so.
    let strip = common::part(&plain, "hinge-1");
    let ys: Vec<f64> = common::corners(&strip.flat.outline).iter().map(|corner| corner[1]).collect();
    assert!(ys.iter().any(|y| (y - 0.25 * INCH).abs() < 1e-9), "{ys:?}");
}

/// What is equal before is equal after, and page pieces, hinge and panels still fit: rounding part by part would not do.
#[test]
fn parts_still_fit_each_other() {
    for inches in [1.0 / 16.0, 1.0 / 32.0, 1.0 / 8.0] {
        let album = with(&[("/spine/ease", json!(0))]).rounded(step(inches));
        let (width, height, seam) = (album.page.width.mm(), album.page.height.mm(), album.page.seam.mm());
        let reveal = album.panels.as_ref().unwrap().reveal.mm();
        let kit = parts::kit(&album, &Cutter::default()).value.unwrap();
        let size = |id: &str| (common::part(&kit, id).flat.width, common::part(&kit, id).flat.height);
        near(size("page-1-front").0, width, 1e-9);
        near(size("page-1-front").1, height + seam, 1e-9);
        near(size("hinge-1").1, height, 1e-9);
        near(size("panel-page-1-front").0, width - 2.0 * reveal, 1e-9);
        near(size("panel-page-1-front").1, height - 2.0 * reveal, 1e-9);
        // A whole number of steps: what a ruler has.
        for (path, size) in album.sizes() {
            let count = size.inches() / inches;
            assert!((count - count.round()).abs() < 1e-9, "{path}: {count} steps of {inches} in");
        }
    }
}

/// Sizes that are worked out, such as a cover's, land on the same marks: a fold of the wrap is a whole number of sixteenths
/// from the edge, and a case's boards are.
#[test]
fn covers_are_on_the_marks_too() {
    let mut json: Value = serde_json::from_str(ALL).unwrap();
    for (cover, id) in [("wrap", "cover"), ("case", "cover-board"), ("case", "cover-spine")] {
        json["cover"] = json!({ "kind": cover });
        let made = parts::kit(&album(&json.to_string()).rounded(step(1.0 / 16.0)), &Cutter::default()).value.unwrap();
        let flat = &made.parts.iter().find(|part| part.id == id).unwrap().flat;
        for size in flat.scores.iter().map(|score| score.from.x).chain([flat.width, flat.height]) {
            let sixteenths = size / INCH * 16.0;
            near(sixteenths, sixteenths.round(), 1e-6);
        }
    }
}

/// Half a step goes up; nothing falls below what its field takes (a page width: 1 mm) or becomes 0.
#[test]
fn the_ends_of_the_range_hold() {
    let page =
        |width: f64, step: f64| with(&[("/page/width", json!(width))]).rounded(Length::from_mm(step)).page.width.mm();
    near(page(148.5, 1.0), 149.0, 1e-12);
    near(page(148.49, 1.0), 148.0, 1e-12);
    // 1 mm is 1.25 steps of 0.8 mm; 0.8 mm would be too small for a page, so it is the next one, 1.6 mm.
    near(page(1.0, 0.8), 1.6, 1e-12);
    // 2000 mm is the most; 2000 / 15 = 133.33, 1995 mm. 2000 / 7 = 285.71, and 286 x 7 = 2002 would be too much.
    near(page(2000.0, 15.0), 1995.0, 1e-12);
    near(page(2000.0, 7.0), 1995.0, 1e-12);
    // Steps that no ruler has change nothing.
    for none in [0.0, -1.0, f64::NAN, f64::INFINITY, 1e-9, 1e7] {
        assert_eq!(album(ALL).rounded(Length::from_mm(none)).sizes(), album(ALL).sizes(), "{none}");
    }
}

/// A ruler in inches on an album in inches: every mark is exact.
#[test]
fn albums_on_the_ruler_are_left_alone() {
    for file in fixtures() {
        let text = fs::read_to_string(&file).unwrap();
        let before = album(&text);
        if before.units == Units::In {
            assert_eq!(before.rounded(step(1.0 / 64.0)).sizes(), before.sizes(), "{file:?}");
        }
    }
    let mut inches: Value = serde_json::from_str(ALL).unwrap();
    inches["units"] = json!("in");
    inches["page"] = json!({ "width": "5 13/16", "height": "7 1/2" });
    inches["pages"][1] = json!({ "kind": "wallet", "pocket": 4, "overflap": "2 1/16" });
    inches["spine"] = json!({ "kind": "flexi-hinge", "pitch": "5/16" });
    inches["panels"]["reveal"] = json!("3/16");
    inches["inserts"] = json!([{ "kind": "tag", "width": 3, "height": "4 15/16" }]);
    let album = album(&inches.to_string());
    assert_eq!(album.rounded(step(1.0 / 16.0)).sizes(), album.sizes());
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    /// No size moves by more than half a step, if it is not below one (or near the least that its field takes, which
    /// another test looks at); the order of sizes stays.
    #[test]
    fn no_size_moves_by_more_than_half_a_step(
        width in 30.0..300.0f64, pocket in 20.0..200.0f64, pitch in 2.0..20.0f64, denominator in 2..64u32,
    ) {
        let values = [("/page/width", json!(width)), ("/pages/1/pocket", json!(pocket)), ("/spine/pitch", json!(pitch))];
        let (before, step) = (with(&values), step(1.0 / f64::from(denominator)));
        let after = before.rounded(step);
        let (old, new) = (before.sizes(), after.sizes());
        for ((path, old), (_, new)) in old.iter().zip(&new) {
            let most = if old.mm() < step.mm() { step.mm() } else { step.mm() / 2.0 };
            prop_assert!((*new - *old).abs().mm() <= most + 1e-4, "{path}: {} to {}", old.mm(), new.mm());
            prop_assert!((*new > Length::ZERO) == (*old > Length::ZERO));
        }
        for (one, two) in old.iter().zip(&new) {
            for (other, rounded) in old.iter().zip(&new) {
                prop_assert!(one.1 > other.1 || two.1 <= rounded.1, "{} and {}", one.0, other.0);
            }
        }
        prop_assert_eq!(after.rounded(step).sizes(), new);
    }
}

#[test]
fn check_and_kit_round() {
    let folder = TempDir::new("rounded");
    let file = folder.put("album.json", ALL);
    let (file, out) = (file.to_str().unwrap(), folder.join("kit"));
    let run = hingeleaf(["check", file, "--rounded", "1/16in"]);
    assert_eq!(run.code, 0, "{run:?}");
    let note = "note[rounded]: rounded to 1/16 in: 13 sizes changed, by 1.09 mm at most\n";
    assert!(run.out.contains(note), "{}", run.out);
    let kit = |more: &[&str]| {
        let words = ["kit", file, "--out", out.to_str().unwrap(), "--effort", "low", "--formats", "csv", "--replace"];
        let run = hingeleaf(words.iter().chain(more));
        assert_eq!(run.code, 0, "{run:?}");
        let report: Value = serde_json::from_slice(&fs::read(out.join("report.json")).unwrap()).unwrap();
        (run, report)
    };
    let (run, report) = kit(&["--rounded", "1/16in"]);
    assert!(run.err.contains(note), "{}", run.err);
    let front = report["parts"].as_array().unwrap().iter().find(|part| part["id"] == "page-1-front").unwrap();
    // 93 sixteenths wide; 120 and the seam's 8 tall.
    near(front["width_mm"].as_f64().unwrap(), 93.0 * 1.5875, 1e-6);
    near(front["height_mm"].as_f64().unwrap(), 128.0 * 1.5875, 1e-6);
    let notes =
        |report: &Value| report["findings"].as_array().unwrap().iter().filter(|one| one["id"] == "rounded").count();
    assert_eq!(notes(&report), 1);
    assert_eq!(report, kit(&["--rounded", "1/16in", "--threads", "2"]).1);
    assert_eq!(report["parts"], kit(&["--rounded", "1.5875"]).1["parts"]);
    let (_, plain) = kit(&[]);
    assert_eq!(notes(&plain), 0);
    let front = plain["parts"].as_array().unwrap().iter().find(|part| part["id"] == "page-1-front").unwrap();
    near(front["width_mm"].as_f64().unwrap(), 148.0, 1e-6);
    let json = hingeleaf(["check", file, "--rounded", "1mm", "--json"]).json();
    // 6.4 to 6 and 0.5 to 1 mm; everything else is whole.
    let findings = json["findings"].as_array().unwrap();
    let rounded = findings.iter().find(|finding| finding["id"] == "rounded").unwrap();
    assert_eq!(rounded["text"], "rounded to 1 mm: 2 sizes changed, by 0.5 mm at most");
}

#[test]
fn steps_that_no_ruler_has_are_refused() {
    let folder = TempDir::new("steps");
    let file = folder.put("album.json", ALL.replace("\"reveal\"", "\"reveel\""));
    for said in ["0", "-1", "2in", "1/16", "wide", "0.001"] {
        let out = folder.join("kit");
        let words = ["kit", file.to_str().unwrap(), "--out", out.to_str().unwrap(), "--rounded", said];
        let run = hingeleaf(words);
        assert!(run.code == 2 && run.err.contains("--rounded"), "{said}: {run:?}");
        assert!(!out.exists());
    }
    // Told together with what is wrong in the file.
    let run = hingeleaf(["check", file.to_str().unwrap(), "--rounded", "2in"]);
    for word in ["--rounded must lie between 0.01 mm and 25.4 mm", "reveel"] {
        assert!(run.code == 2 && run.err.contains(word), "{run:?}");
    }
}

/// Fixtures stay sound on an ordinary ruler.
#[test]
fn sound_albums_stay_sound_when_rounded() {
    for file in fixtures() {
        let before = album(&fs::read_to_string(&file).unwrap());
        for step in [step(1.0 / 16.0), step(1.0 / 32.0), Length::from_mm(1.0), Length::from_mm(0.5)] {
            let work = Work::fit(before.rounded(step), Cutter::default());
            let said: Vec<String> = work.findings.iter().map(hingeleaf::finding::Finding::headline).collect();
            assert!(!work.stopped(), "{file:?} to {} mm: {said:?}", step.mm());
        }
    }
}
