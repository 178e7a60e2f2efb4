// SPDX-License-Identifier: MIT
//! Decorative panels of patterned paper, one for every face.
//!
//! ```text
//!   +-------------------+
//!   |  +-------------+  |     (W - 2 reveal) x (H - 2 reveal) on plain faces; (P - 2 reveal) and
//!   |  |    panel    |  |     (overflap - 2 reveal) wide on pocket fronts and flaps.
//!   |  +-------------+  |     With 1/8 in reveal a 6 1/4 x 8 1/2 in face takes 6 x 8 1/4 in
//!   +-------------------+     (sizes: common practice, no source).
//! ```
//!
//! Covers have panels outside and, where no end papers line them, inside. Round a window the border is as wide as at the
//! edge; a slot's cut is 1 mm larger all round, so that a panel stuck a little off does not close it (our choice).

use super::build::{Builder, Cut, side};
use super::designs::Designs;
use super::face::{Lies, Looks, Plain};
use super::runs::{self, Run};
use super::{Face, Hold, Owner};
use crate::album::{Bound, Decorated, Panels};
use crate::contour::{Contour, Rect, Vec2};
use crate::finding::Finding;
use crate::length::Ruler;
use crate::net::Net;

/// Panels narrower than this are a sliver, not a panel: our choice, mm.
const LEAST: f64 = 5.0;

/// Sticks panels on every face that has been stated since the last call.
pub(super) fn panels(builder: &mut Builder<'_>, panels: &Panels) {
    let plains = std::mem::take(&mut builder.plains);
    let designs =
        builder.designs.get_or_insert_with(|| Designs::deal(builder.album, builder.cutter, panels, &plains)).clone();
    if panels.on == Decorated::Cover && builder.album.cover.is_none() {
        let text = "panels are for the cover alone, and the album has none: there are no panels";
        let finding = Finding::warn("no-cover", "panels", text);
        let help = "say what the cover is: \"cover\": { \"kind\": \"wrap\" }; or leave panels.on out";
        builder.find(finding.help(help).at(panels.values.place("on")));
    }
    let reveal = panels.reveal.mm();
    let wanted = |plain: &Plain| if plain.owner == Owner::Cover { panels.on_cover() } else { panels.on_pages() };
    let plains: Vec<Plain> = plains.into_iter().filter(wanted).collect();
    // Each panel in the frame of its face.
    let mut rects: Vec<Rect> =
        plains.iter().map(|plain| Rect::new(0.0, 0.0, plain.width, plain.height).inset(-reveal)).collect();
    let runs = if panels.runs_on { runs_on(builder, panels, &plains, &designs) } else { Vec::new() };
    for (face, rect) in runs.iter().flat_map(|run| &run.panels) {
        if let Some((Lies { at, .. }, own)) = plains[*face].lies.zip(rects.get_mut(*face)) {
            *own = *rect - Vec2::from(at);
        }
    }
    let mut left_out = Vec::new();
    let mut cuts: Vec<Option<Cut<'_>>> = Vec::new();
    for (plain, rect) in plains.iter().zip(&rects) {
        let net = net(plain, *rect);
        if net.is_none() && !plain.slim {
            left_out.push(plain.name.clone());
        }
        cuts.push(net.map(|net| cut(panels, plain, net, designs.stock(plain.looks))));
    }
    for run in &runs {
        let mut end: Option<f64> = None;
        let (mut faces, mut members) = (Vec::new(), Vec::new());
        for (face, rect) in &run.panels {
            let (from, to) = if run.upright { (rect.y0, rect.y1) } else { (rect.x0, rect.x1) };
            faces.push(*face);
            let behind = end.map_or(0.0, |end| from - end);
            members.extend(cuts[*face].take().map(|cut| (Cut { family: "panel in a block", ..cut }, behind)));
            end = Some(to);
        }
        let pieces = builder.block(&side_of(&plains[faces[0]]), run.upright, members).unwrap_or_default();
        for (face, piece) in faces.into_iter().zip(pieces) {
            stick(builder, piece, &plains[face], &rects[face]);
        }
    }
    for (face, cut) in cuts.into_iter().enumerate() {
        if let Some(piece) = cut.and_then(|cut| builder.piece(cut)) {
            stick(builder, piece, &plains[face], &rects[face]);
        }
    }
    if let Some(first) = left_out.first() {
        let border = panels.reveal.show(builder.album.units, Ruler::SixtyFourth);
        let about =
            if left_out.len() == 1 { first.clone() } else { format!("{first} and {} more", left_out.len() - 1) };
        let text = format!("a border of {border} all round leaves next to nothing of a panel: it is left out");
        let finding = Finding::warn("panel-too-small", about, text).help("make panels.reveal smaller");
        builder.find(finding.at(panels.values.place("reveal")));
    }
}

/// The panel of a face.
fn cut<'p>(panels: &'p Panels, plain: &Plain, net: Net, stock: usize) -> Cut<'p> {
    Cut {
        id: format!("panel-{}", plain.name.replace(' ', "-")),
        kind: "panel",
        family: "panel",
        net,
        stock,
        along_grain: false,
        name: format!("panel for {}", plain.name),
        owner: plain.owner,
        place: panels.values.place("reveal"),
    }
}

/// Sticks a panel on its face.
fn stick(builder: &mut Builder<'_>, piece: usize, plain: &Plain, rect: &Rect) {
    let mut on = plain.side;
    // Up is a quarter turn from the way to the right, counter-clockwise as the face is seen.
    let up = Vec2::new(-on.along.y, on.along.x) * if on.face == Face::Front { 1.0 } else { -1.0 };
    on.at += on.along * rect.x0 + up * rect.y0;
    builder.bond(Hold::Stuck, side(piece, 0, Face::Back, (0.0, 0.0), (1.0, 0.0)), on);
}

/// A panel with what must stay open cut out; none where next to nothing is left of it.
fn net(plain: &Plain, rect: Rect) -> Option<Net> {
    let (width, height) = (rect.width(), rect.height());
    if !wide_enough(width, height) {
        return None;
    }
    let whole = Rect::new(0.0, 0.0, width, height);
    let mut net = Net::single("panel", Contour::rectangle(0.0, 0.0, width, height));
    for hole in &plain.holes {
        let hole = hole.shifted(Vec2::new(-rect.x0, -rect.y0));
        let taken = hole.bounds();
        if taken.intersect(whole).area() <= 0.0 {
            continue;
        }
        // What is left beside it must hold.
        if !whole.inset(-LEAST / 2.0).contains_rect(taken) {
            return None;
        }
        net = net.with_hole(hole);
    }
    Some(net)
}

fn wide_enough(width: f64, height: f64) -> bool {
    width >= LEAST && height >= LEAST
}

/// The runs whose blocks go onto a sheet; the others are told.
fn runs_on(builder: &mut Builder<'_>, panels: &Panels, plains: &[Plain], designs: &Designs) -> Vec<Run> {
    let mut runs = runs::runs(plains, panels.reveal.mm(), wide_enough);
    // A panel that is left out for its window takes no part in it.
    runs.retain(|run| {
        run.panels.iter().all(|(face, rect)| {
            let plain = &plains[*face];
            plain.lies.is_some_and(|lies| net(plain, *rect - Vec2::from(lies.at)).is_some())
        })
    });
    let goes_on = |run: &Run| {
        let stock = designs.stock(plains[run.panels[0].0].looks);
        let sideways = builder.album.bound == Bound::Top;
        builder.usable(stock, false).is_some_and(|usable| runs::goes_on(run, &usable, sideways))
    };
    let (kept, large): (Vec<Run>, Vec<Run>) = runs.into_iter().partition(goes_on);
    if let Some(first) = large.first() {
        let about = side_of(&plains[first.panels[0].0]);
        let about = if large.len() == 1 { about } else { format!("{about} and {} more", large.len() - 1) };
        let [wide, tall] = [first.whole.width(), first.whole.height()].map(|mm| builder.album.show(mm));
        let text = format!("its pattern does not run on: a block of {wide} x {tall} goes onto no sheet of its design");
        let finding = Finding::note("block-too-large", about, text);
        let help = "take larger sheets for the panels; until then each is cut by itself";
        builder.find(finding.help(help).at(panels.values.place("runs_on")));
    }
    kept
}

/// What a face is a face of: `page 2 front`, `cover`.
fn side_of(plain: &Plain) -> String {
    let words = if plain.owner == Owner::Cover { 1 } else { 3 };
    plain.name.split(' ').take(words).collect::<Vec<_>>().join(" ")
}

/// How thick the panels on a cover are, mm: outside, and inside on the thicker side; 0 where there are none.
pub(super) fn on_cover(builder: &Builder<'_>) -> (f64, f64) {
    let (Some(panels), Some(designs)) = (&builder.album.panels, &builder.designs) else { return (0.0, 0.0) };
    if !panels.on_cover() {
        return (0.0, 0.0);
    }
    let thick = |looks| builder.caliper(designs.stock(looks));
    let inside = [0, builder.album.pages.len()].map(|opening| thick(Looks::Opening(opening)));
    (thick(Looks::Outside), inside[0].max(inside[1]))
}
