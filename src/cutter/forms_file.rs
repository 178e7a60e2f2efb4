// SPDX-License-Identifier: MIT
//! The fields of a cutter file that say what kinds of file it reads.

use super::forms::{DxfLayers, DxfLines, Forms, LayerOrder, SvgLines, USUAL_HAIRLINE};
use crate::fields::{Key, Values, usual};
use crate::length::Length;

pub(super) const LAYER_ORDER: Key<LayerOrder> =
    Key::choice("layer_order", LayerOrder::DrawScoreCut.usual(), "in which order layers stand in files");
pub(super) const SPLIT_LAYERS: Key<bool> = Key::flag("split_layers", "whether each layer has a file of its own");
pub(super) const SVG_LINES: Key<SvgLines> = Key::choice(
    "svg_lines",
    SvgLines::Strokes.usual(),
    "what lines of SVG files are: strokes, or narrow filled shapes",
);
pub(super) const HAIRLINE: Key<Length> =
    Key::length("hairline", usual(USUAL_HAIRLINE, 0.004), "how wide the shapes are that stand for lines")
        .within(0.01, 1.0)
        .unmeasured();
pub(super) const DXF_LAYERS: Key<DxfLayers> =
    Key::choice("dxf_layers", DxfLayers::Both.usual(), "what tells the layers of DXF files apart");
pub(super) const DXF_LINES: Key<DxfLines> =
    Key::choice("dxf_lines", DxfLines::Polylines.usual(), "what lines of DXF files are");

/// What the files are like, as the cutter file says it.
pub(super) fn forms(values: &Values) -> Forms {
    Forms {
        layer_order: values.get(LAYER_ORDER),
        split_layers: values.get(SPLIT_LAYERS),
        svg_lines: values.get(SVG_LINES),
        hairline: values.get(HAIRLINE),
        dxf_layers: values.get(DXF_LAYERS),
        dxf_lines: values.get(DXF_LINES),
    }
}
