// SPDX-License-Identifier: MIT
//! Which files of a kit are written, and those that no reader's text is.

use crate::album::Order;
#[cfg(feature = "pdf")]
use crate::album::{Album, Language};
use crate::cutter::Cutter;
#[cfg(feature = "pdf")]
use crate::guide;
#[cfg(feature = "pdf")]
use crate::labels;
use crate::parts::Kit;
#[cfg(feature = "png")]
use crate::picture::{self, Picture};
#[cfg(feature = "pdf")]
use crate::prepress;
#[cfg(feature = "png")]
use crate::sheets::Sheet;
#[cfg(any(feature = "png", feature = "pdf"))]
use crate::sheets::StockSheets;
#[cfg(feature = "pdf")]
use crate::templates;
use crate::templates::PrinterPaper;
use crate::toolpath::{self, SheetPaths};
use crate::write::{self, Sink, WriteProblem};
use std::borrow::Cow;
#[cfg(feature = "png")]
use std::io;

/// The kinds of file that this build can write; the report always is.
pub const FORMATS: &[&str] = match (cfg!(feature = "png"), cfg!(feature = "pdf")) {
    (true, true) => &["svg", "dxf", "png", "csv", "html", "pdf"],
    (true, false) => &["svg", "dxf", "png", "csv", "html"],
    (false, true) => &["svg", "dxf", "csv", "html", "pdf"],
    (false, false) => &["svg", "dxf", "csv", "html"],
};

/// Labels, and every part at true size.
#[cfg(feature = "pdf")]
pub(super) fn pages(
    (album, kit): (&Album, &Kit),
    labels: &[guide::Label],
    files: &Files<'_>,
    sink: &mut dyn Sink,
) -> Result<(), WriteProblem> {
    let labels = labels::labels(album, labels);
    let print = files.print.unwrap_or_else(|| PrinterPaper::of(album));
    let templates = templates::templates(album, kit, print);
    let of_templates = guide::Words::new(album.language).with("template-title", [("title", album.title.clone())]);
    for (name, title, pages) in [("labels.pdf", &album.title, labels), ("templates.pdf", &of_templates, templates)] {
        if !pages.is_empty() {
            sink.put(name, &write::pdf(title, album.language.word(), &pages)?)?;
        }
    }
    Ok(())
}

/// Sheets that are printed before they are cut, as they are printed.
#[cfg(feature = "pdf")]
pub(super) fn printed_first(
    order: Order<'_>,
    (kit, language): (&Kit, Language),
    sheets: (&[StockSheets], &[SheetPaths]),
    usual: &Cutter,
    sink: &mut dyn Sink,
) -> Result<(), WriteProblem> {
    let pages = prepress::pages(order, kit, sheets, usual, language);
    if !pages.is_empty() {
        let title = prepress::title(order, language);
        sink.put("print-first.pdf", &write::pdf(&title, language.word(), &pages)?)?;
    }
    Ok(())
}

/// All that a machine cuts at once, and what is done on backs, each with the machine that reads it.
fn faces<'a>(
    order: Order<'a>,
    paths: &'a [SheetPaths],
    usual: &'a Cutter,
) -> impl Iterator<Item = (Cow<'a, SheetPaths>, &'a Cutter)> {
    let cutter = move |sheet: &SheetPaths| order.stocks.get(sheet.stock).map_or(usual, |stock| stock.cutter(usual));
    let backs = toolpath::back_sheets(order.stocks, paths, usual).into_iter().map(Cow::Owned);
    let fronts = toolpath::cut_sheets(order.stocks, paths, usual).into_iter();
    fronts.chain(backs).map(move |sheet| {
        let cutter = cutter(&sheet);
        (sheet, cutter)
    })
}

/// What the files that a machine cuts are called, without their endings.
pub(super) fn cut_names(order: Order<'_>, paths: &[SheetPaths], usual: &Cutter) -> Vec<String> {
    faces(order, paths, usual).flat_map(|(sheet, cutter)| write::sheet_names(&sheet, cutter)).collect()
}

/// What a machine cuts, each stock's as its own machine reads it.
pub(super) fn cut_files(
    order: Order<'_>,
    kit: &Kit,
    paths: &[SheetPaths],
    usual: &Cutter,
    files: &Files<'_>,
    sink: &mut dyn Sink,
) -> Result<(), WriteProblem> {
    let asked = |format: &str| files.formats.contains(&format);
    for (sheet, cutter) in faces(order, paths, usual) {
        let sheet = sheet.as_ref();
        if asked("svg") {
            write::svg_files(order.title, &kit.parts, sheet, cutter, files.split_layers, sink)?;
        }
        if asked("dxf") {
            write::dxf_files(sheet, cutter, files.split_layers, sink)?;
        }
    }
    Ok(())
}

/// No more sheets than this are drawn at once: each takes some 30 MB while it is.
#[cfg(feature = "png")]
const MOST_DRAWN: usize = 2;

#[cfg(feature = "png")]
pub(super) fn pictures(
    order: Order<'_>,
    kit: &Kit,
    stocks: &[StockSheets],
    letter: &dyn Fn(usize) -> String,
    (threads, sink): (usize, &mut dyn Sink),
) -> Result<(), WriteProblem> {
    let sheets: Vec<(usize, &Sheet)> =
        stocks.iter().flat_map(|stock| stock.sheets.iter().map(|sheet| (stock.stock, sheet))).collect();
    for run in sheets.chunks(threads.clamp(1, MOST_DRAWN)) {
        let drawn: Vec<Picture> =
            run.iter().map(|(stock, sheet)| picture::sheet(order, kit, *stock, sheet, letter)).collect();
        for ((_, sheet), file) in run.iter().zip(write::pngs(&drawn)) {
            let bytes = file.ok_or_else(|| io::Error::other("a sheet could not be drawn"))?;
            sink.put(&format!("sheets/{}.png", sheet.name), &bytes)?;
        }
    }
    Ok(())
}

/// Which files of a kit to write.
#[derive(Clone, Copy, Debug)]
#[allow(clippy::struct_excessive_bools, reason = "each says of one kind of file whether it is wanted")]
pub struct Files<'a> {
    /// Some of [`FORMATS`].
    pub formats: &'a [&'a str],
    /// Whether each layer gets a file of its own.
    pub split_layers: bool,
    /// Whether the guide has every length in both systems.
    pub both_units: bool,
    /// Whether the guide comes on one page as well.
    pub kit_card: bool,
    /// Whether there is a sheet to teach by as well.
    pub teaching: bool,
    /// What templates are printed on; none is what the album says.
    pub print: Option<PrinterPaper>,
    /// On how many threads pictures are drawn; the bytes are the same for any number.
    pub threads: usize,
}

impl<'a> Files<'a> {
    /// These kinds of file, as plain as they come.
    #[must_use]
    pub const fn of(formats: &'a [&'a str]) -> Self {
        Self {
            formats,
            split_layers: false,
            both_units: false,
            kit_card: false,
            teaching: false,
            print: None,
            threads: 1,
        }
    }
}

impl Files<'static> {
    /// Every kind of file that this build writes.
    pub const ALL: Self = Self::of(FORMATS);
}
