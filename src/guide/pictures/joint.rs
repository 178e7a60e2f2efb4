// SPDX-License-Identifier: MIT
//! A joint: what takes tape or glue, and where it comes to lie.
//!
//! ```text
//!   +-----------+          +-----------+
//!   |///////////|  <-----  |///////////|     left: where it goes, seen on the face that it goes on
//!   |           |          |           |     right: the piece, seen on the face that takes tape or glue
//!   |     A     |          |     B     |
//!   +-----------+          +-----------+
//! ```

use super::super::desk::Desk;
use super::super::draw::{Draw, GLUE, HIDDEN, LETTER, THIN};
use super::super::joints::{self, Stick};
use super::super::list;
use super::ROOM;
use crate::contour::{Contour, Point, Rect};
use crate::net::Net;
use crate::parts::{Face, Side};
use crate::picture::{CARD, CARD_BACK, CUT, Fill, PAPER, PAPER_BACK, PAPER_LINE, Pen, Picture, Stuff};

/// Between the two pieces, mm: room for the arrow.
const BETWEEN: f64 = 14.0;

/// The two pieces of a joint; none where a side names no piece.
pub(in super::super) fn stick(desk: &Desk<'_>, glued: &Side, faced: &Side, held: Stick) -> Option<Picture> {
    let kit = desk.kit();
    let (one, other) = (kit.pieces.get(glued.piece)?, kit.pieces.get(faced.piece)?);
    let target = Seen::new(&other.net, faced.face);
    let source = Seen::new(&one.net, glued.face);
    let panel = one.net.panels.get(glued.panel)?;
    let lay = |point| joints::laid(glued, faced, point);
    // What lies face to face with its like is seen in the mirror.
    let place = if glued.face == faced.face { panel.outline.mirrored(lay) } else { panel.outline.mapped(lay) };
    let there = target.seen(&place);
    let (wide, tall) = (
        target.bounds.union(there.bounds()).width() + source.bounds.width(),
        target.bounds.union(there.bounds()).height().max(source.bounds.height()),
    );
    let scale = ((ROOM.0 - BETWEEN) / wide).min(ROOM.1 / tall).min(0.9);
    let mut draw = Draw::default();
    let left = target.bounds.union(there.bounds());
    let put = |bounds: Rect, from: Point, point: Point| {
        Point::new((point.x - bounds.x0).mul_add(scale, from.x), (point.y - bounds.center().y).mul_add(scale, from.y))
    };
    let here = Point::new(0.0, 0.0);
    piece(&mut draw, desk, (&other.net, other.part, faced.face), &target, &|point| put(left, here, point));
    let landed = there.mapped(|point| put(left, here, point));
    match held {
        Stick::Slides | Stick::Tab { .. } | Stick::Round { .. } => {
            draw.contours(vec![landed.clone()], None, Some(HIDDEN));
        }
        Stick::Tape { .. } | Stick::Glue => draw.contours(vec![landed.clone()], Some(GLUE), Some(HIDDEN)),
    }
    let beside = Point::new(left.width().mul_add(scale, BETWEEN), 0.0);
    let bounds = source.bounds;
    piece(&mut draw, desk, (&one.net, one.part, glued.face), &source, &|point| put(bounds, beside, point));
    let glue = source.seen(&panel.outline).mapped(|point| put(bounds, beside, point));
    match held {
        Stick::Tape { .. } => draw.contours(vec![glue], Some(GLUE), Some(THIN)),
        Stick::Glue => draw.contours(vec![glue], Some(GLUE), None),
        Stick::Round { width, .. } => {
            // A frame of tape; a panel with corners of its own has it along its box.
            let (all, wide) = (glue.bounds(), (width * scale).max(1.2));
            let within =
                Contour::rectangle(all.x0 + wide, all.y0 + wide, all.width() - 2.0 * wide, all.height() - 2.0 * wide);
            draw.contours(vec![glue, within.clone()], Some(GLUE), None);
            draw.contours(vec![within], None, Some(THIN));
        }
        Stick::Slides | Stick::Tab { .. } => {}
    }
    let foot = draw.bounds().y0 - LETTER * 0.7;
    mark(&mut draw, desk, other.part, (left.center().x - left.x0).mul_add(scale, here.x), foot);
    mark(&mut draw, desk, one.part, (bounds.width() / 2.0).mul_add(scale, beside.x), foot);
    let (from, to) = (beside.x - 1.5, landed.bounds().x1);
    // On a narrow place the arrow ends at its edge, on a wide one a little inside.
    let to = if landed.bounds().width() > 12.0 { to - 3.0 } else { to };
    let y = landed.bounds().center().y;
    draw.way(Point::new(from, y), Point::new(to, y));
    Some(draw.picture())
}

/// A flat piece seen on one of its faces.
struct Seen {
    mirrored: bool,
    bounds: Rect,
}

impl Seen {
    fn new(net: &Net, face: Face) -> Self {
        let all = net.panels.iter().map(|panel| panel.outline.bounds()).reduce(|all, one| all.union(one));
        let all = all.unwrap_or_default();
        let mirrored = face == Face::Back;
        let bounds = if mirrored { Rect::new(-all.x1, all.y0, -all.x0, all.y1) } else { all };
        Self { mirrored, bounds }
    }

    fn at(&self, point: Point) -> Point {
        if self.mirrored { Point::new(-point.x, point.y) } else { point }
    }

    fn seen(&self, contour: &Contour) -> Contour {
        if self.mirrored { contour.mirrored(|point| self.at(point)) } else { contour.clone() }
    }
}

/// Draws a flat piece with its folds.
fn piece(
    draw: &mut Draw,
    desk: &Desk<'_>,
    (net, part, face): (&Net, usize, Face),
    seen: &Seen,
    put: &dyn Fn(Point) -> Point,
) {
    let fill = match (super::stuff(desk, part), face) {
        (Stuff::Paper, Face::Front) => Fill::Hatched { ground: PAPER, line: PAPER_LINE, apart: 60 },
        (Stuff::Paper, Face::Back) => Fill::Flat(PAPER_BACK),
        (_, Face::Front) => Fill::Flat(CARD),
        (_, Face::Back) => Fill::Flat(CARD_BACK),
    };
    for panel in &net.panels {
        draw.contours(vec![seen.seen(&panel.outline).mapped(put)], Some(fill), Some(CUT));
    }
    for fold in &net.folds {
        // What was drawn as an edge of both panels is a fold.
        let (from, to) = (put(seen.at(fold.from)), put(seen.at(fold.to)));
        draw.line(from, to, Pen { width: 0.6, colour: ground(fill), dash: &[] });
        draw.line(from, to, Pen::fold(fold.sense));
    }
    for hole in &net.holes {
        draw.contours(vec![seen.seen(hole).mapped(put)], Some(Fill::Flat("#FFFFFF")), Some(CUT));
    }
}

const fn ground(fill: Fill) -> &'static str {
    match fill {
        Fill::Flat(colour) => colour,
        Fill::Hatched { ground, .. } => ground,
    }
}

/// The letter of a piece, below it.
fn mark(draw: &mut Draw, desk: &Desk<'_>, part: usize, x: f64, y: f64) {
    draw.words(Point::new(x, y), LETTER, list::mark(&desk.rows, part), false);
}
