// SPDX-License-Identifier: MIT
//! Patterned paper: panels on covers, several designs, patterns that run on, patterns with an up and a down.

use crate::common;

use crate::common::{album, cutter, kit, near, part, work};
use hingeleaf::album::{Album, Role};
use hingeleaf::contour::Point;
use hingeleaf::cutter::Cutter;
use hingeleaf::finding::{Finding, Level};
use hingeleaf::fit;
use hingeleaf::folded::{Folded, fold};
use hingeleaf::layout::{Effort, Unwatched};
use hingeleaf::net::lifted;
use hingeleaf::parts::{self, Kit, Owner};
use hingeleaf::sheets::{Search, TrimPiece};
use hingeleaf::toolpath::Labels;
use hingeleaf::work::Work;
use proptest::prelude::*;
use std::collections::BTreeSet;
use std::f64::consts::PI;

const POCKET: &str = r#"{ "kind": "pocket" }"#;
const WALLET: &str = r#"{ "kind": "wallet", "pocket": 100, "overflap": 65 }"#;
const BEHIND: &str = r#"{ "kind": "wallet", "pocket": 100, "overflap": 65, "faces": "back" }"#;

/// Every kind of page, some with their work on the back.
const PAGES: [&str; 18] = [
    POCKET,
    WALLET,
    BEHIND,
    r#"{ "kind": "notched" }"#,
    r#"{ "kind": "side-loading" }"#,
    r#"{ "kind": "waterfall" }"#,
    r#"{ "kind": "waterfall", "faces": "back" }"#,
    r#"{ "kind": "gate-fold" }"#,
    r#"{ "kind": "gate-fold", "faces": "back" }"#,
    r#"{ "kind": "fold-out", "leaves": 2 }"#,
    r#"{ "kind": "fold-out", "faces": "back" }"#,
    r#"{ "kind": "tuck-envelope" }"#,
    r#"{ "kind": "tuck-envelope", "faces": "back" }"#,
    r#"{ "kind": "corner-mount", "print": "9x13" }"#,
    r#"{ "kind": "frame", "print": "9x13", "faces": "back" }"#,
    r#"{ "kind": "library-card" }"#,
    r#"{ "kind": "divider" }"#,
    r#"{ "kind": "sleeve" }"#,
];

/// Pages of 150 x 190 in card of 0.35, on a hinge of tab 12, gusset 6, lead-in 6 and pitch 6; paper of 0.2.
fn text(pages: &[&str], panels: &str, rest: &str) -> String {
    format!(
        r#"{{ "format": "hingeleaf-album/1",
          "stocks": {{ "card": {{ "sheet": "A2", "caliper": 0.35 }}, "board": {{ "sheet": "A2", "caliper": 2.0 }},
            "dots": {{ "sheet": "A3", "caliper": 0.2, "pattern": "one-way" }},
            "stripes": {{ "sheet": "A3", "caliper": 0.2, "pattern": "all-over" }},
            "leaves": {{ "sheet": "A3", "caliper": 0.2 }} }},
          "page": {{ "width": 150, "height": 190 }}, "pages": [{}], "panels": {panels}, {rest}
          "spine": {{ "kind": "flexi-hinge", "pitch": 6, "tab": 12, "gusset": 6, "lead_in": 6 }} }}"#,
        pages.join(", ")
    )
}

const FOUR: [&str; 4] = [POCKET, WALLET, BEHIND, POCKET];
const DOTS: &str = r#"{ "reveal": 3, "stock": "dots" }"#;
const WRAP: &str = r#""cover": { "kind": "wrap" },"#;
const CASE: &str = r#""cover": { "kind": "case", "board": "board", "covering": "leaves", "endpaper": "leaves" },"#;

fn folded(text: &str) -> (Kit, Folded) {
    let (album, kit) = (album(text), kit(text));
    let calipers: Vec<f64> = album.stocks.iter().map(|stock| stock.caliper.mm()).collect();
    let folded = fold(&kit, &calipers);
    (kit, folded)
}

fn grave(text: &str) -> Vec<Finding> {
    let album = album(text);
    let made = parts::kit(&album, &Cutter::default());
    let mut findings = made.findings;
    if let Some(kit) = made.value {
        findings.extend(fit::check(&album, &kit, &cutter(0.1, 1.0, 3.0)).findings);
    }
    findings.retain(|finding| finding.level != Level::Note);
    findings
}

#[track_caller]
fn clean(text: &str) {
    let grave: Vec<String> = grave(text).iter().map(Finding::headline).collect();
    assert!(grave.is_empty(), "{text}\n{}", grave.join("\n"));
}

fn size(kit: &Kit, id: &str) -> (f64, f64) {
    let flat = &part(kit, id).flat;
    (flat.width, flat.height)
}

fn panels(kit: &Kit) -> Vec<usize> {
    (0..kit.pieces.len()).filter(|&piece| kit.parts[kit.pieces[piece].part].kind == "panel").collect()
}

// --- On covers ---

/// Check value H8: four pages of 150 on gussets of 6 in card of 0.35 stand out by 0.35, their tabs stop short by up to
/// pi t tab / (2 lead-in) (H6), and the square is 3: 150 + 6 + 0.35 pi + 0.35 + 3 = 160.45, on the ruler's next half millimetre
/// 160.5. A border of 3 is left at either side. The spine is 4 x 6 and a caliper (F9), on the ruler 24.5.
#[test]
fn a_wrap_has_panels_outside_and_inside() {
    let text = text(&FOUR, DOTS, WRAP);
    clean(&text);
    let made = kit(&text);
    near(150.0 + 6.0 + 0.35 * PI + 0.35 + 3.0, 160.45, 1e-3);
    let wide = 160.5 - 6.0;
    // All four large ones are alike, so they are one part.
    near(size(&made, "panel-cover-back").0, wide, 1e-6);
    near(size(&made, "panel-cover-back").1, 190.0 + 6.0 - 6.0, 1e-9);
    near(size(&made, "panel-cover-spine").0, 24.5 - 6.0, 1e-9);
    let used = &part(&made, "panel-cover-back").used_in;
    assert_eq!(used.len(), 4, "{used:?}");
    for name in ["cover back", "cover front", "cover back inside", "cover front inside"] {
        assert!(used.iter().any(|used| used.to_string() == format!("panel for {name}")), "{used:?}");
    }
}

/// A board is the reach less what the joint lets it stand off; its panel leaves the border. Inside there are end papers.
#[test]
fn a_case_has_panels_outside() {
    let text = text(&FOUR, DOTS, CASE);
    clean(&text);
    let made = kit(&text);
    let (board, panel) = (size(&made, "cover-board"), size(&made, "panel-cover-back"));
    near(panel.0, board.0 - 6.0, 1e-9);
    near(panel.1, board.1 - 6.0, 1e-9);
    let names: Vec<String> = panels(&made).iter().map(|&piece| made.pieces[piece].name.to_string()).collect();
    let cover: Vec<&String> = names.iter().filter(|name| name.contains("cover")).collect();
    assert_eq!(cover, ["panel for cover back", "panel for cover spine", "panel for cover front"]);
}

/// Where loaded pages fill the spine, a wrap's spine makes room for the panels inside front and back: 2 x 0.5.
#[test]
fn panels_inside_a_wrap_need_room() {
    let thick = r#"{ "kind": "pocket", "content": 9 }"#;
    let spine = |on: &str| {
        let panels = format!(r#"{{ "reveal": 3, "stock": "dots", "on": "{on}" }}"#);
        let made = kit(&text(&[thick; 4], &panels, WRAP).replace(r#""caliper": 0.2"#, r#""caliper": 0.5"#));
        let scores = &part(&made, "cover").flat.scores;
        scores[1].from.x - scores[0].from.x
    };
    near(spine("everything") - spine("pages"), 1.0, 1e-9);
}

/// A window of 60 x 80 with a border of 3 all round, and a slot for ribbons of 10 (11.5 x 1.5) with 1 mm all round.
#[test]
fn windows_and_slots_stay_open() {
    let cover = r#""cover": { "kind": "wrap", "window_width": 60, "window_height": 80, "ties": 10, "flap": 50 },"#;
    let text = text(&FOUR, DOTS, cover);
    clean(&text);
    let made = kit(&text);
    let areas = |id: &str| {
        let mut areas: Vec<f64> = part(&made, id).flat.holes.iter().map(|hole| -hole.area()).collect();
        areas.sort_by(f64::total_cmp);
        areas
    };
    let slot = (11.5 + 2.0) * (1.5 + 2.0);
    let front = areas("panel-cover-front");
    assert_eq!(front.len(), 2);
    near(front[0], slot, 1e-9);
    near(front[1], 66.0 * 86.0, 1e-9);
    near(areas("panel-cover-back")[0], slot, 1e-9);
    // Inside, they lie over patches and lining.
    assert!(areas("panel-cover-front-inside").is_empty());
    near(size(&made, "panel-cover-flap").0, 50.0 - 6.0, 1e-9);
    // A flap lies on the front's panel: the fore-edge is a caliper and 0.2 wider than the spine.
    let scores = &part(&made, "cover").flat.scores;
    let gaps: Vec<f64> = scores.windows(2).map(|pair| pair[1].from.x - pair[0].from.x).collect();
    near(gaps[0] - gaps[2], 0.35 + 0.2, 1e-9);
}

/// A cover that no sheet takes whole carries its panels over the joins.
#[test]
fn panels_lie_over_the_joins_of_a_cover() {
    for sheet in ["A4", "A3", "SRA3"] {
        let text = text(&FOUR, DOTS, r#""cover": { "kind": "wrap", "stock": "small", "flap": 60 },"#)
            .replace(r#""board": {"#, &format!(r#""small": {{ "sheet": "{sheet}", "caliper": 0.35 }}, "board": {{"#));
        clean(&text);
        let made = kit(&text);
        let pieces = made.pieces.iter().filter(|piece| made.parts[piece.part].kind == "wrap cover").count();
        assert!(sheet != "A4" || pieces > 1, "{sheet}: {pieces}");
    }
}

#[test]
fn on_says_what_has_panels() {
    let count = |on: &str, rest: &str| {
        let field = format!(r#"{{ "reveal": 3, "stock": "dots", "on": "{on}" }}"#);
        let made = kit(&text(&FOUR, &field, rest));
        let of = |cover: bool| {
            let is = |&&piece: &&usize| (made.pieces[piece].owner == Owner::Cover) == cover;
            panels(&made).iter().filter(is).count()
        };
        (of(false), of(true))
    };
    // A pocket page has two faces, a wallet page three.
    assert_eq!(count("everything", WRAP), (10, 5));
    assert_eq!(count("pages", WRAP), (10, 0));
    assert_eq!(count("cover", WRAP), (0, 5));
    assert_eq!(count("everything", CASE), (10, 3));
    assert_eq!(count("everything", ""), (10, 0));
}

// --- Several designs ---

/// What a panel is looked at with: the opening before or behind its page, by its name.
fn opening(name: &str, pages: usize) -> Option<usize> {
    let words: Vec<&str> = name.trim_start_matches("panel for ").split(' ').collect();
    match words[..] {
        ["page", number, "front", ..] => Some(number.parse::<usize>().unwrap() - 1),
        ["page", number, "back", ..] => Some(number.parse().unwrap()),
        ["cover", "front", "inside"] => Some(0),
        ["cover", "back", "inside"] => Some(pages),
        _ => None,
    }
}

/// Openings 0 to 4 take turns; what is looked at together is of one design; the outside takes the turn after the last.
#[test]
fn designs_take_turns_and_facing_pages_match() {
    let pad = r#"{ "reveal": 3, "stock": ["dots", "stripes", "leaves"] }"#;
    let text = text(&FOUR, pad, WRAP);
    clean(&text);
    let (album, made) = (album(&text), kit(&text));
    let mut seen = 0;
    for piece in panels(&made) {
        let piece = &made.pieces[piece];
        let stock = album.stocks[made.parts[piece.part].stock].name.as_str();
        let turn = opening(&piece.name.to_string(), 4).unwrap_or(5);
        assert_eq!(stock, ["dots", "stripes", "leaves"][turn % 3], "{}", piece.name);
        seen += 1;
    }
    assert_eq!(seen, 15);
}

/// Panels of 144 x 184 come two from an A3 sheet with 5 mm off every edge (287 x 410: turned 2 x 1, upright 1 x 2), so page
/// 1's front takes half a sheet and every opening between two pocket pages a whole one. One sheet of dots is enough for the
/// first alone; the turns that it then has go to stripes, which take the last, too.
#[test]
fn a_design_is_passed_over_when_its_sheets_are_used_up() {
    let pad = r#"{ "reveal": 3, "stock": ["dots", "stripes"] }"#;
    let text =
        text(&[POCKET; 4], pad, "").replace(r#""caliper": 0.2, "pattern": "one-way""#, r#""caliper": 0.2, "count": 1"#);
    let album = album(&text);
    let made = parts::kit(&album, &cutter(0.0, 0.0, 5.0)).value.unwrap();
    for piece in panels(&made) {
        let piece = &made.pieces[piece];
        let stock = album.stocks[made.parts[piece.part].stock].name.as_str();
        let turn = opening(&piece.name.to_string(), 4).unwrap();
        // The last opening, page 4's back, takes the other half.
        assert_eq!(stock, if turn == 0 || turn == 4 { "dots" } else { "stripes" }, "{}", piece.name);
    }
    // That is said once: two of its turns dots has, the two between are taken by stripes.
    let said = |album: &Album| -> Vec<(String, String)> {
        let findings = parts::kit(album, &cutter(0.0, 0.0, 5.0)).findings;
        let short = findings.iter().filter(|finding| finding.id == "design-short");
        short.map(|finding| (finding.about.to_string(), finding.text.to_string())).collect()
    };
    let text_of = "its sheets reach for 2 of its turns; 2 more are taken by the design that comes next";
    assert_eq!(said(&album), [("stock dots".to_owned(), text_of.to_owned())]);
    // Three sheets reach for all five openings: a half, a whole, a half.
    assert_eq!(said(&self::album(&text.replace(r#""count": 1"#, r#""count": 2"#))), []);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    /// Of albums of any length, reckoned in half sheets: the outer faces of the first and the last page take one, every opening
    /// two; dots have the turn after every one of stripes as long as their sheets reach.
    #[test]
    fn what_a_short_design_has_and_passes_on_is_counted(pages in 2..14_usize, sheets in 1..9_usize) {
        let pad = r#"{ "reveal": 3, "stock": ["dots", "stripes"] }"#;
        let count = format!(r#""caliper": 0.2, "count": {sheets}"#);
        let text = text(&vec![POCKET; pages], pad, "").replace(r#""caliper": 0.2, "pattern": "one-way""#, &count);
        let (mut left, mut had, mut passed, mut last) = (2 * sheets, 0, 0, "stripes");
        for turn in 0..=pages {
            let halves = if turn == 0 || turn == pages { 1 } else { 2 };
            if last == "dots" {
                last = "stripes";
            } else if halves <= left {
                (left, had, last) = (left - halves, had + 1, "dots");
            } else {
                passed += 1;
            }
        }
        let findings = parts::kit(&album(&text), &cutter(0.0, 0.0, 5.0)).findings;
        let found = findings.iter().filter(|finding| finding.id == "design-short").map(|finding| finding.text.to_string());
        let wanted = format!("its sheets reach for {had} of its turns; {passed} more");
        let found: Vec<String> = found.collect();
        if passed == 0 {
            prop_assert_eq!(found, Vec::<String>::new());
        } else {
            prop_assert!(found.len() == 1 && found[0].starts_with(&wanted), "{found:?} is not {wanted}");
        }
    }
}

/// Two sheets are needed where one is listed: of 8 panels of 144 x 184 four lie on an A3 sheet, 2 x 2.
#[test]
fn what_is_short_is_said_in_sheets() {
    let text = text(&[POCKET; 4], r#"{ "reveal": 3, "stock": "leaves" }"#, "")
        .replace(r#""leaves": {"#, r#""leaves": { "count": 1,"#);
    let search = Search { effort: Effort::Low, trimmer: false, threads: 1 };
    let work = Work::new(album(&text), cutter(0.1, 1.0, 3.0), Labels::default(), search, &Unwatched);
    let said: Vec<&Finding> = work.findings.iter().filter(|finding| finding.id == "out-of-sheets").collect();
    assert_eq!(said.len(), 1);
    assert_eq!(said[0].about.to_string(), "stock leaves");
    assert!(said[0].text.to_string().contains("2 are needed, 1 more than there are"), "{}", said[0].text);
}

// --- Up and down ---

/// Every panel on every kind of page and cover stands with its up towards the head in the closed album. A gate's doors show
/// their insides when they are opened: closed, those lie upside down.
#[test]
fn panels_stand_upright_on_the_folded_album() {
    let mut looked_at = 0;
    for bound in ["left", "right"] {
        for rest in [WRAP, CASE, r#""cover": { "kind": "wrap", "flap": 50, "ties": 8 },"#] {
            for runs in ["false", "true"] {
                let panels_field = format!(r#"{{ "reveal": 3, "stock": "dots", "runs_on": {runs} }}"#);
                let text = text(&PAGES, &panels_field, &format!(r#"{rest} "bound": "{bound}","#));
                let (made, folded) = folded(&text);
                for piece in panels(&made) {
                    let name = made.pieces[piece].name.to_string();
                    let stand = folded.stand(piece, 0).unwrap_or_else(|| panic!("{name} stands nowhere"));
                    let up = lifted(stand, Point::new(0.0, 1.0), 0.0)[1] - lifted(stand, Point::ZERO, 0.0)[1];
                    let expected = if name.ends_with("door inside") { -1.0 } else { 1.0 };
                    near(up, expected, 1e-9);
                    looked_at += 1;
                }
            }
        }
    }
    assert!(looked_at > 12 * 50, "{looked_at}");
}

/// Bound at the top, the left of every part is up on the album: on one-way paper everything lies a quarter turned on its
/// sheets, its left at the sheet's head, and nothing else does. Made and checked as bound at the left, panels stand as there.
#[test]
fn bound_at_the_top_the_left_is_up() {
    let pages = [WALLET, BEHIND, PAGES[5], PAGES[7], PAGES[11], POCKET];
    for trimmer in [false, true] {
        let of = |bound: &str| {
            let field = r#"{ "reveal": 3, "stock": ["dots", "stripes"], "runs_on": true }"#;
            let text = text(&pages, field, &format!(r#"{WRAP} "bound": "{bound}","#));
            clean(&text);
            let search = Search { effort: Effort::Low, trimmer, threads: 1 };
            let work = Work::new(album(&text), cutter(0.0, 0.0, 3.0), Labels::default(), search, &Unwatched);
            assert!(!work.stopped(), "{:?}", work.findings);
            work
        };
        let (left, top) = (of("left"), of("top"));
        let nets = |work: &Work| work.kit.parts.iter().map(|part| part.flat.likeness()).collect::<Vec<_>>();
        assert_eq!(nets(&left), nets(&top), "not one part changes");
        let mut turned = 0;
        for (work, quarters) in [(&left, 0), (&top, 3)] {
            for stock in work.stocks.iter().filter(|stock| work.album.stocks[stock.stock].name == "dots") {
                for (sheet, placed) in
                    stock.sheets.iter().flat_map(|sheet| sheet.placements.iter().map(move |one| (sheet, one)))
                {
                    assert_eq!(placed.quarters, quarters);
                    let flat = &work.kit.parts[placed.part].flat;
                    let (wide, high) =
                        if quarters == 0 { (flat.width, flat.height) } else { (flat.height, flat.width) };
                    assert!(placed.x >= 3.0 - 1e-6 && placed.x + wide <= sheet.width - 3.0 + 1e-6);
                    assert!(placed.y >= 3.0 - 1e-6 && placed.y + high <= sheet.height - 3.0 + 1e-6);
                    turned += 1;
                }
            }
        }
        assert!(turned > 10);
    }
}

/// A print that stands upright to the reader lies across the parts as they are drawn.
#[test]
fn prints_stand_upright_in_an_album_bound_at_the_top() {
    let of = |bound: &str, lies: &str| {
        let page = format!(r#"{{ "kind": "frame", "print": "9x13", "lies": "{lies}" }}"#);
        let made = kit(&text(&[&page], r#"{ "on": "cover" }"#, &format!(r#""bound": "{bound}","#)));
        let window = part(&made, "page-1-frame").flat.holes[0].bounds();
        (window.width(), window.height())
    };
    assert_eq!(of("top", "upright"), of("left", "across"));
    assert_eq!(of("top", "across"), of("left", "upright"));
    assert!(of("left", "upright").0 < of("left", "upright").1);
}

/// A pocket page is open at the fore-edge, which is the foot then; a wallet's flap closes it, a waterfall's and a library
/// card's pockets open to the side.
#[test]
fn pockets_that_open_to_the_foot_are_told() {
    let pages = [POCKET, WALLET, PAGES[5], PAGES[4], PAGES[15], PAGES[3]];
    let of = |bound: &str| -> Vec<String> {
        let text = text(&pages, r#"{ "on": "cover" }"#, &format!(r#""bound": "{bound}","#));
        let found = fit::check(&album(&text), &kit(&text), &cutter(0.1, 1.0, 3.0)).findings;
        let ours = |id: &str| ["mouth-down", "read-from-the-top"].contains(&id);
        found.iter().filter(|finding| ours(finding.id)).map(Finding::headline).collect()
    };
    assert!(of("left").is_empty() && of("right").is_empty());
    let top = of("top");
    assert_eq!(top.len(), 2, "{top:?}");
    assert!(top.iter().any(|line| line.contains("190 mm wide and 150 mm tall")), "{top:?}");
    assert!(top.iter().any(|line| line.starts_with("note[mouth-down]: pages 1, 4, 6:")), "{top:?}");
}

/// What shows of a card with an up and a down: fronts that are seen from outside stand upright, but for a sleeve in one piece,
/// whose back comes over the head, and an envelope's back and flap; those are told, and nothing else is.
#[test]
fn what_cannot_be_upright_is_told() {
    for rest in [WRAP, CASE, r#""cover": { "kind": "wrap", "flap": 50, "ties": 8, "band": 30 },"#] {
        let inserts = r#""inserts": [{ "kind": "envelope", "width": 80, "height": 100, "pages": [1] },
            { "kind": "tag", "pages": [1] }, { "kind": "booklet", "pages": [4] }, { "kind": "accordion", "panels": 3, "pages": [4] }],"#;
        let text = text(&PAGES, DOTS, &format!("{rest} {inserts}"))
            .replace(r#""card": { "sheet": "A2""#, r#""card": { "pattern": "one-way", "sheet": "900x900mm""#)
            .replace(r#""leaves": { "sheet": "A3""#, r#""leaves": { "pattern": "one-way", "sheet": "900x900mm""#);
        let (made, folded) = folded(&text);
        let found = fit::check(&album(&text), &made, &cutter(0.1, 1.0, 3.0)).findings;
        let about: Vec<String> = found
            .iter()
            .filter(|finding| finding.id == "pattern-upside-down")
            .map(|finding| finding.about.to_string())
            .collect();
        assert_eq!(about, ["page 18 sleeve", "envelope 1"]);
        // Seen in space: what hangs on no other panel stands upright, whatever piece it is; a gate's doors are closed.
        let open = |piece: &(usize, &parts::Piece)| !piece.1.name.to_string().ends_with("door inside");
        for (number, piece) in made.pieces.iter().enumerate().filter(open) {
            if let Some(stand) = folded.stand(number, 0) {
                let up = stand.matrix3.y_axis.y;
                assert!((up - 1.0).abs() < 1e-9, "{} {}: {up}", piece.name, piece.net.panels[0].name);
            }
        }
    }
}

/// The way to the right, as the reader sees a panel, is the panel's own: none is mirrored or turned round.
#[test]
fn panels_are_stuck_on_by_their_backs() {
    let (made, _) = folded(&text(&PAGES, DOTS, WRAP));
    for bond in &made.bonds {
        if made.parts[made.pieces[bond.one.piece].part].kind == "panel" {
            assert_eq!(bond.one.face, parts::Face::Back, "{}", made.pieces[bond.one.piece].name);
        }
    }
}

// --- Patterns that run on ---

const RUNS: &str = r#"{ "reveal": 3, "stock": "dots", "runs_on": true }"#;

/// A wallet of 150 with a flap of 65: closed, the flap's edge lies at 85. The pocket's panel runs from the border to there,
/// 3 to 85; the flap's from 85 + 3 to 150 - 3. In the block the second starts 3 behind the first.
#[test]
fn a_wallets_panels_meet_at_the_flaps_edge() {
    let made = kit(&text(&[WALLET, BEHIND], RUNS, ""));
    assert_eq!(size(&made, "panel-page-1-front-pocket"), (82.0, 184.0));
    assert_eq!(size(&made, "panel-page-1-front-flap"), (59.0, 184.0));
    assert_eq!(made.blocks.len(), 2);
    assert_eq!(made.blocks[0].name.to_string(), "page 1 front");
    assert!(!made.blocks[0].upright);
    let ids: Vec<&str> = made.blocks[0].parts.iter().map(|member| made.parts[member.part].id.as_str()).collect();
    assert_eq!(ids, ["panel-page-1-front-pocket", "panel-page-1-front-flap"]);
    near(made.blocks[0].parts[1].behind, 3.0, 1e-9);
    // Seen on a back the flap is at the left.
    let ids: Vec<&str> = made.blocks[1].parts.iter().map(|member| made.parts[member.part].id.as_str()).collect();
    assert_eq!(ids, ["panel-page-2-back-flap", "panel-page-2-back-pocket"]);
    // Equal pages have equal blocks.
    let made = kit(&text(&[WALLET, WALLET, WALLET], RUNS, ""));
    assert_eq!((made.blocks.len(), made.blocks[0].count), (1, 3));
    assert_eq!(part(&made, "panel-page-1-front-flap").count, 3);
}

/// Wherever a block lies on a sheet, its panels lie to each other as they do on the closed album, seen by the reader: the
/// pattern runs on. On covers too, where the spine's turn is unrolled: there the places in the flat cover count.
#[test]
fn blocks_lie_on_the_sheet_as_on_the_album() {
    let pages = [WALLET, BEHIND, PAGES[5], PAGES[6], PAGES[7], PAGES[8], PAGES[11], PAGES[12]];
    for bound in ["left", "right", "top"] {
        for stock in ["dots", "stripes"] {
            for trimmer in [false, true] {
                let panels_field = RUNS.replace("dots", stock);
                let text = text(&pages, &panels_field, &format!(r#""bound": "{bound}","#));
                clean(&text);
                let (made, folded) = folded(&text);
                assert_eq!(made.blocks.iter().map(|block| block.count).sum::<u32>(), 8);
                let search = Search { effort: Effort::Low, trimmer, threads: 1 };
                let tool = if trimmer { cutter(0.0, 0.0, 3.0) } else { cutter(0.1, 1.0, 3.0) };
                let work = Work::new(album(&text), tool, Labels::default(), search, &Unwatched);
                assert!(!work.stopped());
                for block in &made.blocks {
                    for pair in block.parts.windows(2) {
                        check_pair(&made, &folded, &work, pair[0].part, pair[1].part);
                    }
                }
            }
        }
    }
}

/// Lower left corners of two parts, from one to the other: on the album as the reader sees them, and on every sheet.
#[track_caller]
fn check_pair(made: &Kit, folded: &Folded, work: &Work, one: usize, other: usize) {
    let pieces = |part: usize| (0..made.pieces.len()).filter(move |&piece| made.pieces[piece].part == part);
    let on_album: Vec<[f64; 2]> = pieces(one)
        .zip(pieces(other))
        .map(|(a, b)| {
            let stand = folded.stand(a, 0).unwrap();
            let corner = |piece: usize| folded.stand(piece, 0).unwrap().translation;
            let way = corner(b) - corner(a);
            [way.dot(stand.matrix3.x_axis), way.dot(stand.matrix3.y_axis)]
        })
        .collect();
    let mut found = 0;
    for sheet in work.stocks.iter().flat_map(|stock| &stock.sheets) {
        let of = |part: usize| sheet.placements.iter().filter(move |placed| placed.part == part);
        for (a, b) in of(one).zip(of(other)) {
            assert_eq!(a.quarters, b.quarters);
            // The part's own lower left, wherever its turn has taken it.
            let own = |placed: &hingeleaf::sheets::Placed| {
                let flat = &made.parts[placed.part].flat;
                let (w, h) = (flat.width, flat.height);
                match placed.quarters {
                    0 => (placed.x, placed.y),
                    1 => (placed.x + h, placed.y),
                    2 => (placed.x + w, placed.y + h),
                    _ => (placed.x, placed.y + w),
                }
            };
            let (a_at, b_at) = (own(a), own(b));
            let way = (b_at.0 - a_at.0, b_at.1 - a_at.1);
            let way = match a.quarters {
                0 => [way.0, way.1],
                1 => [way.1, -way.0],
                2 => [-way.0, -way.1],
                _ => [-way.1, way.0],
            };
            near(way[0], on_album[0][0], 1e-3);
            near(way[1], on_album[0][1], 1e-3);
            found += 1;
        }
    }
    assert_eq!(found, on_album.len(), "{}", made.parts[one].id);
}

/// A trimmer's cuts take every block apart: each part comes off with its own size and half a kerf all round, where it is
/// said to lie, and every offcut is what is left there.
#[test]
fn a_trimmer_cuts_blocks_apart() {
    let pages = [WALLET, BEHIND, PAGES[5], PAGES[7], PAGES[12]];
    for (kerf, gap) in [(0.0, 0.0), (0.0, 1.0), (0.2, 2.0), (0.2, 4.0)] {
        for stock in ["dots", "stripes"] {
            let text = text(&pages, &RUNS.replace("dots", stock), "");
            let search = Search { effort: Effort::Low, trimmer: true, threads: 1 };
            let tool = cutter(kerf, gap, 3.0);
            let work = Work::new(album(&text), tool, Labels::default(), search, &Unwatched);
            assert!(!work.stopped());
            let mut cut_off = 0;
            for sheet in work.stocks.iter().flat_map(|stock| &stock.sheets) {
                let hand = [3.0, 3.0, sheet.width - 6.0, sheet.height - 6.0];
                let mut found = Vec::new();
                trim(sheet.cuts.as_ref().unwrap(), hand, gap, &mut found);
                assert_eq!(found.len(), sheet.placements.len());
                for (number, rect) in found {
                    let placed = &sheet.placements[number];
                    let flat = &work.kit.parts[placed.part].flat;
                    let (wide, high) =
                        if placed.quarters % 2 == 0 { (flat.width, flat.height) } else { (flat.height, flat.width) };
                    let half = kerf / 2.0;
                    for (is, should) in
                        rect.into_iter().zip([placed.x - half, placed.y - half, wide + kerf, high + kerf])
                    {
                        near(is, should, 1e-3);
                    }
                    cut_off += sheet.times;
                }
            }
            assert_eq!(usize::try_from(cut_off).unwrap(), work.kit.pieces.len());
        }
    }
}

/// Carries out the cuts on a rectangle in hand: left, bottom, width, height.
fn trim(piece: &TrimPiece, hand: [f64; 4], gap: f64, found: &mut Vec<(usize, [f64; 4])>) {
    let same = |one: [f64; 4], other: [f64; 4]| one.into_iter().zip(other).for_each(|(a, b)| near(a, b, 1e-3));
    match piece {
        TrimPiece::Part(number) => found.push((*number, hand)),
        TrimPiece::Offcut(rect) => same(*rect, hand),
        TrimPiece::Cut(cut) => {
            same(cut.rect, hand);
            let axis = usize::from(!cut.upright);
            let mut begin = hand[axis];
            for (number, inner) in cut.pieces.iter().enumerate() {
                let end = cut.at.get(number).copied().unwrap_or(hand[axis] + hand[axis + 2]);
                let mut rest = hand;
                rest[axis] = begin;
                rest[axis + 2] = (end - begin).max(0.0);
                trim(inner, rest, gap, found);
                begin = end + gap;
            }
        }
    }
}

/// Kerf and gap need 1.1 mm between two cuts. Without a border nothing lies between pocket and flap, and the pattern jumps.
#[test]
fn where_the_tool_needs_more_the_jump_is_said() {
    let flush = text(&[WALLET], &RUNS.replace('3', "0"), "");
    let ids = |text: &str, tool: Cutter| -> Vec<(&'static str, String)> {
        work(text, tool).findings.iter().map(|finding| (finding.id, finding.text.to_string())).collect()
    };
    let said = ids(&flush, cutter(0.1, 1.0, 3.0));
    let jump: Vec<&(&str, String)> = said.iter().filter(|(id, _)| *id == "pattern-jumps").collect();
    assert_eq!(jump.len(), 1, "{said:?}");
    assert!(jump[0].1.contains("1.1 mm"), "{}", jump[0].1);
    for sound in [ids(&flush, cutter(0.0, 0.0, 0.0)), ids(&text(&[WALLET], RUNS, ""), cutter(0.1, 1.0, 3.0))] {
        assert!(sound.iter().all(|(id, _)| *id != "pattern-jumps"), "{sound:?}");
    }
}

/// A block of 144 x 184 on sheets of 150 x 180 with 5 mm of each edge taken: it goes on none, and its panels are cut each by
/// itself, as if nothing ran on.
#[test]
fn a_block_that_goes_onto_no_sheet_is_told_and_cut_apart() {
    let small = |runs: &str| {
        text(&[WALLET], &format!(r#"{{ "reveal": 3, "stock": "dots", "runs_on": {runs} }}"#), "")
            .replace(r#""dots": { "sheet": "A3""#, r#""dots": { "sheet": "150x200mm""#)
    };
    let made = |margin| parts::kit(&album(&small("true")), &cutter(0.0, 0.0, margin));
    assert!(!made(0.0).value.unwrap().blocks.is_empty(), "without a margin it goes on");
    let made = made(5.0);
    assert!(made.findings.iter().any(|finding| finding.id == "block-too-large"));
    let (with, without) = (made.value.unwrap(), kit(&small("false")));
    assert!(with.blocks.is_empty());
    assert_eq!(size(&with, "panel-page-1-front-pocket"), size(&without, "panel-page-1-front-pocket"));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, ..ProptestConfig::default() })]

    /// Whatever the sizes: panels lie on their faces and in one row, blocks name each of their parts as often as pieces are cut
    /// as it, and a pattern that runs on changes no panel's up.
    #[test]
    fn blocks_hold_together(
        kind in 0..PAGES.len(), width in 90_u32..260, height in 90_u32..260, reveal in 0_u32..14, spare in 5_u32..60,
        pocket in 40_u32..90, cover in 0_usize..3, bound in 0_usize..3,
    ) {
        // A flap that closes: the pocket's share of the width, and an overlap of `spare`.
        let pocket = width * pocket / 100;
        let overflap = (width - pocket + spare).min(width);
        let page = PAGES[kind].replace(r#""pocket": 100, "overflap": 65"#, &format!(r#""pocket": {pocket}, "overflap": {overflap}"#));
        let field = format!(r#"{{ "reveal": {reveal}, "stock": ["dots", "stripes"], "runs_on": true }}"#);
        let rest = ["", WRAP, r#""cover": { "kind": "wrap", "flap": 30, "ties": 6, "window_width": 30, "window_height": 40 },"#][cover];
        let text = text(&[&page, POCKET], &field, &format!(r#"{rest} "bound": "{}","#, ["left", "right", "top"][bound]))
            .replace(r#""width": 150, "height": 190"#, &format!(r#""width": {width}, "height": {height}"#))
            .replace("A2", "1500x900mm").replace("A3", "700x500mm");
        let album = album(&text);
        let made = parts::kit(&album, &Cutter::default()).value;
        prop_assume!(made.is_some());
        let made = made.unwrap();
        for finding in fit::check(&album, &made, &cutter(0.1, 1.0, 3.0)).findings {
            let amiss = ["sticks-out", "misses", "front-hidden", "turned-over", "joined-to-nothing", "passes-through", "no-part"];
            prop_assert!(!amiss.contains(&finding.id), "{}\n{text}", finding.headline());
        }
        for block in &made.blocks {
            prop_assert!(block.parts.len() > 1, "{text}");
            let breadth = |part: usize| {
                let flat = &made.parts[part].flat;
                if block.upright { flat.width } else { flat.height }
            };
            for member in &block.parts {
                prop_assert!(member.behind >= -1e-9, "{text}");
                prop_assert!((breadth(member.part) - breadth(block.parts[0].part)).abs() < 1e-9, "{text}");
                prop_assert_eq!(made.parts[member.part].count, block.count);
                let cut = made.pieces.iter().filter(|piece| piece.part == member.part).count();
                prop_assert_eq!(u32::try_from(cut).unwrap(), block.count);
            }
        }
    }
}

/// The album of 24 pages: every kind of page, a case, inserts, three designs; nothing warns, every face has its panel.
#[test]
fn the_album_of_24_pages_is_sound() {
    let path = common::project().join("fixtures/towpath-year.json");
    let text = std::fs::read_to_string(path).unwrap();
    clean(&text);
    let (album, made) = (album(&text), kit(&text));
    assert_eq!(album.pages.len(), 24);
    let kinds: BTreeSet<&str> = album.pages.iter().map(|page| page.kind.name).collect();
    let all = parts::ALL.iter().filter(|maker| maker.kind.role == Role::Page).count();
    assert_eq!(kinds.len(), all, "{kinds:?}");
    assert!(album.cover.as_ref().is_some_and(|cover| cover.kind.name == "case") && !album.inserts.is_empty());
    for page in 1..=24 {
        let (number, front) = (format!("panel for page {page} "), ["frame", "corner-mount"]);
        let names: Vec<String> = panels(&made).iter().map(|&piece| made.pieces[piece].name.to_string()).collect();
        let sides: BTreeSet<&str> =
            names.iter().filter_map(|name| name.strip_prefix(&number)?.split(' ').next()).collect();
        // What is made for a print shows the print on that side.
        let expected = if front.contains(&album.pages[page - 1].kind.name) { 1 } else { 2 };
        assert_eq!(sides.len(), expected, "page {page}: {sides:?}");
    }
    let stocks: BTreeSet<usize> = made.parts.iter().map(|part| part.stock).collect();
    assert_eq!(stocks.len(), 7);
}

// --- Sizes that stay ---

/// Tape and glue do not grow with the page: seams, tabs, gussets and laps keep their sizes when it is resized.
#[test]
fn a_resized_album_keeps_what_is_bound_to_tape() {
    let of = |width: u32, height: u32| {
        let text = text(&PAGES, DOTS, r#""cover": { "kind": "wrap", "lap": 14 },"#)
            .replace(r#""width": 150, "height": 190"#, &format!(r#""width": {width}, "height": {height}"#));
        let mut depths: Vec<(String, i64)> = Vec::new();
        for part in &kit(&text).parts {
            for panel in &part.net.panels {
                use hingeleaf::net::Use;
                if matches!(panel.purpose, Use::Seam | Use::Tab | Use::Gusset) {
                    let bounds = panel.outline.bounds();
                    // The narrower way is how deep it is: nothing of this album is lower than its seams are deep.
                    #[allow(clippy::cast_possible_truncation, reason = "micrometres of a page")]
                    let depth = (bounds.width().min(bounds.height()) * 1000.0).round() as i64;
                    depths.push((format!("{} {}", part.id, panel.name), depth));
                }
            }
        }
        depths
    };
    let usual = of(150, 190);
    assert!(usual.len() > 20);
    for (width, height) in [(170, 190), (150, 230), (200, 160)] {
        assert_eq!(of(width, height), usual, "{width} x {height}");
    }
}

/// Landscape is a page that is wider than it is tall: every kind and cover goes together all the same.
#[test]
fn every_kind_goes_together_in_landscape() {
    for rest in [WRAP, CASE] {
        let text = text(&PAGES, RUNS, rest)
            .replace(r#""width": 150, "height": 190"#, r#""width": 210, "height": 160"#)
            .replace(r#""pocket": 100"#, r#""pocket": 160"#)
            .replace("A2", "900x650mm")
            .replace(r#""leaves": { "sheet": "A3""#, r#""leaves": { "sheet": "900x650mm""#)
            .replace(r#""gusset": 6"#, r#""gusset": 12"#);
        clean(&text);
    }
}
