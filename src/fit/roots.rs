// SPDX-License-Identifier: MIT
//! Where pages have their roots on the spine's base.

use crate::album::Album;
use crate::parts::Carry;

/// How wide the base is, and where each page has its root on it, mm. Guards and stubs that are stuck face to face are one
/// block, as wide as all of them; a page's root is the middle of its guard, which two leaves of card make (derived).
pub(super) fn roots(album: &Album, carry: &Carry) -> (f64, Vec<f64>) {
    if carry.rises.iter().all(|rise| *rise > 0.0) && !carry.rises.is_empty() {
        let mut at = album.caliper(album.spine.stock);
        let place = |step: &f64| {
            let here = at;
            at += step;
            here
        };
        return (carry.spine(), carry.steps.iter().map(place).collect());
    }
    let mut root = 0.0;
    let place = |_: &f64| {
        let here = root;
        root += carry.pitch;
        here
    };
    ((carry.spine() - carry.pitch).max(0.0), carry.steps.iter().map(place).collect())
}
