// SPDX-License-Identifier: MIT
//! Whether a hinge's tab that is stuck on a leaf lies over what else is stuck on that face.
//!
//! A page that is a single leaf takes its tab on the face that is turned to it; a frame or a pocket beside it needs the rest
//! (derived: two things stuck on one face must lie beside each other). In a sleeve the tab is stuck to both walls, so nothing
//! goes in between it and them: what is tucked through a slot there meets glue.

use crate::album::Album;
use crate::finding::{Arg, Finding, Said};
use crate::folded::Folded;
use crate::length::Length;
use crate::net::Use;
use crate::parts::{Hold, Kit, Owner, Side, TAB};
use std::collections::BTreeMap;

/// Overlaps smaller than this are an edge beside an edge, mm².
const SLIVER: f64 = 1.0;

pub(super) fn check(album: &Album, kit: &Kit, folded: &Folded) -> Vec<Finding> {
    let owner = |side: &Side| kit.pieces.get(side.piece).map(|piece| piece.owner);
    let purpose = |side: &Side| kit.pieces.get(side.piece)?.net.panels.get(side.panel).map(|panel| panel.purpose);
    let stuck: Vec<[&Side; 2]> = kit
        .bonds
        .iter()
        .filter(|bond| bond.hold == Hold::Stuck)
        .flat_map(|bond| [[&bond.one, &bond.other], [&bond.other, &bond.one]])
        .collect();
    let mut findings = blocked(album, kit, folded);
    let tabs = stuck.iter().filter(|[tab, _]| owner(tab) == Some(Owner::Spine) && purpose(tab) == Some(Use::Tab));
    for [tab, leaf] in tabs {
        let on_it = stuck.iter().filter(|[seam, on]| {
            let same = (on.piece, on.panel, on.face) == (leaf.piece, leaf.panel, leaf.face);
            same && seam.piece != leaf.piece && purpose(seam) == Some(Use::Seam)
        });
        let under = |side: &Side| {
            let overlap = folded.overlap(kit, (tab.piece, tab.panel), (side.piece, side.panel));
            overlap.is_some_and(|overlap| overlap.area > SLIVER)
        };
        let Some(piece) =
            on_it.map(|[seam, _]| *seam).find(|seam| under(seam)).and_then(|seam| kit.pieces.get(seam.piece))
        else {
            continue;
        };
        let text = match album.spine.values.find(TAB) {
            Some(tab) => Said::new("tab-over-seam-wide").with("tab", album.length(tab.mm())),
            None => Said::new("tab-over-seam"),
        };
        let text = text.with("piece", Arg::term(&piece.name));
        let part = kit.parts.get(piece.part);
        let place = part.and_then(|part| part.place.as_ref());
        let about = match piece.owner {
            Owner::Page(page) => Said::new("about-page").with("page", page),
            _ => Said::named(&piece.name),
        };
        let finding = Finding::warn("tab-over-seam", about, text);
        findings.push(finding.help(Said::new("tab-over-seam-help").with("faces", Arg::field("faces"))).at(place));
    }
    findings
}

/// What is tucked through a slot where a tab is stuck behind it: once a page.
fn blocked(album: &Album, kit: &Kit, folded: &Folded) -> Vec<Finding> {
    let is_tab = |side: &Side| {
        let piece = kit.pieces.get(side.piece).filter(|piece| piece.owner == Owner::Spine)?;
        piece.net.panels.get(side.panel).filter(|panel| panel.purpose == Use::Tab)
    };
    // By page: how many corners, and how far at most.
    let mut pages: BTreeMap<usize, (u32, f64)> = BTreeMap::new();
    for tucked in &kit.tucked {
        let Some(Owner::Page(page)) = kit.pieces.get(tucked.piece).map(|piece| piece.owner) else { continue };
        let on = (tucked.piece, tucked.panel);
        let sides = kit.bonds.iter().flat_map(|bond| [(&bond.one, &bond.other), (&bond.other, &bond.one)]);
        // A tab's bond names one wall of the sleeve; glue holds it to the other, too.
        let of_page = |side: &Side| kit.pieces.get(side.piece).is_some_and(|piece| piece.owner == Owner::Page(page));
        let behind = sides.filter(|(tab, wall)| of_page(wall) && is_tab(tab).is_some());
        let over = behind.filter_map(|(tab, _)| folded.over(kit, (tab.piece, tab.panel), on, &tucked.outline, SLIVER));
        if let Some(over) = over.reduce(f64::max) {
            let (count, most) = pages.entry(page).or_default();
            *count += 1;
            *most = most.max(over);
        }
    }
    let one = |(page, (count, most)): (usize, (u32, f64))| {
        let text = Said::new("corner-blocked").with("count", count).with("over", album.rough(most));
        let help = Said::new("corner-blocked-help").with("mount", Arg::code("\"mount\": \"triangles\""));
        let entry = page.checked_sub(1).and_then(|page| album.pages.get(page));
        Finding::warn("corner-blocked", Said::new("about-page").with("page", page), text)
            .measured(Length::from_mm(most), Length::ZERO)
            .help(help.with("lies", Arg::field("lies")))
            .at(entry.and_then(|page| page.place()))
    };
    pages.into_iter().map(one).collect()
}
