// SPDX-License-Identifier: MIT
//! Whether a hinge's tab that is stuck on a leaf lies over what else is stuck on that face.
//!
//! A page that is a single leaf takes its tab on the face that is turned to it; a frame or a pocket beside it needs the rest
//! (derived: two things stuck on one face must lie beside each other).

use crate::album::Album;
use crate::finding::{Arg, Finding, Said};
use crate::folded::Folded;
use crate::net::Use;
use crate::parts::{Hold, Kit, Owner, Side, TAB};

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
    let mut findings = Vec::new();
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
