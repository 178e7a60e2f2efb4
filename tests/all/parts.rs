// SPDX-License-Identifier: MIT
//! The parts of an album, against hand-worked sizes and against what must hold for every size.

use crate::common;

use crate::common::{INCH, cutter, kit, near, part, work};
use hingeleaf::cutter::Cutter;
use hingeleaf::fields::{Key, needed};
use hingeleaf::length::Length;
use hingeleaf::net::{Flat, Sense};
use hingeleaf::parts::{CONTENT, Kit, Part};
use proptest::prelude::*;
use std::f64::consts::PI;
use std::fmt::Write;

/// The trade's inch album: a 6 1/4 x 8 1/2 in page with 1/2 in seams. The wallet's A4 back piece is taken as
/// 8 1/4 in wide, so its flap is 2 in. Sizes: common practice, no source.
fn inch_album(pages: &str) -> String {
    format!(
        r#"{{ "format": "hingeleaf-album/1", "units": "in",
          "stocks": {{ "card": {{ "sheet": "A3" }}, "paper": {{ "sheet": "12x12in" }} }},
          "page": {{ "width": "6 1/4", "height": "8 1/2", "seam": "1/2" }},
          "pages": [{pages}],
          "spine": {{ "kind": "flexi-hinge", "tab": "1/2", "gusset": "1/4", "pitch": "1/4", "lead_in": "1/4" }},
          "panels": {{ "reveal": "1/8", "stock": "paper" }} }}"#
    )
}

const POCKET: &str = r#"{ "kind": "pocket" }"#;
const WALLET: &str = r#"{ "kind": "wallet", "pocket": "4 1/2", "overflap": "2" }"#;

/// Where the level scores (or the upright ones) stand, from the bottom (the left), with their sense.
fn scores(flat: &Flat, level: bool) -> Vec<(f64, Sense)> {
    let mut found: Vec<(f64, Sense)> = flat
        .scores
        .iter()
        .filter(|score| ((score.from.y - score.to.y).abs() < 1e-9) == level)
        .map(|score| (if level { score.from.y } else { score.from.x }, score.sense))
        .collect();
    found.sort_by(|one, two| one.0.total_cmp(&two.0));
    found
}

#[track_caller]
fn scored(part: &Part, level: bool, unit: f64, expected: &[(f64, Sense)]) {
    let found = scores(&part.flat, level);
    assert_eq!(part.flat.scores.len(), expected.len(), "{}: {found:?}", part.id);
    assert_eq!(found.len(), expected.len(), "{}: {found:?}", part.id);
    for ((at, sense), (wanted, folded)) in found.iter().zip(expected) {
        near(*at, wanted * unit, 1e-9);
        assert_eq!(sense, folded, "{} at {at}", part.id);
    }
}

#[track_caller]
fn sized(part: &Part, unit: f64, width: f64, height: f64) {
    near(part.flat.width, width * unit, 1e-9);
    near(part.flat.height, height * unit, 1e-9);
}

fn repeated(entry: &str, count: usize) -> String {
    vec![entry; count].join(", ")
}

/// Pieces W x (H + s), one score at s (sizes: common practice, no source): 6 1/4 x 9 in, scored at 1/2 in. The
/// seams turn in, away from who looks at the front, so they are mountains; one is at the head, one at the tail.
#[test]
fn a_pocket_page_is_two_pieces_with_seams_at_opposite_ends() {
    let text = inch_album(POCKET).replace(r#""A3""#, r#""A3", "pattern": "one-way""#);
    let made = kit(&text);
    let (front, back) = (part(&made, "page-1-front"), part(&made, "page-1-back"));
    for piece in [front, back] {
        sized(piece, INCH, 6.25, 9.0);
        assert_eq!(piece.count, 1);
        near(piece.flat.area(), 6.25 * 9.0 * INCH * INCH, 1e-9);
    }
    scored(front, true, INCH, &[(8.5, Sense::Mountain)]);
    scored(back, true, INCH, &[(0.5, Sense::Mountain)]);
}

/// Without an up and a down, the second piece is the first one turned by half: one part, cut twice.
#[test]
fn on_plain_card_both_pieces_of_a_pocket_page_are_one_part() {
    for (plain, pages) in [("none", 1), ("all-over", 1), ("none", 4)] {
        let text = inch_album(&repeated(POCKET, pages)).replace(r#""A3""#, &format!(r#""A3", "pattern": "{plain}""#));
        let made = kit(&text);
        let pages_parts: Vec<&Part> = made.parts.iter().filter(|part| part.kind.starts_with("pocket")).collect();
        assert_eq!(pages_parts.len(), 1, "{plain}");
        assert_eq!(usize::try_from(pages_parts[0].count).unwrap(), 2 * pages);
        sized(pages_parts[0], INCH, 6.25, 9.0);
        let turned = made.pieces.iter().filter(|piece| piece.part == 0 && piece.turned).count();
        assert_eq!(turned, pages, "one piece of each page lies upside down");
    }
}

/// Back 8 1/4 x 8 1/2 in scored at 6 1/4; pocket front 4 1/2 x 9 1/2 in scored at 1/2 and 9; the flap closes by
/// 2 + 4 1/2 - 6 1/4 = 1/4 in (sizes: common practice, no source). The flap comes forward: a valley.
#[test]
fn a_wallet_page_is_a_back_with_a_flap_and_a_pocket_front() {
    let made = kit(&inch_album(WALLET));
    let (back, front) = (part(&made, "page-1-back"), part(&made, "page-1-pocket"));
    sized(back, INCH, 8.25, 8.5);
    scored(back, false, INCH, &[(6.25, Sense::Valley)]);
    sized(front, INCH, 4.5, 9.5);
    scored(front, true, INCH, &[(0.5, Sense::Mountain), (9.0, Sense::Mountain)]);
    let closing = &made.closings[0];
    near(closing.flap + closing.pocket - closing.width, 0.25 * INCH, 1e-9);
    near(made.pockets[0].width, 4.5 * INCH, 1e-9);
    near(made.pockets[0].height, 8.5 * INCH, 1e-9);

    // With the pocket on the page's back the spine is at the right: the flap hangs at the left, and on plain
    // card the piece is the same one upside down.
    let other = WALLET.replace(r#""overflap""#, r#""faces": "back", "overflap""#);
    scored(part(&kit(&inch_album(&other)), "page-1-back"), false, INCH, &[(2.0, Sense::Valley)]);
    let both = kit(&inch_album(&format!("{WALLET}, {other}")));
    assert_eq!(part(&both, "page-1-back").count, 2);
    assert_eq!(part(&both, "page-1-pocket").count, 2);
}

/// Strip k of N = 2m pages is 2 (tab + gusset) + (2k - 1) p wide: with 1/2, 1/4, 1/4 in 1 3/4 and 2 1/4 in,
/// scored at 1/2 and 3/4 from both ends (common practice, no source; the widths follow from roots at +/- p/2
/// and +/- 3p/2). Each tab loses two triangles of tab x lead-in / 2.
#[test]
fn an_even_hinge_has_strips_that_grow_by_two_pitches() {
    let made = kit(&inch_album(&repeated(POCKET, 4)));
    for (id, width) in [("hinge-1", 1.75), ("hinge-2", 2.25)] {
        let strip = part(&made, id);
        sized(strip, INCH, width, 8.5);
        let (outer, inner) = (Sense::Both, Sense::Valley);
        scored(strip, false, INCH, &[(0.5, outer), (0.75, inner), (width - 0.75, inner), (width - 0.5, outer)]);
        near(strip.flat.area(), (width * 8.5 - 4.0 * 0.5 * 0.25 / 2.0) * INCH * INCH, 1e-9);
        // The outer edge is shorter by the lead-in at both ends, the score has the full height.
        let ys: Vec<f64> = strip
            .flat
            .outline
            .vertices()
            .iter()
            .filter(|corner| corner.at.x < 1e-9)
            .map(|corner| corner.at.y)
            .collect();
        let (low, high) = (ys.iter().copied().fold(f64::INFINITY, f64::min), ys.iter().copied().fold(0.0, f64::max));
        near(low, 0.25 * INCH, 1e-9);
        near(high, 8.25 * INCH, 1e-9);
        for score in &strip.flat.scores {
            near(score.from.distance(score.to), 8.5 * INCH, 1e-9);
        }
    }
    assert_eq!(made.parts.iter().filter(|part| part.kind.starts_with("hinge")).count(), 2);
}

fn metric_hinge(pages: usize) -> String {
    format!(
        r#"{{ "format": "hingeleaf-album/1", "page": {{ "width": 120, "height": 150 }}, "pages": [{}],
          "spine": {{ "kind": "flexi-hinge", "tab": 12, "gusset": 6, "pitch": 6, "lead_in": 6, "wing": 5 }} }}"#,
        repeated(POCKET, pages)
    )
}

/// Five pages, derived from roots at 0, +/- p and +/- 2p with tab 12, gusset 6, p 6: bases of 2p and 4p give
/// strips of 36 + 12 = 48 and 36 + 24 = 60. The middle page's T: wing 5, gusset 6, tab 12 twice over is 46.
#[test]
fn an_odd_hinge_carries_its_middle_page_on_a_t() {
    let made = kit(&metric_hinge(5));
    let (outer, inner) = (Sense::Both, Sense::Valley);
    sized(part(&made, "hinge-1"), 1.0, 48.0, 150.0);
    scored(part(&made, "hinge-1"), false, 1.0, &[(12.0, outer), (18.0, inner), (30.0, inner), (36.0, outer)]);
    sized(part(&made, "hinge-2"), 1.0, 60.0, 150.0);
    scored(part(&made, "hinge-2"), false, 1.0, &[(12.0, outer), (18.0, inner), (42.0, inner), (48.0, outer)]);

    let tee = part(&made, "hinge-t");
    sized(tee, 1.0, 46.0, 150.0);
    // Glued back to back, the two tabs show their fronts on both sides: their fold is a mountain.
    let middle = (23.0, Sense::Mountain);
    scored(tee, false, 1.0, &[(5.0, inner), (11.0, outer), middle, (35.0, outer), (41.0, inner)]);
    // V-notches as wide as both tabs and a lead-in deep, at both ends of the middle score.
    let crease = tee.flat.scores.iter().find(|score| (score.from.x - 23.0).abs() < 1e-9).unwrap();
    near(crease.from.y.min(crease.to.y), 6.0, 1e-9);
    near(crease.from.y.max(crease.to.y), 144.0, 1e-9);
    near(tee.flat.area(), 46.0 * 150.0 - 2.0 * (24.0 * 6.0 / 2.0), 1e-9);
}

/// Whatever the number of pages, the widest base is (N - 1) pitches wide: the outermost pages are that far apart.
#[test]
fn every_number_of_pages_has_its_strips() {
    for pages in [1, 2, 3, 4, 5, 7, 20, 21] {
        let made = kit(&metric_hinge(pages));
        let strips: Vec<&Part> = made.parts.iter().filter(|part| part.kind == "hinge strip").collect();
        assert_eq!(strips.len(), pages / 2, "{pages}");
        assert_eq!(made.parts.iter().filter(|part| part.kind == "hinge t").count(), pages % 2, "{pages}");
        for (below, strip) in strips.iter().skip(1).zip(&strips) {
            near(below.flat.width - strip.flat.width, 2.0 * 6.0, 1e-9);
        }
        if let Some(widest) = strips.last() {
            near(widest.flat.width - 2.0 * (12.0 + 6.0), f64::from(u32::try_from(pages - 1).unwrap()) * 6.0, 1e-9);
        }
        // Two pieces of each page; everything is joined to something.
        assert_eq!(made.pieces.len(), 2 * pages + strips.len() + pages % 2);
    }
}

/// A T of the same size with other scores is another part.
#[test]
fn parts_of_one_size_with_other_scores_are_kept_apart() {
    // 2 (12 + 6) + p = 46 with p = 10: the strip of two pages has the size of the T above.
    let two = metric_hinge(2).replace(r#""pitch": 6"#, r#""pitch": 10"#);
    let strip = kit(&two);
    let tee = kit(&metric_hinge(1));
    let (strip, tee) = (part(&strip, "hinge-1"), part(&tee, "hinge-t"));
    near(strip.flat.width, tee.flat.width, 1e-9);
    near(strip.flat.area(), tee.flat.area(), 1e-9);
    assert_ne!(strip.flat.likeness(), tee.flat.likeness());
}

/// Plain faces (W - 2r) x (H - 2r), pocket fronts (P - 2r), flaps (overflap - 2r): with r = 1/8 in 6 x 8 1/4,
/// 4 1/4 x 8 1/4 and 1 3/4 x 8 1/4 in (common practice, no source).
#[test]
fn panels_leave_the_reveal_on_every_face() {
    let made = kit(&inch_album(&format!("{POCKET}, {WALLET}")));
    let panels: Vec<&Part> = made.parts.iter().filter(|part| part.kind == "panel").collect();
    let mut sizes: Vec<(f64, f64, u32)> =
        panels.iter().map(|panel| (panel.flat.width / INCH, panel.flat.height / INCH, panel.count)).collect();
    sizes.sort_by(|one, two| one.0.total_cmp(&two.0));
    for ((width, height, count), (wanted, number)) in sizes.iter().zip([(1.75, 1), (4.25, 1), (6.0, 3)]) {
        near(*width, wanted, 1e-9);
        near(*height, 8.25, 1e-9);
        assert_eq!(*count, number, "{wanted} in wide");
    }
    assert_eq!(sizes.len(), 3);
}

/// Two panels of 6 x 8 1/4 in fill a 12 in sheet from edge to edge; stood the other way they need 14 1/4 in. So
/// two come from one sheet only where gap, margin and kerf are nothing.
#[test]
fn two_panels_share_a_sheet_only_without_gap_margin_and_kerf() {
    for (kerf, gap, margin, sheets) in [(0.0, 0.0, 0.0, 1), (0.1, 0.0, 0.0, 2), (0.0, 0.1, 0.0, 2), (0.0, 0.0, 0.1, 2)]
    {
        let done = work(&inch_album(POCKET), cutter(kerf, gap, margin));
        let paper = done.stocks.iter().find(|laid| done.album.stocks[laid.stock].name == "paper").unwrap();
        assert_eq!(paper.count(), sheets, "kerf {kerf}, gap {gap}, margin {margin}");
    }
}

/// How many of a size come from one sheet, by exhaustive search outside this project: no layout can hold more.
/// Lengths in inches. `least` is what side by side rows alone give.
#[test]
fn no_sheet_holds_more_than_fits() {
    for (size, sheet, gap, grain, most, least) in [
        ((5, 7), "12x12in", 0.0, "free", 4, 2),
        ((5, 7), "12x12in", 0.0, "spine", 2, 2),
        ((5, 7), "12x12in", 0.1, "free", 2, 2),
        ((4, 6), "12x12in", 0.0, "free", 6, 6),
        ((4, 6), "12x12in", 0.1, "free", 4, 2),
        ((3, 4), "12x12in", 0.0, "free", 12, 12),
        ((3, 4), "12x12in", 0.1, "free", 9, 6),
        ((4, 6), "letter", 0.0, "free", 3, 2),
        ((4, 6), "letter", 0.1, "free", 3, 2),
        ((3, 4), "letter", 0.0, "free", 6, 4),
        ((3, 4), "letter", 0.1, "free", 6, 4),
    ] {
        let count = 3 * most;
        let text = format!(
            r#"{{ "format": "hingeleaf-album/1", "units": "in", "page": {{ "width": 7, "height": 9, "stock": "card" }},
              "stocks": {{ "card": {{ "sheet": "A2" }}, "cut": {{ "sheet": "{sheet}", "grain": "long" }} }},
              "pages": [{POCKET}], "inserts": [{{ "kind": "tag", "width": {}, "height": {}, "count": {count},
                "hole": 0, "corner": 0, "thickness": 0, "stock": "cut", "grain": "{grain}" }}] }}"#,
            size.0, size.1
        );
        // All of them lie in one pocket; whether they fit into it is not what is asked here.
        let album = common::album(&text);
        let made = hingeleaf::parts::kit(&album, &Cutter::default()).value.unwrap();
        let search =
            hingeleaf::sheets::Search { effort: hingeleaf::layout::Effort::Normal, trimmer: false, threads: 1 };
        let machine = cutter(0.0, gap * INCH, 0.0);
        let (laid, findings) =
            hingeleaf::sheets::lay(album.order(), &made, &machine, search, &hingeleaf::layout::Unwatched);
        assert!(!hingeleaf::finding::stops(&findings), "{findings:?}");
        let cut = laid.iter().find(|laid| album.stocks[laid.stock].name == "cut").unwrap();
        let fullest = cut.sheets.iter().map(|sheet| sheet.placements.len()).max().unwrap();
        assert!((least..=most).contains(&fullest), "{size:?} on {sheet}, gap {gap}, {grain}: {fullest}");
        assert!(cut.lower_bound <= 3, "{size:?} on {sheet}: three sheets are enough, not {}", cut.lower_bound);
    }
}

/// A tag of 90 x 130 with clips of 10 and a hole of 6 in diameter whose centre is 6 below the edge: as much card
/// above the hole as half its width. Area: 90 x 130 - 2 x 10 x 10 / 2 - pi x 3 x 3.
#[test]
fn a_tag_has_a_hole_and_clipped_corners() {
    let text = format!(
        r#"{{ "format": "hingeleaf-album/1", "page": {{ "width": 120, "height": 150 }}, "pages": [{POCKET}],
          "inserts": [{{ "kind": "tag", "width": 90, "height": 130, "hole": 6, "corner": 10, "count": 3 }}] }}"#
    );
    let made = kit(&text);
    let tag = part(&made, "tag-1");
    assert_eq!(tag.count, 3);
    sized(tag, 1.0, 90.0, 130.0);
    near(tag.flat.area(), 90.0 * 130.0 - 100.0 - 9.0 * PI, 1e-9);
    let hole = tag.flat.holes[0].bounds();
    for (found, wanted) in [(hole.x0, 42.0), (hole.x1, 48.0), (hole.y0, 121.0), (hole.y1, 127.0)] {
        near(found, wanted, 1e-9);
    }
    assert!(tag.flat.holes[0].area() < 0.0, "holes run clockwise");
    let corners: Vec<(f64, f64)> =
        tag.flat.outline.vertices().iter().map(|corner| (corner.at.x, corner.at.y)).collect();
    for wanted in [(0.0, 0.0), (90.0, 0.0), (90.0, 120.0), (80.0, 130.0), (10.0, 130.0), (0.0, 120.0)] {
        assert!(corners.contains(&wanted), "{wanted:?} is not in {corners:?}");
    }
    assert_eq!(corners.len(), 6);
}

/// An album of random sizes, in whole units that a test may call what it likes.
#[derive(Clone, Debug)]
struct Sizes {
    width: u32,
    height: u32,
    seam: u32,
    pocket: u32,
    overflap: u32,
    pitch: u32,
    tab: u32,
    gusset: u32,
    lead_in: u32,
    wing: u32,
    reveal: u32,
    hole: u32,
    corner: u32,
    pattern: &'static str,
    /// 0 a pocket page, 1 a wallet with its pocket in front, 2 one with it behind.
    pages: Vec<u8>,
}

fn sizes() -> impl Strategy<Value = Sizes> {
    let page = (600_u32..4000, 600_u32..5000, 30_u32..250);
    let hinge = (20_u32..150, 30_u32..250, 20_u32..150, 0_u32..250);
    let rest = (0_u32..80, 0_u32..90, 0_u32..150, prop::sample::select(vec!["none", "all-over", "one-way"]));
    let shares = (30_u32..100, 0_u32..30);
    (page, hinge, rest, shares, prop::collection::vec(0_u8..3, 1..8)).prop_map(|(page, hinge, rest, shares, pages)| {
        let pocket = page.0 * shares.0 / 100;
        Sizes {
            width: page.0,
            height: page.1,
            seam: page.2,
            pocket,
            overflap: (page.0 - pocket + page.0 * shares.1 / 100).clamp(20, page.0),
            pitch: hinge.0,
            tab: hinge.1,
            gusset: hinge.2,
            lead_in: hinge.3,
            wing: (hinge.0 * 4 / 5).max(11),
            reveal: rest.0,
            hole: rest.1,
            corner: rest.2,
            pattern: rest.3,
            pages,
        }
    })
}

impl Sizes {
    /// The album file, with `units` and each length as `say` writes it.
    fn text(&self, units: &str, say: impl Fn(u32) -> String) -> String {
        let mut pages = String::new();
        for (index, kind) in self.pages.iter().enumerate() {
            let comma = if index > 0 { ", " } else { "" };
            let _ = match kind {
                0 => write!(pages, "{comma}{POCKET}"),
                other => write!(
                    pages,
                    r#"{comma}{{ "kind": "wallet", "pocket": {}, "overflap": {}, "faces": "{}" }}"#,
                    say(self.pocket),
                    say(self.overflap),
                    if *other == 1 { "front" } else { "back" }
                ),
            };
        }
        format!(
            r#"{{ "format": "hingeleaf-album/1", "units": "{units}",
              "stocks": {{ "card": {{ "pattern": "{}" }} }},
              "page": {{ "width": {}, "height": {}, "seam": {} }}, "pages": [{pages}],
              "spine": {{ "kind": "flexi-hinge", "pitch": {}, "tab": {}, "gusset": {}, "lead_in": {}, "wing": {},
                "ease": {} }},
              "panels": {{ "reveal": {} }},
              "inserts": [{{ "kind": "tag", "width": {}, "height": {}, "hole": {}, "corner": {}, "count": 2 }}] }}"#,
            self.pattern,
            say(self.width),
            say(self.height),
            say(self.seam),
            say(self.pitch),
            say(self.tab),
            say(self.gusset),
            say(self.lead_in),
            say(self.wing),
            say(0),
            say(self.reveal),
            say(self.width / 2),
            say(self.height / 2),
            say(self.hole),
            say(self.corner),
        )
    }

    /// In tenths of a millimetre.
    fn kit(&self, times: u32) -> Kit {
        kit(&self.text("mm", |tenths| (f64::from(tenths * times) / 10.0).to_string()))
    }

    /// In 1/64 in.
    fn inch_kit(&self) -> Kit {
        kit(&self.text("in", |sixty_fourths| format!("\"{sixty_fourths}/64\"")))
    }
}

/// A part's corners, holes and scores in whole micrometres, in an order of their own. Steps of 0.1 mm and of 1/64 in
/// are whole eighths of a micrometre, so none of them lies where this rounding turns.
fn shape(flat: &Flat) -> Vec<Vec<i64>> {
    #[allow(clippy::cast_possible_truncation, reason = "sizes are a few metres at most")]
    let whole = |mm: f64| (mm * 1e3 + 0.06).floor() as i64;
    let mut all: Vec<Vec<i64>> = Vec::new();
    for (kind, contour) in std::iter::once((0, &flat.outline)).chain(flat.holes.iter().map(|hole| (1, hole))) {
        all.extend(contour.edges().map(|edge| {
            [edge.from.x, edge.from.y, edge.to.x, edge.to.y, edge.bulge].map(whole).into_iter().chain([kind]).collect()
        }));
    }
    for score in &flat.scores {
        let mut ends = [(whole(score.from.x), whole(score.from.y)), (whole(score.to.x), whole(score.to.y))];
        ends.sort_unstable();
        all.push(vec![2, ends[0].0, ends[0].1, ends[1].0, ends[1].1, score.sense as i64]);
    }
    all.sort();
    all
}

/// No two parts of a kit are the same, and each is cut as often as it has pieces.
fn one_part_each(made: &Kit, sizes: &Sizes) -> Result<(), TestCaseError> {
    for (number, part) in made.parts.iter().enumerate() {
        let pieces = made.pieces.iter().filter(|piece| piece.part == number).count();
        prop_assert_eq!(usize::try_from(part.count).unwrap(), pieces, "{}", &part.id);
        prop_assert_eq!(part.used_in.len(), pieces, "{}", &part.id);
        for other in &made.parts[number + 1..] {
            prop_assert_ne!(&part.id, &other.id);
            if part.kind == other.kind {
                prop_assert_ne!(shape(&part.flat), shape(&other.flat), "{} is {}", &part.id, &other.id);
                let turned = shape(&other.flat.turned(2));
                let differs = sizes.pattern == "one-way" || shape(&part.flat) != turned;
                prop_assert!(differs, "{} is {} upside down", &part.id, &other.id);
            }
        }
    }
    Ok(())
}

proptest! {
    // No file of past failures beside the tests.
    #![proptest_config(ProptestConfig { failure_persistence: None, ..ProptestConfig::with_cases(200) })]

    #[test]
    fn every_part_is_sound(sizes in sizes()) {
        let made = sizes.kit(1);
        for part in &made.parts {
            let flat = &part.flat;
            let panels: f64 = part.net.panels.iter().map(|panel| panel.outline.area()).sum();
            let holes: f64 = part.net.holes.iter().map(|hole| hole.area().abs()).sum();
            let tolerance = 1e-9 * flat.area();
            prop_assert!((flat.area() - panels + holes).abs() < tolerance, "{}: its panels are its area", part.id);
            for contour in std::iter::once(&flat.outline).chain(&flat.holes) {
                prop_assert!(contour.is_simple(), "{}", part.id);
                for edge in contour.edges() {
                    prop_assert!(edge.from.distance(edge.to) > 1e-6, "{}: an edge of no length", part.id);
                    prop_assert!(edge.angle().abs() <= PI / 2.0 + 1e-9, "{}: an arc over 90 degrees", part.id);
                }
            }
            prop_assert!(flat.outline.area() > 0.0, "{}: outlines run counter-clockwise", part.id);
            prop_assert!(flat.holes.iter().all(|hole| hole.area() < 0.0), "{}: holes run clockwise", part.id);
            let bounds = flat.outline.bounds();
            prop_assert!(bounds.x0.abs() < 1e-9 && bounds.y0.abs() < 1e-9, "{}: its lower left is the origin", part.id);
            prop_assert!((bounds.width() - flat.width).abs() < 1e-9 && (bounds.height() - flat.height).abs() < 1e-9);
            for score in &flat.scores {
                for end in [score.from, score.to] {
                    prop_assert!(flat.outline.distance(end) < 1e-9, "{}: a score ends beside the outline", part.id);
                }
                prop_assert!(flat.outline.contains(score.from.midpoint(score.to)), "{}: a score outside", part.id);
            }
        }
    }

    #[test]
    fn equal_pieces_are_one_part(sizes in sizes()) {
        one_part_each(&sizes.kit(1), &sizes)?;
    }

    #[test]
    fn equal_pieces_are_one_part_in_inches(sizes in sizes()) {
        one_part_each(&sizes.inch_kit(), &sizes)?;
    }

    #[test]
    fn twice_the_lengths_are_twice_the_sizes(sizes in sizes()) {
        let (once, twice) = (sizes.kit(1), sizes.kit(2));
        // A panel under 5 mm is left out, so a small one may come up only at twice the size.
        for part in &once.parts {
            let other = twice.parts.iter().find(|other| other.id == part.id);
            prop_assert!(other.is_some(), "{} is gone", &part.id);
            let (flat, double) = (&part.flat, &other.unwrap().flat);
            prop_assert!((double.width - 2.0 * flat.width).abs() < 1e-9 && (double.height - 2.0 * flat.height).abs() < 1e-9);
            prop_assert!((double.area() - 4.0 * flat.area()).abs() < 1e-9 * double.area());
            prop_assert_eq!(flat.scores.len(), double.scores.len());
            for (one, two) in flat.scores.iter().zip(&double.scores) {
                prop_assert!((two.from.x - 2.0 * one.from.x).abs() < 1e-9 && (two.to.y - 2.0 * one.to.y).abs() < 1e-9);
            }
        }
    }

    /// The same lengths, once as fractions of an inch, once as millimetres (1/64 in is 0.396875 mm exactly).
    #[test]
    fn inches_and_millimetres_give_the_same_parts(sizes in sizes()) {
        let in_inches = sizes.inch_kit();
        let in_mm = kit(&sizes.text("mm", |sixty_fourths| (f64::from(sixty_fourths) * 0.396_875).to_string()));
        prop_assert_eq!(in_inches.parts.len(), in_mm.parts.len());
        for (one, two) in in_inches.parts.iter().zip(&in_mm.parts) {
            prop_assert_eq!((&one.id, one.count), (&two.id, two.count));
            prop_assert_eq!(shape(&one.flat), shape(&two.flat), "{}", &one.id);
        }
    }
}

/// A kind can only be asked for fields that its table holds; what may be of any kind is asked whether it has it. Every kind
/// is made in `plates`, over whatever its fields take.
#[test]
fn an_entry_without_a_field_says_so() {
    let album = common::album(&inch_album(POCKET));
    let overflap: Key<Length> = Key::size("overflap", needed(), "a wallet's flap");
    assert_eq!(album.pages[0].values.find(overflap), None);
    let asked = std::panic::catch_unwind(|| album.pages[0].get(overflap));
    assert_eq!(asked.is_err(), cfg!(debug_assertions), "a pocket page has no \"overflap\"");
    assert_eq!(album.pages[0].get(CONTENT), Length::ZERO);
}
