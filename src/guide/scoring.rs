// SPDX-License-Identifier: MIT
//! The scoring plan: which edge lies at the fence, where to score, when to turn the piece.
//!
//! In: a kit's parts. Out: [`Setting`]s: each a few distances from the fence, and all parts that are scored there. Never:
//! words, pictures.
//!
//! A score across the part is scored with the part's left edge at the fence, a level one with its top edge there. Where a
//! part is the same from its other end, it is turned end for end and scored at the same distances again: that needs
//! fewer of them. Parts that are scored at the same distances stand together (our choice).

use super::line::What;
use crate::contour::{Contour, Point};
use crate::length::tolerance::READ;
use crate::net::{Flat, Score, Sense};
use crate::parts::Kit;

/// An arc is looked at in so many chords.
const CHORDS: u32 = 16;

/// Card is looked for so far beside a line, mm: less than any panel is wide.
const BESIDE: f64 = 0.02;

/// The edge of a part that lies at the fence, the part's front up and its top away.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum FenceEdge {
    /// The left one.
    Left,
    /// The top one.
    Top,
}

/// One part at one setting.
#[derive(Clone, Debug, PartialEq)]
pub struct Scored {
    /// Number of the part.
    pub part: usize,
    /// Which of its edges lies at the fence.
    pub edge: FenceEdge,
    /// Whether it is then turned end for end and scored at the same distances again.
    pub again: bool,
}

/// Some distances from the fence, and what is scored there.
#[derive(Clone, Debug, PartialEq)]
pub struct Setting {
    /// Number of the stock.
    pub stock: usize,
    /// Distances from the fence, mm, the nearest first.
    pub at: Vec<f64>,
    /// For each of them, where a score runs over part of the card alone: from and to, mm, from the edge that is then at the
    /// left or the top of the part.
    pub only: Vec<Option<[f64; 2]>>,
    /// The parts.
    pub parts: Vec<Scored>,
}

/// A score as the hand finds it: its distance from the left or top edge, and from the edge across from that.
#[derive(Clone, Debug, PartialEq)]
pub struct ScoreMark {
    /// Which edge it is measured from.
    pub edge: FenceEdge,
    /// From that edge, mm.
    pub at: f64,
    /// From the edge across, mm.
    pub back: f64,
    /// Which way it folds.
    pub sense: Sense,
    /// Its numbers in the flat part: several where a hole or the outline parts it.
    pub scores: Vec<usize>,
    /// Where there is card on its line that is not scored: from and to, mm, from the top edge for one that is measured from the
    /// left, from the left edge for one that is measured from the top.
    pub only: Option<[f64; 2]>,
}

impl FenceEdge {
    /// What a distance from this edge, or from the one across from it, is called.
    #[must_use]
    pub const fn what(self, across: bool) -> What {
        match (self, across) {
            (Self::Left, false) => What::FromLeft,
            (Self::Left, true) => What::FromRight,
            (Self::Top, false) => What::FromTop,
            (Self::Top, true) => What::FromBottom,
        }
    }
}

/// A part's scores in order, those that a hole parts once; slanted ones, which no fence helps with, left out.
#[must_use]
pub fn marks(kit: &Kit, part: usize) -> Vec<ScoreMark> {
    let Some(flat) = kit.parts.get(part).map(|part| &part.flat) else { return Vec::new() };
    let mut marks: Vec<ScoreMark> = Vec::new();
    for edge in [FenceEdge::Left, FenceEdge::Top] {
        let mut runs: Vec<(Run, usize)> =
            flat.scores.iter().enumerate().filter_map(|(number, score)| Some((run(edge, score)?, number))).collect();
        runs.sort_by(|(one, _), (two, _)| one.at.total_cmp(&two.at).then(one.from.total_cmp(&two.from)));
        while let Some((first, number)) = runs.first().copied() {
            let card = card(flat, edge, first.at);
            let apart = |from: f64, to: f64| card.iter().any(|&[low, high]| low < to - READ && high > from + READ);
            let (mut end, mut scores) = (first.to, vec![number]);
            runs.remove(0);
            while let Some(next) = runs.iter().position(|(run, _)| {
                (run.at - first.at).abs() < READ && run.sense == first.sense && !apart(end, run.from)
            }) {
                let (run, number) = runs.remove(next);
                end = end.max(run.to);
                scores.push(number);
            }
            let bare = apart(f64::NEG_INFINITY, first.from) || apart(end, f64::INFINITY);
            let (width, height) = (flat.width, flat.height);
            let (at, back, from, to) = match edge {
                FenceEdge::Left => (first.at, width - first.at, height - end, height - first.from),
                FenceEdge::Top => (height - first.at, first.at, first.from, end),
            };
            marks.push(ScoreMark { edge, at, back, sense: first.sense, scores, only: bare.then_some([from, to]) });
        }
    }
    marks.sort_by(|one, two| one.edge.cmp(&two.edge).then(one.at.total_cmp(&two.at)));
    marks
}

/// A score along one of the two ways: where its line is, where it starts and ends on it.
#[derive(Clone, Copy)]
struct Run {
    at: f64,
    from: f64,
    to: f64,
    sense: Sense,
}

/// A score as a run upright (measured from the left edge), or level; none where it is not so.
fn run(edge: FenceEdge, score: &Score) -> Option<Run> {
    let [from, to] = [score.from, score.to].map(|point| along(edge, point));
    let straight = (from.0 - to.0).abs() < READ;
    straight.then(|| Run { at: from.0, from: from.1.min(to.1), to: from.1.max(to.1), sense: score.sense })
}

/// Where a point's line is, and where the point is on it.
const fn along(edge: FenceEdge, point: Point) -> (f64, f64) {
    match edge {
        FenceEdge::Left => (point.x, point.y),
        FenceEdge::Top => (point.y, point.x),
    }
}

/// The stretches of a line that have card on both their sides.
fn card(flat: &Flat, edge: FenceEdge, at: f64) -> Vec<[f64; 2]> {
    let contours = || std::iter::once(&flat.outline).chain(&flat.holes);
    let mut ends: Vec<f64> = Vec::new();
    for one in contours().flat_map(Contour::edges) {
        let points: Vec<Point> = if one.is_line() {
            vec![one.from, one.to]
        } else {
            let arc = one.arc();
            let at = |step: u32| arc.sample(f64::from(step) / f64::from(CHORDS));
            (0..=CHORDS).map(at).map(|point| Point::new(point.x, point.y)).collect()
        };
        for ends_of in points.windows(2) {
            let [from, to] = [along(edge, ends_of[0]), along(edge, ends_of[1])];
            ends.extend([from.1, to.1]);
            if (from.0 - at) * (to.0 - at) < 0.0 {
                ends.push((to.1 - from.1).mul_add((at - from.0) / (to.0 - from.0), from.1));
            }
        }
    }
    ends.sort_by(f64::total_cmp);
    let inside = |across: f64, middle: f64| {
        let point = if edge == FenceEdge::Left { Point::new(across, middle) } else { Point::new(middle, across) };
        flat.outline.contains(point) && !flat.holes.iter().any(|hole| hole.contains(point))
    };
    let stretches = ends.windows(2).map(|ends| [ends[0], ends[1]]).filter(|[from, to]| to - from > READ);
    let stretches = stretches.filter(|[from, to]| {
        let middle = f64::midpoint(*from, *to);
        inside(at - BESIDE, middle) && inside(at + BESIDE, middle)
    });
    stretches.collect()
}

/// Numbers of the scores that lie askew: they are drawn from corner to corner and scored along a rule.
#[must_use]
pub fn slanted(kit: &Kit, part: usize) -> Vec<usize> {
    let scores = kit.parts.get(part).map_or(&[][..], |part| &part.flat.scores);
    let askew = |score: &Score| [FenceEdge::Left, FenceEdge::Top].iter().all(|edge| run(*edge, score).is_none());
    scores.iter().enumerate().filter(|(_, score)| askew(score)).map(|(number, _)| number).collect()
}

/// The plan.
#[must_use]
pub fn plan(kit: &Kit, order: &[usize]) -> Vec<Setting> {
    let mut settings: Vec<Setting> = Vec::new();
    for &number in order {
        let Some(part) = kit.parts.get(number) else { continue };
        let marks = marks(kit, number);
        for edge in [FenceEdge::Left, FenceEdge::Top] {
            let of_edge: Vec<&ScoreMark> = marks.iter().filter(|mark| mark.edge == edge).collect();
            if of_edge.is_empty() {
                continue;
            }
            let (at, only, again) = distances(&of_edge);
            let scored = Scored { part: number, edge, again };
            let same = settings.iter_mut().find(|setting| {
                setting.stock == part.stock
                    && setting.at.len() == at.len()
                    && setting.at.iter().zip(&at).all(|(one, other)| (one - other).abs() < READ)
                    && setting.only.iter().zip(&only).all(|(one, other)| alike(*one, *other))
            });
            match same {
                Some(setting) => setting.parts.push(scored),
                None => settings.push(Setting { stock: part.stock, at, only, parts: vec![scored] }),
            }
        }
    }
    settings
}

/// Whether two scores run over the same part of their card.
fn alike(one: Option<[f64; 2]>, other: Option<[f64; 2]>) -> bool {
    match (one, other) {
        (Some(one), Some(other)) => one.iter().zip(&other).all(|(one, other)| (one - other).abs() < READ),
        (one, other) => one == other,
    }
}

/// The distances from the fence, over which part of the card each score runs, and whether the part is turned to be scored
/// there again.
fn distances(marks: &[&ScoreMark]) -> (Vec<f64>, Vec<Option<[f64; 2]>>, bool) {
    let all: Vec<f64> = marks.iter().map(|mark| mark.at).collect();
    let whole = marks.iter().all(|mark| mark.only.is_none());
    let mirrored = whole && marks.iter().all(|mark| all.iter().any(|at| (at - mark.back).abs() < READ));
    if !mirrored || marks.len() < 2 {
        return (all, marks.iter().map(|mark| mark.only).collect(), false);
    }
    // One in the very middle is scored with the first half.
    let half: Vec<f64> = marks.iter().filter(|mark| mark.at <= mark.back + READ).map(|mark| mark.at).collect();
    let only = vec![None; half.len()];
    (half, only, true)
}

/// Grooves of common boards: 1/8 and 1/16 in, and 5 mm (common practice, no source).
const GROOVES: [f64; 2] = [25.4 / 16.0, 5.0];

/// A score this near to a groove lies in it, mm: our choice, a third of what a bone folder's point takes.
const IN_GROOVE: f64 = 0.1;

/// Whether no common board has a groove at a distance from its fence.
#[must_use]
pub fn between_grooves(mm: f64) -> bool {
    GROOVES.iter().all(|groove| (mm - (mm / groove).round() * groove).abs() > IN_GROOVE)
}
