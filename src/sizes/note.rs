// SPDX-License-Identifier: MIT
//! Whether a page that is hardly smaller would save a sheet.

use super::size::{ALIKE, Size};
use super::tries::Tries;
use crate::album::Album;
use crate::cutter::Cutter;
use crate::finding::{Arg, Finding, Said};
use crate::layout::Watch;
use crate::length::Length;
use crate::sheets::{Search, StockSheets, Tally};
use crate::trial::Trial;

/// Less area than this is none, mm²: arithmetic on sheets.
const NO_AREA: f64 = 1e-6;

/// A note where a page up to 1 mm (in inch albums 1/16 in) smaller takes fewer sheets than these.
#[must_use]
pub fn note(
    album: &Album,
    cutter: &Cutter,
    laid: &[StockSheets],
    search: Search,
    watch: &dyn Watch,
) -> Option<Finding> {
    let step = album.units.step();
    let (width, height) = (album.page.width, album.page.height);
    if width <= step * 2.0 || height <= step * 2.0 || !may_save(album, cutter, laid, width - step, height - step) {
        return None;
    }
    let tries = Tries { album, cutter, search, watch };
    let tallies = laid.iter().map(|laid| Tally::of(album.order(), laid)).collect();
    let own = Size::of(album, width, height, tallies);
    // As many sheets that are smaller ones save none.
    let fewer = |size: &Size| own.tallies.iter().any(|tally| size.sheets(tally.stock) != tally.sheets);
    let saves = |size: &Size| size.weight() < own.weight() * (1.0 - ALIKE) && fewer(size);
    // A page smaller both ways saves whatever one smaller one way does.
    let both = tries.at(width - step, height - step).filter(saves)?;
    let one_way = [(width - step, height), (width, height - step)];
    let best = one_way
        .into_iter()
        .filter_map(|(width, height)| tries.at(width, height))
        .filter(saves)
        .min_by(|one, other| one.weight().total_cmp(&other.weight()))
        .unwrap_or(both);
    Some(said(album, &own, &best))
}

/// Whether the area of the parts leaves room for a saving at all.
fn may_save(album: &Album, cutter: &Cutter, laid: &[StockSheets], width: Length, height: Length) -> bool {
    let smaller = Trial::of(album.with_page(width, height), cutter);
    let Some(kit) = smaller.kit() else { return false };
    laid.iter().any(|laid| {
        let parts = kit.parts.iter().filter(|part| part.stock == laid.stock);
        let area: f64 = parts.map(|part| part.flat.area() * f64::from(part.count)).sum();
        let sheets = laid.sheets.iter().map(|sheet| sheet.width * sheet.height * f64::from(sheet.times));
        let least = laid.sheets.iter().map(|sheet| sheet.width * sheet.height).fold(f64::INFINITY, f64::min);
        // One sheet fewer has to hold it all.
        area * f64::from(album.made()) <= sheets.sum::<f64>() - least + NO_AREA
    })
}

fn said(album: &Album, own: &Size, size: &Size) -> Finding {
    let less = |key, before: Length, after: Length| {
        (before != after).then(|| Said::new(key).with("by", album.length((before - after).mm())).into())
    };
    let ways = [less("narrower", own.width, size.width), less("shorter", own.height, size.height)];
    let changed = own.tallies.iter().filter(|tally| size.sheets(tally.stock) != tally.sheets);
    let counts = changed.map(|tally| {
        let said = Said::new("page-size-sheets").with("sheets", size.sheets(tally.stock)).with("before", tally.sheets);
        said.with("stock", &album.stocks[tally.stock].name).into()
    });
    let field = if own.width == size.width { "height" } else { "width" };
    let text = Said::new("page-size")
        .with("ways", Arg::All(ways.into_iter().flatten().collect()))
        .with("width", album.length(size.width.mm()))
        .with("height", album.length(size.height.mm()))
        .with("sheets", Arg::Row(counts.collect()));
    Finding::note("page-size", Said::new("about-the-page"), text)
        .help(Said::new("page-size-help"))
        .at(album.page.values.place_of(field))
}
