// SPDX-License-Identifier: MIT
//! Pictures as the pages of a PDF: true size, real text, a bookmark a page, tagged for those who do not see it (PDF/UA-1).

use super::font::LETTERS;
use crate::contour::{Contour, Edge, Point, Vec2, outside};
use crate::length::tolerance::READ;
use crate::picture::{Fill, INK, Mark, Pen, Picture, measure};
use krilla::color::rgb;
use krilla::configure::{Accessibility, Configuration, ConfigurationBuilder};
use krilla::destination::XyzDestination;
use krilla::geom::{Path, PathBuilder, Transform};
use krilla::metadata::Metadata;
use krilla::num::NormalizedF32;
use krilla::outline::{Outline, OutlineNode};
use krilla::page::PageSettings;
use krilla::paint::{FillRule, LineCap, LineJoin, Stroke, StrokeDash};
use krilla::surface::Surface;
use krilla::tagging::{ContentTag, Tag, TagGroup, TagTree};
use krilla::text::{Font, TextDirection};
use krilla::{Document, SerializeSettings};
use std::io;

/// A page of a PDF.
#[derive(Clone, Copy, Debug)]
pub struct PdfPage<'a> {
    /// What is on it; the page is as large as this.
    pub picture: &'a Picture,
    /// Its bookmark.
    pub name: &'a str,
    /// What it shows, in words.
    pub shows: &'a str,
}

/// Points to a millimetre: 72 to an inch.
const POINTS: f64 = 72.0 / 25.4;

/// A PDF of these pages; the same bytes each time. It keeps to PDF/UA-1, but for letters that the bundled font has not: a
/// maker's own names may be in any script, and these are boxes in it.
///
/// # Errors
/// A page without a size.
pub fn pdf(title: &str, language: &str, pages: &[PdfPage<'_>]) -> io::Result<Vec<u8>> {
    let strict = ConfigurationBuilder::new().with_accessibility_validator(Accessibility::UA1);
    let strict = strict.finish().map_err(|error| failed(&format!("{error:?}")))?;
    document(strict, title, language, pages).or_else(|_| document(Configuration::default(), title, language, pages))
}

fn failed(why: &str) -> io::Error {
    io::Error::other(format!("the PDF can't be made: {why}"))
}

fn document(configuration: Configuration, title: &str, language: &str, pages: &[PdfPage<'_>]) -> io::Result<Vec<u8>> {
    let mut document = Document::new_with(SerializeSettings { configuration, ..SerializeSettings::default() });
    let font = Font::new(LETTERS.into(), 0).ok_or_else(|| failed("its font can't be read"))?;
    let (mut outline, mut tags) = (Outline::new(), TagTree::new());
    for (number, one) in pages.iter().enumerate() {
        let size = PageSettings::from_wh(points(one.picture.width), points(one.picture.height));
        let mut page = document.start_page_with(size.ok_or_else(|| failed("a page has no size"))?);
        let mut surface = page.surface();
        let drawn = surface.start_tagged(ContentTag::Other);
        for mark in &one.picture.marks {
            draw(&mut surface, &font, mark, one.picture.height);
        }
        surface.end_tagged();
        surface.finish();
        page.finish();
        let mut figure = TagGroup::new(Tag::Figure(Some(one.shows.to_owned())));
        figure.push(drawn);
        tags.push(figure);
        let top = XyzDestination::new(number, krilla::geom::Point::from_xy(0.0, 0.0));
        outline.push_child(OutlineNode::new(one.name.to_owned(), top));
    }
    document.set_outline(outline);
    document.set_tag_tree(tags);
    document.set_metadata(Metadata::new().title(title.to_owned()).language(language.to_owned()));
    document.finish().map_err(|error| failed(&format!("{error:?}")))
}

fn draw(surface: &mut Surface<'_>, font: &Font, mark: &Mark, height: f64) {
    match mark {
        Mark::Shape { contours, fill, pen } => {
            let Some(path) = closed(contours, height) else { return };
            match fill {
                None => {}
                Some(Fill::Flat(colour)) => fill_with(surface, &path, colour),
                Some(Fill::Hatched { ground, line, apart }) => {
                    fill_with(surface, &path, ground);
                    let pen = Pen { width: 0.25, colour: line, dash: &[] };
                    for lines in hatch(contours, f64::from(*apart) / 10.0) {
                        stroke_with(surface, open(&lines, height), pen);
                    }
                }
            }
            if let Some(pen) = pen {
                stroke_with(surface, Some(path), *pen);
            }
        }
        Mark::Line { points, pen } => stroke_with(surface, open(points, height), *pen),
        Mark::Words { at, size, text, upwards } => {
            // Letters begin half their width before the middle, a third of the em below it.
            let (half, drop) = (measure(text, *size) / 2.0, size * 0.36);
            let (x, y) = place(*at, height);
            let turn = if *upwards { -90.0 } else { 0.0 };
            surface.push_transform(&Transform::from_rotate_at(turn, x, y));
            surface.set_stroke(None);
            surface.set_fill(Some(paint(INK)));
            let start = krilla::geom::Point::from_xy(x - points(half), y + points(drop));
            surface.draw_text(start, font.clone(), points(*size), text, false, TextDirection::LeftToRight);
            surface.pop();
        }
    }
}

fn fill_with(surface: &mut Surface<'_>, path: &Path, colour: &str) {
    surface.set_stroke(None);
    surface.set_fill(Some(paint(colour)));
    surface.draw_path(path);
}

fn stroke_with(surface: &mut Surface<'_>, path: Option<Path>, pen: Pen) {
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

fn paint(hex: &str) -> krilla::paint::Fill {
    krilla::paint::Fill { paint: colour(hex).into(), opacity: NormalizedF32::ONE, rule: FillRule::EvenOdd }
}

/// `#RRGGBB`.
fn colour(hex: &str) -> rgb::Color {
    let part = |from: usize| hex.get(from..from + 2).and_then(|part| u8::from_str_radix(part, 16).ok()).unwrap_or(0);
    rgb::Color::new(part(1), part(3), part(5))
}

/// Lines at 45 degrees over what is filled, as far as it goes: of a line in the fill every second stretch between its edges.
fn hatch(contours: &[Contour], apart: f64) -> Vec<[Point; 2]> {
    let Some(bounds) = contours.iter().map(Contour::bounds).reduce(|all, one| all.union(one)) else {
        return Vec::new();
    };
    // On x + y = c, square to it every `apart`.
    let step = apart.max(0.1) * std::f64::consts::SQRT_2;
    let first = ((bounds.x0 + bounds.y0) / step).floor();
    let mut lines = Vec::new();
    let mut c = first * step;
    while c <= bounds.x1 + bounds.y1 {
        let ends = [Point::new(c - bounds.y0, bounds.y0), Point::new(c - bounds.y1, bounds.y1)];
        lines.extend(filled(ends, contours));
        c += step;
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

fn open(points: &[Point], height: f64) -> Option<Path> {
    let mut path = PathBuilder::new();
    for (index, &point) in points.iter().enumerate() {
        let (x, y) = place(point, height);
        if index == 0 { path.move_to(x, y) } else { path.line_to(x, y) }
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
                let [(x1, y1), (x2, y2)] = handles(edge).map(|point| place(point, height));
                path.cubic_to(x1, y1, x2, y2, x, y);
            }
        }
        path.close();
    }
    path.finish()
}

/// The handles of a cubic curve for an arc of no more than a quarter turn: 4/3 tan(a/4) of the radius along its tangents. A
/// quarter of radius r stands off by 0.0003 r (Goldapp, *Computer Aided Geometric Design* 8, 1991).
fn handles(edge: Edge) -> [Point; 2] {
    let centre = edge.centre();
    let long = 4.0 / 3.0 * edge.bulge;
    let left = |way: Vec2| Vec2::new(-way.y, way.x);
    [edge.from + left(edge.from - centre) * long, edge.to - left(edge.to - centre) * long]
}

/// A point in points from the page's upper left.
fn place(point: Point, height: f64) -> (f32, f32) {
    (points(point.x), points(height - point.y))
}

#[allow(clippy::cast_possible_truncation, reason = "a thousandth of a millimetre on a page of a metre is kept")]
fn points(mm: f64) -> f32 {
    (mm * POINTS) as f32
}
