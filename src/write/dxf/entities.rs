// SPDX-License-Identifier: MIT
//! Entities: strokes as lines and polylines with bulges, each on its layer.

use super::tags::{DxfFile, FRAME};
use crate::contour::{Edge, Point, Rect, Vertex};
use crate::toolpath::{REGISTER, SheetPaths, StrokePath};

impl DxfFile {
    pub(super) fn entities(&mut self, sheet: &SheetPaths) {
        self.section("ENTITIES", |file| {
            for run in &sheet.register {
                file.stroke(REGISTER, run);
            }
            for stroke in &sheet.strokes {
                file.stroke(stroke.layer.name(), &stroke.run);
            }
        });
    }

    fn stroke(&mut self, layer: &str, run: &StrokePath) {
        let space = self.space;
        match run {
            StrokePath::Straight(pieces) => {
                for &(from, to) in pieces.iter().filter(|(from, to)| !FRAME.meet(*from, *to)) {
                    self.entity("LINE", layer, space);
                    self.subclass("AcDbLine");
                    self.point(10, from);
                    self.point(11, to);
                }
            }
            StrokePath::Closed(contour) => {
                self.polyline(layer, &corners(contour.edges(), true), true);
            }
            StrokePath::Open(edges) => {
                self.polyline(layer, &corners(edges.iter().copied(), false), false);
            }
        }
    }

    fn polyline(&mut self, layer: &str, corners: &[Vertex], closed: bool) {
        if corners.is_empty() {
            return;
        }
        let (space, closed) = (self.space, u8::from(closed));
        if !self.old {
            self.entity("LWPOLYLINE", layer, space);
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
        self.entity("POLYLINE", layer, space);
        self.put(66, 1);
        self.point(10, Point::ZERO);
        self.put(70, closed);
        for corner in corners {
            self.entity("VERTEX", layer, space);
            self.point(10, corner.at);
            self.real(42, corner.bulge);
        }
        self.entity("SEQEND", layer, space);
    }
}

/// The corners of a polyline, each with the bulge of the edge that leaves it.
fn corners(edges: impl Iterator<Item = Edge>, closed: bool) -> Vec<Vertex> {
    let edges: Vec<Edge> = FRAME.edges(edges).collect();
    let end = edges.last().filter(|_| !closed).map(|edge| Vertex { at: edge.to, bulge: 0.0 });
    edges.iter().map(|edge| Vertex { at: edge.from, bulge: edge.bulge }).chain(end).collect()
}

/// The box around everything that is drawn; the sheet where nothing is.
pub(super) fn drawn(sheet: &SheetPaths) -> Rect {
    let runs = sheet.register.iter().chain(sheet.strokes.iter().map(|stroke| &stroke.run));
    let boxes = runs.flat_map(|run| match run {
        StrokePath::Straight(pieces) => pieces.iter().map(|&(from, to)| Rect::from_points(from, to)).collect(),
        StrokePath::Closed(contour) => vec![contour.bounds()],
        StrokePath::Open(edges) => edges.iter().map(|edge| edge.bounds()).collect(),
    });
    boxes.reduce(|all, one| all.union(one)).unwrap_or_else(|| Rect::new(0.0, 0.0, sheet.width, sheet.height))
}
