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
use super::face::{Looks, Plain};
use super::{Face, Hold, Owner};
use crate::album::Panels;
use crate::contour::{Contour, Rect, Vec2};
use crate::finding::Finding;
use crate::length::Ruler;
use crate::net::Net;

/// Panels narrower than this are a sliver, not a panel: our choice, mm.
const LEAST: f64 = 5.0;

/// Sticks panels on every face that has been stated since the last call.
pub(super) fn panels(builder: &mut Builder<'_>, panels: &Panels) {
    let plains = std::mem::take(&mut builder.plains);
    let designs = builder.designs.get_or_insert_with(|| Designs::deal(builder.album, panels, &plains)).clone();
    let reveal = panels.reveal.mm();
    let mut left_out = Vec::new();
    for plain in plains {
        let wanted = if plain.owner == Owner::Cover { panels.on_cover() } else { panels.on_pages() };
        if !wanted {
            continue;
        }
        let Some(net) = net(&plain, reveal) else {
            if !plain.slim {
                left_out.push(plain.name);
            }
            continue;
        };
        let Plain { name, owner, looks, side: mut on, .. } = plain;
        let piece = builder.piece(Cut {
            id: format!("panel-{}", name.replace(' ', "-")),
            kind: "panel",
            family: "panel",
            net,
            stock: designs.stock(looks),
            along_grain: false,
            name: format!("panel for {name}"),
            owner,
            place: panels.values.place("reveal"),
        });
        if let Some(piece) = piece {
            // Up is a quarter turn from the way to the right, counter-clockwise as the face is seen.
            let up = Vec2::new(-on.along.y, on.along.x) * if on.face == Face::Front { 1.0 } else { -1.0 };
            on.at += (on.along + up) * reveal;
            builder.bond(Hold::Stuck, side(piece, 0, Face::Back, (0.0, 0.0), (1.0, 0.0)), on);
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

/// A face's panel with what must stay open cut out; none where next to nothing is left of it.
fn net(plain: &Plain, reveal: f64) -> Option<Net> {
    let (width, height) = (2.0f64.mul_add(-reveal, plain.width), 2.0f64.mul_add(-reveal, plain.height));
    if width < LEAST || height < LEAST {
        return None;
    }
    let whole = Rect::new(0.0, 0.0, width, height);
    let mut net = Net::single("panel", Contour::rectangle(0.0, 0.0, width, height));
    for hole in &plain.holes {
        let hole = hole.shifted(Vec2::new(-reveal, -reveal));
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
