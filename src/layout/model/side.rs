// SPDX-License-Identifier: MIT
//! The right side of a grown outline, height by height: what a second part that comes from the right meets first.
//!
//! In: an outline, the distance that is kept round it, mm. Out: how far to the right its half turned twin must lie at any height.
//! Never: lets anything nearer than that distance; arcs, and the round corners that growing makes, are held by tangents, so at
//! most [`CLOSE`] is given away.
//!
//! A half turn takes a point p to t - p, so the twin's left side at height y is t.x less the part's own right side at t.y - y.
//! The two keep clear of each other where t.x is no less than the sum of both at every height. Between two heights at which a
//! straight piece begins or ends both are the highest of some straight lines, so their sum is largest at one of the ends.

use crate::contour::{Contour, Edge, Point, Vec2};

/// What the tangents of an arc may be off it, mm: our choice.
const CLOSE: f64 = 0.005;
/// An arc of 90 degrees has no more tangents than this.
const MOST_TANGENTS: f64 = 32.0;
/// Heights nearer than this are one, mm.
const ONE: f64 = 1e-9;

/// A straight piece of the side, from its lower end up.
#[derive(Clone, Copy, Debug)]
struct Slope {
    low: Point,
    high: Point,
}

impl Slope {
    fn at(&self, y: f64) -> f64 {
        let share = ((y - self.low.y) / (self.high.y - self.low.y)).clamp(0.0, 1.0);
        (self.high.x - self.low.x).mul_add(share, self.low.x)
    }

    /// Whether another is nowhere to its right between two heights that both reach.
    fn covers(&self, other: &Self, from: f64, to: f64) -> bool {
        self.at(from) >= other.at(from) && self.at(to) >= other.at(to)
    }
}

/// The right side.
#[derive(Clone, Debug)]
pub(crate) struct RightSide {
    levels: Vec<f64>,
    /// Between each level and the next: what may be the farthest to the right.
    slopes: Vec<Vec<Slope>>,
}

impl RightSide {
    /// The right side of an outline that runs counter-clockwise, grown by `distance` all round.
    pub(crate) fn new(outline: &Contour, distance: f64) -> Self {
        let all = slopes(outline, distance);
        let mut levels: Vec<f64> = all.iter().flat_map(|slope| [slope.low.y, slope.high.y]).collect();
        levels.sort_by(f64::total_cmp);
        levels.dedup_by(|one, other| *one - *other < ONE);
        let mut slopes: Vec<Vec<Slope>> = vec![Vec::new(); levels.len().saturating_sub(1)];
        for slope in all {
            let first = levels.partition_point(|level| *level <= slope.low.y - 2.0 * ONE);
            let pairs = levels.windows(2).zip(&mut slopes).skip(first);
            for (pair, here) in pairs.take_while(|(pair, _)| pair[1] < slope.high.y + 2.0 * ONE) {
                if !here.iter().any(|other| other.covers(&slope, pair[0], pair[1])) {
                    here.retain(|other| !slope.covers(other, pair[0], pair[1]));
                    here.push(slope);
                }
            }
        }
        Self { levels, slopes }
    }

    /// At how many heights straight pieces begin or end.
    pub(crate) fn levels(&self) -> usize {
        self.levels.len()
    }

    /// How far to the right the point must lie that its half turned twin turns about twice, at least, if that point is at height
    /// `sum`; nothing where the two pass each other.
    pub(crate) fn reach(&self, sum: f64) -> Option<f64> {
        let (first, last) = (*self.levels.first()?, *self.levels.last()?);
        let (from, to) = (first.max(sum - last), last.min(sum - first));
        let both = self.levels.iter().flat_map(|&level| [level, sum - level]);
        let mut heights: Vec<f64> = both.filter(|height| (from..=to).contains(height)).collect();
        heights.sort_by(f64::total_cmp);
        let ends = heights.windows(2).filter(|pair| pair[1] - pair[0] > ONE);
        let meets = ends.filter_map(|pair| {
            let middle = f64::midpoint(pair[0], pair[1]);
            let (own, twin) = (self.slopes_at(middle)?, self.slopes_at(sum - middle)?);
            let both = |y: f64| farthest(own, y) + farthest(twin, sum - y);
            Some(both(pair[0]).max(both(pair[1])))
        });
        meets.max_by(f64::total_cmp)
    }

    fn slopes_at(&self, y: f64) -> Option<&[Slope]> {
        let above = self.levels.partition_point(|level| *level <= y);
        self.slopes.get(above.checked_sub(1)?).map(Vec::as_slice)
    }
}

fn farthest(slopes: &[Slope], y: f64) -> f64 {
    slopes.iter().map(|slope| slope.at(y)).fold(f64::NEG_INFINITY, f64::max)
}

/// What the grown outline's edge is made of where it faces right: every edge moved out, and a round corner where two part.
/// What of it lies within the grown shape changes nothing.
fn slopes(outline: &Contour, distance: f64) -> Vec<Slope> {
    let edges: Vec<Edge> = outline.edges().collect();
    let mut slopes = Vec::new();
    for (number, &edge) in edges.iter().enumerate() {
        let next = edges[(number + 1) % edges.len()];
        let along = (edge.to - edge.from).atan2();
        let quarter = std::f64::consts::FRAC_PI_2;
        if edge.is_line() {
            let out = Vec2::from_angle(along - quarter) * distance;
            rising(&[edge.from + out, edge.to + out], &mut slopes);
        } else {
            let start = (edge.from - edge.centre()).atan2();
            let radius = if edge.bulge > 0.0 { edge.radius() + distance } else { edge.radius() - distance };
            if radius > 0.0 {
                rising(&tangents(edge.centre(), radius, start, edge.angle()), &mut slopes);
            } else {
                // Too narrow to be grown into: whatever is within reach of its ends closes it.
                for end in [edge.from, edge.to] {
                    rising(&tangents(end, distance, -quarter, 2.0 * quarter), &mut slopes);
                }
            }
        }
        let bend = edge.bend_to(next);
        if bend > 0.0 && distance > 0.0 {
            rising(&tangents(edge.to, distance, along + edge.angle() / 2.0 - quarter, bend), &mut slopes);
        }
    }
    slopes
}

/// Straight pieces that are nowhere within an arc: tangents where it bends out, chords where it bends in.
fn tangents(centre: Point, radius: f64, start: f64, angle: f64) -> Vec<Point> {
    let finest = std::f64::consts::FRAC_PI_2 / MOST_TANGENTS;
    let step = (8.0 * CLOSE / radius).sqrt().max(finest);
    let count = (angle.abs() / step).ceil().clamp(1.0, 8.0 * MOST_TANGENTS);
    let each = angle / count;
    let at = |turn: f64, radius: f64| centre + Vec2::from_angle(start + turn) * radius;
    let mut points = vec![at(0.0, radius)];
    let mut number = 0.0;
    while number < count {
        points.push(if angle > 0.0 {
            at(each * (number + 0.5), radius / (each / 2.0).cos())
        } else {
            at(each * (number + 1.0), radius)
        });
        number += 1.0;
    }
    points.push(at(angle, radius));
    points
}

/// Those pieces of a run that go up: what runs down faces left.
fn rising(run: &[Point], into: &mut Vec<Slope>) {
    let pieces = run.windows(2).map(|pair| Slope { low: pair[0], high: pair[1] });
    into.extend(pieces.filter(|piece| piece.high.y - piece.low.y > ONE));
}
