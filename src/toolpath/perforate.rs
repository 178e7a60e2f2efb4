// SPDX-License-Identifier: MIT
//! A score as a perforation: cuts with card left between them.

use crate::contour::Point;
use crate::length::tolerance::PARALLEL;

/// A perforation, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dashes {
    /// Length of a cut.
    pub cut: f64,
    /// Length of the card left between two cuts.
    pub tie: f64,
}

/// The cuts of a perforation. It starts and ends on a tie, so that the fold's ends hold; ties are all alike and at
/// least `gap` long, mm. A line too short for that has one cut in its middle, of half its length at the most.
pub(crate) fn dashes(from: Point, to: Point, dash: f64, gap: f64) -> Vec<(Point, Point)> {
    let length = from.distance(to);
    #[allow(
        clippy::cast_possible_truncation,
        clippy::cast_sign_loss,
        reason = "a float-to-integer cast saturates, and the field's ranges keep it small"
    )]
    let count = ((length - gap + PARALLEL) / (dash + gap)).floor().max(0.0) as u32;
    let (count, dash) = if count == 0 { (1, dash.min(length / 2.0)) } else { (count, dash) };
    let tie = (length - f64::from(count) * dash) / f64::from(count + 1);
    (0..count)
        .map(|index| {
            let start = tie + f64::from(index) * (dash + tie);
            (from.lerp(to, start / length), from.lerp(to, (start + dash) / length))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// 2.0 cut and 1.0 tie, starting and ending on a tie: common practice, no source.
    #[test]
    fn starts_and_ends_on_a_tie() {
        let cuts = dashes(Point::new(0.0, 0.0), Point::new(31.0, 0.0), 2.0, 1.0);
        assert_eq!(cuts.len(), 10);
        assert!((cuts[0].0.x - 1.0).abs() < 1e-9 && (cuts[9].1.x - 30.0).abs() < 1e-9);
        assert!(cuts.windows(2).all(|pair| pair[1].0.x - pair[0].1.x > 1.0 - 1e-9));
        let cut: f64 = cuts.iter().map(|(from, to)| from.distance(*to)).sum();
        assert!((cut / 31.0 - 0.645).abs() < 0.01);
    }

    #[test]
    fn a_short_line_keeps_both_ends() {
        let cuts = dashes(Point::new(0.0, 0.0), Point::new(2.0, 0.0), 2.0, 1.0);
        assert_eq!(cuts, vec![(Point::new(0.5, 0.0), Point::new(1.5, 0.0))]);
    }
}
