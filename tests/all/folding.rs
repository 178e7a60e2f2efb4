// SPDX-License-Identifier: MIT
//! Folding into space: textbook solids, the made album, layers on layers.

use crate::common::{INCH, album, files, kit, near, project};
use hingeleaf::contour::{Contour, Point, Vec2};
use hingeleaf::folded::{Folded, fold};
use hingeleaf::net::{Along, Fold, Net, Panel, RowPanel, Sense, Stand, Use, lifted};
use hingeleaf::parts::{Hold, Kit, Owner};
use proptest::prelude::*;
use std::path::Path;

#[track_caller]
fn at(stand: &Stand, point: (f64, f64), above: f64, expected: [f64; 3]) {
    let found = lifted(stand, point.into(), above);
    for (found, expected) in found.iter().zip(expected) {
        near(*found, expected, 1e-9);
    }
}

fn square(x: f64, y: f64) -> Panel {
    Panel { name: "side", purpose: Use::Plain, outline: Contour::rectangle(x, y, 10.0, 10.0) }
}

fn right_angle(between: [usize; 2], from: (f64, f64), to: (f64, f64)) -> Fold {
    Fold { between, from: from.into(), to: to.into(), sense: Sense::Valley, angle: 90.0 }
}

/// A cross of six squares, the bottom in the middle, becomes the cube [0, 10]^3: textbook coordinates.
#[test]
fn a_cross_of_squares_becomes_a_cube() {
    let net = Net {
        panels: vec![
            square(0.0, 0.0),
            square(10.0, 0.0),
            square(-10.0, 0.0),
            square(0.0, 10.0),
            square(0.0, -10.0),
            square(0.0, 20.0),
        ],
        // Out of order on purpose: the lid hangs on the far wall.
        folds: vec![
            right_angle([3, 5], (0.0, 20.0), (10.0, 20.0)),
            right_angle([0, 1], (10.0, 0.0), (10.0, 10.0)),
            right_angle([0, 2], (0.0, 10.0), (0.0, 0.0)),
            right_angle([0, 3], (0.0, 10.0), (10.0, 10.0)),
            right_angle([0, 4], (10.0, 0.0), (0.0, 0.0)),
        ],
        holes: Vec::new(),
        marks: Vec::new(),
    };
    let stands = net.folded(0.0);
    at(&stands[1], (20.0, 3.0), 0.0, [10.0, 3.0, 10.0]);
    at(&stands[2], (-10.0, 3.0), 0.0, [0.0, 3.0, 10.0]);
    at(&stands[3], (4.0, 20.0), 0.0, [4.0, 10.0, 10.0]);
    at(&stands[4], (4.0, -10.0), 0.0, [4.0, 0.0, 10.0]);
    // The lid's far edge comes to lie on the near wall's upper edge.
    at(&stands[5], (4.0, 20.0), 0.0, [4.0, 10.0, 10.0]);
    at(&stands[5], (4.0, 30.0), 0.0, [4.0, 0.0, 10.0]);
    // Fronts look into the box.
    at(&stands[1], (15.0, 5.0), 1.0, [9.0, 5.0, 5.0]);
}

/// Four walls in a row and a glue strip close to a square tube: the strip lies on the first wall.
#[test]
fn a_row_of_walls_becomes_a_square_tube() {
    let wall = |name| RowPanel::new(name, Use::Plain, 10.0);
    let turn = |leaf: RowPanel| leaf.folded(Sense::Mountain, 90.0);
    let strip = RowPanel::new("seam", Use::Seam, 4.0);
    let row = [wall("a"), turn(wall("b")), turn(wall("c")), turn(wall("d")), turn(strip)];
    let net = Net::row(Along::Across, 30.0, &row, 0);
    let stands = net.folded(0.0);
    at(&stands[1], (20.0, 0.0), 0.0, [10.0, 0.0, -10.0]);
    at(&stands[2], (30.0, 7.0), 0.0, [0.0, 7.0, -10.0]);
    at(&stands[3], (40.0, 30.0), 0.0, [0.0, 30.0, 0.0]);
    at(&stands[4], (44.0, 30.0), 0.0, [4.0, 30.0, 0.0]);
}

/// Two walls and two flat folds: a flattened sleeve. Each flat fold lays a panel one caliper over the other one.
#[test]
fn a_panel_folded_flat_lies_one_caliper_over_the_other() {
    let t = 0.35;
    for (sense, side) in [(Sense::Valley, 1.0), (Sense::Mountain, -1.0)] {
        let flap = RowPanel::new("flap", Use::Seam, 12.0).folded(sense, 180.0);
        let net = Net::row(Along::Up, 148.0, &[RowPanel::new("page", Use::Plain, 190.0), flap], 0);
        let stands = net.folded(t);
        at(&stands[1], (5.0, 202.0), 0.0, [5.0, 178.0, side * t]);
        // The same face of both is now face to face.
        at(&stands[1], (5.0, 190.0), side * t / 2.0, [5.0, 190.0, side * t / 2.0]);
    }
}

/// A riser round a height of 4.0 in card of 0.3: scores 4.3 apart, 4.6 over all (check value F9, FEFCO/ESBO measuring).
#[test]
fn two_right_angles_wrap_a_height() {
    let (height, t) = (4.0, 0.30);
    let [panel, outside] = hingeleaf::net::bend::wrapper(height, t);
    near(panel, 4.30, 1e-12);
    near(outside, 4.60, 1e-12);
    let row = [
        RowPanel::new("lower", Use::Plain, 20.0),
        RowPanel::new("riser", Use::Plain, panel).folded(Sense::Valley, 90.0),
        RowPanel::new("upper", Use::Plain, 20.0).folded(Sense::Valley, 90.0),
    ];
    let stands = Net::row(Along::Across, 10.0, &row, 0).folded(t);
    let [_, _, top] = lifted(&stands[2], Point::new(30.0, 5.0), 0.0);
    near(top - t, height, 1e-9);
    near(top + t, outside, 1e-9);
}

proptest! {
    /// Folding and folding back leaves every panel where it was.
    #[test]
    fn unfolding_is_the_way_back(angles in prop::collection::vec(-180.0..180.0f64, 4), t in 0.0..2.0f64) {
        let leaf = |index: usize| RowPanel::new("panel", Use::Plain, 10.0 + f64::from(u8::try_from(index).unwrap()));
        let folded = |angle: &dyn Fn(usize) -> f64| {
            let row: Vec<RowPanel> = (0..5)
                .map(|index| if index == 0 { leaf(0) } else { leaf(index).folded(Sense::Valley, angle(index - 1)) })
                .collect();
            Net::row(Along::Across, 30.0, &row, 0).folded(t)
        };
        let flat = folded(&|_| 0.0);
        for stand in &flat {
            at(stand, (3.0, 4.0), 0.0, [3.0, 4.0, 0.0]);
        }
        for stand in folded(&|index| angles[index]) {
            let back = stand.inverse();
            let [x, y, z] = lifted(&stand, Point::new(3.0, 4.0), 0.5);
            let home = back.transform_point3([x, y, z].into()).to_array();
            for (found, expected) in home.iter().zip([3.0, 4.0, 0.5]) {
                prop_assert!((found - expected).abs() < 1e-9);
            }
        }
    }
}

fn folded(text: &str) -> (Kit, Folded) {
    let (album, kit) = (album(text), kit(text));
    let calipers: Vec<f64> = album.stocks.iter().map(|stock| stock.caliper.mm()).collect();
    let folded = fold(&kit, &calipers);
    (kit, folded)
}

fn classic(pages: &str) -> String {
    format!(
        r#"{{ "format": "hingeleaf-album/1", "units": "in",
          "stocks": {{ "card": {{ "sheet": "A3", "caliper": "12 pt" }}, "paper": {{ "sheet": "12x12in", "caliper": "7 pt" }} }},
          "page": {{ "width": "6 1/4", "height": "8 1/2", "seam": "1/2" }}, "pages": [{pages}],
          "spine": {{ "kind": "flexi-hinge", "tab": "1/2", "gusset": "1/4", "pitch": "1/4", "lead_in": "1/4" }},
          "panels": {{ "reveal": "1/8", "stock": "paper" }},
          "inserts": [{{ "kind": "tag", "width": 3, "height": 6, "count": 2 }}] }}"#
    )
}

const MIXED: &str = r#"{ "kind": "pocket" }, { "kind": "wallet", "pocket": "4 1/2", "overflap": "2", "faces": "back" },
    { "kind": "wallet", "pocket": "4 1/2", "overflap": "2" }, { "kind": "pocket" }, { "kind": "pocket" }"#;

/// Every bond of albums with even and odd page counts meets within a thousandth of a millimetre along its faces.
#[test]
fn the_made_album_meets_at_every_bond() {
    for pages in [MIXED, &MIXED[..MIXED.rfind(',').unwrap()], r#"{ "kind": "pocket" }"#] {
        let (kit, folded) = folded(&classic(pages));
        assert!(folded.pieces.iter().all(Option::is_some), "a piece is joined to nothing");
        for (bond, misfit) in kit.bonds.iter().zip(&folded.misfits) {
            let misfit = misfit.unwrap();
            let names = [bond.one, bond.other].map(|side| &kit.pieces[side.piece].name);
            assert!(misfit.aside < 1e-3 && misfit.askew < 1e-6, "{names:?} {misfit:?}");
            // Face to face only sleeves give: their walls are a seam apart and the tab has its own caliper.
            assert!(misfit.apart < 0.7, "{names:?} {misfit:?}");
            if let Some(overlap) =
                folded.overlap(&kit, (bond.one.piece, bond.one.panel), (bond.other.piece, bond.other.panel))
            {
                assert!(overlap.beyond < 1e-6, "{names:?} sticks out {overlap:?}");
                near(overlap.area / overlap.of, 1.0, 1e-9);
            } else {
                panic!("{names:?} are not parallel");
            }
        }
    }
}

/// Pages stand a pitch apart, page 1 at the left, every front to the left, heads away (check values H3, H4).
#[test]
fn pages_stand_a_pitch_apart_with_their_fronts_to_the_left() {
    for pages in [MIXED, &MIXED[..MIXED.rfind(',').unwrap()]] {
        let (kit, folded) = folded(&classic(pages));
        let mut tabs = Vec::new();
        for page in 1..=6 {
            let Some(bond) = kit.bonds.iter().find(|bond| {
                bond.hold == Hold::Slid
                    && kit.pieces[bond.one.piece].owner == Owner::Spine
                    && kit.pieces[bond.other.piece].owner == Owner::Page(page)
            }) else {
                continue;
            };
            let stand = folded.stand(bond.one.piece, bond.one.panel).unwrap();
            let root = lifted(stand, bond.one.at, 0.0);
            let tab = &kit.pieces[bond.one.piece].net.panels[bond.one.panel].outline;
            let [_, _, tip] = lifted(stand, tab.bounds().center(), 0.0);
            assert!(tip > root[2], "tabs stand up");
            tabs.push(root[0]);
        }
        for pair in tabs.windows(2) {
            near(pair[1] - pair[0], INCH / 4.0, 0.31);
        }
        assert!(tabs.len() >= 4);
        for (number, piece) in kit.pieces.iter().enumerate() {
            if piece.name.to_string().ends_with("front") && piece.name.to_string().starts_with("page") {
                let normal = folded.stand(number, 0).unwrap().matrix3.z_axis;
                near(normal.x, -1.0, 1e-9);
            }
        }
    }
}

/// Layers by hand: a pocket page of 12 pt card is front, back and, at the spine, a tab; panels of 7 pt on both faces;
/// a tag of 12 pt. Head and tail have a seam more, but the tab ends where its lead-in does.
#[test]
fn a_page_is_as_thick_as_its_layers() {
    let (kit, folded) = folded(&classic(MIXED));
    let stack = folded.stack(&kit, 1);
    let pt = INCH / 1000.0;
    // Reveals are bare card; tab, seam and tag never lie on one another but at the tab's ends.
    near(stack.greatest(), (3.0 * 12.0 + 2.0 * 7.0 + 12.0) * pt, 1e-9);
    near(stack.between(150.0, 158.0), (3.0 * 12.0 + 2.0 * 7.0) * pt, 1e-9);
    assert!(stack.mean < stack.greatest() && stack.mean > 2.0 * 12.0 * pt, "{stack:?}");
    near(stack.strips.last().unwrap().0, 6.25 * INCH, 1e-9);
}

/// Every bond of every fixture as it is and moved out of place, for other people's geometry: where `HINGELEAF_OUTSIDE` names
/// a folder, `overlaps.json` is written into it, with each panel as it lies on the other one and what they share.
#[test]
fn overlaps_are_written_for_other_peoples_geometry() {
    let mut rows = Vec::new();
    for (path, bytes) in files(&project().join("fixtures")) {
        if path.components().count() != 1 || path.extension().is_none_or(|ending| ending != "json") {
            continue;
        }
        let text = String::from_utf8(bytes).unwrap();
        let (album, sound) = (album(&text), kit(&text));
        let calipers: Vec<f64> = album.stocks.iter().map(|stock| stock.caliper.mm()).collect();
        for (number, bond) in sound.bonds.iter().enumerate() {
            for move_by in [0.0, 1.0, -2.0] {
                let mut kit = sound.clone();
                let other = &mut kit.bonds[number].other;
                other.at += Vec2::new(3.3, -5.1) * move_by;
                let (sin, cos) = (move_by * 0.2_f64).sin_cos();
                let along = other.along;
                other.along = Vec2::new(along.x * cos - along.y * sin, along.x * sin + along.y * cos);
                let folded = fold(&kit, &calipers);
                let (one, on) = ((bond.one.piece, bond.one.panel), (bond.other.piece, bond.other.panel));
                let (Some(overlap), Some((seen, _))) = (folded.overlap(&kit, one, on), folded.seen_on(&kit, one, on))
                else {
                    continue;
                };
                // On itself it is seen with its arcs as the chords that are reckoned with.
                let ground = folded.seen_on(&kit, on, on).unwrap().0;
                let pairs = |points: &mut dyn Iterator<Item = Point>| points.map(|p| [p.x, p.y]).collect::<Vec<_>>();
                rows.push(serde_json::json!({
                    "bond": format!("{} on {}", sound.pieces[one.0].name, sound.pieces[on.0].name),
                    "one": pairs(&mut seen.iter().copied()),
                    "other": pairs(&mut ground.iter().copied()),
                    "area": overlap.area,
                    "beyond": overlap.beyond,
                }));
            }
        }
    }
    assert!(rows.len() > 200, "only {} overlaps", rows.len());
    if let Some(folder) = std::env::var_os("HINGELEAF_OUTSIDE") {
        std::fs::write(Path::new(&folder).join("overlaps.json"), serde_json::to_string(&rows).unwrap()).unwrap();
    }
}
