// SPDX-License-Identifier: MIT
//! What a sheet costs the machine: lengths cut, scored, drawn and travelled, and how often the tool lifts.

use super::{Layer, SheetPaths, Stroke, StrokePath};
use crate::contour::Point;
use crate::cutter::Cutter;

/// What the tool does on one sheet, mm.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct ToolEffort {
    /// Length cut.
    pub cut: f64,
    /// Length scored, ties of perforations left out.
    pub score: f64,
    /// Length drawn.
    pub draw: f64,
    /// Length travelled with the tool lifted, from the sheet's lower left on.
    pub travel: f64,
    /// How often the tool lifts.
    pub lifts: u64,
}

impl ToolEffort {
    /// One stroke's own: nothing is travelled to it.
    #[must_use]
    pub fn of_stroke(stroke: &Stroke) -> Self {
        let mut effort = Self::default();
        let mut head = None;
        effort.add(stroke, &mut head);
        Self { travel: 0.0, ..effort }
    }

    /// Adds up a sheet's strokes in their order.
    #[must_use]
    pub fn of(sheet: &SheetPaths) -> Self {
        Self::of_strokes(&sheet.strokes)
    }

    pub(super) fn of_strokes(strokes: &[Stroke]) -> Self {
        let mut effort = Self::default();
        let mut head = Some(Point::ZERO);
        for stroke in strokes {
            effort.add(stroke, &mut head);
        }
        effort
    }

    /// How long it takes, in seconds: each layer's length at its speed, and the cutter's `lift` for every stroke that is gone
    /// to. Nothing where the speed is not known.
    #[must_use]
    pub fn seconds(&self, cutter: &Cutter) -> Option<f64> {
        let speeds = cutter.speed?;
        #[allow(clippy::cast_precision_loss, reason = "a count of strokes")]
        let lifts = self.lifts as f64 * cutter.lift;
        Some(self.cut / speeds.cut + self.score / speeds.score + self.draw / speeds.draw + lifts)
    }

    /// Adds a stroke that the tool goes to from where it is.
    fn add(&mut self, stroke: &Stroke, head: &mut Option<Point>) {
        let mut length = 0.0;
        let mut made = |from: Point, to: Point, long: f64| {
            self.travel += head.map_or(0.0, |head| head.distance(from));
            self.lifts += 1;
            length += long;
            *head = Some(to);
        };
        match &stroke.run {
            StrokePath::Straight(pieces) => pieces.iter().for_each(|&(from, to)| made(from, to, from.distance(to))),
            StrokePath::Closed(contour) => {
                if let Some(first) = contour.vertices().first() {
                    made(first.at, first.at, contour.length());
                }
            }
            StrokePath::Open(edges) => {
                if let (Some(first), Some(last)) = (edges.first(), edges.last()) {
                    made(first.from, last.to, edges.iter().map(|edge| edge.length()).sum());
                }
            }
        }
        match stroke.layer {
            Layer::Cut => self.cut += length,
            Layer::Score => self.score += length,
            Layer::Draw => self.draw += length,
        }
    }
}
