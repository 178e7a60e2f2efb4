// SPDX-License-Identifier: MIT
//! The file on the table beside an earlier edition of it: an album, a batch, or an earlier report.
//!
//! In: the question, and what it is compared with. Out: all that the command line says, in the page's words; the sheets of what is
//! cut again. Never: a rule about editions.

use super::batch::BatchRead;
use super::beside::NamedFiles;
use super::question::{EarlierFile, Question};
use super::read::AlbumRead;
use super::sheets::{self, LaidOrder};
use super::{on_table, said, words};
use crate::editions::{self, AnyEdition, EditionPair, ToldChange};
use crate::fields::Source;
use crate::finding::{Finding, Said, gravest_first, stops};
use crate::layout::{Effort, Watch};
use crate::toolpath::Labels;
use crate::work::{BatchWork, FORMATS, Files, MadeEdition, OF_SHEETS, Work};
use crate::write::{Memory, WriteProblem};
use serde_json::{Value, json};

/// Two editions compared, and the sheets of what is cut again.
#[derive(Debug)]
pub(super) struct ComparedWork {
    told: Vec<ToldChange>,
    /// None where nothing is cut again.
    again: Option<MadeEdition>,
}

/// Why there is nothing to compare with.
#[derive(Debug)]
pub(super) struct NotCompared {
    said: Said,
    findings: Vec<Value>,
}

/// Compares; `new` is the file on the table, worked out.
pub(super) fn compare(
    new: MadeEdition,
    question: &Question,
    (effort, threads): (Effort, usize),
    watch: &dyn Watch,
) -> Result<ComparedWork, NotCompared> {
    let nothing = || NotCompared { said: Said::new("compare-with-nothing"), findings: Vec::new() };
    let with = question.against.as_ref().ok_or_else(nothing)?;
    let old = edition(with, question, (effort, threads), watch)?;
    let pair = EditionPair::of(old, new.edition());
    let found = pair.compare();
    let names = [with.called.clone().unwrap_or_else(|| with.name.clone()), question.name.clone()];
    let search = question.machine.search(effort, threads);
    let again = found.again().map(|again| new.recut(again, Labels::Hidden, search, watch));
    Ok(ComparedWork { told: found.told(&names), again })
}

/// The earlier edition.
fn edition(
    with: &EarlierFile,
    question: &Question,
    (effort, threads): (Effort, usize),
    watch: &dyn Watch,
) -> Result<AnyEdition, NotCompared> {
    let unread = |source: &Source, findings: &[Finding], files: &NamedFiles| NotCompared {
        said: Said::new("old-edition-not-read").with("file", source.name()),
        findings: said::of_the_text(findings, source, files),
    };
    let source = Source::new(&with.name, with.text.clone().into_bytes())
        .map_err(|finding| NotCompared { said: finding.text.clone(), findings: Vec::new() })?;
    let kind = on_table::kind(&source);
    if kind == "report" {
        let read = editions::read_report(&source);
        return read.value.ok_or_else(|| unread(&source, &read.findings, &NamedFiles::default()));
    }
    let Some(cutter) = question.machine.cutter().value else {
        return Err(NotCompared { said: Said::new("machine-not-read"), findings: Vec::new() });
    };
    let search = question.machine.search(effort, threads);
    let asked = with.question(question);
    let (made, told) = if kind == "batch" {
        let BatchRead { batch: read, files, .. } = BatchRead::of(&source, &asked);
        let Some(value) = read.value else { return Err(unread(&source, &read.findings, &files)) };
        let mut work = BatchWork::new(value, cutter, Labels::Hidden, search, watch);
        let faults = files.tell(&mut work.findings);
        work.add(faults);
        let told = said::of_batch(&work.findings, &source, work.batch.units, &files);
        (MadeEdition::Order(Box::new(work)), told)
    } else {
        let AlbumRead { album: read, files } = AlbumRead::of(&source, &asked);
        let Some(value) = read.value else { return Err(unread(&source, &read.findings, &files)) };
        let mut work = Work::new(value, cutter, Labels::Hidden, search, watch);
        let faults = files.tell(&mut work.findings);
        work.add(faults);
        let told = said::of_album(&work.findings, &source, &work.album, &files);
        (MadeEdition::Kit(Box::new(work)), told)
    };
    if stops(made.findings()) {
        let findings = told.into_iter().filter(|one| one["level"] == "stop").collect();
        return Err(NotCompared { said: Said::new("old-edition-stopped").with("file", source.name()), findings });
    }
    Ok(made.edition())
}

/// What the page shows of it.
pub(super) fn answer(compared: &Result<ComparedWork, NotCompared>) -> Value {
    match compared {
        Err(NotCompared { said, findings }) => json!({ "trouble": words::say(said), "findings": findings }),
        Ok(ComparedWork { told, again }) => {
            let mut findings: Vec<Finding> = again.as_ref().map(|made| made.findings().to_vec()).unwrap_or_default();
            gravest_first(&mut findings);
            let one = |finding: &Finding| json!({ "level": finding.level.word(), "about": words::say(&finding.about), "text": words::say(&finding.text), "help": words::say(&finding.help) });
            json!({
                "told": in_words(told),
                "sheets": again.as_ref().and_then(laid),
                "findings": findings.iter().map(one).collect::<Vec<_>>(),
            })
        }
    }
}

/// Sentences, and what stands under each.
fn in_words(told: &[ToldChange]) -> Vec<Value> {
    told.iter().map(|one| json!({ "text": words::say(&one.said), "under": in_words(&one.under) })).collect()
}

/// The sheets of what is cut again.
fn laid(made: &MadeEdition) -> Option<Value> {
    if stops(made.findings()) {
        return None;
    }
    match made {
        MadeEdition::Kit(work) => sheets::sheets(work),
        MadeEdition::Order(work) => {
            sheets::laid(&LaidOrder { album: work.album()?, kit: &work.kit, stocks: &work.stocks })
        }
    }
}

/// Writes the sheets of what is cut again, as `compare --only-changed` does; says whether there are any.
///
/// # Errors
/// The sink's, or a file that read back is not what was meant.
pub(super) fn write(compared: &ComparedWork, sink: &mut Memory) -> Result<bool, WriteProblem> {
    let Some(made) = compared.again.as_ref().filter(|made| !stops(made.findings())) else { return Ok(false) };
    let formats: Vec<&str> = FORMATS.iter().copied().filter(|format| OF_SHEETS.contains(format)).collect();
    made.write(&Files::of(&formats), sink)?;
    Ok(true)
}
