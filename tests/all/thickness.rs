// SPDX-License-Identifier: MIT
//! How thick the closed album is, by counting the layers that lie over each other; and that its cover is as wide as that.

use crate::common::{album, cutter, kit, near, part};
use hingeleaf::finding::{Finding, Level};
use hingeleaf::fit::{self, Closed};
use hingeleaf::parts;
use proptest::prelude::*;

/// Card, paper of panels, and what a case is made of, mm.
const CARD: f64 = 0.3;
const PAPER: f64 = 0.2;
const CASE: [f64; 3] = [2.0, 0.3, 0.15];

/// Pages of 140 x 190 with seams of 13 and tabs of 12 mm.
fn text(pages: &[String], spine: &str, more: &str) -> String {
    format!(
        r#"{{ "format": "hingeleaf-album/1",
          "stocks": {{ "card": {{ "sheet": "A2", "caliper": {CARD} }}, "paper": {{ "sheet": "A3", "caliper": {PAPER} }},
            "board": {{ "sheet": "A2", "caliper": 2 }}, "cloth": {{ "sheet": "A2", "caliper": 0.3 }},
            "end": {{ "sheet": "A2", "caliper": 0.15 }} }},
          "page": {{ "width": 140, "height": 190, "seam": 13 }}, "pages": [{}], "spine": {{ "tab": 12, {spine} }}{more} }}"#,
        pages.join(", ")
    )
}

fn alike(page: &str, count: usize) -> Vec<String> {
    vec![page.to_owned(); count]
}

const POCKET: &str = r#"{ "kind": "pocket" }"#;

fn closed(text: &str) -> Closed {
    fit::check(&album(text), &kit(text), &cutter(0.1, 1.0, 3.0)).closed.unwrap()
}

const IN_A_CASE: &str = r#", "cover": { "kind": "case", "board": "board", "covering": "cloth", "endpaper": "end" }"#;

fn ready(spine: f64) -> String {
    format!(r#", "cover": {{ "kind": "ready-made", "width": 170, "height": 196, "spine": {spine:.3} }}"#)
}

fn of_spine(text: &str) -> Vec<Finding> {
    let found = parts::kit(&album(text), &cutter(0.1, 1.0, 3.0)).findings;
    found.into_iter().filter(|finding| finding.id.starts_with("ready-spine")).collect()
}

/// The next half millimetre.
fn ruler(mm: f64) -> f64 {
    (mm * 2.0 - 1e-6).ceil() / 2.0
}

/// Counted: a pocket page is two faces and at any place but one of its two seams, three layers; at the spine a tab besides,
/// four. Eight of them are 8 x 4 x 0.3 = 9.6 mm there and 7.2 at the fore-edge. On the cover's spine stand their guards, two
/// layers each, with two stubs each, 9.6 again, and the liner goes round that: 10.2 over all (F9). It had been 12, a seam too
/// many a page.
#[test]
fn a_ready_made_spine_takes_what_lies_in_it() {
    let pockets = |more: &str| text(&alike(POCKET, 8), r#""kind": "stubs""#, more);
    let measured = closed(&pockets(""));
    for (found, counted) in [
        (measured.thickest, 9.6),
        (measured.at_spine, 9.6),
        (measured.at_fore_edge, 7.2),
        (measured.spine, 9.6),
        (measured.cover[2], 10.5),
    ] {
        near(found, counted, 1e-9);
    }
    assert_eq!(kit(&pockets("")).pieces.iter().filter(|piece| piece.name.to_string().starts_with("stub")).count(), 16);
    for sound in [10.2, 11.0, 12.0] {
        assert!(of_spine(&pockets(&ready(sound))).is_empty(), "{sound}");
    }
    let narrow = of_spine(&pockets(&ready(10.1)));
    assert_eq!(narrow.iter().map(|finding| finding.level).collect::<Vec<_>>(), [Level::Warn]);
    assert_eq!(
        narrow[0].text.to_string(),
        "the cover's spine has 10.1 mm inside and needs 10.2 mm: what stands on it is 10.2 mm wide"
    );
    assert!(narrow[0].help.to_string().ends_with("or fewer pages"), "no page gets thinner");
    assert_eq!(of_spine(&pockets(&ready(9.8)))[0].level, Level::Stop);
    // With 2 mm in each: 8 x 3.2 = 25.6 on strips that stand 3 mm apart, 24.
    let full = alike(r#"{ "kind": "pocket", "content": 2 }"#, 8);
    let on_strips = |spine: f64| of_spine(&text(&full, r#""kind": "flexi-hinge", "pitch": 3"#, &ready(spine)));
    assert!(on_strips(25.6).is_empty());
    assert_eq!(
        on_strips(25.0)[0].text.to_string(),
        "the cover's spine has 25 mm inside and needs 25.6 mm: closed, the pages are 25.6 mm thick with all that is in them"
    );
    let empty = text(&alike(POCKET, 8), r#""kind": "flexi-hinge", "pitch": 3"#, &ready(22.0));
    assert_eq!(
        of_spine(&empty)[0].text.to_string(),
        "the cover's spine has 22 mm inside and needs 24 mm: the pages stand on 24 mm of spine"
    );
}

/// Counted: a case's spine board is as wide as what stands on it, 10.2 mm, and on either side a board, the covering that is
/// turned in over it and an end paper: 2 x 2.45, 15.1 in all. It had been 21.8. Plain hinges stand on a backing of N pitches (H8).
#[test]
fn a_case_is_as_wide_as_what_stands_in_it() {
    let spine = |text: &str| part(&kit(text), "cover-spine").flat.width;
    near(spine(&text(&alike(POCKET, 8), r#""kind": "stubs""#, IN_A_CASE)), 15.5, 1e-9);
    let plain = r#""kind": "plain-hinge", "pitch": 4"#;
    let backing = closed(&text(&alike(POCKET, 8), plain, "")).spine;
    near(spine(&text(&alike(POCKET, 8), plain, IN_A_CASE)), ruler(backing + 4.9), 1e-9);
    let wrap = kit(&text(&alike(POCKET, 8), plain, r#", "cover": { "kind": "wrap" }"#));
    let at: Vec<f64> = part(&wrap, "cover").flat.scores.iter().map(|score| score.from.x).collect();
    near((at[1] - at[0]).abs(), ruler(backing + CARD), 1e-9);
}

/// Counted: a frame page is its leaf, the frame's seam, the print and the frame, 3 x 0.3 + 0.23 = 1.13 mm (P6). A corner mount's
/// print lies where the page is but its two faces, 0.83, and the page is thicker where its tab is, 1.2; its mean tells
/// that it is there, by its share of the page. `content` says otherwise, and counts all over the page; what is
/// put into a frame lies there instead of its print. A pocket page has nothing that is certain to be in it.
#[test]
fn a_print_that_a_page_is_made_for_is_counted() {
    let each = |page: &str, more: &str| {
        let text = text(&alike(page, 4), r#""kind": "plain-hinge", "pitch": 4"#, more);
        let thick: Vec<f64> = closed(&text).pages.iter().map(|page| page.greatest).collect();
        for one in &thick {
            near(*one, thick[0], 1e-9);
        }
        thick[0]
    };
    let (frame, corners) = (r#""kind": "frame", "print": "10x15""#, r#""kind": "corner-mount", "print": "9x13""#);
    near(each(&format!("{{ {frame} }}"), ""), 1.13, 1e-9);
    near(each(&format!("{{ {corners} }}"), ""), 1.2, 1e-9);
    for (page, card) in [(frame, 0.9), (corners, 1.2)] {
        for content in [0.0, 0.23, 1.0] {
            near(each(&format!(r#"{{ {page}, "content": {content} }}"#), ""), card + content, 1e-9);
        }
    }
    near(each(POCKET, ""), 1.2, 1e-9);
    let tags = r#", "inserts": [{ "kind": "tag", "width": 95, "height": 140, "thickness": 0.5, "count": 4 }]"#;
    near(each(&format!("{{ {frame} }}"), tags), 0.9 + 0.5, 1e-9);
    near(each(&format!("{{ {corners} }}"), tags), 0.9 + 0.5, 1e-9);
    let thin = format!("{{ {corners} }}, {{ {corners}, \"content\": 0 }}");
    let text = text(&[thin], r#""kind": "plain-hinge", "pitch": 4"#, "");
    near(closed(&text).thickest, 2.4, 1e-9);
    let means: Vec<f64> = closed(&text).pages.iter().map(|page| page.mean).collect();
    near(means[0] - means[1], 0.23 * 89.0 * 127.0 / (140.0 * 190.0), 1e-3);
}

/// Ten frames are 11.3 mm, and 9 without their prints. Stubs make up for all of it: two stubs of 0.3 beside a guard of 0.6 are
/// 1.2 a page. On strips that stand 1 mm apart each page is 0.13 too thick, not 0.1 too thin.
#[test]
fn spines_take_prints_into_account() {
    let frames = |content: &str, spine: &str, more: &str| {
        let page = format!(r#"{{ "kind": "frame", "print": "10x15"{content} }}"#);
        text(&alike(&page, 10), &format!(r#""kind": {spine}"#), more)
    };
    let stubs = |content: &str| {
        let text = frames(content, r#""stubs""#, "");
        let stubs = kit(&text).pieces.iter().filter(|piece| piece.name.to_string().starts_with("stub")).count();
        (closed(&text).thickest, closed(&text).spine, stubs)
    };
    for (content, thick, spine, count) in [("", 11.3, 12.0, 20), (r#", "content": 0"#, 9.0, 9.0, 10)] {
        let found = stubs(content);
        near(found.0, thick, 1e-9);
        near(found.1, spine, 1e-9);
        assert_eq!(found.2, count, "{content}");
    }
    // Where the tabs are no print lies: ten leaves and tabs.
    near(closed(&frames("", r#""stubs""#, "")).at_spine, 6.0, 1e-9);
    let strips = closed(&frames("", r#""flexi-hinge", "pitch": 1, "wing": 1"#, ""));
    near(strips.pages[0].room, -0.13, 1e-9);
    near(closed(&frames(r#", "content": 0"#, r#""flexi-hinge", "pitch": 1, "wing": 1"#, "")).pages[0].room, 0.1, 1e-9);
    assert!(of_spine(&frames("", r#""stubs""#, &ready(12.6))).is_empty());
    assert_eq!(of_spine(&frames("", r#""stubs""#, &ready(12.5))).len(), 1);
}

/// A page that is drawn at random: what it is, and its thickness in its pocket and on it, mm.
#[derive(Clone, Debug)]
struct Drawn {
    pocket: bool,
    tag: Option<f64>,
    content: f64,
}

fn drawn() -> impl Strategy<Value = Drawn> {
    (any::<bool>(), proptest::option::of(0.5..3.0f64), prop_oneof![Just(0.0), 0.2..2.0f64]).prop_map(
        |(pocket, tag, content)| Drawn {
            pocket,
            tag: tag.filter(|_| pocket).map(|tag| (tag * 100.0).round() / 100.0),
            content: (content * 100.0).round() / 100.0,
        },
    )
}

/// How many tabs page `index` of `count` hangs by: a pleat has two, and so has the T of the page in the middle.
fn tabs(spine: &str, index: usize, count: usize) -> f64 {
    let two = spine == "concertina" || spine == "flexi-hinge" && count == 2 * index + 1;
    if two { 2.0 } else { 1.0 }
}

/// The layers of a page at the spine, where its tabs are, and in the middle, where its tag is.
fn layers(page: &Drawn, tabs: f64, paper: f64) -> [f64; 2] {
    let card = if page.pocket { 3.0 } else { 1.0 };
    let everywhere = page.content + 2.0 * paper;
    [everywhere + (card + tabs) * CARD, everywhere + card * CARD + page.tag.unwrap_or(0.0)]
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, ..ProptestConfig::default() })]

    /// Any pages on any spine, with panels and without: as thick as their layers are where all of them together are thickest,
    /// and a case and a ready-made cover are as wide as that, as what the spine gives, or as what stands on it.
    #[test]
    fn covers_are_as_wide_as_the_layers_that_are_counted(
        pages in proptest::collection::vec(drawn(), 1..9),
        spine in prop_oneof![Just("flexi-hinge"), Just("plain-hinge"), Just("concertina"), Just("stubs")],
        panels in any::<bool>(),
        pitch in 10..80u32,
    ) {
        let (count, pitch) = (pages.len(), f64::from(pitch) / 10.0);
        let written: Vec<String> = pages.iter().map(|page| {
            let kind = if page.pocket { "pocket" } else { "divider" };
            format!(r#"{{ "kind": "{kind}", "content": {} }}"#, page.content)
        }).collect();
        let tags: Vec<String> = pages.iter().enumerate().filter_map(|(index, page)| {
            let (tag, page) = (page.tag?, index + 1);
            Some(format!(r#"{{ "kind": "tag", "width": 100, "height": 150, "thickness": {tag}, "pages": [{page}] }}"#))
        }).collect();
        let said = if spine == "stubs" { String::new() } else { format!(r#", "pitch": {pitch}"#) };
        let papers = if panels { r#", "panels": { "reveal": 3, "stock": "paper" }"# } else { "" };
        let with = |cover: &str| {
            text(&written, &format!(r#""kind": "{spine}"{said}"#), &format!(r#"{papers}, "inserts": [{}]{cover}"#, tags.join(", ")))
        };
        let counted: Vec<[f64; 2]> = pages.iter().enumerate()
            .map(|(index, page)| layers(page, tabs(spine, index, count), if panels { PAPER } else { 0.0 })).collect();
        let thickest = counted.iter().map(|page| page[0]).sum::<f64>().max(counted.iter().map(|page| page[1]).sum());
        let measured = closed(&with(""));
        prop_assert!((measured.thickest - thickest).abs() < 1e-6, "{} is not {thickest}", measured.thickest);
        for (page, counted) in measured.pages.iter().zip(&counted) {
            prop_assert!((page.greatest - counted[0].max(counted[1])).abs() < 1e-6, "{} is not {counted:?}", page.greatest);
        }
        #[allow(clippy::cast_precision_loss, reason = "a handful of pages")]
        let many = count as f64;
        // What stands on the cover: from root to root, and what goes up at either end; or so many pitches flat.
        let foot = match spine {
            "stubs" => {
                let block = |page: &[f64; 2]| ((page[0].max(page[1]) - 2.0 * CARD) / CARD - 1e-6).ceil().max(0.0) + 2.0;
                counted.iter().map(block).sum::<f64>() * CARD + 2.0 * CARD
            }
            "flexi-hinge" => (many - 1.0) * pitch + CARD,
            _ => many * pitch,
        };
        let needed = thickest.max(measured.spine).max(foot);
        let board = part(&kit(&with(IN_A_CASE)), "cover-spine").flat.width;
        let wide = ruler(needed + 2.0 * CASE.iter().sum::<f64>());
        // A pleated strip's first base may stand up at its end; a single page's T has wings.
        let loose = if spine == "concertina" || count == 1 { pitch + CARD } else { 1e-6 };
        prop_assert!((board - wide).abs() <= loose, "{board} is not {wide}: {needed}");
        prop_assert!(of_spine(&with(&ready(needed + loose + 0.002))).iter().all(|finding| finding.level == Level::Note));
        let told = of_spine(&with(&ready(needed - 0.01)));
        prop_assert!(told.iter().any(|finding| finding.level != Level::Note), "{needed} less a little is let through");
    }
}
