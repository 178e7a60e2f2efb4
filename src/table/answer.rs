// SPDX-License-Identifier: MIT
//! The answers: from what the page asks to what the library's calls say.
//!
//! `open` tells what there is to start from; `work` changes a text and answers with everything that follows from it, with
//! a quick layout, of an album or a batch; `batch` begins a batch; `page` draws one page with its numbers; `kinds` draws
//! those that another page may be of; `folds` draws how it comes together; `better` looks longer for fewer sheets; `sizes`
//! tries other page sizes; `kit` and `file` give what is taken away; `compare` holds it beside an earlier edition, `recut`
//! gives the sheets to cut again. Each answer depends on what was asked alone.

use super::batch::BatchRead;
use super::beside::NamedFiles;
use super::compare::{self, ComparedWork, NotCompared};
use super::drawer::DrawnOrder;
use super::open::{self, Opened};
use super::question::Question;
use super::read::AlbumRead;
use super::reply::{Reply, not_written, taken_away, zipped};
use super::{batch, drawer, edit, kinds, machine, numbers, on_table, parts_list, said, sheets, sizes, tables, taken};
use crate::album::Album;
use crate::batch::is_batch;
use crate::cutter::Cutter;
use crate::fields::Source;
use crate::finding::Said;
use crate::layout::{Effort, Watch};
use crate::sizes::{Range, survey};
use crate::toolpath::Labels;
use crate::work::{BatchWork, MadeEdition, Work};
use crate::write::Memory;
use serde_json::{Value, json};
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::{Arc, Mutex, PoisonError};

/// The table as long as it is open: what it is opened with, and the last kit that was worked out.
#[derive(Debug, Default)]
pub struct Session {
    opened: Option<Opened>,
    threads: usize,
    /// What was asked last with much effort, and what came of it: it is asked for again to be taken away.
    made: Made<Work>,
    /// The same of a batch.
    batch_made: Made<BatchWork>,
    /// The same of two editions.
    compared: Made<Result<ComparedWork, NotCompared>>,
}

/// What was made last, and for what.
type Made<T> = Mutex<Option<(Asked, Arc<T>)>>;

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
        Self { opened, threads, made: Mutex::new(None), batch_made: Mutex::new(None), compared: Mutex::new(None) }
    }

    /// Whether an answer takes long.
    pub(super) fn is_long(name: &str) -> bool {
        matches!(name, "better" | "sizes" | "kit" | "file" | "coupon" | "compare" | "recut")
    }

    /// The answer to a question; `gone` tells when nobody waits for it any more, `first` gets what is answered before the rest.
    pub(super) fn answer(&self, name: &str, body: &[u8], gone: &AtomicBool, first: &mut dyn FnMut(String)) -> Reply {
        if gone.load(Ordering::Relaxed) {
            return Reply::word(503, "nobody-waits");
        }
        match name {
            "open" => return Reply::json(&open::open(self.opened.as_ref())),
            "quit" => return Reply { ends: true, ..Reply::json(&json!({ "ended": true })) },
            "work" | "batch" | "page" | "kinds" | "folds" | "better" | "sizes" | "kit" | "file" | "coupon"
            | "compare" | "recut" => {}
            _ => return Reply::word(404, "nothing-here"),
        }
        let question: Question = match serde_json::from_slice(body) {
            Ok(question) if name == "kit" && taken::is_all(&question) => taken::in_one_place(&question),
            Ok(question) => question,
            Err(error) => return Reply::words(400, &Said::new("question-not-read").with("error", error.to_string())),
        };
        let source = match Source::new(&question.name, question.text.clone().into_bytes()) {
            Ok(source) => source,
            Err(finding) => return Reply::words(400, &finding.text),
        };
        if name == "batch" {
            return batch::start(&source, &question.files, question.class)
                .map_or_else(|| Reply::word(400, "album-not-read"), |begun| Reply::json(&begun));
        }
        if name == "coupon" {
            return machine::piece(&source, &question);
        }
        if is_batch(&source) {
            return self.of_batch(name, source, &question, gone);
        }
        if name == "work" && on_table::kind(&source) == "drawer" {
            return Reply::json(&drawer::work(&source, &question));
        }
        if let (true, kind @ ("cutter" | "measured")) = (name == "work", on_table::kind(&source)) {
            return Reply::json(&machine::work(source, &question, kind));
        }
        if name == "work" {
            let mut first = |line: &Value| first(line.to_string());
            return Reply::json(&edit::work(source, &question, &Gone(gone), &mut first));
        }
        self.of_album(name, &source, &question, gone)
    }

    /// The same of an album.
    fn of_album(&self, name: &str, source: &Source, question: &Question, gone: &AtomicBool) -> Reply {
        let AlbumRead { album: read, files } = AlbumRead::of(source, question);
        let Some(album) = read.value else { return Reply::word(400, "album-not-read") };
        let machine = question.machine.cutter();
        // How it folds has nothing to do with the machine.
        let cutter = match machine.value {
            Some(cutter) => cutter,
            None if matches!(name, "folds" | "page" | "kinds") => Cutter::default(),
            None => return Reply::word(409, "machine-not-read"),
        };
        if name == "page" {
            let drawn = numbers::drawn(source, &album, &cutter, question);
            return Reply::json(&drawn.unwrap_or_default());
        }
        if name == "kinds" {
            return Reply::json(&kinds::drawn(source, &album, &cutter, question));
        }
        if name == "folds" {
            return Reply::json(&parts_list::folds(&Work::fit(album, cutter)));
        }
        if name == "sizes" {
            let search = question.machine.search(Effort::Normal, self.threads);
            let survey = survey(&album, &cutter, search, &Range::usual(album.units), &Gone(gone));
            return Reply::json(&sizes::sizes(&album, &survey));
        }
        let work = self.made(question, (album, &files), cutter, gone);
        match name {
            "better" => Reply::json(&json!({
                "fit": said::fit(&work, (source, &files), &[]), "sheets": sheets::sheets(&work),
                "take": sheets::take(&work, question),
                "tables": tables::cost(&work),
                "drawer": drawer::form(&DrawnOrder::of(&work), &files, (source, question)),
            })),
            _ if work.stopped() => Reply::word(409, "not-together-yet"),
            "compare" | "recut" => {
                self.compared(name, question, gone, &|| MadeEdition::Kit(Box::new(Work::clone(&work))))
            }
            _ if question.file == drawer::AFTER => drawer_after(&DrawnOrder::of(&work)),
            _ => taken_away(question, &|files, sink| {
                work.write(files, sink)?;
                taken::put(question, sink)
            }),
        }
    }

    /// The same of a batch.
    fn of_batch(&self, name: &str, source: Source, question: &Question, gone: &AtomicBool) -> Reply {
        if name == "work" {
            return Reply::json(&batch::work(source, question, &Gone(gone)));
        }
        let BatchRead { batch: read, files, .. } = BatchRead::of(&source, question);
        let Some(read) = read.value else { return Reply::word(400, "batch-not-read") };
        let Some(cutter) = question.machine.cutter().value else { return Reply::word(409, "machine-not-read") };
        let new = || {
            let search = question.machine.search(Effort::Normal, self.threads);
            let mut work = BatchWork::new(read, cutter, Labels::Hidden, search, &Gone(gone));
            let told = files.tell(&mut work.findings);
            work.add(told);
            work
        };
        match name {
            "page" | "kinds" | "folds" | "sizes" => Reply::word(404, "nothing-here"),
            "better" => {
                let work = once(&self.batch_made, asked(question), gone, new);
                Reply::json(&batch::better(&work, (&source, &files), question))
            }
            _ => {
                let work = once(&self.batch_made, asked(question), gone, new);
                if work.stopped() {
                    return Reply::word(409, "batch-not-together-yet");
                }
                if matches!(name, "compare" | "recut") {
                    let made = || MadeEdition::Order(Box::new(BatchWork::clone(&work)));
                    return self.compared(name, question, gone, &made);
                }
                if question.file == drawer::AFTER {
                    return drawer_after(&batch::order(&work));
                }
                taken_away(question, &|files, sink| {
                    work.write(files, sink)?;
                    taken::put(question, sink)
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
        once(&self.made, asked(question), gone, || {
            let search = question.machine.search(Effort::Normal, self.threads);
            let mut work = Work::new(album, cutter, Labels::Hidden, search, &Gone(gone));
            let told = files.tell(&mut work.findings);
            work.add(told);
            work
        })
    }

    /// What there is to say of an earlier edition, or the sheets of what is cut again.
    fn compared(&self, name: &str, question: &Question, gone: &AtomicBool, new: &dyn Fn() -> MadeEdition) -> Reply {
        let mut asked = asked(question);
        asked.2.push(format!("{:?}", question.against));
        let compared = once(&self.compared, asked, gone, || {
            compare::compare(new(), question, (Effort::Normal, self.threads), &Gone(gone))
        });
        if name == "compare" {
            return Reply::json(&compare::answer(&compared));
        }
        let mut files = Memory::default();
        match compared.as_ref().as_ref().map(|compared| compare::write(compared, &mut files)) {
            Ok(Ok(true)) => zipped(&files),
            Ok(Ok(false)) | Err(_) => Reply::word(409, "nothing-cut-again"),
            Ok(Err(problem)) => not_written(&problem.to_string()),
        }
    }
}

/// The drawer as it is after the job, as its file.
fn drawer_after(order: &DrawnOrder<'_>) -> Reply {
    drawer::text_after(order).map_or_else(|| Reply::word(404, "no-drawer"), Reply::json_text)
}

fn asked(question: &Question) -> Asked {
    let beside = question.files.iter().map(|file| format!("{file:?}"));
    let besides = [format!("{:?}", question.machine), format!("{:?}", question.drawings)];
    let more = besides.into_iter().chain(beside).collect();
    (question.name.clone(), question.text.clone(), more)
}

/// What was made for the same question before, else what is made now.
fn once<T>(made: &Made<T>, asked: Asked, gone: &AtomicBool, new: impl FnOnce() -> T) -> Arc<T> {
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
