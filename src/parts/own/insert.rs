// SPDX-License-Identifier: MIT
//! An insert of a kind that stands in a file: one piece, whose seams may be stuck on its own panels.

use super::laid::{self, LaidFlat};
use super::net::net;
use super::sizes::{Given, MadeKind, unchecked, with_scope};
use super::ties::Ties;
use crate::album::Entry;
use crate::contour::{Rect, pile};
use crate::finding::{Arg, Finding, Said};
use crate::kind_file::{KindFile, Scope};
use crate::length::tolerance::SAME;
use crate::net::Net;
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
    with_scope(builder, &made, given, |builder, scope| {
        let form = made.file.pieces.first().map(|piece| made.form(builder, piece, scope));
        let mut slip = slip.clone();
        slip.form = form;
        one(builder, &slip, &made, (thickness, layers.max(1.0)), scope);
    });
}

/// Says that more cards lie on each other, once all is folded, than the kind says.
fn thinner_than_folded(
    builder: &mut Builder<'_>,
    made: &MadeKind<'_>,
    (net, laid): (&Net, &[Option<LaidFlat>]),
    layers: f64,
) -> bool {
    let cards = net.panels.iter().zip(laid).filter_map(|(panel, laid)| {
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
    let Some(piece) = made.file.pieces.first() else { return };
    let Some(own) = net(builder, made, piece, scope) else { return };
    let pull = made.file.pull.as_ref().is_some_and(|pull| pull.holds(scope));
    // As it is put in: all folds closed.
    let laid = laid::panels(&own.net);
    if thinner_than_folded(builder, made, (&own.net, &laid), layers) {
        return;
    }
    let boxes =
        own.net.panels.iter().zip(&laid).filter_map(|(panel, laid)| Some(laid.as_ref()?.rect(panel.outline.bounds())));
    let whole: Rect = boxes.reduce(|all, one| all.union(one)).unwrap_or_default();
    let bulk = Bulk { width: whole.width(), height: whole.height(), thickness, pull };
    slip.copies(builder, &piece.called, &own.net, bulk, |builder, number| {
        let mut ties = Ties::default();
        ties.add(Some((number, own.clone())), false);
        ties.join(builder, made, &made.file.joins, scope);
    });
}
