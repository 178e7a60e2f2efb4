// SPDX-License-Identifier: MIT
//! Inscribed box: a large box inside an outline. Wherever the part lies, no other part lies on that box.
//!
//! In: an outline. Out: width and height of a box with sides along the outline's that lies inside it. Never: gives a box
//! that reaches out of it; a larger one may be missed.

use crate::contour::{Contour, Edge, Point, Rect};

/// Sides are looked for at this many places, at most, each way.
const MOST_PLACES: usize = 16;
/// In millimetres. The box is made smaller by this, and places closer than this are one: far more than the contour's own
/// rounding, far less than a cutter resolves.
const SAFE: f64 = 1e-6;

/// Width and height in millimetres of the largest such box among those with sides at corners and at ends of arcs.
pub(crate) fn box_inside(contour: &Contour) -> Option<(f64, f64)> {
    let contour = contour.clone().counter_clockwise();
    let edges: Vec<Edge> = contour.edges().collect();
    let arcs: Vec<Rect> = edges.iter().filter(|edge| edge.bulge < 0.0).map(|edge| edge.bounds()).collect();
    let ends = || edges.iter().map(|edge| edge.from);
    let across = places(ends().map(|end| end.x).chain(arcs.iter().flat_map(|arc| [arc.x0, arc.x1])));
    let upward = places(ends().map(|end| end.y).chain(arcs.iter().flat_map(|arc| [arc.y0, arc.y1])));
    let mut best: Option<Rect> = None;
    for (number, &left) in across.iter().enumerate() {
        for &right in across[number + 1..].iter().rev() {
            for (number, &bottom) in upward.iter().enumerate() {
                for &top in upward[number + 1..].iter().rev() {
                    let rect = Rect::new(left, bottom, right, top);
                    if best.is_none_or(|best| rect.area() > best.area() + SAFE) && inside(&rect, &edges, &arcs) {
                        best = Some(rect);
                    }
                }
            }
        }
    }
    best.map(|best| (best.width() - SAFE, best.height() - SAFE)).filter(|&(width, height)| width > 0.0 && height > 0.0)
}

/// Different places in order, thinned evenly.
fn places(all: impl Iterator<Item = f64>) -> Vec<f64> {
    let mut places: Vec<f64> = all.filter(|place| place.is_finite()).collect();
    places.sort_by(f64::total_cmp);
    places.dedup_by(|a, b| (*a - *b).abs() < SAFE);
    let step = places.len().div_ceil(MOST_PLACES).max(1);
    let last = places.len().saturating_sub(1);
    let kept = places.iter().enumerate().filter(|(number, _)| number % step == 0 || *number == last);
    kept.map(|(_, &place)| place).collect()
}

/// Whether a box lies inside. Arcs that bulge outwards count as their chords, others as the boxes round them.
fn inside(rect: &Rect, edges: &[Edge], arcs: &[Rect]) -> bool {
    let inner = rect.inset(-SAFE);
    let meets = |arc: &Rect| arc.x0 < inner.x1 && inner.x0 < arc.x1 && arc.y0 < inner.y1 && inner.y0 < arc.y1;
    !arcs.iter().any(meets)
        && !edges.iter().any(|edge| crosses(edge.from, edge.to, &inner))
        && encloses(edges, rect.center())
}

/// Whether a line between two points comes into a box (Liang and Barsky 1984).
fn crosses(from: Point, to: Point, rect: &Rect) -> bool {
    let (mut first, mut last) = (0.0_f64, 1.0_f64);
    for (start, run, low, high) in
        [(from.x, to.x - from.x, rect.x0, rect.x1), (from.y, to.y - from.y, rect.y0, rect.y1)]
    {
        if run.abs() < f64::MIN_POSITIVE {
            if start <= low || start >= high {
                return false;
            }
        } else {
            let (a, b) = ((low - start) / run, (high - start) / run);
            first = first.max(a.min(b));
            last = last.min(a.max(b));
        }
    }
    first < last
}

/// Whether the polygon of all chords holds a point.
fn encloses(edges: &[Edge], point: Point) -> bool {
    let above = |end: Point| end.y > point.y;
    let passed = edges.iter().filter(|edge| {
        above(edge.from) != above(edge.to) && {
            let part = (point.y - edge.from.y) / (edge.to.y - edge.from.y);
            point.x < edge.from.x + part * (edge.to.x - edge.from.x)
        }
    });
    passed.count() % 2 == 1
}
