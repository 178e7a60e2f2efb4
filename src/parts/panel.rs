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

use super::build::{Builder, Cut, Plain, side};
use super::{Face, Hold};
use crate::album::Panels;
use crate::contour::{Contour, Vec2};
use crate::finding::Finding;
use crate::length::Ruler;
use crate::net::Net;

/// Panels narrower than this are a sliver, not a panel: our choice, mm.
const LEAST: f64 = 5.0;

pub(super) fn panels(builder: &mut Builder<'_>, panels: &Panels) {
    let reveal = panels.reveal.mm();
    let mut left_out = Vec::new();
    for Plain { name, owner, width, height, side: face } in builder.plains.clone() {
        let (width, height) = (2.0f64.mul_add(-reveal, width), 2.0f64.mul_add(-reveal, height));
        if width < LEAST || height < LEAST {
            left_out.push(name);
            continue;
        }
        let piece = builder.piece(Cut {
            id: format!("panel-{}", name.replace(' ', "-")),
            kind: "panel",
            family: "panel",
            net: Net::single("panel", Contour::rectangle(0.0, 0.0, width, height)),
            stock: panels.stock,
            along_grain: false,
            name: format!("panel for {name}"),
            owner,
            place: panels.values.place("reveal"),
        });
        if let Some(piece) = piece {
            let mut on = face;
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
