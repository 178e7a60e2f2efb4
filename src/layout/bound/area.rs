// SPDX-License-Identifier: MIT
//! The area bound: how much of a sheet shapes take at least, with the gap round them.
//!
//! The gap is a distance between shapes, corner to corner as well: growing every shape and the sheet by half of it all round
//! (with round corners) makes shapes that do not overlap.

use crate::layout::model::instance::trim;
use crate::layout::numbers::{EIGHTHS_PER_MM, nearly, whole};

/// Millionths of a quarter of pi, a little less and a little more.
pub(crate) const PI_LESS: u128 = 785_398;
pub(crate) const PI_MORE: u128 = 785_399;

/// Area of a box grown by half the gap all round, with round corners.
pub(crate) fn grown_box(width: i64, height: i64, gap: i64, quarter_pi: u128) -> u128 {
    let [width, height, gap] = [width, height, gap].map(|size| u128::from(size.unsigned_abs()));
    let corners = gap * gap * quarter_pi;
    let corners = if quarter_pi == PI_MORE { corners.div_ceil(1_000_000) } else { corners / 1_000_000 };
    width * height + (width + height) * gap + corners
}

/// Whole eighths of a micrometre in so many millimetres.
pub(crate) fn eighths(length: f64) -> i64 {
    i64::try_from(whole(length * EIGHTHS_PER_MM)).map_or(0, |length| trim(length, 0))
}

/// Least area of a shape of `area` square millimetres grown by half the gap all round.
///
/// Brunn and Minkowski: no shape of that area grows less than a circle does. That holds with notches and bays, where the
/// outline's length would promise too much.
pub(crate) fn grown_shape(area: f64, gap: i64) -> u128 {
    // Far more than the contour's and our own rounding.
    const SAFE: f64 = 1.0 - 1e-9;
    let area = if area.is_finite() { area.max(0.0) * (EIGHTHS_PER_MM * EIGHTHS_PER_MM) } else { 0.0 };
    let half_gap = nearly(gap.unsigned_abs()) / 2.0;
    let radius = (area / std::f64::consts::PI).sqrt() + half_gap;
    u128::from(whole(std::f64::consts::PI * radius * radius * SAFE))
}
