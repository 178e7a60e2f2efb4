// SPDX-License-Identifier: MIT
//! Findings, and what the work came to, in words for the page.

use super::words::{self, Makers};
use crate::album::Album;
use crate::fields::Source;
use crate::finding::{Finding, Level, Mend, Said};
use crate::length::{Length, Ruler, Units};
use crate::words::{Voice, say};
use crate::work::Work;
use crate::write;
use serde_json::{Value, json};

/// Findings about a file that the page shows as a text: names stand as they do there.
pub(super) fn of_the_text(list: &[Finding], source: &Source) -> Vec<Value> {
    told(list, source, None, &ToString::to_string)
}

/// Findings about what is typed or chosen on the page; `album` is at hand where the file could be read.
pub(super) fn findings(list: &[Finding], source: &Source, makers: &Makers, album: Option<&Album>) -> Vec<Value> {
    told(list, source, album, &|said| on_the_page(said, makers))
}

fn told(list: &[Finding], source: &Source, album: Option<&Album>, worded: &dyn Fn(&Said) -> String) -> Vec<Value> {
    let units = album.map_or(Units::Mm, |album| album.units);
    let show = |length: Length| words::without_remarks(&length.show(units, Ruler::SixtyFourth));
    list.iter()
        .map(|finding| {
            let place = finding.place.as_ref().filter(|place| *place.file == *source.name());
            // What is typed into a terminal is no help here.
            let help = worded(&finding.help);
            let typed = help.contains("--") || help.contains("hingeleaf ");
            json!({
                "level": finding.level.word(),
                "id": finding.id,
                "about": worded(&finding.about),
                "text": worded(&finding.text),
                "help": if typed { String::new() } else { help },
                // What is short of something says so in its words.
                "measured": finding.measured.filter(|measured| *measured >= Length::ZERO).map(show),
                "allowed": finding.allowed.map(show),
                "path": finding.mend.as_ref().map(|mend| &mend.path).or(place.map(|place| &place.path)),
                "line": place.map(|place| place.line),
                "column": place.map(|place| place.column),
                "written": place.map(|place| excerpt(source.line(place.line), place.column)),
                "mend": album.and_then(|album| mend(finding.mend.as_ref()?, album)),
            })
        })
        .collect()
}

/// A sentence as the page says it; what is no data yet is edited, but for the maker's own words in it.
fn on_the_page(said: &Said, makers: &Makers) -> String {
    let text = say(said, Voice::Page);
    if said.key() == "plain" { words::on_the_page(&text, makers) } else { text }
}

/// What a mend will change: `Make the closing flap of page 2 45 mm (it is 38 mm)`.
fn mend(mend: &Mend, album: &Album) -> Option<Value> {
    let show = |length: Length| album.show(length.mm());
    let held = album.length_at(&mend.path);
    if held.map(Length::eighths) == Some(mend.value.eighths()) {
        return None;
    }
    let was = held.map_or_else(String::new, |held| format!(" instead of {}", show(held)));
    let text = format!("{}: {}{was}", words::named(&mend.path), show(mend.value));
    let short = format!("Make it {}", show(mend.value));
    Some(json!({ "path": mend.path, "eighths": mend.value.eighths(), "words": text, "short": short }))
}

/// The part of a long line round a column, from 1.
fn excerpt(line: &str, column: usize) -> String {
    const AROUND: usize = 40;
    let start = column.saturating_sub(AROUND + 1);
    line.chars().skip(start).take(2 * AROUND).collect()
}

/// Whether the album goes together: the sentence, more sentences, findings, the cross-section. `machine` has what stops the
/// work in the machine's settings.
pub(super) fn fit(work: &Work, source: &Source, machine: &[Value]) -> Value {
    let count = |level: Level| work.findings.iter().filter(|finding| finding.level == level).count();
    let (stops, warns) = (count(Level::Stop), count(Level::Warn));
    let also = match warns {
        0 => String::new(),
        1 => " One thing may disappoint.".into(),
        many => format!(" {many} things may disappoint."),
    };
    let sentence = match stops {
        0 => {
            let tightest = work.fit.clearances.first().map(|tightest| work.album.roughly(tightest.spare));
            let spare = tightest.map_or_else(String::new, |spare| format!("; {spare} to spare at the tightest place"));
            format!("Goes together{spare}.{also}")
        }
        1 => "Does not go together yet: one thing stops it.".into(),
        many => format!("Does not go together yet: {many} things stop it."),
    };
    let sentence = match machine {
        [] => sentence,
        _ => format!("Nothing can be cut: a size of your machine can’t be used. The album itself: {sentence}"),
    };
    let of_album = findings(&work.findings, source, &Makers::of(source), Some(&work.album));
    json!({
        "sentence": sentence,
        "stopped": work.stopped() || !machine.is_empty(),
        "more": work.fit.sentences(&work.album),
        "findings": machine.iter().cloned().chain(of_album).collect::<Vec<_>>(),
        "section": work.cross_section().map(|picture| write::drawing(&picture)),
    })
}
