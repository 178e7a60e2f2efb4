// SPDX-License-Identifier: MIT
//! The report's sheets: where each part lies, what is left over, how the tool or the trimmer takes them apart.

use super::why::{WhyRow, why_row};
use crate::album::Order;
use crate::cutter::{BedPlace, Cutter};
use crate::fields::Choices;
use crate::parts::Kit;
use crate::sheets::{DrawerRow, Placed, Sheet, StockSheets, TrimPiece, drawer_rows, hosts, partners};
use crate::stock::By;
use crate::toolpath::{BedLoad, SheetPaths, ToolEffort, back, bed_loads};
use crate::write::number::{rounded, tidy};
use crate::write::part_id;
use schemars::JsonSchema;
use serde::Serialize;

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct SheetRow<'a> {
    name: &'a str,
    stock: &'a str,
    width_mm: f64,
    height_mm: f64,
    times: u32,
    /// Whether it is taken from the drawer.
    #[serde(skip_serializing_if = "std::ops::Not::not", default)]
    from_drawer: bool,
    /// What it is laid for: a machine, where it is not said.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(extend("enum" = By::WORDS))]
    by: Option<&'static str>,
    /// The boxes of its register marks, where it is printed before it is cut.
    #[serde(skip_serializing_if = "Vec::is_empty", default)]
    marks: Vec<BoxRow>,
    placements: Vec<PlacementRow<'a>>,
    offcuts: Vec<BoxRow>,
    #[serde(skip_serializing_if = "Option::is_none")]
    tool: Option<ToolRow>,
    /// What the tool does on the back before, by a file of its own.
    #[serde(skip_serializing_if = "Option::is_none")]
    tool_back: Option<ToolRow>,
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
    /// How long the machine takes for one such sheet, where its speed is known.
    #[serde(skip_serializing_if = "Option::is_none")]
    seconds: Option<f64>,
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
    /// The part in whose window it lies, and is cut before that.
    #[serde(skip_serializing_if = "Option::is_none")]
    window_of: Option<OnSheetRow<'a>>,
    /// The part that it lies head to tail with: the same, half turned, each with a part of its own in the other's box.
    #[serde(skip_serializing_if = "Option::is_none")]
    pair_of: Option<OnSheetRow<'a>>,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct OnSheetRow<'a> {
    part: &'a str,
    copy: u32,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
#[allow(clippy::struct_field_names, reason = "the unit belongs to the field's name in the file")]
struct BoxRow {
    x_mm: f64,
    y_mm: f64,
    width_mm: f64,
    height_mm: f64,
}

#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct LayoutRow<'a> {
    stock: &'a str,
    /// What these sheets are laid for: a machine, where it is not said. A stock that is cut both ways stands here twice.
    #[serde(skip_serializing_if = "Option::is_none")]
    #[schemars(extend("enum" = By::WORDS))]
    by: Option<&'static str>,
    sheets: u64,
    lower_bound: u64,
    proven_least: bool,
    /// Why that bound holds; left out where it needs no reason, sizes are mixed, or several lots are laid.
    #[serde(skip_serializing_if = "Option::is_none")]
    why: Option<WhyRow<'a>>,
    /// Where sizes are mixed and something is bought: no layout saves more of its cost (of its area where a price is missing).
    #[serde(skip_serializing_if = "Option::is_none")]
    savable_percent: Option<f64>,
    used_percent: f64,
    cut_short: bool,
}

/// Sheets of one size that lie in the drawer.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct LyingRow<'a> {
    stock: &'a str,
    sheet: &'a str,
    width_mm: f64,
    height_mm: f64,
    lie: u32,
    taken: u32,
    left: u32,
}

/// What lies on a bed at once.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
pub(super) struct BedRow {
    name: String,
    stock: String,
    width_mm: f64,
    height_mm: f64,
    times: u32,
    sheets: Vec<LyingSheetRow>,
    tool: ToolRow,
    /// On the backs of its sheets, each turned over in its place, where anything is done there.
    #[serde(skip_serializing_if = "Option::is_none")]
    tool_back: Option<ToolRow>,
}

/// A sheet where it lies on a bed: the lower left of it as it lies.
#[derive(Serialize, JsonSchema)]
#[serde(deny_unknown_fields)]
struct LyingSheetRow {
    sheet: String,
    x_mm: f64,
    y_mm: f64,
    #[schemars(extend("enum" = [0, 90]))]
    turn_deg: u16,
}

pub(super) fn bed_rows(order: Order<'_>, paths: &[SheetPaths], usual: &Cutter) -> Vec<BedRow> {
    let lies = |(number, place): &(usize, BedPlace)| LyingSheetRow {
        sheet: paths.get(*number).map(|sheet| sheet.name.clone()).unwrap_or_default(),
        x_mm: tidy(place.x),
        y_mm: tidy(place.y),
        turn_deg: u16::from(place.turned) * 90,
    };
    let row = |load: BedLoad| BedRow {
        name: load.paths.name.clone(),
        stock: order.bought(load.paths.stock).to_owned(),
        width_mm: tidy(load.paths.width),
        height_mm: tidy(load.paths.height),
        times: load.paths.times,
        sheets: load.sheets.iter().map(lies).collect(),
        tool: tool_row(&load.paths),
        tool_back: load.back.as_ref().map(tool_row),
    };
    bed_loads(order.stocks, paths, usual).into_iter().map(row).collect()
}

/// What becomes of a rectangle on the trimmer.
#[derive(Serialize, JsonSchema)]
#[serde(rename_all = "snake_case")]
enum PieceRow<'a> {
    /// It is this part.
    Part { part: &'a str, copy: u32 },
    /// It is left over.
    Offcut(BoxRow),
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

fn box_row([x, y, width, height]: [f64; 4]) -> BoxRow {
    BoxRow { x_mm: tidy(x), y_mm: tidy(y), width_mm: tidy(width), height_mm: tidy(height) }
}

fn piece_row<'a>(piece: &TrimPiece, sheet: &Sheet, kit: &'a Kit) -> PieceRow<'a> {
    match piece {
        TrimPiece::Part(number) => {
            let placed = sheet.placements.get(*number);
            let part = placed.map_or("", |placed| part_id(&kit.parts, placed.part));
            PieceRow::Part { part, copy: placed.map_or(0, |placed| placed.copy) }
        }
        TrimPiece::Offcut(rect) => PieceRow::Offcut(box_row(*rect)),
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
    let seconds = sheet.seconds.map(|seconds| rounded(seconds, 1));
    ToolRow { cut_mm, score_mm, draw_mm, travel_mm, lifts: effort.lifts, seconds }
}

pub(super) fn sheet_row<'a>(
    (order, stock, cutter): (Order<'a>, usize, &Cutter),
    kit: &'a Kit,
    sheet: &'a Sheet,
    paths: &[SheetPaths],
) -> SheetRow<'a> {
    let other = |other: usize| {
        let other = sheet.placements.get(other)?;
        Some(OnSheetRow { part: part_id(&kit.parts, other.part), copy: other.copy })
    };
    let others = hosts(kit, &sheet.placements).into_iter().zip(partners(kit, &sheet.placements));
    let placement = |(placed, (host, partner)): (&Placed, (Option<usize>, Option<usize>))| PlacementRow {
        part: part_id(&kit.parts, placed.part),
        copy: placed.copy,
        x_mm: tidy(placed.x),
        y_mm: tidy(placed.y),
        turn_deg: u16::from(placed.quarters) * 90,
        window_of: host.and_then(other),
        pair_of: partner.and_then(other),
    };
    let own = paths.iter().find(|paths| paths.name == sheet.name);
    SheetRow {
        name: &sheet.name,
        stock: order.bought(stock),
        from_drawer: order.lies(stock, sheet.size).is_some(),
        width_mm: tidy(sheet.width),
        height_mm: tidy(sheet.height),
        times: sheet.times,
        by: by(sheet),
        placements: sheet.placements.iter().zip(others).map(placement).collect(),
        marks: sheet.register.iter().map(|mark| box_row([mark.at.x, mark.at.y, mark.size, mark.size])).collect(),
        offcuts: sheet.offcuts.iter().map(|rect| box_row(*rect)).collect(),
        cuts: sheet.cuts.as_ref().map(|piece| piece_row(piece, sheet, kit)),
        tool: own.map(tool_row),
        tool_back: own.and_then(|paths| back(paths, cutter)).as_ref().map(tool_row),
    }
}

/// By what a sheet is cut, unless that is a machine.
fn by(sheet: &Sheet) -> Option<&'static str> {
    (sheet.by() != By::Machine).then(|| sheet.by().word())
}

/// What lies in the drawer, and what is taken.
pub(super) fn lying_rows<'a>(order: Order<'a>, stocks: &[StockSheets]) -> Vec<LyingRow<'a>> {
    let row = |row: DrawerRow| {
        let size = &order.stocks[row.stock].sheets[row.size];
        LyingRow {
            stock: order.bought(row.stock),
            sheet: &size.name,
            width_mm: tidy(size.width.mm()),
            height_mm: tidy(size.height.mm()),
            lie: row.lie,
            taken: row.taken,
            left: row.left(),
        }
    };
    drawer_rows(order.stocks, stocks).into_iter().map(row).collect()
}

pub(super) fn layout_row<'a>(order: Order<'a>, stock: &'a StockSheets) -> LayoutRow<'a> {
    LayoutRow {
        stock: order.bought(stock.stock),
        by: stock.sheets.first().and_then(by),
        sheets: stock.count(),
        lower_bound: stock.lower_bound,
        proven_least: stock.proven_least,
        why: stock.why.as_ref().map(why_row),
        savable_percent: stock.savable.map(|part| rounded(100.0 * part, 2)),
        used_percent: rounded(stock.used_percent, 4),
        cut_short: stock.cut_short,
    }
}
