// SPDX-License-Identifier: MIT
//! Closed outlines of straight edges and true circular arcs.
//!
//! In: points and bulges. Out: [`Contour`]s with their area, box, crossings and offset. Never: knows
//! what a part is, or writes a file.
//!
//! The frame is millimetres with x to the right and y up; outer contours run counter-clockwise, holes
//! clockwise. An edge's *bulge* is the tangent of a quarter of its arc's angle, positive
//! counter-clockwise, 0 for a straight edge (the published DXF Reference, ENTITIES, LWPOLYLINE).

mod corner;
mod cross;
mod edge;
mod finish;
mod offset;
mod pile;
mod slot;

pub(crate) use crate::length::tolerance::SAME;
pub use corner::Corner;
pub use cross::{outside, within};
pub use edge::Edge;
pub use finish::{EdgeFinish, EdgePattern};
pub use kurbo::{Point, Rect, Vec2};
pub use offset::{OffsetProblem, grow, spread};
pub use pile::{Pile, columns, pile};
pub use slot::slot;

use crate::length::tolerance::PARALLEL;
use cavalier_contours::polyline::{PlineSource, PlineSourceMut, Polyline};

/// An outline that takes all of its box but this share is the box.
const BOXED: f64 = 1e-9;

/// The bulge of a quarter circle, the largest that is kept in one piece: tan(90°/4).
const QUARTER: f64 = std::f64::consts::SQRT_2 - 1.0;

/// A corner, and the bulge of the edge that leaves it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Vertex {
    /// Where.
    pub at: Point,
    /// Bulge of the edge to the next vertex.
    pub bulge: f64,
}

/// A closed outline. Edges join the last vertex to the first; no edge has zero length and no arc is
/// over 90 degrees.
#[derive(Clone, Debug, PartialEq)]
pub struct Contour {
    vertices: Vec<Vertex>,
}

/// A point of a box `width` x `height` (lower left at the origin) after quarter turns counter-clockwise,
/// the turned box's lower left at the origin again.
///
/// ```
/// use hingeleaf::contour::{turned, Point};
/// assert_eq!(turned(Point::new(30.0, 0.0), 1, (30.0, 10.0)), Point::new(10.0, 30.0));
/// ```
#[must_use]
pub fn turned(point: Point, quarters: u8, (width, height): (f64, f64)) -> Point {
    match quarters % 4 {
        0 => point,
        1 => Point::new(height - point.y, point.x),
        2 => Point::new(width - point.x, height - point.y),
        _ => Point::new(point.y, width - point.x),
    }
}

impl Contour {
    /// Takes (x, y, bulge) of each vertex, drops repeated points and splits arcs of over 90 degrees.
    ///
    /// ```
    /// # use hingeleaf::contour::Contour;
    /// // Two half circles of radius 10: the area is 100 pi.
    /// let disc = Contour::new([(0.0, 0.0, 1.0), (20.0, 0.0, 1.0)]);
    /// assert_eq!(disc.vertices().len(), 4);
    /// assert!((disc.area() - 314.159_265).abs() < 1e-6);
    /// ```
    pub fn new(corners: impl IntoIterator<Item = (f64, f64, f64)>) -> Self {
        let mut kept: Vec<Vertex> = Vec::new();
        for (x, y, bulge) in corners {
            let at = Point::new(x, y);
            match kept.last_mut() {
                // The edge between two equal points is nothing; the later edge is the one that leaves.
                Some(last) if last.at.distance(at) < SAME => last.bulge = bulge,
                _ => kept.push(Vertex { at, bulge }),
            }
        }
        while kept.len() > 1 && kept[0].at.distance(kept[kept.len() - 1].at) < SAME {
            kept.pop();
        }
        let mut vertices = Vec::with_capacity(kept.len());
        for (index, vertex) in kept.iter().enumerate() {
            let next = kept[(index + 1) % kept.len()].at;
            Edge { from: vertex.at, to: next, bulge: vertex.bulge }.split_to_quarters(&mut vertices);
        }
        Self { vertices }
    }

    /// A polygon.
    pub fn polygon(corners: impl IntoIterator<Item = (f64, f64)>) -> Self {
        Self::new(corners.into_iter().map(|(x, y)| (x, y, 0.0)))
    }

    /// A rectangle with its lower left at (x, y).
    #[must_use]
    pub fn rectangle(x: f64, y: f64, width: f64, height: f64) -> Self {
        Self::polygon([(x, y), (x + width, y), (x + width, y + height), (x, y + height)])
    }

    /// A circle, counter-clockwise.
    #[must_use]
    pub fn circle(centre: Point, radius: f64) -> Self {
        Self::new([
            (centre.x + radius, centre.y, QUARTER),
            (centre.x, centre.y + radius, QUARTER),
            (centre.x - radius, centre.y, QUARTER),
            (centre.x, centre.y - radius, QUARTER),
        ])
    }

    /// The vertices in order.
    #[must_use]
    pub fn vertices(&self) -> &[Vertex] {
        &self.vertices
    }

    /// The edges in order.
    pub fn edges(&self) -> impl Iterator<Item = Edge> + '_ {
        (0..self.vertices.len()).map(|index| {
            let (vertex, next) = (self.vertices[index], self.vertices[(index + 1) % self.vertices.len()]);
            Edge { from: vertex.at, to: next.at, bulge: vertex.bulge }
        })
    }

    /// Area in mm², positive for a counter-clockwise contour.
    #[must_use]
    pub fn area(&self) -> f64 {
        // Twice the area under each chord, measured from the first vertex so that far-off contours
        // keep their digits; then the segment between chord and arc.
        let Some(first) = self.vertices.first() else { return 0.0 };
        self.edges().map(|edge| (edge.from - first.at).cross(edge.to - first.at) / 2.0 + edge.segment_area()).sum()
    }

    /// Length all round, mm.
    #[must_use]
    pub fn length(&self) -> f64 {
        self.edges().map(Edge::length).sum()
    }

    /// Whether it takes all of its box.
    ///
    /// ```
    /// use hingeleaf::contour::Contour;
    /// assert!(Contour::rectangle(0.0, 0.0, 100.0, 50.0).is_box());
    /// assert!(!Contour::polygon([(0.0, 0.0), (100.0, 0.0), (100.0, 49.0), (99.0, 50.0), (0.0, 50.0)]).is_box());
    /// ```
    #[must_use]
    pub fn is_box(&self) -> bool {
        let bounds = self.bounds();
        (self.area().abs() - bounds.area()).abs() <= BOXED * bounds.area()
    }

    /// The smallest upright box around it.
    #[must_use]
    pub fn bounds(&self) -> Rect {
        let mut edges = self.edges().map(Edge::bounds);
        let first = edges.next().unwrap_or(Rect::ZERO);
        edges.fold(first, |all, one| all.union(one))
    }

    /// The same outline the other way round.
    #[must_use]
    pub fn reversed(&self) -> Self {
        let count = self.vertices.len();
        let vertices = (0..count)
            .map(|index| {
                let here = count - 1 - index;
                // The edge that now leaves this vertex is the one that used to arrive.
                let before = (here + count - 1) % count;
                Vertex { at: self.vertices[here].at, bulge: -self.vertices[before].bulge }
            })
            .collect();
        Self { vertices }
    }

    /// The same outline begun at another vertex.
    #[must_use]
    pub(crate) fn begun_at(&self, index: usize) -> Self {
        let mut vertices = self.vertices.clone();
        if index < vertices.len() {
            vertices.rotate_left(index);
        }
        Self { vertices }
    }

    /// Counter-clockwise, whichever way it ran.
    #[must_use]
    pub fn counter_clockwise(self) -> Self {
        if self.area() < 0.0 { self.reversed() } else { self }
    }

    /// Clockwise, whichever way it ran.
    #[must_use]
    pub fn clockwise(self) -> Self {
        if self.area() > 0.0 { self.reversed() } else { self }
    }

    /// Moved.
    #[must_use]
    pub fn shifted(&self, by: Vec2) -> Self {
        self.mapped(|point| point + by)
    }

    /// Every vertex through a map that keeps shapes and handedness (a shift or a turn).
    #[must_use]
    pub fn mapped(&self, map: impl Fn(Point) -> Point) -> Self {
        Self {
            vertices: self.vertices.iter().map(|vertex| Vertex { at: map(vertex.at), bulge: vertex.bulge }).collect(),
        }
    }

    /// Every point moved by a map that mirrors: the contour runs the other way round, and its arcs bend the other way.
    #[must_use]
    pub fn mirrored(&self, map: impl Fn(Point) -> Point) -> Self {
        Self {
            vertices: self.vertices.iter().map(|vertex| Vertex { at: map(vertex.at), bulge: -vertex.bulge }).collect(),
        }
    }

    /// Whether the outline neither crosses nor touches itself and encloses something.
    #[must_use]
    pub fn is_simple(&self) -> bool {
        self.vertices.len() >= 2 && self.area().abs() > PARALLEL && !self.polyline().scan_for_self_intersect()
    }

    /// Whether a point lies inside (on the edge counts as either).
    #[must_use]
    pub fn contains(&self, point: Point) -> bool {
        use cavalier_contours::core::math::Vector2;
        self.polyline().winding_number(Vector2::new(point.x, point.y)) != 0
    }

    /// Whether the two outlines cross or touch.
    #[must_use]
    pub fn meets(&self, other: &Self) -> bool {
        let found = self.polyline().find_intersects(&other.polyline());
        !found.basic_intersects.is_empty() || !found.overlapping_intersects.is_empty()
    }

    /// Whether another outline that this one does not meet lies inside it.
    #[must_use]
    pub(crate) fn encloses(&self, other: &Self) -> bool {
        other.vertices.first().is_some_and(|vertex| self.contains(vertex.at))
    }

    /// The least distance from a point to the outline, mm.
    #[must_use]
    pub fn distance(&self, point: Point) -> f64 {
        self.edges().map(|edge| edge.distance(point)).fold(f64::INFINITY, f64::min)
    }

    pub(crate) fn polyline(&self) -> Polyline<f64> {
        let mut line = Polyline::new_closed();
        for vertex in &self.vertices {
            line.add(vertex.at.x, vertex.at.y, vertex.bulge);
        }
        line
    }
}
