// SPDX-License-Identifier: MIT
//! What is done on the back of a sheet before a machine cuts it, and how the sheet is turned over.

use super::bits::Step;
use super::desk::Desk;
use super::line::{Line, What};
use crate::sheets::Sheet;
use crate::toolpath::back;

/// The steps before the front; none where nothing is done on the back.
pub(super) fn first(desk: &Desk<'_>, stock: usize, sheet: &Sheet) -> Vec<Step> {
    let job = desk.job;
    let cutter = job.album.order().stocks.get(stock).map_or(job.cutter, |stock| stock.cutter(job.cutter));
    let paths = job.paths.iter().find(|paths| paths.name == sheet.name);
    let Some(back) = paths.and_then(|paths| back(paths, cutter)) else { return Vec::new() };
    let file = vec![("file", Line::text(back.name))];
    let width = vec![("width", desk.length(sheet.width, What::SheetWidth, &sheet.name))];
    vec![Step::new(desk.say("machine-back", file)), Step::new(desk.say("machine-turn", width))]
}
