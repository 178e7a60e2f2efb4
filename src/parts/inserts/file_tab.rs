// SPDX-License-Identifier: MIT
//! The file tab: a small index tab that is folded over an edge and stuck on both faces there.
//!
//! ```text
//!   +-----------------+     Laid flat: two legs, one for either face, with the tab between them, folded in its middle.
//!   |      back       | grip
//!    \               /      `height` is what stands out beyond the edge, `grip` what is stuck on either face; the
//!     \- - - - - - -/       tab is narrower at its fold by `corner` on both sides.
//!    /               \ height
//!   |      front      | grip
//!   +-----------------+     2 (height + grip) tall, one mountain in the middle (sizes: common practice, no source).
//!         width
//! ```

use crate::album::{Entry, Kind, Role};
use crate::contour::{Contour, Point};
use crate::fields::{Key, usual};
use crate::finding::Said;
use crate::length::Length;
use crate::length::tolerance::READ;
use crate::net::{Fold, Net, Panel, Sense, Use};
use crate::parts::build::advice::smaller;
use crate::parts::build::builder::Builder;
use crate::parts::inserts::insert::{self, Slip};
use crate::parts::kit::Deed;
use crate::parts::maker::Maker;

const WIDTH: Key<Length> = Key::size("width", usual(40.0, 1.5), "its width along the edge");
const HEIGHT: Key<Length> = Key::size("height", usual(12.0, 0.5), "how far it stands out beyond the edge");
const GRIP: Key<Length> = Key::size("grip", usual(10.0, 0.375), "what is stuck on either face");
const CORNER: Key<Length> =
    Key::length("corner", usual(4.0, 0.125), "how much narrower it is at its fold, on either side");

pub(in crate::parts) const MAKER: Maker = Maker {
    kind: Kind {
        name: "file-tab",
        role: Role::Insert,
        about: "an index tab that is folded over an edge and stuck there; it goes into no pocket",
        fields: &[WIDTH.field, HEIGHT.field, GRIP.field, CORNER.field, insert::COUNT.field],
        ready: None,
        file: None,
    },
    make,
    carry: None,
    example: r#"{ "kind": "file-tab" }"#,
};

fn make(builder: &mut Builder<'_>, entry: &Entry, number: usize) {
    let slip = Slip::new(builder, entry, number);
    let (width, height, grip, corner) = (entry.mm(WIDTH), entry.mm(HEIGHT), entry.mm(GRIP), entry.mm(CORNER));
    if 2.0 * corner >= width {
        let text = Said::new("corners-off-fold");
        let text = text.with("clipped", builder.album.length(2.0 * corner)).with("width", builder.album.length(width));
        let finding =
            slip.stop("corner-too-large", CORNER, text, smaller("corners-off-fold-help", 4.0, width / 2.0 - READ));
        builder.find(finding.measured(Length::from_mm(2.0 * corner), Length::from_mm(width)));
        return;
    }
    let fold = grip + height;
    let half = |end: f64| {
        let from = |y: f64| (end - y).abs();
        let corners = [
            (0.0, from(0.0)),
            (width, from(0.0)),
            (width, from(grip)),
            (width - corner, from(fold)),
            (corner, from(fold)),
            (0.0, from(grip)),
        ];
        Contour::polygon(corners).counter_clockwise()
    };
    let panel = |name, end| Panel { name, purpose: Use::Plain, outline: half(end) };
    let net = Net {
        panels: vec![panel("front", 0.0), panel("back", 2.0 * fold)],
        folds: vec![Fold {
            between: [0, 1],
            from: Point::new(corner, fold),
            to: Point::new(width - corner, fold),
            sense: Sense::Mountain,
            angle: 180.0,
        }],
        holes: Vec::new(),
        marks: Vec::new(),
    };
    for copy in 0..slip.count {
        let Some(piece) = slip.piece(builder, copy, None, "file tab", net.clone()) else { return };
        builder.deed(Deed::Clip { piece, grip });
    }
}
