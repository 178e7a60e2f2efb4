// SPDX-License-Identifier: MIT
//! Marks of a picture on a page of a PDF, in points from its upper left.

use super::face::FontFaces;
use super::pictured::pictured;
use super::points::points;
use crate::contour::{Contour, Point};
use crate::picture::{Fill, INK, Mark, Pen, Picture, Tint};
use crate::write::hatch::{HATCH_LINE, hatch};
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
                    let pen = Pen { width: HATCH_LINE, colour: *line, dash: &[] };
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
