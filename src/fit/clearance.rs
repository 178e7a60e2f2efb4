// SPDX-License-Identifier: MIT
//! What there is to spare where one thing goes into or over another, and what is left of it by hand.

use super::flaps;
use super::put::puts;
use crate::album::Album;
use crate::finding::{Arg, Finding, Said};
use crate::length::Length;
use crate::parts::{Kit, Way};

/// What there is to spare in one place.
#[derive(Clone, Debug, PartialEq)]
#[non_exhaustive]
pub struct Clearance {
    /// Of what: `tag 1 in the pocket of page 1`.
    pub about: Said,
    /// Which way: `across`.
    pub what: &'static str,
    /// What there is to spare, mm; below zero it does not fit.
    pub spare: f64,
    /// How many sizes it depends on, each of which can be cut or scored a little off.
    pub sizes: u32,
}

impl Clearance {
    /// What is left when each size is off by `tolerance` mm the wrong way.
    #[must_use]
    pub fn by_hand(&self, tolerance: f64) -> f64 {
        f64::from(self.sizes).mul_add(-tolerance, self.spare)
    }
}

/// Every clearance of an album, the tightest by hand first.
pub(super) fn all(album: &Album, kit: &Kit) -> Vec<Clearance> {
    let mut all = of_inserts(kit);
    all.extend(flaps::reaches(kit).map(|(flap, spare)| Clearance {
        about: Said::new("the-flap-of").with("page", Arg::term(&flap.name)),
        what: if flap.pocket.is_some() { "over its pocket" } else { "over its back" },
        spare,
        sizes: flaps::SIZES,
    }));
    all.extend(kit.spares.iter().map(|spare| Clearance {
        about: spare.about.clone(),
        what: spare.what,
        spare: spare.spare,
        sizes: spare.sizes,
    }));
    let tolerance = album.tolerance.mm();
    all.sort_by(|one, two| one.by_hand(tolerance).total_cmp(&two.by_hand(tolerance)));
    all
}

/// Each insert's room, across and up; cut and score of pocket, tab and insert can all be off.
fn of_inserts(kit: &Kit) -> Vec<Clearance> {
    puts(kit)
        .flat_map(|put| {
            let inside =
                Said::new("in-the-pocket-of").with("insert", Arg::term(&put.insert.name)).with("page", put.pocket.page);
            let clearance = |what, way, sizes| Clearance {
                about: inside.clone(),
                what,
                spare: put.room(way)[0] - put.size(way),
                sizes,
            };
            let across = if put.pocket.tab > 0.0 { 3 } else { 2 };
            [clearance("across", Way::Across, across), clearance("upwards", Way::Up, 2)]
        })
        .collect()
}

/// One line for the tightest place that fits as drawn, and may not when it is cut by hand.
pub(super) fn by_hand(album: &Album, clearances: &[Clearance]) -> Option<Finding> {
    let tolerance = album.tolerance.mm();
    let tight = |clearance: &&Clearance| clearance.spare >= 0.0 && clearance.by_hand(tolerance) < 0.0;
    let mut tight = clearances.iter().filter(tight);
    let first = tight.next()?;
    let text = Said::new("tight-by-hand")
        .with("spare", album.rough(first.spare))
        .with("way", Arg::term(first.what))
        .with("sizes", first.sizes)
        .with("off", album.length(tolerance))
        .with("more", tight.count());
    Some(
        Finding::note("tight-by-hand", first.about.clone(), text)
            .measured(Length::from_mm(first.spare), Length::from_mm(f64::from(first.sizes) * tolerance))
            .help(Said::new("tight-by-hand-help")),
    )
}
