// SPDX-License-Identifier: MIT
//! What of the kit a step speaks of, so that nothing is left unsaid and nothing is said twice.

use std::fmt;

/// Something of the kit that hands deal with.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Told {
    /// A bond is made: its number.
    Bond(usize),
    /// A score is scored: its part, its number in the flat part.
    Score(usize, usize),
    /// A score is folded.
    Fold(usize, usize),
    /// What nobody scores is bent round an edge: a piece, the number of the fold in its net.
    Bend(usize, usize),
    /// Corners and notches of a part are cut.
    Outline(usize),
    /// A hole is cut: its part, its number in the flat part.
    Hole(usize, usize),
    /// Another deed of the kit is done: its number.
    Deed(usize),
    /// A concertina's end flap is stuck on the inside of the cover: its piece, its panel.
    EndFlap(usize, usize),
    /// A base that no bond places is stuck on the cover with the others: its piece, its panel.
    Base(usize, usize),
    /// A piece goes into nothing.
    Loose(usize),
}

impl fmt::Display for Told {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Bond(bond) => write!(f, "bond-{bond}"),
            Self::Score(part, score) => write!(f, "score-{part}-{score}"),
            Self::Fold(part, score) => write!(f, "fold-{part}-{score}"),
            Self::Bend(piece, fold) => write!(f, "bend-{piece}-{fold}"),
            Self::Outline(part) => write!(f, "outline-{part}"),
            Self::Hole(part, hole) => write!(f, "hole-{part}-{hole}"),
            Self::Deed(deed) => write!(f, "deed-{deed}"),
            Self::EndFlap(piece, panel) => write!(f, "end-flap-{piece}-{panel}"),
            Self::Base(piece, panel) => write!(f, "base-{piece}-{panel}"),
            Self::Loose(piece) => write!(f, "loose-{piece}"),
        }
    }
}
