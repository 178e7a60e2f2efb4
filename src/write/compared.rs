// SPDX-License-Identifier: MIT
//! Two editions side by side, for programs.

use super::findings::{FindingRow, finding_rows};
use super::number::tidy;
use crate::editions::{
    ComparedPart, Comparison, Difference, EditionPart, EditionSheet, MeasuredScore, PartOutcome, ScoreChange,
    ScorePlace,
};
use crate::finding::Finding;
use schemars::JsonSchema;
use serde::Serialize;

pub(super) const FORMAT: &str = "hingeleaf-compare/1";

/// Two editions of one kit.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct Compared<'a> {
    #[schemars(extend("const" = FORMAT))]
    format: &'static str,
    old: EditionRow<'a>,
    new: EditionRow<'a>,
    /// Every part of the new edition, and then those of the old one that are gone.
    parts: Vec<ComparedRow<'a>>,
    /// What the owner of an old kit must cut, for one kit.
    recut: Vec<CountRow<'a>>,
    /// What is left over of an old kit.
    left_over: Vec<CountRow<'a>>,
    /// The sheets of the new edition that hold any of what must be cut.
    sheets: Vec<SheetToCut<'a>>,
    /// The album's pages that are made of other pieces than the old edition's page of that number.
    pages: &'a [usize],
    /// The old edition's pages that the new one does not have.
    pages_gone: &'a [usize],
    /// Whether the guide's head changed: title, maker, edition, notes.
    head_changed: bool,
    /// The chapters of the guide that read or look otherwise; left out where the new guide is not at hand.
    #[serde(skip_serializing_if = "Option::is_none")]
    chapters: Option<Vec<ChapterRow<'a>>>,
    findings: Vec<FindingRow<'a>>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct EditionRow<'a> {
    title: &'a str,
    parts: usize,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct ComparedRow<'a> {
    #[schemars(extend("enum" = ["same", "count", "renamed", "changed", "new", "gone"]))]
    what: &'static str,
    id: &'a str,
    /// What it was called, where it had another name.
    #[serde(skip_serializing_if = "Option::is_none")]
    was: Option<&'a str>,
    kind: &'a str,
    stock: &'a str,
    count: u32,
    width_mm: f64,
    height_mm: f64,
    digest: &'a str,
    /// In what it differs.
    #[serde(skip_serializing_if = "Option::is_none")]
    differs: Option<DifferenceRow<'a>>,
}

/// Each is what it was and what it is.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct DifferenceRow<'a> {
    #[serde(skip_serializing_if = "Option::is_none")]
    kind: Option<&'a [String; 2]>,
    #[serde(skip_serializing_if = "Option::is_none")]
    stock: Option<&'a [String; 2]>,
    #[serde(skip_serializing_if = "Option::is_none")]
    width_mm: Option<[f64; 2]>,
    #[serde(skip_serializing_if = "Option::is_none")]
    height_mm: Option<[f64; 2]>,
    #[serde(skip_serializing_if = "Option::is_none")]
    area_mm2: Option<[f64; 2]>,
    #[serde(skip_serializing_if = "Option::is_none")]
    count: Option<[u32; 2]>,
    /// Whether corners, notches or holes are cut another way, where no size or score tells of a change.
    outline: bool,
    scores: Vec<ScoreChangeRow>,
}

/// A score that moved or is folded another way has both, a new one no `was`, one that is gone no `is`.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ScoreChangeRow {
    #[serde(skip_serializing_if = "Option::is_none")]
    was: Option<ScoreMarkRow>,
    #[serde(skip_serializing_if = "Option::is_none")]
    is: Option<ScoreMarkRow>,
}

/// Where a score lies: so far from the left, so far from the top, or slanting between two points measured so.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ScoreMarkRow {
    #[serde(skip_serializing_if = "Option::is_none")]
    left_mm: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    top_mm: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    slanted_mm: Option<[f64; 4]>,
    #[schemars(extend("enum" = ["valley", "mountain", "both"]))]
    fold: &'static str,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct CountRow<'a> {
    part: &'a str,
    stock: &'a str,
    count: u32,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct SheetToCut<'a> {
    name: &'a str,
    stock: &'a str,
    times: u32,
    /// What on it must be cut.
    parts: Vec<&'a str>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct ChapterRow<'a> {
    id: &'a str,
    heading: &'a str,
}

/// The comparison as one object.
pub(super) fn compared<'a>(found: &'a Comparison<'_>, findings: &'a [Finding]) -> Compared<'a> {
    let sheet = |sheet| sheet_to_cut(sheet, &found.new.parts, &|part| found.is_cut(part));
    Compared {
        format: FORMAT,
        old: edition_row(&found.old.title, &found.old.parts),
        new: edition_row(&found.new.title, &found.new.parts),
        parts: compared_rows(found),
        recut: count_rows(&found.new.parts, &found.recut.cut),
        left_over: count_rows(&found.old.parts, &found.recut.over),
        sheets: found.sheets().map(sheet).collect(),
        pages: &found.pages.changed,
        pages_gone: &found.pages.gone,
        head_changed: found.head,
        chapters: chapter_rows(found),
        findings: finding_rows(findings),
    }
}

pub(super) fn edition_row<'a>(title: &'a str, parts: &[EditionPart]) -> EditionRow<'a> {
    EditionRow { title, parts: parts.len() }
}

pub(super) fn compared_rows<'a>(found: &'a Comparison<'_>) -> Vec<ComparedRow<'a>> {
    found.parts.iter().filter_map(|part| compared_row(found, part)).collect()
}

pub(super) fn chapter_rows<'a>(found: &'a Comparison<'_>) -> Option<Vec<ChapterRow<'a>>> {
    let chapters = found.chapters.as_ref()?;
    Some(chapters.iter().map(|chapter| ChapterRow { id: chapter.id, heading: &chapter.heading }).collect())
}

/// A sheet with those parts on it that are cut.
pub(super) fn sheet_to_cut<'a>(
    sheet: &'a EditionSheet,
    parts: &'a [EditionPart],
    is_cut: &dyn Fn(usize) -> bool,
) -> SheetToCut<'a> {
    let cut = sheet.parts.iter().filter(|number| is_cut(**number)).filter_map(|number| parts.get(*number));
    let EditionSheet { name, stock, times, .. } = sheet;
    SheetToCut { name, stock, times: *times, parts: cut.map(|part| part.id.as_str()).collect() }
}

pub(super) fn count_rows<'a>(parts: &'a [EditionPart], counts: &[u32]) -> Vec<CountRow<'a>> {
    let row = |(part, count): (&'a EditionPart, &u32)| CountRow { part: &part.id, stock: &part.stock, count: *count };
    parts.iter().zip(counts).filter(|(_, count)| **count > 0).map(row).collect()
}

fn compared_row<'a>(found: &'a Comparison<'_>, compared: &'a ComparedPart) -> Option<ComparedRow<'a>> {
    let was = compared.old.and_then(|old| found.old.parts.get(old));
    let is = compared.new.and_then(|new| found.new.parts.get(new));
    let part = is.or(was)?;
    let differs = !matches!(compared.outcome, PartOutcome::New | PartOutcome::Gone | PartOutcome::Same);
    Some(ComparedRow {
        what: compared.outcome.word(),
        id: &part.id,
        was: was.map(|was| was.id.as_str()).filter(|was| *was != part.id),
        kind: &part.kind,
        stock: &part.stock,
        count: part.count,
        width_mm: tidy(part.width),
        height_mm: tidy(part.height),
        digest: &part.digest,
        differs: differs.then(|| difference_row(&compared.difference)),
    })
}

fn difference_row(difference: &Difference) -> DifferenceRow<'_> {
    let both = |pair: Option<[f64; 2]>| pair.map(|pair| pair.map(tidy));
    DifferenceRow {
        kind: difference.kind.as_ref(),
        stock: difference.stock.as_ref(),
        width_mm: both(difference.width),
        height_mm: both(difference.height),
        area_mm2: both(difference.area),
        count: difference.count,
        outline: difference.outline,
        scores: difference.scores.iter().map(score_row).collect(),
    }
}

fn score_row(change: &ScoreChange) -> ScoreChangeRow {
    let (was, is) = match change {
        ScoreChange::Moved(was, is) | ScoreChange::Refolded(was, is) => (Some(was), Some(is)),
        ScoreChange::New(is) => (None, Some(is)),
        ScoreChange::Gone(was) => (Some(was), None),
    };
    ScoreChangeRow { was: was.map(mark_row), is: is.map(mark_row) }
}

fn mark_row(mark: &MeasuredScore) -> ScoreMarkRow {
    let mut row = ScoreMarkRow { left_mm: None, top_mm: None, slanted_mm: None, fold: mark.sense.word() };
    match mark.place {
        ScorePlace::Left(at) => row.left_mm = Some(tidy(at)),
        ScorePlace::Top(at) => row.top_mm = Some(tidy(at)),
        ScorePlace::Slanted(ends) => row.slanted_mm = Some(ends.map(tidy)),
    }
    row
}
