// SPDX-License-Identifier: MIT
//! What the tool does on each sheet: strokes on three layers, in order.
//!
//! In: sheets with parts in place, the cutter. Out: a [`SheetPaths`] a sheet: draw, score, inner cuts, outer
//! cuts. Never: writes a file.
//!
//! Only here does the kerf act: outlines grow by half of it, holes shrink by half of it. Scores stay where
//! they are.

mod effort;
mod letters;
mod marks;
mod perforate;
mod share;
mod stroke;
mod travel;

pub use effort::ToolEffort;
pub use letters::Lettering;
pub use marks::Labels;
pub use stroke::{Layer, SheetPaths, Stroke, StrokePath};

use crate::contour::{Contour, Edge, OffsetProblem, Point, grow, turned};
use crate::cutter::{Cutter, ScoreMode};
use crate::finding::{Arg, Checked, Finding, Said};
use crate::length::Units;
use crate::net::Sense;
use crate::parts::{Kit, Part};
use crate::sheets::{Placed, Sheet, StockSheets};
use marks::Marks;

/// The strokes of every sheet of every stock, in the sheets' order.
///
/// Findings name each part, and each hole of it, that the tool cannot cut with this kerf, and what could not be
/// marked.
#[must_use]
pub fn paths(kit: &Kit, stocks: &[StockSheets], cutter: &Cutter, labels: Labels) -> Checked<Vec<SheetPaths>> {
    let mut findings = Vec::new();
    let mut copies = vec![0; kit.parts.len()];
    for placed in stocks.iter().flat_map(|stock| &stock.sheets).flat_map(|sheet| &sheet.placements) {
        copies[placed.part] = placed.copy.max(copies[placed.part]);
    }
    let (marks, note) = marks::marks(kit, &copies, labels);
    let tools: Vec<Option<ToolPart>> = kit
        .parts
        .iter()
        .zip(marks)
        .map(|(part, marks)| match ToolPart::new(part, marks, cutter) {
            Ok(tool) => Some(tool),
            Err(problems) => {
                findings.extend(problems.into_iter().map(|problem| uncuttable(part, problem, cutter)));
                None
            }
        })
        .collect();
    if findings.is_empty() {
        findings.extend(note);
    }
    let tool = |placed: &Placed| tools.get(placed.part).and_then(Option::as_ref);
    let one = |sheet: &Sheet| {
        let mut strokes: [Vec<Stroke>; 4] = Default::default();
        for placed in &sheet.placements {
            if let Some(tool) = tool(placed) {
                tool.place(placed, &mut strokes);
            }
        }
        let [draw, scores, inner, outer] = strokes;
        let outer = if cutter.shared_cuts { share::once(outer) } else { outer };
        SheetPaths {
            name: sheet.name.clone(),
            times: sheet.times,
            width: sheet.width,
            height: sheet.height,
            strokes: ordered([draw, scores, inner, outer]),
        }
    };
    let sheets = stocks.iter().flat_map(|stock| &stock.sheets).map(one).collect();
    Checked::new(sheets, findings)
}

/// Each group in an order that travels little; the groups one after the other.
fn ordered(groups: [Vec<Stroke>; 4]) -> Vec<Stroke> {
    let mut head = Point::ZERO;
    groups.into_iter().flat_map(|group| travel::in_order(group, &mut head)).collect()
}

/// What the tool does for one part, in the part's own frame.
struct ToolPart {
    marks: Marks,
    size: (f64, f64),
    scores: Vec<(Sense, Vec<(Point, Point)>)>,
    outline: Contour,
    holes: Vec<Contour>,
}

impl ToolPart {
    fn new(part: &Part, marks: Marks, cutter: &Cutter) -> Result<Self, Vec<OffsetProblem>> {
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
    fn place(&self, placed: &Placed, [draw, scores, inner, outer]: &mut [Vec<Stroke>; 4]) {
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

fn uncuttable(part: &Part, problem: OffsetProblem, cutter: &Cutter) -> Finding {
    let about = Said::named(part.used_in.first().unwrap_or(&part.id));
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
