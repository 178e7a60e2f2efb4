// SPDX-License-Identifier: MIT
//! Blocks on the sheets: parts that must be cut from one place, so that a pattern runs on over them.
//!
//! In: a kit. Out: the same parts with each block as one part that is laid as a whole; once it is laid, its parts in place.
//! Never: decides what is a block.
//!
//! In a block parts lie as far apart as on the album. Where the machine needs more (kerf and gap), they are moved apart
//! by as much, and that is said. For a trimmer, a strip between two parts is nothing or more than two gaps wide, so
//! that two cuts free it.

use super::{TrimCut, TrimPiece};
use crate::contour::{Contour, Point, turned};
use crate::cutter::Cutter;
use crate::length::tolerance::SAME;
use crate::net::Net;
use crate::parts::PieceName;
use crate::parts::{Kit, Part, PatternBlock};
use crate::usable::Usable;
use std::borrow::Cow;

/// A block as it is cut.
#[derive(Clone, Debug)]
pub(super) struct Spread {
    /// What it is for.
    pub name: String,
    /// How much farther apart than on the album its parts are cut, at the most, mm.
    pub jump: f64,
    size: (f64, f64),
    upright: bool,
    members: Vec<Member>,
}

/// A part in a block: where it lies in it.
#[derive(Clone, Copy, Debug)]
struct Member {
    part: usize,
    at: (f64, f64),
    size: (f64, f64),
}

/// A part of a block on its sheet: its number, its lower left corner, its quarter turns.
pub(super) struct PlacedMember {
    pub part: usize,
    pub at: (f64, f64),
    pub quarters: u8,
    size: (f64, f64),
}

/// The kit as it is laid: blocks of this stock are parts behind all others, in the order of the second list.
pub(super) fn gathered<'k>(kit: &'k Kit, stock: usize, usable: &Usable, trimmer: bool) -> (Cow<'k, Kit>, Vec<Spread>) {
    let of_stock = |block: &&PatternBlock| {
        let first = block.parts.first().and_then(|member| kit.parts.get(member.part));
        first.is_some_and(|part| part.stock == stock)
    };
    if !kit.blocks.iter().any(|block| of_stock(&block)) {
        return (Cow::Borrowed(kit), Vec::new());
    }
    let mut parts = kit.parts.clone();
    let mut spreads = Vec::new();
    for block in kit.blocks.iter().filter(of_stock) {
        let Some((spread, whole)) = spread(kit, block, usable, trimmer) else { continue };
        for member in &block.parts {
            if let Some(part) = parts.get_mut(member.part) {
                part.count = part.count.saturating_sub(block.count);
            }
        }
        parts.push(whole);
        spreads.push(spread);
    }
    (Cow::Owned(Kit { parts, ..Kit::default() }), spreads)
}

/// A block with its parts in place, and the part that stands for it.
fn spread(kit: &Kit, block: &PatternBlock, usable: &Usable, trimmer: bool) -> Option<(Spread, Part)> {
    let (mut end, mut jump, mut broad): (f64, f64, f64) = (0.0, 0.0, 0.0);
    let mut members = Vec::new();
    for (number, member) in block.parts.iter().enumerate() {
        let flat = &kit.parts.get(member.part)?.flat;
        let behind = if number == 0 { 0.0 } else { usable.apart(member.behind, trimmer) };
        jump = jump.max(if number == 0 { 0.0 } else { behind - member.behind });
        let at = if block.upright { (0.0, end + behind) } else { (end + behind, 0.0) };
        end += behind + if block.upright { flat.height } else { flat.width };
        broad = broad.max(if block.upright { flat.width } else { flat.height });
        members.push(Member { part: member.part, at, size: (flat.width, flat.height) });
    }
    let size = if block.upright { (broad, end) } else { (end, broad) };
    let net = Net::single("block", Contour::rectangle(0.0, 0.0, size.0, size.1));
    let flat = net.flat().ok()?;
    let first = kit.parts.get(block.parts.first()?.part)?;
    let whole = Part {
        purpose: first.purpose,
        id: format!("block-{}", first.id),
        kind: "block",
        net,
        flat,
        stock: first.stock,
        count: block.count,
        along_grain: false,
        sideways: first.sideways,
        used_in: vec![PieceName::BlockFor(block.name.clone().into())],
        patterns: Vec::new(),
        place: first.place.clone(),
        cut: None,
    };
    Some((Spread { name: block.name.to_string(), jump, size, upright: block.upright, members }, whole))
}

impl Spread {
    /// The numbers of its parts.
    pub(super) fn parts(&self) -> impl Iterator<Item = usize> {
        self.members.iter().map(|member| member.part)
    }

    /// Its parts when it lies at a place of the sheet, turned by quarters.
    pub(super) fn spots(&self, (x, y): (f64, f64), quarters: u8) -> Vec<PlacedMember> {
        let one = |member: &Member| {
            let (from, to) = (member.at, (member.at.0 + member.size.0, member.at.1 + member.size.1));
            let [a, b] = [from, to].map(|corner| turned(Point::from(corner), quarters, self.size));
            let at = (x + a.x.min(b.x), y + a.y.min(b.y));
            let size = ((a.x - b.x).abs(), (a.y - b.y).abs());
            PlacedMember { part: member.part, at, quarters, size }
        };
        self.members.iter().map(one).collect()
    }

    /// How a trimmer cuts these parts apart; the first one is this placement of the sheet.
    pub(super) fn cuts(&self, spots: &[PlacedMember], first: usize, quarters: u8, cutter: &Cutter) -> TrimPiece {
        let (half, gap) = (cutter.offset().mm(), cutter.gap.mm());
        // Side by side as drawn is one above the other after a quarter turn.
        let upright_cuts = self.upright != quarters.is_multiple_of(2);
        let grown = |spot: &PlacedMember| {
            [spot.at.0 - half, spot.at.1 - half, 2.0f64.mul_add(half, spot.size.0), 2.0f64.mul_add(half, spot.size.1)]
        };
        let along =
            |rect: &[f64; 4]| if upright_cuts { (rect[0], rect[0] + rect[2]) } else { (rect[1], rect[1] + rect[3]) };
        let mut rects: Vec<(usize, [f64; 4])> =
            spots.iter().enumerate().map(|(number, spot)| (first + number, grown(spot))).collect();
        rects.sort_by(|one, two| along(&one.1).0.total_cmp(&along(&two.1).0));
        let (mut at, mut pieces) = (Vec::new(), Vec::new());
        let mut before: Option<f64> = None;
        for (number, rect) in &rects {
            let (from, to) = along(rect);
            if let Some(end) = before {
                at.push(end);
                if from - end > gap + SAME {
                    let (start, stop) = (end + gap, from - gap);
                    pieces.push(TrimPiece::Offcut(if upright_cuts {
                        [start, rect[1], stop - start, rect[3]]
                    } else {
                        [rect[0], start, rect[2], stop - start]
                    }));
                    at.push(stop);
                }
            }
            pieces.push(TrimPiece::Part(*number));
            before = Some(to);
        }
        let corner = |pick: fn(&[f64; 4]) -> f64, fold: fn(f64, f64) -> f64, start: f64| {
            rects.iter().map(|(_, rect)| pick(rect)).fold(start, fold)
        };
        let (left, bottom) = (corner(|r| r[0], f64::min, f64::INFINITY), corner(|r| r[1], f64::min, f64::INFINITY));
        let right = corner(|r| r[0] + r[2], f64::max, f64::NEG_INFINITY);
        let top = corner(|r| r[1] + r[3], f64::max, f64::NEG_INFINITY);
        TrimPiece::Cut(TrimCut { rect: [left, bottom, right - left, top - bottom], upright: upright_cuts, at, pieces })
    }
}
