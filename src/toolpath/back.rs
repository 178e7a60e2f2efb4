// SPDX-License-Identifier: MIT
//! The back of a sheet: what the tool does there before the sheet is turned over, like a page of a book.
//!
//! All of it is seen from the back: what lies at the left on the front lies at the right here. The sheet's own corner is what it
//! is turned by; back and front meet as far as the sheet is as wide as was meant.

use super::effort::ToolEffort;
use super::stroke::{Layer, SheetPaths, Stroke, StrokePath};
use crate::contour::{Edge, Point};
use crate::cutter::{BothWays, Cutter, ScoreMode};
use crate::net::Sense;

/// What is done on the back of a sheet; none where nothing is.
///
/// Words are drawn there and folds that work both ways are scored, where the cutter file asks for it. A perforation goes through the card and
/// needs no back.
#[must_use]
pub fn back(sheet: &SheetPaths, cutter: &Cutter) -> Option<SheetPaths> {
    let turned = |stroke: Stroke| Stroke { run: over(&stroke.run, sheet.width), ..stroke };
    let strokes: Vec<Stroke> = through(sheet, cutter).into_iter().map(turned).collect();
    (!strokes.is_empty()).then(|| SheetPaths {
        name: back_name(&sheet.name),
        seconds: ToolEffort::of_strokes(&strokes).seconds(cutter),
        strokes,
        behind: Vec::new(),
        // Printed on the front, which lies face down now, they show on the back where they are pricked through.
        register: sheet.register.iter().map(|run| over(run, sheet.width)).collect(),
        ..sheet.clone()
    })
}

/// What the file of the back is called, of a sheet or of a bed.
pub(super) fn back_name(front: &str) -> String {
    format!("{front}.back")
}

/// What is done on the back of a sheet, as if one saw through it from the front; in the cutter's order of layers.
pub(super) fn through(sheet: &SheetPaths, cutter: &Cutter) -> Vec<Stroke> {
    let asked = cutter.back.both_ways == BothWays::BothSides && cutter.score == ScoreMode::Line;
    let both = |stroke: &&Stroke| asked && stroke.fold == Some(Sense::Both);
    let mut strokes: Vec<Stroke> = sheet.behind.iter().chain(sheet.strokes.iter().filter(both)).cloned().collect();
    let order = Layer::in_order(cutter.forms.layer_order);
    strokes.sort_by_key(|stroke| order.iter().position(|layer| *layer == stroke.layer));
    strokes
}

/// Where a stroke runs once what it is on is turned over, left to right: its left and right edges together are so far from nought.
pub(super) fn over(run: &StrokePath, edges: f64) -> StrokePath {
    let map = |at: Point| Point::new(edges - at.x, at.y);
    let edge = |edge: &Edge| Edge { from: map(edge.from), to: map(edge.to), bulge: -edge.bulge };
    match run {
        StrokePath::Straight(pieces) => {
            StrokePath::Straight(pieces.iter().map(|&(from, to)| (map(from), map(to))).collect())
        }
        StrokePath::Closed(contour) => StrokePath::Closed(contour.mirrored(map)),
        StrokePath::Open(edges) => StrokePath::Open(edges.iter().map(edge).collect()),
    }
}
