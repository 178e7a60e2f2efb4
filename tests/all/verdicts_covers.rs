// SPDX-License-Identifier: MIT
//! What goes round the closed album, and what a glued tab blocks: hand-worked, each with a sound neighbour.

use crate::common::{album, cutter};
use hingeleaf::finding::{Finding, Level};
use hingeleaf::fit;
use hingeleaf::parts;
use proptest::prelude::*;

/// An album 150 x 190 of card 0.3 with tabs of 12 mm.
fn text(pages: &[String], rest: &str) -> String {
    format!(
        r#"{{ "format": "hingeleaf-album/1", "title": "t", "units": "mm",
          "stocks": {{ "card": {{ "sheet": "A2", "caliper": 0.3 }}, "wrap": {{ "sheet": "700x300mm", "caliper": 0.3 }} }},
          "page": {{ "width": 150, "height": 190, "seam": 12, "stock": "card" }}, "pages": [{}]{rest} }}"#,
        pages.join(", ")
    )
}

fn findings(text: &str) -> Vec<Finding> {
    let made = parts::kit(&album(text), &cutter(0.0, 0.0, 0.0));
    let mut findings = made.findings;
    if let Some(kit) = made.value {
        findings.extend(fit::check(&album(text), &kit, &cutter(0.0, 0.0, 0.0)).findings);
    }
    findings
}

fn said(text: &str, id: &str) -> Option<(Level, Finding)> {
    findings(text).into_iter().find(|finding| finding.id == id).map(|finding| (finding.level, finding))
}

fn pockets(content: f64) -> Vec<String> {
    vec![format!(r#"{{ "kind": "pocket", "content": {content} }}"#); 4]
}

fn close(found: f64, wanted: f64) {
    assert!((found - wanted).abs() < 1e-6, "{found} is not {wanted}");
}

/// Pocket pages are three layers of 0.3 where a seam is, and a tab of 0.3 more where they hang: with 4 mm of content each four
/// of them are 4 x 4.9 = 19.6 thick at the fore-edge, 4 x 5.2 = 20.8 at the spine. A flap whose two scores are 10 apart has of
/// them 10, less its own caliper and that of the front (F9): 9.4, so 11.4 stand over. H11 with the edge at the score: of a flap
/// of 30 18.6 are left, of one of 16 4.6, of one of 11 nothing.
#[test]
fn a_cover_s_flap_reaches_over_pages_that_are_thicker_than_it_is_deep() {
    let of = |flap: f64, depth: &str| {
        let cover = format!(r#", "cover": {{ "kind": "wrap", "stock": "wrap", "flap": {flap}{depth} }}"#);
        text(&pockets(4.0), &cover)
    };
    let ten = r#", "depth": 10"#;
    assert!(said(&of(30.0, ten), "flap-barely").is_none() && said(&of(30.0, ten), "flap-open").is_none());
    let (level, barely) = said(&of(16.0, ten), "flap-barely").unwrap();
    assert_eq!(level, Level::Note);
    close(barely.measured.unwrap().mm(), 4.6);
    let (level, open) = said(&of(11.0, ten), "flap-open").unwrap();
    assert_eq!(level, Level::Stop);
    close(open.measured.unwrap().mm(), -0.4);
    // 20.8 and two calipers are 21.4, on a ruler of half millimetres 21.5, which is enough.
    let mend = open.mend.unwrap();
    assert_eq!((mend.path.as_str(), mend.value.mm()), ("cover.depth", 21.5));
    for depth in ["", r#", "depth": 21.5"#] {
        for id in ["flap-open", "flap-barely", "cover-slack"] {
            assert!(said(&of(11.0, depth), id).is_none(), "{id} {depth}");
        }
    }
}

/// Empty, the same pages are 3.6 thick at the fore-edge, and their spine of four pitches is 24: cut for 24.5 between its scores
/// it has room for 24.2, so that the flap stands 20.6 off the front. A depth of 6 goes round the 4.8 at their spine and two
/// calipers.
#[test]
fn a_cover_s_flap_stands_off_pages_that_are_thinner() {
    let of = |content: f64, more: &str| {
        let cover = format!(r#", "cover": {{ "kind": "wrap", "stock": "wrap"{more} }}"#);
        text(&pockets(content), &cover)
    };
    for what in [r#", "flap": 40"#, r#", "band": 40"#] {
        let (level, slack) = said(&of(0.0, what), "cover-slack").unwrap();
        assert_eq!(level, Level::Note);
        close(slack.measured.unwrap().mm(), 24.2);
        close(slack.allowed.unwrap().mm(), 3.6);
        assert!(said(&of(4.0, what), "cover-slack").is_none());
    }
    assert!(said(&of(0.0, r#", "flap": 40, "depth": 6"#), "cover-slack").is_none());
    // Without either there is nothing to say, and of both it is said once.
    assert!(said(&of(0.0, ""), "cover-slack").is_none());
    let both = findings(&of(0.0, r#", "flap": 40, "band": 40"#));
    assert_eq!(both.iter().filter(|finding| finding.id == "cover-slack").count(), 1);
}

/// A band goes round what its cover's spine gives: where that is cut too narrow it is said once, and of the spine. With a flap
/// that is deeper the band is as deep.
#[test]
fn a_band_goes_round_what_is_as_thick_as_its_cover_s_spine() {
    let of = |more: &str| {
        let cover = format!(r#", "cover": {{ "kind": "wrap", "stock": "wrap", "band": 40{more} }}"#);
        text(&pockets(5.0), &cover)
    };
    let told = |text: &str| findings(text).iter().map(|finding| finding.id).collect::<Vec<_>>();
    assert_eq!(told(&of(r#", "spine": 18.5"#)), ["cover-spine-narrow"]);
    assert_eq!(told(&of("")), Vec::<&str>::new());
    for depth in [20.0, 26.0, 40.0] {
        assert!(!told(&of(&format!(r#", "flap": 40, "depth": {depth}"#))).contains(&"misses"), "{depth}");
    }
}

/// A 9 x 13 print is 89 x 127, up to half a millimetre more (P2): across, it is 127.5 wide, and its corners lie 75 - 63.75 =
/// 11.25 mm from the spine, 0.75 mm over a tab of 12 that is glued inside. A tab of 11, the print upright, or triangles on the front leave them free.
#[test]
fn corners_do_not_go_where_a_tab_is_glued() {
    let of = |page: &str, tab: f64, rest: &str| {
        let page = format!(r#"{{ "kind": "corner-mount", "print": "9x13"{page} }}"#);
        let spine = format!(r#", "spine": {{ "kind": "flexi-hinge", "tab": {tab} }}{rest}"#);
        text(&[page, r#"{ "kind": "pocket" }"#.to_owned()], &spine)
    };
    let across = r#", "lies": "across""#;
    for bound in ["", r#", "bound": "right""#] {
        let (level, blocked) = said(&of(across, 12.0, bound), "corner-blocked").unwrap();
        assert_eq!(level, Level::Warn);
        close(blocked.measured.unwrap().mm(), 0.75);
        assert!(
            blocked.text.to_string().starts_with("2 corners of its print go up to 0.8 mm over"),
            "{}",
            blocked.text
        );
        assert!(said(&of(across, 11.0, bound), "corner-blocked").is_none());
    }
    assert!(said(&of("", 12.0, ""), "corner-blocked").is_none());
    let triangles = format!(r#"{across}, "mount": "triangles""#);
    assert!(said(&of(&triangles, 12.0, ""), "corner-blocked").is_none());
}

/// A flap that only meets its pocket does not close it: 150 - 100 and 6 of overlap is what is asked for, and followed it is
/// enough. Over a card and the 0.3 of its back, whose edge is 150 - 12 - 137 = 1 mm from the score, it is
/// sqrt(1 + 0.6 x 0.6) - 1 = 0.17 more, and with a thick one sqrt(1 + 5.3 x 5.3) - 1 = 4.39, on a ruler of half millimetres
/// (H11).
#[test]
fn what_is_asked_of_a_short_flap_closes_it() {
    for (thick, least) in [(0.3, 56.5), (5.0, 60.5)] {
        let of = |overflap: f64| {
            let page = format!(r#"{{ "kind": "wallet", "pocket": 100, "overflap": {overflap} }}"#);
            let insert = format!(
                r#", "inserts": [{{ "kind": "journal-card", "width": 137, "height": 150, "thickness": {thick} }}]"#
            );
            text(&[page], &insert)
        };
        let mend = said(&of(40.0), "flap-too-short").unwrap().1.mend.unwrap();
        close(mend.value.mm(), least);
        let then = of(mend.value.mm());
        for id in ["flap-too-short", "flap-open", "flap-barely"] {
            assert!(said(&then, id).is_none(), "{id} at {}", mend.value.mm());
        }
    }
    // A pocket of 4 mm: no flap as wide as the page reaches 6 mm over it.
    let narrow = text(&[r#"{ "kind": "wallet", "pocket": 4, "overflap": 100 }"#.to_owned()], "");
    let (_, short) = said(&narrow, "flap-too-short").unwrap();
    assert!(short.mend.is_none() && short.help.to_string().contains("\"pocket\" wider"), "{}", short.help);
}

/// By hand, as everything that goes into or round something: a frame's window laps over the print by 3 and the print may lie
/// 1.6 aside (half of 3.2), so 1.4 are left and 0.4 with two sizes off by 0.5; with 2 they are 0.4, and nothing. Slots have
/// 1.5 for two sizes; bands four times 1 mm all round for six.
#[test]
fn windows_slots_and_bands_are_in_the_check_by_hand() {
    let tight = |text: &str| said(text, "tight-by-hand").map(|(_, finding)| finding.about.to_string());
    let frame = |overlap: f64| {
        let page = format!(r#"{{ "kind": "frame", "print": "9x13", "play": 3.2, "overlap": {overlap} }}"#);
        text(&[page, r#"{ "kind": "pocket" }"#.to_owned()], "")
    };
    assert_eq!(tight(&frame(3.0)), None);
    assert_eq!(tight(&frame(2.0)).as_deref(), Some("the window of page 1"));
    let slots = |tolerance: f64| {
        let page = r#"{ "kind": "corner-mount", "print": "9x13" }"#.to_owned();
        text(&[page, r#"{ "kind": "pocket" }"#.to_owned()], &format!(r#", "tolerance": {tolerance}"#))
    };
    assert_eq!(tight(&slots(0.7)), None);
    assert_eq!(tight(&slots(0.8)).as_deref(), Some("the print of page 1"));
    let band = |tolerance: f64| {
        let cover = r#""cover": { "kind": "wrap", "stock": "wrap", "band": 40, "square": 5 }"#;
        text(&pockets(5.0), &format!(r#", {cover}, "tolerance": {tolerance}"#))
    };
    assert_eq!(tight(&band(0.6)), None);
    assert_eq!(tight(&band(0.7)).as_deref(), Some("the belly band"));
}

/// Four pocket pages, two panels each: 4 x (0.9 + 0.3 of tab) of card, 4 x 0.4 of paper and what is on them. On each lie a
/// film at a seam, two under its panels and two on its tab: 4 x 0.5 = 2 mm at 0.1 a film (H15). Pitch 6 and gussets of 6 are
/// half spent at 24 + 6 = 30: with 5.9 of content the pages are 30.0 and the films say it, with 5 they are 26.4.
#[test]
fn films_are_told_where_the_verdict_turns_on_them() {
    let of = |content: f64, more: &str| {
        let rest = r#", "spine": { "kind": "flexi-hinge", "pitch": 6, "gusset": 6 }, "panels": { "stock": "paper" }"#;
        text(&pockets(content), &format!("{rest}{more}"))
            .replace(r#""wrap": {"#, r#""paper": { "sheet": "A2", "caliper": 0.2 }, "wrap": {"#)
    };
    let (level, film) = said(&of(5.8, ""), "film-uncounted").unwrap();
    assert_eq!(level, Level::Note);
    close(film.measured.unwrap().mm(), 4.0 * (0.9 + 0.3 + 0.4 + 5.8) + 2.0);
    close(film.allowed.unwrap().mm(), 30.0);
    assert!(said(&of(5.0, ""), "film-uncounted").is_none());
    // Where they are spent without it, that is what is said.
    assert!(said(&of(6.5, ""), "film-uncounted").is_none() && said(&of(6.5, ""), "gusset-spent").is_some());
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 300, failure_persistence: None, ..ProptestConfig::default() })]

    /// N pages alike of T each, films of F on each, pitch P, gusset G: half spent where N (T - P) > G, and with its films
    /// where N (T + F - P) > G. A run of them alone, (N - 1) (T - P) > 2 G, is never worse.
    #[test]
    fn films_of_random_albums_are_told_where_they_turn_the_verdict(
        pages in 2..16_usize,
        (content, pitch, gusset) in (0.0..8.0f64, 2.0..9.0f64, 1.0..10.0f64),
        paper in any::<bool>(),
    ) {
        let panels = if paper { r#", "panels": { "stock": "paper" }"# } else { "" };
        let spine = format!(r#", "spine": {{ "kind": "flexi-hinge", "pitch": {pitch}, "gusset": {gusset} }}"#);
        let each = vec![format!(r#"{{ "kind": "pocket", "content": {content} }}"#); pages];
        let text = text(&each, &format!("{spine}{panels}"))
            .replace(r#""wrap": {"#, r#""paper": { "sheet": "A2", "caliper": 0.2 }, "wrap": {"#);
        let thick = 0.9 + 0.3 + content + if paper { 0.4 } else { 0.0 };
        let films = if paper { 0.5 } else { 0.3 };
        // A nested hinge's innermost strip is two layers where there is one page more on one side.
        let odd = if pages % 2 == 1 { 0.3 } else { 0.0 };
        let over = |thick: f64| f64::from(u32::try_from(pages).unwrap()) * (thick - pitch) + odd - gusset;
        prop_assume!(over(thick).abs().min(over(thick + films).abs()) > 1e-3);
        let ids: Vec<&str> = findings(&text).iter().map(|finding| finding.id).collect();
        let spent = ids.contains(&"gusset-spent") || ids.contains(&"gapes");
        prop_assert_eq!(spent, over(thick) > 0.0, "{:?}", ids);
        prop_assert_eq!(ids.contains(&"film-uncounted"), over(thick) < 0.0 && over(thick + films) > 0.0, "{:?}", ids);
    }
}

/// D2, a rigid wedge: pages of 4 x (1.2 + 5.8) = 28 on a spine of 24, 150 wide: 2 atan(4 / 300) = 1.53 degrees. With a band
/// nothing springs, and pages of 26 open by 0.76 degrees, which nobody sees.
#[test]
fn what_nothing_holds_shut_springs_open() {
    let of = |content: f64, cover: &str| {
        text(&pockets(content), &format!(r#", "spine": {{ "kind": "flexi-hinge", "pitch": 6, "gusset": 6 }}{cover}"#))
    };
    let (level, springs) = said(&of(5.8, ""), "springs-open").unwrap();
    assert_eq!(level, Level::Note);
    close(springs.measured.unwrap().mm(), 28.0);
    assert!(springs.text.to_string().contains("springs open by 2 degrees"), "{}", springs.text);
    assert!(said(&of(5.3, ""), "springs-open").is_none());
    let wrap = |more: &str| format!(r#", "cover": {{ "kind": "wrap", "stock": "wrap"{more} }}"#);
    assert!(said(&of(5.8, &wrap("")), "springs-open").is_some());
    for more in [r#", "band": 40"#, r#", "ties": 10"#, r#", "flap": 40"#] {
        assert!(said(&of(5.8, &wrap(more)), "springs-open").is_none(), "{more}");
    }
}

/// H16: a case whose layers may be cut with their grain crossed warps, whichever of them states its grain; F1: hinges crack
/// where they may fold across a grain that is stated. All that can be said of each grain, in every mixture.
#[test]
fn crossed_grain_is_told_of_hinges_and_cases_and_of_nothing_else() {
    let (stated, left) =
        ([r#", "grain": "long""#, r#", "grain": "short""#, ""], [r#", "grain": "free""#, r#", "grain": "spine""#, ""]);
    let mut told = 0;
    for (board, wrap) in stated.into_iter().flat_map(|board| stated.map(|wrap| (board, wrap))) {
        for (card, spine) in stated.into_iter().flat_map(|card| left.map(|spine| (card, spine))) {
            for (cover, kind) in left.into_iter().flat_map(|cover| ["case", "wrap", ""].map(|kind| (cover, kind))) {
                let cover_of = match kind {
                    "case" => {
                        format!(r#", "cover": {{ "kind": "case", "board": "board", "covering": "wrap"{cover} }}"#)
                    }
                    "wrap" => format!(r#", "cover": {{ "kind": "wrap", "stock": "wrap"{cover} }}"#),
                    _ => String::new(),
                };
                let rest = format!(r#", "spine": {{ "kind": "flexi-hinge"{spine} }}{cover_of}"#);
                let stocks = format!(
                    r#""board": {{ "sheet": "700x500mm", "caliper": 2{board} }}, "wrap": {{{} "#,
                    &wrap.replacen(", ", "", 1)
                );
                let stocks = if wrap.is_empty() { stocks } else { stocks + "," };
                let text = text(&pockets(0.0), &rest)
                    .replace(r#""caliper": 0.3 }, "wrap": {"#, &format!(r#""caliper": 0.3{card} }}, {stocks}"#));
                let found = findings(&text);
                let about: Vec<String> = found
                    .iter()
                    .filter(|finding| finding.id == "across-the-grain")
                    .map(|finding| finding.about.to_string())
                    .collect();
                let mut wanted = Vec::new();
                if spine.contains("free") && !card.is_empty() {
                    wanted.push("spine");
                }
                if kind == "case" && cover.contains("free") && !(board.is_empty() && wrap.is_empty()) {
                    wanted.push("cover");
                }
                assert_eq!(about, wanted, "{text}");
                told += wanted.len();
            }
        }
    }
    assert_eq!(told, 3 * 3 * 2 * 9 + 8 * 9);
}

proptest! {
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(400) })]

    /// Four pockets with so much in each are 4 (0.9 + content) thick at the fore-edge and 4 (1.2 + content) at the spine; two
    /// scores give two calipers less than they are apart. What stands over costs the flap as much; more than half of the room
    /// left over, and 6 mm, is slack.
    #[test]
    fn a_cover_s_flap_is_as_its_room_says(content in 0.0..8.0_f64, flap in 10.0..100.0_f64, depth in 2.0..60.0_f64) {
        let cover = format!(r#", "cover": {{ "kind": "wrap", "stock": "wrap", "flap": {flap}, "depth": {depth} }}"#);
        let told: Vec<&str> = findings(&text(&pockets(content), &cover)).iter().map(|finding| finding.id).collect();
        let (edge, spine, room) = (4.0 * (0.9 + content), 4.0 * (1.2 + content), depth - 0.6);
        let left = if spine > room { flap - (spine - room) } else { f64::INFINITY };
        prop_assume!([left, left - 6.0, room - edge - 6.0, room / 2.0 - edge].into_iter().all(|away| away.abs() > 1e-3));
        prop_assert_eq!(told.contains(&"flap-open"), left < 0.0, "{:?} {}", told, left);
        prop_assert_eq!(told.contains(&"flap-barely"), (0.0..6.0).contains(&left), "{:?} {}", told, left);
        prop_assert_eq!(told.contains(&"cover-slack"), room - edge > 6.0_f64.max(room / 2.0), "{:?} {} {}", told, room, edge);
    }

    /// Pages that are thicker than their spine open by 2 atan((T - S) / 2B) (D2); below 1.5 degrees nobody sees it, and where
    /// the gussets are more than half spent that is told instead.
    #[test]
    fn an_album_springs_open_as_a_wedge(content in 3.0..8.0_f64, gusset in 4.0..20.0_f64, pitch in 5.0..8.0_f64, held in any::<bool>()) {
        let flap = if held { r#", "flap": 60, "depth": 40"# } else { "" };
        let rest = format!(
            r#", "spine": {{ "kind": "flexi-hinge", "pitch": {pitch}, "tab": 12, "gusset": {gusset} }},
              "cover": {{ "kind": "wrap", "stock": "wrap"{flap} }}"#
        );
        let told: Vec<&str> = findings(&text(&pockets(content), &rest)).iter().map(|finding| finding.id).collect();
        let over = 4.0 * (1.2 + content - pitch);
        let degrees = 2.0 * (over / 300.0).atan().to_degrees();
        prop_assume!((over - gusset).abs() > 1e-3 && (degrees - 1.5).abs() > 1e-3);
        prop_assert_eq!(told.contains(&"springs-open"), !held && over < gusset && degrees > 1.5, "{:?} {} {}", told, over, degrees);
    }

    /// A print that lies across is up to 127.5 wide in the middle of its page: its corners are free of a tab that ends before
    /// them.
    #[test]
    fn corners_are_blocked_where_the_tab_reaches_them(width in 140.0..200.0_f64, height in 140.0..220.0_f64, tab in 6.0..40.0_f64) {
        let pages = [r#"{ "kind": "corner-mount", "print": "9x13", "lies": "across" }"#, r#"{ "kind": "pocket" }"#];
        let rest = format!(r#", "spine": {{ "kind": "flexi-hinge", "tab": {tab} }}"#);
        let text = text(&pages.map(str::to_owned), &rest).replace(r#""width": 150, "height": 190"#, &format!(r#""width": {width}, "height": {height}"#));
        let told: Vec<&str> = findings(&text).iter().map(|finding| finding.id).collect();
        let over = tab - (width - 127.5) / 2.0;
        // What is next to nothing is not told.
        prop_assume!(over.abs() > 0.2 && !told.contains(&"print-too-large"));
        prop_assert_eq!(told.contains(&"corner-blocked"), over > 0.0, "{:?} {} {}", told, over, text);
    }
}
