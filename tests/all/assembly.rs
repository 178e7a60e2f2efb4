// SPDX-License-Identifier: MIT
//! Assemblies with one thing changed: each is caught, and by the finding that says what it is.

use crate::common::{album, cutter, kit};
use hingeleaf::contour::{Contour, Point, Vec2};
use hingeleaf::finding::{Level, gravest_first};
use hingeleaf::fit;
use hingeleaf::fit::order::{Doing, check, steps};
use hingeleaf::net::{Fold, Net, Panel, Sense, Use};
use hingeleaf::parts::{Bond, Face, Hold, Kit, Owner, Part, Piece, Pocket, PocketEnd, Purpose, Side};

/// Six pages of both kinds, panels on every face, tags in the pockets, on a strip each and the middle ones on the narrowest.
fn text(pages: usize) -> String {
    let all = [
        r#"{ "kind": "pocket" }"#,
        r#"{ "kind": "wallet", "pocket": 100, "overflap": 50, "faces": "back" }"#,
        r#"{ "kind": "pocket" }"#,
        r#"{ "kind": "wallet", "pocket": 100, "overflap": 50 }"#,
        r#"{ "kind": "pocket" }"#,
        r#"{ "kind": "pocket" }"#,
    ];
    format!(
        r#"{{ "format": "hingeleaf-album/1",
          "stocks": {{ "card": {{ "sheet": "A3", "caliper": 0.35 }}, "paper": {{ "sheet": "A3", "caliper": 0.2 }} }},
          "page": {{ "width": 140, "height": 190 }}, "pages": [{}],
          "panels": {{ "reveal": 3, "stock": "paper" }},
          "inserts": [{{ "kind": "tag", "width": 60, "height": 130, "count": 3 }}] }}"#,
        all[..pages].join(", ")
    )
}

/// Ids of what stops or warns.
fn found(text: &str, kit: &Kit) -> Vec<&'static str> {
    let mut findings = fit::check(&album(text), kit, &cutter(0.0, 0.0, 0.0)).findings;
    gravest_first(&mut findings);
    findings.into_iter().filter(|finding| finding.level != Level::Note).map(|finding| finding.id).collect()
}

fn piece(kit: &Kit, name: &str) -> usize {
    let names: Vec<String> = kit.pieces.iter().map(|piece| piece.name.to_string()).collect();
    kit.pieces
        .iter()
        .position(|piece| piece.name.to_string() == name)
        .unwrap_or_else(|| panic!("no {name} in {names:?}"))
}

/// The bond of a piece's panel on another piece.
fn bond(kit: &Kit, one: &str, panel: &str, other: &str) -> usize {
    let (one, other) = (piece(kit, one), piece(kit, other));
    let panel = kit.pieces[one].net.panel(panel).unwrap();
    let is = |bond: &Bond| bond.one.piece == one && bond.one.panel == panel && bond.other.piece == other;
    kit.bonds.iter().position(is).unwrap()
}

/// A piece drawn larger or smaller, its folds and its part with it.
fn scaled(kit: &mut Kit, name: &str, across: f64, up: f64) {
    let number = piece(kit, name);
    let map = |point: Point| Point::new(point.x * across, point.y * up);
    let net = &mut kit.pieces[number].net;
    for panel in &mut net.panels {
        panel.outline = panel.outline.mapped(map);
    }
    for fold in &mut net.folds {
        (fold.from, fold.to) = (map(fold.from), map(fold.to));
    }
}

#[test]
fn the_assembly_that_is_changed_here_is_sound() {
    for pages in 1..=6 {
        assert_eq!(found(&text(pages), &kit(&text(pages))), Vec::<&str>::new(), "{pages} pages");
    }
}

/// What was changed, what it must be called, and the change.
type Change = (&'static str, &'static str, fn(&mut Kit));

const CHANGES: &[Change] = &[
    ("a seam that nobody sticks", "seam-loose", |kit| {
        let number = bond(kit, "page 1 back", "seam", "page 1 front");
        kit.bonds.remove(number);
    }),
    ("a seam 3 mm beside its place", "misses", |kit| {
        let number = bond(kit, "page 1 back", "seam", "page 1 front");
        kit.bonds[number].other.at.x += 3.0;
    }),
    ("a seam 3 mm too high", "misses", |kit| {
        let number = bond(kit, "page 3 back", "seam", "page 3 front");
        kit.bonds[number].other.at.y += 3.0;
    }),
    ("a seam stuck outside", "turned-over", |kit| {
        let number = bond(kit, "page 1 back", "seam", "page 1 front");
        kit.bonds[number].other.face = Face::Front;
    }),
    ("the other face of a seam", "turned-over", |kit| {
        let number = bond(kit, "page 1 back", "seam", "page 1 front");
        kit.bonds[number].one.face = Face::Back;
    }),
    ("a seam folded half way", "turned-over", |kit| {
        let number = piece(kit, "page 1 back");
        kit.pieces[number].net.folds[0].angle = 90.0;
    }),
    ("a seam folded outwards", "passes-through", |kit| {
        let number = piece(kit, "page 1 front");
        kit.pieces[number].net.folds[0].sense = Sense::Valley;
    }),
    ("a page piece too short", "misses", |kit| scaled(kit, "page 1 back", 1.0, 0.95)),
    ("a page piece too wide", "sticks-out", |kit| scaled(kit, "page 1 back", 1.1, 1.0)),
    ("a pocket too low", "misses", |kit| scaled(kit, "page 4 pocket", 1.0, 0.98)),
    ("a closing flap folded to the back", "flap-turned-over", |kit| {
        let number = piece(kit, "page 4 back");
        kit.pieces[number].net.folds[0].sense = Sense::Mountain;
    }),
    ("a closing flap of the page's back folded to its front", "flap-turned-over", |kit| {
        let number = piece(kit, "page 2 back");
        kit.pieces[number].net.folds[0].sense = Sense::Mountain;
    }),
    ("a strip turned over", "upside-down", |kit| {
        let number = bond(kit, "hinge strip 2", "base", "hinge strip 3");
        kit.bonds[number].one.face = Face::Front;
        kit.bonds[number].other.face = Face::Front;
    }),
    ("a short strip", "strip-short", |kit| scaled(kit, "hinge strip 1", 1.0, 0.5)),
    ("a strip longer than its page", "sticks-out", |kit| scaled(kit, "hinge strip 1", 1.0, 1.1)),
    ("a strip beside its place", "sticks-out", |kit| {
        let number = bond(kit, "hinge strip 1", "base", "hinge strip 2");
        kit.bonds[number].other.at.x += 7.0;
    }),
    ("strips crosswise", "sticks-out", |kit| {
        let number = bond(kit, "hinge strip 2", "base", "hinge strip 3");
        kit.bonds[number].other.along = Vec2::new(0.0, 1.0);
    }),
    ("a tab too far up", "sticks-out", |kit| {
        let number = bond(kit, "hinge strip 1", "right tab", "page 4 pocket");
        kit.bonds[number].other.at.y += 20.0;
    }),
    ("two pages on each other's tabs", "out-of-order", |kit| {
        let (one, two) = (
            bond(kit, "hinge strip 3", "left tab", "page 1 back"),
            bond(kit, "hinge strip 1", "left tab", "page 3 back"),
        );
        let other = kit.bonds[one].other;
        kit.bonds[one].other = kit.bonds[two].other;
        kit.bonds[two].other = other;
    }),
    ("a left page on a right tab", "sticks-out", |kit| {
        let (one, two) = (
            bond(kit, "hinge strip 3", "left tab", "page 1 back"),
            bond(kit, "hinge strip 3", "right tab", "page 6 front"),
        );
        let other = kit.bonds[one].other;
        kit.bonds[one].other = kit.bonds[two].other;
        kit.bonds[two].other = other;
    }),
    ("a page with its head down", "wrong-way-round", |kit| {
        let number = bond(kit, "hinge strip 3", "right tab", "page 6 front");
        // At the fore-edge's head, going down: the page turned by half a turn.
        kit.bonds[number].other.at = Point::new(140.0, 190.0);
        kit.bonds[number].other.along = Vec2::new(0.0, -1.0);
    }),
    ("a page that hangs on nothing", "joined-to-nothing", |kit| {
        let number = bond(kit, "hinge strip 3", "right tab", "page 6 front");
        kit.bonds.remove(number);
    }),
    ("a panel larger than its face", "sticks-out", |kit| scaled(kit, "panel for page 1 front", 1.1, 1.0)),
    ("a panel beside its place", "sticks-out", |kit| {
        let number = bond(kit, "panel for page 1 front", "panel", "page 1 front");
        kit.bonds[number].other.at.x += 5.0;
    }),
    ("a panel with its pattern down", "front-hidden", |kit| {
        let number = bond(kit, "panel for page 1 front", "panel", "page 1 front");
        kit.bonds[number].one.face = Face::Front;
        kit.bonds[number].one.at = Point::new(134.0, 0.0);
        kit.bonds[number].one.along = Vec2::new(-1.0, 0.0);
    }),
    ("a tag put in from the wrong side", "outside-its-pocket", |kit| {
        let number = kit.bonds.iter().position(|bond| bond.one.piece == piece(kit, "tag 1 no. 1")).unwrap();
        kit.bonds[number].one.face = Face::Back;
    }),
];

#[test]
fn every_changed_assembly_is_caught_by_the_right_finding() {
    assert!(CHANGES.len() >= 25);
    let mut wrong = Vec::new();
    for (what, id, change) in CHANGES {
        let mut kit = kit(&text(6));
        change(&mut kit);
        let found = found(&text(6), &kit);
        if !found.contains(id) {
            wrong.push(format!("{what}: {found:?} instead of {id}"));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

/// The T of an odd album.
#[test]
fn a_t_that_is_stuck_askew_is_caught() {
    let text = text(5);
    let mut one = kit(&text);
    let number = bond(&one, "hinge T", "left wing", "hinge strip 1");
    one.bonds[number].other.at.x += 2.0;
    assert_eq!(found(&text, &one).first(), Some(&"misses"), "{:?}", found(&text, &one));
    let mut two = kit(&text);
    let number = bond(&two, "hinge T", "left tab", "hinge T");
    two.bonds[number].one.face = Face::Front;
    assert!(found(&text, &two).contains(&"turned-over"), "{:?}", found(&text, &two));
}

/// A plate and an envelope front with seams on the sides named: spine, tail, fore-edge, head.
#[expect(clippy::too_many_lines, reason = "a kit stated by hand, a line a panel")]
fn envelope(seams: [bool; 4]) -> Kit {
    let (w, h, s) = (100.0, 80.0, 10.0);
    let at = s;
    let mut panels = vec![Panel { name: "pocket", purpose: Use::Plain, outline: Contour::rectangle(at, at, w, h) }];
    // Mitred, so that two flaps at a corner keep apart.
    let (right, head) = (at + w, at + h);
    let sides = [
        ([(at, head), (0.0, head - s), (0.0, at + s), (at, at)], (at, at), (at, head)),
        ([(at, at), (at + s, 0.0), (right - s, 0.0), (right, at)], (at, at), (right, at)),
        ([(right, at), (right + s, at + s), (right + s, head - s), (right, head)], (right, at), (right, head)),
        ([(right, head), (right - s, head + s), (at + s, head + s), (at, head)], (at, head), (right, head)),
    ];
    let mut folds = Vec::new();
    let mut bonds = Vec::new();
    for ((outline, from, to), _) in sides.into_iter().zip(seams).filter(|(_, seam)| *seam) {
        panels.push(Panel { name: "seam", purpose: Use::Seam, outline: Contour::polygon(outline).counter_clockwise() });
        let panel = panels.len() - 1;
        folds.push(Fold {
            between: [0, panel],
            from: from.into(),
            to: to.into(),
            sense: Sense::Mountain,
            angle: 180.0,
        });
        let side = |piece, panel, face, at: (f64, f64), along: (f64, f64)| Side {
            piece,
            panel,
            face,
            at: at.into(),
            along: Vec2::new(along.0, along.1),
        };
        let along = (f64::from(to.0 > from.0), f64::from(to.1 > from.1));
        bonds.push(Bond {
            hold: Hold::Stuck,
            one: side(0, panel, Face::Front, from, along),
            other: side(1, 0, Face::Front, (from.0 - at, from.1 - at), along),
        });
    }
    let nets = [
        Net { panels, folds, holes: Vec::new(), marks: Vec::new() },
        Net::single("leaf", Contour::rectangle(0.0, 0.0, w, h)),
    ];
    let mut kit = Kit::default();
    for (number, (net, name)) in nets.into_iter().zip(["front", "leaf"]).enumerate() {
        kit.parts.push(Part {
            id: name.into(),
            purpose: Purpose::Body,
            kind: "test",
            flat: net.flat().unwrap(),
            net: net.clone(),
            stock: 0,
            count: 1,
            along_grain: false,
            sideways: false,
            patterns: Vec::new(),
            used_in: vec![name.into()],
            place: None,
            cut: None,
        });
        kit.pieces.push(Piece {
            part: number,
            turned: false,
            name: name.into(),
            owner: Owner::Page(1),
            net,
            form: None,
        });
    }
    kit.bonds = bonds;
    let inside = Side { piece: 0, panel: 0, face: Face::Back, at: Point::new(at, at), along: Vec2::new(0.0, 1.0) };
    kit.pockets.push(Pocket {
        page: 1,
        width: w,
        height: h,
        beyond: [0.0; 2],
        notch: [0.0; 2],
        across: [PocketEnd::Open; 2],
        up: [PocketEnd::Sealed; 2],
        tab: 12.0,
        caliper: 0.35,
        flat: false,
        on: None,
        corners: false,
        inside,
    });
    kit
}

#[test]
fn pockets_are_open_where_hands_and_tabs_go_in() {
    let one = |seams| found(&text(1), &envelope(seams));
    assert_eq!(one([false, true, false, true]), Vec::<&str>::new());
    assert_eq!(one([true, true, true, true]), ["stuck-shut"]);
    assert_eq!(one([false, true, true, true]), ["mouth-at-the-spine"]);
    assert_eq!(one([true, true, false, true]), ["no-way-for-the-tab"]);
    assert_eq!(one([false, true, false, false]), Vec::<&str>::new());
}

#[test]
fn the_order_of_work_can_be_done() {
    for pages in 1..=6 {
        let kit = kit(&text(pages));
        let steps = steps(&kit);
        assert_eq!(check(&kit, &steps), Vec::new());
        // Narrow on wide, last page first (common practice, no source).
        let hung: Vec<usize> = steps
            .iter()
            .filter(|step| step.doing == Doing::HangPage)
            .filter_map(|step| match kit.pieces[kit.bonds[step.bond].other.piece].owner {
                Owner::Page(page) => Some(page),
                _ => None,
            })
            .collect();
        assert!(hung.windows(2).all(|pair| pair[0] >= pair[1]) && hung.first() == Some(&pages), "{hung:?}");
        let strips: Vec<String> = steps
            .iter()
            .filter(|step| step.doing == Doing::StackStrips)
            .map(|step| kit.pieces[kit.bonds[step.bond].other.piece].name.to_string())
            .collect();
        assert!(strips.windows(2).all(|pair| pair[0] <= pair[1] || pair[0] == "hinge T"), "{strips:?}");
    }
}

#[test]
fn orders_that_hands_cannot_do_are_caught() {
    let kit = kit(&text(6));
    let sound = steps(&kit);
    let first = |doing: Doing| sound.iter().position(|step| step.doing == doing).unwrap();
    let last = |doing: Doing| sound.iter().rposition(|step| step.doing == doing).unwrap();
    let moved = |from: usize, to: usize| {
        let mut steps = sound.clone();
        let step = steps.remove(from);
        steps.insert(to, step);
        check(&kit, &steps)
    };
    for (what, findings) in [
        ("a page hung before it is made", moved(first(Doing::HangPage), 0)),
        ("a tag put into half a page", moved(first(Doing::FillPocket), 0)),
        ("strips stacked when pages hang", moved(first(Doing::StackStrips), last(Doing::HangPage))),
        ("the first page hung first", moved(last(Doing::HangPage), first(Doing::HangPage))),
    ] {
        assert!(findings.iter().any(|finding| finding.id == "wrong-order"), "{what}: {findings:?}");
    }
    let mut short = sound.clone();
    short.pop();
    assert_eq!(check(&kit, &short).len(), 1, "a step is missing");
    // Something stuck inside a sleeve that is closed by then.
    let mut lined = kit.clone();
    let inside = lined.pockets[0].inside;
    let panel = bond(&lined, "panel for page 1 front", "panel", "page 1 front");
    lined.bonds[panel].other = inside;
    let steps = steps(&lined);
    assert_eq!(check(&lined, &steps), Vec::new(), "lining a sleeve comes first");
    let late: Vec<_> = steps.iter().skip(1).chain(&steps[..1]).copied().collect();
    assert_eq!(steps[0].doing, Doing::LineSleeve);
    assert!(check(&lined, &late).iter().any(|finding| finding.id == "wrong-order"));
}
