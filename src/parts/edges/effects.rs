// SPDX-License-Identifier: MIT
//! What cut edges cost: a pocket its mouth, a flap its reach, a face the paper that goes onto it.

use super::chosen::{ChosenEdges, CutCorner, CutSide};
use crate::contour::{Corner, Edge, Point, Vec2};
use crate::length::tolerance::{READ, SAME};
use crate::net::{CornerForm, Use};
use crate::parts::bond::{Face, Side};
use crate::parts::build::builder::Builder;
use crate::parts::build::face::Plain;
use crate::parts::pocket::Way;

/// Card left between a row of cuts and the paper on its face, mm: our choice.
const BESIDE: f64 = 1.0;

/// How much of everything there was before the entry's parts came.
pub(super) struct Before {
    pieces: usize,
    pockets: usize,
    closings: usize,
    flaps: usize,
    plains: usize,
}

impl Before {
    pub(super) fn of(builder: &Builder<'_>) -> Self {
        let kit = builder.kit();
        Self {
            pieces: kit.pieces.len(),
            pockets: kit.pockets.len(),
            closings: kit.closings.len(),
            flaps: kit.flaps.len(),
            plains: builder.plains.len(),
        }
    }
}

/// Works out what the entry's cut edges change of what it stated besides its pieces.
pub(super) fn effects(builder: &mut Builder<'_>, before: &Before, chosen: &ChosenEdges) {
    mouths(builder, before, chosen);
    flaps(builder, before, chosen);
    let mut plains = std::mem::take(&mut builder.plains);
    for plain in plains.iter_mut().skip(before.plains) {
        face(plain, before, chosen);
    }
    builder.plains = plains;
}

/// Whether an edge runs along a direction.
fn runs(line: Edge, along: Vec2) -> bool {
    let way = line.to - line.from;
    way.cross(along).abs() < READ * way.hypot() * along.hypot()
}

fn mouths(builder: &mut Builder<'_>, before: &Before, chosen: &ChosenEdges) {
    for pocket in builder.kit_mut().pockets.iter_mut().skip(before.pockets) {
        let inside = pocket.inside;
        let own = |side: &&CutSide| (side.at.0 + before.pieces, side.at.1) == (inside.piece, inside.panel);
        for side in chosen.sides.iter().filter(|side| side.mouth && side.bites).filter(own) {
            let way = if runs(side.line, inside.along) { Way::Across } else { Way::Up };
            let notch = &mut pocket.notch[way as usize];
            *notch = notch.max(side.depth);
        }
    }
}

/// A flap reaches so much less far, and so much less far over a mouth.
fn flaps(builder: &mut Builder<'_>, before: &Before, chosen: &ChosenEdges) {
    let deepest = |of: &dyn Fn(&CutSide) -> bool| {
        chosen.sides.iter().filter(|side| side.bites && of(side)).map(|side| side.depth).fold(0.0, f64::max)
    };
    let pieces = &builder.kit().pieces;
    let by_flap = deepest(&|side| {
        let net = &pieces[side.at.0 + before.pieces].net;
        let own = |fold: &&crate::net::Fold| fold.between[1] == side.at.1;
        net.panels[side.at.1].purpose == Use::Flap
            && net.folds.iter().filter(own).any(|fold| runs(side.line, fold.to - fold.from))
    });
    let by_mouth = deepest(&|side| side.mouth);
    let kit = builder.kit_mut();
    for closing in kit.closings.iter_mut().skip(before.closings) {
        closing.bitten = by_flap + by_mouth;
    }
    for flap in kit.flaps.iter_mut().skip(before.flaps) {
        flap.overlap = flap.overlap.map(|overlap| overlap - by_flap - by_mouth);
    }
}

/// The paper of a face keeps its border from the deepest cut, and has corners like the card's.
fn face(plain: &mut Plain, before: &Before, chosen: &ChosenEdges) {
    let side = plain.side;
    let is_its = |at: (usize, usize)| (at.0 + before.pieces, at.1) == (side.piece, side.panel);
    let corners: Vec<&CutCorner> = chosen.corners.iter().filter(|corner| is_its(corner.at)).collect();
    for corner in corners {
        let at = seen(side, corner.edges[0].to);
        let spots = [(0.0, 0.0), (plain.width, 0.0), (plain.width, plain.height), (0.0, plain.height)];
        if let Some(which) = spots.iter().position(|&spot| at.distance(spot.into()) < READ) {
            plain.corners[which] = match corner.form {
                CornerForm::Rounded => Corner::Rounded(corner.size),
                CornerForm::Clipped => Corner::Clipped { across: corner.size, up: corner.size },
            };
        }
    }
    for cut in chosen.sides.iter().filter(|cut| is_its(cut.at)) {
        let deep = if cut.bites { cut.depth } else { cut.depth + BESIDE };
        shrink(plain, [seen(side, cut.line.from), seen(side, cut.line.to)], inward(side, cut.line), deep);
    }
}

/// A point of a panel as the reader of a face sees it, from the face's lower left corner.
fn seen(side: Side, point: Point) -> Point {
    let off = point - side.at;
    Point::new(off.dot(side.along), off.dot(up(side)))
}

/// Up as a face is seen: a quarter turn from the way to the right, counter-clockwise.
fn up(side: Side) -> Vec2 {
    Vec2::new(-side.along.y, side.along.x) * if side.face == Face::Front { 1.0 } else { -1.0 }
}

/// The way into the card from an edge, as the face is seen.
fn inward(side: Side, line: Edge) -> Vec2 {
    let way = line.to - line.from;
    let into = Vec2::new(-way.y, way.x);
    Vec2::new(into.dot(side.along), into.dot(up(side)))
}

fn shrink(plain: &mut Plain, ends: [Point; 2], into: Vec2, deep: f64) {
    let upright = into.x.abs() > into.y.abs();
    let (low, high) = if upright { (0.0, plain.height) } else { (0.0, plain.width) };
    let along = ends.map(|end| if upright { end.y } else { end.x });
    // Beside the face it takes nothing of it.
    if along[0].max(along[1]) < low + SAME || along[0].min(along[1]) > high - SAME {
        return;
    }
    let at = ends.map(|end| if upright { end.x } else { end.y });
    let (forward, long) = if upright { (into.x > 0.0, plain.width) } else { (into.y > 0.0, plain.height) };
    let lost = if forward { at[0].max(at[1]) + deep } else { long - (at[0].min(at[1]) - deep) };
    if lost <= SAME || lost > long + deep {
        return;
    }
    let rest = (long - lost).max(0.0);
    if upright {
        plain.width = rest;
    } else {
        plain.height = rest;
    }
    let by = if upright { plain.side.along } else { up(plain.side) };
    if forward {
        plain.side.at += by * lost;
        for hole in &mut plain.holes {
            *hole = hole.shifted(if upright { Vec2::new(-lost, 0.0) } else { Vec2::new(0.0, -lost) });
        }
        if let Some(lies) = &mut plain.lies {
            if upright { lies.at.0 += lost } else { lies.at.1 += lost }
        }
    }
    // What is cut away there has no corners any more.
    let gone = match (upright, forward) {
        (true, true) => [0, 3],
        (true, false) => [1, 2],
        (false, true) => [0, 1],
        (false, false) => [2, 3],
    };
    for corner in gone {
        plain.corners[corner] = Corner::Square;
    }
}
