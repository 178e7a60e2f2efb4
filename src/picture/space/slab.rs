// SPDX-License-Identifier: MIT
//! A panel as it stands in space: one face where it is thin, a slab with sides where it is thick.

use super::facet::{Facet, LineRole, Plane};
use super::view::{THIN, looked_at};
use crate::contour::{Contour, Edge, Point, SAME, Vec2};
use crate::net::Stand;
use crate::picture::{BOARD_EDGE, Fill, Stuff};
use glam::DVec3;

/// A panel, its place and what it is made of.
#[derive(Clone, Debug)]
pub(super) struct Slab {
    pub outline: Contour,
    pub holes: Vec<Contour>,
    /// The folds that it hangs on or that hang on it.
    pub folds: Vec<[Point; 2]>,
    pub stand: Stand,
    pub caliper: f64,
    pub stuff: Stuff,
    /// The lower left of the net that it is of.
    pub corner: Vec2,
}

/// A slab as it is looked at.
#[derive(Clone, Debug)]
pub(super) struct SlabView {
    /// Rings of its middle.
    rings: Vec<Vec<DVec3>>,
    /// Its lines in order; no line where an arc is taken as chords is a corner.
    lines: Vec<(LineRole, [DVec3; 2])>,
    /// Corners, where a thick slab has an upright line.
    corners: Vec<DVec3>,
    /// From its middle to its front.
    up: DVec3,
    caliper: f64,
    /// Of its front and its back, in its middle.
    fills: [Fill; 2],
}

impl Slab {
    pub(super) fn seen(&self) -> SlabView {
        let see = |point: Point| looked_at(self.stand.transform_point3(DVec3::new(point.x, point.y, 0.0)));
        let flat = |point: Point| {
            let at = see(point + self.corner);
            Point::new(at.x, at.y)
        };
        let mut seen = SlabView {
            rings: Vec::new(),
            lines: Vec::new(),
            corners: Vec::new(),
            up: looked_at(self.stand.transform_vector3(DVec3::Z)).normalize_or_zero(),
            caliper: self.caliper,
            fills: [self.stuff.front(), self.stuff.back()].map(|fill| fill.mapped(flat)),
        };
        for contour in std::iter::once(&self.outline).chain(&self.holes) {
            let mut ring = Vec::new();
            for edge in contour.edges() {
                let points = chords(edge);
                let ends = points.windows(2).flat_map(|pair| self.stretches([pair[0], pair[1]]));
                seen.lines.extend(ends.map(|(line, [from, to])| (line, [see(from), see(to)])));
                ring.extend(points[..points.len() - 1].iter().map(|point| see(*point)));
                seen.corners.push(see(edge.from));
            }
            seen.rings.push(ring);
        }
        seen
    }

    /// An edge as what of it is outline and what is fold, in order.
    fn stretches(&self, [from, to]: [Point; 2]) -> Vec<(LineRole, [Point; 2])> {
        let way = to - from;
        let length = way.hypot();
        let share = |point: Point| (point - from).dot(way) / (length * length);
        let off = |point: Point| ((point - from).cross(way) / length).abs();
        let on = self.folds.iter().filter(|fold| fold.iter().all(|end| off(*end) < SAME));
        let mut spans: Vec<(f64, f64)> = on
            .map(|fold| {
                let (one, two) = (share(fold[0]), share(fold[1]));
                (one.min(two).max(0.0), one.max(two).min(1.0))
            })
            .filter(|(start, end)| (end - start) * length > SAME)
            .collect();
        spans.sort_by(|one, two| one.0.total_cmp(&two.0));
        let at = |share: f64| from + way * share;
        let (mut done, mut found) = (0.0, Vec::new());
        for (start, end) in spans {
            if (start - done) * length > SAME {
                found.push((LineRole::Outline, [at(done), at(start)]));
            }
            found.push((LineRole::Crease, [at(start), at(end)]));
            done = end;
        }
        if (1.0 - done) * length > SAME {
            found.push((LineRole::Outline, [at(done), to]));
        }
        found
    }
}

impl SlabView {
    pub(super) fn points(&self) -> impl Iterator<Item = DVec3> + '_ {
        let half = self.up * (self.caliper / 2.0);
        self.rings.iter().flatten().flat_map(move |point| [*point + half, *point - half])
    }

    /// Its faces, where a picture is drawn so much smaller.
    pub(super) fn faces(&self, scale: f64) -> Vec<Facet> {
        let facing = self.up.z >= 0.0;
        let [front, back] = &self.fills;
        let paint = if facing { front } else { back };
        // Towards the eye.
        let normal = if facing { self.up } else { -self.up };
        if self.caliper * scale < THIN {
            return vec![self.shifted(DVec3::ZERO, normal, paint)];
        }
        let half = normal * (self.caliper / 2.0);
        let mut faces = vec![self.shifted(half, normal, paint)];
        let (above, below) = (half, -half);
        for ring in &self.rings {
            for (&from, &to) in ring.iter().zip(ring.iter().cycle().skip(1)) {
                let side = (to - from).cross(normal).normalize_or_zero();
                let side = if side.z < 0.0 { -side } else { side };
                let plane = Plane { normal: side, away: side.dot(from) };
                let mut lines = vec![(LineRole::Outline, [from + below, to + below])];
                if self.corners.contains(&from) {
                    lines.push((LineRole::Outline, [from + below, from + above]));
                }
                if self.corners.contains(&to) {
                    lines.push((LineRole::Outline, [to + below, to + above]));
                }
                let rings = vec![vec![from + below, to + below, to + above, from + above]];
                faces.push(Facet { plane, rings, lines, joints: Vec::new(), paint: Fill::Flat(BOARD_EDGE) });
            }
        }
        faces
    }

    fn shifted(&self, by: DVec3, normal: DVec3, paint: &Fill) -> Facet {
        let away = self.rings.iter().flatten().next().map_or(0.0, |point| normal.dot(*point + by));
        Facet {
            plane: Plane { normal, away },
            rings: self.rings.iter().map(|ring| ring.iter().map(|point| *point + by).collect()).collect(),
            lines: self.lines.iter().map(|(line, ends)| (*line, ends.map(|end| end + by))).collect(),
            joints: Vec::new(),
            paint: paint.clone().mapped(|point| Point::new(point.x + by.x, point.y + by.y)),
        }
    }
}

/// The outline of a panel that is bent round an edge, without what would stand out beyond the ends of its bend: there paper is
/// pinched in, which no flat panel shows. Only straight edges are cut.
pub(super) fn pinched(outline: &Contour, [from, to]: [Point; 2]) -> Contour {
    let along = to - from;
    if along.hypot() < SAME || outline.edges().any(|edge| !edge.is_line()) {
        return outline.clone();
    }
    let along = along.normalize();
    let mut corners: Vec<Point> = outline.vertices().iter().map(|vertex| vertex.at).collect();
    for (end, inwards) in [(from, along), (to, -along)] {
        let inside = |point: Point| (point - end).dot(inwards);
        let mut kept = Vec::with_capacity(corners.len() + 1);
        for (&here, &next) in corners.iter().zip(corners.iter().cycle().skip(1)) {
            let (one, two) = (inside(here), inside(next));
            if one >= 0.0 {
                kept.push(here);
            }
            if (one < 0.0) != (two < 0.0) {
                kept.push(here.lerp(next, one / (one - two)));
            }
        }
        corners = kept;
    }
    Contour::polygon(corners.into_iter().map(|corner| (corner.x, corner.y)))
}

/// An edge as points, both ends included; an arc by chords of at most 7.5 degrees, less than 0.22 % of its radius off.
fn chords(edge: Edge) -> Vec<Point> {
    if edge.is_line() {
        return vec![edge.from, edge.to];
    }
    let (centre, turn) = (edge.centre(), edge.angle());
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "an arc is at most a quarter")]
    let steps = (turn.abs().to_degrees() / 7.5).ceil().clamp(1.0, 48.0) as u32;
    let from = edge.from - centre;
    let inner = (1..steps).map(|step| {
        let (sin, cos) = (turn * f64::from(step) / f64::from(steps)).sin_cos();
        centre + Vec2::new(from.x * cos - from.y * sin, from.x * sin + from.y * cos)
    });
    std::iter::once(edge.from).chain(inner).chain([edge.to]).collect()
}
