// SPDX-License-Identifier: MIT
//! Corners: square, clipped or rounded.

use super::{Contour, QUARTER};

/// How a corner of a rectangle is finished.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Corner {
    /// Left as it is.
    Square,
    /// A triangle cut off: `across` along the horizontal edge, `up` along the vertical one, mm.
    Clipped {
        /// Along the horizontal edge.
        across: f64,
        /// Along the vertical edge.
        up: f64,
    },
    /// Rounded with this radius, mm.
    Rounded(f64),
}

impl Contour {
    /// A rectangle with its lower left at (x, y) and corners finished one by one: lower left, lower
    /// right, upper right, upper left.
    ///
    /// ```
    /// # use hingeleaf::contour::{Contour, Corner};
    /// let clip = Corner::Clipped { across: 10.0, up: 4.0 };
    /// let tag = Contour::with_corners((0.0, 0.0), (50.0, 80.0), [Corner::Square, Corner::Square, clip, clip]);
    /// assert!((tag.area() - (50.0 * 80.0 - 2.0 * 10.0 * 4.0 / 2.0)).abs() < 1e-9);
    /// ```
    #[must_use]
    pub fn with_corners((x, y): (f64, f64), (width, height): (f64, f64), corners: [Corner; 4]) -> Self {
        let (right, top) = (x + width, y + height);
        // For each corner: where it is, the way out of it along x and y, and whether the counter-clockwise
        // walk arrives along the vertical edge.
        let spots = [
            (x, y, 1.0, 1.0, true),
            (right, y, -1.0, 1.0, false),
            (right, top, -1.0, -1.0, true),
            (x, top, 1.0, -1.0, false),
        ];
        let mut walk = Vec::with_capacity(8);
        for ((at_x, at_y, out_x, out_y, vertical_first), corner) in spots.into_iter().zip(corners) {
            let (across, up, bulge) = match corner {
                Corner::Square => (0.0, 0.0, 0.0),
                Corner::Clipped { across, up } => (across, up, 0.0),
                Corner::Rounded(radius) => (radius, radius, QUARTER),
            };
            let vertical = (at_x, at_y + out_y * up);
            let horizontal = (at_x + out_x * across, at_y);
            let (first, second) = if vertical_first { (vertical, horizontal) } else { (horizontal, vertical) };
            walk.push((first.0, first.1, bulge));
            walk.push((second.0, second.1, 0.0));
        }
        Self::new(walk)
    }
}
