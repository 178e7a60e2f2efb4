// SPDX-License-Identifier: MIT
//! Edges cut in a pattern, corners, rows of cuts: their shapes against arithmetic done here, their names, what stands in their way,
//! what they cost a pocket, a flap, a paper; and a hunt over random kinds, edges and patterns.

use crate::common::instances::Dice;
use crate::common::{album, cutter, kit, near, part};
use crate::plates::altered;
use hingeleaf::album::{CornerWord, FinishWord, Role};
use hingeleaf::contour::{Contour, Edge, EdgeFinish, EdgePattern, Point, grow};
use hingeleaf::cutter::Cutter;
use hingeleaf::finding::{Arg, Finding, Level, stops};
use hingeleaf::fit;
use hingeleaf::parts::{self, Kit, example};
use proptest::prelude::*;
use proptest::strategy::ValueTree;
use proptest::test_runner::{Config, RngAlgorithm, TestRng, TestRunner};
use std::f64::consts::PI;

/// An album 150 x 190 with seams and tabs of 12 mm.
fn text(pages: &[&str], inserts: &[&str], more: &str) -> String {
    format!(
        r#"{{ "format": "hingeleaf-album/1", "stocks": {{ "card": {{ "sheet": "A2", "caliper": 0.3 }} }},
          "page": {{ "width": 150, "height": 190, "seam": 12 }}, "pages": [{}],
          "spine": {{ "kind": "flexi-hinge", "tab": 12 }}, "inserts": [{}]{more} }}"#,
        pages.join(", "),
        inserts.join(", ")
    )
}

fn findings(text: &str) -> Vec<Finding> {
    let made = parts::kit(&album(text), &Cutter::default());
    let mut findings = made.findings;
    if let Some(kit) = made.value {
        findings.extend(fit::check(&album(text), &kit, &cutter(0.1, 1.0, 3.0)).findings);
    }
    findings
}

fn ids(text: &str) -> Vec<&'static str> {
    findings(text).iter().filter(|finding| finding.level != Level::Note).map(|finding| finding.id).collect()
}

fn page(kind: &str, edges: &str) -> String {
    text(&[&format!(r#"{{ {kind}, "edges": [{edges}] }}"#), r#"{ "kind": "pocket" }"#], &[], "")
}

fn card(size: (f64, f64), edges: &str) -> String {
    let (width, height) = size;
    let card = format!(
        r#"{{ "kind": "journal-card", "width": {width}, "height": {height}, "corner": 0, "edges": [{edges}] }}"#
    );
    text(&[r#"{ "kind": "pocket" }"#, r#"{ "kind": "pocket" }"#], &[&card], "")
}

/// Area of a contour by many straight pieces, to 1e-3 of a mm²: nothing of the contour's own arithmetic but where its arcs are.
fn walked(contour: &Contour) -> f64 {
    let spots: Vec<Point> = contour
        .edges()
        .flat_map(|edge| {
            let angle = 4.0 * edge.bulge.atan();
            let chord = edge.to - edge.from;
            (0..200).map(move |step| {
                let share = f64::from(step) / 200.0;
                if edge.bulge.abs() < 1e-12 {
                    return edge.from + chord * share;
                }
                // The chord seen from the circle: the inscribed angle at a point of it.
                let radius = chord.hypot() / 2.0 / (angle / 2.0).sin();
                let off = (angle / 2.0).cos() * radius;
                let middle = edge.from.midpoint(edge.to);
                let unit = chord / chord.hypot();
                let centre = middle + kurbo::Vec2::new(-unit.y, unit.x) * off;
                let start = (edge.from - centre).atan2();
                centre + kurbo::Vec2::from_angle(start + angle * share) * radius.abs()
            })
        })
        .collect();
    let next = spots.iter().skip(1).chain(spots.first());
    spots.iter().zip(next).map(|(one, two)| (one.x * two.y - two.x * one.y) / 2.0).sum()
}

/// What a pattern takes off an edge, mm²: a scallop its box less a circle's segment, of which rise and chord are known; a wave half
/// its box, as it is the same upside down; a zigzag triangles.
fn lost(word: FinishWord, count: f64, repeat: f64, depth: f64) -> f64 {
    match word {
        FinishWord::Scallop => {
            let radius = (repeat * repeat / 4.0 + depth * depth) / (2.0 * depth);
            let half = (repeat / 2.0 / radius).asin();
            let segment = radius * radius * (half - half.sin() * half.cos());
            count * (repeat * depth - segment)
        }
        FinishWord::Wave | FinishWord::Zigzag => count * repeat * depth / 2.0,
        FinishWord::Notch => PI * depth * depth / 2.0,
        _ => unreachable!(),
    }
}

#[test]
fn patterns_take_what_arithmetic_says() {
    for (pattern, word, count, repeat) in [
        (EdgePattern::Scallop, FinishWord::Scallop, 13.0, 100.0 / 13.0),
        (EdgePattern::Wave, FinishWord::Wave, 13.0, 100.0 / 13.0),
        // Half a tooth stays straight: 100 / 8 - 1/2 is 12.
        (EdgePattern::Zigzag, FinishWord::Zigzag, 12.0, 8.0),
    ] {
        let finish = EdgeFinish { pattern, size: 8.0, depth: 3.0 };
        let foot = Edge { from: Point::new(0.0, 0.0), to: Point::new(100.0, 0.0), bulge: 0.0 };
        let rest = [(100.0, 0.0, 0.0), (100.0, 50.0, 0.0), (0.0, 50.0, 0.0)];
        let contour = Contour::new(finish.corners(foot).into_iter().chain(rest));
        assert!(contour.is_simple());
        near(contour.area(), 5000.0 - lost(word, count, repeat, 3.0), 1e-9);
        near(contour.area(), walked(&contour), 0.05);
        let bounds = contour.bounds();
        for (is, should) in [bounds.x0, bounds.y0, bounds.x1, bounds.y1].into_iter().zip([0.0, 0.0, 100.0, 50.0]) {
            near(is, should, 1e-9);
        }
    }
}

/// All four edges at once, each with its own pattern: corners stay where they are, and each edge loses what it loses alone.
#[test]
fn corners_match_whatever_their_edges_are() {
    let edges = r#"{ "on": "head", "finish": "scallop", "size": 10, "depth": 3.5 }, { "on": "tail", "finish": "zigzag", "size": 8, "depth": 3 },
        { "on": "left", "finish": "wave", "size": 10, "depth": 4 }, { "on": "right", "finish": "scallop", "size": 5, "depth": 2 }"#;
    let kit = kit(&card((100.0, 140.0), edges));
    let flat = &part(&kit, "journal-card-1").flat;
    let all = lost(FinishWord::Scallop, 10.0, 10.0, 3.5)
        + lost(FinishWord::Zigzag, 12.0, 8.0, 3.0)
        + lost(FinishWord::Wave, 14.0, 10.0, 4.0)
        + lost(FinishWord::Scallop, 28.0, 5.0, 2.0);
    near(flat.area(), 14_000.0 - all, 1e-6);
    assert!(flat.outline.is_simple());
    for corner in [(0.0, 0.0), (100.0, 0.0), (100.0, 140.0), (0.0, 140.0)] {
        assert!(flat.outline.vertices().iter().any(|vertex| vertex.at.distance(corner.into()) < 1e-9), "{corner:?}");
    }
}

#[test]
fn corners_lose_a_square_less_a_disc_or_a_triangle() {
    for (word, each) in [("rounded", 100.0 - PI * 25.0), ("clipped", 50.0)] {
        let kit =
            kit(&card((100.0, 140.0), &format!(r#"{{ "on": "journal-card", "corners": "{word}", "size": 10 }}"#)));
        near(part(&kit, "journal-card-1").flat.area(), 14_000.0 - 4.0 * each, 1e-9);
    }
    // Those of one side alone.
    let two = kit(&card((100.0, 140.0), r#"{ "on": "head", "corners": "clipped", "size": 10 }"#));
    near(part(&two, "journal-card-1").flat.area(), 14_000.0 - 100.0, 1e-9);
}

/// A torn edge is the same on every run and on every copy, another one on another edge, and never deeper than it is said to be.
#[test]
fn a_torn_edge_is_drawn_from_the_parts_name() {
    let torn = |count: u32| {
        let edges = r#"[{ "on": "head", "finish": "deckle", "depth": 0.8 }, { "on": "tail", "finish": "deckle", "depth": 0.8 }]"#;
        let tag = format!(
            r#"{{ "kind": "journal-card", "width": 90, "height": 130, "corner": 0, "count": {count}, "edges": {edges} }}"#
        );
        let kit = kit(&text(&[r#"{ "kind": "pocket" }"#], &[&tag], ""));
        assert_eq!(part(&kit, "journal-card-1").count, count);
        part(&kit, "journal-card-1").flat.clone()
    };
    let (one, many) = (torn(1), torn(4));
    assert_eq!(one.digest(), many.digest());
    let heights = |head: bool| -> Vec<f64> {
        let off = |y: f64| if head { 130.0 - y } else { y };
        let mut found: Vec<(f64, f64)> = one
            .outline
            .vertices()
            .iter()
            .map(|vertex| (vertex.at.x, off(vertex.at.y)))
            .filter(|(_, off)| *off < 60.0)
            .collect();
        found.sort_by(|a, b| a.0.total_cmp(&b.0));
        found.into_iter().map(|(_, off)| off).collect()
    };
    let (head, tail) = (heights(true), heights(false));
    assert_eq!(head.len(), 31); // 90 / 3, and one
    assert!(head.iter().chain(&tail).all(|off| (0.0..=0.8).contains(off)), "{head:?}");
    assert!(head.iter().any(|off| *off > 0.6) && head.iter().zip(&tail).any(|(a, b)| (a - b).abs() > 0.1));
}

/// What is said to be free, by the finding for an edge that there is not.
fn free(text: &str) -> Vec<String> {
    let found = findings(text).into_iter().find(|finding| finding.id == "unknown-edge");
    let Some(help) = found.map(|finding| finding.help) else { return Vec::new() };
    let names =
        help.args().iter().find_map(|(_, arg)| if let Arg::Row(names) = arg { Some(names.clone()) } else { None });
    let code = |arg: Arg| if let Arg::Code(name) = arg { name } else { String::new() };
    names.unwrap_or_default().into_iter().map(code).collect()
}

#[test]
fn edges_are_called_by_piece_panel_and_side() {
    let named = |kind: &str| free(&page(kind, r#"{ "on": "zzzzzzzzzzzzz", "finish": "wave" }"#));
    assert_eq!(named(r#""kind": "pocket""#), ["front/mouth", "back/fore-edge"]);
    assert_eq!(
        named(r#""kind": "wallet", "pocket": 110, "overflap": 50"#),
        ["back/page/tail", "back/page/head", "back/flap/tail", "back/right", "back/flap/head", "pocket/mouth"]
    );
    assert_eq!(named(r#""kind": "library-card""#), ["leaf/tail", "leaf/fore-edge", "leaf/head", "pocket/mouth"]);
    let tag = r#"{ "kind": "tag", "width": 90, "height": 130, "edges": [{ "on": "zzzzzzzzzz", "finish": "wave" }] }"#;
    assert_eq!(
        free(&text(&[r#"{ "kind": "pocket" }"#], &[tag], "")),
        ["tag/tail", "tag/right", "tag/head", "tag/left"]
    );
}

#[test]
fn a_run_keeps_clear_of_seams_and_of_the_hinge() {
    // The pocket's front is 190 tall; a seam of 12 turns under it at the head, and one is stuck on it at the tail.
    let front =
        kit(&page(r#""kind": "pocket""#, r#"{ "on": "front/mouth", "finish": "scallop", "size": 8, "depth": 3 }"#));
    let outline = &part(&front, "page-1-front").flat.outline;
    let cusps: Vec<f64> = outline
        .vertices()
        .iter()
        .filter(|vertex| (vertex.at.x - 147.0).abs() < 1e-9)
        .map(|vertex| vertex.at.y)
        .collect();
    // 190 - 24 = 166 is 21 repeats of 7.905; the first cusp is half a repeat behind the seam.
    assert_eq!(cusps.len(), 21);
    near(cusps.iter().copied().fold(f64::INFINITY, f64::min), 12.0 + 166.0 / 42.0, 1e-9);
    near(
        part(&front, "page-1-front").flat.area(),
        150.0 * 202.0 - lost(FinishWord::Scallop, 21.0, 166.0 / 21.0, 3.0),
        1e-6,
    );
    // A leaf's head is free beside the hinge's tab, which is stuck on it.
    let leaf =
        kit(&page(r#""kind": "library-card""#, r#"{ "on": "leaf/head", "finish": "wave", "size": 12, "depth": 4 }"#));
    let low = part(&leaf, "page-1-leaf")
        .flat
        .outline
        .vertices()
        .iter()
        .filter(|vertex| vertex.at.y < 189.9 && vertex.at.y > 100.0);
    assert!(low.clone().all(|vertex| vertex.at.x > 12.0) && low.count() > 10);
}

/// Each fault, and beside it a neighbour that stays quiet.
#[test]
fn what_can_not_be_cut_is_told_and_its_neighbour_is_not() {
    let pocket = r#""kind": "pocket""#;
    let wallet = r#""kind": "wallet", "pocket": 110, "overflap": 50"#;
    let library = r#""kind": "library-card", "mouth": "straight""#;
    let faults = [
        ("unknown-edge", page(pocket, r#"{ "on": "front/mouht", "finish": "wave" }"#)),
        ("unknown-edge", page(pocket, r#"{ "on": "front", "finish": "wave" }"#)),
        ("edge-taken", page(pocket, r#"{ "on": "front/head", "finish": "wave" }"#)),
        ("edge-taken", page(pocket, r#"{ "on": "front/spine", "finish": "wave" }"#)),
        ("edge-taken", page(pocket, r#"{ "on": "front", "corners": "rounded" }"#)),
        (
            "edge-twice",
            page(pocket, r#"{ "on": "mouth", "finish": "wave" }, { "on": "fore-edge", "finish": "zigzag" }"#),
        ),
        ("edge-size", page(pocket, r#"{ "on": "mouth", "finish": "wave", "size": 180 }"#)),
        ("edge-too-deep", page(pocket, r#"{ "on": "mouth", "finish": "scallop", "size": 8, "depth": 5 }"#)),
        ("edge-size", page(library, r#"{ "on": "pocket/mouth", "finish": "notch", "size": 57, "depth": 20 }"#)),
        // A front of 45 mm has a seam of 12 that turns under it: 33 are left.
        (
            "edge-too-deep",
            page(
                &format!(r#"{library}, "height": 45"#),
                r#"{ "on": "pocket/mouth", "finish": "notch", "size": 50, "depth": 34 }"#,
            ),
        ),
        ("edge-corner", card((20.0, 100.0), r#"{ "on": "journal-card", "corners": "rounded", "size": 11 }"#)),
        ("row-at-edge", card((90.0, 130.0), r#"{ "on": "head", "finish": "slits", "depth": 0.5 }"#)),
        (
            "edge-crosses",
            card(
                (100.0, 140.0),
                r#"{ "on": "head", "finish": "notch", "size": 80, "depth": 60 }, { "on": "left", "finish": "notch", "size": 80, "depth": 60 }"#,
            ),
        ),
        (
            "mouth-cut-too-deep",
            page(library, r#"{ "on": "pocket/mouth", "finish": "notch", "size": 50, "depth": 40 }"#),
        ),
    ];
    for (id, text) in &faults {
        assert_eq!(ids(text), [*id], "{text}\n{:?}", findings(text).iter().map(Finding::headline).collect::<Vec<_>>());
    }
    let sound = [
        page(pocket, r#"{ "on": "front/mouth", "finish": "wave" }"#),
        page(pocket, r#"{ "on": "fore-edge", "finish": "wave" }"#),
        page(wallet, r#"{ "on": "back/flap", "corners": "rounded" }, { "on": "back/flap/right", "finish": "wave" }"#),
        page(pocket, r#"{ "on": "mouth", "finish": "wave" }, { "on": "back/fore-edge", "finish": "zigzag" }"#),
        page(pocket, r#"{ "on": "mouth", "finish": "wave", "size": 166 }"#),
        page(pocket, r#"{ "on": "mouth", "finish": "scallop", "size": 8, "depth": 3 }"#),
        page(library, r#"{ "on": "pocket/mouth", "finish": "notch", "size": 40, "depth": 20 }"#),
        card((20.0, 100.0), r#"{ "on": "journal-card", "corners": "rounded", "size": 10 }"#),
        card((90.0, 130.0), r#"{ "on": "head", "finish": "slits", "depth": 1 }"#),
        card(
            (100.0, 140.0),
            r#"{ "on": "head", "finish": "notch", "size": 40, "depth": 40 }, { "on": "left", "finish": "notch", "size": 40, "depth": 20 }"#,
        ),
    ];
    for text in &sound {
        assert!(ids(text).is_empty(), "{text}\n{:?}", findings(text).iter().map(Finding::headline).collect::<Vec<_>>());
    }
}

/// A hole is 2 mm of card away at least: a tag's, 9 mm below its head with a radius of 3, leaves 4.
#[test]
fn a_pattern_keeps_off_a_hole() {
    let tag = |depth: f64| {
        let tag = format!(
            r#"{{ "kind": "tag", "width": 90, "height": 130, "hole": 6, "corner": 10, "edges": [{{ "on": "head", "finish": "notch", "size": 20, "depth": {depth} }}] }}"#
        );
        ids(&text(&[r#"{ "kind": "pocket" }"#, r#"{ "kind": "pocket" }"#], &[&tag], ""))
    };
    // The hole's centre stands its own width below the edge: it begins 3 mm below, and 2 mm stay.
    assert_eq!(tag(1.1), ["edge-too-deep"]);
    assert!(tag(1.0).is_empty());
}

/// A flap reaches so much less far as it is cut in, and so much less over a mouth that is.
#[test]
fn a_cut_flap_reaches_less_far() {
    let overlap = |edges: &str| {
        let kit = kit(&page(r#""kind": "wallet", "pocket": 110, "overflap": 50"#, edges));
        kit.flaps[0].overlap.unwrap()
    };
    near(overlap(""), 10.0, 1e-9);
    near(overlap(r#"{ "on": "back/flap/right", "finish": "wave", "depth": 2 }"#), 8.0, 1e-9);
    near(
        overlap(
            r#"{ "on": "pocket/mouth", "finish": "wave", "depth": 3 }, { "on": "back/flap/right", "finish": "wave", "depth": 2 }"#,
        ),
        5.0,
        1e-9,
    );
    // Along the flap it reaches as far as before.
    near(overlap(r#"{ "on": "back/flap/head", "finish": "wave", "depth": 2 }"#), 10.0, 1e-9);
    let short = r#"{ "on": "pocket/mouth", "finish": "scallop", "size": 20, "depth": 7 }, { "on": "back/flap/right", "finish": "scallop", "size": 20, "depth": 7 }"#;
    assert!(ids(&page(r#""kind": "wallet", "pocket": 110, "overflap": 50"#, short)).contains(&"flap-too-short"));
}

/// Papers keep their border from the deepest cut, and round corners are as far from the card's as edges are.
#[test]
fn papers_follow_the_cut() {
    let papered = |edges: &str| {
        let page = format!(r#"{{ "kind": "pocket", "edges": [{edges}] }}"#);
        let kit = kit(&text(&[&page, r#"{ "kind": "pocket" }"#], &[], r#", "panels": { "reveal": 3 }"#));
        let flat = part(&kit, "panel-page-1-front").flat.clone();
        (flat.width, flat.height, flat.area())
    };
    let (width, height, area) = papered(r#"{ "on": "back/fore-edge", "finish": "wave" }"#);
    near(width, 144.0, 1e-9);
    near(height, 184.0, 1e-9);
    near(area, 144.0 * 184.0, 1e-6);
    near(papered(r#"{ "on": "front/mouth", "finish": "wave", "depth": 3 }"#).0, 141.0, 1e-9);
    // Behind a row of cuts a millimetre of card is left: 3 and 0.25 and 1.
    near(papered(r#"{ "on": "front/mouth", "finish": "perforated", "depth": 3 }"#).0, 144.0 - 4.25, 1e-9);
    let card = |edges: &str| {
        let page = format!(r#"{{ "kind": "library-card", "edges": [{edges}] }}"#);
        let kit = kit(&text(&[&page, r#"{ "kind": "pocket" }"#], &[], r#", "panels": { "reveal": 3 }"#));
        part(&kit, "panel-page-1-back").flat.area()
    };
    // The leaf's fore-edge corners are free; its back's paper has a radius of 10 - 3.
    near(
        card(r#"{ "on": "leaf", "corners": "rounded", "size": 10 }"#),
        144.0 * 184.0 - 2.0 * (1.0 - PI / 4.0) * 49.0,
        1e-6,
    );
    near(
        card(r#"{ "on": "leaf", "corners": "clipped", "size": 10 }"#),
        144.0 * 184.0 - (10.0 - 3.0 * (2.0 - 2.0_f64.sqrt())).powi(2),
        1e-6,
    );
}

/// Perforations: cuts of 3 mm with ties of half that at least, 3 mm from the edge and from its ends.
#[test]
fn a_row_of_cuts_lies_along_its_edge() {
    let kit = kit(&card(
        (90.0, 130.0),
        r#"{ "on": "head", "finish": "perforated" }, { "on": "left", "finish": "slits", "size": 6, "depth": 4 }"#,
    ));
    let flat = &part(&kit, "journal-card-1").flat;
    let boxes: Vec<_> = flat.holes.iter().map(Contour::bounds).collect();
    let (along, square): (Vec<kurbo::Rect>, Vec<kurbo::Rect>) =
        boxes.into_iter().partition(|hole| hole.width() < 4.0 && hole.height() < 1.0);
    // 84 mm hold (84 - 1.5) / 4.5 = 18 cuts.
    assert_eq!((along.len(), square.len()), (18, 20)); // (130 - 8) / 6 slits
    assert!(along.iter().all(|hole| (hole.width() - 3.0).abs() < 1e-9 && (hole.y1 - 127.25).abs() < 1e-9));
    assert!(along.iter().all(|hole| hole.x0 > 3.0 + 1.5 - 1e-9 && hole.x1 < 87.0 - 1.5 + 1e-9));
    assert!(square.iter().all(|hole| (hole.width() - 6.0).abs() < 1e-9 && (hole.x0 - 4.0).abs() < 1e-9));
    // Beside a fold, too, on either panel.
    let fold = page(
        r#""kind": "wallet", "pocket": 110, "overflap": 50"#,
        r#"{ "on": "back/flap/left", "finish": "perforated" }"#,
    );
    assert!(ids(&fold).is_empty());
}

/// An album bound at the right is the mirror image, and its left is what its reader sees at the left.
#[test]
fn an_album_bound_at_the_right_is_the_mirror_image() {
    let cut = |bound: &str, side: &str| {
        let tag = format!(
            r#"{{ "kind": "journal-card", "width": 90, "height": 130, "corner": 0, "edges": [{{ "on": "{side}", "finish": "scallop" }}] }}"#
        );
        let kit = kit(&text(&[r#"{ "kind": "pocket" }"#], &[&tag], &format!(r#", "bound": "{bound}""#)));
        let flat = &part(&kit, "journal-card-1").flat;
        let left = flat.outline.vertices().iter().filter(|vertex| vertex.at.x < 45.0).count();
        left > flat.outline.vertices().len() / 2
    };
    for bound in ["left", "right"] {
        assert!(cut(bound, "left") && !cut(bound, "right"), "{bound}");
    }
}

/// A part with another edge is another part to whoever compares editions, and one cut alike is the same.
#[test]
fn another_edge_is_another_part() {
    let digest = |edges: &str| part(&kit(&card((100.0, 140.0), edges)), "journal-card-1").flat.digest();
    let plain = digest("");
    let scallop = digest(r#"{ "on": "head", "finish": "scallop" }"#);
    assert_ne!(plain, scallop);
    assert_ne!(scallop, digest(r#"{ "on": "tail", "finish": "scallop" }"#));
    assert_ne!(scallop, digest(r#"{ "on": "head", "finish": "wave" }"#));
    assert_ne!(plain, digest(r#"{ "on": "head", "finish": "slits" }"#));
    assert_eq!(
        scallop,
        digest(r#"{ "on": "journal-card/head", "finish": "scallop", "size": "8 mm", "depth": "2.5 mm" }"#)
    );
}

/// What is cut of an entry at random.
fn asked(dice: &mut Dice, names: &[String]) -> String {
    let pick = |dice: &mut Dice, many: usize| usize::try_from(dice.from(0, i64::try_from(many).unwrap() - 1)).unwrap();
    let mut edges = Vec::new();
    for _ in 0..dice.from(1, 3) {
        let name = &names[pick(dice, names.len())];
        let mut edge = if dice.from(0, 4) == 0 {
            let word = CornerWord::ALL[pick(dice, CornerWord::ALL.len())].word();
            format!(r#""on": "{}", "corners": "{word}""#, name.split('/').next().unwrap())
        } else {
            let word = FinishWord::ALL[pick(dice, FinishWord::ALL.len())];
            let depth = format!(r#", "depth": {}.{}"#, dice.from(1, 9), dice.from(0, 9));
            format!(
                r#""on": "{name}", "finish": "{}"{}"#,
                word.word(),
                if dice.from(0, 2) == 0 { depth.as_str() } else { "" }
            )
        };
        if dice.from(0, 1) == 0 {
            edge = format!(r#"{edge}, "size": {}.{}"#, dice.from(2, 40), dice.from(0, 9));
        }
        edges.push(format!("{{ {edge} }}"));
    }
    format!("[{}]", edges.join(", "))
}

fn made(text: &str) -> Option<Kit> {
    let made = parts::kit(&album(text), &Cutter::default());
    made.value.filter(|_| !stops(&made.findings))
}

/// Over random kinds, edges and patterns: every part is sound and within the uncut one, its scores are where they were, and it is as
/// large as its outline's own walk says. `HINGELEAF_LONG=1` tries more of them.
#[test]
fn whatever_is_cut_is_still_a_part() {
    let tries = if std::env::var_os("HINGELEAF_LONG").is_some() { 20_000 } else { 400 };
    let mut runner = TestRunner::new_with_rng(Config::default(), TestRng::from_seed(RngAlgorithm::ChaCha, &[29; 32]));
    let (mut dice, mut cut, mut told) = (Dice(11), 0, 0);
    for _ in 0..tries {
        let (maker, entry) = altered().new_tree(&mut runner).unwrap().current();
        if !matches!(maker.kind.role, Role::Page | Role::Insert) {
            continue;
        }
        let with = |edges: &str| {
            let mut entry = entry.clone();
            entry["edges"] = serde_json::from_str(edges).unwrap();
            example(maker).replacen(maker.example, &entry.to_string(), 1)
        };
        let source = hingeleaf::fields::Source::new("random.json", with("[]").into_bytes()).unwrap();
        if hingeleaf::album::read(&source, &parts::kinds()).value.is_none() {
            continue;
        }
        let Some(plain) = made(&with("[]")) else { continue };
        let names = free(&with(r#"[{ "on": "zzzzzzzzzzzzzzzz", "finish": "wave" }]"#));
        if names.is_empty() {
            continue;
        }
        let text = with(&asked(&mut dice, &names));
        let Some(edged) = made(&text) else {
            told += 1;
            continue;
        };
        cut += 1;
        let own = |kit: &Kit| -> Vec<hingeleaf::net::Flat> {
            let of_it = |piece: &&parts::Piece| kit.parts[piece.part].kind != "panel";
            kit.pieces.iter().filter(of_it).map(|piece| piece.net.flat().unwrap()).collect()
        };
        assert_eq!(own(&plain).len(), own(&edged).len(), "{text}");
        for (was, is) in own(&plain).iter().zip(own(&edged)) {
            assert!(is.outline.is_simple(), "{text}");
            near(is.outline.area(), walked(&is.outline), 0.2);
            near(is.width, was.width, 1e-6);
            near(is.height, was.height, 1e-6);
            // A tool of 0.1 mm goes round it and into every cut.
            assert!(grow(&is.outline, &is.holes, 0.05).is_ok(), "{text}");
            let inside = |point: Point| was.outline.contains(point) || was.outline.distance(point) < 1e-6;
            assert!(is.outline.vertices().iter().all(|vertex| inside(vertex.at)), "{text}");
            // Scores are those of before; a hole that is new keeps off all of them.
            assert_eq!(was.scores.len(), is.scores.len(), "{text}");
            for (one, other) in was.scores.iter().zip(&is.scores) {
                assert!(one.from.distance(other.from) < 1e-6 && one.to.distance(other.to) < 1e-6, "{text}");
                let spots = (1..50).map(|step| one.from.lerp(one.to, f64::from(step) / 50.0));
                assert!(spots.into_iter().all(|spot| is.outline.contains(spot)), "{text}");
            }
        }
    }
    assert!(cut > tries / 10 && told > tries / 20, "{cut} cut, {told} told");
}
