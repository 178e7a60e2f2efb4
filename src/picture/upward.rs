// SPDX-License-Identifier: MIT
//! The arrow on parts of paper that has an up and a down: which way its up lies.

use super::label::space_in;
use super::words::words_box;
use super::{Fill, INK, Mark, Pen, Picture, Stuff};
use crate::contour::{Contour, Point, Rect, Vec2, within};

/// The longest that an arrow is, and the shortest that is read, mm: our choice.
const LONG: f64 = 9.0;
const SHORT: f64 = 3.5;
/// Air about it, mm.
const AIR: f64 = 2.0;

const SHAFT: Pen = Pen { width: 0.35, colour: INK, dash: &[] };

/// An arrow in a corner of an outline where nothing else is: no line, no word, no hole; none where there is no such corner, and where
/// the paper looks the same upside down, or shows its own picture.
pub(super) fn upward(stuff: &Stuff, outline: &Contour, free: &dyn Fn(Rect) -> bool) -> Vec<Mark> {
    let Some(way) = stuff.upward().filter(|_| !stuff.is_pictured()) else { return Vec::new() };
    let space = space_in(outline);
    let long = (space.width().min(space.height()) * 0.3).min(LONG);
    if long < SHORT {
        return Vec::new();
    }
    let inset = long / 2.0 + AIR;
    let (left, right, low, high) = (space.x0 + inset, space.x1 - inset, space.y0 + inset, space.y1 - inset);
    let corners = [(left, high), (right, high), (left, low), (right, low)].map(|(x, y)| Point::new(x, y));
    let clear = |at: &Point| {
        let around = Rect::from_center_size(*at, (long + AIR, long + AIR));
        let ends = [(around.x0, around.y0), (around.x1, around.y0), (around.x1, around.y1), (around.x0, around.y1)];
        ends.iter().all(|end| outline.contains((*end).into())) && free(around)
    };
    corners.into_iter().find(clear).map(|at| arrow(at, way * long)).unwrap_or_default()
}

/// An arrow about a point.
fn arrow(at: Point, way: Vec2) -> Vec<Mark> {
    let (foot, tip) = (at - way * 0.5, at + way * 0.5);
    let (neck, across) = (tip - way * 0.4, Vec2::new(-way.y, way.x) * 0.22);
    let head = [tip, neck + across, neck - across].map(|point| (point.x, point.y));
    vec![
        Mark::Line { points: vec![foot, neck], pen: SHAFT },
        Mark::Shape { contours: vec![Contour::polygon(head)], fill: Some(Fill::Flat(INK)), pen: None },
    ]
}

/// Whether a box is clear of these lines, of holes, and of words among these marks.
pub(super) fn is_free(around: Rect, lines: &[[Point; 2]], holes: &[Contour], marks: &[Mark]) -> bool {
    let of_words = |mark: &Mark| match mark {
        Mark::Words { at, size, text, upwards } => Some(words_box(*at, *size, text, *upwards)),
        _ => None,
    };
    let apart = |other: Rect| around.intersect(other).area() <= 0.0;
    lines.iter().all(|line| within(*line, around).is_none())
        && holes.iter().all(|hole| apart(hole.bounds()))
        && marks.iter().filter_map(of_words).all(apart)
}

impl Picture {
    /// Puts such an arrow on a part, of which these are the outline and the holes and these the lines; words from a mark on are kept
    /// clear of.
    pub(super) fn upward(&mut self, stuff: &Stuff, outlines: &[Contour], lines: &[[Point; 2]], from: usize) {
        let Some((outline, holes)) = outlines.split_first() else { return };
        let words: Vec<Mark> = self.marks.iter().skip(from).cloned().collect();
        self.marks.extend(upward(stuff, outline, &|around| is_free(around, lines, holes, &words)));
    }
}
