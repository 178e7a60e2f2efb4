// SPDX-License-Identifier: MIT
//! The drawer: its file, found from the folder of the file that names it, and `kit --update-drawer`, which writes what is left.

use super::end::ExitStatus;
use super::inputs::{Ended, argument, source, system};
use super::offcuts::within;
use super::say;
use hingeleaf::album::Order;
use hingeleaf::drawer::{self, NamedDrawer};
use hingeleaf::fields::Source;
use hingeleaf::finding::{Arg, Finding, Said};
use hingeleaf::sheets::{DrawerRow, StockSheets, drawer_rows, left_in_drawer, offcuts};
use hingeleaf::stock::Stock;
use std::fs::{self, File};
use std::io::Write;
use std::path::{Path, PathBuf};

/// Reads the drawer that a file names; all that is wrong with it is told.
pub(super) fn read(
    named: &mut Option<NamedDrawer>,
    sources: &mut Vec<Source>,
    findings: &mut Vec<Finding>,
) -> Result<Option<DrawerFile>, Ended> {
    let Some(NamedDrawer::File { name, place }) = named else { return Ok(None) };
    let file = Path::new(&*place.file).parent().unwrap_or(Path::new("")).join(name);
    match source(&file, "no-drawer-file-help") {
        Ok(source) => {
            let read = drawer::read(&source);
            findings.extend(read.findings);
            let text = source.mark().to_owned() + source.text();
            sources.push(source);
            *named = read.value.map(NamedDrawer::Read);
            Ok(Some(DrawerFile { file, text }))
        }
        Err(ended) if ended.end == ExitStatus::MachineFailed => Err(ended),
        Err(ended) => {
            findings.extend(ended.findings.into_iter().map(|finding| finding.at(Some(place))));
            Ok(None)
        }
    }
}

/// A drawer's file as it was read.
#[derive(Debug)]
pub(super) struct DrawerFile {
    file: PathBuf,
    text: String,
}

/// What is wrong with the wish to update it.
pub(super) fn wish(update: bool, drawer: Option<&DrawerFile>) -> Option<Finding> {
    (update && drawer.is_none()).then(|| argument(Said::new("no-drawer-named"), Said::new("no-drawer-named-help")))
}

/// What files say of what is left: of the sheets alone, and with what the drawer holds still.
pub(super) fn left<'a>(
    named: Option<&'a NamedDrawer>,
    stocks: &'a [Stock],
    laid: &'a [StockSheets],
) -> (impl FnOnce() -> String, impl FnOnce() -> String) {
    let drawer = move || {
        let drawer = named.and_then(NamedDrawer::known).cloned().unwrap_or_default();
        drawer::text(&left_in_drawer(&drawer, stocks, laid))
    };
    (move || drawer::text(&offcuts(stocks, laid)), drawer)
}

/// `, 2 of them from the drawer`; nothing where none is.
pub(super) fn of_them(stocks: &[Stock], laid: &[StockSheets]) -> String {
    match drawer_rows(stocks, laid).iter().map(|row| u64::from(row.taken)).sum() {
        0 => String::new(),
        taken => format!(", {taken} of them from the drawer"),
    }
}

/// `From the drawer: 2 of 12 A4 of card; 10 left.`
pub(super) fn row(order: Order<'_>, row: &DrawerRow) -> String {
    let (stock, size) = (order.bought(row.stock), order.stocks[row.stock].sheets[row.size].name.as_str());
    format!("From the drawer: {} of {} {size} of {stock}; {} left.\n", row.taken, row.lie, row.left())
}

/// The drawer's new text, beside the old one until the kit stands. Dropped before [`DrawerUpdate::finish`], it leaves nothing.
#[derive(Debug)]
pub(super) struct DrawerUpdate {
    was: DrawerFile,
    /// The file itself, where a link leads to it.
    goal: PathBuf,
    new: PathBuf,
}

impl DrawerFile {
    /// Makes ready to write it, before any work is done.
    pub(super) fn update(self, out: &Path) -> Result<DrawerUpdate, Ended> {
        let failed = |error| Ended::new(system("can-not-write", &self.file, &error), ExitStatus::MachineFailed);
        let goal = fs::canonicalize(&self.file).map_err(failed)?;
        if within(&goal, &fs::canonicalize(out).unwrap_or_else(|_| out.to_path_buf())).is_some() {
            let text = Said::new("drawer-in-kit").with("file", Arg::code(say::name(&self.file)));
            return Err(Ended::new(argument(text, Said::new("drawer-in-kit-help")), ExitStatus::WrongInput));
        }
        let mut name = goal.file_name().unwrap_or_default().to_owned();
        name.push(format!(".{}.new", std::process::id()));
        let new = goal.with_file_name(name);
        let made = File::create_new(&new).and_then(|file| file.set_permissions(fs::metadata(&goal)?.permissions()));
        let update = DrawerUpdate { goal, new, was: self };
        match made {
            Ok(()) => Ok(update),
            Err(error) => Err(update.failed(&error)),
        }
    }
}

impl DrawerUpdate {
    /// Writes the new text beside the old one.
    pub(super) fn write(&self, text: &str) -> Result<(), Ended> {
        let write = || {
            let mut file = File::options().write(true).truncate(true).open(&self.new)?;
            file.write_all(text.as_bytes())?;
            file.sync_all()
        };
        write().map_err(|error| self.failed(&error))?;
        // Who took from the drawer meanwhile is not undone.
        let is = fs::read(&self.goal).map_err(|error| self.failed(&error))?;
        if is != self.was.text.as_bytes() {
            let text = Said::new("drawer-changed").with("file", Arg::code(say::name(&self.was.file)));
            let finding = Finding::stop("drawer", Said::NOTHING, text).help(Said::new("drawer-changed-help"));
            return Err(Ended::new(finding, ExitStatus::WrongInput));
        }
        Ok(())
    }

    /// Puts it in its place.
    pub(super) fn finish(self) -> Result<(), Ended> {
        fs::rename(&self.new, &self.goal).map_err(|error| self.failed(&error))
    }

    fn failed(&self, error: &std::io::Error) -> Ended {
        Ended::new(system("can-not-write", &self.was.file, error), ExitStatus::MachineFailed)
    }
}

impl Drop for DrawerUpdate {
    fn drop(&mut self) {
        let _ = fs::remove_file(&self.new);
    }
}
