// SPDX-License-Identifier: MIT
//! Two editions of an order side by side, for programs.

use super::compared::{
    ChapterRow, Compared, ComparedRow, CountRow, EditionRow, FORMAT, SheetToCut, chapter_rows, compared as of_one,
    compared_rows, count_rows, edition_row, sheet_to_cut,
};
use super::findings::{FindingRow, finding_rows, json};
use crate::editions::{ComparedKit, Comparison, KitEdition, OrderComparison, OrderEdition};
use crate::finding::Finding;
use schemars::JsonSchema;
use serde::Serialize;
use serde_json::Value;

/// Two editions of an order, or of a kit and an order.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ComparedOrder<'a> {
    #[schemars(extend("const" = FORMAT))]
    format: &'static str,
    old: EditionRow<'a>,
    new: EditionRow<'a>,
    /// Every kit of the new edition, and then those of the old one that are gone. An album by itself is compared with every kit.
    kits: Vec<ComparedKitRow<'a>>,
    /// What is cut again over the whole order, spare kits and spare parts among it: what each old kit lacks, and kits that are
    /// more than before.
    recut: Vec<CountRow<'a>>,
    /// The sheets of the new edition that hold any of that.
    sheets: Vec<SheetToCut<'a>>,
    findings: Vec<FindingRow<'a>>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ComparedKitRow<'a> {
    #[schemars(extend("enum" = ["same", "renamed", "changed", "new", "gone"]))]
    what: &'static str,
    /// Its name in the new edition, in the old one where it is gone; left out where the new edition is an album.
    #[serde(skip_serializing_if = "Option::is_none")]
    name: Option<&'a str>,
    /// What it was called, where it had another name.
    #[serde(skip_serializing_if = "Option::is_none")]
    was: Option<&'a str>,
    /// How many were ordered; left out where it is new.
    #[serde(skip_serializing_if = "Option::is_none")]
    old_copies: Option<u32>,
    /// How many are; left out where it is gone.
    #[serde(skip_serializing_if = "Option::is_none")]
    new_copies: Option<u32>,
    /// Its parts, and those of the old one that are gone; `count` is for one kit.
    parts: Vec<ComparedRow<'a>>,
    /// What the owner of an old kit must cut, for one kit.
    recut: Vec<CountRow<'a>>,
    /// What is left over of an old kit.
    left_over: Vec<CountRow<'a>>,
    /// The album's pages that are made of other pieces than the old edition's page of that number.
    pages: &'a [usize],
    /// The old edition's pages that the new one does not have.
    pages_gone: &'a [usize],
    /// Whether its guide's head changed: title, maker, edition, notes.
    head_changed: bool,
    /// The chapters of its guide that tell otherwise; left out where the new guide is not at hand.
    #[serde(skip_serializing_if = "Option::is_none")]
    chapters: Option<Vec<ChapterRow<'a>>>,
}

/// Either kind of comparison.
#[derive(Serialize, JsonSchema)]
#[serde(untagged)]
enum AnyCompared<'a> {
    Kit(Compared<'a>),
    Order(ComparedOrder<'a>),
}

/// Two editions of one kit as one object; `findings` are those of the sheets that are cut again, where these are written.
#[must_use]
pub fn compared(found: &Comparison<'_>, findings: &[Finding]) -> String {
    json(&AnyCompared::Kit(of_one(found, findings)))
}

/// Two editions of an order, likewise.
#[must_use]
pub fn compared_order(found: &OrderComparison<'_>, findings: &[Finding]) -> String {
    let is_cut = |part: usize| found.again.count.get(part).is_some_and(|count| *count > 0);
    json(&AnyCompared::Order(ComparedOrder {
        format: FORMAT,
        old: edition_row(&found.old.title, &found.old.parts),
        new: edition_row(&found.new.title, &found.new.parts),
        kits: found.kits.iter().map(|kit| kit_row(found, kit)).collect(),
        recut: count_rows(&found.new.parts, &found.again.count),
        sheets: found.sheets().map(|sheet| sheet_to_cut(sheet, &found.new.parts, &is_cut)).collect(),
        findings: finding_rows(findings),
    }))
}

fn kit_row<'a>(found: &'a OrderComparison<'_>, kit: &'a ComparedKit<'_>) -> ComparedKitRow<'a> {
    let of = |order: &'a OrderEdition, kit: Option<usize>| kit.and_then(|kit| order.kits.get(kit));
    let (was, is) = (of(found.old, kit.old), of(found.new, kit.new));
    let name = |kit: Option<&'a KitEdition>| kit.and_then(|kit| kit.name.as_deref());
    let new_name = if is.is_some() { name(is) } else { name(was) };
    ComparedKitRow {
        what: kit.outcome.word(),
        name: new_name,
        was: name(was).filter(|name| Some(*name) != new_name),
        old_copies: was.map(|kit| kit.copies),
        new_copies: is.map(|kit| kit.copies),
        parts: compared_rows(&kit.found),
        recut: count_rows(&kit.found.new.parts, &kit.found.recut.cut),
        left_over: count_rows(&kit.found.old.parts, &kit.found.recut.over),
        pages: &kit.found.pages.changed,
        pages_gone: &kit.found.pages.gone,
        head_changed: kit.found.head,
        chapters: chapter_rows(&kit.found),
    }
}

/// The JSON Schema of a comparison.
#[must_use]
pub fn compare_schema() -> Value {
    let mut schema = schemars::schema_for!(AnyCompared<'_>);
    schema.insert("title".into(), "Two editions of a kit or of an order".into());
    schema.to_value()
}
