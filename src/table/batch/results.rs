// SPDX-License-Identifier: MIT
//! What follows from a batch: whether its kits go together, its sheets, what is packed and what it costs, what is taken away.

use super::{beside, ways};
use crate::fields::{Node, Source};
use crate::finding::{Finding, Level, Said};
use crate::sheets::StockSheets;
use crate::table::question::Question;
use crate::table::said;
use crate::table::sheets::{self, LaidOrder};
use crate::table::tables;
use crate::table::words;
use crate::work::{BatchWork, Files};
use crate::write::{Memory, Sink, WriteProblem};
use serde_json::{Value, json};

/// Whether all kits go together; `machine` has what stops the work in the machine's settings.
pub(super) fn fit(work: &BatchWork, (source, root): (&Source, &Node), machine: &[Value]) -> Value {
    let count = |level: Level| work.findings.iter().filter(|finding| finding.level == level).count();
    let sentence = Said::new("batch-goes-together").with("stops", count(Level::Stop)).with("warns", count(Level::Warn));
    let sentence = match machine {
        [] => sentence,
        _ => Said::new("batch-machine-can-not-be-used").with("sentence", sentence),
    };
    let mut told = said::of_batch(&work.findings, source, work.batch.units);
    for (finding, told) in work.findings.iter().zip(&mut told) {
        let mend = mend(work, finding);
        let mended = mend.as_ref().and_then(|mend| mend["path"].as_str()).map(str::to_owned);
        told["path"] = mended.or_else(|| path(work, (source, root), finding)).into();
        told["mend"] = mend.into();
        // A kit's name is the maker's own, small letters and all.
        told["named"] = matches!(finding.about.key(), "about-kit" | "about-of-kit").into();
    }
    json!({
        "sentence": words::say(&sentence),
        "stopped": work.stopped() || !machine.is_empty(),
        "more": [],
        "findings": machine.iter().cloned().chain(told).collect::<Vec<_>>(),
        "section": null,
    })
}

/// The field that a finding is at: its own where that stands in the batch file, else the album of the first kit that it is of.
fn path(work: &BatchWork, (source, root): (&Source, &Node), finding: &Finding) -> Option<String> {
    if let Some(place) = finding.place.as_ref().filter(|place| *place.file == *source.name()) {
        return Some(ways::of(root, source.text(), place));
    }
    if finding.id == "together" {
        return Some("together".into());
    }
    kits_with(work, finding).next().map(|kit| format!("kits[{kit}].album"))
}

/// The kits that a finding is of.
fn kits_with<'a>(work: &'a BatchWork, finding: &'a Finding) -> impl Iterator<Item = usize> + 'a {
    let same = |one: &Finding| one.id == finding.id && one.place == finding.place && one.text == finding.text;
    let kits = work.kits.iter().enumerate();
    kits.filter(move |(_, kit)| kit.findings.iter().any(same)).map(|(number, _)| number)
}

/// A mend in the kit, as something that is otherwise in it than in its album; none where several kits have the fault: then their
/// album is to be mended.
fn mend(work: &BatchWork, finding: &Finding) -> Option<Value> {
    let wanted = finding.mend.as_ref()?;
    let mut with = kits_with(work, finding);
    let kit = with.next().filter(|_| with.next().is_none())?;
    let album = &work.kits.get(kit)?.album;
    let mut mend = said::mend(wanted, album)?;
    // A chosen page is the batch file's own; all else is the album's.
    let own = wanted.path.starts_with("kits[");
    mend["path"] = if own { wanted.path.clone() } else { format!("kits[{kit}].change.{}", wanted.path) }.into();
    mend["typed"] = wanted.value.plain(album.units).into();
    Some(mend)
}

/// The sheets of all kits; none of a batch that does not go together.
pub(super) fn sheets(work: &BatchWork) -> Option<Value> {
    let laid = LaidOrder { album: work.album()?, kit: &work.kit, stocks: &work.stocks };
    (!work.stopped()).then(|| sheets::laid(&laid)).flatten()
}

/// The mixes, what is packed, cost and price, as the job sheet has them.
pub(super) fn tables(work: &BatchWork) -> Value {
    let sheet = if work.stopped() || work.stocks.is_empty() { None } else { work.order_sheet_in(tables::PAGE, false) };
    sheet.map_or(Value::Null, |sheet| tables::of(&sheet, &["mixes", "pack", "cost"]))
}

/// What is asked for again once it was looked at longer.
pub(in crate::table) fn better(work: &BatchWork, source: &Source, question: &Question) -> Value {
    let Ok(root) = Node::read(source) else { return Value::Null };
    json!({
        "fit": fit(work, (source, &root), &[]),
        "sheets": sheets(work),
        "tables": tables(work),
        "take": take(work, question, true),
    })
}

/// What there is to take away, and how the command line makes the same.
pub(super) fn take(work: &BatchWork, question: &Question, usable: bool) -> Value {
    let names: Vec<&str> = work.paths.iter().map(|sheet| sheet.name.as_str()).collect();
    let sheets: u64 = work.stocks.iter().map(StockSheets::count).sum();
    let nothing = work.stopped() || work.stocks.is_empty() || !usable;
    let sentence = Said::new(if nothing { "batch-nothing-to-cut" } else { "batch-to-cut" }).with("sheets", sheets);
    let command = (!nothing).then(|| command(question));
    json!({ "sentence": words::say(&sentence), "names": names, "formats": Files::ALL.formats, "command": command })
}

/// The file that holds the machine's settings, where there are any.
const CUTTER_FILE: &str = "my-cutter.json";

/// The file that says how all of it is made again.
const COMMAND_FILE: &str = "command.txt";

/// `hingeleaf kit spring.json --out kit`
fn command(question: &Question) -> String {
    let name = &question.name;
    let plain = name.chars().all(|c| c.is_ascii_alphanumeric() || matches!(c, '-' | '_' | '.'));
    let name = if plain { name.clone() } else { format!("\"{name}\"") };
    let cutter = question.machine.file().map(|_| format!(" --cutter {CUTTER_FILE}")).unwrap_or_default();
    let trimmer = if question.machine.trimmer { " --trimmer" } else { "" };
    format!("hingeleaf kit {name} --out kit{cutter}{trimmer}")
}

/// Writes all that the command line writes; where all of it is asked for, also what it makes that from: the batch file, its albums, the
/// machine's settings, the command.
///
/// # Errors
/// The sink's; a file that read back is not what was meant; a name that two files would have.
pub(in crate::table) fn write(
    work: &BatchWork,
    question: &Question,
    files: &Files<'_>,
    sink: &mut Memory,
) -> Result<(), WriteProblem> {
    work.write(files, sink)?;
    if !question.file.is_empty() || !question.formats.is_empty() {
        return Ok(());
    }
    let mut from = vec![(question.name.as_str(), question.text.clone())];
    for file in beside::albums(&question.name, &question.text) {
        let album = question.albums.iter().find(|one| one.name == file);
        if let Some((name, text)) = album.and_then(|one| Some((one.name.as_str(), one.text.clone()?))) {
            from.push((name, text));
        }
    }
    let machine = question.machine.file();
    from.extend(machine.map(|text| (CUTTER_FILE, text)));
    from.push((COMMAND_FILE, command(question) + "\n"));
    for (name, text) in from {
        if sink.files.contains_key(name) {
            return Err(WriteProblem::from(std::io::Error::other(words::say(
                &Said::new("name-twice").with("name", name),
            ))));
        }
        sink.put(name, text.as_bytes())?;
    }
    Ok(())
}
