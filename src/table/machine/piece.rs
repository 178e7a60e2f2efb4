// SPDX-License-Identifier: MIT
//! The test piece to take away, as the command line writes it.

use crate::album::Language;
use crate::coupon::coupon;
use crate::fields::Source;
use crate::finding::Finding;
use crate::paper::{Paper, sheet_size};
use crate::table::question::Question;
use crate::table::read::AlbumRead;
use crate::table::reply::{Reply, not_written, zipped};
use crate::work::put_coupon;
use crate::write::Memory;

/// Sheets that a test piece is asked for on, where nothing is said.
const USUAL_SHEET: &str = "A4";

/// The piece as a zip, with its instructions in the album's language; what keeps it from being made in words.
pub(in crate::table) fn piece(source: &Source, question: &Question) -> Reply {
    let machine = question.machine.cutter();
    let Some(cutter) = machine.value else { return Reply::word(409, "machine-not-read") };
    let asked = question.sheet.trim();
    let sheet = if asked.is_empty() { USUAL_SHEET } else { asked };
    let sides = sheet_size(sheet).map_err(|error| Box::new(Finding::stop("bad-sheet", error.what.clone(), error.what)));
    let made = sides.and_then(|(_, width, height)| coupon(&cutter, (width, height)));
    let made = match made {
        Ok(made) => made,
        Err(finding) => return Reply::words(409, &finding.text),
    };
    let language = AlbumRead::of(source, question).album.value.map_or(Language::English, |album| album.language);
    let paper = if sheet.eq_ignore_ascii_case("letter") { Paper::Letter } else { Paper::A4 };
    let mut files = Memory::default();
    let file = question.machine.file().map(|(name, _)| name);
    match put_coupon(&made, (&cutter, file), (language, paper), &mut files) {
        Ok(()) => zipped(&files),
        Err(problem) => not_written(&problem.to_string()),
    }
}
