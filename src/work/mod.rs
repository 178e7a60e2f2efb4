// SPDX-License-Identifier: MIT
//! The whole job in two calls: [`Work::new`] goes from an album to tool paths, [`Work::write`] to files.
//!
//! In: an album, the cutter, how hard to search. Out: everything that the stages found. Never: more than the
//! stages do.

mod again;
mod batch;
mod batch_texts;
mod choice;
mod cost;
mod coupon;
mod edition;
mod files;
mod filled;
mod offcut;
mod texts;

pub use batch::BatchWork;
pub use choice::ChoiceWork;
pub use coupon::put_coupon;
pub use edition::{MadeEdition, OF_SHEETS};
use files::cut_files;
#[cfg(feature = "png")]
use files::pictures;
pub use files::{FORMATS, Files};
#[cfg(feature = "pdf")]
use files::{pages, printed_first};
use texts::ReaderText;

use crate::album::Album;
use crate::cost::Cost;
use crate::cutter::Cutter;
use crate::drawer::NamedDrawer;
use crate::editions::{Edition, Recut};
use crate::finding::{Finding, gravest_first, stops};
use crate::fit::{Fit, opening};
use crate::guide;
use crate::labels;
use crate::layout::Watch;
use crate::parts::Kit;
use crate::picture::{self, Picture};
use crate::sheets::{self, Search, StockSheets};
use crate::sizes;
use crate::toolpath::{self, Labels, SheetPaths};
use crate::trial::Trial;
use crate::write::{self, Listed, Sink, WriteProblem};
use std::collections::BTreeMap;
use std::sync::OnceLock;

/// An album worked out, as far as it goes together.
#[derive(Clone, Debug)]
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
    /// What stands for each part in the guide, where it is a kit of a batch.
    pub letters: Option<Vec<String>>,
    /// Whether its sheets are of those parts alone that the owner of an old kit cuts again.
    pub recut: bool,
    /// What it costs, once somebody asks.
    pub cost: OnceLock<Option<Cost>>,
}

/// Who is shown an album with its parts.
type Seeing<'a> = &'a mut dyn FnMut(&Album, &Kit);

impl Work {
    /// Works out the parts and whether they go together, without laying them out.
    #[must_use]
    pub fn fit(album: Album, cutter: Cutter) -> Self {
        Self::fit_seen(album, cutter, &mut |_, _| ())
    }

    /// The same; `see` is shown the album with its parts as soon as they are made.
    pub(crate) fn fit_seen(album: Album, cutter: Cutter, see: Seeing<'_>) -> Self {
        let tried = Trial::of(album, &cutter);
        if let Some(kit) = tried.kit() {
            see(&tried.album, kit);
        }
        let (mut fit, kit, album) = if let Some((spared, fit)) = tried.spoilt() {
            (fit, spared.into_parts().1, tried.album)
        } else {
            let fit = tried.fit();
            let (album, kit) = tried.into_parts();
            (fit, kit, album)
        };
        let findings = std::mem::take(&mut fit.findings);
        Self::begun((album, cutter), kit, fit, findings)
    }

    /// Parts and their fit; nothing is laid yet.
    fn begun((album, cutter): (Album, Cutter), kit: Kit, fit: Fit, findings: Vec<Finding>) -> Self {
        let (stocks, paths, cost) = (Vec::new(), Vec::new(), OnceLock::new());
        Self { album, cutter, kit, fit, stocks, paths, findings, letters: None, recut: false, cost }
    }

    /// Works out everything.
    #[must_use]
    pub fn new(album: Album, cutter: Cutter, labels: Labels, search: Search, watch: &dyn Watch) -> Self {
        Self::new_seen(album, cutter, labels, search, watch, &mut |_, _| ())
    }

    /// The same; `see` is shown the album with its parts as soon as they are made.
    pub(crate) fn new_seen(
        album: Album,
        cutter: Cutter,
        labels: Labels,
        search: Search,
        watch: &dyn Watch,
        see: Seeing<'_>,
    ) -> Self {
        Self::made((album, cutter), labels, (search, watch), true, see)
    }

    /// The same; whether inserts that follow what the sheets leave over get their size.
    fn made(
        (mut album, cutter): (Album, Cutter),
        labels: Labels,
        (search, watch): (Search, &dyn Watch),
        follow: bool,
        see: Seeing<'_>,
    ) -> Self {
        let drawer = album.drawer.as_ref().and_then(NamedDrawer::known).cloned();
        let unused = drawer.map(|drawer| drawer.offer(&mut album.stocks)).unwrap_or_default();
        let mut work = Self::fit_seen(album, cutter, see);
        if stops(&work.findings) {
            return work;
        }
        let (mut stocks, findings) = sheets::lay(work.album.order(), &work.kit, &work.cutter, search, watch);
        let mut of_sheets = findings;
        if follow && !stops(&of_sheets) {
            of_sheets.extend(work.follow(&mut stocks, search, watch));
        }
        if !stops(&of_sheets) {
            let cost = sheets::price_of_cutting(work.album.order(), &work.kit, &work.cutter, &stocks, search, watch);
            of_sheets.extend(cost);
        }
        if !stops(&of_sheets)
            && let Some(filled) = sheets::fill(&work.album, &work.kit, &work.cutter, &stocks, search, watch)
        {
            work = Self::fit(filled.album, work.cutter);
            stocks = filled.stocks;
            of_sheets.extend(filled.findings);
        }
        if !stops(&of_sheets) {
            let order = work.album.order();
            let more = sheets::lay_spare_parts(order, &work.kit, &work.cutter, &mut stocks, (search, watch));
            of_sheets.extend(more);
        }
        work.findings.extend(of_sheets);
        work.findings.extend(unused);
        if !stops(&work.findings) {
            let paths = toolpath::paths(&work.kit, work.album.order(), &stocks, &work.cutter, (labels, search.effort));
            work.findings.extend(paths.findings);
            if let Some(paths) = paths.value {
                sheets::note_cuts(&mut work.kit, &stocks);
                work.stocks = stocks;
                work.paths = paths;
            }
        }
        if !stops(&work.findings) {
            work.findings.extend(labels::check(&work.album, &work.labels()));
        }
        work.album.word_mends(&mut work.findings);
        gravest_first(&mut work.findings);
        work
    }

    /// The sheets of what the owner of an old kit must cut, and of nothing else. It says only what there is to say of these sheets.
    #[must_use]
    pub fn recut(mut self, recut: &Recut, labels: Labels, search: Search, watch: &dyn Watch) -> Self {
        for (number, part) in self.kit.parts.iter_mut().enumerate() {
            part.count = recut.cut.get(number).copied().unwrap_or(0);
        }
        for (number, block) in self.kit.blocks.iter_mut().enumerate() {
            block.count = recut.blocks.get(number).copied().unwrap_or(0);
        }
        self.recut = true;
        self.album.spares = None;
        (self.stocks, self.findings) = sheets::lay(self.album.order(), &self.kit, &self.cutter, search, watch);
        if !self.stopped() {
            let paths =
                toolpath::paths(&self.kit, self.album.order(), &self.stocks, &self.cutter, (labels, search.effort));
            self.findings.extend(paths.findings);
            self.paths = paths.value.unwrap_or_default();
        }
        self.album.word_mends(&mut self.findings);
        gravest_first(&mut self.findings);
        self
    }

    /// What other editions are compared with.
    #[must_use]
    pub fn edition(&self) -> Edition {
        let job = self.guide_job(false);
        Edition::of(&self.album, &self.kit, &self.stocks).with_guide(&guide::guide(&job), &job)
    }

    /// Adds what is to be said besides.
    pub fn add(&mut self, findings: Vec<Finding>) {
        self.findings.extend(findings);
        gravest_first(&mut self.findings);
    }

    /// Adds what the maker may want to think over before a kit is made: a page hardly smaller that saves a sheet, a
    /// stock that takes fewer when it is cut the other way.
    pub fn advise(&mut self, search: Search, watch: &dyn Watch) {
        if !self.stopped() {
            self.add(sizes::note(&self.album, &self.cutter, &self.stocks, search, watch).into_iter().collect());
            self.add(sheets::other_way(self.album.order(), &self.kit, &self.cutter, &self.stocks, search, watch));
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
        let Self { album, kit, stocks, cutter, paths, findings, recut, .. } = self;
        let (order, batch, cost) = (album.order(), None, self.cost());
        let groups = Vec::new();
        let of = write::Reported { order, kit, stocks, cutter, paths, findings, batch, groups, recut: *recut, cost };
        write::report(&of, files)
    }

    /// What the files that a machine cuts are called, without their endings.
    #[must_use]
    pub fn cut_names(&self) -> Vec<String> {
        files::cut_names(self.album.order(), &self.paths, &self.cutter)
    }

    /// What the guide is made from.
    #[must_use]
    pub fn guide_job(&self, both_units: bool) -> guide::GuideJob<'_> {
        let Self { album, kit, fit, stocks, cutter, paths, letters, .. } = self;
        guide::GuideJob {
            album,
            language: album.language,
            kit,
            fit,
            stocks,
            cutter,
            paths,
            letters: letters.as_deref(),
            both_units,
            others: &[],
            cost: None,
        }
    }

    /// Writes the kit's files.
    ///
    /// # Errors
    /// The sink's, or a file that read back is not what was meant.
    pub fn write(&self, files: &Files<'_>, sink: &mut dyn Sink) -> Result<(), WriteProblem> {
        let asked = |format: &str| files.formats.contains(&format);
        let mut listed = Listed::new(sink);
        let sink = &mut listed;
        cut_files(self.album.order(), &self.kit, &self.paths, &self.cutter, files, sink)?;
        #[cfg(feature = "png")]
        if asked("png") {
            // The same letters as in the guide.
            let rows = guide::list::list(self.album.order(), &self.kit, 1);
            let letter = |part: usize| guide::list::mark(&rows, part).to_owned();
            pictures(self.album.order(), &self.kit, &self.stocks, &letter, (files.threads, sink))?;
        }
        if asked("csv") {
            sink.put("cutting-list.csv", write::cutting_list(self.album.order(), &self.kit, None).as_bytes())?;
        }
        self.put_cost(files, sink)?;
        let job = guide::GuideJob { cost: self.cost(), ..self.guide_job(files.both_units) };
        self.texts_of(&ReaderText::ALL, files, &|text| text.made(&job), sink)?;
        #[cfg(feature = "pdf")]
        if asked("pdf") {
            pages((&self.album, &self.kit), &self.labels(), files, sink)?;
            let sheets = (self.stocks.as_slice(), self.paths.as_slice());
            let (order, kit) = (self.album.order(), (&self.kit, self.album.language));
            printed_first(order, kit, sheets, &self.cutter, sink)?;
        }
        Ok(listed.finish("report.json", |files| self.report(files))?)
    }

    /// What people read, of these as far as they are wanted, each made once: as a page, and to be printed.
    fn texts_of(
        &self,
        texts: &[ReaderText],
        files: &Files<'_>,
        made: &dyn Fn(ReaderText) -> guide::Guide,
        sink: &mut dyn Sink,
    ) -> Result<(), WriteProblem> {
        let asked = |format: &str| files.formats.contains(&format);
        let printed = cfg!(feature = "pdf") && asked("pdf");
        for text in texts {
            // A card and a teaching sheet are asked for by name, whatever the formats are.
            let (wanted, as_page) = match text {
                ReaderText::Guide => (true, asked("html")),
                ReaderText::Job => (self.album.has_shop(), asked("html")),
                ReaderText::Card => (files.kit_card, true),
                ReaderText::Teaching => (files.teaching, true),
            };
            if wanted && (as_page || printed) {
                text.put(text.name(), &made(*text), (as_page, printed), sink)?;
            }
        }
        Ok(())
    }

    /// The words of its labels; none where nobody packs bags and the maker has no labels.
    #[must_use]
    pub fn labels(&self) -> Vec<guide::Label> {
        let wanted = self.album.has_shop() || self.album.labels.is_some();
        if wanted { guide::labels(&self.guide_job(false)) } else { Vec::new() }
    }
}
