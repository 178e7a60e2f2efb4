// SPDX-License-Identifier: MIT
//! The kinds of page beside pocket and wallet: sizes worked by hand, the folded page, every kind beside every other.

use crate::common::{INCH, album, cutter, kit, near, part};
use hingeleaf::cutter::Cutter;
use hingeleaf::finding::{Finding, Level};
use hingeleaf::fit;
use hingeleaf::folded::{Folded, fold};
use hingeleaf::net::{Sense, Use, lifted};
use hingeleaf::parts::{self, Hold, Kit, Part};
use proptest::prelude::*;
use std::f64::consts::{PI, SQRT_2};

const CALIPER: f64 = 0.3;

/// Every kind of page, with what it needs and two ways of having it.
const PAGES: &[&str] = &[
    r#""kind": "sleeve""#,
    r#""kind": "notched""#,
    r#""kind": "side-loading""#,
    r#""kind": "side-loading", "faces": "back", "pocket": 100"#,
    r#""kind": "waterfall""#,
    r#""kind": "waterfall", "steps": 4, "step": 20, "faces": "back""#,
    r#""kind": "gate-fold""#,
    r#""kind": "gate-fold", "faces": "back", "gap": 30"#,
    r#""kind": "fold-out""#,
    r#""kind": "fold-out", "faces": "back""#,
    r#""kind": "fold-out", "leaves": 2"#,
    r#""kind": "fold-out", "leaves": 2, "faces": "back""#,
    r#""kind": "tuck-envelope""#,
    r#""kind": "tuck-envelope", "faces": "back", "front": 150"#,
    r#""kind": "corner-mount", "print": "3R""#,
    r#""kind": "corner-mount", "print": "3R", "lies": "across", "corner": 20"#,
    r#""kind": "frame", "print": "3R""#,
    r#""kind": "frame", "print": "9x13", "lies": "across", "faces": "back""#,
    r#""kind": "divider""#,
    r#""kind": "divider", "tab_of": 4, "position": 4"#,
    r#""kind": "library-card""#,
    r#""kind": "library-card", "mouth": "notched", "faces": "back""#,
    r#""kind": "library-card", "mouth": "slanted", "faces": "back", "raise": 0"#,
    r#""kind": "library-card", "mouth": "straight""#,
    r#""kind": "corner-mount", "print": "3R", "mount": "triangles""#,
    r#""kind": "corner-mount", "print": "9x13", "mount": "triangles", "lies": "across", "corner": 8"#,
];

const OLD: [&str; 3] = [
    r#""kind": "pocket""#,
    r#""kind": "wallet", "pocket": 100, "overflap": 60"#,
    r#""kind": "wallet", "pocket": 100, "overflap": 60, "faces": "back""#,
];

/// An album in mm with panels of paper on every face, 148 x 190 with seams of 12 and tabs of 12.
fn text(pages: &[&str]) -> String {
    let pages: Vec<String> = pages.iter().map(|page| format!("{{ {page} }}")).collect();
    format!(
        r#"{{ "format": "hingeleaf-album/1",
          "stocks": {{ "card": {{ "sheet": "A2", "caliper": {CALIPER} }}, "paper": {{ "sheet": "A3", "caliper": 0.1 }} }},
          "page": {{ "width": 148, "height": 190, "seam": 12 }}, "pages": [{}],
          "spine": {{ "kind": "flexi-hinge", "pitch": 8, "tab": 12, "gusset": 8 }},
          "panels": {{ "reveal": 3, "stock": "paper" }} }}"#,
        pages.join(", ")
    )
}

/// The trade's inch page: 6 1/4 x 8 1/2 in with 1/2 in seams and tabs (common practice, no source).
fn inch_text(page: &str) -> String {
    format!(
        r#"{{ "format": "hingeleaf-album/1", "units": "in",
          "stocks": {{ "card": {{ "sheet": "A2", "caliper": "12 pt" }} }},
          "page": {{ "width": "6 1/4", "height": "8 1/2", "seam": "1/2" }}, "pages": [{{ {page} }}],
          "spine": {{ "kind": "flexi-hinge", "tab": "1/2", "gusset": "1/4", "pitch": "1/4" }} }}"#
    )
}

/// What stops or warns.
fn grave(text: &str) -> Vec<Finding> {
    let album = album(text);
    let made = parts::kit(&album, &Cutter::default());
    let mut findings = made.findings;
    if let Some(kit) = &made.value {
        findings.extend(fit::check(&album, kit, &cutter(0.0, 0.0, 0.0)).findings);
    }
    findings.retain(|finding| finding.level != Level::Note);
    findings
}

#[track_caller]
fn sized(part: &Part, unit: f64, width: f64, height: f64) {
    near(part.flat.width, width * unit, 1e-9);
    near(part.flat.height, height * unit, 1e-9);
}

/// Scores as where they stand (their box's lower left) and their sense, in order.
fn scores(part: &Part) -> Vec<(f64, f64, Sense)> {
    let mut found: Vec<_> = part
        .flat
        .scores
        .iter()
        .map(|score| (score.from.x.min(score.to.x), score.from.y.min(score.to.y), score.sense))
        .collect();
    found.sort_by(|one, two| (one.0, one.1).partial_cmp(&(two.0, two.1)).unwrap());
    found
}

#[track_caller]
fn scored(part: &Part, unit: f64, expected: &[(f64, f64, Sense)]) {
    let found = scores(part);
    assert_eq!(found.len(), expected.len(), "{found:?}");
    for (found, wanted) in found.iter().zip(expected) {
        near(found.0, wanted.0 * unit, 1e-9);
        near(found.1, wanted.1 * unit, 1e-9);
        assert_eq!(found.2, wanted.2, "{found:?}");
    }
}

/// A pocket page's two pieces of 6 1/4 x 9 in, scored at 1/2 (common practice, no source), joined at the head: one piece
/// 17 1/2 tall, scored at 1/2 and 9. Both folds go behind.
#[test]
fn a_sleeve_is_a_pocket_page_in_one_piece() {
    let made = kit(&inch_text(PAGES[0]));
    let sleeve = part(&made, "page-1-sleeve");
    sized(sleeve, INCH, 6.25, 17.5);
    scored(sleeve, INCH, &[(0.0, 0.5, Sense::Mountain), (0.0, 9.0, Sense::Mountain)]);
    assert_eq!(made.parts.iter().filter(|part| part.kind == "one-piece sleeve").count(), 1);
}

/// The pocket page's front less half a disc of 3/4 in (derived).
#[test]
fn a_notched_page_has_half_a_disc_less() {
    let made = kit(&inch_text(PAGES[1]));
    let front = part(&made, "page-1-front");
    sized(front, INCH, 6.25, 9.0);
    near(front.flat.area(), (6.25 * 9.0 - PI * 0.375 * 0.375 / 2.0) * INCH * INCH, 1e-9);
    // The notch is at half the page's height, on the fore-edge, which is at the right of a front.
    let deepest = front
        .flat
        .outline
        .vertices()
        .iter()
        .map(|vertex| vertex.at)
        .find(|at| (at.x - (6.25 - 0.375) * INCH).abs() < 1e-9 && (at.y - 4.25 * INCH).abs() < 1e-9);
    assert!(deepest.is_some(), "{:?}", front.flat.outline.vertices());
    near(part(&made, "page-1-back").flat.area(), 6.25 * 9.0 * INCH * INCH, 1e-9);
}

/// 148 x 190 with 12 for tab and seams: a front of 136 and one seam of 12 beside it, 190 and two of 12. Its seams are two
/// trapezes cut at one end and one cut at both (D7): 12 x (136 + 124) / 2 twice, 12 x (190 + 166) / 2.
#[test]
fn a_side_loading_pocket_keeps_clear_of_the_tab() {
    for (page, spine) in [(r#""kind": "side-loading""#, 12.0), (r#""kind": "side-loading", "faces": "back""#, 136.0)] {
        let made = kit(&text(&[page]));
        let pocket = part(&made, "page-1-pocket");
        sized(pocket, 1.0, 148.0, 214.0);
        near(pocket.flat.area(), 136.0 * 190.0 + 12.0 * 260.0 + 12.0 * 178.0, 1e-9);
        let folds = pocket.net.folds.iter().filter(|fold| (fold.from.x - fold.to.x).abs() < 1e-9);
        assert_eq!(folds.map(|fold| fold.from.x).collect::<Vec<_>>(), [spine], "the upright seam is at the spine");
        assert!(pocket.flat.scores.iter().all(|score| score.sense == Sense::Mountain), "seams turn under");
        sized(part(&made, "page-1-leaf"), 1.0, 148.0, 190.0);
    }
}

/// Each mouth a step lower: 190 - 25, - 50, - 75 (derived), each with a seam of 12 at the tail and at both sides.
#[test]
fn a_waterfall_goes_down_by_a_step_each() {
    let made = kit(&text(&[PAGES[4]]));
    for (number, tall) in [(1, 165.0), (2, 140.0), (3, 115.0)] {
        let pocket = part(&made, &format!("page-1-pocket-{number}"));
        sized(pocket, 1.0, 160.0, tall + 12.0);
        let seams = 12.0 * (136.0 + 112.0) / 2.0 + 12.0 * (2.0 * tall - 12.0);
        near(pocket.flat.area(), 136.0 * tall + seams, 1e-9);
    }
    assert_eq!(made.pockets.len(), 3);
    // A pocket takes what looks out by as much as it is deep, at most up to the head.
    assert_eq!(made.pockets.iter().map(|pocket| pocket.height).collect::<Vec<_>>(), [165.0, 140.0, 115.0]);
    let up_to = made.pockets.iter().map(|pocket| pocket.height + pocket.beyond[1]);
    assert_eq!(up_to.collect::<Vec<_>>(), [190.0; 3]);
}

/// Doors of (190 - 2) / 2 = 94 (derived): 378 in all, scored at 94 and 284, both forward.
#[test]
fn a_gate_has_two_half_doors() {
    let made = kit(&text(&[PAGES[6]]));
    let gate = part(&made, "page-1-gate");
    sized(gate, 1.0, 148.0, 378.0);
    scored(gate, 1.0, &[(0.0, 94.0, Sense::Valley), (0.0, 284.0, Sense::Valley)]);
}

/// 148, 146 and 144 (derived from the step of 2): 294 for one leaf, 438 for two; the first comes forward, the second goes
/// back. On a page's back the same the other way round.
#[test]
fn fold_out_leaves_are_narrower_by_a_step_each() {
    let one = kit(&text(&[PAGES[8]]));
    sized(part(&one, "page-1-fold-out"), 1.0, 294.0, 190.0);
    scored(part(&one, "page-1-fold-out"), 1.0, &[(148.0, 0.0, Sense::Valley)]);
    let two = kit(&text(&[PAGES[10]]));
    sized(part(&two, "page-1-fold-out"), 1.0, 438.0, 190.0);
    scored(part(&two, "page-1-fold-out"), 1.0, &[(148.0, 0.0, Sense::Valley), (294.0, 0.0, Sense::Mountain)]);
    let behind = kit(&text(&[PAGES[11]]));
    scored(part(&behind, "page-1-fold-out"), 1.0, &[(144.0, 0.0, Sense::Mountain), (290.0, 0.0, Sense::Valley)]);
}

/// Front 120, tuck 20: a flap of 190 - 120 + 20 = 90 (derived), 400 in all; 148 and the outer seam of 12 wide, the inner
/// one lies over the tab's place. Flap: 148 - 12 - 2 wide, less two corners of 5 x 5 / 2.
#[test]
fn a_tuck_envelope_is_one_piece() {
    let made = kit(&text(&[r#""kind": "tuck-envelope", "front": 120"#]));
    let envelope = part(&made, "page-1-envelope");
    sized(envelope, 1.0, 160.0, 400.0);
    let (front, flap, seams) = (136.0 * 120.0, 134.0 * 90.0 - 25.0, 2.0 * 12.0 * (120.0 + 96.0) / 2.0);
    near(envelope.flat.area(), 148.0 * 190.0 + front + flap + seams, 1e-9);
    assert!(envelope.flat.scores.iter().all(|score| score.sense == Sense::Valley));
    // Their ends at half the corner (D7): 45 degrees.
    let seam = envelope.net.panels.iter().find(|panel| panel.name == "outer seam").unwrap();
    let cut = seam.outline.edges().filter(|edge| {
        let way = edge.to - edge.from;
        (way.x.abs() - way.y.abs()).abs() < 1e-9
    });
    assert_eq!(cut.count(), 2);
}

/// Slots for a 3R (3 1/2 x 5 in): 15 along each edge, so 15 sqrt 2 and 1.5 long, 0.5 wide (G3: 1 to 2 longer, print's
/// thickness of up to 0.28 and 0.2 wide; from memory, no source). They take a print 1 mm larger (P1).
#[test]
fn corner_slots_take_the_corners_of_a_print() {
    let made = kit(&text(&[PAGES[14]]));
    let front = part(&made, "page-1-front");
    let long = 15.0 * SQRT_2 + 1.5;
    near(front.flat.area(), 148.0 * 202.0 - 4.0 * long * 0.5, 1e-9);
    assert_eq!(front.flat.holes.len(), 4);
    let (wide, tall) = (3.5 * INCH + 1.0, 5.0 * INCH + 1.0);
    for hole in &front.flat.holes {
        let middle = hole.bounds().center();
        near((middle.x - 74.0).abs(), wide / 2.0 - 7.5, 1e-9);
        near((middle.y - 95.0).abs(), tall / 2.0 - 7.5, 1e-9);
        // At 45 degrees, so as far across as up, and the right way: its ends lie nearer to the print's edges.
        near(hole.bounds().width(), (long + 0.5) / SQRT_2, 1e-9);
        near(hole.bounds().height(), (long + 0.5) / SQRT_2, 1e-9);
        let end = hole.vertices().iter().map(|vertex| (vertex.at.x - 74.0).abs()).fold(0.0, f64::max);
        near(end, wide / 2.0 + 1.0 / SQRT_2, 1e-9);
        let ends_up = hole.vertices().iter().find(|vertex| ((vertex.at.x - 74.0).abs() - end).abs() < 1e-9).unwrap();
        assert!((ends_up.at.y - 95.0).abs() < tall / 2.0 - 14.0, "the slot's outer end is 15 along the upright edge");
    }
}

/// Triangles take 15 of a 3R's edges, with 0.5 round it: legs of 15.5. Their seams are cut at half of each corner, 45 degrees
/// at the right angle and 22.5 at the others: a seam d deep is leg - d (1 + cot 22.5) long at its edge, cot 22.5 being 1 + sqrt 2
/// (D7), and an eighth less than that allows: d = 7/8 leg / (2 + sqrt 2) = 3.972. Slots have gone from the front.
#[test]
fn stuck_triangles_take_the_corners_of_a_print() {
    let made = kit(&text(&[r#""kind": "corner-mount", "print": "3R", "mount": "triangles""#]));
    assert!(made.parts.iter().all(|part| part.flat.holes.is_empty()));
    // Lower left and upper right are one part, half a turn apart; so are the other two.
    let found: Vec<_> = made.parts.iter().filter(|part| part.kind == "photo corner").collect();
    assert_eq!(found.iter().map(|part| part.count).collect::<Vec<_>>(), [2, 2]);
    let (leg, deep) = (15.5, 15.5 * 0.875 / (2.0 + SQRT_2));
    let seam = deep * (leg + leg - deep * (2.0 + SQRT_2)) / 2.0;
    for part in found {
        near(part.flat.area(), leg * leg / 2.0 + 2.0 * seam, 1e-9);
        near(part.flat.width, leg + deep, 1e-9);
        near(part.flat.height, leg + deep, 1e-9);
        assert!(part.flat.scores.iter().all(|score| score.sense == Sense::Mountain));
    }
    // Large corners have seams of 6, which are enough.
    let made = kit(&text(&[r#""kind": "corner-mount", "print": "3R", "mount": "triangles", "corner": 30"#]));
    near(part(&made, "page-1-corner-1").flat.width, 30.5 + 6.0, 1e-9);
}

/// The window for a 4 x 6 in print overlaps it by 1/8 in at each side: 3 3/4 x 5 3/4 in. The pocket is 1/8 in larger in
/// all (C2), its seams 1/2 in.
#[test]
fn a_frame_has_a_window_smaller_than_its_print() {
    let made = kit(&inch_text(r#""kind": "frame", "print": "4R""#));
    let frame = part(&made, "page-1-frame");
    let window = frame.flat.holes[0].bounds();
    near(window.width(), 3.75 * INCH, 1e-9);
    near(window.height(), 5.75 * INCH, 1e-9);
    sized(frame, INCH, 4.0 + 0.125 + 0.5, 6.0 + 0.125 + 1.0);
    // In the middle of its pocket, which begins behind the seam at the spine.
    near(window.center().x, (0.5 + 4.125 / 2.0) * INCH, 1e-9);
    near(window.center().y, (0.5 + 6.125 / 2.0) * INCH, 1e-9);
    let lying = kit(&inch_text(r#""kind": "frame", "print": "4x6in", "lies": "across""#));
    near(part(&lying, "page-1-frame").flat.holes[0].bounds().width(), 5.75 * INCH, 1e-9);
}

/// Five places on 190: 38 each, the second from the head from 114 to 152; 10 out, corners of 3 x 3 / 2 off (derived).
#[test]
fn a_divider_has_its_tab_in_its_place() {
    let made = kit(&text(&[r#""kind": "divider", "position": 2"#]));
    let leaf = part(&made, "page-1-divider");
    sized(leaf, 1.0, 158.0, 190.0);
    near(leaf.flat.area(), 148.0 * 190.0 + 380.0 - 9.0, 1e-9);
    let beyond: Vec<f64> =
        leaf.flat.outline.vertices().iter().filter(|v| v.at.x > 148.0 + 1e-9).map(|v| v.at.y).collect();
    near(beyond.iter().copied().fold(f64::INFINITY, f64::min), 114.0, 1e-9);
    near(beyond.iter().copied().fold(0.0, f64::max), 152.0, 1e-9);
    // Five dividers fill the fore-edge, and are five parts.
    let all: Vec<String> = (1..=5).map(|place| format!(r#""kind": "divider", "position": {place}"#)).collect();
    let all = kit(&text(&all.iter().map(String::as_str).collect::<Vec<_>>()));
    assert!(all.parts.iter().filter(|part| part.kind == "divider").count() >= 3, "upside down, two are the same");
}

/// 80 wide, 60 tall at the spine and 45 at the fore-edge (slant 15), seams of 12: 80 x (60 + 45) / 2, the tail's trapeze
/// 12 x (80 + 56) / 2; the tall seam ends below the slant: 12 x (60 + 60 - 12 - 15 x 12 / 80) / 2, the low one
/// 12 x (45 + 45 - 12) / 2 (derived).
#[test]
fn a_library_pocket_falls_to_the_fore_edge() {
    let made = kit(&text(&[PAGES[20]]));
    let pocket = part(&made, "page-1-pocket");
    sized(pocket, 1.0, 104.0, 72.0);
    let seams = 12.0 * 68.0 + 6.0 * (108.0 - 2.25) + 6.0 * 78.0;
    near(pocket.flat.area(), 80.0 * 52.5 + seams, 1e-9);
    let tallest = pocket.flat.outline.vertices().iter().find(|v| (v.at.y - 72.0).abs() < 1e-9).unwrap();
    near(tallest.at.x, 12.0, 1e-9);
    // A 3 in card and 3.2 mm to slide in (C2, P3) go in.
    assert!(made.pockets[0].width >= 3.0 * INCH + 3.2);
}

/// A point of a panel of a piece on the folded album.
fn at(kit: &Kit, folded: &Folded, name: &str, panel: &str, point: (f64, f64)) -> [f64; 3] {
    let piece =
        kit.pieces.iter().position(|piece| piece.name.to_string() == name).unwrap_or_else(|| panic!("no {name}"));
    let panel = kit.pieces[piece].net.panel(panel).unwrap();
    lifted(folded.stand(piece, panel).unwrap(), point.into(), 0.0)
}

fn folded(text: &str) -> (Kit, Folded) {
    let made = kit(text);
    let folded = fold(&made, &[CALIPER, 0.1]);
    (made, folded)
}

/// Pages stand on the spine: x from left to right, y from tail to head, z from the root to the fore-edge. A page's front
/// looks to the left, so what lies before it is at smaller x.
#[test]
#[expect(clippy::too_many_lines, reason = "a table of places")]
fn folded_pages_are_where_they_should_be() {
    let t = CALIPER;
    for place in [1, 2] {
        let pages = |page: &str| {
            let pages = if place == 1 { [page, OLD[0]] } else { [OLD[0], page] };
            let (kit, folded) = folded(&text(&pages));
            move |piece: &str, panel: &str, point: (f64, f64)| {
                at(&kit, &folded, &format!("page {place} {piece}"), panel, point)
            }
        };
        // The sleeve's back comes down to the tail, one caliper behind.
        let sleeve = pages(PAGES[0]);
        let (front, back) = (sleeve("sleeve", "front", (0.0, 12.0)), sleeve("sleeve", "back", (0.0, 392.0)));
        near(front[1], 0.0, 1e-9);
        near(back[1], 0.0, 1e-9);
        near(back[0] - front[0], t, 1e-9);
        near(back[2], front[2], 1e-9);

        // The side-loading pocket ends at the fore-edge, in front of its leaf and its seams; on the back behind it.
        for (page, before, corner, mouth) in
            [(PAGES[2], -1.0, (0.0, 0.0), (148.0, 12.0)), (PAGES[3], 1.0, (148.0, 0.0), (0.0, 12.0))]
        {
            let side = pages(page);
            let (spine, mouth) = (side("leaf", "leaf", corner), side("pocket", "pocket", mouth));
            near(mouth[2] - spine[2], 148.0, 1e-9);
            near(mouth[0] - spine[0], before * 2.0 * t, 1e-9);
            near(mouth[1], 0.0, 1e-9);
        }

        // Mouths of the waterfall at 165, 140, 115; two calipers farther in front each.
        let waterfall = pages(PAGES[4]);
        for (number, tall) in [(1.0, 165.0), (2.0, 140.0), (3.0, 115.0)] {
            let mouth = waterfall(&format!("pocket {number}"), "pocket", (148.0, tall + 12.0));
            let leaf = waterfall("leaf", "leaf", (148.0, 0.0));
            near(mouth[1], tall, 1e-9);
            near(mouth[2], leaf[2], 1e-9);
            near(leaf[0] - mouth[0], 2.0 * t * number, 1e-9);
        }

        // The doors' free edges leave the gap; on the back they lie behind.
        for (page, door, gap, before) in [(PAGES[6], 94.0, 2.0, -1.0), (PAGES[7], 80.0, 30.0, 1.0)] {
            let gate = pages(page);
            let low = gate("gate", "lower door", (0.0, 0.0));
            let high = gate("gate", "upper door", (0.0, 190.0 + 2.0 * door));
            let leaf = gate("gate", "page", (0.0, door));
            near(high[1] - low[1], gap, 1e-9);
            near(low[1], door, 1e-9);
            near(low[0] - leaf[0], before * t, 1e-9);
            near(high[2], leaf[2], 1e-9);
        }

        // The first leaf ends 2 from the spine, the second 2 from the fore-edge, one caliper farther each.
        for (page, spine, first, second, before) in
            [(PAGES[10], 0.0, 294.0, 438.0, -1.0), (PAGES[11], 438.0, 144.0, 0.0, 1.0)]
        {
            let out = pages(page);
            let root = out("fold-out", "page", (spine, 0.0));
            let (one, two) =
                (out("fold-out", "first leaf", (first, 0.0)), out("fold-out", "second leaf", (second, 0.0)));
            near(one[2] - root[2], 2.0, 1e-9);
            near(two[2] - root[2], 146.0, 1e-9);
            near(one[0] - root[0], before * t, 1e-9);
            near(two[0] - root[0], 2.0 * before * t, 1e-9);
        }

        // The front comes up to 120; the flap's tip is 20 below that, on the page's front side.
        let tuck = pages(r#""kind": "tuck-envelope", "front": 120"#);
        let (mouth, tip) = (tuck("envelope", "front", (148.0, 0.0)), tuck("envelope", "flap", (20.0, 400.0)));
        let leaf = tuck("envelope", "page", (148.0, 120.0));
        near(mouth[1], 120.0, 1e-9);
        near(tip[1], 100.0, 1e-9);
        near(mouth[0] - leaf[0], -t, 1e-9);
        near(mouth[2], leaf[2], 1e-9);

        // The frame is in the middle of its page: 3R and 3.2 of play, 92.1 x 130.2 and so 92.5 x 130.5 on a ruler, on 148 x 190.
        let frame = pages(PAGES[16]);
        let (low, high) = (frame("frame", "pocket", (12.0, 12.0)), frame("frame", "pocket", (104.5, 142.5)));
        let (tail, head) = (frame("leaf", "leaf", (0.0, 0.0)), frame("leaf", "leaf", (148.0, 190.0)));
        near(low[1] - tail[1], head[1] - high[1], 1e-9);
        near(low[2] - tail[2], head[2] - high[2], 1e-9);

        // The index stands out beyond the fore-edge, the first one at the head.
        let divider = pages(PAGES[18]);
        let (index, leaf) = (divider("divider", "leaf", (158.0, 187.0)), divider("divider", "leaf", (148.0, 190.0)));
        near(index[2] - leaf[2], 10.0, 1e-9);
        near(leaf[1], 190.0, 1e-9);
    }
}

/// Alone, first, last and in the middle, beside every other kind, with panels on every face.
#[test]
fn every_kind_goes_together_alone_and_mixed() {
    // A 3R that lies across leaves 10.5 mm beside it, and a tab of 14 mm is stuck there: its corners are said to be blocked.
    let grave = |text: &str| {
        let mut found = grave(text);
        found.retain(|finding| finding.id != "corner-blocked" || !text.contains(r#""print": "3R", "lies": "across""#));
        found
    };
    for page in PAGES.iter().chain(&OLD) {
        for pages in
            [vec![*page], vec![*page; 2], vec![*page; 3], vec![OLD[0], page, OLD[1]], vec![OLD[2], page, OLD[0], page]]
        {
            let found = grave(&text(&pages));
            assert!(found.is_empty(), "{pages:?}: {found:#?}");
        }
    }
    for start in 0..PAGES.len() {
        let pages: Vec<&str> = PAGES.iter().chain(&OLD).copied().cycle().skip(start).take(5).collect();
        let found = grave(&text(&pages));
        assert!(found.is_empty(), "{pages:?}: {found:#?}");
    }
    let all: Vec<&str> = PAGES.iter().chain(&OLD).copied().collect();
    let found = grave(&text(&all));
    assert!(found.is_empty(), "{found:#?}");
}

/// A page that hangs by a single leaf has its thickness, with the tab: gate-fold 2 leaves and a tab, fold-out 3.
#[test]
fn single_leaves_are_counted() {
    let plain = |pages: &[&str]| text(pages).replace(r#", "paper": { "sheet": "A3", "caliper": 0.1 }"#, "");
    let plain =
        |pages: &[&str]| plain(pages).replace(r#""panels": { "reveal": 3, "stock": "paper" }"#, r#""inserts": []"#);
    // In the middle and at the spine, where the tab is; the waterfall has three seams at the tail, and begins beside the tab.
    for (page, middle, spine) in
        [(PAGES[6], 2.0, 3.0), (PAGES[10], 3.0, 2.0), (PAGES[18], 1.0, 2.0), (PAGES[4], 7.0, 2.0)]
    {
        let text = plain(&[page, OLD[0]]);
        let made = kit(&text);
        let stack = fold(&made, &[CALIPER]).stack(&made, 1);
        near(stack.between(60.0, 80.0), middle * CALIPER, 1e-9);
        near(stack.between(0.0, 1.0), spine * CALIPER, 1e-9);
    }
}

/// Sizes that do not work are told, at their place, with both numbers and a way out.
#[test]
fn sizes_that_do_not_work_are_told() {
    for (page, id) in [
        (r#""kind": "side-loading", "pocket": 149, "#, "pocket-too-wide"),
        (r#""kind": "side-loading", "pocket": 20, "#, "pocket-too-narrow"),
        (r#""kind": "waterfall", "steps": 4, "step": 50, "#, "steps-too-tall"),
        (r#""kind": "waterfall", "pocket": 23, "#, "pocket-too-narrow"),
        (r#""kind": "gate-fold", "gap": 175, "#, "gap-too-large"),
        (r#""kind": "fold-out", "leaves": 2, "step": 65, "#, "step-too-large"),
        (r#""kind": "fold-out", "leaves": 2, "step": 1, "#, "fold-out-tight"),
        (r#""kind": "tuck-envelope", "front": 191, "#, "front-too-tall"),
        (r#""kind": "tuck-envelope", "front": 23, "#, "pocket-too-low"),
        (r#""kind": "tuck-envelope", "tuck": 70, "#, "tuck-too-deep"),
        (r#""kind": "tuck-envelope", "lead_in": 21, "#, "lead-in-too-large"),
        (r#""kind": "corner-mount", "print": "8R", "#, "print-too-large"),
        (r#""kind": "corner-mount", "print": "5R", "lies": "across", "#, "print-too-large"),
        (r#""kind": "corner-mount", "print": "3R", "corner": 43, "#, "corner-too-large"),
        (r#""kind": "frame", "print": "8R", "#, "print-too-large"),
        (r#""kind": "frame", "print": "3R", "overlap": 1.6, "#, "overlap-wrong"),
        (r#""kind": "frame", "print": "3R", "overlap": 40, "#, "overlap-wrong"),
        (r#""kind": "frame", "print": "20x20mm", "#, "pocket-too-low"),
        (r#""kind": "divider", "tab_of": 3, "position": 4, "#, "no-such-place"),
        (r#""kind": "library-card", "height": 40, "slant": 20, "#, "pocket-too-low"),
        (r#""kind": "library-card", "raise": 131, "#, "pocket-too-tall"),
        (r#""kind": "library-card", "mouth": "notched", "notch": 57, "#, "notch-too-large"),
        (r#""kind": "library-card", "pocket": 149, "#, "pocket-too-wide"),
        (r#""kind": "frame", "print": "4S", "#, "unknown-print"),
        (r#""kind": "frame", "print": "4x6", "#, "unknown-print"),
    ] {
        let page = page.trim_end_matches(", ");
        let found = grave(&text(&[page]));
        assert_eq!(found.iter().map(|finding| finding.id).collect::<Vec<_>>(), [id], "{page}: {found:#?}");
        let (finding, numbers) = (&found[0], !["no-such-place", "unknown-print"].contains(&id));
        assert!(!finding.help.is_empty() && finding.place.is_some(), "{finding:?}");
        assert!(!numbers || (finding.measured.is_some() && finding.allowed.is_some()), "{finding:?}");
        assert!(!finding.text.to_string().contains('{') && !finding.text.to_string().contains('}'), "{}", finding.text);
        let place = finding.place.as_ref().unwrap();
        assert!(place.path.starts_with("pages[0]"), "{place:?}");
        near(f64::from(u32::try_from(place.line).unwrap()), 3.0, 0.0);
    }
    let low = text(&[r#""kind": "notched", "notch": 77"#]).replace("190", "100");
    assert_eq!(grave(&low)[0].id, "notch-too-large", "two seams of 12 leave 76 of 100");
    // 22 seams on a page 40 tall leave no pocket.
    let low = text(&[PAGES[2]]).replace("\"height\": 190, \"seam\": 12", "\"height\": 40, \"seam\": 22");
    assert_eq!(grave(&low)[0].id, "pocket-too-low");
    let low = text(&[r#""kind": "divider", "tab_of": 12"#]).replace("190", "110");
    assert_eq!(grave(&low)[0].id, "tab-too-low");
}

/// A page's sizes in whole millimetres, and a kind with fields of its own in permille of what they may be.
fn any_page() -> impl Strategy<Value = String> {
    let shares = prop::array::uniform4(0_u32..=1000);
    let choice = (0_usize..12, 0_u32..3, any::<bool>());
    let page = (50_u32..400, 60_u32..400, 3_u32..30, 5_u32..30, 2_u32..8);
    (page, choice, shares).prop_map(|((width, height, seam, tab, caliper), (kind, which, back), shares)| {
        let part =
            |index: usize, least: u32, most: u32| f64::from(least) + f64::from(shares[index] * (most - least)) / 1000.0;
        let faces = if back { "back" } else { "front" };
        let fields = match kind {
            0 => r#""kind": "sleeve""#.into(),
            1 => format!(r#""kind": "notched", "notch": {}"#, part(0, 6, 80)),
            2 => format!(r#""kind": "side-loading", "pocket": {}"#, part(0, 1, width)),
            3 => format!(r#""kind": "waterfall", "steps": {}, "step": {}"#, which + 2, part(0, 5, 60)),
            4 => format!(r#""kind": "gate-fold", "gap": {}"#, part(0, 0, height)),
            5 => format!(r#""kind": "fold-out", "leaves": {}, "step": {}"#, which % 2 + 1, part(0, 0, 60)),
            6 => format!(
                r#""kind": "tuck-envelope", "front": {}, "tuck": {}, "lead_in": {}"#,
                part(0, 1, height),
                part(1, 1, 60),
                part(2, 0, 30)
            ),
            7 => format!(
                r#""kind": "corner-mount", "print": "{}x{}mm", "corner": {}, "mount": "{}""#,
                part(0, 20, width),
                part(1, 20, height),
                part(2, 5, 60),
                if which % 2 == 0 { "slots" } else { "triangles" }
            ),
            8 => format!(
                r#""kind": "frame", "print": "{}x{}mm", "overlap": {}, "play": {}"#,
                part(0, 20, width),
                part(1, 20, height),
                part(2, 0, 20),
                part(3, 1, 20)
            ),
            9 => format!(
                r#""kind": "divider", "tab_of": {}, "position": {}, "index": {}"#,
                which + 3,
                which + 1,
                part(1, 3, 60)
            ),
            _ => format!(
                r#""kind": "library-card", "mouth": "{}", "pocket": {}, "height": {}, "raise": {}, "slant": {}"#,
                ["slanted", "notched", "straight"][usize::try_from(which).unwrap()],
                part(0, 20, width),
                part(1, 20, height),
                part(2, 0, 40),
                part(3, 0, 60)
            ),
        };
        let takes = ["side-loading", "waterfall", "gate-fold", "fold-out", "tuck", "frame", "library"];
        let faces = if takes.iter().any(|kind| fields.contains(kind)) {
            format!(r#", "faces": "{faces}""#)
        } else {
            String::new()
        };
        let text = text(&[&format!("{fields}{faces}"), OLD[0]]);
        text.replace(
            r#""width": 148, "height": 190, "seam": 12"#,
            &format!(r#""width": {width}, "height": {height}, "seam": {seam}"#),
        )
        .replace(r#""tab": 12"#, &format!(r#""tab": {tab}"#))
        .replace(r#""sheet": "A2", "caliper": 0.3"#, &format!(r#""sheet": "A2", "caliper": 0.{caliper}"#))
    })
}

/// Ids of findings that say that a size does not work; all others would be a page that is not sound.
const TOLD: &[&str] = &[
    "corner-blocked",
    "tab-over-seam",
    "notch-too-large",
    "pocket-too-wide",
    "pocket-too-narrow",
    "pocket-too-low",
    "pocket-too-tall",
    "steps-too-tall",
    "gap-too-large",
    "step-too-large",
    "front-too-tall",
    "tuck-too-deep",
    "lead-in-too-large",
    "print-too-large",
    "corner-too-large",
    "overlap-wrong",
    "tab-too-low",
    "seam-too-large",
];

/// What depends on the sheet, the card and the hinge, and not on the kind.
const ELSEWHERE: &[&str] = &[
    "fold-thick",
    "too-big",
    "gapes",
    "seam-narrow",
    "scores-too-close",
    "fold-out-tight",
    "panel-too-small",
    "tab-too-wide",
    "lead-in-too-small",
    "no-lead-in",
];

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(600) })]

    #[test]
    fn every_page_is_sound_or_its_size_is_told(text in any_page()) {
        let album = album(&text);
        let made = parts::kit(&album, &Cutter::default());
        let Some(kit) = made.value else {
            for finding in &made.findings {
                prop_assert!(TOLD.contains(&finding.id) || ELSEWHERE.contains(&finding.id), "{finding:?}\n{text}");
            }
            return Ok(());
        };
        for part in &kit.parts {
            sound(part).map_err(|error| TestCaseError::fail(format!("{}: {error}\n{text}", part.id)))?;
        }
        // What is stuck on a part, as the marks on it see it, lies on it.
        for (part, hidden) in kit.parts.iter().zip(kit.hidden()) {
            let bounds = part.flat.outline.bounds().inflate(1e-6, 1e-6);
            for rect in hidden.panels.iter().chain(&hidden.covered) {
                prop_assert!((bounds.union(*rect).area() - bounds.area()).abs() < 1e-9, "{}: {rect:?}\n{text}", part.id);
            }
        }
        let calipers: Vec<f64> = album.stocks.iter().map(|stock| stock.caliper.mm()).collect();
        let folded = fold(&kit, &calipers);
        for bond in kit.bonds.iter().filter(|bond| bond.hold == Hold::Stuck) {
            let panel = &kit.pieces[bond.one.piece].net.panels[bond.one.panel];
            if panel.purpose == Use::Seam {
                let lies = folded.overlap(&kit, (bond.one.piece, bond.one.panel), (bond.other.piece, bond.other.panel));
                // A notch or a slanted mouth may be where a seam is not: what counts is that no seam sticks out.
                let lies = lies.ok_or_else(|| TestCaseError::fail("a seam does not lie flat"))?;
                prop_assert!(lies.beyond < 1e-6, "{} of {}: {lies:?}\n{text}", panel.name, kit.pieces[bond.one.piece].name);
            }
        }
        for finding in fit::check(&album, &kit, &cutter(0.0, 0.0, 0.0)).findings {
            let told = finding.level == Level::Note || ELSEWHERE.contains(&finding.id) || TOLD.contains(&finding.id);
            prop_assert!(told, "{finding:?}\n{text}");
        }
    }
}

/// What must hold for every flat part.
fn sound(part: &Part) -> Result<(), String> {
    let flat = &part.flat;
    let panels: f64 = part.net.panels.iter().map(|panel| panel.outline.area()).sum();
    let holes: f64 = part.net.holes.iter().map(|hole| hole.area().abs()).sum();
    let check = |sound: bool, what: &str| if sound { Ok(()) } else { Err(what.to_owned()) };
    let corners = part.net.panels.iter().map(|panel| panel.outline.bounds()).reduce(|all, one| all.union(one));
    let low = corners.is_some_and(|all| all.x0.abs() < 1e-9 && all.y0.abs() < 1e-9);
    check(low, "its net does not lie where the part lies")?;
    check((flat.area() - panels + holes).abs() < 1e-9 * flat.area(), "its panels are not its area")?;
    for contour in std::iter::once(&flat.outline).chain(&flat.holes) {
        check(contour.is_simple(), "an outline crosses itself")?;
        check(contour.edges().all(|edge| edge.from.distance(edge.to) > 1e-6), "an edge of no length")?;
    }
    for score in &flat.scores {
        for end in [score.from, score.to] {
            let near = std::iter::once(&flat.outline).chain(&flat.holes).map(|contour| contour.distance(end));
            check(near.fold(f64::INFINITY, f64::min) < 1e-9, "a score ends beside the outline")?;
        }
        check(flat.outline.contains(score.from.midpoint(score.to)), "a score lies outside")?;
    }
    Ok(())
}
