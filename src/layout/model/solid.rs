// SPDX-License-Identifier: MIT
//! Solid: what a part takes of its box, where holes and notched corners leave something of it.
//!
//! In: an item with its true outline and holes. Out: rectangles in its box that together hold all of it, the tool's way round it
//! included. Never: leaves out a spot of the part; slants and arcs are held in steps, so a little more than the part is taken.
//!
//! ```text
//!    +-------------+     cut into levels at every corner and end of an arc, and in steps on slants and arcs; on each level
//!    |#############|     the part takes what its edges take there and what lies between them halfway up
//!    |###+-----+###|
//!    |###|     |###|     What no edge enters on a level is inside all the way up or outside all the way up, so nothing of
//!    |###+-----+###|     the part is passed by, wherever the levels are.
//!    |#############|
//!    +-------------+
//! ```

use crate::contour::{Contour, Edge, Point};
use crate::layout::model::instance::trim;
use crate::layout::model::problem::Item;
use crate::layout::model::rect::Rect;
use crate::layout::numbers::{EIGHTHS_PER_MM, nearest};

/// A part is cut into no more levels than this: our choice.
const MOST_LEVELS: usize = 64;
/// A slant or an arc is held in steps of this width, mm, as long as there are few: our choice.
const STEP: f64 = 1.5;
/// Heights nearer than this are one, mm: far more than the outline's own rounding, far less than an eighth of a micrometre.
const ONE: f64 = 1e-6;
/// Noise that must not cost an eighth of a micrometre, in eighths of one.
const NOISE: f64 = 0.02;

/// An edge that runs up or down all the way, and to one side all the way.
#[derive(Clone, Copy)]
struct Run {
    from: Point,
    to: Point,
    /// Centre and radius of an arc, and the side of the centre that it is on.
    arc: Option<(Point, f64, f64)>,
}

impl Run {
    /// The runs of an edge: arcs are parted where they turn round.
    fn all_of(edge: Edge) -> Vec<Self> {
        if edge.is_line() {
            return vec![Self { from: edge.from, to: edge.to, arc: None }];
        }
        let (centre, radius) = (edge.centre(), edge.radius());
        let start = (edge.from - centre).atan2();
        let quarter = std::f64::consts::FRAC_PI_2;
        let (low, high) = (start.min(start + edge.angle()), start.max(start + edge.angle()));
        let mut ends = vec![(low, if edge.bulge > 0.0 { edge.from } else { edge.to })];
        for turn in -6..=6 {
            let angle = quarter * f64::from(turn);
            if angle > low + ONE && angle < high - ONE {
                let way =
                    [(1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0)][usize::try_from(turn + 8).unwrap_or(0) % 4];
                ends.push((angle, Point::new(radius.mul_add(way.0, centre.x), radius.mul_add(way.1, centre.y))));
            }
        }
        ends.push((high, if edge.bulge > 0.0 { edge.to } else { edge.from }));
        let run = |pair: &[(f64, Point)]| {
            let side = f64::midpoint(pair[0].0, pair[1].0).cos().signum();
            Self { from: pair[0].1, to: pair[1].1, arc: Some((centre, radius, side)) }
        };
        ends.windows(2).map(run).collect()
    }

    fn low(&self) -> f64 {
        self.from.y.min(self.to.y)
    }

    fn high(&self) -> f64 {
        self.from.y.max(self.to.y)
    }

    /// Where it is at a height that it reaches.
    fn at(&self, y: f64) -> f64 {
        let (left, right) = (self.from.x.min(self.to.x), self.from.x.max(self.to.x));
        let x = match self.arc {
            Some((centre, radius, side)) => {
                side.mul_add((radius * radius - (y - centre.y).powi(2)).max(0.0).sqrt(), centre.x)
            }
            None if self.high() - self.low() < ONE => self.from.x,
            None => self.from.x + (self.to.x - self.from.x) * ((y - self.from.y) / (self.to.y - self.from.y)),
        };
        x.clamp(left, right)
    }

    /// What it takes between two heights; nothing where it only touches them.
    fn between(&self, low: f64, high: f64) -> Option<(f64, f64)> {
        let (from, to) = (low.max(self.low()), high.min(self.high()));
        if to - from < ONE {
            return None;
        }
        let (one, other) = (self.at(from), self.at(to));
        Some((one.min(other), one.max(other)))
    }

    /// The heights at which its steps end.
    fn steps(&self) -> Vec<f64> {
        #[allow(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a float-to-integer cast saturates, and what it makes is capped"
        )]
        let count = ((self.to.x - self.from.x).abs() / STEP).ceil().clamp(0.0, 16.0) as u32;
        let Some((centre, radius, _)) = self.arc else {
            let step = (self.to.y - self.from.y) / f64::from(count.max(1));
            return (1..count).map(|number| step.mul_add(f64::from(number), self.from.y)).collect();
        };
        // Equal angles are the fairest steps of an arc.
        let count = count.max(if self.high() - self.low() > STEP { 4 } else { 0 });
        let angle = |point: Point| ((point.y - centre.y) / radius).clamp(-1.0, 1.0).asin();
        let (start, end) = (angle(self.from), angle(self.to));
        let step = (end - start) / f64::from(count.max(1));
        (1..count).map(|number| radius.mul_add(step.mul_add(f64::from(number), start).sin(), centre.y)).collect()
    }
}

/// The rectangles that hold an item as it is drawn, in its box; none where nothing is known but the box.
pub(crate) fn solid(item: &Item) -> Option<Vec<Rect>> {
    let outline = item.contour.as_ref().filter(|outline| !item.holes.is_empty() || !outline.is_box())?;
    let runs: Vec<Run> =
        std::iter::once(outline).chain(&item.holes).flat_map(Contour::edges).flat_map(Run::all_of).collect();
    let levels = levels(&runs);
    let bounds = outline.bounds();
    let (width, height) = (trim(item.width, 1), trim(item.height, 1));
    // What the box is larger than the outline is the tool's way round it.
    let way = [width - nearest(bounds.width() * EIGHTHS_PER_MM), height - nearest(bounds.height() * EIGHTHS_PER_MM)];
    let down = |mm: f64| nearest((mm * EIGHTHS_PER_MM + NOISE).floor());
    let up = |mm: f64| nearest((mm * EIGHTHS_PER_MM - NOISE).ceil());
    let mut solid: Vec<Rect> = Vec::new();
    let mut below: Vec<Rect> = Vec::new();
    for level in levels.windows(2) {
        let (bottom, top) = (down(level[0] - bounds.y0).max(0), (up(level[1] - bounds.y0) + way[1].max(0)).min(height));
        let rect = |(from, to): (f64, f64)| Rect {
            left: down(from - bounds.x0).max(0),
            right: (up(to - bounds.x0) + way[0].max(0)).min(width),
            bottom,
            top,
        };
        let here: Vec<Rect> = taken(&runs, level[0], level[1]).into_iter().map(rect).collect();
        let alike = here.len() == below.len()
            && here.iter().zip(&below).all(|(one, under)| (one.left, one.right) == (under.left, under.right));
        if alike {
            for under in &mut below {
                under.top = top;
            }
        } else {
            solid.append(&mut below);
            below = here;
        }
    }
    solid.append(&mut below);
    Some(solid)
}

/// Heights between which a part is held as one level, from its foot to its head.
fn levels(runs: &[Run]) -> Vec<f64> {
    let sorted = |mut heights: Vec<f64>| {
        heights.sort_by(f64::total_cmp);
        heights.dedup_by(|one, other| (*one - *other).abs() < ONE);
        heights
    };
    let ends: Vec<f64> = runs.iter().flat_map(|run| [run.from.y, run.to.y]).filter(|y| y.is_finite()).collect();
    let all = sorted(ends.iter().copied().chain(runs.iter().flat_map(Run::steps)).collect());
    let mut levels = if all.len() > MOST_LEVELS { sorted(ends) } else { all };
    if levels.len() > MOST_LEVELS {
        let step = levels.len().div_ceil(MOST_LEVELS);
        let last = levels.len() - 1;
        levels =
            levels.into_iter().enumerate().filter(|(at, _)| at % step == 0 || *at == last).map(|at| at.1).collect();
    }
    levels
}

/// What a part takes across between two heights, from left to right.
fn taken(runs: &[Run], low: f64, high: f64) -> Vec<(f64, f64)> {
    let mut spans: Vec<(f64, f64)> = runs.iter().filter_map(|run| run.between(low, high)).collect();
    let middle = f64::midpoint(low, high);
    let crosses = |run: &&Run| (run.from.y > middle) != (run.to.y > middle);
    let mut crossings: Vec<f64> = runs.iter().filter(crosses).map(|run| run.at(middle)).collect();
    crossings.sort_by(f64::total_cmp);
    spans.extend(crossings.chunks_exact(2).map(|pair| (pair[0], pair[1])));
    spans.sort_by(|one, other| one.0.total_cmp(&other.0));
    let mut joined: Vec<(f64, f64)> = Vec::new();
    for span in spans {
        match joined.last_mut() {
            Some(last) if span.0 <= last.1 + ONE => last.1 = last.1.max(span.1),
            _ => joined.push(span),
        }
    }
    joined
}
