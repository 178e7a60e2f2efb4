// SPDX-License-Identifier: MIT
//! The nearest page at which an album goes together at all, where none near its own does.
//!
//! In: an album. Out: a size, and how many were tried. It looks along three rays: the same width, the same height, the same
//! shape, each towards smaller and larger pages; the first hit of each is closed in on by halves.

use super::range::{LARGEST, SMALLEST};
use super::tries::Tries;
use crate::length::Length;
use crate::length::tolerance::WHOLE;

/// So many sizes are tried on each ray either way: our choice.
const ON_A_RAY: u32 = 40;

/// Larger pages than so many times the album's own are not looked at: our choice.
const GROWS: f64 = 2.0;

/// What the rays found.
#[derive(Clone, Copy, Debug)]
pub(super) struct Rays {
    pub nearest: Option<(Length, Length)>,
    pub tried: usize,
    pub left_out: usize,
    pub cut_short: bool,
}

/// A way of changing the page: whether its width changes, whether its height does, whether it grows.
#[derive(Clone, Copy)]
struct Ray {
    ways: [bool; 2],
    grows: bool,
}

impl Ray {
    /// The page so many parts of a thousand along the ray, in whole steps.
    fn at(self, [width, height]: [Length; 2], step: Length, parts: u32) -> (Length, Length) {
        let share = f64::from(parts) / 1000.0;
        let share = if self.grows { share.mul_add(GROWS - 1.0, 1.0) } else { 1.0 - share };
        let side = |side: Length, changes: bool| {
            let steps = side.mm() * share / step.mm();
            let whole = if self.grows { (steps - WHOLE).ceil() } else { (steps + WHOLE).floor() };
            if changes { Length::from_eighths((step * whole).eighths()) } else { side }
        };
        (side(width, self.ways[0]), side(height, self.ways[1]))
    }
}

/// Looks for the nearest size; `step` is from one to the next.
pub(super) fn nearest(tries: Tries<'_>, step: Length) -> Rays {
    let page = [tries.album.page.width, tries.album.page.height];
    // Far from its own size nobody asks for more than a ruler's step.
    let step = if step.mm() > 0.0 { step.max(Length::from_mm(0.5)) } else { Length::from_mm(1.0) };
    let ways = [[true, false], [false, true], [true, true]];
    let rays: Vec<Ray> = [false, true].into_iter().flat_map(|grows| ways.map(|ways| Ray { ways, grows })).collect();
    let parts = |number: u32| number * 1000 / ON_A_RAY;
    let is_page = |(width, height): &(Length, Length)| {
        [width, height].into_iter().all(|side| (SMALLEST..=LARGEST).contains(&side.mm()))
    };
    let mut wanted: Vec<(usize, u32, (Length, Length))> = Vec::new();
    for (number, ray) in rays.iter().enumerate() {
        let on_it = (1..=ON_A_RAY).map(|at| (number, parts(at), ray.at(page, step, parts(at))));
        wanted.extend(on_it.filter(|(_, _, size)| is_page(size)));
    }
    let sizes: Vec<(Length, Length)> = wanted.iter().map(|(_, _, size)| *size).collect();
    let (found, cut_short) = tries.all(&sizes);
    let mut seen = Rays { nearest: None, tried: found.len(), left_out: 0, cut_short };
    let mut hits: Vec<(Length, Length)> = Vec::new();
    for (number, ray) in rays.iter().enumerate() {
        let mine = found.iter().filter_map(|(at, size)| wanted.get(*at).map(|want| (want, size)));
        let first =
            mine.filter(|((of, ..), size)| *of == number && size.is_some()).map(|((_, parts, _), _)| *parts).min();
        let Some(mut good) = first else { continue };
        let mut bad = good.saturating_sub(1000 / ON_A_RAY);
        while good - bad > 1 && !tries.watch.stop() {
            let middle = u32::midpoint(bad, good);
            let (width, height) = ray.at(page, step, middle);
            seen.tried += 1;
            if tries.at(width, height).is_some() {
                good = middle;
            } else {
                seen.left_out += 1;
                bad = middle;
            }
        }
        hits.push(ray.at(page, step, good));
    }
    seen.left_out += found.iter().filter(|(_, size)| size.is_none()).count();
    // Nearest first; of those as near the larger page.
    let off = |(width, height): &(Length, Length)| ((*width - page[0]).abs() + (*height - page[1]).abs()).eighths();
    let area = |(width, height): &(Length, Length)| width.mm() * height.mm();
    seen.nearest = hits.into_iter().min_by(|one, two| off(one).cmp(&off(two)).then(area(two).total_cmp(&area(one))));
    seen
}
