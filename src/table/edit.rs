// SPDX-License-Identifier: MIT
//! An album's text with a change, and everything that follows from it.
//!
//! Whoever asks may have what is seen of the album answered first, before it is known whether it goes together and how it is
//! laid out: its pictures want its parts alone.

use super::change::{self, Changed};
use super::drawer::DrawnOrder;
use super::form::FormFile;
use super::question::Question;
use super::read::AlbumRead;
use super::{album, drawer, drawn, likeness, machine, on_table, parts_list, said, sheets, tables, terms, words};
use crate::album::Album;
use crate::fields::{Node, Source};
use crate::finding::{Finding, Said};
use crate::layout::{Effort, Unwatched, Watch};
use crate::parts::Kit;
use crate::toolpath::Labels;
use crate::work::Work;
use serde_json::{Value, json};

/// The text as it is after what was asked for, with what it holds.
struct EditedText {
    source: Source,
    read: AlbumRead,
    /// What the maker should know about the change.
    notes: Vec<Said>,
}

/// The text with its change, and everything that follows from it; `first` is told what is seen as soon as it is known, where
/// the question wants that.
pub(super) fn work(source: Source, question: &Question, gone: &dyn Watch, first: &mut dyn FnMut(&Value)) -> Value {
    let EditedText { source, read: AlbumRead { album: read, files }, notes } = match edited(source, question) {
        Ok(edited) => edited,
        Err(refusal) => return refusal,
    };
    let machine = question.machine.cutter();
    let usable = machine.value.is_some();
    let cutter = machine.value.unwrap_or_default();
    let Some(album) = read.value else {
        // A picture or a letter is no album file with faults.
        let other = !source.text().trim_start().starts_with('{');
        let findings = said::of_the_text(&read.findings, &source, &files);
        let text = source.mark().to_owned() + source.text();
        let (kind, missing) = (on_table::kind(&source), &files.missing);
        return json!({ "text": text, "unread": true, "other": other, "kind": kind, "missing": missing, "findings": findings });
    };
    let Ok(root) = Node::read(&source) else { return json!({ "unread": true, "other": true, "findings": [] }) };
    let search = question.machine.search(Effort::Low, 1);
    let mut seen = false;
    let mut see = |album: &Album, kit: &Kit| {
        // What waits for what sheets leave over is not known yet.
        if question.first && !album.inserts.iter().any(|insert| insert.is_spare() || insert.follows_offcuts()) {
            let likenesses = likeness::shown(album.stocks.iter());
            first(&json!({ "likenesses": likenesses, "album": album::seen(album, kit) }));
            seen = true;
        }
    };
    // With a machine that can't be told nothing is laid out.
    let mut work = if usable {
        Work::new_seen(album, cutter, Labels::Hidden, search, gone, &mut see)
    } else {
        Work::fit_seen(album, cutter, &mut see)
    };
    work.add(read.findings);
    let told = files.tell(&mut work.findings);
    work.add(told);
    let told = question.machine.told(&machine.findings);
    let there = |name: &str| drawn::found(&question.drawings, name).is_some();
    let mut answer = json!({
        "text": source.mark().to_owned() + source.text(),
        "notes": notes.iter().map(words::say).collect::<Vec<_>>(),
        "album": album::forms(&work, &root, &there, seen),
        "fit": said::fit(&work, (&source, &files), if usable { &[] } else { &told }),
        "machine": machine::form(&question.machine, &machine.findings),
        "folds": parts_list::parts(&work),
        "sheets": sheets::sheets(&work),
        "take": sheets::take(&work, question),
        "drawer": drawer::form(&DrawnOrder::of(&work), &files, (&source, question)),
        "terms": terms::forms(&FormFile::of(&work.album, &root), &work.album.stocks, work.cost()),
        "tables": tables::cost(&work),
    });
    if !seen {
        answer["likenesses"] = json!(likeness::shown(work.album.stocks.iter()));
    }
    answer
}

/// The text with its change; else why it is not made.
fn edited(source: Source, question: &Question) -> Result<EditedText, Value> {
    let read = AlbumRead::of(&source, question);
    let Some(wanted) = &question.change else { return Ok(EditedText { source, read, notes: Vec::new() }) };
    let refused = |source: &Source, findings: &[Finding]| {
        json!({
            "refused": true,
            "field": wanted.field().map(words::named),
            "findings": said::findings(findings, source),
        })
    };
    let judge = |source: &Source| {
        let album = AlbumRead::of(source, question).album.value?;
        let cutter = question.machine.cutter().value.unwrap_or_default();
        Some(Work::new(album, cutter, Labels::None, question.machine.search(Effort::Low, 1), &Unwatched))
    };
    let changed = match (&read.album.value, change::of_unread(&source, wanted)) {
        (Some(album), _) => change::apply(&source, album, wanted, &judge),
        (None, Some(text)) => Ok(Changed { text, notes: Vec::new() }),
        (None, None) => return Err(refused(&source, &read.album.findings)),
    };
    let Changed { text, notes } = changed.map_err(|finding| refused(&source, &[*finding]))?;
    let next = Source::new(source.name(), text.into_bytes()).map_err(|finding| refused(&source, &[*finding]))?;
    let reread = AlbumRead::of(&next, question);
    // One that could not be read before may be mended step by step.
    if reread.album.value.is_none() && read.album.value.is_some() {
        return Err(refused(&next, &reread.album.findings));
    }
    Ok(EditedText { source: next, read: reread, notes })
}
