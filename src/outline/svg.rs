// SPDX-License-Identifier: MIT
//! The shapes of an SVG file, transforms worked in; what is no shape is told.
//!
//! Read are `path`, `rect`, `circle`, `ellipse`, `line`, `polyline`, `polygon`, in `g`, `a`, `switch` and layers. Nothing is fetched.

use super::curve::Curve;
use super::drawing::{Drawing, DrawnRun, MOST_CURVES, Notices, stop, warn};
use super::svg_path;
use crate::fields::Source;
use crate::finding::{Arg, Place, Said};
use crate::length::{MM_PER_INCH, excerpt};
use kurbo::Affine;
use roxmltree::{Document, Node, ParsingOptions};
use std::rc::Rc;
use svgtypes::{LengthUnit, Transform, ViewBox};

/// What is read.
const SHAPES: [&str; 7] = ["path", "rect", "circle", "ellipse", "line", "polyline", "polygon"];

/// Groups within groups deeper than this are a mistake: our choice.
const DEEPEST: usize = 100;

/// More elements than this are no outline: our choice.
const MOST_ELEMENTS: u32 = 400_000;

/// The name space in which one drawing program's layers have their names.
const LABEL: (&str, &str) = ("http://www.inkscape.org/namespaces/inkscape", "label");

/// Reads a file; nothing where it can't be read at all.
pub(super) fn read(source: &Source, notices: &mut Notices) -> Option<Drawing> {
    let options = ParsingOptions { allow_dtd: true, nodes_limit: MOST_ELEMENTS, ..ParsingOptions::default() };
    let document = match Document::parse_with_options(source.text(), options) {
        Ok(document) => document,
        Err(error) => {
            let pos = error.pos();
            let at = |number: u32| usize::try_from(number).unwrap_or(1);
            let place = source.spot(at(pos.row), at(pos.col));
            let text = Said::new("outline-no-xml").with("error", error.to_string());
            notices.tell(stop("outline-unread", text, "outline-no-xml-help", &place));
            return None;
        }
    };
    let root = document.root_element();
    if root.tag_name().name() != "svg" {
        let text = Said::new("outline-no-svg").with("found", Arg::quoted(excerpt(root.tag_name().name())));
        notices.tell(stop("outline-unread", text, "outline-no-svg-help", &source.spot(1, 1)));
        return None;
    }
    let drawing = Drawing { runs: Vec::new(), unit: unit(root) };
    let mut reading = Reading { source, drawing, count: 0, notices };
    // y is counted down in the file.
    let all_read = reading.children(root, Affine::FLIP_Y);
    all_read.then_some(reading.drawing)
}

/// How many mm a user unit is: what the root says of its size, if that is a size on paper.
fn unit(root: Node<'_, '_>) -> Option<f64> {
    let side = |name: &str| -> Option<f64> {
        let length: svgtypes::Length = root.attribute(name)?.parse().ok()?;
        let mm = match length.unit {
            LengthUnit::Mm => 1.0,
            LengthUnit::Cm => 10.0,
            LengthUnit::In => MM_PER_INCH,
            LengthUnit::Pt => MM_PER_INCH / 72.0,
            LengthUnit::Pc => MM_PER_INCH / 6.0,
            _ => return None,
        };
        Some(length.number * mm)
    };
    let view: Option<ViewBox> = root.attribute("viewBox").and_then(|view| view.parse().ok());
    let (width, height) = (side("width"), side("height"));
    let Some(view) = view else {
        // Without a view box a user unit is 1/96 in once the root has a size on paper (CSS Values 3, 5.2).
        return width.or(height).map(|_| MM_PER_INCH / 96.0);
    };
    let scale =
        |side: Option<f64>, units: f64| side.map(|side| side / units).filter(|scale| scale.is_finite() && *scale > 0.0);
    match (scale(width, view.w), scale(height, view.h)) {
        // The drawing is shown whole and in its own proportions (SVG 1.1, 7.8).
        (Some(across), Some(up)) => Some(across.min(up)),
        (across, up) => across.or(up),
    }
}

struct Reading<'r> {
    source: &'r Source,
    drawing: Drawing,
    count: usize,
    notices: &'r mut Notices,
}

impl Reading<'_> {
    fn place(&self, node: Node<'_, '_>) -> Place {
        let start = node.range().start;
        self.source.place(&(start..start + 1 + node.tag_name().name().len()), "")
    }

    /// Walks all that stands in the root; false where there is too much of it.
    fn children(&mut self, root: Node<'_, '_>, map: Affine) -> bool {
        let mut open = vec![(root.first_element_child(), map, Rc::new(Vec::<String>::new()))];
        while let Some((next, map, layers)) = open.pop() {
            let Some(node) = next else { continue };
            open.push((node.next_sibling_element(), map, Rc::clone(&layers)));
            let name = node.tag_name().name();
            if hidden(node) {
                continue;
            }
            if SHAPES.contains(&name) {
                if !self.shape(node, map, &layers) {
                    return false;
                }
                continue;
            }
            match name {
                "g" | "a" | "switch" => {
                    if open.len() > DEEPEST {
                        let text = Said::new("outline-too-deep").with("most", DEEPEST);
                        let finding = stop("outline-too-deep", text, "outline-too-deep-help", &self.place(node));
                        self.notices.tell(finding);
                        return false;
                    }
                    let Some(own) = self.transform(node) else { continue };
                    let names = [node.attribute("id"), node.attribute(LABEL)];
                    let within = names.into_iter().flatten().map(excerpt);
                    let layers = Rc::new(layers.iter().cloned().chain(within).collect());
                    self.clipped(node);
                    open.push((node.first_element_child(), map * own, layers));
                }
                // They hold what is used elsewhere, or nothing to be seen.
                "defs" | "symbol" | "clipPath" | "mask" | "marker" | "pattern" | "linearGradient"
                | "radialGradient" | "filter" | "style" | "title" | "desc" | "metadata" | "script" | "view"
                | "cursor" | "font" => {}
                name if node
                    .tag_name()
                    .namespace()
                    .is_none_or(|space| space == root.tag_name().namespace().unwrap_or(space)) =>
                {
                    let (key, help) = match name {
                        "text" => ("outline-has-text", "outline-has-text-help"),
                        "use" => ("outline-has-use", "outline-has-use-help"),
                        "image" => ("outline-has-image", "outline-has-image-help"),
                        _ => ("outline-has-other", "outline-has-other-help"),
                    };
                    let text = Said::new(key).with("what", Arg::code(format!("<{}>", excerpt(name))));
                    let finding = warn("outline-left-out", text, help, &self.place(node));
                    self.notices.tell(finding);
                }
                _ => {}
            }
        }
        true
    }

    /// What a node is moved by; none where that can't be read, which is told.
    fn transform(&mut self, node: Node<'_, '_>) -> Option<Affine> {
        let Some(text) = node.attribute("transform") else { return Some(Affine::IDENTITY) };
        if let Ok(Transform { a, b, c, d, e, f }) = text.parse() {
            return Some(Affine::new([a, b, c, d, e, f]));
        }
        let text = Said::new("outline-bad-attribute")
            .with("attribute", Arg::code("transform"))
            .with("value", Arg::quoted(excerpt(text)));
        let finding = stop("outline-unread", text, "outline-bad-attribute-help", &self.place(node));
        self.notices.tell(finding);
        None
    }

    /// Says that what clips a shape is not looked at.
    fn clipped(&mut self, node: Node<'_, '_>) {
        for name in ["clip-path", "mask"] {
            if node.attribute(name).is_some_and(|value| value != "none") {
                let text = Said::new("outline-has-clip").with("what", Arg::code(name));
                let finding = warn("outline-left-out", text, "outline-has-clip-help", &self.place(node));
                self.notices.tell(finding);
            }
        }
    }

    /// Adds the runs of a shape; false where there are too many.
    fn shape(&mut self, node: Node<'_, '_>, map: Affine, layers: &Rc<Vec<String>>) -> bool {
        self.clipped(node);
        let Some(own) = self.transform(node) else { return true };
        let place = self.place(node);
        let runs = match svg_path::runs(node) {
            Ok(runs) => runs,
            Err(fault) => {
                let text = Said::new("outline-bad-attribute")
                    .with("attribute", Arg::code(fault.attribute))
                    .with("value", Arg::quoted(excerpt(&fault.value)));
                self.notices.tell(stop("outline-unread", text, "outline-bad-attribute-help", &place));
                return true;
            }
        };
        let name = node.tag_name().name();
        let id = node.attribute("id").or(node.attribute(LABEL)).map(excerpt);
        let what = id.as_ref().map_or_else(|| name.to_owned(), |id| format!("{name} {id}"));
        for (curves, closed) in runs {
            let curves: Vec<Curve> = curves.iter().map(|curve| curve.mapped(map * own)).collect();
            self.count += curves.len();
            if self.count > MOST_CURVES {
                let text = Said::new("outline-too-many").with("most", MOST_CURVES);
                self.notices.tell(stop("outline-too-many", text, "outline-too-many-help", &place));
                return false;
            }
            let (what, place) = (what.clone(), place.clone());
            let (id, layers) = (id.clone(), Rc::clone(layers));
            self.drawing.runs.push(DrawnRun { curves, closed, layers, id, what, place });
        }
        true
    }
}

/// Whether a node is not shown.
fn hidden(node: Node<'_, '_>) -> bool {
    let style = node.attribute("style").unwrap_or_default();
    let says = |name: &str, value: &str| {
        let in_style = style.split(';').filter_map(|one| one.split_once(':'));
        node.attribute(name) == Some(value)
            || in_style.into_iter().any(|(key, said)| key.trim() == name && said.trim() == value)
    };
    says("display", "none") || says("visibility", "hidden")
}
