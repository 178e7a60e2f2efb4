// SPDX-License-Identifier: MIT
//! A batch on the table: several kits as one order, made, changed and worked out.
//!
//! In: a batch file's text, the albums that lie on the table beside it, a change. Out: the changed text and all that follows
//! from it. Never: a rule about batches; `batch` and `work` hold them all.

mod beside;
mod changes;
mod class;
mod forms;
mod otherwise;
mod own_paper;
mod reading;
mod results;
mod start;
mod ways;

pub(super) use reading::BatchRead;
pub(super) use results::{better, order};
pub(super) use start::start;

use super::hand::Hand;
use super::question::Question;
use super::{drawer, likeness, machine, said, words};
use crate::fields::{Node, Source};
use crate::finding::Finding;
use crate::layout::{Effort, Watch};
use crate::toolpath::Labels;
use crate::work::BatchWork;
use serde_json::{Value, json};

/// The text with its change, and everything that follows from it.
pub(super) fn work(source: Source, question: &Question, gone: &dyn Watch) -> Value {
    let refused = |source: &Source, findings: &[Finding]| {
        json!({
            "refused": true,
            "field": question.change.as_ref().and_then(|wanted| wanted.field()).map(ways::named),
            "findings": said::findings(findings, source),
        })
    };
    let (mut source, mut notes) = (source, Vec::new());
    if let Some(wanted) = &question.change {
        let mut hand = Hand { source: source.clone(), notes: Vec::new() };
        if let Err(finding) = changes::apply(&mut hand, &question.files, wanted) {
            return refused(&source, &[*finding]);
        }
        let before = BatchRead::of(&source, question).batch.value.is_some();
        let reread = BatchRead::of(&hand.source, question);
        // A batch that could not be read before may be mended step by step.
        if before && reread.batch.value.is_none() {
            return refused(&hand.source, &reread.batch.findings);
        }
        (source, notes) = (hand.source, hand.notes);
    }
    let text = source.mark().to_owned() + source.text();
    let BatchRead { batch, mut missing, files } = BatchRead::of(&source, question);
    missing.extend(files.missing.iter().cloned());
    let Some((read, root)) = batch.value.zip(Node::read(&source).ok()) else {
        let findings = said::of_the_text(&batch.findings, &source, &files);
        return json!({ "text": text, "unread": true, "batch": true, "missing": missing, "findings": findings });
    };
    let machine = question.machine.cutter();
    let (usable, cutter) = (machine.value.is_some(), machine.value.unwrap_or_default());
    let form = machine::form(&question.machine, &machine.findings);
    let told = question.machine.told(&machine.findings);
    let search = question.machine.search(Effort::Low, 1);
    let mut work = BatchWork::new(read, cutter, Labels::Hidden, search, gone);
    work.add(batch.findings);
    let faults = files.tell(&mut work.findings);
    work.add(faults);
    let stop = if usable { Vec::new() } else { told };
    json!({
        "text": text,
        "notes": notes.iter().map(words::say).collect::<Vec<_>>(),
        "batch": forms::forms(&work, &root, &question.files),
        "likenesses": likeness::shown(work.batch.kits.iter().flat_map(|kit| &kit.album.stocks)),
        "fit": results::fit(&work, (&source, &root, &files), &stop),
        "drawer": drawer::form(&order(&work), &files, (&source, question)),
        "machine": form,
        "sheets": if usable { results::sheets(&work) } else { None },
        "tables": if usable { results::tables(&work) } else { Value::Null },
        "take": results::take(&work, question, usable),
    })
}
