// SPDX-License-Identifier: MIT
//! Slits and holes of own kinds that reach over folds, and marks that are drawn on them: where they lie, by arithmetic done here.

use crate::common::instances::Dice;
use crate::common::{TempDir, hingeleaf, near};
use hingeleaf::contour::Point;
use hingeleaf::cutter::Cutter;
use hingeleaf::fields::Source;
use hingeleaf::finding::{Finding, Level};
use hingeleaf::parts::{self, Part};
use hingeleaf::trial::Trial;

/// An album of one pocket with a card of two leaves, 60 by 100 each, in it; `more` is said of the first one.
fn card(more: &str) -> String {
    format!(
        r#"{{ "format": "hingeleaf-album/1", "page": {{ "width": 148, "height": 190 }},
  "stocks": {{ "card": {{ "sheet": "A3", "caliper": 0.3 }} }},
  "kinds": [{{ "format": "hingeleaf-kind/1", "name": "two-leaves", "is": "insert", "about": "a card folded once",
    "pieces": {{ "card": {{ "height": "height", "panels": [
      {{ "name": "cover", "width": "width", {more} }},
      {{ "name": "inside", "width": "width", "fold": "valley", "head": [{{ "name": "lid", "height": "8 mm", "fold": "both", "angle": 0 }}] }} ] }} }},
    "layers": 2 }}],
  "pages": [{{ "kind": "pocket" }}], "inserts": [{{ "kind": "two-leaves", "width": 60, "height": 100 }}] }}"#
    )
}

/// An album of one page that is a leaf and a flap beside it, both papered.
fn leaf(more: &str, side: &str) -> String {
    format!(
        r#"{{ "format": "hingeleaf-album/1", "page": {{ "width": 100, "height": 80, "seam": 10 }},
  "stocks": {{ "card": {{ "sheet": "A3", "caliper": 0.3 }}, "paper": {{ "sheet": "A3", "caliper": 0.2 }} }},
  "kinds": [{{ "format": "hingeleaf-kind/1", "name": "leaf", "is": "page", "about": "a leaf with a flap",
    "sizes": {{ "side": {{ "about": "which side", "takes": ["left", "right"], "usual": "left" }} }}, "mirrored": "side = right",
    "pieces": {{ "leaf": {{ "height": "height", "panels": [
      {{ "name": "page", "width": "width", {more} }},
      {{ "name": "flap", "use": "flap", "width": "40 mm", "fold": "valley" }} ] }} }},
    "papers": [{{ "on": "leaf/flap", "face": "back", "called": "flap" }}] }}],
  "panels": {{ "reveal": 3, "stock": "paper" }},
  "pages": [{{ "kind": "leaf", "side": "{side}" }}] }}"#
    )
}

fn made(album: &str, kind: &str) -> (Option<Part>, Vec<Finding>) {
    let source = Source::new("album.json", album.to_owned().into_bytes()).unwrap();
    let read = parts::read_album(&source, &mut parts::no_kind_files);
    let mut findings = read.findings;
    let Some(album) = read.value else { return (None, findings) };
    let cutter = Cutter::default();
    let trial = Trial::of(album, &cutter);
    findings.extend(trial.findings().to_vec());
    // What stops the parts is told with the fit, too.
    let known = findings.clone();
    findings.extend(trial.fit().findings.into_iter().filter(|finding| !known.contains(finding)));
    findings.retain(|finding| finding.level != Level::Note);
    (trial.kit().and_then(|kit| kit.parts.iter().find(|part| part.kind == kind).cloned()), findings)
}

#[track_caller]
fn sound(album: &str, kind: &str) -> Part {
    let (part, findings) = made(album, kind);
    assert!(findings.is_empty(), "{findings:?}");
    part.unwrap()
}

/// The scores that lie on the upright line at `x`, by where they begin and end.
fn scores(part: &Part, x: f64) -> Vec<[f64; 2]> {
    let on = part.flat.scores.iter().filter(|score| (score.from.x - x).abs() < 1e-9 && (score.to.x - x).abs() < 1e-9);
    let mut found: Vec<[f64; 2]> =
        on.map(|score| [score.from.y.min(score.to.y), score.from.y.max(score.to.y)]).collect();
    found.sort_by(|one, two| one[0].total_cmp(&two[0]));
    found
}

#[track_caller]
fn same(found: &[[f64; 2]], expected: &[[f64; 2]]) {
    assert_eq!(found.len(), expected.len(), "{found:?}");
    for (one, two) in found.as_flattened().iter().zip(expected.as_flattened()) {
        near(*one, *two, 1e-9);
    }
}

/// A slit is half a millimetre wide; across a fold the score is left out for as much, along a fold for its length.
#[test]
fn the_score_is_left_out_where_a_slit_is() {
    let whole = 2.0 * 60.0 * 100.0 + 60.0 * 8.0;
    for (slit, left, area) in [
        (r#"["50 mm", "20 mm", "70 mm", "20 mm"]"#, vec![[0.0, 19.75], [20.25, 100.0]], 20.0 * 0.5),
        (r#"["60 mm", "10 mm", "60 mm", "40 mm"]"#, vec![[0.0, 10.0], [40.0, 100.0]], 30.0 * 0.5),
        (r#"["60 mm - 10 mm", "10 mm", "width - 5 mm", "10 mm"]"#, vec![[0.0, 100.0]], 5.0 * 0.5),
    ] {
        let part = sound(&card(&format!(r#""holes": [{{ "slit": {slit}, "over_fold": true }}]"#)), "two leaves");
        same(&scores(&part, 60.0), &left);
        near(part.flat.area(), whole - area, 1e-9);
    }
    // A round hole of 20 mm on the fold, and a row of slits along it, which together leave 100 - 20 - 3 * 10 mm.
    let holes = r#"{ "round": ["60 mm", "50 mm"], "across": "20 mm", "over_fold": true },
        { "slit": ["60 mm", "2 mm", "60 mm", "12 mm"], "over_fold": true }, { "slit": ["60 mm", "14 mm", "60 mm", "24 mm"], "over_fold": true },
        { "slit": ["60 mm", "26 mm", "60 mm", "36 mm"], "over_fold": true }"#;
    let part = sound(&card(&format!(r#""holes": [{holes}]"#)), "two leaves");
    same(&scores(&part, 60.0), &[[0.0, 2.0], [12.0, 14.0], [24.0, 26.0], [36.0, 40.0], [60.0, 100.0]]);
}

/// A row of holes: each so far from the one before, from the right where all is mirrored; along a fold, to tear along.
#[test]
fn holes_stand_in_a_row() {
    for side in ["left", "right"] {
        let row = r#""holes": [{ "round": ["10 mm", "20 mm"], "across": "4 mm", "times": "(width - 20 mm) / 20 mm + 1", "step": ["20 mm", "2.5 mm"] }]"#;
        let part = sound(&leaf(row, side), "leaf");
        let mut middles: Vec<Point> = part.flat.holes.iter().map(|hole| hole.bounds().center()).collect();
        middles.sort_by(|one, two| one.y.total_cmp(&two.y));
        assert_eq!(middles.len(), 5);
        for (nth, middle) in (0..).zip(middles) {
            let x = 20.0_f64.mul_add(f64::from(nth), 10.0);
            near(middle.x, if side == "left" { x } else { 140.0 - x }, 1e-9);
            near(middle.y, 2.5_f64.mul_add(f64::from(nth), 20.0), 1e-9);
        }
    }
    let torn = r#""holes": [{ "slit": ["60 mm", "2 mm", "60 mm", "8 mm"], "times": 12, "step": ["0 mm", "8 mm"], "over_fold": true }]"#;
    let ties = scores(&sound(&card(torn), "two leaves"), 60.0);
    // The last tie reaches to the head.
    let expected = (0..12).map(|nth| 8.0 * f64::from(nth)).map(|y| [y, y + 2.0]).chain([[96.0, 100.0]]);
    same(&ties, &expected.collect::<Vec<_>>());
    for (times, step, id) in [
        ("5", "12 mm", None),
        ("5", "13 mm", Some("no-part")), // past the fold
        ("5", "3 mm", Some("no-part")),  // into each other
        ("0", "3 mm", None),
        ("200", "0.1 mm", Some("no-part")),
        ("201", "0.1 mm", Some("kind-times")),
        ("0 - 1", "3 mm", Some("kind-times")),
        ("1 / (width / width - 1)", "3 mm", Some("kind-times")),
    ] {
        let row = format!(
            r#""holes": [{{ "round": ["8 mm", "20 mm"], "across": "4 mm", "times": "{times}", "step": ["{step}", "0 mm"] }}]"#
        );
        let (_, findings) = made(&card(&row), "two leaves");
        assert_eq!(findings.first().map(|finding| finding.id), id, "{times} x {step}: {findings:?}");
    }
}

/// What reaches over anything but a fold, or leaves too little of it, is told; what keeps just within that is not.
#[test]
fn a_hole_keeps_to_the_panels_of_its_fold() {
    let slit = |ends: [&str; 4], over: &str| {
        let [a, b, c, d] = ends;
        card(&format!(r#""holes": [{{ "slit": ["{a} mm", "{b} mm", "{c} mm", "{d} mm"]{over} }}]"#))
    };
    let over = r#", "over_fold": true"#;
    for (ends, said, id) in [
        (["50", "20", "70", "20"], "", Some("no-part")),
        (["50", "20", "59", "20"], "", None),
        // Beyond the second panel's far edge; just within it.
        (["50", "20", "121", "20"], over, Some("kind-over-fold")),
        (["50", "20", "119", "20"], over, None),
        // Into the lid, which is folded on the second panel, not on the first.
        (["50", "90", "70", "103"], over, Some("kind-over-fold")),
        (["50", "90", "70", "99"], over, None),
        // A bit of 1 mm at the fold's end; one of 1.5 mm.
        (["60", "1", "60", "30"], over, Some("kind-over-fold")),
        (["60", "1.5", "60", "30"], over, None),
        // 24 of 100 mm are left; 26 are.
        (["60", "12", "60", "88"], over, Some("kind-over-fold")),
        (["60", "13", "60", "87"], over, None),
        (["60", "20", "60", "20.2"], over, Some("kind-size")),
    ] {
        let (_, findings) = made(&slit(ends, said), "two leaves");
        let ids: Vec<&str> = findings.iter().map(|finding| finding.id).collect();
        assert_eq!(ids.first().copied(), id, "{ends:?}{said}: {findings:?}");
        if id.is_some() {
            assert!(findings[0].place.as_ref().unwrap().path.contains("holes[0]"), "{findings:?}");
        }
    }
}

/// A paper ends 3 mm from the fold: a cut that begins within these 3 mm is not under it. Left and right alike.
#[test]
fn no_paper_lies_over_a_cut() {
    for side in ["left", "right"] {
        let slit = |to: f64| {
            leaf(
                &format!(r#""holes": [{{ "slit": ["90 mm", "40 mm", "{to} mm", "40 mm"], "over_fold": true }}]"#),
                side,
            )
        };
        let part = sound(&slit(102.5), "leaf");
        let x = if side == "left" { 100.0 } else { 40.0 };
        same(&scores(&part, x), &[[0.0, 39.75], [40.25, 80.0]]);
        let (_, findings) = made(&slit(103.5), "leaf");
        let ids: Vec<&str> = findings.iter().map(|finding| finding.id).collect();
        assert_eq!(ids, ["kind-paper-over-cut"], "{findings:?}");
    }
}

/// Marks lie where they are said to, from the panel's lower left corner, or its lower right one where all is mirrored.
#[test]
fn marks_lie_where_they_are_said_to() {
    let marks = r#""marks": [{ "line": ["10 mm", "20 mm", "10 mm", "35 mm"] }, { "cross": ["30 mm", "40 mm"], "across": "6 mm" }]"#;
    for side in ["left", "right"] {
        let part = sound(&leaf(marks, side), "leaf");
        let x = |x: f64| if side == "left" { x } else { 140.0 - x };
        let expected = [[(10.0, 20.0), (10.0, 35.0)], [(27.0, 40.0), (33.0, 40.0)], [(30.0, 37.0), (30.0, 43.0)]];
        assert_eq!(part.flat.marks.len(), expected.len());
        for (mark, expected) in part.flat.marks.iter().zip(expected) {
            // Which end is first is no matter.
            let lies = |ends: [(f64, f64); 2]| {
                mark.iter().zip(ends).all(|(end, at)| (end.x - x(at.0)).abs() < 1e-9 && (end.y - at.1).abs() < 1e-9)
            };
            assert!(lies(expected) || lies([expected[1], expected[0]]), "{side}: {mark:?}");
        }
        // What is drawn is neither cut nor scored, but a part by itself.
        let plain = sound(&leaf(r#""when": "1 > 0""#, side), "leaf");
        assert_eq!(plain.flat.digest(), part.flat.digest());
        assert_ne!(plain.flat.likeness(), part.flat.likeness());
        near(plain.flat.area(), part.flat.area(), 1e-9);
    }
}

/// A mark keeps to its panel and clear of its holes.
#[test]
fn a_mark_that_is_not_on_its_panel_is_told() {
    let hole = r#""holes": [{ "round": ["30 mm", "40 mm"], "across": "10 mm" }], "#;
    for (mark, told) in [
        (r#"{ "line": ["1 mm", "40 mm", "59 mm", "40 mm"] }"#, true), // over the hole
        (r#"{ "line": ["1 mm", "1 mm", "59 mm", "1 mm"] }"#, false),
        (r#"{ "line": ["10 mm", "20 mm", "61 mm", "20 mm"] }"#, true), // over the fold
        (r#"{ "line": ["10 mm", "20 mm", "60 mm", "20 mm"] }"#, false),
        (r#"{ "cross": ["1 mm", "20 mm"] }"#, true),
        (r#"{ "cross": ["2 mm", "20 mm"] }"#, false),
        (r#"{ "cross": ["1 mm", "20 mm"], "when": "width > 60 mm" }"#, false),
        (r#"{ "line": ["10 mm", "20 mm", "10 mm", "20 mm"] }"#, true),
    ] {
        let (_, findings) = made(&card(&format!(r#"{hole} "marks": [{mark}]"#)), "two leaves");
        let ids: Vec<&str> = findings.iter().map(|finding| finding.id).collect();
        assert_eq!(ids, if told { vec!["kind-mark"] } else { Vec::new() }, "{mark}: {findings:?}");
    }
}

/// Cuts and marks at random places: told where arithmetic says so, and only there. The leaves are 60 by 100, the fold between them.
#[test]
fn cuts_and_marks_are_hunted() {
    let mut dice = Dice(60_100);
    let mut told = [[0; 2]; 3];
    for _ in 0..60 {
        let mut any = |low: i64, high: i64| f64::from(i32::try_from(dice.from(low * 4, high * 4)).unwrap()) / 4.0;
        // Across the fold or short of it: on both leaves, and no bit of the fold under 1.5 mm. What touches an edge opens it.
        let (from, to, y) = (any(1, 58), any(59, 124), any(-1, 101));
        let (foot, head) = (y - 0.25, y + 0.25);
        let on = to <= 120.0 && foot >= 0.0 && head <= 100.0;
        let ties = to <= 60.0 || (foot <= 0.0 || foot >= 1.5) && (head >= 100.0 || head <= 98.5);
        let touches = to >= 120.0 || foot <= 0.0 || head >= 100.0;
        let slit =
            format!(r#""holes": [{{ "slit": ["{from} mm", "{y} mm", "{to} mm", "{y} mm"], "over_fold": true }}]"#);
        let sound = on && ties && !touches;
        told[0][usize::from(!sound)] += 1;
        told_if(!sound, if on && ties { "no-part" } else { "kind-over-fold" }, &slit);
        // A round hole keeps to its leaf, up to the fold; where it touches an edge, nothing is left of the card.
        let (x, y, across) = (any(0, 60), any(0, 100), any(1, 40));
        let keeps = x > across / 2.0 && x + across / 2.0 <= 60.0 && y > across / 2.0 && y + across / 2.0 < 100.0;
        let hole = format!(r#""holes": [{{ "round": ["{x} mm", "{y} mm"], "across": "{across} mm" }}]"#);
        told[1][usize::from(!keeps)] += 1;
        told_if(!keeps, "no-part", &hole);
        // A level mark keeps to the leaf, and clear of a hole of 20 mm in its middle.
        let (from, to, y) = (any(-2, 20), any(20, 62), any(-2, 102));
        let off = (y - 50.0).abs();
        let reach = (100.0 - off * off).max(0.0).sqrt();
        let clear = off >= 10.0 || to <= 30.0 - reach || from >= 30.0 + reach;
        let lies = from >= 0.0 && to <= 60.0 && (0.0..=100.0).contains(&y) && clear && from < to;
        let mark = format!(
            r#""holes": [{{ "round": ["30 mm", "50 mm"], "across": "20 mm" }}], "marks": [{{ "line": ["{from} mm", "{y} mm", "{to} mm", "{y} mm"] }}]"#
        );
        told[2][usize::from(!lies)] += 1;
        told_if(!lies, "kind-mark", &mark);
    }
    assert!(told.as_flattened().iter().all(|count| *count >= 5), "{told:?}");
}

/// Whether just this is told of a card of which so much more is said, or nothing.
#[track_caller]
fn told_if(wrong: bool, id: &str, more: &str) {
    let (_, findings) = made(&card(more), "two leaves");
    let ids: Vec<&str> = findings.iter().map(|finding| finding.id).collect();
    assert_eq!(ids, if wrong { vec![id] } else { Vec::new() }, "{more}: {findings:?}");
}

/// The tool draws them, and nothing where nothing is to be drawn.
#[test]
fn marks_are_drawn() {
    let temp = TempDir::new("own-marks");
    // On their own stock sheet the card lies alone.
    let marked = temp.put("marked.json", card(r#""marks": [{ "line": ["10 mm", "20 mm", "27.25 mm", "20 mm"] }]"#));
    for (labels, drawn) in [("hidden", 1), ("none", 0)] {
        let out = temp.path().join(labels);
        let args =
            ["kit", marked.to_str().unwrap(), "--effort", "low", "--labels", labels, "--out", out.to_str().unwrap()];
        let run = hingeleaf(args);
        assert_eq!(run.code, 0, "{run:?}");
        let mut found = 0;
        for (_, bytes) in crate::common::files(&out.join("sheets")) {
            let Ok(text) = String::from_utf8(bytes) else { continue };
            let Some(draw) = text.split("id=\"draw\"").nth(1).and_then(|rest| rest.split("</g>").next()) else {
                continue;
            };
            for path in draw.split("<path").skip(1).filter(|path| path.contains("data-part=\"two-leaves-1\"")) {
                let d = path.split(" d=\"").nth(1).unwrap().split('"').next().unwrap();
                let numbers: Vec<f64> = d.split([' ', 'M', 'L']).filter_map(|word| word.parse().ok()).collect();
                let long = |pair: &[f64]| (pair[0] - pair[2]).hypot(pair[1] - pair[3]);
                found += usize::from(numbers.len() == 4 && (long(&numbers) - 17.25).abs() < 1e-3);
            }
        }
        assert_eq!(found, drawn, "{labels}");
    }
}

/// An album cuts the free edges of an own kind as those of any other: a scallop of 5 mm repeats, 2 mm deep, takes so much of the flap.
#[test]
fn an_album_cuts_the_edges_of_an_own_kind() {
    let plain = sound(&leaf(r#""when": "1 > 0""#, "left"), "leaf");
    let cut = |edges: &str| {
        leaf(r#""when": "1 > 0""#, "left")
            .replace(r#""side": "left" }]"#, &format!(r#""side": "left", "edges": [{edges}] }}]"#))
    };
    let part =
        sound(&cut(r#"{ "on": "leaf/flap/right", "finish": "zigzag", "size": "8 mm", "depth": "3 mm" }"#), "leaf");
    // A zigzag takes half of its depth along its run, which begins and ends somewhere within the edge.
    let lost = plain.flat.area() - part.flat.area();
    assert!(lost > 0.8 * 80.0 * 1.5 && lost < 80.0 * 1.5 + 1e-9, "{lost}");
    near(part.flat.width, plain.flat.width, 1e-9);
    let (_, findings) = made(&cut(r#"{ "on": "leaf/flap/left", "finish": "zigzag" }"#), "leaf");
    assert_eq!(findings.iter().map(|finding| finding.id).collect::<Vec<_>>(), ["edge-taken"], "{findings:?}");
}
