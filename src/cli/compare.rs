// SPDX-License-Identifier: MIT
//! `hingeleaf compare`: two editions, each from its album or batch file or from an earlier report of either.

use super::arguments::CompareArguments;
use super::batch::{of_one_album, read_batch};
use super::commands::{labels, unknown_formats};
use super::compare_again::{Goal, folder, of_sheets, recut, search};
use super::drawings::drawings;
use super::end::ExitStatus;
use super::inputs::{Ended, all_on_sheets, argument, cutter, on_sheets, source};
use super::kind_files::kind_files;
use super::own_cutters::own_cutters;
use super::pictures::pictures;
use super::say;
use super::watch::Terminal;
use hingeleaf::album::{self, Album};
use hingeleaf::batch::{self, Batch};
use hingeleaf::cutter::Cutter;
use hingeleaf::editions::{self, AnyComparison, AnyEdition, EditionPair, REPORT_FORMAT, ToldChange};
use hingeleaf::fields::{Node, Source, Tree, of_kind};
use hingeleaf::finding::{Arg, Finding, Said, gravest_first, stops};
use hingeleaf::parts;
use hingeleaf::work::{BatchWork, FORMATS, MadeEdition, OF_SHEETS, Work};
use hingeleaf::write;
use std::path::{Path, PathBuf};

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
    let goal = goal.zip(work).map(|((out, folder), work)| Goal { out, folder, work });
    let names = [&wanted.old, &wanted.new].map(|file| say::name(file));
    let pair = EditionPair::of(old, new);
    let found = pair.compare();
    let (findings, more) = recut(found.again(), goal, wanted, &watch)?;
    let said = match &found {
        AnyComparison::Kits(found) if wanted.json => write::compared(found, &findings),
        AnyComparison::Orders(found) if wanted.json => write::compared_order(found, &findings),
        _ => lines(&found.told(&names), "") + &more,
    };
    if wanted.json {
        return Ok(say::out(&said, ExitStatus::Done));
    }
    let end = say::findings(&findings, &sources, false, ExitStatus::Done);
    Ok(say::out(&said, end))
}

/// Sentences, each on a line, and what stands under one further in.
fn lines(told: &[ToldChange], indent: &str) -> String {
    let further = format!("{indent}  ");
    told.iter().map(|one| format!("{indent}{}\n", one.said) + &lines(&one.under, &further)).collect()
}

/// An edition as its file holds it.
enum EditionFile {
    Album(Box<Album>),
    Batch(Box<Batch>),
    Report(Box<AnyEdition>),
}

impl EditionFile {
    fn albums(&mut self) -> Vec<&mut Album> {
        match self {
            Self::Album(album) => vec![album],
            Self::Batch(batch) => batch.kits.iter_mut().map(|kit| &mut kit.album).collect(),
            Self::Report(_) => Vec::new(),
        }
    }
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
    let mut failed = None;
    let mut of_side = |file: &Path, number: usize, findings: &mut Vec<Finding>| {
        let text = sources[number].clone();
        side((&text, file), &mut sources, &mut failed, findings)
    };
    let mut old = of_side(&wanted.old, 0, &mut findings);
    let mut new = of_side(&wanted.new, 1, &mut findings);
    if let Some(side) = &mut old {
        on(side, wanted, &mut Vec::new());
    }
    let cutter = cutter(&wanted.machine, &mut sources, &mut findings)?;
    let albums = [&mut old, &mut new].into_iter().flatten().flat_map(EditionFile::albums);
    own_cutters(albums, &wanted.machine, &mut sources, &mut findings)?;
    let albums = [&mut old, &mut new].into_iter().flatten().flat_map(EditionFile::albums);
    drawings(albums, &mut sources, &mut findings)?;
    let albums = [&mut old, &mut new].into_iter().flatten().flat_map(EditionFile::albums);
    pictures(albums, &mut findings)?;
    if let Some(side) = &mut new {
        on(side, wanted, &mut findings);
    }
    if wanted.only_changed && matches!(new, Some(EditionFile::Report(_))) {
        findings.push(argument(Said::new("only-changed-of-report"), Said::new("only-changed-of-report-help")));
    }
    findings
        .extend(wanted.copies.filter(|_| matches!(new, Some(EditionFile::Batch(_)))).map(|_| of_one_album("--copies")));
    // Of an album that both sides name, all is found twice.
    let mut told: Vec<Finding> = Vec::new();
    for finding in findings {
        if !told.contains(&finding) {
            told.push(finding);
        }
    }
    let mut findings = told;
    gravest_first(&mut findings);
    match (old, new) {
        (Some(old), Some(new)) if !stops(&findings) => Ok(BothRead { old, new, cutter, sources }),
        _ => Err(Ended { findings, end: failed.unwrap_or(ExitStatus::WrongInput), sources }),
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
fn side(
    (source, file): (&Source, &Path),
    sources: &mut Vec<Source>,
    failed: &mut Option<ExitStatus>,
    findings: &mut Vec<Finding>,
) -> Option<EditionFile> {
    let node = Node::read(source).ok();
    let format = node.as_ref().and_then(|node| node.get("format"));
    let (side, said) = match format.map(|format| (&format.tree, &format.range)) {
        Some((Tree::Text(format), _)) if of_kind(format, REPORT_FORMAT) => {
            let read = editions::read_report(source);
            (read.value.map(|read| EditionFile::Report(Box::new(read))), read.findings)
        }
        Some((Tree::Text(format), _)) if of_kind(format, batch::FORMAT) => {
            let read = read_batch((source, file), sources, failed, findings);
            (read.map(|batch| EditionFile::Batch(Box::new(batch))), Vec::new())
        }
        Some((Tree::Text(format), range)) if !of_kind(format, album::FORMAT) => {
            let text =
                Said::new("not-an-edition").with("file", Arg::code(source.name())).with("found", Arg::quoted(format));
            let help = Said::new("not-an-edition-help");
            let help = help.with("album", Arg::code(album::FORMAT)).with("batch", Arg::code(batch::FORMAT));
            let help = help.with("report", Arg::code(REPORT_FORMAT));
            let finding = Finding::stop("wrong-format", Said::NOTHING, text).help(help);
            (None, vec![finding.at(Some(&source.place(range, "format")))])
        }
        _ => {
            let folder = file.parent().unwrap_or(Path::new(""));
            let read = parts::read_album(source, &mut |name| kind_files(folder, name, sources));
            (read.value.map(|album| EditionFile::Album(Box::new(album))), read.findings)
        }
    };
    findings.extend(said);
    side
}

/// Puts an edition on the sheets that the arguments say; a report stays what it is.
fn on(side: &mut EditionFile, wanted: &CompareArguments, findings: &mut Vec<Finding>) {
    match side {
        EditionFile::Album(album) => **album = on_sheets((**album).clone(), &wanted.machine, findings),
        EditionFile::Batch(_) => all_on_sheets(side.albums().into_iter(), &wanted.machine, findings),
        EditionFile::Report(_) => {}
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

/// An edition worked out, as far as its file allows.
enum Worked {
    MadeEdition(MadeEdition),
    Report(Box<AnyEdition>),
}

impl Worked {
    fn problems(&self) -> &[Finding] {
        match self {
            Self::MadeEdition(made) if stops(made.findings()) => made.findings(),
            _ => &[],
        }
    }

    fn edition(self) -> (AnyEdition, Option<MadeEdition>) {
        match self {
            Self::MadeEdition(made) => (made.edition(), Some(made)),
            Self::Report(edition) => (*edition, None),
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
    let (cutter, labels, search) = (cutter.clone(), labels(wanted.labels), search(wanted));
    match side {
        EditionFile::Album(mut album) => {
            album.copies = copies.unwrap_or(album.copies);
            Worked::MadeEdition(MadeEdition::Kit(Box::new(Work::new(*album, cutter, labels, search, watch))))
        }
        EditionFile::Batch(batch) => {
            Worked::MadeEdition(MadeEdition::Order(Box::new(BatchWork::new(*batch, cutter, labels, search, watch))))
        }
        EditionFile::Report(edition) => Worked::Report(edition),
    }
}
