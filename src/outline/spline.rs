// SPDX-License-Identifier: MIT
//! From a spline on knots to Bezier curves, piece by piece, by its blossom
//! (Ramshaw, *Blossoms are polar forms*, Computer Aided Geometric Design 6, 1989; de Boor 1972 for the scheme).

use super::curve::{Curve, MOST_POINTS};

/// A spline has no more points than this: our choice.
const MOST: usize = 5000;

/// The Bezier curves of a spline: points as (x w, y w, w). None where its numbers make no spline.
pub(super) fn beziers(degree: usize, knots: &[f64], points: &[[f64; 3]]) -> Option<Vec<Curve>> {
    let fine = (1..MOST_POINTS).contains(&degree)
        && points.len() > degree
        && points.len() <= MOST
        && knots.len() == points.len() + degree + 1
        && knots.windows(2).all(|pair| pair[0] <= pair[1]);
    if !fine {
        return None;
    }
    let (first, last) = (knots[degree], knots[points.len()]);
    let inner: Vec<f64> = knots.iter().copied().filter(|&knot| first <= knot && knot <= last).collect();
    let mut distinct: Vec<f64> = inner;
    distinct.dedup_by(|one, two| one.total_cmp(two).is_eq());
    if distinct.len() < 2 {
        return None;
    }
    let piece = |pair: &[f64]| {
        // The blossom of the piece's own polynomial at so many of one end and the rest of the other gives its points.
        let span = knots.partition_point(|&knot| knot <= pair[0]).checked_sub(1)?.min(points.len() - 1);
        let one =
            |count: usize| blossom(degree, knots, points, span, |index| if index < count { pair[1] } else { pair[0] });
        Some(Curve::Bezier((0..=degree).map(one).collect()))
    };
    distinct.windows(2).map(piece).collect()
}

/// The blossom of the polynomial between knots `span` and the next: de Boor's scheme with an argument of its own in each round.
fn blossom(
    degree: usize,
    knots: &[f64],
    points: &[[f64; 3]],
    span: usize,
    argument: impl Fn(usize) -> f64,
) -> [f64; 3] {
    let mut kept: Vec<[f64; 3]> = points[span - degree..=span].to_vec();
    for round in 1..=degree {
        let at = argument(round - 1);
        for index in (round..=degree).rev() {
            let left = knots[span - degree + index];
            let right = knots[span + 1 + index - round];
            let share = if right > left { (at - left) / (right - left) } else { 0.0 };
            kept[index] = std::array::from_fn(|side| {
                (kept[index][side] - kept[index - 1][side]).mul_add(share, kept[index - 1][side])
            });
        }
    }
    kept[degree]
}
