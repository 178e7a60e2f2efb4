// SPDX-License-Identifier: MIT
//! A batch on the table: several kits as one order, made, changed and worked out.
//!
//! In: a batch file's text, the albums that lie on the table beside it, a change. Out: the changed text and all that follows
//! from it. Never: a rule about batches; `batch` and `work` hold them all.

mod beside;
mod changes;
mod forms;
mod own_paper;
mod results;
mod start;
mod ways;

pub(super) use beside::albums;
pub(super) use results::{better, write};
pub use start::brought;
pub(super) use start::start;

use super::drawn::{self, TableDrawings};
use super::hand::Hand;
use super::on_table::TableAlbum;
use super::question::Question;
use super::{said, words};
use crate::batch::{self, Batch};
use crate::fields::{Node, Source};
use crate::finding::{Checked, Finding};
use crate::layout::{Effort, Watch};
use crate::parts;
use crate::toolpath::Labels;
use crate::work::BatchWork;
use serde_json::{Value, json};

/// A batch, and which of its albums are not on the table.
struct Read {
    batch: Checked<Batch>,
    missing: Vec<String>,
}

fn read(source: &Source, beside: &[TableAlbum]) -> Read {
    let mut missing = Vec::new();
    let mut load = |name: &str| {
        beside::album(beside, name).inspect_err(|finding| {
            if finding.id == beside::MISSING {
                missing.push(name.to_owned());
            }
        })
    };
    let batch = batch::read(source, &parts::kinds(), &mut load);
    Read { batch, missing }
}

/// The batch of a question with its drawings, for what takes longer.
pub(super) fn of(source: &Source, question: &Question) -> (Checked<Batch>, TableDrawings) {
    let mut read = read(source, &question.albums).batch;
    let drawn = read.value.as_mut().map(|batch| drawings(batch, question)).unwrap_or_default();
    (read, drawn)
}

fn drawings(batch: &mut Batch, question: &Question) -> TableDrawings {
    drawn::of_batch(batch, &question.name, (&question.albums, &question.drawings))
}

/// Adds what is wrong with the drawings.
pub(super) fn tell_drawn(work: &mut BatchWork, drawn: &TableDrawings) {
    let told = drawn.tell(&mut work.findings);
    work.add(told);
}

/// The text with its change, and everything that follows from it.
pub(super) fn work(source: Source, question: &Question, gone: &dyn Watch) -> Value {
    let refused = |source: &Source, findings: &[Finding]| {
        json!({
            "refused": true,
            "field": question.change.as_ref().and_then(|wanted| wanted.field()).map(ways::named),
            "findings": said::findings(findings, source, None, &TableDrawings::default()),
        })
    };
    let (mut source, mut notes) = (source, Vec::new());
    if let Some(wanted) = &question.change {
        let mut hand = Hand { source: source.clone(), notes: Vec::new() };
        if let Err(finding) = changes::apply(&mut hand, &question.albums, wanted) {
            return refused(&source, &[*finding]);
        }
        let before = read(&source, &question.albums).batch.value.is_some();
        let reread = read(&hand.source, &question.albums);
        // A batch that could not be read before may be mended step by step.
        if before && reread.batch.value.is_none() {
            return refused(&hand.source, &reread.batch.findings);
        }
        (source, notes) = (hand.source, hand.notes);
    }
    let text = source.mark().to_owned() + source.text();
    let Read { batch, missing } = read(&source, &question.albums);
    let Some((mut read, root)) = batch.value.zip(Node::read(&source).ok()) else {
        let findings = said::of_the_text(&batch.findings, &source);
        return json!({ "text": text, "unread": true, "batch": true, "missing": missing, "findings": findings });
    };
    let drawn = drawings(&mut read, question);
    let machine = question.machine.cutter();
    let (usable, cutter) = (machine.value.is_some(), machine.value.unwrap_or_default());
    let told = question.machine.told(&machine.findings);
    let search = question.machine.search(Effort::Low, 1);
    let mut work = BatchWork::new(read, cutter, Labels::Hidden, search, gone);
    work.add(batch.findings);
    tell_drawn(&mut work, &drawn);
    let stop = if usable { Vec::new() } else { told.clone() };
    json!({
        "text": text,
        "notes": notes.iter().map(words::say).collect::<Vec<_>>(),
        "batch": forms::forms(&work, &root, &question.albums),
        "fit": results::fit(&work, (&source, &root, &drawn), &stop),
        "machine": told,
        "sheets": if usable { results::sheets(&work) } else { None },
        "tables": if usable { results::tables(&work) } else { Value::Null },
        "take": results::take(&work, question, usable),
    })
}
