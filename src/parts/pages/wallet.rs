// SPDX-License-Identifier: MIT
//! The wallet page: a leaf with a pocket at the spine and a flap that folds over it from the fore-edge.
//!
//! ```text
//!   back                          pocket front
//!   +---------------+--------+    +-----------+
//!   |               ¦        |    |   seam    | s    back (W + overflap) x H, one score at W;
//!   |               ¦        |    +- - - - - -+      pocket front P x (H + 2s), scores at s and H + s.
//!   |     page      ¦overflap| H  |           |      Its seams turn under it and stick, hidden, to the
//!   |               ¦        |    |           | H    back's front face. overflap + P - W is the overlap
//!   |               ¦        |    |           |      that closes it.
//!   +---------------+--------+    +- - - - - -+
//!           W        overflap     |   seam    | s    Sizes: common practice, no source.
//!                                 +-----------+
//!                                       P
//! ```
//!
//! The pocket is on the page's front or back, as `faces` says. On the back, seen from the pocket's side,
//! the spine is at the right, so the back piece is the same rectangle upside down.

use crate::album::{Entry, Kind, Role};
use crate::contour::Rect;
use crate::fields::{Key, needed};
use crate::length::Length;
use crate::net::{Along, Leaf, Net, Sense, Use};
use crate::parts::build::builder::{Builder, side};
use crate::parts::build::face::Lies;
use crate::parts::kit::{Closing, Face, Hold};
use crate::parts::maker::Maker;
use crate::parts::pages::leaf::{CONTENT, FACES, Faces};
use crate::parts::pages::page::Page;

const POCKET: Key<Length> = Key::size("pocket", needed(), "width of the pocket's front");
const OVERFLAP: Key<Length> = Key::size("overflap", needed(), "width of the flap that folds over from the fore-edge");

pub(in crate::parts) const MAKER: Maker = Maker {
    kind: Kind {
        name: "wallet",
        role: Role::Page,
        about: "a leaf with a pocket at the spine and a flap that closes over it",
        fields: &[
            POCKET.field,
            OVERFLAP.field,
            FACES.worded("the face of the page that carries the pocket").field,
            CONTENT.field,
        ],
    },
    make,
    carry: None,
    example: r#"{ "kind": "wallet", "pocket": 110, "overflap": 50 }"#,
};

fn make(builder: &mut Builder<'_>, entry: &Entry, page: usize) {
    let page = Page::new(builder, entry, page);
    let Page { width, height, seam, .. } = page;
    let (pocket, overflap) = (entry.mm(POCKET), entry.mm(OVERFLAP));
    let on_back = entry.get(FACES) == Faces::Back;

    let face = Leaf::new("page", Use::Plain, width);
    let flap = Leaf::new("flap", Use::Flap, overflap);
    let back_net = if on_back {
        Net::row(Along::Across, height, &[flap, face.folded(Sense::Valley, 180.0)], 1)
    } else {
        Net::row(Along::Across, height, &[face, flap.folded(Sense::Valley, 180.0)], 0)
    };
    let pocket_net = Net::row(
        Along::Up,
        pocket,
        &[
            Leaf::new("lower seam", Use::Seam, seam),
            Leaf::new("pocket", Use::Plain, height).folded(Sense::Mountain, 180.0),
            Leaf::new("upper seam", Use::Seam, seam).folded(Sense::Mountain, 180.0),
        ],
        1,
    );
    let seams = (pocket_net.panel("lower seam"), pocket_net.panel("upper seam"), back_net.panel("flap"));
    let (Some(lower), Some(upper), Some(flap_panel)) = seams else { return };
    let back = page.piece(builder, "back", ("wallet back", "wallet back"), back_net);
    let front = page.piece(builder, "pocket", ("wallet pocket", "wallet pocket"), pocket_net);
    let (Some(back), Some(front)) = (back, front) else { return };

    // Where the page panel and the pocket start on the back piece, seen from its front face.
    let page_left = if on_back { overflap } else { 0.0 };
    let pocket_left = if on_back { overflap + width - pocket } else { 0.0 };
    let right = (1.0, 0.0);
    for (panel, on_pocket, on_back_piece) in [(lower, seam, 0.0), (upper, seam + height, height)] {
        builder.bond(
            Hold::Stuck,
            side(front, panel, Face::Front, (0.0, on_pocket), right),
            side(back, 0, Face::Front, (pocket_left, on_back_piece), right),
        );
    }
    let (spine_on_pocket, spine_on_back) = if on_back { (pocket, overflap + width) } else { (0.0, 0.0) };
    let up = (0.0, 1.0);
    let under_pocket = side(front, 0, Face::Back, (spine_on_pocket, seam), up);
    let on_leaf = side(back, 0, Face::Front, (spine_on_back, 0.0), up);
    let (to_front, to_back) = if on_back { (on_leaf, under_pocket) } else { (under_pocket, on_leaf) };
    builder.carried(Hold::Slid, to_front, to_back);

    let (carries, other) = if on_back { (Face::Back, Face::Front) } else { (Face::Front, Face::Back) };
    let flap_left = if on_back { 0.0 } else { width };
    // Closed, the flap lies over the pocket's mouth.
    let (pocket_at, flap_at) = if on_back { (width - pocket, 0.0) } else { (0.0, width - overflap) };
    let beside = if on_back { (overflap, width) } else { (0.0, width - overflap) };
    let shows = Some(Rect { x0: beside.0, y0: 0.0, x1: beside.1, y1: height });
    let pocket_side = side(front, 0, Face::Front, (0.0, seam), right);
    let lies = Lies { at: (pocket_at, 0.0), shows };
    page.face_beside(builder, (carries, "pocket"), (pocket, height), pocket_side, lies);
    // Folded over, the flap shows its back face; seen from there left and right are swapped.
    let flap_side = side(back, flap_panel, Face::Back, (flap_left + overflap, 0.0), (-1.0, 0.0));
    let lies = Lies { at: (flap_at, 0.0), shows: None };
    page.face_beside(builder, (carries, "flap"), (overflap, height), flap_side, lies);
    page.face(builder, (other, ""), (width, height), side(back, 0, Face::Back, (page_left + width, 0.0), (-1.0, 0.0)));
    let places = [entry.values.place(OVERFLAP).cloned(), entry.values.place(POCKET).cloned()];
    let (by, over) = ((back, flap_panel), (front, 0));
    builder.closing(Closing { name: page.name(), flap: overflap, pocket, width, by, over, path: page.path(), places });
    page.pocket(builder, (pocket, height), under_pocket, true);
}
