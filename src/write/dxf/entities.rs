// SPDX-License-Identifier: MIT
//! Entities: strokes as lines and polylines with bulges, as lines and arcs, or as curves, each on its layer.

use super::tags::{DxfFile, FRAME};
use crate::contour::{Edge, Point, Rect, Vertex};
use crate::cutter::DxfLines;
use crate::toolpath::{Layer, SheetPaths, StrokePath};
use crate::write::layers;

impl DxfFile {
    pub(super) fn entities(&mut self, sheet: &SheetPaths) {
        self.section("ENTITIES", |file| {
            for (layer, run) in layers::runs(sheet) {
                file.stroke(layer, run);
            }
        });
    }

    fn stroke(&mut self, layer: Option<Layer>, run: &StrokePath) {
        let (edges, closed): (Vec<Edge>, bool) = match run {
            StrokePath::Straight(pieces) => {
                for &(from, to) in pieces.iter().filter(|(from, to)| !FRAME.meet(*from, *to)) {
                    self.line(layer, from, to);
                }
                return;
            }
            StrokePath::Closed(contour) => (FRAME.edges(contour.edges()).collect(), true),
            StrokePath::Open(edges) => (FRAME.edges(edges.iter().copied()).collect(), false),
        };
        let cubics = self.cubics;
        let curved = move |edge: &Edge| cubics && !edge.is_line();
        if self.forms.dxf_lines == DxfLines::Single {
            for edge in edges {
                match edge {
                    edge if edge.is_line() => self.line(layer, edge.from, edge.to),
                    edge if curved(&edge) => self.spline(layer, &[edge], false),
                    edge => self.arc(layer, edge),
                }
            }
        } else if edges.iter().any(curved) {
            self.spline(layer, &edges, closed);
        } else {
            self.polyline(layer, &corners(&edges, closed), closed);
        }
    }

    fn line(&mut self, layer: Option<Layer>, from: Point, to: Point) {
        self.drawn("LINE", layer);
        self.subclass("AcDbLine");
        self.point(10, from);
        self.point(11, to);
    }

    /// An arc, which always runs counter-clockwise here.
    fn arc(&mut self, layer: Option<Layer>, edge: Edge) {
        let edge = if edge.bulge < 0.0 { edge.reversed() } else { edge };
        let centre = edge.centre();
        let degrees = |end: Point| (end - centre).atan2().to_degrees().rem_euclid(360.0);
        self.drawn("ARC", layer);
        self.subclass("AcDbCircle");
        // Its ends follow from all of these, to the last decimal of any other end.
        self.fine(10, centre.x, 9);
        self.fine(20, centre.y, 9);
        self.real(30, 0.0);
        self.fine(40, edge.radius(), 9);
        self.subclass("AcDbArc");
        self.fine(50, degrees(edge.from), 12);
        self.fine(51, degrees(edge.to), 12);
    }

    fn polyline(&mut self, layer: Option<Layer>, corners: &[Vertex], closed: bool) {
        if corners.is_empty() {
            return;
        }
        let closed = u8::from(closed);
        if !self.old {
            self.drawn("LWPOLYLINE", layer);
            self.subclass("AcDbPolyline");
            self.put(90, corners.len());
            self.put(70, closed);
            for corner in corners {
                self.real(10, corner.at.x);
                self.real(20, corner.at.y);
                self.real(42, corner.bulge);
            }
            return;
        }
        self.drawn("POLYLINE", layer);
        self.put(66, 1);
        self.point(10, Point::ZERO);
        self.put(70, closed);
        for corner in corners {
            self.drawn("VERTEX", layer);
            self.point(10, corner.at);
            self.real(42, corner.bulge);
        }
        self.drawn("SEQEND", layer);
    }
}

/// The corners of a polyline, each with the bulge of the edge that leaves it.
fn corners(edges: &[Edge], closed: bool) -> Vec<Vertex> {
    let end = edges.last().filter(|_| !closed).map(|edge| Vertex { at: edge.to, bulge: 0.0 });
    edges.iter().map(|edge| Vertex { at: edge.from, bulge: edge.bulge }).chain(end).collect()
}

/// The box around everything that is drawn; the sheet where nothing is.
pub(super) fn drawn(sheet: &SheetPaths) -> Rect {
    let boxes = layers::runs(sheet).flat_map(|(_, run)| match run {
        StrokePath::Straight(pieces) => pieces.iter().map(|&(from, to)| Rect::from_points(from, to)).collect(),
        StrokePath::Closed(contour) => vec![contour.bounds()],
        StrokePath::Open(edges) => edges.iter().map(|edge| edge.bounds()).collect(),
    });
    boxes.reduce(|all, one| all.union(one)).unwrap_or_else(|| Rect::new(0.0, 0.0, sheet.width, sheet.height))
}
