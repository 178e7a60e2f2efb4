// SPDX-License-Identifier: MIT
//! Sort keys: in which order kinds are offered to a sheet.
//!
//! In: the kinds and the number of a search. Out: their numbers in an order, always the same for the same search.
//! Never: looks at a sheet.

use std::cmp::Reverse;

use crate::layout::model::instance::{Instance, Orientation};
use crate::layout::random::Random;

/// The size that decides who comes first; large ones first.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum SortKey {
    Area,
    LongSide,
    ShortSide,
    Perimeter,
    Width,
    Height,
}

impl SortKey {
    pub(crate) const ALL: [Self; 6] =
        [Self::Area, Self::LongSide, Self::Perimeter, Self::ShortSide, Self::Width, Self::Height];

    /// The key and what decides between equals. Grown by the gap, so never 0.
    pub(crate) fn of(self, orientation: Orientation) -> (i64, i64) {
        let Orientation { width, height } = orientation;
        match self {
            Self::Area => (width * height, width.max(height)),
            Self::LongSide => (width.max(height), width.min(height)),
            Self::ShortSide => (width.min(height), width.max(height)),
            Self::Perimeter => (width + height, width.max(height)),
            Self::Width => (width, height),
            Self::Height => (height, width),
        }
    }
}

/// All kinds, largest first.
pub(crate) fn by_size(instance: &Instance, key: SortKey) -> Vec<usize> {
    let mut order: Vec<usize> = (0..instance.kinds.len()).collect();
    order.sort_by_key(|&kind| Reverse(key.of(instance.kinds[kind].orientation())));
    order
}

/// All kinds, largest first, but each size judged up to `percent` too large.
pub(crate) fn perturbed(instance: &Instance, key: SortKey, percent: usize, random: &mut Random) -> Vec<usize> {
    let mut keyed: Vec<(Reverse<i64>, usize)> = (0..instance.kinds.len())
        .map(|kind| (Reverse(overrated(key.of(instance.kinds[kind].orientation()).0, percent, random)), kind))
        .collect();
    keyed.sort_unstable();
    keyed.into_iter().map(|(_, kind)| kind).collect()
}

/// A size of up to 2^62 made up to `percent` larger.
pub(crate) fn overrated(size: i64, percent: usize, random: &mut Random) -> i64 {
    let more = i64::try_from(random.below(percent * 10 + 1)).unwrap_or(0);
    // The last three digits of a large area do not matter here; its overflow would.
    if size < 1 << 40 { size + size * more / 1000 } else { size.saturating_add((size / 1000).saturating_mul(more)) }
}
