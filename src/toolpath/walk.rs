// SPDX-License-Identifier: MIT
//! A way along edges, measured from its start: its points, and stretches of it.

use crate::contour::{Edge, Point, SAME, Vec2};

/// Edges that follow one another, by the distance from their start, mm.
#[derive(Debug)]
pub(super) struct Walk {
    edges: Vec<Edge>,
    /// Where each edge starts.
    starts: Vec<f64>,
    pub length: f64,
}

impl Walk {
    pub(super) fn new(edges: Vec<Edge>) -> Self {
        let mut length = 0.0;
        let mut starts = Vec::with_capacity(edges.len());
        for edge in &edges {
            starts.push(length);
            length += edge.length();
        }
        Self { edges, starts, length }
    }

    /// Each edge with the distance at which it starts.
    pub(super) fn edges(&self) -> impl Iterator<Item = (f64, Edge)> + '_ {
        self.starts.iter().copied().zip(self.edges.iter().copied())
    }

    /// How far along the point of the way is that is nearest to this one, and how far off it stands.
    pub(super) fn nearest(&self, point: Point) -> (f64, f64) {
        let near = self.edges().min_by(|one, two| one.1.distance(point).total_cmp(&two.1.distance(point)));
        near.map_or((0.0, f64::INFINITY), |(start, edge)| {
            let share = if edge.is_line() {
                (point - edge.from).dot(edge.to - edge.from) / (edge.to - edge.from).hypot2()
            } else {
                let centre = edge.centre();
                let (from, to) = (edge.from - centre, point - centre);
                from.cross(to).atan2(from.dot(to)) / edge.angle()
            };
            (start + share.clamp(0.0, 1.0) * edge.length(), edge.distance(point))
        })
    }

    /// The point at a distance; the start again past the end.
    pub(super) fn at(&self, distance: f64) -> Option<Point> {
        let distance = distance.rem_euclid(self.length.max(SAME));
        let index = self.starts.partition_point(|start| *start <= distance).saturating_sub(1);
        let edge = *self.edges.get(index)?;
        Some(point_of(edge, (distance - self.starts[index]) / edge.length().max(SAME)))
    }

    /// What lies between two distances, nought and the length at the outermost.
    pub(super) fn between(&self, from: f64, to: f64) -> Vec<Edge> {
        let cut = |(start, edge): (f64, Edge)| {
            let long = edge.length();
            let (a, b) = ((from - start).max(0.0), (to - start).min(long));
            (b - a > SAME).then(|| stretch(edge, a / long, b / long))
        };
        self.edges().filter_map(cut).collect()
    }
}

/// The point at a share of an edge.
pub(super) fn point_of(edge: Edge, share: f64) -> Point {
    if share <= 0.0 {
        return edge.from;
    }
    if share >= 1.0 {
        return edge.to;
    }
    if edge.is_line() {
        return edge.from.lerp(edge.to, share);
    }
    let centre = edge.centre();
    centre + turned(edge.from - centre, edge.angle() * share)
}

/// What lies between two shares of an edge.
pub(super) fn stretch(edge: Edge, from: f64, to: f64) -> Edge {
    let bulge = if edge.is_line() { 0.0 } else { (edge.angle() * (to.min(1.0) - from.max(0.0)) / 4.0).tan() };
    Edge { from: point_of(edge, from), to: point_of(edge, to), bulge }
}

/// A way turned by an angle, counter-clockwise.
pub(super) fn turned(way: Vec2, angle: f64) -> Vec2 {
    let (sin, cos) = angle.sin_cos();
    Vec2::new(way.x * cos - way.y * sin, way.x * sin + way.y * cos)
}
