// SPDX-License-Identifier: MIT
//! Parts and tiles as they are printed: what is cut, what is scored, what is glued, and what they are called.

use super::clip::within;
use super::tiles::{OVERLAP, Tiles};
use crate::album::Album;
use crate::contour::{Contour, Point, Rect, Vec2, turned};
use crate::guide::Words;
use crate::guide::list::Row;
use crate::net::Use;
use crate::parts::Part;
use crate::picture;
use crate::picture::{CUT, FAINT, Fill, GLUE_LINE, INK, Mark, Pen, Picture, Tint, clear_of, room, words_box};

/// Seams are hatched on white, so that they cost little ink.
pub(super) const GLUED: Fill = Fill::Hatched { ground: Tint([255; 3]), line: GLUE_LINE, apart: 20, turn: 45 };
const WHITE: Fill = Fill::Flat(Tint([255; 3]));
/// The line on which two tiles meet.
const JOINT: Pen = Pen { width: 0.2, colour: INK, dash: &[0.4, 0.8] };
/// Where a tile ends.
const END: Pen = Pen { width: 0.1, colour: FAINT, dash: &[1.5, 1.5] };
const THIN: Pen = Pen { width: 0.18, colour: INK, dash: &[] };
/// Em of tiles' names, mm.
const NAMES: f64 = 3.2;
/// Room for a letter beside a part that has none for it, mm.
pub(super) const BESIDE: f64 = 6.0;
/// Longest side of a plan of tiles, mm; and the height of its heading.
const PLAN: f64 = 42.0;
pub(super) const HEADING: f64 = 6.0;

/// A part of the list, with its letter.
#[derive(Clone, Copy)]
pub(super) struct LetteredPart<'a> {
    pub album: &'a Album,
    pub words: &'a Words,
    pub part: &'a Part,
    pub row: &'a Row,
}

/// Where something lies on a page: the quarter turns and size of its box, and the box's lower left after them.
#[derive(Clone, Copy)]
pub(super) struct BoxPlace {
    pub quarters: u8,
    pub size: (f64, f64),
    pub at: Point,
}

impl BoxPlace {
    fn map(self, point: Point) -> Point {
        turned(point, self.quarters, self.size) + self.at.to_vec2()
    }

    /// Whether width and height change places.
    const fn turned(self) -> bool {
        self.quarters % 2 == 1
    }

    /// What a way on the page is in the box's own frame.
    fn back(self, way: Vec2) -> Vec2 {
        match self.quarters % 4 {
            0 => way,
            1 => Vec2::new(way.y, -way.x),
            2 => -way,
            _ => Vec2::new(-way.y, way.x),
        }
    }
}

impl LetteredPart<'_> {
    pub(super) fn size(&self) -> (f64, f64) {
        (self.part.flat.width, self.part.flat.height)
    }

    /// `148 × 190 mm`.
    pub(super) fn measures(&self) -> String {
        let (width, height) = self.size();
        self.words.notation().write(&picture::measures(self.album.units, width, height))
    }

    /// Its letter, what it is, its size, how many a kit has.
    fn lines(&self) -> [String; 4] {
        let name = self.part.used_in.first().map_or_else(|| self.part.id.clone(), |name| self.words.name(name));
        let name = if self.part.used_in.len() > 1 { format!("{name} …") } else { name };
        let count = self.words.with("template-count", [("count", self.part.count.to_string())]);
        [self.row.mark.clone(), name, self.measures(), count]
    }

    /// What of it is drawn, in its own frame.
    fn marks(&self) -> Vec<Mark> {
        let part = self.part;
        let seams = part.net.panels.iter().filter(|panel| panel.purpose == Use::Seam);
        let seam = |outline: &Contour| Mark::Shape { contours: vec![outline.clone()], fill: Some(GLUED), pen: None };
        let mut marks: Vec<Mark> = seams.map(|panel| seam(&panel.outline)).collect();
        marks.extend(part.flat.scores.iter().map(|score| {
            let pen = Pen { width: 0.25, ..Pen::fold(score.sense) };
            Mark::Line { points: vec![score.from, score.to], pen }
        }));
        marks.extend(part.flat.marks.iter().map(|mark| Mark::Line { points: mark.to_vec(), pen: Pen::MARK }));
        let contours = std::iter::once(&part.flat.outline).chain(&part.flat.holes).cloned().collect();
        marks.push(Mark::Shape { contours, fill: None, pen: Some(CUT) });
        marks
    }

    /// Labels it where it has most room; says whether as much as its letter goes in.
    fn label(&self, picture: &mut Picture, map: &dyn Fn(Point) -> Point) -> bool {
        let boxes = self.part.net.panels.iter().map(|panel| panel.outline.mapped(map).bounds());
        let roomiest = boxes.max_by(|one, two| room(*one).total_cmp(&room(*two)));
        let space = roomiest.map(|panel| clear_of(panel, &self.part.flat.holes, map));
        space.is_some_and(|space| picture.label(space, &self.lines()))
    }

    /// Whether its letter has to stand beside it.
    pub(super) fn beside(&self) -> bool {
        let mut trial = Picture { width: 0.0, height: 0.0, marks: Vec::new() };
        !self.label(&mut trial, &|point| point)
    }

    /// The whole part. A letter that has no room in it stands above it.
    pub(super) fn whole(&self, picture: &mut Picture, lies: BoxPlace) {
        picture.marks.extend(self.marks().into_iter().map(|mark| mark.mapped(|point| lies.map(point))));
        if !self.label(picture, &|point| lies.map(point)) {
            let (width, height) = self.size();
            let at = lies.map(Point::new(width / 2.0, height + BESIDE / 2.0));
            picture.marks.push(Mark::Words { at, size: NAMES, text: self.row.mark.clone(), upwards: false });
        }
    }

    /// One tile of it: what of the part lies in it, the lines on which it meets its neighbours with their names beyond.
    pub(super) fn tile(&self, picture: &mut Picture, tiles: &Tiles, [column, row]: [usize; 2], lies: BoxPlace) {
        let ([x0, x1], [y0, y1]) = (tiles.columns[column], tiles.rows[row]);
        let mut marks = within(self.marks(), Rect::new(x0, y0, x1, y1));
        let name = |column: usize, row: usize| format!("{} {}", self.row.mark, tiles.number(column, row));
        let middle = Point::new(f64::midpoint(x0, x1), f64::midpoint(y0, y1));
        let mut joint = |at: f64, end: f64, upright: bool, other: String| {
            let place = |along: f64, out: f64| if upright { Point::new(out, along) } else { Point::new(along, out) };
            let (low, high) = if upright { (y0, y1) } else { (x0, x1) };
            marks.push(Mark::Line { points: vec![place(low, at), place(high, at)], pen: JOINT });
            marks.push(Mark::Line { points: vec![place(low, end), place(high, end)], pen: END });
            for share in [0.25, 0.75] {
                let spot = place((high - low).mul_add(share, low), at);
                // On a narrow tile it is smaller, so that it keeps off the margin.
                ring(&mut marks, spot, RING.min((high - low) / 4.0));
            }
            let at = place(f64::midpoint(low, high), f64::midpoint(at, end));
            label(&mut marks, at, NAMES, other, (upright != lies.turned(), lies));
        };
        if column > 0 {
            joint(x0 + OVERLAP / 2.0, x0, true, name(column - 1, row));
        }
        if column + 1 < tiles.columns.len() {
            joint(x1 - OVERLAP / 2.0, x1, true, name(column + 1, row));
        }
        if row > 0 {
            joint(y0 + OVERLAP / 2.0, y0, false, name(column, row - 1));
        }
        if row + 1 < tiles.rows.len() {
            joint(y1 - OVERLAP / 2.0, y1, false, name(column, row + 1));
        }
        let [_, what, size, _] = self.lines();
        let narrow = (x1 - x0).min(y1 - y0);
        let upwards = (y1 - y0 > x1 - x0) != lies.turned();
        let lines = [(name(column, row), 6.0), (what, NAMES), (size, NAMES)];
        let kept = if narrow < 50.0 { 1 } else { 3 };
        let next = lies.back(if upwards { Vec2::new(6.0, 0.0) } else { Vec2::new(0.0, -6.0) });
        for (index, (text, size)) in (0_i32..).zip(lines.into_iter().take(kept)) {
            label(&mut marks, middle + next * f64::from(index), size, text, (upwards, lies));
        }
        let shift = Vec2::new(x0, y0);
        picture.marks.extend(marks.into_iter().map(|mark| mark.mapped(|point| lies.map(point - shift))));
    }

    /// By how much a plan of its tiles is smaller than the part.
    fn plan_scale(&self) -> f64 {
        let (width, height) = self.size();
        PLAN / width.max(height)
    }

    /// The size of a plan of its tiles, heading included.
    pub(super) fn plan_size(&self, tiles: &Tiles) -> (f64, f64) {
        let ((width, height), scale) = (self.size(), self.plan_scale());
        let heading = words_box(Point::ZERO, NAMES, &self.heading(tiles), false).width();
        ((width * scale).max(heading), height.mul_add(scale, HEADING))
    }

    fn heading(&self, tiles: &Tiles) -> String {
        let places = [("part", self.row.mark.clone()), ("tiles", tiles.count().to_string())];
        self.words.with("template-plan", places)
    }

    /// How its tiles lie, small. It is never turned.
    pub(super) fn plan(&self, picture: &mut Picture, tiles: &Tiles, at: Point) {
        let ((width, height), scale) = (self.size(), self.plan_scale());
        let wide = self.plan_size(tiles).0;
        let corner = Point::new(at.x + (wide - width * scale) / 2.0, at.y);
        let place = |x: f64, y: f64| corner + Vec2::new(x, y) * scale;
        let outline = self.part.flat.outline.mapped(|point| place(point.x, point.y));
        picture.marks.push(Mark::Shape { contours: vec![outline], fill: None, pen: Some(THIN) });
        for pair in tiles.columns.windows(2) {
            let x = pair[0][1] - OVERLAP / 2.0;
            picture.marks.push(Mark::Line { points: vec![place(x, 0.0), place(x, height)], pen: JOINT });
        }
        for pair in tiles.rows.windows(2) {
            let y = pair[0][1] - OVERLAP / 2.0;
            picture.marks.push(Mark::Line { points: vec![place(0.0, y), place(width, y)], pen: JOINT });
        }
        for (column, row, space) in tiles.each() {
            let at = place(space.center().x, space.center().y);
            let text = tiles.number(column, row).to_string();
            // On the plan of a narrow tile its number is smaller.
            let takes = words_box(at, NAMES, &text, false);
            let fits = (space.width() * scale / takes.width()).min(space.height() * scale / takes.height());
            picture.marks.push(Mark::Words { at, size: NAMES * fits.min(1.0), text, upwards: false });
        }
        let at = Point::new(at.x + wide / 2.0, height.mul_add(scale, at.y) + HEADING / 2.0);
        picture.marks.push(Mark::Words { at, size: NAMES, text: self.heading(tiles), upwards: false });
    }
}

/// How far the cross of a ring reaches, mm.
const RING: f64 = 2.5;

/// A ring with a cross in it that reaches so far: laid on each other, two of them are one.
fn ring(marks: &mut Vec<Mark>, at: Point, reach: f64) {
    marks.push(Mark::Shape { contours: vec![Contour::circle(at, 0.6 * reach)], fill: Some(WHITE), pen: Some(THIN) });
    for arm in [Vec2::new(reach, 0.0), Vec2::new(0.0, reach)] {
        marks.push(Mark::Line { points: vec![at - arm, at + arm], pen: THIN });
    }
}

/// Words on white, in the frame of what lies so: level or upwards as they are read on the page.
fn label(marks: &mut Vec<Mark>, at: Point, size: f64, text: String, (upwards, lies): (bool, BoxPlace)) {
    let space = words_box(at, size, &text, upwards != lies.turned()).inflate(0.6, 0.4);
    let ground = Contour::rectangle(space.x0, space.y0, space.width(), space.height());
    marks.push(Mark::Shape { contours: vec![ground], fill: Some(WHITE), pen: None });
    marks.push(Mark::Words { at, size, text, upwards });
}
