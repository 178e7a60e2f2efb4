// SPDX-License-Identifier: MIT
//! Strokes: what the tool does without a break, on which layer, where.

use crate::contour::{Contour, Edge, Point};
use crate::cutter::LayerOrder;
use crate::net::Sense;

/// A layer of a cutting file. The order is the order of work.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[non_exhaustive]
pub enum Layer {
    /// Marks.
    Draw,
    /// Scores.
    Score,
    /// Cuts.
    Cut,
}

impl Layer {
    /// All layers in order of work.
    pub const ALL: [Self; 3] = [Self::Draw, Self::Score, Self::Cut];

    /// All layers as they stand in files.
    #[must_use]
    pub const fn in_order(order: LayerOrder) -> [Self; 3] {
        use Layer::{Cut, Draw, Score};
        match order {
            LayerOrder::DrawScoreCut => [Draw, Score, Cut],
            LayerOrder::ScoreDrawCut => [Score, Draw, Cut],
            LayerOrder::CutScoreDraw => [Cut, Score, Draw],
            LayerOrder::CutDrawScore => [Cut, Draw, Score],
            LayerOrder::DrawCutScore => [Draw, Cut, Score],
            LayerOrder::ScoreCutDraw => [Score, Cut, Draw],
        }
    }

    /// Its name in files.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Draw => "draw",
            Self::Score => "score",
            Self::Cut => "cut",
        }
    }
}

/// One thing that the tool does without a break in meaning: a score with its dashes, a contour.
#[derive(Clone, Debug)]
pub struct Stroke {
    /// On which layer.
    pub layer: Layer,
    /// Number of its part.
    pub part: usize,
    /// Which of the part's copies.
    pub copy: u32,
    /// Which way it folds, on the score layer.
    pub fold: Option<Sense>,
    /// Where it runs on the sheet: mm, y up.
    pub run: StrokePath,
}

/// Where a stroke runs.
#[derive(Clone, Debug)]
pub enum StrokePath {
    /// Straight pieces.
    Straight(Vec<(Point, Point)>),
    /// Round and back to its start.
    Closed(Contour),
    /// Edges that follow one another: a mark, or what is left of an outline where neighbours' cuts do the rest.
    Open(Vec<Edge>),
}

/// The name of the layer of register marks in files.
pub const REGISTER: &str = "register";

/// All strokes of one sheet in order of work.
#[derive(Clone, Debug)]
pub struct SheetPaths {
    /// The sheet's name.
    pub name: String,
    /// Number of its stock.
    pub stock: usize,
    /// How many times it is cut.
    pub times: u32,
    /// Width of the sheet, mm.
    pub width: f64,
    /// Height of the sheet, mm.
    pub height: f64,
    /// Its register marks, on a layer of their own: what was printed, for the machine to look for, and no stroke of the tool.
    pub register: Vec<StrokePath>,
    /// The strokes.
    pub strokes: Vec<Stroke>,
    /// What is drawn on the sheet's back, where it runs as seen from the front.
    pub behind: Vec<Stroke>,
    /// How long the machine takes for them once, where it is said how fast it is.
    pub seconds: Option<f64>,
}
