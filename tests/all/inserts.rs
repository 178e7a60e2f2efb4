// SPDX-License-Identifier: MIT
//! Inserts: their sizes against hand-worked ones, how they fold, and how they fit pockets of any size.

use crate::common::{INCH, album, cutter, kit, near, part};
use hingeleaf::contour::Point;
use hingeleaf::cutter::Cutter;
use hingeleaf::finding::{Finding, Level};
use hingeleaf::folded::fold;
use hingeleaf::net::{Sense, Use, lifted};
use hingeleaf::parts::{self, Hold, Kit, Owner, Part};
use hingeleaf::{fit, net::Flat};
use proptest::prelude::*;
use std::f64::consts::PI;

/// An album with these pages and inserts, its card 0.3 mm thick.
fn with(pages: &str, inserts: &str) -> String {
    format!(
        r#"{{ "format": "hingeleaf-album/1",
          "stocks": {{ "card": {{ "sheet": "A2", "caliper": 0.3 }}, "leaf": {{ "sheet": "A3", "caliper": 0.2 }} }},
          "page": {{ "width": 148, "height": 190, "seam": 12 }}, "pages": [{pages}],
          "spine": {{ "kind": "flexi-hinge", "pitch": 12, "tab": 12, "gusset": 12 }},
          "inserts": [{inserts}] }}"#
    )
}

const POCKET: &str = r#"{ "kind": "pocket" }"#;
const WALLET: &str = r#"{ "kind": "wallet", "pocket": 110, "overflap": 45 }"#;

/// Everything that stops or warns.
fn complaints(text: &str) -> Vec<String> {
    let made = parts::kit(&album(text), &Cutter::default());
    let mut findings = made.findings;
    if let Some(kit) = made.value {
        findings.extend(fit::check(&album(text), &kit, &cutter(0.1, 1.0, 3.0)).findings);
    }
    findings.iter().filter(|finding| finding.level != Level::Note).map(Finding::headline).collect()
}

/// The findings of making the parts, by id.
fn made(text: &str) -> Vec<Finding> {
    parts::kit(&album(text), &Cutter::default()).findings
}

/// Where the scores stand along x or y, with their sense.
fn scores(flat: &Flat, upright: bool) -> Vec<(f64, Sense)> {
    let mut found: Vec<(f64, Sense)> = flat
        .scores
        .iter()
        .filter(|score| ((score.from.x - score.to.x).abs() < 1e-9) == upright)
        .map(|score| (if upright { score.from.x } else { score.from.y }, score.sense))
        .collect();
    found.sort_by(|one, two| one.0.total_cmp(&two.0));
    found
}

#[track_caller]
fn scored(part: &Part, upright: bool, expected: &[(f64, Sense)]) {
    let found = scores(&part.flat, upright);
    assert_eq!(found.len(), expected.len(), "{}: {found:?}", part.id);
    for ((at, sense), (wanted, folded)) in found.iter().zip(expected) {
        near(*at, *wanted, 1e-9);
        assert_eq!(sense, folded, "{} at {at}", part.id);
    }
}

#[track_caller]
fn sized(part: &Part, width: f64, height: f64) {
    near(part.flat.width, width, 1e-9);
    near(part.flat.height, height, 1e-9);
}

/// A point of a panel of a piece folded by itself, lifted over its middle.
#[track_caller]
fn folded_at(kit: &Kit, part_id: &str, panel: &str, (x, y): (f64, f64), above: f64) -> [f64; 3] {
    let part = part(kit, part_id);
    let number = part.net.panel(panel).unwrap();
    let caliper = if part.stock == 0 { 0.3 } else { 0.2 };
    lifted(&part.net.folded(caliper)[number], Point::new(x, y), above)
}

#[track_caller]
fn at(found: [f64; 3], expected: [f64; 3]) {
    for (found, expected) in found.into_iter().zip(expected) {
        near(found, expected, 1e-9);
    }
}

// Sizes.

/// Panels of 60 x 100 in a zigzag; nothing lies inside anything, so none is narrower. In 0.3 mm card panel k lies
/// 0.3 k behind the first one (derived: panel on panel).
#[test]
fn an_accordion_is_panels_folded_to_and_fro() {
    let made = kit(&with(POCKET, r#"{ "kind": "accordion", "width": 60, "height": 100, "panels": 4 }"#));
    let strip = part(&made, "accordion-1");
    sized(strip, 240.0, 100.0);
    scored(strip, true, &[(60.0, Sense::Mountain), (120.0, Sense::Valley), (180.0, Sense::Mountain)]);
    near(made.inserts[0].thickness, 1.2, 1e-9);
    near(made.inserts[0].width, 60.0, 1e-9);
    let stands = strip.net.folded(0.3);
    for (number, panel) in strip.net.panels.iter().enumerate() {
        let bounds = panel.outline.bounds();
        let xs = [bounds.x0, bounds.x1].map(|x| lifted(&stands[number], Point::new(x, 0.0), 0.0));
        let (left, right) = (xs[0][0].min(xs[1][0]), xs[0][0].max(xs[1][0]));
        near(left, 0.0, 1e-9);
        near(right, 60.0, 1e-9);
        let depth = (bounds.x0 / 60.0).round() * -0.3;
        near(xs[0][2], depth, 1e-9);
    }
}

/// Check value F9: round a height of 4.0 in card 0.30 thick the panel between scores is 4.30. Here W = 100 + 0.3: back
/// W - t = 100.0, edge 4.30, front 100.3, the other edge a caliper more, 4.60, and the lap 12. By hand:
/// 2 (100 + 4) + 4 x 0.3 + 12 = 221.2.
#[test]
fn a_belly_band_goes_round_its_bundle() {
    let text = r#"{ "kind": "belly-band", "width": 100, "thickness": 4, "height": 30, "ease": 0 }"#;
    let made = kit(&with(POCKET, text));
    let band = part(&made, "belly-band-1");
    sized(band, 221.2, 30.0);
    let mountain = Sense::Mountain;
    scored(band, true, &[(100.0, mountain), (104.3, mountain), (204.6, mountain), (209.2, mountain)]);
    // Folded, the inside is 100 x 4 (the lap lies outside), and the lap's back lies on the back's front.
    let left = |above| folded_at(&made, "belly-band-1", "left edge", (102.0, 0.0), above);
    let right = |above| folded_at(&made, "belly-band-1", "right edge", (206.0, 0.0), above);
    near(right(-0.15)[0] - left(-0.15)[0], 100.0, 1e-9);
    let (front, back) = (
        folded_at(&made, "belly-band-1", "front", (150.0, 0.0), -0.15),
        folded_at(&made, "belly-band-1", "back", (50.0, 0.0), -0.15),
    );
    near(front[2] - back[2], 4.0, 1e-9);
    let lap = folded_at(&made, "belly-band-1", "lap", (209.2 + 0.3, 0.0), -0.15);
    at(lap, folded_at(&made, "belly-band-1", "back", (0.0, 0.0), 0.15));
    // It goes into no pocket, and nothing is said about that.
    assert!(made.inserts.is_empty());
    assert_eq!(complaints(&with(POCKET, text)), Vec::<String>::new());
}

/// Round two cards of 0.3 mm a crease would be wider than the edge: one fold each, which takes up pi/2 (0.6 + 0.3) =
/// 1.414 (F6 for a stack: the middle of the card runs round it at (q + t)/2). Front 100.3 + 1.414, back 100.3 + 0.707 - 0.3.
#[test]
fn a_thin_bundle_takes_one_fold_at_each_edge() {
    let text = r#"{ "kind": "belly-band", "width": 100, "thickness": 0.6, "height": 30, "ease": 0 }"#;
    let made = kit(&with(POCKET, text));
    let taken = PI / 2.0 * 0.9;
    let (back, front) = (100.0 + taken / 2.0, 100.3 + taken);
    sized(part(&made, "belly-band-1"), back + front + 12.0, 30.0);
    scored(part(&made, "belly-band-1"), true, &[(back, Sense::Mountain), (back + front, Sense::Mountain)]);
    let bond = made.bonds.iter().position(|bond| bond.one.piece == bond.other.piece).unwrap();
    let misfit = fold(&made, &[0.3, 0.2]).misfits[bond].unwrap();
    assert!(misfit.aside < 1e-9 && misfit.askew < 1e-9, "{misfit:?}");
    assert_eq!(complaints(&with(POCKET, text)), Vec::<String>::new());
}

/// Check value F8: each nested leaf is 1 to 2 calipers shorter at the fore-edge, half-round 1.571. In 0.2 mm paper
/// leaf k of a 70 mm wide booklet is 2 (70 - 0.314 k) wide. Holes: sixths of 120 (common practice, no source).
#[test]
fn a_booklets_inner_leaves_are_trimmed() {
    let text = r#"{ "kind": "booklet", "width": 70, "height": 120, "leaves": 4, "stock": "leaf" }"#;
    let made = kit(&with(POCKET, text));
    for leaf in 0..4 {
        let part = part(&made, &format!("booklet-1-leaf-{}", leaf + 1));
        let half = 70.0 - f64::from(leaf) * PI / 2.0 * 0.2;
        sized(part, 2.0 * half, 120.0);
        let heights: Vec<f64> = part.flat.holes.iter().map(|hole| hole.bounds().center().y).collect();
        assert_eq!(heights.len(), 3);
        for (height, expected) in heights.iter().zip([20.0, 60.0, 100.0]) {
            near(*height, expected, 1e-9);
        }
        assert!(part.flat.holes.iter().all(|hole| (hole.bounds().center().x - half).abs() < 1e-9));
        // One fold, split by three holes of 1.5 mm.
        assert_eq!(part.flat.scores.len(), 4);
        assert!(part.flat.scores.iter().all(|score| score.sense == Sense::Mountain));
        let scored: f64 = part.flat.scores.iter().map(|score| score.from.distance(score.to)).sum();
        near(scored, 120.0 - 3.0 * 1.5, 1e-9);
        near(part.flat.area(), 2.0 * half * 120.0 - 3.0 * PI * 0.75 * 0.75, 1e-9);
    }
    let widths: Vec<f64> = made.parts.iter().filter(|part| part.kind == "booklet leaf").map(|p| p.flat.width).collect();
    assert!(widths.windows(2).all(|two| (0.2..=0.4).contains(&((two[0] - two[1]) / 2.0))), "{widths:?}");
    near(made.inserts[0].thickness, 1.6, 1e-9);
    // The fore-edges are flush: 70 mm from the outer fold, whichever leaf.
    let folded = fold(&made, &[0.3, 0.2]);
    let mut edges = Vec::new();
    for (number, piece) in made.pieces.iter().enumerate().filter(|(_, piece)| piece.owner == Owner::Insert(1)) {
        let front = piece.net.panel("front").unwrap();
        let edge = piece.net.panels[front].outline.bounds().x1;
        edges.push(lifted(folded.stand(number, front).unwrap(), Point::new(edge, 0.0), 0.0));
    }
    assert_eq!(edges.len(), 4);
    // Leaf in leaf, a caliper apart.
    for two in edges.windows(2) {
        let away: Vec<f64> = two[0].iter().zip(two[1]).map(|(one, two)| (one - two).abs()).collect();
        near(away.iter().map(|part| part * part).sum::<f64>().sqrt(), 0.2, 1e-9);
    }
    let five = text.replace(r#""leaves""#, r#""holes": "five", "leaves""#);
    assert_eq!(part(&kit(&with(POCKET, &five)), "booklet-1-leaf-1").flat.holes.len(), 5);
}

/// 90 x 130 with laps of 12 and a flap of a third of 90: the back is 130 - 1.5 (our choice), so the card is 114 wide and
/// 130 + 128.5 + 30 tall. Laps and flap are trapezoids with ends at 45 degrees (G1).
#[test]
fn an_envelope_folds_up_behind_its_front() {
    let text = r#"{ "kind": "envelope", "width": 90, "height": 130 }"#;
    let made = kit(&with(POCKET, text));
    let envelope = part(&made, "envelope-1");
    sized(envelope, 114.0, 288.5);
    scored(envelope, true, &[(12.0, Sense::Mountain), (102.0, Sense::Mountain)]);
    scored(envelope, false, &[(128.5, Sense::Mountain), (258.5, Sense::Mountain)]);
    let laps = 2.0 * 12.0 * (128.5 - 12.0);
    near(envelope.flat.area(), 90.0 * (130.0 + 128.5) + laps + 30.0 * (90.0 - 30.0), 1e-9);
    // Every slanting edge is at 45 degrees: six of them.
    let slants = envelope.flat.outline.edges().map(|edge| edge.to - edge.from);
    let slants: Vec<_> = slants.filter(|way| way.x.abs() > 1e-9 && way.y.abs() > 1e-9).collect();
    assert_eq!(slants.len(), 6);
    assert!(slants.iter().all(|way| (way.x.abs() - way.y.abs()).abs() < 1e-9));
    // Folded: the back's upper edge 1.5 below the front's, a caliper behind it; the flap hangs down over the back.
    at(folded_at(&made, "envelope-1", "back", (12.0, 0.0), 0.0), [12.0, 257.0, -0.3]);
    at(folded_at(&made, "envelope-1", "flap", (42.0, 288.5), 0.0), [42.0, 228.5, -0.3]);
    at(folded_at(&made, "envelope-1", "left lap", (0.0, 60.0), 0.0), [24.0, 197.0, 0.0]);
}

/// A tab 40 wide that stands 12 out and is stuck on 10: 2 (12 + 10) tall, folded in the middle, 4 narrower there.
#[test]
fn a_file_tab_is_folded_in_its_middle() {
    let text = r#"{ "kind": "file-tab", "count": 3 }"#;
    let made = kit(&with(POCKET, text));
    let tab = part(&made, "file-tab-1");
    sized(tab, 40.0, 44.0);
    scored(tab, false, &[(22.0, Sense::Mountain)]);
    near(tab.flat.scores[0].from.distance(tab.flat.scores[0].to), 32.0, 1e-9);
    near(tab.flat.area(), 2.0 * (40.0 * 10.0 + 12.0 * 36.0), 1e-9);
    assert_eq!(tab.count, 3);
    assert!(made.inserts.is_empty());
    at(folded_at(&made, "file-tab-1", "back", (0.0, 44.0), 0.0), [0.0, 0.0, -0.3]);
    assert_eq!(complaints(&with(POCKET, text)), Vec::<String>::new());
}

/// 3 x 4 in is 76.2 x 101.6 mm (P3; an inch is 25.4 mm exactly); four corners of radius 5 take (4 - pi) 25 mm^2 off.
#[test]
fn a_journal_card_has_a_named_size_and_round_corners() {
    let text = r#"{ "kind": "journal-card", "size": "3x4in" }"#;
    let made = kit(&with(POCKET, text));
    let card = part(&made, "journal-card-1");
    sized(card, 76.2, 101.6);
    near(card.flat.area(), 76.2 * 101.6 - (4.0 - PI) * 25.0, 1e-9);
    let across = text.replace('}', r#", "across": true, "corner": 0 }"#);
    let made = kit(&with(POCKET, &across));
    sized(part(&made, "journal-card-1"), 101.6, 76.2);
    near(part(&made, "journal-card-1").flat.area(), 76.2 * 101.6, 1e-9);
    // What the file says of its width goes before what it is known by.
    let own = text.replace('}', r#", "width": 70 }"#);
    sized(part(&kit(&with(POCKET, &own)), "journal-card-1"), 70.0, 101.6);
}

/// 3R is 3 1/2 x 5 in (P1): with a border of 10 the mat is 108.9 x 147; a window that reaches 3 over the print is
/// 82.9 x 121, in the middle. It is as thick as its card and a print of 0.23 (P6).
#[test]
fn a_photo_mat_carries_its_print() {
    let text = r#"{ "kind": "photo-mat", "print": "3R", "border": 10 }"#;
    let made = kit(&with(POCKET, text));
    sized(part(&made, "photo-mat-1"), 108.9, 147.0);
    assert!(part(&made, "photo-mat-1").flat.holes.is_empty());
    near(made.inserts[0].thickness, 0.53, 1e-9);
    let made = kit(&with(POCKET, &text.replace('}', r#", "window": true }"#)));
    let mat = part(&made, "photo-mat-1");
    let window = mat.flat.holes[0].bounds();
    for (found, expected) in [(window.x0, 13.0), (window.y0, 13.0), (window.width(), 82.9), (window.height(), 121.0)] {
        near(found, expected, 1e-9);
    }
    near(mat.flat.area(), 108.9 * 147.0 - 82.9 * 121.0, 1e-9);
    // Without a border it is as large as the pocket takes, the window in its middle.
    let made = kit(&with(POCKET, r#"{ "kind": "photo-mat", "print": "4R", "window": true }"#));
    let mat = part(&made, "photo-mat-1");
    sized(mat, 132.5, 185.5);
    near(mat.flat.holes[0].bounds().center().x, 132.5 / 2.0, 1e-9);
    near(mat.flat.holes[0].bounds().center().y, 185.5 / 2.0, 1e-9);
}

// What fits a pocket.

/// Check values C2 and H5: across 148 - 12 - 3.2 = 132.8, upwards 190 - pi 0.3 - 3.2 = 185.86; a ruler has 132.5 and
/// 185.5. Beside a stack of 5 mm it has to leave 5, not 3.2: 184.06, so 184.
#[test]
fn what_has_no_size_is_as_large_as_its_pocket_takes() {
    let made = kit(&with(POCKET, r#"{ "kind": "tag" }"#));
    sized(part(&made, "tag-1"), 132.5, 185.5);
    let thick = kit(&with(POCKET, r#"{ "kind": "tag", "thickness": 5 }"#));
    sized(part(&thick, "tag-1"), 132.5, 184.0);
    // One that says how wide it is keeps that.
    let half = kit(&with(POCKET, r#"{ "kind": "tag", "width": 100 }"#));
    sized(part(&half, "tag-1"), 100.0, 185.5);
}

/// Of several pockets the narrowest decides, but only of those that it goes into: a wallet's pocket of 110 leaves
/// 110 - 12 - 3.2 = 94.8.
#[test]
fn the_narrowest_of_its_pockets_decides() {
    let pages = format!("{POCKET}, {WALLET}");
    for (insert, width) in [
        (r#"{ "kind": "tag", "count": 2 }"#, 94.5),
        (r#"{ "kind": "tag", "count": 1 }"#, 132.5),
        (r#"{ "kind": "tag", "count": 1, "pages": [2] }"#, 94.5),
        (r#"{ "kind": "tag", "count": 2, "pages": [1] }"#, 132.5),
    ] {
        let made = kit(&with(&pages, insert));
        sized(part(&made, "tag-1"), width, 185.5);
    }
}

/// Everything in a pocket counts, whatever comes first in the file: 4 + 2 mm in one pocket leave
/// 190 - pi 0.3 - 6 = 183.06.
#[test]
fn a_stack_counts_whole_whatever_the_order() {
    let (one, two) = (r#"{ "kind": "tag", "thickness": 4 }"#, r#"{ "kind": "tag", "thickness": 2, "hole": 0 }"#);
    for inserts in [format!("{one}, {two}"), format!("{two}, {one}")] {
        let text = with(POCKET, &inserts);
        let made = kit(&text);
        for part in made.parts.iter().filter(|part| part.kind == "tag") {
            sized(part, 132.5, 183.0);
        }
        assert_eq!(complaints(&text), Vec::<String>::new());
    }
}

/// In an inch album: 6 1/4 - 1/2 - 1/8 = 5 5/8 wide; 8 1/2 in less pi 0.012 and 1/8 is 8.337 in, on a ruler 8 5/16.
#[test]
fn in_inches_it_leaves_an_eighth() {
    let text = r#"{ "format": "hingeleaf-album/1", "units": "in",
      "stocks": { "card": { "sheet": "12x12in", "caliper": "12 pt" } },
      "page": { "width": "6 1/4", "height": "8 1/2" }, "pages": [{ "kind": "pocket" }],
      "inserts": [{ "kind": "tag" }] }"#;
    sized(part(&kit(text), "tag-1"), 5.625 * INCH, (8.0 + 5.0 / 16.0) * INCH);
}

#[test]
fn without_a_pocket_there_is_no_telling_its_size() {
    let found = made(&with(POCKET, r#"{ "kind": "tag", "thickness": 200 }"#));
    assert_eq!(found.iter().map(|finding| finding.id).collect::<Vec<_>>(), ["no-room"]);
    assert!(found[0].text.to_string().contains("page 1"), "{}", found[0].text);
    let found = made(&with(POCKET, r#"{ "kind": "tag", "height": 100, "pages": [] }"#));
    assert_eq!(found.iter().map(|finding| finding.id).collect::<Vec<_>>(), ["no-size"]);
    assert!(
        found[0].text.to_string().contains("\"width\"") && found[0].help.to_string().contains("\"width\""),
        "{}",
        found[0].text
    );
}

// Every kind.

/// One of each that goes into a pocket, its size left out.
const POCKETED: [&str; 6] = [
    r#"{ "kind": "tag", "count": 2 }"#,
    r#"{ "kind": "journal-card" }"#,
    r#"{ "kind": "photo-mat", "print": "2R", "window": true }"#,
    r#"{ "kind": "accordion", "panels": 3, "stock": "leaf" }"#,
    r#"{ "kind": "booklet", "leaves": 2, "stock": "leaf" }"#,
    r#"{ "kind": "envelope", "stock": "leaf" }"#,
];

/// One of each that goes into none.
const LOOSE: [&str; 2] =
    [r#"{ "kind": "belly-band", "width": 120, "thickness": 8 }"#, r#"{ "kind": "file-tab", "width": 30 }"#];

#[test]
fn every_kind_goes_together_alone_and_mixed_on_any_page() {
    let back = WALLET.replace(r#""overflap""#, r#""faces": "back", "overflap""#);
    let pages = [POCKET.to_owned(), WALLET.to_owned(), back.clone(), format!("{POCKET}, {back}, {WALLET}, {POCKET}")];
    for pages in &pages {
        for insert in POCKETED.iter().chain(&LOOSE) {
            let text = with(pages, insert);
            assert_eq!(complaints(&text), Vec::<String>::new(), "{text}");
        }
    }
    let all: Vec<&str> = POCKETED.iter().chain(&LOOSE).copied().collect();
    assert_eq!(complaints(&with(&pages[3], &all.join(", "))), Vec::<String>::new());
}

/// Each lies in its pocket's plane with its head up, beside the tab, on the tail.
#[test]
fn every_kind_lies_in_its_pocket_the_right_way_up() {
    for insert in POCKETED {
        let kit = kit(&with(&format!("{POCKET}, {WALLET}"), &insert.replace(r#""tag", "count": 2"#, r#""tag""#)));
        let folded = fold(&kit, &[0.3, 0.2]);
        let put = &kit.inserts[0];
        let inside = kit.pockets[put.pocket.unwrap()].inside;
        let overlap = folded.overlap(&kit, (put.piece, 0), (inside.piece, inside.panel)).unwrap();
        assert!(overlap.beyond < 1e-6, "{insert}: {overlap:?}");
        near(overlap.area, overlap.of, 1e-6);
        let (stand, wall) = (folded.stand(put.piece, 0).unwrap(), folded.stand(inside.piece, inside.panel).unwrap());
        let root = kit.pieces[put.piece].net.panels[0].outline.bounds();
        let up =
            lifted(stand, Point::new(root.x0, root.y1), 0.0)[1] - lifted(stand, Point::new(root.x0, root.y0), 0.0)[1];
        near(up, put.height, 1e-9);
        near(lifted(stand, Point::new(root.x0, root.y0), 0.0)[1], lifted(wall, inside.at, 0.0)[1], 1e-9);
        near(root.width(), put.width, 1e-9);
    }
}

#[test]
fn what_can_not_be_is_said_with_both_numbers() {
    for (insert, id, says) in [
        (r#"{ "kind": "belly-band", "width": 20, "thickness": 4, "lap": 30 }"#, "lap-too-wide", ["30 mm", "21.5 mm"]),
        (r#"{ "kind": "belly-band", "width": 90, "thickness": 4, "lap": 5 }"#, "lap-narrow", ["5 mm", "6.3 mm"]),
        (r#"{ "kind": "file-tab", "width": 20, "corner": 10 }"#, "corner-too-large", ["20 mm", "20 mm"]),
        (r#"{ "kind": "booklet", "width": 4, "height": 60, "leaves": 12 }"#, "booklet-too-narrow", ["4 mm", "3 mm"]),
        (r#"{ "kind": "booklet", "width": 60, "height": 12 }"#, "holes-too-close", ["2 mm", "1.5 mm"]),
        (r#"{ "kind": "envelope", "width": 60, "height": 60, "lap": 40 }"#, "lap-too-wide", ["40 mm", "29.25 mm"]),
        (r#"{ "kind": "envelope", "width": 60, "height": 60, "flap": 40 }"#, "flap-too-deep", ["40 mm", "60 mm"]),
        (
            r#"{ "kind": "journal-card", "width": 60, "height": 40, "corner": 21 }"#,
            "corner-too-large",
            ["21 mm", "20 mm"],
        ),
        (r#"{ "kind": "journal-card", "size": "zebra" }"#, "no-such-print", ["zebra", "no print"]),
        (r#"{ "kind": "photo-mat", "print": "5R", "width": 120 }"#, "mat-too-small", ["120 mm", "127 mm"]),
        (
            r#"{ "kind": "photo-mat", "print": "2R", "window": true, "overlap": 32 }"#,
            "overlap-too-wide",
            ["32 mm", "63.5 mm"],
        ),
        (r#"{ "kind": "envelope", "width": 1.5, "height": 60 }"#, "envelope-too-small", ["1.5 mm", "11 mm"]),
    ] {
        let found = made(&with(POCKET, insert));
        assert_eq!(found.iter().map(|finding| finding.id).collect::<Vec<_>>(), [id], "{insert}");
        assert!(says.iter().all(|word| found[0].text.to_string().contains(word)), "{}", found[0].text);
        assert!(found[0].place.is_some() && !found[0].help.is_empty(), "{insert}");
    }
}

// Over all sizes.

/// An outline without a crossing or a vanishing edge, scores from outline to outline or hole, the area of its panels.
#[track_caller]
fn sound(part: &Part) {
    let Flat { outline, holes, scores, .. } = &part.flat;
    assert!(outline.is_simple(), "{}", part.id);
    assert!(outline.edges().all(|edge| edge.length() > 1e-6), "{}", part.id);
    for score in scores {
        for end in [score.from, score.to] {
            let rims = std::iter::once(outline).chain(holes);
            assert!(rims.map(|rim| rim.distance(end)).fold(f64::INFINITY, f64::min) < 1e-6, "{}: {end:?}", part.id);
        }
        let middle = score.from.midpoint(score.to);
        assert!(outline.contains(middle) && !holes.iter().any(|hole| hole.contains(middle)), "{}", part.id);
    }
    let panels: f64 = part.net.panels.iter().map(|panel| panel.outline.area()).sum();
    let gone: f64 = holes.iter().map(|hole| hole.area().abs()).sum();
    near(part.flat.area(), panels - gone, 1e-6 * panels.max(1.0));
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn any_insert_is_sound_or_says_why_it_is_none(
        kind in 0..8_usize, width in 1.0..400.0_f64, height in 1.0..400.0_f64, extra in 1.0..60.0_f64, count in 2..12_u32,
        caliper in 0.05..1.0_f64,
    ) {
        let insert = match kind {
            0 => format!(r#"{{ "kind": "accordion", "width": {width}, "height": {height}, "panels": {count} }}"#),
            1 => format!(r#"{{ "kind": "booklet", "width": {width}, "height": {height}, "leaves": {count} }}"#),
            2 => format!(
                r#"{{ "kind": "envelope", "width": {width}, "height": {height}, "lap": {extra}, "flap": {} }}"#, extra + 4.0
            ),
            3 => format!(
                r#"{{ "kind": "belly-band", "width": {width}, "height": {height}, "thickness": {}, "lap": {} }}"#,
                extra / 2.0, extra / 3.0 + 1.0
            ),
            4 => format!(r#"{{ "kind": "file-tab", "width": {width}, "height": {height}, "corner": {} }}"#, extra / 4.0),
            5 => format!(
                r#"{{ "kind": "journal-card", "width": {width}, "height": {height}, "corner": {} }}"#, extra / 2.0
            ),
            6 => format!(
                r#"{{ "kind": "photo-mat", "print": "{width}x{height}mm", "border": {}, "overlap": {extra}, "window": true }}"#,
                extra - 1.0
            ),
            _ => format!(r#"{{ "kind": "tag", "width": {width}, "height": {height}, "corner": 0, "hole": 0 }}"#),
        };
        let text = with(POCKET, &insert).replace(r#""caliper": 0.3"#, &format!(r#""caliper": {caliper}"#));
        let made = parts::kit(&album(&text), &Cutter::default());
        let stops = made.findings.iter().any(|finding| finding.level == Level::Stop);
        prop_assert!(made.value.is_some() != stops);
        // A net that is no part must have been seen before it was drawn.
        prop_assert!(made.findings.iter().all(|finding| finding.id != "no-part"), "{text}");
        let Some(kit) = made.value else { return Ok(()) };
        kit.parts.iter().filter(|part| part.kind != "pocket front").for_each(sound);
        let folded = fold(&kit, &[caliper, 0.2]);
        for (bond, misfit) in kit.bonds.iter().zip(&folded.misfits) {
            if !matches!(kit.pieces[bond.one.piece].owner, Owner::Insert(_)) { continue }
            let misfit = misfit.unwrap();
            prop_assert!(misfit.aside < 1e-6 && misfit.askew < 1e-6, "{insert}: {misfit:?}");
            prop_assert!(bond.hold == Hold::Slid || misfit.apart < caliper + 1e-6 || kind == 3, "{insert}: {misfit:?}");
            let panel = &kit.pieces[bond.one.piece].net.panels[bond.one.panel];
            if panel.purpose == Use::Seam && kind == 2 {
                let overlap = folded.overlap(&kit, (bond.one.piece, bond.one.panel), (bond.other.piece, bond.other.panel));
                prop_assert!(overlap.unwrap().beyond < 1e-6, "{insert}: {overlap:?}");
            }
        }
    }

    /// Whatever the pockets and what lies in them, what is left out fits well: between 3.2 and 3.7 mm to spare.
    #[test]
    fn what_fits_itself_slides_everywhere(
        width in 60.0..300.0_f64, height in 60.0..300.0_f64, pocket in 40.0..60.0_f64, thickness in 0.0..6.0_f64,
        count in 1..5_u32, caliper in 0.1..0.6_f64,
    ) {
        let pages = format!(r#"{POCKET}, {{ "kind": "wallet", "pocket": {pocket}, "overflap": {} }}"#, width - pocket + 5.0);
        let insert = format!(r#"{{ "kind": "tag", "count": {count}, "thickness": {thickness}, "corner": 2, "hole": 3 }}"#);
        let text = with(&pages, &insert)
            .replace(r#""width": 148, "height": 190"#, &format!(r#""width": {width}, "height": {height}"#))
            .replace(r#""caliper": 0.3"#, &format!(r#""caliper": {caliper}"#));
        let kit = kit(&text);
        let check = fit::check(&album(&text), &kit, &cutter(0.0, 0.0, 0.0));
        let about: Vec<&Finding> = check.findings.iter().filter(|finding| finding.id.starts_with("insert")).collect();
        prop_assert!(about.is_empty(), "{}", about[0].headline());
        let mut across = check.clearances.iter().filter(|clearance| clearance.what == "across");
        prop_assert!(across.all(|clearance| clearance.spare >= 3.2 - 1e-6));
        // In a wallet it ends behind the front, though there is room up to the flap's fold.
        let behind = |put: &parts::Insert| kit.pockets[put.pocket.unwrap()].front(parts::Way::Across) - put.width;
        let tightest = kit.inserts.iter().map(behind).fold(f64::INFINITY, f64::min);
        prop_assert!((3.2 - 1e-6..3.7 + 1e-6).contains(&tightest), "{tightest}");
    }
}
