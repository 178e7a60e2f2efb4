// SPDX-License-Identifier: MIT
//! Whether the parts go together, and onto their sheets.
//!
//! In: an album, its kit, the cutter. Out: findings with both numbers and a way out. Never: changes a size,
//! lays out a sheet.

mod closing;
mod hinge;
mod inserts;
pub mod linkage;
mod room;
mod stocks;

use crate::album::Album;
use crate::cutter::Cutter;
use crate::finding::{Finding, gravest_first};
use crate::parts::Kit;

/// Everything that the maker should hear, gravest first.
#[must_use]
pub fn check(album: &Album, kit: &Kit, cutter: &Cutter) -> Vec<Finding> {
    let mut findings = closing::check(album, kit);
    findings.extend(hinge::check(album, kit));
    findings.extend(inserts::check(album, kit));
    findings.extend(room::check(album, kit, cutter));
    findings.extend(stocks::check(album, kit, cutter));
    gravest_first(&mut findings);
    findings
}
