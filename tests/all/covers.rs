// SPDX-License-Identifier: MIT
//! Covers: their sizes against worked examples, and how they stand round the pages.

use crate::common::{INCH, album, cutter, kit, near, part};
use hingeleaf::contour::{Contour, Point};
use hingeleaf::cutter::Cutter;
use hingeleaf::finding::{Finding, Level};
use hingeleaf::fit;
use hingeleaf::fit::order::{Doing, check, steps};
use hingeleaf::folded::{Folded, fold};
use hingeleaf::net::{Sense, lifted};
use hingeleaf::parts::{self, Face, Hold, Kit, Owner};
use proptest::prelude::*;
use std::f64::consts::{PI, SQRT_2};

const POCKET: &str = r#"{ "kind": "pocket" }"#;
const WALLET: &str = r#"{ "kind": "wallet", "pocket": 100, "overflap": 60 }"#;
const BEHIND: &str = r#"{ "kind": "wallet", "pocket": 100, "overflap": 60, "faces": "back", "content": 1.5 }"#;

/// An album with pages of 150 x 190 in card of 0.35, on a hinge of tab 12, gusset 6, lead-in 6 and pitch 6.
fn text(cover: &str, pages: &[&str], sheet: &str) -> String {
    format!(
        r#"{{ "format": "hingeleaf-album/1",
          "stocks": {{ "card": {{ "sheet": "{sheet}", "caliper": 0.35 }}, "cloth": {{ "sheet": "A2", "caliper": 0.2 }},
            "board": {{ "sheet": "A2", "caliper": 2.0 }}, "linen": {{ "sheet": "A3", "caliper": 0.15 }} }},
          "page": {{ "width": 150, "height": 190 }}, "pages": [{}], "cover": {cover},
          "spine": {{ "kind": "flexi-hinge", "pitch": 6, "tab": 12, "gusset": 6, "lead_in": 6 }} }}"#,
        pages.join(", ")
    )
}

const CASE: &str = r#"{ "kind": "case", "board": "board", "covering": "cloth", "endpaper": "linen" }"#;

fn folded(text: &str) -> (Kit, Folded) {
    folded_of(text, kit(text))
}

fn folded_of(text: &str, kit: Kit) -> (Kit, Folded) {
    let album = album(text);
    let calipers: Vec<f64> = album.stocks.iter().map(|stock| stock.caliper.mm()).collect();
    let folded = fold(&kit, &calipers);
    (kit, folded)
}

/// Everything that stops or warns, in making or checking.
fn grave(text: &str) -> Vec<Finding> {
    let album = album(text);
    let made = parts::kit(&album, &Cutter::default());
    let mut findings = made.findings;
    if let Some(kit) = made.value {
        findings.extend(fit::check(&album, &kit, &cutter(0.0, 0.0, 0.0)).findings);
    }
    findings.retain(|finding| finding.level != Level::Note);
    findings
}

#[track_caller]
fn clean(text: &str) {
    let grave: Vec<String> = grave(text).iter().map(Finding::headline).collect();
    assert!(grave.is_empty(), "{text}\n{}", grave.join("\n"));
}

fn ids(text: &str) -> Vec<&'static str> {
    grave(text).iter().map(|finding| finding.id).collect()
}

fn piece(kit: &Kit, name: &str) -> usize {
    let names: Vec<String> = kit.pieces.iter().map(|piece| piece.name.to_string()).collect();
    kit.pieces
        .iter()
        .position(|piece| piece.name.to_string() == name)
        .unwrap_or_else(|| panic!("no {name} in {names:?}"))
}

/// Where a corner or another point of a piece's panel stands.
fn at(kit: &Kit, folded: &Folded, name: &str, panel: &str, point: (f64, f64)) -> [f64; 3] {
    let number = piece(kit, name);
    let panel = kit.pieces[number].net.panel(panel).unwrap();
    lifted(folded.stand(number, panel).unwrap(), point.into(), 0.0)
}

fn outwards(kit: &Kit, folded: &Folded, name: &str, panel: &str) -> [f64; 3] {
    let number = piece(kit, name);
    let panel = kit.pieces[number].net.panel(panel).unwrap();
    folded.stand(number, panel).unwrap().matrix3.z_axis.to_array()
}

/// Highest and lowest of everything that an owner has, by axis.
/// What is worked out goes up to the next half millimetre, which a ruler has: our choice.
fn ruler(mm: f64) -> f64 {
    (mm * 2.0 - 1e-9).ceil() / 2.0
}

fn reach(kit: &Kit, folded: &Folded, mine: impl Fn(Owner) -> bool) -> [[f64; 2]; 3] {
    let mut all = [[f64::INFINITY, f64::NEG_INFINITY]; 3];
    for (number, piece) in kit.pieces.iter().enumerate().filter(|(_, piece)| mine(piece.owner)) {
        for (panel, one) in piece.net.panels.iter().enumerate() {
            for corner in one.outline.vertices() {
                let spot = lifted(folded.stand(number, panel).unwrap(), corner.at, 0.0);
                for (range, value) in all.iter_mut().zip(spot) {
                    *range = [range[0].min(value), range[1].max(value)];
                }
            }
        }
    }
    all
}

/// Check value H8 with W 150, gusset 6, m 2, t 0.35, square 3: panels of 159.4 to 160.5 mm, the upper end where the sleeves'
/// folds are round: x = pi t tab / (2 lead-in). Four pages a pitch of 6 apart: a spine of 24 and a caliper (F9), on the next half millimetre.
#[test]
fn a_wrap_reaches_from_the_spine_round_the_pages() {
    let text = text(r#"{ "kind": "wrap" }"#, &[POCKET; 4], "A2");
    let made = kit(&text);
    let cover = part(&made, "cover");
    let panel = ruler(6.0 + PI * 0.35 * 12.0 / 12.0 + 150.0 + 0.35 + 3.0);
    assert!((159.4..=160.5).contains(&panel), "the check value itself");
    near(cover.flat.width, 2.0 * panel + 24.5, 1e-9);
    near(cover.flat.height, 190.0 + 2.0 * 3.0, 1e-9);
    let scores: Vec<(f64, Sense)> = cover.flat.scores.iter().map(|score| (score.from.x, score.sense)).collect();
    assert_eq!(scores.len(), 2);
    for (x, sense) in scores {
        assert_eq!(sense, Sense::Mountain, "its panels fall away from who looks at the outside");
        assert!((x - panel).abs() < 1e-9 || (x - panel - 24.5).abs() < 1e-9, "{x}");
    }
    assert!(cover.along_grain, "folds and spine run along the grain (F1)");
    clean(&text);
}

/// Pages that are thicker than their pitch widen the spine (D3): it is as wide as the folded album is thick, a caliper more, on
/// the next half millimetre.
#[test]
fn loaded_pages_widen_the_spine() {
    let full = r#"{ "kind": "pocket", "content": 8 }"#;
    for pages in [&[full; 4][..], &[full, WALLET, BEHIND, full, POCKET], &[WALLET, full]] {
        let text = text(r#"{ "kind": "wrap" }"#, pages, "A2");
        let album = album(&text);
        let (kit, folded) = folded(&text);
        let closed = fit::thickness::closed(&album, &kit, &folded);
        let scores: Vec<f64> = part(&kit, "cover").flat.scores.iter().map(|score| score.from.x).collect();
        let spine = (scores[1] - scores[0]).abs();
        let needed = closed.thickest.max(closed.spine) + 0.35;
        near(spine, ruler(needed - 1e-6), 1e-9);
    }
}

/// The folded frame: page 1 at the left, heads away. The front cover is at the left, its outside looks left; the back at
/// the right; nothing of a page is outside of them, and the square is left all round.
#[test]
fn a_wrap_stands_round_the_pages() {
    for pages in [&[POCKET; 4][..], &[POCKET, WALLET, POCKET], &[WALLET], &[BEHIND, WALLET]] {
        let text = text(r#"{ "kind": "wrap" }"#, pages, "A2");
        let (kit, folded) = folded(&text);
        near(outwards(&kit, &folded, "cover", "front")[0], -1.0, 1e-9);
        near(outwards(&kit, &folded, "cover", "back")[0], 1.0, 1e-9);
        near(outwards(&kit, &folded, "cover", "spine")[2], -1.0, 1e-9);
        let (inside, cover) = (
            reach(&kit, &folded, |owner| matches!(owner, Owner::Page(_))),
            reach(&kit, &folded, |owner| owner == Owner::Cover),
        );
        assert!(cover[0][0] < inside[0][0] - 0.35 && inside[0][1] < cover[0][1] - 0.35, "{cover:?} {inside:?}");
        for (square, name) in [(inside[1][0] - cover[1][0], "tail"), (cover[1][1] - inside[1][1], "head")] {
            assert!((square - 3.0).abs() < 1e-6, "{name}: {square}");
        }
        // H8 counts from the score: a tab that goes in all the way gives x back, the lowest strip takes a caliper, and half
        // the cover's own is below.
        let left = cover[2][1] - inside[2][1];
        // Half a millimetre at most for the ruler.
        assert!((3.0 - 1.5 * 0.35 - 1e-6..3.5 + PI * 0.35 + 1e-6).contains(&left), "{left}");
    }
}

/// Where no sheet takes the cover whole it is made in pieces: a lap of 13 mm that turns with the fold is stuck behind the
/// front. Together they are the whole cover and the lap.
#[test]
fn a_wrap_is_joined_where_no_sheet_takes_it_whole() {
    let (whole, pieces) =
        (text(r#"{ "kind": "wrap" }"#, &[POCKET; 4], "A2"), text(r#"{ "kind": "wrap" }"#, &[POCKET; 4], "A4"));
    let (one, two) = (kit(&whole), kit(&pieces));
    let (first, second) = (part(&two, "cover-1"), part(&two, "cover-2"));
    let panel = ruler(6.0 + PI * 0.35 + 150.0 + 0.35 + 3.0);
    // The front lies over the lap, so that the spine's panel is a caliper less and the front stands where it should.
    near(first.flat.width, panel + 24.5 - 0.35 + 13.0, 1e-9);
    near(second.flat.width, panel, 1e-9);
    near(first.flat.area() + second.flat.area(), part(&one, "cover").flat.area() + (13.0 - 0.35) * 196.0, 1e-6);
    assert!(first.flat.scores.iter().all(|score| score.sense == Sense::Mountain));
    assert_eq!((first.flat.scores.len(), second.flat.scores.len()), (2, 0));
    clean(&pieces);
    // The front stands where it stood.
    let ((kit_one, whole), (kit_two, joined)) = (folded(&whole), folded(&pieces));
    let spot = at(&kit_one, &whole, "cover", "front", (2.0 * panel + 24.5, 0.0));
    let same = at(&kit_two, &joined, "cover, piece 2", "front", (panel, 0.0));
    near(same[0], spot[0], 1e-9);
    near(same[1], spot[1], 1e-9);
    near(same[2], spot[2], 1e-9);
}

/// A panel that is longer than the sheet itself is cut across, its lap flat and not scored.
#[test]
fn a_panel_longer_than_its_sheet_is_joined_flat() {
    let strip = r#"{ "kind": "wrap", "spine": 520 }"#;
    let text = text(strip, &[POCKET; 4], "A4");
    let made = parts::kit(&album(&text), &cutter(0.0, 0.0, 5.0)).value.unwrap();
    let pieces: Vec<_> = made.parts.iter().filter(|part| part.kind == "wrap cover").collect();
    let longest = pieces.iter().map(|part| part.flat.width).fold(0.0, f64::max);
    assert!(pieces.len() >= 3 && longest <= 297.0 - 10.0 + 1e-9, "{longest}");
    let area: f64 = pieces.iter().map(|part| part.flat.area()).sum();
    let laps = pieces.iter().flat_map(|part| &part.net.folds).filter(|fold| {
        let lap = pieces.iter().flat_map(|part| part.net.folds.iter().map(move |other| (part, other)));
        lap.filter(|(_, other)| std::ptr::eq(*other, *fold))
            .any(|(part, other)| other.between.iter().any(|&panel| part.net.panels[panel].name == "lap"))
    });
    let (mut flat, mut turned) = (0.0, 0.0);
    for lap in laps {
        *(if lap.sense == Sense::Bent { &mut flat } else { &mut turned }) += 1.0;
    }
    assert!(flat >= 1.0 && turned >= 1.0, "{flat} {turned}");
    // A panel before a lap that turns is a caliper less, one after a flat lap a caliper more: all stands in its place.
    let panel = ruler(6.0 + PI * 0.35 + 150.0 + 0.35 + 3.0);
    near(area, (2.0 * panel + 520.0 + 13.0 * (flat + turned) + 0.35 * (flat - turned)) * 196.0, 1e-6);
    // Flat laps are not scored.
    let scores: usize = pieces.iter().map(|part| part.flat.scores.len()).sum();
    assert_eq!(scores, 2);
    let (kit_one, whole) = folded(&text.replace("A4", "900x900mm"));
    let (kit_two, joined) = folded_of(&text, made);
    let top = |kit: &Kit, folded: &Folded| reach(kit, folded, |owner| owner == Owner::Cover)[2][1];
    near(top(&kit_one, &whole), top(&kit_two, &joined), 1e-9);
    clean(&text);
}

/// Four pages a pitch of 6 apart between boards of 2.0 under cloth of 0.2, end papers of 0.15; joint 7, turn-in 16:
///
/// * boards 190 + 2 x 3 tall (B1: one square at head and tail);
/// * spine board 4 x 6 + 2 x (2.0 + 0.2 + 0.15) = 28.7, on the ruler 29 (D3, and what stands on it);
/// * a board stands 7 - 0.2 - 2.0 - 0.15 = 4.65 off the lining, so it is the reach of H8, 160.4496, less that, on the
///   ruler 156;
/// * covering 2 x 156 + 2 x 7 + 29 + 2 x (16 + 2) wide, 196 + 2 x 18 tall (B2).
#[test]
fn a_case_is_two_boards_a_spine_and_a_covering() {
    let text = text(CASE, &[POCKET; 4], "A3");
    let made = kit(&text);
    let board = part(&made, "cover-board");
    let width = 6.0 + PI * 0.35 + 150.0 + 0.35 + 3.0 - 4.65;
    near(width, 155.7996, 1e-4);
    let width = ruler(width);
    near(board.flat.width, width, 1e-9);
    near(board.flat.height, 196.0, 1e-9);
    assert_eq!(board.count, 2);
    let spine = part(&made, "cover-spine");
    near(spine.flat.width, 29.0, 1e-9);
    near(spine.flat.height, 196.0, 1e-9);
    let covering = part(&made, "cover-covering");
    near(covering.flat.width, 2.0 * width + 2.0 * 7.0 + 29.0 + 2.0 * 18.0, 1e-9);
    near(covering.flat.height, 196.0 + 2.0 * 18.0, 1e-9);
    assert!(covering.flat.scores.is_empty(), "paper is bent round boards, not scored");
    // Four corners cut at 45 degrees. From the paper's own corner the cut is 18 sqrt 2 - 1.25 x 2.0 away.
    let cut = 18.0 * SQRT_2 - 2.5;
    near(covering.flat.area(), covering.flat.width * covering.flat.height - 4.0 * cut * cut, 1e-6);
    let end_paper = part(&made, "cover-endpaper");
    near(end_paper.flat.width, width - 3.0, 1e-9);
    near(end_paper.flat.height, 190.0, 1e-9);
    assert_eq!(end_paper.count, 2);
    clean(&text);
}

/// B3: the cut leaves 1.0 to 1.5 boards at 45 degrees, so the corner of the board stays covered.
#[test]
fn mitres_leave_the_corner_of_the_board_covered() {
    for (mitre, board) in [("", 2.0), (r#", "mitre": 2.0"#, 2.0), (r#", "mitre": 3"#, 2.0)] {
        let cover = CASE.replace(r#""kind""#, &format!(r#""joint": 8{mitre}, "kind""#));
        let text = text(&cover, &[POCKET, WALLET], "A3");
        let made = kit(&text);
        let covering = part(&made, "cover-covering");
        let (width, height) = (covering.flat.width, covering.flat.height);
        let corners = [(18.0, 18.0), (width - 18.0, 18.0), (width - 18.0, height - 18.0), (18.0, height - 18.0)];
        for corner in corners {
            let left = covering.flat.outline.distance(Point::new(corner.0, corner.1));
            assert!((1.0 * board - 1e-9..=1.5 * board + 1e-9).contains(&left), "{mitre}: {left}");
        }
        clean(&text);
        // Turned in, head and fore-edge meet or overlap along the diagonal: no bare board between them.
        let (kit, folded) = folded(&text);
        let (paper, board) = (piece(&kit, "covering"), piece(&kit, "back board"));
        let outline = &kit.pieces[board].net.panels[0].outline.bounds();
        let turned: Vec<Contour> = kit
            .bonds
            .iter()
            .filter(|bond| bond.one.piece == paper && bond.other.piece == board)
            .map(|bond| {
                let (seen, _) = folded.seen_on(&kit, (paper, bond.one.panel), (board, 0)).unwrap();
                Contour::polygon(seen.iter().map(|point| (point.x, point.y))).counter_clockwise()
            })
            .collect();
        assert_eq!(turned.len(), 3);
        for depth in [0.5, 1.0, 3.0, 8.0, 12.0] {
            // The fore-edge of the back board is at its right, seen from the inside.
            for spot in [(outline.x1 - depth, depth), (outline.x1 - depth, outline.y1 - depth)] {
                let spot = Point::new(spot.0, spot.1);
                let covered = turned.iter().any(|flap| flap.contains(spot) || flap.distance(spot) < 1e-6);
                assert!(covered, "{mitre}: bare at {depth} from the corner");
            }
        }
    }
    let bare = CASE.replace(r#""kind""#, r#""mitre": 1.8, "kind""#);
    assert_eq!(ids(&text(&bare, &[POCKET], "A3")), ["mitre-small"]);
}

/// Inches: boards of 0.08 in, a joint of 1/4 in (Collins, *Handicraft for Boys*), turn-ins of 5/8 in (Roberts & Etherington
/// 1982): a covering that is 2 x (5/8 + 0.08) in more than the boards either way.
#[test]
fn a_case_in_inches_follows_the_manuals() {
    let text = r#"{ "format": "hingeleaf-album/1", "units": "in",
      "stocks": { "card": { "sheet": "12x12in", "caliper": "12 pt" }, "cloth": { "sheet": "20x30in", "caliper": "8 pt" },
        "board": { "sheet": "20x30in", "caliper": 0.08 } },
      "page": { "width": 6, "height": 6 }, "pages": [{ "kind": "pocket" }, { "kind": "pocket" }],
      "cover": { "kind": "case", "board": "board", "covering": "cloth" } }"#;
    let made = kit(text);
    let (board, spine, covering) =
        (part(&made, "cover-board"), part(&made, "cover-spine"), part(&made, "cover-covering"));
    near(board.flat.height, 6.25 * INCH, 1e-9);
    near(covering.flat.height, (6.25 + 2.0 * (0.625 + 0.08)) * INCH, 1e-9);
    let boards = 2.0 * board.flat.width + spine.flat.width + 2.0 * 0.25 * INCH;
    near(covering.flat.width, boards + 2.0 * (0.625 + 0.08) * INCH, 1e-9);
    clean(text);
}

/// The closed case: boards stand on the ends of the spine board, outsides outwards, the pages between the end papers.
#[test]
fn a_case_stands_round_the_pages() {
    for pages in [&[POCKET; 4][..], &[POCKET, WALLET, POCKET], &[WALLET], &[BEHIND, WALLET]] {
        let text = text(CASE, pages, "A3");
        let (kit, folded) = folded(&text);
        near(outwards(&kit, &folded, "covering", "front")[0], -1.0, 1e-9);
        near(outwards(&kit, &folded, "front board", "board")[0], 1.0, 1e-9);
        near(outwards(&kit, &folded, "back board", "board")[0], -1.0, 1e-9);
        near(outwards(&kit, &folded, "spine board", "spine board")[2], 1.0, 1e-9);
        let spine = &part(&kit, "cover-spine").flat;
        let (left, right) = (
            at(&kit, &folded, "front board", "board", (0.0, 0.0)),
            at(&kit, &folded, "back board", "board", (0.0, 0.0)),
        );
        // Middles of boards: a board less than the spine board is wide.
        near(right[0] - left[0], spine.width - 2.0, 1e-9);
        let board = &part(&kit, "cover-board").flat;
        let hinge = at(&kit, &folded, "back board", "board", (0.0, 0.0));
        let fore = at(&kit, &folded, "back board", "board", (board.width, 0.0));
        near(fore[2] - hinge[2], board.width, 1e-9);
        // Off the inside of the spine board: joint less cloth and board.
        let inside = at(&kit, &folded, "spine board", "spine board", (0.0, 0.0))[2] + 1.0;
        near(hinge[2] - inside, 7.0 - 0.2 - 2.0, 1e-9);
        let pages = reach(&kit, &folded, |owner| matches!(owner, Owner::Page(_)));
        for end in [0, 1] {
            assert!((pages[0][end] - left[0].midpoint(right[0])).abs() < spine.width / 2.0 - 2.0 - 0.35, "{pages:?}");
        }
        near(pages[1][0] - left[1], 3.0, 1e-6);
        let square = fore[2] - pages[2][1];
        assert!((3.0 - 0.35 - 1e-6..3.5 + PI * 0.35 + 1e-6).contains(&square), "{square}");
    }
}

const ALL: &[&str] = &[
    r#"{ "kind": "wrap" }"#,
    r#"{ "kind": "wrap", "square": 0, "band": 60 }"#,
    r#"{ "kind": "wrap", "flap": 70, "ties": 10, "window_width": 70, "window_height": 90, "lining": "linen", "band": 50 }"#,
    r#"{ "kind": "wrap", "stock": "cloth", "spine": 60, "flap": 150 }"#,
    CASE,
    r#"{ "kind": "case", "board": "board", "covering": "cloth", "square": 4, "joint": 9, "turn_in": 19, "mitre": 3, "band": 70 }"#,
    r#"{ "kind": "case", "stock": "board", "covering": "card", "endpaper": "linen", "joint": 3, "turn_in": 13, "lap": 20 }"#,
];

/// Every cover round every mixture of pages, whole and in joined pieces: nothing stops or warns, and every bond meets.
#[test]
fn covers_go_together_round_any_pages() {
    let mixtures: [&[&str]; 6] = [
        &[POCKET],
        &[WALLET, POCKET],
        &[POCKET, BEHIND, WALLET],
        &[POCKET; 4],
        &[WALLET, POCKET, BEHIND, POCKET, WALLET],
        &[POCKET, POCKET, WALLET, BEHIND, POCKET, WALLET, POCKET],
    ];
    for cover in ALL {
        for pages in mixtures {
            for sheet in ["A2", "A3"] {
                let text = text(cover, pages, sheet);
                clean(&text);
                let (kit, folded) = folded(&text);
                for (bond, misfit) in kit.bonds.iter().zip(&folded.misfits) {
                    let (names, misfit) =
                        ([bond.one, bond.other].map(|side| &kit.pieces[side.piece].name), misfit.unwrap());
                    assert!(misfit.aside < 1e-6 || bond.hold == Hold::Slid, "{names:?} {misfit:?}");
                    let mine = kit.pieces[bond.one.piece].owner == Owner::Cover;
                    if mine && bond.hold == Hold::Stuck {
                        let overlap = folded
                            .overlap(&kit, (bond.one.piece, bond.one.panel), (bond.other.piece, bond.other.panel))
                            .unwrap();
                        assert!(overlap.beyond < 1e-6, "{names:?} {overlap:?}");
                        // A caliper at most: what is stuck over turn-ins, pieces over their lap.
                        assert!(misfit.apart < 0.36, "{names:?} {misfit:?}");
                    }
                }
                assert_eq!(check(&kit, &steps(&kit)), Vec::new());
            }
        }
    }
}

/// The flap goes over the front: its scores stand a caliper farther apart than those of the spine (F9, D6), and it comes to
/// lie on the front's outside.
#[test]
fn a_flap_closes_over_the_front() {
    let text = text(r#"{ "kind": "wrap", "flap": 70 }"#, &[POCKET; 4], "A2");
    let (kit, folded) = folded(&text);
    let mut scores: Vec<f64> = part(&kit, "cover").flat.scores.iter().map(|score| score.from.x).collect();
    scores.sort_by(f64::total_cmp);
    let panel = ruler(6.0 + PI * 0.35 + 150.0 + 0.35 + 3.0);
    let (inner, outer) = (24.5, 24.5 + 0.35);
    for (found, wanted) in
        scores.iter().zip([70.0, 70.0 + outer, 70.0 + outer + panel + 0.35, 70.0 + outer + panel + 0.35 + inner])
    {
        near(*found, wanted, 1e-9);
    }
    let cover = piece(&kit, "cover");
    let [flap, front] = ["flap", "front"].map(|name| kit.pieces[cover].net.panel(name).unwrap());
    let overlap = folded.overlap(&kit, (cover, flap), (cover, front)).unwrap();
    // All of it but the caliper by which it clears the edge.
    near(overlap.area / overlap.of, (70.0 - 0.35) / 70.0, 1e-9);
    near(overlap.above, 0.35, 1e-9);
    let edge = at(&kit, &folded, "cover", "fore-edge", (80.0, 0.0));
    let top = at(&kit, &folded, "cover", "front", (kit.parts[kit.pieces[cover].part].flat.width, 0.0));
    near(edge[2] - top[2], 0.35, 1e-9);
}

/// A band goes round the outside of the closed cover with 1 mm to spare, on a ruler's next half millimetre, and its ends meet.
#[test]
fn a_band_goes_round_the_closed_cover() {
    for cover in [r#"{ "kind": "wrap", "band": 60 }"#, &CASE.replace(r#""kind""#, r#""band": 60, "kind""#)] {
        let text = text(cover, &[POCKET; 4], "A2");
        let (kit, folded) = folded(&text);
        let band = piece(&kit, "belly band");
        let paper = folded.calipers[band];
        let mut inside = [[f64::INFINITY, f64::NEG_INFINITY]; 3];
        for (panel, one) in kit.pieces[band].net.panels.iter().enumerate().filter(|(_, one)| one.name != "lap") {
            for corner in one.outline.vertices() {
                let spot = lifted(folded.stand(band, panel).unwrap(), corner.at, 0.0);
                for (range, value) in inside.iter_mut().zip(spot) {
                    *range = [range[0].min(value), range[1].max(value)];
                }
            }
        }
        let outer = |panel: &str, piece_name: &str| at(&kit, &folded, piece_name, panel, (0.0, 0.0));
        let name = if cover.contains("case") { "covering" } else { "cover" };
        let caliper = folded.calipers[piece(&kit, name)];
        let (front, back) = (outer("front", name)[0] - caliper / 2.0, outer("back", name)[0] + caliper / 2.0);
        // Faces inside the band, the lap taken off at the front.
        let sides = [(inside[0][1] - paper / 2.0) - back, front - (inside[0][0] + 1.5 * paper)];
        near(sides[0], sides[1], 1e-6);
        assert!((0.5 - 1e-9..0.75).contains(&sides[0]), "{sides:?}");
        let board = piece(&kit, name);
        let front = kit.pieces[board].net.panel("front").unwrap();
        let corners = kit.pieces[board].net.panels[front].outline.vertices().iter();
        let top =
            corners.map(|corner| lifted(folded.stand(board, front).unwrap(), corner.at, 0.0)[2]).fold(0.0, f64::max);
        // Over boards the paper turns half its caliper outside of them.
        let gap = inside[2][1] - paper / 2.0 - top;
        assert!((1.0 - 1e-9..2.0).contains(&gap), "{gap}");
        near(inside[1][1] - inside[1][0], 60.0, 1e-9);
        let last = steps(&kit).last().unwrap().doing;
        assert_eq!(last, Doing::PutRound);
    }
}

/// Slots (G3: 1 to 2 mm longer than what goes through) with patches behind them, a window with its lining.
#[test]
fn slots_have_patches_and_a_window_its_lining() {
    let cover = r#"{ "kind": "wrap", "ties": 10, "window_width": 60, "window_height": 80, "lining": "linen" }"#;
    let text = text(cover, &[POCKET; 4], "A2");
    let (kit, folded) = folded(&text);
    let flat = &part(&kit, "cover").flat;
    assert_eq!(flat.holes.len(), 3);
    let mut sizes: Vec<(f64, f64)> =
        flat.holes.iter().map(|hole| (hole.bounds().width(), hole.bounds().height())).collect();
    sizes.sort_by(|one, two| one.0.total_cmp(&two.0));
    for (found, wanted) in sizes.iter().zip([(1.5, 11.5), (1.5, 11.5), (60.0, 80.0)]) {
        near(found.0, wanted.0, 1e-9);
        near(found.1, wanted.1, 1e-9);
    }
    assert_eq!(part(&kit, "cover-patch").count, 2);
    let cover = piece(&kit, "cover");
    for name in ["patch in the front", "patch in the back"] {
        let patch = piece(&kit, name);
        let bond = kit.bonds.iter().find(|bond| bond.one.piece == patch).unwrap();
        assert_eq!((bond.one.face, bond.other.face), (Face::Back, Face::Back));
        let hole = kit.pieces[patch].net.holes[0].bounds().center();
        let spot = lifted(folded.stand(patch, 0).unwrap(), hole, 0.0);
        let on = kit.pieces[cover].net.holes.iter().any(|hole| {
            let there = lifted(folded.stand(cover, bond.other.panel).unwrap(), hole.bounds().center(), 0.0);
            there.iter().zip(spot).all(|(one, two)| (one - two).abs() < 0.36)
        });
        assert!(on, "the patch's slot lies on the cover's");
    }
    let lining = piece(&kit, "window lining");
    near(outwards(&kit, &folded, "window lining", "lining")[0], -1.0, 1e-9);
    assert_eq!(kit.parts[kit.pieces[lining].part].stock, 3);
}

/// What cannot be made is said, with its place and a way out; the way out works.
#[test]
fn covers_that_cannot_be_made_are_told() {
    let wrap = |more: &str| format!(r#"{{ "kind": "wrap", {more} }}"#);
    let case = |more: &str| CASE.replace(r#""kind""#, &format!(r#"{more}, "kind""#));
    for (cover, id) in [
        (wrap(r#""flap": 200"#), "flap-too-wide"),
        (wrap(r#""ties": 190"#), "ties-too-wide"),
        (wrap(r#""window_width": 155, "window_height": 60"#), "window-too-large"),
        (wrap(r#""window_width": 60"#), "window-half-said"),
        (wrap(r#""window_width": 60, "window_height": 60, "lining": "linnen""#), "unknown-stock"),
        (wrap(r#""spine": 12"#), "cover-spine-narrow"),
        (wrap(r#""spine": 20"#), "cover-spine-narrow"),
        (wrap(r#""band": 300"#), "band-too-tall"),
        (wrap(r#""lap": 4"#), "lap-narrow"),
        (case(r#""joint": 2"#), "joint-narrow"),
        (case(r#""joint": 2.7"#), "joint-narrow"),
        (case(r#""turn_in": 2"#), "turn-in-narrow"),
        (case(r#""turn_in": 9"#), "turn-in-narrow"),
        (case(r#""turn_in": 170"#), "turn-in-too-wide"),
        (case(r#""mitre": 5"#), "mitre-large"),
        (case(r#""lap": 190"#), "turn-in-too-wide"),
        (case("\"stock\": \"card\"").replace(r#""board": "board""#, r#""board": "card""#), "board-thin"),
    ] {
        let text = text(&cover, &[POCKET; 4], "A2");
        let found = grave(&text);
        assert_eq!(found.first().map(|finding| finding.id), Some(id), "{cover}: {:?}", ids(&text));
        assert!(found.iter().all(|finding| finding.place.is_some() && !finding.help.is_empty()), "{cover}");
    }
}

/// A lap begins to turn a caliper before the fold that the row is cut at: what needs the panel's whole end keeps the cut
/// away from there. (A spine of 28 mm with strips 24 mm wide on it, in board of 2.52 mm: 2.5 mm are needed, 2 are there.)
#[test]
fn what_stands_on_a_spine_stands_on_one_piece() {
    let cut_at = |spine: f64| {
        let text = format!(
            r#"{{ "format": "hingeleaf-album/1",
              "stocks": {{ "card": {{ "sheet": "A2", "caliper": 0.3 }}, "cover": {{ "sheet": "A3", "caliper": 2.52 }} }},
              "page": {{ "width": 209.4, "height": 334.6 }}, "pages": [{}],
              "cover": {{ "kind": "wrap", "stock": "cover", "square": 0, "lap": 1, "spine": {spine} }} }}"#,
            [POCKET; 5].join(", ")
        );
        let album = album(&text);
        let kit = parts::kit(&album, &Cutter::default()).value.unwrap();
        let calipers: Vec<f64> = album.stocks.iter().map(|stock| stock.caliper.mm()).collect();
        let folded = fold(&kit, &calipers);
        for bond in kit.bonds.iter().filter(|bond| kit.pieces[bond.other.piece].owner == Owner::Cover) {
            let overlap = folded.overlap(&kit, (bond.one.piece, bond.one.panel), (bond.other.piece, bond.other.panel));
            assert!(overlap.unwrap().beyond < 1e-6, "{spine}: {overlap:?}");
        }
        // The piece with the spine has it up to its front where there is room.
        kit.parts
            .iter()
            .filter(|part| part.id.starts_with("cover"))
            .map(|part| part.flat.outline.bounds().width())
            .fold(0.0, f64::max)
    };
    let narrow = cut_at(27.97);
    assert!(cut_at(40.0) > narrow, "with room at the spine's end the cut is there");
}

/// Where the paper's mitre lies all but on the board's corner there is nothing to tuck in.
#[test]
fn a_tuck_without_width_is_left_out() {
    for (mitre, count) in [("1.0530220386236342", 0), ("1.06", 0), ("1.2", 4)] {
        let text = format!(
            r#"{{ "format": "hingeleaf-album/1",
              "stocks": {{ "card": {{ "sheet": "A2", "caliper": 0.3 }}, "board": {{ "sheet": "A5", "caliper": 1.0354437171288824 }},
                "paper": {{ "sheet": "A2", "caliper": 0.4521904208541477 }} }},
              "page": {{ "width": 60, "height": 60 }}, "pages": [{POCKET}],
              "cover": {{ "kind": "case", "stock": "board", "covering": "paper", "square": 4, "joint": 3.8, "turn_in": 15,
                "mitre": {mitre} }} }}"#
        );
        let made = parts::kit(&album(&text), &Cutter::default());
        assert!(made.findings.iter().all(|finding| finding.id != "no-part"), "{mitre}: {:?}", made.findings);
        let kit = made.value.unwrap();
        let covering = kit.parts.iter().find(|part| part.id == "cover-covering").unwrap();
        let tucks = covering.net.panels.iter().filter(|panel| panel.name == "tuck").count();
        assert_eq!(tucks, count, "{mitre}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(150) })]

    /// Over the allowed ranges a cover is told of or sound: outlines simple, no edge of no length, every score from edge to
    /// edge, the panels make up the area, what is stuck lies on what it is stuck on.
    #[test]
    fn every_cover_is_sound_or_told_of(
        case in any::<bool>(),
        page in (60.0..300.0f64, 60.0..400.0f64),
        square in 0.0..50.0f64,
        caliper in 0.05..3.0f64,
        paper in 0.05..0.6f64,
        spine in prop::option::of(1.0..500.0f64),
        sizes in (0.0..300.0f64, 0.0..60.0f64, 0.0..200.0f64, 0.0..200.0f64),
        edges in (1.0..40.0f64, 1.0..60.0f64, 1.0..8.0f64),
        band in prop::option::of(1.0..200.0f64),
        lap in 1.0..60.0f64,
        count in 1_usize..6,
        sheet in prop::sample::select(&["A5", "A4", "A3", "A2"][..]),
    ) {
        let spine = spine.map(|spine| format!(r#", "spine": {spine}"#)).unwrap_or_default();
        let band = band.map(|band| format!(r#", "band": {band}"#)).unwrap_or_default();
        let cover = if case {
            let (joint, turn_in, mitre) = edges;
            format!(r#"{{ "kind": "case", "stock": "cover", "covering": "paper", "square": {square}, "joint": {joint},
              "turn_in": {turn_in}, "mitre": {mitre}, "lap": {lap}{spine}{band} }}"#)
        } else {
            let (flap, ties, wide, tall) = sizes;
            let keep = |size: f64| if size < 20.0 { 0.0 } else { size };
            format!(r#"{{ "kind": "wrap", "stock": "cover", "square": {square}, "flap": {}, "ties": {}, "lap": {lap},
              "window_width": {}, "window_height": {}{spine}{band} }}"#, keep(flap), keep(ties), keep(wide), keep(tall))
        };
        let text = format!(
            r#"{{ "format": "hingeleaf-album/1",
              "stocks": {{ "card": {{ "sheet": "A2", "caliper": 0.3 }}, "cover": {{ "sheet": "{sheet}", "caliper": {caliper} }},
                "paper": {{ "sheet": "A2", "caliper": {paper} }} }},
              "page": {{ "width": {}, "height": {} }}, "pages": [{}], "cover": {cover} }}"#,
            page.0, page.1, vec![POCKET; count].join(", ")
        );
        let album = album(&text);
        let made = parts::kit(&album, &Cutter::default());
        prop_assert!(made.findings.iter().all(|finding| finding.id != "no-part"), "{text}\n{:?}", made.findings);
        let Some(kit) = made.value else { return Ok(()) };
        let calipers: Vec<f64> = album.stocks.iter().map(|stock| stock.caliper.mm()).collect();
        let folded = fold(&kit, &calipers);
        for part in kit.parts.iter().filter(|part| part.id.starts_with("cover")) {
            let flat = &part.flat;
            let panels: f64 = part.net.panels.iter().map(|panel| panel.outline.area()).sum();
            let holes: f64 = part.net.holes.iter().map(|hole| hole.area().abs()).sum();
            prop_assert!((flat.area() - panels + holes).abs() < 1e-9 * flat.area(), "{}\n{text}", part.id);
            prop_assert!(flat.outline.is_simple() && flat.outline.area() > 0.0, "{}", part.id);
            for edge in flat.outline.edges() {
                prop_assert!(edge.length() > 1e-6, "{}", part.id);
            }
            for score in &flat.scores {
                prop_assert!(flat.outline.distance(score.from) < 1e-9 && flat.outline.distance(score.to) < 1e-9, "{}", part.id);
                prop_assert!(flat.outline.contains(score.from.midpoint(score.to)), "{}", part.id);
            }
        }
        for (bond, misfit) in kit.bonds.iter().zip(&folded.misfits) {
            if kit.pieces[bond.other.piece].owner == Owner::Cover && bond.hold == Hold::Stuck {
                prop_assert!(misfit.unwrap().aside < 1e-6, "{misfit:?} {text}");
                let overlap = folded.overlap(&kit, (bond.one.piece, bond.one.panel), (bond.other.piece, bond.other.panel));
                let names = [bond.one, bond.other].map(|side| &kit.pieces[side.piece].name);
                prop_assert!(overlap.unwrap().beyond < 1e-6, "{names:?} {overlap:?} {text}");
            }
        }
    }
}

/// An index tab of 10 on the last of four pages, which stands 0.35 lower than the inner ones: it reaches 10 - 0.35 beyond them,
/// and the cover's square stays beyond the tab. On an inner page it is the whole 10. H8's 160.45 and that, a board 4.65 less,
/// on the ruler.
#[test]
fn a_cover_covers_index_tabs() {
    const DIVIDER: &str = r#"{ "kind": "divider", "index": 10 }"#;
    for cover in [r#"{ "kind": "wrap" }"#, CASE] {
        let width = |pages: &[&str]| {
            let text = text(cover, pages, "A2");
            clean(&text);
            let made = kit(&text);
            if cover == CASE { part(&made, "cover-board").flat.width } else { part(&made, "cover").flat.width / 2.0 }
        };
        let reach = 6.0 + PI * 0.35 + 150.0 + 0.35 + 3.0;
        // Half of a wrap has half of the spine of 24.5.
        let (less, more) = if cover == CASE { (4.65, 0.0) } else { (0.0, 24.5 / 2.0) };
        near(width(&[POCKET; 4]), ruler(reach - less) + more, 1e-6);
        near(width(&[POCKET, POCKET, POCKET, DIVIDER]), ruler(reach + 10.0 - 0.35 - less) + more, 1e-6);
        near(width(&[POCKET, POCKET, DIVIDER, POCKET]), ruler(reach + 10.0 - less) + more, 1e-6);
    }
}
