// SPDX-License-Identifier: MIT
//! Pictures of folded things: what is in front hides what is behind, worked by hand and by looking through every point.

use crate::common::{album, cutter, fixtures, kit, near};
use glam::{DAffine3, DQuat, DVec3};
use hingeleaf::contour::{Contour, Point};
use hingeleaf::fit;
use hingeleaf::folded::fold;
use hingeleaf::net::{Fold, Net, Panel, Sense, Stand, Use};
use hingeleaf::picture::{self, BOARD, CARD, CARD_BACK, Fill, Folding, Mark, Matter, Picture, Pose, Scene, Stuff};
use std::fs;

/// The one view: 24 degrees round on the table, looked at from 47 degrees off straight down.
const TURN: f64 = 24.0;
const TILT: f64 = 47.0;
/// White about a picture, mm.
const EDGE: f64 = 2.0;

/// From space to the picture: x right, y up, z towards the eye.
fn view() -> DAffine3 {
    DAffine3::from_rotation_x(-TILT.to_radians()) * DAffine3::from_rotation_z(TURN.to_radians())
}

fn rectangle(width: f64, height: f64) -> Net {
    Net::single("panel", Contour::rectangle(0.0, 0.0, width, height))
}

/// Adds a rectangle that stands so when it is looked at.
fn add(scene: &mut Scene, size: (f64, f64), stuff: &Stuff, stand: Stand) {
    scene.piece(&rectangle(size.0, size.1), &[Stand::IDENTITY], 0.0, stuff, &(view().inverse() * stand));
}

/// What is seen at a point: the fill drawn last over it.
fn seen(picture: &Picture, at: Point) -> Option<Fill> {
    let within = |contours: &[Contour]| contours.iter().filter(|contour| contour.contains(at)).count() % 2 == 1;
    let fills = picture.marks.iter().filter_map(|mark| match mark {
        Mark::Shape { contours, fill: Some(fill), .. } if within(contours) => Some(fill.clone()),
        _ => None,
    });
    fills.reduce(|_, later| later)
}

/// Four strips in a ring, each rising from one corner of a square to the next: each lies over the one it rises to and under
/// the one that rises to it, so that there is no order in which whole strips could be painted.
///
/// ```text
///    D------C------       The first strip runs along the lower edge from height 0.5 at the left corner to 9.5 at the
///    |             B      right one, where the second starts at 0.5: so at the lower right the first is seen, at the
///    |             |      upper right the second, at the upper left the third, at the lower left the fourth.
///    D------A------B
/// ```
#[test]
fn strips_that_lie_over_each_other_in_a_ring() {
    let mut scene = Scene::default();
    let looks = [
        (Stuff::CARD, false, Fill::Flat(CARD)),
        (Stuff::BOARD, false, Fill::Flat(BOARD)),
        (Stuff::CARD, true, Fill::Flat(CARD_BACK)),
        (Stuff::PAPER, true, Fill::Flat(picture::PAPER_BACK)),
    ];
    for (quarter, (stuff, over, _)) in (0_u8..).zip(looks.clone()) {
        // A strip 100 x 10 that rises one in ten, about the middle (50, 50).
        let rise = DAffine3::from_rotation_y(-(0.1_f64.atan()));
        let turn = DAffine3::from_rotation_z(f64::from(quarter) * std::f64::consts::FRAC_PI_2);
        let flip = if over {
            DAffine3::from_translation(DVec3::Y * 10.0) * DAffine3::from_rotation_x(std::f64::consts::PI)
        } else {
            DAffine3::IDENTITY
        };
        let about = DVec3::new(50.0, 50.0, 0.0);
        let stand = DAffine3::from_translation(about) * turn * DAffine3::from_translation(-about) * rise * flip;
        add(&mut scene, (100.5, 10.0), &stuff, stand);
    }
    let picture = scene.picture((1000.0, 1000.0));
    let corners = [(95.0, 5.0), (95.0, 95.0), (5.0, 95.0), (5.0, 5.0)];
    for ((x, y), (_, _, fill)) in corners.into_iter().zip(looks) {
        assert_eq!(seen(&picture, Point::new(x + EDGE, y + EDGE)), Some(fill), "at {x}, {y}");
    }
}

/// A page 100 x 80 with a flap 40 wide at its right edge, folded flat over it: the flap's back is seen from 60 to 100.
/// Folded behind, or seen from the other face, the page hides it. A round hole in the flap lets the page be seen.
#[test]
fn a_flap_hides_its_page_and_a_hole_does_not() {
    let net = |sense| Net {
        panels: vec![
            Panel { name: "page", purpose: Use::Plain, outline: Contour::rectangle(0.0, 0.0, 100.0, 80.0) },
            Panel { name: "flap", purpose: Use::Flap, outline: Contour::rectangle(100.0, 0.0, 40.0, 80.0) },
        ],
        folds: vec![Fold { between: [0, 1], from: (100.0, 0.0).into(), to: (100.0, 80.0).into(), sense, angle: 180.0 }],
        holes: vec![Contour::circle(Point::new(120.0, 60.0), 5.0).clockwise()],
        marks: Vec::new(),
    };
    // Where a point of the flat page comes to lie on the picture: the page's lower left is the lowest point, its upper
    // left the leftmost. All of it worked from the view's two angles.
    let (turn, tilt) = (TURN.to_radians(), TILT.to_radians());
    let place = |x: f64, y: f64| {
        let low = -80.0 * turn.sin();
        Point::new(x * turn.cos() - y * turn.sin() - low + EDGE, (x * turn.sin() + y * turn.cos()) * tilt.cos() + EDGE)
    };
    let look = |sense, x, y| {
        let net = net(sense);
        let folding = Folding { degrees: &[180.0], ..Folding::flat(&net, 0.001, Stuff::CARD) };
        seen(&folding.picture((1000.0, 1000.0)), place(x, y))
    };
    let (front, back) = (Some(Fill::Flat(CARD)), Some(Fill::Flat(CARD_BACK)));
    assert_eq!(look(Sense::Valley, 30.0, 40.0), front, "the page beside the flap");
    assert_eq!(look(Sense::Valley, 62.0, 40.0), back, "the flap near its edge");
    assert_eq!(look(Sense::Valley, 80.0, 20.0), back, "the flap");
    assert_eq!(look(Sense::Valley, 80.0, 60.0), front, "through the hole, which comes to lie at 80, 60");
    assert_eq!(look(Sense::Mountain, 80.0, 20.0), front, "the page over the flap");
    assert_eq!(look(Sense::Valley, 103.0, 40.0), None, "beyond the fold there is nothing");
}

/// A small row of numbers that look random, the same on every run.
struct Dice(u64);

impl Dice {
    fn roll(&mut self, from: f64, to: f64) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        #[allow(clippy::cast_precision_loss, reason = "53 bits")]
        let share = (self.0 >> 11) as f64 / (1_u64 << 53) as f64;
        from + (to - from) * share
    }
}

/// Rectangles thrown into a box, through each other too: at every point the one is seen that a ray from the eye meets first.
#[test]
fn what_a_ray_meets_first_is_what_is_seen() {
    let mut dice = Dice(7);
    let mut compared = 0;
    for _ in 0..40 {
        let mut scene = Scene::default();
        let mut panels = Vec::new();
        // A sheet behind everything, so that the picture's box is known.
        let ground = DAffine3::from_translation(DVec3::new(0.0, 0.0, -300.0));
        add(&mut scene, (200.0, 200.0), &Stuff::BOARD, ground);
        panels.push((ground, (200.0, 200.0), Stuff::BOARD));
        for number in 0..12 {
            let axis = DVec3::new(dice.roll(-1.0, 1.0), dice.roll(-1.0, 1.0), dice.roll(-1.0, 1.0)).normalize();
            let at = DVec3::new(dice.roll(70.0, 130.0), dice.roll(70.0, 130.0), dice.roll(-40.0, 40.0));
            let stand = DAffine3::from_rotation_translation(DQuat::from_axis_angle(axis, dice.roll(0.0, 6.2)), at);
            let size = (dice.roll(10.0, 45.0), dice.roll(10.0, 45.0));
            let stuff = [Stuff::CARD, Stuff::PAPER, Stuff::BOARD][number % 3].clone();
            add(&mut scene, size, &stuff, stand);
            panels.push((stand, size, stuff));
        }
        let picture = scene.picture((1000.0, 1000.0));
        near(picture.width, 200.0 + 2.0 * EDGE, 1e-6);
        'points: for _ in 0..300 {
            let (x, y) = (dice.roll(20.0, 180.0), dice.roll(20.0, 180.0));
            let mut first: Option<(f64, Fill)> = None;
            let mut second = f64::NEG_INFINITY;
            for (stand, (width, height), stuff) in &panels {
                let normal = stand.transform_vector3(DVec3::Z);
                // What is seen almost from its edge, or near an edge, is left to rounding.
                if normal.z.abs() < 0.05 {
                    continue 'points;
                }
                let depth = stand.translation.z
                    - (normal.x * (x - stand.translation.x) + normal.y * (y - stand.translation.y)) / normal.z;
                let on = stand.inverse().transform_point3(DVec3::new(x, y, depth));
                let inside = on.x.min(width - on.x).min(on.y).min(height - on.y);
                if inside.abs() < 0.2 {
                    continue 'points;
                }
                if inside < 0.0 {
                    continue;
                }
                let fill = match (stuff.matter, normal.z > 0.0) {
                    (Matter::Card, true) => Fill::Flat(CARD),
                    (Matter::Card, false) => Fill::Flat(CARD_BACK),
                    (Matter::Paper, true) => {
                        Fill::Hatched { ground: picture::PAPER, line: picture::PAPER_LINE, apart: 20, turn: 45 }
                    }
                    (Matter::Paper, false) => Fill::Flat(picture::PAPER_BACK),
                    (Matter::Board, _) => Fill::Flat(BOARD),
                };
                match first {
                    Some((nearest, _)) if depth < nearest => second = second.max(depth),
                    _ => {
                        second = first.map_or(second, |(nearest, _)| nearest.max(second));
                        first = Some((depth, fill));
                    }
                }
            }
            let Some((nearest, fill)) = first else { continue };
            if nearest - second < 0.05 {
                continue;
            }
            assert_eq!(seen(&picture, Point::new(x + EDGE, y + EDGE)), Some(fill), "at {x}, {y}");
            compared += 1;
        }
    }
    assert!(compared > 5000, "only {compared} points");
}

/// Two pocket pages 148 wide and 190 tall laid open between them. The picture is as wide as the view makes a sheet of all
/// that lies from fore-edge to fore-edge, turned 24 degrees: across times cos plus 190 times sin; the linkage says how much
/// that is. Nothing stands up.
#[test]
fn an_album_laid_open_is_as_wide_as_its_leaves_lie() {
    let text = r#"{ "format": "hingeleaf-album/1", "stocks": { "card": { "sheet": "A3", "caliper": 0.3 } },
        "page": { "width": 148, "height": 190 }, "pages": [{ "kind": "pocket" }, { "kind": "pocket" }] }"#;
    let (album, kit) = (album(text), kit(text));
    let folded = fold(&kit, &[0.3]);
    let opening = fit::check(&album, &kit, &cutter(0.1, 1.0, 3.0)).openings.unwrap().section.opened(1);
    let across = opening.bars[1].to.x - opening.bars[0].to.x;
    assert!(across > 2.0 * 148.0 && across < 2.0 * 148.0 + 30.0, "{across}");
    let picture = picture::opened(&album, &kit, &folded, &opening, (1000.0, 1000.0));
    let (turn, tilt) = (TURN.to_radians(), TILT.to_radians());
    // Leaves lean a little, and are four calipers thick.
    near(picture.width, across * turn.cos() + 190.0 * turn.sin() + 2.0 * EDGE, 2.0);
    near(picture.height, (across * turn.sin() + 190.0 * turn.cos()) * tilt.cos() + 2.0 * EDGE, 12.0);
}

/// So small, mm, that even the smallest album is not shown larger than it is.
const ROOM: (f64, f64) = (60.0, 45.0);

/// Every album of the fixtures in every pose fits the room that it is given, and all numbers are numbers.
#[test]
fn every_fixture_can_be_seen() {
    for path in fixtures() {
        let text = fs::read_to_string(&path).unwrap();
        let (album, kit) = (album(&text), kit(&text));
        let calipers: Vec<f64> = album.stocks.iter().map(|stock| stock.caliper.mm()).collect();
        let folded = fold(&kit, &calipers);
        let mut pictures: Vec<Picture> = [Pose::Closed, Pose::Apart(20.0), Pose::Fanned(35.0)]
            .into_iter()
            .map(|pose| picture::album(&album, &kit, &folded, pose, &|_| true, ROOM))
            .collect();
        pictures.push(picture::sliding(&album, &kit, &folded, 1, &|_| true, ROOM));
        let fit = fit::check(&album, &kit, &cutter(0.1, 1.0, 3.0));
        for between in 1..album.pages.len() {
            let opening = fit.openings.as_ref().unwrap().section.opened(between);
            pictures.push(picture::opened(&album, &kit, &folded, &opening, ROOM));
        }
        for picture in pictures {
            let (width, height) = (picture.width, picture.height);
            assert!(width <= ROOM.0 + 1e-9 && height <= ROOM.1 + 1e-9, "{}: {width} x {height}", path.display());
            assert!(width > ROOM.0 - 5.0 || height > ROOM.1 - 5.0, "{}: {width} x {height}", path.display());
            let points = picture.marks.iter().flat_map(|mark| match mark {
                Mark::Shape { contours, .. } => {
                    contours.iter().flat_map(|contour| contour.vertices().iter().map(|vertex| vertex.at)).collect()
                }
                Mark::Line { points, .. } => points.clone(),
                Mark::Words { at, .. } => vec![*at],
            });
            for point in points {
                // An arrow's head may stand out a little.
                let inside = (-3.0..=width + 3.0).contains(&point.x) && (-3.0..=height + 3.0).contains(&point.y);
                assert!(inside, "{}: {point:?}", path.display());
            }
        }
    }
}
