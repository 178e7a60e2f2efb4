// SPDX-License-Identifier: MIT
//! Several sheets on one bed: their strokes as those of one file.
//!
//! Sheets of one size of a stock are dealt out over as few beds as hold them all, each as often as it is cut. On a bed one
//! layer after the other is done, in the cutter's order, each sheet by sheet.
//!
//! ```text
//!   backs first, face down        each turned over in its place, like a page        fronts
//!   +-----+-----+                 +-----+-----+                                     +-----+-----+
//!   | q   |   d |                 | <=> | <=> |                                     |   p | b   |
//!   +-----+-----+                 +-----+-----+                                     +-----+-----+
//! ```
//!
//! What is done on backs has a file a bed, too. There each sheet lies face down in the very place that it has for its front, and is turned
//! over about its own upright middle line, as it lies: nothing else on the bed need be moved, each is laid by the same stops, lines of a mat
//! or marks for both sides, and what a sheet is off in its width stays its own. Were the whole bed turned over, every place would
//! change, and sheets that stick to a mat can't be turned with it.

use super::back::{back, back_name, over, through};
use super::effort::ToolEffort;
use super::stroke::{Layer, SheetPaths, Stroke, StrokePath};
use crate::contour::{Edge, Point, turned};
use crate::cutter::{BedPlace, Cutter};
use crate::length::Length;
use crate::stock::Stock;
use std::borrow::Cow;

/// What lies on a bed at once, and what the tool does there.
#[derive(Clone, Debug)]
pub struct BedLoad {
    /// The number of each sheet among the sheets' strokes, and where it lies.
    pub sheets: Vec<(usize, BedPlace)>,
    /// Its strokes; it is as large as the bed, and named like a sheet.
    pub paths: SheetPaths,
    /// What is done before that on the backs of its sheets, each face down in the same place; none where nothing is.
    pub back: Option<SheetPaths>,
}

/// The loads of all beds on which several sheets are to lie, in the sheets' order. What is cut sheet by sheet is not among them.
#[must_use]
pub fn bed_loads(stocks: &[Stock], paths: &[SheetPaths], usual: &Cutter) -> Vec<BedLoad> {
    let mut loads: Vec<BedLoad> = Vec::new();
    let mut sizes: Vec<(usize, f64, f64)> = Vec::new();
    for sheet in paths {
        let size = (sheet.stock, sheet.width, sheet.height);
        if !sizes.contains(&size) {
            sizes.push(size);
        }
    }
    let mut named: Vec<usize> = Vec::new();
    for (stock, width, height) in sizes {
        let Some(of) = stocks.get(stock) else { continue };
        let cutter = of.cutter(usual);
        let places = cutter.bed_places(Length::from_mm(width), Length::from_mm(height)).unwrap_or_default();
        if places.is_empty() {
            continue;
        }
        let mine = |sheet: &&SheetPaths| (sheet.stock, sheet.width, sheet.height) == (stock, width, height);
        let sheets: Vec<(usize, u32)> = paths
            .iter()
            .enumerate()
            .filter(|(_, sheet)| mine(sheet))
            .map(|(number, sheet)| (number, sheet.times))
            .collect();
        for (times, on) in dealt(&sheets, places.len()) {
            named.push(stock);
            let count = named.iter().filter(|one| **one == stock).count();
            let mut name = format!("{}-bed-{count:02}", of.name);
            // Another stock may be called like that.
            while paths.iter().any(|sheet| sheet.name == name) {
                name.push('b');
            }
            let sheets: Vec<(usize, BedPlace)> = on.into_iter().zip(places.iter().copied()).collect();
            loads.push(load((name, times), sheets, paths, cutter));
        }
    }
    loads
}

/// What has a file of its own: beds, and sheets that lie on none, in the sheets' order within their stock.
#[must_use]
pub fn cut_sheets<'p>(stocks: &[Stock], paths: &'p [SheetPaths], usual: &Cutter) -> Vec<Cow<'p, SheetPaths>> {
    let loads = bed_loads(stocks, paths, usual);
    let loads_are_none = loads.is_empty();
    let lies = |number: usize| loads.iter().any(|load| load.sheets.iter().any(|(sheet, _)| *sheet == number));
    let alone: Vec<_> = paths.iter().enumerate().filter(|(number, _)| !lies(*number)).map(|(_, sheet)| sheet).collect();
    let mut all: Vec<Cow<'p, SheetPaths>> = alone.into_iter().map(Cow::Borrowed).collect();
    all.extend(loads.into_iter().map(|load| Cow::Owned(load.paths)));
    // Without beds they stay as they come.
    if !loads_are_none {
        all.sort_by_key(|sheet| sheet.stock);
    }
    all
}

/// What is done on backs, with a file of its own: of beds, and of sheets that lie on none, as [`cut_sheets`] has their fronts.
#[must_use]
pub fn back_sheets(stocks: &[Stock], paths: &[SheetPaths], usual: &Cutter) -> Vec<SheetPaths> {
    let loads = bed_loads(stocks, paths, usual);
    let lies = |number: usize| loads.iter().any(|load| load.sheets.iter().any(|(sheet, _)| *sheet == number));
    let cutter = |stock: usize| stocks.get(stock).map_or(usual, |stock| stock.cutter(usual));
    let alone = paths.iter().enumerate().filter(|(number, _)| !lies(*number));
    let mut all: Vec<SheetPaths> = alone.filter_map(|(_, sheet)| back(sheet, cutter(sheet.stock))).collect();
    if !loads.is_empty() {
        all.extend(loads.into_iter().filter_map(|load| load.back));
        all.sort_by_key(|sheet| sheet.stock);
    }
    all
}

/// Sheets with how often each is cut, as loads of at most so many: how often each load is, and what is on it.
fn dealt(sheets: &[(usize, u32)], places: usize) -> Vec<(u32, Vec<usize>)> {
    let many = u32::try_from(places).unwrap_or(u32::MAX).max(1);
    let full = sheets.iter().filter(|(_, times)| *times >= many);
    let mut loads: Vec<(u32, Vec<usize>)> = full.map(|(sheet, times)| (times / many, vec![*sheet; places])).collect();
    let rest = sheets.iter().flat_map(|(sheet, times)| (0..times % many).map(|_| *sheet));
    let rest: Vec<usize> = rest.collect();
    loads.extend(rest.chunks(places.max(1)).map(|some| (1, some.to_vec())));
    loads
}

fn load(
    (name, times): (String, u32),
    sheets: Vec<(usize, BedPlace)>,
    paths: &[SheetPaths],
    cutter: &Cutter,
) -> BedLoad {
    let (width, height) = cutter.bed.map_or((0.0, 0.0), |(width, height)| (width.mm(), height.mm()));
    let lying: Vec<(&SheetPaths, BedPlace)> =
        sheets.iter().filter_map(|(number, place)| Some((paths.get(*number)?, *place))).collect();
    let strokes = by_layer(cutter, &lying, |sheet, place| {
        let lies = |stroke: &Stroke| Stroke { run: lies(&stroke.run, sheet, place), ..stroke.clone() };
        sheet.strokes.iter().map(lies).collect()
    });
    let marks = lying.iter().flat_map(|(sheet, place)| sheet.register.iter().map(move |run| lies(run, sheet, *place)));
    let front = SheetPaths {
        name,
        stock: lying.first().map_or(0, |(sheet, _)| sheet.stock),
        times,
        width,
        height,
        register: marks.collect(),
        behind: Vec::new(),
        seconds: ToolEffort::of_strokes(&strokes).seconds(cutter),
        strokes,
    };
    let back = behind(&front, &lying, cutter);
    // What is done on the backs keeps the machine busy, too.
    let more = back.as_ref().and_then(|back| back.seconds).unwrap_or_default();
    BedLoad { sheets, paths: SheetPaths { seconds: front.seconds.map(|seconds| seconds + more), ..front }, back }
}

/// What is done on the backs of what lies on a bed, each sheet turned over in its place.
fn behind(front: &SheetPaths, lying: &[(&SheetPaths, BedPlace)], cutter: &Cutter) -> Option<SheetPaths> {
    let turned = |run: &StrokePath, sheet: &SheetPaths, place: BedPlace| {
        let wide = if place.turned { sheet.height } else { sheet.width };
        over(&lies(run, sheet, place), 2.0f64.mul_add(place.x, wide))
    };
    let strokes = by_layer(cutter, lying, |sheet, place| {
        let turned = |stroke: Stroke| Stroke { run: turned(&stroke.run, sheet, place), ..stroke };
        through(sheet, cutter).into_iter().map(turned).collect()
    });
    // A sheet whose back nothing is done on need not lie there.
    let there = lying.iter().filter(|(sheet, _)| !through(sheet, cutter).is_empty());
    let marks = there.flat_map(|(sheet, place)| sheet.register.iter().map(move |run| turned(run, sheet, *place)));
    (!strokes.is_empty()).then(|| SheetPaths {
        name: back_name(&front.name),
        register: marks.collect(),
        behind: Vec::new(),
        seconds: ToolEffort::of_strokes(&strokes).seconds(cutter),
        strokes,
        ..front.clone()
    })
}

/// Strokes of what lies on a bed: one layer after the other, each sheet by sheet.
fn by_layer(
    cutter: &Cutter,
    lying: &[(&SheetPaths, BedPlace)],
    of: impl Fn(&SheetPaths, BedPlace) -> Vec<Stroke>,
) -> Vec<Stroke> {
    let of_each: Vec<Vec<Stroke>> = lying.iter().map(|(sheet, place)| of(sheet, *place)).collect();
    let on = |layer: Layer| of_each.iter().flatten().filter(move |stroke| stroke.layer == layer).cloned();
    Layer::in_order(cutter.forms.layer_order).into_iter().flat_map(on).collect()
}

/// A run where its sheet lies.
fn lies(run: &StrokePath, sheet: &SheetPaths, place: BedPlace) -> StrokePath {
    let map = |point: Point| {
        let point = turned(point, u8::from(place.turned), (sheet.width, sheet.height));
        Point::new(point.x + place.x, point.y + place.y)
    };
    match run {
        StrokePath::Straight(pieces) => {
            StrokePath::Straight(pieces.iter().map(|&(from, to)| (map(from), map(to))).collect())
        }
        StrokePath::Closed(contour) => StrokePath::Closed(contour.mapped(map)),
        StrokePath::Open(edges) => StrokePath::Open(
            edges.iter().map(|edge| Edge { from: map(edge.from), to: map(edge.to), bulge: edge.bulge }).collect(),
        ),
    }
}
