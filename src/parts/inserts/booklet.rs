// SPDX-License-Identifier: MIT
//! The booklet: leaves folded once, one inside another, sewn through the fold as a pamphlet is.
//!
//! ```text
//!   +-----------+-----------+     leaf k (0 is the outermost) is 2 (width - k c) wide, scored in the middle.
//!   |           o           |
//!   |           :           |     c = pi/2 t: the fold of the leaf round it has a radius larger by a caliper t, and
//!   |   back    o   front   |     each half loses a quarter turn of that (check value F8, half-round; the trade's
//!   |           :           |     band is 1 to 2 calipers). So the fore-edges are flush.
//!   |           o           |
//!   +-----------+-----------+     Three holes stand at 1/6, 3/6 and 5/6 of the height, five at every sixth (common
//!           mountain              practice, no source). It is 2 n calipers thick, sewn with one thread.
//! ```

use crate::album::{Entry, Kind, Role};
use crate::contour::{Contour, Point};
use crate::fields::{Key, number, usual, words};
use crate::finding::Said;
use crate::length::Length;
use crate::net::bend::creep;
use crate::net::{Along, Net, RowPanel, Sense, Use};
use crate::parts::bond::{Face, Hold};
use crate::parts::build::builder::{Builder, side};
use crate::parts::inserts::insert::{self, Bulk, Slip};
use crate::parts::kit::Deed;
use crate::parts::maker::Maker;

words! {
    /// How many sewing holes it has in its fold.
    pub(in crate::parts) enum Holes { Three = "three", Five = "five", None = "none" }
}

const LEAVES: Key<u32> = Key::count("leaves", (1, 12), number(3), "how many folded leaves it has");
const HOLES: Key<Holes> = Key::choice("holes", Holes::Three.usual(), "how many sewing holes it has in its fold");
const HOLE: Key<Length> =
    Key::length("hole", usual(1.5, 0.0625), "diameter of its sewing holes").within(0.5, 5.0).unmeasured();

pub(in crate::parts) const MAKER: Maker = Maker {
    kind: Kind {
        name: "booklet",
        role: Role::Insert,
        about: "leaves folded one inside another and sewn through the fold, for a pocket",
        fields: &[
            insert::FOLLOWS,
            insert::WIDTH.field,
            insert::HEIGHT.field,
            LEAVES.field,
            HOLES.field,
            HOLE.field,
            insert::COUNT.field,
            insert::FOLDED.field,
            insert::PAGES.field,
        ],
        ready: None,
        file: None,
    },
    make,
    carry: None,
    example: r#"{ "kind": "booklet", "width": 100, "height": 150 }"#,
};

fn make(builder: &mut Builder<'_>, entry: &Entry, number: usize) {
    let slip = Slip::new(builder, entry, number);
    let leaves = entry.get(LEAVES);
    let thickness = slip.thickness(2.0 * f64::from(leaves) * slip.caliper);
    let Some((width, height)) = slip.size(builder, thickness, None) else { return };
    let [_, step, _] = creep(slip.caliper);
    let narrowest = f64::from(leaves - 1).mul_add(-step, width);
    let sixths: &[f64] = match entry.get(HOLES) {
        Holes::Three => &[1.0, 3.0, 5.0],
        Holes::Five => &[1.0, 2.0, 3.0, 4.0, 5.0],
        Holes::None => &[],
    };
    let hole = entry.mm(HOLE);
    if !fits(builder, &slip, (width, narrowest), (height, hole), sixths.len()) {
        return;
    }
    for copy in 0..slip.count {
        let mut outer = None;
        let mut nested = Vec::new();
        for number in 0..leaves {
            let half = f64::from(number).mul_add(-step, width);
            let back = RowPanel::new("back", Use::Plain, half);
            let front = RowPanel::new("front", Use::Plain, half).folded(Sense::Mountain, 180.0);
            let mut net = Net::row(Along::Across, height, &[back, front], 1);
            for sixth in sixths {
                net = net.with_hole(Contour::circle(Point::new(half, sixth / 6.0 * height), hole / 2.0));
            }
            let which = (leaves > 1).then_some(usize::try_from(number).unwrap_or(usize::MAX).saturating_add(1));
            let Some(leaf) = slip.piece(builder, copy, which, "booklet leaf", net) else { return };
            // Its front lies on the inside of the front round it, flush at the fore-edge.
            if let Some((round, its_half)) = outer {
                builder.bond(
                    Hold::Slid,
                    side(leaf, 0, Face::Front, (2.0 * half, 0.0), (0.0, 1.0)),
                    side(round, 0, Face::Back, (2.0 * its_half, 0.0), (0.0, 1.0)),
                );
            } else {
                slip.put(builder, copy, leaf, Bulk { width, height, thickness, pull: false });
            }
            outer = Some((leaf, half));
            nested.push(leaf);
        }
        if !sixths.is_empty() {
            builder.deed(Deed::Sew { leaves: nested, holes: sixths.len() });
        }
    }
}

/// Whether the innermost leaf is wide enough, and the holes stand apart.
fn fits(
    builder: &mut Builder<'_>,
    slip: &Slip<'_>,
    (width, narrowest): (f64, f64),
    (height, hole): (f64, f64),
    holes: usize,
) -> bool {
    let mm = Length::from_mm;
    let least = 2.0 * hole.max(1.0);
    if narrowest < least {
        let text = Said::new("booklet-too-narrow")
            .with("width", builder.album.length(width))
            .with("trimmed", builder.album.rough(narrowest.max(0.0)))
            .with("least", builder.album.length(least));
        let help = Said::new("booklet-too-narrow-help");
        let finding = slip.stop("booklet-too-narrow", insert::WIDTH, text, help);
        builder.find(finding.measured(mm(narrowest.max(0.0)), mm(least)));
        return false;
    }
    // Holes nearer than their own diameter tear into one another, and into the edge.
    let apart = height / 6.0;
    if holes > 0 && apart < 2.0 * hole {
        let text = Said::new("holes-too-close");
        let text = text.with("hole", builder.album.length(hole)).with("apart", builder.album.rough(apart));
        let finding = slip.stop("holes-too-close", HOLE, text, Said::new("holes-too-close-help"));
        builder.find(finding.measured(mm(apart), mm(2.0 * hole)));
        return false;
    }
    true
}
