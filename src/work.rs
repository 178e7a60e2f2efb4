// SPDX-License-Identifier: MIT
//! The whole job in two calls: [`Work::new`] goes from an album to tool paths, [`Work::write`] to files.
//!
//! In: an album, the cutter, how hard to search. Out: everything that the stages found. Never: more than the
//! stages do.

use crate::album::Album;
use crate::cutter::Cutter;
use crate::finding::{Finding, gravest_first, stops};
use crate::fit::{Fit, opening};
use crate::guide;
use crate::layout::Watch;
use crate::parts::Kit;
use crate::picture::{self, Picture};
use crate::sheets::{self, Search, StockSheets};
use crate::sizes;
use crate::templates::PrinterPaper;
use crate::toolpath::{self, Labels, SheetPaths};
use crate::trial::Trial;
use crate::write::{self, Listed, Sink, WriteProblem};
#[cfg(feature = "pdf")]
use crate::{labels, templates, write::pages::GuideForm};
use std::collections::BTreeMap;
#[cfg(feature = "png")]
use std::io;

/// The kinds of file that this build can write; the report always is.
pub const FORMATS: &[&str] = match (cfg!(feature = "png"), cfg!(feature = "pdf")) {
    (true, true) => &["svg", "dxf", "png", "csv", "html", "pdf"],
    (true, false) => &["svg", "dxf", "png", "csv", "html"],
    (false, true) => &["svg", "dxf", "csv", "html", "pdf"],
    (false, false) => &["svg", "dxf", "csv", "html"],
};

/// An album worked out, as far as it goes together.
#[derive(Debug)]
pub struct Work {
    /// The album.
    pub album: Album,
    /// The machine.
    pub cutter: Cutter,
    /// Its parts.
    pub kit: Kit,
    /// How well it goes together.
    pub fit: Fit,
    /// Its sheets; empty where something stops the work.
    pub stocks: Vec<StockSheets>,
    /// What the tool does on them; empty where something stops the work.
    pub paths: Vec<SheetPaths>,
    /// Everything that the maker should hear, gravest first.
    pub findings: Vec<Finding>,
}

impl Work {
    /// Works out the parts and whether they go together, without laying them out.
    #[must_use]
    pub fn fit(album: Album, cutter: Cutter) -> Self {
        let tried = Trial::of(album, &cutter);
        let (mut fit, kit, album) = if let Some((spared, fit)) = tried.spoilt() {
            (fit, spared.into_parts().1, tried.album)
        } else {
            let fit = tried.fit();
            let (album, kit) = tried.into_parts();
            (fit, kit, album)
        };
        let findings = std::mem::take(&mut fit.findings);
        Self { album, cutter, kit, fit, stocks: Vec::new(), paths: Vec::new(), findings }
    }

    /// Works out everything.
    #[must_use]
    pub fn new(album: Album, cutter: Cutter, labels: Labels, search: Search, watch: &dyn Watch) -> Self {
        let mut work = Self::fit(album, cutter);
        if stops(&work.findings) {
            return work;
        }
        let (mut stocks, findings) = sheets::lay(&work.album, &work.kit, &work.cutter, search, watch);
        let mut of_sheets = findings;
        if !stops(&of_sheets) {
            let cost = sheets::price_of_cutting(&work.album, &work.kit, &work.cutter, &stocks, search, watch);
            of_sheets.extend(cost);
        }
        if !stops(&of_sheets)
            && let Some(filled) = sheets::fill(&work.album, &work.kit, &work.cutter, &stocks, search, watch)
        {
            work = Self::fit(filled.album, work.cutter);
            stocks = filled.stocks;
            of_sheets.extend(filled.findings);
        }
        work.findings.extend(of_sheets);
        if !stops(&work.findings) {
            let paths = toolpath::paths(&work.kit, &stocks, &work.cutter, labels);
            work.findings.extend(paths.findings);
            if let Some(paths) = paths.value {
                work.stocks = stocks;
                work.paths = paths;
            }
        }
        work.album.word_mends(&mut work.findings);
        gravest_first(&mut work.findings);
        work
    }

    /// Adds what is to be said besides.
    pub fn add(&mut self, findings: Vec<Finding>) {
        self.findings.extend(findings);
        gravest_first(&mut self.findings);
    }

    /// Adds what the maker may want to think over before a kit is made: a page hardly smaller that saves a sheet.
    pub fn advise(&mut self, search: Search, watch: &dyn Watch) {
        if !self.stopped() {
            self.add(sizes::note(&self.album, &self.cutter, &self.stocks, search, watch).into_iter().collect());
        }
    }

    /// Whether something stops the work.
    #[must_use]
    pub fn stopped(&self) -> bool {
        stops(&self.findings)
    }

    /// The cross-section as a picture: closed, and open where it lies least flat; none where the album does not go together.
    #[must_use]
    pub fn cross_section(&self) -> Option<Picture> {
        let section = opening::section(&self.album, self.fit.closed.as_ref()?);
        let worst = self.fit.openings.as_ref().map(|openings| &openings.worst);
        Some(picture::section(section.base, &section.closed(), worst, &|mm| self.album.roughly(mm)))
    }

    /// The report; `files` are those that it stands beside, with their digests.
    #[must_use]
    pub fn report(&self, files: &BTreeMap<String, String>) -> String {
        write::report(&self.album, &self.kit, &self.stocks, &self.paths, &self.findings, files)
    }

    /// What the guide is made from.
    #[must_use]
    pub fn guide_job(&self, both_units: bool) -> guide::GuideJob<'_> {
        let Self { album, kit, fit, stocks, cutter, .. } = self;
        guide::GuideJob { album, kit, fit, stocks, cutter, both_units }
    }

    /// Writes the kit's files.
    ///
    /// # Errors
    /// The sink's, or a file that read back is not what was meant.
    pub fn write(&self, files: &Files<'_>, sink: &mut dyn Sink) -> Result<(), WriteProblem> {
        let asked = |format: &str| files.formats.contains(&format);
        let mut listed = Listed::new(sink);
        let sink = &mut listed;
        for sheet in &self.paths {
            if asked("svg") {
                write::svg_files(&self.album.title, &self.kit.parts, sheet, &self.cutter, files.split_layers, sink)?;
            }
            if asked("dxf") {
                write::dxf_files(sheet, &self.cutter, files.split_layers, sink)?;
            }
        }
        #[cfg(feature = "png")]
        if asked("png") {
            self.pictures(sink)?;
        }
        if asked("csv") {
            sink.put("cutting-list.csv", write::cutting_list(&self.album, &self.kit).as_bytes())?;
        }
        let job = self.guide_job(files.both_units);
        if asked("html") {
            sink.put("guide.html", write::guide(&guide::guide(&job)).as_bytes())?;
            if self.album.has_shop() {
                sink.put("job.html", write::guide(&guide::shop(&job)).as_bytes())?;
            }
        }
        #[cfg(feature = "pdf")]
        if asked("pdf") {
            self.pages(files, &job, sink)?;
        }
        if files.kit_card {
            sink.put("kit-card.html", write::kit_card(&guide::card(&job)).as_bytes())?;
        }
        if files.teaching {
            sink.put("teaching-sheet.html", write::teaching_sheet(&guide::teaching(&job)).as_bytes())?;
        }
        Ok(listed.finish("report.json", |files| self.report(files))?)
    }

    /// All that is printed.
    #[cfg(feature = "pdf")]
    fn pages(&self, files: &Files<'_>, job: &guide::GuideJob<'_>, sink: &mut dyn Sink) -> Result<(), WriteProblem> {
        sink.put("guide.pdf", &write::guide_pdf(&guide::guide(job), GuideForm::Guide)?)?;
        if self.album.has_shop() {
            sink.put("job.pdf", &write::guide_pdf(&guide::shop(job), GuideForm::Guide)?)?;
        }
        if files.kit_card {
            sink.put("kit-card.pdf", &write::guide_pdf(&guide::card(job), GuideForm::Card)?)?;
        }
        if files.teaching {
            sink.put("teaching-sheet.pdf", &write::guide_pdf(&guide::teaching(job), GuideForm::Card)?)?;
        }
        if self.album.has_shop() || self.album.labels.is_some() {
            let sheets = labels::labels(&self.album, &guide::labels(job));
            let pages: Vec<write::PdfPage<'_>> = sheets
                .iter()
                .map(|sheet| write::PdfPage { picture: &sheet.picture, name: &sheet.name, shows: &sheet.shows })
                .collect();
            sink.put("labels.pdf", &write::pdf(&self.album.title, self.album.language.tag(), &pages)?)?;
        }
        self.templates(files.print.unwrap_or_else(|| PrinterPaper::of(&self.album)), sink)
    }

    /// Every part at true size, to be printed.
    #[cfg(feature = "pdf")]
    fn templates(&self, print: PrinterPaper, sink: &mut dyn Sink) -> Result<(), WriteProblem> {
        let pages = templates::templates(&self.album, &self.kit, print);
        if pages.is_empty() {
            return Ok(());
        }
        let title =
            guide::Words::new(self.album.language).with("template-title", [("title", self.album.title.clone())]);
        let pages: Vec<write::PdfPage<'_>> = pages
            .iter()
            .map(|page| write::PdfPage { picture: &page.picture, name: &page.name, shows: &page.shows })
            .collect();
        let bytes = write::pdf(&title, self.album.language.tag(), &pages)?;
        sink.put("templates.pdf", &bytes)?;
        Ok(())
    }

    #[cfg(feature = "png")]
    fn pictures(&self, sink: &mut dyn Sink) -> Result<(), WriteProblem> {
        // The same letters as in the guide.
        let rows = guide::list::list(&self.album, &self.kit, 1);
        let letter = |part: usize| guide::list::mark(&rows, part).to_owned();
        for (stock, sheet) in self.stocks.iter().flat_map(|stock| stock.sheets.iter().map(|sheet| (stock.stock, sheet)))
        {
            let picture = picture::sheet(&self.album, &self.kit, stock, sheet, &letter);
            let bytes = write::png(&picture).ok_or_else(|| io::Error::other("a sheet could not be drawn"))?;
            sink.put(&format!("sheets/{}.png", sheet.name), &bytes)?;
        }
        Ok(())
    }
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
