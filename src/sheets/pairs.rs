// SPDX-License-Identifier: MIT
//! Equal parts that lie head to tail on a laid sheet: which lies with which.
//!
//! In: a kit, parts in place. Out: for each of them, its partner. Never: moves a part.

use super::Placed;
use crate::contour::Rect;
use crate::length::tolerance::READ;
use crate::parts::Kit;
use std::collections::BTreeMap;

/// For each placement of a sheet, the number of the one that it lies head to tail with: the same part, half turned, in whose box
/// it lies with a part of its own.
#[must_use]
pub fn partners(kit: &Kit, placements: &[Placed]) -> Vec<Option<usize>> {
    let mut partners = vec![None; placements.len()];
    let mut of_part: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
    for (at, placed) in placements.iter().enumerate() {
        of_part.entry(placed.part).or_default().push(at);
    }
    for (part, places) in of_part {
        let Some(flat) = kit.parts.get(part).map(|part| &part.flat).filter(|flat| !flat.outline.is_box()) else {
            continue;
        };
        let own = |at: usize| {
            let Placed { x, y, quarters, .. } = placements[at];
            let size = if quarters.is_multiple_of(2) { (flat.width, flat.height) } else { (flat.height, flat.width) };
            (quarters % 4, Rect::new(x, y, x + size.0, y + size.1).inset(-READ))
        };
        for (number, &one) in places.iter().enumerate() {
            let (quarters, mine) = own(one);
            let meets = |other: &&usize| {
                let (turned, theirs) = own(**other);
                let both = mine.intersect(theirs);
                partners[**other].is_none() && (quarters + 2) % 4 == turned && both.area() > 0.0
            };
            if partners[one].is_none()
                && let Some(&other) = places[number + 1..].iter().find(meets)
            {
                (partners[one], partners[other]) = (Some(other), Some(one));
            }
        }
    }
    partners
}
