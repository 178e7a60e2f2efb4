// SPDX-License-Identifier: MIT
//! Whether a pocket whose mouth is cut in a pattern still holds what is in it.
//!
//! Where the mouth is cut deepest, half of what lies in the pocket has to be behind its front, as everywhere where something
//! looks out (our choice, the same as for low fronts); an empty pocket keeps half of its front.

use super::put::puts;
use crate::album::Album;
use crate::finding::{Arg, Finding, Said};
use crate::length::Length;
use crate::length::tolerance::SAME;
use crate::parts::{Kit, Pocket, Way};
use std::collections::BTreeMap;

pub(super) fn check(album: &Album, kit: &Kit) -> Vec<Finding> {
    // One finding a page: that of what is held least.
    let mut found: BTreeMap<usize, (f64, Finding)> = BTreeMap::new();
    let mut say = |pocket: &Pocket, what: Said, held: f64, long: f64| {
        let lacks = long / 2.0 - held;
        let known = found.get(&pocket.page).is_some_and(|(worst, _)| *worst >= lacks);
        if lacks > SAME && !known {
            found.insert(pocket.page, (lacks, loses(album, pocket, what, [held, long])));
        }
    };
    // A kind that has a notch of its own says itself how large it may be.
    let asked = |pocket: &Pocket| {
        pocket.page.checked_sub(1).and_then(|page| album.pages.get(page)).is_some_and(|page| !page.edges.is_empty())
    };
    let cut = |pocket: &Pocket| {
        let ways = [Way::Across, Way::Up].into_iter().filter(|_| asked(pocket));
        ways.filter(|way| pocket.notch[*way as usize] > 0.0).collect::<Vec<Way>>()
    };
    let held = |pocket: &Pocket, way: Way| (pocket.front(way) - pocket.notch[way as usize]).max(0.0);
    for put in puts(kit) {
        for way in cut(put.pocket) {
            let what = Said::named(&put.insert.name);
            say(put.pocket, what, held(put.pocket, way).min(put.size(way)), put.size(way));
        }
    }
    for pocket in &kit.pockets {
        for way in cut(pocket) {
            say(pocket, Said::new("its-pocket"), held(pocket, way), pocket.front(way));
        }
    }
    found.into_values().map(|(_, finding)| finding).collect()
}

fn loses(album: &Album, pocket: &Pocket, what: Said, [held, long]: [f64; 2]) -> Finding {
    let entry = pocket.page.checked_sub(1).and_then(|page| album.pages.get(page));
    let place = entry.and_then(|entry| entry.edges.first().and_then(|edge| edge.place()).or_else(|| entry.place()));
    let text = Said::new("mouth-cut-too-deep")
        .with("what", what)
        .with("held", album.rough(held))
        .with("half", album.rough(long / 2.0));
    Finding::warn("mouth-cut-too-deep", Said::new("about-page").with("page", pocket.page), text)
        .measured(Length::from_mm(held), Length::from_mm(long / 2.0))
        .help(Said::new("mouth-cut-too-deep-help").with("depth", Arg::field("depth")))
        .at(place)
}
