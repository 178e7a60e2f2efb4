// SPDX-License-Identifier: MIT
//! Inserts as large as comes free: never a sheet more for them, and one mark of the ruler larger costs one or does not go in.

use crate::common::{TempDir, album, hingeleaf};
use hingeleaf::batch;
use hingeleaf::cutter::Cutter;
use hingeleaf::fields::Source;
use hingeleaf::finding::{Finding, Level};
use hingeleaf::layout::{Effort, Unwatched};
use hingeleaf::parts;
use hingeleaf::sheets::{Search, StockSheets};
use hingeleaf::toolpath::Labels;
use hingeleaf::work::{BatchWork, Work};
use proptest::prelude::*;
use serde_json::Value;
use std::collections::BTreeMap;
use std::fs;

fn text(page: (f64, f64), units: &str, copies: u32, inserts: &str) -> String {
    let (width, height) = page;
    format!(
        r#"{{ "format": "hingeleaf-album/1", "units": "{units}", "copies": {copies},
            "stocks": {{ "card": {{ "sheet": "A3", "caliper": "0.3 mm" }}, "notes": {{ "sheet": "A4", "caliper": "0.3 mm" }} }},
            "page": {{ "width": {width}, "height": {height}, "stock": "card" }},
            "pages": [{{ "kind": "pocket" }}, {{ "kind": "pocket" }}],
            "inserts": [{inserts}] }}"#
    )
}

fn tried(text: &str, effort: Effort) -> Work {
    Work::new(album(text), Cutter::default(), Labels::None, Search { effort, trimmer: false, threads: 1 }, &Unwatched)
}

fn worked(text: &str) -> Work {
    let work = tried(text, Effort::Low);
    assert!(!work.stopped(), "{text}: {:?}", work.findings);
    work
}

fn sheets(stocks: &[StockSheets]) -> BTreeMap<usize, u64> {
    stocks.iter().map(|laid| (laid.stock, laid.count())).collect()
}

fn said(findings: &[Finding]) -> Vec<Level> {
    findings.iter().filter(|finding| finding.id == "offcut-size").map(|finding| finding.level).collect()
}

fn warned(work: &Work) -> usize {
    let of_fit = |finding: &&Finding| finding.level == Level::Warn && finding.id != "offcut-size";
    work.findings.iter().filter(of_fit).count()
}

/// Width and height of the parts of a kind.
fn sizes(kit: &parts::Kit, kind: &str) -> Vec<(f64, f64)> {
    kit.parts.iter().filter(|part| part.kind == kind).map(|part| (part.flat.width, part.flat.height)).collect()
}

/// Tries every size on the ruler by hand, as files say them, against what is settled: it takes no sheet more, the next larger
/// one does, or does not go in.
fn against_all(
    before: &str,
    (kind, part): (&str, &str),
    more: &str,
    page: (f64, f64),
    copies: u32,
) -> Option<(f64, f64)> {
    let with = |size: &str| text(page, "mm", copies, &format!(r#"{before} {{ "kind": "{kind}", {size} {more} }}"#));
    let plain = worked(&text(page, "mm", copies, before.trim_end_matches([',', ' '])));
    let work = worked(&with(r#""size": "offcut","#));
    assert_eq!(sheets(&work.stocks).get(&1), sheets(&plain.stocks).get(&1), "{before}{more}");
    assert_eq!(sheets(&work.stocks).get(&0), sheets(&plain.stocks).get(&0), "{before}{more}");
    let found =
        sizes(&work.kit, part).last().copied().filter(|_| sizes(&work.kit, part).len() > sizes(&plain.kit, part).len());
    // The usual one of a kind is 3 : 5 (tag) or 2 : 3 (card), on a ruler with half millimetres.
    let ratio = if kind == "tag" { 3.0 / 5.0 } else { 2.0 / 3.0 };
    let of = |height: f64| ((height * ratio * 2.0 + 1e-9).floor() / 2.0, height);
    let free = |(width, height): (f64, f64)| {
        let larger = tried(&with(&format!(r#""width": {width}, "height": {height},"#)), Effort::Low);
        !larger.stopped() && sheets(&larger.stocks) == sheets(&plain.stocks)
    };
    if let Some((width, height)) = found {
        assert_eq!((width, height), of(height));
        let exact = worked(&with(&format!(r#""width": {width}, "height": {height},"#)));
        assert_eq!(
            exact.kit.parts.iter().map(|part| part.flat.digest()).collect::<Vec<_>>(),
            work.kit.parts.iter().map(|part| part.flat.digest()).collect::<Vec<_>>()
        );
        let next = of(height + 0.5);
        // The largest that its pockets take, as a file has it that says no size; 3.2 mm (C2) less than the page at most.
        let whole = tried(&with(""), Effort::Low);
        let room = sizes(&whole.kit, part).last().copied().unwrap();
        assert!(room.0 <= page.0 - 3.2 + 1e-9 && room.1 <= page.1 - 3.2 + 1e-9);
        let goes_in = next.0 <= room.0 + 1e-9 && next.1 <= room.1 + 1e-9;
        assert!(!goes_in || !free(next), "{next:?} would come free, {:?} was taken", (width, height));
        assert_eq!(said(&work.findings), [Level::Note]);
    } else {
        // The least whose shorter side is 30 mm.
        let least = (30.0 / ratio * 2.0 - 1e-9_f64).ceil() / 2.0;
        assert!(!free(of(least)), "{least} would come free");
        assert_eq!(said(&work.findings), [Level::Warn]);
    }
    found
}

/// A tag of 105 x 148.5 mm is a quarter of an A4 sheet (ISO 216). Three of them leave a quarter, four leave nothing.
#[test]
fn the_largest_that_comes_free_is_taken() {
    let tag = |count: u32| {
        format!(
            r#"{{ "kind": "tag", "width": 105, "height": 148.5, "hole": 0, "corner": 0, "stock": "notes", "count": {count} }},"#
        )
    };
    let more = r#""hole": 0, "corner": 0, "stock": "notes""#;
    let page = (130.0, 160.0);
    // 148.5 mm tall, 3/5 of that wide: 89.1, on the ruler 89.
    assert_eq!(against_all(&tag(3), ("tag", "tag"), more, page, 1), Some((89.0, 148.5)));
    assert_eq!(against_all(&tag(4), ("tag", "tag"), more, page, 1), None);
    // The sheet that is half empty takes one as large as the pocket does, twice as well.
    let two = against_all(&tag(2), ("tag", "tag"), more, page, 1).unwrap();
    assert!(two.1 > 148.5, "{two:?}");
    // A stock of its own has no sheets, and so nothing that is left of them.
    assert_eq!(against_all("", ("tag", "tag"), more, page, 1), None);
    // Two kits: six tags leave two quarters, one for each; five kits: fifteen leave one.
    assert_eq!(against_all(&tag(3), ("tag", "tag"), more, page, 2), Some((89.0, 148.5)));
    let five = against_all(&tag(3), ("tag", "tag"), more, page, 5);
    assert!(five.is_none_or(|five| five.1 < 100.0), "{five:?}");
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 24, ..ProptestConfig::default() })]

    #[test]
    fn no_size_costs_a_sheet_and_the_next_one_does(
        page in (90_u32..180, 110_u32..200),
        width in 40_u32..86,
        height in 50_u32..106,
        count in 1_u32..9,
        copies in 1_u32..5,
        card in any::<bool>(),
        own in any::<bool>(),
    ) {
        let before = format!(r#"{{ "kind": "tag", "width": {width}, "height": {height}, "stock": "notes", "count": {count} }},"#);
        let stock = if own { r#""stock": "notes""# } else { r#""stock": "card""# };
        let (kind, part) = if card { ("journal-card", "journal card") } else { ("tag", "tag") };
        against_all(&before, (kind, part), stock, (f64::from(page.0), f64::from(page.1)), copies);
    }
}

/// As hard as sheets are looked for, sizes are: what is found costs no sheet there either.
#[test]
fn more_effort_costs_no_sheet_either() {
    for effort in [Effort::Normal] {
        let inserts = r#"{ "kind": "tag", "width": 60, "height": 81, "stock": "notes", "count": 5 }"#;
        let plain = tried(&text((130.0, 160.0), "mm", 2, inserts), effort);
        let work = tried(
            &text(
                (130.0, 160.0),
                "mm",
                2,
                &format!(r#"{inserts}, {{ "kind": "journal-card", "size": "offcut", "stock": "notes" }}"#),
            ),
            effort,
        );
        assert_eq!(sheets(&work.stocks), sheets(&plain.stocks));
        assert_eq!(said(&work.findings), [Level::Note]);
        assert_eq!(warned(&work), warned(&plain));
    }
}

/// Where one side is said, the other follows; a band's height does; in inches on the marks of an inch ruler.
#[test]
fn one_side_may_be_said() {
    let more = |inserts: &str, units: &str, page| {
        let work = worked(&text(page, units, 1, inserts));
        assert_eq!(said(&work.findings), [Level::Note], "{:?}", work.findings);
        work
    };
    let page = (130.0, 160.0);
    let before = r#"{ "kind": "tag", "width": 100, "height": 140, "stock": "notes" },"#;
    let work =
        more(&format!(r#"{before} {{ "kind": "tag", "size": "offcut", "width": 55, "stock": "notes" }}"#), "mm", page);
    assert_eq!(sizes(&work.kit, "tag")[1].0, 55.0);
    let work = more(
        &format!(r#"{before} {{ "kind": "envelope", "size": "offcut", "height": 60, "stock": "notes" }}"#),
        "mm",
        page,
    );
    assert_eq!(work.kit.parts.iter().filter(|part| part.kind == "envelope").count(), 1);
    let work = more(
        &format!(
            r#"{before} {{ "kind": "belly-band", "size": "offcut", "width": 60, "thickness": 10, "stock": "notes" }}"#
        ),
        "mm",
        page,
    );
    let band = sizes(&work.kit, "belly band")[0];
    assert!(band.1 >= 15.0 && band.1 <= 160.0, "{band:?}");
    let before = r#"{ "kind": "tag", "width": 4, "height": 5.5, "stock": "notes" },"#;
    let work = more(
        &format!(r#"{before} {{ "kind": "journal-card", "size": "offcut", "stock": "notes" }}"#),
        "in",
        (5.0, 6.5),
    );
    let (width, height) = sizes(&work.kit, "journal card")[0];
    for side in [width, height] {
        let marks = side / 25.4 * 32.0;
        assert!((marks - marks.round()).abs() < 1e-6, "{side}");
    }
}

/// What can't be both is refused at its place; a named card is no such thing.
#[test]
fn what_is_said_twice_is_refused() {
    let problems = |insert: &str| {
        let source = Source::new("album.json", text((130.0, 160.0), "mm", 1, insert).into()).unwrap();
        let findings = hingeleaf::album::read(&source, &parts::kinds()).findings;
        findings.into_iter().map(|finding| finding.id).collect::<Vec<_>>()
    };
    assert_eq!(problems(r#"{ "kind": "tag", "size": "offcut", "count": "spare" }"#), ["offcut-size"]);
    assert_eq!(problems(r#"{ "kind": "tag", "size": "offcut", "width": 50, "height": 60 }"#), ["offcut-size"]);
    assert_eq!(
        problems(r#"{ "kind": "belly-band", "size": "offcut", "width": 50, "thickness": 9, "height": 60 }"#),
        ["offcut-size"]
    );
    assert_eq!(problems(r#"{ "kind": "tag", "size": "ofcut" }"#).len(), 1);
    for sound in [
        r#"{ "kind": "tag", "size": "offcut", "width": 50, "count": 3 }"#,
        r#"{ "kind": "journal-card", "size": "10x15" }"#,
        r#"{ "kind": "belly-band", "size": "offcut", "width": 50, "thickness": 9 }"#,
        r#"{ "kind": "accordion", "size": "offcut" }, { "kind": "booklet", "size": "offcut" }"#,
    ] {
        assert!(problems(sound).is_empty(), "{sound}");
    }
}

/// Kits of an order get one size, laid on the sheets of all of them.
#[test]
fn one_size_for_all_kits() {
    let tag = |width: u32, count: u32| {
        format!(r#"{{ "kind": "tag", "width": {width}, "height": 140, "stock": "notes", "count": {count} }}"#)
    };
    let with = |width, count, more: &str| text((130.0, 160.0), "mm", 1, &(tag(width, count) + more));
    let order = |more: &str, spares: &str, together: &str| {
        let albums = [with(100, 3, more), with(90, 2, more)];
        let text = format!(
            r#"{{ "format": "hingeleaf-batch/1", {spares} "together": "{together}",
                "kits": [{{ "name": "a", "album": "0", "copies": 3 }}, {{ "name": "b", "album": "1", "copies": 2 }}] }}"#
        );
        let source = Source::new("order.json", text.into()).unwrap();
        let mut load = |name: &str| Source::new(name, albums[name.parse::<usize>().unwrap()].clone().into());
        let read = batch::read(&source, &parts::kinds(), &mut load);
        let search = Search { effort: Effort::Low, trimmer: false, threads: 1 };
        let work = BatchWork::new(read.value.unwrap(), Cutter::default(), Labels::None, search, &Unwatched);
        assert!(!work.stopped(), "{:?}", work.findings);
        work
    };
    for spares in ["", r#""spares": { "kits": 1, "parts": "10 %" },"#] {
        for together in ["batch", "kit"] {
            let plain = order("", spares, together);
            let work = order(r#", { "kind": "journal-card", "size": "offcut", "stock": "notes" }"#, spares, together);
            assert_eq!(sheets(&work.stocks), sheets(&plain.stocks), "{spares}");
            assert_eq!(said(&work.findings), [Level::Note], "{spares} {together}");
            let found = sizes(&work.kit, "journal card");
            assert_eq!(found.len(), 1, "one size: {found:?}");
            for kit in &work.kits {
                assert_eq!(sizes(&kit.kit, "journal card"), found);
            }
            let (width, height) = (found[0].0, found[0].1 + 0.5);
            let width = ((height * 2.0 / 3.0) * 2.0 + 1e-9).floor() / 2.0 + 0.0 * width;
            let more =
                format!(r#", {{ "kind": "journal-card", "width": {width}, "height": {height}, "stock": "notes" }}"#);
            let larger = order(&more, spares, together);
            let pocket = width > 130.0 - 3.2 || height > 160.0 - 3.2;
            assert!(
                pocket || sheets(&larger.stocks) != sheets(&plain.stocks),
                "{width} x {height} comes free {spares} {together}"
            );
        }
    }
}

/// Lists, report and guide have a plain size.
#[test]
fn the_size_is_a_plain_number_everywhere() {
    let dir = TempDir::new("offcut");
    let inserts = r#"{ "kind": "tag", "width": 105, "height": 148.5, "hole": 0, "corner": 0, "stock": "notes", "count": 3 },
        { "kind": "tag", "size": "offcut", "hole": 0, "corner": 0, "stock": "notes" }"#;
    let (file, out) = (dir.put("album.json", text((130.0, 160.0), "mm", 1, inserts)), dir.join("kit"));
    let run = hingeleaf(["kit", file.to_str().unwrap(), "--out", out.to_str().unwrap(), "--formats", "csv,html"]);
    assert_eq!(run.code, 0, "{}", run.err);
    assert!(run.err.contains("89 mm x 148.5 mm comes free"), "{}", run.err);
    let report: Value = serde_json::from_slice(&fs::read(out.join("report.json")).unwrap()).unwrap();
    let part = report["parts"].as_array().unwrap().iter().find(|part| part["id"] == "tag-2").unwrap();
    assert_eq!((part["width_mm"].as_f64(), part["height_mm"].as_f64()), (Some(89.0), Some(148.5)));
    let list = fs::read_to_string(out.join("cutting-list.csv")).unwrap();
    assert!(list.contains("tag-2,notes,89,148.5,1"), "{list}");
    assert!(fs::read_to_string(out.join("guide.html")).unwrap().contains("148.5"));
}
