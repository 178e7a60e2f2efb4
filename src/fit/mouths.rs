// SPDX-License-Identifier: MIT
//! The mouths of pockets: which edges folds and seams close, and whether anything can get in at the others.

use crate::contour::{Edge, Point};
use crate::finding::{Finding, Said};
use crate::folded::Folded;
use crate::length::tolerance::READ;
use crate::net::{Use, lifted};
use crate::parts::{Hold, Kit, Side};

/// An edge runs along a bond where the sine between them is smaller: a cut leans by more where it is meant to.
const LEANS: f64 = 1e-3;

/// An edge is shut when so much of it is closed.
pub(super) const SHUT: f64 = 0.9;

/// Sleeves: something must be able to get in, and from the side where hands are.
pub(super) fn check(kit: &Kit, folded: &Folded) -> Vec<Finding> {
    let mut findings = Vec::new();
    for (number, pocket) in kit.pockets.iter().enumerate() {
        let Some(closed) = closed_edges(kit, folded, number) else { continue };
        let shut: Vec<bool> = closed.iter().map(|(_, share)| *share > SHUT).collect();
        let stop = |id, help| {
            let about = Said::new("about-page").with("page", pocket.page);
            Finding::stop(id, about, Said::new(id)).help(Said::new(help))
        };
        if shut.iter().all(|shut| *shut) {
            findings.push(stop("stuck-shut", "leave-the-fore-edge-open"));
        } else if shut[0] && pocket.tab > 0.0 {
            findings.push(stop("no-way-for-the-tab", "no-way-for-the-tab-help"));
        } else if shut[1..].iter().all(|shut| *shut) {
            findings.push(stop("mouth-at-the-spine", "leave-the-fore-edge-open"));
        }
    }
    findings
}

/// The edges of a pocket's wall, and how much of each is closed by a fold or a stuck seam, from 0 to 1; the edge at the spine
/// first, then round.
pub(super) fn closed_edges(kit: &Kit, folded: &Folded, pocket: usize) -> Option<Vec<(Edge, f64)>> {
    let inside = kit.pockets.get(pocket)?.inside;
    let wall = (inside.piece, inside.panel);
    let outline = &kit.pieces.get(wall.0)?.net.panels.get(wall.1)?.outline;
    let page = kit.pieces[wall.0].owner;
    let ground = folded.stand(wall.0, wall.1)?.inverse();
    // A seam closes where it is folded; its other edges only lie there.
    let mut closing: Vec<[Point; 2]> = Vec::new();
    for (number, piece) in kit.pieces.iter().enumerate().filter(|(_, piece)| piece.owner == page) {
        for panel in 0..piece.net.panels.len() {
            if piece.net.panels[panel].purpose != Use::Seam {
                continue;
            }
            let is_it = |side: &Side| side.piece == number && side.panel == panel;
            let stuck = kit.bonds.iter().any(|bond| bond.hold == Hold::Stuck && is_it(&bond.one));
            let Some(stand) = folded.stand(number, panel).filter(|_| stuck) else { continue };
            let seen = |point: Point| {
                let [x, y, _] = lifted(&(ground * *stand), point, 0.0);
                Point::new(x, y)
            };
            let own = piece.net.folds.iter().filter(|fold| fold.between.contains(&panel));
            closing.extend(own.map(|fold| [seen(fold.from), seen(fold.to)]));
        }
    }
    // A panel that is folded back over the wall closes that edge; a flap can be lifted.
    let piece = &kit.pieces[wall.0].net;
    closing.extend(piece.folds.iter().filter_map(|fold| {
        let other = fold.between.into_iter().find(|&panel| panel != wall.1)?;
        let whole = piece.panels.get(other).is_some_and(|panel| !matches!(panel.purpose, Use::Flap | Use::Seam));
        let back = fold.between.contains(&wall.1) && fold.angle > 90.0 && whole;
        back.then_some([fold.from, fold.to])
    }));
    let edges: Vec<_> = outline.edges().collect();
    let spine = edges.iter().position(|edge| {
        edge.distance(inside.at) < READ && (edge.to - edge.from).cross(inside.along).abs() < LEANS * edge.length()
    })?;
    let closed = |edge: &Edge| {
        let along = (edge.to - edge.from) / edge.length();
        let near = |point: Point| (point - edge.from).cross(along).abs() < 0.5;
        let covered = closing.iter().filter(|[a, b]| near(*a) && near(*b)).map(|ends| {
            let spots = ends.map(|point| (point - edge.from).dot(along).clamp(0.0, edge.length()));
            (spots[0] - spots[1]).abs()
        });
        (*edge, (covered.sum::<f64>() / edge.length()).min(1.0))
    };
    Some(edges.iter().cycle().skip(spine).take(edges.len()).map(closed).collect())
}
