// SPDX-License-Identifier: MIT
//! The machine-readable truth about a kit: `report.json`.

mod choice;
mod cost;
mod parts;
mod sheets;
mod why;

use self::choice::{ChoiceRow, choice_row};
use self::cost::{CostReport, cost_report};
use self::parts::{BlockRow, PartRow, block_row, part_row};
use self::sheets::{BedRow, LayoutRow, LyingRow, SheetRow, bed_rows, layout_row, lying_rows, sheet_row};
use super::findings::{FindingRow, finding_rows, json};
use crate::album::Order;
use crate::batch::{Batch, BatchKit, ClassGroup, GroupSheets, Merged};
use crate::cost::Cost;
use crate::cutter::Cutter;
use crate::finding::Finding;
use crate::parts::{Kit, Part};
use crate::sheets::StockSheets;
use crate::toolpath::SheetPaths;
use schemars::JsonSchema;
use serde::Serialize;
use serde_json::Value;
use std::collections::BTreeMap;

/// What the report's `format` says.
pub(in crate::write) use crate::editions::REPORT_FORMAT as FORMAT;

/// What a report is of.
#[derive(Clone, Debug)]
pub struct Reported<'a> {
    /// What its sheets are laid for.
    pub order: Order<'a>,
    /// Its parts, with how many of each are cut for a kit.
    pub kit: &'a Kit,
    /// Its sheets.
    pub stocks: &'a [StockSheets],
    /// The machine that cuts what has none of its own.
    pub cutter: &'a Cutter,
    /// What the tool does on them.
    pub paths: &'a [SheetPaths],
    /// What there is to say.
    pub findings: &'a [Finding],
    /// The batch whose order it is, where it is one's.
    pub batch: Option<(&'a Batch, &'a Merged)>,
    /// The groups of a class, where it is one's.
    pub groups: Vec<ClassGroup>,
    /// Whether it is of the parts alone that the owner of an old kit cuts again.
    pub recut: bool,
    /// What it costs, where that is asked.
    pub cost: Option<&'a Cost>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Report<'a> {
    #[schemars(extend("const" = FORMAT))]
    format: &'static str,
    title: &'a str,
    copies: u32,
    /// How many of these kits are spare.
    #[serde(skip_serializing_if = "parts::is_none", default)]
    spare_kits: u32,
    /// The kits of a batch and how many of each are made; the parts' counts are those of the whole batch, spares among them.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[schemars(default)]
    kits: Vec<KitRow<'a>>,
    /// The groups of a class, in the order of `kits`, and the sheets that their makers cut.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[schemars(default)]
    class: Vec<GroupRow<'a>>,
    /// Whether it is of the parts alone that the owner of an old kit cuts again; else it is of a whole kit.
    #[serde(skip_serializing_if = "std::ops::Not::not", default)]
    recut: bool,
    parts: Vec<PartRow<'a>>,
    /// Parts that are cut from one place, because a pattern runs on over them.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[schemars(default)]
    blocks: Vec<BlockRow<'a>>,
    sheets: Vec<SheetRow<'a>>,
    /// Beds that several sheets lie on, each with a file of its own; these sheets have none.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[schemars(default)]
    beds: Vec<BedRow>,
    layouts: Vec<LayoutRow<'a>>,
    /// What lies in the drawer of the stocks in use, and what of it is taken.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[schemars(default)]
    drawer: Vec<LyingRow<'a>>,
    /// What the order costs, where the maker says anything of buying and selling: every amount rounded once, here.
    #[serde(skip_serializing_if = "Option::is_none")]
    cost: Option<CostReport<'a>>,
    findings: Vec<FindingRow<'a>>,
    /// The files of the folder as they were written, this one with noughts for its own digest: whatever else lies there is the
    /// maker's, and is kept.
    files: Vec<FileRow<'a>>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct KitRow<'a> {
    name: &'a str,
    /// Its album's name.
    title: &'a str,
    copies: u32,
    /// How many are made, spare ones among them.
    made: u32,
    /// How its pages are chosen, where they are.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(default)]
    choice: Option<ChoiceRow>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct GroupRow<'a> {
    name: &'a str,
    makers: u32,
    /// None where they are handed pieces.
    sheets: Vec<GroupSheetsRow<'a>>,
}

/// Sheets of one size: how many each maker has, and how many there are for all, those of spare kits among them.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct GroupSheetsRow<'a> {
    stock: &'a str,
    sheet: &'a str,
    #[schemars(extend("enum" = ["machine", "trimmer"]))]
    by: &'static str,
    each: u64,
    all: u64,
}

fn group_row(group: &ClassGroup) -> GroupRow<'_> {
    let sheets = group.sheets.iter().map(|GroupSheets { stock, sheet, by, each, all }| GroupSheetsRow {
        stock,
        sheet,
        by: by.word(),
        each: *each,
        all: *all,
    });
    GroupRow { name: &group.name, makers: group.makers, sheets: sheets.collect() }
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct FileRow<'a> {
    name: &'a str,
    #[schemars(regex(pattern = "^[0-9a-f]{64}$"))]
    sha256: &'a str,
}

/// The whole report, of what is cut at all; `files` are those that it stands beside, each with its SHA-256.
#[must_use]
pub fn report(of: &Reported<'_>, files: &BTreeMap<String, String>) -> String {
    let &Reported { order, kit, stocks, cutter, paths, findings, batch, ref groups, recut, cost } = of;
    let kits = batch.map_or(&[][..], |(batch, _)| &batch.kits);
    let is_cut = |part: &Part| part.count > 0;
    let parts = kit.parts.iter().zip(kit.pages()).enumerate().filter(|(_, (part, _))| is_cut(part));
    let of_kits = batch.into_iter().flat_map(|(batch, merged)| {
        let kits = batch.kits.iter().zip(&merged.blocks);
        kits.flat_map(|(kit, blocks)| blocks.iter().map(|block| (Some(kit.name.as_str()), block)))
    });
    let own = kit.blocks.iter().filter(|_| batch.is_none()).map(|block| (None, block));
    let blocks = own.chain(of_kits).filter(|(_, block)| block.count > 0);
    let whole = Report {
        format: FORMAT,
        title: order.title,
        copies: order.copies,
        spare_kits: order.spares.kits,
        kits: kits.iter().enumerate().map(|(number, kit)| kit_row(number, kit, batch)).collect(),
        class: groups.iter().map(group_row).collect(),
        recut,
        parts: parts.map(|(number, (part, pages))| part_row(order, (number, part), pages, batch)).collect(),
        blocks: blocks.map(|(of, block)| block_row(of, kit, block)).collect(),
        sheets: stocks
            .iter()
            .flat_map(|stock| stock.sheets.iter().map(move |sheet| (stock.stock, sheet)))
            .map(|(stock, sheet)| {
                sheet_row(
                    (order, stock, order.stocks.get(stock).map_or(cutter, |stock| stock.cutter(cutter))),
                    kit,
                    sheet,
                    paths,
                )
            })
            .collect(),
        beds: bed_rows(order, paths, cutter),
        drawer: lying_rows(order, stocks),
        layouts: stocks.iter().map(|stock| layout_row(order, stock)).collect(),
        cost: cost.map(cost_report),
        findings: finding_rows(findings),
        files: files.iter().map(|(name, sha256)| FileRow { name, sha256 }).collect(),
    };
    json(&whole)
}

fn kit_row<'a>(number: usize, kit: &'a BatchKit, batch: Option<(&'a Batch, &'a Merged)>) -> KitRow<'a> {
    let chosen = batch.and_then(|(_, merged)| merged.chosen.get(number)?.as_ref());
    let choice = chosen.map(|chosen| choice_row(&kit.album, chosen));
    let made = batch.map_or(kit.album.copies, |(batch, _)| batch.times(kit));
    KitRow { name: &kit.name, title: &kit.album.title, copies: kit.album.copies, made, choice }
}

/// The JSON Schema of the report.
#[must_use]
pub fn report_schema() -> Value {
    let mut schema = schemars::schema_for!(Report<'_>);
    schema.insert("title".into(), "A kit's report".into());
    schema.to_value()
}
