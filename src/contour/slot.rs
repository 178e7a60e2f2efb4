// SPDX-License-Identifier: MIT
//! Slots at a slant: whoever cuts one by hand marks its two ends.

use super::{Contour, Edge, Point};
use crate::length::tolerance::READ;

/// A rectangle that stands askew: the middles of its short sides, the left one first, and how wide it is, mm. None for every
/// other outline.
///
/// ```
/// # use hingeleaf::contour::{Contour, slot};
/// let askew = Contour::polygon([(0.0, 3.0), (3.0, 0.0), (4.0, 1.0), (1.0, 4.0)]);
/// let (ends, wide) = slot(&askew).unwrap();
/// assert_eq!((ends[0].x, ends[0].y, ends[1].x, ends[1].y), (0.5, 3.5, 3.5, 0.5));
/// assert!((wide - 2.0_f64.sqrt()).abs() < 1e-9);
/// assert!(slot(&Contour::rectangle(0.0, 0.0, 3.0, 1.0)).is_none());
/// ```
#[must_use]
pub fn slot(outline: &Contour) -> Option<([Point; 2], f64)> {
    let edges: Vec<Edge> = outline.edges().collect();
    let [one, two, three, four] = edges[..] else { return None };
    let right = |one: Edge, two: Edge| {
        let (a, b) = (one.to - one.from, two.to - two.from);
        a.dot(b).abs() < READ * a.hypot() * b.hypot()
    };
    let way = one.to - one.from;
    let askew = way.x.abs() > READ && way.y.abs() > READ;
    let square = right(one, two) && right(two, three) && right(three, four);
    if !askew || !square || !edges.iter().all(|edge| edge.is_line()) {
        return None;
    }
    let (short, far) = if one.length() < two.length() { (one, three) } else { (two, four) };
    let mut ends = [short, far].map(|edge| edge.from.midpoint(edge.to));
    if ends[1].x < ends[0].x {
        ends.reverse();
    }
    Some((ends, short.length()))
}
