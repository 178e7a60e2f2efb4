// SPDX-License-Identifier: MIT
//! The tag: a card with a punched hole, clipped at its upper corners, that is pulled out of a pocket.
//!
//! ```text
//!     /---------\
//!    /     o     \     clipped `corner` across and up; the hole's centre stands `hole` below the edge,
//!   |             |    so that as much card is left above it as half its width
//!   |             |    (shape: common practice, no source).
//!   |             | height
//!   +-------------+
//!        width
//! ```

use crate::album::{Entry, Kind, Role};
use crate::contour::{Contour, Corner, Point};
use crate::fields::{Key, usual};
use crate::length::Length;
use crate::net::Net;
use crate::parts::build::builder::Builder;
use crate::parts::inserts::insert::{self, Bulk, Slip};
use crate::parts::maker::Maker;

const HOLE: Key<Length> = Key::length("hole", usual(6.0, 0.25), "diameter of the punched hole, 0 for none");
const CORNER: Key<Length> = Key::length("corner", usual(10.0, 0.375), "size of the clipped corners, 0 for square ones");

pub(in crate::parts) const MAKER: Maker = Maker {
    kind: Kind {
        name: "tag",
        role: Role::Insert,
        about: "a card with a punched hole and clipped corners, for a pocket",
        fields: &[
            insert::FOLLOWS,
            insert::WIDTH.field,
            insert::HEIGHT.field,
            insert::COUNT.field,
            insert::THICKNESS.field,
            HOLE.field,
            CORNER.field,
            insert::PAGES.field,
        ],
        ready: None,
    },
    make,
    carry: None,
    example: r#"{ "kind": "tag", "width": 90, "height": 150 }"#,
};

fn make(builder: &mut Builder<'_>, entry: &Entry, number: usize) {
    let slip = Slip::new(builder, entry, number);
    let (hole, corner) = (entry.mm(HOLE), entry.mm(CORNER));
    let thickness = slip.thickness(slip.caliper);
    let Some((width, height)) = slip.size(builder, thickness, None) else { return };
    let clip = if corner > 0.0 { Corner::Clipped { across: corner, up: corner } } else { Corner::Square };
    let outline = Contour::with_corners((0.0, 0.0), (width, height), [Corner::Square, Corner::Square, clip, clip]);
    let mut net = Net::single("tag", outline);
    if hole > 0.0 {
        net = net.with_hole(Contour::circle(Point::new(width / 2.0, height - hole), hole / 2.0));
    }
    slip.copies(builder, "tag", &net, Bulk { width, height, thickness, pull: hole > 0.0 }, |_, _| {});
}
