// SPDX-License-Identifier: MIT
//! From a net to the flat part: one outline, its holes, its scores.

use super::{Fold, Net, Sense};
use crate::contour::{Contour, Edge, Point, SAME, Vec2, outside, turned};
use crate::length::EIGHTHS_PER_MM;
use crate::length::tolerance::{OFF_THE_HALF, PARALLEL};

/// A score line of the flat part.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Score {
    /// One end, on the outline or on a hole's edge.
    pub from: Point,
    /// The other end.
    pub to: Point,
    /// Which way it is folded.
    pub sense: Sense,
}

/// A part as it lies flat, with its lower left at the origin.
#[derive(Clone, Debug)]
pub struct Flat {
    /// Its outline, counter-clockwise.
    pub outline: Contour,
    /// Its holes, clockwise.
    pub holes: Vec<Contour>,
    /// Its scores.
    pub scores: Vec<Score>,
    /// Lines that are drawn on it.
    pub marks: Vec<[Point; 2]>,
    /// Width of its box, mm.
    pub width: f64,
    /// Height of its box, mm.
    pub height: f64,
}

/// Why a net is no part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum NetProblem {
    /// The outline crosses itself or encloses nothing.
    Crosses,
    /// A panel's outline crosses itself: a clip or a taper is larger than the panel.
    Panel(usize),
    /// A fold that does not lie on an edge of both its panels.
    Fold(usize),
    /// A hole that reaches over the outline, or into another hole.
    Hole(usize),
}

impl Net {
    /// Lays the net flat.
    ///
    /// # Errors
    /// The first thing that keeps it from being a part.
    pub fn flat(&self) -> Result<Flat, NetProblem> {
        if let Some(bad) =
            self.panels.iter().position(|panel| panel.outline.area() <= 0.0 || !panel.outline.is_simple())
        {
            return Err(NetProblem::Panel(bad));
        }
        let on_an_edge = |panel: usize, fold: Fold| self.panels[panel].outline.edges().any(|edge| carries(edge, fold));
        if let Some(bad) =
            self.folds.iter().position(|&fold| !fold.between.iter().all(|&panel| on_an_edge(panel, fold)))
        {
            return Err(NetProblem::Fold(bad));
        }
        let mut walk = Vec::new();
        self.walk(0, None, &mut walk);
        let outline = without_needless(&without_slits(Contour::new(walk)));
        if outline.area() <= 0.0 || !outline.is_simple() {
            return Err(NetProblem::Crosses);
        }
        let holes: Vec<Contour> = self.holes.iter().map(|hole| hole.clone().clockwise()).collect();
        check_holes(&outline, &holes)?;
        let scores = self
            .folds
            .iter()
            .filter(|fold| fold.sense != Sense::Bent)
            .flat_map(|fold| {
                outside(fold.from, fold.to, &holes).into_iter().map(|(from, to)| Score { from, to, sense: fold.sense })
            })
            .collect();
        let bounds = outline.bounds();
        let marks = self.marks.clone();
        Ok(Flat { outline, holes, scores, marks, width: bounds.width(), height: bounds.height() }
            .shifted(Vec2::new(-bounds.x0, -bounds.y0)))
    }

    /// Walks round a panel, and on the way round every panel that hangs on it where its fold is met. Panels
    /// that touch exactly cannot be united by area; walking keeps their coordinates and arcs as they are.
    fn walk(&self, panel: usize, entry: Option<usize>, into: &mut Vec<(f64, f64, f64)>) {
        let edges: Vec<Edge> = self.panels[panel].outline.edges().collect();
        // On a hanging panel the walk starts behind the edge that carries its own fold and leaves it out.
        let own = entry.and_then(|fold| edges.iter().position(|&edge| carries(edge, self.folds[fold])));
        let (skip, count) = own.map_or((0, edges.len()), |own| (own + 1, edges.len() - 1));
        for &edge in edges.iter().cycle().skip(skip).take(count) {
            let mut hanging: Vec<usize> = (0..self.folds.len())
                .filter(|&fold| {
                    Some(fold) != entry && self.folds[fold].between[0] == panel && carries(edge, self.folds[fold])
                })
                .collect();
            hanging.sort_by(|&a, &b| {
                ends_on(edge, self.folds[a])
                    .0
                    .distance(edge.from)
                    .total_cmp(&ends_on(edge, self.folds[b]).0.distance(edge.from))
            });
            into.push((edge.from.x, edge.from.y, if hanging.is_empty() { edge.bulge } else { 0.0 }));
            for fold in hanging {
                let (first, last) = ends_on(edge, self.folds[fold]);
                into.push((first.x, first.y, 0.0));
                self.walk(self.folds[fold].between[1], Some(fold), into);
                into.push((last.x, last.y, 0.0));
            }
        }
        if let Some(own) = own {
            into.push((edges[own].from.x, edges[own].from.y, 0.0));
        }
    }
}

impl Flat {
    /// Area of card in mm², holes taken off.
    #[must_use]
    pub fn area(&self) -> f64 {
        // Holes run clockwise, so their area is negative.
        self.outline.area() + self.holes.iter().map(Contour::area).sum::<f64>()
    }

    /// Turned by quarter turns counter-clockwise, its lower left at the origin again.
    #[must_use]
    pub fn turned(&self, quarters: u8) -> Self {
        let (width, height) = (self.width, self.height);
        let map = |point: Point| turned(point, quarters, (width, height));
        let (width, height) = if quarters.is_multiple_of(2) { (width, height) } else { (height, width) };
        Self { width, height, ..self.mapped(map) }
    }

    /// Moved.
    #[must_use]
    pub fn shifted(&self, by: Vec2) -> Self {
        if by == Vec2::ZERO { self.clone() } else { self.mapped(|point| point + by) }
    }

    fn mapped(&self, map: impl Fn(Point) -> Point) -> Self {
        Self {
            outline: self.outline.mapped(&map),
            holes: self.holes.iter().map(|hole| hole.mapped(&map)).collect(),
            scores: self
                .scores
                .iter()
                .map(|score| Score { from: map(score.from), to: map(score.to), sense: score.sense })
                .collect(),
            marks: self.marks.iter().map(|mark| mark.map(&map)).collect(),
            ..*self
        }
    }

    /// Numbers that are equal for two parts exactly when one could be cut in place of the other: its
    /// contours from their lowest corner on, its scores and marks in order, in eighths of a micrometre.
    #[must_use]
    pub fn likeness(&self) -> Vec<i64> {
        let mut all = ring(&self.outline);
        let mut holes: Vec<_> = self.holes.iter().map(ring).collect();
        holes.sort();
        let mut scores: Vec<_> = self
            .scores
            .iter()
            .map(|score| {
                let (from, to) = (spot(score.from), spot(score.to));
                [from.min(to), from.max(to), (score.sense as i64, 0)]
            })
            .collect();
        scores.sort_unstable();
        all.extend(holes.into_iter().flat_map(|hole| std::iter::once(i64::MIN).chain(hole)));
        all.push(i64::MAX);
        all.extend(scores.into_iter().flatten().flat_map(|(x, y)| [x, y]));
        let mut marks: Vec<_> = self.marks.iter().map(|mark| mark.map(spot)).collect();
        for ends in &mut marks {
            ends.sort_unstable();
        }
        marks.sort_unstable();
        // Behind what no score has, so that marks are not taken for scores.
        all.extend(marks.iter().map(|_| i64::MAX));
        all.extend(marks.into_iter().flatten().flat_map(|(x, y)| [x, y]));
        all
    }
}

/// Whole eighths of a micrometre.
#[allow(clippy::cast_possible_truncation, reason = "a float-to-integer cast saturates")]
pub(super) fn eighths(value: f64) -> i64 {
    value.mul_add(EIGHTHS_PER_MM, OFF_THE_HALF).round() as i64
}

pub(super) fn spot(point: Point) -> (i64, i64) {
    (eighths(point.x), eighths(point.y))
}

fn ring(contour: &Contour) -> Vec<i64> {
    spots_of(contour).into_iter().flat_map(|((x, y), bulge)| [x, y, bulge]).collect()
}

/// A contour's corners with their bulges, from the one that is farthest left on.
pub(super) fn spots_of(contour: &Contour) -> Vec<((i64, i64), i64)> {
    let mut spots: Vec<_> = contour.vertices().iter().map(|vertex| (spot(vertex.at), eighths(vertex.bulge))).collect();
    let lowest = (0..spots.len()).min_by_key(|&index| spots[index]).unwrap_or(0);
    spots.rotate_left(lowest);
    spots
}

/// Whether a fold lies on a straight edge.
fn carries(edge: Edge, fold: Fold) -> bool {
    edge.is_line() && edge.distance(fold.from) < SAME && edge.distance(fold.to) < SAME
}

/// The fold's ends in the order in which the edge meets them.
fn ends_on(edge: Edge, fold: Fold) -> (Point, Point) {
    if edge.from.distance(fold.from) <= edge.from.distance(fold.to) {
        (fold.from, fold.to)
    } else {
        (fold.to, fold.from)
    }
}

/// Drops ways there and straight back: panels that hang on different panels and share an edge are one sheet there, as a
/// turn-in is that runs on over a joint.
fn without_slits(mut outline: Contour) -> Contour {
    for _ in 0..outline.vertices().len() {
        let edges: Vec<Edge> = outline.edges().collect();
        let back = (0..edges.len()).find(|&index| {
            let (before, here) = (edges[(index + edges.len() - 1) % edges.len()], edges[index]);
            let (one, two) = (before.to - before.from, here.to - here.from);
            let straight = before.is_line() && here.is_line();
            straight && one.cross(two).abs() < PARALLEL * one.hypot() * two.hypot() && one.dot(two) < 0.0
        });
        let Some(back) = back else { break };
        let kept = edges.iter().enumerate().filter(|(index, _)| *index != back);
        outline = Contour::new(kept.map(|(_, edge)| (edge.from.x, edge.from.y, edge.bulge)));
    }
    outline
}

/// Drops corners that the outline passes straight through: where a score meets the edge nothing turns.
fn without_needless(outline: &Contour) -> Contour {
    let edges: Vec<Edge> = outline.edges().collect();
    let kept = (0..edges.len()).filter(|&index| {
        let (before, here) = (edges[(index + edges.len() - 1) % edges.len()], edges[index]);
        let (one, two) = (before.to - before.from, here.to - here.from);
        !(before.is_line()
            && here.is_line()
            && one.cross(two).abs() < PARALLEL * one.hypot() * two.hypot()
            && one.dot(two) > 0.0)
    });
    Contour::new(kept.map(|index| (edges[index].from.x, edges[index].from.y, edges[index].bulge)))
}

/// Every hole must be sound, lie inside the outline, and keep clear of the others.
fn check_holes(outline: &Contour, holes: &[Contour]) -> Result<(), NetProblem> {
    for (index, hole) in holes.iter().enumerate() {
        let apart = |other: &Contour| !other.meets(hole) && !other.encloses(hole) && !hole.encloses(other);
        let sound = hole.is_simple() && !outline.meets(hole) && outline.encloses(hole);
        if !sound || !holes[..index].iter().all(apart) {
            return Err(NetProblem::Hole(index));
        }
    }
    Ok(())
}
