// SPDX-License-Identifier: MIT
//! The belly band: a strip that goes round a bundle and is stuck to itself at the back.
//!
//! ```text
//!   +------------+-+--------------+--+-----+     Round a thing w wide and q thick, in card t thick, with ease e:
//!   |            | |              |  |     |       back        W - t, W = w + e + t
//!   |    back    | |    front     |  | lap |       left edge   q + t
//!   |            | |              |  |     |       front       W
//!   +------------+-+--------------+--+-----+       right edge  q + 2t
//!             left edge      right edge            lap         `lap`, stuck on the back's outer face
//! ```
//!
//! Check value F9, measured from crease to crease: the middles of front and back are q + t apart, and the lap lies a caliper
//! further out. The back's free end stays half a caliper clear of the right edge's inner face. So the band is
//! 2 (w + e + q) + 4t + lap long, scored at W - t, W + q, 2W + q, 2W + 2q + 2t (derived).
//!
//! Where q + t is less than a crease is wide (F3: 1.3 t and the rule) each edge is one fold: it takes up pi/2 (q + t), half
//! from either panel (F6), so that the front is W + pi/2 (q + t) wide, the back pi/4 (q + t) and t less.
//! The lap of 12 mm or 1/2 in is the pasted lap of boxes (C5; Bean & Brodhead, *Bookbinding for Beginners*, 1914).

use crate::album::{Entry, Kind, Role};
use crate::fields::{Key, needed, usual};
use crate::finding::Said;
use crate::length::Length;
use crate::net::bend::{RULE, channel, taken_up, wrapper};
use crate::net::{Along, Net, RowPanel, Sense, Use};
use crate::parts::bond::{Face, Hold};
use crate::parts::build::advice::smaller;
use crate::parts::build::builder::{Builder, side};
use crate::parts::inserts::insert::{self, LAP, Slip};
use crate::parts::maker::Maker;
use std::f64::consts::PI;

const WIDTH: Key<Length> = Key::size("width", needed(), "width of what it goes round");
const THICKNESS: Key<Length> =
    Key::length("thickness", needed(), "thickness of what it goes round").within(0.0, 300.0).unmeasured();
const HEIGHT: Key<Length> = Key::size("height", usual(40.0, 1.5), "how tall the band is");
const EASE: Key<Length> =
    Key::length("ease", usual(1.5, 0.0625), "how much wider than the bundle it is, so that it slides on");

pub(in crate::parts) const MAKER: Maker = Maker {
    kind: Kind {
        name: "belly-band",
        role: Role::Insert,
        about: "a band that goes round a bundle and is stuck to itself; it goes into no pocket",
        fields: &[
            insert::FOLLOWS,
            WIDTH.field,
            THICKNESS.field,
            HEIGHT.field,
            EASE.field,
            LAP.field,
            insert::COUNT.field,
        ],
        ready: None,
        file: None,
    },
    make,
    carry: None,
    example: r#"{ "kind": "belly-band", "width": 150, "thickness": 18 }"#,
};

/// The panels of a band, in their order along it.
fn leaves(wide: f64, thick: f64, caliper: f64, lap: f64) -> Vec<RowPanel> {
    let [between, _] = wrapper(thick, caliper);
    let wide = wide + caliper;
    let [crease, ..] = channel(caliper, RULE);
    if between < crease {
        let taken = taken_up(between, PI);
        return vec![
            RowPanel::new("back", Use::Plain, wide + taken / 2.0 - caliper),
            RowPanel::new("front", Use::Plain, wide + taken).folded(Sense::Mountain, 180.0),
            RowPanel::new("lap", Use::Seam, lap).folded(Sense::Mountain, 180.0),
        ];
    }
    vec![
        RowPanel::new("back", Use::Plain, wide - caliper),
        RowPanel::new("left edge", Use::Plain, between).folded(Sense::Mountain, 90.0),
        RowPanel::new("front", Use::Plain, wide).folded(Sense::Mountain, 90.0),
        RowPanel::new("right edge", Use::Plain, between + caliper).folded(Sense::Mountain, 90.0),
        RowPanel::new("lap", Use::Seam, lap).folded(Sense::Mountain, 90.0),
    ]
}

fn make(builder: &mut Builder<'_>, entry: &Entry, number: usize) {
    let slip = Slip::new(builder, entry, number);
    let (width, thick, height) = (entry.mm(WIDTH), entry.mm(THICKNESS), entry.mm(HEIGHT));
    let (ease, lap) = (entry.mm(EASE), entry.mm(LAP));
    let leaves = leaves(width + ease, thick, slip.caliper, lap);
    let front = leaves.len() / 2;
    let net = Net::row(Along::Across, height, &leaves, front);
    let (Some(back), Some(seam)) = (net.panel("back"), net.panel("lap")) else { return };
    let [back_box, lap_box] = [back, seam].map(|panel| net.panels[panel].outline.bounds());
    let most = back_box.width();
    if lap > most {
        let text = Said::new("band-lap-too-wide");
        let text = text.with("lap", builder.album.length(lap)).with("back", builder.album.rough(most));
        let help = smaller("band-lap-too-wide-help", 12.7, most);
        let (measured, allowed) = (Length::from_mm(lap), Length::from_mm(most));
        builder.find(slip.stop("lap-too-wide", LAP, text, help).measured(measured, allowed));
        return;
    }
    slip.narrow_lap(builder, lap);
    // Card gives at its folds, so what counts is the way round its four panels.
    builder.spare(Said::named(&slip.name()), "round its bundle", 2.0 * ease, 4);
    // The lap's fold stands over the front's far edge, and the back ends so far short of it.
    let short = net.panels[0].outline.bounds().width() - most;
    for copy in 0..slip.count {
        let Some(piece) = slip.piece(builder, copy, None, "belly band", net.clone()) else { return };
        builder.bond(
            Hold::Stuck,
            side(piece, seam, Face::Back, (lap_box.x0 + short, 0.0), (0.0, 1.0)),
            side(piece, back, Face::Front, (back_box.x0, 0.0), (0.0, 1.0)),
        );
    }
}
