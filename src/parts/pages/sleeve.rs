// SPDX-License-Identifier: MIT
//! The sleeve page: a pocket page from one piece.
//!
//! ```text
//!   +-----------+
//!   |           |
//!   |   back    | H    one piece W x (2H + s), scored at s and s + H. The back folds over at the head, the
//!   |           |      seam turns in at the tail and is stuck, hidden, inside the back's tail. Open at the
//!   +- - - - - -+      spine, where the hinge's tab goes in, and at the fore-edge.
//!   |           |
//!   |   front   | H    Derived: a pocket page's two pieces W x (H + s) joined at the head, which saves one
//!   |           |      seam; common practice, no source. On card with a one-way pattern the back stands on
//!   +- - - - - -+      its head: a pocket page from two pieces does not.
//!   |   seam    | s
//!   +-----------+
//!         W
//! ```

use crate::album::{Entry, Kind, Role};
use crate::net::{Along, Net, RowPanel, Sense, Use};
use crate::parts::bond::{Face, Hold};
use crate::parts::build::builder::{Builder, side};
use crate::parts::maker::Maker;
use crate::parts::pages::leaf::{CONTENT, front};
use crate::parts::pages::page::NewPage;

pub(in crate::parts) const MAKER: Maker = Maker {
    kind: Kind {
        name: "sleeve",
        role: Role::Page,
        about: "a sleeve from one piece folded at the head, open at the spine and the fore-edge",
        fields: &[CONTENT.field],
        ready: None,
        file: None,
    },
    make,
    carry: None,
    example: r#"{ "kind": "sleeve" }"#,
};

fn make(builder: &mut Builder<'_>, entry: &Entry, page: usize) {
    let page = NewPage::new(builder, entry, page);
    let NewPage { width, height, seam, .. } = page;
    let leaves = [
        RowPanel::new("seam", Use::Seam, seam),
        RowPanel::new("front", Use::Plain, height).folded(Sense::Mountain, 180.0),
        RowPanel::new("back", Use::Plain, height).folded(Sense::Mountain, 180.0),
    ];
    let net = Net::row(Along::Up, width, &leaves, 1);
    let (Some(flap), Some(back)) = (net.panel("seam"), net.panel("back")) else { return };
    let Some(piece) = page.piece(builder, "sleeve", ("one-piece sleeve", "one-piece sleeve"), net) else { return };

    // Folded over at the head, the back's tail is at the upper end of the flat piece; the spine stays at the left.
    let tail = 2.0f64.mul_add(height, seam);
    let right = (1.0, 0.0);
    builder.bond(
        Hold::Stuck,
        side(piece, flap, Face::Front, (0.0, seam), right),
        side(piece, back, Face::Back, (0.0, tail), right),
    );
    let inside = side(piece, 0, Face::Back, (0.0, seam), (0.0, 1.0));
    builder.carried(Hold::Slid, inside, side(piece, back, Face::Back, (0.0, tail), (0.0, -1.0)));
    page.face(builder, (Face::Front, ""), (width, height), front(piece, 0, (0.0, seam)));
    page.face(builder, (Face::Back, ""), (width, height), side(piece, back, Face::Front, (width, tail), (-1.0, 0.0)));
    page.sleeve(builder, (width, height), inside);
}
