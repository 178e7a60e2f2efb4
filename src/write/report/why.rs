// SPDX-License-Identifier: MIT
//! The report's reasons: why no layout takes fewer sheets than the bound.

use crate::sheets::{Argument, CountedPart, PartsApart, WhyNoFewer};
use schemars::JsonSchema;
use serde::Serialize;

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct WhyRow<'a> {
    /// So many sheets are too few; of each kit, where each has sheets of its own.
    too_few: u64,
    #[serde(skip_serializing_if = "std::ops::Not::not", default)]
    each_kit: bool,
    /// `area`: the parts have more of it; `at-most`: no sheet holds more points of these parts; `apart`: no sheet holds parts
    /// of two of these groups; `weighed`: by every way to fill a sheet.
    #[schemars(extend("enum" = ["area", "at-most", "apart", "weighed"]))]
    argument: &'static str,
    #[serde(skip_serializing_if = "Option::is_none")]
    most: Option<u64>,
    #[serde(skip_serializing_if = "Vec::is_empty", default)]
    of: Vec<CountedRow<'a>>,
    #[serde(skip_serializing_if = "Vec::is_empty", default)]
    groups: Vec<GroupApartRow<'a>>,
    /// The same in words.
    text: String,
}

/// A part, or parts that are cut from one place, and how many there are.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct CountedRow<'a> {
    parts: &'a [String],
    count: u64,
    /// So much each counts; 1 where it is not said.
    #[serde(skip_serializing_if = "is_one", default = "one")]
    points: u64,
}

/// Parts that share no sheet with those of another group, and the sheets that they take at least.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct GroupApartRow<'a> {
    of: Vec<CountedRow<'a>>,
    sheets: u64,
    /// One sheet for each; else it is their area that takes so many.
    each_alone: bool,
}

pub(super) fn why_row(why: &WhyNoFewer) -> WhyRow<'_> {
    let (argument, most, of, groups) = match &why.argument {
        Argument::Area => ("area", None, [].as_slice(), [].as_slice()),
        Argument::AtMost { of, most } => ("at-most", Some(*most), of.as_slice(), [].as_slice()),
        Argument::Apart(groups) => ("apart", None, [].as_slice(), groups.as_slice()),
        Argument::Weighed => ("weighed", None, [].as_slice(), [].as_slice()),
    };
    WhyRow {
        too_few: why.too_few,
        each_kit: why.each_kit,
        argument,
        most,
        of: of.iter().map(counted_row).collect(),
        groups: groups.iter().map(group_apart_row).collect(),
        text: why.said().to_string(),
    }
}

fn counted_row(part: &CountedPart) -> CountedRow<'_> {
    CountedRow { parts: &part.parts, count: part.count, points: part.points }
}

fn group_apart_row(group: &PartsApart) -> GroupApartRow<'_> {
    GroupApartRow { of: group.of.iter().map(counted_row).collect(), sheets: group.sheets, each_alone: group.each_alone }
}

const fn one() -> u64 {
    1
}

#[allow(clippy::trivially_copy_pass_by_ref, reason = "serde hands over references")]
const fn is_one(points: &u64) -> bool {
    *points == 1
}
