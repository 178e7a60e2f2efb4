// SPDX-License-Identifier: MIT
//! Says whether an album goes together, and writes it with its mends.

use super::album_inputs::{Inputs, inputs, inputs_raised, reread};
use super::arguments::Check;
use super::commands::counted;
use super::cost;
use super::drawer;
use super::end::ExitStatus;
use super::inputs::{Ended, exists, put, rounded, step_problems};
use super::say;
use hingeleaf::album::Album;
use hingeleaf::cutter::Cutter;
use hingeleaf::fields::Source;
use hingeleaf::finding::Level;
use hingeleaf::layout;
use hingeleaf::length::{Length, Ruler};
use hingeleaf::mend::{Mended, MendedLength, mend};
use hingeleaf::sheets::{Search, StockSheets};
use hingeleaf::toolpath;
use hingeleaf::work::Work;
use hingeleaf::write;
use std::fs;
use std::path::Path;

pub(super) fn check(check: &Check) -> ExitStatus {
    let problems = step_problems(check.rounded);
    let read = match &check.mend {
        Some(_) => inputs_raised(&check.file, &check.machine, problems),
        None => inputs(&check.file, &check.machine, problems).map(|inputs| (inputs, false)),
    };
    let (Inputs { album, cutter, mut sources, notes: of_files, .. }, older) = match read {
        Ok(read) => read,
        Err(ended) => return ended.say(check.json),
    };
    // Not even a link to nothing is written over.
    if let Some(there) =
        [&check.mend, &check.picture].into_iter().flatten().find(|new| fs::symlink_metadata(new).is_ok())
    {
        return exists(there).say(check.json);
    }
    let Some(new) = &check.mend else {
        let (album, notes) = rounded(album, check.rounded);
        let mut work = worked_out(album, cutter);
        work.add(of_files);
        work.add(notes);
        if let Err(ended) = draw(check, &work) {
            return ended.say(check.json);
        }
        let text = if check.json {
            write::checked(&work.findings, &work.fit, work.album.tolerance)
        } else {
            say::words(&work.findings, &sources) + &verdict(&work)
        };
        return say::out(&text, end(&work));
    };
    let judge = |source: &Source| Some(worked_out(reread(source, &check.machine, &album)?, cutter.clone()));
    let Some(first) = sources.first_mut() else { return ExitStatus::WrongInput };
    let mended = renamed(first, new).as_ref().and_then(|source| mend(source, &judge));
    let (work, changes) = match mended {
        Some(Mended { source, mut work, changes }) if older || !changes.is_empty() => {
            let text = source.mark().to_owned() + source.text();
            if let Err(ended) = put(new, &text) {
                return ended.say(check.json);
            }
            *first = source;
            work.add(of_files.into_iter().filter(|note| older && note.id == "older-format").collect());
            (work, changes)
        }
        _ => (worked_out(album, cutter), Vec::new()),
    };
    if let Err(ended) = draw(check, &work) {
        return ended.say(check.json);
    }
    let text = if check.json {
        let changes: Vec<_> = changes.iter().map(|change| (change.path.as_str(), change.from, change.to)).collect();
        write::mended(&work.findings, &changes, work.album.units)
    } else {
        let said = if changes.is_empty() && older {
            format!("Wrote {}, in today's format.\n", say::name(new))
        } else if changes.is_empty() {
            let needed = work.findings.iter().any(|finding| finding.level != Level::Note);
            let why = if needed { "No length can be mended" } else { "Nothing needs mending" };
            format!("{why}: {} was not written.\n", say::name(new))
        } else {
            changes.iter().map(|change| worded(change, &work.album)).collect::<String>()
                + &format!("Wrote {} with {}.\n", say::name(new), counted(changes.len() as u64, "change"))
        };
        said + &say::words(&work.findings, &sources) + &verdict(&work)
    };
    say::out(&text, end(&work))
}

fn worked_out(album: Album, cutter: Cutter) -> Work {
    let search = Search { effort: layout::Effort::Low, trimmer: false, threads: 1 };
    let mut work = Work::new(album, cutter, toolpath::Labels::None, search, &layout::Unwatched);
    work.advise(search, &layout::Unwatched);
    work
}

/// The same text under the name that it gets when it is mended.
fn renamed(source: &Source, new: &Path) -> Option<Source> {
    let text = source.mark().to_owned() + source.text();
    Source::new(&say::name(new), text.into_bytes()).ok()
}

/// Draws the cross-section, where it is asked for; an album that does not go together has none.
fn draw(check: &Check, work: &Work) -> Result<(), Ended> {
    match (&check.picture, work.cross_section()) {
        (Some(new), Some(picture)) => put(new, &write::drawing(&picture)),
        _ => Ok(()),
    }
}

/// `pages[1].overflap: 38 mm becomes 45 mm`
fn worded(change: &MendedLength, album: &Album) -> String {
    let show = |length: Length| length.show(album.units, Ruler::SixtyFourth);
    let from = change.from.map_or_else(|| "not given,".to_owned(), show);
    format!("{}: {from} becomes {}\n", change.path, show(change.to))
}

fn verdict(work: &Work) -> String {
    if work.stopped() {
        return "It does not go together yet.\n".to_owned();
    }
    let (pieces, parts) = (work.kit.pieces.len(), work.kit.parts.len());
    let sheets = counted(work.stocks.iter().map(StockSheets::count).sum(), "sheet");
    let how: String =
        work.fit.sentences(&work.album).iter().flat_map(|sentence| [sentence.to_string(), "\n".into()]).collect();
    format!(
        "It goes together: {pieces} pieces a kit, {parts} of them different, on {sheets} at most{}.\n{how}{}",
        drawer::of_them(&work.album.stocks, &work.stocks),
        cost::words(work.cost())
    )
}

fn end(work: &Work) -> ExitStatus {
    if work.stopped() { ExitStatus::DoesNotFit } else { ExitStatus::Done }
}
