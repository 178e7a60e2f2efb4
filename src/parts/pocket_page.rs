// SPDX-License-Identifier: MIT
//! The pocket page: an open-sided sleeve from two scored pieces.
//!
//! ```text
//!   front             back
//!   +-----------+                      each piece is W x (H + s), with one score at s from one end
//!   |   seam    | s   +-----------+    (sizes: common practice, no source; 6 1/4 x 8 1/2 in page and
//!   +- - - - - -+     |           |    1/2 in seam give pieces of 6 1/4 x 9 in scored at 1/2)
//!   |           |     |           |
//!   |           | H   |           | H  The front's seam is at the head, the back's at the tail; both turn
//!   |           |     |           |    in, hidden. The page is open at the spine, where the hinge's tab
//!   +-----------+     +- - - - - -+    closes it, and at the fore-edge.
//!         W           |   seam    | s
//!                     +-----------+
//! ```

use super::build::{Builder, Cut, Mount, Plain, side};
use super::{Face, Hold, Maker, Owner, Pocket};
use crate::album::{Entry, Kind, Role};
use crate::fields::{Fallback, Field};
use crate::net::{Along, Leaf, Net, Sense, Use};

pub(super) const MAKER: Maker = Maker {
    kind: Kind {
        name: "pocket",
        role: Role::Page,
        about: "a sleeve from two scored pieces, open at the spine and the fore-edge",
        fields: &[Field::length(
            "content",
            Fallback::Length { mm: 0.0, inch: 0.0 },
            "thickness of what will be stuck on it, both faces together",
        )],
    },
    make,
};

fn make(builder: &mut Builder<'_>, entry: &Entry, page: usize) {
    let size = &builder.album.page;
    let (width, height, seam) = (size.width.mm(), size.height.mm(), size.seam.mm());
    let face = Leaf::new("page", Use::Plain, height);
    let flap = Leaf::new("seam", Use::Seam, seam);
    let mut cut = |which: &str, kind, net| {
        builder.piece(Cut {
            id: format!("page-{page}-{which}"),
            kind,
            family: "pocket page",
            net,
            stock: entry.stock,
            along_grain: entry.grain_along_spine.unwrap_or(false),
            name: format!("page {page} {which}"),
            owner: Owner::Page(page),
            place: entry.place(),
        })
    };
    let front =
        cut("front", "pocket front", Net::row(Along::Up, width, &[face, flap.folded(Sense::Mountain, 180.0)], 0));
    let back = cut("back", "pocket back", Net::row(Along::Up, width, &[flap, face.folded(Sense::Mountain, 180.0)], 1));
    let (Some(front), Some(back)) = (front, back) else { return };

    // The root panel is number 0 in both pieces, the seam number 1. On the front the spine is at the left,
    // on the back, seen from its own front face, at the right.
    let (right, left) = ((1.0, 0.0), (-1.0, 0.0));
    builder.bond(
        Hold::Stuck,
        side(front, 1, Face::Front, (0.0, height), right),
        side(back, 0, Face::Back, (width, seam + height), left),
    );
    builder.bond(
        Hold::Stuck,
        side(back, 1, Face::Front, (width, seam), left),
        side(front, 0, Face::Back, (0.0, 0.0), right),
    );
    let up = (0.0, 1.0);
    let mount =
        Mount { front: side(front, 0, Face::Back, (0.0, 0.0), up), back: side(back, 0, Face::Back, (width, seam), up) };
    builder.mounts.push(mount);
    for (which, piece, low) in [("front", front, 0.0), ("back", back, seam)] {
        builder.plains.push(Plain {
            name: format!("page {page} {which}"),
            owner: Owner::Page(page),
            width,
            height,
            side: side(piece, 0, Face::Front, (0.0, low), right),
        });
    }
    let caliper = builder.caliper(entry.stock);
    let tab = super::Hinge::of(builder.album).tab;
    builder.pocket(Pocket { page, width, height, tab, caliper, inside: mount.front });
}
