// SPDX-License-Identifier: MIT
//! Outlines that were drawn elsewhere: from an SVG or DXF file to one closed outline, its holes and its scores.
//!
//! In: a drawing's text, what is asked of it ([`AskedOutline`]: a unit, or the width or height that it is to have; layers). Out: a
//! [`DrawnShape`] of straight edges and true arcs, which the rest takes like any other; or all that stands in the way, with
//! its place in the drawing. Never: opens a file, fetches anything, guesses a unit.
//!
//! What is drawn closed, or meets end to end within 0.003 mm, is a ring. The one that lies in no other is the outline, those
//! in it are its holes. Lines and circles stay what they are; all other curves become arcs that keep within 0.004 mm of them,
//! so that what comes out lies within 0.01 mm of what was drawn.
//!
//! ```
//! use hingeleaf::outline::{AskedOutline, drawing, read};
//!
//! let text = r#"<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 40 20"><circle cx="10" cy="10" r="10"/></svg>"#;
//! let source = drawing("moon.svg", text.into()).map_err(|_| "no text")?;
//! let shape = read(&source, &AskedOutline::of("moon.svg").wide(50.0)).value.ok_or("no shape")?;
//! assert!((shape.outline.area() - 625.0 * std::f64::consts::PI).abs() < 1e-6);
//! # Ok::<(), &str>(())
//! ```

mod arcs;
mod asked;
mod curve;
mod drawing;
mod dxf;
mod dxf_groups;
mod join;
mod scores;
mod spline;
mod svg;
mod svg_path;
mod whole;

pub use asked::{AskedOutline, DrawnUnit, HEIGHT, OUTLINE, Outlined, ScoredAs, WIDTH, asked};
pub(crate) use asked::{OUTLINE_FIELDS, schema};

use crate::contour::{Contour, Point, Rect};
use crate::fields::{Source, meant_or};
use crate::finding::{Arg, Checked, Finding, Said};
use crate::length::{Length, excerpt};
use drawing::{Drawing, DrawnRun, Notices};
use join::EdgeRun;
use kurbo::Affine;

/// The smallest that a shape may be in either direction, mm.
pub const LEAST: f64 = 1.0;

/// The smallest and the largest that a shape may be in either direction, mm: what a size field takes.
const SIZES: std::ops::RangeInclusive<f64> = LEAST..=2000.0;

/// Width and height that are both asked for may differ from the drawing's proportions by this share: our choice, less than a
/// ruler shows.
const PROPORTION: f64 = 0.002;

/// An outline, its holes and scores, mm, the lower left of its box at the origin.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct DrawnShape {
    /// Counter-clockwise.
    pub outline: Contour,
    /// Clockwise.
    pub holes: Vec<Contour>,
    /// Straight, from edge to edge.
    pub scores: Vec<[Point; 2]>,
}

/// Takes a drawing's bytes. Letters that are not UTF-8 are let pass: they stand in names alone.
///
/// # Errors
/// A finding where the file is too large.
pub fn drawing(name: &str, bytes: Vec<u8>) -> Result<Source, Box<Finding>> {
    let text = String::from_utf8(bytes).unwrap_or_else(|error| String::from_utf8_lossy(error.as_bytes()).into_owned());
    Source::new(name, text.into_bytes())
}

/// Reads the shape that a drawing holds.
#[must_use]
pub fn read(source: &Source, asked: &AskedOutline) -> Checked<DrawnShape> {
    let mut notices = Notices::new(asked.units);
    let shape = shape(source, asked, &mut notices);
    let findings = notices.told();
    match shape {
        Some(shape) => Checked::new(shape, findings),
        None => Checked::none(findings),
    }
}

fn shape(source: &Source, asked: &AskedOutline, notices: &mut Notices) -> Option<DrawnShape> {
    let is_svg = source.text().trim_start().starts_with('<');
    let mut drawing = if is_svg { svg::read(source, notices) } else { dxf::read(source, notices) }?;
    let unsound = drawing.runs.iter().position(|run| run.curves.iter().any(|curve| !curve.is_sound()));
    if let Some(unsound) = unsound {
        let run = &drawing.runs[unsound];
        let text = Said::new("outline-bad-entity").with("what", Arg::code(&run.what));
        notices.tell(drawing::stop("outline-unread", text, "outline-bad-entity-help", &run.place));
        return None;
    }
    let (cuts, scores) = layers(&mut drawing, asked, notices)?;
    let Some(extent) = drawing::bounds(cuts.iter().flat_map(|run| &run.curves)) else {
        notices.tell(asking(asked, "outline-empty", Said::new("outline-empty"), "outline-empty-help"));
        return None;
    };
    let scale = scale(drawing.unit, extent, asked, notices)?;
    notices.corner = Point::new(extent.x0 * scale, extent.y0 * scale);
    let map = Affine::scale(scale);
    let edges = |runs: Vec<DrawnRun>| -> Vec<EdgeRun> {
        let one = |run: DrawnRun| {
            let mut edges = Vec::new();
            run.curves.iter().for_each(|curve| arcs::edges(&curve.mapped(map), &mut edges));
            EdgeRun { edges, closed: run.closed, what: run.what, place: run.place }
        };
        runs.into_iter().map(one).collect()
    };
    let rings = join::rings(edges(cuts), notices);
    let scores = edges(scores);
    if crate::finding::stops(&notices.findings) {
        // What is open or unread would only be told again as a crossing or as several.
        return None;
    }
    let (outline, holes) = whole::whole(&rings, notices)?;
    let size = (outline.bounds().width(), outline.bounds().height());
    if !sized(size, size, asked, notices) {
        return None;
    }
    let scores = scores::scores(&scores, &outline, notices)?;
    Some(placed(&DrawnShape { outline, holes, scores }, asked))
}

/// What is wrong with what is asked.
fn asking(asked: &AskedOutline, id: &'static str, text: Said, help: &'static str) -> Finding {
    Finding::stop(id, Said::NOTHING, text.with("file", Arg::quoted(&asked.file)))
        .help(Said::new(help))
        .at(asked.place.as_ref())
}

/// What is cut and what is scored; nothing where a layer is asked for that holds nothing.
fn layers(
    drawing: &mut Drawing,
    asked: &AskedOutline,
    notices: &mut Notices,
) -> Option<(Vec<DrawnRun>, Vec<DrawnRun>)> {
    let runs = std::mem::take(&mut drawing.runs);
    let wanted = |name: &Option<String>| name.as_ref().map(|name| excerpt(name));
    let (layer, scores) = (wanted(&asked.layer), wanted(&asked.scores));
    let mut fine = true;
    for name in [&layer, &scores].into_iter().flatten() {
        if !runs.iter().any(|run| run.is_on(name)) {
            let mut known: Vec<&String> = runs.iter().flat_map(|run| run.layers.iter()).take(200).collect();
            known.sort();
            known.dedup();
            let text = Said::new("outline-no-layer").with("layer", Arg::quoted(name));
            let help = if known.is_empty() {
                Said::new("outline-no-layers-help")
            } else {
                meant_or("outline-no-layer-help", name, known.iter().map(|name| name.as_str()))
            };
            let text = text.with("file", Arg::quoted(&asked.file));
            notices.tell(Finding::stop("outline-no-layer", Said::NOTHING, text).help(help).at(asked.place.as_ref()));
            fine = false;
        }
    }
    let (scored, rest): (Vec<_>, Vec<_>) =
        runs.into_iter().partition(|run| scores.as_ref().is_some_and(|name| run.is_on(name)));
    let cuts = rest.into_iter().filter(|run| layer.as_ref().is_none_or(|name| run.is_on(name))).collect();
    fine.then_some((cuts, scored))
}

/// How many mm a unit of the drawing becomes.
fn scale(unit: Option<f64>, extent: Rect, asked: &AskedOutline, notices: &mut Notices) -> Option<f64> {
    let by = |length: Option<Length>, side: f64| length.map(|length| length.mm() / side);
    let scale = match (by(asked.width, extent.width()), by(asked.height, extent.height())) {
        (Some(across), Some(up)) => {
            if (across / up - 1.0).abs() > PROPORTION {
                let height = Length::from_mm(extent.height() * across);
                let text = Said::new("outline-proportions").with("height", Arg::Roughly(height, asked.units));
                notices.tell(asking(asked, "outline-proportions", text, "outline-proportions-help"));
                return None;
            }
            across
        }
        (Some(scale), None) | (None, Some(scale)) => scale,
        (None, None) => {
            let Some(unit) = asked.unit.map(DrawnUnit::mm).or(unit) else {
                notices.tell(asking(asked, "outline-no-unit", Said::new("outline-no-unit"), "outline-no-unit-help"));
                return None;
            };
            unit
        }
    };
    let size = (extent.width() * scale, extent.height() * scale);
    // What has no width or no height at all is no shape, and told as what it is.
    sized((size.0.max(size.1), size.0.max(size.1)), size, asked, notices).then_some(scale)
}

/// Whether a shape is neither too small nor too large, which is told.
fn sized(looked_at: (f64, f64), (width, height): (f64, f64), asked: &AskedOutline, notices: &mut Notices) -> bool {
    let fine = SIZES.contains(&looked_at.0) && SIZES.contains(&looked_at.1);
    if !fine {
        let mm = |mm: f64| Arg::Roughly(Length::from_mm(if mm.is_finite() { mm.min(1e9) } else { 0.0 }), asked.units);
        let text = Said::new("outline-size")
            .with("width", mm(width))
            .with("height", mm(height))
            .with("least", mm(*SIZES.start()))
            .with("most", mm(*SIZES.end()));
        notices.tell(asking(asked, "outline-size", text, "outline-size-help"));
    }
    fine
}

/// The shape with its lower left at the origin, exactly as large as is asked: arcs in place of curves may reach a few
/// thousandths more or less far.
fn placed(shape: &DrawnShape, asked: &AskedOutline) -> DrawnShape {
    let bounds = shape.outline.bounds();
    let by = |length: Option<Length>, side: f64| length.map(|length| length.mm() / side);
    let scale = by(asked.width, bounds.width()).or(by(asked.height, bounds.height())).unwrap_or(1.0);
    let map = |point: Point| ((point - Point::new(bounds.x0, bounds.y0)) * scale).to_point();
    let moved = |contour: &Contour| contour.mapped(map);
    DrawnShape {
        outline: moved(&shape.outline),
        holes: shape.holes.iter().map(moved).collect(),
        scores: shape.scores.iter().map(|score| score.map(map)).collect(),
    }
}
