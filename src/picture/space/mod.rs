// SPDX-License-Identifier: MIT
//! Folded things as solid pictures: every panel a slab, what is behind is hidden.
//!
//! In: panels with their places in space. Out: a [`Picture`]. Never: knows what is folded.
//!
//! ```text
//!      z (towards you from a face that lies on the table)
//!      |  / y (towards the head)
//!      | /
//!      |/____ x (from the spine to the fore-edge), turned up a little to the right
//! ```
//!
//! One view for every picture: looked at from before the tail and a little from the left, so that the spine, the tail and
//! the upper face are seen. Turn and tilt are our choice. Parallel lines stay parallel, sizes shrink with no distance.

mod facet;
mod painting;
mod slab;
mod view;

use super::{Fill, INK, Mark, Pen, Picture, Stuff, Tint};
use crate::contour::{Contour, Point, Rect, Vec2};
use crate::length::tolerance::SAME;
use crate::net::{Net, Sense, Stand};
use facet::{Facet, LineRole};
use glam::DVec3;
use std::collections::BTreeMap;

pub(super) use view::TURN;
use view::looked_at;

/// Lines nearer to each other than this run into one, mm.
const CLOSE: f64 = 0.5;

/// Outlines, and folds between panels.
const OUTLINE: Pen = Pen { width: 0.3, colour: INK, dash: &[] };
const CREASE: Pen = Pen { width: 0.18, colour: INK, dash: &[] };
/// The way something goes, and the white about it.
const WAY: Pen = Pen { width: 0.5, colour: Tint([0x00, 0x72, 0xB2]), dash: &[] };
const HALO: Pen = Pen { width: 1.4, colour: Tint([255; 3]), dash: &[] };

/// Things in space, mm.
#[derive(Clone, Debug, Default)]
pub struct Scene {
    slabs: Vec<slab::Slab>,
    ways: Vec<Vec<DVec3>>,
}

impl Scene {
    /// Adds a piece whose panels stand so, of card `caliper` mm thick, the whole moved by `by`.
    pub fn piece(&mut self, net: &Net, stands: &[Stand], caliper: f64, stuff: &Stuff, by: &Stand) {
        let all: Vec<usize> = (0..net.panels.len()).collect();
        self.panels(net, stands, caliper, stuff, &|panel| all.contains(&panel).then_some(*by));
    }

    /// Adds the panels of a piece that `by` gives a move.
    pub fn panels(
        &mut self,
        net: &Net,
        stands: &[Stand],
        caliper: f64,
        stuff: &Stuff,
        by: &dyn Fn(usize) -> Option<Stand>,
    ) {
        // The net lies where it was made, pictures lie on the flat part.
        let corner = net.panels.iter().map(|panel| panel.outline.bounds()).reduce(|all, one| all.union(one));
        let corner = corner.map_or(Vec2::ZERO, |bounds| Vec2::new(bounds.x0, bounds.y0));
        for (number, (panel, stand)) in net.panels.iter().zip(stands).enumerate() {
            let Some(by) = by(number) else { continue };
            let within = |hole: &&Contour| panel.outline.encloses(hole) && !panel.outline.meets(hole);
            let folds = net.folds.iter().filter(|fold| fold.between.contains(&number));
            let bend = net.folds.iter().find(|fold| fold.sense == Sense::Bent && fold.between[1] == number);
            self.slabs.push(slab::Slab {
                outline: bend
                    .map_or_else(|| panel.outline.clone(), |bend| slab::pinched(&panel.outline, [bend.from, bend.to])),
                holes: net.holes.iter().filter(within).cloned().collect(),
                folds: folds.map(|fold| [fold.from, fold.to]).collect(),
                stand: by * *stand,
                caliper,
                stuff: stuff.clone(),
                corner,
            });
        }
    }

    /// Adds an arrow through points, drawn above everything: the way a flap goes, or a piece slides.
    pub fn way(&mut self, points: Vec<DVec3>) {
        if points.len() > 1 {
            self.ways.push(points);
        }
    }

    /// The picture, as large as the room (width and height, mm) takes it, at most at true size; its box fits tightly.
    #[must_use]
    pub fn picture(&self, room: (f64, f64)) -> Picture {
        let seen: Vec<slab::SlabView> = self.slabs.iter().map(slab::Slab::seen).collect();
        let ways: Vec<Vec<DVec3>> =
            self.ways.iter().map(|way| way.iter().map(|point| looked_at(*point)).collect()).collect();
        let points = seen.iter().flat_map(slab::SlabView::points).chain(ways.iter().flatten().copied());
        let bounds =
            points.map(|point| Rect::new(point.x, point.y, point.x, point.y)).reduce(|all, one| all.union(one));
        let Some(bounds) = bounds else { return Picture { width: 0.0, height: 0.0, marks: Vec::new() } };
        let edge = 2.0;
        let fit = |room: f64, size: f64| (room - 2.0 * edge).max(1.0) / size.max(SAME);
        let scale = fit(room.0, bounds.width()).min(fit(room.1, bounds.height())).min(1.0);
        let faces: Vec<Facet> = seen.iter().flat_map(|seen| seen.faces(scale)).collect();
        let place = |point: DVec3| {
            Point::new((point.x - bounds.x0).mul_add(scale, edge), (point.y - bounds.y0).mul_add(scale, edge))
        };
        let mut picture = Picture {
            width: bounds.width().mul_add(scale, 2.0 * edge),
            height: bounds.height().mul_add(scale, 2.0 * edge),
            marks: Vec::new(),
        };
        let mut faces = painting::painted(faces);
        thin_out(&mut faces, scale);
        for face in &faces {
            draw(&mut picture, face, &place);
        }
        for way in ways {
            arrow(&mut picture, &way.into_iter().map(place).collect::<Vec<_>>());
        }
        picture
    }
}

/// Takes away every line that would run along a nearer one too close to be told from it, so that a stack of sheets is no
/// black bar.
fn thin_out(faces: &mut [Facet], scale: f64) {
    #[allow(clippy::cast_possible_truncation, reason = "a float-to-integer cast saturates")]
    let cell = |point: DVec3| ((point.x * scale / CLOSE).floor() as i64, (point.y * scale / CLOSE).floor() as i64);
    let mut kept: BTreeMap<(i64, i64), Vec<[DVec3; 2]>> = BTreeMap::new();
    for face in faces.iter_mut().rev() {
        let mut mine = Vec::new();
        face.lines.retain(|(_, ends)| {
            let (x, y) = cell(ends[0].midpoint(ends[1]));
            let near = |one: DVec3, other: DVec3| (one - other).truncate().length() * scale < CLOSE;
            let along = |[from, to]: &[DVec3; 2]| {
                (near(*from, ends[0]) && near(*to, ends[1])) || (near(*from, ends[1]) && near(*to, ends[0]))
            };
            let around = (-1..=1).flat_map(|across| (-1..=1).map(move |up| (x + across, y + up)));
            let hidden = around.filter_map(|cell| kept.get(&cell)).flatten().any(along);
            if !hidden {
                mine.push(*ends);
            }
            !hidden
        });
        // Lines of one face never hide each other.
        for ends in mine {
            kept.entry(cell(ends[0].midpoint(ends[1]))).or_default().push(ends);
        }
    }
}

/// Draws one face: its fill, the seams where it was divided, its lines.
fn draw(picture: &mut Picture, face: &Facet, place: &dyn Fn(DVec3) -> Point) {
    if let Some(fill) = face.fill() {
        let outline = |ring: &Vec<DVec3>| Contour::polygon(ring.iter().map(|point| (place(*point).x, place(*point).y)));
        let colour = fill.ground();
        let fill = fill.mapped(|point| place(DVec3::new(point.x, point.y, 0.0)));
        let contours = face.rings.iter().map(outline).filter(|contour| contour.vertices().len() > 2).collect();
        picture.marks.push(Mark::Shape { contours, fill: Some(fill), pen: None });
        // Without these the ground would shine through between the pieces of a divided face.
        let joint = Pen { width: 0.12, colour, dash: &[] };
        for [from, to] in face.joints.iter().map(|ends| ends.map(place)) {
            picture.marks.push(Mark::Line { points: vec![from, to], pen: joint });
        }
    }
    let mut run: Vec<Point> = Vec::new();
    let mut pen = OUTLINE;
    for (line, [from, to]) in face.lines.iter().map(|(line, ends)| (*line, ends.map(place))) {
        let its = if line == LineRole::Outline { OUTLINE } else { CREASE };
        let goes_on = pen == its && run.last().is_some_and(|last| last.distance(from) < SAME);
        if !goes_on {
            flush(picture, &mut run, pen);
            run.push(from);
        }
        pen = its;
        run.push(to);
    }
    flush(picture, &mut run, pen);
}

fn flush(picture: &mut Picture, run: &mut Vec<Point>, pen: Pen) {
    if run.len() > 1 {
        picture.marks.push(Mark::Line { points: std::mem::take(run), pen });
    }
    run.clear();
}

/// A line with a head at its end.
fn arrow(picture: &mut Picture, points: &[Point]) {
    let (Some(&tip), Some(&first)) = (points.last(), points.first()) else { return };
    // The head looks along the last stretch of its own length.
    let behind = points.iter().rev().find(|point| point.distance(tip) > 3.0).unwrap_or(&first);
    let Some(along) = Some(tip - *behind).filter(|way| way.hypot() > SAME).map(Vec2::normalize) else { return };
    let (foot, across) = (tip - along * 3.2, Vec2::new(-along.y, along.x) * 1.2);
    // The shaft ends where the head begins; an arc may come back past its own head before that.
    let kept = points.iter().rposition(|point| point.distance(tip) > 3.2).map_or(0, |last| last + 1);
    let mut shaft: Vec<Point> = points.iter().copied().take(kept).collect();
    shaft.push(foot);
    let head = Contour::polygon([tip, foot + across, foot - across].map(|point| (point.x, point.y)));
    picture.marks.push(Mark::Line { points: shaft.clone(), pen: HALO });
    let about = vec![tip, foot + across, foot - across, tip];
    picture.marks.push(Mark::Line { points: about, pen: HALO });
    picture.marks.push(Mark::Line { points: shaft, pen: WAY });
    picture.marks.push(Mark::Shape { contours: vec![head], fill: Some(Fill::Flat(WAY.colour)), pen: None });
}
