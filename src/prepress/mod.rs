// SPDX-License-Identifier: MIT
//! Sheets that are printed before they are cut: a page of each at true size.
//!
//! In: an order's parts, their sheets, the strokes on these. Out: [`PrintedPage`]s: register marks, each part in its stock's
//! colour, on past its cut where that is asked for, and what is drawn on it. Never: a file format, a place of its own: all of it
//! stands where the cut files have it.

use crate::album::{Language, Order};
use crate::contour::{Contour, Point, turned};
use crate::cutter::Cutter;
use crate::guide::Words;
use crate::parts::Kit;
use crate::picture::{Fill, Mark, Pen, Picture, PrintedPage, Tint, register_mark};
use crate::sheets::{Placed, Sheet, StockSheets};
use crate::toolpath::{Layer, SheetPaths, StrokePath};

/// A page for each sheet that has register marks, in the order of the sheets.
#[must_use]
pub fn pages(
    order: Order<'_>,
    kit: &Kit,
    (laid, paths): (&[StockSheets], &[SheetPaths]),
    usual: &Cutter,
    language: Language,
) -> Vec<PrintedPage> {
    let words = Words::new(language);
    let sheets = laid.iter().flat_map(|laid| laid.sheets.iter().map(move |sheet| (laid.stock, sheet)));
    sheets
        .filter(|(_, sheet)| !sheet.register.is_empty())
        .filter_map(|(stock, sheet)| {
            let paths = paths.iter().find(|paths| paths.stock == stock && paths.name == sheet.name)?;
            let stock = order.stocks.get(stock)?;
            let bleed = stock.cutter(usual).marks.map_or(0.0, |marks| marks.bleed.mm());
            let picture = page(kit, sheet, paths, (stock.colour.map(Tint), bleed));
            let places = || [("sheet", sheet.name.clone()), ("times", sheet.times.to_string())];
            Some(PrintedPage::new(
                picture,
                words.with("prepress-page", places()),
                words.with("prepress-shows", places()),
            ))
        })
        .collect()
}

/// What they are called together.
#[must_use]
pub fn title(order: Order<'_>, language: Language) -> String {
    Words::new(language).with("prepress-title", [("title", order.title.to_owned())])
}

fn page(kit: &Kit, sheet: &Sheet, paths: &SheetPaths, (colour, bleed): (Option<Tint>, f64)) -> Picture {
    let mut picture = Picture { width: sheet.width, height: sheet.height, marks: Vec::new() };
    if let Some(colour) = colour {
        let outlines = sheet.placements.iter().map(|placed| outlines(kit, placed));
        picture.marks.extend(outlines.map(|contours| {
            // A line along the outline reaches as far past it as it is broad inside.
            let pen = (bleed > 0.0).then_some(Pen { width: 2.0 * bleed, colour, dash: &[] });
            Mark::Shape { contours, fill: Some(Fill::Flat(colour)), pen }
        }));
    }
    let drawn = paths.strokes.iter().filter(|stroke| stroke.layer == Layer::Draw);
    picture.marks.extend(drawn.flat_map(|stroke| line(&stroke.run)));
    picture.marks.extend(sheet.register.iter().flat_map(register_mark));
    picture
}

/// A part's outline and holes where it lies; nothing of a part that there is not.
fn outlines(kit: &Kit, placed: &Placed) -> Vec<Contour> {
    let Some(part) = kit.parts.get(placed.part) else { return Vec::new() };
    let size = (part.flat.width, part.flat.height);
    let map = |point: Point| {
        let point = turned(point, placed.quarters, size);
        Point::new(point.x + placed.x, point.y + placed.y)
    };
    std::iter::once(&part.flat.outline).chain(&part.flat.holes).map(|contour| contour.mapped(map)).collect()
}

/// What is drawn on a part, as it is printed.
fn line(run: &StrokePath) -> Vec<Mark> {
    let pen = Pen::MARK;
    match run {
        StrokePath::Straight(pieces) => {
            pieces.iter().map(|&(from, to)| Mark::Line { points: vec![from, to], pen }).collect()
        }
        StrokePath::Closed(contour) => {
            vec![Mark::Shape { contours: vec![contour.clone()], fill: None, pen: Some(pen) }]
        }
        StrokePath::Open(edges) => {
            let points = edges.first().map(|edge| edge.from).into_iter().chain(edges.iter().map(|edge| edge.to));
            vec![Mark::Line { points: points.collect(), pen }]
        }
    }
}
