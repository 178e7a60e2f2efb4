// SPDX-License-Identifier: MIT
//! The postures that every opening of an album tries, each laid once for all openings.
//!
//! In one posture of the base a side is laid from the table up, whatever comes after: the pages of an opening are the
//! first so many of the left, and the first so many of the right. So what was laid for one opening tells the energy of
//! others, and goes on from where it ended.

use super::section::{CrossSection, Leaf};
use super::side::LaidSide;
use super::sides::Sides;
use std::collections::BTreeMap;
use std::f64::consts::FRAC_PI_2;

/// Of an album with more leaves than this not all openings are laid, and the fewer the more leaves each has: one takes some
/// hundred postures of every leaf. Our choice.
pub(super) const ALL_OPENINGS: usize = 64;

/// Steps in which the base's tilt is searched at first, each way from flat.
pub(super) const COARSE: i32 = 30;

/// What a side has come to when so many leaves are laid.
#[derive(Clone, Copy)]
struct Laid {
    energy: f64,
    /// The most that it ever came to on the way.
    most: f64,
    /// Whether all of them lie flat.
    flat: bool,
}

/// A side in one posture of the base, laid as far as anybody asked.
struct SideSoFar {
    side: LaidSide,
    /// By how many leaves are laid.
    laid: Vec<Laid>,
}

impl SideSoFar {
    fn new(section: &CrossSection, high: f64, turned: (f64, f64)) -> Self {
        let leaves = section.leaves.len();
        let mut side = Self { side: LaidSide::new(leaves), laid: Vec::with_capacity(leaves + 1) };
        side.clear(section, high, turned);
        side
    }

    fn clear(&mut self, section: &CrossSection, high: f64, turned: (f64, f64)) {
        self.side.clear((section.base, section.depth()), high, turned);
        self.laid.clear();
        self.laid.push(Laid { energy: 0.0, most: f64::NEG_INFINITY, flat: true });
    }

    /// So many leaves laid; none where the energy comes to more than `over` allows on the way.
    fn laid<'a>(
        &mut self,
        count: usize,
        leaf: impl Fn(usize) -> (&'a Leaf, f64),
        over: impl Fn(f64) -> bool,
    ) -> Option<Laid> {
        for next in self.laid.len() - 1..count {
            let before = self.laid[next];
            if over(before.most) {
                return None;
            }
            let (leaf, from_end) = leaf(next);
            self.side.lay(leaf, from_end);
            let energy = self.side.energy;
            let flat = before.flat && self.side.lies_flat();
            self.laid.push(Laid { energy, most: before.most.max(energy), flat });
        }
        Some(self.laid[count]).filter(|laid| !over(laid.most))
    }
}

/// Both sides in one posture of the base.
pub(super) struct BothSides {
    left: SideSoFar,
    right: SideSoFar,
}

impl BothSides {
    fn new(section: &CrossSection, (tilt, high): (f64, f64)) -> Self {
        let (sine, cosine) = tilt.sin_cos();
        let side = |sine: f64| SideSoFar::new(section, high, (sine, cosine));
        Self { left: side(sine), right: side(-sine) }
    }

    fn clear(&mut self, section: &CrossSection, (tilt, high): (f64, f64)) {
        let (sine, cosine) = tilt.sin_cos();
        self.left.clear(section, high, (sine, cosine));
        self.right.clear(section, high, (-sine, cosine));
    }

    /// The two sides with so many leaves at the left; none where their energy is over `most`.
    fn laid(&mut self, section: &CrossSection, between: usize, most: f64) -> Option<[Laid; 2]> {
        let leaves = &section.leaves;
        let from_left = |number: usize| (&leaves[number], leaves[number].root);
        let left = self.left.laid(between, from_left, |energy| energy > most)?;
        let from_right = |number: usize| {
            let leaf = &leaves[leaves.len() - 1 - number];
            (leaf, section.base - leaf.root)
        };
        let right = self.right.laid(leaves.len() - between, from_right, |energy| left.energy + energy > most)?;
        Some([left, right])
    }

    /// The energy with so many leaves at the left, as [`CrossSection::lay`] tells it.
    fn energy(&mut self, section: &CrossSection, between: usize, most: f64) -> f64 {
        self.laid(section, between, most).map_or(f64::INFINITY, |[left, right]| left.energy + right.energy)
    }
}

/// A posture that openings share, laid when one of them first asks for it.
pub(super) struct SharedPosture {
    /// The tilt, or the height.
    pub(super) at: f64,
    posture: (f64, f64),
    /// What no opening can have less of here.
    least: f64,
    sides: Option<Box<BothSides>>,
}

impl SharedPosture {
    fn new(section: &CrossSection, at: f64, (tilt, high): (f64, f64)) -> Self {
        Self { at, posture: (tilt, high), least: section.at_least(tilt.sin_cos(), high), sides: None }
    }

    /// The energy with so many leaves at the left; endless where it is over `most`.
    pub(super) fn energy(
        &mut self,
        section: &CrossSection,
        between: usize,
        most: f64,
        spare: &mut SpareBuffers,
    ) -> f64 {
        if most.is_finite() && self.least > most {
            return f64::INFINITY;
        }
        let posture = self.posture;
        let lay = || match spare.pop() {
            Some(mut sides) => {
                sides.clear(section, posture);
                sides
            }
            None => Box::new(BothSides::new(section, posture)),
        };
        self.sides.get_or_insert_with(lay).energy(section, between, most)
    }
}

/// The places of the search for an album's posture that its openings share.
pub(super) struct Tried {
    /// The base flat on the table.
    level: BothSides,
    /// Each coarse tilt, to either side.
    pub(super) tilted: Vec<SharedPosture>,
    /// Each coarse height that a level base is drawn up to; none where it stays on the table.
    pub(super) raised: Vec<SharedPosture>,
    /// Other heights of a level base, by their bits: the search halves the same steps again for the next opening.
    between_raised: BTreeMap<u64, SharedPosture>,
    /// All other postures.
    near: NearOpenings,
}

/// What postures were laid in that nobody asks for any more.
#[allow(clippy::vec_box, reason = "each was in a box before and will be again")]
pub(super) type SpareBuffers = Vec<Box<BothSides>>;

/// The postures that the opening which is laid, and the one before it, came to: openings next to each other often search
/// alike for many steps. By the bits of tilt and height.
#[derive(Default)]
struct NearOpenings {
    now: BTreeMap<(u64, u64), SharedPosture>,
    before: BTreeMap<(u64, u64), SharedPosture>,
    spare: SpareBuffers,
}

impl NearOpenings {
    fn next(&mut self) {
        let gone = std::mem::replace(&mut self.before, std::mem::take(&mut self.now));
        self.spare.extend(gone.into_values().filter_map(|posture| posture.sides));
    }

    fn energy(&mut self, section: &CrossSection, between: usize, (tilt, high): (f64, f64), most: f64) -> f64 {
        let Self { now, before, spare } = self;
        let key = (tilt.to_bits(), high.to_bits());
        let again = || before.remove(&key).unwrap_or_else(|| SharedPosture::new(section, tilt, (tilt, high)));
        now.entry(key).or_insert_with(again).energy(section, between, most, spare)
    }
}

impl Tried {
    /// To be laid where others were, if there are any.
    pub(super) fn new(section: &CrossSection, spare: SpareBuffers) -> Self {
        let (mut tilted, mut raised) = (Vec::new(), Vec::new());
        if section.free && section.base > 0.0 {
            let step = FRAC_PI_2 / f64::from(COARSE);
            let tilts = (1..=COARSE).flat_map(|number| [number, -number]).map(|number| f64::from(number) * step);
            tilted.extend(tilts.map(|tilt| SharedPosture::new(section, tilt, (tilt, 0.0))));
            let highest = section.highest();
            if section.loose && highest > 0.0 {
                let heights = (1..=COARSE).map(|number| f64::from(number) * (highest / f64::from(COARSE)));
                raised.extend(heights.map(|high| SharedPosture::new(section, high, (0.0, high))));
            }
        }
        Self {
            level: BothSides::new(section, (0.0, 0.0)),
            tilted,
            raised,
            between_raised: BTreeMap::new(),
            near: NearOpenings { spare, ..NearOpenings::default() },
        }
    }

    /// The energy with the base flat on the table, and whether all leaves lie flat.
    pub(super) fn level(&mut self, section: &CrossSection, between: usize) -> (f64, bool) {
        let laid = self.level.laid(section, between, f64::INFINITY);
        laid.map_or((f64::INFINITY, false), |[left, right]| (left.energy + right.energy, left.flat && right.flat))
    }

    /// What its postures were laid in.
    pub(super) fn into_spare(self) -> SpareBuffers {
        let Self { tilted, raised, between_raised, near, .. } = self;
        let kept = tilted.into_iter().chain(raised).chain(between_raised.into_values());
        let near_by = near.now.into_values().chain(near.before.into_values());
        let mut spare = near.spare;
        spare.extend(kept.chain(near_by).filter_map(|posture| posture.sides));
        spare
    }

    /// Openings are laid one after the other; here the next one begins.
    pub(super) fn next_opening(&mut self) {
        self.near.next();
    }

    /// The energy at a coarse tilt, endless where it is over `most`.
    pub(super) fn tilted(&mut self, number: usize, section: &CrossSection, between: usize, most: f64) -> f64 {
        self.tilted[number].energy(section, between, most, &mut self.near.spare)
    }

    /// The same of a level base at a coarse height.
    pub(super) fn raised(&mut self, number: usize, section: &CrossSection, between: usize, most: f64) -> f64 {
        self.raised[number].energy(section, between, most, &mut self.near.spare)
    }

    /// The energy in any posture, endless where it is over `most`.
    pub(super) fn lay(
        &mut self,
        section: &CrossSection,
        between: usize,
        posture: (f64, f64),
        most: f64,
        sides: &mut Sides,
    ) -> f64 {
        if section.leaves.len() > ALL_OPENINGS {
            return section.lay(between, posture, most, sides);
        }
        self.near.energy(section, between, posture, most)
    }

    /// The energy with a level base drawn up so high, endless where it is over `most`; none where it is not kept: openings
    /// that lie far apart share hardly any height.
    pub(super) fn high(&mut self, section: &CrossSection, high: f64, between: usize, most: f64) -> Option<f64> {
        if section.leaves.len() > ALL_OPENINGS {
            return None;
        }
        let place = self.between_raised.entry(high.to_bits());
        let place = place.or_insert_with(|| SharedPosture::new(section, high, (0.0, high)));
        Some(place.energy(section, between, most, &mut self.near.spare))
    }
}
