// SPDX-License-Identifier: MIT
//! The shape: a flat piece cut along an outline that somebody drew.
//!
//! ```text
//!        .--.
//!     .-(    )-.      Its outline and its holes come from an SVG or DXF drawing; without one it is a cloud. It is as large
//!   .(          ).    as the drawing says, or as the file asks: then it is scaled. Its box is what its pocket must take.
//!  (              )    The cloud is 80 mm or 3 in wide (our choice).
//!   `------------`
//! ```

use crate::album::{Entry, Kind, Role};
use crate::finding::{Arg, Said};
use crate::length::{Length, Units};
use crate::net::{Net, Sense};
use crate::outline::{AskedOutline, DrawnShape, OUTLINE, ScoredAs, drawing, read};
use crate::parts::build::builder::Builder;
use crate::parts::inserts::insert::{self, Bulk, Slip};
use crate::parts::maker::Maker;
use std::sync::Arc;

pub(in crate::parts) const MAKER: Maker = Maker {
    kind: Kind {
        name: "shape",
        role: Role::Insert,
        about: "a flat piece cut along a drawn outline, for a pocket",
        fields: &[OUTLINE.field, insert::COUNT.field, insert::THICKNESS.field, insert::PAGES.field],
        ready: None,
        file: None,
    },
    make,
    carry: None,
    example: r#"{ "kind": "shape" }"#,
};

/// The outline that holds where no drawing is named: our own.
const CLOUD: &str = include_str!("cloud.svg");

fn make(builder: &mut Builder<'_>, entry: &Entry, number: usize) {
    let slip = Slip::new(builder, entry, number);
    let shape = match &entry.outline {
        None => cloud(builder.album.units),
        Some(outline) => outline.shape.clone(),
    };
    let Some(shape) = shape else {
        let file = entry.outline.as_ref().map_or("", |outline| outline.asked.file.as_str());
        let text = Said::new("outline-unread").with("file", Arg::quoted(file));
        builder.find(slip.stop("outline-unread", OUTLINE, text, Said::new("outline-unread-help")));
        return;
    };
    let mut net = Net::scored("shape", &shape.outline, &shape.scores, sense(entry));
    for hole in &shape.holes {
        net = net.with_hole(hole.clone());
    }
    let bounds = shape.outline.bounds();
    let bulk =
        Bulk { width: bounds.width(), height: bounds.height(), thickness: slip.thickness(slip.caliper), pull: false };
    slip.copies(builder, "shape", &net, bulk, |_, _| {});
}

/// Which way its scores are folded.
fn sense(entry: &Entry) -> Sense {
    match entry.outline.as_ref().map(|outline| outline.asked.fold) {
        Some(ScoredAs::Mountain) => Sense::Mountain,
        Some(ScoredAs::Both) => Sense::Both,
        Some(ScoredAs::Valley) | None => Sense::Valley,
    }
}

/// The cloud of 80 mm or 3 in.
fn cloud(units: Units) -> Option<Arc<DrawnShape>> {
    let wide = if units == Units::In { Length::from_inches(3.0) } else { Length::from_mm(80.0) };
    let source = drawing("cloud.svg", CLOUD.into()).ok()?;
    read(&source, &AskedOutline::of("cloud.svg").wide(wide.mm())).value.map(Arc::new)
}
