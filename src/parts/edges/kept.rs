// SPDX-License-Identifier: MIT
//! What of a panel must stay as it is: where seams are stuck on it or turn under it, where the hinge goes in.
//!
//! ```text
//!   +===========+   an edge that runs over a seam is free beside it: the run. A seam that begins further in says how deep
//!   | seam      |   that run may be cut.
//!   +-----------+
//!   |           |   run
//! ```
//!
//! In: the pieces of an entry and how they are joined. Out: outlines in the frame of a panel, runs, depths. Never: words.

use crate::contour::{Contour, Edge, Point, Rect, SAME, Vec2, within};
use crate::net::{Net, Use};
use crate::parts::bond::{Bond, Hold, Side};
use crate::parts::build::builder::{Builder, Mount};
use crate::parts::kit::Piece;
use crate::parts::spines::carry::Carry;

/// What is nearer to an edge than this lies on it, mm: our choice.
const TOUCHES: f64 = 0.5;

/// What a cut leaves of card beside a score, a hole or another edge, mm: our choice.
const LEFT: f64 = 2.0;

/// An edge is looked at in so many places.
const PLACES: u8 = 8;

/// What lies further inside than this lies inside, mm.
const INSIDE: f64 = 0.01;

/// Further off than any edge, mm.
const FAR: f64 = 1e5;

/// What a cut must not reach.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Barrier {
    /// What is stuck.
    Seam,
    /// What the spine holds.
    Hinge,
    /// A score.
    Score,
    /// A hole, a window, a slot.
    Hole,
    /// Another edge of the panel.
    Edge,
}

/// The pieces of an entry before anything is done to their edges.
pub(super) struct Uncut {
    pub pieces: Vec<Piece>,
    pub bonds: Vec<Bond>,
    mounts: Vec<Mount>,
    /// How wide the hinge's tab is, mm.
    tab: f64,
}

impl Uncut {
    pub(super) fn of(trial: &Builder<'_>) -> Self {
        let kit = trial.kit();
        let (pieces, bonds) = (kit.pieces.clone(), kit.bonds.clone());
        Self { pieces, bonds, mounts: trial.mounts.clone(), tab: Carry::tab_of(trial.album) }
    }

    /// The net of a piece.
    pub(super) fn net(&self, piece: usize) -> &Net {
        &self.pieces[piece].net
    }

    /// Which way the spine is from a panel that it holds.
    pub(super) fn spine(&self, piece: usize, panel: usize) -> Option<(Point, Vec2)> {
        let sides = self.mounts.iter().flat_map(|mount| [mount.front, mount.back]);
        let own = sides.into_iter().find(|side| side.piece == piece && side.panel == panel)?;
        Some((own.at, own.along))
    }

    /// What must stay on a panel, stuck or held.
    pub(super) fn kept(&self, piece: usize, panel: usize) -> Vec<(Barrier, Contour)> {
        let net = self.net(piece);
        let is = |side: &Side| side.piece == piece && side.panel == panel;
        let mut kept = Vec::new();
        for bond in self.bonds.iter().filter(|bond| bond.hold == Hold::Stuck) {
            for (on, by) in [(&bond.one, &bond.other), (&bond.other, &bond.one)] {
                let stuck = self.pieces.get(by.piece).and_then(|piece| piece.net.panels.get(by.panel));
                if let Some(stuck) = stuck.filter(|_| is(on)) {
                    kept.push((Barrier::Seam, laid(&stuck.outline, by, on)));
                }
            }
        }
        // A seam that turns under its panel.
        for fold in net.folds.iter().filter(|fold| fold.angle.abs() > 170.0 && fold.between.contains(&panel)) {
            let other = if fold.between[0] == panel { fold.between[1] } else { fold.between[0] };
            if let Some(seam) = net.panels.get(other).filter(|other| other.purpose == Use::Seam) {
                let along = (fold.to - fold.from).normalize();
                let over = |point: Point| {
                    let off = point - fold.from;
                    fold.from + along * (2.0 * off.dot(along)) - off
                };
                kept.push((Barrier::Seam, seam.outline.mirrored(over).counter_clockwise()));
            }
        }
        if let (Some((at, along)), Some(panel)) = (self.spine(piece, panel), net.panels.get(panel)) {
            let (length, deep) =
                (panel.outline.bounds().height().max(panel.outline.bounds().width()), self.tab.max(1.0));
            let across = Vec2::new(-along.y, along.x);
            let inward = if (panel.outline.bounds().center() - at).dot(across) > 0.0 { across } else { -across };
            let corners = [at, at + along * length, at + along * length + inward * deep, at + inward * deep];
            let strip = Contour::polygon(corners.map(|corner| (corner.x, corner.y))).counter_clockwise();
            kept.push((Barrier::Hinge, strip));
        }
        kept
    }

    /// The longest run of an edge on which nothing is stuck or held, mm from its start; and what keeps the rest.
    pub(super) fn run(&self, piece: usize, panel: usize, line: Edge) -> ([f64; 2], Option<Barrier>) {
        let length = line.length();
        let mut taken: Vec<([f64; 2], Barrier)> = Vec::new();
        for (barrier, shape) in self.kept(piece, panel) {
            // What touches it anywhere is kept whole: under a slanted mouth a seam keeps below it.
            let near = Rect::new(SAME, -FAR, length - SAME, TOUCHES);
            let touches = shape.edges().any(|edge| clipped(line, edge, near).next().is_some());
            let span = if touches { extent(line, &shape) } else { None };
            let span = span.map(|[from, to]| [from.max(0.0), to.min(length)]);
            taken.extend(span.filter(|[from, to]| to - from > SAME).map(|span| (span, barrier)));
        }
        taken.sort_by(|one, other| one.0[0].total_cmp(&other.0[0]));
        let (mut best, mut from) = ([0.0, 0.0], 0.0_f64);
        for end in taken.iter().map(|(span, _)| *span).chain([[length, length]]) {
            if end[0] - from > best[1] - best[0] {
                best = [from, end[0]];
            }
            from = from.max(end[1]);
        }
        // The hinge says more than the seams beside it.
        let hinge = taken.iter().find(|(span, barrier)| *barrier == Barrier::Hinge && span[1] - span[0] > length / 2.0);
        (best, hinge.or_else(|| taken.first()).map(|(_, barrier)| *barrier))
    }

    /// How deep a run of an edge may be cut, mm, and what it would reach then.
    pub(super) fn reach(&self, (piece, panel, edge): (usize, usize, usize), run: [f64; 2]) -> (f64, Barrier) {
        let net = self.net(piece);
        let edges: Vec<Edge> = net.panels[panel].outline.edges().collect();
        let line = edges[edge];
        let mut found = (f64::INFINITY, Barrier::Edge);
        let mut meet = |barrier: Barrier, other: Edge, left: f64| {
            let open = [run[0] + SAME, run[1] - SAME];
            if let Some(deep) = depth(line, open, other).filter(|deep| deep - left < found.0) {
                found = (deep - left, barrier);
            }
        };
        for (barrier, shape) in self.kept(piece, panel) {
            shape.edges().for_each(|edge| meet(barrier, edge, 0.0));
        }
        for fold in net.folds.iter().filter(|fold| fold.between.contains(&panel)) {
            let fold = Edge { from: fold.from, to: fold.to, bulge: 0.0 };
            // An edge that is a fold itself, with cuts along it.
            if line.distance(fold.from) > SAME || line.distance(fold.to) > SAME {
                meet(Barrier::Score, fold, LEFT);
            }
        }
        net.holes.iter().flat_map(Contour::edges).for_each(|edge| meet(Barrier::Hole, edge, LEFT));
        let count = edges.len();
        let beside = [(edge + count - 1) % count, edge, (edge + 1) % count];
        for (_, other) in edges.iter().enumerate().filter(|(number, _)| !beside.contains(number)) {
            meet(Barrier::Edge, *other, LEFT);
        }
        found
    }

    /// What a corner that is cut off would reach; `ends` are where its cut begins and ends.
    pub(super) fn corner_reaches(
        &self,
        (piece, panel): (usize, usize),
        at: Point,
        ends: [Point; 2],
    ) -> Option<Barrier> {
        let off = Contour::polygon([at, ends[0], ends[1]].map(|point| (point.x, point.y))).counter_clockwise();
        let deep = |shape: &Contour| {
            shape.edges().flat_map(places).any(|spot| off.contains(spot) && off.distance(spot) > INSIDE)
        };
        let inside = |shape: &Contour| {
            places(Edge { from: ends[0], to: ends[1], bulge: 0.0 })
                .any(|spot| shape.contains(spot) && shape.distance(spot) > INSIDE)
        };
        let holes = self.net(piece).holes.iter().map(|hole| (Barrier::Hole, hole.clone().counter_clockwise()));
        let kept = self.kept(piece, panel).into_iter().chain(holes);
        kept.into_iter().find(|(_, shape)| deep(shape) || inside(shape)).map(|(barrier, _)| barrier)
    }
}

/// An outline on one side of a bond, in the frame of the other: face to face it is mirrored.
fn laid(outline: &Contour, from: &Side, to: &Side) -> Contour {
    let square = |way: Vec2| Vec2::new(-way.y, way.x);
    let hand = if from.face == to.face { -1.0 } else { 1.0 };
    let map = |point: Point| {
        let off = point - from.at;
        to.at + to.along * off.dot(from.along) + square(to.along) * (hand * off.dot(square(from.along)))
    };
    let there = if hand < 0.0 { outline.mirrored(map) } else { outline.mapped(map) };
    there.counter_clockwise()
}

/// Places of an edge: its ends, and between them where it bends.
fn places(edge: Edge) -> impl Iterator<Item = Point> {
    (0..=PLACES).map(move |step| {
        let share = f64::from(step) / f64::from(PLACES);
        if edge.is_line() {
            return edge.from.lerp(edge.to, share);
        }
        let turned = (edge.from - edge.centre()).atan2() + share * edge.angle();
        edge.centre() + Vec2::from_angle(turned) * edge.radius()
    })
}

/// The pieces of another edge within a box of a line's own frame: x along the line from its start, y into the card.
fn clipped(line: Edge, other: Edge, space: Rect) -> impl Iterator<Item = Point> {
    let along = (line.to - line.from).normalize();
    let own = move |point: Point| {
        let off = point - line.from;
        Point::new(off.dot(along), along.cross(off))
    };
    let spots: Vec<Point> = places(other).map(own).collect();
    let pieces: Vec<Point> = spots
        .windows(2)
        .filter_map(|pair| Some((pair, within([pair[0], pair[1]], space)?)))
        .flat_map(|(pair, shares)| shares.map(|share| pair[0].lerp(pair[1], share)))
        .collect();
    pieces.into_iter()
}

/// From where to where along a line an outline lies beside it, mm.
fn extent(line: Edge, shape: &Contour) -> Option<[f64; 2]> {
    let all = Rect::new(-FAR, -FAR, FAR, FAR);
    let spots = shape.edges().flat_map(|edge| clipped(line, edge, all)).map(|spot| [spot.x, spot.x]);
    spots.reduce(|all, one| [all[0].min(one[0]), all[1].max(one[1])])
}

/// How deep another edge lies below a run of a line, mm.
fn depth(line: Edge, run: [f64; 2], other: Edge) -> Option<f64> {
    clipped(line, other, Rect::new(run[0], -FAR, run[1], FAR)).map(|spot| spot.y).reduce(f64::min)
}
