// SPDX-License-Identifier: MIT
//! Hinge strips of a stock whose grain nobody stated: laid alike, so that they all fold along it or all across it.
//!
//! In: a part. Out: whether it is such a strip, the turns that are left to it. Never: turns what keeps to a stated grain.
//!
//! A strip that folds across the grain cracks sooner (F1). Of strips that lie both ways some do, whichever way it runs; of
//! strips that lie alike none do once the sheets are turned to suit.

use crate::layout::{Turn, Turns};
use crate::parts::{Kit, Owner};

/// Which way strips lie that must lie alike.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Alike {
    /// As drawn, or upside down.
    Upright,
    /// A quarter turned, either way.
    Turned,
}

impl Alike {
    /// The turns that it leaves.
    pub(super) const fn turns(self) -> Turns {
        match self {
            Self::Upright => Turns::HALF,
            Self::Turned => Turns::only(Turn::Quarter).and(Turn::ThreeQuarter),
        }
    }
}

/// Whether a part is a strip of the spine that is to fold along the grain.
pub(super) fn is_strip(kit: &Kit, part: usize) -> bool {
    let folds = kit.parts.get(part).is_some_and(|part| part.along_grain && !part.flat.scores.is_empty());
    folds && kit.pieces.iter().any(|piece| piece.part == part && piece.owner == Owner::Spine)
}
