// SPDX-License-Identifier: MIT
//! Windows and tabs of own kinds whose forms stand in drawings.

use crate::common::{TempDir, hingeleaf, near};
use hingeleaf::contour::Contour;
use hingeleaf::cutter::Cutter;
use hingeleaf::fields::Source;
use hingeleaf::finding::{Finding, Level};
use hingeleaf::outline::{self, AskedOutline};
use hingeleaf::parts::{self, Part};
use hingeleaf::trial::Trial;
use proptest::prelude::*;
use std::f64::consts::PI;

/// A circle of 7 units; another size than it is to have.
const MOON: &str = r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 20 20"><circle cx="9" cy="8" r="7"/></svg>"#;

/// A leaf of curves, which has no two sides alike.
const LEAF: &str = r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 60 40">
  <path d="M2 20 C 10 2, 30 0, 55 18 C 40 38, 20 39, 2 20 Z"/></svg>"#;

/// A tab that is straight at its foot and round above: 40 by 10.
const TAB: &str = r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 10">
  <path d="M0 10 L40 10 A10 10 0 0 0 30 0 L10 0 A10 10 0 0 0 0 10 Z"/></svg>"#;

/// The same with its foot above, at the right, at the left.
const TAB_DOWN: &str = r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 10">
  <path d="M0 0 L40 0 A10 10 0 0 1 30 10 L10 10 A10 10 0 0 1 0 0 Z"/></svg>"#;
const TAB_LEFT: &str = r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 40">
  <path d="M10 0 L10 40 A10 10 0 0 1 0 30 L0 10 A10 10 0 0 1 10 0 Z"/></svg>"#;
const TAB_RIGHT: &str = r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 10 40">
  <path d="M0 0 L0 40 A10 10 0 0 0 10 30 L10 10 A10 10 0 0 0 0 0 Z"/></svg>"#;

/// A page with something in it, as an album's only one.
fn album(panel: &str) -> String {
    format!(
        r#"{{ "format": "hingeleaf-album/1", "page": {{ "width": 100, "height": 80 }},
  "stocks": {{ "card": {{ "sheet": "A4", "caliper": 0.3 }} }},
  "kinds": [{{ "format": "hingeleaf-kind/1", "name": "view", "is": "page", "about": "a leaf to look through",
    "sizes": {{ "side": {{ "about": "which side", "takes": ["left", "right"], "usual": "left" }} }},
    "mirrored": "side = right",
    "pieces": {{ "view": {{ "height": "height", "panels": [{{ "name": "view", "width": "width", {panel} }}] }} }} }}],
  "pages": [{{ "kind": "view", "side": "SIDE" }}] }}"#
    )
}

/// The page's part, and all that was found.
fn made(album: &str) -> (Option<Part>, Vec<Finding>) {
    let source = Source::new("album.json", album.to_owned().into_bytes()).unwrap();
    let mut find = |name: &str| {
        let text = match name {
            "moon.svg" => MOON,
            "leaf.svg" => LEAF,
            "tab.svg" => TAB,
            "tail" => TAB_DOWN,
            "left" => TAB_LEFT,
            "right" => TAB_RIGHT,
            other => panic!("{other} is not named"),
        };
        Ok(vec![Source::new(name, text.into()).unwrap()])
    };
    let read = parts::read_album(&source, &mut find);
    let mut findings = read.findings;
    let Some(album) = read.value else { return (None, findings) };
    let cutter = Cutter::default();
    let trial = Trial::of(album, &cutter);
    findings.extend(trial.findings().to_vec());
    findings.extend(trial.fit().findings);
    let part = trial.kit().and_then(|kit| kit.parts.iter().find(|part| part.kind == "view").cloned());
    (part, findings)
}

fn sound(album: &str) -> Part {
    let (part, findings) = made(album);
    assert!(findings.is_empty(), "{findings:?}");
    part.unwrap()
}

/// A drawn circle is the hole that the file could have said itself, left and right.
#[test]
fn a_drawn_circle_is_a_round_hole() {
    let drawn =
        album(r#""holes": [{ "outline": { "file": "moon.svg", "width": "height / 2" }, "at": ["10 mm", "15 mm"] }]"#);
    let said = album(r#""holes": [{ "round": ["30 mm", "35 mm"], "across": "height / 2" }]"#);
    for side in ["left", "right"] {
        let [drawn, said] = [&drawn, &said].map(|text| sound(&text.replace("SIDE", side)));
        near(drawn.flat.area(), said.flat.area(), 1e-6);
        near(drawn.flat.area(), 8000.0 - PI * 400.0, 1e-6);
        let [one, other] = [&drawn, &said].map(|part| part.flat.holes[0].bounds());
        for (one, other) in [(one.x0, other.x0), (one.y0, other.y0), (one.x1, other.x1), (one.y1, other.y1)] {
            near(one, other, 1e-6);
        }
        near(one.center().x, if side == "left" { 30.0 } else { 70.0 }, 1e-6);
    }
}

/// Curves come out as the same drawing does as a shape of its own, which other people's programs hold to its true curve.
#[test]
fn drawn_curves_are_those_of_a_drawn_shape() {
    let text = album(r#""holes": [{ "outline": { "file": "leaf.svg", "height": "42 mm" }, "at": ["12 mm", "9 mm"] }]"#);
    let source = outline::drawing("leaf.svg", LEAF.into()).unwrap();
    let mut asked = AskedOutline::of("leaf.svg");
    asked.height = Some(hingeleaf::length::Length::from_mm(42.0));
    let shape = outline::read(&source, &asked).value.unwrap().outline;
    let flat = |contour: &Contour| contour.edges().map(|edge| edge.from).collect::<Vec<_>>();
    for (side, over) in [("left", false), ("right", true)] {
        let part = sound(&text.replace("SIDE", side));
        let hole = &part.flat.holes[0];
        near(hole.area().abs(), shape.area(), 0.5);
        let width = shape.bounds().width();
        for point in flat(&shape) {
            let x = if over { 100.0 - 12.0 - point.x } else { 12.0 + point.x };
            assert!(hole.distance((x, point.y + 9.0).into()) < 0.01, "{point:?} of {width}");
        }
    }
}

/// A drawn tab stands on the edge that carries it, without a score or folded; its straight foot is as long as it was drawn.
#[test]
fn a_drawn_tab_hangs_by_its_straight_edge() {
    for (angle, scores) in [(0, 0), (180, 1)] {
        let text = album(&format!(
            r#""head": [{{ "name": "tab", "height": "8 mm", "fold": "valley", "angle": {angle}, "outline": {{ "file": "tab.svg" }} }}]"#
        ));
        let (part, findings) = made(&text.replace("SIDE", "left"));
        let part = part.unwrap_or_else(|| panic!("{findings:?}"));
        // 40 by 10 with two quarter circles of 10 cut off, at four fifths.
        let tab = (400.0 - 2.0 * (100.0 - PI * 25.0)) * 0.64;
        near(part.flat.area(), 8000.0 + tab, 1e-4);
        near(part.flat.height, 88.0, 1e-6);
        assert_eq!(part.flat.scores.len(), scores);
        let fold = &part.net.folds[0];
        near(fold.from.distance(fold.to), 32.0, 1e-6);
        near(fold.from.midpoint(fold.to).x, 50.0, 1e-6);
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, failure_persistence: None, ..ProptestConfig::default() })]

    /// Wherever a drawn window lies, it is quiet within its panel, on either side, and told at its own line where it reaches beyond.
    #[test]
    fn windows_are_told_where_they_leave_their_panel(
        name in prop::sample::select(vec![("moon.svg", 1.0), ("leaf.svg", 0.0)]),
        wide in 4..90_u32,
        at in (-10..100_i32, -10..80_i32),
        side in prop::sample::select(vec!["left", "right"]),
    ) {
        let (file, moon) = name;
        let window = format!(r#""outline": {{ "file": "{file}", "width": "{wide} mm" }}, "at": ["{} mm", "{} mm"]"#, at.0, at.1);
        let (part, findings) = made(&album(&format!(r#""holes": [{{ {window} }}]"#)).replace("SIDE", side));
        // The leaf is as tall as the box of its curves: three quarters of its width or less; the moon is as tall as it is wide.
        let source = outline::drawing(file, if moon > 0.0 { MOON } else { LEAF }.into()).unwrap();
        let shape = outline::read(&source, &AskedOutline::of(file).wide(f64::from(wide))).value.unwrap();
        let bounds = shape.outline.bounds();
        let (x, y) = (f64::from(at.0), f64::from(at.1));
        let room = [x, y, 100.0 - x - bounds.width(), 80.0 - y - bounds.height()].into_iter().fold(f64::INFINITY, f64::min);
        prop_assume!(room.abs() > 0.1);
        let told = findings.iter().any(|finding| finding.id == "no-part");
        prop_assert_eq!(told, room < 0.0, "{} {:?}", window, findings);
        if room > 0.0 {
            let part = part.ok_or_else(|| TestCaseError::fail("no part"))?;
            prop_assert!((part.flat.area() - (8000.0 - shape.outline.area())).abs() < 0.5);
        }
    }
}

/// Faces that are not drawn take paper, the drawn tab beside them does not keep them from it.
#[test]
fn papers_beside_a_drawn_tab_are_quiet() {
    let text = album(
        r#""head": [{ "name": "tab", "height": "8 mm", "fold": "valley", "angle": 0, "outline": { "file": "tab.svg" } }]"#,
    );
    let text =
        text.replace("}] } } }],", r#"}] } }, "papers": [{ "on": "view/view" }] }], "panels": { "stock": "card" },"#);
    assert!(text.contains("papers"));
    let (part, findings) = made(&text.replace("SIDE", "left"));
    assert!(part.is_some() && findings.iter().all(|finding| finding.level != Level::Stop), "{findings:?}");
}

/// Drawings are found beside the kind file, whoever names it: by its name, by its folder, from elsewhere.
#[test]
fn drawings_lie_beside_the_kind_file() {
    let temp = TempDir::new("own-drawn");
    std::fs::create_dir(temp.path().join("kinds")).unwrap();
    let kind = r#"{ "format": "hingeleaf-kind/1", "name": "view", "is": "insert", "about": "a card to look through",
  "pieces": { "view": { "height": "height", "panels": [{ "name": "view", "width": "width",
    "holes": [{ "outline": { "file": "moon.svg", "width": "width / 3" }, "at": ["8 mm", "8 mm"] }] }] } } }"#;
    temp.put("kinds/view.json", kind);
    temp.put("kinds/moon.svg", MOON);
    let tried = hingeleaf(["check", temp.path().join("kinds/view.json").to_str().unwrap()]);
    assert_eq!((tried.code, tried.err.as_str()), (0, ""), "{tried:?}");
    for kinds in [r#""kinds/""#, r#""kinds""#, r#"["kinds/view.json"]"#] {
        let album = format!(
            r#"{{ "format": "hingeleaf-album/1", "kinds": {kinds}, "page": {{ "width": 148, "height": 190 }},
                 "stocks": {{ "card": {{ "sheet": "A4", "caliper": 0.3 }} }}, "pages": [{{ "kind": "pocket" }}],
                 "inserts": [{{ "kind": "view", "width": 100, "height": 80 }}] }}"#
        );
        let file = temp.put("album.json", album);
        let checked = hingeleaf(["check", file.to_str().unwrap()]);
        assert_eq!(checked.code, 0, "{checked:?}");
    }
    std::fs::remove_file(temp.path().join("kinds/moon.svg")).unwrap();
    let checked = hingeleaf(["check", temp.path().join("album.json").to_str().unwrap()]);
    assert!(checked.err.contains("moon.svg") && checked.err.contains("view.json, line 3"), "{checked:?}");
}

/// The same drawing, byte for byte, is read once; one that is another by a byte is read anew, and what is told of one is told
/// each time.
#[test]
fn an_equal_drawing_is_read_once() {
    let kind = r#"{ "format": "hingeleaf-kind/1", "name": "peep", "is": "page", "about": "a leaf to look through",
      "pieces": { "peep": { "height": "height", "panels": [{ "name": "peep", "width": "width",
        "holes": [{ "outline": { "file": "peep.svg", "width": "20 mm" }, "at": ["10 mm", "10 mm"] }] }] } } }"#;
    let shape = |text: &str| {
        let mut kind = hingeleaf::kind_file::read(&Source::new("peep.json", kind.into()).unwrap()).value.unwrap();
        let told = kind.draw(&mut |name| Source::new(name, text.into()));
        (kind.drawings[0].shape.clone(), told.into_iter().map(|finding| finding.id).collect::<Vec<_>>())
    };
    let own = LEAF.replace("M2 20", "M2 20.0");
    let (first, again) = (shape(&own).0.unwrap(), shape(&own).0.unwrap());
    assert!(std::sync::Arc::ptr_eq(&first, &again));
    let other = shape(&own.replace("10 2,", "10 3,")).0.unwrap();
    assert!(!std::sync::Arc::ptr_eq(&first, &other));
    assert!((other.outline.bounds().height() - first.outline.bounds().height()).abs() < 5.0);
    let open = own.replace(" Z\"/>", "\"/>").replace("2 20.0 C", "2 21 C");
    let (nothing, told) = shape(&open);
    assert!(nothing.is_none() && !told.is_empty(), "{told:?}");
    assert_eq!(shape(&open).1, told);
}

/// A leaf, a strip beside it, drawn forms at edges of both.
fn edged(edges: [&str; 2], row: &str) -> String {
    let [first, second] = edges;
    let (side, breadth) = if row == "across" { ("width", "height") } else { ("height", "width") };
    album("PANEL").replacen(r#"{ "height": "height", "panels": [{ "name": "view", "width": "width", PANEL }] }"#, &format!(
        r#"{{ "row": "{row}", "{breadth}": "{breadth}", "panels": [{{ "name": "view", "{side}": "{side} - 20 mm" {first} }},
           {{ "name": "strip", "{side}": "20 mm", "fold": "valley", "angle": 0 {second} }}] }}"#), 1)
}

/// A form that a drawing shows stands at any free edge of any panel: it makes the part deeper by 5 mm there, and adds its area, which
/// is worked out here: the drawn tab of 40 by 10 has two round corners of 10, at half its size.
#[test]
fn a_drawn_edge_stands_at_every_free_edge() {
    // Its foot looks down; a tab that looks left has its foot at the right.
    let tab = |at: &str, depth: &str| {
        format!(
            r#", "{at}": [{{ "name": "tab", "{depth}": "5 mm", "fold": "both", "angle": 0, "outline": {{ "file": "FILE" }} }}]"#
        )
    };
    let plain = sound(&edged(["", ""], "across").replace("SIDE", "left"));
    let area = 20.0 * 5.0 - 2.0 * (1.0 - PI / 4.0) * 25.0;
    let mut tried = 0;
    for row in ["across", "up"] {
        for (panel, at) in
            [(0, "left"), (0, "head"), (0, "tail"), (0, "right"), (1, "right"), (1, "head"), (1, "tail"), (1, "left")]
        {
            let level = matches!(at, "left" | "right");
            let text = tab(at, if level { "width" } else { "height" })
                .replace("FILE", if at == "head" { "tab.svg" } else { at });
            let (mut edges, mut more) = (["", ""], [String::new(), String::new()]);
            more[panel] = text;
            edges[0] = more[0].as_str();
            edges[1] = more[1].as_str();
            // Where the two panels meet no edge is free.
            let meets = matches!(
                (row, panel, at),
                ("across", 0, "right") | ("across", 1, "left") | ("up", 0, "head") | ("up", 1, "tail")
            );
            for side in ["left", "right"] {
                let (part, findings) = made(&edged(edges, row).replace("SIDE", side));
                if meets {
                    let ids: Vec<&str> = findings.iter().map(|finding| finding.id).collect();
                    assert_eq!(ids, ["hung-along-row"], "{row} {panel} {at}: {findings:?}");
                    continue;
                }
                // The spine's tab is as tall as the page, which the first panel of a row that runs up is not.
                let told = findings.iter().any(|finding| row == "across" || finding.id != "sticks-out");
                assert!(!told, "{row} {panel} {at}: {findings:?}");
                let part = part.unwrap();
                near(part.flat.area(), plain.flat.area() + area, 1e-3);
                let size = if level { (105.0, 80.0) } else { (100.0, 85.0) };
                near(part.flat.width, size.0, 1e-9);
                near(part.flat.height, size.1, 1e-9);
                assert!(part.flat.scores.is_empty());
                tried += 1;
            }
        }
    }
    assert_eq!(tried, 24);
}

/// Along its row a panel carries nothing where it is repeated, and nothing but at the row's end.
#[test]
fn rows_hang_along_a_row_at_its_ends_alone() {
    let lid = r#", "right": [{ "name": "lid", "width": "9 mm", "fold": "valley" }]"#;
    let ids = |text: String| made(&text.replace("SIDE", "left")).1.iter().map(|one| one.id).collect::<Vec<_>>();
    assert_eq!(ids(edged([lid, ""], "across")), ["hung-along-row"]);
    assert_eq!(ids(edged(["", &format!(r#", "times": 2 {lid}"#)], "across")), ["hung-along-row"]);
    assert!(ids(edged(["", lid], "across")).is_empty());
}
