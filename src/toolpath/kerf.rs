// SPDX-License-Identifier: MIT
//! The kerf: outlines grow by half of it, holes shrink by half of it, scores stay where they are. One part as the tool runs
//! round it, and its strokes on the sheet.

use super::marks::Marks;
use super::perforate;
use super::stroke::{Layer, Stroke, StrokePath};
use crate::contour::{Contour, Edge, OffsetProblem, Point, grow, turned};
use crate::cutter::{Cutter, ScoreMode};
use crate::finding::{Arg, Finding, Said};
use crate::length::Units;
use crate::net::Sense;
use crate::parts::Part;
use crate::sheets::Placed;

/// What the tool does for one part, in the part's own frame.
pub(super) struct ToolPart {
    marks: Marks,
    size: (f64, f64),
    scores: Vec<(Sense, Vec<(Point, Point)>)>,
    outline: Contour,
    holes: Vec<Contour>,
}

impl ToolPart {
    pub(super) fn new(part: &Part, marks: Marks, cutter: &Cutter) -> Result<Self, Vec<OffsetProblem>> {
        let (outline, holes) = grow(&part.flat.outline, &part.flat.holes, cutter.offset().mm())?;
        let scores = part
            .flat
            .scores
            .iter()
            .map(|score| {
                let pieces = match cutter.score {
                    ScoreMode::Line => vec![(score.from, score.to)],
                    ScoreMode::Dash { dash, gap } => perforate::dashes(score.from, score.to, dash.mm(), gap.mm()),
                };
                (score.sense, pieces)
            })
            .collect();
        Ok(Self { marks, size: (part.flat.width, part.flat.height), scores, outline, holes })
    }

    /// Adds the strokes of one placement to the marks, the scores, the inner cuts and the outer cuts.
    pub(super) fn place(&self, placed: &Placed, [draw, scores, inner, outer]: &mut [Vec<Stroke>; 4]) {
        let map = |point: Point| {
            let point = turned(point, placed.quarters, self.size);
            Point::new(point.x + placed.x, point.y + placed.y)
        };
        let stroke = |layer, fold, run| Stroke { layer, part: placed.part, copy: placed.copy, fold, run };
        for line in self.marks.of_copy(placed.copy) {
            let edges = line.windows(2).map(|pair| Edge { from: map(pair[0]), to: map(pair[1]), bulge: 0.0 });
            draw.push(stroke(Layer::Draw, None, StrokePath::Open(edges.collect())));
        }
        for (sense, pieces) in &self.scores {
            let run = StrokePath::Straight(pieces.iter().map(|&(from, to)| (map(from), map(to))).collect());
            scores.push(stroke(Layer::Score, Some(*sense), run));
        }
        inner.extend(self.holes.iter().map(|hole| stroke(Layer::Cut, None, StrokePath::Closed(hole.mapped(map)))));
        outer.push(stroke(Layer::Cut, None, StrokePath::Closed(self.outline.mapped(map))));
    }
}

pub(super) fn uncuttable(part: &Part, problem: OffsetProblem, cutter: &Cutter) -> Finding {
    let about = Said::named(part.called());
    let (id, hole) = match problem {
        OffsetProblem::Outline => ("outline-unsound", None),
        OffsetProblem::OutlineSplits => ("outline-splits", None),
        OffsetProblem::Hole(index) => ("hole-unsound", Some(index)),
        OffsetProblem::HoleVanishes(index) => ("hole-vanishes", Some(index)),
        OffsetProblem::HoleSplits(index) => ("hole-splits", Some(index)),
    };
    let mut text = Said::new(id).with("kerf", Arg::Length(cutter.kerf, Units::Mm));
    if let Some(index) = hole {
        let bounds = part.flat.holes.get(index).map(Contour::bounds).unwrap_or_default();
        let mm = |mm: f64| Arg::code(format!("{mm:.1}"));
        let hole = Said::new("hole-at").with("number", index + 1).with("x", mm(bounds.x0)).with("y", mm(bounds.y0));
        text = text.with("hole", hole.with("width", mm(bounds.width())).with("height", mm(bounds.height())));
    }
    Finding::stop(id, about, text).help(Said::new("uncuttable-help")).at(part.place.as_ref())
}
