// SPDX-License-Identifier: MIT
//! The way back from the layout engine: parts in place on whole sheets, in millimetres, and what is left over.

use super::stock_parts::{SIDEWAYS, StockParts};
use super::{Placed, Sheet, StockSheets, TrimCut, TrimPiece};
use crate::layout::{self, CutDirection, Layout, Turn};
use crate::length::Length;
use crate::usable;

/// Rectangles smaller than this on a side are not worth keeping: our choice, mm.
pub(crate) const WORTH_KEEPING: f64 = 40.0;

impl StockParts<'_> {
    /// The sheets of a layout, in millimetres.
    pub(super) fn sheets(&self, layout: &Layout) -> StockSheets {
        let half_kerf = self.cutter.offset().mm();
        let mut copies = vec![0; self.first_spread];
        let digits = layout.sheets.len().to_string().len().max(2);
        let sheets: Vec<Sheet> = layout
            .sheets
            .iter()
            .enumerate()
            .map(|(index, laid)| {
                let usable::UsableSheet { size, stood, border, .. } = self.usable.sheets[laid.sheet];
                let mut placements = Vec::new();
                // What each placement of the layout is among the sheet's.
                let mut pieces = Vec::new();
                for placement in &laid.placements {
                    let quarters = match placement.turn {
                        Turn::None => 0,
                        Turn::Quarter => 1,
                        Turn::Half => 2,
                        Turn::ThreeQuarter => 3,
                    };
                    let part = self.parts[placement.item];
                    let quarters =
                        if self.is_sideways(&self.kit.parts[part]) { (quarters + SIDEWAYS) % 4 } else { quarters };
                    let [x, y] = [(placement.x, border.0), (placement.y, border.1)]
                        .map(|(at, border)| Length::from_eighths(at).mm() + border.mm() + half_kerf);
                    let mut put = |part: usize, (x, y), quarters| {
                        copies[part] += 1;
                        placements.push(Placed { part, copy: copies[part], x, y, quarters });
                        placements.len() - 1
                    };
                    let spread = part.checked_sub(self.first_spread).and_then(|block| self.spreads.get(block));
                    let Some(spread) = spread else {
                        pieces.push(TrimPiece::Part(put(part, (x, y), quarters)));
                        continue;
                    };
                    let spots = spread.spots((x, y), quarters);
                    let numbers: Vec<usize> = spots.iter().map(|spot| put(spot.part, spot.at, spot.quarters)).collect();
                    let first = numbers.first().copied().unwrap_or_default();
                    pieces.push(spread.cuts(&spots, first, quarters, self.cutter));
                }
                Sheet {
                    name: format!("{}-{:0digits$}", self.stock.name, index + 1),
                    size,
                    width: stood.width.mm(),
                    height: stood.height.mm(),
                    times: laid.times,
                    spare: false,
                    register: self.cutter.register(stood.width, stood.height),
                    placements,
                    offcuts: self.offcuts(laid),
                    cuts: laid.cuts.as_ref().map(|piece| self::piece(piece, &pieces, border)),
                }
            })
            .collect();
        let area_of = |sheet: &Sheet| {
            sheet.placements.iter().map(|placed| self.kit.parts[placed.part].flat.area()).sum::<f64>()
                * f64::from(sheet.times)
        };
        let used: f64 = sheets.iter().map(area_of).sum();
        let whole: f64 = sheets.iter().map(|sheet| sheet.width * sheet.height * f64::from(sheet.times)).sum();
        StockSheets {
            stock: self.number,
            sheets,
            lower_bound: layout.lower_bound,
            proven_least: layout.proven_least,
            why: None,
            savable: layout.savable,
            used_percent: if whole > 0.0 { 100.0 * used / whole } else { 0.0 },
            cut_short: layout.cut_short,
        }
    }

    /// What is left over, the margin given back to what lies at the sheet's edge. What is printed on is not kept.
    fn offcuts(&self, laid: &layout::LaidSheet) -> Vec<[f64; 4]> {
        let usable::UsableSheet { stood, border, width, height, .. } = self.usable.sheets[laid.sheet];
        let least = Length::from_mm(WORTH_KEEPING).eighths();
        if let Some(cuts) = &laid.cuts {
            // On the trimmer only what its cuts free is an offcut, and the margin is trimmed away before.
            let whole =
                |[x, y, width, height]: [i64; 4]| [x, y, width, height].map(|side| Length::from_eighths(side).mm());
            let put_back = |[x, y, width, height]: [f64; 4]| [x + border.0.mm(), y + border.1.mm(), width, height];
            return cuts.offcuts(least).into_iter().map(whole).map(put_back).collect();
        }
        let items = self.items(true);
        let marked = !self.cutter.register(stood.width, stood.height).is_empty();
        let (width, height) = if marked { (width, height) } else { (stood.width.eighths(), stood.height.eighths()) };
        let whole = layout::SheetType { width, height, count: None, price: None };
        let none = (Length::ZERO, Length::ZERO);
        let (given_back, kept) = if marked { (none, border) } else { (border, none) };
        let moved: Vec<layout::Placement> = laid
            .placements
            .iter()
            .map(|placement| layout::Placement {
                x: placement.x + given_back.0.eighths(),
                y: placement.y + given_back.1.eighths(),
                ..*placement
            })
            .collect();
        layout::offcuts(&whole, &items, &moved, self.cutter.gap.eighths(), least)
            .into_iter()
            .map(|(x, y, width, height)| {
                [x + kept.0.eighths(), y + kept.1.eighths(), width, height].map(|side| Length::from_eighths(side).mm())
            })
            .collect()
    }
}

/// A piece in millimetres on the whole sheet, the border put back.
fn piece(piece: &layout::CutTree, parts: &[TrimPiece], border: (Length, Length)) -> TrimPiece {
    let (beside, below) = (border.0.mm(), border.1.mm());
    let mm = |eighths: i64| Length::from_eighths(eighths).mm();
    let rect = |[left, bottom, width, height]: [i64; 4]| [mm(left) + beside, mm(bottom) + below, mm(width), mm(height)];
    match piece {
        layout::CutTree::Part(number) => parts.get(*number).cloned().unwrap_or(TrimPiece::Part(*number)),
        layout::CutTree::Offcut(offcut) => TrimPiece::Offcut(rect(*offcut)),
        layout::CutTree::Cut(cut) => {
            let upright = cut.way == CutDirection::Upright;
            TrimPiece::Cut(TrimCut {
                rect: rect([cut.left, cut.bottom, cut.width, cut.height]),
                upright,
                at: cut.at.iter().map(|at| mm(*at) + if upright { beside } else { below }).collect(),
                pieces: cut.pieces.iter().map(|piece| self::piece(piece, parts, border)).collect(),
            })
        }
    }
}
