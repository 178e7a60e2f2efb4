// SPDX-License-Identifier: MIT
//! Albums bound at the right: the mirror image of the same album bound at the left.

use crate::common::{album, cutter, kit, near, part};
use hingeleaf::finding::{Finding, Level};
use hingeleaf::folded;
use hingeleaf::net::{Sense, lifted};
use hingeleaf::parts::Kit;
use hingeleaf::{album as albums, fit};

const SPINES: [&str; 4] = ["flexi-hinge", "concertina", "plain-hinge", "stubs"];

fn text(bound: &str, spine: &str, count: usize) -> String {
    let all = [
        r#"{ "kind": "pocket" }"#,
        r#"{ "kind": "wallet", "pocket": 100, "overflap": 50 }"#,
        r#"{ "kind": "wallet", "pocket": 90, "overflap": 55, "faces": "back" }"#,
        r#"{ "kind": "pocket" }"#,
    ];
    let pages: Vec<&str> = (0..count).map(|page| all[page % all.len()]).collect();
    format!(
        r#"{{ "format": "hingeleaf-album/1", "bound": "{bound}",
          "stocks": {{ "card": {{ "sheet": "A3", "caliper": 0.3 }},
            "paper": {{ "sheet": "A3", "caliper": 0.2, "pattern": "one-way" }} }},
          "page": {{ "width": 140, "height": 190 }}, "pages": [{}], "spine": {{ "kind": "{spine}" }},
          "panels": {{ "reveal": 3, "stock": "paper" }},
          "inserts": [{{ "kind": "tag", "width": 60, "height": 130, "count": 2, "corner": 12 }}] }}"#,
        pages.join(", ")
    )
}

fn middles(text: &str, kit: &Kit) -> Vec<(String, [f64; 3])> {
    let calipers: Vec<f64> = album(text).stocks.iter().map(|stock| stock.caliper.mm()).collect();
    let folded = folded::fold(kit, &calipers);
    let of = |(number, piece): (usize, &hingeleaf::parts::Piece)| {
        let panels = piece.net.panels.iter().enumerate();
        let middle = |(panel, of): (usize, &hingeleaf::net::Panel)| {
            let stand = folded.stand(number, panel).unwrap();
            (format!("{} {}", piece.name, of.name), lifted(stand, of.outline.bounds().center(), 0.0))
        };
        panels.map(middle).collect::<Vec<_>>()
    };
    kit.pieces.iter().enumerate().flat_map(of).collect()
}

/// What is called after a side is called after the other one.
fn opposite(name: &str) -> String {
    let sides = name.split(' ').map(|word| match word {
        "left" => "right",
        "right" => "left",
        other => other,
    });
    sides.collect::<Vec<_>>().join(" ")
}

/// Whichever side an album is bound at: the left tab is what lies at the left of the flat part, where pictures and hands have it.
#[test]
fn left_is_left_on_every_part() {
    let mut held = 0;
    for spine in SPINES {
        for bound in ["left", "right"] {
            for part in &kit(&text(bound, spine, 4)).parts {
                // A concertina has several of a name: the middle one of them.
                let middle = |name: &str| {
                    let own = part.net.panels.iter().filter(|panel| panel.name == name);
                    let mut all: Vec<f64> = own.map(|panel| panel.outline.bounds().center().x).collect();
                    all.sort_by(f64::total_cmp);
                    all.get(all.len() / 2).copied()
                };
                for panel in part.net.panels.iter().filter(|panel| panel.name.starts_with("left ")) {
                    let sides = [middle(panel.name), middle(&panel.name.replacen("left", "right", 1))];
                    let [Some(left), Some(right)] = sides else { continue };
                    assert!(left < right, "{bound}: {} of {}", panel.name, part.id);
                    held += 1;
                }
            }
        }
    }
    assert!(held > 12, "{held}");
}

#[test]
fn an_album_bound_at_the_right_is_the_mirror_image() {
    for spine in SPINES {
        for count in 1..=5 {
            let [left, right] = ["left", "right"].map(|bound| text(bound, spine, count));
            let kits = [kit(&left), kit(&right)];
            for (text, kit) in [(&left, &kits[0]), (&right, &kits[1])] {
                let fit = fit::check(&album(text), kit, &cutter(0.1, 1.0, 3.0));
                let bad: Vec<String> =
                    fit.findings.iter().filter(|one| one.level != Level::Note).map(Finding::headline).collect();
                assert!(bad.is_empty(), "{text}\n{}", bad.join("\n"));
            }
            // Every panel of every piece stands opposite, at the same height and as far towards the head.
            let [left, right] = [middles(&left, &kits[0]), middles(&right, &kits[1])];
            let sum = left[0].1[0] + right[0].1[0];
            assert_eq!(left.len(), right.len());
            for ((name, one), (other, two)) in left.iter().zip(&right) {
                assert_eq!(&opposite(name), other);
                near(one[0] + two[0], sum, 1e-6);
                near(one[1], two[1], 1e-6);
                near(one[2], two[2], 1e-6);
            }
            // Not one size changes.
            for (one, two) in kits[0].parts.iter().zip(&kits[1].parts) {
                assert_eq!((&one.id, one.count), (&two.id, two.count));
                near(one.flat.width, two.flat.width, 1e-9);
                near(one.flat.height, two.flat.height, 1e-9);
                near(one.flat.area(), two.flat.area(), 1e-6);
                assert!(two.flat.outline.area() > 0.0 && two.flat.holes.iter().all(|hole| hole.area() < 0.0));
            }
        }
    }
}

/// A wallet's flap comes over from the fore-edge: at the right of a page bound at the left, and at the left of this one. Its
/// score is a valley either way. Page 1 stands at the right.
#[test]
fn fore_edge_and_spine_change_places_and_nothing_else() {
    let score = |bound: &str| {
        let made = kit(&text(bound, "flexi-hinge", 2));
        let score = part(&made, "page-2-back").flat.scores[0];
        (score.from.x, score.sense)
    };
    assert_eq!(score("left").1, Sense::Valley);
    assert_eq!(score("right").1, Sense::Valley);
    near(score("left").0, 140.0, 1e-9);
    near(score("right").0, 50.0, 1e-9);
    let right = text("right", "flexi-hinge", 2);
    let found = middles(&right, &kit(&right));
    let of = |name: &str| found.iter().find(|(found, _)| found.starts_with(name)).unwrap().1[0];
    assert!(of("page 1 front") > of("page 2 back"), "{found:?}");
    assert_eq!(album(&right).bound, albums::Bound::Right);
}

/// A page that hangs on the wrong side of its neighbour is found in such an album, too.
#[test]
fn pages_out_of_order_are_found() {
    let text = text("right", "plain-hinge", 3);
    let mut made = kit(&text);
    let tabs: Vec<usize> = (0..made.bonds.len())
        .filter(|&bond| {
            let [one, other] = [&made.bonds[bond].one, &made.bonds[bond].other].map(|side| side.piece);
            made.pieces[one].name.to_string().starts_with("hinge")
                && made.pieces[other].name.to_string().starts_with("page")
        })
        .collect();
    assert_eq!(tabs.len(), 3);
    let other = made.bonds[tabs[0]].other;
    made.bonds[tabs[0]].other = made.bonds[tabs[2]].other;
    made.bonds[tabs[2]].other = other;
    let fit = fit::check(&album(&text), &made, &cutter(0.1, 1.0, 3.0));
    assert!(fit.findings.iter().any(|finding| finding.id == "out-of-order"), "{:?}", fit.findings);
}
