// SPDX-License-Identifier: MIT
//! Folds that pages hang by: a perforation there takes half of the card away at most.

use super::perforate;
use crate::contour::{Edge, Point, Rect, SAME, Vec2};
use crate::cutter::{Cutter, ScoreMode};
use crate::finding::{Arg, Finding, Said};
use crate::net::{Fold, Score, Use};
use crate::parts::{Kit, Part};

/// So many parts are named.
const MOST_NAMED: usize = 3;

/// The pieces of a score as the cutter makes it.
pub(super) fn pieces(part: &Part, score: &Score, cutter: &Cutter) -> Vec<(Point, Point)> {
    match cutter.score {
        ScoreMode::Line => vec![(score.from, score.to)],
        ScoreMode::Dash { dash, gap } => {
            // Ties as long as cuts, and one more of them: both ends are ties, and less than half is cut.
            let tie = if carries(part, score) { gap.max(dash) } else { gap };
            perforate::dashes(score.from, score.to, dash.mm(), tie.mm())
        }
    }
}

/// Whether a page hangs by this fold: it is a tab's or a gusset's.
fn carries(part: &Part, score: &Score) -> bool {
    let bounds = part.net.panels.iter().map(|panel| panel.outline.bounds()).reduce(|all: Rect, one| all.union(one));
    let off = bounds.map_or(Vec2::ZERO, |bounds| Vec2::new(bounds.x0, bounds.y0));
    let bends = |fold: &&Fold| {
        let panels = fold.between.iter().filter_map(|number| part.net.panels.get(*number));
        panels.clone().any(|panel| matches!(panel.purpose, Use::Tab | Use::Gusset))
    };
    part.net.folds.iter().filter(bends).any(|fold| {
        let line = Edge { from: fold.from - off, to: fold.to - off, bulge: 0.0 };
        [score.from, score.to].iter().all(|end| line.distance(*end) < SAME)
    })
}

/// Perforated folds that pages hang by, said once for all parts that are cut.
pub(super) fn told<'a>(kit: &Kit, copies: &[u32], cutter: impl Fn(usize) -> Option<&'a Cutter>) -> Option<Finding> {
    let perforated = |part: &Part| {
        let dash = cutter(part.stock).is_some_and(|cutter| cutter.score != ScoreMode::Line);
        if dash { part.flat.scores.iter().filter(|score| carries(part, score)).count() } else { 0 }
    };
    let parts: Vec<(&Part, usize)> = kit
        .parts
        .iter()
        .zip(copies)
        .filter(|(_, copies)| **copies > 0)
        .map(|(part, _)| (part, perforated(part)))
        .filter(|(_, count)| *count > 0)
        .collect();
    let count: usize = parts.iter().map(|(_, count)| count).sum();
    let names = parts.iter().take(MOST_NAMED).map(|(part, _)| part.id.as_str());
    let rest = (parts.len() > MOST_NAMED).then_some("…");
    let names = Arg::Row(names.chain(rest).map(Arg::from).collect());
    let text = Said::new("perforated-hinge").with("count", count).with("parts", names);
    let about = Said::new("about-parts").with("count", parts.len());
    (count > 0).then(|| Finding::note("perforated-hinge", about, text).help(Said::new("perforated-hinge-help")))
}
