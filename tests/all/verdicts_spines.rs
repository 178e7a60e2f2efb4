// SPDX-License-Identifier: MIT
//! Verdicts about spines, covers and card that a maker can believe: worked examples, sound neighbours, hunts with an
//! independent reckoning.

use crate::common::{album, kit, near};
use hingeleaf::cutter::Cutter;
use hingeleaf::finding::Level;
use hingeleaf::fit;
use hingeleaf::fit::order::{Doing, steps};
use hingeleaf::fit::thickness::worst_run;
use hingeleaf::parts::{Face, Kit, Owner};
use proptest::prelude::*;

/// An album of pages 148 x 190 mm.
fn text(stocks: &str, pages: &str, rest: &str) -> String {
    format!(
        r#"{{ "format": "hingeleaf-album/1", "title": "t", "units": "mm", "stocks": {{ {stocks} }},
           "page": {{ "width": 148, "height": 190, "seam": 12, "stock": "card" }}, "pages": [{pages}], {rest} }}"#
    )
}

const CARD: &str = r#""card": { "sheet": "A2", "caliper": 0.3 }, "paper": { "sheet": "A2", "caliper": 0.15 }"#;

fn pockets(count: usize) -> String {
    vec![r#"{ "kind": "pocket" }"#; count].join(", ")
}

/// What is said, by id and level.
fn said(text: &str) -> Vec<(&'static str, Level)> {
    let findings = fit::check(&album(text), &kit(text), &Cutter::default()).findings;
    findings.iter().map(|finding| (finding.id, finding.level)).collect()
}

fn level(text: &str, id: &str) -> Option<Level> {
    said(text).into_iter().find(|(said, _)| *said == id).map(|(_, level)| level)
}

/// H13: pages of 1, 1, 12, 12, 1, 1 mm, pitch 6, gussets of 2. Run 3-4 wants 6 + 6 = 12 and has 6 + 2 x 2 = 10. The whole,
/// from the middle of page 1 to that of page 6, wants 1/2 + 1 + 12 + 12 + 1 + 1/2 = 27 and has 30 + 4 = 34.
#[test]
fn a_run_of_thick_pages_gapes_though_the_whole_does_not() {
    let roots: Vec<f64> = (0..6).map(|page| f64::from(page) * 6.0).collect();
    let run = worst_run(&[12.0, 12.0], &roots[2..4], 2.0).unwrap();
    near(run.wants, 12.0, 1e-9);
    near(run.has, 10.0, 1e-9);
    // With their neighbours they are worse off still: 1/2 + 12 + 12 + 1/2 = 25 and 18 + 4 = 22.
    let run = worst_run(&[1.0, 1.0, 12.0, 12.0, 1.0, 1.0], &roots, 2.0).unwrap();
    assert_eq!((run.from, run.to), (2, 5));
    near(run.wants, 25.0, 1e-9);
    near(run.has, 22.0, 1e-9);
    // The sound neighbour: a thin page between the thick ones.
    assert_eq!(worst_run(&[1.0, 12.0, 1.0, 1.0, 12.0, 1.0], &roots, 2.0), None);
    let page = |content: f64| format!(r#"{{ "kind": "pocket", "content": {content} }}"#);
    let of = |contents: [f64; 6]| {
        let spine = r#""spine": { "kind": "flexi-hinge", "pitch": 6, "gusset": 2 }"#;
        text(CARD, &contents.map(page).join(", "), spine)
    };
    // A pocket page is four layers of 0.3 where it is thickest.
    assert_eq!(level(&of([0.0, 0.0, 10.8, 10.8, 0.0, 0.0]), "gapes"), Some(Level::Warn));
    assert_eq!(level(&of([0.0, 8.0, 0.0, 0.0, 8.0, 0.0]), "gapes"), None);
}

/// A thousand pages are no more than a thousand steps.
#[test]
fn a_thousand_pages_are_quick() {
    let thickness: Vec<f64> = (0..100_000_u32).map(|page| f64::from(page % 7)).collect();
    let roots: Vec<f64> = (0..100_000_u32).map(|page| f64::from(page) * 2.0).collect();
    let begin = std::time::Instant::now();
    assert!(worst_run(&thickness, &roots, 1.0).is_some());
    assert!(begin.elapsed().as_secs() < 2);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 1000, failure_persistence: None, ..ProptestConfig::default() })]

    /// Every run reckoned on its own, as H13 states it.
    #[test]
    fn the_worst_run_is_the_worst_of_all(
        pages in prop::collection::vec((0.0..15.0f64, 2.0..9.0f64), 1..14),
        gusset in 0.0..8.0f64,
    ) {
        let thickness: Vec<f64> = pages.iter().map(|page| page.0).collect();
        let roots: Vec<f64> = (0..pages.len()).map(|page| pages[1..=page.max(1).min(pages.len() - 1)].iter()
            .take(page).map(|page| page.1).sum()).collect();
        let mut worst: f64 = 0.0;
        for i in 0..pages.len() {
            for j in i + 1..pages.len() {
                let between: f64 = thickness[i + 1..j].iter().sum();
                let wants = thickness[i] / 2.0 + between + thickness[j] / 2.0;
                let has = roots[j] - roots[i] + 2.0 * gusset;
                worst = worst.max(wants - has);
            }
        }
        let found = worst_run(&thickness, &roots, gusset).map_or(0.0, |run| run.wants - run.has);
        prop_assert!((found - worst).abs() < 2e-6, "{found} for {worst}");
    }
}

/// The pitch that an album is said to need, and that it gapes no longer with it.
fn needed_pitch(text: &dyn Fn(f64) -> String, pitch: f64) -> Option<f64> {
    let of = |pitch: f64| {
        let text = text(pitch);
        fit::check(&album(&text), &kit(&text), &Cutter::default()).findings
    };
    let findings = of(pitch);
    let gapes = findings.iter().find(|finding| finding.id == "gapes")?;
    let mend = gapes.mend.as_ref().expect("a way out");
    assert_eq!(mend.path, "spine.pitch");
    assert!(of(mend.value.mm()).iter().all(|finding| finding.id != "gapes"), "it gapes with {} still", mend.value.mm());
    Some(mend.value.mm())
}

/// Pages 2 and 3 of 12, gussets of 2: from middle to middle they want 12 and have pitch + 4, with their thin neighbours
/// (1.2) 25.2 and 3 x pitch + 4: the pitch has to be 8, though 28.8 over six pages are 4.8 each.
#[test]
fn the_pitch_that_a_run_needs_is_said() {
    let page = |content: f64| format!(r#"{{ "kind": "pocket", "content": {content} }}"#);
    let of = |pitch: f64| {
        let spine = format!(r#""spine": {{ "kind": "flexi-hinge", "pitch": {pitch}, "gusset": 2 }}"#);
        text(CARD, &[0.0, 10.8, 10.8, 0.0, 0.0, 0.0].map(page).join(", "), &spine)
    };
    assert_eq!(needed_pitch(&of, 6.0), Some(8.0));
    assert_eq!(needed_pitch(&of, 3.0), Some(8.0));
    assert_eq!(needed_pitch(&of, 8.0), None);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    /// Followed, the advice ends the gape, and half a millimetre less does not.
    #[test]
    fn the_pitch_advised_is_enough_and_no_more_than_that(
        contents in prop::collection::vec(0.0..14.0f64, 2..9),
        spine in prop::sample::select(vec!["flexi-hinge", "concertina"]),
        gusset in 1.0..6.0f64,
        pitch in 2.0..6.0f64,
    ) {
        let pages = contents.iter().map(|content| format!(r#"{{ "kind": "pocket", "content": {content} }}"#));
        let pages = pages.collect::<Vec<_>>().join(", ");
        let of = |pitch: f64| {
            let spine = format!(r#""spine": {{ "kind": "{spine}", "pitch": {pitch}, "gusset": {gusset} }}"#);
            text(CARD, &pages, &spine)
        };
        if let Some(needed) = needed_pitch(&of, pitch) {
            // A concertina's pleat is a caliper more than its pitch.
            let less = needed - 0.5 - if spine == "concertina" { 0.3 } else { 0.0 } - 1e-6;
            // Nor is more asked for than that the spine takes all pages without its gussets.
            let (text, pages) = (of(less), contents.iter().fold(0.0, |count, _| count + 1.0));
            let closed = fit::check(&album(&text), &kit(&text), &Cutter::default()).closed.unwrap();
            prop_assert!(needed_pitch(&of, less).is_some() || less * pages < closed.thickest, "{less} is enough");
        }
    }
}

/// A gusset of 6: four pages of 8.4 take 33.6 and have 24, so each outer gusset gives 4.8, more than half; pages of 7 take 28,
/// and each gives 2.
#[test]
fn a_gusset_more_than_half_spent_is_told() {
    let of = |content: f64| {
        let page = format!(r#"{{ "kind": "pocket", "content": {content} }}"#);
        text(CARD, &vec![page; 4].join(", "), r#""spine": { "kind": "flexi-hinge", "pitch": 6, "gusset": 6 }"#)
    };
    assert_eq!(level(&of(7.2), "gusset-spent"), Some(Level::Warn));
    assert_eq!(level(&of(5.8), "gusset-spent"), None);
    assert_eq!(level(&of(5.8), "gapes"), None);
}

/// A page of 13.2 is more than twice its pitch of 6 and stays within the gussets; one of 9 is not.
#[test]
fn a_page_far_thicker_than_its_pitch_is_noted() {
    let of = |content: f64| {
        let page = format!(r#"{{ "kind": "pocket", "content": {content} }}"#);
        let pages = [pockets(2), page, pockets(3)].join(", ");
        text(CARD, &pages, r#""spine": { "kind": "flexi-hinge", "pitch": 6, "gusset": 6 }"#)
    };
    assert_eq!(level(&of(12.0), "page-thick"), Some(Level::Note));
    assert_eq!(level(&of(7.8), "page-thick"), None);
}

/// H17, by caliper: 0.15 noted, 0.35 quiet, 0.5 quiet, 0.8 warned, 1.5 warned, 2.0 stopped.
#[test]
fn card_folds_by_its_caliper() {
    let of = |caliper: f64| {
        let stocks = format!(
            r#""card": {{ "sheet": "A2", "caliper": {caliper} }}, "strips": {{ "sheet": "A2", "caliper": 0.3 }}"#
        );
        text(&stocks, &pockets(2), r#""spine": { "kind": "flexi-hinge", "pitch": 10, "stock": "strips" }"#)
    };
    for (caliper, thick, stopped, thin) in [
        (0.15, None, None, Some(Level::Note)),
        (0.2, None, None, None),
        (0.35, None, None, None),
        (0.5, None, None, None),
        (0.8, Some(Level::Warn), None, None),
        (1.5, Some(Level::Warn), None, None),
        (2.0, None, Some(Level::Stop), None),
    ] {
        let text = of(caliper);
        assert_eq!(level(&text, "fold-thick"), thick, "{caliper}");
        assert_eq!(level(&text, "fold-too-thick"), stopped, "{caliper}");
        assert_eq!(level(&text, "card-thin"), thin, "{caliper}");
    }
    // Boards that nobody folds, and panels of thin paper, are nobody's worry.
    let stocks = format!(
        r#"{CARD}, "board": {{ "sheet": "1200x900mm", "caliper": 2 }}, "cloth": {{ "sheet": "1200x900mm", "caliper": 0.3 }}"#
    );
    let case = r#""cover": { "kind": "case", "board": "board", "stock": "cloth" }, "panels": { "stock": "paper" }"#;
    let said = said(&text(&stocks, &pockets(2), case));
    assert!(!said.iter().any(|(id, _)| id.starts_with("fold") || id.starts_with("card")), "{said:?}");
}

/// Where every step stands in the order, by bond.
fn order(kit: &Kit) -> Vec<(usize, Doing)> {
    steps(kit).into_iter().map(|step| (step.bond, step.doing)).collect()
}

/// H14: a page that is one leaf hangs by the face that its tab is glued on. Whatever else is stuck on that face comes after;
/// panels on its other face, and on pocket pages, come before as they did.
#[test]
fn paper_goes_over_a_glued_tab_when_the_page_hangs() {
    for kind in ["divider", "gate-fold", "fold-out", "library-card", "waterfall", "frame"] {
        for spine in ["flexi-hinge", "concertina", "plain-hinge", "stubs"] {
            let print = if kind == "frame" { r#", "print": "9x13""# } else { "" };
            let pages = vec![format!(r#"{{ "kind": "{kind}"{print} }}"#); 3].join(", ");
            let rest = format!(r#""spine": {{ "kind": "{spine}" }}, "panels": {{ "stock": "paper" }}"#);
            let made = kit(&text(CARD, &pages, &rest));
            let order = order(&made);
            let owner = |piece: usize| made.pieces[piece].owner;
            let mut over = 0;
            for (place, (bond, doing)) in order.iter().enumerate() {
                let bond = &made.bonds[*bond];
                if !matches!(doing, Doing::CoverFace | Doing::CoverTab) {
                    continue;
                }
                let tab = order.iter().position(|(tab, _)| {
                    let (tab, on) = (&made.bonds[*tab], &made.bonds[*tab].other);
                    owner(tab.one.piece) == Owner::Spine
                        && (on.piece, on.panel, on.face == Face::Front)
                            == (bond.other.piece, bond.other.panel, bond.other.face == Face::Front)
                });
                assert!(tab.is_none_or(|tab| tab < place), "{kind} on {spine}: {}", made.pieces[bond.one.piece].name);
                assert_eq!(tab.is_some(), *doing == Doing::CoverTab);
                over += usize::from(tab.is_some());
            }
            assert!(over > 0 || kind == "frame" || kind == "library-card" || kind == "waterfall", "{kind} on {spine}");
        }
    }
    // Tabs that slide into sleeves are in nobody's way.
    let made = kit(&text(CARD, &pockets(4), r#""panels": { "stock": "paper" }"#));
    assert!(order(&made).iter().all(|(_, doing)| *doing != Doing::CoverTab));
}

/// A concertina's end flaps carry the book: what lines the cover goes over them, and a step sticks them.
#[test]
fn end_flaps_are_stuck_before_the_cover_is_lined() {
    let stocks = format!(
        r#"{CARD}, "board": {{ "sheet": "1200x900mm", "caliper": 2 }}, "cloth": {{ "sheet": "1200x900mm", "caliper": 0.3 }}"#
    );
    for cover in [r#"{ "kind": "wrap" }"#, r#"{ "kind": "case", "board": "board", "stock": "cloth" }"#] {
        for (spine, flaps) in
            [(r#""concertina""#, true), (r#""concertina", "flap": 0"#, false), (r#""flexi-hinge""#, false)]
        {
            let rest = format!(r#""spine": {{ "kind": {spine} }}, "cover": {cover}, "panels": {{ "stock": "paper" }}"#);
            let text = text(&stocks, &pockets(4), &rest);
            let made = kit(&text);
            let order = order(&made);
            let meets = order.iter().rposition(|(_, doing)| *doing == Doing::MeetCover).unwrap();
            let lines: Vec<usize> = (0..order.len()).filter(|place| order[*place].1 == Doing::LineCover).collect();
            assert_eq!(!lines.is_empty(), flaps, "{cover} {spine}");
            assert!(lines.iter().all(|place| *place > meets));
        }
    }
}

/// Panels without a border on covers of any caliper that are cut in pieces: a folded face gives by a caliper at each fold.
#[test]
fn panels_without_a_border_go_on_any_folded_cover() {
    let mut joined = 0;
    for caliper in [0.3, 0.5, 0.8, 1.2] {
        for (sheet, width, flap) in [("A4", 100, 0), ("A4", 120, 0), ("A4", 100, 40), ("A3", 148, 0), ("A2", 148, 40)] {
            let text = format!(
                r#"{{ "format": "hingeleaf-album/1", "title": "t", "units": "mm",
                   "stocks": {{ {CARD}, "wrap": {{ "sheet": "{sheet}", "caliper": {caliper} }} }},
                   "page": {{ "width": {width}, "height": 180, "seam": 12, "stock": "card" }}, "pages": [{}],
                   "cover": {{ "kind": "wrap", "stock": "wrap", "flap": {flap} }},
                   "panels": {{ "stock": "paper", "reveal": 0 }} }}"#,
                pockets(6)
            );
            let stops: Vec<_> = said(&text).into_iter().filter(|(_, level)| *level == Level::Stop).collect();
            assert!(stops.is_empty(), "{caliper} {sheet} {width} {flap}: {stops:?}");
            joined += usize::from(
                kit(&text).pieces.iter().filter(|piece| piece.name.to_string().starts_with("cover")).count() > 1,
            );
        }
    }
    assert!(joined >= 8, "{joined} were cut in pieces");
}

/// Stubs are as thick as their pages: an album of thirteen and more opens like one of twelve.
#[test]
fn stub_spines_of_many_pages_are_not_said_to_stand_up() {
    for count in [4, 12, 13, 14, 16, 20] {
        for cover in ["", r#", "cover": { "kind": "wrap" }"#] {
            let text = text(CARD, &pockets(count), &format!(r#""spine": {{ "kind": "stubs" }}{cover}"#));
            let grave: Vec<_> = said(&text).into_iter().filter(|(_, level)| *level != Level::Note).collect();
            assert!(grave.iter().all(|(id, _)| *id != "opens-high"), "{count}: {grave:?}");
        }
    }
}
