// SPDX-License-Identifier: MIT
//! A flat face as it is looked at, and how it is divided by a plane.

use crate::length::tolerance::SAME;
use crate::picture::Fill;
use glam::DVec3;

/// Nearer to a plane than this is on it, mm.
pub(super) const ON: f64 = 1e-5;

/// What a line of a face is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum LineRole {
    Outline,
    Crease,
}

/// A plane: points with `normal · point = away`. The normal never looks away from the eye.
#[derive(Clone, Copy, Debug)]
pub(super) struct Plane {
    pub normal: DVec3,
    pub away: f64,
}

impl Plane {
    /// How far in front of the plane, as the eye sees it, a point is.
    pub(super) fn before(&self, point: DVec3) -> f64 {
        self.normal.dot(point) - self.away
    }
}

/// A face, or a piece of one. Where a ring lies in another, it is a hole.
#[derive(Clone, Debug)]
pub(super) struct Facet {
    pub plane: Plane,
    pub rings: Vec<Vec<DVec3>>,
    /// What is drawn over the fill, in order.
    pub lines: Vec<(LineRole, [DVec3; 2])>,
    /// Where it was divided.
    pub joints: Vec<[DVec3; 2]>,
    /// The side that the eye sees.
    pub paint: Fill,
}

/// Where a face is, as a plane sees it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Where {
    On,
    Before,
    Behind,
    Across,
}

impl Facet {
    /// Its fill; none where it is seen from its edge.
    pub(super) fn fill(&self) -> Option<Fill> {
        (self.plane.normal.z > SAME && !self.rings.is_empty()).then(|| self.paint.clone())
    }

    /// Where it is, as a plane sees it.
    pub(super) fn place(&self, plane: &Plane) -> Where {
        let (mut before, mut behind) = (false, false);
        let ends = self.lines.iter().flat_map(|(_, ends)| ends);
        for point in self.rings.iter().flatten().chain(ends) {
            let distance = plane.before(*point);
            before |= distance > ON;
            behind |= distance < -ON;
        }
        match (before, behind) {
            (false, false) => Where::On,
            (true, false) => Where::Before,
            (false, true) => Where::Behind,
            (true, true) => Where::Across,
        }
    }

    /// Divides it: what is behind the plane, and what is before it.
    pub(super) fn divided(self, plane: &Plane) -> [Self; 2] {
        let joints = self.crossed(plane);
        [-1.0, 1.0].map(|side| {
            let kept = |ends: &[DVec3; 2]| clipped(*ends, plane, side);
            let rings = self.rings.iter().map(|ring| half(ring, plane, side)).filter(|ring| ring.len() > 2);
            Self {
                plane: self.plane,
                rings: rings.collect(),
                lines: self.lines.iter().filter_map(|(line, ends)| Some((*line, kept(ends)?))).collect(),
                joints: self.joints.iter().filter_map(kept).chain(joints.iter().copied()).collect(),
                paint: self.paint.clone(),
            }
        })
    }

    /// The stretches of the face that lie in a plane which crosses it.
    fn crossed(&self, plane: &Plane) -> Vec<[DVec3; 2]> {
        let along = self.plane.normal.cross(plane.normal);
        let mut met: Vec<DVec3> = Vec::new();
        for ring in &self.rings {
            for (&from, &to) in ring.iter().zip(ring.iter().cycle().skip(1)) {
                let (one, two) = (plane.before(from), plane.before(to));
                if (one >= 0.0) != (two >= 0.0) {
                    met.push(from.lerp(to, one / (one - two)));
                }
            }
        }
        met.sort_by(|one, two| along.dot(*one).total_cmp(&along.dot(*two)));
        met.chunks_exact(2).map(|pair| [pair[0], pair[1]]).collect()
    }
}

/// The part of a ring on one side of a plane (Sutherland and Hodgman 1974). Pieces of a ring that falls apart stay joined by
/// ways there and back in the plane, which enclose nothing.
fn half(ring: &[DVec3], plane: &Plane, side: f64) -> Vec<DVec3> {
    let mut kept = Vec::with_capacity(ring.len() + 4);
    for (&from, &to) in ring.iter().zip(ring.iter().cycle().skip(1)) {
        let (one, two) = (plane.before(from) * side, plane.before(to) * side);
        if one >= 0.0 {
            kept.push(from);
        }
        if (one >= 0.0) != (two >= 0.0) {
            kept.push(from.lerp(to, one / (one - two)));
        }
    }
    kept
}

/// The part of a line on one side of a plane. One that lies in the plane goes with what is before it.
fn clipped([from, to]: [DVec3; 2], plane: &Plane, side: f64) -> Option<[DVec3; 2]> {
    let (one, two) = (plane.before(from) * side, plane.before(to) * side);
    if one.abs() <= ON && two.abs() <= ON {
        return (side > 0.0).then_some([from, to]);
    }
    match (one >= -ON, two >= -ON) {
        // A line that only touches the plane is on its own side.
        (true, true) => Some([from, to]),
        (true, false) if one > ON => Some([from, from.lerp(to, one / (one - two))]),
        (false, true) if two > ON => Some([from.lerp(to, one / (one - two)), to]),
        _ => None,
    }
}
