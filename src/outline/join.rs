// SPDX-License-Identifier: MIT
//! From edges as they were drawn to closed rings: what meets end to end is joined, what stays open is told.

use super::drawing::{Notices, stop, warn};
use crate::contour::{Contour, Edge, Point, Rect};
use crate::finding::{Arg, Place, Said};
use crate::length::tolerance::READ;
use std::collections::BTreeMap;

/// Ends that lie no further apart meet, mm: two of them and what arcs stray (0.004) make the hundredth that is promised.
pub(super) const MEETS: f64 = 0.003;

/// A ring smaller than this in both directions is a speck, mm: our choice; no knife cuts it.
const SPECK: f64 = 0.5;

/// Edges drawn in one go, mm.
#[derive(Clone, Debug)]
pub(super) struct EdgeRun {
    pub edges: Vec<Edge>,
    pub closed: bool,
    pub what: String,
    pub place: Place,
}

/// A closed outline, and what of the file it was made from.
#[derive(Clone, Debug)]
pub(super) struct Ring {
    pub contour: Contour,
    pub bounds: Rect,
    pub what: String,
    pub place: Place,
}

impl EdgeRun {
    fn ends(&self) -> Option<[Point; 2]> {
        Some([self.edges.first()?.from, self.edges.last()?.to])
    }

    fn reversed(&self) -> Vec<Edge> {
        self.edges.iter().rev().map(|edge| edge.reversed()).collect()
    }

    fn length(&self) -> f64 {
        self.edges.iter().map(|edge| edge.length()).sum()
    }

    fn bounds(&self) -> Option<Rect> {
        self.edges.iter().map(|edge| edge.bounds()).reduce(|all, one| all.union(one))
    }

    /// Whether it is drawn over another one.
    fn covers(&self, other: &Self) -> bool {
        let close = |one: f64, two: f64| (one - two).abs() <= 2.0 * MEETS;
        let (Some(one), Some(two)) = (self.bounds(), other.bounds()) else { return false };
        let corners = [(one.x0, two.x0), (one.y0, two.y0), (one.x1, two.x1), (one.y1, two.y1)];
        corners.into_iter().all(|(one, two)| close(one, two)) && close(self.length(), other.length())
    }
}

/// Joins all runs to rings.
pub(super) fn rings(runs: Vec<EdgeRun>, notices: &mut Notices) -> Vec<Ring> {
    let mut closed: Vec<EdgeRun> = Vec::new();
    let mut open: Vec<EdgeRun> = Vec::new();
    for run in runs {
        let Some([from, to]) = run.ends() else { continue };
        if run.closed || from.distance(to) <= MEETS { closed.push(run) } else { open.push(run) }
    }
    closed.extend(Joining::new(open, notices).chains(notices));
    let mut rings: Vec<Ring> = Vec::new();
    // Rings that may be one: those whose boxes begin at the same spot.
    let mut near: BTreeMap<(i64, i64), Vec<usize>> = BTreeMap::new();
    let mut lengths: Vec<f64> = Vec::new();
    for run in closed {
        let contour = contour(&run.edges);
        let bounds = contour.bounds();
        if bounds.width().max(bounds.height()) < SPECK {
            let text = Said::new("outline-speck").with("what", Arg::code(&run.what));
            let text = text.with("size", notices.length(bounds.width().max(bounds.height())));
            let text = text.with("at", notices.spot(bounds.center()));
            notices.tell(warn("outline-speck", text, "outline-speck-help", &run.place));
            continue;
        }
        let length = contour.length();
        let same = |other: &usize| {
            let before: &Ring = &rings[*other];
            let close = |one: f64, two: f64| (one - two).abs() <= 2.0 * MEETS;
            let corners = [
                (bounds.x0, before.bounds.x0),
                (bounds.y0, before.bounds.y0),
                (bounds.x1, before.bounds.x1),
                (bounds.y1, before.bounds.y1),
            ];
            corners.into_iter().all(|(one, two)| close(one, two))
                && close(length, lengths[*other])
                && (contour.area().abs() - before.contour.area().abs()).abs() <= MEETS * length
        };
        let cell = cell(Point::new(bounds.x0, bounds.y0));
        let twice = around(cell).filter_map(|cell| near.get(&cell)).flatten().any(same);
        if twice {
            doubled(&run, bounds, notices);
            continue;
        }
        near.entry(cell).or_default().push(rings.len());
        lengths.push(length);
        rings.push(Ring { contour, bounds, what: run.what, place: run.place });
    }
    rings
}

fn doubled(run: &EdgeRun, bounds: Rect, notices: &mut Notices) {
    let text = Said::new("outline-twice").with("what", Arg::code(&run.what)).with("at", notices.spot(bounds.center()));
    notices.tell(warn("outline-twice", text, "outline-twice-help", &run.place));
}

/// The outline of edges that meet end to end, without those that are too short to be seen.
fn contour(edges: &[Edge]) -> Contour {
    let mut from = None;
    let mut corners = Vec::with_capacity(edges.len());
    for edge in edges {
        let start: Point = from.take().unwrap_or(edge.from);
        if edge.from.distance(edge.to) < READ && edges.len() > 3 {
            from = Some(start);
            continue;
        }
        corners.push((start.x, start.y, edge.bulge));
    }
    Contour::new(corners)
}

#[allow(clippy::cast_possible_truncation, reason = "a float-to-integer cast saturates")]
fn cell(point: Point) -> (i64, i64) {
    ((point.x / MEETS / 4.0).floor() as i64, (point.y / MEETS / 4.0).floor() as i64)
}

fn around((x, y): (i64, i64)) -> impl Iterator<Item = (i64, i64)> {
    (-1..=1).flat_map(move |dx| (-1..=1).map(move |dy| (x.saturating_add(dx), y.saturating_add(dy))))
}

/// Open runs, and the spots at which their ends meet.
struct Joining {
    runs: Vec<EdgeRun>,
    /// The spot of each run's start and end.
    spots: Vec<[usize; 2]>,
    /// At each spot, which ends of which runs are there.
    at: Vec<Vec<(usize, usize)>>,
    taken: Vec<bool>,
}

impl Joining {
    fn new(all: Vec<EdgeRun>, notices: &mut Notices) -> Self {
        let mut joining = Self { runs: Vec::new(), spots: Vec::new(), at: Vec::new(), taken: Vec::new() };
        let mut cells: BTreeMap<(i64, i64), Vec<(usize, Point)>> = BTreeMap::new();
        let mut between: BTreeMap<[usize; 2], Vec<usize>> = BTreeMap::new();
        let mut spots = 0;
        for run in all {
            let Some(ends) = run.ends() else { continue };
            let own = ends.map(|end| {
                let here = cell(end);
                let known = around(here).filter_map(|cell| cells.get(&cell)).flatten();
                let nearest = known.copied().min_by(|one, two| one.1.distance(end).total_cmp(&two.1.distance(end)));
                if let Some((spot, _)) = nearest.filter(|(_, point)| point.distance(end) <= MEETS) {
                    return spot;
                }
                cells.entry(here).or_default().push((spots, end));
                spots += 1;
                spots - 1
            });
            let pair = [own[0].min(own[1]), own[0].max(own[1])];
            let beside = between.entry(pair).or_default();
            if beside.iter().any(|&other| run.covers(&joining.runs[other])) {
                doubled(&run, run.bounds().unwrap_or(Rect::ZERO), notices);
                continue;
            }
            beside.push(joining.runs.len());
            joining.at.resize(spots, Vec::new());
            for (end, spot) in own.into_iter().enumerate() {
                joining.at[spot].push((joining.runs.len(), end));
            }
            joining.runs.push(run);
            joining.spots.push(own);
        }
        joining.taken = vec![false; joining.runs.len()];
        joining
    }

    /// Chains of runs that close; what doesn't is told.
    fn chains(mut self, notices: &mut Notices) -> Vec<EdgeRun> {
        for spot in 0..self.at.len() {
            if let Some(&(run, end)) = self.at[spot].get(2) {
                let (run, at) = (&self.runs[run], self.runs[run].ends().map_or(Point::ORIGIN, |ends| ends[end]));
                let text = Said::new("outline-branches")
                    .with("count", self.at[spot].len())
                    .with("at", notices.spot(at))
                    .with("what", Arg::code(&run.what));
                notices.tell(stop("outline-branches", text, "outline-branches-help", &run.place));
            }
        }
        // From loose ends first, so that what is left goes round.
        let loose: Vec<(usize, usize)> = self.at.iter().filter(|ends| ends.len() != 2).flatten().copied().collect();
        let mut open: Vec<([Point; 2], String, Place, bool)> = Vec::new();
        for (run, end) in loose {
            if self.taken[run] {
                continue;
            }
            let (edges, spots) = self.follow(run, end);
            let (Some(first), Some(last)) = (edges.first(), edges.last()) else { continue };
            // Where several lines meet that is said already.
            let lonely = spots.iter().any(|&spot| self.at[spot].len() == 1);
            open.push(([first.from, last.to], self.runs[run].what.clone(), self.runs[run].place.clone(), lonely));
        }
        tell_open(&open, notices);
        let mut found = Vec::new();
        for run in 0..self.runs.len() {
            if !self.taken[run] {
                let (edges, _) = self.follow(run, 0);
                let (what, place) = (self.runs[run].what.clone(), self.runs[run].place.clone());
                found.push(EdgeRun { edges, closed: true, what, place });
            }
        }
        found
    }

    /// The edges from an end of a run on, as far as runs meet in twos; and the spots where they begin and end.
    fn follow(&mut self, run: usize, end: usize) -> (Vec<Edge>, [usize; 2]) {
        let start = self.spots[run][end];
        let (mut run, mut end, mut edges): (usize, usize, Vec<Edge>) = (run, end, Vec::new());
        loop {
            self.taken[run] = true;
            let next = if end == 0 { self.runs[run].edges.clone() } else { self.runs[run].reversed() };
            // The end of the one is the start of the next, to the last digit.
            if let (Some(last), Some(first)) = (edges.last_mut(), next.first()) {
                last.to = first.from;
            }
            edges.extend(next);
            let spot = self.spots[run][1 - end];
            let here = (run, 1 - end);
            let on = self.at[spot].iter().copied().find(|&other| other != here && !self.taken[other.0]);
            match on.filter(|_| self.at[spot].len() == 2) {
                Some(next) => (run, end) = next,
                None => return (edges, [start, spot]),
            }
        }
    }
}

/// Tells what stays open, with the gap that keeps it so.
fn tell_open(open: &[([Point; 2], String, Place, bool)], notices: &mut Notices) {
    for (number, (ends, what, place, lonely)) in open.iter().enumerate() {
        if !lonely {
            continue;
        }
        // Only what is told one by one is worth a look at all the others.
        let others = open.iter().enumerate().filter(|(other, _)| *other != number).flat_map(|(_, other)| other.0);
        let gap = if number < 64 {
            let gaps = others.map(|end| (end.distance(ends[1]), end)).chain([(ends[0].distance(ends[1]), ends[0])]);
            gaps.min_by(|one, two| one.0.total_cmp(&two.0))
        } else {
            None
        };
        let (gap, to) = gap.unwrap_or((ends[0].distance(ends[1]), ends[0]));
        let text = Said::new("outline-open")
            .with("what", Arg::code(what))
            .with("from", notices.spot(ends[1]))
            .with("to", notices.spot(to))
            .with("gap", notices.length(gap));
        notices.tell(stop("outline-open", text, "outline-open-help", place));
    }
}
