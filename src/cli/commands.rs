// SPDX-License-Identifier: MIT
//! What each command does.

use super::arguments::{Catalogue, Check, Effort, Kit, Labels, Machine, New, NewUnits};
use super::{End, say};
use hingeleaf::album::{self, Album};
use hingeleaf::cutter::{self, Cutter, ScoreMode};
use hingeleaf::fields::{Source, nearest};
use hingeleaf::finding::{Finding, gravest_first, stops};
use hingeleaf::layout::{self, Unwatched};
use hingeleaf::length::{Allow, Length, Units};
use hingeleaf::parts;
use hingeleaf::sheets::Search;
use hingeleaf::stock::{self, SheetSize};
use hingeleaf::toolpath;
use hingeleaf::work::{FORMATS, Files, Work};
use hingeleaf::write::{self, Folder, FolderProblem, WriteProblem};
use std::fs;
use std::io::{self, Write};
use std::path::Path;

/// Findings that end a command, and how.
type Ended = (Vec<Finding>, End);

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
                say::findings(&[], true);
            } else {
                say::out(&format!("Wrote {name}. Next: hingeleaf kit {name} --out kit\n"));
            }
            End::Done
        }
        Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {
            say::findings(
                &[Finding::stop("exists", "", format!("{name} is there already"))
                    .help("give another name; nothing is overwritten")],
                new.json,
            );
            End::WrongInput
        }
        Err(error) => {
            say::findings(&[system("write", &new.file, &error)], new.json);
            End::MachineFailed
        }
    }
}

pub(super) fn check(check: &Check) -> End {
    let (album, cutter) = match inputs(&check.file, &check.machine) {
        Ok(inputs) => inputs,
        Err(ended) => return end(ended, check.json),
    };
    let work = Work::fit(album, cutter);
    if check.json {
        say::findings(&work.findings, true);
    } else {
        say::lines(&work.findings);
        let pieces = work.kit.pieces.len();
        say::out(&if work.stopped() {
            "It does not go together yet.\n".to_owned()
        } else {
            format!("It goes together: {pieces} pieces, {} of them different.\n", work.kit.parts.len())
        });
    }
    if work.stopped() { End::DoesNotFit } else { End::Done }
}

pub(super) fn kit(kit: &Kit) -> End {
    match make(kit) {
        Ok(work) => {
            if kit.json {
                say::findings(&work.findings, true);
            } else {
                say::findings(&work.findings, false);
                say::out(&summary(&work, &kit.out));
            }
            End::Done
        }
        Err(ended) => end(ended, kit.json),
    }
}

fn make(kit: &Kit) -> Result<Work, Ended> {
    let mut wrong = formats(&kit.formats);
    let (mut album, cutter) = inputs(&kit.file, &kit.machine).map_err(|(mut findings, end)| {
        findings.append(&mut wrong);
        (findings, end)
    })?;
    if !wrong.is_empty() {
        return Err((wrong, End::WrongInput));
    }
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
    let work = Work::new(album, cutter, labels, Search { effort, threads }, &Unwatched);
    if work.stopped() {
        return Err((work.findings, End::DoesNotFit));
    }
    let formats: Vec<&str> =
        if kit.formats.is_empty() { FORMATS.to_vec() } else { kit.formats.iter().map(String::as_str).collect() };
    let files = Files { formats: &formats, split_layers: kit.split_layers };
    work.write(&files, &mut folder).map_err(|problem| unwritten(&kit.out, problem))?;
    folder.finish(kit.replace).map_err(|problem| refused(&kit.out, problem))?;
    Ok(work)
}

pub(super) fn catalogue(catalogue: &Catalogue) -> End {
    let kinds = parts::kinds();
    say::out(&if catalogue.json { write::catalogue_json(&kinds) } else { write::catalogue(&kinds) });
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

fn end((findings, end): Ended, json: bool) -> End {
    say::findings(&findings, json);
    end
}

fn system(what: &str, path: &Path, error: &io::Error) -> Finding {
    Finding::stop("machine", "", format!("can't {what} {}: {error}", path.display()))
        .help("check the folder, its permissions and the space that is left")
}

fn unwritten(out: &Path, problem: WriteProblem) -> Ended {
    let finding = match problem {
        WriteProblem::System(error) => system("write", out, &error),
        WriteProblem::Differs { .. } => Finding::stop("proof", "", format!("{problem}; nothing was written"))
            .help("this is a fault of the program: please report it with your album file"),
    };
    (vec![finding], End::MachineFailed)
}

fn refused(out: &Path, problem: FolderProblem) -> Ended {
    let name = out.display();
    let wrong = |text: String, help: &str| (vec![Finding::stop("folder", "", text).help(help)], End::WrongInput);
    match problem {
        FolderProblem::Exists => wrong(
            format!("{name} is there already"),
            "give another folder, or add --replace if it holds an earlier kit",
        ),
        FolderProblem::NotOurs => {
            wrong(format!("{name} holds something other than a kit: it is left alone"), "give another folder")
        }
        FolderProblem::IsFile => wrong(format!("{name} is a file, not a folder"), "give another name"),
        FolderProblem::System(error) => (vec![system("write", out, &error)], End::MachineFailed),
    }
}

fn formats(asked: &[String]) -> Vec<Finding> {
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

/// The album and the machine, from their files and the arguments; all problems of all of them at once.
fn inputs(file: &Path, machine: &Machine) -> Result<(Album, Cutter), Ended> {
    let mut findings = Vec::new();
    let album = match source(file) {
        Ok(source) => {
            let read = album::read(&source, &parts::kinds());
            findings.extend(read.findings);
            read.value
        }
        Err(ended) => return Err(ended),
    };
    let cutter = match &machine.cutter {
        None => Some(Cutter::default()),
        Some(file) => {
            let read = cutter::read(&source(file)?);
            findings.extend(read.findings);
            read.value
        }
    };
    let cutter = cutter.map(|cutter| flags(cutter, machine, &mut findings));
    let album = album.map(|album| other_sheets(album, &machine.sheet, &mut findings));
    gravest_first(&mut findings);
    match (album, cutter) {
        (Some(album), Some(cutter)) if !stops(&findings) => Ok((album, cutter)),
        _ => Err((findings, End::WrongInput)),
    }
}

fn source(file: &Path) -> Result<Source, Ended> {
    let wrong = |text: String, help: &str| (vec![Finding::stop("file", "", text).help(help)], End::WrongInput);
    let name = file.display().to_string();
    if file.is_dir() {
        return Err(wrong(format!("{name} is a folder, not a file"), "name the file in it"));
    }
    // A file that is far too large is not read to its end.
    let read = fs::File::open(file).and_then(|file| {
        let mut bytes = Vec::new();
        io::Read::read_to_end(&mut io::Read::take(file, 64 << 20), &mut bytes).map(|_| bytes)
    });
    match read {
        Ok(bytes) => Source::new(&name, bytes).map_err(|finding| (vec![*finding], End::WrongInput)),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Err(wrong(
            format!("there is no file {name}"),
            "check its name; hingeleaf new FILE writes one to start from",
        )),
        Err(error) => Err((vec![system("read", file, &error)], End::MachineFailed)),
    }
}

/// What the arguments say of the machine, on top of its file.
fn flags(mut cutter: Cutter, machine: &Machine, findings: &mut Vec<Finding>) -> Cutter {
    let mut stop = |text: String, help: &str| findings.push(Finding::stop("arguments", "", text).help(help));
    for (name, said, most, field) in [
        ("kerf", machine.kerf, 5.0, &mut cutter.kerf),
        ("margin", machine.margin, 200.0, &mut cutter.margin),
        ("gap", machine.gap, 200.0, &mut cutter.gap),
    ] {
        match said {
            Some(length) if !(0.0..=most).contains(&length.mm()) => {
                stop(format!("--{name} must lie between 0 and {most} mm"), "check the number and its unit");
            }
            Some(length) => *field = length,
            None => {}
        }
    }
    if let Some(text) = &machine.bed {
        match stock::sheet_size(text) {
            Ok((_, width, height)) => cutter.bed = Some((width, height)),
            Err((what, help)) => stop(format!("--bed: {what}"), &help),
        }
    }
    if let Some(text) = &machine.score {
        let part = |text: &str| {
            Length::parse(text, Units::Mm, Allow::Plain).ok().filter(|length| (0.1..=100.0).contains(&length.mm()))
        };
        match text.split_once(',').map(|(dash, gap)| (part(dash), part(gap))) {
            Some((Some(dash), Some(gap))) => cutter.score = ScoreMode::Dash { dash, gap },
            None if text == "line" => cutter.score = ScoreMode::Line,
            _ => stop(
                format!("--score can't be \"{text}\""),
                "write --score line, or the length of a cut and of a tie: --score 2,1",
            ),
        }
    }
    for said in &machine.colours {
        let (layer, colour) = said.split_once('=').unwrap_or((said, ""));
        match (layer, cutter::colour_code(colour)) {
            ("cut", Some(code)) => cutter.colours.cut = code,
            ("score", Some(code)) => cutter.colours.score = code,
            ("draw", Some(code)) => cutter.colours.draw = code,
            _ => stop(
                format!("--colours can't be read at \"{said}\""),
                "write --colours cut=#000000,score=#E69F00,draw=#CC79A7",
            ),
        }
    }
    let one_of = |words: &[&'static str], said: &Option<String>| {
        said.as_ref().and_then(|said| words.iter().copied().find(|word| word == said))
    };
    cutter.svg_units = one_of(cutter::SVG_UNITS, &machine.svg_units).unwrap_or(cutter.svg_units);
    cutter.dxf_version = one_of(cutter::DXF_VERSIONS, &machine.dxf_version).unwrap_or(cutter.dxf_version);
    cutter.shared_cuts = machine.shared_cuts.unwrap_or(cutter.shared_cuts);
    cutter
}

/// `--sheet A3` for every stock, `--sheet card=A3` for one.
fn other_sheets(mut album: Album, said: &[String], findings: &mut Vec<Finding>) -> Album {
    for text in said {
        let (name, sheet) = match text.split_once('=') {
            Some((name, sheet)) => (Some(name), sheet),
            None => (None, text.as_str()),
        };
        let names: Vec<String> = album.stocks.iter().map(|stock| stock.name.clone()).collect();
        if let Some(name) = name.filter(|name| !names.iter().any(|known| known == name)) {
            let help = nearest(name, names.iter().map(String::as_str)).map_or_else(
                || format!("the album has: {}", names.join(", ")),
                |near| format!("did you mean {near}={sheet}?"),
            );
            findings.push(Finding::stop("arguments", "", format!("--sheet: there is no stock \"{name}\"")).help(help));
            continue;
        }
        match stock::sheet_size(sheet) {
            Ok((called, width, height)) => {
                for stock in album.stocks.iter_mut().filter(|stock| name.is_none_or(|name| stock.name == name)) {
                    // Price and count belong to the sheet that it replaces.
                    stock.sheets = vec![SheetSize { name: called.clone(), width, height, count: None, price: None }];
                }
            }
            Err((what, help)) => findings.push(Finding::stop("arguments", "", format!("--sheet: {what}")).help(help)),
        }
    }
    album
}
