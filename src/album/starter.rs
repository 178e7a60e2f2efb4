// SPDX-License-Identifier: MIT
//! The album file that `hingeleaf new` writes.

use crate::length::Units;

/// A small complete album in these units, ready to be changed.
#[must_use]
pub fn starter(units: Units) -> &'static str {
    match units {
        Units::In => include_str!("starter-in.json"),
        Units::Mm | Units::Cm => include_str!("starter-mm.json"),
    }
}
