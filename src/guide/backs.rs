// SPDX-License-Identifier: MIT
//! What is done on the back of a sheet before a machine cuts it, and how the sheet is turned over.

use super::bits::Step;
use super::desk::Desk;
use super::line::{Line, What};
use crate::sheets::Sheet;
use crate::toolpath::{Layer, back};

/// The steps before the front; none where nothing is done on the back.
pub(super) fn first(desk: &Desk<'_>, stock: usize, sheet: &Sheet) -> Vec<Step> {
    let job = desk.job;
    let cutter = job.album.order().stocks.get(stock).map_or(job.cutter, |stock| stock.cutter(job.cutter));
    let paths = job.paths.iter().find(|paths| paths.name == sheet.name);
    let Some(back) = paths.and_then(|paths| back(paths, cutter)) else { return Vec::new() };
    let does = |layer: Layer| back.strokes.iter().any(|stroke| stroke.layer == layer);
    let key = match (does(Layer::Draw), does(Layer::Score)) {
        (true, true) => "machine-back-both",
        (true, false) => "machine-back-names",
        _ => "machine-back",
    };
    let file = vec![("file", Line::text(back.name.clone()))];
    if !back.register.is_empty() {
        // What is printed on the front is laid by its marks, on both sides.
        let steps = [
            desk.tell("machine-prick"),
            desk.say(key, file),
            desk.tell("machine-lay-by"),
            desk.tell("machine-turn-by"),
        ];
        return steps.into_iter().map(Step::new).collect();
    }
    let width = vec![("width", desk.length(sheet.width, What::SheetWidth, &sheet.name))];
    vec![Step::new(desk.say(key, file)), Step::new(desk.say("machine-turn", width))]
}
