// SPDX-License-Identifier: MIT
//! The machine-readable truth about a kit: `report.json`.

use super::measures::Measures;
use super::number::{rounded, tidy};
use super::part_id;
use crate::album::Album;
use crate::contour::Point;
use crate::finding::Finding;
use crate::fit::Fit;
use crate::length::{Length, Ruler, Units};
use crate::net::Score;
use crate::parts::{BlockPart, Kit, Part, PatternBlock};
use crate::sheets::{Placed, Sheet, StockSheets, TrimPiece};
use crate::toolpath::{SheetPaths, ToolEffort};
use schemars::JsonSchema;
use serde::Serialize;
use serde_json::Value;
use std::collections::BTreeMap;

/// What the report's `format` says.
pub const FORMAT: &str = "hingeleaf-report/1";

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct Report<'a> {
    #[schemars(extend("const" = FORMAT))]
    format: &'static str,
    title: &'a str,
    copies: u32,
    parts: Vec<PartRow<'a>>,
    /// Parts that are cut from one place, because a pattern runs on over them.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    #[schemars(default)]
    blocks: Vec<BlockRow<'a>>,
    sheets: Vec<SheetRow<'a>>,
    layouts: Vec<LayoutRow<'a>>,
    findings: Vec<FindingRow<'a>>,
    /// The files of the folder as they were written, this one with noughts for its own digest: whatever else lies there is the
    /// maker's, and is kept.
    files: Vec<FileRow<'a>>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct FileRow<'a> {
    name: &'a str,
    #[schemars(regex(pattern = "^[0-9a-f]{64}$"))]
    sha256: &'a str,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct PartRow<'a> {
    id: &'a str,
    kind: &'a str,
    stock: &'a str,
    count: u32,
    width_mm: f64,
    height_mm: f64,
    area_mm2: f64,
    scores: Vec<ScoreRow>,
    used_in: &'a [String],
}

/// A block: its parts from the left, or from the bottom up, all upright as they are drawn.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct BlockRow<'a> {
    name: &'a str,
    count: u32,
    #[schemars(extend("enum" = ["right", "up"]))]
    runs: &'static str,
    parts: Vec<BlockPartRow<'a>>,
}

/// A part of a block, and how far behind the one before it it starts on the album.
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

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct SheetRow<'a> {
    name: &'a str,
    stock: &'a str,
    width_mm: f64,
    height_mm: f64,
    times: u32,
    placements: Vec<PlacementRow<'a>>,
    offcuts: Vec<OffcutRow>,
    #[serde(skip_serializing_if = "Option::is_none")]
    tool: Option<ToolRow>,
    /// How a trimmer cuts the sheet apart.
    #[serde(skip_serializing_if = "Option::is_none")]
    cuts: Option<PieceRow<'a>>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct ToolRow {
    cut_mm: f64,
    score_mm: f64,
    draw_mm: f64,
    travel_mm: f64,
    lifts: u64,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct PlacementRow<'a> {
    part: &'a str,
    copy: u32,
    x_mm: f64,
    y_mm: f64,
    #[schemars(extend("enum" = [0, 90, 180, 270]))]
    turn_deg: u16,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[allow(clippy::struct_field_names, reason = "the unit belongs to the field's name in the file")]
struct OffcutRow {
    x_mm: f64,
    y_mm: f64,
    width_mm: f64,
    height_mm: f64,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct LayoutRow<'a> {
    stock: &'a str,
    sheets: u64,
    lower_bound: u64,
    proven_least: bool,
    used_percent: f64,
    cut_short: bool,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct FindingRow<'a> {
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

fn pair(point: Point) -> [f64; 2] {
    [tidy(point.x), tidy(point.y)]
}

fn rows(findings: &[Finding]) -> Vec<FindingRow<'_>> {
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

/// What becomes of a rectangle on the trimmer.
#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
enum PieceRow<'a> {
    /// It is this part.
    Part { part: &'a str, copy: u32 },
    /// It is left over.
    Offcut(OffcutRow),
    /// It is cut from edge to edge, once or several times side by side.
    Cut(CutRow<'a>),
}

/// A rectangle with its cuts. Neighbouring pieces lie the gap apart.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct CutRow<'a> {
    x_mm: f64,
    y_mm: f64,
    width_mm: f64,
    height_mm: f64,
    #[schemars(extend("enum" = ["upright", "level"]))]
    way: &'static str,
    at_mm: Vec<f64>,
    pieces: Vec<PieceRow<'a>>,
}

fn offcut_row([x, y, width, height]: [f64; 4]) -> OffcutRow {
    OffcutRow { x_mm: tidy(x), y_mm: tidy(y), width_mm: tidy(width), height_mm: tidy(height) }
}

fn piece_row<'a>(piece: &TrimPiece, sheet: &Sheet, kit: &'a Kit) -> PieceRow<'a> {
    match piece {
        TrimPiece::Part(number) => {
            let placed = sheet.placements.get(*number);
            let part = placed.map_or("", |placed| part_id(&kit.parts, placed.part));
            PieceRow::Part { part, copy: placed.map_or(0, |placed| placed.copy) }
        }
        TrimPiece::Offcut(rect) => PieceRow::Offcut(offcut_row(*rect)),
        TrimPiece::Cut(cut) => {
            let [x_mm, y_mm, width_mm, height_mm] = cut.rect.map(tidy);
            PieceRow::Cut(CutRow {
                x_mm,
                y_mm,
                width_mm,
                height_mm,
                way: if cut.upright { "upright" } else { "level" },
                at_mm: cut.at.iter().copied().map(tidy).collect(),
                pieces: cut.pieces.iter().map(|piece| piece_row(piece, sheet, kit)).collect(),
            })
        }
    }
}

fn tool_row(sheet: &SheetPaths) -> ToolRow {
    let effort = ToolEffort::of(sheet);
    let [cut_mm, score_mm, draw_mm, travel_mm] =
        [effort.cut, effort.score, effort.draw, effort.travel].map(|mm| rounded(mm, 3));
    ToolRow { cut_mm, score_mm, draw_mm, travel_mm, lifts: effort.lifts }
}

fn stock_name(album: &Album, number: usize) -> &str {
    album.stocks.get(number).map_or("", |stock| stock.name.as_str())
}

fn part_row<'a>(album: &'a Album, part: &'a Part) -> PartRow<'a> {
    let score = |score: &Score| ScoreRow { from_mm: pair(score.from), to_mm: pair(score.to), fold: score.sense.word() };
    PartRow {
        id: &part.id,
        kind: part.kind,
        stock: stock_name(album, part.stock),
        count: part.count,
        width_mm: tidy(part.flat.width),
        height_mm: tidy(part.flat.height),
        area_mm2: tidy(part.flat.area()),
        scores: part.flat.scores.iter().map(score).collect(),
        used_in: &part.used_in,
    }
}

fn block_row<'a>(kit: &'a Kit, block: &'a PatternBlock) -> BlockRow<'a> {
    let part =
        |member: &BlockPart| BlockPartRow { part: part_id(&kit.parts, member.part), behind_mm: tidy(member.behind) };
    BlockRow {
        name: &block.name,
        count: block.count,
        runs: if block.upright { "up" } else { "right" },
        parts: block.parts.iter().map(part).collect(),
    }
}

fn sheet_row<'a>(stock: &'a str, kit: &'a Kit, sheet: &'a Sheet) -> SheetRow<'a> {
    let placement = |placed: &Placed| PlacementRow {
        part: part_id(&kit.parts, placed.part),
        copy: placed.copy,
        x_mm: tidy(placed.x),
        y_mm: tidy(placed.y),
        turn_deg: u16::from(placed.quarters) * 90,
    };
    SheetRow {
        name: &sheet.name,
        stock,
        width_mm: tidy(sheet.width),
        height_mm: tidy(sheet.height),
        times: sheet.times,
        placements: sheet.placements.iter().map(placement).collect(),
        offcuts: sheet.offcuts.iter().map(|rect| offcut_row(*rect)).collect(),
        cuts: sheet.cuts.as_ref().map(|piece| piece_row(piece, sheet, kit)),
        tool: None,
    }
}

fn layout_row<'a>(album: &'a Album, stock: &StockSheets) -> LayoutRow<'a> {
    LayoutRow {
        stock: stock_name(album, stock.stock),
        sheets: stock.count(),
        lower_bound: stock.lower_bound,
        proven_least: stock.proven_least,
        used_percent: rounded(stock.used_percent, 4),
        cut_short: stock.cut_short,
    }
}

/// The whole report; `files` are those that it stands beside, each with its SHA-256.
#[must_use]
pub fn report(
    album: &Album,
    kit: &Kit,
    stocks: &[StockSheets],
    paths: &[SheetPaths],
    findings: &[Finding],
    files: &BTreeMap<String, String>,
) -> String {
    let whole = Report {
        format: FORMAT,
        title: &album.title,
        copies: album.copies,
        parts: kit.parts.iter().map(|part| part_row(album, part)).collect(),
        blocks: kit.blocks.iter().map(|block| block_row(kit, block)).collect(),
        sheets: stocks
            .iter()
            .flat_map(|stock| stock.sheets.iter().map(move |sheet| (stock.stock, sheet)))
            .map(|(stock, sheet)| SheetRow {
                tool: paths.iter().find(|paths| paths.name == sheet.name).map(tool_row),
                ..sheet_row(stock_name(album, stock), kit, sheet)
            })
            .collect(),
        layouts: stocks.iter().map(|stock| layout_row(album, stock)).collect(),
        findings: rows(findings),
        files: files.iter().map(|(name, sha256)| FileRow { name, sha256 }).collect(),
    };
    json(&whole)
}

/// The JSON Schema of the report.
#[must_use]
pub fn report_schema() -> Value {
    let mut schema = schemars::schema_for!(Report<'_>);
    schema.insert("title".into(), "A kit's report".into());
    schema.to_value()
}

/// One object with `findings`, for programs.
#[must_use]
pub fn findings(findings: &[Finding]) -> String {
    #[derive(Serialize)]
    struct Only<'a> {
        findings: Vec<FindingRow<'a>>,
    }
    json(&Only { findings: rows(findings) })
}

/// The same with what was measured on the folded album.
#[must_use]
pub fn checked(findings: &[Finding], fit: &Fit, tolerance: Length) -> String {
    #[derive(Serialize)]
    struct Both<'a> {
        findings: Vec<FindingRow<'a>>,
        measures: Measures,
    }
    json(&Both { findings: rows(findings), measures: Measures::new(fit, tolerance.mm()) })
}

/// The same with what was mended: the way to each length, what it was (given or by default) and what it is.
#[must_use]
pub fn mended(findings: &[Finding], changes: &[(&str, Option<Length>, Length)], units: Units) -> String {
    #[derive(Serialize)]
    struct Row<'a> {
        path: &'a str,
        from: Option<String>,
        to: String,
        from_mm: Option<f64>,
        to_mm: f64,
    }
    #[derive(Serialize)]
    struct Both<'a> {
        findings: Vec<FindingRow<'a>>,
        mended: Vec<Row<'a>>,
    }
    let show = |length: Length| length.show(units, Ruler::SixtyFourth);
    let mended = changes
        .iter()
        .map(|&(path, from, to)| Row {
            path,
            from: from.map(show),
            to: show(to),
            from_mm: from.map(|length| tidy(length.mm())),
            to_mm: tidy(to.mm()),
        })
        .collect();
    json(&Both { findings: rows(findings), mended })
}

fn json(value: &impl Serialize) -> String {
    // Plain structs of texts and finite numbers always serialise.
    let mut text = serde_json::to_string_pretty(value).unwrap_or_default();
    text.push('\n');
    text
}
