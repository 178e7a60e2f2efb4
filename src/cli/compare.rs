// SPDX-License-Identifier: MIT
//! `hingeleaf compare`: two editions, each from its album file or from an earlier report.

use super::arguments::CompareArguments;
use super::commands::{effort, labels, summary, threads, unknown_formats};
use super::compare_words;
use super::drawings::drawings;
use super::end::ExitStatus;
use super::inputs::{Ended, argument, cutter, on_sheets, source};
use super::own_cutters::own_cutters;
use super::refusals::{refused, unwritten};
use super::say;
use super::watch::Terminal;
use hingeleaf::album::{self, Album};
use hingeleaf::cutter::Cutter;
use hingeleaf::editions::{self, Comparison, Edition, REPORT_FORMAT};
use hingeleaf::fields::{Node, Source, Tree};
use hingeleaf::finding::{Arg, Finding, Said, gravest_first, stops};
use hingeleaf::parts;
use hingeleaf::sheets::Search;
use hingeleaf::work::{FORMATS, Files, Work};
use hingeleaf::write::{self, Folder, FolderContent};
use std::path::{Path, PathBuf};

/// The kinds of file that speak of sheets alone; others speak of a whole kit.
const OF_SHEETS: [&str; 4] = ["svg", "dxf", "png", "csv"];

pub(super) fn compare(wanted: &CompareArguments) -> ExitStatus {
    match look(wanted) {
        Ok(end) => end,
        Err(ended) => ended.say(wanted.json),
    }
}

fn look(wanted: &CompareArguments) -> Result<ExitStatus, Ended> {
    let BothRead { old, new, cutter, sources } = read(wanted)?;
    let goal = wanted.out.as_deref().map(|out| Ok((out, folder(out, wanted.replace)?))).transpose()?;
    let watch = Terminal::new(&goal.as_ref().map_or_else(Vec::new, |(_, folder)| folder.unfinished().to_vec()));
    let work = |side, copies| worked_out(side, copies, &cutter, wanted, &watch);
    let (old, new) = (work(old, None), work(new, wanted.copies));
    watch.done();
    let findings: Vec<Finding> = [&old, &new].into_iter().flat_map(Worked::problems).cloned().collect();
    if stops(&findings) {
        return Err(Ended { findings, end: ExitStatus::DoesNotFit, sources });
    }
    let (old, (new, work)) = (old.edition().0, new.edition());
    let found = editions::compare(&old, &new);
    let (findings, more) = match (goal, work) {
        (Some((out, folder)), Some(work)) => recut(&found, work, wanted, out, folder, &watch)?,
        _ => (Vec::new(), String::new()),
    };
    if wanted.json {
        return Ok(say::out(&write::compared(&found, &findings), ExitStatus::Done));
    }
    let names = [&wanted.old, &wanted.new].map(|file| say::name(file));
    let end = say::findings(&findings, &sources, false, ExitStatus::Done);
    Ok(say::out(&(compare_words::words(&found, &names) + &more), end))
}

/// An edition as its file holds it.
enum EditionFile {
    Album(Box<Album>),
    Report(Edition),
}

struct BothRead {
    old: EditionFile,
    new: EditionFile,
    cutter: Cutter,
    sources: Vec<Source>,
}

/// Reads everything; all problems of all files come back at once.
fn read(wanted: &CompareArguments) -> Result<BothRead, Ended> {
    let mut sources = sources([&wanted.old, &wanted.new])?;
    let mut findings = formats_wrong(&wanted.formats);
    let mut old = side(&sources[0], &mut findings).map(|side| on(side, wanted, &mut Vec::new()));
    let mut new = side(&sources[1], &mut findings);
    let cutter = cutter(&wanted.machine, &mut sources, &mut findings)?;
    let albums = [&mut old, &mut new].into_iter().flatten().filter_map(|side| match side {
        EditionFile::Album(album) => Some(&mut **album),
        EditionFile::Report(_) => None,
    });
    own_cutters(albums, &wanted.machine, &mut sources, &mut findings)?;
    let albums = [&mut old, &mut new].into_iter().flatten().filter_map(|side| match side {
        EditionFile::Album(album) => Some(&mut **album),
        EditionFile::Report(_) => None,
    });
    drawings(albums, &mut sources, &mut findings)?;
    let new = new.map(|side| on(side, wanted, &mut findings));
    if wanted.only_changed && matches!(new, Some(EditionFile::Report(_))) {
        findings.push(argument(Said::new("only-changed-of-report"), Said::new("only-changed-of-report-help")));
    }
    gravest_first(&mut findings);
    match (old, new) {
        (Some(old), Some(new)) if !stops(&findings) => Ok(BothRead { old, new, cutter, sources }),
        _ => Err(Ended { findings, end: ExitStatus::WrongInput, sources }),
    }
}

/// The texts of both files; where neither can be read, both are spoken of.
fn sources(files: [&PathBuf; 2]) -> Result<Vec<Source>, Ended> {
    let mut sources = Vec::new();
    let mut ended: Option<Ended> = None;
    for file in files {
        match (source(file, "no-file-help"), &mut ended) {
            (Ok(source), _) => sources.push(source),
            (Err(one), None) => ended = Some(one),
            (Err(other), Some(one)) => {
                one.findings.extend(other.findings);
                one.end = if one.end as u8 > other.end as u8 { one.end } else { other.end };
            }
        }
    }
    ended.map_or(Ok(sources), Err)
}

/// What a file holds, by its format; what names none is taken for an album, which says that it needs one.
fn side(source: &Source, findings: &mut Vec<Finding>) -> Option<EditionFile> {
    let node = Node::read(source).ok();
    let format = node.as_ref().and_then(|node| node.get("format"));
    let (side, said) = match format.map(|format| (&format.tree, &format.range)) {
        Some((Tree::Text(format), _)) if format == REPORT_FORMAT => {
            let read = editions::read_report(source);
            (read.value.map(EditionFile::Report), read.findings)
        }
        Some((Tree::Text(format), range)) if format != album::FORMAT => {
            let text =
                Said::new("not-an-edition").with("file", Arg::code(source.name())).with("found", Arg::quoted(format));
            let help = Said::new("not-an-edition-help");
            let help = help.with("album", Arg::code(album::FORMAT)).with("report", Arg::code(REPORT_FORMAT));
            let finding = Finding::stop("wrong-format", Said::NOTHING, text).help(help);
            (None, vec![finding.at(Some(&source.place(range, "format")))])
        }
        _ => {
            let read = album::read(source, &parts::kinds());
            (read.value.map(|album| EditionFile::Album(Box::new(album))), read.findings)
        }
    };
    findings.extend(said);
    side
}

/// An edition on the sheets that the arguments say; a report stays what it is.
fn on(side: EditionFile, wanted: &CompareArguments, findings: &mut Vec<Finding>) -> EditionFile {
    match side {
        EditionFile::Album(album) => EditionFile::Album(Box::new(on_sheets(*album, &wanted.machine, findings))),
        EditionFile::Report(edition) => EditionFile::Report(edition),
    }
}

/// Formats that are not written here, and those that are written of whole kits only.
fn formats_wrong(asked: &[String]) -> Vec<Finding> {
    let mut findings = unknown_formats(asked);
    let whole =
        asked.iter().filter(|format| FORMATS.contains(&format.as_str()) && !OF_SHEETS.contains(&format.as_str()));
    findings.extend(whole.map(|format| {
        let formats = Arg::Row(of_sheets().into_iter().map(Arg::code).collect());
        let text = Said::new("recut-format").with("format", Arg::quoted(format));
        argument(text, Said::new("recut-format-help").with("formats", formats))
    }));
    findings
}

fn of_sheets() -> Vec<&'static str> {
    FORMATS.iter().copied().filter(|format| OF_SHEETS.contains(format)).collect()
}

/// An edition worked out, as far as its file allows.
enum Worked {
    Work(Box<Work>),
    Report(Edition),
}

impl Worked {
    fn problems(&self) -> &[Finding] {
        match self {
            Self::Work(work) if work.stopped() => &work.findings,
            _ => &[],
        }
    }

    fn edition(self) -> (Edition, Option<Work>) {
        match self {
            Self::Work(work) => (work.edition(), Some(*work)),
            Self::Report(edition) => (edition, None),
        }
    }
}

fn worked_out(
    side: EditionFile,
    copies: Option<u32>,
    cutter: &Cutter,
    wanted: &CompareArguments,
    watch: &Terminal,
) -> Worked {
    match side {
        EditionFile::Album(mut album) => {
            album.copies = copies.unwrap_or(album.copies);
            let labels = labels(wanted.labels);
            Worked::Work(Box::new(Work::new(*album, cutter.clone(), labels, search(wanted), watch)))
        }
        EditionFile::Report(edition) => Worked::Report(edition),
    }
}

fn search(wanted: &CompareArguments) -> Search {
    Search { effort: effort(wanted.effort), trimmer: wanted.trimmer, threads: threads(wanted.threads) }
}

fn folder(out: &Path, replace: bool) -> Result<Folder, Ended> {
    Folder::of(out, replace, FolderContent::Recut).map_err(|problem| refused(out, problem, "recut"))
}

/// Writes the sheets to cut again; what there is to say of them, and what was written.
fn recut(
    found: &Comparison<'_>,
    work: Work,
    wanted: &CompareArguments,
    out: &Path,
    mut folder: Folder,
    watch: &Terminal,
) -> Result<(Vec<Finding>, String), Ended> {
    if found.recut.is_nothing() {
        let text = Said::new("compare-not-written").with("out", Arg::code(say::name(out)));
        return Ok((Vec::new(), format!("{text}\n")));
    }
    let work = work.recut(&found.recut, labels(wanted.labels), search(wanted), watch);
    watch.done();
    if work.stopped() {
        return Err(Ended { findings: work.findings, end: ExitStatus::DoesNotFit, sources: Vec::new() });
    }
    let formats: Vec<&str> =
        if wanted.formats.is_empty() { of_sheets() } else { wanted.formats.iter().map(String::as_str).collect() };
    let files = Files { split_layers: wanted.split_layers, ..Files::of(&formats) };
    work.write(&files, &mut folder).map_err(|problem| unwritten(out, problem))?;
    // From here on nothing may be taken away in a hurry.
    watch.released();
    let kept = folder.finish().map_err(|problem| refused(out, problem, "recut"))?;
    let summary = summary(work.album.order(), &work.stocks, &work.cutter, out, &kept);
    Ok((work.findings, summary))
}
