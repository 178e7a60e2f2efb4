// SPDX-License-Identifier: MIT
//! What stands on a layer of a cutting file: the tool's strokes, and register marks, which nothing cuts, on one of their own.

use crate::cutter::{Colours, Cutter};
use crate::toolpath::{Layer, REGISTER, SheetPaths, StrokePath};

/// The name of a stroke's layer; none is that of register marks.
pub(super) fn layer_name(layer: Option<Layer>) -> &'static str {
    layer.map_or(REGISTER, Layer::name)
}

/// The colour of what stands on a layer; none is that of register marks.
pub(super) fn layer_colour(layer: Option<Layer>, colours: &Colours) -> &str {
    match layer {
        None => &colours.register,
        Some(Layer::Draw) => &colours.draw,
        Some(Layer::Score) => &colours.score,
        Some(Layer::Cut) => &colours.cut,
    }
}

/// The layers of a sheet as they stand in files, that of register marks first where there are any.
pub(super) fn layers_of(sheet: &SheetPaths, cutter: &Cutter) -> impl Iterator<Item = Option<Layer>> {
    let marks = (!sheet.register.is_empty()).then_some(None);
    marks.into_iter().chain(Layer::in_order(cutter.forms.layer_order).map(Some))
}

/// All that runs on a sheet, register marks first, each with its layer.
pub(super) fn runs(sheet: &SheetPaths) -> impl Iterator<Item = (Option<Layer>, &StrokePath)> {
    let marks = sheet.register.iter().map(|run| (None, run));
    marks.chain(sheet.strokes.iter().map(|stroke| (Some(stroke.layer), &stroke.run)))
}
