// SPDX-License-Identifier: MIT
//! Placement rules of constructive heuristics: which of the places for a box is the best.

/// What makes one place better than another. Each is blind somewhere, so searches try several.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Rule {
    /// The empty rectangle whose shorter left-over side is shortest.
    ShortSide,
    /// The empty rectangle whose longer left-over side is shortest.
    LongSide,
    /// The empty rectangle with the least area left over.
    Area,
    /// As low as possible, then as far left.
    Low,
    /// As far left as possible, then as low.
    Left,
    /// Any corner of an empty rectangle where most of the box's edge touches what is there. Finds the four boxes round
    /// an empty middle (5 x 7 on 12 x 12) that the others miss.
    Touch,
}

impl Rule {
    pub(crate) const ALL: [Self; 6] = [Self::ShortSide, Self::Area, Self::Touch, Self::Low, Self::LongSide, Self::Left];

    /// Each rule alone; where sheets are of several sizes all of them together as well, for what is best on one size may be blind
    /// on another.
    pub(crate) fn sets(several_sizes: bool) -> Vec<&'static [Self]> {
        static ALL: [Rule; 6] = Rule::ALL;
        let all: &'static [Self] = &ALL;
        all.chunks(1).chain(several_sizes.then_some(all)).collect()
    }
}
