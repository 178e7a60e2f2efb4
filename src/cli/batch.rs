// SPDX-License-Identifier: MIT
//! `check` and `kit` for a batch file: several kits as one order.

use super::arguments::{Check, KitArguments};
use super::choice;
use super::commands::{counted, effort, files, formats, labels, summary, threads, unknown_formats};
use super::cost;
use super::drawer::{self, DrawerFile};
use super::drawings::drawings;
use super::end::ExitStatus;
use super::hand_over;
use super::inputs::{Ended, all_on_sheets, argument, cutter, rounded, source, step_problems};
use super::kind_files::kind_files;
use super::kit_folder::KitFolder;
use super::machine_arguments::MachineArguments;
use super::own_cutters::own_cutters;
use super::pictures::pictures;
use super::say;
use hingeleaf::batch::{self, Batch, ClassGroup, GroupSheets};
use hingeleaf::cutter::Cutter;
use hingeleaf::fields::Source;
use hingeleaf::finding::{Arg, Finding, Said, gravest_first, stops};
use hingeleaf::layout::{Effort, Unwatched};
use hingeleaf::length::Length;
use hingeleaf::parts;
use hingeleaf::sheets::{Search, StockSheets};
use hingeleaf::stock::By;
use hingeleaf::toolpath::Labels;
use hingeleaf::work::BatchWork;
use hingeleaf::write;
use std::path::{Path, PathBuf};

/// Whether a file says that it is a batch; what can't be read is no batch, nor is a pipe, which could be read but once.
pub(super) fn is_batch(file: &Path) -> bool {
    if !file.is_file() {
        return false;
    }
    source(file, "no-file-help").is_ok_and(|source| batch::is_batch(&source))
}

pub(super) fn check(check: &Check) -> ExitStatus {
    let mut problems = step_problems(check.rounded);
    let of_one = [("--mend", check.mend.is_some()), ("--picture", check.picture.is_some())];
    problems.extend(of_one.into_iter().filter(|(_, said)| *said).map(|(option, _)| of_one_album(option)));
    let BatchInputs { batch, cutter, sources, notes, .. } =
        match inputs(&check.file, &check.machine, check.rounded, |_| Vec::new(), problems) {
            Ok(inputs) => inputs,
            Err(ended) => return ended.say(check.json),
        };
    let search = Search { effort: Effort::Low, trimmer: false, threads: 1 };
    let mut work = BatchWork::new(batch, cutter, Labels::None, search, &Unwatched);
    work.add(notes);
    let end = if work.stopped() { ExitStatus::DoesNotFit } else { ExitStatus::Done };
    let text = if check.json {
        write::findings(&work.findings)
    } else {
        say::words(&work.findings, &sources) + &choice::mixes(&work) + &class(&work) + &verdict(&work)
    };
    say::out(&text, end)
}

pub(super) fn kit(kit: &KitArguments) -> ExitStatus {
    match make(kit) {
        Ok((work, sources, kept)) => {
            let said = say::findings(&work.findings, &sources, kit.json, ExitStatus::Done);
            if kit.json {
                return said;
            }
            let made = summary(work.order(), &work.stocks, &work.cutter, &kit.out, &kept);
            say::out(&(choice::mixes(&work) + &class(&work) + &made + &cost::words(work.cost())), said)
        }
        Err(ended) => ended.say(kit.json),
    }
}

fn make(kit: &KitArguments) -> Result<(BatchWork, Vec<Source>, Vec<PathBuf>), Ended> {
    let (handed_over, wrong) = hand_over::read(&kit.handed_over);
    let mut problems = [unknown_formats(&kit.formats), step_problems(kit.rounded), wrong].concat();
    problems.extend(kit.copies.map(|_| of_one_album("--copies")));
    let change = |batch: &mut Batch| {
        for one in &mut batch.kits {
            one.album.language = kit.language.unwrap_or(one.album.language);
        }
        hand_over::hand_over_all(batch.kits.iter_mut().map(|kit| &mut kit.album), &handed_over)
    };
    let BatchInputs { batch, cutter, sources, notes, drawer } =
        inputs(&kit.file, &kit.machine, kit.rounded, change, problems)?;
    if let Some(finding) = drawer::wish(kit.update_drawer, drawer.as_ref()) {
        return Err(Ended { findings: vec![finding], end: ExitStatus::WrongInput, sources });
    }
    let folder = KitFolder::new(kit, drawer)?;
    let search = Search { effort: effort(kit.effort), trimmer: kit.trimmer, threads: threads(kit.threads) };
    let watch = folder.watch();
    let mut work = BatchWork::new(batch, cutter, labels(kit.labels), search, &watch);
    watch.done();
    work.add(notes);
    let Some(first) = work.batch.kits.first().filter(|_| !work.stopped()) else {
        return Err(Ended { findings: work.findings, end: ExitStatus::DoesNotFit, sources });
    };
    let formats = formats(kit);
    let wanted = files(kit, &formats, &first.album);
    let left = drawer::left(work.batch.drawer.as_ref(), &work.merged.stocks, &work.stocks);
    let kept = folder.fill(&watch, |sink| work.write(&wanted, sink), left)?;
    Ok((work, sources, kept))
}

/// What a command works on.
struct BatchInputs {
    batch: Batch,
    cutter: Cutter,
    sources: Vec<Source>,
    notes: Vec<Finding>,
    drawer: Option<DrawerFile>,
}

/// Reads the batch, its albums and the machine; `change` is what arguments make of the batch. All problems of all files come
/// back at once.
fn inputs(
    file: &Path,
    machine: &MachineArguments,
    step: Option<Length>,
    change: impl FnOnce(&mut Batch) -> Vec<Finding>,
    mut findings: Vec<Finding>,
) -> Result<BatchInputs, Ended> {
    let mut sources = vec![source(file, "no-file-help")?];
    let first = sources[0].clone();
    let mut failed = None;
    let mut read = read_batch((&first, file), &mut sources, &mut failed, &mut findings);
    let cutter = cutter(machine, &mut sources, &mut findings)?;
    let mut notes = Vec::new();
    let albums = read.iter_mut().flat_map(|batch| batch.kits.iter_mut()).map(|kit| &mut kit.album);
    own_cutters(albums, machine, &mut sources, &mut findings)?;
    let albums = read.iter_mut().flat_map(|batch| batch.kits.iter_mut()).map(|kit| &mut kit.album);
    drawings(albums, &mut sources, &mut findings)?;
    let albums = read.iter_mut().flat_map(|batch| batch.kits.iter_mut()).map(|kit| &mut kit.album);
    pictures(albums, &mut findings)?;
    let mut drawer = None;
    if let Some(batch) = &mut read {
        drawer = drawer::read(&mut batch.drawer, &mut sources, &mut findings)?;
    }
    let batch = read.map(|mut batch| {
        all_on_sheets(batch.kits.iter_mut().map(|kit| &mut kit.album), machine, &mut findings);
        findings.extend(change(&mut batch));
        for kit in &mut batch.kits {
            let (album, said) = rounded(kit.album.clone(), step);
            kit.album = album;
            notes.extend(said.into_iter().map(|finding| finding.of_kit(&kit.name)));
        }
        batch
    });
    gravest_first(&mut findings);
    match batch {
        Some(batch) if !stops(&findings) => {
            notes.extend(findings);
            Ok(BatchInputs { batch, cutter, sources, notes, drawer })
        }
        _ => Err(Ended { findings, end: failed.unwrap_or(ExitStatus::WrongInput), sources }),
    }
}

/// Reads a batch with the albums that it names, whose texts are added to the sources; `failed` says whether the machine failed us.
pub(super) fn read_batch(
    (text, file): (&Source, &Path),
    sources: &mut Vec<Source>,
    failed: &mut Option<ExitStatus>,
    findings: &mut Vec<Finding>,
) -> Option<Batch> {
    let folder = file.parent().unwrap_or(Path::new("")).to_path_buf();
    let mut load = |name: &str| {
        let found = source(&folder.join(name), "no-album-of-batch-help").map_err(|ended| {
            // The machine's failure is not the maker's.
            *failed = (ended.end == ExitStatus::MachineFailed).then_some(ended.end).or(*failed);
            let first = ended.findings.into_iter().next();
            Box::new(first.unwrap_or_else(|| Finding::stop("file", Said::NOTHING, Said::new("no-file"))))
        })?;
        sources.push(found.clone());
        Ok(found)
    };
    let mut of_kinds = Vec::new();
    let mut kinds = |name: &str| kind_files(&folder, name, &mut of_kinds);
    let read = batch::read_with(text, &parts::kinds(), &mut load, &mut kinds);
    sources.extend(of_kinds);
    findings.extend(read.findings);
    read.value
}

/// An option that a batch can't take.
pub(super) fn of_one_album(option: &str) -> Finding {
    let text = Said::new("option-of-one-album").with("option", Arg::code(option));
    argument(text, Said::new("option-of-one-album-help"))
}

/// What each maker of a class has, a line a group.
fn class(work: &BatchWork) -> String {
    let sheets = |one: &GroupSheets| {
        let said = Said::new("class-sheets").with("each", one.each).with("stock", Arg::code(&one.stock));
        Arg::Said(said.with("sheet", one.sheet.as_str()).with(
            "by",
            Said::new(match one.by {
                By::Trimmer => "class-by-trimmer",
                By::Machine => "class-by-machine",
            }),
        ))
    };
    let line = |group: &ClassGroup| {
        let key = if group.sheets.is_empty() { "class-group-pieces" } else { "class-group" };
        let said = Said::new(key).with("group", Arg::code(&group.name)).with("makers", group.makers);
        format!("{}\n", said.with("sheets", Arg::All(group.sheets.iter().map(sheets).collect())))
    };
    work.groups().iter().filter(|_| !work.stopped()).map(line).collect()
}

fn verdict(work: &BatchWork) -> String {
    if work.stopped() {
        return "The batch does not go together yet.\n".to_owned();
    }
    let kits: u64 = work.batch.kits.iter().map(|kit| u64::from(work.batch.times(kit))).sum();
    let parts = work.kit.parts.len();
    let sheets = counted(work.stocks.iter().map(StockSheets::count).sum(), "sheet");
    let kits = counted(kits, "kit");
    format!(
        "The batch goes together: {kits}, {parts} different parts, on {sheets} at most{}.\n{}",
        drawer::of_them(&work.merged.stocks, &work.stocks),
        cost::words(work.cost())
    )
}
