// SPDX-License-Identifier: MIT
//! Findings, and what the work came to, in words for the page.

use super::beside::NamedFiles;
use super::words;
use crate::album::Album;
use crate::fields::Source;
use crate::finding::{Finding, Level, Mend, OtherSheet, Said};
use crate::length::{Length, Units};
use crate::words::{Voice, say};
use crate::work::Work;
use crate::write;
use serde_json::{Value, json};

/// Findings about a file that the page shows as a text: names stand as they do there.
pub(super) fn of_the_text(list: &[Finding], source: &Source, files: &NamedFiles) -> Vec<Value> {
    told(list, (source, files), (Units::Mm, None), Voice::Shown)
}

/// Findings about what is typed or chosen on the page.
pub(super) fn findings(list: &[Finding], source: &Source) -> Vec<Value> {
    told(list, (source, &NamedFiles::default()), (Units::Mm, None), Voice::Page)
}

/// Findings about an album and the files that it names.
pub(super) fn of_album(list: &[Finding], source: &Source, album: &Album, files: &NamedFiles) -> Vec<Value> {
    told(list, (source, files), (album.units, Some(album)), Voice::Page)
}

/// Findings about a batch and the files that it names: what would mend its albums is said in words alone.
pub(super) fn of_batch(list: &[Finding], source: &Source, units: Units, files: &NamedFiles) -> Vec<Value> {
    told(list, (source, files), (units, None), Voice::Page)
}

fn told(
    list: &[Finding],
    (source, files): (&Source, &NamedFiles),
    (units, album): (Units, Option<&Album>),
    voice: Voice,
) -> Vec<Value> {
    let show = |length: Length| crate::words::length(length, units, voice);
    let worded = |said: &Said| say(said, voice);
    list.iter()
        .map(|finding| {
            // In a file that the shown one names it is told at the field that it concerns there.
            let (there, at) = files.of(finding).unzip();
            let source = there.unwrap_or(source);
            let place = finding.place.as_ref().filter(|place| *place.file == *source.name());
            let at = at.or_else(|| place.map(|place| place.path.clone()));
            json!({
                "level": finding.level.word(),
                "id": finding.id,
                "about": worded(&finding.about),
                "text": worded(&finding.text),
                "help": worded(&finding.help),
                // What is short of something says so in its words.
                "measured": finding.measured.filter(|measured| *measured >= Length::ZERO).map(show),
                "allowed": finding.allowed.map(show),
                "path": finding.mend.as_ref().map(|mend| mend.path.clone()).or(at),
                // Where that is another file than the one on the table.
                "file": there.map(Source::name),
                "line": place.map(|place| place.line),
                "column": place.map(|place| place.column),
                "written": place.map(|place| excerpt(source.line(place.line), place.column)),
                "mend": album.and_then(|album| mend(finding.mend.as_ref()?, album)),
                "sheet": finding.sheet.as_ref().filter(|_| album.is_some()).map(other_sheet),
            })
        })
        .collect()
}

/// What a mend will change: `Make the closing flap of page 2 45 mm (it is 38 mm)`.
pub(super) fn mend(mend: &Mend, album: &Album) -> Option<Value> {
    let held = album.length_at(&mend.path);
    if held.map(Length::eighths) == Some(mend.value.eighths()) {
        return None;
    }
    let to = |key| Said::new(key).with("to", album.length(mend.value.mm()));
    let text = match held {
        Some(held) => to("mend-instead").with("was", album.length(held.mm())),
        None => to("mend"),
    };
    let text = words::say(&text.with("field", words::named(&mend.path)));
    let short = words::say(&to("mend-short"));
    Some(json!({ "path": mend.path, "eighths": mend.value.eighths(), "words": text, "short": short }))
}

/// The choice of another sheet: `Take A3 for card`.
fn other_sheet(other: &OtherSheet) -> Value {
    let words = Said::new("take-other-sheet").with("sheet", &other.sheet).with("paper", &other.stock);
    json!({ "path": format!("stocks.{}.sheet", other.stock), "typed": other.sheet, "words": words::say(&words) })
}

/// The part of a long line round a column, from 1.
fn excerpt(line: &str, column: usize) -> String {
    const AROUND: usize = 40;
    let start = column.saturating_sub(AROUND + 1);
    line.chars().skip(start).take(2 * AROUND).collect()
}

/// Whether the album goes together: the sentence, more sentences, findings, the cross-section. `machine` has what stops the
/// work in the machine's settings.
pub(super) fn fit(work: &Work, (source, files): (&Source, &NamedFiles), machine: &[Value]) -> Value {
    let count = |level: Level| work.findings.iter().filter(|finding| finding.level == level).count();
    let (stops, warns) = (count(Level::Stop), count(Level::Warn));
    let tightest = work.fit.clearances.first().filter(|_| stops == 0);
    let sentence = Said::new(if tightest.is_some() { "goes-together-with-spare" } else { "goes-together" })
        .with("stops", stops)
        .with("warns", warns)
        .with("spare", work.album.rough(tightest.map_or(0.0, |tightest| tightest.spare)));
    let sentence = match machine {
        [] => sentence,
        _ => Said::new("machine-can-not-be-used").with("sentence", sentence),
    };
    let of_album = of_album(&work.findings, source, &work.album, files);
    json!({
        "sentence": words::say(&sentence),
        "stopped": work.stopped() || !machine.is_empty(),
        "more": work.fit.sentences(&work.album).iter().map(words::say).collect::<Vec<_>>(),
        "findings": machine.iter().cloned().chain(of_album).collect::<Vec<_>>(),
        "section": work.cross_section().map(|picture| write::drawing(&picture)),
    })
}
