// SPDX-License-Identifier: MIT
//! What is done on the back of a sheet before a machine cuts it, and how the sheet is turned over: by itself, or in its place on a bed.

use super::beds;
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
    let loads = beds::of(desk, &sheet.name);
    let on_bed = !loads.is_empty();
    let lay = if on_bed {
        let files = loads.iter().filter_map(|load| load.back.as_ref()).map(|back| Line::text(back.name.as_str()));
        desk.say("machine-back-lay-bed", vec![("files", desk.words.list(files.collect()))])
    } else {
        desk.say("machine-back-lay", vec![("file", Line::text(back.name.clone()))])
    };
    let does = |layer: Layer| back.strokes.iter().any(|stroke| stroke.layer == layer);
    let key = match (does(Layer::Draw), does(Layer::Score)) {
        (true, true) => "machine-back-both",
        (true, false) => "machine-back-names",
        _ => "machine-back",
    };
    let done = desk.say(key, vec![("lay", lay)]);
    if !back.register.is_empty() {
        // What is printed on the front is laid by its marks, on both sides.
        let turn = if on_bed { "machine-turn-by-bed" } else { "machine-turn-by" };
        let steps = [desk.tell("machine-prick"), done, desk.tell("machine-lay-by"), desk.tell(turn)];
        return steps.into_iter().map(Step::new).collect();
    }
    // Left and right edge are those that it has as it lies.
    let turned = loads.iter().flat_map(|load| &load.sheets).any(|(_, place)| place.turned);
    let (across, what) = if turned { (sheet.height, What::SheetHeight) } else { (sheet.width, What::SheetWidth) };
    let wide = vec![("width", desk.length(across, what, &sheet.name))];
    let turn = if on_bed { "machine-turn-bed" } else { "machine-turn" };
    vec![Step::new(done), Step::new(desk.say(turn, wide))]
}
