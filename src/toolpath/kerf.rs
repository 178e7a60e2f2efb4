// SPDX-License-Identifier: MIT
//! The kerf: outlines grow by half of it, holes shrink by half of it, scores stay where they are. One part as the tool runs
//! round it, and its strokes on the sheet.

use super::manner::{self, Hints};
use super::marks::Marks;
use super::nick::{self, NickRules};
use super::stroke::{Layer, Stroke, StrokePath};
use super::weight;
use crate::contour::{Contour, Edge, OffsetProblem, Point, grow, turned};
use crate::cutter::{Cutter, Start};
use crate::finding::{Arg, Finding, Said};
use crate::length::Units;
use crate::length::tolerance::SAME;
use crate::net::{Panel, Sense, Use};
use crate::parts::{Hidden, Part};
use crate::sheets::Placed;

/// What the tool does for one part, in the part's own frame.
pub(super) struct ToolPart {
    marks: Marks,
    size: (f64, f64),
    scores: Vec<(Sense, Vec<(Point, Point)>)>,
    outline: Contour,
    holes: Vec<Contour>,
    /// Where a closed cut begins unseen, and where nicks hold it.
    hints: Hints,
}

impl ToolPart {
    /// Whether a cutter asks what of a part is hidden.
    pub(super) fn asks(cutter: &Cutter) -> bool {
        cutter.manner.start == Start::Hidden || cutter.manner.nicks.is_some()
    }

    pub(super) fn new(part: &Part, marks: Marks, hidden: &Hidden, cutter: &Cutter) -> Result<Self, Vec<OffsetProblem>> {
        let (outline, holes) = grow(&part.flat.outline, &part.flat.holes, cutter.offset().mm())?;
        let hints = if Self::asks(cutter) {
            hints(part, [&outline].into_iter().chain(&holes), hidden, cutter)
        } else {
            Hints::default()
        };
        let scores = part
            .flat
            .scores
            .iter()
            .map(|score| {
                let pieces = weight::pieces(part, score, cutter);
                (score.sense, pieces)
            })
            .collect();
        Ok(Self { marks, size: (part.flat.width, part.flat.height), scores, outline, holes, hints })
    }

    /// The same without its scores.
    pub(super) fn unscored(self) -> Self {
        Self { scores: Vec::new(), ..self }
    }

    /// What is known of this part where it is placed.
    pub(super) fn hints(&self, placed: &Placed) -> Hints {
        let map = |point: &Point| {
            let point = turned(*point, placed.quarters, self.size);
            Point::new(point.x + placed.x, point.y + placed.y)
        };
        Hints { hidden: self.hints.hidden.iter().map(map).collect(), nicks: self.hints.nicks.iter().map(map).collect() }
    }

    /// A part that has room for fewer nicks than are asked for.
    pub(super) fn few_nicks(&self, part: &Part, cutter: &Cutter) -> Option<Finding> {
        let wanted = cutter.manner.nicks?.of(part.flat.width, part.flat.height) as usize;
        let found = self.hints.nicks.len();
        if found >= wanted {
            return None;
        }
        let text = Said::new("few-nicks").with("found", found).with("wanted", wanted);
        let finding = Finding::note("few-nicks", Said::named(part.called()), text);
        Some(finding.help(Said::new("few-nicks-help")).at(part.place.as_ref()))
    }

    /// Adds the strokes of one placement to the marks, the scores, the inner cuts, the outer cuts, and what is drawn on the back.
    pub(super) fn place(&self, placed: &Placed, [draw, scores, inner, outer, behind]: [&mut Vec<Stroke>; 5]) {
        let map = |point: Point| {
            let point = turned(point, placed.quarters, self.size);
            Point::new(point.x + placed.x, point.y + placed.y)
        };
        let stroke = |layer, fold, run| Stroke { layer, part: placed.part, copy: placed.copy, fold, run };
        for (lines, side) in self.marks.of_copy(placed.copy).into_iter().zip([draw, behind]) {
            for line in lines {
                let edges = line.windows(2).map(|pair| Edge { from: map(pair[0]), to: map(pair[1]), bulge: 0.0 });
                side.push(stroke(Layer::Draw, None, StrokePath::Open(edges.collect())));
            }
        }
        for (sense, pieces) in &self.scores {
            let run = StrokePath::Straight(pieces.iter().map(|&(from, to)| (map(from), map(to))).collect());
            scores.push(stroke(Layer::Score, Some(*sense), run));
        }
        inner.extend(self.holes.iter().map(|hole| stroke(Layer::Cut, None, StrokePath::Closed(hole.mapped(map)))));
        outer.push(stroke(Layer::Cut, None, StrokePath::Closed(self.outline.mapped(map))));
    }
}

/// Which corners of a part's paths are hidden once all is glued, and where its nicks go.
fn hints<'a>(part: &Part, paths: impl Iterator<Item = &'a Contour>, hidden: &Hidden, cutter: &Cutter) -> Hints {
    let reach = cutter.offset().mm() + SAME;
    let glued = |panel: &&Panel| matches!(panel.purpose, Use::Seam | Use::Tab);
    let shown: Vec<&Contour> =
        part.net.panels.iter().filter(|panel| !glued(panel)).map(|panel| &panel.outline).collect();
    let hides = |point: Point| {
        let shows = |panel: &&Contour| panel.distance(point) <= reach || panel.contains(point);
        hidden.panels.iter().any(|panel| panel.inflate(reach, reach).contains(point)) && !shown.iter().any(shows)
    };
    let mut hints = Hints::default();
    let mut outline = None;
    for path in paths {
        outline.get_or_insert(path);
        hints.hidden.extend(path.vertices().iter().map(|vertex| vertex.at).filter(|at| hides(*at)));
    }
    if let (Some(nicks), Some(outline)) = (cutter.manner.nicks, outline) {
        let ends: Vec<Point> = part.flat.scores.iter().flat_map(|score| [score.from, score.to]).collect();
        let rules = NickRules {
            count: nicks.of(part.flat.width, part.flat.height),
            off: manner::off(cutter),
            besides: cutter.manner.overrun.mm() + cutter.manner.trail.mm(),
            ends: &ends,
            offset: cutter.offset().mm(),
        };
        hints.nicks = nick::places(outline, &rules, hides);
    }
    hints
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
