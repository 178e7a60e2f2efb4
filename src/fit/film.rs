// SPDX-License-Identifier: MIT
//! What no caliper counts: films of tape and glue.
//!
//! A film of tape is 0.05 to 0.25 mm thick, dry glue 0.02 to 0.05 (makers' data sheets differ); 0.1 mm a layer is our
//! choice. One film lies at a seam, one under the panel of each face, one on either face of a tab in a sleeve
//! (H15). Stubs are stuck with the same films as what they make up for, so these do not ask for more of them. It is told only
//! where the verdict turns on it.

use super::roots::roots;
use super::thickness::{Closed, worst_run};
use crate::album::Album;
use crate::finding::{Arg, Finding, Said};
use crate::length::Length;
use crate::length::tolerance::SAME;
use crate::parts::{Hold, Kit, Owner, PITCH, Purpose};

/// A film, mm: our choice.
const FILM: f64 = 0.1;

/// By page: how thick everything is that no caliper counts, mm, where it is thickest.
#[must_use]
pub(super) fn uncounted(kit: &Kit, pages: usize) -> Vec<f64> {
    // By page: seams, panels, films on tabs.
    let mut films = vec![[0_u32; 3]; pages];
    let owner = |piece: usize| kit.pieces.get(piece).map(|piece| piece.owner);
    let purpose = |piece: usize| {
        let part = kit.pieces.get(piece).and_then(|piece| kit.parts.get(piece.part));
        part.map(|part| part.purpose)
    };
    for bond in &kit.bonds {
        let owners = (owner(bond.one.piece), owner(bond.other.piece));
        let (page, at, most) = match owners {
            (Some(Owner::Page(page)), Some(Owner::Page(_))) if bond.hold == Hold::Stuck => {
                let panel = purpose(bond.one.piece) == Some(Purpose::Panel);
                // Seams lie at different edges, panels of a face beside each other.
                if panel { (page, 1, 2) } else { (page, 0, 1) }
            }
            (Some(Owner::Spine), Some(Owner::Page(page))) => (page, 2, if bond.hold == Hold::Slid { 2 } else { 1 }),
            _ => continue,
        };
        if let Some(of_page) = page.checked_sub(1).and_then(|page| films.get_mut(page)) {
            of_page[at] = if at == 2 { most } else { (of_page[at] + 1).min(most) };
        }
    }
    films.iter().map(|films| FILM * f64::from(films.iter().sum::<u32>())).collect()
}

pub(super) fn check(album: &Album, kit: &Kit, closed: &Closed) -> Option<Finding> {
    let carry = &closed.carry;
    if album.pages.len() < 2 || spent(closed.thickest, closed.spine, carry.gusset) || closed.run.is_some() {
        return None;
    }
    let more = uncounted(kit, album.pages.len());
    let all: f64 = more.iter().sum();
    let thick = closed.thickest + all;
    let with: Vec<f64> = closed.pages.iter().zip(&more).map(|(page, more)| page.greatest + more).collect();
    let runs = || worst_run(&with, &roots(album, carry).1, carry.gusset).is_some();
    if !spent(thick, closed.spine, carry.gusset) && !runs() {
        return None;
    }
    let text = Said::new("film-uncounted")
        .with("film", album.rough(FILM))
        .with("more", album.rough(all))
        .with("thick", album.rough(thick))
        .with("spine", album.length(closed.spine));
    let finding = Finding::note("film-uncounted", Said::new("about-pages"), text)
        .measured(Length::from_mm(thick), Length::from_mm(closed.spine + carry.gusset))
        .help(
            Said::new("film-uncounted-help")
                .with("content", Arg::field("content"))
                .with("pitch", Arg::field("spine.pitch")),
        );
    Some(finding.at(album.spine.values.place(PITCH)))
}

/// Whether the outer gussets give more than half of themselves, as that is told elsewhere.
fn spent(thick: f64, spine: f64, gusset: f64) -> bool {
    (thick - spine) / 2.0 > gusset / 2.0 + SAME
}
