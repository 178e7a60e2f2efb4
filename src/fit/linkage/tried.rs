// SPDX-License-Identifier: MIT
//! The postures that every opening of an album tries, worked out for all openings at once.
//!
//! In one posture of the base a side is laid from the table up, whatever comes after: the pages of an opening are the
//! first so many of the left, and the first so many of the right. So one pass over the leaves of each side tells the energy
//! of all openings.

use super::section::{CrossSection, Leaf};
use super::side::LaidSide;
use super::sides::Sides;
use std::f64::consts::FRAC_PI_2;
use std::ops::RangeInclusive;

/// Steps in which the base's tilt is searched at first, each way from flat.
pub(super) const COARSE: i32 = 30;

/// The least and the greatest number of leaves that lie on the left.
pub(super) type OpeningRange = RangeInclusive<usize>;

/// What a side has come to when so many leaves are laid.
#[derive(Clone, Copy)]
struct Laid {
    energy: f64,
    /// The most that it ever came to on the way.
    most: f64,
    /// Whether all of them lie flat.
    flat: bool,
}

/// Both sides in one posture of the base, by how many leaves are laid.
pub(super) struct BothSides {
    left: Vec<Laid>,
    right: Vec<Laid>,
    /// How many leaves there are.
    leaves: usize,
}

/// The coarse places of the search for an album's posture.
pub(super) struct Tried {
    /// The base flat on the table.
    pub level: BothSides,
    /// Each tilt, to either side.
    pub tilted: Vec<(f64, Option<BothSides>)>,
    /// Each height that a level base is drawn up to; none where it stays on the table.
    pub raised: Vec<(f64, Option<BothSides>)>,
}

impl BothSides {
    fn new(
        section: &CrossSection,
        openings: &OpeningRange,
        (tilt, high): (f64, f64),
        Sides([left, right]): &mut Sides,
    ) -> Self {
        let (sine, cosine) = tilt.sin_cos();
        left.clear((section.base, section.depth()), high, (sine, cosine));
        right.clear((section.base, section.depth()), high, (-sine, cosine));
        let laid = |side: &mut LaidSide, leaves: &mut dyn Iterator<Item = (&Leaf, f64)>| {
            let mut laid = vec![Laid { energy: 0.0, most: f64::NEG_INFINITY, flat: true }];
            for (leaf, from_end) in leaves {
                side.lay(leaf, from_end);
                let before = laid[laid.len() - 1];
                let flat = before.flat && side.lies_flat();
                laid.push(Laid { energy: side.energy, most: before.most.max(side.energy), flat });
            }
            laid
        };
        let leaves = &section.leaves;
        let on_left = &leaves[..(*openings.end()).min(leaves.len())];
        let on_right = &leaves[(*openings.start()).min(leaves.len())..];
        Self {
            left: laid(left, &mut on_left.iter().map(|leaf| (leaf, leaf.root))),
            right: laid(right, &mut on_right.iter().rev().map(|leaf| (leaf, section.base - leaf.root))),
            leaves: leaves.len(),
        }
    }

    fn at(&self, between: usize) -> [Laid; 2] {
        [self.left[between], self.right[self.leaves - between]]
    }

    /// The energy with so many leaves at the left, as [`CrossSection::lay`] tells it.
    pub(super) fn energy(&self, between: usize, most: f64) -> f64 {
        let [left, right] = self.at(between);
        if left.most > most || left.energy + right.most > most { f64::INFINITY } else { left.energy + right.energy }
    }

    /// Whether all leaves lie flat.
    pub(super) fn flat(&self, between: usize) -> bool {
        self.at(between).iter().all(|laid| laid.flat)
    }
}

impl Tried {
    /// Tries the coarse places for these openings; no others may be asked for.
    pub(super) fn new(section: &CrossSection, openings: &OpeningRange, sides: &mut Sides) -> Self {
        let level = BothSides::new(section, openings, (0.0, 0.0), sides);
        // A posture in which no opening can lie lower than with its base flat is none to lay.
        let most = openings.clone().map(|between| level.energy(between, f64::INFINITY)).fold(0.0, f64::max);
        let mut both = |(tilt, high): (f64, f64)| {
            let lower = section.at_least(tilt.sin_cos(), high) <= most;
            lower.then(|| BothSides::new(section, openings, (tilt, high), sides))
        };
        let (mut tilted, mut raised) = (Vec::new(), Vec::new());
        if section.free && section.base > 0.0 {
            let step = FRAC_PI_2 / f64::from(COARSE);
            let tilts = (1..=COARSE).flat_map(|number| [number, -number]).map(|number| f64::from(number) * step);
            tilted.extend(tilts.map(|tilt| (tilt, both((tilt, 0.0)))));
            let highest = section.highest();
            if section.loose && highest > 0.0 {
                let heights = (1..=COARSE).map(|number| f64::from(number) * (highest / f64::from(COARSE)));
                raised.extend(heights.map(|high| (high, both((0.0, high)))));
            }
        }
        Self { level, tilted, raised }
    }
}
