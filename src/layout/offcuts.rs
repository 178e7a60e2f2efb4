// SPDX-License-Identifier: MIT
//! What is left of a laid sheet and worth keeping.

use crate::layout::heuristic::max_rects::Space;
use crate::layout::model::instance::trim;
use crate::layout::model::problem::{Item, SheetType};
use crate::layout::model::rect::Rect;
use crate::layout::model::solution::Placement;

/// Free rectangles on a laid sheet: left, bottom, width and height in eighths of a micrometre, the largest first.
///
/// None is shorter or narrower than `at_least`; all keep `gap` from the parts and from each other, as parts would, so all
/// of them can be cut out. Each is the largest that the ones before it leave.
#[must_use]
pub fn offcuts(
    sheet: &SheetType,
    items: &[Item],
    placements: &[Placement],
    gap: i64,
    at_least: i64,
) -> Vec<(i64, i64, i64, i64)> {
    let gap = trim(gap, 0);
    let least = trim(at_least, 1) + gap;
    let mut space = Space::default();
    let (width, height) = (trim(sheet.width, 0) + gap, trim(sheet.height, 0) + gap);
    if width < least || height < least {
        return Vec::new();
    }
    space.reset(width, height, least, least);
    for placement in placements {
        if let Some(item) = items.get(placement.item) {
            let (width, height) = placement.turn.turned(item.width, item.height);
            let at = |place: i64| {
                place.clamp(-crate::layout::model::instance::LONGEST, crate::layout::model::instance::LONGEST)
            };
            space.take(&Rect::new(at(placement.x), at(placement.y), trim(width, 1) + gap, trim(height, 1) + gap));
        }
    }
    let mut kept = Vec::new();
    let usable = |room: &Rect| (room.width() - gap) * (room.height() - gap);
    while let Some(room) =
        space.free().iter().copied().max_by_key(|room| (usable(room), -room.bottom, -room.left, room.width()))
    {
        kept.push((room.left, room.bottom, room.width() - gap, room.height() - gap));
        space.take(&room);
    }
    kept
}
