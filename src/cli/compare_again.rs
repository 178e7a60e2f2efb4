// SPDX-License-Identifier: MIT
//! `hingeleaf compare --only-changed`: the sheets of what is cut again.

use super::arguments::CompareArguments;
use super::commands::{effort, labels, summary, threads};
use super::end::ExitStatus;
use super::inputs::Ended;
use super::refusals::{refused, unwritten};
use super::say;
use super::watch::Terminal;
use hingeleaf::editions::{CutAgain, Recut};
use hingeleaf::finding::{Arg, Finding, Said, stops};
use hingeleaf::sheets::Search;
use hingeleaf::work::{BatchWork, FORMATS, Files, Work};
use hingeleaf::write::{Folder, FolderContent};
use std::path::Path;

/// The kinds of file that speak of sheets alone; others speak of a whole kit.
pub(super) const OF_SHEETS: [&str; 4] = ["svg", "dxf", "png", "csv"];

/// Those of them that this build writes.
pub(super) fn of_sheets() -> Vec<&'static str> {
    FORMATS.iter().copied().filter(|format| OF_SHEETS.contains(format)).collect()
}

/// What sheets can be made of.
pub(super) enum MadeEdition {
    Kit(Box<Work>),
    Order(Box<BatchWork>),
}

impl MadeEdition {
    pub(super) fn findings(&self) -> &[Finding] {
        match self {
            Self::Kit(work) => &work.findings,
            Self::Order(work) => &work.findings,
        }
    }
}

/// How hard to look for fewer sheets.
pub(super) fn search(wanted: &CompareArguments) -> Search {
    Search { effort: effort(wanted.effort), trimmer: wanted.trimmer, threads: threads(wanted.threads) }
}

/// The folder that sheets go into.
pub(super) fn folder(out: &Path, replace: bool) -> Result<Folder, Ended> {
    Folder::of(out, replace, FolderContent::Recut).map_err(|problem| refused(out, problem, "recut"))
}

/// Where sheets go, and what they are made of.
pub(super) struct Goal<'a> {
    pub out: &'a Path,
    pub folder: Folder,
    pub work: MadeEdition,
}

/// What is cut again.
pub(super) enum Again<'f> {
    Kit(&'f Recut),
    Order(&'f CutAgain),
}

impl Again<'_> {
    /// The sheets of this alone.
    fn sheets(&self, work: MadeEdition, wanted: &CompareArguments, watch: &Terminal) -> MadeEdition {
        let (labels, search) = (labels(wanted.labels), search(wanted));
        match (self, work) {
            (Self::Kit(cut), MadeEdition::Kit(work)) => {
                MadeEdition::Kit(Box::new(work.recut(cut, labels, search, watch)))
            }
            // An album that kits of a batch become.
            (Self::Order(cut), MadeEdition::Kit(work)) => {
                MadeEdition::Kit(Box::new(work.recut(&cut.of_album(), labels, search, watch)))
            }
            (Self::Order(cut), MadeEdition::Order(work)) => {
                MadeEdition::Order(Box::new(work.recut(cut, labels, search, watch)))
            }
            (Self::Kit(_), made @ MadeEdition::Order(_)) => made,
        }
    }
}

/// Writes the sheets to cut again where that is asked for; what there is to say of them, and what was written.
pub(super) fn recut(
    again: Option<Again<'_>>,
    goal: Option<Goal<'_>>,
    wanted: &CompareArguments,
    watch: &Terminal,
) -> Result<(Vec<Finding>, String), Ended> {
    let Some(Goal { out, mut folder, work }) = goal else { return Ok((Vec::new(), String::new())) };
    let Some(again) = again else {
        let text = Said::new("compare-not-written").with("out", Arg::code(say::name(out)));
        return Ok((Vec::new(), format!("{text}\n")));
    };
    let work = again.sheets(work, wanted, watch);
    watch.done();
    if stops(work.findings()) {
        let findings = work.findings().to_vec();
        return Err(Ended { findings, end: ExitStatus::DoesNotFit, sources: Vec::new() });
    }
    let formats: Vec<&str> =
        if wanted.formats.is_empty() { of_sheets() } else { wanted.formats.iter().map(String::as_str).collect() };
    let files = Files { split_layers: wanted.split_layers, ..Files::of(&formats) };
    let written = match &work {
        MadeEdition::Kit(work) => work.write(&files, &mut folder),
        MadeEdition::Order(work) => work.write(&files, &mut folder),
    };
    written.map_err(|problem| unwritten(out, problem))?;
    // From here on nothing may be taken away in a hurry.
    watch.released();
    let kept = folder.finish().map_err(|problem| refused(out, problem, "recut"))?;
    let summary = match &work {
        MadeEdition::Kit(work) => summary(work.album.order(), &work.stocks, &work.cutter, out, &kept),
        MadeEdition::Order(work) => summary(work.order(), &work.stocks, &work.cutter, out, &kept),
    };
    Ok((work.findings().to_vec(), summary))
}
