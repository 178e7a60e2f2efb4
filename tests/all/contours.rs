// SPDX-License-Identifier: MIT
//! Outlines of straight edges and true arcs: areas, arcs, the tool's path, holes, scores.

use crate::common;

use crate::common::near;
use hingeleaf::contour::{Contour, Corner, Edge, OffsetProblem, Point, Vec2, Vertex, grow};
use hingeleaf::net::{Along, Net, NetProblem, RowPanel, Sense, Use};
use std::f64::consts::{FRAC_PI_2, PI, SQRT_2, TAU};

const SQUARE: [Corner; 4] = [Corner::Square; 4];

fn rectangle(width: f64, height: f64) -> Contour {
    Contour::with_corners((0.0, 0.0), (width, height), SQUARE)
}

/// An outline with a bit of everything: a rounded and a clipped corner, a notch for the thumb, a bump.
fn odd_one() -> Contour {
    Contour::new([
        (0.0, 0.0, 0.0),
        (20.0, 0.0, 0.5),
        (30.0, 0.0, 0.0),
        (60.0, 0.0, SQRT_2 - 1.0),
        (70.0, 10.0, 0.0),
        (70.0, 40.0, 0.0),
        (60.0, 50.0, 0.0),
        (40.0, 50.0, -1.0),
        (28.0, 50.0, 0.0),
        (0.0, 50.0, 0.0),
    ])
}

/// bulge = tan(angle / 4), negative for clockwise arcs (published DXF Reference, ENTITIES, LWPOLYLINE, group 42).
#[test]
fn a_bulge_is_the_tangent_of_a_quarter_of_the_angle() {
    for (degrees, bulge) in [(45.0, 0.198_912), (60.0, 0.267_949), (90.0, 0.414_214), (120.0, 0.577_350), (180.0, 1.0)]
    {
        for sign in [1.0, -1.0] {
            let arc = Edge { from: Point::new(3.0, 4.0), to: Point::new(15.0, -1.0), bulge: sign * bulge };
            near(arc.angle().to_degrees(), sign * degrees, 1e-4);
            // The chord is 13 long; radius = chord / (2 sin(angle / 2)), whichever way it runs.
            near(arc.radius(), 13.0 / (2.0 * (degrees.to_radians() / 2.0).sin()), 1e-4);
            near(arc.centre().distance(arc.from), arc.radius(), 1e-9);
            near(arc.centre().distance(arc.to), arc.radius(), 1e-9);
            near(arc.length(), arc.radius() * degrees.to_radians(), 1e-4);
        }
    }
    // radius = chord (1 + b²) / (4 b), sagitta = b chord / 2: 14.142136 and 0.414214 give 10 and 2.928932.
    let quarter = Edge { from: Point::new(10.0, 0.0), to: Point::new(0.0, 10.0), bulge: SQRT_2 - 1.0 };
    near(quarter.bulge, 0.414_214, 1e-6);
    near(quarter.from.distance(quarter.to), 14.142_136, 1e-6);
    near(quarter.radius(), 10.0, 1e-9);
    near(quarter.centre().x.hypot(quarter.centre().y), 0.0, 1e-9);
    let sagitta = quarter.radius() - quarter.centre().distance(quarter.from.midpoint(quarter.to));
    near(sagitta, 2.928_932, 1e-6);
}

/// A positive bulge runs counter-clockwise (same source): to the right of its chord on the way.
#[test]
fn a_positive_bulge_stands_out_of_a_counter_clockwise_outline() {
    let half_disc = Contour::new([(0.0, 0.0, 1.0), (20.0, 0.0, 0.0)]);
    near(half_disc.bounds().y0, -10.0, 1e-9);
    near(half_disc.area(), 50.0 * PI, 1e-9);
    let bitten = Contour::new([(0.0, 0.0, -1.0), (20.0, 0.0, 0.0), (20.0, 30.0, 0.0), (0.0, 30.0, 0.0)]);
    near(bitten.area(), 600.0 - 50.0 * PI, 1e-9);
    near(bitten.bounds().y0, 0.0, 1e-9);
    assert!(!bitten.contains(Point::new(10.0, 5.0)) && bitten.contains(Point::new(10.0, 15.0)));
}

#[test]
fn no_arc_is_over_90_degrees() {
    for degrees in [91.0_f64, 135.0, 180.0, 250.0, 359.0] {
        let bulge = (degrees.to_radians() / 4.0).tan();
        let outline = Contour::new([(0.0, 0.0, bulge), (20.0, 0.0, 0.0)]);
        let arcs: Vec<Edge> = outline.edges().filter(|edge| !edge.is_line()).collect();
        assert!(arcs.iter().all(|arc| arc.angle().abs() <= FRAC_PI_2 + 1e-9), "{degrees}");
        near(arcs.iter().map(|arc| arc.angle()).sum::<f64>().to_degrees(), degrees, 1e-6);
        // A circular segment: r² (angle - sin angle) / 2 with r = chord / (2 sin(angle / 2)).
        let angle = degrees.to_radians();
        let radius = 10.0 / (angle / 2.0).sin();
        let segment = radius * radius * (angle - angle.sin()) / 2.0;
        near(outline.area(), segment, 1e-9 * segment);
    }
}

#[test]
fn areas_follow_their_formulas() {
    let circle = Contour::circle(Point::new(1000.0, -500.0), 7.0);
    near(circle.area(), 49.0 * PI, 1e-9);
    near(circle.length(), 14.0 * PI, 1e-9);
    near(circle.bounds().x0, 993.0, 1e-9);
    near(circle.bounds().y1, -493.0, 1e-9);

    // Each corner of radius r leaves a square less a quarter disc: (1 - pi / 4) r².
    let rounded = Contour::with_corners((5.0, 5.0), (80.0, 50.0), [Corner::Rounded(6.0); 4]);
    near(rounded.area(), 4000.0 - (4.0 - PI) * 36.0, 1e-9);
    near(rounded.length(), 2.0 * (80.0 + 50.0) - 8.0 * 6.0 + TAU * 6.0, 1e-9);

    let clip = Corner::Clipped { across: 12.0, up: 5.0 };
    let clipped = Contour::with_corners((0.0, 0.0), (80.0, 50.0), [clip, Corner::Square, clip, Corner::Square]);
    near(clipped.area(), 4000.0 - 2.0 * 30.0, 1e-9);
    // 5, 12, 13.
    near(clipped.length(), 260.0 - 2.0 * (5.0 + 12.0) + 2.0 * 13.0, 1e-9);
    for (at, inside) in [((3.0, 1.0), false), ((77.0, 1.0), true), ((77.0, 49.0), false), ((3.0, 49.0), true)] {
        assert_eq!(clipped.contains(Point::new(at.0, at.1)), inside, "{at:?}");
    }
}

/// What a tool of width k leaves (derived): it takes k/2 on either side of its path, so an uncompensated path makes
/// the part smaller by k and the hole larger by k: a 2 x 4 part comes out 1.8 x 3.8, a 2 x 4 hole 2.2 x 4.2 with k = 0.2.
/// Half a kerf on either path brings both back to 2 x 4.
#[test]
fn half_a_kerf_brings_the_drawn_size_back() {
    let kerf = 0.2;
    let part = rectangle(2.0, 4.0);
    let hole = part.reversed();
    let (outer, _) = grow(&part, &[], kerf / 2.0).unwrap();
    let (_, inner) = grow(&rectangle(20.0, 20.0).shifted(Vec2::new(-9.0, -9.0)), &[hole], kerf / 2.0).unwrap();
    let (outer_box, inner_box) = (outer.bounds(), inner[0].bounds());
    for (found, wanted) in
        [(outer_box.width(), 2.2), (outer_box.height(), 4.2), (inner_box.width(), 1.8), (inner_box.height(), 3.8)]
    {
        near(found, wanted, 1e-9);
    }
    // The path takes k off the part's box, and adds k to the hole's.
    near(outer_box.width() - kerf, 2.0, 1e-9);
    near(inner_box.width() + kerf, 2.0, 1e-9);
    // A sharp corner stays sharp where the path goes round it: area + perimeter k/2 + pi (k/2)².
    near(outer.area(), 8.0 + 12.0 * 0.1 + PI * 0.01, 1e-9);
    near(inner[0].area(), -1.8 * 3.8, 1e-9);
    // Every corner of the path, and every arc's middle, is half a kerf away.
    for edge in outer.edges() {
        near(part.distance(edge.from), 0.1, 1e-9);
        let middle =
            if edge.is_line() { edge.from.midpoint(edge.to) } else { edge.arc().sample(0.5).to_tuple().into() };
        near(part.distance(middle), 0.1, 1e-9);
    }
}

#[test]
fn squares_grow_by_their_formula() {
    for side in [1.0, 10.0, 100.0] {
        for distance in [0.0, 0.025, 0.1, 0.25, 2.0] {
            let (path, _) = grow(&rectangle(side, side), &[], distance).unwrap();
            near(path.area(), side * side + 4.0 * side * distance + PI * distance * distance, 1e-9 * side * side);
            near(path.bounds().width(), side + 2.0 * distance, 1e-9);
            near(path.length(), 4.0 * side + TAU * distance, 1e-9 * side);
        }
    }
    let (path, holes) =
        grow(&rectangle(50.0, 50.0), &[Contour::circle(Point::new(25.0, 25.0), 8.0).reversed()], 0.3).unwrap();
    near(path.bounds().height(), 50.6, 1e-9);
    near(holes[0].area(), -PI * 7.7 * 7.7, 1e-9);
    assert!(holes[0].edges().all(|edge| (edge.radius() - 7.7).abs() < 1e-9), "an arc stays an arc");
}

#[test]
fn holes_that_vanish_or_split_are_refused() {
    let sheet = rectangle(200.0, 100.0);
    let slot = |wide: f64| Contour::rectangle(50.0, 20.0, 40.0, wide).reversed();
    let round = |radius: f64| Contour::circle(Point::new(120.0, 50.0), radius).reversed();
    // A slot exactly as wide as the tool leaves nothing to go round.
    assert_eq!(grow(&sheet, &[slot(0.2)], 0.1), Err(vec![OffsetProblem::HoleVanishes(0)]));
    assert_eq!(grow(&sheet, &[slot(0.15)], 0.1), Err(vec![OffsetProblem::HoleVanishes(0)]));
    assert_eq!(grow(&sheet, &[round(0.1)], 0.1), Err(vec![OffsetProblem::HoleVanishes(0)]));
    let (_, paths) = grow(&sheet, &[slot(0.3)], 0.1).unwrap();
    near(paths[0].area(), -39.8 * 0.1, 1e-9);

    // Two squares of 20 joined by a neck 1 mm wide.
    let dumbbell = Contour::polygon([
        (0.0, 0.0),
        (20.0, 0.0),
        (20.0, 9.5),
        (40.0, 9.5),
        (40.0, 0.0),
        (60.0, 0.0),
        (60.0, 20.0),
        (40.0, 20.0),
        (40.0, 10.5),
        (20.0, 10.5),
        (20.0, 20.0),
        (0.0, 20.0),
    ])
    .shifted(Vec2::new(100.0, 60.0))
    .reversed();
    assert_eq!(grow(&sheet, std::slice::from_ref(&dumbbell), 0.6), Err(vec![OffsetProblem::HoleSplits(0)]));
    assert_eq!(grow(&sheet, std::slice::from_ref(&dumbbell), 0.4).unwrap().1.len(), 1);
    // Every problem at once, by number.
    assert_eq!(
        grow(&sheet, &[slot(0.1), round(5.0), dumbbell], 0.6),
        Err(vec![OffsetProblem::HoleVanishes(0), OffsetProblem::HoleSplits(2)])
    );
}

/// A ring with a slit as good as closed falls into an outline and a hole of its own.
#[test]
fn an_outline_that_closes_up_is_refused() {
    let slit = |wide: f64| {
        let (low, high) = (20.0 - wide / 2.0, 20.0 + wide / 2.0);
        Contour::polygon([
            (0.0, 0.0),
            (40.0, 0.0),
            (40.0, low),
            (30.0, low),
            (30.0, 10.0),
            (10.0, 10.0),
            (10.0, 30.0),
            (30.0, 30.0),
            (30.0, high),
            (40.0, high),
            (40.0, 40.0),
            (0.0, 40.0),
        ])
    };
    assert_eq!(grow(&slit(0.3), &[], 0.2), Err(vec![OffsetProblem::OutlineSplits]));
    assert!(grow(&slit(0.5), &[], 0.2).is_ok());
}

#[test]
fn unsound_outlines_are_refused() {
    let square = rectangle(10.0, 10.0);
    let bow_tie = Contour::polygon([(0.0, 0.0), (10.0, 10.0), (10.0, 0.0), (0.0, 14.0)]);
    let touching = Contour::polygon([(0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (5.0, 0.0), (0.0, 10.0)]);
    let flat = Contour::polygon([(0.0, 0.0), (10.0, 0.0), (4.0, 0.0)]);
    for outline in [square.reversed(), bow_tie, touching, flat, Contour::polygon([]), Contour::polygon([(1.0, 1.0)])] {
        assert_eq!(grow(&outline, &[], 0.1), Err(vec![OffsetProblem::Outline]), "{outline:?}");
        assert_eq!(grow(&outline, &[], 0.0), Err(vec![OffsetProblem::Outline]), "{outline:?}");
    }
    // A hole runs the other way round.
    let hole = Contour::rectangle(2.0, 2.0, 3.0, 3.0);
    assert_eq!(grow(&square, std::slice::from_ref(&hole), 0.1), Err(vec![OffsetProblem::Hole(0)]));
    assert!(grow(&square, &[hole.reversed()], 0.1).is_ok());
}

/// An outline that begins at another corner, runs the other way, is turned or mirrored is the same outline.
#[test]
fn the_same_outline_said_another_way_has_the_same_path() {
    let outline = odd_one();
    let corners = common::corners(&outline);
    let (area, length) = (outline.area(), outline.length());
    let path = grow(&outline, &[], 0.15).unwrap().0;
    let same = |other: &Contour, what: &str| {
        near(other.area(), area, 1e-9 * area);
        near(other.length(), length, 1e-9 * length);
        assert!(other.is_simple(), "{what}");
        let grown = grow(other, &[], 0.15).unwrap_or_else(|problems| panic!("{what}: {problems:?}")).0;
        near(grown.area(), path.area(), 1e-6);
        near(grown.length(), path.length(), 1e-6);
        assert_eq!(grown.vertices().len(), path.vertices().len(), "{what}");
    };
    for start in 0..corners.len() {
        let begun = |corners: &[[f64; 3]]| {
            let mut corners = corners.to_vec();
            corners.rotate_left(start);
            Contour::new(corners.into_iter().map(|[x, y, bulge]| (x, y, bulge)))
        };
        let other = begun(&corners);
        same(&other, &format!("from corner {start}"));
        let back = other.reversed();
        near(back.area(), -area, 1e-9 * area);
        assert_eq!(back.reversed(), other);
        same(&back.counter_clockwise(), &format!("from corner {start}, the other way and back"));
        // Mirrored: y changes its sign, and so does every bulge; it runs clockwise then.
        let mirrored: Vec<[f64; 3]> = corners.iter().map(|[x, y, bulge]| [*x, -y, -bulge]).collect();
        let mirrored = begun(&mirrored);
        near(mirrored.area(), -area, 1e-9 * area);
        same(&mirrored.counter_clockwise(), &format!("mirrored, from corner {start}"));
    }
    for degrees in [90.0_f64, 180.0, 270.0, 17.0, 123.456] {
        let (sin, cos) = degrees.to_radians().sin_cos();
        let turned = outline.mapped(|at| Point::new(at.x * cos - at.y * sin, at.x * sin + at.y * cos));
        same(&turned, &format!("turned by {degrees}"));
    }
    same(&outline.shifted(Vec2::new(-4321.5, 987.25)), "moved");
}

#[test]
fn repeated_corners_are_one() {
    let twice = Contour::polygon([
        (0.0, 0.0),
        (0.0, 0.0),
        (10.0, 0.0),
        (10.0, 10.0),
        (10.0, 10.0 + 1e-8),
        (0.0, 10.0),
        (0.0, 0.0),
    ]);
    assert_eq!(twice.vertices().len(), 4);
    let first = Vertex { at: Point::new(0.0, 0.0), bulge: 0.0 };
    assert_eq!(twice.vertices()[0], first);
    near(twice.area(), 100.0, 1e-6);
}

fn folded_card(hole: Option<Contour>) -> Result<hingeleaf::net::Flat, NetProblem> {
    let leaves =
        [RowPanel::new("left", Use::Plain, 60.0), RowPanel::new("right", Use::Flap, 40.0).folded(Sense::Valley, 180.0)];
    let net = Net::row(Along::Across, 80.0, &leaves, 0);
    match hole {
        Some(hole) => net.with_hole(hole).flat(),
        None => net.flat(),
    }
}

/// A score stops at a hole's edge and goes on behind it. Chords of the circle: half width sqrt(r² - d²).
#[test]
fn a_score_is_split_where_a_hole_crosses_it() {
    let whole = folded_card(None).unwrap();
    assert_eq!(whole.scores.len(), 1);
    for (hole, low, high) in [
        (Contour::circle(Point::new(60.0, 30.0), 10.0), 20.0, 40.0),
        (Contour::circle(Point::new(54.0, 30.0), 10.0), 22.0, 38.0),
        (Contour::rectangle(50.0, 10.0, 30.0, 25.0), 10.0, 35.0),
    ] {
        let flat = folded_card(Some(hole.clone())).unwrap();
        let mut ends: Vec<[f64; 2]> =
            flat.scores.iter().map(|score| [score.from.y.min(score.to.y), score.from.y.max(score.to.y)]).collect();
        ends.sort_by(|one, two| one[0].total_cmp(&two[0]));
        for (found, wanted) in ends.as_flattened().iter().zip([0.0, low, high, 80.0]) {
            near(*found, wanted, 1e-9);
        }
        assert_eq!(ends.len(), 2);
        assert!(flat.scores.iter().all(|score| score.sense == Sense::Valley && (score.from.x - 60.0).abs() < 1e-9));
        near(flat.area(), 100.0 * 80.0 - hole.area(), 1e-9);
    }
    // One that only touches the score, or lies beside it, leaves it whole.
    for beside in [Contour::circle(Point::new(50.0, 30.0), 10.0), Contour::circle(Point::new(30.0, 30.0), 10.0)] {
        let flat = folded_card(Some(beside)).unwrap();
        assert_eq!(flat.scores.len(), 1);
        near(flat.scores[0].from.distance(flat.scores[0].to), 80.0, 1e-9);
    }
}

#[test]
fn holes_over_the_edge_or_over_each_other_are_refused() {
    for hole in [
        Contour::circle(Point::new(95.0, 40.0), 10.0),
        Contour::circle(Point::new(150.0, 40.0), 10.0),
        Contour::rectangle(-10.0, -10.0, 200.0, 200.0),
        Contour::rectangle(0.0, 10.0, 20.0, 20.0),
    ] {
        assert_eq!(folded_card(Some(hole)).err(), Some(NetProblem::Hole(0)));
    }
    let card = Net::single("card", rectangle(100.0, 80.0)).with_hole(Contour::rectangle(10.0, 10.0, 30.0, 30.0));
    assert!(card.clone().with_hole(Contour::rectangle(50.0, 10.0, 30.0, 30.0)).flat().is_ok());
    for other in [Contour::rectangle(30.0, 30.0, 30.0, 30.0), Contour::rectangle(15.0, 15.0, 5.0, 5.0)] {
        assert_eq!(card.clone().with_hole(other).flat().err(), Some(NetProblem::Hole(1)));
    }
}

/// A notch of the outline that the tool cannot enter would be left out of the cut without a word.
#[test]
fn a_notch_narrower_than_the_tool_is_refused() {
    let notched = |wide: f64| {
        let (left, right) = (20.0 - wide / 2.0, 20.0 + wide / 2.0);
        Contour::polygon([
            (0.0, 0.0),
            (40.0, 0.0),
            (40.0, 20.0),
            (right, 20.0),
            (right, 10.0),
            (left, 10.0),
            (left, 20.0),
            (0.0, 20.0),
        ])
    };
    assert!(grow(&notched(0.3), &[], 0.1).is_ok_and(|(path, _)| path.is_simple()));
    for wide in [0.2, 0.15, 0.05] {
        assert_eq!(grow(&notched(wide), &[], 0.1), Err(vec![OffsetProblem::OutlineSplits]), "{wide}");
    }
}
