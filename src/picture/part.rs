// SPDX-License-Identifier: MIT
//! A flat part with its sizes: what is scored below and at the left, what is cut above and at the right.
//!
//! ```text
//!          6         142            ends of slants, notches, holes, slits: from the left
//!      .---|----------|---.
//!   o--+------------------+--o 0
//!   |  |     ¦      ¦     |  |
//!   +12|-----¦------¦-----|  + 6    from the head
//!   |  |     ¦      ¦     |  |
//!   +--+------------------+--+
//!  190 o-----+------+-----+
//!           12     18    148        scores and the whole, from the left
//! ```
//!
//! Every number counts from the same edge, the ring: the edge that lies at the fence, left or head (running dimensions,
//! ISO 129-1). Numbers stand upright, off every line; where two would touch they move apart and lines lead to them.

use super::plate::Plate;
use super::upward::upward;
use super::words::{measure, set, spread, words_box};
use super::{CUT, Fill, INK, Mark, Pen, Picture, Stuff};
use crate::contour::{Contour, Edge, Point, Rect, Vec2, slot, within};
use crate::net::Use;
use crate::parts::Part;

/// Em of numbers, mm: figures are 2.5 mm tall.
pub(super) const FIGURES: f64 = 3.4;
/// Em of the panels' names, mm.
const NAMES: f64 = 3.3;
/// From the part to the line with the rings and arrows, mm.
const OFF: f64 = 4.5;
/// From that line to the numbers, mm.
const LEAD: f64 = 3.2;
/// Air about a number, mm.
const AIR: f64 = 0.9;
/// Two places nearer than this get one number, mm on the part.
const SAME_PLACE: f64 = 0.3;

/// A part of whatever size is drawn no smaller.
pub(super) const SMALLEST_PART: f64 = 1e-4;

const THIN: Pen = Pen { width: 0.18, colour: INK, dash: &[] };

/// A flat part and its sizes, at true size or as much smaller as `scale` says (0.5 is half).
///
/// `say` writes a length in mm as the maker reads it.
#[must_use]
pub fn part(part: &Part, stuff: &Stuff, scale: f64, say: &dyn Fn(f64) -> String) -> Picture {
    picture(draw(part, stuff, scale, PartWords::plain(say)))
}

/// What is written on a part: lengths in mm as the maker reads them, and what its panels are called.
#[derive(Clone, Copy)]
pub struct PartWords<'a> {
    /// A length, mm.
    pub length: &'a dyn Fn(f64) -> String,
    /// A panel's name, from its name in the model.
    pub name: &'a dyn Fn(&str) -> String,
}

impl<'a> PartWords<'a> {
    /// Panels go by their names in the model.
    pub(super) const fn plain(length: &'a dyn Fn(f64) -> String) -> Self {
        Self { length, name: &str::to_owned }
    }
}

/// A part is not shrunk to less than this share of its room to make place for its numbers: our choice.
const LEAST_SHARE: f64 = 0.45;

/// A flat part and its sizes, as large as the room (width and height, mm) takes it, at most at true size; and its scale.
///
/// Many numbers can need more room than there is; the picture is larger then, and the part has not less than 0.45 of the room.
#[must_use]
pub fn part_within(part: &Part, stuff: &Stuff, room: (f64, f64), say: &dyn Fn(f64) -> String) -> (Picture, f64) {
    part_worded(part, stuff, room, PartWords::plain(say))
}

/// The same in words of the caller's.
#[must_use]
pub fn part_worded(part: &Part, stuff: &Stuff, room: (f64, f64), say: PartWords<'_>) -> (Picture, f64) {
    let mut scale = (room.0 / part.flat.width.max(1.0)).min(room.1 / part.flat.height.max(1.0)).min(1.0);
    let least = scale * LEAST_SHARE;
    let mut plate = draw(part, stuff, scale, say);
    // Numbers keep their size, so a smaller part leaves them a larger share; a few rounds find it.
    for _ in 0..24 {
        if plate.width() <= room.0 && plate.height() <= room.1 || scale <= least {
            break;
        }
        scale = (scale * 0.93).max(least);
        plate = draw(part, stuff, scale, say);
    }
    (picture(plate), scale)
}

fn picture(plate: Plate) -> Picture {
    let edge = 1.0;
    let mut picture =
        Picture { width: plate.width() + 2.0 * edge, height: plate.height() + 2.0 * edge, marks: Vec::new() };
    let middle = picture.width / 2.0;
    plate.put(&mut picture, Point::new(middle, edge));
    picture
}

/// The part as a drawing, its lower left at the origin.
pub(super) fn draw(part: &Part, stuff: &Stuff, scale: f64, say: PartWords<'_>) -> Plate {
    let scale = if scale.is_finite() { scale.clamp(SMALLEST_PART, 1.0) } else { 1.0 };
    let mut plate = Plate::default();
    let small = |contour: &Contour| contour.mapped(|point| Point::new(point.x * scale, point.y * scale));
    let fill = stuff.flat().mapped(|point| Point::new(point.x * scale, point.y * scale));
    let glued = stuff.glued();
    // The net lies where it was made, the flat part has its lower left at the origin.
    let corner = part.net.panels.iter().map(|panel| panel.outline.bounds()).reduce(|all, one| all.union(one));
    let corner = corner.map_or(Vec2::ZERO, |bounds| Vec2::new(bounds.x0, bounds.y0));
    let outlines: Vec<Contour> = std::iter::once(&part.flat.outline).chain(&part.flat.holes).map(small).collect();
    plate.contours(outlines.clone(), Some(fill), None);
    for panel in part.net.panels.iter().filter(|panel| panel.purpose == Use::Seam) {
        plate.contours(vec![small(&panel.outline.shifted(-corner))], Some(glued.clone()), None);
    }
    let mut lines: Vec<[Point; 2]> = Vec::new();
    for score in &part.flat.scores {
        let ends = [score.from, score.to].map(|point| Point::new(point.x * scale, point.y * scale));
        plate.line(ends, Pen::fold(score.sense));
        lines.push(ends);
    }
    for mark in &part.flat.marks {
        let ends = mark.map(|point| Point::new(point.x * scale, point.y * scale));
        plate.line(ends, Pen::MARK);
        lines.push(ends);
    }
    plate.contours(outlines.clone(), None, Some(CUT));
    for outline in &outlines {
        lines.extend(outline.edges().map(|edge| [edge.from, edge.to]));
    }
    for panel in &part.net.panels {
        name(&mut plate, &(say.name)(panel.name), &small(&panel.outline.shifted(-corner)), &outlines[1..], &lines);
    }
    let arrow = upward(stuff, &outlines[0], &|around| plate.is_free(around, &lines, &outlines[1..]));
    for mark in arrow {
        plate.label(mark);
    }
    let sizes = Sizes { scale, size: (part.flat.width, part.flat.height), say: say.length };
    sizes.all(&mut plate, part);
    plate
}

/// Writes a panel's name into it, level or upwards, where it keeps off every line.
fn name(plate: &mut Plate, text: &str, panel: &Contour, holes: &[Contour], lines: &[[Point; 2]]) {
    let bounds = panel.bounds();
    let clear = |space: Rect| {
        let corners = [(space.x0, space.y0), (space.x1, space.y0), (space.x1, space.y1), (space.x0, space.y1)];
        corners.iter().all(|corner| panel.contains((*corner).into()))
            && !lines.iter().any(|line| within(*line, space).is_some())
            && !holes.iter().any(|hole| hole.contains(space.center()))
    };
    for (share_x, share_y) in [(0.5, 0.5), (0.5, 0.25), (0.5, 0.75), (0.25, 0.5), (0.75, 0.5)] {
        let at = Point::new(bounds.width().mul_add(share_x, bounds.x0), bounds.height().mul_add(share_y, bounds.y0));
        for upwards in [false, true] {
            let space = words_box(at, NAMES, text, upwards).inflate(0.5, 0.3);
            if clear(space) {
                let ground = Contour::rectangle(space.x0, space.y0, space.width(), space.height());
                plate.contours(vec![ground], Some(Fill::Flat(super::LABEL)), None);
                plate.label(Mark::Words { at, size: NAMES, text: text.into(), upwards });
                return;
            }
        }
    }
}

/// The side of the part that a row of numbers stands at.
#[derive(Clone, Copy, PartialEq, Eq)]
enum At {
    Below,
    Above,
    Left,
    Right,
}

struct Sizes<'a> {
    scale: f64,
    size: (f64, f64),
    say: &'a dyn Fn(f64) -> String,
}

impl Sizes<'_> {
    fn all(&self, plate: &mut Plate, part: &Part) {
        let (width, height) = self.size;
        let (mut below, mut left) = (vec![width], vec![height]);
        for score in &part.flat.scores {
            if (score.from.x - score.to.x).abs() < SAME_PLACE {
                below.push(f64::midpoint(score.from.x, score.to.x));
            } else if (score.from.y - score.to.y).abs() < SAME_PLACE {
                left.push(height - f64::midpoint(score.from.y, score.to.y));
            }
        }
        let (mut above, mut right) = (Vec::new(), Vec::new());
        let edges: Vec<Edge> = part.flat.outline.edges().collect();
        for (number, edge) in edges.iter().enumerate() {
            let before = edges[(number + edges.len() - 1) % edges.len()];
            // Nobody measures off where one arc of a curve becomes the next.
            let on_a_curve = !edge.is_line() && !before.is_line();
            if !on_a_curve || edge.centre().distance(before.centre()) < SAME_PLACE {
                above.push(edge.from.x);
                right.push(height - edge.from.y);
            }
        }
        for hole in &part.flat.holes {
            let (bounds, round) = (hole.bounds(), hole.edges().all(|edge| !edge.is_line()));
            let ends = |low: f64, high: f64| {
                if round || high - low < 2.0 * SAME_PLACE { vec![f64::midpoint(low, high)] } else { vec![low, high] }
            };
            // A slot at a slant is marked by its ends.
            if let Some((ends, _)) = slot(hole) {
                above.extend(ends.map(|end| end.x));
                right.extend(ends.map(|end| height - end.y));
                continue;
            }
            above.extend(ends(bounds.x0, bounds.x1));
            right.extend(ends(height - bounds.y1, height - bounds.y0));
        }
        let (below, left) = (places(below, width, &[]), places(left, height, &[]));
        // What a score or the whole says already is not said twice.
        let (above, right) = (places(above, width, &below), places(right, height, &left));
        for (at, places) in [(At::Below, below), (At::Above, above), (At::Left, left), (At::Right, right)] {
            self.row(plate, at, &places);
        }
    }

    /// A line with a ring at the edge that counts as nought and an arrow at each place, and the numbers beside it.
    fn row(&self, plate: &mut Plate, at: At, places: &[f64]) {
        if places.is_empty() {
            return;
        }
        let (width, height) = (self.size.0 * self.scale, self.size.1 * self.scale);
        let level = matches!(at, At::Below | At::Above);
        // `along` the edge from nought on, `out` from it.
        let point = |along: f64, out: f64| match at {
            At::Below => Point::new(along, -out),
            At::Above => Point::new(along, height + out),
            At::Left => Point::new(-out, height - along),
            At::Right => Point::new(width + out, height - along),
        };
        let drawn: Vec<f64> = places.iter().map(|place| place * self.scale).collect();
        let last = drawn.last().copied().unwrap_or(0.0);
        let ring = 0.7;
        plate.contours(vec![Contour::circle(point(0.0, OFF), ring)], None, Some(THIN));
        plate.line([point(0.0, 0.8), point(0.0, OFF - ring)], THIN);
        plate.line([point(ring, OFF), point(last, OFF)], THIN);
        for &along in &drawn {
            plate.line([point(along, 0.8), point(along, OFF + 1.0)], THIN);
            let (long, half) = (1.5_f64.min(along * 0.6), 0.45);
            let tip = [point(along, OFF), point(along - long, OFF + half), point(along - long, OFF - half)];
            plate.shape(&tip, Fill::Flat(INK), None);
        }
        let words: Vec<String> = places.iter().map(|place| set(&(self.say)(*place))).collect();
        let wide = |text: &String| measure(text, FIGURES);
        let widest = words.iter().map(wide).fold(0.0, f64::max);
        let row: f64 = words.iter().map(|text| wide(text) + 2.0 * AIR).sum();
        // Where they fill more than the edge they stand in two rows by turns; a line to the far row goes between two of
        // the near one.
        let turns = level && row > last.max(1.0) * 1.1 && words.len() > 3;
        let half: Vec<f64> = match (level, turns) {
            (false, _) => vec![FIGURES * 0.45 + AIR / 2.0; words.len()],
            (true, false) => words.iter().map(|text| wide(text) / 2.0 + AIR).collect(),
            (true, true) => vec![widest / 4.0 + AIR / 2.0; words.len()],
        };
        for (number, ((text, along), from)) in words.iter().zip(spread(&drawn, &half)).zip(&drawn).enumerate() {
            let far = if turns && number % 2 == 1 { FIGURES * 1.25 } else { 0.0 };
            if (along - from).abs() > 0.05 || far > 0.0 {
                let mut lead = vec![point(*from, OFF + 1.0), point(along, OFF + LEAD)];
                if far > 0.0 {
                    lead.push(point(along, OFF + LEAD + far));
                }
                plate.polyline(lead, THIN);
            }
            let deep = if level { FIGURES * 0.45 } else { wide(text) / 2.0 };
            let at = point(along, OFF + LEAD + 0.6 + far + deep);
            plate.label(Mark::Words { at, size: FIGURES, text: text.clone(), upwards: false });
        }
    }
}

/// Places in order, each once, none at nought or the far end but for a list that holds the end itself.
fn places(mut all: Vec<f64>, whole: f64, said: &[f64]) -> Vec<f64> {
    all.sort_by(f64::total_cmp);
    let mut kept: Vec<f64> = Vec::new();
    for place in all {
        let near = |other: &f64| (place - other).abs() < SAME_PLACE;
        let end = !said.is_empty() && (place - whole).abs() < SAME_PLACE;
        if place > SAME_PLACE && !end && !kept.iter().any(near) && !said.iter().any(near) {
            kept.push(place);
        }
    }
    kept
}
