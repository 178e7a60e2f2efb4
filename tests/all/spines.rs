// SPDX-License-Identifier: MIT
//! Spines: what carries the pages, against hand-worked sizes; every page on every spine.

use crate::common::{album, cutter, kit, near, part};
use hingeleaf::album::Role;
use hingeleaf::cutter::Cutter;
use hingeleaf::fields::{Fallback, Takes};
use hingeleaf::finding::Level;
use hingeleaf::fit::order::{Doing, check, steps};
use hingeleaf::fit::{self, Closed};
use hingeleaf::folded::{self, Folded};
use hingeleaf::net::{Flat, Sense, Use, lifted};
use hingeleaf::parts::{ALL, Bond, Carry, Hold, Kit, Owner, Part};
use proptest::prelude::*;

const SPINES: [&str; 4] = ["flexi-hinge", "concertina", "plain-hinge", "stubs"];

/// Every kind of page, each with what it needs.
fn pages() -> Vec<String> {
    let needed = |name: &str, kind: &str| match (kind, name) {
        ("wallet", "pocket") => 100,
        ("wallet", "overflap") => 50,
        _ => 40,
    };
    let mut found: Vec<String> = ALL
        .iter()
        .filter(|maker| maker.kind.role == Role::Page)
        .map(|maker| {
            let fields = maker.kind.fields.iter().filter(|field| matches!(field.fallback, Fallback::Needed));
            let said: Vec<String> = fields
                .map(|field| match field.takes {
                    Takes::Length { .. } => format!(r#", "{}": {}"#, field.name, needed(field.name, maker.kind.name)),
                    _ => format!(r#", "{}": "3R""#, field.name),
                })
                .collect();
            format!(r#"{{ "kind": "{}"{} }}"#, maker.kind.name, said.concat())
        })
        .collect();
    found.push(r#"{ "kind": "wallet", "pocket": 100, "overflap": 50, "faces": "back" }"#.into());
    assert!(found.len() >= 3);
    found
}

/// Pages of 140 x 190 mm in card of 0.3 mm, with panels.
fn text(pages: &[String], spine: &str) -> String {
    format!(
        r#"{{ "format": "hingeleaf-album/1",
          "stocks": {{ "card": {{ "sheet": "A3", "caliper": 0.3 }}, "paper": {{ "sheet": "A3", "caliper": 0.2 }} }},
          "page": {{ "width": 140, "height": 190 }}, "pages": [{}], "spine": {{ {spine} }},
          "panels": {{ "reveal": 3, "stock": "paper" }} }}"#,
        pages.join(", ")
    )
}

/// So many pages, of every kind by turns, beginning with one of them.
fn mixed(count: usize, first: usize, spine: &str) -> String {
    let all = pages();
    let pages: Vec<String> = (0..count).map(|page| all[(page + first) % all.len()].clone()).collect();
    text(&pages, &format!(r#""kind": "{spine}""#))
}

/// Pocket pages.
fn pockets(count: usize, spine: &str) -> String {
    text(&vec![r#"{ "kind": "pocket" }"#.to_owned(); count], spine)
}

#[track_caller]
fn clean(text: &str) -> (Kit, Closed) {
    clean_but_for(text, "")
}

/// Nothing stops or warns, but for one finding that may.
#[track_caller]
fn clean_but_for(text: &str, id: &str) -> (Kit, Closed) {
    let (album, kit) = (album(text), kit(text));
    let fit = fit::check(&album, &kit, &cutter(0.1, 1.0, 3.0));
    let bad: Vec<String> = fit
        .findings
        .iter()
        .filter(|finding| finding.level != Level::Note && finding.id != id)
        .map(|finding| format!("{} {}", finding.headline(), finding.help))
        .collect();
    assert!(bad.is_empty(), "{text}\n{}", bad.join("\n"));
    (kit, fit.closed.unwrap())
}

/// Where the upright scores stand, from the left, with their sense.
#[track_caller]
fn scored(part: &Part, expected: &[(f64, Sense)]) {
    let mut found: Vec<(f64, Sense)> = part.flat.scores.iter().map(|score| (score.from.x, score.sense)).collect();
    found.sort_by(|one, two| one.0.total_cmp(&two.0));
    assert_eq!(found.len(), expected.len(), "{found:?}");
    for ((at, sense), (wanted, folded)) in found.iter().zip(expected) {
        near(*at, *wanted, 1e-9);
        assert_eq!(sense, folded, "at {at}");
    }
}

#[track_caller]
fn sized(part: &Part, width: f64, height: f64) {
    near(part.flat.width, width, 1e-9);
    near(part.flat.height, height, 1e-9);
}

/// Where the tab of a page (from 1) starts in space: left and right, towards the head, up from the spine.
fn root(kit: &Kit, folded: &Folded, page: usize) -> [f64; 3] {
    let carries = |bond: &&Bond| {
        kit.pieces[bond.one.piece].owner == Owner::Spine && kit.pieces[bond.other.piece].owner == Owner::Page(page)
    };
    let bond = kit.bonds.iter().find(carries).unwrap();
    lifted(folded.stand(bond.one.piece, bond.one.panel).unwrap(), bond.one.at, 0.0)
}

fn fold(text: &str, kit: &Kit) -> Folded {
    let calipers: Vec<f64> = album(text).stocks.iter().map(|stock| stock.caliper.mm()).collect();
    folded::fold(kit, &calipers)
}

const VALLEY: Sense = Sense::Valley;
const MOUNTAIN: Sense = Sense::Mountain;
const BOTH: Sense = Sense::Both;

/// Two pages, tab 12, gusset 6, pitch 6, flap 20. Derived: flap 20, half a pitch 3, gusset 6, tab 12, tab 12, gusset 6, base 6,
/// again 6, 12, 12, 6, then 3 and 20: 124 in all. Bases and gussets meet in valleys, the two tabs in a mountain. Each
/// tab loses two triangles of 12 x 6 / 2.
#[test]
fn a_concertina_is_one_strip_with_a_pleat_a_page() {
    let text = pockets(2, r#""kind": "concertina""#);
    let made = kit(&text);
    let strip = part(&made, "concertina");
    sized(strip, 124.0, 190.0);
    let pleat = |from: f64| {
        [(0.0, VALLEY), (6.0, BOTH), (18.0, MOUNTAIN), (30.0, BOTH), (36.0, VALLEY)].map(|(at, way)| (from + at, way))
    };
    let scores: Vec<(f64, Sense)> =
        [(20.0, VALLEY)].into_iter().chain(pleat(23.0)).chain(pleat(65.0)).chain([(104.0, VALLEY)]).collect();
    scored(strip, &scores);
    near(strip.flat.area(), 124.0 * 190.0 - 4.0 * 2.0 * (12.0 * 6.0 / 2.0), 1e-6);
    // A pleat is a caliper thick between its creases: roots stand 6.3 apart, and the left one 3 from the end flap's crease.
    let folded = fold(&text, &made);
    let [one, two] = [1, 2].map(|page| root(&made, &folded, page));
    near(one[0], 23.0, 1e-9);
    near(two[0] - one[0], 6.3, 1e-9);
    near(one[2], 6.0, 1e-9);
    // The end flaps stand at 0 and at 2 x 6.3 from there.
    let stand = |name: &str| {
        let piece = made.pieces.iter().position(|piece| piece.owner == Owner::Spine).unwrap();
        let panels = &made.pieces[piece].net.panels;
        let of = panels.iter().enumerate().filter(|(_, panel)| panel.name == name);
        of.map(|(panel, of)| lifted(folded.stand(piece, panel).unwrap(), of.outline.bounds().center(), 0.0)[0])
            .collect::<Vec<f64>>()
    };
    let mut ends = stand("end flap");
    ends.sort_by(f64::total_cmp);
    near(ends[0], 20.0, 1e-9);
    near(ends[1], 20.0 + 2.0 * 6.3, 1e-9);
    let (_, closed) = clean(&text);
    near(closed.spine, 12.6, 1e-9);
    // Without flaps the strip ends in its half bases.
    sized(part(&kit(&pockets(2, r#""kind": "concertina", "flap": 0"#)), "concertina"), 84.0, 190.0);
}

/// 24 pages of 36 mm a pleat, and 23 bases of 6, would be 1048 mm: no A3 takes that. On A3, 410 mm wide with 5 mm left on
/// each side, 8 pages a piece are 8 x 36 + 7 x 6 + 23 + 6 = 359; with 12 it would be 527. Three pieces, the middle one's
/// bases 6 - 1 = 5 wide at both ends: 8 x 36 + 7 x 6 + 2 x 5 = 340.
#[test]
fn a_concertina_longer_than_its_sheet_is_joined_from_pieces() {
    let text = pockets(24, r#""kind": "concertina""#);
    let (made, closed) = clean(&text);
    let strips: Vec<&Part> = made.parts.iter().filter(|part| part.kind == "concertina").collect();
    // The first and the last piece are the same, one of them upside down.
    assert_eq!(strips.iter().map(|part| part.count).collect::<Vec<_>>(), [2, 1]);
    sized(strips[0], 359.0, 190.0);
    sized(strips[1], 340.0, 190.0);
    near(closed.spine, 24.0 * 6.3, 1e-9);
    let folded = fold(&text, &made);
    for page in 2..=24 {
        let [before, here] = [page - 1, page].map(|page| root(&made, &folded, page));
        near(here[0] - before[0], 6.3, 1e-9);
        // The middle piece lies on its neighbours.
        near(here[2] - 6.0, if (9..=16).contains(&page) { 0.3 } else { 0.0 }, 1e-9);
    }
    let carry = Carry::of(&album(&text), &Cutter::default());
    assert!(carry.rises[..8].iter().chain(&carry.rises[16..]).all(|rise| *rise == 0.0));
    assert!(carry.rises[8..16].iter().all(|rise| (*rise - 0.3).abs() < 1e-12));
    // The maker can say how long a piece may be: 4 pages at 191, 5 at 233.
    let short = kit(&pockets(24, r#""kind": "concertina", "longest": 200"#));
    let count: u32 = short.parts.iter().filter(|part| part.kind == "concertina").map(|part| part.count).sum();
    assert_eq!(count, 6);
}

/// A strip with its grain upright on a sheet that is taller than wide: 200 mm of an A4 take 3 pages (3 x 36 + 2 x 6 + 23 + 6 =
/// 149; 4 would be 191 with an end and a base, 200 is room for those too), on sheets without a grain 287 do.
#[test]
fn the_grain_says_how_long_a_piece_of_concertina_may_be() {
    let with = |grain: &str| {
        let text = pockets(8, r#""kind": "concertina""#)
            .replace(r#""card": { "sheet": "A3""#, &format!(r#""card": {{ "sheet": "A4"{grain}"#));
        let made = kit(&text);
        made.parts.iter().filter(|part| part.kind == "concertina").map(|part| part.count).sum::<u32>()
    };
    // 8 pages in two pieces of four are 4 x 36 + 3 x 6 + 23 + 6 = 191 wide.
    assert_eq!(with(r#", "grain": "long""#), 2);
    assert_eq!(with(""), 2);
    // Upright on a sheet lying across there are 200 mm up for 190, and 287 across: 6 pages would do, 8 in one would not.
    assert_eq!(with(r#", "grain": "short""#), 2);
}

/// Strip wing + tab = 5 + 12 wide, scored at 5; backing 5 + 3 x 6 + 3 = 26 for four pages (derived). Scores at 5, 11, 17, 23.
#[test]
fn plain_hinges_stand_a_pitch_apart_on_one_backing() {
    let text = pockets(4, r#""kind": "plain-hinge""#);
    let (made, closed) = clean(&text);
    let strip = part(&made, "hinge-1");
    assert_eq!(strip.count, 4);
    sized(strip, 17.0, 190.0);
    scored(strip, &[(5.0, VALLEY)]);
    near(strip.flat.area(), 17.0 * 190.0 - 12.0 * 6.0, 1e-6);
    sized(part(&made, "backing"), 26.0, 190.0);
    near(closed.spine, 26.0, 1e-9);
    let folded = fold(&text, &made);
    for page in 1..=4_u32 {
        let at = root(&made, &folded, page as usize);
        near(at[0], f64::from(page).mul_add(6.0, -1.0), 1e-9);
        // The wing lies on the backing: half a caliper and half a caliper up.
        near(at[2], 0.3, 1e-9);
    }
}

/// The worked row D3: a leaf of 1.76, a guard of 2 x 0.30, stubs of 0.30 make 4 stubs. Guard of B6: 38.1 folded to 19.05, then
/// gusset 6 and tab 12: 56.1 wide, scored at 19.05, 38.1, 44.1. Two pages: block 2 x 6 x 0.30 = 3.6; the liner's scores stand
/// 3.6 + 0.3 = 3.9 apart (F9), its wings are 19.35 (derived: a caliper more).
#[test]
fn stubs_make_the_spine_as_thick_as_the_pages() {
    let text = pockets(2, r#""kind": "stubs", "pitch": 1.76, "root": 19.05"#);
    let (made, closed) = clean(&text);
    let guard = part(&made, "guard-1");
    assert_eq!(guard.count, 2);
    sized(guard, 56.1, 190.0);
    scored(guard, &[(19.05, MOUNTAIN), (38.1, BOTH), (44.1, BOTH)]);
    let stub = part(&made, "stub-1-1");
    assert_eq!(stub.count, 2 * 4);
    sized(stub, 19.05, 190.0);
    let liner = part(&made, "liner");
    sized(liner, 3.9 + 2.0 * 19.35, 190.0);
    scored(liner, &[(19.35, VALLEY), (23.25, VALLEY)]);
    near(closed.spine, 3.6, 1e-9);
    // B5: the pages, as thick as they are measured, are no thicker than that.
    assert!(closed.thickest <= closed.spine, "{closed:?}");
    let folded = fold(&text, &made);
    let [one, two] = [1, 2].map(|page| root(&made, &folded, page));
    near(two[0] - one[0], 6.0 * 0.3, 1e-9);
    // On the liner's face: half a caliper, the root, the gusset.
    near(one[2], 0.15 + 19.05 + 6.0, 1e-9);
    // The last side of the block meets the liner's other wing.
    for misfit in folded.misfits.iter().flatten() {
        assert!(misfit.aside < 1e-9 && misfit.askew < 1e-9, "{misfit:?}");
    }
    let wing = |bond: &&Bond| {
        made.pieces[bond.other.piece].name.to_string() == "liner"
            && made.pieces[bond.other.piece].net.panels[bond.other.panel].name == "right wing"
    };
    let last = made.bonds.iter().position(|bond| wing(&bond)).unwrap();
    near(folded.misfits[last].unwrap().apart, 0.0, 1e-9);
}

/// Where no thickness is said, a page's own layers count. At the head of a pocket page lie two walls and a seam of 0.3 each,
/// two panels of 0.2 and the tab of 0.3: 1.6, and ceil((1.6 - 0.6) / 0.3) = 4 stubs; with 1.0 stuck on it 2.6 and
/// ceil((2.6 - 0.6) / 0.3) = 7.
#[test]
fn a_thicker_page_has_more_stubs() {
    let pages = [r#"{ "kind": "pocket" }"#, r#"{ "kind": "pocket", "content": 1.0 }"#].map(str::to_owned);
    let text = text(&pages, r#""kind": "stubs""#);
    let thick = hingeleaf::parts::page_thickness(&album(&text), &Cutter::default());
    near(thick[0], 1.6, 1e-9);
    near(thick[1], 2.6, 1e-9);
    let (made, closed) = clean(&text);
    let of = |page: usize| {
        let its = |name: &str| name.starts_with("stub") && name.ends_with(&format!("page {page}"));
        made.pieces.iter().filter(|piece| its(&piece.name.to_string())).count()
    };
    assert_eq!((of(1), of(2)), (4, 7));
    near(closed.spine, (6.0 + 9.0) * 0.3, 1e-9);
    assert!(closed.pages.iter().all(|page| page.room >= 0.0 && page.stands_out.abs() < 1e-9), "{closed:?}");
}

/// What is folded and put in has one thickness, as a card that is as thick: not one for each of its panels.
#[test]
fn a_folded_insert_counts_once() {
    let thick = |insert: &str| {
        let pages = [r#"{ "kind": "pocket" }"#.to_owned()];
        let text = text(&pages, r#""kind": "stubs""#);
        let insert =
            format!(r#", "inserts": [{{ "kind": "{insert}", "width": 60, "height": 80, "thickness": 3 }}] }}"#);
        let text = format!("{}{insert}", text.trim_end().strip_suffix('}').unwrap());
        hingeleaf::parts::page_thickness(&album(&text), &Cutter::default())[0]
    };
    // Two walls and a seam of 0.3 each, two panels of 0.2 and the tab of 0.3, and 3 in the pocket, all at one place or 3 beside
    // the head and the tab: never more.
    let card = thick("journal-card");
    assert!(card > 3.0 && card <= 1.6 + 3.0, "{card}");
    for folded in ["accordion", "booklet", "envelope"] {
        near(thick(folded), card, 1e-9);
    }
}

/// Thickness is counted twice by different ways: layers of a page drawn flat, and panels folded in space.
#[test]
fn a_page_is_as_thick_flat_as_it_is_folded() {
    for first in 0..pages().len() {
        let tags = r#", "inserts": [{ "kind": "tag", "width": 30, "height": 50, "corner": 5, "count": 5, "thickness": 1.1 }] }"#;
        let text = mixed(4, first, "stubs");
        let text = format!("{}{tags}", text.trim_end().strip_suffix('}').unwrap());
        let (_, closed) = clean(&text);
        let flat = hingeleaf::parts::page_thickness(&album(&text), &Cutter::default());
        assert_eq!(flat.len(), 4);
        for (page, flat) in closed.pages.iter().zip(flat) {
            near(flat, page.greatest, 1e-9);
            // B5: guard and stubs are at least as thick, by less than one stub.
            assert!((0.0..0.3).contains(&(page.room + 1e-9)), "{page:?}");
        }
        assert!(closed.thickest <= closed.spine, "{closed:?}");
    }
}

#[test]
fn any_page_goes_on_any_spine() {
    for spine in SPINES {
        for count in (1..=6).chain([24]) {
            for first in 0..pages().len() {
                let text = mixed(count, first, spine);
                // So many thick pages do not lie flat on gussets of 6 mm.
                let (made, _) = clean_but_for(&text, if count == 24 { "opens-high" } else { "" });
                assert_eq!(check(&made, &steps(&made)), Vec::new(), "{text}");
                // Pages in order, each held, none upside down: roots go to the right, heads away.
                let folded = fold(&text, &made);
                for page in 2..=count {
                    assert!(root(&made, &folded, page)[0] > root(&made, &folded, page - 1)[0] + 1.0, "{text}");
                }
                for pocket in &made.pockets {
                    let stand = folded.stand(pocket.inside.piece, pocket.inside.panel).unwrap();
                    let at = lifted(stand, pocket.inside.at, 0.0);
                    let up = lifted(stand, pocket.inside.at + pocket.inside.along, 0.0);
                    near(up[1] - at[1], 1.0, 1e-9);
                    // Some pockets stand higher than the page's tail.
                    assert!((-1e-6..190.0).contains(&at[1]), "{at:?}");
                }
                if count == 24 {
                    break;
                }
            }
        }
    }
}

/// What the spine says of itself is what the folded album shows.
#[test]
fn each_spine_carries_its_pages_as_it_says() {
    for spine in SPINES {
        for count in 1..=6 {
            let text = mixed(count, 0, spine);
            let (carry, made) = (Carry::of(&album(&text), &Cutter::default()), kit(&text));
            let folded = fold(&text, &made);
            assert_eq!((carry.steps.len(), carry.rises.len()), (count, count));
            let roots: Vec<[f64; 3]> = (1..=count).map(|page| root(&made, &folded, page)).collect();
            let lowest = roots.iter().map(|root| root[2]).fold(f64::INFINITY, f64::min);
            let least = carry.rises.iter().copied().fold(f64::INFINITY, f64::min);
            for (page, root) in roots.iter().enumerate() {
                near(root[2] - lowest, carry.rises[page] - least, 1e-9);
                // From page to page it is a pitch; a flexi-hinge's T stands with one tab half a caliper off, a guard's stubs
                // come after it.
                if page > 0 {
                    let step = if spine == "stubs" { carry.steps[page - 1] } else { carry.steps[page] };
                    near(root[0] - roots[page - 1][0], step, if spine == "flexi-hinge" { 0.151 } else { 1e-9 });
                }
            }
            // A pleat's tabs, the guards' and the strips': all of the width that it says.
            for bond in &made.bonds {
                let panel = &made.pieces[bond.one.piece].net.panels[bond.one.panel];
                if bond.hold == Hold::Slid && panel.purpose == Use::Tab {
                    near(panel.outline.bounds().width(), carry.tab, 1e-9);
                }
            }
        }
    }
}

#[test]
fn hands_can_put_a_stub_spine_together() {
    let made = kit(&pockets(3, r#""kind": "stubs""#));
    let order = steps(&made);
    let stacked: Vec<String> = order
        .iter()
        .filter(|step| step.doing == Doing::StackStrips)
        .map(|step| made.pieces[made.bonds[step.bond].other.piece].name.to_string())
        .collect();
    // The liner goes round guards and stubs when they are together.
    let liner = stacked.iter().position(|name| *name == "liner").unwrap();
    assert_eq!(stacked[liner..], ["liner", "liner"]);
    // Guards are folded first.
    assert!(stacked[..3].iter().all(|name| name.starts_with("guard")));
}

/// Ids of what stops or warns.
fn found(text: &str) -> Vec<&'static str> {
    let (album, made) = (album(text), hingeleaf::parts::kit(&album(text), &Cutter::default()));
    let mut findings = made.findings;
    if let Some(kit) = made.value {
        findings.extend(fit::check(&album, &kit, &cutter(0.1, 1.0, 3.0)).findings);
    }
    for finding in findings.iter().filter(|finding| finding.level != Level::Note) {
        assert!(finding.place.is_some() && !finding.help.is_empty(), "{}", finding.headline());
    }
    findings.into_iter().filter(|finding| finding.level != Level::Note).map(|finding| finding.id).collect()
}

#[test]
fn bad_sizes_of_a_spine_are_told() {
    for (pages, spine, id) in [
        (3, r#""kind": "plain-hinge", "pitch": 6, "wing": 7"#, "wing-too-wide"),
        (3, r#""kind": "plain-hinge", "pitch": 1.2"#, "gapes"),
        (3, r#""kind": "plain-hinge", "pitch": 3"#, "base-narrow"),
        (3, r#""kind": "stubs", "pitch": 20"#, "too-many-stubs"),
        (3, r#""kind": "stubs", "root": 3"#, "base-narrow"),
        (60, r#""kind": "stubs", "pitch": 1"#, "gapes"),
        (2, r#""kind": "concertina", "lead_in": 0"#, "no-lead-in"),
        (2, r#""kind": "concertina", "tab": 450"#, "lead-in-too-large"),
        (1, r#""kind": "concertina", "flap": 420"#, "too-big"),
        (2, r#""kind": "concertina", "ease": 190"#, "ease-too-large"),
        (2, r#""kind": "concertina", "longest": 60"#, "piece-too-long"),
        (2, r#""kind": "stubs", "lead_in": 95"#, "lead-in-too-large"),
        (60, r#""kind": "plain-hinge", "pitch": 8"#, "too-big"),
    ] {
        let ids = found(&pockets(pages, spine));
        assert!(ids.contains(&id), "{spine}: {ids:?} instead of {id}");
    }
}

/// One millimetre below and above what is allowed.
#[test]
fn limits_bite_exactly() {
    assert_eq!(found(&pockets(3, r#""kind": "plain-hinge", "pitch": 6, "wing": 6"#)), Vec::<&str>::new());
    // 50 stubs of 0.3 and a guard of 0.6: 15.6.
    assert_eq!(found(&pockets(1, r#""kind": "stubs", "pitch": 15.6"#)), Vec::<&str>::new());
    assert_eq!(found(&pockets(1, r#""kind": "stubs", "pitch": 15.7"#)), ["too-many-stubs"]);
}

/// What must hold of every flat part (its outline sound, every score from edge to edge, no more and no less card).
#[track_caller]
fn sound(part: &Part) {
    let flat: &Flat = &part.flat;
    assert!(flat.outline.is_simple(), "{}", part.id);
    assert!(flat.outline.edges().all(|edge| edge.length() > 1e-6), "{}", part.id);
    for score in &flat.scores {
        for end in [score.from, score.to] {
            let edges = std::iter::once(&flat.outline).chain(&flat.holes);
            assert!(edges.map(|edge| edge.distance(end)).fold(f64::MAX, f64::min) < 1e-6, "{}", part.id);
        }
        let middle = score.from.midpoint(score.to);
        assert!(flat.outline.contains(middle), "{}", part.id);
    }
    let panels: f64 = part.net.panels.iter().map(|panel| panel.outline.area()).sum();
    // Holes run clockwise, so their area is negative.
    let holes: f64 = flat.holes.iter().map(hingeleaf::contour::Contour::area).sum();
    near(flat.area(), panels + holes, panels * 1e-9);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(64))]
    #[test]
    fn spines_of_any_size_are_sound_parts_that_meet(
        spine in 1..4_usize, count in 1..9_usize, first in 0..3_usize,
        pitch in 1.0..12.0_f64, tab in 1.0..60.0_f64, gusset in 1.0..30.0_f64, clip in 0.0..1.0_f64, ease in 0.0..3.0_f64,
        other in 1.0..60.0_f64,
    ) {
        let kind = SPINES[spine];
        let lead_in = clip * 80.0;
        let sizes = match kind {
            "concertina" => format!(r#", "gusset": {gusset}, "flap": {other}"#),
            "plain-hinge" => format!(r#", "wing": {}"#, 1.0 + clip * (pitch - 1.0)),
            _ => format!(r#", "gusset": {gusset}, "root": {other}"#),
        };
        let spine =
            format!(r#""kind": "{kind}", "pitch": {pitch}, "tab": {tab}, "lead_in": {lead_in}, "ease": {ease}{sizes}"#);
        let all = pages();
        let pages: Vec<String> = (0..count).map(|page| all[(page + first) % all.len()].clone()).collect();
        let text = text(&pages, &spine);
        let made = kit(&text);
        for part in &made.parts {
            sound(part);
        }
        let folded = fold(&text, &made);
        for (number, misfit) in folded.misfits.iter().enumerate() {
            let misfit = misfit.unwrap();
            prop_assert!(misfit.aside < 1e-6 && misfit.askew < 1e-6, "{number} {misfit:?} {text}");
            let bond = &made.bonds[number];
            let ours = made.pieces[bond.one.piece].owner == Owner::Spine;
            let overlap = folded.overlap(&made, (bond.one.piece, bond.one.panel), (bond.other.piece, bond.other.panel)).unwrap();
            if bond.hold == Hold::Stuck {
                prop_assert!(overlap.beyond < 1e-6, "{number} {overlap:?} {text}");
                // Stuck on each other, they touch.
                if ours {
                    prop_assert!(misfit.apart < 1e-6, "{number} {misfit:?} {text}");
                }
            }
        }
        let carry = Carry::of(&album(&text), &Cutter::default());
        near(carry.spine(), carry.steps.iter().sum(), 1e-9);
        prop_assert_eq!(check(&made, &steps(&made)), Vec::new());
    }
}
