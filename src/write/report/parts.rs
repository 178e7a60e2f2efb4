// SPDX-License-Identifier: MIT
//! The report's parts and the blocks that they are cut in.

use crate::album::Order;
use crate::batch::{Batch, Merged};
use crate::contour::Point;
use crate::net::Score;
use crate::parts::{BlockPart, Kit, Part, PatternBlock};
use crate::write::number::tidy;
use crate::write::part_id;
use schemars::JsonSchema;
use serde::Serialize;
use std::collections::BTreeMap;

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct PartRow<'a> {
    id: &'a str,
    kind: &'a str,
    stock: &'a str,
    count: u32,
    /// How many are made besides over all copies, for what goes wrong.
    #[serde(skip_serializing_if = "is_none", default)]
    besides: u32,
    width_mm: f64,
    height_mm: f64,
    area_mm2: f64,
    scores: Vec<ScoreRow>,
    used_in: Vec<String>,
    /// How many each kit of a batch takes, by its name.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(default)]
    kits: Option<BTreeMap<&'a str, u32>>,
    /// How many a page takes of it, by the kit whose pages are chosen and by its kind; what is no page's is left out.
    #[serde(skip_serializing_if = "BTreeMap::is_empty")]
    #[schemars(default)]
    kinds: BTreeMap<&'a str, BTreeMap<String, u32>>,
    /// The page of each of its pieces that belongs to one.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[schemars(default)]
    pages: Vec<usize>,
    /// What is cut and scored, and nothing else: equal digests are equal parts, whatever they are called.
    #[schemars(regex(pattern = "^[0-9a-f]{32}$"))]
    digest: String,
    /// The same of it upside down; left out where that makes it another piece, because its stock's pattern has an up and a down.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(regex(pattern = "^[0-9a-f]{32}$"))]
    digest_turned: Option<String>,
}

/// A block: its parts from the left, or from the bottom up, all upright as they are drawn.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct BlockRow<'a> {
    name: String,
    count: u32,
    #[schemars(extend("enum" = ["right", "up"]))]
    runs: &'static str,
    parts: Vec<BlockPartRow<'a>>,
}

/// A part of a block, and how far behind the one before it it starts on the order.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct BlockPartRow<'a> {
    part: &'a str,
    behind_mm: f64,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ScoreRow {
    from_mm: [f64; 2],
    to_mm: [f64; 2],
    #[schemars(extend("enum" = ["valley", "mountain", "both"]))]
    fold: &'static str,
}

#[allow(clippy::trivially_copy_pass_by_ref, reason = "serde asks so")]
pub(super) fn is_none(count: &u32) -> bool {
    *count == 0
}

fn pair(point: Point) -> [f64; 2] {
    [tidy(point.x), tidy(point.y)]
}

pub(super) fn part_row<'a>(
    order: Order<'a>,
    (number, part): (usize, &'a Part),
    pages: Vec<usize>,
    batch: Option<(&'a Batch, &'a Merged)>,
) -> PartRow<'a> {
    let score = |score: &Score| ScoreRow { from_mm: pair(score.from), to_mm: pair(score.to), fold: score.sense.word() };
    PartRow {
        id: &part.id,
        kind: part.kind,
        stock: order.bought(part.stock),
        count: part.count,
        besides: order.besides(part.count),
        width_mm: tidy(part.flat.width),
        height_mm: tidy(part.flat.height),
        area_mm2: tidy(part.flat.area()),
        scores: part.flat.scores.iter().map(score).collect(),
        used_in: part.used_in.iter().map(ToString::to_string).collect(),
        kits: batch.map(|(batch, merged)| merged.kits_with(batch, number).collect()),
        kinds: kinds(batch, number),
        pages,
        digest: part.flat.digest(),
        digest_turned: order.serves_turned(part.stock).then(|| part.flat.turned(2).digest()),
    }
}

fn kinds<'a>(batch: Option<(&'a Batch, &'a Merged)>, number: usize) -> BTreeMap<&'a str, BTreeMap<String, u32>> {
    let mut kinds: BTreeMap<&str, BTreeMap<String, u32>> = BTreeMap::new();
    let all = batch.into_iter().flat_map(|(batch, merged)| merged.kinds_with(batch, number));
    all.for_each(|(kit, kind, each)| *kinds.entry(kit).or_default().entry(kind).or_default() += each);
    kinds
}

pub(super) fn block_row<'a>(kit: &'a Kit, block: &'a PatternBlock) -> BlockRow<'a> {
    let part =
        |member: &BlockPart| BlockPartRow { part: part_id(&kit.parts, member.part), behind_mm: tidy(member.behind) };
    BlockRow {
        name: block.name.to_string(),
        count: block.count,
        runs: if block.upright { "up" } else { "right" },
        parts: block.parts.iter().map(part).collect(),
    }
}
