// SPDX-License-Identifier: MIT
//! Inserts that come free: as many as fill the sheets, never one sheet more.

use crate::common::{TempDir, album, fixtures, hingeleaf};
use hingeleaf::cutter::Cutter;
use hingeleaf::layout::{Effort, Unwatched};
use hingeleaf::sheets::{Search, StockSheets};
use hingeleaf::toolpath::Labels;
use hingeleaf::work::Work;
use serde_json::Value;
use std::fs;

/// A page for tags of 105 x 148.5 mm, four of which come from an A4 sheet (210 x 297 mm, ISO 216) and no more.
fn with_inserts(copies: u32, pages: usize, inserts: &str) -> String {
    format!(
        r#"{{
            "format": "hingeleaf-album/1",
            "copies": {copies},
            "stocks": {{ "card": {{ "sheet": "A3", "caliper": 0.3 }}, "notes": {{ "sheet": "A4", "caliper": 0.3 }} }},
            "page": {{ "width": 130, "height": 160, "stock": "card" }},
            "pages": [{}],
            "inserts": [{inserts}]
        }}"#,
        vec![r#"{ "kind": "pocket" }"#; pages].join(",")
    )
}

/// A tag with this count; a quarter of an A4 sheet.
fn tag(count: &str) -> String {
    format!(
        r#"{{ "kind": "tag", "width": 105, "height": 148.5, "hole": 0, "corner": 0, "stock": "notes", "count": {count} }}"#
    )
}

fn laid(text: &str, effort: Effort, trimmer: bool) -> Work {
    let work =
        Work::new(album(text), Cutter::default(), Labels::None, Search { effort, trimmer, threads: 1 }, &Unwatched);
    assert!(!work.stopped(), "{:?}", work.findings);
    work
}

/// How many pieces there are of everything on the stock of notes, for one kit.
fn notes(work: &Work) -> u32 {
    work.kit.parts.iter().filter(|part| part.stock == 1).map(|part| part.count).sum()
}

fn sheets(work: &Work, stock: usize) -> u64 {
    work.stocks.iter().find(|laid| laid.stock == stock).map_or(0, StockSheets::count)
}

/// One tag a kit is asked for: n kits need n / 4 sheets, rounded up, which hold four times as many tags. What is over is
/// shared out evenly: with five kits two sheets have three places over, none for each.
#[test]
fn each_kit_gets_as_many_as_the_sheets_hold() {
    for copies in 1..=9 {
        for (effort, trimmer) in [(Effort::Low, false), (Effort::Normal, false), (Effort::Low, true)] {
            let text = with_inserts(copies, 2, &[tag("1"), tag("\"spare\"")].join(","));
            let work = laid(&text, effort, trimmer);
            let need = copies.div_ceil(4);
            assert_eq!(sheets(&work, 1), u64::from(need), "{copies} kits");
            assert_eq!(notes(&work), 4 * need / copies, "{copies} kits");
        }
    }
}

/// The first in the file takes what there is, and the next is told that nothing is left.
#[test]
fn spare_inserts_are_filled_in_the_files_order() {
    let small =
        r#"{ "kind": "tag", "width": 100, "height": 140, "hole": 0, "corner": 0, "stock": "notes", "count": "spare" }"#;
    let work = laid(&with_inserts(1, 2, &[tag("1"), tag("\"spare\""), small.into()].join(",")), Effort::Low, false);
    assert!(work.kit.parts.iter().all(|part| (part.flat.width - 100.0).abs() > 1e-6));
    let said: Vec<_> = work.findings.iter().filter(|finding| finding.id == "spare").collect();
    assert_eq!(said.len(), 2);
    assert!(
        said[0].about.to_string() == "tag 2" && said[0].text.to_string().starts_with("3 a kit come free"),
        "{said:?}"
    );
    assert!(
        said[1].about.to_string() == "tag 3" && said[1].text.to_string().starts_with("none comes free"),
        "{said:?}"
    );
}

/// A stock that nothing else is cut from has no waste to fill.
#[test]
fn a_stock_of_its_own_gives_none() {
    let work = laid(&with_inserts(1, 2, &tag("\"spare\"")), Effort::Low, false);
    assert_eq!((notes(&work), sheets(&work, 1)), (0, 0));
    assert!(work.findings.iter().any(|finding| finding.text.to_string().starts_with("none comes free")));
}

/// They go round the pockets as others do, and as many as the pockets take: 160 mm inside, less a caliper of 0.3 mm and
/// what lies in it, must leave 148.5 mm. The fixed tag is 0.3 mm thick, the others 5 mm: two of them leave 149.4 mm, three
/// 144.4 mm. Into two pockets all three go.
#[test]
fn they_go_into_the_pockets_as_others_do() {
    let thick = tag("\"spare\"").replace("\"hole\"", "\"thickness\": 5, \"hole\"");
    for (pages, pockets) in [(1, [0, 0].as_slice()), (2, &[0, 1, 0])] {
        let work = laid(&with_inserts(1, pages, &[tag("1"), thick.clone()].join(",")), Effort::Low, false);
        let found: Vec<_> = work.kit.inserts[1..].iter().map(|insert| insert.pocket.unwrap()).collect();
        assert_eq!(found, pockets, "{pages} pages");
    }
}

/// Parts of other stocks stay where they were, under their new numbers.
#[test]
fn a_spare_insert_before_others_moves_no_part() {
    let last = r#"{ "kind": "tag", "width": 60, "height": 90, "count": 2 }"#;
    let with = laid(&with_inserts(1, 2, &[tag("\"spare\""), tag("1"), last.into()].join(",")), Effort::Low, false);
    let without = laid(&with_inserts(1, 2, &[tag("1"), last.into()].join(",")), Effort::Low, false);
    let card = |work: &Work| -> Vec<_> {
        let sheets = work.stocks.iter().filter(|laid| laid.stock == 0).flat_map(|laid| &laid.sheets);
        let placed = sheets.flat_map(|sheet| &sheet.placements);
        placed
            .map(|placed| {
                (
                    work.kit.parts[placed.part].kind,
                    format!("{:?}", (work.kit.parts[placed.part].flat.width, placed.x, placed.y)),
                )
            })
            .collect()
    };
    assert_eq!(card(&with), card(&without));
}

/// List and report count the whole batch alike, and no sheet more is cut than without the spare inserts.
#[test]
fn lists_and_report_agree_on_what_came_free() {
    let file = fixtures().into_iter().find(|path| path.ends_with("orchard-notes.json")).unwrap();
    let temp = TempDir::new("spare");
    let kit = |name: &str, text: &str| -> (Value, String) {
        let (file, out) = (temp.put(&format!("{name}.json"), text), temp.join(name));
        let options = ["--formats", "csv", "--effort", "low", "--kerf", "0.1", "--gap", "1", "--margin", "3"];
        let run =
            hingeleaf([["kit", file.to_str().unwrap(), "--out", out.to_str().unwrap()].as_slice(), &options].concat());
        assert_eq!(run.code, 0, "{run:?}");
        let report = serde_json::from_slice(&fs::read(out.join("report.json")).unwrap()).unwrap();
        (report, fs::read_to_string(out.join("cutting-list.csv")).unwrap())
    };
    let text = fs::read_to_string(file).unwrap();
    let mut without: Value = serde_json::from_str(&text).unwrap();
    without["inserts"].as_array_mut().unwrap().retain(|insert| insert["count"] != "spare");
    let (report, list) = kit("with", &text);
    let (bare, _) = kit("without", &without.to_string());
    let mut more = 0;
    for (with, without) in report["layouts"].as_array().unwrap().iter().zip(bare["layouts"].as_array().unwrap()) {
        assert_eq!((&with["sheets"], &with["lower_bound"]), (&without["sheets"], &without["lower_bound"]));
        assert!(with["used_percent"].as_f64() >= without["used_percent"].as_f64());
        more += u32::from(with["used_percent"].as_f64() > without["used_percent"].as_f64());
    }
    // A sheet that is laid with less waste may leave no room.
    assert!(more > 0, "nothing came free at all");
    let copies = report["copies"].as_u64().unwrap();
    for part in report["parts"].as_array().unwrap() {
        let (id, count) = (part["id"].as_str().unwrap(), part["count"].as_u64().unwrap() * copies);
        let row = list.lines().find(|line| line.starts_with(&format!("{id},"))).unwrap();
        assert_eq!(row.split(',').nth(4), Some(count.to_string().as_str()), "{row}");
        let placed: u64 = report["sheets"]
            .as_array()
            .unwrap()
            .iter()
            .map(|sheet| {
                let on_it = sheet["placements"].as_array().unwrap().iter().filter(|placed| placed["part"] == id);
                on_it.count() as u64 * sheet["times"].as_u64().unwrap()
            })
            .sum();
        assert_eq!(placed, count, "{id}");
    }
    assert!(report["parts"].as_array().unwrap().iter().any(|part| part["id"] == "tag-1"), "{}", report["parts"]);
}
