// SPDX-License-Identifier: MIT
//! Which files of a kit are written, and those that no reader's text is.

#[cfg(feature = "pdf")]
use crate::album::Album;
use crate::album::Order;
use crate::cutter::Cutter;
#[cfg(feature = "pdf")]
use crate::guide;
#[cfg(feature = "pdf")]
use crate::labels;
use crate::parts::Kit;
#[cfg(feature = "png")]
use crate::picture;
#[cfg(feature = "png")]
use crate::sheets::StockSheets;
#[cfg(feature = "pdf")]
use crate::templates;
use crate::templates::PrinterPaper;
use crate::toolpath::{SheetPaths, back};
use crate::write::{self, Sink, WriteProblem};
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

/// Every sheet and what is done on its back, each with the machine that reads it.
fn faces<'a>(
    order: Order<'a>,
    paths: &'a [SheetPaths],
    usual: &'a Cutter,
) -> impl Iterator<Item = (SheetPaths, &'a Cutter)> {
    paths.iter().flat_map(move |sheet| {
        let cutter = order.stocks.get(sheet.stock).map_or(usual, |stock| stock.cutter(usual));
        [Some(sheet.clone()), back(sheet, cutter)].into_iter().flatten().map(move |sheet| (sheet, cutter))
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
        let sheet = &sheet;
        if asked("svg") {
            write::svg_files(order.title, &kit.parts, sheet, cutter, files.split_layers, sink)?;
        }
        if asked("dxf") {
            write::dxf_files(sheet, cutter, files.split_layers, sink)?;
        }
    }
    Ok(())
}

#[cfg(feature = "png")]
pub(super) fn pictures(
    order: Order<'_>,
    kit: &Kit,
    stocks: &[StockSheets],
    letter: &dyn Fn(usize) -> String,
    sink: &mut dyn Sink,
) -> Result<(), WriteProblem> {
    for (stock, sheet) in stocks.iter().flat_map(|stock| stock.sheets.iter().map(|sheet| (stock.stock, sheet))) {
        let picture = picture::sheet(order, kit, stock, sheet, letter);
        let bytes = write::png(&picture).ok_or_else(|| io::Error::other("a sheet could not be drawn"))?;
        sink.put(&format!("sheets/{}.png", sheet.name), &bytes)?;
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
}

impl<'a> Files<'a> {
    /// These kinds of file, as plain as they come.
    #[must_use]
    pub const fn of(formats: &'a [&'a str]) -> Self {
        Self { formats, split_layers: false, both_units: false, kit_card: false, teaching: false, print: None }
    }
}

impl Files<'static> {
    /// Every kind of file that this build writes.
    pub const ALL: Self = Self::of(FORMATS);
}
