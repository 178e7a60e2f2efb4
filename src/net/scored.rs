// SPDX-License-Identifier: MIT
//! A net from one outline and the scores that run across it: every score parts a panel in two.

use super::{Fold, Net, Panel, Sense, Use};
use crate::contour::{Contour, Edge, Point, SAME};
use crate::length::tolerance::PARALLEL;

/// Ends of a score lie no further than this from the outline that they were worked out on, mm.
const ON_IT: f64 = 1e-4;

impl Net {
    /// The outline parted by scores, each from edge to edge, none across another; the largest panel is the root, and all of it
    /// stays flat. A score that parts nothing is left out.
    ///
    /// ```
    /// use hingeleaf::contour::{Contour, Point};
    /// use hingeleaf::net::{Net, Sense};
    /// let score = [Point::new(30.0, 0.0), Point::new(30.0, 50.0)];
    /// let net = Net::scored("leaf", &Contour::rectangle(0.0, 0.0, 100.0, 50.0), &[score], Sense::Valley);
    /// assert_eq!((net.panels.len(), net.folds.len()), (2, 1));
    /// assert!((net.panels[0].outline.area() - 3500.0).abs() < 1e-9);
    /// ```
    #[must_use]
    pub fn scored(name: &'static str, outline: &Contour, scores: &[[Point; 2]], sense: Sense) -> Self {
        let mut parts = vec![outline.clone()];
        let mut folds: Vec<([usize; 2], [Point; 2])> = Vec::new();
        for &[from, to] in scores {
            let middle = from.midpoint(to);
            let reached = |part: &Contour| part.distance(from) <= ON_IT && part.distance(to) <= ON_IT;
            let Some(number) = parts.iter().position(|part| reached(part) && part.contains(middle)) else { continue };
            let Some([one, two]) = parted(&parts[number], from, to) else { continue };
            // A fold of the panel that was there belongs to the half that carries it.
            for (between, [start, end]) in &mut folds {
                let middle = start.midpoint(*end);
                if two.distance(middle) < one.distance(middle) {
                    for side in between.iter_mut().filter(|side| **side == number) {
                        *side = parts.len();
                    }
                }
            }
            folds.push(([number, parts.len()], [from, to]));
            parts[number] = one;
            parts.push(two);
        }
        hung(name, &parts, &folds, sense)
    }
}

/// The net of panels that folds part, hung on the largest.
fn hung(name: &'static str, parts: &[Contour], folds: &[([usize; 2], [Point; 2])], sense: Sense) -> Net {
    let larger = |one: &usize, two: &usize| parts[*one].area().total_cmp(&parts[*two].area()).then(two.cmp(one));
    let root = (0..parts.len()).max_by(larger).unwrap_or(0);
    let mut order = vec![root];
    let mut hanging = Vec::new();
    let mut next = 0;
    while let Some(&here) = order.get(next) {
        for (between, [from, to]) in folds.iter().filter(|(between, _)| between.contains(&here)) {
            let other = if between[0] == here { between[1] } else { between[0] };
            if !order.contains(&other) {
                hanging.push(Fold { between: [next, order.len()], from: *from, to: *to, sense, angle: 0.0 });
                order.push(other);
            }
        }
        next += 1;
    }
    let panel = |&number: &usize| Panel { name, purpose: Use::Plain, outline: parts[number].clone() };
    Net { panels: order.iter().map(panel).collect(), folds: hanging, holes: Vec::new(), marks: Vec::new() }
}

/// The two sides of a straight cut from one point of an outline to another.
fn parted(outline: &Contour, from: Point, to: Point) -> Option<[Contour; 2]> {
    let mut edges: Vec<Edge> = outline.edges().collect();
    for point in [from, to] {
        let nearest = (0..edges.len()).min_by(|&one, &two| {
            edges[one].distance(point).total_cmp(&edges[two].distance(point)).then(one.cmp(&two))
        })?;
        let edge = edges[nearest];
        if edge.from.distance(point) > SAME && edge.to.distance(point) > SAME {
            edges.splice(nearest..=nearest, halves(edge, point));
        }
    }
    let start = |point: Point| edges.iter().position(|edge| edge.from.distance(point) <= SAME);
    let (first, second) = (start(from)?, start(to)?);
    let count = edges.len();
    let side = |from: usize, to: usize| {
        let along = (0..(to + count - from) % count).map(|step| edges[(from + step) % count]);
        let corners = along.map(|edge| (edge.from.x, edge.from.y, edge.bulge));
        Contour::new(corners.chain([(edges[to].from.x, edges[to].from.y, 0.0)]))
    };
    let sides = [side(first, second), side(second, first)];
    sides.iter().all(|side| side.area() > PARALLEL).then_some(sides)
}

/// An edge up to a point on it, and from there on.
fn halves(edge: Edge, at: Point) -> [Edge; 2] {
    let bulges = if edge.is_line() {
        [0.0, 0.0]
    } else {
        let (one, two) = (edge.from - edge.centre(), at - edge.centre());
        let turned = one.cross(two).atan2(one.dot(two));
        [(turned / 4.0).tan(), ((edge.angle() - turned) / 4.0).tan()]
    };
    [Edge { from: edge.from, to: at, bulge: bulges[0] }, Edge { from: at, to: edge.to, bulge: bulges[1] }]
}
