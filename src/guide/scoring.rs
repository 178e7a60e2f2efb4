// SPDX-License-Identifier: MIT
//! The scoring plan: which edge lies at the fence, where to score, when to turn the piece.
//!
//! In: a kit's parts. Out: [`Setting`]s: each a few distances from the fence, and all parts that are scored there. Never:
//! words, pictures.
//!
//! A score across the part is scored with the part's left edge at the fence, a level one with its top edge there. Where a
//! part is the same from its other end, it is turned end for end and scored at the same distances again: that needs
//! fewer of them. Parts that are scored at the same distances stand together (our choice).

use super::line::What;
use crate::length::tolerance::READ;
use crate::net::Score;
use crate::parts::Kit;

/// The edge of a part that lies at the fence, the part's front up and its top away.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Edge {
    /// The left one.
    Left,
    /// The top one.
    Top,
}

/// One part at one setting.
#[derive(Clone, Debug, PartialEq)]
pub struct Scored {
    /// Number of the part.
    pub part: usize,
    /// Which of its edges lies at the fence.
    pub edge: Edge,
    /// Whether it is then turned end for end and scored at the same distances again.
    pub again: bool,
}

/// Some distances from the fence, and what is scored there.
#[derive(Clone, Debug, PartialEq)]
pub struct Setting {
    /// Number of the stock.
    pub stock: usize,
    /// Distances from the fence, mm, the nearest first.
    pub at: Vec<f64>,
    /// The parts.
    pub parts: Vec<Scored>,
}

/// A score as the hand finds it: its distance from the left or top edge, and from the edge across from that.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mark {
    /// Which edge it is measured from.
    pub edge: Edge,
    /// From that edge, mm.
    pub at: f64,
    /// From the edge across, mm.
    pub back: f64,
    /// The score.
    pub score: Score,
}

impl Edge {
    /// What a distance from this edge, or from the one across from it, is called.
    #[must_use]
    pub const fn what(self, across: bool) -> What {
        match (self, across) {
            (Self::Left, false) => What::FromLeft,
            (Self::Left, true) => What::FromRight,
            (Self::Top, false) => What::FromTop,
            (Self::Top, true) => What::FromBottom,
        }
    }
}

/// A part's scores in order, those that a hole parts once; slanted ones, which no fence helps with, left out.
#[must_use]
pub fn marks(kit: &Kit, part: usize) -> Vec<Mark> {
    let Some(part) = kit.parts.get(part) else { return Vec::new() };
    let (width, height) = (part.flat.width, part.flat.height);
    let mut marks: Vec<Mark> = part
        .flat
        .scores
        .iter()
        .filter_map(|score| {
            let way = score.to - score.from;
            if way.x.abs() < READ {
                Some(Mark { edge: Edge::Left, at: score.from.x, back: width - score.from.x, score: *score })
            } else if way.y.abs() < READ {
                Some(Mark { edge: Edge::Top, at: height - score.from.y, back: score.from.y, score: *score })
            } else {
                None
            }
        })
        .collect();
    marks.sort_by(|one, two| one.edge.cmp(&two.edge).then(one.at.total_cmp(&two.at)));
    marks.dedup_by(|one, two| one.edge == two.edge && (one.at - two.at).abs() < READ);
    marks
}

/// Scores that lie askew: they are drawn from corner to corner and scored along a rule.
#[must_use]
pub fn slanted(kit: &Kit, part: usize) -> Vec<Score> {
    let scores = kit.parts.get(part).map_or(&[][..], |part| &part.flat.scores);
    let askew = |score: &&Score| {
        let way = score.to - score.from;
        way.x.abs() >= READ && way.y.abs() >= READ
    };
    scores.iter().filter(askew).copied().collect()
}

/// The plan.
#[must_use]
pub fn plan(kit: &Kit, order: &[usize]) -> Vec<Setting> {
    let mut settings: Vec<Setting> = Vec::new();
    for &number in order {
        let Some(part) = kit.parts.get(number) else { continue };
        let marks = marks(kit, number);
        for edge in [Edge::Left, Edge::Top] {
            let of_edge: Vec<&Mark> = marks.iter().filter(|mark| mark.edge == edge).collect();
            if of_edge.is_empty() {
                continue;
            }
            let (at, again) = distances(&of_edge);
            let scored = Scored { part: number, edge, again };
            let same = settings.iter_mut().find(|setting| {
                setting.stock == part.stock
                    && setting.at.len() == at.len()
                    && setting.at.iter().zip(&at).all(|(one, other)| (one - other).abs() < READ)
            });
            match same {
                Some(setting) => setting.parts.push(scored),
                None => settings.push(Setting { stock: part.stock, at, parts: vec![scored] }),
            }
        }
    }
    settings
}

/// The distances from the fence, and whether the part is turned to be scored there again.
fn distances(marks: &[&Mark]) -> (Vec<f64>, bool) {
    let all: Vec<f64> = marks.iter().map(|mark| mark.at).collect();
    let mirrored = marks.iter().all(|mark| all.iter().any(|at| (at - mark.back).abs() < READ));
    if !mirrored || marks.len() < 2 {
        return (all, false);
    }
    // One in the very middle is scored with the first half.
    (marks.iter().filter(|mark| mark.at <= mark.back + READ).map(|mark| mark.at).collect(), true)
}

/// Grooves of common boards: 1/8 and 1/16 in, and 5 mm (common practice, no source).
const GROOVES: [f64; 2] = [25.4 / 16.0, 5.0];

/// A score this near to a groove lies in it, mm: our choice, a third of what a bone folder's point takes.
const IN_GROOVE: f64 = 0.1;

/// Whether no common board has a groove at a distance from its fence.
#[must_use]
pub fn between_grooves(mm: f64) -> bool {
    GROOVES.iter().all(|groove| (mm - (mm / groove).round() * groove).abs() > IN_GROOVE)
}
