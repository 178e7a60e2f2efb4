// SPDX-License-Identifier: MIT
//! How thick outlines are that lie over one another, cell by cell.
//!
//! In: outlines with their thickness. Out: the greatest sum over one spot, strip by strip, and the mean. The edges of
//! all boxes make a grid. What is a box covers a cell or does not; a mitred seam or a clipped tab may end within one and
//! is looked for near each of the cell's corners and sides, off its diagonals: there it would lie on its own edge.

use super::{Contour, Point};
use crate::length::tolerance::SAME;

/// Where in a cell slanted outlines are looked for, as shares of its sides.
const SPOTS: [(f64, f64); 8] =
    [(0.02, 0.03), (0.47, 0.02), (0.97, 0.02), (0.98, 0.53), (0.98, 0.97), (0.53, 0.98), (0.03, 0.98), (0.02, 0.47)];

const SPOTS_IN_A_CELL: f64 = 8.0;

/// Outlines that lie over one another.
#[derive(Clone, Debug, PartialEq)]
pub struct Pile {
    /// Strips along x: where each ends, mm, and the greatest thickness in it, mm.
    pub strips: Vec<(f64, f64)>,
    /// Mean thickness of what there is, mm.
    pub mean: f64,
}

impl Pile {
    /// The greatest thickness, mm.
    #[must_use]
    pub fn greatest(&self) -> f64 {
        self.strips.iter().map(|strip| strip.1).fold(0.0, f64::max)
    }

    /// The greatest thickness anywhere between these places along x, mm.
    #[must_use]
    pub fn between(&self, from: f64, to: f64) -> f64 {
        let mut begin = f64::NEG_INFINITY;
        let mut most: f64 = 0.0;
        for &(end, thickness) in &self.strips {
            if begin < to && end > from {
                most = most.max(thickness);
            }
            begin = end;
        }
        most
    }
}

/// By strip from `from` to `to` along x, how thick each of some piles is there, mm: strips end where one of theirs does.
#[must_use]
pub fn columns(piles: &[Pile], from: f64, to: f64) -> Vec<Vec<f64>> {
    let mut ends: Vec<f64> = piles.iter().flat_map(|pile| pile.strips.iter().map(|strip| strip.0)).collect();
    ends.extend([from, to]);
    ends.retain(|end| (from..=to).contains(end));
    ends.sort_by(f64::total_cmp);
    ends.dedup_by(|one, two| (*one - *two).abs() < SAME);
    let thickness = |pair: &[f64]| {
        let middle = f64::midpoint(pair[0], pair[1]);
        piles.iter().map(|pile| pile.between(middle, middle)).collect()
    };
    ends.windows(2).map(thickness).collect()
}

/// Adds up layers, each an outline and its thickness, mm.
///
/// ```
/// use hingeleaf::contour::{pile, Contour};
/// let triangle = |corner| Contour::polygon([(0.0, 0.0), (10.0, 10.0), corner]);
/// // Two triangles make a square, and overlap nowhere.
/// let square = [(triangle((0.0, 10.0)), 0.3), (triangle((10.0, 0.0)).counter_clockwise(), 0.3)];
/// assert_eq!(pile(&square).greatest(), 0.3);
/// ```
#[must_use]
pub fn pile(layers: &[(Contour, f64)]) -> Pile {
    let ends = |of: fn(&Contour) -> [f64; 2]| {
        let mut ends: Vec<f64> = layers.iter().flat_map(|(outline, _)| of(outline)).collect();
        ends.sort_by(f64::total_cmp);
        ends.dedup_by(|a, b| (*a - *b).abs() < SAME);
        ends
    };
    let (across, up) = (ends(|o| [o.bounds().x0, o.bounds().x1]), ends(|o| [o.bounds().y0, o.bounds().y1]));
    let (boxes, slanted): (Vec<_>, Vec<_>) = layers.iter().partition(|(outline, _)| outline.is_box());
    let mut strips = Vec::new();
    let (mut volume, mut area) = (0.0, 0.0);
    for x in across.windows(2) {
        let mut most: f64 = 0.0;
        for y in up.windows(2) {
            let (wide, tall) = (x[1] - x[0], y[1] - y[0]);
            let at = |(right, above): (f64, f64)| Point::new(wide.mul_add(right, x[0]), tall.mul_add(above, y[0]));
            let middle = at((0.5, 0.5));
            let here = |layer: &&&(Contour, f64)| layer.0.bounds().contains(middle);
            let flat: f64 = boxes.iter().filter(here).map(|(_, thickness)| thickness).sum();
            let slanted: Vec<&(Contour, f64)> = slanted.iter().filter(here).copied().collect();
            let share = wide * tall / SPOTS_IN_A_CELL;
            for spot in SPOTS.map(at) {
                let over = slanted.iter().filter(|(outline, _)| outline.contains(spot));
                let here = flat + over.map(|(_, thickness)| thickness).sum::<f64>();
                most = most.max(here);
                volume += here * share;
                area += if here > 0.0 { share } else { 0.0 };
            }
        }
        strips.push((x[1], most));
    }
    Pile { strips, mean: if area > 0.0 { volume / area } else { 0.0 } }
}
