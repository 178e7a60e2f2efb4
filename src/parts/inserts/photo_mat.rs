// SPDX-License-Identifier: MIT
//! The photo mat: a card that carries a print, on its face or behind a window.
//!
//! ```text
//!   +-------------------+
//!   |      border       |     Without a window the print lies on the card with a border all round: print + 2 border each
//!   |   +-----------+   |     way. Where the pocket says how large the card is, the print lies in its middle.
//!   |   |           |   |
//!   |   |   print   |   |     The window is smaller than the print by `overlap` on every side, so that the print behind
//!   |   |           |   |     it can not fall through (check value P1 for prints; overlap and border: common practice,
//!   |   +-----------+   |     no source).
//!   |                   |
//!   +-------------------+     It is as thick as its card and a print of 0.23 mm (P6).
//! ```

use crate::album::{Entry, Kind, Role};
use crate::contour::Contour;
use crate::fields::{Key, Text, needed, rule, usual};
use crate::finding::{Arg, Finding, Said};
use crate::length::Length;
use crate::length::tolerance::SAME;
use crate::net::Net;
use crate::parts::build::advice::smaller;
use crate::parts::build::builder::Builder;
use crate::parts::inserts::insert::{self, ACROSS, Bulk, Slip};
use crate::parts::kit::Deed;
use crate::parts::maker::Maker;
use crate::parts::prints::{ABOUT, THICK};

const OF_PRINT: Key<Text> = Key::text("print", needed(), ABOUT);
const BORDER: Key<Option<Length>> =
    Key::length("border", rule("what its pockets leave"), "the card that shows round the print");
const WINDOW: Key<bool> = Key::flag("window", "whether the print lies behind a window");
const OVERLAP: Key<Length> =
    Key::size("overlap", usual(3.0, 0.125), "how far the card reaches over the print at its window");
const THICKNESS: Key<Option<Length>> = insert::THICKNESS
    .otherwise(rule("its card and a print of 0.23 mm"))
    .worded("its thickness with the print and what else is stuck on it");

pub(in crate::parts) const MAKER: Maker = Maker {
    kind: Kind {
        name: "photo-mat",
        role: Role::Insert,
        about: "a card that carries a print, on its face or behind a window, for a pocket",
        fields: &[
            OF_PRINT.field,
            ACROSS.field,
            BORDER.field,
            insert::WIDTH.field,
            insert::HEIGHT.field,
            WINDOW.field,
            OVERLAP.field,
            insert::COUNT.field,
            THICKNESS.field,
            insert::PAGES.field,
        ],
        ready: None,
        file: None,
    },
    make,
    carry: None,
    example: r#"{ "kind": "photo-mat", "print": "3R", "window": true }"#,
};

fn make(builder: &mut Builder<'_>, entry: &Entry, number: usize) {
    let slip = Slip::new(builder, entry, number);
    let Ok(print) = slip.print(builder, (OF_PRINT, entry.get(OF_PRINT))) else { return };
    let said = entry.values.says(THICKNESS);
    let thickness = slip.thickness(slip.caliper + if said { 0.0 } else { THICK });
    let border = entry.get(BORDER).map(Length::mm);
    let bordered = border.map(|border| (2.0f64.mul_add(border, print.0), 2.0f64.mul_add(border, print.1)));
    let Some(size) = slip.size(builder, thickness, bordered) else { return };
    let overlap = entry.get(WINDOW).then(|| entry.mm(OVERLAP));
    if let Some(finding) = wrong(builder, &slip, print, size, overlap) {
        builder.find(finding);
        return;
    }
    let (width, height) = size;
    let mut net = Net::single("mat", Contour::rectangle(0.0, 0.0, width, height));
    if let Some(overlap) = overlap {
        let open = [print.0, print.1].map(|side| 2.0f64.mul_add(-overlap, side));
        let [x, y] = [(width - open[0]) / 2.0, (height - open[1]) / 2.0];
        net = net.with_hole(Contour::rectangle(x, y, open[0], open[1]));
    }
    slip.copies(builder, "photo mat", &net, Bulk { width, height, thickness, pull: false }, |builder, piece| {
        builder.deed(Deed::Mount { piece, print, window: overlap.is_some() });
    });
}

/// The first thing that keeps it from carrying its print.
fn wrong(
    builder: &Builder<'_>,
    slip: &Slip<'_>,
    print: (f64, f64),
    size: (f64, f64),
    overlap: Option<f64>,
) -> Option<Finding> {
    let (length, mm) = (|mm: f64| builder.album.length(mm), Length::from_mm);
    let (narrow, low) = (Said::new("mat-too-narrow"), Said::new("mat-too-low"));
    for (field, print, size, text) in [(insert::WIDTH, print.0, size.0, narrow), (insert::HEIGHT, print.1, size.1, low)]
    {
        if size < print - SAME {
            let text = text.with("size", length(size)).with("print", length(print));
            let help = Said::new("mat-too-small-help").with("across", Arg::field(ACROSS.name()));
            return Some(slip.stop("mat-too-small", field, text, help).measured(mm(size), mm(print)));
        }
    }
    let (overlap, most) = (overlap?, print.0.min(print.1) / 2.0 - 1.0);
    (overlap > most).then(|| {
        let text = Said::new("overlap-too-wide");
        let text = text.with("overlap", length(overlap)).with("print", length(2.0 * most + 2.0));
        let help = smaller("overlap-too-wide-help", 3.175, most);
        slip.stop("overlap-too-wide", OVERLAP, text, help).measured(mm(overlap), mm(most))
    })
}
