// SPDX-License-Identifier: MIT
//! SVG files, read by a library for XML and one for path data.

use super::cubic::cubic;
use super::{Bow, Pull, Rounding, in_order, near, pulls, ribbon};
use crate::contour::Point;
use crate::cutter::{Cutter, SvgLines};
use crate::length::MM_PER_INCH;
use crate::net::Sense;
use crate::parts::Part;
use crate::toolpath::{Layer, SheetPaths, Stroke, StrokePath};
use crate::write::layers::{layer_colour, layer_name, layers_of};
use crate::write::part_id;
use roxmltree::{Document, Node};
use svgtypes::{PathParser, PathSegment};

/// The step of the last of four decimals, which files in millimetres and pixels have, and of six, which those in inches have.
const FOUR: f64 = 1e-4;
const SIX: f64 = 1e-6;

/// A unit of SVG files: what stands behind the root's numbers, how many mm it is, the step of its last decimal in it.
#[derive(Clone, Copy)]
struct Unit {
    suffix: &'static str,
    mm: f64,
    step: f64,
}

impl Unit {
    fn of(cutter: &Cutter) -> Self {
        let (suffix, mm, step) = match cutter.svg_units {
            "in" => ("in", MM_PER_INCH, SIX),
            "px96" => ("", MM_PER_INCH / 96.0, FOUR),
            "px90" => ("", MM_PER_INCH / 90.0, FOUR),
            "px72" => ("", MM_PER_INCH / 72.0, FOUR),
            _ => ("mm", 1.0, FOUR),
        };
        Self { suffix, mm, step }
    }

    fn rounding(self) -> Rounding {
        Rounding { step: self.step * self.mm }
    }
}

/// A path of a file: on which layer it stands, where it runs.
struct Path<'a> {
    node: Node<'a, 'a>,
    layer: &'static str,
    pulls: Vec<Pull<Bow>>,
}

/// Reads an SVG file back.
///
/// # Errors
/// What is not as it was meant.
pub(in crate::write) fn svg(text: &str, parts: &[Part], sheet: &SheetPaths, cutter: &Cutter) -> Result<(), String> {
    let unit = Unit::of(cutter);
    let document = Document::parse(text).map_err(|error| format!("it can't be read: {error}"))?;
    let root = document.root_element();
    size(root, sheet, unit)?;
    let layers: Vec<Option<Layer>> = layers_of(sheet, cutter).collect();
    let found = paths(root, &layers, sheet.height, unit)?;
    let of_layer = |layer| sheet.strokes.iter().filter(move |stroke| Some(stroke.layer) == layer);
    // Register marks are no part's.
    let marks = sheet.register.iter().map(|run| (run, None));
    let strokes = layers.into_iter().flat_map(of_layer).map(|stroke| (&stroke.run, Some(stroke)));
    let meant: Vec<(&StrokePath, Option<&Stroke>)> = marks.chain(strokes).collect();
    let same = |path: &Path<'_>, (run, stroke): &(&StrokePath, Option<&Stroke>)| {
        named(path, *stroke, parts, cutter)?;
        let meant = pulls(run);
        if cutter.forms.svg_lines == SvgLines::Strokes {
            return unit.rounding().pulls(&path.pulls, &meant);
        }
        let shapes = (cutter.forms.hairline.mm(), unit.rounding());
        unit.rounding().pulls(&ribbon::middles(&path.pulls, &meant, shapes)?, &meant)
    };
    let tiny = |(run, _): &(&StrokePath, Option<&Stroke>)| pulls(run).iter().all(|pull| unit.rounding().is_tiny(pull));
    in_order("path", &found, &meant, same, tiny)
}

/// The root: as large as the sheet, and one user unit to the unit.
fn size(root: Node<'_, '_>, sheet: &SheetPaths, unit: Unit) -> Result<(), String> {
    let side = |name: &str| root.attribute(name).and_then(|side| side.strip_suffix(unit.suffix)).unwrap_or_default();
    let (width, height) = (side("width"), side("height"));
    let is = |side: &str, mm: f64| {
        side.parse::<f64>()
            .is_ok_and(|side| unit.rounding().within(Point::new(side * unit.mm, 0.0), Point::new(mm, 0.0), 0.5))
    };
    let whole = root.attribute("viewBox").is_some_and(|view| view == format!("0 0 {width} {height}"));
    if !whole || !is(width, sheet.width) || !is(height, sheet.height) {
        return Err(format!("it is {width} x {height} {} large", unit.suffix));
    }
    Ok(())
}

/// All paths in their order, from three groups, or one more of register marks, and nothing else that draws or moves.
fn paths<'a>(root: Node<'a, 'a>, layers: &[Option<Layer>], height: f64, unit: Unit) -> Result<Vec<Path<'a>>, String> {
    let strange = |node: Node<'_, '_>| format!("it has <{}> where it was never meant", node.tag_name().name());
    let mut elements = root.children().filter(Node::is_element);
    if !elements.next().is_some_and(|title| title.has_tag_name((SVG, "title"))) {
        return Err("it has no title".into());
    }
    let mut found = Vec::new();
    for layer in layers.iter().map(|layer| layer_name(*layer)) {
        let group = elements.next().ok_or_else(|| format!("it has no group {layer}"))?;
        let plain = group.has_tag_name((SVG, "g")) && group.attributes().len() == 1;
        if !plain || group.attribute("id") != Some(layer) {
            return Err(strange(group));
        }
        for node in group.children().filter(Node::is_element) {
            if !node.has_tag_name((SVG, "path")) || node.has_children() {
                return Err(strange(node));
            }
            let data = node.attribute("d").ok_or("it has a path without data")?;
            let pulls = PathReader { height, unit }.pulls(data)?;
            found.push(Path { node, layer, pulls });
        }
    }
    elements.next().map_or(Ok(found), |more| Err(strange(more)))
}

/// The name space of SVG (SVG 1.1, 1.3).
const SVG: &str = "http://www.w3.org/2000/svg";

/// Whose a path is, how it folds, in which colour: that is what machines go by.
fn named(path: &Path<'_>, stroke: Option<&Stroke>, parts: &[Part], cutter: &Cutter) -> Result<(), String> {
    let layer = layer_name(stroke.map(|stroke| stroke.layer));
    if path.layer != layer {
        return Err(format!("it is on the layer {} instead of {layer}", path.layer));
    }
    let colour = layer_colour(stroke.map(|stroke| stroke.layer), &cutter.colours);
    let strokes = cutter.forms.svg_lines == SvgLines::Strokes;
    let (fill, line) = if strokes { ("none", colour) } else { (colour, "none") };
    let copy = stroke.map(|stroke| stroke.copy.to_string());
    let wanted = [
        ("data-part", stroke.map(|stroke| part_id(parts, stroke.part))),
        ("data-copy", copy.as_deref()),
        ("data-fold", stroke.and_then(|stroke| stroke.fold).map(Sense::word)),
        ("fill", Some(fill)),
        ("stroke", Some(line)),
    ];
    for (name, wanted) in wanted {
        let found = path.node.attribute(name);
        if found != wanted {
            let or_none = |value: Option<&str>| value.unwrap_or("nothing").to_owned();
            return Err(format!("{name} is {} instead of {}", or_none(found), or_none(wanted)));
        }
    }
    // Besides these only the data and the stroke's width: nothing that moves it or hides it.
    let expected = wanted.iter().filter(|(_, value)| value.is_some()).count() + if strokes { 2 } else { 1 };
    if path.node.attributes().len() != expected || path.node.attribute("stroke-width").is_some() != strokes {
        return Err("it has attributes that were never meant".into());
    }
    Ok(())
}

/// Reads path data of a sheet that is so many mm tall.
#[derive(Clone, Copy)]
struct PathReader {
    height: f64,
    unit: Unit,
}

impl PathReader {
    fn point(self, x: f64, y: f64) -> Point {
        Point::new(x * self.unit.mm, self.height - y * self.unit.mm)
    }

    fn pulls(self, data: &str) -> Result<Vec<Pull<Bow>>, String> {
        let strange = || "it has a path that was never meant".to_owned();
        let mut pulls: Vec<Pull<Bow>> = Vec::new();
        // Where the line began, and where it has come to; none behind Z.
        let mut at: Option<(Point, Point)> = None;
        for segment in PathParser::from(data) {
            let segment = segment.map_err(|error| format!("it has a path that can't be read: {error}"))?;
            if let PathSegment::MoveTo { abs: true, x, y } = segment {
                let start = self.point(x, y);
                at = Some((start, start));
                pulls.push(Pull { closed: false, edges: Vec::new() });
                continue;
            }
            let (Some((start, from)), Some(pull)) = (at, pulls.last_mut()) else { return Err(strange()) };
            let edge = match segment {
                PathSegment::LineTo { abs: true, x, y } => Bow { from, to: self.point(x, y), rise: 0.0 },
                PathSegment::EllipticalArc { abs: true, rx, ry, x_axis_rotation, large_arc: false, sweep, x, y }
                    if near(rx, ry, 0.0) && near(x_axis_rotation, 0.0, 0.0) && rx > 0.0 =>
                {
                    arc(from, rx * self.unit.mm, sweep, self.point(x, y))
                }
                PathSegment::CurveTo { abs: true, x1, y1, x2, y2, x, y } => {
                    let ends = [from, self.point(x1, y1), self.point(x2, y2), self.point(x, y)];
                    cubic(ends, self.unit.rounding()).ok_or_else(strange)?
                }
                PathSegment::ClosePath { .. } => {
                    pull.closed = true;
                    at = None;
                    // Where an arc closes the contour, Z draws nothing.
                    if from != start {
                        pull.edges.push(Bow { from, to: start, rise: 0.0 });
                    }
                    continue;
                }
                _ => return Err(strange()),
            };
            at = Some((start, edge.to));
            pull.edges.push(edge);
        }
        Ok(pulls)
    }
}

/// The shorter arc of a radius. With y down, sweep 1 is the way that is clockwise to the eye (SVG 1.1, 8.3.8); a radius
/// too small for the chord is taken as half of it (F.6.6).
fn arc(from: Point, radius: f64, sweep: bool, to: Point) -> Bow {
    let half = (to - from).hypot() / 2.0;
    let radius = radius.max(half);
    // r - sqrt(r² - h²), without the loss of digits.
    let rise = half * half / (radius + ((radius - half) * (radius + half)).sqrt());
    Bow { from, to, rise: if sweep { -rise } else { rise } }
}
