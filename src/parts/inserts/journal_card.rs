// SPDX-License-Identifier: MIT
//! The journal card: a card to write on, with square or rounded corners.
//!
//! ```text
//!    .-------------.
//!   |               |     `corner` is the radius of its corners, 0 for square ones. 3 x 4 in and 4 x 6 in are the usual
//!   |               |     cards (check value P3; common practice, no source).
//!   |               | height
//!    '-------------'
//!          width
//! ```

use crate::album::{Entry, Kind, Role};
use crate::contour::{Contour, Corner};
use crate::fields::{Key, Text, rule, usual};
use crate::finding::Said;
use crate::length::Length;
use crate::net::Net;
use crate::parts::build::builder::Builder;
use crate::parts::inserts::insert::{self, ACROSS, Bulk, Slip};
use crate::parts::maker::Maker;
use crate::parts::prints::OR_OFFCUT;

const SIZE: Key<Option<Text>> = Key::text("size", rule("its width and height"), OR_OFFCUT);
const CORNER: Key<Length> =
    Key::length("corner", usual(5.0, 0.1875), "radius of its rounded corners, 0 for square ones");

pub(in crate::parts) const MAKER: Maker = Maker {
    kind: Kind {
        name: "journal-card",
        role: Role::Insert,
        about: "a card to write on, with square or rounded corners, for a pocket",
        fields: &[
            SIZE.field,
            ACROSS.field,
            insert::WIDTH.field,
            insert::HEIGHT.field,
            CORNER.field,
            insert::COUNT.field,
            insert::THICKNESS.field,
            insert::PAGES.field,
        ],
        ready: None,
    },
    make,
    carry: None,
    example: r#"{ "kind": "journal-card", "width": 100, "height": 150 }"#,
};

fn make(builder: &mut Builder<'_>, entry: &Entry, number: usize) {
    let slip = Slip::new(builder, entry, number);
    let named = entry.get(SIZE).map(|size| slip.print(builder, (SIZE, size)));
    let Ok(named) = named.transpose() else { return };
    let thickness = slip.thickness(slip.caliper);
    let Some((width, height)) = slip.size(builder, thickness, named) else { return };
    let (corner, most) = (entry.mm(CORNER), width.min(height) / 2.0);
    if corner > most {
        let text = Said::new("round-corners-meet");
        let text = text.with("radius", builder.album.length(corner)).with("most", builder.album.length(most));
        let best = builder.album.at_most(most);
        let help = Said::new("make-at-most").with("most", builder.album.length(best.mm()));
        let finding = slip.stop("corner-too-large", CORNER, text, help).mend(slip.way(CORNER), best);
        builder.find(finding.measured(Length::from_mm(corner), Length::from_mm(most)));
        return;
    }
    let finish = if corner > 0.0 { Corner::Rounded(corner) } else { Corner::Square };
    let net = Net::single("card", Contour::with_corners((0.0, 0.0), (width, height), [finish; 4]));
    slip.copies(builder, "journal card", &net, Bulk { width, height, thickness, pull: false }, |_, _| {});
}
