// SPDX-License-Identifier: MIT
//! A picture in the making: marks, the room they take, words that keep off each other.
//!
//! In: shapes, lines, words in millimetres. Out: a [`Picture`] that fits tightly. Never: knows what is drawn.

use crate::contour::{Contour, Point, Rect, Vec2};
use crate::length::tolerance::SAME;
use crate::picture::{CARD_BACK, FAINT, Fill, GLUE_LINE, INK, Mark, Pen, Picture, Tint, measure, words_box};

/// Em of words and numbers, mm: figures are 2.5 mm tall, so that they read in print.
pub(super) const WORDS: f64 = 3.4;

/// Em of a part's letter, mm.
pub(super) const LETTER: f64 = 5.0;

/// White round a picture, mm.
const EDGE: f64 = 1.5;

/// Dimension and extension lines.
pub(super) const THIN: Pen = Pen { width: 0.18, colour: INK, dash: &[] };

/// Edges that lie behind something.
pub(super) const HIDDEN: Pen = Pen { width: 0.25, colour: FAINT, dash: &[0.6, 0.9] };

/// What takes glue; with an outline, tape.
pub(super) const GLUE: Fill = Fill::Hatched { ground: CARD_BACK, line: GLUE_LINE, apart: 15, turn: 45 };

/// The way something goes.
const WAY: Pen = Pen { width: 0.5, colour: Tint([0x00, 0x72, 0xB2]), dash: &[] };

/// Marks and the room they take.
#[derive(Default)]
pub(super) struct Draw {
    marks: Vec<Mark>,
    bounds: Option<Rect>,
}

impl Draw {
    fn keep(&mut self, room: Rect) {
        self.bounds = Some(self.bounds.map_or(room, |bounds| bounds.union(room)));
    }

    pub(super) fn contours(&mut self, contours: Vec<Contour>, fill: Option<Fill>, pen: Option<Pen>) {
        for contour in &contours {
            self.keep(contour.bounds());
        }
        self.marks.push(Mark::Shape { contours, fill, pen });
    }

    pub(super) fn rectangle(&mut self, rect: Rect, fill: Option<Fill>, pen: Option<Pen>) {
        self.contours(vec![Contour::rectangle(rect.x0, rect.y0, rect.width(), rect.height())], fill, pen);
    }

    pub(super) fn line(&mut self, from: Point, to: Point, pen: Pen) {
        self.keep(Rect::from_points(from, to));
        self.marks.push(Mark::Line { points: vec![from, to], pen });
    }

    /// Words about a point.
    pub(super) fn words(&mut self, at: Point, size: f64, text: impl Into<String>, upwards: bool) {
        let text = text.into();
        self.keep(words_box(at, size, &text, upwards));
        self.marks.push(Mark::Words { at, size, text, upwards });
    }

    /// Words inside a box, level or upwards, where they fit; false where they do not.
    pub(super) fn words_in(&mut self, space: Rect, size: f64, text: &str) -> bool {
        let (along, across) = (measure(text, size) + 1.4, size * 0.9 + 1.0);
        let level = along <= space.width() && across <= space.height();
        let upright = along <= space.height() && across <= space.width();
        if level || upright {
            self.words(space.center(), size, text, !level);
        }
        level || upright
    }

    /// A running dimension from `zero` to the right: a ring at nought, an arrow at the place, the number left of the ring.
    pub(super) fn running(&mut self, zero: Point, to: f64, text: &str) {
        let tip = Point::new(to, zero.y);
        let half = Vec2::new(0.0, 0.45);
        let back = Vec2::new((to - zero.x).min(1.5), 0.0);
        self.line(Point::new(zero.x, zero.y), tip, THIN);
        let head = [tip, tip - back + half, tip - back - half].map(|point| (point.x, point.y));
        self.contours(vec![Contour::polygon(head)], Some(Fill::Flat(INK)), None);
        let wide = measure(text, WORDS);
        self.words(Point::new(zero.x - 1.6 - wide / 2.0, zero.y), WORDS, text, false);
    }

    /// A straight arrow: the way a piece goes.
    pub(super) fn way(&mut self, from: Point, to: Point) {
        let way = to - from;
        if way.hypot() < SAME {
            return;
        }
        let along = way.normalize();
        let (foot, across) = (to - along * 3.2, Vec2::new(-along.y, along.x) * 1.3);
        self.line(from, foot, WAY);
        let head = [to, foot + across, foot - across].map(|point| (point.x, point.y));
        self.contours(vec![Contour::polygon(head)], Some(Fill::Flat(WAY.colour)), None);
    }

    /// The room taken so far.
    pub(super) fn bounds(&self) -> Rect {
        self.bounds.unwrap_or_default()
    }

    /// The picture, its box tight about the marks.
    pub(super) fn picture(self) -> Picture {
        let bounds = self.bounds().inflate(EDGE, EDGE);
        let (width, height) = (bounds.width(), bounds.height());
        let mut picture = Picture { width, height, marks: Vec::new() };
        let marks = Picture { width, height, marks: self.marks };
        picture.put(marks, Point::new(-bounds.x0, -bounds.y0));
        picture
    }
}
