// SPDX-License-Identifier: MIT
//! A flat part with lines for some of its sizes, and room for their numbers, which the caller sets himself.
//!
//! ```text
//!             [148]  [45]        numbers of what goes across: above, in rows where they would touch
//!               |      |
//!            |--+---|--+-|
//!   [190]--+ +------+----+
//!          | |      ¦    |      numbers of what goes up: at the left, moved apart
//!          + +------+----+
//! ```

use super::part::SMALLEST_PART;
use super::{CUT, INK, Mark, Pen, Picture, Stuff};
use crate::contour::{Contour, Point, Rect};
use crate::length::tolerance::SAME;
use crate::net::Use;
use crate::parts::Part;

/// A size of a part: from where to where, mm from its lower left.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SizeLine {
    /// Whether it goes up; else across.
    pub upright: bool,
    /// Where it begins along itself.
    pub from: f64,
    /// Where it ends.
    pub to: f64,
}

/// What there is room for, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SizedRoom {
    /// The part itself, at most.
    pub part: (f64, f64),
    /// One number.
    pub number: (f64, f64),
}

const THIN: Pen = Pen { width: 0.18, colour: INK, dash: &[] };
/// From the part to the first line of sizes, and from one to the next, mm.
const OFF: f64 = 2.5;
/// Between numbers, and round all of it, mm.
const AIR: f64 = 1.0;
/// From the last line of sizes to the numbers, mm.
const LEAD: f64 = 2.5;
/// How far the ends stand out of a line, mm.
const TICK: f64 = 0.8;

/// Where the part lies on the picture, and which line each size stands on.
struct Sizes<'a> {
    spans: &'a [SizeLine],
    /// The numbers of those that go across, and up, each with the line that it stands on.
    across: Vec<(usize, usize)>,
    up: Vec<(usize, usize)>,
    number: (f64, f64),
    scale: f64,
    /// The part's box.
    on: Rect,
}

/// The part with its lines of sizes, and the middle of each number's room, x right and y down from the picture's upper left.
#[must_use]
pub fn sized(part: &Part, stuff: &Stuff, spans: &[SizeLine], room: SizedRoom) -> (Picture, Vec<Point>) {
    let (width, height) = part.size();
    let scale = (room.part.0 / width.max(1.0)).min(room.part.1 / height.max(1.0)).clamp(SMALLEST_PART, 1.0);
    let (across, up) = (levels(spans, false), levels(spans, true));
    let tall = (height * scale).max(small(up.len()) * (room.number.1 + AIR));
    let left = if up.is_empty() { AIR } else { room.number.0 + LEAD + deep(&up) };
    let low = AIR + (tall - height * scale) / 2.0;
    let on = Rect::new(left, low, left + width * scale, low + height * scale);
    let sizes = Sizes { spans, across, up, number: room.number, scale, on };
    let mut picture = Picture { width: 0.0, height: 0.0, marks: Vec::new() };
    picture.flat(part, stuff, &|x, y| Point::new(on.x0 + x * scale, on.y0 + y * scale));
    let mut middles = vec![Point::ZERO; spans.len()];
    sizes.above(&mut middles, left + room.part.0);
    sizes.beside(&mut middles, AIR + tall);
    sizes.lines(&middles, &mut picture);
    let half = (room.number.0 / 2.0, room.number.1 / 2.0);
    let widest = middles.iter().fold(on.x1, |most, middle| most.max(middle.x + half.0));
    let highest = middles.iter().fold(on.y1.max(AIR + tall), |most, middle| most.max(middle.y + half.1));
    (picture.width, picture.height) = (widest + AIR, highest + AIR);
    let down = middles.into_iter().map(|middle| Point::new(middle.x, picture.height - middle.y)).collect();
    (picture, down)
}

impl Sizes<'_> {
    /// Places along a size, from the part's lower left.
    fn place(&self, at: usize) -> [f64; 3] {
        let SizeLine { upright, from, to } = self.spans[at];
        let start = if upright { self.on.y0 } else { self.on.x0 };
        [from, f64::midpoint(from, to), to].map(|mm| start + mm * self.scale)
    }

    /// Those of a list by their middles.
    fn sorted(&self, list: &[(usize, usize)]) -> Vec<usize> {
        let mut sorted: Vec<usize> = list.iter().map(|(number, _)| *number).collect();
        sorted.sort_by(|one, two| self.place(*one)[1].total_cmp(&self.place(*two)[1]));
        sorted
    }

    /// Numbers of what goes across: rows above, each filled from the left.
    fn above(&self, middles: &mut [Point], right: f64) {
        let half = self.number.0 / 2.0;
        let base = self.on.y1 + deep(&self.across) + LEAD + self.number.1 / 2.0;
        let mut rows: Vec<f64> = Vec::new();
        for number in self.sorted(&self.across) {
            let x = self.place(number)[1].min(right - half).max(half);
            let row = rows.iter().position(|end| x - half >= end + AIR).unwrap_or(rows.len());
            if row == rows.len() {
                rows.push(0.0);
            }
            rows[row] = x + half;
            middles[number] = Point::new(x, base + small(row) * (self.number.1 + AIR));
        }
    }

    /// Numbers of what goes up: one column, moved apart from below.
    fn beside(&self, middles: &mut [Point], top: f64) {
        let (half, step) = (self.number.1 / 2.0, self.number.1 + AIR);
        let sorted = self.sorted(&self.up);
        let mut free = AIR + half;
        for (rank, number) in sorted.iter().enumerate() {
            let most = top - half - small(sorted.len() - 1 - rank) * step;
            let y = self.place(*number)[1].min(most).max(free);
            free = y + step;
            middles[*number] = Point::new(self.number.0 / 2.0, y);
        }
    }

    /// The lines of sizes, what they measure from, and what leads to their numbers.
    fn lines(&self, middles: &[Point], picture: &mut Picture) {
        let half = (self.number.0 / 2.0, self.number.1 / 2.0);
        for &(number, level) in self.across.iter().chain(&self.up) {
            let (off, to) = (OFF * small(level + 1), middles[number]);
            let upright = self.spans[number].upright;
            let [from, middle, end] = self.place(number);
            // Along the size, and away from the part.
            let at = |along: f64, away: f64| {
                if upright { Point::new(self.on.x0 - away, along) } else { Point::new(along, self.on.y1 + away) }
            };
            let foot = if upright { Point::new(to.x + half.0, to.y) } else { Point::new(to.x, to.y - half.1) };
            let lines = [
                [at(from, off), at(end, off)],
                [at(middle, off), foot],
                [at(from, off + TICK), at(from, 0.0)],
                [at(end, off + TICK), at(end, 0.0)],
            ];
            picture.marks.extend(lines.map(|ends| Mark::Line { points: ends.to_vec(), pen: THIN }));
        }
    }
}

impl Picture {
    /// A flat part: its faces, seams, scores and outline.
    fn flat(&mut self, part: &Part, stuff: &Stuff, at: &dyn Fn(f64, f64) -> Point) {
        let map = |point: Point| at(point.x, point.y);
        // The net lies where it was made, the flat part has its lower left at the origin.
        let corner = part.net.panels.iter().map(|panel| panel.outline.bounds()).reduce(|all, one| all.union(one));
        let corner = corner.map_or(Point::ZERO, |bounds| Point::new(bounds.x0, bounds.y0));
        let of_net = |point: Point| at(point.x - corner.x, point.y - corner.y);
        let outlines: Vec<Contour> =
            std::iter::once(&part.flat.outline).chain(&part.flat.holes).map(|contour| contour.mapped(map)).collect();
        self.marks.push(Mark::Shape { contours: outlines.clone(), fill: Some(stuff.flat().mapped(map)), pen: None });
        for panel in part.net.panels.iter().filter(|panel| panel.purpose == Use::Seam) {
            let contours = vec![panel.outline.mapped(of_net)];
            self.marks.push(Mark::Shape { contours, fill: Some(stuff.glued()), pen: None });
        }
        for score in &part.flat.scores {
            self.marks.push(Mark::Line { points: vec![map(score.from), map(score.to)], pen: Pen::fold(score.sense) });
        }
        for mark in &part.flat.marks {
            self.marks.push(Mark::Line { points: mark.iter().copied().map(map).collect(), pen: Pen::MARK });
        }
        self.marks.push(Mark::Shape { contours: outlines.clone(), fill: None, pen: Some(CUT) });
        let scores = part.flat.scores.iter().map(|score| [map(score.from), map(score.to)]);
        let lines: Vec<[Point; 2]> = scores.chain(part.flat.marks.iter().map(|mark| mark.map(map))).collect();
        self.upward(stuff, &outlines, &lines, self.marks.len());
    }
}

#[allow(clippy::cast_precision_loss, reason = "a part has few sizes")]
const fn small(count: usize) -> f64 {
    count as f64
}

/// How far the lines of these reach from the part.
fn deep(list: &[(usize, usize)]) -> f64 {
    list.iter().map(|(_, level)| level + 1).max().map_or(0.0, |lines| OFF * small(lines))
}

/// The sizes of one way, each with the first line on which it meets no other.
fn levels(spans: &[SizeLine], upright: bool) -> Vec<(usize, usize)> {
    let mut lines: Vec<Vec<SizeLine>> = Vec::new();
    let mut levels = Vec::new();
    for (number, span) in spans.iter().enumerate().filter(|(_, span)| span.upright == upright) {
        let clear = |line: &Vec<SizeLine>| {
            line.iter().all(|other| span.from >= other.to - SAME || span.to <= other.from + SAME)
        };
        let level = lines.iter().position(clear).unwrap_or(lines.len());
        if level == lines.len() {
            lines.push(Vec::new());
        }
        lines[level].push(*span);
        levels.push((number, level));
    }
    levels
}
