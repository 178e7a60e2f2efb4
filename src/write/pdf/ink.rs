// SPDX-License-Identifier: MIT
//! Marks of a picture on a page of a PDF, in points from its upper left.

use super::face::FontFaces;
use super::pictured::pictured;
use super::points::points;
use crate::contour::{Contour, Point, Vec2, outside};
use crate::length::tolerance::READ;
use crate::picture::{Fill, INK, Mark, Pen, Picture, Tint};
use krilla::color::rgb;
use krilla::geom::{Path, PathBuilder, Transform};
use krilla::num::NormalizedF32;
use krilla::paint::{FillRule, LineCap, LineJoin, Stroke, StrokeDash};
use krilla::surface::Surface;

/// Draws a picture, its upper left in the page's.
pub(in crate::write) fn draw(surface: &mut Surface<'_>, faces: &FontFaces, picture: &Picture) {
    for mark in &picture.marks {
        one(surface, faces, mark, picture.height);
    }
}

fn one(surface: &mut Surface<'_>, faces: &FontFaces, mark: &Mark, height: f64) {
    match mark {
        Mark::Shape { contours, fill, pen } => {
            let Some(path) = closed(contours, height) else { return };
            match fill {
                None => {}
                Some(Fill::Flat(colour)) => fill_with(surface, &path, *colour),
                Some(Fill::Pictured { raster, tile }) => {
                    let drawn = pictured(surface, (&path, contours), (raster, *tile), height);
                    if !drawn {
                        fill_with(surface, &path, raster.mean());
                    }
                }
                Some(Fill::Hatched { ground, line, apart, turn }) => {
                    fill_with(surface, &path, *ground);
                    let pen = Pen { width: 0.25, colour: *line, dash: &[] };
                    stroke_with(
                        surface,
                        open(&hatch(contours, f64::from(*apart) / 10.0, f64::from(*turn)), height),
                        pen,
                    );
                }
            }
            if let Some(pen) = pen {
                stroke_with(surface, Some(path), *pen);
            }
        }
        Mark::Line { points, pen } => stroke_with(surface, open(std::slice::from_ref(points), height), *pen),
        Mark::Words { at, size, text, upwards } => {
            let at = place(*at, height);
            let turn = if *upwards { -90.0 } else { 0.0 };
            surface.push_transform(&Transform::from_rotate_at(turn, at.0, at.1));
            surface.set_stroke(None);
            surface.set_fill(Some(paint(INK)));
            faces.plain.centred(surface, at, *size, text);
            surface.pop();
        }
    }
}

fn fill_with(surface: &mut Surface<'_>, path: &Path, colour: Tint) {
    surface.set_stroke(None);
    surface.set_fill(Some(paint(colour)));
    surface.draw_path(path);
}

pub(in crate::write) fn stroke_with(surface: &mut Surface<'_>, path: Option<Path>, pen: Pen) {
    let Some(path) = path else { return };
    let dash = (!pen.dash.is_empty())
        .then(|| StrokeDash { array: pen.dash.iter().map(|length| points(*length)).collect(), offset: 0.0 });
    surface.set_fill(None);
    surface.set_stroke(Some(Stroke {
        paint: colour(pen.colour).into(),
        width: points(pen.width),
        miter_limit: 4.0,
        line_cap: if pen.dash.is_empty() { LineCap::Round } else { LineCap::Butt },
        line_join: LineJoin::Round,
        opacity: NormalizedF32::ONE,
        dash,
    }));
    surface.draw_path(&path);
}

pub(in crate::write) fn paint(tint: Tint) -> krilla::paint::Fill {
    krilla::paint::Fill { paint: colour(tint).into(), opacity: NormalizedF32::ONE, rule: FillRule::EvenOdd }
}

fn colour(Tint([red, green, blue]): Tint) -> rgb::Color {
    rgb::Color::new(red, green, blue)
}

/// Lines over what is filled, as far as it goes: of a line in the fill every second stretch between its edges. They go as a
/// browser turns them, `turn` degrees clockwise from upright.
fn hatch(contours: &[Contour], apart: f64, turn: f64) -> Vec<[Point; 2]> {
    let Some(bounds) = contours.iter().map(Contour::bounds).reduce(|all, one| all.union(one)) else {
        return Vec::new();
    };
    let step = apart.max(0.1);
    let (sin, cos) = turn.to_radians().sin_cos();
    // Along a line, and square to it.
    let (along, across) = (Vec2::new(sin, cos), Vec2::new(cos, -sin));
    let corners = [(bounds.x0, bounds.y0), (bounds.x1, bounds.y0), (bounds.x0, bounds.y1), (bounds.x1, bounds.y1)]
        .map(|(x, y)| Vec2::new(x, y));
    let ends = |way: Vec2| {
        corners
            .iter()
            .map(|corner| corner.dot(way))
            .fold((f64::MAX, f64::MIN), |(low, high), at| (low.min(at), high.max(at)))
    };
    let ((from, to), (first, last)) = (ends(along), ends(across));
    let mut lines = Vec::new();
    let mut at = (first / step).floor() * step;
    while at <= last {
        let end = |far: f64| (across * at + along * far).to_point();
        lines.extend(filled([end(from), end(to)], contours));
        at += step;
    }
    lines
}

/// What of a line lies in the fill: in an odd number of its contours.
fn filled([from, to]: [Point; 2], contours: &[Contour]) -> Vec<[Point; 2]> {
    let pieces = contours.iter().flat_map(|contour| outside(from, to, std::slice::from_ref(contour)));
    let mut ends: Vec<Point> = pieces.flat_map(|(start, end)| [start, end]).chain([from, to]).collect();
    ends.sort_by(|one, two| from.distance(*one).total_cmp(&from.distance(*two)));
    let in_fill = |pair: &&[Point]| {
        let middle = pair[0].midpoint(pair[1]);
        let around = contours.iter().filter(|contour| contour.contains(middle)).count();
        pair[0].distance(pair[1]) > READ && around % 2 == 1
    };
    ends.windows(2).filter(in_fill).map(|pair| [pair[0], pair[1]]).collect()
}

fn open(lines: &[impl AsRef<[Point]>], height: f64) -> Option<Path> {
    let mut path = PathBuilder::new();
    for line in lines {
        for (index, &point) in line.as_ref().iter().enumerate() {
            let (x, y) = place(point, height);
            if index == 0 { path.move_to(x, y) } else { path.line_to(x, y) }
        }
    }
    path.finish()
}

fn closed(contours: &[Contour], height: f64) -> Option<Path> {
    let mut path = PathBuilder::new();
    for contour in contours {
        for (index, edge) in contour.edges().enumerate() {
            if index == 0 {
                let (x, y) = place(edge.from, height);
                path.move_to(x, y);
            }
            let (x, y) = place(edge.to, height);
            if edge.is_line() {
                path.line_to(x, y);
            } else {
                let [(x1, y1), (x2, y2)] = edge.handles().map(|point| place(point, height));
                path.cubic_to(x1, y1, x2, y2, x, y);
            }
        }
        path.close();
    }
    path.finish()
}

/// A point in points from the page's upper left.
fn place(point: Point, height: f64) -> (f32, f32) {
    (points(point.x), points(height - point.y))
}
