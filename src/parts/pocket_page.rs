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

use super::build::{Builder, side};
use super::page::Page;
use super::{Face, Hold, Maker};
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
        )
        .unmeasured()],
    },
    make,
    carry: None,
};

fn make(builder: &mut Builder<'_>, entry: &Entry, page: usize) {
    let page = Page::new(builder, entry, page);
    let Page { width, height, seam, .. } = page;
    let face = Leaf::new("page", Use::Plain, height);
    let flap = Leaf::new("seam", Use::Seam, seam);
    let front_net = Net::row(Along::Up, width, &[face, flap.folded(Sense::Mountain, 180.0)], 0);
    let back_net = Net::row(Along::Up, width, &[flap, face.folded(Sense::Mountain, 180.0)], 1);
    let front = page.piece(builder, "front", ("pocket front", "pocket page"), front_net);
    let back = page.piece(builder, "back", ("pocket back", "pocket page"), back_net);
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
    let inside = side(front, 0, Face::Back, (0.0, 0.0), up);
    builder.carried(Hold::Slid, inside, side(back, 0, Face::Back, (width, seam), up));
    for (which, piece, low) in [("front", front, 0.0), ("back", back, seam)] {
        page.face(builder, which, (width, height), side(piece, 0, Face::Front, (0.0, low), right));
    }
    page.pocket(builder, (width, height), inside, true);
}
