// SPDX-License-Identifier: MIT
//! A cover that was bought or made before: what fits into it, and that nothing of it is cut.

use crate::common::{TempDir, album, cutter, hingeleaf, near, work};
use hingeleaf::contour::Point;
use hingeleaf::finding::Level;
use hingeleaf::folded::fold;
use hingeleaf::guide::{self, Told};
use hingeleaf::net::lifted;
use hingeleaf::write::cutting_list;
use proptest::prelude::*;
use std::f64::consts::PI;

/// Four sleeves of 150 x 190 in card of 0.35 on strips with a pitch of 6: two strips, the wider one with three pitches and
/// half a pitch at either end, so 18 wide; gusset 6.
fn text(cover: &str) -> String {
    format!(
        r#"{{ "format": "hingeleaf-album/1", "stocks": {{ "card": {{ "sheet": "A3", "caliper": 0.35 }} }},
          "page": {{ "width": 150, "height": 190 }}, "pages": [{{ "kind": "pocket" }}, {{ "kind": "pocket" }},
            {{ "kind": "pocket" }}, {{ "kind": "pocket" }}], "cover": {{ "kind": "ready-made", {cover} }},
          "spine": {{ "kind": "flexi-hinge", "pitch": 6, "tab": 12, "gusset": 6, "lead_in": 6 }} }}"#
    )
}

/// Ids of what is found of the cover, with how grave it is.
fn found(cover: &str) -> Vec<(Level, &'static str)> {
    let made = hingeleaf::parts::kit(&album(&text(cover)), &cutter(0.0, 0.0, 0.0));
    made.findings
        .iter()
        .filter(|finding| finding.id.starts_with("ready-"))
        .map(|finding| (finding.level, finding.id))
        .collect()
}

/// How far the pages reach from the spine: the gusset of 6; a tab that is twice its lead-in stops short of its score by what
/// the sleeve's two round folds take up, half a circle of the caliper in all (H6); the page of 150; the inner strip stands a
/// caliper higher (H7).
fn reach() -> f64 {
    6.0 + PI * 0.35 + 150.0 + 0.35
}

/// A wrap of the same album reaches one square of 3 further (H8), up to the next half millimetre.
#[test]
fn pages_reach_as_far_as_a_wrap_says() {
    let wrap = text(r#""joint": 0"#).replace("ready-made", "wrap").replace(r#", "joint": 0"#, "");
    let work = work(&wrap, cutter(0.0, 0.0, 0.0));
    let cover = work.kit.pieces.iter().find(|piece| piece.name.to_string() == "cover").unwrap();
    let front = cover.net.panels.iter().find(|panel| panel.name == "front").unwrap();
    near(front.outline.bounds().width(), ((reach() + 3.0) * 2.0).ceil() / 2.0, 1e-9);
}

#[test]
fn a_cover_that_fits_is_quiet() {
    let width = reach() + 3.0 - (7.0 - 2.5);
    assert!(found(&format!(r#""width": {width}, "height": 197, "spine": 24, "joint": 7, "caliper": 2.5"#)).is_empty());
}

/// A little more or less than what it takes at each edge, by the rules that `covers/ready_made.rs` states.
#[test]
fn a_cover_is_judged_by_what_it_leaves_at_the_edges() {
    use Level::{Note, Stop, Warn};
    let fits = reach() - (7.0 - 2.5);
    let sized = |beyond: f64, gaps: f64, spine: f64| {
        let (width, height) = (fits + beyond, 190.0 + 2.0 * gaps);
        found(&format!(r#""width": {width:.3}, "height": {height:.3}, "spine": {spine}, "joint": 7, "caliper": 2.5"#))
    };
    for (square, expected) in [
        (-0.1, Some(Stop)),
        (0.1, Some(Warn)),
        (1.4, Some(Warn)),
        (1.6, None),
        (4.8, None),
        (11.9, None),
        (12.1, Some(Note)),
    ] {
        assert_eq!(
            sized(square, 3.0, 24.0),
            expected.map(|level| (level, "ready-width")).into_iter().collect::<Vec<_>>(),
            "{square}"
        );
        assert_eq!(
            sized(3.0, square, 24.0),
            expected.map(|level| (level, "ready-height")).into_iter().collect::<Vec<_>>(),
            "{square}"
        );
    }
    // Four pitches of 6 are 24; the strip that stands on it is 18 wide.
    for (spine, expected) in [
        (17.9, Some((Stop, "ready-spine-narrow"))),
        (18.1, Some((Warn, "ready-spine-narrow"))),
        (24.0, None),
        (36.0, None),
        (36.1, Some((Note, "ready-spine-wide"))),
    ] {
        assert_eq!(sized(3.0, 3.0, spine), expected.into_iter().collect::<Vec<_>>(), "{spine}");
    }
}

/// Closed, both boards are as far apart as the spine has inside, a thickness of the board between their middles besides; the
/// pages stand in the middle from tail to head.
#[test]
fn closed_boards_stand_the_spine_apart() {
    let text = text(r#""width": 160, "height": 200, "spine": 26, "joint": 8, "caliper": 2"#);
    let work = work(&text, cutter(0.0, 0.0, 0.0));
    let album = album(&text);
    let calipers: Vec<f64> = album.stocks.iter().map(|stock| stock.caliper.mm()).collect();
    let folded = fold(&work.kit, &calipers);
    let piece = work.kit.pieces.iter().position(|piece| piece.name.to_string() == "ready-made cover").unwrap();
    let at = |panel: &str, up: f64| {
        let net = &work.kit.pieces[piece].net;
        let panel = net.panels.iter().position(|one| one.name == panel).unwrap();
        let bounds = net.panels[panel].outline.bounds();
        lifted(folded.stand(piece, panel).unwrap(), Point::new(bounds.center().x, up), 0.0)
    };
    let (front, back) = (at("front board", 0.0), at("back board", 0.0));
    let apart: f64 = front.iter().zip(back).map(|(one, other)| (one - other).powi(2)).sum::<f64>().sqrt();
    near(apart, 26.0 + 2.0, 1e-9);
    let page = work.kit.pieces.iter().position(|piece| piece.name.to_string() == "page 1 back").unwrap();
    let tail = |at: [f64; 3]| at[1];
    let low = work.kit.pieces[page].net.panels[0].outline.bounds().y0;
    let foot = lifted(folded.stand(page, 0).unwrap(), Point::new(0.0, low), 0.0);
    near(tail(foot) - tail(front), 5.0, 1e-6);
}

/// It is on no sheet, in no list of what is cut, and nobody is told to cut, score or fold it; it is told that it is needed,
/// and the pages are glued into it.
#[test]
fn nothing_of_it_is_cut() {
    let work = work(&text(r#""width": 160, "height": 197, "spine": 24"#), cutter(0.0, 0.0, 0.0));
    let part = work.kit.parts.iter().position(|part| part.kind == "ready-made cover").unwrap();
    let placed = work.stocks.iter().flat_map(|laid| &laid.sheets).flat_map(|sheet| &sheet.placements);
    assert!(placed.map(|placed| placed.part).all(|placed| placed != part));
    assert!(!cutting_list(work.album.order(), &work.kit, None).contains("ready-made"));
    let guide = guide::guide(&work.guide_job(false));
    let told: Vec<Told> =
        guide.sections.iter().flat_map(guide::Section::steps).flat_map(|step| step.of.clone()).collect();
    let of_it =
        |told: &&Told| matches!(told, Told::Score(one, _) | Told::Fold(one, _) | Told::Outline(one) if *one == part);
    assert_eq!(told.iter().filter(of_it).count(), 0);
    let glued = |told: &&Told| matches!(told, Told::Bond(bond) if work.kit.pieces[work.kit.bonds[*bond].other.piece].part == part);
    assert_eq!(told.iter().filter(glued).count(), 1);
    let words: String = guide.sections.iter().flat_map(guide::Section::lines).map(|line| line.plain() + "\n").collect();
    assert!(words.contains("A ready-made cover"), "{words}");
}

/// A stock or a grain of what is not cut says nothing, and is told.
#[test]
fn a_stock_is_no_field_of_it() {
    let text = text(r#""width": 160, "height": 197, "spine": 24, "stock": "card""#);
    let source = hingeleaf::fields::Source::new("album.json", text.into_bytes()).unwrap();
    let read = hingeleaf::album::read(&source, &hingeleaf::parts::kinds());
    assert!(read.findings.iter().any(|finding| finding.id == "unknown-field"), "{:?}", read.findings);
}

/// It is no stock that others can be cut from: a file that says so is told, and no sheet that is asked for is its.
#[test]
fn nothing_else_is_cut_from_it() {
    let good = text(r#""width": 160, "height": 197, "spine": 24"#);
    let bad = good.replacen(r#"{ "kind": "pocket" }"#, r#"{ "kind": "pocket", "stock": "ready-made cover" }"#, 1);
    let source = hingeleaf::fields::Source::new("album.json", bad.into_bytes()).unwrap();
    let read = hingeleaf::album::read(&source, &hingeleaf::parts::kinds());
    assert!(read.findings.iter().any(|finding| finding.id == "unknown-stock"), "{:?}", read.findings);
    let folder = TempDir::new("ready-made");
    let file = folder.put("album.json", good);
    let file = file.to_str().unwrap();
    for (asked, code) in [("A2", 0), ("card=A2", 0), ("ready-made cover=A2", 2)] {
        let done = hingeleaf(["check", file, "--sheet", asked]);
        assert_eq!(done.code, code, "{asked}: {}", done.err);
    }
}

/// Where card is handed over in whole sheets, the cover is in the bag all the same.
#[test]
fn it_goes_into_the_bag() {
    let text = text(r#""width": 160, "height": 197, "spine": 24"#);
    let text = text.replacen('{', r#"{ "handed_over": "sheets", "copies": 3,"#, 1);
    let work = work(&text, cutter(0.0, 0.0, 0.0));
    let part = work.kit.parts.iter().position(|part| part.kind == "ready-made cover").unwrap();
    assert!(work.album.is_handed_whole(0) && !work.album.is_handed_whole(work.kit.parts[part].stock));
    let lines = |guide: guide::Guide| -> String {
        guide.sections.iter().flat_map(guide::Section::lines).map(|line| line.plain() + "\n").collect()
    };
    let sheet = lines(guide::shop(&work.guide_job(false)));
    assert!(sheet.contains("3 ready-made covers") && !sheet.contains("sheets of ready-made"), "{sheet}");
    let label = guide::labels(&work.guide_job(false)).remove(0);
    assert!(label.lines.iter().any(|line| line.plain() == "One ready-made cover"), "{:?}", label.lines);
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 60, failure_persistence: None, ..ProptestConfig::default() })]

    /// Whatever its sizes: it is judged at its edges as they are reckoned here, and never breaks.
    #[test]
    fn covers_of_any_size_are_judged_by_their_edges(
        beyond in -6.0..20.0f64, gaps in -4.0..20.0f64, spine in 10.0..60.0f64, joint in 0.0..12.0f64, caliper in 0.5..4.0f64
    ) {
        let width = reach() - (joint - caliper).max(0.0) + beyond;
        let height = 190.0 + 2.0 * gaps;
        let found = found(&format!(
            r#""width": {width:.4}, "height": {height:.4}, "spine": {spine:.4}, "joint": {joint:.4}, "caliper": {caliper:.4}"#
        ));
        let graded = |id: &str| found.iter().find(|one| one.1 == id).map(|one| one.0);
        let of = |square: f64| match square {
            square if square < 0.0 => Some(Level::Stop),
            square if square < 1.5 => Some(Level::Warn),
            square if square > 12.0 => Some(Level::Note),
            _ => None,
        };
        let close = |square: f64| [0.0, 1.5, 12.0].iter().any(|edge| (square - edge).abs() < 0.01);
        prop_assume!(!close(beyond) && !close(gaps));
        prop_assert_eq!(graded("ready-width"), of(beyond));
        prop_assert_eq!(graded("ready-height"), of(gaps));
        prop_assert_eq!(graded("ready-spine-narrow") == Some(Level::Stop), spine < 18.0);
    }
}
