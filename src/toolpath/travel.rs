// SPDX-License-Identifier: MIT
//! The order of strokes in which the head travels little.
//!
//! In: strokes that may be made in any order. Out: the same strokes in a good order, each begun at a good end or
//! corner. Nearest first, then 2-opt and or-opt (Croes 1958; Or 1976) until nothing gets better or the counted
//! work is spent. The head starts at the sheet's lower left, and each group where the one before it ended.

use super::{Stroke, StrokePath};
use crate::contour::Point;
use crate::layout::Effort;

/// Most pairs of strokes that are looked at for one improvement round in a row, so that work grows no faster
/// than the strokes.
const REACH: usize = 120;

/// Rounds of improvement at the most, and with little effort.
const ROUNDS: usize = 60;
const FEW_ROUNDS: usize = 1;

/// Groups of so many strokes are small.
const FEW: usize = 40;

/// Less than this is no improvement, mm.
const GAIN: f64 = 1e-9;

/// Where a stroke is begun and where it ends; the same point for a closed one.
#[derive(Clone, Copy)]
struct Visit {
    stroke: usize,
    from: Point,
    to: Point,
}

impl Visit {
    const fn reversed(self) -> Self {
        Self { stroke: self.stroke, from: self.to, to: self.from }
    }
}

/// Puts a group of strokes in order; `head` is where the head stands before, and after. With little effort it is tried
/// once, for a round.
pub(super) fn in_order(strokes: Vec<Stroke>, head: &mut Point, effort: Effort) -> Vec<Stroke> {
    let start = *head;
    let ways: Vec<Ways> = strokes.iter().map(ways).collect();
    let rounds = if effort == Effort::Low { FEW_ROUNDS } else { ROUNDS };
    let mut visits = better(nearest_first(&ways, start, None), &ways, start, rounds);
    // A small group is tried from each stroke and each of its ends, since one unlucky beginning can cost a tenth.
    if strokes.len() <= FEW && effort != Effort::Low {
        let first = |stroke: usize| ways[stroke].iter().take(4).map(move |&way| Some((stroke, way)));
        for first in (0..strokes.len()).flat_map(first) {
            let other = better(nearest_first(&ways, start, first), &ways, start, rounds);
            if travel(&other, start) < travel(&visits, start) - GAIN {
                visits = other;
            }
        }
    }
    if let Some(last) = visits.last() {
        *head = last.to;
    }
    let mut strokes: Vec<Option<Stroke>> = strokes.into_iter().map(Some).collect();
    visits
        .into_iter()
        .filter_map(|visit| strokes[visit.stroke].take().map(|stroke| begun_at(stroke, visit.from)))
        .collect()
}

/// An order made as good as small changes make it.
fn better(mut visits: Vec<Visit>, ways: &[Ways], start: Point, rounds: usize) -> Vec<Visit> {
    for _ in 0..3 {
        improve(&mut visits, start, rounds);
        if !better_corners(&mut visits, ways, start) {
            break;
        }
    }
    visits
}

/// How far the head travels between strokes, mm.
fn travel(visits: &[Visit], start: Point) -> f64 {
    let mut head = start;
    visits.iter().map(|visit| std::mem::replace(&mut head, visit.to).distance(visit.from)).sum()
}

/// The points at which a stroke may be begun, each with its end.
type Ways = Vec<(Point, Point)>;

fn ways(stroke: &Stroke) -> Ways {
    match &stroke.run {
        StrokePath::Closed(contour) => contour.vertices().iter().map(|vertex| (vertex.at, vertex.at)).collect(),
        StrokePath::Open(edges) => match (edges.first(), edges.last()) {
            (Some(first), Some(last)) => vec![(first.from, last.to), (last.to, first.from)],
            _ => Vec::new(),
        },
        StrokePath::Straight(pieces) => match (pieces.first(), pieces.last()) {
            (Some(first), Some(last)) => vec![(first.0, last.1), (last.1, first.0)],
            _ => Vec::new(),
        },
    }
}

fn begun_at(mut stroke: Stroke, from: Point) -> Stroke {
    let backwards = |first: Point| first != from;
    match &mut stroke.run {
        StrokePath::Closed(contour) => {
            if let Some(index) = contour.vertices().iter().position(|vertex| vertex.at == from) {
                *contour = contour.begun_at(index);
            }
        }
        StrokePath::Open(edges) if edges.first().is_some_and(|first| backwards(first.from)) => {
            edges.reverse();
            for edge in edges {
                *edge = edge.reversed();
            }
        }
        StrokePath::Straight(pieces) if pieces.first().is_some_and(|first| backwards(first.0)) => {
            pieces.reverse();
            for piece in pieces {
                *piece = (piece.1, piece.0);
            }
        }
        StrokePath::Open(_) | StrokePath::Straight(_) => {}
    }
    stroke
}

/// Always on to the nearest stroke, after the first if one is given.
fn nearest_first(all: &[Ways], start: Point, first: Option<(usize, (Point, Point))>) -> Vec<Visit> {
    let mut left: Vec<usize> = (0..all.len()).filter(|stroke| !all[*stroke].is_empty()).collect();
    // With very many strokes, looking at all of them each time would take too long: neighbours in sheet order do.
    let window = if left.len() > 2000 { 400 } else { left.len() };
    let mut visits = Vec::with_capacity(left.len());
    let mut head = start;
    if let Some((stroke, (from, to))) = first {
        left.retain(|number| *number != stroke);
        visits.push(Visit { stroke, from, to });
        head = to;
    }
    while !left.is_empty() {
        let mut best = (f64::INFINITY, None);
        for (place, &stroke) in left.iter().take(window).enumerate() {
            for &(from, to) in &all[stroke] {
                let far = head.distance_squared(from);
                if far < best.0 {
                    best = (far, Some((place, from, to)));
                }
            }
        }
        let Some((place, from, to)) = best.1 else { break };
        visits.push(Visit { stroke: left.remove(place), from, to });
        head = to;
    }
    visits
}

/// 2-opt and or-opt until nothing gets better, or so many rounds are spent.
fn improve(visits: &mut Vec<Visit>, start: Point, rounds: usize) {
    for _ in 0..rounds {
        let turned = turn_back(visits, start);
        let moved = move_along(visits, start);
        if !turned && !moved {
            return;
        }
    }
}

/// Turns round stretches of the order where that is shorter.
fn turn_back(visits: &mut [Visit], start: Point) -> bool {
    let mut better = false;
    for first in 0..visits.len() {
        for last in first..visits.len().min(first + REACH) {
            let before = if first == 0 { start } else { visits[first - 1].to };
            let after = visits.get(last + 1).map(|visit| visit.from);
            let leave = |end: Point| after.map_or(0.0, |after| end.distance(after));
            let now = before.distance(visits[first].from) + leave(visits[last].to);
            let then = before.distance(visits[last].to) + leave(visits[first].from);
            if then < now - GAIN {
                visits[first..=last].reverse();
                for visit in &mut visits[first..=last] {
                    *visit = visit.reversed();
                }
                better = true;
            }
        }
    }
    better
}

/// Moves one to three strokes to another place in the order, turned round if that is shorter still.
fn move_along(visits: &mut Vec<Visit>, start: Point) -> bool {
    let mut better = false;
    for size in 1..=3 {
        for first in 0..(visits.len() + 1).saturating_sub(size) {
            if let Some((to, turned)) = better_place(visits, start, first, size) {
                let mut taken: Vec<Visit> = visits.drain(first..first + size).collect();
                if turned {
                    taken.reverse();
                    for visit in &mut taken {
                        *visit = visit.reversed();
                    }
                }
                visits.splice(to..to, taken);
                better = true;
            }
        }
    }
    better
}

/// Where a stretch had better stand: its new place among the others, and whether it is turned round.
fn better_place(visits: &[Visit], start: Point, first: usize, size: usize) -> Option<(usize, bool)> {
    let end = first + size;
    let before = |place: usize| if place == 0 { start } else { visits[place - 1].to };
    let gap = |from: Point, to: Option<&Visit>| to.map_or(0.0, |to| from.distance(to.from));
    let (head, tail) = (visits[first].from, visits[end - 1].to);
    let after = visits.get(end);
    let freed = before(first).distance(head) + gap(tail, after) - gap(before(first), after);
    let places = (first.saturating_sub(REACH)..first).chain(end + 1..=visits.len().min(end + REACH));
    let mut best = (freed - GAIN, None);
    for place in places {
        let (left, right) = (before(place), visits.get(place));
        let open = gap(left, right);
        let lead = |to: Point| right.map_or(0.0, |right| to.distance(right.from));
        for (turned, from, to) in [(false, head, tail), (true, tail, head)] {
            let cost = left.distance(from) + lead(to) - open;
            if cost < best.0 {
                best = (cost, Some((if place > first { place - size } else { place }, turned)));
            }
        }
    }
    best.1
}

/// Begins each closed stroke at the corner nearest to both its neighbours.
fn better_corners(visits: &mut [Visit], ways: &[Ways], start: Point) -> bool {
    let mut better = false;
    for place in 0..visits.len() {
        let before = if place == 0 { start } else { visits[place - 1].to };
        let after = visits.get(place + 1).map(|visit| visit.from);
        let cost = |from: Point, to: Point| before.distance(from) + after.map_or(0.0, |after| to.distance(after));
        let visit = visits[place];
        for &(from, to) in &ways[visit.stroke] {
            if cost(from, to) < cost(visits[place].from, visits[place].to) - GAIN {
                visits[place] = Visit { stroke: visit.stroke, from, to };
                better = true;
            }
        }
    }
    better
}
