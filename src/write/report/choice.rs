// SPDX-License-Identifier: MIT
//! The report of a kit whose pages are chosen: its mixes, and what they take.

use crate::album::Album;
use crate::batch::{Chosen, MixRow, WorstMix};
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

/// How a kit's pages are chosen. The parts' counts are what is packed, so that every mix can be made.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct ChoiceRow {
    /// How many pages each copy has.
    pages: u32,
    /// What they are chosen from, in order.
    kinds: Vec<String>,
    /// How many mixes there are.
    mixes: u64,
    /// Whether all of them were worked out.
    all: bool,
    /// Those that were.
    sheets: Vec<MixSheetsRow>,
    /// The one that takes the most sheets.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(default)]
    worst: Option<WorstRow>,
    /// Whether what is packed is known to be enough for every mix, in whatever order its pages stand.
    packed_for_all: bool,
}

/// A mix, and the sheets that all copies take where they choose it.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct MixSheetsRow {
    /// How many pages of each kind, in their order.
    pages: Vec<u32>,
    /// By stock; left out where it was not laid.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(default)]
    stocks: Option<BTreeMap<String, u64>>,
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(default)]
    sheets: Option<u64>,
    /// No layout has fewer sheets.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(default)]
    lower_bound: Option<u64>,
}

/// The mix that takes the most sheets of those that were worked out.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct WorstRow {
    pages: Vec<u32>,
    sheets: u64,
    /// Some mix needs so many sheets, laid however well.
    at_least: u64,
    /// No mix needs more, laid well; left out where that is not known.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(default)]
    at_most: Option<u64>,
    /// Whether these two are one.
    exact: bool,
}

pub(super) fn choice_row(album: &Album, Chosen { packed, table, .. }: &Chosen) -> ChoiceRow {
    let row = |row: &MixRow| MixSheetsRow {
        pages: row.mix.counts.clone(),
        stocks: row
            .sheets
            .as_ref()
            .map(|sheets| sheets.iter().map(|one| (album.stock_name(one.stock).to_owned(), one.sheets)).collect()),
        sheets: row.all(),
        lower_bound: row.least(),
    };
    let worst = |worst: WorstMix| WorstRow {
        pages: table.rows.get(worst.row).map(|row| row.mix.counts.clone()).unwrap_or_default(),
        sheets: worst.sheets,
        at_least: worst.at_least,
        at_most: worst.at_most,
        exact: worst.is_exact(),
    };
    ChoiceRow {
        pages: table.pages,
        kinds: (0..table.kinds.len()).map(|kind| table.called(kind)).collect(),
        mixes: table.mixes,
        all: table.is_whole(),
        sheets: table.rows.iter().map(row).collect(),
        worst: table.worst.map(worst),
        packed_for_all: packed.proven,
    }
}
