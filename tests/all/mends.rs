// SPDX-License-Identifier: MIT
//! Mends: a length is changed in the file's own way of writing, everything else stays byte for byte, and no file that is
//! there is written over.

use crate::common;

use crate::common::{INCH, Run, TempDir, hingeleaf, near, project};
use hingeleaf::album;
use hingeleaf::cutter::Cutter;
use hingeleaf::fields::{EditProblem, Source, edit, paste};
use hingeleaf::finding::{Finding, Said};
use hingeleaf::length::{Length, Units};
use hingeleaf::mend::mend;
use hingeleaf::parts;
use hingeleaf::work::Work;
use proptest::prelude::*;
use serde_json::{Value, json};
use std::fs;
use std::process::Command;

/// A flap 10 mm too short: 140 - 100 = 40 mm reach from the fore-edge to the pocket, and 6 mm more hold there.
const SHORT: &str = r#"{
  "format": "hingeleaf-album/1",
  "stocks": { "card": { "sheet": "A4", "caliper": 0.3 } },
  "page": { "width": 140, "height": 180 },
  "pages": [
    { "kind": "pocket" },
    { "kind": "wallet", "pocket": 100, "overflap": 30 }
  ]
}
"#;

fn mm(mm: f64) -> Length {
    Length::from_mm(mm)
}

fn source(text: &str) -> Source {
    Source::new("test.json", text.as_bytes().to_vec()).unwrap()
}

fn edited(text: &str, mends: &[(&str, Length)], units: Units) -> Result<String, EditProblem> {
    edit(&source(text), mends, units, &album::left_out(&parts::kinds()))
}

#[track_caller]
fn becomes(text: &str, path: &str, value: Length, units: Units, wanted: &str) {
    assert_eq!(edited(text, &[(path, value)], units).unwrap(), wanted, "{path} in {text}");
}

/// The numbers are worked by hand: 6 1/4 in is 158.75 mm, 1/32 in is 0.79375 mm.
#[test]
fn a_length_keeps_the_files_way_of_writing() {
    for (units, old, value, new) in [
        (Units::Mm, "38", mm(45.0), "45"),
        (Units::Mm, "38.0", mm(45.5), "45.5"),
        (Units::Mm, "38", mm(147.6375), "147.6375"),
        (Units::Cm, "3.8", mm(45.0), "4.5"),
        (Units::In, "6", mm(158.75), "6.25"),
        (Units::In, "6", mm(152.4 + 0.79375), "6.03125"),
        (Units::In, r#""6""#, mm(158.75), r#""6 1/4""#),
        (Units::In, r#""6 1/2""#, mm(152.4), r#""6""#),
        (Units::In, r#""6 1/2""#, mm(0.79375), r#""1/32""#),
        (Units::In, r#""6.5""#, mm(158.75), r#""6.25""#),
        (Units::Mm, r#""6½ in""#, mm(158.75), r#""6 1/4 in""#),
        (Units::Mm, r#""6.5in""#, mm(158.75), r#""6.25in""#),
        (Units::Mm, r#""6 1/2\"""#, mm(158.75), r#""6 1/4\"""#),
        (Units::Mm, r#""6 1/2″""#, mm(158.75), r#""6 1/4″""#),
        (Units::In, r#""140 mm""#, mm(158.75), r#""158.75 mm""#),
        (Units::In, r#""14 cm""#, mm(158.75), r#""15.875 cm""#),
        (Units::Mm, r#""140""#, mm(158.75), r#""158.75""#),
        // 45 mm is no fraction of an inch: 45 / 25.4 = 1.771653543... A 64th would be up to 0.2 mm off, and 1.77165 in is
        // 44.99991 mm, off by more than half an eighth of a micrometre.
        (Units::In, r#""1 1/2""#, mm(45.0), r#""1.771654""#),
    ] {
        let text = format!(r#"{{"page":{{"width": {old} ,"height":1}}}}"#);
        becomes(&text, "page.width", value, units, &format!(r#"{{"page":{{"width": {new} ,"height":1}}}}"#));
    }
}

/// A new length reads back as what it was meant to be, to an eighth of a micrometre, in every way of writing.
#[test]
fn nothing_is_rounded_away() {
    for olds in [["38", "38"], [r#""6 1/2 in""#, r#""38 mm""#], [r#""5.5 in""#, r#""3.8 cm""#]] {
        for units in Units::ALL {
            for step in 1..400 {
                // Odd sizes on no ruler, among them 1/3 mm and 1/7 in.
                let (one, other) = (mm(f64::from(step) / 3.0), Length::from_inches(f64::from(step) / 7.0));
                let text = format!(r#"{{"page":{{"width":{},"height":{}}}}}"#, olds[0], olds[1]);
                let new = edited(&text, &[("page.width", one), ("page.height", other)], units).unwrap();
                let json: Value = serde_json::from_str(&new).unwrap();
                for (name, wanted) in [("width", one), ("height", other)] {
                    let read = match &json["page"][name] {
                        Value::Number(number) => Length::from_number(number.as_f64().unwrap(), units),
                        text => Length::parse(text.as_str().unwrap(), units, hingeleaf::length::Allow::Plain),
                    };
                    near(read.unwrap().mm(), wanted.mm(), 0.000_126);
                }
            }
        }
    }
}

/// Every byte but those of the value is as before: line ends, indentation, order, the mark, escapes.
#[test]
fn everything_else_stays_byte_for_byte() {
    let odd = SHORT.replace("\"format\"", "\"title\" :\t\"a \\u00e9 \\\" 30\" ,\n\t\"format\"");
    for text in [odd.clone(), odd.replace('\n', "\r\n"), format!("\u{feff}{odd}"), odd.trim_end().to_owned()] {
        let new = edited(&text, &[("pages[1].overflap", mm(45.0))], Units::Mm).unwrap();
        assert_eq!(new, text.replace("\"overflap\": 30", "\"overflap\": 45"));
    }
    // Several at once, in any order.
    let mends = [("pages[1].overflap", mm(45.0)), ("page.width", mm(150.5)), ("pages[1].pocket", mm(9.0))];
    let wanted = odd
        .replace("\"overflap\": 30", "\"overflap\": 45")
        .replace("\"pocket\": 100", "\"pocket\": 9")
        .replace("140", "150.5");
    assert_eq!(edited(&odd, &mends, Units::Mm).unwrap(), wanted);
}

#[test]
fn a_field_that_is_not_there_comes_last_in_its_object() {
    let (seam, inch) = (mm(12.0), Length::from_inches(0.375));
    for (old, value, units, new) in [
        (r#"{ "width": 1 }"#, seam, Units::Mm, r#"{ "width": 1, "seam": 12 }"#),
        (r#"{"width":1}"#, seam, Units::Mm, r#"{"width":1,"seam":12}"#),
        (r#"{"width": 1}"#, seam, Units::Mm, r#"{"width": 1, "seam": 12}"#),
        (r#"{"width":1,"height":2 }"#, seam, Units::Mm, r#"{"width":1,"height":2,"seam":12 }"#),
        (
            "{\n  \"width\": 1,\n  \"height\": 2\n}",
            seam,
            Units::Mm,
            "{\n  \"width\": 1,\n  \"height\": 2,\n  \"seam\": 12\n}",
        ),
        ("{\r\n\t\"width\" : 1\r\n}", seam, Units::Mm, "{\r\n\t\"width\" : 1,\r\n\t\"seam\" : 12\r\n}"),
        ("{}", seam, Units::Mm, r#"{ "seam": 12 }"#),
        // As the object's other lengths are written.
        (r#"{ "width": "140 mm" }"#, inch, Units::In, r#"{ "width": "140 mm", "seam": "9.525 mm" }"#),
        (
            r#"{ "width": "5 1/2", "height": 7 }"#,
            inch,
            Units::In,
            r#"{ "width": "5 1/2", "height": 7, "seam": "3/8" }"#,
        ),
        (r#"{ "width": 5.5, "height": 7 }"#, inch, Units::In, r#"{ "width": 5.5, "height": 7, "seam": 0.375 }"#),
        (r#"{ "width": 5, "height": 7 }"#, inch, Units::In, r#"{ "width": 5, "height": 7, "seam": "3/8" }"#),
        (r#"{ "width": 5, "stock": "card" }"#, mm(INCH), Units::In, r#"{ "width": 5, "stock": "card", "seam": 1 }"#),
    ] {
        let text = format!("{{ \"page\": {old}, \"x\": 1 }}");
        becomes(&text, "page.seam", value, units, &format!("{{ \"page\": {new}, \"x\": 1 }}"));
    }
}

/// The spine that the file leaves out is a flexi-hinge; nothing else can be left out and yet have sizes.
#[test]
fn an_object_that_is_not_there_is_added_with_its_kind() {
    let mends = [("spine.gusset", mm(8.0)), ("spine.tab", mm(14.0)), ("pages[1].overflap", mm(40.0))];
    let new = edited(SHORT, &mends, Units::Mm).unwrap();
    let wanted = SHORT
        .replace("\"overflap\": 30", "\"overflap\": 40")
        .replace("  ]\n}", "  ],\n  \"spine\": { \"kind\": \"flexi-hinge\", \"gusset\": 8, \"tab\": 14 }\n}");
    assert_eq!(new, wanted);
    let album = common::album(&new);
    near(album.length_at("spine.gusset").unwrap().mm(), 8.0, 1e-9);
    near(album.length_at("spine.pitch").unwrap().mm(), 6.0, 1e-9);
    for path in ["panels.reveal", "inserts[0].width", "cover.square"] {
        assert_eq!(edited(SHORT, &[(path, mm(5.0))], Units::Mm), Err(EditProblem::NoPlace(path.into())));
    }
}

#[test]
fn what_cant_be_changed_is_said() {
    let one = |path: &str| edited(SHORT, &[(path, mm(5.0))], Units::Mm).unwrap_err();
    for path in [
        "pages[2].overflap",
        "pages[x].overflap",
        "pages[-1].overflap",
        "pages.overflap",
        "pages[1.overflap",
        "pgae.width",
        "page.width.more",
        "pages[0][0].a",
    ] {
        assert_eq!(one(path), EditProblem::NoPlace(path.into()));
        assert!(one(path).to_string().contains(path));
    }
    assert_eq!(one("pages"), EditProblem::NoLength("pages".into()));
    assert_eq!(one("stocks.card"), EditProblem::NoLength("stocks.card".into()));
    let twice = [("page.width", mm(5.0)), ("page.width", mm(6.0))];
    assert_eq!(edited(SHORT, &twice, Units::Mm), Err(EditProblem::Twice("page.width".into())));
    let endless = [("page.width", mm(f64::INFINITY))];
    assert_eq!(edited(SHORT, &endless, Units::Mm), Err(EditProblem::NotFinite("page.width".into())));
    assert_eq!(edited("{ \"page\": ", &[("page.width", mm(5.0))], Units::Mm), Err(EditProblem::NotJson));
}

#[test]
fn a_mend_can_be_pasted_in() {
    assert_eq!(paste("overflap", mm(45.0), Units::Mm), "\"overflap\": 45");
    assert_eq!(paste("overflap", mm(45.0), Units::Cm), "\"overflap\": 4.5");
    assert_eq!(paste("overflap", Length::from_inches(1.75), Units::In), "\"overflap\": \"1 3/4\"");
    assert_eq!(paste("overflap", Length::from_inches(2.0), Units::In), "\"overflap\": 2");
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::default() })]

    /// Another JSON library sees the changed values and nothing else changed, however the file is laid out.
    #[test]
    fn only_what_is_mended_changes(
        values in proptest::collection::vec((0..4_usize, 1..4000_u32), 1..9), pretty: bool, crlf: bool, mark: bool,
    ) {
        let pages: Vec<Value> = (0..4).map(|page| json!({ "kind": "\u{e9} \"wallet\" }{,:[]", "pocket": page + 1 })).collect();
        let mut wanted = json!({ "title": "a \\ b \u{1f600}", "page": { "width": 5, "more": [1, { "x": null }] }, "pages": pages });
        let text = if pretty { serde_json::to_string_pretty(&wanted) } else { serde_json::to_string(&wanted) }.unwrap();
        let text = if crlf { text.replace('\n', "\r\n") } else { text };
        let text = if mark { format!("\u{feff}{text}") } else { text };
        let mut mends: Vec<(String, Length)> = Vec::new();
        for (number, (page, size)) in values.iter().enumerate() {
            let name = ["pocket", "overflap", "third"][number % 3];
            let path = format!("pages[{page}].{name}");
            if mends.iter().all(|(earlier, _)| *earlier != path) {
                mends.push((path, mm(f64::from(*size) / 8.0)));
                let value = f64::from(*size) / 8.0;
                let whole = value.fract() == 0.0;
                wanted["pages"][page][name] = if whole { json!(size / 8) } else { json!(value) };
            }
        }
        let mends: Vec<(&str, Length)> = mends.iter().map(|(path, value)| (path.as_str(), *value)).collect();
        let new = edited(&text, &mends, Units::Mm).unwrap();
        prop_assert_eq!(new.starts_with('\u{feff}'), mark);
        let read: Value = serde_json::from_str(new.trim_start_matches('\u{feff}')).unwrap();
        prop_assert_eq!(&read, &wanted);
        if crlf {
            prop_assert_eq!(new.matches("\r\n").count(), new.matches('\n').count());
        }
        // New fields stand as that library itself would write them.
        if pretty {
            let again = serde_json::to_string_pretty(&read).unwrap();
            prop_assert_eq!(new.trim_start_matches('\u{feff}').replace("\r\n", "\n"), again);
        }
    }
}

/// Findings of the test's own, by what the text holds.
fn judged(source: &Source, find: &dyn Fn(&album::Album) -> Vec<Finding>) -> Option<Work> {
    let album = album::read(source, &parts::kinds()).value?;
    let mut findings = find(&album);
    album.word_mends(&mut findings);
    Some(Work {
        album,
        cutter: Cutter::default(),
        fit: hingeleaf::fit::Fit::default(),
        kit: parts::Kit::default(),
        stocks: Vec::new(),
        paths: Vec::new(),
        recut: false,
        findings,
        letters: None,
        cost: std::sync::OnceLock::new(),
    })
}

/// Mends come to light one by one; notes are left alone; what the reader refuses is left out.
#[test]
fn mends_go_on_until_none_is_left() {
    let height = |album: &album::Album| album.page.height.mm();
    let find = |album: &album::Album| {
        let mut findings = vec![
            Finding::note("n", Said::NOTHING, Said::NOTHING).mend("page.seam", mm(20.0)),
            Finding::warn("w", Said::NOTHING, Said::NOTHING).mend("page.width", mm(9000.0)),
        ];
        if height(album) < 185.0 {
            findings.push(
                Finding::warn("h", Said::NOTHING, Said::NOTHING).mend("page.height", album.page.height + mm(1.0)),
            );
        }
        findings
    };
    let mended = mend(&source(SHORT), &|source| judged(source, &find)).unwrap();
    assert_eq!(mended.source.text(), SHORT.replace("180", "185"));
    let changes: Vec<_> = mended.changes.iter().map(|change| (change.path.as_str(), change.from, change.to)).collect();
    assert_eq!(changes, [("page.height", Some(mm(180.0)), mm(185.0))]);
    assert_eq!(mended.work.findings.iter().filter(|finding| finding.id == "h").count(), 0);
    // Eight rounds and no more.
    let endless = |album: &album::Album| {
        vec![Finding::stop("s", Said::NOTHING, Said::NOTHING).mend("page.height", album.page.height + mm(1.0))]
    };
    let mended = mend(&source(SHORT), &|source| judged(source, &endless)).unwrap();
    near(height(&mended.work.album), 188.0, 1e-9);
    // Mends that go round in a circle end before the circle closes.
    let circle = |album: &album::Album| {
        vec![
            Finding::stop("s", Said::NOTHING, Said::NOTHING)
                .mend("page.height", if height(album) > 180.0 { mm(180.0) } else { mm(181.0) }),
        ]
    };
    let mended = mend(&source(SHORT), &|source| judged(source, &circle)).unwrap();
    near(height(&mended.work.album), 181.0, 1e-9);
    // The graver finding has its way, and nothing happens where nothing is to be mended.
    let two = |_: &album::Album| {
        vec![
            Finding::stop("s", Said::NOTHING, Said::NOTHING).mend("page.seam", mm(13.0)),
            Finding::warn("w", Said::NOTHING, Said::NOTHING).mend("page.seam", mm(14.0)),
        ]
    };
    let first = |source: &Source| {
        let text = source.text();
        judged(source, &|album| if text.contains("seam") { Vec::new() } else { two(album) })
    };
    let mended = mend(&source(SHORT), &first).unwrap();
    assert_eq!(mended.source.text(), SHORT.replace("180 }", "180, \"seam\": 13 }"));
    let mended = mend(&source(SHORT), &|source| judged(source, &|_| Vec::new())).unwrap();
    assert!(mended.changes.is_empty() && mended.source.text() == SHORT);
    assert!(mend(&source("{}"), &|source| judged(source, &|_| Vec::new())).is_none());
}

fn check(folder: &TempDir, text: &str, more: &[&str]) -> Run {
    let file = folder.put("album.json", text);
    let new = folder.join("new.json");
    let words = ["check", file.to_str().unwrap(), "--mend", new.to_str().unwrap()];
    let run = hingeleaf(words.iter().chain(more));
    assert_eq!(fs::read_to_string(&file).unwrap(), text, "the maker's file is never written");
    run
}

#[test]
fn check_writes_the_mended_album() {
    let folder = TempDir::new("mend");
    for (old, wanted, says) in [
        (SHORT.to_owned(), "\"overflap\": 46", "pages[1].overflap: 30 mm becomes 46 mm"),
        (SHORT.replace('\n', "\r\n"), "\"overflap\": 46", "30 mm becomes 46 mm"),
        // 140.3 mm is no mark of the ruler: 140 is the last half millimetre that is not too wide.
        (SHORT.replace("140", "140.3").replace("30 }", "150 }"), "\"overflap\": 140", "150 mm becomes 140 mm"),
        // 140.3 - 100 = 40.3 mm must be reached, and 6 more.
        (SHORT.replace("140", "140.3"), "\"overflap\": 46.5", "30 mm becomes 46.5 mm"),
    ] {
        let run = check(&folder, &old, &[]);
        assert_eq!((run.code, run.err.as_str()), (0, ""), "{run:?}");
        assert!(run.out.contains(says) && run.out.contains("new.json with 1 change."), "{}", run.out);
        assert!(run.out.contains("It goes together"), "{}", run.out);
        let field = if old.contains("150 }") { "\"overflap\": 150" } else { "\"overflap\": 30" };
        let new = fs::read_to_string(folder.join("new.json")).unwrap();
        assert_eq!(new, old.replace(field, wanted));
        // What was written is sound, and holds the same album but for that length.
        assert_eq!(hingeleaf(["check", folder.join("new.json").to_str().unwrap()]).code, 0);
        let differ: Vec<String> = common::album(&old)
            .sizes()
            .into_iter()
            .zip(common::album(&new).sizes())
            .filter(|(one, other)| one != other)
            .map(|((path, _), _)| path)
            .collect();
        assert_eq!(differ, ["pages[1].overflap"]);
        fs::remove_file(folder.join("new.json")).unwrap();
    }
    // In inches: 6 1/4 - 3 7/8 = 2 3/8 in, and 6 mm more are 2.61: 2 5/8 on the ruler.
    let inches = SHORT
        .replace("\"stocks\"", "\"units\": \"in\", \"stocks\"")
        .replace("0.3", "\"12 pt\"")
        .replace("A4", "letter")
        .replace("140", "\"6 1/4\"")
        .replace("180", "\"8 1/2\"")
        .replace("100", "\"3 7/8\"")
        .replace("30 }", "\"2 1/4\" }");
    let run = check(&folder, &inches, &[]);
    assert!(run.code == 0 && run.out.contains("2 1/4 in becomes 2 5/8 in"), "{run:?}");
    assert_eq!(fs::read_to_string(folder.join("new.json")).unwrap(), inches.replace("\"2 1/4\" }", "\"2 5/8\" }"));
}

/// What is still wrong is said of the new file, and the exit code is the mended album's.
#[test]
fn what_no_mend_helps_is_still_said() {
    let folder = TempDir::new("still");
    let thick = SHORT.replace(
        "\"pages\"",
        "\"inserts\": [{ \"kind\": \"tag\", \"width\": 80, \"height\": 90, \"thickness\": 190 }],\n  \"pages\"",
    );
    let run = check(&folder, &thick, &[]);
    assert_eq!(run.code, 1);
    for word in [
        "30 mm becomes 46 mm",
        "stop[insert-too-thick]",
        "new.json, line 5",
        "    5 |   \"inserts\": [",
        "does not go together yet",
    ] {
        assert!(run.out.contains(word), "{word:?} is not in {}", run.out);
    }
    assert!(!run.out.contains("flap-too-short"), "{}", run.out);
    fs::remove_file(folder.join("new.json")).unwrap();
    // Nothing to mend: nothing is written.
    let sound = SHORT.replace("30 }", "50 }");
    let run = check(&folder, &sound, &[]);
    assert!(run.code == 0 && run.out.contains("Nothing needs mending"), "{run:?}");
    assert_eq!(folder.names(), ["album.json"]);
    // A file that can't be read is refused as ever.
    let run = check(&folder, &SHORT.replace("140", "-140"), &[]);
    assert!(run.code == 2 && run.err.contains("out-of-range"), "{run:?}");
    assert_eq!(folder.names(), ["album.json"]);
}

#[test]
fn mends_come_as_json_and_as_words() {
    let folder = TempDir::new("json");
    let file = folder.put("album.json", SHORT);
    let run = hingeleaf(["check", file.to_str().unwrap()]);
    assert!(run.code == 1 && run.out.contains("\n  write: \"overflap\": 46\n"), "{run:?}");
    let json = hingeleaf(["check", file.to_str().unwrap(), "--json"]).json();
    let mend = &json["findings"][0]["mend"];
    assert_eq!((mend["path"].as_str(), mend["value_mm"].as_f64()), (Some("pages[1].overflap"), Some(46.0)), "{json}");
    assert_eq!(mend["text"], "\"overflap\": 46");
    assert!(json.get("mended").is_none());
    let run = check(&folder, SHORT, &["--json"]);
    let json = run.json();
    // A flap that reaches over by what holds does so cut by hand, too.
    assert_eq!((run.code, &json["findings"][0]), (0, &Value::Null));
    let mended = &json["mended"];
    assert_eq!(mended[0]["path"], "pages[1].overflap");
    assert_eq!((mended[0]["from"].as_str(), mended[0]["to"].as_str()), (Some("30 mm"), Some("46 mm")));
    assert_eq!((mended[0]["from_mm"].as_f64(), mended[0]["to_mm"].as_f64()), (Some(30.0), Some(46.0)));
    // The same again gives the same bytes.
    let first = fs::read(folder.join("new.json")).unwrap();
    fs::remove_file(folder.join("new.json")).unwrap();
    assert_eq!(check(&folder, SHORT, &["--json"]).out, run.out);
    assert_eq!(fs::read(folder.join("new.json")).unwrap(), first);
}

/// A spine that the file leaves out is pasted in whole.
#[test]
fn a_mend_of_what_is_left_out_can_be_pasted_in_too() {
    let album = common::album(SHORT);
    let mut findings = vec![Finding::warn("w", Said::NOTHING, Said::NOTHING).mend("spine.gusset", mm(8.0))];
    album.word_mends(&mut findings);
    let text = &findings[0].mend.as_ref().unwrap().text;
    assert_eq!(text, "\"spine\": { \"kind\": \"flexi-hinge\", \"gusset\": 8 }");
    let pasted = SHORT.replace("  \"pages\"", &format!("  {text},\n  \"pages\""));
    near(common::album(&pasted).length_at("spine.gusset").unwrap().mm(), 8.0, 1e-9);
}

#[test]
fn nothing_is_written_over() {
    let folder = TempDir::new("over");
    let file = folder.put("album.json", SHORT);
    let there = folder.put("there.json", "mine");
    fs::create_dir(folder.join("folder")).unwrap();
    let mut taken = vec![file.clone(), there.clone(), folder.join("folder")];
    #[cfg(unix)]
    {
        std::os::unix::fs::symlink(folder.join("nowhere"), folder.join("link")).unwrap();
        taken.push(folder.join("link"));
    }
    for new in &taken {
        let run = hingeleaf(["check", file.to_str().unwrap(), "--mend", new.to_str().unwrap()]);
        assert!(run.code == 2 && run.err.contains("stop[exists]") && run.err.contains("already"), "{run:?}");
    }
    assert_eq!(fs::read_to_string(&there).unwrap(), "mine");
    assert_eq!(fs::read_to_string(&file).unwrap(), SHORT);
    assert!(!folder.join("nowhere").exists());
    // A folder that is not there is the machine's failure, as for every other file.
    let run = hingeleaf(["check", file.to_str().unwrap(), "--mend", folder.join("no/new.json").to_str().unwrap()]);
    assert!(run.code == 3 && run.err.contains("stop[machine]"), "{run:?}");
    let run = hingeleaf(["check", file.to_str().unwrap(), "--rounded", "1mm", "--mend", "x.json"]);
    assert!(run.code == 2 && run.err.contains("--rounded"), "{run:?}");
}

/// As a user who may not write there: exit 3 with the system's reason, and nothing is left.
#[cfg(unix)]
#[test]
fn a_folder_that_may_not_be_written_is_the_machines_failure() {
    use std::os::unix::fs::PermissionsExt;
    let folder = TempDir::new("mend-perms");
    let file = folder.put("album.json", SHORT);
    let shut = folder.join("shut");
    fs::create_dir(&shut).unwrap();
    fs::set_permissions(&shut, fs::Permissions::from_mode(0o555)).unwrap();
    let new = shut.join("new.json");
    let words = [env!("CARGO_BIN_EXE_hingeleaf"), "check", file.to_str().unwrap(), "--mend", new.to_str().unwrap()];
    // An administrator may write anywhere, so somebody else has to try.
    let administrator = fs::write(shut.join("probe"), "").is_ok();
    let other: &[&str] = &["setpriv", "--reuid=65534", "--regid=65534", "--clear-groups", "--"];
    let prefix = if administrator { other } else { &[] };
    if administrator {
        fs::remove_file(shut.join("probe")).unwrap();
        let able = Command::new("setpriv").args(&prefix[1..]).args([words[0], "--version"]).output();
        if !able.as_ref().is_ok_and(|run| run.status.success()) {
            return common::not_run(&format!(
                "no other user could run the program, so permissions were not tried: {able:?}"
            ));
        }
    }
    let words: Vec<&str> = prefix.iter().copied().chain(words).collect();
    let run = Run::of(Command::new(words[0]).args(&words[1..]).output().unwrap());
    assert_eq!(run.code, 3, "{run:?}");
    assert!(run.err.contains("new.json") && run.err.contains("ermission") && run.out.is_empty(), "{run:?}");
    assert_eq!(fs::read_dir(&shut).unwrap().count(), 0);
    fs::set_permissions(&shut, fs::Permissions::from_mode(0o755)).unwrap();
}

/// Sound albums have nothing to mend.
#[test]
fn sound_albums_need_no_mend() {
    let folder = TempDir::new("sound-mend");
    for file in common::fixtures() {
        let new = folder.join("new.json");
        let run = hingeleaf(["check", file.to_str().unwrap(), "--mend", new.to_str().unwrap()]);
        assert!(run.code == 0 && !new.exists(), "{file:?}: {run:?}");
    }
    assert!(project().join("fixtures").is_dir());
}
