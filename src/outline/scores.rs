// SPDX-License-Identifier: MIT
//! The scores of a drawing: straight, from edge to edge, none across another. Holes may lie on their way.

use super::drawing::{Notices, stop};
use super::join::EdgeRun;
use crate::contour::{Contour, Edge, Point, outside};
use crate::finding::{Arg, Said, stops};

/// A score that ends so near an edge is meant to reach it, mm: our choice.
const REACHES: f64 = 0.5;

/// An arc that strays less from its chord is a straight score, mm.
const BENT: f64 = 0.01;

/// More scores than these are no scores: our choice.
const MOST: usize = 200;

/// The scores, each from edge to edge; nothing where one of them is none, which is told.
pub(super) fn scores(runs: &[EdgeRun], outline: &Contour, notices: &mut Notices) -> Option<Vec<[Point; 2]>> {
    let outlines = [outline.clone()];
    let mut scores: Vec<[Point; 2]> = Vec::new();
    let straight = |edge: &Edge| edge.bulge.abs() * edge.from.distance(edge.to) / 2.0 <= BENT;
    for run in runs {
        let middle = |edge: &Edge| edge.from.midpoint(edge.to);
        let tell = |id: &'static str, help: &'static str, at: Point, notices: &mut Notices| {
            let text = Said::new(id).with("what", Arg::code(&run.what)).with("at", notices.spot(at));
            notices.tell(stop(id, text, help, &run.place));
        };
        if let Some(bent) = run.edges.iter().find(|edge| !straight(edge)) {
            tell("outline-score-bent", "outline-score-bent-help", middle(bent), notices);
            continue;
        }
        for edge in &run.edges {
            if scores.len() >= MOST {
                tell("outline-many-scores", "outline-too-many-help", middle(edge), notices);
                return None;
            }
            let way = (edge.to - edge.from).normalize() * REACHES;
            let beyond = outside(edge.from - way, edge.to + way, &outlines);
            let inner = match beyond.as_slice() {
                [(_, from), (to, _)] if from.distance(edge.from) <= REACHES && to.distance(edge.to) <= REACHES => {
                    [*from, *to]
                }
                _ => {
                    tell("outline-score-ends", "outline-score-ends-help", middle(edge), notices);
                    continue;
                }
            };
            if let Some(at) = scores.iter().find_map(|other| cross(inner, *other)) {
                tell("outline-scores-cross", "outline-scores-cross-help", at, notices);
                continue;
            }
            scores.push(inner);
        }
    }
    (!stops(&notices.findings)).then_some(scores)
}

/// Where two scores cross between their ends.
fn cross(one: [Point; 2], two: [Point; 2]) -> Option<Point> {
    let (along, side, start) = (one[1] - one[0], two[1] - two[0], two[0] - one[0]);
    let across = along.cross(side);
    let (share, other) = (start.cross(side) / across, start.cross(along) / across);
    // Two that end in one point of the edge don't cross.
    let inner = |share: f64, long: f64| share * long > BENT && (1.0 - share) * long > BENT;
    let crossed = inner(share, along.hypot()) && inner(other, side.hypot());
    crossed.then(|| one[0].lerp(one[1], share))
}
