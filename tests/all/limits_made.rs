// SPDX-License-Identifier: MIT
//! Limits of what is made of files: the lower rows of the table in `DEVELOPERS.md`, each tried below it, at it and past it.

use crate::common::web::Table;
use crate::common::{TempDir, album, hingeleaf, said};
use hingeleaf::batch::Choice;
use hingeleaf::cutter::Cutter;
use hingeleaf::fit::linkage::{CrossSection, Leaf};
use hingeleaf::fit::opening::openings;
use hingeleaf::layout::{Effort, Unwatched};
use hingeleaf::outline::{AskedOutline, drawing, read};
use hingeleaf::sheets::{self, Search};
use hingeleaf::{kind_file, parts};
use serde_json::Value;
use std::fmt::Write;

/// 999 x 1001, 1000 x 1000 and 101 x 9901 are a million less one, a million, and one more.
#[test]
fn a_million_pieces_of_a_stock_are_laid() {
    let search = Search { effort: Effort::Low, trimmer: false, threads: 1 };
    for (count, copies, fine) in [(999, 1001, true), (1000, 1000, true), (101, 9901, false)] {
        let album = album(&format!(
            r#"{{ "format": "hingeleaf-album/1", "copies": {copies}, "page": {{ "width": 148, "height": 190 }},
              "stocks": {{ "card": {{ "sheet": "A4" }}, "tags": {{ "sheet": "1000x1000mm" }} }}, "pages": [{{ "kind": "pocket" }}],
              "inserts": [{{ "kind": "tag", "width": 20, "height": 20, "hole": 3, "stock": "tags", "count": {count} }}] }}"#
        ));
        let cutter = Cutter::default();
        let made = parts::kit(&album, &cutter);
        let kit = made.value.unwrap_or_else(|| panic!("{}", said(&made.findings)));
        let (laid, findings) = sheets::lay(album.order(), &kit, &cutter, search, &Unwatched);
        let told: Vec<&str> = findings.iter().map(|finding| finding.id).filter(|id| *id == "too-many-pieces").collect();
        assert_eq!(told.is_empty(), fine, "{count} x {copies}: {}", said(&findings));
        let tags = laid.iter().find(|laid| album.stocks[laid.stock].name == "tags");
        assert_eq!(tags.is_some_and(|tags| tags.count() >= 400), fine, "{count} x {copies}");
        assert!(fine || said(&findings).contains("1000001"), "{}", said(&findings));
    }
}

/// Of two kinds there are a mix more than pages.
#[test]
fn sixty_four_mixes_are_all_worked_out() {
    for (pages, all) in [(62, true), (63, true), (64, false)] {
        let choice = Choice::of(pages);
        assert_eq!(choice.mixes(2), u64::from(pages) + 1);
        let tried = choice.tried(2).len() as u64;
        assert_eq!(tried == choice.mixes(2), all, "{pages} pages: {tried} tried");
        assert!(tried >= 4);
    }
}

/// Pages on a held base, half a millimetre apart; `fit.rs` has what is said past it.
#[test]
fn four_hundred_pages_are_laid_open() {
    for (pages, laid) in [(399_u32, true), (400, true), (401, false)] {
        let leaf = |number: u32| Leaf {
            root: f64::from(number) * 0.5,
            gusset: 0.0,
            width: 100.0,
            thickness: 0.5,
            weight: 1.0,
            stands_back: 0.0,
            cover: false,
        };
        let base = f64::from(pages - 1) * 0.5;
        let section = CrossSection { base, leaves: (0..pages).map(leaf).collect(), free: false, loose: false };
        assert_eq!(openings(section).is_some(), laid, "{pages} pages");
    }
}

/// A square and lines of another layer: all are counted, the square alone is cut.
#[test]
fn fifty_thousand_curves_are_read() {
    for (curves, fine) in [(49_999, true), (50_000, true), (50_001, false)] {
        let mut lines = String::new();
        for number in 0..curves - 4 {
            let _ = write!(lines, "L{} {}", number % 90, 1 + number % 2);
        }
        let svg = format!(
            "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 100 80\" width=\"100mm\" height=\"80mm\">\n\
             <g id=\"cut\"><path d=\"M10 10 H60 V50 H10 Z\"/></g><g id=\"other\"><path d=\"M0 0 {lines}\"/></g></svg>"
        );
        let source = drawing("a.svg", svg.into_bytes()).unwrap();
        let read = read(&source, &AskedOutline::of("a.svg").on_layer("cut"));
        assert_eq!(read.value.is_some(), fine, "{curves}: {}", said(&read.findings));
        assert_eq!(
            read.findings.iter().any(|finding| finding.id == "outline-too-many"),
            !fine,
            "{}",
            said(&read.findings)
        );
        assert!(fine || said(&read.findings).contains("50000"), "{}", said(&read.findings));
    }
}

/// A kept kind under another name.
fn kind(number: usize) -> String {
    let mut kind: Value = serde_json::from_str(include_str!("../../fixtures/kept/kind-1.json")).unwrap();
    assert_eq!(kind["format"], kind_file::FORMAT);
    kind["name"] = format!("kind-{number}").into();
    kind.to_string()
}

/// The album and 499 files beside it; what is more stays where it is.
#[test]
fn five_hundred_files_lie_on_the_table() {
    let temp = TempDir::new("limits-table");
    (0..500).for_each(|number| drop(temp.put(&format!("kind-{number}.json"), kind(number))));
    for (named, laid) in [(498, 498), (499, 499), (500, 499)] {
        let names: Vec<String> = (0..named).map(|number| format!("\"kind-{number}.json\"")).collect();
        let text = format!(
            r#"{{ "format": "hingeleaf-album/1", "kinds": [{}], "page": {{ "width": 148, "height": 190 }}, "pages": [{{ "kind": "pocket" }}] }}"#,
            names.join(",")
        );
        let file = temp.put("album.json", text);
        let table = Table::start_with(&[file.to_str().unwrap()]);
        let opened = table.post("open", b"{}").json();
        assert_eq!(opened["file"]["files"].as_array().map(Vec::len), Some(laid), "{named} named");
    }
}

/// A folder of kinds.
#[test]
fn five_hundred_kinds_lie_in_a_folder() {
    let temp = TempDir::new("limits-kinds");
    std::fs::create_dir(temp.join("kinds")).unwrap();
    let album = r#"{ "format": "hingeleaf-album/1", "kinds": "kinds", "page": { "width": 148, "height": 190 },
        "stocks": { "card": { "sheet": "A4", "caliper": 0.3 } }, "pages": [{ "kind": "pocket" }] }"#;
    let file = temp.put("album.json", album);
    (0..498).for_each(|number| drop(temp.put(&format!("kinds/kind-{number}.json"), kind(number))));
    for (number, code) in [(498, 0), (499, 0), (500, 2)] {
        temp.put(&format!("kinds/kind-{number}.json"), kind(number));
        let run = hingeleaf(["check", file.to_str().unwrap()]);
        assert_eq!(run.code, code, "{} kinds: {run:?}", number + 1);
        assert!(code == 0 || run.err.contains("stop[kinds-folder]"), "{}", run.err);
    }
}
