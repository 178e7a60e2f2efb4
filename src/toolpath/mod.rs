// SPDX-License-Identifier: MIT
//! What the tool does on each sheet: strokes on three layers, in order.
//!
//! In: sheets with parts in place, the cutter. Out: a [`SheetPaths`] a sheet: draw, score, inner cuts, outer
//! cuts. Never: writes a file.
//!
//! Only here are outlines moved by the kerf, in `kerf`; `sheets` keeps room for it.

mod effort;
mod kerf;
mod letters;
mod marks;
mod perforate;
mod share;
mod stroke;
mod travel;

pub use effort::ToolEffort;
pub use letters::{Lettering, lettering};
pub use marks::Labels;
pub use stroke::{Layer, SheetPaths, Stroke, StrokePath};

use crate::contour::Point;
use crate::cutter::Cutter;
use crate::finding::Checked;
use crate::parts::Kit;
use crate::sheets::{Placed, Sheet, StockSheets};
use crate::stock::{By, Stock};
use kerf::{ToolPart, uncuttable};

/// The strokes of every sheet that a machine cuts, in the sheets' order; what is cut from a stock that is said to be trimmed
/// has none. Each stock is cut with its own cutter, or with the usual one.
///
/// Findings name each part, and each hole of it, that the tool cannot cut with this kerf, and what could not be
/// marked.
#[must_use]
pub fn paths(
    kit: &Kit,
    stocks: &[Stock],
    laid: &[StockSheets],
    usual: &Cutter,
    labels: Labels,
) -> Checked<Vec<SheetPaths>> {
    let by_machine = |stock: usize| stocks.get(stock).is_none_or(|stock| stock.by == By::Machine);
    let cutter = |stock: usize| stocks.get(stock).map_or(usual, |stock| stock.cutter(usual));
    let laid: Vec<&StockSheets> = laid.iter().filter(|laid| by_machine(laid.stock)).collect();
    let mut findings = Vec::new();
    let mut copies = vec![0; kit.parts.len()];
    for placed in laid.iter().flat_map(|laid| &laid.sheets).flat_map(|sheet| &sheet.placements) {
        copies[placed.part] = placed.copy.max(copies[placed.part]);
    }
    let (marks, note) = marks::marks(kit, &copies, labels);
    let tools: Vec<Option<ToolPart>> = kit
        .parts
        .iter()
        .zip(marks)
        .map(|(part, marks)| {
            let cutter = cutter(part.stock);
            match ToolPart::new(part, marks, cutter) {
                Ok(tool) => Some(tool),
                Err(problems) if by_machine(part.stock) => {
                    findings.extend(problems.into_iter().map(|problem| uncuttable(part, problem, cutter)));
                    None
                }
                Err(_) => None,
            }
        })
        .collect();
    if findings.is_empty() {
        findings.extend(note);
    }
    let tool = |placed: &Placed| tools.get(placed.part).and_then(Option::as_ref);
    let one = |stock: usize, sheet: &Sheet| {
        let mut strokes: [Vec<Stroke>; 4] = Default::default();
        for placed in &sheet.placements {
            if let Some(tool) = tool(placed) {
                tool.place(placed, &mut strokes);
            }
        }
        let [draw, scores, inner, outer] = strokes;
        let outer = if cutter(stock).shared_cuts { share::once(outer) } else { outer };
        SheetPaths {
            name: sheet.name.clone(),
            stock,
            times: sheet.times,
            width: sheet.width,
            height: sheet.height,
            strokes: ordered([draw, scores, inner, outer]),
        }
    };
    let one = &one;
    let sheets = laid.iter().flat_map(|laid| laid.sheets.iter().map(move |sheet| one(laid.stock, sheet)));
    Checked::new(sheets.collect(), findings)
}

/// Each group in an order that travels little; the groups one after the other.
fn ordered(groups: [Vec<Stroke>; 4]) -> Vec<Stroke> {
    let mut head = Point::ZERO;
    groups.into_iter().flat_map(|group| travel::in_order(group, &mut head)).collect()
}
