// SPDX-License-Identifier: MIT
//! The accordion: a strip folded to and fro, as large as one of its panels when it is closed.
//!
//! ```text
//!   +---------+---------+---------+---------+     n panels, each `width` x `height`; folds are mountain and valley
//!   |         :         |         :         |     in turn, so that panel lies beside panel and none lies inside
//!   |  front  :         |         :         |     another: all are equally wide (derived: check value F8's creep
//!   |         :         |         :         |     is of nested leaves, and there are none).
//!   +---------+---------+---------+---------+     Folded it is n calipers thick.
//!       mountain   valley   mountain
//! ```

use crate::album::{Entry, Kind, Role};
use crate::fields::{Key, number};
use crate::net::{Along, Net, RowPanel, Sense, Use};
use crate::parts::build::builder::Builder;
use crate::parts::inserts::insert::{self, Bulk, Slip};
use crate::parts::maker::Maker;

const PANELS: Key<u32> = Key::count("panels", (2, 24), number(4), "how many panels it has");

pub(in crate::parts) const MAKER: Maker = Maker {
    kind: Kind {
        name: "accordion",
        role: Role::Insert,
        about: "a strip of panels folded to and fro, for a pocket",
        fields: &[
            insert::FOLLOWS,
            insert::WIDTH.field,
            insert::HEIGHT.field,
            PANELS.field,
            insert::COUNT.field,
            insert::FOLDED.field,
            insert::PAGES.field,
        ],
        ready: None,
        file: None,
    },
    make,
    carry: None,
    example: r#"{ "kind": "accordion", "panels": 4, "width": 100, "height": 150 }"#,
};

fn make(builder: &mut Builder<'_>, entry: &Entry, number: usize) {
    let slip = Slip::new(builder, entry, number);
    let panels = entry.get(PANELS);
    let thickness = slip.thickness(f64::from(panels) * slip.caliper);
    let Some((width, height)) = slip.size(builder, thickness, None) else { return };
    let leaf = |panel: u32| match panel {
        0 => RowPanel::new("front", Use::Plain, width),
        odd if odd % 2 == 1 => RowPanel::new("panel", Use::Plain, width).folded(Sense::Mountain, 180.0),
        _ => RowPanel::new("panel", Use::Plain, width).folded(Sense::Valley, 180.0),
    };
    let net = Net::row(Along::Across, height, &(0..panels).map(leaf).collect::<Vec<_>>(), 0);
    slip.copies(builder, "accordion", &net, Bulk { width, height, thickness, pull: false }, |_, _| {});
}
