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
use super::super::holding::{self, Stick};
use super::super::list;
use super::ROOM;
use crate::contour::{Contour, Point, Rect, SAME, Vec2};
use crate::net::{Net, Panel};
use crate::parts::{Face, Owner, Piece, Side};
use crate::picture::{CUT, Fill, Pen, Picture, Tint, stuff_of_piece};

/// Between folds nearer than this, mm, dashes run into one another: they are thin lines then.
const CROWDED: f64 = 1.2;

/// What is seen through a hole.
const OPEN: Fill = Fill::Flat(Tint([255; 3]));

/// Between the two pieces, mm: room for the arrow.
const BETWEEN: f64 = 14.0;

/// The two pieces of a joint with all that is stuck of it at one go, or the one piece that is closed on itself or turned in; none
/// where a side names no piece.
pub(in super::super) fn stick(desk: &Desk<'_>, sides: &[(Side, Side)], held: Stick) -> Option<Picture> {
    let (glued, faced) = sides.first()?;
    let turned = sides.iter().any(|(_, other)| other.piece != faced.piece);
    if turned || glued.piece == faced.piece { alone(desk, sides) } else { pair(desk, sides, held) }
}

/// The two pieces, the one that takes tape or glue at the right.
fn pair(desk: &Desk<'_>, sides: &[(Side, Side)], held: Stick) -> Option<Picture> {
    let kit = desk.kit();
    let (glued, faced) = sides.first()?;
    let (one, other) = (kit.pieces.get(glued.piece)?, kit.pieces.get(faced.piece)?);
    let target = Seen::new(&other.net, faced.face);
    let source = Seen::new(&one.net, glued.face);
    let landed: Vec<Contour> =
        sides.iter().filter_map(|(glued, faced)| Some(target.seen(&lands(desk, glued, faced)?))).collect();
    let left = landed.iter().fold(target.bounds, |all, one| all.union(one.bounds()));
    let (wide, tall) = (left.width() + source.bounds.width(), left.height().max(source.bounds.height()));
    let scale = ((ROOM.0 - BETWEEN) / wide).min(ROOM.1 / tall).min(0.9);
    let mut draw = Draw::default();
    let put = |bounds: Rect, from: Point, point: Point| {
        Point::new((point.x - bounds.x0).mul_add(scale, from.x), (point.y - bounds.center().y).mul_add(scale, from.y))
    };
    let here = Point::new(0.0, 0.0);
    piece(&mut draw, desk, (other, faced.face), &target, &|point| put(left, here, point));
    let landed: Vec<Contour> = landed.iter().map(|one| one.mapped(|point| put(left, here, point))).collect();
    let fill = matches!(held, Stick::Tape { .. } | Stick::Glue).then_some(GLUE);
    for one in &landed {
        draw.contours(vec![one.clone()], fill.clone(), Some(HIDDEN));
    }
    let beside = Point::new(left.width().mul_add(scale, BETWEEN), 0.0);
    let bounds = source.bounds;
    piece(&mut draw, desk, (one, glued.face), &source, &|point| put(bounds, beside, point));
    for (glued, _) in sides {
        let panel = one.net.panels.get(glued.panel)?;
        let glue = source.seen(&panel.outline).mapped(|point| put(bounds, beside, point));
        takes(&mut draw, glue, held, scale);
    }
    open(&mut draw, &one.net, &source, &|point| put(bounds, beside, point));
    if !one.net.holes.is_empty() && (fill.is_some() || matches!(held, Stick::Round { .. })) {
        for (glued, faced) in sides {
            let over = |point| put(left, here, target.at(holding::laid(glued, faced, point)));
            draw.contours(one.net.holes.iter().map(|hole| hole.mapped(over)).collect(), Some(OPEN), Some(HIDDEN));
        }
    }
    let foot = draw.bounds().y0 - LETTER * 0.7;
    mark(&mut draw, desk, other.part, (left.center().x - left.x0).mul_add(scale, here.x), foot);
    mark(&mut draw, desk, one.part, (bounds.width() / 2.0).mul_add(scale, beside.x), foot);
    let all = landed.iter().map(Contour::bounds).reduce(|all, one| all.union(one))?;
    let (from, to) = (beside.x - 1.5, all.x1);
    // On a narrow place the arrow ends at its edge, on a wide one a little inside.
    let to = if all.width() > 12.0 { to - 3.0 } else { to };
    draw.way(Point::new(from, all.center().y), Point::new(to, all.center().y));
    Some(draw.picture())
}

/// One piece that is closed on itself, or that is turned in over what lies on it: seen on the face that takes the glue.
fn alone(desk: &Desk<'_>, sides: &[(Side, Side)]) -> Option<Picture> {
    let kit = desk.kit();
    let (glued, _) = sides.first()?;
    let one = kit.pieces.get(glued.piece)?;
    let seen = Seen::new(&one.net, glued.face);
    let scale = (ROOM.0 / seen.bounds.width()).min(ROOM.1 / seen.bounds.height()).min(0.9);
    let put = |point: Point| {
        let from = seen.bounds;
        Point::new((point.x - from.x0) * scale, (point.y - from.center().y) * scale)
    };
    let mut draw = Draw::default();
    piece(&mut draw, desk, (one, glued.face), &seen, &put);
    let mut ways = Vec::new();
    for (glued, faced) in sides {
        let panel = one.net.panels.get(glued.panel)?;
        let glue = seen.seen(&panel.outline).mapped(put);
        // What is turned in lies on a board, which lies where its fold is.
        let fold = one.net.folds.iter().find(|fold| fold.between[1] == glued.panel);
        let place = if glued.piece == faced.piece {
            lands(desk, glued, faced)?
        } else {
            let fold = fold?;
            panel.outline.mirrored(|point| holding::mirrored(point, [fold.from, fold.to]))
        };
        let place = seen.seen(&place).mapped(put);
        draw.contours(vec![place.clone()], None, Some(HIDDEN));
        draw.contours(vec![glue.clone()], Some(GLUE), None);
        ways.push((glue.bounds().center(), place.bounds().center()));
    }
    for (from, to) in ways {
        draw.way(from, to);
    }
    let foot = draw.bounds().y0 - LETTER * 0.7;
    mark(&mut draw, desk, one.part, seen.bounds.width() / 2.0 * scale, foot);
    Some(draw.picture())
}

/// The holes of a piece, over what was drawn on it.
fn open(draw: &mut Draw, net: &Net, seen: &Seen, put: &dyn Fn(Point) -> Point) {
    for hole in &net.holes {
        draw.contours(vec![seen.seen(hole).mapped(put)], Some(OPEN), Some(CUT));
    }
}

/// Where what is glued comes to lie on the other side's flat piece.
fn lands(desk: &Desk<'_>, glued: &Side, faced: &Side) -> Option<Contour> {
    let piece = desk.kit().pieces.get(glued.piece)?;
    let panel = &piece.net.panels.get(glued.panel)?.outline;
    // A drawn shape stays flat in its pocket, scores or not.
    let flat = matches!(piece.owner, Owner::Insert(_)) && piece.net.folds.iter().all(|fold| fold.angle.abs() < SAME);
    let outline = desk.part(piece.part).map(|part| &part.flat.outline).filter(|_| flat).unwrap_or(panel);
    let lay = |point| holding::laid(glued, faced, point);
    // What lies face to face with its like is seen in the mirror.
    Some(if glued.face == faced.face { outline.mirrored(lay) } else { outline.mapped(lay) })
}

/// The tape or glue on a panel.
fn takes(draw: &mut Draw, glue: Contour, held: Stick, scale: f64) {
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
fn piece(draw: &mut Draw, desk: &Desk<'_>, (made, face): (&Piece, Face), seen: &Seen, put: &dyn Fn(Point) -> Point) {
    let net = &made.net;
    let stuff = stuff_of_piece(desk.job.album, desk.kit(), made);
    let corner = net.panels.iter().map(|panel| panel.outline.bounds()).reduce(|all, one| all.union(one));
    let corner = corner.map_or(Vec2::ZERO, |bounds| Vec2::new(bounds.x0, bounds.y0));
    let fill = if face == Face::Front { stuff.flat() } else { stuff.back() };
    let fill = fill.mapped(|point| put(seen.at(point + corner)));
    for panel in &net.panels {
        draw.contours(vec![seen.seen(&panel.outline).mapped(put)], Some(fill.clone()), Some(CUT));
    }
    let width = |panel: &Panel| {
        let bounds = panel.outline.mapped(put).bounds();
        bounds.width().min(bounds.height())
    };
    let crowded = net.panels.iter().map(width).any(|width| width < CROWDED);
    for fold in &net.folds {
        // What was drawn as an edge of both panels is a fold.
        let (from, to) = (put(seen.at(fold.from)), put(seen.at(fold.to)));
        draw.line(from, to, Pen { width: 0.6, colour: fill.ground(), dash: &[] });
        draw.line(from, to, if crowded { THIN } else { Pen::fold(fold.sense) });
    }
    open(draw, net, seen, put);
}

/// The letter of a piece, below it.
fn mark(draw: &mut Draw, desk: &Desk<'_>, part: usize, x: f64, y: f64) {
    draw.words(Point::new(x, y), LETTER, list::mark(&desk.rows, part), false);
}
