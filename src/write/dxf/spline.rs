// SPDX-License-Identifier: MIT
//! Curves: cubic B-splines whose knots stand three at a place, so that each piece between them is a cubic of its own.
//!
//! Source of every group code: the published DXF Reference, SPLINE. R12 has none.

use super::tags::DxfFile;
use crate::contour::{Edge, Point, Vec2};
use crate::toolpath::Layer;

/// Knots and places nearer than this are one, as the reference has it where nothing is said less fine, mm.
const SAME_PLACE: f64 = 1e-9;

/// Both ends of a cubic are knots, three at a place, and one more at either end of all.
const AT_A_PLACE: usize = 3;

impl DxfFile {
    pub(super) fn spline(&mut self, layer: Option<Layer>, edges: &[Edge], closed: bool) {
        let Some(first) = edges.first() else { return };
        let mut points = vec![first.from];
        for edge in edges {
            let [near, far] = handles(*edge);
            points.extend([near, far, edge.to]);
        }
        // Where it closes, the last place is the first to the last digit.
        if let (true, Some(last)) = (closed, points.last_mut()) {
            *last = first.from;
        }
        let places = 0..=edges.len();
        let ends = |place: usize| place == 0 || place == edges.len();
        let knots: Vec<usize> = places.flat_map(|place| vec![place; AT_A_PLACE + usize::from(ends(place))]).collect();
        self.drawn("SPLINE", layer);
        self.subclass("AcDbSpline");
        for (code, value) in [(210, 0.0), (220, 0.0), (230, 1.0)] {
            self.real(code, value);
        }
        // 8: it lies in one plane; 1: it closes.
        self.put(70, 8 + u8::from(closed));
        self.put(71, 3);
        self.put(72, knots.len());
        self.put(73, points.len());
        self.put(74, 0);
        for (code, value) in [(42, SAME_PLACE), (43, SAME_PLACE)] {
            self.fine(code, value, 9);
        }
        for knot in knots {
            self.put(40, knot);
        }
        for point in points {
            self.point(10, point);
        }
    }
}

/// The handles of the cubic for an arc: 4/3 tan(angle/4) of the radius, and a bulge is that tangent; of a line, its thirds.
fn handles(edge: Edge) -> [Point; 2] {
    if edge.is_line() {
        return [edge.from.lerp(edge.to, 1.0 / 3.0), edge.from.lerp(edge.to, 2.0 / 3.0)];
    }
    let centre = edge.centre();
    let arm = |out: Vec2| Vec2::new(-out.y, out.x) * (4.0 / 3.0 * edge.bulge);
    [edge.from + arm(edge.from - centre), edge.to - arm(edge.to - centre)]
}
