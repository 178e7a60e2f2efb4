// SPDX-License-Identifier: MIT
//! What kinds of file a machine reads: for machines that know less, or go by other things, than most.

use super::palette::nearest_index;
use crate::fields::words;
use crate::finding::{Arg, Finding, Said};
use crate::length::Length;

/// What the files of a sheet are like.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Forms {
    /// In which order layers stand in files.
    pub layer_order: LayerOrder,
    /// Whether each layer has a file of its own.
    pub split_layers: bool,
    /// What lines of SVG files are.
    pub svg_lines: SvgLines,
    /// How wide the shapes are that stand for lines.
    pub hairline: Length,
    /// What tells the layers of DXF files apart.
    pub dxf_layers: DxfLayers,
    /// What lines of DXF files are.
    pub dxf_lines: DxfLines,
}

words! {
    /// In which order layers stand in files.
    pub enum LayerOrder {
        /// As the work wants it.
        DrawScoreCut = "draw-score-cut",
        /// Scores first.
        ScoreDrawCut = "score-draw-cut",
        /// Backwards, for a machine that begins with what stands last.
        CutScoreDraw = "cut-score-draw",
        /// Backwards, scores last.
        CutDrawScore = "cut-draw-score",
        /// Cuts in the middle, marks first.
        DrawCutScore = "draw-cut-score",
        /// Cuts in the middle, scores first.
        ScoreCutDraw = "score-cut-draw",
    }
}

words! {
    /// What lines of SVG files are.
    pub enum SvgLines {
        /// Strokes without a filling.
        Strokes = "strokes",
        /// Narrow filled shapes, for programs that see no strokes.
        Shapes = "shapes",
    }
}

words! {
    /// What tells the layers of DXF files apart.
    pub enum DxfLayers {
        /// Names, each with its colour.
        Both = "names-and-colours",
        /// Names alone, all in one colour.
        Names = "names",
        /// Colours alone, all on one layer.
        Colours = "colours",
    }
}

words! {
    /// What lines of DXF files are.
    pub enum DxfLines {
        /// One polyline from where the tool goes down to where it is lifted.
        Polylines = "polylines",
        /// Each line and arc by itself.
        Single = "single",
    }
}

impl LayerOrder {
    /// Whether cuts come last, so that no part is loose before it is scored.
    #[must_use]
    pub const fn cuts_last(self) -> bool {
        matches!(self, Self::DrawScoreCut | Self::ScoreDrawCut)
    }
}

impl Default for Forms {
    fn default() -> Self {
        Self {
            layer_order: LayerOrder::DrawScoreCut,
            split_layers: false,
            svg_lines: SvgLines::Strokes,
            hairline: Length::from_mm(USUAL_HAIRLINE),
            dxf_layers: DxfLayers::Both,
            dxf_lines: DxfLines::Polylines,
        }
    }
}

/// How wide shapes for lines are, mm, unless said: our choice, what a screen still shows and no blade tells from a line.
pub(super) const USUAL_HAIRLINE: f64 = 0.1;

/// What can't be told apart, and what comes loose too early.
pub(super) fn told(forms: &Forms, layers: [(&'static str, &str); 3]) -> Vec<Finding> {
    let mut findings = Vec::new();
    if forms.dxf_layers == DxfLayers::Colours {
        // Old versions, and many readers, know the numbered colours alone.
        for (index, (name, colour)) in layers.iter().enumerate() {
            let like = layers[..index].iter().find(|(_, other)| nearest_index(other) == nearest_index(colour));
            if let Some((other, _)) = like {
                let text = Said::new("colours-alike").with("one", Arg::field(*other)).with("other", Arg::field(*name));
                let finding = Finding::stop("colours-alike", Said::NOTHING, text);
                findings.push(finding.help(Said::new("colours-alike-help")));
            }
        }
    }
    if !forms.layer_order.cuts_last() {
        let finding = Finding::note("cuts-not-last", Said::NOTHING, Said::new("cuts-not-last"));
        findings.push(finding.help(Said::new("cuts-not-last-help")));
    }
    findings
}
