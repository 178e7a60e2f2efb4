// SPDX-License-Identifier: MIT
//! A laid sheet: its parts in card colour with their names and sizes, what is left of it outlined.

use super::{CARD, CARD_BACK, CUT, FAINT, Fill, GLUE_LINE, INK, Mark, PAPER, PAPER_LINE, Pen, Picture};
use crate::album::Album;
use crate::contour::{Contour, Point, Rect, turned};
use crate::length::tolerance::SAME;
use crate::length::{Length, Ruler, Units};
use crate::net::Use;
use crate::parts::{Kit, Part};
use crate::sheets::{Placed, Sheet};
use crate::stock::{Pattern, Stock};

/// Words smaller than this can't be read in print, mm.
const SMALLEST: f64 = 2.4;
/// Larger ones need not be, mm.
const LARGEST: f64 = 6.0;
/// Width of a letter over the em, a little more than the widest names have on average.
const LETTER: f64 = 0.62;

const OFFCUT: Pen = Pen { width: 0.25, colour: FAINT, dash: &[0.5, 1.0] };

/// The picture of a sheet of stock number `stock`, edge to edge. `letter` gives what stands for a part in words; it stands
/// above the part's own name; empty where there is none.
#[must_use]
pub fn sheet(album: &Album, kit: &Kit, stock: usize, sheet: &Sheet, letter: &dyn Fn(usize) -> String) -> Picture {
    let mut picture = Picture { width: sheet.width, height: sheet.height, marks: Vec::new() };
    let Some(stock) = album.stocks.get(stock) else { return picture };
    // The sheet's own edge, half of the line inside, below everything that is cut on it.
    let edge = Contour::rectangle(0.0, 0.0, sheet.width, sheet.height);
    picture.marks.push(Mark::Shape {
        contours: vec![edge],
        fill: None,
        pen: Some(Pen { width: 0.7, colour: FAINT, dash: &[] }),
    });
    for (index, &[x, y, width, height]) in sheet.offcuts.iter().enumerate() {
        let outline = Contour::rectangle(x, y, width, height);
        picture.marks.push(Mark::Shape { contours: vec![outline], fill: None, pen: Some(OFFCUT) });
        // What is left over is measured down to what a ruler shows.
        let step = if album.units == Units::In { 25.4 / 16.0 } else { 1.0 };
        let down = |mm: f64| (mm / step + SAME).floor() * step;
        let mut lines = vec!["offcut".into(), measures(album, down(width), down(height))];
        let mut space = Rect::new(x, y, x + width, y + height);
        if index == 0 {
            // The largest piece left over has room for what the sheet is.
            let times = if sheet.times == 1 { "once".into() } else { format!("{} times", sheet.times) };
            lines.splice(0..0, [format!("{}: cut {times}", sheet.name), String::new()]);
        }
        if index == 0 && grain_upright(stock, sheet).is_some() {
            // The grain's arrow stands at the right edge, or lies at the lower one.
            space = if grain_upright(stock, sheet) == Some(true) {
                Rect { x1: space.x1 - 9.0, ..space }
            } else {
                Rect { y0: space.y0 + 9.0, ..space }
            };
        }
        picture.label(space, &lines);
    }
    for placed in &sheet.placements {
        if let Some(part) = kit.parts.get(placed.part) {
            picture.part(album, stock, part, placed, letter(placed.part));
        }
    }
    picture.grain(stock, sheet);
    picture
}

impl Picture {
    fn part(&mut self, album: &Album, stock: &Stock, part: &Part, placed: &Placed, letter: String) {
        let size = (part.flat.width, part.flat.height);
        let map = |point: Point| {
            let point = turned(point, placed.quarters, size);
            Point::new(point.x + placed.x, point.y + placed.y)
        };
        let (fill, glued) = match stock.pattern {
            Pattern::None => (Fill::Flat(CARD), Fill::Hatched { ground: CARD_BACK, line: GLUE_LINE, apart: 15 }),
            _ => (Fill::Hatched { ground: PAPER, line: PAPER_LINE, apart: 60 }, Fill::Flat(PAPER_LINE)),
        };
        let outlines = std::iter::once(&part.flat.outline).chain(&part.flat.holes).map(|contour| contour.mapped(map));
        let outlines: Vec<Contour> = outlines.collect();
        self.marks.push(Mark::Shape { contours: outlines.clone(), fill: Some(fill), pen: None });
        for panel in part.net.panels.iter().filter(|panel| panel.purpose == Use::Seam) {
            self.marks.push(Mark::Shape { contours: vec![panel.outline.mapped(map)], fill: Some(glued), pen: None });
        }
        for score in &part.flat.scores {
            self.marks.push(Mark::Line { points: vec![map(score.from), map(score.to)], pen: Pen::fold(score.sense) });
        }
        self.marks.push(Mark::Shape { contours: outlines, fill: None, pen: Some(CUT) });
        // Scores bound panels, so words inside a panel lie over no line.
        let boxes = part.net.panels.iter().map(|panel| panel.outline.mapped(map).bounds());
        let roomiest = boxes.max_by(|one, two| room(*one).total_cmp(&room(*two)));
        if let Some(panel) = roomiest {
            // As it lies, so that the figures go with the picture.
            let (width, height) = if placed.quarters.is_multiple_of(2) {
                (part.flat.width, part.flat.height)
            } else {
                (part.flat.height, part.flat.width)
            };
            let measures = measures(album, width, height);
            let lines = [letter, part.id.clone(), measures].into_iter().filter(|line| !line.is_empty());
            self.label(clear_of(panel, &part.flat.holes, map), &lines.collect::<Vec<_>>());
        }
    }

    /// Sets lines of words into a box, across or upwards, as large as it takes; as many of them as go in.
    fn label(&mut self, space: Rect, lines: &[String]) {
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
            return;
        }
    }

    /// A double arrow along the grain, at the edge of the largest piece left over, where there is one.
    fn grain(&mut self, stock: &Stock, sheet: &Sheet) {
        let Some(upright) = grain_upright(stock, sheet) else { return };
        let Some(&[x, y, width, height]) = sheet.offcuts.first() else { return };
        let pen = Pen { width: 0.25, colour: INK, dash: &[] };
        let (from, to, across) = if upright {
            (Point::new(x + width - 4.0, y + 4.0), Point::new(x + width - 4.0, y + height - 4.0), (1.2, 0.0))
        } else {
            (Point::new(x + 4.0, y + 4.0), Point::new(x + width - 4.0, y + 4.0), (0.0, 1.2))
        };
        let beside = if upright { kurbo::Vec2::new(-3.0, 0.0) } else { kurbo::Vec2::new(0.0, 3.0) };
        let word = Mark::Words { at: from.midpoint(to) + beside, size: 3.0, text: "grain".into(), upwards: upright };
        self.marks.push(word);
        self.marks.push(Mark::Line { points: vec![from, to], pen });
        let back = (to - from).normalize() * 3.0;
        for (tip, back) in [(from, back), (to, -back)] {
            let barb = |side: f64| tip + back + kurbo::Vec2::new(across.0, across.1) * side;
            self.marks.push(Mark::Line { points: vec![barb(1.0), tip, barb(-1.0)], pen });
        }
    }
}

/// Whether a sheet's grain runs upright as it lies, where that is stated.
fn grain_upright(stock: &Stock, sheet: &Sheet) -> Option<bool> {
    stock.sheets.get(sheet.size).and_then(|size| stock.stood(size).grain_upright)
}

/// How well words go into a box: its shorter side counts most.
fn room(space: Rect) -> f64 {
    space.width().min(space.height() * 4.0) * space.height().min(space.width() * 4.0)
}

/// The part of a panel's box below or above a hole in it, whichever is larger.
fn clear_of(panel: Rect, holes: &[Contour], map: impl Fn(Point) -> Point) -> Rect {
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
fn measures(album: &Album, width: f64, height: f64) -> String {
    let (width, height) = (Length::from_mm(width), Length::from_mm(height));
    let first = if album.units == Units::In { album.show(width.mm()) } else { width.plain(album.units) };
    format!("{first} × {}", height.show(album.units, Ruler::SixtyFourth))
}
