// SPDX-License-Identifier: MIT
//! A sheet as SVG: three groups of plain paths at true size.
//!
//! SVG counts y downwards; this is the one place where sheets are turned over for it.

use super::frame::Frame;
use super::layers::{layer_colour, layer_name};
use super::number::{push, text};
use super::part_id;
use super::ribbon::ribbons;
use crate::contour::{Contour, Edge, Point, Vec2};
use crate::cutter::{Curves, Cutter, SvgLines};
use crate::length::MM_PER_INCH;
use crate::parts::Part;
use crate::toolpath::{Layer, SheetPaths, StrokePath};
use std::fmt::Write;

/// Width of the strokes on screen, mm: a hairline that prints.
const HAIRLINE: f64 = 0.1;

/// The unit of a file: how many to a millimetre, the root's suffix, and how many decimals make it no coarser than a
/// tenth of a micrometre.
fn unit(name: &str) -> (f64, &'static str, u32) {
    match name {
        "in" => (1.0 / MM_PER_INCH, "in", 6),
        // A pixel is 1/96 in (CSS Values and Units); some old readers take 1/90 (SVG 1.1, 7.10) or 1/72 in.
        "px96" => (96.0 / MM_PER_INCH, "", 4),
        "px90" => (90.0 / MM_PER_INCH, "", 4),
        "px72" => (72.0 / MM_PER_INCH, "", 4),
        _ => (1.0, "mm", 4),
    }
}

/// One sheet as an SVG file.
#[must_use]
pub fn svg(title: &str, parts: &[Part], sheet: &SheetPaths, cutter: &Cutter) -> String {
    let (scale, suffix, decimals) = unit(cutter.svg_units);
    let frame = Frame { scale, decimals, down_from: Some(sheet.height) };
    let (width, height) = (text(sheet.width * scale, decimals), text(sheet.height * scale, decimals));
    let mut out = String::with_capacity(256 + sheet.strokes.len() * 160);
    let _ = write!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" version=\"1.1\" width=\"{width}{suffix}\" height=\"{height}{suffix}\" viewBox=\"0 0 {width} {height}\">\n<title>{}: {}, cut {}</title>\n",
        escape(title),
        sheet.name,
        times(sheet.times)
    );
    let cubics = cutter.manner.curves == Curves::Cubics;
    let shapes = cutter.forms.svg_lines == SvgLines::Shapes;
    let style = |layer: Option<Layer>| {
        let colour = layer_colour(layer, &cutter.colours);
        if shapes {
            return format!("fill=\"{colour}\" stroke=\"none\"");
        }
        format!("fill=\"none\" stroke=\"{colour}\" stroke-width=\"{}\"", text(HAIRLINE * scale, decimals))
    };
    let line = |out: &mut String, run: &StrokePath| {
        if !shapes {
            return data(out, run, frame, cubics);
        }
        let mut pen = PathWriter { out, frame, cubics };
        for side in ribbons(run, frame, cutter.forms.hairline.mm()) {
            pen.round(&side);
        }
    };
    if !sheet.register.is_empty() {
        let style = style(None);
        let _ = writeln!(out, "<g id=\"{}\">", layer_name(None));
        for run in &sheet.register {
            out.push_str("<path d=\"");
            line(&mut out, run);
            let _ = writeln!(out, "\" {style}/>");
        }
        out.push_str("</g>\n");
    }
    for layer in Layer::in_order(cutter.forms.layer_order) {
        let style = style(Some(layer));
        let _ = writeln!(out, "<g id=\"{}\">", layer.name());
        for stroke in sheet.strokes.iter().filter(|stroke| stroke.layer == layer) {
            let before = out.len();
            let _ = write!(out, "<path data-part=\"{}\" data-copy=\"{}\"", part_id(parts, stroke.part), stroke.copy);
            if let Some(fold) = stroke.fold {
                let _ = write!(out, " data-fold=\"{}\"", fold.word());
            }
            out.push_str(" d=\"");
            let start = out.len();
            line(&mut out, &stroke.run);
            if out.len() == start {
                // All of it is smaller than the last decimal.
                out.truncate(before);
                continue;
            }
            let _ = writeln!(out, "\" {style}/>");
        }
        out.push_str("</g>\n");
    }
    out.push_str("</svg>\n");
    out
}

fn data(out: &mut String, run: &StrokePath, frame: Frame, cubics: bool) {
    let mut pen = PathWriter { out, frame, cubics };
    match run {
        StrokePath::Straight(pieces) => {
            let pieces = pieces.iter().filter(|(from, to)| !frame.meet(*from, *to));
            for (index, (from, to)) in pieces.enumerate() {
                pen.step(if index == 0 { "M" } else { " M" }, *from);
                pen.step(" L", *to);
            }
        }
        StrokePath::Closed(contour) => {
            pen.closed(contour);
        }
        StrokePath::Open(edges) => {
            for (index, edge) in frame.edges(edges.iter().copied()).enumerate() {
                if index == 0 {
                    pen.step("M", edge.from);
                }
                pen.edge(edge);
            }
        }
    }
}

/// Writes path data.
pub(super) struct PathWriter<'a> {
    pub out: &'a mut String,
    pub frame: Frame,
    /// Whether arcs are written as cubics; each of them is short enough then.
    pub cubics: bool,
}

impl PathWriter<'_> {
    pub(super) fn step(&mut self, command: &str, point: Point) {
        let (x, y) = self.frame.numbers(point);
        self.out.push_str(command);
        push(self.out, x, self.frame.decimals);
        self.out.push(' ');
        push(self.out, y, self.frame.decimals);
    }

    pub(super) fn closed(&mut self, contour: &Contour) {
        let mut edges = self.frame.edges(contour.edges()).peekable();
        let Some(first) = edges.peek() else { return };
        self.step("M", first.from);
        while let Some(edge) = edges.next() {
            // The last straight edge is what Z draws.
            if !(edge.is_line() && edges.peek().is_none()) {
                self.edge(edge);
            }
        }
        self.out.push_str(" Z");
    }

    /// Round a shape that edges follow, each of which ends where the next begins.
    fn round(&mut self, edges: &[Edge]) {
        let Some(first) = edges.first() else { return };
        self.step(if self.out.ends_with('"') { "M" } else { " M" }, first.from);
        for edge in edges {
            self.edge(*edge);
        }
        self.out.push_str(" Z");
    }

    fn edge(&mut self, edge: Edge) {
        if edge.is_line() {
            self.step(" L", edge.to);
            return;
        }
        if self.cubics {
            // The usual handles: 4/3 tan(angle/4) of the radius, and a bulge is that tangent.
            let arm = |out: Vec2| Vec2::new(-out.y, out.x) * (4.0 / 3.0 * edge.bulge);
            let centre = edge.centre();
            let near = edge.from + arm(edge.from - centre);
            let far = edge.to - arm(edge.to - centre);
            self.step(" C", near);
            self.step(" ", far);
            self.step(" ", edge.to);
            return;
        }
        let radius = text(edge.radius() * self.frame.scale, self.frame.decimals);
        // Seen with y down, counter-clockwise is still counter-clockwise to the eye: sweep 0.
        let sweep = u8::from(edge.bulge < 0.0);
        self.step(&format!(" A{radius} {radius} 0 0 {sweep} "), edge.to);
    }
}

/// How often, in words.
fn times(times: u32) -> String {
    if times == 1 { "once".into() } else { format!("{times} times") }
}

/// Text for XML: markup escaped, characters that XML does not allow replaced.
pub(super) fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\t' | '\n' => out.push(' '),
            c if c.is_control() || matches!(c, '\u{fffe}' | '\u{ffff}') => out.push('\u{fffd}'),
            c => out.push(c),
        }
    }
    out
}
