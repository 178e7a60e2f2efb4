// SPDX-License-Identifier: MIT
//! Labels in a part: where there is most room for words, and as large as they go in.

use super::{Fill, LABEL, Mark, Picture, words_box};
use crate::contour::{Contour, Point, Rect};
use crate::length::{Length, Ruler, Units};

/// Words smaller than this can't be read in print, mm.
const SMALLEST: f64 = 2.4;
/// Larger ones need not be, mm.
const LARGEST: f64 = 6.0;
/// Width of a letter over the em, a little more than the widest names have on average.
const LETTER: f64 = 0.62;

impl Picture {
    /// Sets lines of words into a box, across or upwards, as large as it takes; as many of them as go in.
    ///
    /// Says whether any does.
    pub(crate) fn label(&mut self, space: Rect, lines: &[String]) -> bool {
        for count in (1..=lines.len()).rev() {
            let lines = &lines[..count];
            let longest = lines.iter().map(|line| line.chars().count()).max().unwrap_or(0).max(1);
            #[allow(clippy::cast_precision_loss, reason = "a label has few letters")]
            let (letters, rows) = (longest as f64, count as f64);
            let fits = |along: f64, across: f64| {
                (along * 0.9 / (letters * LETTER)).min(across * 0.8 / (rows * 1.3)).min(LARGEST)
            };
            let (level, upright) = (fits(space.width(), space.height()), fits(space.height(), space.width()));
            let upwards = level < SMALLEST.max(upright * 0.8);
            let size = if upwards { upright } else { level };
            if size < SMALLEST {
                continue;
            }
            let middle = space.center();
            for (index, text) in lines.iter().enumerate() {
                #[allow(clippy::cast_precision_loss, reason = "a label has few lines")]
                let down = (index as f64 - (rows - 1.0) / 2.0) * size * 1.3;
                let at =
                    if upwards { Point::new(middle.x + down, middle.y) } else { Point::new(middle.x, middle.y - down) };
                self.marks.push(Mark::Words { at, size, text: text.clone(), upwards });
            }
            return true;
        }
        false
    }
}

impl Picture {
    /// Lays a light ground under the words from this mark on, where what they stand on is of many colours.
    pub(super) fn ground(&mut self, from: usize) {
        let space = |mark: &Mark| match mark {
            Mark::Words { at, size, text, upwards } => Some(words_box(*at, *size, text, *upwards).inflate(0.8, 0.5)),
            _ => None,
        };
        let boxes: Vec<Rect> = self.marks.iter().skip(from).filter_map(space).collect();
        if let Some(space) = boxes.into_iter().reduce(|all, one| all.union(one)) {
            let contours = vec![Contour::rectangle(space.x0, space.y0, space.width(), space.height())];
            self.marks.insert(from, Mark::Shape { contours, fill: Some(Fill::Flat(LABEL)), pen: None });
        }
    }
}

/// How well words go into a box: its shorter side counts most.
pub(crate) fn room(space: Rect) -> f64 {
    space.width().min(space.height() * 4.0) * space.height().min(space.width() * 4.0)
}

/// Outlines that fill less than this part of the box round them have words in a box inside them: others are boxes but for their
/// corners.
const FILLED: f64 = 0.75;
/// Lines each way between which that box is looked for.
const LINES: usize = 16;

/// The box in an outline that words are set into: the one round it where it fills that, else the roomiest one inside.
pub(crate) fn space_in(outline: &Contour) -> Rect {
    let round = outline.bounds();
    if outline.area().abs() >= FILLED * round.area() {
        return round;
    }
    #[allow(clippy::cast_precision_loss, reason = "there are few lines")]
    let part = |from: f64, size: f64, line: usize| from + size * (line as f64 + 0.5) / LINES as f64;
    let at = |x: usize, y: usize| Point::new(part(round.x0, round.width(), x), part(round.y0, round.height(), y));
    // By line and column, how many points in a row from here to the right lie inside.
    let mut run = [[0_usize; LINES + 1]; LINES];
    for (y, row) in run.iter_mut().enumerate() {
        for x in (0..LINES).rev() {
            row[x] = if outline.contains(at(x, y)) { row[x + 1] + 1 } else { 0 };
        }
    }
    let mut best = Rect::from_center_size(round.center(), (0.0, 0.0));
    for bottom in 0..LINES {
        for left in 0..LINES {
            let mut wide = LINES;
            for (top, row) in run.iter().enumerate().skip(bottom) {
                wide = wide.min(row[left]);
                if wide < 2 {
                    break;
                }
                let found = Rect::from_points(at(left, bottom), at(left + wide - 1, top));
                if room(found) > room(best) {
                    best = found;
                }
            }
        }
    }
    best
}

/// The part of a panel's box below or above a hole in it, whichever is larger.
pub(crate) fn clear_of(panel: Rect, holes: &[Contour], map: impl Fn(Point) -> Point) -> Rect {
    let mut space = panel;
    for hole in holes.iter().map(|hole| hole.mapped(&map).bounds()) {
        if space.intersect(hole).area() > 0.0 {
            let pieces = [
                Rect::new(space.x0, space.y0, space.x1, hole.y0),
                Rect::new(space.x0, hole.y1, space.x1, space.y1),
                Rect::new(space.x0, space.y0, hole.x0, space.y1),
                Rect::new(hole.x1, space.y0, space.x1, space.y1),
            ];
            space = pieces.into_iter().max_by(|one, two| room(*one).total_cmp(&room(*two))).unwrap_or(space);
        }
    }
    space
}

/// `90 × 130 mm`, or `3 1/2 in × 5 in` where fractions would run into each other.
pub(crate) fn measures(units: Units, width: f64, height: f64) -> String {
    let (width, height) = (Length::from_mm(width), Length::from_mm(height));
    let first = if units == Units::In { width.show(units, Ruler::SixtyFourth) } else { width.plain(units) };
    format!("{first} × {}", height.show(units, Ruler::SixtyFourth))
}
