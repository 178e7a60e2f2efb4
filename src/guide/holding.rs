// SPDX-License-Identifier: MIT
//! What holds a joint, and where what is stuck comes to lie.
//!
//! In: a kit, one of its bonds. Out: tape, glue or neither; borders. Never: words, pictures.

use crate::album::Album;
use crate::contour::{Point, Rect, Vec2};
use crate::fit::order::Doing;
use crate::fit::tape;
use crate::length::tolerance::SAME;
use crate::net::{Net, Sense, Use};
use crate::parts::{Bond, Face, Hold, Kit, Side};

/// A border narrower than this is none, mm: our choice.
pub const SEEN: f64 = 0.3;

/// What is folded farther than this lies under what it hangs on, degrees.
const UNDER: f64 = 175.0;

/// A seam whose tape would be shorter than this share of it is glued: our choice.
const LEAST_RUN: f64 = 0.5;

/// What holds a joint.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Stick {
    /// Tape of a width along a strip, mm.
    Tape {
        /// How long, mm.
        length: f64,
        /// How wide, mm.
        width: f64,
    },
    /// Tape along all four edges, mm.
    Round {
        /// How long all of it is, mm.
        length: f64,
        /// How wide, mm.
        width: f64,
    },
    /// Wet glue.
    Glue,
    /// A tab in its page: tape on its one face, glue on the other.
    Tab {
        /// Length of the tape, mm.
        length: f64,
        /// Its width, mm.
        width: f64,
    },
    /// Nothing: it slides in.
    Slides,
}

/// What holds a bond: our choice, except that nothing that must still be moved gets tape on both faces.
#[must_use]
pub fn stick(album: &Album, kit: &Kit, doing: Doing, bond: usize) -> Stick {
    let Some(bond) = kit.bonds.get(bond) else { return Stick::Slides };
    let side = glued(kit, bond);
    let [across, along] = sides(kit, side);
    let width = tape(album, across);
    match (bond.hold, doing, width) {
        (Hold::Slid, Doing::HangPage, Some(width)) => Stick::Tab { length: run(kit, side, width), width },
        (Hold::Slid, ..) => Stick::Slides,
        (_, Doing::HangPage | Doing::StackStrips | Doing::MakeCover | Doing::MeetCover | Doing::LineCover, _)
        | (.., None) => Stick::Glue,
        (.., Some(_)) if is_whole(kit, side) => {
            // Tape round a panel, wide enough to hold and narrow enough to stay hidden.
            let width = tape(album, across.min(6.5) + SAME).unwrap_or(across);
            Stick::Round { length: 2.0 * (across + along), width }
        }
        (.., Some(width)) => {
            let length = run(kit, side, width);
            // Of so short a run little would hold.
            if length < along * LEAST_RUN { Stick::Glue } else { Stick::Tape { length, width } }
        }
    }
}

/// How long a run of tape along a panel's fold is that nowhere stands out of the panel, mm: where the panel's ends are cut
/// slanting, a tape as wide as the panel ends where the slant begins, a narrower one runs on (H18).
fn run(kit: &Kit, side: &Side, width: f64) -> f64 {
    let [across, along] = sides(kit, side);
    let Some(net) = kit.pieces.get(side.piece).map(|piece| &piece.net) else { return along };
    let Some(panel) = net.panels.get(side.panel) else { return along };
    let Some(fold) = net.folds.iter().find(|fold| fold.between.contains(&side.panel)) else { return along };
    let way = (fold.to - fold.from).normalize();
    let inwards = Vec2::new(-way.y, way.x);
    let inwards = if (panel.outline.bounds().center() - fold.from).dot(inwards) < 0.0 { -inwards } else { inwards };
    let chord = |off: f64| {
        let crossed = panel.outline.edges().flat_map(|edge| {
            let [from, to] = [edge.from, edge.to].map(|point| (point - fold.from).dot(inwards) - off);
            let on = [from, to].map(|off| off.abs() < SAME);
            let between = (from * to < 0.0).then(|| edge.from.lerp(edge.to, from / (from - to)));
            let ends = [on[0].then_some(edge.from), on[1].then_some(edge.to), between];
            ends.into_iter().flatten().map(|point| (point - fold.from).dot(way))
        });
        crossed.fold((f64::INFINITY, f64::NEG_INFINITY), |(low, high), at| (low.min(at), high.max(at)))
    };
    let (near, far) = (chord(0.0), chord(width.min(across)));
    (near.1.min(far.1) - near.0.max(far.0)).clamp(0.0, along)
}

/// The side of a bond that tape or glue goes on: a seam, a tab, a base, else the one that is put on the other.
#[must_use]
pub fn glued<'a>(kit: &Kit, bond: &'a Bond) -> &'a Side {
    let purpose = |side: &Side| {
        let piece = kit.pieces.get(side.piece)?;
        piece.net.panels.get(side.panel).map(|panel| panel.purpose)
    };
    let takes = |side: &Side| matches!(purpose(side), Some(Use::Seam | Use::Tab | Use::Base | Use::End));
    if !takes(&bond.one) && takes(&bond.other) { &bond.other } else { &bond.one }
}

/// The other one.
#[must_use]
pub fn faced<'a>(kit: &Kit, bond: &'a Bond) -> &'a Side {
    if std::ptr::eq(glued(kit, bond), &raw const bond.one) { &bond.other } else { &bond.one }
}

impl Stick {
    /// Whether it is the same sort, as long and as wide.
    #[must_use]
    pub fn is_like(self, other: Self) -> bool {
        let sizes = |held: Self| match held {
            Self::Tape { length, width } | Self::Round { length, width } | Self::Tab { length, width } => {
                (length, width)
            }
            Self::Glue | Self::Slides => (0.0, 0.0),
        };
        let (one, two) = (sizes(self), sizes(other));
        std::mem::discriminant(&self) == std::mem::discriminant(&other)
            && (one.0 - two.0).abs() < SAME
            && (one.1 - two.1).abs() < SAME
    }
}

/// The shorter and the longer side of the panel that takes tape or glue, mm.
fn sides(kit: &Kit, side: &Side) -> [f64; 2] {
    let panel = kit.pieces.get(side.piece).and_then(|piece| piece.net.panels.get(side.panel));
    let bounds = panel.map(|panel| panel.outline.bounds()).unwrap_or_default();
    [bounds.width().min(bounds.height()), bounds.width().max(bounds.height())]
}

/// The area of the panel that is stuck on another one, mm².
#[must_use]
pub fn stuck_area(kit: &Kit, bond: usize) -> f64 {
    let side = kit.bonds.get(bond).map(|bond| glued(kit, bond));
    let panel = side.and_then(|side| kit.pieces.get(side.piece)?.net.panels.get(side.panel));
    panel.map_or(0.0, |panel| panel.outline.area().abs())
}

/// Whether the whole piece is one panel, stuck on as it is.
fn is_whole(kit: &Kit, side: &Side) -> bool {
    kit.pieces.get(side.piece).is_some_and(|piece| piece.net.panels.len() == 1)
}

/// What is stuck leaves free of the panel that it lies on, as seen on that panel's face: left, right, above, below, mm; less
/// than nothing where it stands out. A seam that is turned under carries the panel that it hangs on.
#[must_use]
pub fn borders(kit: &Kit, glued: &Side, faced: &Side) -> Option<[f64; 4]> {
    let on = kit.pieces.get(faced.piece)?.net.panels.get(faced.panel)?.outline.bounds();
    free_of(kit, glued, faced, on)
}

/// The same of the whole flat piece that it lies on.
#[must_use]
pub fn borders_of_piece(kit: &Kit, glued: &Side, faced: &Side) -> Option<[f64; 4]> {
    let panels = kit.pieces.get(faced.piece)?.net.panels.iter().map(|panel| panel.outline.bounds());
    free_of(kit, glued, faced, panels.reduce(|all, one| all.union(one))?)
}

fn free_of(kit: &Kit, glued: &Side, faced: &Side, on: Rect) -> Option<[f64; 4]> {
    let net = &kit.pieces.get(glued.piece)?.net;
    let (shown, over) = shown(net, glued.panel)?;
    let vertices = net.panels.get(shown)?.outline.vertices().iter();
    let points = vertices.map(|vertex| laid(glued, faced, over.map_or(vertex.at, |fold| mirrored(vertex.at, fold))));
    let what = points.map(|point| Rect::from_points(point, point)).reduce(|all, one| all.union(one))?;
    let (left, right) = (what.x0 - on.x0, on.x1 - what.x1);
    let [left, right] = if faced.face == Face::Front { [left, right] } else { [right, left] };
    Some([left, right, on.y1 - what.y1, what.y0 - on.y0])
}

/// Where what is stuck lies, as `borders` has it; none where a fold lets it go nowhere else.
#[must_use]
pub fn placed(kit: &Kit, glued: &Side, faced: &Side) -> Option<[f64; 4]> {
    let free = borders(kit, glued, faced)?;
    let net = &kit.pieces.get(glued.piece)?.net;
    let panel = net.panels.get(glued.panel)?;
    let under = shown(net, glued.panel).is_some_and(|(_, fold)| fold.is_some());
    let placed = under || panel.purpose.is_base() || (panel.purpose == Use::Plain && glued.panel == 0);
    // Where paper only bends nobody sees where a panel of it begins: its own edges say where the board goes.
    let bends = kit.pieces.get(faced.piece)?.net.folds.iter().any(|fold| fold.sense == Sense::Bent);
    let fills = free.iter().all(|free| free.abs() < SEEN);
    let free = if bends && fills { borders_of_piece(kit, glued, faced)? } else { free };
    placed.then_some(free)
}

/// The panel that shows where this one is stuck, and the fold between them, where that turns it under.
#[must_use]
pub fn shown(net: &Net, panel: usize) -> Option<(usize, Option<[Point; 2]>)> {
    let seam = net.panels.get(panel)?.purpose == Use::Seam;
    let under = net.folds.iter().find(|fold| fold.between.contains(&panel) && fold.angle.abs() > UNDER);
    Some(match under.filter(|_| seam) {
        Some(fold) => (fold.between[usize::from(fold.between[0] == panel)], Some([fold.from, fold.to])),
        None => (panel, None),
    })
}

/// A point on the other side of a fold.
#[must_use]
pub fn mirrored(point: Point, [from, to]: [Point; 2]) -> Point {
    let (way, off) = ((to - from).normalize(), point - from);
    from + way * (2.0 * off.dot(way)) - off
}

/// A point of the glued side's flat piece as it comes to lie on the other side's flat piece.
///
/// Along goes to along. What is up on the faced side, seen from its face, is up on the glued piece seen from the face
/// that looks away from the joint.
#[must_use]
pub fn laid(glued: &Side, faced: &Side, point: Point) -> Point {
    let sign = |face: Face| if face == Face::Front { 1.0 } else { -1.0 };
    let unit = |side: &Side| if side.along.hypot() > 0.0 { side.along / side.along.hypot() } else { side.along };
    let (along, onto) = (unit(glued), unit(faced));
    let up = Vec2::new(-along.y, along.x) * -sign(glued.face);
    let up_on = Vec2::new(-onto.y, onto.x) * sign(faced.face);
    let from = point - glued.at;
    faced.at + onto * from.dot(along) + up_on * from.dot(up)
}
