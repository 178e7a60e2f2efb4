// SPDX-License-Identifier: MIT
//! True-size templates: all of a kit, on every paper, nothing where a printer does not reach.

use crate::common::{album, kit};
use hingeleaf::guide::list;
use hingeleaf::length::Length;
use hingeleaf::paper::Paper;
use hingeleaf::paper::sheet_size;
use hingeleaf::parts;
use hingeleaf::picture::{Mark, Picture, words_box};
use hingeleaf::templates::{PrinterPaper, templates};
use proptest::prelude::*;
use std::collections::BTreeSet;

/// An album with a case cover, so that boards and a covering larger than any paper are among its parts.
fn text(width: f64, height: f64, pages: usize, spine: &str, cover: &str) -> String {
    format!(
        r#"{{ "format": "hingeleaf-album/1",
          "stocks": {{ "card": {{ "sheet": "2000x2000mm", "caliper": 0.3 }}, "board": {{ "sheet": "2000x2000mm", "caliper": 2 }} }},
          "page": {{ "width": {width}, "height": {height}, "stock": "card" }},
          "pages": [{}], "spine": {{ "kind": "{spine}" }}{cover} }}"#,
        vec![r#"{ "kind": "pocket" }"#; pages].join(", ")
    )
}

const CASE: &str = r#", "cover": { "kind": "case", "board": "board", "covering": "card" }"#;

/// The box of all that is drawn; words as wide as they stand.
fn reach(picture: &Picture) -> [f64; 4] {
    let mut box_ = [f64::INFINITY, f64::INFINITY, f64::NEG_INFINITY, f64::NEG_INFINITY];
    let mut keep = |x0: f64, y0: f64, x1: f64, y1: f64| {
        box_ = [box_[0].min(x0), box_[1].min(y0), box_[2].max(x1), box_[3].max(y1)];
    };
    for mark in &picture.marks {
        match mark {
            Mark::Shape { contours, .. } => contours.iter().for_each(|contour| {
                let bounds = contour.bounds();
                keep(bounds.x0, bounds.y0, bounds.x1, bounds.y1);
            }),
            Mark::Line { points, .. } => points.iter().for_each(|point| keep(point.x, point.y, point.x, point.y)),
            Mark::Words { at, size, text, upwards } => {
                let room = words_box(*at, *size, text, *upwards);
                keep(room.x0, room.y0, room.x1, room.y1);
            }
        }
    }
    box_
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever the album and the paper, every letter of the list is on a page, and nothing is drawn in the margin.
    #[test]
    fn all_parts_are_on_pages_and_within_them(
        (width, height) in (60.0..420.0f64, 60.0..420.0f64),
        pages in 1..6_usize,
        spine in prop::sample::select(vec!["flexi-hinge", "concertina", "stubs", "plain-hinge"]),
        cover in prop::sample::select(vec!["", CASE]),
        paper in prop::sample::select(Paper::ALL.to_vec()),
        margin in 0.0..PrinterPaper::MOST_MARGIN,
    ) {
        let text = text(width, height, pages, spine, cover);
        let (album, kit) = (album(&text), kit(&text));
        let print = PrinterPaper { paper, margin: Length::from_mm(margin) };
        let found = templates(&album, &kit, print);
        let letters: BTreeSet<&str> = found.iter().flat_map(|page| page.name.split(", ")).collect();
        let rows = list::list(album.order(), &kit, 1);
        prop_assert_eq!(letters, rows.iter().map(|row| row.mark.as_str()).collect::<BTreeSet<_>>());
        for page in &found {
            prop_assert_eq!((page.picture.width, page.picture.height), paper.size());
            let [x0, y0, x1, y1] = reach(&page.picture);
            let (wide, high) = (paper.size().0 - margin + 1e-3, paper.size().1 - margin + 1e-3);
            prop_assert!(x0 > margin - 1e-3 && y0 > margin - 1e-3 && x1 < wide && y1 < high, "{:?}", [x0, y0, x1, y1]);
        }
    }
}

/// What fits one page takes one; a page that no paper takes whole comes in tiles, each with the letter and its number.
#[test]
fn as_few_pages_as_it_takes() {
    let of = |width: f64, height: f64, paper: Paper| {
        let text = text(width, height, 1, "plain-hinge", "");
        let print = PrinterPaper { paper, margin: Length::from_mm(5.0) };
        templates(&album(&text), &kit(&text), print)
    };
    assert_eq!(of(60.0, 60.0, Paper::A4).len(), 1);
    // 200 x 287 less a foot: 300 x 400 and its seam take two by two.
    let words = |page: &Picture| -> Vec<String> {
        let text = |mark: &Mark| if let Mark::Words { text, .. } = mark { Some(text.clone()) } else { None };
        page.marks.iter().filter_map(text).collect()
    };
    let large = of(300.0, 400.0, Paper::A4);
    let said: Vec<String> = large.iter().flat_map(|page| words(&page.picture)).collect();
    for number in 1..=4 {
        assert!(said.contains(&format!("A {number}")), "{said:?}");
    }
    assert!(said.contains(&"A: 4 tiles".to_owned()), "{said:?}");
    assert!(of(300.0, 400.0, Paper::A3).len() < large.len());
    assert_eq!(album(&text(100.0, 100.0, 1, "stubs", "")).paper(), Paper::A4);
}

/// A line of 100 mm and one of 4 in on every page.
#[test]
fn every_page_says_how_to_check_it() {
    let text = text(100.0, 120.0, 3, "flexi-hinge", CASE);
    let (album, kit) = (album(&text), kit(&text));
    for page in templates(&album, &kit, PrinterPaper::of(&album)) {
        for length in [100.0, 101.6] {
            let is = |mark: &Mark| {
                matches!(mark, Mark::Line { points, .. } if points.len() == 2
                && (points[0].y - points[1].y).abs() < 1e-9 && (points[0].distance(points[1]) - length).abs() < 1e-9)
            };
            assert_eq!(page.picture.marks.iter().filter(|mark| is(mark)).count(), 1, "{length}");
        }
        assert!(page.shows.contains("true size") && page.shows.contains(&page.name[..1]));
    }
}

/// The sizes are those that stocks of these names have (ISO 216, ASME Y14.1).
#[test]
fn papers_are_as_large_as_sheets_of_their_name() {
    for paper in Paper::ALL {
        let (name, width, height) = sheet_size(paper.word()).expect("a named sheet");
        assert_eq!((name.as_str(), (width.mm(), height.mm())), (paper.word(), paper.size()));
    }
}

/// A margin that leaves no page is taken for the widest that does.
#[test]
fn no_margin_is_too_wide() {
    let text = text(300.0, 400.0, 1, "plain-hinge", "");
    let of = |mm: f64| {
        let print = PrinterPaper { paper: Paper::A4, margin: Length::from_mm(mm) };
        templates(&album(&text), &kit(&text), print).len()
    };
    assert_eq!(of(500.0), of(PrinterPaper::MOST_MARGIN));
    assert_eq!(of(-5.0), of(0.0));
}

/// What is drawn of panels lies on what is drawn of outlines: every part's net has its lower left at the origin, too.
#[test]
fn nets_lie_where_their_parts_do() {
    let mut seen = 0;
    for text in parts::ALL.iter().map(|maker| parts::example(maker)).chain([text(150.0, 190.0, 5, "stubs", CASE)]) {
        for part in &kit(&text).parts {
            let corner = part.net.panels.iter().map(|panel| panel.outline.bounds()).reduce(|all, one| all.union(one));
            let corner = corner.expect("a panel");
            assert!(corner.x0.abs() < 1e-9 && corner.y0.abs() < 1e-9, "{}: {corner:?}", part.id);
            seen += 1;
        }
    }
    assert!(seen > 80, "only {seen} parts were seen");
}

/// A strip of some millimetres that is left for a tile of its own has smaller rings, and a smaller number on the plan: they keep
/// off the margin.
#[test]
fn narrow_tiles_keep_off_the_margin() {
    for (width, height, pages, spine, cover, margin) in [
        (168.508_317, 379.287_974, 1, "plain-hinge", "", 8.116_151),
        (406.778_095, 376.772_989, 1, "plain-hinge", "", 0.215_038),
        (353.102_284, 344.489_889, 3, "flexi-hinge", CASE, 11.458_993),
    ] {
        let text = text(width, height, pages, spine, cover);
        let print = PrinterPaper { paper: Paper::Letter, margin: Length::from_mm(margin) };
        let found = templates(&album(&text), &kit(&text), print);
        let far = Paper::Letter.size().0 - margin;
        assert!(found.len() > 1);
        for page in found {
            let [x0, _, x1, _] = reach(&page.picture);
            assert!(x0 > margin - 1e-3 && x1 < far + 1e-3, "{} {x0} {x1}", page.name);
        }
    }
}
