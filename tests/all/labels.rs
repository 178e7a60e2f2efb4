// SPDX-License-Identifier: MIT
//! Labels: as many as there are bags and stacks, each in its place on the maker's sheets, what is stated wrong is answered.

use crate::common::{album, cutter, work};
use hingeleaf::album;
use hingeleaf::contour::Point;
use hingeleaf::fields::Source;
use hingeleaf::guide;
use hingeleaf::labels::{check, labels};
use hingeleaf::parts;
use hingeleaf::picture::{Mark, PrintedPage, measure};
use proptest::prelude::*;

fn text(more: &str) -> String {
    format!(
        r#"{{ "format": "hingeleaf-album/1", "title": "A long winter in the hills, with all its walks", "maker": "Ash and Oak", {more}
        "stocks": {{ "card": {{ "sheet": "A4", "caliper": 0.35 }} }},
        "page": {{ "width": 148, "height": 190 }}, "pages": [{{ "kind": "pocket" }}, {{ "kind": "pocket" }}] }}"#
    )
}

fn made(text: &str) -> (Vec<guide::Label>, Vec<PrintedPage>) {
    let work = work(text, cutter(0.0, 0.0, 0.0));
    let all = guide::labels(&work.guide_job(false));
    let sheets = labels(&work.album, &all);
    (all, sheets)
}

/// The box of words: their width by the font's own advances, an em and a third high.
fn boxes(sheet: &PrintedPage) -> Vec<[f64; 4]> {
    let words = |mark: &Mark| match mark {
        Mark::Words { at, size, text, .. } => {
            let (half, high) = (measure(text, *size) / 2.0, size * 0.65);
            Some([at.x - half, at.y - high, at.x + half, at.y + high])
        }
        _ => None,
    };
    sheet.picture.marks.iter().filter_map(words).collect()
}

/// Seven kits of two parts, cut: 7 + 2 labels, eight on a sheet of plain paper with lines to cut along.
#[test]
fn a_label_for_each_bag_and_each_part() {
    let (all, sheets) = made(&text(r#""copies": 7, "handed_over": "cut","#));
    let parts = all.iter().filter(|label| label.mark.is_some()).count();
    assert_eq!((all[0].times, all.len() - 1), (7, parts));
    assert_eq!(sheets.len(), (7 + parts).div_ceil(8));
    assert!(parts > 1 && all[0].head.plain().starts_with("A long winter"));
    let lines =
        |sheet: &PrintedPage| sheet.picture.marks.iter().filter(|mark| matches!(mark, Mark::Line { .. })).count();
    assert!(lines(&sheets[0]) >= 3 + 5);
    // What is handed over in whole sheets has no stacks to label.
    let (all, _) = made(&text(r#""copies": 7, "handed_over": "sheets","#));
    assert!(all.iter().all(|label| label.mark.is_none()));
    let words: Vec<String> = all[0].lines.iter().map(guide::Line::plain).collect();
    assert!(words.iter().any(|line| line.contains("whole sheet")), "{words:?}");
    assert!(words.iter().any(|line| line.contains("still need") && line.contains("tape")), "{words:?}");
}

/// A sheet of 3 x 8 labels of 63.5 x 33.9 mm, 7.2 and 12.9 from its edges, 2.5 apart across: the words of each stand in its own
/// place, found by adding up by hand; no line is drawn on such a sheet but the frames of letters.
#[test]
fn words_stand_in_their_own_label() {
    let grid = r#""labels": { "paper": "A4", "across": 3, "down": 8, "width": 63.5, "height": 33.9, "left": 7.2, "top": 12.9, "gap_x": 2.5, "gap_y": 0 },"#;
    let (all, sheets) = made(&text(&format!(r#"{grid} "copies": 30, "handed_over": "cut","#)));
    assert_eq!(sheets.len(), (30 + all.len() - 1).div_ceil(24));
    let bags = sheets[0].picture.marks.iter().filter(|mark| matches!(mark, Mark::Line { .. })).count();
    assert_eq!(bags, 0);
    let mut seen = std::collections::BTreeSet::new();
    for [x0, y0, x1, y1] in boxes(&sheets[0]) {
        let column = ((x0 - 7.2) / 66.0).floor();
        let row = ((297.0 - 12.9 - y1) / 33.9).floor();
        let (left, top) = (7.2 + 66.0 * column, 297.0 - 12.9 - 33.9 * row);
        assert!(x0 >= left && x1 <= left + 63.5 && y1 <= top && y0 >= top - 33.9, "{x0} {y0} {x1} {y1}");
        #[allow(clippy::cast_possible_truncation, reason = "a column and a row")]
        seen.insert((column as i32, row as i32));
    }
    assert_eq!(seen.len(), 24);
}

/// What does not go on the paper is refused with what it takes; a sheet that just fits is not.
#[test]
fn sheets_of_labels_are_checked() {
    let read = |labels: &str| {
        let text = text(&format!(r#""labels": {labels},"#));
        let read = album::read(&Source::new("a.json", text.into_bytes()).unwrap(), &parts::kinds());
        read.findings.iter().map(|one| format!("{} {}", one.id, one.text)).collect::<Vec<_>>().join("\n")
    };
    assert_eq!(read(r#"{ "paper": "A4", "across": 3, "down": 1, "width": 70, "height": 30 }"#), "");
    let said = read(r#"{ "paper": "A4", "across": 3, "down": 1, "width": 70.1, "height": 30 }"#);
    assert!(said.starts_with("labels-too-large") && said.contains("210.3 mm") && said.contains("210 mm"), "{said}");
    let said = read(r#"{ "paper": "letter", "across": 1, "down": 9, "width": 70, "height": 31, "top": 1 }"#);
    assert!(said.starts_with("labels-too-large") && said.contains("280 mm") && said.contains("279.4 mm"), "{said}");
    assert!(read(r#"{ "across": 3, "down": 1, "height": 30 }"#).starts_with("missing"));
    assert!(read(r#"{ "width": 63, "hight": 30 }"#).contains("hight"));
}

/// A label of 30 x 12 mm has no room for a bag's words, and that is said; the same words on 63.5 x 33.9 mm are all there, and
/// nothing is said.
#[test]
fn what_does_not_go_on_a_label_is_told() {
    let said = |width: f64, height: f64| {
        let grid =
            format!(r#""labels": {{ "across": 2, "down": 4, "width": {width}, "height": {height} }}, "copies": 2,"#);
        let work = work(&text(&grid), cutter(0.0, 0.0, 0.0));
        let found = work.findings.iter().find(|finding| finding.id == "labels-small").map(|one| one.text.to_string());
        assert_eq!(found.is_some(), check(&work.album, &work.labels()).is_some());
        found
    };
    assert!(said(30.0, 12.0).unwrap().contains("30 mm x 12 mm"), "{:?}", said(30.0, 12.0));
    assert_eq!(said(63.5, 33.9), None);
    // Plain paper holds a title of forty letters; nobody who makes one kit for themselves has labels.
    let plain = work(&text(r#""copies": 2,"#), cutter(0.0, 0.0, 0.0));
    assert!(check(&plain.album, &plain.labels()).is_none());
    assert!(work(&text(""), cutter(0.0, 0.0, 0.0)).labels().is_empty());
}

proptest! {
    /// On any sheet of labels no words leave their label, and none lie over others.
    #[test]
    fn words_stay_in(
        (across, down) in (1..5_u32, 1..12_u32), (width, height) in (30.0..90.0f64, 12.0..70.0f64), gap in 0.0..5.0f64,
    ) {
        let grid = format!(r#""labels": {{ "across": {across}, "down": {down}, "width": {width}, "height": {height}, "gap_x": {gap} }},"#);
        let text = text(&format!(r#"{grid} "copies": 2, "handed_over": "cut","#));
        let read = album::read(&Source::new("a.json", text.clone().into_bytes()).unwrap(), &parts::kinds());
        prop_assume!(read.value.is_some() && read.findings.is_empty());
        let album = album(&text);
        let (all, sheets) = {
            let work = hingeleaf::work::Work::fit(album.clone(), cutter(0.0, 0.0, 0.0));
            let all = guide::labels(&work.guide_job(false));
            let sheets = labels(&album, &all);
            (all, sheets)
        };
        prop_assert!(!all.is_empty());
        for sheet in &sheets {
            let found = boxes(sheet);
            for [x0, y0, x1, y1] in &found {
                let inside = |point: Point| {
                    let (step_x, step_y) = (width + gap, height);
                    let (from_left, from_top) = (point.x % step_x, (sheet.picture.height - point.y) % step_y);
                    from_left <= width + 1e-6 && from_top >= 0.0
                };
                // A word too long for its label in the smallest letters is the only thing that may stand over its right.
                let long = x1 - x0 > width - 6.0;
                prop_assert!(long || (inside(Point::new(*x0, *y0)) && inside(Point::new(*x1, *y1))));
                prop_assert!(*y0 > -1e-6 && *y1 < sheet.picture.height + 1e-6);
            }
        }
    }
}
