// SPDX-License-Identifier: MIT
//! Strokes as the cutter file asks for them: begun at a corner that hides, nicked, run past their start, led for a swivelling
//! blade, repeated. Where it asks for nothing they stay as they are.

use super::stroke::{Layer, SheetPaths, Stroke, StrokePath};
use super::walk::Walk;
use super::{curve, trail};
use crate::contour::{Contour, Edge, Point, SAME};
use crate::cutter::{Curves, Cutter, Direction, Manner, Start};

/// What of one stroke's part is known on the sheet.
#[derive(Clone, Debug, Default)]
pub(crate) struct Hints {
    /// Corners that are hidden once all is glued.
    pub hidden: Vec<Point>,
    /// The middles of its nicks.
    pub nicks: Vec<Point>,
}

/// The strokes in their order, each made as the cutter wants it; `hints` knows the part of a stroke.
pub(crate) fn made(strokes: Vec<Stroke>, cutter: &Cutter, hints: impl Fn(&Stroke) -> Hints) -> Vec<Stroke> {
    if cutter.manner == Manner::default() {
        return strokes;
    }
    let manner = &cutter.manner;
    let mut out = Vec::with_capacity(strokes.len());
    for mut stroke in strokes {
        let passes = match stroke.layer {
            Layer::Cut => manner.passes.cut,
            Layer::Score => manner.passes.score,
            Layer::Draw => manner.passes.draw,
        };
        let runs = if stroke.layer == Layer::Cut {
            let hints = hints(&stroke);
            cut(std::mem::replace(&mut stroke.run, StrokePath::Open(Vec::new())), cutter, &hints)
        } else {
            vec![stroke.run.clone()]
        };
        let runs: Vec<StrokePath> = runs.into_iter().map(|run| curved(run, manner)).collect();
        for _ in 0..passes {
            out.extend(runs.iter().map(|run| Stroke { run: run.clone(), ..stroke.clone() }));
        }
    }
    out
}

/// One cut, in pieces where nicks part it.
fn cut(run: StrokePath, cutter: &Cutter, hints: &Hints) -> Vec<StrokePath> {
    let manner = &cutter.manner;
    let led = |edges: Vec<Edge>| {
        StrokePath::Open(if manner.corner_help { trail::axis(&edges, manner.trail.mm()) } else { edges })
    };
    match run {
        StrokePath::Closed(contour) => {
            let outer = contour.area() > 0.0;
            let contour = round(begun(contour, manner, hints), manner.direction);
            let nicks = if outer { hints.nicks.as_slice() } else { &[] };
            if nicks.is_empty() && manner.overrun.mm() < SAME && !manner.corner_help {
                return vec![StrokePath::Closed(contour)];
            }
            parted(&contour, nicks, cutter).into_iter().map(led).collect()
        }
        StrokePath::Open(edges) => vec![led(edges)],
        StrokePath::Straight(_) => vec![run],
    }
}

/// Begun at the hidden corner that is nearest to where it begins now.
fn begun(contour: Contour, manner: &Manner, hints: &Hints) -> Contour {
    if manner.start == Start::Nearest {
        return contour;
    }
    let Some(now) = contour.vertices().first().map(|vertex| vertex.at) else { return contour };
    let hides = |at: Point| hints.hidden.iter().any(|hidden| hidden.distance(at) < SAME);
    let corners = contour.vertices().iter().enumerate().filter(|(_, vertex)| hides(vertex.at));
    let best = corners.min_by(|one, two| one.1.at.distance(now).total_cmp(&two.1.at.distance(now)));
    best.map(|(index, _)| index).map_or(contour.clone(), |index| contour.begun_at(index))
}

/// Run the way round that is wanted, from the same start.
fn round(contour: Contour, direction: Direction) -> Contour {
    let against = contour.area() > 0.0;
    let turns = match direction {
        Direction::PartLeft => false,
        Direction::PartRight => true,
        Direction::Clockwise => against,
        Direction::CounterClockwise => !against,
    };
    let start = contour.vertices().first().map(|vertex| vertex.at).filter(|_| turns);
    let Some(start) = start else { return contour };
    let back = contour.reversed();
    let index = back.vertices().iter().position(|vertex| vertex.at == start).unwrap_or_default();
    back.begun_at(index)
}

/// A closed cut as runs between its nicks, the last one past the start.
fn parted(contour: &Contour, nicks: &[Point], cutter: &Cutter) -> Vec<Vec<Edge>> {
    let once = Walk::new(contour.edges().collect());
    let overrun = cutter.manner.overrun.mm().min(once.length);
    let half = off(cutter) / 2.0;
    let mut at: Vec<f64> = nicks.iter().map(|nick| once.nearest(*nick).0).collect();
    at.sort_by(f64::total_cmp);
    let end = once.length + overrun;
    let again = once.between(0.0, overrun);
    let walk = Walk::new(contour.edges().chain(again).collect());
    let froms = std::iter::once(0.0).chain(at.iter().map(|nick| nick + half));
    let tos = at.iter().map(|nick| nick - half).chain([end]);
    froms.zip(tos).map(|(from, to)| walk.between(from, to)).filter(|run| !run.is_empty()).collect()
}

/// How long the tool stays off for a nick: its own width goes into the card on both sides.
pub(super) fn off(cutter: &Cutter) -> f64 {
    cutter.manner.nicks.map_or(0.0, |nicks| nicks.length.mm() + cutter.kerf.mm())
}

/// The strokes of a sheet for a file that knows no curves at all: short lines.
pub(crate) fn in_lines(sheet: &SheetPaths, manner: &Manner) -> SheetPaths {
    let manner = Manner { curves: Curves::Lines, ..manner.clone() };
    rewritten(sheet, &manner)
}

/// The strokes of a sheet as a cutter with cubics has them.
#[cfg(test)]
pub(crate) fn in_eighths(sheet: &SheetPaths) -> SheetPaths {
    let manner = Manner { curves: Curves::Cubics, ..Manner::default() };
    rewritten(sheet, &manner)
}

/// With all its curves as they are written.
fn rewritten(sheet: &SheetPaths, manner: &Manner) -> SheetPaths {
    let run = |run: &StrokePath| curved(run.clone(), manner);
    let strokes = sheet.strokes.iter().map(|stroke| Stroke { run: run(&stroke.run), ..stroke.clone() });
    SheetPaths { strokes: strokes.collect(), register: sheet.register.iter().map(run).collect(), ..sheet.clone() }
}

/// With its curves as they are written.
pub(super) fn curved(run: StrokePath, manner: &Manner) -> StrokePath {
    if manner.curves == Curves::Arcs {
        return run;
    }
    match run {
        StrokePath::Closed(contour) => {
            let edges = curve::as_written(contour.edges().collect(), manner);
            StrokePath::Closed(Contour::new(edges.iter().map(|edge| (edge.from.x, edge.from.y, edge.bulge))))
        }
        StrokePath::Open(edges) => StrokePath::Open(curve::as_written(edges, manner)),
        StrokePath::Straight(_) => run,
    }
}
