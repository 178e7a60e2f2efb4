// SPDX-License-Identifier: MIT
//! `hingeleaf compare --only-changed`: the sheets of what is cut again.

use super::arguments::CompareArguments;
use super::commands::{effort, labels, summary, threads};
use super::end::ExitStatus;
use super::inputs::Ended;
use super::refusals::{refused, unwritten};
use super::say;
use super::watch::Terminal;
use hingeleaf::editions::Again;
use hingeleaf::finding::{Arg, Finding, Said, stops};
use hingeleaf::sheets::Search;
use hingeleaf::work::{FORMATS, Files, MadeEdition, OF_SHEETS};
use hingeleaf::write::{Folder, FolderContent};
use std::path::Path;

/// Those of them that this build writes.
pub(super) fn of_sheets() -> Vec<&'static str> {
    FORMATS.iter().copied().filter(|format| OF_SHEETS.contains(format)).collect()
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
    let work = work.recut(again, labels(wanted.labels), search(wanted), watch);
    watch.done();
    if stops(work.findings()) {
        let findings = work.findings().to_vec();
        return Err(Ended { findings, end: ExitStatus::DoesNotFit, sources: Vec::new() });
    }
    let formats: Vec<&str> =
        if wanted.formats.is_empty() { of_sheets() } else { wanted.formats.iter().map(String::as_str).collect() };
    let files = Files { split_layers: wanted.split_layers, ..Files::of(&formats) };
    work.write(&files, &mut folder).map_err(|problem| unwritten(out, problem))?;
    // From here on nothing may be taken away in a hurry.
    watch.released();
    let kept = folder.finish().map_err(|problem| refused(out, problem, "recut"))?;
    let (order, stocks, cutter) = work.laid();
    let summary = summary(order, stocks, cutter, out, &kept);
    Ok((work.findings().to_vec(), summary))
}
