// SPDX-License-Identifier: MIT
//! Where nicks go: uncut bits that hold a part in its sheet until it is pressed out.
//!
//! Never at a corner, nor at a score's end, where card would tear. On edges that are hidden once all is glued as far as the
//! part has any, as far apart as they may be.

use super::walk::Walk;
use crate::contour::{Contour, Edge, Point, SAME};

/// Nicks keep so far from corners and from ends of scores, mm: our choice.
const CLEAR: f64 = 1.0;

/// Arcs tighter than this are corners, mm: our choice.
const ROUND: f64 = 3.0;

/// Bends smaller than this are no corners, radians.
const SMOOTH: f64 = 0.02;

/// Nicks may stand so far apart from one place to the next that is tried, mm.
const STEP: f64 = 1.0;

/// What nicks of one part are held to, mm.
pub(super) struct NickRules<'a> {
    /// How many there ought to be.
    pub count: u32,
    /// How long the tool stays off: the nick and its own width.
    pub off: f64,
    /// What else must be clear: the overrun and the trail.
    pub besides: f64,
    /// The ends of scores.
    pub ends: &'a [Point],
    /// How far the path stands off the part.
    pub offset: f64,
}

/// The middles of the nicks on a tool's path, as many as there is room for.
pub(super) fn places(outline: &Contour, rules: &NickRules<'_>, hidden: impl Fn(Point) -> bool) -> Vec<Point> {
    let walk = Walk::new(outline.edges().collect());
    let free = free(&walk, rules);
    let mut tried: Vec<(Point, bool)> = Vec::new();
    for (from, to) in &free {
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "an edge of a sheet in steps")]
        let steps = 2 * ((to - from) / (2.0 * STEP)).floor().clamp(0.0, 10_000.0) as u32;
        for step in 0..=steps {
            let share = if steps == 0 { 0.5 } else { f64::from(step) / f64::from(steps) };
            let middle = from + (to - from) * share;
            let ends = [-0.5, 0.0, 0.5].map(|half| walk.at(middle + half * rules.off));
            if let [Some(one), Some(point), Some(two)] = ends {
                tried.push((point, [one, point, two].into_iter().all(&hidden)));
            }
        }
    }
    let longest = free.iter().copied().max_by(|one, two| (one.1 - one.0).total_cmp(&(two.1 - two.0)));
    let first = longest.and_then(|(from, to)| walk.at(f64::midpoint(from, to)));
    let mut taken: Vec<Point> = Vec::new();
    for only_hidden in [true, false] {
        while taken.len() < rules.count as usize {
            // Far from those that are there; the first in the middle of the longest edge.
            let room = |point: Point| match (taken.as_slice(), first) {
                ([], Some(first)) => -point.distance(first),
                _ => taken.iter().map(|other| other.distance(point)).fold(f64::INFINITY, f64::min),
            };
            let may = tried.iter().filter(|(_, hidden)| *hidden || !only_hidden).map(|(point, _)| *point);
            let best = may
                .map(|point| (room(point), point))
                .reduce(|best, one| if one.0 > best.0 + SAME { one } else { best });
            match best {
                Some((room, point)) if taken.is_empty() || room >= rules.off + 2.0 * CLEAR => taken.push(point),
                _ => break,
            }
        }
    }
    taken
}

/// The stretches on which the middle of a nick may lie.
fn free(walk: &Walk, rules: &NickRules<'_>) -> Vec<(f64, f64)> {
    let keep = CLEAR + rules.besides + rules.off / 2.0;
    let edges: Vec<(f64, Edge)> = walk.edges().collect();
    let mut barred: Vec<(f64, f64)> = Vec::new();
    for (index, &(start, edge)) in edges.iter().enumerate() {
        let before = edges[(index + edges.len() - 1) % edges.len()].1;
        let tight = edge.radius() < ROUND;
        if tight {
            barred.push((start - keep, start + edge.length() + keep));
        } else if before.bend_to(edge).abs() > SMOOTH {
            barred.push((start - keep, start + keep));
        }
    }
    for &end in rules.ends {
        let (at, off) = walk.nearest(end);
        if off < rules.offset + CLEAR {
            barred.push((at - keep, at + keep));
        }
    }
    // The way closes: what is barred across the start is barred at the end.
    let length = walk.length;
    let around: Vec<(f64, f64)> =
        barred.iter().flat_map(|&(from, to)| [-length, 0.0, length].map(|by| (from + by, to + by))).collect();
    let mut barred: Vec<(f64, f64)> = around.into_iter().filter(|(from, to)| *to > 0.0 && *from < length).collect();
    barred.sort_by(|one, two| one.0.total_cmp(&two.0));
    let mut free = Vec::new();
    let mut at = 0.0;
    for (from, to) in barred.into_iter().chain([(length, length)]) {
        if from > at {
            free.push((at, from));
        }
        at = f64::max(at, to);
    }
    free
}
