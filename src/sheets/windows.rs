// SPDX-License-Identifier: MIT
//! Parts that lie in windows of others on a laid sheet: what lies in what.
//!
//! In: a kit, parts in place. Out: for each of them, in whose window it lies. Never: moves a part.

use super::Placed;
use crate::contour::{Contour, Point, Rect, turned};
use crate::parts::Kit;

/// For each placement of a sheet, the number of the placement in whose window it lies: the smallest one, where windows lie in
/// windows.
#[must_use]
pub fn hosts(kit: &Kit, placements: &[Placed]) -> Vec<Option<usize>> {
    let mut hosts = vec![None; placements.len()];
    let windows: Vec<(usize, Contour, Rect)> = placements
        .iter()
        .enumerate()
        .flat_map(|(at, placed)| windows(kit, placed).into_iter().map(move |window| (at, window.bounds(), window)))
        .map(|(at, bounds, window)| (at, window, bounds))
        .collect();
    if windows.is_empty() {
        return hosts;
    }
    for (at, placed) in placements.iter().enumerate() {
        let Some(part) = kit.parts.get(placed.part) else { continue };
        let size = if placed.quarters.is_multiple_of(2) {
            (part.flat.width, part.flat.height)
        } else {
            (part.flat.height, part.flat.width)
        };
        let own = Rect::new(placed.x, placed.y, placed.x + size.0, placed.y + size.1);
        let round = |(host, window, bounds): &&(usize, Contour, Rect)| {
            *host != at && bounds.union(own) == *bounds && window.contains(own.center())
        };
        let smallest = windows.iter().filter(round).min_by(|one, other| one.2.area().total_cmp(&other.2.area()));
        hosts[at] = smallest.map(|(host, ..)| *host);
    }
    hosts
}

/// A part's windows where it lies.
fn windows(kit: &Kit, placed: &Placed) -> Vec<Contour> {
    let Some(part) = kit.parts.get(placed.part) else { return Vec::new() };
    let map = |point: Point| {
        let point = turned(point, placed.quarters, (part.flat.width, part.flat.height));
        Point::new(point.x + placed.x, point.y + placed.y)
    };
    part.flat.holes.iter().map(|hole| hole.mapped(map)).collect()
}
