// SPDX-License-Identifier: MIT
//! Findings as JSON, for programs: alone, with what was measured, with what was mended.

use super::measures::Measures;
use super::number::tidy;
use crate::finding::Finding;
use crate::fit::Fit;
use crate::length::{Length, Ruler, Units};
use schemars::JsonSchema;
use serde::Serialize;

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct FindingRow<'a> {
    #[schemars(extend("enum" = ["stop", "warn", "note"]))]
    level: &'static str,
    id: &'static str,
    about: String,
    text: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    measured_mm: Option<f64>,
    #[serde(skip_serializing_if = "Option::is_none")]
    allowed_mm: Option<f64>,
    #[serde(skip_serializing_if = "String::is_empty", default)]
    help: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    place: Option<PlaceRow<'a>>,
    /// What to write into the file instead.
    #[serde(skip_serializing_if = "Option::is_none")]
    mend: Option<MendRow<'a>>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct MendRow<'a> {
    path: &'a str,
    value_mm: f64,
    text: &'a str,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct PlaceRow<'a> {
    file: &'a str,
    line: usize,
    column: usize,
    path: &'a str,
}

pub(super) fn finding_rows(findings: &[Finding]) -> Vec<FindingRow<'_>> {
    findings
        .iter()
        .map(|finding| FindingRow {
            level: finding.level.word(),
            id: finding.id,
            about: finding.about.to_string(),
            text: finding.text.to_string(),
            measured_mm: finding.measured.map(|length| tidy(length.mm())),
            allowed_mm: finding.allowed.map(|length| tidy(length.mm())),
            help: finding.help.to_string(),
            place: finding.place.as_ref().map(|place| PlaceRow {
                file: &place.file,
                line: place.line,
                column: place.column,
                path: &place.path,
            }),
            mend: finding.mend.as_ref().map(|mend| MendRow {
                path: &mend.path,
                value_mm: tidy(mend.value.mm()),
                text: &mend.text,
            }),
        })
        .collect()
}

/// One object with `findings`, for programs.
#[must_use]
pub fn findings(findings: &[Finding]) -> String {
    #[derive(Serialize)]
    struct FindingsOnly<'a> {
        findings: Vec<FindingRow<'a>>,
    }
    json(&FindingsOnly { findings: finding_rows(findings) })
}

/// The same with what was measured on the folded album.
#[must_use]
pub fn checked(findings: &[Finding], fit: &Fit, tolerance: Length) -> String {
    #[derive(Serialize)]
    struct CheckedFindings<'a> {
        findings: Vec<FindingRow<'a>>,
        measures: Measures,
    }
    json(&CheckedFindings { findings: finding_rows(findings), measures: Measures::new(fit, tolerance.mm()) })
}

/// The same with what was mended: the way to each length, what it was (given or by default) and what it is.
#[must_use]
pub fn mended(findings: &[Finding], changes: &[(&str, Option<Length>, Length)], units: Units) -> String {
    #[derive(Serialize)]
    struct MendedRow<'a> {
        path: &'a str,
        from: Option<String>,
        to: String,
        from_mm: Option<f64>,
        to_mm: f64,
    }
    #[derive(Serialize)]
    struct MendedFindings<'a> {
        findings: Vec<FindingRow<'a>>,
        mended: Vec<MendedRow<'a>>,
    }
    let show = |length: Length| length.show(units, Ruler::SixtyFourth);
    let mended = changes
        .iter()
        .map(|&(path, from, to)| MendedRow {
            path,
            from: from.map(show),
            to: show(to),
            from_mm: from.map(|length| tidy(length.mm())),
            to_mm: tidy(to.mm()),
        })
        .collect();
    json(&MendedFindings { findings: finding_rows(findings), mended })
}

pub(super) fn json(value: &impl Serialize) -> String {
    // Plain structs of texts and finite numbers always serialise.
    let mut text = serde_json::to_string_pretty(value).unwrap_or_default();
    text.push('\n');
    text
}
