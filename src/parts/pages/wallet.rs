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
//! With a `depth` the flap has two scores, so far apart, and so much further out: it then lies flat over what is as thick as
//! that less a caliper (D6, H11).
//!
//! The pocket is on the page's front or back, as `faces` says. On the back, seen from the pocket's side,
//! the spine is at the right, so the back piece is the same rectangle upside down.

use crate::album::{Entry, KIND, Kind, Role};
use crate::contour::Rect;
use crate::fields::{Key, needed};
use crate::length::Length;
use crate::net::{Along, Net, RowPanel, Sense, Use};
use crate::parts::bond::{Face, Hold};
use crate::parts::build::builder::{Builder, side};
use crate::parts::build::face::FacePlace;
use crate::parts::kit::{Closing, Flap};
use crate::parts::maker::Maker;
use crate::parts::pages::leaf::{CONTENT, DEPTH, FACES, Faces, RISER};
use crate::parts::pages::page::NewPage;
use crate::parts::pages::side::wrong_height;
use crate::parts::pocket::{Pocket, PocketEnd, Way};
use crate::parts::spines::carry::Carry;

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
            DEPTH.field,
            FACES.worded("the face of the page that carries the pocket").field,
            CONTENT.field,
        ],
        ready: None,
    },
    make,
    carry: None,
    example: r#"{ "kind": "wallet", "pocket": 110, "overflap": 50 }"#,
};

fn make(builder: &mut Builder<'_>, entry: &Entry, page: usize) {
    let page = NewPage::new(builder, entry, page);
    let NewPage { width, height, seam, .. } = page;
    let (pocket, overflap, depth) = (entry.mm(POCKET), entry.mm(OVERFLAP), entry.mm(DEPTH));
    // Seams taller than the page are told for all pages at once.
    if seam <= height && wrong_height(builder, &page, height, KIND) {
        return;
    }
    let on_back = entry.get(FACES) == Faces::Back;

    let back_net = back((width, height), (overflap, depth), on_back);
    let pocket_net = front(pocket, (height, seam));
    let seams = (pocket_net.panel("lower seam"), pocket_net.panel("upper seam"), back_net.panel("flap"));
    let (Some(lower), Some(upper), Some(flap_panel)) = seams else { return };
    let back = page.piece(builder, "back", ("wallet back", "wallet back"), back_net);
    let front = page.piece(builder, "pocket", ("wallet pocket", "wallet pocket"), pocket_net);
    let (Some(back), Some(front)) = (back, front) else { return };

    // Where the page panel and the pocket start on the back piece, seen from its front face.
    let page_left = if on_back { overflap + depth } else { 0.0 };
    let pocket_left = if on_back { page_left + width - pocket } else { 0.0 };
    let right = (1.0, 0.0);
    for (panel, on_pocket, on_back_piece) in [(lower, seam, 0.0), (upper, seam + height, height)] {
        builder.bond(
            Hold::Stuck,
            side(front, panel, Face::Front, (0.0, on_pocket), right),
            side(back, 0, Face::Front, (pocket_left, on_back_piece), right),
        );
    }
    let (spine_on_pocket, spine_on_back) = if on_back { (pocket, page_left + width) } else { (0.0, 0.0) };
    let up = (0.0, 1.0);
    let under_pocket = side(front, 0, Face::Back, (spine_on_pocket, seam), up);
    let on_leaf = side(back, 0, Face::Front, (spine_on_back, 0.0), up);
    let (to_front, to_back) = if on_back { (on_leaf, under_pocket) } else { (under_pocket, on_leaf) };
    builder.carried(Hold::Slid, to_front, to_back);

    let (carries, other) = if on_back { (Face::Back, Face::Front) } else { (Face::Front, Face::Back) };
    let flap_left = if on_back { 0.0 } else { width + depth };
    // Closed, the flap lies over the pocket's mouth.
    let (pocket_at, flap_at) = if on_back { (width - pocket, 0.0) } else { (0.0, width - overflap) };
    let beside = if on_back { (overflap, width) } else { (0.0, width - overflap) };
    let shows = Some(Rect { x0: beside.0, y0: 0.0, x1: beside.1, y1: height });
    let pocket_side = side(front, 0, Face::Front, (0.0, seam), right);
    let lies = FacePlace { at: (pocket_at, 0.0), shows };
    page.face_beside(builder, (carries, "pocket"), (pocket, height), pocket_side, lies);
    // Folded over, the flap shows its back face; seen from there left and right are swapped.
    let flap_side = side(back, flap_panel, Face::Back, (flap_left + overflap, 0.0), (-1.0, 0.0));
    let lies = FacePlace { at: (flap_at, 0.0), shows: None };
    page.face_beside(builder, (carries, "flap"), (overflap, height), flap_side, lies);
    page.face(builder, (other, ""), (width, height), side(back, 0, Face::Back, (page_left + width, 0.0), (-1.0, 0.0)));
    let tab = Carry::tab_of(builder.album);
    closes(builder, entry, &page, ((back, flap_panel), (front, 0)));
    // What is inside may stand out of it under the flap, up to its fold; at least half of it is inside.
    let beyond = [(width - pocket).min(pocket - tab).max(0.0), 0.0];
    let (across, up) = ([PocketEnd::Open, PocketEnd::Flap], [PocketEnd::Sealed; 2]);
    builder.pocket(Pocket { beyond, tab, ..page.pocket((pocket, height), across, up, under_pocket) });
}

/// The page and its flap side by side; the flap comes first where the pocket is on the back.
fn back((width, height): (f64, f64), (overflap, depth): (f64, f64), on_back: bool) -> Net {
    let face = RowPanel::new("page", Use::Plain, width);
    let flap = RowPanel::new("flap", Use::Flap, overflap);
    let riser = (depth > 0.0).then(|| RowPanel::new(RISER, Use::Flap, depth));
    let mut leaves: Vec<RowPanel> = std::iter::once(face).chain(riser).chain([flap]).collect();
    if on_back {
        leaves.reverse();
    }
    // Half a turn in one fold, or in two.
    let angle = if riser.is_some() { 90.0 } else { 180.0 };
    leaves[1..].iter_mut().for_each(|leaf| *leaf = leaf.folded(Sense::Valley, angle));
    let root = if on_back { leaves.len() - 1 } else { 0 };
    Net::row(Along::Across, height, &leaves, root)
}

/// The pocket between its two seams.
fn front(pocket: f64, (height, seam): (f64, f64)) -> Net {
    Net::row(
        Along::Up,
        pocket,
        &[
            RowPanel::new("lower seam", Use::Seam, seam),
            RowPanel::new("pocket", Use::Plain, height).folded(Sense::Mountain, 180.0),
            RowPanel::new("upper seam", Use::Seam, seam).folded(Sense::Mountain, 180.0),
        ],
        1,
    )
}

/// The flap that folds over the pocket and closes it; both are told by their piece and panel.
fn closes(builder: &mut Builder<'_>, entry: &Entry, page: &NewPage, (by, over): ((usize, usize), (usize, usize))) {
    let (width, pocket, overflap, depth) = (page.width, entry.mm(POCKET), entry.mm(OVERFLAP), entry.mm(DEPTH));
    let places = [entry.values.place(OVERFLAP).cloned(), entry.values.place(POCKET).cloned()];
    builder.flap(Flap {
        name: page.name(),
        what: "flap",
        overlap: Some(overflap + pocket - width),
        long: overflap,
        length: [overflap, width],
        depth,
        caliper: page.caliper,
        over: [page.caliper, (width - pocket).max(0.0)],
        pocket: Some((builder.pockets().len(), Way::Across, width - Carry::tab_of(builder.album))),
        field: OVERFLAP.name(),
        path: page.path(),
        place: places[0].clone(),
        two: true,
    });
    let bitten = 0.0;
    builder.closing(Closing {
        name: page.name(),
        flap: overflap,
        pocket,
        width,
        by,
        over,
        path: page.path(),
        bitten,
        places,
    });
}
