// SPDX-License-Identifier: MIT
//! Holes and slits that reach over a fold.
//!
//! ```text
//!   +--------+--------+     The score is left out where the hole is, and the card folds by what is left of it. A hole may
//!   |        :        |     lie on the panel that says it and on those that are folded on it; over no other edge, and not so
//!   |     ---+---     |     that too little of the fold is left.
//!   |        :        |
//!   +--------+--------+
//! ```

use super::cuts::OverFold;
use super::sizes::MadeKind;
use crate::contour::{Contour, Point, outside};
use crate::finding::{Arg, Finding, Said};
use crate::kind_file::Scope;
use crate::length::tolerance::SAME;
use crate::net::{Fold, Net};
use crate::parts::build::builder::Builder;

/// As much of a fold must be left as this, as a share: our choice.
const LEFT: f64 = 0.25;

/// No bit of a fold that is left is shorter than this, mm: it would tear. Our choice.
const TIE: f64 = 1.5;

/// Says where a hole reaches over anything but a fold, or leaves too little of one.
pub(super) fn over_folds(
    builder: &mut Builder<'_>,
    made: &MadeKind<'_>,
    (net, over): (&Net, &[OverFold]),
    scope: &Scope<'_>,
) -> Option<()> {
    let mut sound = true;
    for one in over {
        let folds: Vec<&Fold> = net.folds.iter().filter(|fold| fold.between.contains(&one.panel)).collect();
        let key = if !keeps_to(net, one, &folds) {
            "kind-over-fold-edge"
        } else if folds.iter().any(|fold| parts_too_much(net, fold)) {
            "kind-over-fold-left"
        } else {
            continue;
        };
        sound = false;
        let name = net.panels.get(one.panel).map_or("", |panel| panel.name);
        let text = Said::new(key).with("panel", Arg::quoted(name)).with("with", made.values(builder, &[], scope));
        let help = Said::new("kind-over-fold-help").with("tie", builder.album.length(TIE));
        let finding = Finding::stop("kind-over-fold", made.about.clone(), text);
        builder.find(finding.help(help).at(made.at(&one.said.place)));
    }
    sound.then_some(())
}

/// Whether a hole lies on its panel and on those that are folded on it.
fn keeps_to(net: &Net, one: &OverFold, folds: &[&Fold]) -> bool {
    let Some(hole) = net.holes.get(one.hole) else { return false };
    let beside = folds.iter().flat_map(|fold| fold.between).chain([one.panel]);
    let outlines: Vec<&Contour> =
        beside.filter_map(|panel| net.panels.get(panel)).map(|panel| &panel.outline).collect();
    let on = |point: Point| outlines.iter().any(|outline| outline.contains(point) || outline.distance(point) < SAME);
    hole.edges().all(|edge| {
        // Arcs are told by their ends and middle, none of them being longer than a quarter of a circle.
        let middle = edge.from.midpoint(edge.to);
        let crown = middle + (edge.to - edge.from).turn_90() * (-edge.bulge / 2.0);
        on(edge.from) && on(crown)
    })
}

/// Whether all holes together leave too little of a fold, or bits of it that tear.
fn parts_too_much(net: &Net, fold: &Fold) -> bool {
    let left = outside(fold.from, fold.to, &net.holes);
    let long = |(from, to): &(Point, Point)| from.distance(*to);
    let all: f64 = left.iter().map(long).sum();
    left.len() > 1 && left.iter().any(|bit| long(bit) < TIE - SAME) || all < LEFT * fold.from.distance(fold.to) - SAME
}
