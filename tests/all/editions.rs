// SPDX-License-Identifier: MIT
//! Two editions of a kit: what changed is named, what did not is not; a report stands for its album; broken reports are
//! answered. `tests/outside/test_editions.py` reckons the same from the files alone.

use crate::common::{TempDir, cutter, fixtures, hingeleaf, project, work};
use hingeleaf::cutter::Cutter;
use hingeleaf::editions::{
    AnyEdition, Comparison, Edition, EditionBlock, EditionPart, PartOutcome, compare, read_report,
};
use hingeleaf::fields::Source;
use hingeleaf::finding::Finding;
use std::collections::BTreeMap;
use std::fs;

fn edition(text: &str) -> Edition {
    work(text, Cutter::default()).edition()
}

/// The report of an album.
fn report(text: &str) -> String {
    work(text, cutter(0.1, 1.0, 3.0)).report(&BTreeMap::new())
}

fn read(text: &str) -> Result<Edition, Vec<Finding>> {
    let source = match Source::new("report.json", text.as_bytes().to_vec()) {
        Ok(source) => source,
        Err(finding) => return Err(vec![*finding]),
    };
    let read = read_report(&source);
    match read.value.ok_or(read.findings)? {
        AnyEdition::Kit(edition) => Ok(edition),
        AnyEdition::Order(order) => panic!("{} is of a batch", order.title),
    }
}

/// An album of pocket pages, with one more thing in the file.
fn pockets(kinds: &[&str], more: &str) -> String {
    format!(
        r#"{{ "format": "hingeleaf-album/1", {more} "page": {{ "width": 148, "height": 190 }}, "pages": [{}] }}"#,
        kinds.join(", ")
    )
}

const POCKET: &str = r#"{ "kind": "pocket" }"#;
const WALLET: &str = r#"{ "kind": "wallet", "pocket": 110, "overflap": 45 }"#;

/// The ids of the new parts (the old ones, where they are gone) that became this.
fn ids(found: &Comparison<'_>, outcome: PartOutcome) -> Vec<String> {
    let id = |part: &hingeleaf::editions::ComparedPart| match (part.new, part.old) {
        (Some(new), _) => found.new.parts[new].id.clone(),
        (None, old) => found.old.parts[old.unwrap()].id.clone(),
    };
    found.of(outcome).map(id).collect()
}

fn is_untouched(found: &Comparison<'_>) -> bool {
    found.parts.iter().all(|part| part.outcome == PartOutcome::Same)
        && found.recut.is_nothing()
        && found.recut.over.iter().all(|count| *count == 0)
        && found.pages.changed.is_empty()
        && found.pages.gone.is_empty()
        && found.sheets().next().is_none()
}

#[test]
fn an_album_is_as_its_own_report_says() {
    for path in fixtures() {
        let name = path.display();
        let text = fs::read_to_string(&path).unwrap();
        let worked = work(&text, cutter(0.1, 1.0, 3.0));
        let (own, from_report) = (worked.edition(), read(&worked.report(&BTreeMap::new())).unwrap());
        for (old, new) in [(&own, &own), (&own, &from_report), (&from_report, &own)] {
            let found = compare(old, new);
            assert!(is_untouched(&found), "{name}: {:?}", found.parts);
            assert!(!found.head, "{name}");
            assert_eq!(found.chapters.as_ref().map_or(0, Vec::len), 0, "{name}");
        }
        for (one, other) in own.parts.iter().zip(&from_report.parts) {
            assert_eq!((&one.pages, &one.turned, one.count), (&other.pages, &other.turned, other.count), "{name}");
        }
        assert_eq!(own.sheets.len(), from_report.sheets.len(), "{name}");
    }
}

#[test]
fn words_and_prices_are_nothing_to_cut() {
    let stock = |price: &str| format!(r#""stocks": {{ "card": {{ "sheet": "A4", "caliper": 0.3{price} }} }},"#);
    let old = edition(&pockets(&[POCKET, WALLET], &stock(r#", "price": 0.25"#)));
    for more in [
        stock(r#", "price": 0.5"#),
        stock("") + r#""title": "Another", "#,
        stock("") + r#""notes": "Mind the glue", "maker": "M", "edition": "second","#,
        stock("") + r#""copies": 3,"#,
    ] {
        let new = edition(&pockets(&[POCKET, WALLET], &more));
        let found = compare(&old, &new);
        assert!(is_untouched(&found), "{more}: {:?}", found.parts);
        assert_eq!(found.head, more.contains("title") || more.contains("notes"), "{more}");
    }
}

/// Page 2's flap is 3 mm longer: its back is wider by as much, and nothing else changes.
#[test]
fn a_longer_flap_is_one_part_three_millimetres_wider() {
    let old = edition(&pockets(&[POCKET, WALLET, POCKET], ""));
    let new = edition(&pockets(&[POCKET, &WALLET.replace("45", "48"), POCKET], ""));
    let found = compare(&old, &new);
    assert_eq!(ids(&found, PartOutcome::Changed), ["page-2-back"]);
    assert_eq!(found.of(PartOutcome::Same).count(), new.parts.len() - 1);
    let by = &found.of(PartOutcome::Changed).next().unwrap().difference;
    let [was, is] = by.width.unwrap();
    assert!((is - was - 3.0).abs() < 1e-9 && by.height.is_none() && by.count.is_none(), "{by:?}");
    // The flap goes to the right: its score lies as far from the left as before.
    assert!(by.scores.is_empty() && !by.outline, "{by:?}");
    assert_eq!(found.recut.cut.iter().sum::<u32>(), 1);
    assert_eq!(found.recut.over.iter().sum::<u32>(), 1);
    assert_eq!(found.pages.changed, [2]);
}

/// Two pages share a part, one the other way up. When one of them changes, the other's piece is the old one all the same.
#[test]
fn a_piece_upside_down_is_the_same_piece() {
    let facing = |overflap: &str| {
        let back = WALLET.replace("45", overflap).replace('}', r#", "faces": "back" }"#);
        edition(&pockets(&[POCKET, &back, &WALLET.replace('}', r#", "faces": "front" }"#), POCKET], ""))
    };
    let (old, new) = (facing("45"), facing("48"));
    let found = compare(&old, &new);
    assert_eq!(ids(&found, PartOutcome::Changed), ["page-2-back"]);
    assert_eq!(ids(&found, PartOutcome::Renamed), ["page-3-back"]);
    let renamed = &found.of(PartOutcome::Renamed).next().unwrap().difference;
    assert!(renamed.scores.is_empty() && !renamed.outline && renamed.width.is_none(), "{renamed:?}");
    assert_eq!(renamed.count, Some([2, 1]));
    assert_eq!(found.recut.cut.iter().sum::<u32>(), 1);
    assert_eq!(found.pages.changed, [2]);
}

#[test]
fn a_page_put_in_front_gives_the_others_new_names() {
    let old = edition(&pockets(&[WALLET, POCKET], ""));
    let new = edition(&pockets(&[POCKET, WALLET, POCKET], ""));
    let found = compare(&old, &new);
    let wallets: Vec<String> = ids(&found, PartOutcome::Renamed);
    assert!(wallets.iter().any(|id| id == "page-2-back"), "{wallets:?}");
    // Whatever is cut again is new by its cut, and no more than the kit lacks.
    for (part, count) in new.parts.iter().zip(&found.recut.cut) {
        let have: u32 = old.parts.iter().filter(|old| old.cut() == part.cut()).map(|old| old.count).sum();
        let need: u32 = new.parts.iter().filter(|new| new.cut() == part.cut()).map(|new| new.count).sum();
        assert!(*count <= need.saturating_sub(have), "{}: {count}", part.id);
    }
}

#[test]
fn another_stock_is_another_piece() {
    let stocks =
        r#""stocks": { "card": { "sheet": "A4", "caliper": 0.3 }, "kraft": { "sheet": "A4", "caliper": 0.3 } },"#;
    let old = edition(&pockets(&[POCKET, POCKET], stocks));
    let new = edition(&pockets(&[POCKET, &POCKET.replace('}', r#", "stock": "kraft" }"#)], stocks));
    let found = compare(&old, &new);
    let kraft: Vec<&str> = new.parts.iter().filter(|part| part.stock == "kraft").map(|part| part.id.as_str()).collect();
    assert!(!kraft.is_empty());
    assert_eq!(ids(&found, PartOutcome::Changed), kraft);
    let by = &found.of(PartOutcome::Changed).next().unwrap().difference;
    assert_eq!(by.stock, Some(["card".to_owned(), "kraft".to_owned()]));
}

/// Cut off or altered anywhere, a report is read or answered with what is wrong and where; nothing else happens.
#[test]
fn a_broken_report_is_answered() {
    let sound = report(&pockets(&[POCKET, WALLET], ""));
    assert!(read(&sound).is_ok());
    for end in (0..sound.len()).step_by(97) {
        let findings = read(&sound[..end]).unwrap_err();
        assert!(findings.iter().all(|finding| finding.place.is_some()), "{findings:?}");
    }
    let digest = sound.split("\"digest\": \"").nth(1).unwrap()[..32].to_owned();
    let first = sound.split("\"id\": \"").nth(1).unwrap().split('"').next().unwrap().to_owned();
    for (from, to, id) in [
        (format!("\"digest\": \"{digest}\""), "\"digest\": \"f00\"".to_owned(), "bad-digest"),
        ("\"width_mm\": 148.0".to_owned(), "\"width_mm\": -1".to_owned(), "out-of-range"),
        ("\"width_mm\": 148.0".to_owned(), "\"width_mm\": \"wide\"".to_owned(), "wrong-type"),
        ("\"count\": 1,".to_owned(), "\"count\": 1.5,".to_owned(), "out-of-range"),
        ("\"count\": 1,".to_owned(), "\"count\": 1e300,".to_owned(), "out-of-range"),
        ("\"count\": 1,".to_owned(), String::new(), "missing"),
        (format!("\"part\": \"{first}\""), "\"part\": \"nobody\"".to_owned(), "no-such-part"),
        ("\"from_mm\": [".to_owned(), "\"from_mm\": [ 7, ".to_owned(), "wrong-type"),
        ("\"fold\": \"mountain\"".to_owned(), "\"fold\": \"up\"".to_owned(), "unknown-word"),
        ("\"parts\": [".to_owned(), "\"parts\": 7, \"other\": [".to_owned(), "wrong-type"),
        ("hingeleaf-report/1".to_owned(), "hingeleaf-report/9".to_owned(), "wrong-format"),
        ("\"copies\": 1,".to_owned(), "\"copies\": 1, \"recut\": true,".to_owned(), "report-of-recut"),
    ] {
        let broken = sound.replacen(&from, &to, 1);
        assert_ne!(broken, sound, "{from}");
        let findings = read(&broken).unwrap_err();
        assert!(findings.iter().any(|finding| finding.id == id), "{to}: {findings:?}");
        assert!(findings.iter().all(|finding| finding.place.is_some()), "{to}: {findings:?}");
    }
    // What another version adds is let pass; one that knew no digests is told from a broken one.
    assert!(read(&sound.replacen("\"copies\": 1,", "\"copies\": 1, \"later\": { \"a\": [] },", 1)).is_ok());
    let earlier: String = sound.lines().filter(|line| !line.contains("\"digest")).collect::<Vec<_>>().join("\n");
    let earlier = earlier.replace("],\n    }", "]\n    }");
    let findings = read(&fixed_commas(&earlier)).unwrap_err();
    assert_eq!(findings.iter().map(|finding| finding.id).collect::<Vec<_>>(), ["report-without-digests"]);
}

/// Takes away commas that a line left behind.
fn fixed_commas(text: &str) -> String {
    let mut lines: Vec<String> = text.lines().map(str::to_owned).collect();
    for at in 1..lines.len() {
        if lines[at].trim_start().starts_with('}') && lines[at - 1].ends_with(',') {
            lines[at - 1].pop();
        }
    }
    lines.join("\n")
}

/// A change of one byte never ends in more than a finding.
#[test]
fn a_report_with_a_changed_byte_is_read_or_answered() {
    let sound = report(&pockets(&[POCKET], ""));
    for (at, byte) in (0..sound.len()).step_by(13).zip(b"0\"{[,-x9}]: e".iter().cycle()) {
        let mut bytes = sound.clone().into_bytes();
        bytes[at] = *byte;
        if let Ok(text) = String::from_utf8(bytes)
            && let Ok(edition) = read(&text)
        {
            let found = compare(&edition, &edition);
            assert!(found.recut.is_nothing());
        }
    }
}

#[test]
fn the_sheets_of_what_changed_hold_nothing_else() {
    let temp = TempDir::new("editions-recut");
    let folder = project().join("fixtures/golden/compare");
    let (old, new) = (folder.join("old.json"), folder.join("new.json"));
    let out = temp.join("changed");
    let run = |more: &[&str]| {
        let mut words = vec!["compare".to_owned(), old.display().to_string(), new.display().to_string()];
        words.extend(["--effort", "low", "--only-changed", "--out"].map(str::to_owned));
        words.push(out.display().to_string());
        words.extend(more.iter().map(|word| (*word).to_owned()));
        hingeleaf(words)
    };
    let first = run(&["--json", "--copies", "3"]);
    assert_eq!(first.code, 0, "{first:?}");
    let said = first.json();
    let report: serde_json::Value = serde_json::from_slice(&fs::read(out.join("report.json")).unwrap()).unwrap();
    let wanted: BTreeMap<String, u64> = said["recut"]
        .as_array()
        .unwrap()
        .iter()
        .map(|row| (row["part"].as_str().unwrap().to_owned(), 3 * row["count"].as_u64().unwrap()))
        .collect();
    let mut laid: BTreeMap<String, u64> = BTreeMap::new();
    for sheet in report["sheets"].as_array().unwrap() {
        for placed in sheet["placements"].as_array().unwrap() {
            *laid.entry(placed["part"].as_str().unwrap().to_owned()).or_default() += sheet["times"].as_u64().unwrap();
        }
    }
    assert!(!wanted.is_empty());
    assert_eq!(laid, wanted);
    assert_eq!(report["recut"], true);
    assert_eq!(report["parts"].as_array().unwrap().len(), wanted.len());
    let list = fs::read_to_string(out.join("cutting-list.csv")).unwrap();
    assert_eq!(list.lines().count(), wanted.len() + 1, "{list}");
    assert!(!out.join("guide.html").exists());
    // It stands as an old kit's folder does: replaced only where that is said, and never taken for a whole kit.
    assert_eq!(run(&[]).code, 2);
    assert_eq!(run(&["--replace"]).code, 0);
    let as_old = hingeleaf([out.join("report.json").as_os_str(), new.as_os_str()].iter().fold(
        vec![std::ffi::OsString::from("compare")],
        |mut words, word| {
            words.push((*word).to_owned());
            words
        },
    ));
    assert_eq!(as_old.code, 2);
    assert!(as_old.err.contains("report-of-recut"), "{as_old:?}");
    // A whole kit is never given up for its changed parts.
    let kit = temp.join("kit");
    let words = ["kit", old.to_str().unwrap(), "--effort", "low", "--formats", "csv", "--out", kit.to_str().unwrap()];
    assert_eq!(hingeleaf(words).code, 0);
    let words = ["compare", old.to_str().unwrap(), new.to_str().unwrap(), "--only-changed", "--replace", "--out"];
    let over = hingeleaf(words.into_iter().chain([kit.to_str().unwrap()]));
    assert_eq!(over.code, 2, "{over:?}");
    assert!(kit.join("report.json").exists());
    // Nothing to cut: nothing is written.
    let none = temp.join("none");
    let words = ["compare", old.to_str().unwrap(), old.to_str().unwrap(), "--effort", "low", "--only-changed", "--out"];
    let same = hingeleaf(words.into_iter().chain([none.to_str().unwrap()]));
    assert_eq!((same.code, none.exists()), (0, false), "{same:?}");
}

/// What cannot be compared is refused, all of it at once.
#[test]
fn both_files_are_answered() {
    let temp = TempDir::new("editions-wrong");
    let cutter_file = temp.put("cutter.json", r#"{ "format": "hingeleaf-cutter/1" }"#);
    let broken = temp.put("broken.json", r#"{ "format": "hingeleaf-album/1", "page": { "width": 148 }, "pages": [] }"#);
    let run = hingeleaf([std::ffi::OsStr::new("compare"), cutter_file.as_os_str(), broken.as_os_str()]);
    assert_eq!(run.code, 2);
    for part in ["wrong-format", "hingeleaf-report/1", "missing", "no-pages", "line 1"] {
        assert!(run.err.contains(part), "{part}: {}", run.err);
    }
}

/// The words of one example. `UPDATE_GOLDEN=1` writes them anew and still fails.
#[test]
fn one_comparison_in_words() {
    let folder = project().join("fixtures/golden/compare");
    let output = std::process::Command::new(env!("CARGO_BIN_EXE_hingeleaf"))
        .current_dir(&folder)
        .args(["compare", "old.json", "new.json", "--effort", "low"])
        .output()
        .unwrap();
    let words = String::from_utf8(output.stdout).unwrap();
    let beside = folder.join("words.txt");
    let wanted = fs::read_to_string(&beside).unwrap_or_default();
    if words != wanted && std::env::var_os("UPDATE_GOLDEN").is_some() {
        fs::write(&beside, &words).unwrap();
    }
    assert_eq!(words, wanted, "run again with UPDATE_GOLDEN=1 and look at what changes");
}

/// A chapter is printed again where it tells of parts or steps otherwise: not for sheets that are more, or of another name, nor for
/// their price or weight.
#[test]
fn chapters_are_listed_for_what_they_tell_of_parts_and_steps() {
    let album = |stock: &str, more: &str, pitch: &str, pages: &[&str]| {
        let more = format!(
            r#"{more} "stocks": {{ "card": {{ "grammage": 280, "caliper": 0.3, {stock} }} }},
            "spine": {{ "kind": "flexi-hinge", "pitch": {pitch} }},"#
        );
        edition(&pockets(pages, &more))
    };
    let two = [POCKET, WALLET];
    let a4 = album(r#""sheet": "A4", "price": 0.25"#, "", "6", &two);
    let between = |old: &Edition, new: &Edition| -> Vec<&'static str> {
        compare(old, new).chapters.unwrap().into_iter().map(|chapter| chapter.id).collect()
    };
    let chapters = |new: &Edition| between(&a4, new);
    let none: [&str; 0] = [];
    assert_eq!(chapters(&album(r#""sheet": "A4", "price": 0.5"#, "", "6", &two)), none);
    let copies = |many: u32| album(r#""sheet": "A4""#, &format!(r#""copies": {many},"#), "6", &two);
    assert_eq!(between(&copies(3), &copies(7)), none);
    // What is to be bought is another sheet; what is cut of it is the same.
    assert_eq!(chapters(&album(r#""sheet": "A3", "price": 0.25"#, "", "6", &two)), ["need"]);
    // A wider hinge: told in sizes where it is cut and folded, and in a picture's words where it is scored.
    let wider = chapters(&album(r#""sheet": "A4", "price": 0.25"#, "", "7", &two));
    for id in ["cut", "score", "fold", "bind"] {
        assert!(wider.contains(&id), "{id} in {wider:?}");
    }
    for id in ["need", "get", "pages"] {
        assert!(!wider.contains(&id), "{id} in {wider:?}");
    }
    // One more page is told nearly everywhere.
    let longer = chapters(&album(r#""sheet": "A4", "price": 0.25"#, "", "6", &[POCKET, WALLET, POCKET]));
    for id in ["cut", "pages", "bind"] {
        assert!(longer.contains(&id), "{id} in {longer:?}");
    }
}

/// Parts that a pattern runs on over are cut from one place: where one of them changes, all of its block are cut again, and the
/// pieces of the old block serve by themselves.
#[test]
fn a_block_is_cut_again_as_a_whole() {
    let part = |id: &str, digest: char, count: u32| EditionPart {
        id: id.to_owned(),
        kind: "panel".to_owned(),
        stock: "paper".to_owned(),
        count,
        width: 50.0,
        height: 80.0,
        area: 4000.0,
        scores: Vec::new(),
        used_in: vec![format!("{id} of page 1")],
        pages: vec![1],
        digest: digest.to_string().repeat(32),
        turned: None,
    };
    let block = |parts: &[usize]| EditionBlock {
        name: "page 1 front".to_owned(),
        count: 1,
        upright: false,
        parts: parts.iter().map(|part| (*part, 2.0)).collect(),
    };
    let kit = |parts, blocks| Edition { parts, blocks, ..Edition::default() };
    let old = kit(vec![part("left", 'a', 1), part("right", 'b', 1)], vec![block(&[0, 1])]);
    // The right one is another: the left one, as it was, is cut with it. The old left one serves as the loose one of page 2.
    let new = kit(vec![part("left", 'a', 1), part("right", 'c', 1), part("loose", 'a', 1)], vec![block(&[0, 1])]);
    let found = compare(&old, &new);
    assert_eq!(found.recut.blocks, [1]);
    assert_eq!(found.recut.cut, [1, 1, 0]);
    assert_eq!(found.recut.over, [0, 1]);
    let same = compare(&old, &old);
    assert!(is_untouched(&same) && same.recut.blocks == [0]);
    // Farther apart is another block.
    let mut apart = old.clone();
    apart.blocks[0].parts[1].1 = 3.0;
    assert_eq!(compare(&old, &apart).recut.cut, [1, 1]);
}
