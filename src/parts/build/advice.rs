// SPDX-License-Identifier: MIT
//! Advice that helps when it is followed.
//!
//! In: the key of an advice that names a usual size, that size, the most that will do. Out: that advice, or the same without
//! the size where it would not do either. Never: words.

use crate::finding::Said;
use crate::length::tolerance::SAME;

/// The advice under `key`, which names a usual size, in mm the larger of its two units; only "make it smaller" where that is
/// more than `most`.
#[must_use]
pub(in crate::parts) fn smaller(key: &'static str, usual: f64, most: f64) -> Said {
    Said::new(if usual <= most + SAME { key } else { "make-smaller" })
}
