// SPDX-License-Identifier: MIT
//! The whole job for a batch: every kit worked out, their parts laid as one order.
//!
//! In: a batch, the cutter, how hard to search. Out: what the stages found, and the files. Never: more than the stages do.

use super::filled::FilledSheets;
use super::{ChoiceWork, Files, Work, choice};
use crate::album::{Album, Entry, Handed, Order, Spares};
use crate::batch::{Batch, BatchKit, Lot, Merged, Together, lots};
use crate::cost::Cost;
use crate::cutter::Cutter;
use crate::finding::{Finding, Said, gravest_first, of_kits, stops};
use crate::fit::Fit;
use crate::guide;
use crate::labels;
use crate::layout::{Effort, Watch};
use crate::parts::{Kit, Part};
use crate::sheets::{self, Search, StockSheets};
use crate::stock::Stock;
use crate::toolpath::{self, Labels, SheetPaths};
use crate::write::{self, Listed, Sink, WriteProblem};
use std::collections::BTreeMap;
use std::sync::OnceLock;

/// A batch worked out, as far as it goes together.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct BatchWork {
    /// The batch.
    pub batch: Batch,
    /// What stands for an album where the whole order is listed.
    pub(super) album: Option<Album>,
    /// The machine.
    pub cutter: Cutter,
    /// Each kit by itself. It has only those sheets that are handed over whole.
    pub kits: Vec<Work>,
    /// By kit: its mixes, where its pages are chosen. Its work then has the parts that are packed, and the pieces of one mix.
    pub choices: Vec<Option<ChoiceWork>>,
    /// The parts of all kits.
    pub merged: Merged,
    /// The same with the counts of the whole order.
    pub kit: Kit,
    /// The sheets of the order; empty where something stops the work.
    pub stocks: Vec<StockSheets>,
    /// What the tool does on them; empty where something stops the work.
    pub paths: Vec<SheetPaths>,
    /// Everything that the maker should hear, gravest first.
    pub findings: Vec<Finding>,
    /// The sheets that are filled and no more, where inserts follow what they leave over.
    pub(super) filled: Option<FilledSheets>,
    /// An order does not go together as one thing.
    pub(super) no_fit: Fit,
    /// What stands for each part.
    pub(super) letters: Vec<String>,
    /// Whether its sheets are of those parts alone that are cut again.
    pub(super) recut: bool,
    /// What the order costs, once somebody asks.
    pub(super) cost: OnceLock<Option<Cost>>,
}

impl BatchWork {
    /// Works out everything.
    #[must_use]
    pub fn new(batch: Batch, cutter: Cutter, labels: Labels, search: Search, watch: &dyn Watch) -> Self {
        let mut work = Self::begun(batch, cutter, (labels, search), watch);
        if !work.stopped() {
            work.follow((labels, search), watch);
        }
        work.letter();
        if !work.stopped() {
            work.lay(labels, search, watch);
        }
        gravest_first(&mut work.findings);
        work
    }

    /// The parts of all kits; nothing is laid yet.
    pub(super) fn begun(batch: Batch, cutter: Cutter, (labels, search): (Labels, Search), watch: &dyn Watch) -> Self {
        let of_kit = |kit: &BatchKit| {
            let times = batch.times(kit);
            let (choice, mut work) = match choice::chosen(kit, times, &cutter, search, watch) {
                Some((chosen, choice, work)) => (Some((chosen, choice)), work),
                None => (None, alone(kit, times, &cutter, (labels, search), watch)),
            };
            work.album.word_mends(&mut work.findings);
            work.stocks = Vec::new();
            work.paths = Vec::new();
            (choice, work)
        };
        let (chosen, kits): (Vec<_>, Vec<Work>) = batch.kits.iter().map(of_kit).unzip();
        let told = batch.kits.iter().zip(&kits).map(|(kit, work)| (kit.name.as_str(), work.findings.as_slice()));
        let findings = of_kits(told);
        let mut merged = Merged::of(&batch, &kits.iter().map(|work| &work.kit).collect::<Vec<_>>());
        let choices: Vec<Option<ChoiceWork>>;
        (merged.chosen, choices) = chosen.into_iter().map(Option::unzip).unzip();
        let mut kit = merged.kit.clone();
        for (number, part) in kit.parts.iter_mut().enumerate() {
            part.count = merged.count(&batch, number);
        }
        let album = batch.album(&merged);
        Self {
            batch,
            album,
            cutter,
            kits,
            choices,
            merged,
            kit,
            stocks: Vec::new(),
            paths: Vec::new(),
            findings,
            no_fit: Fit::default(),
            filled: None,
            letters: Vec::new(),
            recut: false,
            cost: OnceLock::new(),
        }
    }

    /// Adds what is to be said besides.
    pub fn add(&mut self, findings: Vec<Finding>) {
        self.findings.extend(findings);
        gravest_first(&mut self.findings);
    }

    /// Whether something stops the work.
    #[must_use]
    pub fn stopped(&self) -> bool {
        stops(&self.findings)
    }

    /// What stands for an album where the whole order is listed; none where there are no kits.
    #[must_use]
    pub const fn album(&self) -> Option<&Album> {
        self.album.as_ref()
    }

    /// What its sheets are laid for.
    #[must_use]
    pub fn order(&self) -> Order<'_> {
        Order {
            title: &self.batch.title,
            units: self.batch.units,
            copies: 1,
            spares: Spares::default(),
            stocks: &self.merged.stocks,
            handed_over: self.album.as_ref().and_then(|album| album.handed_over.as_deref()),
        }
    }

    /// Lays all lots, and says what it costs to lay them so.
    fn lay(&mut self, marks: Labels, search: Search, watch: &dyn Watch) {
        let lots = lots(&self.batch, &self.merged, self.batch.together);
        let (laid, findings) = self.laid_on(&lots, self.filled.as_ref(), search, watch);
        self.findings.extend(findings);
        self.findings.extend(self.merged.unused.clone());
        if stops(&self.findings) {
            return;
        }
        let Some(laid) = laid else { return };
        for (lot, stocks) in lots.iter().zip(&laid) {
            if let Some(kit) = lot.of.filter(|_| lot.whole) {
                let own = self.of_kit(kit, stocks);
                self.kits[kit].stocks.extend(own);
            }
        }
        self.stocks = StockSheets::joined(laid);
        if let Some(filled) = &self.filled {
            filled.is_as_sure(&mut self.stocks);
        }
        let paths = toolpath::paths(&self.kit, self.order(), &self.stocks, &self.cutter, (marks, search.effort));
        self.findings.extend(paths.findings);
        match paths.value {
            Some(paths) if !stops(&self.findings) => self.paths = paths,
            _ => self.stocks.clear(),
        }
        let small = self.album.as_ref().and_then(|album| labels::check(album, &self.labels()));
        self.findings.extend(small);
        self.findings.extend(self.other_way(search, watch));
    }

    /// Gives every part one letter over the whole order. In a class a piece has one letter whoever cuts it: it is spoken of in front
    /// of all.
    fn letter(&mut self) {
        let rows = guide::list::list(self.order(), &self.kit, 1);
        let letter = |part: usize| guide::list::mark(&rows, part).to_owned();
        let first = |part: usize| match self.batch.class {
            Some(_) => (0..part).find(|other| self.is_one_piece(*other, part)).unwrap_or(part),
            None => part,
        };
        let letters: Vec<String> = (0..self.kit.parts.len()).map(|part| letter(first(part))).collect();
        for (work, part_of) in self.kits.iter_mut().zip(&self.merged.part_of) {
            let own = part_of.iter().map(|part| letters.get(*part).cloned().unwrap_or_default());
            work.letters = Some(own.collect());
        }
        for ((work, choice), chosen) in self.kits.iter().zip(&mut self.choices).zip(&self.merged.chosen) {
            if let (Some(choice), Some(chosen), Some(letters)) = (choice, chosen, &work.letters) {
                choice.letter(&chosen.packed.part_of, letters);
            }
        }
        self.letters = letters;
    }

    /// Whether two parts are the same piece of the same stock, cut from other sheets or by other means.
    fn is_one_piece(&self, one: usize, other: usize) -> bool {
        let [one, other] = [one, other].map(|part| &self.kit.parts[part]);
        let bought = |part: &Part| self.order().bought(part.stock);
        (one.kind, bought(one)) == (other.kind, bought(other)) && one.flat.likeness() == other.flat.likeness()
    }

    /// The sheets of every lot, one after the other: what one takes of a stock of which there are so many, the next has not.
    pub(super) fn laid(
        &self,
        lots: &[Lot],
        filled: Option<&FilledSheets>,
        search: Search,
        watch: &dyn Watch,
    ) -> (Option<Vec<Vec<StockSheets>>>, Vec<Finding>) {
        let mut taken: BTreeMap<(usize, usize), u64> = BTreeMap::new();
        let (mut all, mut findings) = (Vec::new(), Vec::new());
        for lot in lots {
            let mut stocks = lot.stocks.clone();
            if let Some(filled) = filled {
                filled.limit(&mut stocks);
            }
            for ((stock, size), taken) in &taken {
                let bought = |number: usize| self.merged.stocks.get(number).map(Stock::bought);
                let of = |number: usize| self.merged.stocks.get(number).and_then(|stock| stock.sheets.get(*size));
                let shared = stocks.iter_mut().enumerate().filter(|(number, _)| bought(*number) == bought(*stock));
                for (_, other) in shared.filter(|(number, _)| of(*number) == of(*stock)) {
                    if let Some(count) = other.sheets.get_mut(*size).and_then(|size| size.count.as_mut()) {
                        *count = count.saturating_sub(u32::try_from(*taken).unwrap_or(u32::MAX));
                    }
                }
            }
            // Each kit's own are laid once and cut for every kit.
            let handed = vec![Handed::Sheets; stocks.len()];
            let handed_over = lot.whole.then_some(handed.as_slice());
            let order = Order { copies: lot.times, stocks: &stocks, handed_over, ..self.order() };
            let bare = lot.bare.as_ref().map(|(copies, kit)| (Order { copies: *copies, ..order }, kit));
            let (laid, of_sheets) = sheets::lay_with_spares(order, &lot.kit, bare, &self.cutter, (search, watch));
            findings.extend(of_sheets);
            if !stops(&findings) {
                findings.extend(sheets::price_of_cutting(order, &lot.kit, &self.cutter, &laid, search, watch));
            }
            for sheets in &laid {
                for (size, count) in sheets.by_size() {
                    *taken.entry((sheets.stock, size)).or_default() += count;
                }
            }
            all.push(laid);
        }
        ((!stops(&findings)).then_some(all), findings)
    }

    /// What the other way of laying would take, where it is another number of sheets.
    fn other_way(&self, search: Search, watch: &dyn Watch) -> Option<Finding> {
        if self.batch.kits.len() < 2 || self.stocks.is_empty() {
            return None;
        }
        let quick = Search { effort: Effort::Low, ..search };
        let (other, key) = match self.batch.together {
            Together::Batch => (Together::Kit, "kit-by-kit"),
            Together::Kit => (Together::Batch, "all-together"),
        };
        let (laid, _) = self.laid(&lots(&self.batch, &self.merged, other), None, quick, watch);
        let count = |stocks: &[StockSheets]| stocks.iter().map(StockSheets::count).sum::<u64>();
        let (now, then) = (count(&self.stocks), count(&StockSheets::joined(laid?)));
        let text = Said::new(key).with("now", now).with("then", then);
        // A quick look that finds more than there are now says nothing of what is better.
        let says = match self.batch.together {
            Together::Batch => then > now,
            Together::Kit => then < now,
        };
        says.then(|| Finding::note("together", Said::NOTHING, text))
    }

    /// Sheets that are one kit's own, by the numbers of that kit's parts and stocks.
    fn of_kit(&self, kit: usize, stocks: &[StockSheets]) -> Vec<StockSheets> {
        let number = |of: &[usize], merged: usize| of.iter().position(|one| *one == merged);
        let one = |laid: &StockSheets| {
            let mut own = laid.clone();
            own.stock = number(&self.merged.stock_of[kit], laid.stock)?;
            for placed in own.sheets.iter_mut().flat_map(|sheet| &mut sheet.placements) {
                placed.part = number(&self.merged.part_of[kit], placed.part)?;
            }
            Some(own)
        };
        stocks.iter().filter_map(one).collect()
    }

    /// The report; `files` are those that it stands beside, with their digests.
    #[must_use]
    pub fn report(&self, files: &BTreeMap<String, String>) -> String {
        let (order, batch) = (self.order(), Some((&self.batch, &self.merged)));
        let Self { kit, stocks, cutter, paths, findings, recut, .. } = self;
        let (cost, groups) = (self.cost(), self.groups());
        let of = write::Reported { order, kit, stocks, cutter, paths, findings, batch, groups, recut: *recut, cost };
        write::report(&of, files)
    }

    /// What the files that a machine cuts are called, without their endings.
    #[must_use]
    pub fn cut_names(&self) -> Vec<String> {
        super::files::cut_names(self.order(), &self.paths, &self.cutter)
    }

    /// Writes the order's files.
    ///
    /// # Errors
    /// The sink's, or a file that read back is not what was meant.
    pub fn write(&self, files: &Files<'_>, sink: &mut dyn Sink) -> Result<(), WriteProblem> {
        let asked = |format: &str| files.formats.contains(&format);
        let mut listed = Listed::new(sink);
        let sink = &mut listed;
        super::cut_files(self.order(), &self.kit, &self.paths, &self.cutter, files, sink)?;
        #[cfg(feature = "png")]
        if asked("png") {
            let letter = |part: usize| self.letters.get(part).cloned().unwrap_or_default();
            super::pictures(self.order(), &self.kit, &self.stocks, &letter, (files.threads, sink))?;
        }
        if asked("csv") {
            let list = write::cutting_list(self.order(), &self.kit, Some((&self.batch, &self.merged)));
            sink.put("cutting-list.csv", list.as_bytes())?;
        }
        self.put_cost(files, sink)?;
        self.texts(files, sink)?;
        self.makers(files, sink)?;
        self.job_sheet(files, sink)?;
        #[cfg(feature = "pdf")]
        if let Some(album) = self.album.as_ref().filter(|_| asked("pdf")) {
            super::pages((album, &self.kit), &self.labels(), files, sink)?;
            let sheets = (self.stocks.as_slice(), self.paths.as_slice());
            let kit = (&self.kit, album.language);
            super::printed_first(self.order(), kit, sheets, &self.cutter, sink)?;
        }
        Ok(listed.finish("report.json", |files| self.report(files))?)
    }
}

/// A kit by itself. An insert that is to be as often as it comes free is counted on sheets of that kit's own.
fn alone(kit: &BatchKit, times: u32, cutter: &Cutter, (labels, search): (Labels, Search), watch: &dyn Watch) -> Work {
    let album = Album { copies: times, spares: None, ..kit.album.clone() };
    if album.inserts.iter().any(Entry::is_spare) {
        Work::made((album, cutter.clone()), labels, (search, watch), false, &mut |_, _| ())
    } else {
        Work::fit(album, cutter.clone())
    }
}
