// SPDX-License-Identifier: MIT
//! A thousand outlines grown by half a kerf, against the Steiner formula; written out for a second opinion.
//!
//! Where `HINGELEAF_OUTSIDE` names a folder, `kerf.json` is written into it: every outline with its holes, and the
//! tool's paths for them, for the checks by other people's programs.

use crate::common::{corners, near};
use hingeleaf::contour::{Contour, Edge, Point, grow};
use serde_json::{Value, json};
use std::f64::consts::{PI, TAU};
use std::path::Path;

const COUNT: usize = 1000;
const QUARTER: f64 = std::f64::consts::SQRT_2 - 1.0;

/// Numbers that only look random: the same on every machine (linear congruence of Knuth, MMIX).
struct Dice(u64);

impl Dice {
    fn roll(&mut self) -> f64 {
        self.0 = self.0.wrapping_mul(6_364_136_223_846_793_005).wrapping_add(1_442_695_040_888_963_407);
        f64::from(u32::try_from(self.0 >> 32).unwrap()) / 2f64.powi(32)
    }

    fn between(&mut self, least: f64, most: f64) -> f64 {
        least + (most - least) * self.roll()
    }

    /// A whole number below `count`.
    fn pick(&mut self, count: u8) -> u8 {
        (0..count).rev().find(|&number| self.0 >> 40 >= u64::from(number) * (1 << 24) / u64::from(count)).map_or(
            0,
            |number| {
                self.roll();
                number
            },
        )
    }
}

struct Shape {
    kerf: f64,
    outline: Contour,
    holes: Vec<Contour>,
}

fn shape(dice: &mut Dice) -> Shape {
    let (width, height) = (dice.between(50.0, 140.0), dice.between(40.0, 120.0));
    let kerf = dice.between(0.05, 0.5);
    let mut walk = Vec::new();
    // The sides from the lower left corner on: bottom, right, top, left.
    let turn = |side: u8, along: f64, across: f64| match side {
        0 => (along, across),
        1 => (width - across, along),
        2 => (width - along, height - across),
        _ => (across, height - along),
    };
    let fancy = dice.pick(4);
    let insets: Vec<(u8, f64)> = (0..4).map(|_| (dice.pick(4), dice.between(1.0, 8.0))).collect();
    for side in 0..4_u8 {
        let length = if side % 2 == 0 { width } else { height };
        let inset = |corner: u8| {
            let (kind, size) = insets[usize::from(corner % 4)];
            if kind == 0 { 0.0 } else { size }
        };
        let (start, end) = (inset(side), length - inset(side + 1));
        let mut step = |along: f64, bulge: f64| {
            let (x, y) = turn(side, along, 0.0);
            walk.push((x, y, bulge));
        };
        match dice.pick(4) {
            // A half round notch for the thumb.
            1 if fancy > 0 => {
                let (middle, radius) = (f64::midpoint(start, end), dice.between(3.0, 8.0));
                step(start, 0.0);
                step(middle - radius, -1.0);
                step(middle + radius, 0.0);
            }
            // Scallops that stand out.
            2 if fancy > 1 => {
                let (count, bulge) = (4 + dice.pick(5), dice.between(0.15, 0.7));
                for scallop in 0..count {
                    step(start + (end - start) * f64::from(scallop) / f64::from(count), bulge);
                }
            }
            _ => step(start, 0.0),
        }
        // The corner at the end of this side: square, clipped, rounded or scooped out.
        step(end, [0.0, 0.0, QUARTER, -QUARTER][usize::from(insets[usize::from((side + 1) % 4)].0)]);
    }
    let mut holes = Vec::new();
    for half in 0..dice.pick(3) {
        let (left, right) = (f64::from(half) * width / 2.0 + 10.0, f64::from(half + 1) * width / 2.0 - 10.0);
        let (across, up) = (right - left, height - 24.0);
        let centre = Point::new(f64::midpoint(left, right), height / 2.0);
        holes.push(if dice.pick(2) == 0 {
            Contour::circle(centre, dice.between(1.0, across.min(up) / 2.0))
        } else {
            let (w, h) = (dice.between(2.0, across), dice.between(2.0, up));
            Contour::rectangle(centre.x - w / 2.0, centre.y - h / 2.0, w, h)
        });
    }
    let angle = if dice.pick(2) == 0 { 0.0 } else { dice.between(0.0, TAU) };
    let turned = |contour: &Contour| {
        let (sin, cos) = angle.sin_cos();
        contour.mapped(|at| Point::new(at.x * cos - at.y * sin, at.x * sin + at.y * cos))
    };
    Shape {
        kerf,
        outline: turned(&Contour::new(walk)),
        holes: holes.iter().map(|hole| turned(&hole.reversed())).collect(),
    }
}

/// The direction of an edge at one of its ends: an arc leaves its chord by half its angle.
fn direction(edge: Edge, at_end: bool) -> f64 {
    let half = 2.0 * edge.bulge.atan();
    (edge.to - edge.from).atan2() + if at_end { half } else { -half }
}

/// The angles by which an outline turns at its corners, from -pi to pi.
fn turns(contour: &Contour) -> Vec<f64> {
    let edges: Vec<Edge> = contour.edges().collect();
    (0..edges.len())
        .map(|index| {
            let before = edges[(index + edges.len() - 1) % edges.len()];
            (direction(edges[index], false) - direction(before, true) + PI).rem_euclid(TAU) - PI
        })
        .collect()
}

/// The area after moving an edge to its right by `d`, corners rounded (Steiner's formula): A + P d + pi d², the last
/// term negative for a hole. Where the outline turns away by an angle a, the two strips of width d overlap by
/// d² tan(a/2), which the formula counts as d² a/2; an edge of radius r that bends away from its strip there makes the
/// overlap smaller by d³ tan³(a/2) / 6r. Exact where the edges at such corners are straight, as on convex outlines.
/// Also the size of the next term, in d⁴, where they are not.
fn steiner(contour: &Contour, d: f64) -> (f64, f64) {
    let edges: Vec<Edge> = contour.edges().collect();
    let mut area = contour.area() + contour.length() * d + contour.area().signum() * PI * d * d;
    let mut next = 0.0;
    for (index, turn) in turns(contour).into_iter().enumerate().filter(|(_, turn)| *turn < -1e-9) {
        let tan = (-turn / 2.0).tan();
        let at = [edges[(index + edges.len() - 1) % edges.len()], edges[index]];
        let bend: f64 = at.map(|edge| edge.bulge.signum() / edge.radius()).iter().sum();
        area += d.powi(3) * tan.powi(3) * bend / 6.0 - (tan + turn / 2.0) * d * d;
        next += d.powi(4) * (tan + tan.powi(5)) * bend * bend / 12.0;
    }
    (area, next)
}

#[test]
fn outlines_grow_and_holes_shrink_by_the_steiner_formula() {
    let mut dice = Dice(2026);
    let mut rows: Vec<Value> = Vec::with_capacity(COUNT);
    let (mut convex, mut curved_corners, mut with_holes) = (0, 0, 0);
    for number in 0..COUNT {
        let Shape { kerf, outline, holes } = shape(&mut dice);
        let d = kerf / 2.0;
        let (path, path_holes) =
            grow(&outline, &holes, d).unwrap_or_else(|problems| panic!("outline {number}: {problems:?}: {outline:?}"));
        assert_eq!(path_holes.len(), holes.len(), "outline {number}");
        for (before, after) in std::iter::once((&outline, &path)).chain(holes.iter().zip(&path_holes)) {
            let (expected, next) = steiner(before, d);
            near(after.area(), expected, next + 1e-6);
            assert!(after.is_simple(), "outline {number}");
            assert!(after.area() > before.area(), "outline {number}: every edge moves to its right");
            for corner in after.vertices() {
                near(before.distance(corner.at), d, 1e-6);
            }
            curved_corners += usize::from(next > 0.0);
        }
        assert!(path_holes.iter().zip(&holes).all(|(path, hole)| path.area().abs() < hole.area().abs()));
        convex += usize::from(
            turns(&outline).iter().all(|turn| *turn > -1e-9) && outline.edges().all(|edge| edge.bulge > -1e-9),
        );
        with_holes += usize::from(!holes.is_empty());
        rows.push(json!({
            "kerf": kerf, "outline": corners(&outline), "holes": holes.iter().map(corners).collect::<Vec<_>>(),
            "path": corners(&path), "path_holes": path_holes.iter().map(corners).collect::<Vec<_>>(),
        }));
    }
    // The thousand hold what they are meant to hold.
    assert!(convex > 100 && curved_corners > 200 && with_holes > 400, "{convex} {curved_corners} {with_holes}");
    if let Some(folder) = std::env::var_os("HINGELEAF_OUTSIDE") {
        std::fs::create_dir_all(&folder).unwrap();
        std::fs::write(Path::new(&folder).join("kerf.json"), serde_json::to_string(&rows).unwrap()).unwrap();
    }
}
