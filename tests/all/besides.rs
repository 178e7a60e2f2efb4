// SPDX-License-Identifier: MIT
//! Spare kits and parts: how many are made, whether they come free, who says so.

use crate::common::{TempDir, album, hingeleaf};
use hingeleaf::album::{Album, MoreParts};
use hingeleaf::batch;
use hingeleaf::cutter::Cutter;
use hingeleaf::fields::Source;
use hingeleaf::finding::Finding;
use hingeleaf::layout::{Effort, Unwatched};
use hingeleaf::parts;
use hingeleaf::sheets::{Search, StockSheets};
use hingeleaf::toolpath::Labels;
use hingeleaf::work::{BatchWork, Work};
use serde_json::Value;
use std::collections::BTreeMap;
use std::fs;

const SEARCH: Search = Search { effort: Effort::Low, trimmer: false, threads: 1 };

/// Tags of 105 x 148.5 mm, four of which come from an A4 sheet (210 x 297 mm, ISO 216) and no more.
fn text(copies: u32, more: &str) -> String {
    format!(
        r#"{{ "format": "hingeleaf-album/1", "copies": {copies}, {more}
            "stocks": {{ "card": {{ "sheet": "A3", "caliper": 0.3 }}, "notes": {{ "sheet": "A4", "caliper": 0.3 }} }},
            "page": {{ "width": 130, "height": 160, "stock": "card" }},
            "pages": [{{ "kind": "pocket" }}],
            "inserts": [{{ "kind": "tag", "width": 105, "height": 148.5, "hole": 0, "corner": 0, "stock": "notes" }}] }}"#
    )
}

fn worked(text: &str) -> Work {
    let work = Work::new(album(text), Cutter::default(), Labels::None, SEARCH, &Unwatched);
    assert!(!work.stopped(), "{text}: {:?}", work.findings);
    work
}

fn placed(stocks: &[StockSheets]) -> BTreeMap<usize, u64> {
    let mut placed = BTreeMap::new();
    for sheet in stocks.iter().flat_map(|laid| &laid.sheets) {
        for part in &sheet.placements {
            *placed.entry(part.part).or_default() += u64::from(sheet.times);
        }
    }
    placed
}

fn count(stocks: &[StockSheets], stock: usize) -> u64 {
    stocks.iter().find(|laid| laid.stock == stock).map_or(0, StockSheets::count)
}

fn told(findings: &[Finding]) -> usize {
    findings.iter().filter(|finding| finding.id == "spares").count()
}

/// What is made is what the kits take and the spares, rounded up, whatever the state in which sheets are handed over.
#[test]
fn all_spares_are_made() {
    let parts =
        [("0", 0, false), ("3", 3, false), ("\"10 %\"", 10, true), ("\"0.4%\"", 0, true), ("\"100 %\"", 100, true)];
    for copies in [1, 2, 5] {
        for kits in 0..=2 {
            for (said, value, share) in parts {
                for handed in
                    ["", r#""handed_over": "sheets","#, r#""handed_over": { "notes": "sheets", "card": "cut" },"#]
                {
                    let text = text(copies, &format!(r#"{handed} "spares": {{ "kits": {kits}, "parts": {said} }},"#));
                    let work = worked(&text);
                    let placed = placed(&work.stocks);
                    for (number, part) in work.kit.parts.iter().enumerate() {
                        let made = u64::from(part.count * (copies + kits));
                        let more = match (said, share) {
                            ("\"0.4%\"", _) => (made * 4).div_ceil(1000),
                            (_, true) => (made * value).div_ceil(100),
                            (_, false) => value,
                        };
                        assert_eq!(placed[&number], made + more, "{} in {text}", part.id);
                    }
                }
            }
        }
    }
}

/// Of three tags on a sheet that holds four, one more comes free, and a second does not; said just then.
#[test]
fn spares_come_free_where_they_can() {
    let plain = worked(&text(3, ""));
    assert_eq!((count(&plain.stocks, 1), told(&plain.findings)), (1, 0));
    for (spares, sheets) in [(r#"{ "parts": 1 }"#, 1), (r#"{ "parts": "33.333 %" }"#, 1), (r#"{ "kits": 1 }"#, 1)] {
        let work = worked(&text(3, &format!(r#""spares": {spares},"#)));
        assert_eq!(count(&work.stocks, 1), sheets, "{spares}");
        let said = |finding: &&Finding| finding.id == "spares" && format!("{:?}", finding.about).contains("notes");
        assert_eq!(work.findings.iter().filter(said).count(), 0, "{spares}: {:?}", work.findings);
    }
    let work = worked(&text(3, r#""spares": { "parts": 2 },"#));
    assert_eq!(count(&work.stocks, 1), 2);
    let said = |finding: &&Finding| finding.id == "spares" && format!("{:?}", finding.about).contains("notes");
    assert_eq!(work.findings.iter().filter(said).count(), 1);
}

/// It is told just where the same order without spares takes fewer sheets, for one album and for a batch of it.
#[test]
fn a_sheet_more_is_told() {
    for copies in 1..=6 {
        for (kits, parts) in [(0, "1"), (0, "4"), (1, "0"), (2, "\"5 %\""), (0, "\"25 %\"")] {
            let spares = format!(r#"{{ "kits": {kits}, "parts": {parts} }}"#);
            let (plain, spared) =
                (worked(&text(copies, "")), worked(&text(copies, &format!(r#""spares": {spares},"#))));
            let more = |stock: usize| count(&spared.stocks, stock) > count(&plain.stocks, stock);
            assert_eq!(
                told(&spared.findings),
                [0, 1].into_iter().filter(|stock| more(*stock)).count(),
                "{copies} {spares}"
            );
            let of_batch = ordered(&text(copies, ""), &format!(r#""spares": {spares},"#));
            assert_eq!(told(&of_batch.findings), told(&spared.findings), "{copies} {spares}");
            assert_eq!(
                [0, 1].map(|stock| count(&of_batch.stocks, stock)),
                [0, 1].map(|stock| count(&spared.stocks, stock))
            );
        }
    }
}

fn ordered(album: &str, more: &str) -> BatchWork {
    let text =
        format!(r#"{{ "format": "hingeleaf-batch/1", {more} "kits": [{{ "name": "one", "album": "album.json" }}] }}"#);
    let source = Source::new("order.json", text.into()).unwrap();
    let mut albums = |name: &str| Source::new(name, album.to_owned().into());
    let read = batch::read(&source, &parts::kinds(), &mut albums);
    let batch = read.value.unwrap_or_else(|| panic!("{:?}", read.findings));
    assert!(read.findings.is_empty(), "{:?}", read.findings);
    BatchWork::new(batch, Cutter::default(), Labels::None, SEARCH, &Unwatched)
}

/// What a batch says wins over what its albums say; where it says nothing, they are heard.
#[test]
fn a_batch_wins_over_its_albums() {
    let album = text(3, r#""spares": { "kits": 2, "parts": 1 },"#);
    let tags = |work: &BatchWork| {
        let part = work.kit.parts.iter().find(|part| part.kind == "tag").unwrap();
        part.count
    };
    assert_eq!(tags(&ordered(&album, "")), 3 + 2 + 1);
    assert_eq!(tags(&ordered(&album, r#""spares": { "parts": "50 %" },"#)), 3 + 2);
    assert_eq!(tags(&ordered(&album, r#""spares": {},"#)), 3);
    assert_eq!(tags(&ordered(&text(3, ""), "")), 3);
}

/// Kits that want as many in a hundred want them of what they take together: of 10 and 15 pieces 4 in a hundred are one.
#[test]
fn a_share_is_of_the_whole_order() {
    assert_eq!(MoreParts::Share(4_000).of(25), 1);
    let text = r#"{ "format": "hingeleaf-batch/1", "kits": [
        { "name": "a", "album": "album.json", "copies": 10 }, { "name": "b", "album": "album.json", "copies": 15 },
        { "name": "c", "album": "album.json", "copies": 4, "change": { "spares": { "parts": 7 } } }] }"#;
    let source = Source::new("order.json", text.into()).unwrap();
    let own = self::text(1, r#""spares": { "parts": "4 %" },"#);
    let read = batch::read(&source, &parts::kinds(), &mut |name: &str| Source::new(name, own.clone().into()));
    let work = BatchWork::new(read.value.unwrap(), Cutter::default(), Labels::None, SEARCH, &Unwatched);
    let tag = work.kit.parts.iter().find(|part| part.kind == "tag").unwrap();
    assert_eq!(tag.count, 10 + 15 + 4 + 1 + 7);
}

/// Lists, report and job sheet say the same of what is spare.
#[test]
fn lists_report_and_job_sheet_agree() {
    let dir = TempDir::new("besides");
    let (file, out) = (dir.join("album.json"), dir.join("kit"));
    fs::write(&file, text(3, r#""spares": { "kits": 1, "parts": "50 %" },"#)).unwrap();
    let run = hingeleaf(["kit", file.to_str().unwrap(), "--out", out.to_str().unwrap(), "--formats", "csv,html"]);
    assert_eq!(run.code, 0, "{}", run.err);
    let report: Value = serde_json::from_str(&fs::read_to_string(out.join("report.json")).unwrap()).unwrap();
    assert_eq!((&report["copies"], &report["spare_kits"]), (&4.into(), &1.into()));
    let list = fs::read_to_string(out.join("cutting-list.csv")).unwrap();
    for part in report["parts"].as_array().unwrap() {
        let (id, count) = (part["id"].as_str().unwrap(), part["count"].as_u64().unwrap());
        let besides = part["besides"].as_u64().unwrap();
        assert_eq!(besides, (count * 4).div_ceil(2), "{id}");
        let line = list.lines().find(|line| line.starts_with(&format!("{id},"))).unwrap();
        assert_eq!(line.split(',').nth(4).unwrap(), (count * 4 + besides).to_string());
    }
    let job = fs::read_to_string(out.join("job.html")).unwrap();
    assert!(job.contains("One of them is to spare") && job.contains("these pieces are over"), "{job}");
    let plain: Album = album(&text(3, ""));
    assert_eq!(plain.made(), 3);
}
