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

use super::build::{Builder, Cut};
use super::{Insert, Maker, Owner};
use crate::album::{COUNT, Entry, Kind, Role};
use crate::contour::{Contour, Corner, Point};
use crate::fields::{Fallback, Field, Takes};
use crate::net::Net;

pub(super) const MAKER: Maker = Maker {
    kind: Kind {
        name: "tag",
        role: Role::Insert,
        about: "a card with a punched hole and clipped corners, for a pocket",
        fields: &[
            Field::size("width", Fallback::Needed, "its width"),
            Field::size("height", Fallback::Needed, "its height"),
            COUNT,
            Field::length("thickness", Fallback::Rule("its card's caliper"), "its thickness with what is stuck on it")
                .unmeasured(),
            Field::length("hole", Fallback::Length { mm: 6.0, inch: 0.25 }, "diameter of the punched hole, 0 for none"),
            Field::length(
                "corner",
                Fallback::Length { mm: 10.0, inch: 0.375 },
                "size of the clipped corners, 0 for square ones",
            ),
            Field::new(
                "pages",
                Takes::Counts,
                Fallback::Rule("every page with a pocket, in order"),
                "the pages whose pockets they go into",
            ),
        ],
    },
    make,
    carry: None,
};

fn make(builder: &mut Builder<'_>, entry: &Entry, number: usize) {
    let (width, height, hole, corner) = (entry.mm("width"), entry.mm("height"), entry.mm("hole"), entry.mm("corner"));
    let clip = if corner > 0.0 { Corner::Clipped { across: corner, up: corner } } else { Corner::Square };
    let outline = Contour::with_corners((0.0, 0.0), (width, height), [Corner::Square, Corner::Square, clip, clip]);
    let mut net = Net::single("tag", outline);
    if hole > 0.0 {
        net = net.with_hole(Contour::circle(Point::new(width / 2.0, height - hole), hole / 2.0));
    }
    let caliper = builder.caliper(entry.stock);
    let thickness = entry.values.maybe_length("thickness").map_or(caliper, |thickness| thickness.mm().max(caliper));
    let pockets = pockets_for(builder, entry);
    let count = entry.count();
    for copy in 0..count {
        let name = if count == 1 { format!("tag {number}") } else { format!("tag {number} no. {}", copy + 1) };
        let piece = builder.piece(Cut {
            id: format!("tag-{number}"),
            kind: "tag",
            family: "tag",
            net: net.clone(),
            stock: entry.stock,
            along_grain: entry.grain_along_spine.unwrap_or(false),
            name: name.clone(),
            owner: Owner::Insert(number),
            place: entry.place(),
        });
        let Some(piece) = piece else { return };
        // In the pockets named or in order, starting anew when all have one.
        let pocket = usize::try_from(copy).ok().and_then(|copy| pockets.get(copy % pockets.len().max(1)).copied());
        let places = [entry.values.place("width").cloned(), entry.values.place("height").cloned()];
        let (pull, path) = (hole > 0.0, format!("inserts[{}]", number - 1));
        builder.insert(Insert { name, piece, pocket, width, height, thickness, pull, path, places });
        if let Some(pocket) = pocket {
            builder.put_in(piece, width, pocket);
        }
    }
}

fn pockets_for(builder: &Builder<'_>, entry: &Entry) -> Vec<usize> {
    let of_page = |page: usize| {
        builder.pockets().iter().enumerate().filter(move |(_, pocket)| pocket.page == page).map(|(index, _)| index)
    };
    entry.values.counts("pages").map_or_else(
        || (0..builder.pockets().len()).collect(),
        |pages| pages.iter().filter_map(|(page, _)| usize::try_from(*page).ok()).flat_map(of_page).collect(),
    )
}
