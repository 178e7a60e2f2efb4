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
//! changes no length and no side of the card).

use crate::contour::{Contour, Point, Vec2};
use crate::net::{Fold, Net, Panel};
use crate::parts::bond::Side;
use crate::parts::kit::Kit;

/// The mirror image of a kit.
pub(super) fn mirrored(mut kit: Kit) -> Kit {
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

fn net(of: &Net) -> Net {
    let sum = ends(of);
    let point = |point: Point| Point::new(sum - point.x, point.y);
    let panel = |panel: &Panel| Panel { outline: panel.outline.mirrored(point).counter_clockwise(), ..panel.clone() };
    Net {
        panels: of.panels.iter().map(panel).collect(),
        folds: of.folds.iter().map(|fold| Fold { from: point(fold.from), to: point(fold.to), ..*fold }).collect(),
        holes: of.holes.iter().map(|hole: &Contour| hole.mirrored(point)).collect(),
        marks: of.marks.iter().map(|mark| mark.map(point)).collect(),
    }
}
