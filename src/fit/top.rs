// SPDX-License-Identifier: MIT
//! Albums that are bound at the top: how they are read, and what falls out of them.
//!
//! Such an album is described, made and checked as if it were bound at the left. Turned by a quarter, its widths run from the
//! spine down: a mouth at the fore-edge then looks to the floor (derived).

use super::mouths::{SHUT, closed_edges};
use crate::album::{Album, Bound};
use crate::finding::{Arg, Finding, Said};
use crate::folded::Folded;
use crate::length::tolerance::READ;
use crate::parts::Kit;
use std::collections::BTreeSet;

/// More pages than this are not named.
const NAMED: usize = 6;

pub(super) fn check(album: &Album, kit: &Kit, folded: &Folded) -> Vec<Finding> {
    if album.bound != Bound::Top {
        return Vec::new();
    }
    let text = Said::new("read-from-the-top")
        .with("wide", album.length(album.page.height.mm()))
        .with("tall", album.length(album.page.width.mm()));
    let help = Said::new("read-from-the-top-help")
        .with("width", Arg::field("page.width"))
        .with("height", Arg::field("page.height"));
    let read = Finding::note("read-from-the-top", Said::new("about-pages"), text).help(help);
    let read = read.at(album.page.values.whole());
    let open = (0..kit.pockets.len()).filter(|&pocket| opens_down(kit, folded, pocket));
    let pages: BTreeSet<usize> = open.map(|pocket| kit.pockets[pocket].page).collect();
    let falls = (!pages.is_empty()).then(|| mouth_down(album, &pages));
    std::iter::once(read).chain(falls).collect()
}

/// Whether a pocket is open at the fore-edge, and no flap closes over it.
fn opens_down(kit: &Kit, folded: &Folded, pocket: usize) -> bool {
    let inside = kit.pockets[pocket].inside;
    let Some(edges) = closed_edges(kit, folded, pocket) else { return false };
    // What runs along the spine, farthest away from it, is the fore-edge.
    let off = |point: crate::contour::Point| (point - inside.at).cross(inside.along).abs() / inside.along.hypot();
    let far = edges.iter().map(|(edge, _)| off(edge.from)).fold(0.0, f64::max);
    let mut at_fore_edge = edges.iter().filter(|(edge, _)| far - off(edge.from) < READ && far - off(edge.to) < READ);
    let flap = kit.closings.iter().any(|closing| closing.over.0 == inside.piece);
    !flap && at_fore_edge.any(|(_, closed)| *closed <= SHUT)
}

fn mouth_down(album: &Album, pages: &BTreeSet<usize>) -> Finding {
    let mut names: Vec<Arg> = pages.iter().take(NAMED).map(|page| Arg::from(*page)).collect();
    if pages.len() > NAMED {
        names.push("…".into());
    }
    let about = Said::new("about-page-numbers").with("count", pages.len()).with("pages", Arg::Row(names));
    let text = Said::new("mouth-down");
    let help = Said::new("mouth-down-help");
    let first = pages.first().and_then(|page| page.checked_sub(1)).and_then(|page| album.pages.get(page));
    Finding::note("mouth-down", about, text).help(help).at(first.and_then(|page| page.place()))
}
