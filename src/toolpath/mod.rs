// SPDX-License-Identifier: MIT
//! What the tool does on each sheet: strokes on three layers, in order.
//!
//! In: sheets with parts in place, the cutter. Out: a [`SheetPaths`] a sheet: draw, score, inner cuts, outer
//! cuts. Never: writes a file.
//!
//! Only here are outlines moved by the kerf, in `kerf`; `sheets` keeps room for it.

mod back;
mod bed;
mod caption;
mod curve;
mod drawn_from;
mod effort;
mod inner;
mod kerf;
mod letters;
mod manner;
mod marks;
mod nested;
mod nick;
mod perforate;
mod share;
mod stroke;
mod trail;
mod travel;
mod walk;
mod weight;

pub use back::back;
pub use bed::{BedLoad, back_sheets, bed_loads, cut_sheets};
pub use effort::ToolEffort;
pub use letters::{Lettering, lettering};
#[cfg(test)]
pub(crate) use manner::in_eighths;
pub(crate) use manner::{Hints, in_lines, made};
pub use marks::Labels;
pub use perforate::Dashes;
pub(crate) use perforate::dashes;
pub use stroke::{Layer, REGISTER, SheetPaths, Stroke, StrokePath};

use crate::album::Order;
use crate::contour::{Edge, Point};
use crate::cutter::{CutOrder, Cutter, RegisterMark};
use crate::finding::Checked;
use crate::layout::Effort;
use crate::parts::{Hidden, Kit};
use crate::sheets::{Placed, Sheet, StockSheets, hosts};
use crate::stock::By;
use kerf::{ToolPart, uncuttable};
use std::cmp::Reverse;
use std::collections::BTreeMap;

/// The strokes of every sheet that a machine cuts, in the sheets' order; what is cut from a stock that is said to be trimmed
/// has none. Each stock is cut with its own cutter, or with the usual one.
///
/// The effort is what the order of strokes is sought with: little of it leaves the head some more to travel.
///
/// Findings name each part, and each hole of it, that the tool cannot cut with this kerf, or not as its cutter file asks, and
/// what could not be marked.
#[must_use]
pub fn paths(
    kit: &Kit,
    order: Order<'_>,
    laid: &[StockSheets],
    usual: &Cutter,
    (labels, effort): (Labels, Effort),
) -> Checked<Vec<SheetPaths>> {
    let stocks = order.stocks;
    let by_machine = |stock: usize| stocks.get(stock).is_none_or(|stock| stock.by == By::Machine);
    // What is handed over cut is scored by whoever folds it.
    let scored = |stock: usize| by_machine(stock) && !order.is_unscored(stock);
    let cutter = |stock: usize| stocks.get(stock).map_or(usual, |stock| stock.cutter(usual));
    let laid: Vec<&StockSheets> = laid.iter().filter(|laid| by_machine(laid.stock)).collect();
    let mut copies = vec![0; kit.parts.len()];
    for placed in laid.iter().flat_map(|laid| &laid.sheets).flat_map(|sheet| &sheet.placements) {
        copies[placed.part] = placed.copy.max(copies[placed.part]);
    }
    let asked = marks::Marking { labels, title: order.title, units: order.units };
    let (marks, mut notes) = marks::marks(kit, &copies, asked, |stock| cutter(stock).writing);
    // What of a part is hidden is asked for only where it matters.
    let asks = kit.parts.iter().any(|part| ToolPart::asks(cutter(part.stock)));
    let hidden = if asks { kit.hidden() } else { vec![Hidden::default(); kit.parts.len()] };
    let (mut uncut, mut told) = (Vec::new(), Vec::new());
    let parts = kit.parts.iter().zip(marks).zip(hidden.iter().zip(&copies));
    let tools: Vec<Option<ToolPart>> = parts
        .map(|((part, marks), (hidden, copies))| {
            let cutter = cutter(part.stock);
            match ToolPart::new(part, marks, hidden, cutter) {
                Ok(tool) => {
                    if *copies > 0 {
                        told.extend(tool.few_nicks(part, cutter).into_iter().chain(inner::too_small(part, cutter)));
                    }
                    Some(if order.is_unscored(part.stock) { tool.unscored() } else { tool })
                }
                Err(problems) if by_machine(part.stock) => {
                    uncut.extend(problems.into_iter().map(|problem| uncuttable(part, problem, cutter)));
                    None
                }
                Err(_) => None,
            }
        })
        .collect();
    if uncut.is_empty() {
        uncut.append(&mut notes);
    }
    uncut.append(&mut told);
    uncut.extend(laid.iter().filter_map(|laid| nested::told(kit, stocks, laid)));
    uncut.extend(laid.iter().flat_map(|laid| drawn_from::told(stocks, laid, usual)));
    uncut.extend(weight::told(kit, &copies, |stock| scored(stock).then(|| cutter(stock))));
    let sheet = |stock: usize, sheet: &Sheet| {
        let (strokes, behind) = strokes(kit, &tools, &sheet.placements, (cutter(stock), effort));
        let front = SheetPaths {
            name: sheet.name.clone(),
            stock,
            times: sheet.times,
            width: sheet.width,
            height: sheet.height,
            seconds: ToolEffort::of_strokes(&strokes).seconds(cutter(stock)),
            register: register(sheet, cutter(stock)),
            strokes,
            behind,
        };
        // The back keeps the machine busy, too.
        let more = back(&front, cutter(stock)).and_then(|back| back.seconds).unwrap_or_default();
        SheetPaths { seconds: front.seconds.map(|seconds| seconds + more), ..front }
    };
    let sheet = &sheet;
    let sheets = laid.iter().flat_map(|laid| laid.sheets.iter().map(move |one| sheet(laid.stock, one)));
    Checked::new(sheets.collect(), uncut)
}

/// The lines of a sheet's register marks, curves as the machine knows them.
fn register(sheet: &Sheet, cutter: &Cutter) -> Vec<StrokePath> {
    let line = |points: &Vec<Point>| {
        let edges = points.windows(2).map(|pair| Edge { from: pair[0], to: pair[1], bulge: 0.0 });
        StrokePath::Open(edges.collect())
    };
    let runs = |mark: &RegisterMark| -> Vec<StrokePath> {
        mark.lines.iter().map(line).chain(mark.outline.clone().map(StrokePath::Closed)).collect()
    };
    sheet.register.iter().flat_map(runs).map(|run| manner::curved(run, &cutter.manner)).collect()
}

/// What the tool does on one sheet, in order, and what it draws on its back.
fn strokes(
    kit: &Kit,
    tools: &[Option<ToolPart>],
    placements: &[Placed],
    (cutter, effort): (&Cutter, Effort),
) -> (Vec<Stroke>, Vec<Stroke>) {
    let tool = |part: usize| tools.get(part).and_then(Option::as_ref);
    let hosts = hosts(kit, placements);
    let (mut draw, mut scores, mut behind) = (Vec::new(), Vec::new(), Vec::new());
    // What lies in a window is cut before the window falls out: cuts go by how many windows are round them, the most first.
    let mut cuts: BTreeMap<Reverse<usize>, [Vec<Stroke>; 2]> = BTreeMap::new();
    for (at, placed) in placements.iter().enumerate() {
        if let Some(tool) = tool(placed.part) {
            let windows = std::iter::successors(hosts[at], |host| hosts[*host]).take(placements.len()).count();
            let [inner, outer] = cuts.entry(Reverse(windows)).or_default();
            tool.place(placed, [&mut draw, &mut scores, inner, outer, &mut behind]);
        }
    }
    let mut out = Vec::new();
    for [inner, outer] in cuts.into_values() {
        let outer = if cutter.shares_cuts() { share::once(outer) } else { outer };
        if cutter.manner.order == CutOrder::SmallFirst {
            let hole = |stroke: &Stroke| match &stroke.run {
                StrokePath::Closed(contour) => contour.area().abs(),
                _ => 0.0,
            };
            let part = |stroke: &Stroke| kit.parts.get(stroke.part).map_or(0.0, |part| part.flat.outline.area());
            out.extend(by_size(inner, hole).into_iter().chain(by_size(outer, part)));
        } else {
            out.extend([inner, outer]);
        }
    }
    let mut layers = [(Layer::Draw, vec![draw]), (Layer::Score, vec![scores]), (Layer::Cut, out)];
    let order = Layer::in_order(cutter.forms.layer_order);
    layers.sort_by_key(|(layer, _)| order.iter().position(|one| one == layer));
    let in_order = ordered(layers.into_iter().flat_map(|(_, groups)| groups), effort);
    let at: BTreeMap<(usize, u32), &Placed> = placements.iter().map(|one| ((one.part, one.copy), one)).collect();
    let front = made(in_order, cutter, |stroke| {
        let placed = at.get(&(stroke.part, stroke.copy));
        placed.and_then(|placed| Some(tool(placed.part)?.hints(placed))).unwrap_or_default()
    });
    (front, made(ordered([behind], effort), cutter, |_| Hints::default()))
}

/// The strokes of each size, the smallest first; `size` gives an area in mm², whose hundredths don't matter.
fn by_size(strokes: Vec<Stroke>, size: impl Fn(&Stroke) -> f64) -> Vec<Vec<Stroke>> {
    let mut sizes: BTreeMap<u64, Vec<Stroke>> = BTreeMap::new();
    for stroke in strokes {
        #[allow(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "an area on a sheet is far below 2^52"
        )]
        let key = (size(&stroke) * 10.0).round().max(0.0) as u64;
        sizes.entry(key).or_default().push(stroke);
    }
    sizes.into_values().collect()
}

/// Each group in an order that travels little; the groups one after the other.
fn ordered(groups: impl IntoIterator<Item = Vec<Stroke>>, effort: Effort) -> Vec<Stroke> {
    let mut head = Point::ZERO;
    groups.into_iter().flat_map(|group| travel::in_order(group, &mut head, effort)).collect()
}
