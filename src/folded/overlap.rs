// SPDX-License-Identifier: MIT
//! Panels that lie on one another: how much of one is over the other, and how far it sticks out.
//!
//! Any two simple outlines: each is taken as a fan of signed triangles, and triangles are convex.

use super::Folded;
use crate::contour::{Contour, Point, SAME, Vec2};
use crate::length::tolerance::PARALLEL;
use crate::parts::Kit;
use glam::DVec3;

/// How one panel lies over another one.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub struct Overlap {
    /// Area of the one that lies over the other, mm².
    pub area: f64,
    /// Area of the one, mm².
    pub of: f64,
    /// How far the one reaches beyond the other, mm.
    pub beyond: f64,
    /// How far the middles of the two are apart, counted along the other's front normal, mm.
    pub above: f64,
}

/// Arcs are taken as so many chords.
const CHORDS: u32 = 8;

impl Folded {
    /// A panel's outline as it lies over another panel, seen in that one's own flat frame; none where they are not
    /// parallel.
    #[must_use]
    pub fn seen_on(&self, kit: &Kit, one: (usize, usize), on: (usize, usize)) -> Option<(Vec<Point>, f64)> {
        let (stand, ground) = (self.stand(one.0, one.1)?, self.stand(on.0, on.1)?);
        let to = ground.inverse() * *stand;
        if to.matrix3.z_axis.truncate().length() > PARALLEL {
            return None;
        }
        let outline = &kit.pieces.get(one.0)?.net.panels.get(one.1)?.outline;
        let seen = |point: Point| {
            let seen = to.transform_point3(DVec3::new(point.x, point.y, 0.0));
            Point::new(seen.x, seen.y)
        };
        Some((points(outline).into_iter().map(seen).collect(), to.translation.z))
    }

    /// How one panel lies over another; none where they are not parallel.
    #[must_use]
    pub fn overlap(&self, kit: &Kit, one: (usize, usize), on: (usize, usize)) -> Option<Overlap> {
        let (seen, above) = self.seen_on(kit, one, on)?;
        let ground = &kit.pieces.get(on.0)?.net.panels.get(on.1)?.outline;
        let out = |point: &Point| {
            let distance = ground.distance(*point);
            if distance < SAME || ground.contains(*point) { 0.0 } else { distance }
        };
        Some(Overlap {
            area: common(&seen, &points(ground)).abs(),
            of: area(&seen).abs(),
            beyond: seen.iter().map(out).fold(0.0, f64::max),
            above,
        })
    }
}

impl Folded {
    /// How far a panel reaches over an outline that lies on another panel, left to right in that one's flat frame, mm; none
    /// where they share less than `least` mm².
    #[must_use]
    pub fn over(
        &self,
        kit: &Kit,
        one: (usize, usize),
        on: (usize, usize),
        outline: &Contour,
        least: f64,
    ) -> Option<f64> {
        let (seen, _) = self.seen_on(kit, one, on)?;
        let of = points(outline);
        let ends = |points: &[Point]| {
            points.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| (low.min(at.x), high.max(at.x)))
        };
        let ((from, to), (left, right)) = (ends(&seen), ends(&of));
        (common(&seen, &of).abs() > least).then(|| to.min(right) - from.max(left))
    }

    /// How far one panel reaches beyond several others that lie in one plane, give or take `apart`, mm; the others count as one.
    #[must_use]
    pub fn beyond(&self, kit: &Kit, one: (usize, usize), others: &[(usize, usize)], apart: f64) -> f64 {
        let mut off: Vec<f64> = Vec::new();
        for &on in others {
            let ground = kit.pieces.get(on.0).and_then(|piece| piece.net.panels.get(on.1)).map(|panel| &panel.outline);
            let (Some((seen, above)), Some(ground)) = (self.seen_on(kit, one, on), ground) else { continue };
            if above.abs() > apart {
                continue;
            }
            let out = |point: &Point| if ground.contains(*point) { 0.0 } else { ground.distance(*point) };
            let here = seen.iter().map(out);
            off = if off.is_empty() { here.collect() } else { off.iter().zip(here).map(|(a, b)| a.min(b)).collect() };
        }
        off.into_iter().fold(0.0, f64::max)
    }
}

/// Corners of an outline, arcs as chords.
pub(super) fn points(outline: &Contour) -> Vec<Point> {
    let mut points = Vec::new();
    for edge in outline.edges() {
        points.push(edge.from);
        if !edge.is_line() {
            let (centre, turn) = (edge.centre(), edge.angle());
            let from = edge.from - centre;
            points.extend((1..CHORDS).map(|step| {
                let (sin, cos) = (turn * f64::from(step) / f64::from(CHORDS)).sin_cos();
                centre + Vec2::new(from.x * cos - from.y * sin, from.x * sin + from.y * cos)
            }));
        }
    }
    points
}

fn area(polygon: &[Point]) -> f64 {
    let next = polygon.iter().cycle().skip(1);
    polygon.iter().zip(next).map(|(a, b)| a.to_vec2().cross(b.to_vec2())).sum::<f64>() / 2.0
}

/// Area that two outlines share.
pub(super) fn common(one: &[Point], other: &[Point]) -> f64 {
    let others: Vec<(f64, [Point; 3])> = fan(other).collect();
    let signed = fan(one).flat_map(|(sign, triangle)| {
        others.iter().map(move |(other_sign, other)| sign * other_sign * shared(&triangle, other))
    });
    signed.sum()
}

/// A fan of triangles, each counter-clockwise, and its sign in the whole.
fn fan(polygon: &[Point]) -> impl Iterator<Item = (f64, [Point; 3])> {
    let first = polygon.first().copied().unwrap_or_default();
    polygon.windows(2).skip(1).filter_map(move |pair| {
        let (a, b) = (pair[0], pair[1]);
        let twice = (a - first).cross(b - first);
        (twice != 0.0).then(|| if twice > 0.0 { (1.0, [first, a, b]) } else { (-1.0, [first, b, a]) })
    })
}

/// Area that two counter-clockwise triangles share (Sutherland and Hodgman 1974).
fn shared(one: &[Point; 3], other: &[Point; 3]) -> f64 {
    let mut left = one.to_vec();
    for index in 0..3 {
        let (from, to) = (other[index], other[(index + 1) % 3]);
        let inside = |point: Point| (to - from).cross(point - from);
        let mut kept = Vec::with_capacity(left.len() + 1);
        for (&a, &b) in left.iter().zip(left.iter().cycle().skip(1)) {
            let (at_a, at_b) = (inside(a), inside(b));
            if at_a >= 0.0 {
                kept.push(a);
            }
            if (at_a > 0.0 && at_b < 0.0) || (at_a < 0.0 && at_b > 0.0) {
                kept.push(a + (b - a) * (at_a / (at_a - at_b)));
            }
        }
        left = kept;
    }
    area(&left)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn polygon(corners: &[(f64, f64)]) -> Vec<Point> {
        corners.iter().map(|&corner| corner.into()).collect()
    }

    /// An L and a square, worked by hand; either way round.
    #[test]
    fn outlines_with_bays_share_what_they_share() {
        let l = polygon(&[(0.0, 0.0), (10.0, 0.0), (10.0, 4.0), (4.0, 4.0), (4.0, 10.0), (0.0, 10.0)]);
        let square = polygon(&[(2.0, 2.0), (8.0, 2.0), (8.0, 8.0), (2.0, 8.0)]);
        assert!((common(&l, &square).abs() - (6.0 * 2.0 + 2.0 * 4.0)).abs() < 1e-12);
        assert!((common(&square, &l).abs() - 20.0).abs() < 1e-12);
        let backwards: Vec<Point> = l.iter().rev().copied().collect();
        assert!((common(&backwards, &square).abs() - 20.0).abs() < 1e-12);
        assert!((common(&l, &l).abs() - 64.0).abs() < 1e-12);
    }
}
