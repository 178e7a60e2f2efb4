// SPDX-License-Identifier: MIT
//! A picture as SVG, for people and for the PNG writer. Cutting files come from `svg.rs`.

use super::frame::Frame;
use super::number::text;
use super::pictured::{pattern_name, patterns};
use super::svg::{PathWriter as Path, escape};
use crate::contour::Contour;
use crate::picture::{Fill, INK, Mark, Pen, Picture, Tint};
use std::fmt::Write;

/// The family name of the bundled font, with what stands in for it where it is not bundled.
pub(super) const FONT: &str = "DejaVu Sans";

/// Which way the lines of hatches usually go, degrees.
const USUAL: u8 = 45;

/// The ground of a whole file.
const WHITE: &str = "#FFFFFF";

/// A picture as a whole SVG file on a white ground, one user unit to a millimetre.
#[must_use]
pub fn drawing(picture: &Picture) -> String {
    drawn(picture, Some(WHITE), false)
}

/// The same for the page, which has the pictures of stocks: where one would stand, its name and a colon do.
#[must_use]
pub fn linked(picture: &Picture) -> String {
    drawn(picture, Some(WHITE), true)
}

/// The same without a ground of its own, to be laid on something.
#[must_use]
pub fn cutout(picture: &Picture) -> String {
    drawn(picture, None, true)
}

fn drawn(picture: &Picture, ground: Option<&str>, linked: bool) -> String {
    let (width, height) = (text(picture.width, 4), text(picture.height, 4));
    let mut out = String::new();
    let _ = writeln!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"{width}mm\" height=\"{height}mm\" viewBox=\"0 0 {width} {height}\">"
    );
    out.push_str(&fills(&[picture], linked));
    if let Some(ground) = ground {
        let _ = writeln!(out, "<rect width=\"{width}\" height=\"{height}\" fill=\"{ground}\"/>");
    }
    marks(&mut out, picture);
    out.push_str("</svg>\n");
    out
}

/// A picture to stand in a page; the page has its hatches from [`hatches`] once for all pictures.
pub(super) fn inline(picture: &Picture, shows: &str) -> String {
    let (width, height) = (text(picture.width, 2), text(picture.height, 2));
    let mut out = format!(
        "<svg role=\"img\" aria-label=\"{}\" width=\"{width}mm\" height=\"{height}mm\" viewBox=\"0 0 {width} {height}\">",
        escape(shows)
    );
    marks(&mut out, picture);
    out.push_str("</svg>");
    out
}

fn marks(out: &mut String, picture: &Picture) {
    for mark in &picture.marks {
        match mark {
            Mark::Shape { contours, fill, pen } => {
                out.push_str("<path d=\"");
                for contour in contours {
                    closed(out, contour, picture.height);
                }
                let _ = writeln!(
                    out,
                    "\" fill=\"{}\" fill-rule=\"evenodd\"{}/>",
                    paint(fill.as_ref(), picture.height),
                    stroke(*pen)
                );
            }
            Mark::Line { points, pen } => {
                out.push_str("<path d=\"");
                let mut path = Path { out: &mut *out, frame: frame(picture.height), cubics: false };
                for (index, &point) in points.iter().enumerate() {
                    path.step(if index == 0 { "M" } else { " L" }, point);
                }
                let _ = writeln!(
                    out,
                    "\" fill=\"none\" stroke-linecap=\"{}\" stroke-linejoin=\"round\"{}/>",
                    cap(*pen),
                    stroke(Some(*pen))
                );
            }
            Mark::Words { at, size, text: words, upwards } => {
                let (x, y) = (text(at.x, 4), text(picture.height - at.y, 4));
                let turn = if *upwards { format!(" transform=\"rotate(-90 {x} {y})\"") } else { String::new() };
                // A third of the em below the middle puts the letters' own middle on the point.
                let drop = text(size * 0.36, 4);
                let _ = writeln!(
                    out,
                    "<text x=\"{x}\" y=\"{y}\" dy=\"{drop}\" font-family=\"{FONT}, sans-serif\" font-size=\"{}\" text-anchor=\"middle\" fill=\"{INK}\"{turn}>{}</text>",
                    text(*size, 4),
                    escape(words)
                );
            }
        }
    }
}

fn closed(out: &mut String, contour: &Contour, height: f64) {
    Path { out, frame: frame(height), cubics: false }.closed(contour);
    out.push(' ');
}

/// Millimetres, y down.
fn frame(height: f64) -> Frame {
    Frame { scale: 1.0, decimals: 4, down_from: Some(height) }
}

fn paint(fill: Option<&Fill>, height: f64) -> String {
    match fill {
        None => "none".into(),
        Some(Fill::Flat(colour)) => colour.to_string(),
        Some(Fill::Pictured { raster, tile }) => format!("url(#{})", pattern_name(raster, *tile, height)),
        Some(fill @ Fill::Hatched { .. }) => format!("url(#{})", hatch_name(fill)),
    }
}

fn stroke(pen: Option<Pen>) -> String {
    let Some(pen) = pen else { return String::new() };
    let dash: Vec<String> = pen.dash.iter().map(|length| text(*length, 4)).collect();
    let dash = if dash.is_empty() { String::new() } else { format!(" stroke-dasharray=\"{}\"", dash.join(" ")) };
    format!(" stroke=\"{}\" stroke-width=\"{}\"{dash}", pen.colour, text(pen.width, 4))
}

/// Lines that meet end to end have round ends; the dashes of a dashed one keep their length.
fn cap(pen: Pen) -> &'static str {
    if pen.dash.is_empty() { "round" } else { "butt" }
}

fn hatch_name(fill: &Fill) -> String {
    let plain = |tint: Tint| tint.to_string().trim_start_matches('#').to_owned();
    match fill {
        Fill::Flat(colour) => plain(*colour),
        Fill::Pictured { raster, .. } => raster.name().to_owned(),
        Fill::Hatched { ground, line, apart, turn } => {
            // Lines as they usually go need no word.
            let turned = if *turn == USUAL { String::new() } else { format!("-{turn}") };
            format!("hatch-{}-{}-{apart}{turned}", plain(*ground), plain(*line))
        }
    }
}

/// The hatches and pictures that pictures use, each once; nothing where they use none.
pub(super) fn hatches(pictures: &[&Picture]) -> String {
    fills(pictures, false)
}

fn fills(pictures: &[&Picture], linked: bool) -> String {
    let mut made: Vec<&Fill> = Vec::new();
    let mut pictured = String::new();
    patterns(&mut pictured, pictures, linked);
    for mark in pictures.iter().flat_map(|picture| &picture.marks) {
        if let Mark::Shape { fill: Some(fill @ Fill::Hatched { .. }), .. } = mark
            && !made.contains(&fill)
        {
            made.push(fill);
        }
    }
    let mut out = String::new();
    if made.is_empty() && pictured.is_empty() {
        return out;
    }
    out.push_str("<defs>\n");
    out.push_str(&pictured);
    for fill in made {
        let Fill::Hatched { ground, line, apart, turn } = fill else { continue };
        let (name, side) = (hatch_name(fill), text(f64::from(*apart) / 10.0, 4));
        let _ = writeln!(
            out,
            "<pattern id=\"{name}\" width=\"{side}\" height=\"{side}\" patternUnits=\"userSpaceOnUse\" \
             patternTransform=\"rotate({turn})\"><rect width=\"{side}\" height=\"{side}\" fill=\"{ground}\"/>\
             <rect width=\"0.25\" height=\"{side}\" fill=\"{line}\"/></pattern>"
        );
    }
    out.push_str("</defs>\n");
    out
}
