// SPDX-License-Identifier: MIT
//! The album and the machine, from their files and the arguments.

use super::end::ExitStatus;
use super::machine_arguments::MachineArguments;
use super::say;
use hingeleaf::album::Album;
use hingeleaf::cutter::{self, Cutter, ScoreMode};
use hingeleaf::fields::{Source, nearest};
use hingeleaf::finding::{Arg, Finding, Said};
use hingeleaf::length::{Allow, Length, MM_PER_INCH, Units};
use hingeleaf::paper;
use hingeleaf::stock::{SheetSize, Stock};
use std::fs;
use std::io;
use std::path::Path;

/// Findings that end a command, how they end it, and the files that they speak of.
#[derive(Debug)]
pub(super) struct Ended {
    pub findings: Vec<Finding>,
    pub end: ExitStatus,
    pub sources: Vec<Source>,
}

impl Ended {
    pub(super) fn new(finding: Finding, end: ExitStatus) -> Self {
        Self { findings: vec![finding], end, sources: Vec::new() }
    }

    /// Says why, and gives the end.
    pub(super) fn say(&self, json: bool) -> ExitStatus {
        say::findings(&self.findings, &self.sources, json, self.end)
    }
}

/// The albums of a batch on other sheets than their files say; a stock that none of them has is told.
pub(super) fn all_on_sheets<'a>(
    albums: impl Iterator<Item = &'a mut Album>,
    machine: &MachineArguments,
    findings: &mut Vec<Finding>,
) {
    let mut unknown: Vec<Vec<Finding>> = Vec::new();
    for album in albums {
        let mut wrong = Vec::new();
        *album = on_sheets(album.clone(), machine, &mut wrong);
        unknown.push(wrong);
    }
    // What one album lacks another has.
    if let Some(first) = unknown.first() {
        let nowhere =
            |finding: &&Finding| unknown.iter().all(|wrong| wrong.iter().any(|other| other.text == finding.text));
        findings.extend(first.iter().filter(nowhere).cloned());
    }
}

/// The machine, from its file and the arguments.
pub(super) fn cutter(
    machine: &MachineArguments,
    sources: &mut Vec<Source>,
    findings: &mut Vec<Finding>,
) -> Result<Cutter, Ended> {
    let mut cutter = Cutter::default();
    if let Some(file) = &machine.cutter {
        let source = source(file, "no-cutter-file-help")?;
        let read = cutter::read(&source);
        findings.extend(read.findings);
        sources.push(source);
        // A file that could not be read is refused later; the arguments are looked at all the same.
        cutter = read.value.unwrap_or_default();
    }
    let cutter = flags(cutter, machine, findings);
    let limits = cutter.findings();
    // What an option says stands in no file.
    let by_option = |field: &str| match field {
        "gap" => machine.gap.is_some(),
        "margin" => machine.margin.is_some(),
        "bed" => machine.bed.is_some(),
        "score" => machine.score.is_some(),
        "shared_cuts" => machine.shared_cuts.is_some(),
        _ => false,
    };
    findings.extend(match sources.last().filter(|_| machine.cutter.is_some()) {
        Some(source) => cutter::placed(limits, source, &by_option),
        None => limits,
    });
    other_sheets(&machine.sheet, findings);
    Ok(cutter)
}

/// Steps that a ruler has, mm: our choice.
const STEPS: std::ops::RangeInclusive<f64> = 0.01..=MM_PER_INCH;

/// What is wrong with the step to round to.
pub(super) fn step_problems(step: Option<Length>) -> Vec<Finding> {
    let wrong = step.filter(|step| !STEPS.contains(&step.mm()));
    let mm = |mm: &f64| Arg::Length(Length::from_mm(*mm), Units::Mm);
    let text = Said::new("rounded-out-of-range").with("least", mm(STEPS.start())).with("most", mm(STEPS.end()));
    wrong.map(|_| argument(text, Said::new("rounded-out-of-range-help"))).into_iter().collect()
}

/// The album with rounded sizes where that is asked for, and the note that says so.
pub(super) fn rounded(album: Album, step: Option<Length>) -> (Album, Vec<Finding>) {
    let Some(step) = step else { return (album, Vec::new()) };
    let rounded = album.rounded(step);
    let note = rounded.rounding_note(&album, step);
    (rounded, vec![note])
}

/// Something wrong with an argument.
pub(super) fn argument(text: Said, help: Said) -> Finding {
    Finding::stop("arguments", Said::NOTHING, text).help(help)
}

/// A file's text; `missing` is the help where there is no such file.
pub(super) fn source(file: &Path, missing: &'static str) -> Result<Source, Ended> {
    source_as(file, missing, Source::new)
}

/// The same of a file whose bytes are taken in a way of its own.
pub(super) fn source_as(
    file: &Path,
    missing: &'static str,
    take: impl FnOnce(&str, Vec<u8>) -> Result<Source, Box<Finding>>,
) -> Result<Source, Ended> {
    let (name, bytes) = bytes_of(file, missing)?;
    take(&name, bytes).map_err(|finding| Ended::new(*finding, ExitStatus::WrongInput))
}

/// What a file is called, and its bytes.
pub(super) fn bytes_of(file: &Path, missing: &'static str) -> Result<(String, Vec<u8>), Ended> {
    let name = say::name(file);
    let wrong = |key, help| {
        let text = Said::new(key).with("file", Arg::code(&name));
        Ended::new(Finding::stop("file", Said::NOTHING, text).help(Said::new(help)), ExitStatus::WrongInput)
    };
    if file.is_dir() {
        return Err(wrong("file-is-folder", "file-is-folder-help"));
    }
    // A file that is too large is not read, nor one without end to more than shows that it is.
    let read = fs::File::open(file).and_then(|file| {
        let size = file.metadata()?.len();
        let mut bytes = Vec::new();
        if size <= Source::LARGEST {
            io::Read::read_to_end(&mut io::Read::take(file, Source::LARGEST + 1), &mut bytes)?;
        }
        Ok((size, bytes))
    });
    match read {
        Ok((size, bytes)) => Source::fits(&name, size)
            .map(|()| (name, bytes))
            .map_err(|finding| Ended::new(*finding, ExitStatus::WrongInput)),
        Err(error) if error.kind() == io::ErrorKind::NotFound => Err(wrong("no-file", missing)),
        Err(error) => Err(Ended::new(system("can-not-read", file, &error), ExitStatus::MachineFailed)),
    }
}

/// What the arguments say of the machine, on top of its file.
pub(super) fn flags(mut cutter: Cutter, machine: &MachineArguments, findings: &mut Vec<Finding>) -> Cutter {
    let mut stop = |text: Said, help: Said| findings.push(argument(text, help));
    for (name, said, most, field) in [
        ("--kerf", machine.kerf, 5.0, &mut cutter.kerf),
        ("--margin", machine.margin, 200.0, &mut cutter.margin),
        ("--gap", machine.gap, 200.0, &mut cutter.gap),
    ] {
        match said {
            Some(length) if !(0.0..=most).contains(&length.mm()) => {
                let text = Said::new("machine-out-of-range").with("option", Arg::code(name));
                stop(text.with("most", Arg::Length(Length::from_mm(most), Units::Mm)), Said::new("out-of-range-help"));
            }
            Some(length) => *field = length,
            None => {}
        }
    }
    if let Some(text) = &machine.bed {
        match paper::sheet_size(text) {
            Ok((_, width, height)) => cutter.bed = Some((width, height)),
            Err(error) => stop(of_option("--bed", error.what), error.help),
        }
    }
    if let Some(text) = &machine.score {
        let part = |text: &str| {
            Length::parse(text, Units::Mm, Allow::Plain).ok().filter(|length| (0.1..=100.0).contains(&length.mm()))
        };
        match text.split_once(',').map(|(dash, gap)| (part(dash), part(gap))) {
            Some((Some(dash), Some(gap))) => cutter.score = ScoreMode::Dash { dash, gap },
            None if text == "line" => cutter.score = ScoreMode::Line,
            _ => stop(Said::new("bad-score").with("score", Arg::quoted(text)), Said::new("bad-score-help")),
        }
    }
    for said in &machine.colours {
        let (layer, colour) = said.split_once('=').unwrap_or((said, ""));
        match (layer, cutter::colour_code(colour)) {
            ("cut", Some(code)) => cutter.colours.cut = code,
            ("score", Some(code)) => cutter.colours.score = code,
            ("draw", Some(code)) => cutter.colours.draw = code,
            _ => stop(Said::new("bad-colours").with("colour", Arg::quoted(said)), Said::new("bad-colours-help")),
        }
    }
    let one_of = |words: &[&'static str], said: &Option<String>| {
        said.as_ref().and_then(|said| words.iter().copied().find(|word| word.eq_ignore_ascii_case(said)))
    };
    cutter.svg_units = one_of(cutter::SVG_UNITS, &machine.svg_units).unwrap_or(cutter.svg_units);
    cutter.dxf_version = one_of(cutter::DXF_VERSIONS, &machine.dxf_version).unwrap_or(cutter.dxf_version);
    cutter.shared_cuts = machine.shared_cuts.or(cutter.shared_cuts);
    cutter
}

/// What is wrong, and with which option.
pub(super) fn of_option(option: &str, what: Said) -> Said {
    Said::new("of-option").with("option", Arg::code(option)).with("what", what)
}

/// `--sheet A3` for every stock, `--sheet card=A3` for one.
fn other_sheets<'a>(said: &'a [String], findings: &mut Vec<Finding>) -> Vec<(Option<&'a str>, SheetSize)> {
    let one = |text: &'a String| {
        let (name, sheet) = match text.split_once('=') {
            Some((name, sheet)) => (Some(name), sheet),
            None => (None, text.as_str()),
        };
        match paper::sheet_size(sheet) {
            // Price and count belong to the sheet that it replaces.
            Ok((called, width, height)) => Some((
                name,
                SheetSize { name: called, width, height, count: None, price: None, pack: None, lies: None },
            )),
            Err(error) => {
                findings.push(argument(of_option("--sheet", error.what), error.help));
                None
            }
        }
    };
    said.iter().filter_map(one).collect()
}

/// The album on other sheets than its file says. What is wrong with the words of these sheets is said where the machine is read.
pub(super) fn on_sheets(mut album: Album, machine: &MachineArguments, findings: &mut Vec<Finding>) -> Album {
    for (name, size) in other_sheets(&machine.sheet, &mut Vec::new()) {
        let mut names: Vec<&str> = album.stocks.iter().filter(|stock| !stock.ready).map(Stock::bought).collect();
        names.dedup();
        if let Some(name) = name.filter(|name| !names.contains(name)) {
            let help = match nearest(name, names.iter().copied()) {
                Some(near) => Said::new("option-meant").with("value", Arg::code(format!("{near}={}", size.name))),
                None => {
                    Said::new("stocks-there-are").with("names", Arg::Row(names.into_iter().map(Arg::code).collect()))
                }
            };
            findings.push(argument(Said::new("sheet-of-no-stock").with("name", Arg::quoted(name)), help));
            continue;
        }
        for stock in
            album.stocks.iter_mut().filter(|stock| !stock.ready && name.is_none_or(|name| stock.bought() == name))
        {
            stock.sheets = vec![size.clone()];
        }
    }
    album
}

/// Writes a new file, whole or not at all.
pub(super) fn put(new: &Path, text: &str) -> Result<(), Ended> {
    let mut file = fs::File::create_new(new).map_err(|error| match error.kind() {
        io::ErrorKind::AlreadyExists => exists(new),
        _ => Ended::new(system("can-not-write", new, &error), ExitStatus::MachineFailed),
    })?;
    io::Write::write_all(&mut file, text.as_bytes()).map_err(|error| {
        let _ = fs::remove_file(new);
        Ended::new(system("can-not-write", new, &error), ExitStatus::MachineFailed)
    })
}

/// A file that is there already is left alone.
pub(super) fn exists(file: &Path) -> Ended {
    let text = Said::new("is-there-already").with("name", Arg::code(say::name(file)));
    let finding = Finding::stop("exists", Said::NOTHING, text);
    Ended::new(finding.help(Said::new("nothing-is-overwritten")), ExitStatus::WrongInput)
}

/// The machine failed us.
pub(super) fn system(key: &'static str, path: &Path, error: &io::Error) -> Finding {
    let text = Said::new(key).with("path", Arg::code(say::name(path))).with("error", error.to_string());
    Finding::stop("machine", Said::NOTHING, text).help(Said::new("can-not-help"))
}
