// SPDX-License-Identifier: MIT
//! How a cutter file asks for its strokes: where they begin, what it can't have, what is answered to a broken file.
//! What stands in SVG and DXF is walked by other people's readers in `tests/outside/test_manner.py`.

use crate::common::broken_cutters::{BrokenCutter, broken_cutters_are_answered};
use crate::common::{cutter, near, work};
use hingeleaf::contour::{Contour, Point, turned};
use hingeleaf::cutter::{self as machine, Cutter, Manner, Nicks, Passes, Speeds, Start};
use hingeleaf::fields::Source;
use hingeleaf::finding::Finding;
use hingeleaf::guide::{self, Block, What, measure};
use hingeleaf::length::{Length, Units};
use hingeleaf::net::Use;
use hingeleaf::toolpath::{Layer, StrokePath};

/// Two pages with seams, hinge strips with tabs, a tag with a hole of 4 mm.
const ALBUM: &str = r#"{
    "format": "hingeleaf-album/1",
    "page": { "width": 120, "height": 160, "seam": 12 },
    "pages": [{ "kind": "pocket" }, { "kind": "wallet", "pocket": 90, "overflap": 40 }],
    "inserts": [{ "kind": "tag", "width": 70, "height": 100, "hole": 4 }]
}"#;

fn with(manner: Manner) -> Cutter {
    Cutter { manner, ..cutter(0.0, 2.0, 5.0) }
}

fn about<'a>(findings: &'a [Finding], id: &str) -> Vec<&'a Finding> {
    findings.iter().filter(|finding| finding.id == id).collect()
}

/// Every outline begins at a corner of seams and tabs alone, if its part has such a corner; looked for among all corners.
#[test]
fn closed_cuts_begin_where_it_is_glued_over() {
    let work = work(ALBUM, with(Manner { start: Start::Hidden, ..Manner::default() }));
    let (mut hidden, mut open) = (0, 0);
    for (sheet, paths) in work.stocks.iter().flat_map(|stock| &stock.sheets).zip(&work.paths) {
        for stroke in paths.strokes.iter().filter(|stroke| stroke.layer == Layer::Cut) {
            let StrokePath::Closed(path) = &stroke.run else { panic!("an open cut") };
            let placed =
                sheet.placements.iter().find(|one| (one.part, one.copy) == (stroke.part, stroke.copy)).unwrap();
            let part = &work.kit.parts[stroke.part];
            let on_sheet = |panel: &Contour| {
                panel.mapped(|point| {
                    let point = turned(point, placed.quarters, (part.flat.width, part.flat.height));
                    Point::new(point.x + placed.x, point.y + placed.y)
                })
            };
            let touches = |at: Point, glued: bool| {
                let panels = part.net.panels.iter();
                let mut panels = panels.filter(|panel| matches!(panel.purpose, Use::Seam | Use::Tab) == glued);
                panels.any(|panel| on_sheet(&panel.outline).distance(at) < 1e-6)
            };
            // A seam's end is clipped in places; its box's corners are then no corners of it, and may be passed by.
            let hides = |at: Point| touches(at, true) && !touches(at, false);
            let start = path.vertices()[0].at;
            if path.vertices().iter().any(|vertex| hides(vertex.at)) && hides(start) {
                hidden += 1;
            } else {
                assert!(!path.vertices().iter().any(|vertex| hides(vertex.at)), "{} begins in sight", part.id);
                open += 1;
            }
        }
    }
    assert!(hidden > 3 && open > 0, "{hidden} hidden, {open} in sight");
}

#[test]
fn too_little_room_for_nicks_is_told() {
    let nicks = |count| {
        let nicks =
            Nicks { length: Length::from_mm(20.0), count, small_count: count, small_under: Length::from_mm(40.0) };
        work(ALBUM, with(Manner { nicks: Some(nicks), ..Manner::default() }))
    };
    assert!(!about(&nicks(40).findings, "few-nicks").is_empty());
    assert!(about(&nicks(2).findings, "few-nicks").is_empty());
}

/// The hole is 4 mm wide, and the notches of the album are wider than 8.
#[test]
fn holes_that_are_too_small_are_told() {
    let least = |mm: f64| {
        let work = work(ALBUM, with(Manner { smallest_inner: Length::from_mm(mm), ..Manner::default() }));
        about(&work.findings, "inner-too-small").iter().map(|finding| finding.text.to_string()).collect::<Vec<_>>()
    };
    assert_eq!(least(4.0), Vec::<String>::new());
    let told = least(4.2);
    assert!(told.len() == 1 && told[0].starts_with("a hole is narrower than 4.2 mm"), "{told:?}");
}

/// What is wrong, at the first letter of what, and words of the answer.
const BROKEN: &[BrokenCutter] = &[
    (r#""passes": 0"#, "0", &["passes", "whole number from 1 to 20"]),
    (r#""passes": 1.5"#, "1.5", &["passes", "whole number"]),
    (r#""passes": "twice""#, "\"twice\"", &["passes", "whole number from 1 to 20", "text"]),
    (r#""passes": { "cut": 0 }"#, "0", &["cut", "1", "20"]),
    (r#""passes": { "cuts": 2 }"#, "\"cuts\"", &["did you mean \"cut\""]),
    (r#""gap": 2, "nicks": 2"#, "2", &["nicks", "length", "count"]),
    (r#""gap": 2, "nicks": { "length": 0.5 }"#, "{ \"length\"", &["nicks", "needs", "count"]),
    (r#""gap": 2, "nicks": { "length": 50, "count": 2 }"#, "50", &["length", "20 mm"]),
    (r#""gap": 2, "nicks": { "length": 0.5, "count": 99 }"#, "99", &["count", "40"]),
    (r#""overrun": -1"#, "-1", &["overrun"]),
    (r#""trail": 8"#, "8", &["trail", "5 mm"]),
    (r#""corner_help": "yes""#, "\"yes\"", &["corner_help", "true or false"]),
    (r#""start": "hiden""#, "\"hiden\"", &["start", "did you mean \"hidden\""]),
    (r#""order": "large-first""#, "\"large-first\"", &["order", "small-first"]),
    (r#""direction": "left""#, "\"left\"", &["direction", "part-left"]),
    (r#""curves": "bends""#, "\"bends\"", &["curves", "arcs", "cubics", "lines"]),
    (r#""curve_tolerance": 0"#, "0", &["curve_tolerance", "0.001 mm"]),
    (r#""smallest_inner": 300"#, "300", &["smallest_inner", "100 mm"]),
];

#[test]
fn broken_cutter_files_are_answered_at_their_place() {
    broken_cutters_are_answered("", BROKEN);
}

/// Nicks want a gap, and help at corners a trail; with them they are sound.
#[test]
fn what_goes_together_is_asked_for_together() {
    let stops = |fields: &str| {
        let text = format!("{{ \"format\": \"hingeleaf-cutter/1\", {fields} }}");
        let read = machine::read(&Source::new("cutter.json", text.into()).unwrap());
        assert!(read.findings.is_empty(), "{:?}", read.findings);
        read.value.unwrap().findings().iter().map(|finding| finding.id).collect::<Vec<_>>()
    };
    assert_eq!(stops(r#""nicks": { "length": 0.5, "count": 2 }"#), ["nicks-gap"]);
    assert_eq!(stops(r#""gap": 1, "nicks": { "length": 0.5, "count": 2 }"#), Vec::<&str>::new());
    assert_eq!(stops(r#""corner_help": true"#), ["corner-help-trail"]);
    assert_eq!(stops(r#""corner_help": true, "trail": 0.3"#), Vec::<&str>::new());
}

/// A second pass takes as long as the first: every cut's length at its speed, and its lift, counted stroke by stroke. The job sheet
/// says the same in minutes.
#[test]
fn times_count_every_pass() {
    let speed = Some(Speeds { cut: 20.0, score: 40.0, draw: 60.0 });
    let with = |cut| {
        let passes = Passes { cut, score: 1, draw: 1 };
        work(ALBUM, Cutter { speed, lift: 0.5, ..with(Manner { passes, ..Manner::default() }) })
    };
    let (once, thrice) = (with(1), with(3));
    let mut all = 0.0;
    for (one, three) in once.paths.iter().zip(&thrice.paths) {
        let cuts = one.strokes.iter().filter_map(|stroke| match &stroke.run {
            StrokePath::Closed(contour) if stroke.layer == Layer::Cut => Some(contour.length() / 20.0 + 0.5),
            _ => None,
        });
        let more = three.seconds.unwrap() - one.seconds.unwrap();
        near(more, 2.0 * cuts.sum::<f64>(), 1e-6);
        all += three.seconds.unwrap() * f64::from(three.times);
    }
    let shop = guide::shop(&thrice.guide_job(false));
    let tables = shop.sections.iter().filter(|section| section.id == "machine").flat_map(|section| &section.blocks);
    let tables: Vec<_> =
        tables.filter_map(|block| if let Block::Table(table) = block { Some(table) } else { None }).collect();
    let [settings, times] = tables.as_slice() else { panic!("{} tables", tables.len()) };
    assert!(settings.rows.iter().any(|row| row[1].plain().starts_with("3 × cuts")));
    let said = times.rows.last().unwrap()[3].plain();
    let minutes: f64 = said.split('\u{2009}').next().unwrap().trim_end_matches("min").trim().parse().unwrap();
    assert!(all / 60.0 <= minutes + 1e-6 && minutes < all / 60.0 + 0.1 + 1e-6, "{said} for {all} s");
}

/// The job sheet says what a machine is set to as its file does, to a hundredth of a millimetre: in inch albums, too, where no 64th is that length.
#[test]
fn settings_stand_on_the_job_sheet_as_they_are() {
    let says = |head: &str, cutter: Cutter| {
        let text = ALBUM.replacen("\"format\": \"hingeleaf-album/1\",", head, 1);
        assert_ne!(text, ALBUM);
        let shop = guide::shop(&work(&text, cutter).guide_job(false));
        let machine = shop.sections.iter().find(|section| section.id == "machine").unwrap().clone();
        let rows = machine
            .blocks
            .into_iter()
            .find_map(|block| if let Block::Table(table) = block { Some(table.rows) } else { None });
        rows.unwrap().iter().map(|row| (row[0].plain(), row[1].plain().replace('\u{2009}', " "))).collect::<Vec<_>>()
    };
    let mm = Length::from_mm;
    let set = |kerf: f64, gap: f64| {
        let manner = Manner { overrun: mm(0.55), trail: mm(0.25), ..Manner::default() };
        Cutter { kerf: mm(kerf), gap: mm(gap), margin: mm(5.0), manner, ..Cutter::default() }
    };
    let value = |rows: &[(String, String)], starts: &str| {
        let row = rows.iter().find(|(what, _)| what.starts_with(starts));
        row.unwrap_or_else(|| panic!("no {starts} in {rows:?}")).1.clone()
    };
    let head = "\"format\": \"hingeleaf-album/1\", \"copies\": 2,";
    for (kerf, shown) in [(0.15, "0.15 mm"), (0.13, "0.13 mm"), (0.2, "0.2 mm"), (0.125, "0.13 mm"), (1.0, "1 mm")] {
        let rows = says(head, set(kerf, 1.25));
        assert_eq!(value(&rows, "Width that the tool removes"), shown);
        assert!(rows.iter().any(|(_, is)| is == "1.25 mm") && rows.iter().any(|(_, is)| is == "0.55 mm"), "{rows:?}");
        assert!(rows.iter().any(|(_, is)| is.contains("0.25 mm")), "{rows:?}");
    }
    let german = says(&format!("{head} \"language\": \"de\","), set(0.15, 1.25));
    assert!(german.iter().any(|(_, is)| is == "0,15 mm"), "{german:?}");
    // 3.175 mm is an eighth of an inch, 0.15 mm no 64th (0.397 mm).
    let fine = |units, both, mm| {
        let measure = measure::Measure { units, both, notation: measure::NumberSigns::default() };
        measure.fine(mm, What::Length, "").plain().replace('\u{2009}', " ")
    };
    assert_eq!([0.15, 0.0051, 3.175].map(|mm| fine(Units::In, false, mm)), ["0.15 mm", "0.01 mm", "⅛ in"]);
    assert_eq!([0.15, 3.175].map(|mm| fine(Units::Mm, true, mm)), ["0.15 mm", "3.18 mm (⅛ in)"]);
    assert_eq!([0.15, 3.175].map(|mm| fine(Units::In, true, mm)), ["0.15 mm", "⅛ in (3.18 mm)"]);
    assert_eq!(fine(Units::Cm, false, 0.15), "0.015 cm");
}
