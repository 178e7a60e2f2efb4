// SPDX-License-Identifier: MIT
//! Albums that are bound at the right: the mirror image of those bound at the left.
//!
//! ```text
//!   bound at the left        bound at the right
//!   spine [ page 1 >         < page 1 ] spine       seen from the front; heads stay up, fronts stay fronts
//! ```
//!
//! Every net is mirrored from left to right, and with it every point that a bond speaks of. What is a valley stays one,
//! fronts and backs keep their names, pages their numbers. Page 1 then stands at the right of the spine (derived: a mirror
//! changes no length and no side of the card). What is called after the side that it is on is called after the other one: the
//! left tab is what lies at the left, as pictures and hands have it.

use crate::contour::{Contour, Point, Vec2};
use crate::net::{Fold, Net, Panel};
use crate::parts::bond::Side;
use crate::parts::kit::Kit;

/// Panels that are called after a side, and what the same panel is called on the other.
const SIDES: [(&str, &str); 7] = [
    ("left tab", "right tab"),
    ("left gusset", "right gusset"),
    ("left wing", "right wing"),
    ("left seam", "right seam"),
    ("left lap", "right lap"),
    ("left joint", "right joint"),
    ("left edge", "right edge"),
];

/// The mirror image of a kit.
pub(super) fn mirrored(mut kit: Kit) -> Kit {
    let names: Vec<&'static str> =
        kit.pieces.iter().flat_map(|piece| &piece.net.panels).map(|panel| panel.name).collect();
    let net = |of: &Net| net(of, &names);
    let sums: Vec<f64> = kit.pieces.iter().map(|piece| ends(&piece.net)).collect();
    for part in &mut kit.parts {
        part.net = net(&part.net);
        // The mirror image of a sound net is one.
        if let Ok(flat) = part.net.flat() {
            part.flat = flat;
        }
    }
    for piece in &mut kit.pieces {
        piece.net = net(&piece.net);
    }
    let turn = |side: &mut Side| {
        let sum = sums.get(side.piece).copied().unwrap_or_default();
        side.at = Point::new(sum - side.at.x, side.at.y);
        side.along = Vec2::new(-side.along.x, side.along.y);
    };
    for bond in &mut kit.bonds {
        turn(&mut bond.one);
        turn(&mut bond.other);
    }
    for pocket in &mut kit.pockets {
        turn(&mut pocket.inside);
    }
    for tucked in &mut kit.tucked {
        let sum = sums.get(tucked.piece).copied().unwrap_or_default();
        tucked.outline = tucked.outline.mirrored(|point| Point::new(sum - point.x, point.y)).counter_clockwise();
    }
    for block in kit.blocks.iter_mut().filter(|block| !block.upright) {
        // What lies between two parts stays between them.
        block.parts.reverse();
        let mut before = 0.0;
        for part in &mut block.parts {
            std::mem::swap(&mut part.behind, &mut before);
        }
    }
    kit
}

/// Its left end and its right end, added: a point and its mirror image come to the same.
fn ends(net: &Net) -> f64 {
    let bounds = net.panels.iter().map(|panel| panel.outline.bounds());
    bounds.reduce(|one, two| one.union(two)).map_or(0.0, |all| all.x0 + all.x1)
}

/// What a panel is called on the other side: one of one's own as its counterpart is, where it has one.
fn other_side(name: &'static str, names: &[&'static str]) -> &'static str {
    let known = SIDES.iter().flat_map(|(left, right)| [(*left, *right), (*right, *left)]).find(|(one, _)| *one == name);
    let told = |side: &str, other: &str| {
        let rest = name.strip_prefix(side)?;
        names.iter().copied().find(|one| one.strip_prefix(other) == Some(rest))
    };
    known
        .map(|(_, other)| other)
        .or_else(|| told("left ", "right "))
        .or_else(|| told("right ", "left "))
        .unwrap_or(name)
}

fn net(of: &Net, names: &[&'static str]) -> Net {
    let sum = ends(of);
    let point = |point: Point| Point::new(sum - point.x, point.y);
    let panel = |panel: &Panel| Panel {
        name: other_side(panel.name, names),
        outline: panel.outline.mirrored(point).counter_clockwise(),
        ..panel.clone()
    };
    Net {
        panels: of.panels.iter().map(panel).collect(),
        folds: of.folds.iter().map(|fold| Fold { from: point(fold.from), to: point(fold.to), ..*fold }).collect(),
        holes: of.holes.iter().map(|hole: &Contour| hole.mirrored(point)).collect(),
        marks: of.marks.iter().map(|mark| mark.map(point)).collect(),
    }
}
