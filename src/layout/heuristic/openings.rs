// SPDX-License-Identifier: MIT
//! Openings: parts that leave room in their boxes for others, in windows or in notched corners; and whether a layout that uses
//! it is better than one that does not.
//!
//! In: the problem. Out: the instance in which such parts take no more of their boxes than they must. Never: opens a part whose
//! windows and corners are too small for all others, so that nothing changes where nothing can be won.
//!
//! A sheet's empty rectangles then reach into windows and corners, and every search fills them as it fills the sheet. Parts still go
//! in by their boxes: what lies in a window lies in a rectangle of it.

use crate::layout::heuristic::max_rects::Space;
use crate::layout::heuristic::objective::Objective;
use crate::layout::heuristic::set_covering::LONG_RUN;
use crate::layout::model::instance::{Instance, ItemType, Orientation};
use crate::layout::model::packing::{Packing, PlacedBox};
use crate::layout::model::problem::{Cuts, Problem};
use crate::layout::model::rect::Rect;
use crate::layout::model::solid::solid;

/// So much larger must an offcut be that nothing but it speaks for a layout, one part in so many: our choice.
const LARGER: i64 = 50;

/// The instance with what can be used of the parts' boxes; nothing where no part leaves room for another.
pub(crate) fn opened(problem: &Problem) -> Option<Instance> {
    let solids: Vec<Option<Vec<Rect>>> =
        problem.items.iter().map(|item| if item.count > 0 { solid(item) } else { None }).collect();
    if solids.iter().all(Option::is_none) {
        return None;
    }
    let all = Instance::with(problem, Cuts::Free, &solids).ok()?;
    let mut useful = vec![false; problem.items.len()];
    for (number, kind) in all.kinds.iter().enumerate() {
        let others = all.kinds.iter().enumerate().filter(|(other, _)| *other != number);
        let others: Vec<Orientation> = others.flat_map(|(_, other)| other.orientations()).copied().collect();
        if kind.orientations().iter().any(|way| leaves_room(kind, *way, &others)) {
            kind.members().iter().for_each(|(item, _)| useful[*item] = true);
        }
    }
    let solids: Vec<Option<Vec<Rect>>> =
        solids.into_iter().zip(useful).map(|(solid, useful)| solid.filter(|_| useful)).collect();
    solids.iter().any(Option::is_some).then(|| Instance::with(problem, Cuts::Free, &solids).ok())?
}

/// Whether a box leaves room for one of the others within itself.
fn leaves_room(kind: &ItemType, way: Orientation, others: &[Orientation]) -> bool {
    let solid = kind.solid(way.width);
    let (Some(width), Some(height)) =
        (others.iter().map(|other| other.width).min(), others.iter().map(|other| other.height).min())
    else {
        return false;
    };
    if solid.is_empty() {
        return false;
    }
    let mut space = Space::default();
    space.reset(way.width, way.height, width, height);
    for rect in solid {
        space.take(rect);
    }
    let holds = |room: &Rect| others.iter().any(|one| one.width <= room.width() && one.height <= room.height());
    space.free().iter().any(holds)
}

/// Whether some box of a packing lies within another.
fn is_used(packing: &Packing) -> bool {
    let meets = |placed: &[PlacedBox]| {
        placed
            .iter()
            .enumerate()
            .any(|(at, one)| placed[at + 1..].iter().any(|other| one.rect().overlaps(&other.rect())))
    };
    packing.laid.iter().any(|laid| meets(&laid.placed))
}

/// Whether a packing that may use openings is worth it: it takes less, or leaves a clearly larger offcut of few sheets.
pub(crate) fn is_worth_it(packing: &Packing, found: Objective, plain: Objective) -> bool {
    is_better(packing, found, plain) && is_used(packing)
}

/// Whether a packing takes less than the plain one, or leaves a clearly larger offcut of few sheets.
pub(crate) fn is_better(packing: &Packing, found: Objective, plain: Objective) -> bool {
    let offcut = |objective: Objective| objective.offcut.0;
    let (less, same) = (found.but_for_offcut(plain) < plain, found.but_for_offcut(plain) == plain);
    let larger = offcut(found) - offcut(plain) > offcut(plain) / LARGER;
    less || (same && larger && packing.sheets() <= LONG_RUN)
}
