// SPDX-License-Identifier: MIT
//! Whether the parts go together, and onto their sheets.
//!
//! In: an album, its kit, the cutter. Out: findings with both numbers and a way out; what was measured on the way, for
//! those who want to know how well it goes. Never: changes a size, lays out a sheet.
//!
//! First the sizes that the maker chose, in the maker's words; where those hold, the folded album itself; and where that holds,
//! how thick it is and how it lies open.

mod assembly;
mod bitten;
mod caliper;
mod clearance;
mod closing;
mod film;
mod flaps;
mod folds;
mod grip;
mod inserts;
mod known;
pub mod linkage;
mod mouths;
pub mod opening;
pub mod order;
mod put;
mod room;
mod roots;
mod round;
mod seams;
pub mod sleeves;
mod springs;
mod stocks;
mod summary;
mod tabs;
pub mod thickness;
mod top;
mod tried;
mod trimmed;
mod upright;

pub use clearance::Clearance;
pub use opening::Openings;
pub use put::SLIDES;
pub use seams::{TAPES, tape};
pub use thickness::Closed;
pub use trimmed::beyond_trimmer;

use crate::album::Album;
use crate::cutter::Cutter;
use crate::finding::{Finding, gravest_first, stops};
use crate::folded;
use crate::parts::Kit;

/// What the check found.
#[derive(Clone, Debug, Default)]
pub struct Fit {
    /// Everything that the maker should hear, gravest first.
    pub findings: Vec<Finding>,
    /// What there is to spare, the tightest by hand first.
    pub clearances: Vec<Clearance>,
    /// The album closed; none where it does not go together.
    pub closed: Option<Closed>,
    /// The album laid open; none where it does not go together, or has a single page.
    pub openings: Option<Openings>,
}

/// Checks an album.
#[must_use]
pub fn check(album: &Album, kit: &Kit, cutter: &Cutter) -> Fit {
    let mut findings = closing::check(album, kit);
    findings.extend(flaps::check(album, kit));
    findings.extend(sleeves::check(album, kit));
    findings.extend(seams::check(album, kit));
    findings.extend(inserts::check(album, kit));
    findings.extend(bitten::check(album, kit));
    findings.extend(folds::check(album, kit));
    findings.extend(caliper::check(album, kit));
    findings.extend(room::check(album, kit, cutter));
    findings.extend(stocks::check(album, kit, cutter));
    findings.extend(trimmed::check(album, kit));
    findings.extend(upright::check(album, kit));
    let clearances = clearance::all(album, kit);
    let (mut closed, mut openings) = (None, None);
    if !stops(&findings) {
        findings.extend(clearance::by_hand(album, &clearances));
        let calipers: Vec<f64> = album.stocks.iter().map(|stock| stock.caliper.mm()).collect();
        let folded = folded::fold(kit, &calipers);
        findings.extend(assembly::check(album, kit, &folded));
        findings.extend(mouths::check(kit, &folded));
        findings.extend(order::check(kit, &order::steps(kit)));
        findings.extend(tabs::check(album, kit, &folded));
        findings.extend(top::check(album, kit, &folded));
        if !stops(&findings) {
            let measured = thickness::closed(album, kit, &folded);
            findings.extend(thickness::check(album, &measured));
            findings.extend(film::check(album, kit, &measured));
            findings.extend(springs::check(album, kit, &measured));
            findings.extend(round::check(album, kit, &measured));
            findings.extend(opening::too_many(album));
            openings = opening::openings(opening::section(album, &measured));
            findings.extend(openings.as_ref().and_then(|openings| opening::check(album, openings)));
            closed = Some(measured);
        }
    }
    gravest_first(&mut findings);
    Fit { findings, clearances, closed, openings }
}
