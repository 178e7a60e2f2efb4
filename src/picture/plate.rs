// SPDX-License-Identifier: MIT
//! One drawing of several on a picture: marks in a frame of their own, and the room they take.

use super::mark::{Fill, INK, Mark, Pen, Picture};
use super::upward::is_free;
use super::words::{measure, words_box};
use crate::contour::{Contour, Point, Rect, Vec2};
use crate::length::tolerance::PARALLEL;

const THIN: Pen = Pen { width: 0.18, colour: INK, dash: &[] };

/// A drawing.
#[derive(Default)]
pub(super) struct Plate {
    marks: Vec<Mark>,
    bounds: Option<Rect>,
}

impl Plate {
    /// What the marks take up; a point at the origin where there is none.
    pub(super) fn bounds(&self) -> Rect {
        self.bounds.unwrap_or_default()
    }

    pub(super) fn width(&self) -> f64 {
        self.bounds().width()
    }

    pub(super) fn height(&self) -> f64 {
        self.bounds().height()
    }

    /// Keeps room.
    pub(super) fn keep(&mut self, room: Rect) {
        self.bounds = Some(self.bounds.map_or(room, |bounds| bounds.union(room)));
    }

    fn keep_points(&mut self, points: &[Point]) {
        for &point in points {
            self.keep(Rect::from_points(point, point));
        }
    }

    pub(super) fn line(&mut self, ends: [Point; 2], pen: Pen) {
        self.polyline(ends.to_vec(), pen);
    }

    pub(super) fn polyline(&mut self, points: Vec<Point>, pen: Pen) {
        self.keep_points(&points);
        self.marks.push(Mark::Line { points, pen });
    }

    /// A line below all that is drawn so far.
    pub(super) fn under(&mut self, ends: [Point; 2], pen: Pen) {
        self.line(ends, pen);
        self.marks.rotate_right(1);
    }

    pub(super) fn shape(&mut self, corners: &[Point], fill: Fill, pen: Option<Pen>) {
        self.keep_points(corners);
        let contour = Contour::new(corners.iter().map(|corner| (corner.x, corner.y, 0.0)));
        self.marks.push(Mark::Shape { contours: vec![contour], fill: Some(fill), pen });
    }

    /// Contours filled together.
    pub(super) fn contours(&mut self, contours: Vec<Contour>, fill: Option<Fill>, pen: Option<Pen>) {
        for contour in &contours {
            self.keep(contour.bounds());
        }
        self.marks.push(Mark::Shape { contours, fill, pen });
    }

    /// Whether a box is clear of these lines and holes, and of its words.
    pub(super) fn is_free(&self, around: Rect, lines: &[[Point; 2]], holes: &[Contour]) -> bool {
        is_free(around, lines, holes, &self.marks)
    }

    /// Words that take up no more than their letters.
    pub(super) fn label(&mut self, mark: Mark) {
        if let Mark::Words { at, size, text, upwards } = &mark {
            self.keep(words_box(*at, *size, text, *upwards));
        }
        self.marks.push(mark);
    }

    /// Words about a point.
    pub(super) fn words(&mut self, at: Point, size: f64, text: String) {
        let half = Vec2::new(measure(&text, size) / 2.0, size * 0.6);
        self.keep(Rect::from_points(at - half, at + half));
        self.marks.push(Mark::Words { at, size, text, upwards: false });
    }

    /// A heading and smaller lines under it, above all that is drawn so far.
    pub(super) fn title(&mut self, lines: &[String], size: f64, smaller: f64) {
        let bounds = self.bounds();
        let mut y = bounds.y1 + size;
        for (index, text) in lines.iter().enumerate().rev() {
            let size = if index == 0 { size } else { smaller };
            y += size * 0.6;
            self.words(Point::new(bounds.center().x, y), size, text.clone());
            y += size * 0.9;
        }
    }

    /// A line with a head at both ends; where there is no room between them, they point inward from outside.
    pub(super) fn dimension(&mut self, [from, to]: [Point; 2]) {
        let way = to - from;
        let length = way.hypot();
        let along = if length > PARALLEL { way / length } else { Vec2::new(1.0, 0.0) };
        let across = Vec2::new(-along.y, along.x) * 0.55;
        let (inside, head) = (length > 7.0, along * 1.8);
        let mut tip = |at: Point, head: Vec2| {
            let foot = at + head;
            self.shape(&[at, foot + across, foot - across], Fill::Flat(INK), None);
        };
        tip(from, if inside { head } else { -head });
        tip(to, if inside { -head } else { head });
        if inside {
            self.line([from, to], THIN);
        } else {
            self.line([from - along * 4.0, from], THIN);
            self.line([to, to + along * 4.0], THIN);
        }
    }

    /// Puts the drawing onto a picture, the middle of its lower edge at a point.
    pub(super) fn put(self, picture: &mut Picture, at: Point) {
        let bounds = self.bounds();
        let by = at - Point::new(bounds.center().x, bounds.y0);
        picture.marks.extend(self.marks.into_iter().map(|mark| mark.mapped(|point| point + by)));
    }
}
