// SPDX-License-Identifier: MIT
//! Sheets that are printed before they are cut: a page of each at true size.
//!
//! In: an order's parts, their sheets, the strokes on these. Out: [`PrintedPage`]s: register marks, each part in its stock's
//! picture or colour, on past its cut where that is asked for, and what is drawn on it. Never: a file format, a place of its own: all
//! of it stands where the cut files have it.
//!
//! Parts lie on their sheet with the front up, so it is the front that is printed: the picture of the whole sheet, seen through the
//! parts. Where two of them bleed into each other, both show what the sheet has there.

use crate::album::{Language, Order};
use crate::contour::{Contour, Point, spread, turned};
use crate::cutter::Cutter;
use crate::guide::Words;
use crate::parts::Kit;
use crate::picture::{Fill, Mark, Pen, Picture, PrintedPage, Tint, printed_front, register_mark};
use crate::raster::PaperPicture;
use crate::sheets::{Placed, Sheet, StockSheets};
use crate::stock::Stock;
use crate::toolpath::{Layer, SheetPaths, StrokePath};
use std::sync::Arc;

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
    let mut made = Vec::new();
    for laid in laid {
        let marked: Vec<&Sheet> = laid.sheets.iter().filter(|sheet| !sheet.register.is_empty()).collect();
        let Some(stock) = order.stocks.get(laid.stock).filter(|_| !marked.is_empty()) else { continue };
        // Read once for all sheets of a stock: it may be as fine as a camera's.
        let raster = front(stock);
        for sheet in marked {
            let own = |paths: &&SheetPaths| paths.stock == laid.stock && paths.name == sheet.name;
            let Some(paths) = paths.iter().find(own) else { continue };
            let picture = page(kit, sheet, paths, ground(stock, sheet, raster.as_ref()), bleed(stock, usual));
            let places = || [("sheet", sheet.name.clone()), ("times", sheet.times.to_string())];
            let (name, shows) = (words.with("prepress-page", places()), words.with("prepress-shows", places()));
            made.push(PrintedPage::new(picture, name, shows));
        }
    }
    made
}

/// What they are called together.
#[must_use]
pub fn title(order: Order<'_>, language: Language) -> String {
    Words::new(language).with("prepress-title", [("title", order.title.to_owned())])
}

/// A stock's picture as it is printed.
fn front(stock: &Stock) -> Option<Arc<PaperPicture>> {
    stock.pictures.front.as_ref()?.raster.as_ref()?.to_print().map(Arc::new)
}

/// What a sheet is printed with where its parts are.
fn ground(stock: &Stock, sheet: &Sheet, raster: Option<&Arc<PaperPicture>>) -> Option<Fill> {
    let picture = raster.and_then(|raster| printed_front(stock, sheet.size, Arc::clone(raster)));
    picture.or(stock.colour.map(|colour| Fill::Flat(Tint(colour))))
}

/// How far what is printed runs on past a cut, mm.
fn bleed(stock: &Stock, usual: &Cutter) -> f64 {
    stock.cutter(usual).marks.map_or(0.0, |marks| marks.bleed.mm())
}

fn page(kit: &Kit, sheet: &Sheet, paths: &SheetPaths, ground: Option<Fill>, bleed: f64) -> Picture {
    let mut picture = Picture { width: sheet.width, height: sheet.height, marks: Vec::new() };
    if let Some(ground) = ground {
        let outlines = sheet.placements.iter().map(|placed| outlines(kit, placed));
        picture.marks.extend(outlines.map(|contours| on_past(contours, &ground, bleed)));
    }
    let drawn = paths.strokes.iter().filter(|stroke| stroke.layer == Layer::Draw);
    picture.marks.extend(drawn.flat_map(|stroke| line(&stroke.run)));
    picture.marks.extend(sheet.register.iter().flat_map(register_mark));
    picture
}

/// A part filled, and on past its cut.
fn on_past(contours: Vec<Contour>, ground: &Fill, bleed: f64) -> Mark {
    match (ground, contours.split_first()) {
        // A line along the outline reaches as far past it as it is broad inside.
        (Fill::Flat(colour), _) if bleed > 0.0 => {
            let pen = Pen { width: 2.0 * bleed, colour: *colour, dash: &[] };
            Mark::Shape { contours, fill: Some(Fill::Flat(*colour)), pen: Some(pen) }
        }
        (Fill::Pictured { .. }, Some((outline, holes))) => {
            Mark::Shape { contours: spread(outline, holes, bleed), fill: Some(ground.clone()), pen: None }
        }
        _ => Mark::Shape { contours, fill: Some(ground.clone()), pen: None },
    }
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
