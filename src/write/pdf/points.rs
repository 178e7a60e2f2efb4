// SPDX-License-Identifier: MIT
//! Millimetres in a PDF's own unit.

use crate::length::MM_PER_INCH;

/// A length in points: 72 to an inch.
#[allow(clippy::cast_possible_truncation, reason = "a thousandth of a millimetre on a page of a metre is kept")]
pub(in crate::write) fn points(mm: f64) -> f32 {
    (mm * 72.0 / MM_PER_INCH) as f32
}
