// SPDX-License-Identifier: MIT
//! Neighbours that touch share one cut.
//!
//! Where the straight edge of an outline runs over one that an earlier outline of the sheet has already cut,
//! it is left out; what remains of the later outline becomes open strokes.

use super::{Stroke, StrokePath};
use crate::contour::{Edge, Point, Vec2};
use crate::length::tolerance::SAME;
use std::collections::BTreeMap;

/// Edges nearer than this to one line lie on it, mm.
const SAME_LINE: f64 = 0.01;

/// Less than this of an edge is not worth a stroke, mm.
const NOTHING: f64 = SAME;

/// The outer cuts of a sheet with every shared stretch cut once, by the first outline that borders it.
pub(super) fn once(outer: Vec<Stroke>) -> Vec<Stroke> {
    let mut cut = Lines::default();
    let mut kept = Vec::with_capacity(outer.len());
    for stroke in outer {
        let StrokePath::Closed(contour) = &stroke.run else {
            kept.push(stroke);
            continue;
        };
        let edges: Vec<Edge> = contour.edges().collect();
        let left: Vec<Vec<Edge>> = edges.iter().map(|&edge| cut.left_of(edge)).collect();
        let untouched = edges.iter().zip(&left).all(|(edge, left)| left.as_slice() == [*edge]);
        for &edge in &edges {
            cut.add(edge);
        }
        if untouched {
            kept.push(stroke);
        } else {
            let runs = chains(left.into_iter().flatten().collect());
            kept.extend(runs.into_iter().map(|run| Stroke { run: StrokePath::Open(run), ..stroke.clone() }));
        }
    }
    kept
}

/// Joins edges that follow one another; the first and the last may be one chain too.
fn chains(edges: Vec<Edge>) -> Vec<Vec<Edge>> {
    let mut chains: Vec<Vec<Edge>> = Vec::new();
    let follows = |before: &[Edge], next: Edge| before.last().is_some_and(|last| last.to.distance(next.from) < NOTHING);
    for edge in edges {
        match chains.last_mut() {
            Some(chain) if follows(chain, edge) => chain.push(edge),
            _ => chains.push(vec![edge]),
        }
    }
    if chains.len() > 1
        && let Some(mut last) = chains.pop()
    {
        if follows(&last, chains[0][0]) {
            last.append(&mut chains[0]);
            chains[0] = last;
        } else {
            chains.push(last);
        }
    }
    chains
}

/// The straight stretches that are cut already, by the line that they lie on.
#[derive(Default)]
struct Lines {
    /// Keyed by direction and distance from the origin, each coarsely; values are whole edges.
    cut: BTreeMap<(i64, i64), Vec<Edge>>,
}

impl Lines {
    fn add(&mut self, edge: Edge) {
        if let Some((line, _)) = line(edge) {
            self.cut.entry(line).or_default().push(edge);
        }
    }

    /// What of an edge has not been cut yet, in its direction.
    fn left_of(&self, edge: Edge) -> Vec<Edge> {
        let Some((home, along)) = line(edge) else { return vec![edge] };
        let length = edge.from.distance(edge.to);
        let forward = (edge.to - edge.from) / length;
        let mut taken: Vec<(f64, f64)> = Vec::new();
        // A line at the border of its drawer may lie in the next one; directions wrap round at half a turn.
        let drawers = [-1, 0, 1].into_iter().flat_map(|turn| [-1, 0, 1].map(|shift| (turn, shift)));
        for other in drawers.filter_map(|step| self.cut.get(&neighbour(home, step))).flatten() {
            let on_line = |point: Point| (point - edge.from).cross(along).abs() < SAME_LINE;
            if on_line(other.from) && on_line(other.to) {
                let (one, two) = ((other.from - edge.from).dot(forward), (other.to - edge.from).dot(forward));
                taken.push((one.min(two).max(0.0), one.max(two).min(length)));
            }
        }
        taken.retain(|(start, end)| end - start > NOTHING);
        if taken.is_empty() {
            return vec![edge];
        }
        taken.sort_by(|one, two| one.0.total_cmp(&two.0));
        let mut left = Vec::new();
        let mut at = 0.0;
        for (start, end) in taken.into_iter().chain([(length, length)]) {
            if start - at > NOTHING {
                left.push(Edge { from: edge.from + forward * at, to: edge.from + forward * start, bulge: 0.0 });
            }
            at = f64::max(at, end);
        }
        left
    }
}

/// Drawers for directions: this many to half a turn.
const DIRECTIONS: i64 = 20_000;

/// The drawer of an edge's line, and the line's direction; none for arcs.
#[allow(
    clippy::cast_possible_truncation,
    clippy::cast_precision_loss,
    reason = "coordinates on a sheet are far below 2^52 drawers"
)]
fn line(edge: Edge) -> Option<((i64, i64), Vec2)> {
    if !edge.is_line() || edge.from.distance(edge.to) < NOTHING {
        return None;
    }
    let along = (edge.to - edge.from).normalize();
    let turn = along.atan2().rem_euclid(std::f64::consts::PI) / std::f64::consts::PI;
    // The distance is taken without its sign, since a line has no direction.
    let distance = edge.from.to_vec2().cross(along).abs();
    Some((((turn * DIRECTIONS as f64).round() as i64 % DIRECTIONS, (distance / SAME_LINE).round() as i64), along))
}

fn neighbour((turn, distance): (i64, i64), (step, shift): (i64, i64)) -> (i64, i64) {
    ((turn + step).rem_euclid(DIRECTIONS), distance + shift)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::contour::Contour;
    use crate::toolpath::Layer;

    fn outline(contour: Contour) -> Stroke {
        Stroke { layer: Layer::Cut, part: 0, copy: 1, fold: None, run: StrokePath::Closed(contour) }
    }

    fn length(strokes: &[Stroke]) -> f64 {
        let edges = |run: &StrokePath| match run {
            StrokePath::Closed(contour) => contour.length(),
            StrokePath::Open(edges) => edges.iter().map(|edge| edge.length()).sum(),
            StrokePath::Straight(_) => 0.0,
        };
        strokes.iter().map(|stroke| edges(&stroke.run)).sum()
    }

    /// A grid of m x n cards a x b has (n + 1) level lines of m a and (m + 1) upright ones of n b.
    #[test]
    fn a_grid_is_cut_along_its_lines_once() {
        let (columns, rows, a, b) = (5, 4, 30.0, 40.0);
        for degrees in [0.0, 90.0, 17.0, 179.99] {
            let turn = kurbo::Affine::rotate(f64::to_radians(degrees));
            let cards = (0..columns * rows).map(|card| {
                let (x, y) = (f64::from(card % columns) * a, f64::from(card / columns) * b);
                outline(Contour::rectangle(x, y, a, b).mapped(|point| turn * point))
            });
            let strokes = once(cards.collect());
            let expected = f64::from(rows + 1) * f64::from(columns) * a + f64::from(columns + 1) * f64::from(rows) * b;
            assert!((length(&strokes) - expected).abs() < 1e-6, "{degrees}: {} not {expected}", length(&strokes));
        }
    }

    #[test]
    fn outlines_apart_stay_closed() {
        let strokes = once(vec![
            outline(Contour::rectangle(0.0, 0.0, 10.0, 10.0)),
            outline(Contour::rectangle(10.5, 0.0, 10.0, 10.0)),
        ]);
        assert!(strokes.iter().all(|stroke| matches!(stroke.run, StrokePath::Closed(_))));
    }

    #[test]
    fn a_half_shared_edge_leaves_one_open_stroke() {
        let strokes = once(vec![
            outline(Contour::rectangle(0.0, 0.0, 10.0, 10.0)),
            outline(Contour::rectangle(10.0, 5.0, 10.0, 10.0)),
        ]);
        assert_eq!(strokes.len(), 2);
        let StrokePath::Open(edges) = &strokes[1].run else { panic!("closed") };
        // Round from the foot of the shared stretch to its top.
        assert_eq!(edges[0].from, Point::new(10.0, 5.0));
        assert_eq!(edges[edges.len() - 1].to, Point::new(10.0, 10.0));
    }
}
