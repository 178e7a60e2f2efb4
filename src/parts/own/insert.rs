// SPDX-License-Identifier: MIT
//! An insert of a kind that stands in a file: pieces that are stuck together as its joins say, and go into a pocket as one.
//!
//! Its first piece is the one that lies on top: its front shows.

use super::laid::{self, LaidFlat};
use super::net::{KindNet, net};
use super::sizes::{Given, MadeKind, unchecked, with_scope};
use super::ties::Ties;
use crate::album::Entry;
use crate::contour::{Rect, pile};
use crate::finding::{Arg, Finding, Said};
use crate::kind_file::{KindFile, Scope};
use crate::length::tolerance::SAME;
use crate::parts::build::builder::Builder;
use crate::parts::inserts::insert::{Bulk, SIZE, Slip};
use crate::parts::spines::carry::Carry;

pub(super) fn make(builder: &mut Builder<'_>, file: &'static KindFile, entry: &Entry, number: usize) {
    let slip = Slip::new(builder, entry, number);
    let named = if file.prints { entry.get(SIZE).map(|size| slip.print(builder, (SIZE, size))) } else { None };
    let Ok(named) = named.transpose() else { return };
    let made = MadeKind { entry, file, about: slip.about(), path: slip.path() };
    let (seam, tab) = (builder.album.page.seam.mm(), Carry::tab_of(builder.album));
    let caliper = slip.caliper;
    // How thick it is says how large it may be, so that comes first: before anything is known of its width and height.
    let before = Given { width: 0.0, height: 0.0, seam, tab, caliper };
    let layers = file.layers.as_ref().map_or(1.0, |layers| unchecked(builder, &made, before, layers));
    let layers = if layers.is_finite() { layers } else { 1.0 };
    let thickness = slip.thickness(layers.max(1.0) * caliper);
    let Some((width, height)) = slip.size(builder, thickness, named) else { return };
    let given = Given { width, height, seam, tab, caliper };
    with_scope(builder, &made, given, |builder, scope| one(builder, &slip, &made, (thickness, layers.max(1.0)), scope));
}

/// Where the panels of all pieces lie once all is folded and joined, as the first piece lies flat; none where that is not known.
fn lying(
    builder: &Builder<'_>,
    made: &MadeKind<'_>,
    nets: &[KindNet],
    scope: &Scope<'_>,
) -> Vec<Vec<Option<LaidFlat>>> {
    if let [net] = nets {
        return vec![laid::panels(&net.net)];
    }
    // Joins say it; they are made for good once it is known how large all is.
    let mut trial = builder.alone();
    let mut ties = Ties::default();
    for (number, net) in nets.iter().enumerate() {
        ties.add(Some((number, net.clone())), false);
    }
    ties.join(&mut trial, made, &made.file.joins, scope);
    (0..nets.len()).map(|piece| ties.lying(piece)).collect()
}

/// Says that more cards lie on each other, once all is folded, than the kind says.
fn thinner_than_folded(
    builder: &mut Builder<'_>,
    made: &MadeKind<'_>,
    (nets, laid): (&[KindNet], &[Vec<Option<LaidFlat>>]),
    layers: f64,
) -> bool {
    let panels = nets.iter().zip(laid).flat_map(|(net, laid)| net.net.panels.iter().zip(laid));
    let cards = panels.filter_map(|(panel, laid)| {
        let laid = (*laid)?;
        let lies = |point| laid.point(point);
        // By their true outlines: seams that are mitred do not lie on each other.
        Some((if laid.is_face_up() { panel.outline.mapped(lies) } else { panel.outline.mirrored(lies) }, 1.0))
    });
    let found = pile(&cards.collect::<Vec<_>>()).greatest();
    let wrong = !made.file.is_built_in() && found > layers + SAME;
    if wrong {
        let text = Said::new("kind-layers").with("found", Arg::Number(found, 0)).with("said", Arg::Number(layers, 1));
        let help = Said::new("kind-layers-help").with("found", Arg::Number(found, 0));
        let place = made.file.layers.as_ref().map_or(&made.file.place, |layers| &layers.place);
        builder.find(Finding::stop("kind-layers", made.about.clone(), text).help(help).at(made.at(place)));
    }
    wrong
}

fn one(
    builder: &mut Builder<'_>,
    slip: &Slip<'_>,
    made: &MadeKind<'_>,
    (thickness, layers): (f64, f64),
    scope: &Scope<'_>,
) {
    let pieces = &made.file.pieces;
    let nets: Vec<Option<KindNet>> = pieces.iter().map(|piece| net(builder, made, piece, scope)).collect();
    let Some(nets) = nets.into_iter().collect::<Option<Vec<KindNet>>>().filter(|nets| !nets.is_empty()) else { return };
    let pull = made.file.pull.as_ref().is_some_and(|pull| pull.holds(scope));
    // As it is put in: all folds closed.
    let laid = lying(builder, made, &nets, scope);
    if thinner_than_folded(builder, made, (&nets, &laid), layers) {
        return;
    }
    let panels = nets.iter().zip(&laid).flat_map(|(net, laid)| net.net.panels.iter().zip(laid));
    let boxes = panels.filter_map(|(panel, laid)| Some(laid.as_ref()?.rect(panel.outline.bounds())));
    let whole: Rect = boxes.reduce(|all, one| all.union(one)).unwrap_or_default();
    let bulk = Bulk { width: whole.width(), height: whole.height(), thickness, pull };
    let alone = nets.len() == 1;
    let mut slip = slip.clone();
    slip.whole = (!alone).then_some(whole);
    for copy in 0..slip.count {
        let mut ties = Ties::default();
        for (piece, own) in pieces.iter().zip(&nets) {
            slip.form = Some(made.form(builder, piece, scope));
            let cut = own.net.clone();
            let number = if alone {
                slip.piece(builder, copy, None, &piece.called, cut)
            } else {
                slip.piece_of_file(builder, copy, piece, cut)
            };
            let Some(number) = number else { return };
            ties.add(Some((number, own.clone())), false);
        }
        ties.join(builder, made, &made.file.joins, scope);
        if let Some(first) = ties.first() {
            slip.put(builder, copy, first, bulk);
        }
    }
}
