// SPDX-License-Identifier: MIT
//! A laid sheet: its parts in card colour with their names and sizes, what is left of it outlined.

use super::label::{clear_of, measures, room, space_in};
use super::{CUT, FAINT, INK, Mark, Pen, Picture, Stuff, register_mark, stuff_of};
use crate::album::Order;
use crate::contour::{Contour, Point, Rect, turned};
use crate::length::Length;
use crate::net::Use;
use crate::parts::{Kit, Part};
use crate::sheets::{Placed, Sheet};
use crate::stock::Stock;

const OFFCUT: Pen = Pen { width: 0.25, colour: FAINT, dash: &[0.5, 1.0] };

/// What is written on a sheet.
#[derive(Clone, Copy)]
pub struct SheetWords<'a> {
    /// What stands for a part in words; it stands above the part's own name; empty where there is none.
    pub letter: &'a dyn Fn(usize) -> String,
    /// What a piece left over is called.
    pub offcut: &'a str,
    /// A sheet's name and how often it is cut.
    pub times: &'a dyn Fn(&Sheet) -> String,
    /// A size as the language writes it.
    pub size: &'a dyn Fn(&str) -> String,
}

/// The picture of a sheet of stock number `stock`, edge to edge. `letter` gives what stands for a part in words; it stands
/// above the part's own name; empty where there is none.
#[must_use]
pub fn sheet(order: Order<'_>, kit: &Kit, stock: usize, sheet: &Sheet, letter: &dyn Fn(usize) -> String) -> Picture {
    let times = |sheet: &Sheet| {
        let times = if sheet.times == 1 { "once".into() } else { format!("{} times", sheet.times) };
        format!("{}: cut {times}", sheet.name)
    };
    let words = SheetWords { letter, offcut: "offcut", times: &times, size: &str::to_owned };
    sheet_worded(order, kit, stock, sheet, words)
}

/// The same in words of the caller's.
#[must_use]
pub fn sheet_worded(order: Order<'_>, kit: &Kit, stock: usize, sheet: &Sheet, words: SheetWords<'_>) -> Picture {
    let mut picture = Picture { width: sheet.width, height: sheet.height, marks: Vec::new() };
    let plain = stuff_of(order.stocks, stock);
    let Some(stock) = order.stocks.get(stock) else { return picture };
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
        let down = |mm: f64| Length::from_mm(mm).down_to_a_step(order.units).mm();
        let mut lines = vec![words.offcut.to_owned(), (words.size)(&measures(order.units, down(width), down(height)))];
        let mut space = Rect::new(x, y, x + width, y + height);
        if index == 0 {
            // The largest piece left over has room for what the sheet is.
            lines.splice(0..0, [(words.times)(sheet), String::new()]);
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
            let stuff = plain.clone().cut(stock, placed.cut_from(sheet.size), part);
            picture.part(order, &stuff, part, placed, ((words.letter)(placed.part), words.size));
        }
    }
    picture.grain(stock, sheet);
    picture.marks.extend(sheet.register.iter().flat_map(register_mark));
    picture
}

impl Picture {
    fn part(
        &mut self,
        order: Order<'_>,
        stuff: &Stuff,
        part: &Part,
        placed: &Placed,
        (letter, size_as): (String, &dyn Fn(&str) -> String),
    ) {
        let size = (part.flat.width, part.flat.height);
        let map = |point: Point| {
            let point = turned(point, placed.quarters, size);
            Point::new(point.x + placed.x, point.y + placed.y)
        };
        let outlines = std::iter::once(&part.flat.outline).chain(&part.flat.holes).map(|contour| contour.mapped(map));
        let outlines: Vec<Contour> = outlines.collect();
        self.marks.push(Mark::Shape { contours: outlines.clone(), fill: Some(stuff.flat().mapped(map)), pen: None });
        for panel in part.net.panels.iter().filter(|panel| panel.purpose == Use::Seam) {
            self.marks.push(Mark::Shape {
                contours: vec![panel.outline.mapped(map)],
                fill: Some(stuff.glued()),
                pen: None,
            });
        }
        for score in &part.flat.scores {
            self.marks.push(Mark::Line { points: vec![map(score.from), map(score.to)], pen: Pen::fold(score.sense) });
        }
        for mark in &part.flat.marks {
            self.marks.push(Mark::Line { points: mark.iter().copied().map(map).collect(), pen: Pen::MARK });
        }
        self.marks.push(Mark::Shape { contours: outlines.clone(), fill: None, pen: Some(CUT) });
        // Scores bound panels, so words inside a panel lie over no line.
        let boxes = part.net.panels.iter().map(|panel| space_in(&panel.outline.mapped(map)));
        let roomiest = boxes.max_by(|one, two| room(*one).total_cmp(&room(*two)));
        if let Some(panel) = roomiest {
            // As it lies, so that the figures go with the picture.
            let (width, height) = if placed.quarters.is_multiple_of(2) {
                (part.flat.width, part.flat.height)
            } else {
                (part.flat.height, part.flat.width)
            };
            let measures = size_as(&measures(order.units, width, height));
            let lines = [letter, part.id.clone(), measures].into_iter().filter(|line| !line.is_empty());
            let from = self.marks.len();
            self.label(clear_of(panel, &part.flat.holes, map), &lines.collect::<Vec<_>>());
            if stuff.is_pictured() {
                self.ground(from);
            }
            let scores = part.flat.scores.iter().map(|score| [map(score.from), map(score.to)]);
            let lines: Vec<[Point; 2]> = scores.chain(part.flat.marks.iter().map(|mark| mark.map(map))).collect();
            self.upward(&stuff.on_sheet(), &outlines, &lines, from);
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
