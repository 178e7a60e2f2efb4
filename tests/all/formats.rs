// SPDX-License-Identifier: MIT
//! SVG and DXF files as other programs read them: true size, layers, handedness, the same shapes in both.

use crate::common;

use crate::common::strokes::{Stroke, read_dxf, read_svg};
use crate::common::{INCH, cutter, near, work};
use hingeleaf::contour::{Contour, Corner, Point};
use hingeleaf::cutter::{Colours, Cutter, DXF_VERSIONS, ScoreMode};
use hingeleaf::layout::Effort;
use hingeleaf::length::Length;
use hingeleaf::net::Net;
use hingeleaf::sheets::Placed;
use hingeleaf::toolpath::{self, Labels, StrokePath};
use hingeleaf::work::{Files, Work};
use hingeleaf::write::Memory;
use std::collections::{BTreeMap, BTreeSet};

const MM_ALBUM: &str = r#"{ "format": "hingeleaf-album/1", "title": "Harbour", "page": { "width": 140, "height": 180 },
  "pages": [{ "kind": "pocket" }, { "kind": "wallet", "pocket": 100, "overflap": 50 }, { "kind": "pocket" }],
  "inserts": [{ "kind": "tag", "width": 80, "height": 150, "count": 2 }] }"#;

fn signed_area(corners: &[[f64; 3]]) -> f64 {
    corners
        .iter()
        .zip(corners.iter().cycle().skip(1))
        .map(|(&[x0, y0, bulge], &[x1, y1, _])| {
            // The segment between an arc and its chord: r² (a - sin a) / 2.
            let (angle, chord) = (4.0 * bulge.atan(), (x1 - x0).hypot(y1 - y0));
            let segment = if bulge == 0.0 {
                0.0
            } else {
                (chord / (angle / 2.0).sin() / 2.0).powi(2) * (angle - angle.sin()) / 2.0
            };
            (x0 * y1 - x1 * y0) / 2.0 + segment
        })
        .sum()
}

/// The files of an album in these formats.
fn written(work: &Work, formats: &[&str]) -> BTreeMap<String, String> {
    let mut memory = Memory::default();
    work.write(&Files::of(formats), &mut memory).unwrap();
    memory.files.into_iter().map(|(name, bytes)| (name, String::from_utf8(bytes).unwrap())).collect()
}

fn sheets(work: &Work, format: &str) -> Vec<String> {
    let files = written(work, &[format]);
    let found: Vec<String> =
        files.into_iter().filter(|(name, _)| name.ends_with(&format!(".{format}"))).map(|(_, text)| text).collect();
    assert!(!found.is_empty());
    found
}

/// The group codes and values of a DXF file.
fn pairs(text: &str) -> Vec<(u16, &str)> {
    let lines: Vec<&str> = text.split_terminator("\r\n").collect();
    assert_eq!(lines.len() % 2, 0, "codes and values come in pairs");
    lines.chunks(2).map(|pair| (pair[0].trim().parse().unwrap(), pair[1])).collect()
}

/// The value that follows a header variable's name.
fn variable<'a>(pairs: &[(u16, &'a str)], name: &str) -> Option<(u16, &'a str)> {
    pairs.iter().position(|pair| *pair == (9, name)).map(|at| pairs[at + 1])
}

fn version(name: &'static str) -> Cutter {
    Cutter { dxf_version: name, ..Cutter::default() }
}

/// 1 in = 96 px = 72 pt, so 1 mm = 3.779528 px and 12 in = 1152 px (CSS Values and Units; SVG 2). A root in mm with a
/// viewBox of the same numbers makes one user unit 1 mm (SVG 1.1, chapter 7; SVG 2, chapter 8).
#[test]
fn an_svg_has_its_true_size() {
    for (sheet, width, height, pixels) in
        [("12x12in", "304.8", "304.8", (1152.0, 1152.0)), ("A4", "210", "297", (210.0 * 3.779_528, 297.0 * 3.779_528))]
    {
        let text =
            MM_ALBUM.replace(r#""page""#, &format!(r#""stocks": {{ "card": {{ "sheet": "{sheet}" }} }}, "page""#));
        for file in sheets(&work(&text, Cutter::default()), "svg") {
            let svg = read_svg(&file, 1.0);
            assert_eq!(svg.root["width"], format!("{width}mm"));
            assert_eq!(svg.root["height"], format!("{height}mm"));
            assert_eq!(svg.root["viewBox"], format!("0 0 {width} {height}"));
            let tree = usvg::Tree::from_str(&file, &usvg::Options::default()).unwrap();
            near(f64::from(tree.size().width()), pixels.0, 1e-3);
            near(f64::from(tree.size().height()), pixels.1, 1e-3);
            // What is drawn is as large as well: its box in px is its box in mm, times 96 / 25.4.
            let xs: Vec<f64> = svg.strokes.iter().flat_map(|stroke| &stroke.corners).map(|corner| corner[0]).collect();
            let extent = xs.iter().copied().fold(0.0, f64::max) - xs.iter().copied().fold(f64::INFINITY, f64::min);
            near(f64::from(tree.root().abs_bounding_box().width()), extent * 96.0 / INCH, 1e-2);
        }
    }
}

/// Every sheet of every fixture is read at its true size by another library (96 px to the inch, as above).
#[test]
fn every_fixture_has_its_true_size() {
    for file in common::fixtures() {
        let work = work(&std::fs::read_to_string(&file).unwrap(), cutter(0.1, 1.0, 3.0));
        // By name: files stand in the order of their names, sheets in that of the stocks.
        let read = written(&work, &["svg"]);
        assert!(!work.paths.is_empty(), "{}", file.display());
        for sheet in &work.paths {
            let (width, height) = (sheet.width, sheet.height);
            let svg = &read[&format!("sheets/{}.svg", sheet.name)];
            let tree = usvg::Tree::from_str(svg, &usvg::Options::default()).unwrap();
            near(f64::from(tree.size().width()), width * 96.0 / INCH, 1e-3);
            near(f64::from(tree.size().height()), height * 96.0 / INCH, 1e-3);
        }
    }
}

/// A file in bare pixels is read at 96 to the inch today. Made for readers that take 90 (SVG 1.1, section 7.10: 1 in =
/// 90 px, 1 mm = 3.543307 px) or 72, it comes out at 0.9375 or 0.75 of its size elsewhere.
#[test]
fn an_svg_can_be_written_in_other_units() {
    let millimetres = sheets(&work(MM_ALBUM, Cutter::default()), "svg");
    for (units, suffix, per_mm, ratio) in [
        ("mm", "mm", 1.0, 1.0),
        ("in", "in", 1.0 / 25.4, 1.0),
        ("px96", "", 3.779_527_559, 1.0),
        ("px90", "", 3.543_307_087, 0.9375),
        ("px72", "", 2.834_645_669, 0.75),
    ] {
        let files = sheets(&work(MM_ALBUM, Cutter { svg_units: units, ..Cutter::default() }), "svg");
        assert_eq!(files.len(), millimetres.len());
        for (file, plain) in files.iter().zip(&millimetres) {
            let (svg, plain) = (read_svg(file, 1.0 / per_mm), read_svg(plain, 1.0));
            let side = svg.root["width"].strip_suffix(suffix).unwrap();
            assert!(side.bytes().all(|byte| byte.is_ascii_digit() || byte == b'.'), "{side}");
            let step = if units == "in" { 1e-6 } else { 1e-4 };
            near(side.parse().unwrap(), 210.0 * per_mm, step);
            assert_eq!(svg.root["viewBox"], format!("0 0 {side} {}", svg.root["height"].strip_suffix(suffix).unwrap()));
            let tree = usvg::Tree::from_str(file, &usvg::Options::default()).unwrap();
            near(f64::from(tree.size().width()) / (210.0 * 96.0 / INCH), ratio, 1e-5);
            // Whatever the unit, a number says where to the tenth of a micrometre.
            same_strokes(&svg.strokes, &plain.strokes, 2e-4);
        }
    }
}

#[track_caller]
fn same_strokes(one: &[Stroke], two: &[Stroke], tolerance: f64) {
    assert_eq!(one.len(), two.len());
    for (one, two) in one.iter().zip(two) {
        assert_eq!((&one.layer, one.closed, one.corners.len()), (&two.layer, two.closed, two.corners.len()));
        for (a, b) in one.corners.iter().zip(&two.corners) {
            near(a[0], b[0], tolerance);
            near(a[1], b[1], tolerance);
            near(a[2], b[2], 3e-3);
            assert_eq!(a[2] > 1e-6, b[2] > 1e-6, "arcs turn the same way");
            assert_eq!(a[2] < -1e-6, b[2] < -1e-6, "arcs turn the same way");
        }
    }
}

#[test]
fn an_svg_is_three_groups_of_plain_paths() {
    let cutter = Cutter { kerf: Length::from_mm(0.13), ..Cutter::default() };
    for file in sheets(&work(MM_ALBUM, cutter), "svg") {
        let svg = read_svg(&file, 1.0);
        assert_eq!(svg.groups, ["draw", "score", "cut"]);
        for (layer, path) in &svg.paths {
            let data = &path["d"];
            assert!(data.chars().all(|c| "MLAZ0123456789.- ".contains(c)), "{data}");
            assert_eq!(data.ends_with('Z'), layer == "cut", "{data}");
            for number in data.split([' ', 'M', 'L', 'A', 'Z']).filter(|word| !word.is_empty()) {
                let decimals = number.split_once('.').map_or("", |(_, decimals)| decimals);
                assert!(decimals.len() <= 4 && !decimals.ends_with('0') && number != "-0", "{number} in {data}");
            }
            let names: BTreeSet<&str> = path.keys().map(String::as_str).collect();
            let mut expected = BTreeSet::from(["d", "data-copy", "data-part", "fill", "stroke", "stroke-width"]);
            if layer == "score" {
                expected.insert("data-fold");
                assert!(["valley", "mountain", "both"].contains(&path["data-fold"].as_str()));
            }
            assert_eq!(names, expected);
            assert_eq!(path["fill"], "none");
            // The colour-blind-safe palette of Okabe and Ito, Color Universal Design, 2002.
            let colour =
                BTreeMap::from([("cut", "#000000"), ("score", "#E69F00"), ("draw", "#CC79A7")])[layer.as_str()];
            assert_eq!(path["stroke"], colour);
        }
        assert!(svg.paths.iter().any(|(layer, _)| layer == "cut"));
    }
}

/// XML 1.0, section 2.2 (which characters there are) and 4.6 (the five entities).
#[test]
fn any_title_survives() {
    let title = "Grandma's \"A < B & C > D\" 📷 Ж\u{e9} \u{202e}end]]> &amp; <!-- </title>";
    let mut work = work(MM_ALBUM, Cutter::default());
    for (title, expected) in [
        (title.to_owned(), title.to_owned()),
        (
            "a\u{0}b\u{7}c\u{1b}[31md\u{fffe}e\u{7f}".to_owned(),
            "a\u{fffd}b\u{fffd}c\u{fffd}[31md\u{fffd}e\u{fffd}".into(),
        ),
        ("two\nlines\tand a tab".into(), "two lines and a tab".into()),
        (String::new(), String::new()),
    ] {
        work.album.title.clone_from(&title);
        let files = written(&work, &["svg", "dxf"]);
        for (name, file) in &files {
            if let Some(sheet) = name.strip_prefix("sheets/").and_then(|name| name.strip_suffix(".svg")) {
                usvg::Tree::from_str(file, &usvg::Options::default())
                    .unwrap_or_else(|error| panic!("{title:?}: {error}"));
                let (_, rest) = file.split_once("<title>").unwrap();
                let (said, _) = rest.split_once("</title>").unwrap();
                assert!(!said.contains('<'));
                let plain = said
                    .replace("&lt;", "<")
                    .replace("&gt;", ">")
                    .replace("&quot;", "\"")
                    .replace("&apos;", "'")
                    .replace("&amp;", "&");
                // The title is followed by the sheet's name and how often it is cut.
                let rest = plain.strip_prefix(&format!("{expected}: {sheet}, cut "));
                assert!(rest.is_some_and(|times| times == "once" || times.ends_with(" times")), "{plain}");
            } else if name.contains(".dxf") {
                assert!(file.is_ascii(), "{name}");
            }
        }
        let report: serde_json::Value = serde_json::from_str(&files["report.json"]).unwrap();
        assert_eq!(report["title"], title.as_str());
    }
}

/// Codes of the versions, and $INSUNITS 4 (millimetres) and $MEASUREMENT 1 (metric), which R12 does not know: the
/// published DXF Reference, HEADER.
#[test]
fn a_dxf_says_its_version_and_its_units() {
    let codes = ["AC1009", "AC1015", "AC1018", "AC1021", "AC1024", "AC1027", "AC1032"];
    assert_eq!(DXF_VERSIONS, ["R12", "R2000", "R2004", "R2007", "R2010", "R2013", "R2018"]);
    for (name, code) in DXF_VERSIONS.iter().zip(codes) {
        for file in sheets(&work(MM_ALBUM, version(name)), "dxf") {
            let pairs = pairs(&file);
            assert_eq!(variable(&pairs, "$ACADVER"), Some((1, code)));
            let old = *name == "R12";
            assert_eq!(variable(&pairs, "$INSUNITS"), (!old).then_some((70, "4")), "{name}");
            assert_eq!(variable(&pairs, "$MEASUREMENT"), (!old).then_some((70, "1")), "{name}");
        }
    }
}

#[test]
fn a_dxf_is_plain_ascii_in_pairs_of_lines() {
    let sections = |pairs: &[(u16, &str)]| -> Vec<String> {
        let starts = pairs.windows(2).filter(|two| two[0] == (0, "SECTION")).map(|two| two[1].1.to_owned());
        starts.collect()
    };
    for name in DXF_VERSIONS {
        for file in sheets(&work(MM_ALBUM, version(name)), "dxf") {
            assert!(file.is_ascii());
            assert_eq!(file.matches('\n').count(), file.matches("\r\n").count());
            assert_eq!(file.matches('\r').count(), file.matches("\r\n").count());
            let pairs = pairs(&file);
            assert_eq!(pairs.last(), Some(&(0, "EOF")));
            let mut expected = vec!["HEADER", "TABLES", "BLOCKS", "ENTITIES", "OBJECTS"];
            expected.truncate(if *name == "R12" { 4 } else { 5 });
            // CLASSES may stand between, from R13 on.
            let found: Vec<String> = sections(&pairs).into_iter().filter(|section| section != "CLASSES").collect();
            assert_eq!(found, expected, "{name}");
            let ends = pairs.iter().filter(|pair| **pair == (0, "ENDSEC")).count();
            assert_eq!(ends, sections(&pairs).len());
        }
    }
}

/// Every object's handle is its own, and every pointer finds one (published DXF Reference, group codes 5, 105, 330 to
/// 369); $HANDSEED is larger than all of them.
#[test]
fn dxf_handles_are_unique_and_pointers_lead_somewhere() {
    for name in DXF_VERSIONS.iter().filter(|name| **name != "R12") {
        for file in sheets(&work(MM_ALBUM, version(name)), "dxf") {
            let pairs = pairs(&file);
            let number = |text: &str| u64::from_str_radix(text, 16).unwrap();
            let header = pairs.iter().position(|pair| *pair == (0, "ENDSEC")).unwrap();
            let mut handles = BTreeSet::new();
            for (_, handle) in pairs[header..].iter().filter(|(code, _)| matches!(code, 5 | 105)) {
                assert!(handles.insert(number(handle)), "{name}: handle {handle} stands twice");
            }
            for (code, pointer) in pairs[header..].iter().filter(|(code, _)| (320..370).contains(code)) {
                assert!(*pointer == "0" || handles.contains(&number(pointer)), "{name}: {code} points to {pointer}");
            }
            let (_, seed) = variable(&pairs, "$HANDSEED").unwrap();
            assert!(number(seed) > *handles.last().unwrap());
        }
    }
}

/// LWPOLYLINE: subclass `AcDbPolyline`, 90 the count, 70 = 1 closed, 10/20 a corner, 42 its bulge; not in R12, which has
/// POLYLINE, VERTEX, SEQEND and no subclasses (published DXF Reference, ENTITIES).
#[test]
fn closed_contours_are_polylines_of_their_version() {
    for name in DXF_VERSIONS {
        let made = work(MM_ALBUM, version(name));
        for (file, sheet) in sheets(&made, "dxf").iter().zip(&made.paths) {
            let pairs = pairs(file);
            let entities = pairs.iter().position(|pair| *pair == (2, "ENTITIES")).unwrap();
            let end = entities + pairs[entities..].iter().position(|pair| *pair == (0, "ENDSEC")).unwrap();
            let records: Vec<&[(u16, &str)]> = pairs[entities + 1..end].chunk_by(|_, next| next.0 != 0).collect();
            let count =
                |wanted: fn(&StrokePath) -> bool| sheet.strokes.iter().filter(|stroke| wanted(&stroke.run)).count();
            let closed = count(|run| matches!(run, StrokePath::Closed(_)));
            let open = count(|run| matches!(run, StrokePath::Open(_)));
            let of = |kind| records.iter().filter(move |record| record[0] == (0, kind));
            let has = |record: &[(u16, &str)], code, value: &str| record.contains(&(code, value));
            let kind = if *name == "R12" { "POLYLINE" } else { "LWPOLYLINE" };
            assert_eq!(of(kind).filter(|record| has(record, 70, "1")).count(), closed);
            assert_eq!(of(kind).filter(|record| has(record, 70, "0")).count(), open);
            assert_eq!(of(kind).count(), closed + open);
            if *name == "R12" {
                assert_eq!((of("SEQEND").count(), of("LWPOLYLINE").count()), (closed + open, 0));
                assert!(of("POLYLINE").all(|record| has(record, 66, "1")));
                assert!(of("VERTEX").count() >= 4 * closed + 2 * open);
                assert!(pairs.iter().all(|(code, _)| !matches!(code, 100 | 330)), "R12 knows no subclasses or owners");
            } else {
                assert_eq!(of("POLYLINE").count(), 0);
                for record in of("LWPOLYLINE") {
                    let count = record.iter().filter(|(code, _)| *code == 10).count();
                    assert!(has(record, 100, "AcDbPolyline"));
                    assert!(has(record, 90, &count.to_string()), "{name}: {record:?}");
                }
            }
            let layers: BTreeSet<&str> = records
                .iter()
                .flat_map(|record| record.iter().filter(|(code, _)| *code == 8))
                .map(|(_, layer)| *layer)
                .collect();
            assert!(layers.iter().all(|layer| ["draw", "score", "cut"].contains(layer)), "{layers:?}");
            // No group 62 on an entity: its colour is its layer's.
            assert!(records.iter().all(|record| record.iter().all(|(code, _)| !matches!(code, 62 | 420))));
        }
    }
}

/// Colours by number: 6 magenta, 7 white or black (published DXF Reference, group 62); 30 is the palette's orange.
/// From R2004 on group 420 has the colour itself.
#[test]
fn dxf_layers_have_their_colours() {
    for name in DXF_VERSIONS {
        for file in sheets(&work(MM_ALBUM, version(name)), "dxf") {
            let pairs = pairs(&file);
            let row = |layer: &str| {
                let at = pairs.iter().position(|pair| *pair == (2, layer)).unwrap();
                pairs[at..].iter().take_while(|(code, _)| *code != 0).copied().collect::<Vec<_>>()
            };
            for (layer, index, exact) in [("draw", "6", 0x00CC_79A7), ("score", "30", 0x00E6_9F00), ("cut", "7", 0)] {
                let row = row(layer);
                assert!(row.contains(&(62, index)), "{name}: {row:?}");
                let said = row.iter().find(|(code, _)| *code == 420).map(|(_, value)| value.parse::<u32>().unwrap());
                assert_eq!(said, (!matches!(*name, "R12" | "R2000")).then_some(exact), "{name}: {layer}");
            }
        }
    }
}

/// 1 red, 3 green, 5 blue (same source): a colour that the maker chose is what old readers show as well.
#[test]
fn dxf_layers_have_the_colours_that_were_asked_for() {
    let colours =
        Colours { cut: "#FF0000".into(), score: "#0000FF".into(), draw: "#00FF00".into(), ..Colours::default() };
    for name in DXF_VERSIONS {
        for file in sheets(&work(MM_ALBUM, Cutter { colours: colours.clone(), ..version(name) }), "dxf") {
            let pairs = pairs(&file);
            for (layer, index) in [("cut", "1"), ("score", "5"), ("draw", "3")] {
                let at = pairs.iter().position(|pair| *pair == (2, layer)).unwrap();
                let said = pairs[at..].iter().find(|(code, _)| *code == 62).unwrap().1;
                assert_eq!(said, index, "{name}: {layer}");
            }
        }
    }
}

#[test]
fn svg_and_dxf_hold_the_same_shapes() {
    for score in [ScoreMode::Line, ScoreMode::Dash { dash: Length::from_mm(2.0), gap: Length::from_mm(1.0) }] {
        for name in DXF_VERSIONS {
            let made = work(MM_ALBUM, Cutter { kerf: Length::from_mm(0.15), score, ..version(name) });
            for (svg, dxf) in sheets(&made, "svg").iter().zip(&sheets(&made, "dxf")) {
                let (svg, dxf) = (read_svg(svg, 1.0), read_dxf(dxf));
                let layer = |strokes: &[Stroke], layer: &str| -> Vec<Stroke> {
                    strokes.iter().filter(|stroke| stroke.layer == layer).cloned().collect()
                };
                for name in ["draw", "score", "cut"] {
                    same_strokes(&layer(&svg.strokes, name), &layer(&dxf, name), 1e-4);
                }
                assert_eq!(svg.strokes.len(), dxf.len());
            }
        }
    }
}

/// Cuts of 2.0 and ties of 1.0 (67 % cut, 1:1 to 3:1 allowed), beginning and ending on a tie: common practice, no source.
#[test]
fn perforated_scores_begin_and_end_on_a_tie() {
    let score = ScoreMode::Dash { dash: Length::from_mm(2.0), gap: Length::from_mm(1.0) };
    let whole = work(MM_ALBUM, Cutter::default());
    let dashed = work(MM_ALBUM, Cutter { score, ..Cutter::default() });
    let (mut lines, mut hinges) = (0, 0);
    for (whole, dashed) in sheets(&whole, "svg").iter().zip(&sheets(&dashed, "svg")) {
        let (whole, dashed) = (read_svg(whole, 1.0), read_svg(dashed, 1.0));
        let mut cuts: Vec<&Stroke> = dashed.strokes.iter().filter(|stroke| stroke.layer == "score").collect();
        let scored = whole.paths.iter().filter(|(layer, _)| layer == "score");
        for (line, (_, of)) in whole.strokes.iter().filter(|stroke| stroke.layer == "score").zip(scored) {
            // Pages hang by the strips' folds: at most half of these is cut, however long the dashes.
            let hangs = of["data-part"].starts_with("hinge-");
            let distance = |a: [f64; 3], b: [f64; 3]| (a[0] - b[0]).hypot(a[1] - b[1]);
            let (from, to) = (line.corners[0], line.corners[1]);
            let length = distance(from, to);
            // Where its cuts begin and end, from one end of the score.
            let on_line = |at: &[f64; 3]| (distance(from, *at) + distance(*at, to) - length).abs() < 1e-5;
            let mut ends: Vec<f64> = Vec::new();
            cuts.retain(|cut| {
                let mine = cut.corners.iter().all(on_line);
                ends.extend(cut.corners.iter().filter(|_| mine).map(|at| distance(from, *at)));
                !mine
            });
            ends.sort_by(f64::total_cmp);
            let steps: Vec<f64> =
                [0.0].iter().chain(&ends).zip(ends.iter().chain(&[length])).map(|(a, b)| b - a).collect();
            let ties: Vec<f64> = steps.iter().step_by(2).copied().collect();
            let cut: Vec<f64> = steps.iter().skip(1).step_by(2).copied().collect();
            let least = if hangs { 2.0 } else { 1.0 };
            assert!(ties.iter().all(|tie| *tie > least - 2e-4 && (tie - ties[0]).abs() < 3e-4), "{ties:?}");
            assert!(cut.iter().all(|cut| (cut - 2.0).abs() < 3e-4), "{cut:?}");
            let share = cut.iter().sum::<f64>() / length;
            assert!(if hangs { (0.3..0.5).contains(&share) } else { (0.5..=0.75).contains(&share) }, "{share}");
            lines += 1;
            hinges += usize::from(hangs);
        }
        assert!(cuts.is_empty(), "cuts that lie on no score");
    }
    assert!(lines >= 10 && hinges >= 3 && hinges < lines, "{hinges} of {lines}");
}

/// A point after `quarters` quarter turns counter-clockwise about the origin.
fn spun([x, y]: [f64; 2], quarters: u8) -> [f64; 2] {
    (0..quarters).fold([x, y], |[x, y], _| [-y, x])
}

/// With y down instead of up every arc runs the other way to the numbers and the same way to the eye (derived). A part
/// with one finished corner tells at a glance: it keeps that corner, and its outline runs counter-clockwise in DXF.
#[test]
fn a_part_keeps_its_hand_at_every_turn() {
    let (width, height) = (60.0, 40.0);
    let mut made = work(MM_ALBUM, Cutter::default());
    let stock = made.kit.parts[0].stock;
    for corner in [Corner::Clipped { across: 12.0, up: 5.0 }, Corner::Rounded(9.0)] {
        let corners = [Corner::Square, corner, Corner::Square, Corner::Square];
        let hole = Contour::circle(Point::new(15.0, 10.0), 3.0);
        let net = Net::single("card", Contour::with_corners((0.0, 0.0), (width, height), corners)).with_hole(hole);
        made.kit.parts[0].flat = net.flat().unwrap();
        made.kit.parts[0].net = net;
        made.stocks.retain(|laid| laid.stock == stock);
        made.stocks[0].sheets.truncate(1);
        made.stocks[0].sheets[0].placements = (0..4)
            .map(|quarters| Placed {
                part: 0,
                copy: u32::from(quarters) + 1,
                x: 5.0 + 20.0 * f64::from(quarters % 2) + 70.0 * f64::from(quarters / 2),
                y: 10.0 + 65.0 * f64::from(quarters),
                quarters,
            })
            .collect();
        made.paths =
            toolpath::paths(&made.kit, made.album.order(), &made.stocks, &made.cutter, (Labels::None, Effort::Normal))
                .value
                .unwrap();
        // The lower right corner is the finished one; where its edges begin and end, and how far the arc turns.
        let (across, up, bulge) = match corner {
            Corner::Clipped { across, up } => (across, up, 0.0),
            _ => (9.0, 9.0, (std::f64::consts::FRAC_PI_2 / 4.0).tan()),
        };
        let outline =
            [[0.0, 0.0, 0.0], [width - across, 0.0, bulge], [width, up, 0.0], [width, height, 0.0], [0.0, height, 0.0]];
        let finished = if bulge == 0.0 { across * up / 2.0 } else { 81.0 * (1.0 - std::f64::consts::PI / 4.0) };
        for dxf_version in ["R12", "R2000"] {
            made.cutter.dxf_version = dxf_version;
            let files = [read_svg(&sheets(&made, "svg")[0], 1.0).strokes, read_dxf(&sheets(&made, "dxf")[0])];
            for strokes in files {
                let area = |stroke: &Stroke| signed_area(&stroke.corners);
                let (outlines, holes): (Vec<Stroke>, Vec<Stroke>) =
                    strokes.into_iter().partition(|one| area(one) > 0.0);
                assert_eq!((outlines.len(), holes.len()), (4, 4), "outlines run counter-clockwise, holes clockwise");
                for quarters in 0..4_u8 {
                    let placed = &made.stocks[0].sheets[0].placements[usize::from(quarters)];
                    let low = [[0.0, 0.0], [-height, 0.0], [-width, -height], [0.0, -width]][usize::from(quarters)];
                    let put = |at: [f64; 2]| {
                        let [x, y] = spun(at, quarters);
                        [x - low[0] + placed.x, y - low[1] + placed.y]
                    };
                    let is_outline = |stroke: &&Stroke| {
                        (0..5).any(|start| {
                            outline.iter().cycle().skip(start).zip(&stroke.corners).all(|(wanted, [x, y, turn])| {
                                let at = put([wanted[0], wanted[1]]);
                                (at[0] - x).hypot(at[1] - y) < 1e-4 && (wanted[2] - turn).abs() < 1e-4
                            })
                        })
                    };
                    let found = outlines.iter().find(is_outline);
                    let found = found.unwrap_or_else(|| panic!("{quarters} quarter turns of {corner:?}: {outlines:?}"));
                    assert_eq!(found.corners.len(), 5);
                    near(area(found), width * height - finished, 1e-2);
                    // The hole, left of the middle and low, goes along.
                    let middle = put([15.0, 10.0]);
                    let from_middle = |[x, y, _]: &[f64; 3]| ((x - middle[0]).hypot(y - middle[1]) - 3.0).abs() < 1e-4;
                    let hole = holes.iter().find(|hole| hole.corners.iter().all(from_middle)).unwrap();
                    near(area(hole), -9.0 * std::f64::consts::PI, 1e-2);
                }
            }
        }
    }
}
