// SPDX-License-Identifier: MIT
//! The answers: from what the page asks to what the library's calls say.
//!
//! `open` tells what there is to start from; `work` changes a text and answers with everything that follows from it, with
//! a quick layout, of an album or a batch; `batch` begins a batch; `folds` draws how it comes together; `better` looks longer for fewer sheets; `sizes` tries other page sizes; `kit` and `file` give what is
//! taken away. Each answer depends on what was asked alone.

use super::access::Refusal;
use super::beside::NamedFiles;
use super::change::{self, Changed, Wanted};
use super::drawer::DrawnOrder;
use super::form::FormFile;
use super::open::{self, Opened};
use super::question::Question;
use super::read::AlbumRead;
use super::{album, assets, batch, beside, drawer, parts_list, said, sheets, sizes, tables, taken, terms, words};
use crate::album::Album;
use crate::batch::is_batch;
use crate::cutter::Cutter;
use crate::fields::{Node, Source};
use crate::finding::{Finding, Said};
use crate::layout::{Effort, Unwatched, Watch};
use crate::sizes::{Range, survey};
use crate::toolpath::Labels;
use crate::work::{BatchWork, Files, Work};
use crate::write::{self, Memory};
use serde_json::{Value, json};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, PoisonError};

/// The table as long as it is open: what it is opened with, and the last kit that was worked out.
#[derive(Debug, Default)]
pub struct Session {
    opened: Option<Opened>,
    threads: usize,
    /// What was asked last with much effort, and what came of it: it is asked for again to be taken away.
    made: Mutex<Option<(Asked, Arc<Work>)>>,
    /// The same of a batch.
    batch_made: Mutex<Option<(Asked, Arc<BatchWork>)>>,
}

/// An answer on its way out.
#[derive(Debug)]
pub(super) struct Reply {
    /// The HTTP status.
    pub status: u16,
    /// The kind of the body.
    pub kind: &'static str,
    /// The body.
    pub body: Vec<u8>,
    /// Whether the program ends with it.
    pub ends: bool,
}

const JSON: &str = "application/json";
const PLAIN: &str = "text/plain; charset=utf-8";

impl Reply {
    fn new(status: u16, kind: &'static str, body: impl Into<Vec<u8>>) -> Self {
        Self { status, kind, body: body.into(), ends: false }
    }

    /// Plain words.
    pub(super) fn words(status: u16, said: &Said) -> Self {
        Self::new(status, PLAIN, format!("{}\n", words::say(said)))
    }

    /// The plain words of a key.
    pub(super) fn word(status: u16, key: &'static str) -> Self {
        Self::words(status, &Said::new(key))
    }

    /// Why nothing is answered.
    pub(super) fn refused(refusal: Refusal) -> Self {
        match refusal {
            Refusal::Host | Refusal::Origin => Self::word(403, "page-of-its-own-machine"),
            Refusal::Token => Self::new(403, "text/html; charset=utf-8", include_str!("page/other-run.html")),
        }
    }

    /// One of the page's own files.
    pub(super) fn page(name: &str) -> Self {
        assets::asset(name)
            .map_or_else(|| Self::word(404, "nothing-here"), |asset| Self::new(200, asset.kind, asset.text))
    }

    fn json(value: &Value) -> Self {
        Self::new(200, JSON, value.to_string())
    }
}

/// What the answer with much effort depends on.
type Asked = (String, String, Vec<String>);

/// Stops a search that nobody waits for.
struct Gone<'a>(&'a AtomicBool);

impl Watch for Gone<'_> {
    fn at(&self, _done: u64, _of: u64) {}

    fn stop(&self) -> bool {
        self.0.load(Ordering::Relaxed)
    }
}

impl Session {
    /// A session with an album on the table, or none; searches run on so many threads.
    #[must_use]
    pub fn new(opened: Option<Opened>, threads: usize) -> Self {
        Self { opened, threads, made: Mutex::new(None), batch_made: Mutex::new(None) }
    }

    /// Whether an answer takes long.
    pub(super) fn is_long(name: &str) -> bool {
        matches!(name, "better" | "sizes" | "kit" | "file")
    }

    /// The answer to a question; `gone` tells when nobody waits for it any more.
    pub(super) fn answer(&self, name: &str, body: &[u8], gone: &AtomicBool) -> Reply {
        if gone.load(Ordering::Relaxed) {
            return Reply::word(503, "nobody-waits");
        }
        match name {
            "open" => return Reply::json(&open::open(self.opened.as_ref())),
            "quit" => return Reply { ends: true, ..Reply::json(&json!({ "ended": true })) },
            "work" | "batch" | "folds" | "better" | "sizes" | "kit" | "file" => {}
            _ => return Reply::word(404, "nothing-here"),
        }
        let question: Question = match serde_json::from_slice(body) {
            Ok(question) => question,
            Err(error) => return Reply::words(400, &Said::new("question-not-read").with("error", error.to_string())),
        };
        let source = match Source::new(&question.name, question.text.clone().into_bytes()) {
            Ok(source) => source,
            Err(finding) => return Reply::words(400, &finding.text),
        };
        if name == "batch" {
            return batch::start(&source, question.class)
                .map_or_else(|| Reply::word(400, "album-not-read"), |begun| Reply::json(&begun));
        }
        if is_batch(&source) {
            return self.of_batch(name, source, &question, gone);
        }
        if name == "work" && drawer::is_drawer(&source) {
            return Reply::json(&drawer::work(&source, &question));
        }
        if name == "work" {
            return Reply::json(&work(source, &question, &Gone(gone)));
        }
        let AlbumRead { album: read, files } = AlbumRead::of(&source, &question);
        let Some(album) = read.value else { return Reply::word(400, "album-not-read") };
        let machine = question.machine.cutter();
        // How it folds has nothing to do with the machine.
        let cutter = match machine.value {
            Some(cutter) => cutter,
            None if name == "folds" => Cutter::default(),
            None => return Reply::word(409, "machine-not-read"),
        };
        if name == "folds" {
            return Reply::json(&parts_list::folds(&Work::fit(album, cutter)));
        }
        if name == "sizes" {
            let search = question.machine.search(Effort::Normal, self.threads);
            let survey = survey(&album, &cutter, search, &Range::usual(album.units), &Gone(gone));
            return Reply::json(&sizes::sizes(&album, &survey));
        }
        let work = self.made(&question, (album, &files), cutter, gone);
        match name {
            "better" => Reply::json(&json!({
                "fit": said::fit(&work, &source, &files, &[]), "sheets": sheets::sheets(&work),
                "take": sheets::take(&work, &question), "tables": tables::cost(&work),
                "drawer": drawer::form(&DrawnOrder::of(&work), &files, (&source, &question)),
            })),
            _ if work.stopped() => Reply::word(409, "not-together-yet"),
            _ if question.file == drawer::AFTER => drawer_after(&DrawnOrder::of(&work)),
            _ => taken_away(&question, &|files, sink| {
                work.write(files, sink)?;
                taken::put(&source, &question, sink)
            }),
        }
    }

    /// The same of a batch.
    fn of_batch(&self, name: &str, source: Source, question: &Question, gone: &AtomicBool) -> Reply {
        if name == "work" {
            return Reply::json(&batch::work(source, question, &Gone(gone)));
        }
        let Some((read, files)) = batch::of(&source, question) else { return Reply::word(400, "batch-not-read") };
        let Some(cutter) = question.machine.cutter().value else { return Reply::word(409, "machine-not-read") };
        let new = || {
            let search = question.machine.search(Effort::Normal, self.threads);
            let mut work = BatchWork::new(read, cutter, Labels::Hidden, search, &Gone(gone));
            work.add(files.findings.clone());
            work
        };
        match name {
            "folds" | "sizes" => Reply::word(404, "nothing-here"),
            "better" => {
                let work = once(&self.batch_made, question, gone, new);
                Reply::json(&batch::better(&work, &source, question, &files))
            }
            _ => {
                let work = once(&self.batch_made, question, gone, new);
                if work.stopped() {
                    return Reply::word(409, "batch-not-together-yet");
                }
                if question.file == drawer::AFTER {
                    return drawer_after(&batch::order(&work));
                }
                taken_away(question, &|files, sink| {
                    work.write(files, sink)?;
                    taken::put(&source, question, sink)
                })
            }
        }
    }

    /// The kit as the command line makes it.
    fn made(
        &self,
        question: &Question,
        (album, files): (Album, &NamedFiles),
        cutter: Cutter,
        gone: &AtomicBool,
    ) -> Arc<Work> {
        once(&self.made, question, gone, || {
            let search = question.machine.search(Effort::Normal, self.threads);
            let mut work = Work::new(album, cutter, Labels::Hidden, search, &Gone(gone));
            work.add(files.findings.clone());
            work
        })
    }
}

/// The drawer as it is after the job, as its file.
fn drawer_after(order: &DrawnOrder<'_>) -> Reply {
    drawer::text_after(order).map_or_else(|| Reply::word(404, "no-drawer"), |text| Reply::new(200, JSON, text))
}

/// What was made for the same question before, else what is made now.
fn once<T>(
    made: &Mutex<Option<(Asked, Arc<T>)>>,
    question: &Question,
    gone: &AtomicBool,
    new: impl FnOnce() -> T,
) -> Arc<T> {
    let beside = question.albums.iter().map(|album| format!("{album:?}"));
    let more = std::iter::once(format!("{:?}", question.machine)).chain(beside).collect();
    let asked = (question.name.clone(), question.text.clone(), more);
    let mut made = made.lock().unwrap_or_else(PoisonError::into_inner);
    if let Some((_, work)) = made.as_ref().filter(|(known, _)| *known == asked) {
        return Arc::clone(work);
    }
    let work = Arc::new(new());
    // What was broken off is not what was asked for.
    if !gone.load(Ordering::Relaxed) {
        *made = Some((asked, Arc::clone(&work)));
    }
    work
}

/// The text with its change, and everything that follows from it.
fn work(source: Source, question: &Question, gone: &Gone<'_>) -> Value {
    let machine = question.machine.cutter();
    let usable = machine.value.is_some();
    let cutter = machine.value.unwrap_or_default();
    let refused = |source: &Source, findings: &[Finding]| {
        json!({
            "refused": true,
            "field": question.change.as_ref().and_then(Wanted::field).map(words::named),
            "findings": said::findings(findings, source, None),
        })
    };
    let judge = |source: &Source| {
        let album = AlbumRead::of(source, question).album.value?;
        Some(Work::new(album, cutter.clone(), Labels::None, question.machine.search(Effort::Low, 1), &Unwatched))
    };
    let AlbumRead { album: mut read, mut files } = AlbumRead::of(&source, question);
    let (mut source, mut notes) = (source, Vec::new());
    if let Some(wanted) = &question.change {
        let Some(album) = &read.value else { return refused(&source, &read.findings) };
        let changed = change::apply(&source, album, wanted, &judge);
        let Changed { text, notes: said } = match changed {
            Ok(changed) => changed,
            Err(finding) => return refused(&source, &[*finding]),
        };
        let next = match Source::new(source.name(), text.into_bytes()) {
            Ok(next) => next,
            Err(finding) => return refused(&source, &[*finding]),
        };
        let reread = AlbumRead::of(&next, question);
        if reread.album.value.is_none() {
            return refused(&next, &reread.album.findings);
        }
        (source, read, files, notes) = (next, reread.album, reread.files, said);
    }
    let Some(album) = read.value else {
        // A picture or a letter is no album file with faults.
        let other = !source.text().trim_start().starts_with('{');
        return json!({ "unread": true, "other": other, "kind": beside::kind(&source), "findings": said::of_the_text(&read.findings, &source) });
    };
    let Ok(root) = Node::read(&source) else { return json!({ "unread": true, "other": true, "findings": [] }) };
    let search = question.machine.search(Effort::Low, 1);
    // With a machine that can't be told nothing is laid out.
    let mut work =
        if usable { Work::new(album, cutter, Labels::Hidden, search, gone) } else { Work::fit(album, cutter) };
    work.add(read.findings);
    work.add(files.findings.clone());
    let machine = question.machine.told(&machine.findings);
    json!({
        "text": source.mark().to_owned() + source.text(),
        "notes": notes.iter().map(words::say).collect::<Vec<_>>(),
        "album": album::forms(&work.album, &root, &work.kit),
        "fit": said::fit(&work, &source, &files, if usable { &[] } else { &machine }),
        "machine": machine,
        "folds": parts_list::parts(&work),
        "sheets": sheets::sheets(&work),
        "take": sheets::take(&work, question),
        "drawer": drawer::form(&DrawnOrder::of(&work), &files, (&source, question)),
        "terms": terms::forms(&FormFile::of(&work.album, &root), &work.album.stocks, work.cost()),
        "tables": tables::cost(&work),
    })
}

/// One file of the kit, or several as a zip.
fn taken_away(
    question: &Question,
    write: &dyn Fn(&Files<'_>, &mut Memory) -> Result<(), write::WriteProblem>,
) -> Reply {
    let one = question.file.as_str();
    let formats: Vec<&str> = match (one.rsplit_once('.'), question.formats.is_empty()) {
        (Some((_, ending)), _) => vec![ending],
        (None, true) => Files::ALL.formats.to_vec(),
        (None, false) => question.formats.iter().map(String::as_str).collect(),
    };
    let mut files = Memory::default();
    if let Err(problem) = write(&Files { formats: &formats, ..Files::ALL }, &mut files) {
        return Reply::words(500, &Said::new("kit-not-written").with("error", problem.to_string()));
    }
    if !one.is_empty() {
        return files.files.remove(one).map_or_else(
            || Reply::word(404, "no-such-file"),
            |bytes| Reply::new(200, "application/octet-stream", bytes),
        );
    }
    match write::zip(&files) {
        Ok(bytes) => Reply::new(200, "application/zip", bytes),
        Err(error) => Reply::words(500, &Said::new("kit-not-written").with("error", error.to_string())),
    }
}
