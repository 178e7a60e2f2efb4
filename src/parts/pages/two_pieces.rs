// SPDX-License-Identifier: MIT
//! What pages share that are an open-sided sleeve from two scored pieces, as the pocket page is.
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

use crate::net::{Along, Net, RowPanel, Sense, Use};
use crate::parts::bond::{Face, Hold, Side};
use crate::parts::build::builder::{Builder, side};
use crate::parts::pages::page::NewPage;

/// The nets of a front and a back. The root panel is number 0 in both, the seam number 1.
pub(in crate::parts) fn nets(page: &NewPage<'_>) -> [Net; 2] {
    let face = RowPanel::new("page", Use::Plain, page.height);
    let flap = RowPanel::new("seam", Use::Seam, page.seam);
    [
        Net::row(Along::Up, page.width, &[face, flap.folded(Sense::Mountain, 180.0)], 0),
        Net::row(Along::Up, page.width, &[flap, face.folded(Sense::Mountain, 180.0)], 1),
    ]
}

/// The whole back, as its reader sees it.
pub(in crate::parts) const fn back_face(page: &NewPage<'_>, back: usize) -> Side {
    side(back, 0, Face::Front, (0.0, page.seam), (1.0, 0.0))
}

/// Makes a sleeve of a front and a back and says how it is carried; gives both pieces. Each net is called what `kinds` say:
/// in lists, and what it may be one part with.
pub(in crate::parts) fn join(
    builder: &mut Builder<'_>,
    page: &NewPage<'_>,
    [front, back]: [Net; 2],
    kinds: [(&'static str, &'static str); 2],
) -> Option<[usize; 2]> {
    let NewPage { width, height, seam, .. } = *page;
    let front = page.piece(builder, "front", kinds[0], front);
    let back = page.piece(builder, "back", kinds[1], back);
    let (front, back) = (front?, back?);
    // On the front the spine is at the left, on the back, seen from its own front face, at the right.
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
    page.sleeve(builder, (width, height), inside);
    Some([front, back])
}
