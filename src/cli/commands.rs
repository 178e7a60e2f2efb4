// SPDX-License-Identifier: MIT
//! What each command does.

use super::arguments::{Catalogue, Check, Effort, Kit, Labels, New, NewUnits, Schema, SchemaOf};
use super::inputs::{Ended, Inputs, inputs, system};
use super::watch::Terminal;
use super::{End, say};
use hingeleaf::album;
use hingeleaf::cutter;
use hingeleaf::fields::{Source, nearest};
use hingeleaf::finding::Finding;
use hingeleaf::layout;
use hingeleaf::length::Units;
use hingeleaf::parts;
use hingeleaf::sheets::Search;
use hingeleaf::toolpath;
use hingeleaf::work::{FORMATS, Files, Work};
use hingeleaf::write::{self, Folder, FolderProblem, WriteProblem};
use std::fs;
use std::io::{self, Write};
use std::path::Path;

pub(super) fn new(new: &New) -> End {
    let units = match new.units {
        NewUnits::Mm => Units::Mm,
        NewUnits::In => Units::In,
    };
    let written = fs::File::create_new(&new.file).and_then(|mut file| file.write_all(album::starter(units).as_bytes()));
    let name = new.file.display();
    match written {
        Ok(()) => {
            if new.json {
                say::findings(&[], &[], true);
            } else {
                say::out(&format!("Wrote {name}. Next: hingeleaf kit {name} --out kit\n"));
            }
            End::Done
        }
        Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {
            let finding = Finding::stop("exists", "", format!("{name} is there already"));
            Ended::new(finding.help("give another name; nothing is overwritten"), End::WrongInput).say(new.json)
        }
        Err(error) => Ended::new(system("write", &new.file, &error), End::MachineFailed).say(new.json),
    }
}

pub(super) fn check(check: &Check) -> End {
    let Inputs { album, cutter, sources } = match inputs(&check.file, &check.machine, Vec::new()) {
        Ok(inputs) => inputs,
        Err(ended) => return ended.say(check.json),
    };
    let work = Work::fit(album, cutter);
    if check.json {
        say::findings(&work.findings, &sources, true);
    } else {
        say::out(&say::words(&work.findings, &sources));
        let (pieces, parts) = (work.kit.pieces.len(), work.kit.parts.len());
        say::out(&if work.stopped() {
            "It does not go together yet.\n".to_owned()
        } else {
            format!("It goes together: {pieces} pieces, {parts} of them different.\n")
        });
    }
    if work.stopped() { End::DoesNotFit } else { End::Done }
}

pub(super) fn kit(kit: &Kit) -> End {
    match make(kit) {
        Ok((work, inputs)) => {
            say::findings(&work.findings, &inputs, kit.json);
            if !kit.json {
                say::out(&summary(&work, &kit.out));
            }
            End::Done
        }
        Err(ended) => ended.say(kit.json),
    }
}

fn make(kit: &Kit) -> Result<(Work, Vec<Source>), Ended> {
    let Inputs { mut album, cutter, sources } = inputs(&kit.file, &kit.machine, unknown_formats(&kit.formats))?;
    if let Some(copies) = kit.copies {
        album.copies = copies;
    }
    // Whether the folder may be written is known before the work is done.
    let mut folder = Folder::new(&kit.out, kit.replace).map_err(|problem| refused(&kit.out, problem))?;
    let effort = match kit.effort {
        Effort::Low => layout::Effort::Low,
        Effort::Normal => layout::Effort::Normal,
        Effort::High => layout::Effort::High,
    };
    let labels = match kit.labels {
        Labels::Hidden => toolpath::Labels::Hidden,
        Labels::Everywhere => toolpath::Labels::Everywhere,
        Labels::None => toolpath::Labels::None,
    };
    let threads = kit.threads.map_or_else(|| std::thread::available_parallelism().map_or(1, usize::from), usize::from);
    let watch = Terminal::new(&folder.unfinished());
    let work = Work::new(album, cutter, labels, Search { effort, threads }, &watch);
    watch.done();
    if work.stopped() {
        return Err(Ended { findings: work.findings, end: End::DoesNotFit, sources });
    }
    let formats: Vec<&str> =
        if kit.formats.is_empty() { FORMATS.to_vec() } else { kit.formats.iter().map(String::as_str).collect() };
    let files = Files { formats: &formats, split_layers: kit.split_layers };
    work.write(&files, &mut folder).map_err(|problem| unwritten(&kit.out, problem))?;
    folder.finish().map_err(|problem| refused(&kit.out, problem))?;
    Ok((work, sources))
}

pub(super) fn catalogue(catalogue: &Catalogue) -> End {
    let kinds = parts::kinds();
    say::out(&if catalogue.json { write::catalogue_json(&kinds) } else { write::catalogue(&kinds) });
    End::Done
}

pub(super) fn schema(schema: &Schema) -> End {
    let value = match schema.what {
        SchemaOf::Album => album::schema(&parts::kinds()),
        SchemaOf::Cutter => cutter::schema(),
        SchemaOf::Report => write::report_schema(),
    };
    say::out(&format!("{value:#}\n"));
    End::Done
}

pub(super) fn licences() -> End {
    say::out(include_str!("../write/font/LICENCE.txt"));
    say::out(concat!("\n", include_str!("letters.txt"), "\n", include_str!("libraries.txt")));
    End::Done
}

/// One line a stock, and where the files are.
fn summary(work: &Work, out: &Path) -> String {
    let mut lines = Vec::new();
    for laid in &work.stocks {
        let stock = &work.album.stocks[laid.stock];
        let count = laid.count();
        let sheets = if count == 1 { "sheet" } else { "sheets" };
        let least = if laid.proven_least {
            "no layout can do it in fewer".to_owned()
        } else if stock.sheets.len() > 1 {
            "of mixed sizes".to_owned()
        } else {
            format!("no layout can do it in fewer than {}", laid.lower_bound)
        };
        let files = laid.sheets.len();
        let equal = if u64::try_from(files).is_ok_and(|files| files == count) {
            String::new()
        } else {
            format!(" ({files} different)")
        };
        lines.push(format!("{}: {count} {sheets}{equal}, {:.0} % used; {least}.\n", stock.name, laid.used_percent));
    }
    lines.push(format!("Wrote {}.\n", out.display()));
    lines.concat()
}

fn unwritten(out: &Path, problem: WriteProblem) -> Ended {
    let finding = match problem {
        WriteProblem::System(error) => system("write", out, &error),
        WriteProblem::Differs { .. } => Finding::stop("proof", "", format!("{problem}; nothing was written"))
            .help("this is a fault of the program: please report it with your album file"),
    };
    Ended::new(finding, End::MachineFailed)
}

fn refused(out: &Path, problem: FolderProblem) -> Ended {
    let name = out.display();
    let wrong = |text: String, help: &str| Ended::new(Finding::stop("folder", "", text).help(help), End::WrongInput);
    match problem {
        FolderProblem::Exists => wrong(
            format!("{name} is there already"),
            "give another folder, or add --replace if it holds an earlier kit",
        ),
        FolderProblem::NotOurs => {
            wrong(format!("{name} holds something other than a kit: it is left alone"), "give another folder")
        }
        FolderProblem::IsFile => wrong(format!("{name} is a file, not a folder"), "give another name"),
        FolderProblem::NoName => {
            wrong(format!("{name} has no name that a folder can take"), "name a new folder: --out kit")
        }
        FolderProblem::Busy => {
            wrong(format!("another run is writing {name}"), "wait until it is done, or give another folder")
        }
        FolderProblem::System(error) => Ended::new(system("write", out, &error), End::MachineFailed),
    }
}

fn unknown_formats(asked: &[String]) -> Vec<Finding> {
    let one = |format: &String| {
        if FORMATS.contains(&format.as_str()) {
            return None;
        }
        let help = nearest(format, FORMATS.iter().copied()).map_or_else(
            || format!("this build writes {}", FORMATS.join(", ")),
            |near| format!("did you mean {near}? This build writes {}", FORMATS.join(", ")),
        );
        Some(Finding::stop("unknown-format", "", format!("this build does not write \"{format}\"")).help(help))
    };
    asked.iter().filter_map(one).collect()
}
