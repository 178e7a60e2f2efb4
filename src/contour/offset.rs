// SPDX-License-Identifier: MIT
//! Growing an outline and shrinking its holes, arcs kept.

use super::{Contour, Edge};
use cavalier_contours::polyline::{PlineSource, Polyline};
use cavalier_contours::shape_algorithms::{Shape, ShapeOffsetOptions};

/// Rings of less than this are what is left of a slot that closed up, mm².
const NOTHING: f64 = 1e-4;

/// What arithmetic takes from a ring that is moved out and back, mm².
const ARITHMETIC: f64 = 1e-3;

/// Why an outline could not be grown as asked.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum OffsetProblem {
    /// The outline crosses itself, runs clockwise, or encloses nothing.
    Outline,
    /// The outline falls apart, or has a notch that the tool can't enter.
    OutlineSplits,
    /// Hole number so-and-so crosses itself, runs counter-clockwise, or encloses nothing.
    Hole(usize),
    /// The hole is narrower than the tool's path: nothing is left of it.
    HoleVanishes(usize),
    /// The hole has a neck or an arm narrower than the tool's path: it falls into several, or loses the arm.
    HoleSplits(usize),
}

/// Moves an outline out by `distance` millimetres, and the edges of its holes as far into the holes.
/// Corners are rounded, as the edge of a round tool's path is, so that the part itself keeps them sharp.
///
/// A 100 mm square moved by 0.1 mm becomes 100.2 mm wide; a 10 mm hole becomes 9.8 mm.
///
/// # Errors
/// Every problem met, not only the first.
///
/// ```
/// # use hingeleaf::contour::{grow, Contour, Point};
/// let square = Contour::rectangle(0.0, 0.0, 100.0, 100.0);
/// let hole = Contour::circle(Point::new(50.0, 50.0), 5.0).reversed();
/// let (path, holes) = grow(&square, &[hole], 0.1).unwrap();
/// assert!((path.bounds().width() - 100.2).abs() < 1e-9);
/// assert!((holes[0].bounds().width() - 9.8).abs() < 1e-9);
/// ```
pub fn grow(
    outline: &Contour,
    holes: &[Contour],
    distance: f64,
) -> Result<(Contour, Vec<Contour>), Vec<OffsetProblem>> {
    let mut problems = Vec::new();
    // The library shrinks a clockwise outline without a word and makes nonsense of a crossed one.
    if outline.area() <= 0.0 || !outline.is_simple() {
        problems.push(OffsetProblem::Outline);
    }
    for (index, hole) in holes.iter().enumerate() {
        if hole.area() >= 0.0 || !hole.is_simple() {
            problems.push(OffsetProblem::Hole(index));
        }
    }
    if !problems.is_empty() {
        return Err(problems);
    }
    if distance == 0.0 {
        return Ok((outline.clone(), holes.to_vec()));
    }
    let mut grown = rings(outline, distance);
    let path = if grown.len() == 1 { grown.pop().filter(|path| reaches_all(outline, path, distance)) } else { None };
    if path.is_none() {
        problems.push(OffsetProblem::OutlineSplits);
    }
    let mut paths = Vec::with_capacity(holes.len());
    for (index, hole) in holes.iter().enumerate() {
        let mut inner = rings(hole, distance);
        match (inner.pop(), inner.is_empty()) {
            (None, _) => problems.push(OffsetProblem::HoleVanishes(index)),
            (Some(path), true) if reaches_all(hole, &path, distance) => paths.push(path),
            (Some(_), _) => problems.push(OffsetProblem::HoleSplits(index)),
        }
    }
    match path {
        Some(path) if problems.is_empty() => Ok((path, paths)),
        _ => Err(problems),
    }
}

/// The same for ink that runs on past an edge: whatever closes up is filled, so there is always an answer. Outlines first, then holes.
///
/// ```
/// # use hingeleaf::contour::{spread, Contour, Point};
/// let square = Contour::rectangle(0.0, 0.0, 100.0, 100.0);
/// let holes = [10.0, 3.0].map(|radius| Contour::circle(Point::new(50.0, 50.0), radius).reversed());
/// let rings = spread(&square, &holes[..1], 4.0);
/// assert!((rings[0].bounds().width() - 108.0).abs() < 1e-9 && (rings[1].bounds().width() - 12.0).abs() < 1e-9);
/// // Of a hole that is narrower than the ink runs, nothing is left.
/// assert_eq!(spread(&square, &holes[1..], 4.0).len(), 1);
/// ```
#[must_use]
pub fn spread(outline: &Contour, holes: &[Contour], distance: f64) -> Vec<Contour> {
    if distance <= 0.0 {
        return std::iter::once(outline).chain(holes).cloned().collect();
    }
    std::iter::once(outline).chain(holes).flat_map(|ring| rings(ring, distance)).collect()
}

/// Whether a tool on this path cuts all of a ring: moved back, the path must give the ring again.
///
/// A round tool leaves a little card in each corner that bends away from it, d² (tan a/2 - a/2) for a bend by a, and in
/// arcs tighter than itself; more than that is a notch that the library passed by without a word.
fn reaches_all(ring: &Contour, path: &Contour, distance: f64) -> bool {
    let [back] = &rings(path, -distance)[..] else { return false };
    let edges: Vec<Edge> = ring.edges().collect();
    let corner = |bend: f64| distance.powi(2) * ((bend / 2.0).tan() - bend / 2.0);
    let bends = (0..edges.len()).map(|index| {
        let (before, here) = (edges[(index + edges.len() - 1) % edges.len()], edges[index]);
        let tight = if here.bulge < 0.0 && here.radius() < distance { -here.angle() } else { 0.0 };
        before.bend_to(here).min(0.0).abs() + tight
    });
    let left: f64 = bends.filter(|bend| *bend > 0.0).map(|bend| corner(bend.min(3.1))).sum();
    path.is_simple() && back.area() - ring.area() <= 1.5 * left + ARITHMETIC
}

/// The offset of one ring: out of a counter-clockwise one, into a clockwise one.
fn rings(ring: &Contour, distance: f64) -> Vec<Contour> {
    // In this library a positive offset goes to the left of the ring's direction; ours goes to the right,
    // which is outwards for outlines and inwards (into the waste) for holes. The one place where it is said.
    let moved = Shape::from_plines([ring.polyline()]).parallel_offset(-distance, &ShapeOffsetOptions::new());
    let keep = |lines: &[cavalier_contours::shape_algorithms::IndexedPolyline<f64>]| {
        lines.iter().map(|line| contour(&line.polyline)).filter(|ring| ring.area().abs() > NOTHING).collect::<Vec<_>>()
    };
    let mut kept = keep(&moved.ccw_plines);
    kept.extend(keep(&moved.cw_plines));
    kept
}

fn contour(line: &Polyline<f64>) -> Contour {
    Contour::new(line.iter_vertexes().map(|vertex| (vertex.x, vertex.y, vertex.bulge)))
}
