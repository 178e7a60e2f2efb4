// SPDX-License-Identifier: MIT
//! Where a score lies, as a crafter measures it off: from the left or from the top edge of the part.

use crate::length::tolerance::SAME;
use crate::net::Sense;
use std::cmp::Ordering;

/// A score, its front face up.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MeasuredScore {
    /// Where it lies.
    pub place: ScorePlace,
    /// Which way it is folded.
    pub sense: Sense,
}

/// Where a score lies on its part, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum ScorePlace {
    /// Upright, so far from the left edge.
    Left(f64),
    /// Level, so far from the top edge.
    Top(f64),
    /// Slanting, from a point to a point: x and y of each, from the left and from the top.
    Slanted([f64; 4]),
}

impl MeasuredScore {
    /// A score between two points of the part's frame (y up), on a part of this height.
    #[must_use]
    pub fn of([from, to]: [[f64; 2]; 2], sense: Sense, height: f64) -> Self {
        let place = if (from[0] - to[0]).abs() < SAME {
            ScorePlace::Left(from[0])
        } else if (from[1] - to[1]).abs() < SAME {
            ScorePlace::Top(height - from[1])
        } else {
            let [left, right] = if from[0] < to[0] { [from, to] } else { [to, from] };
            ScorePlace::Slanted([left[0], height - left[1], right[0], height - right[1]])
        };
        Self { place, sense }
    }

    /// Where it lies when a part of this size is turned upside down.
    pub(super) fn turned(&self, width: f64, height: f64) -> Self {
        let place = match self.place {
            ScorePlace::Left(at) => ScorePlace::Left(width - at),
            ScorePlace::Top(at) => ScorePlace::Top(height - at),
            ScorePlace::Slanted([x, y, to_x, to_y]) => {
                ScorePlace::Slanted([width - to_x, height - to_y, width - x, height - y])
            }
        };
        Self { place, sense: self.sense }
    }

    /// In order, and each once: a score that a hole parts is one score to the hand.
    pub(super) fn in_order(mut marks: Vec<Self>) -> Vec<Self> {
        marks.sort_by(|one, other| one.place.order(&other.place).then(one.sense.cmp(&other.sense)));
        marks.dedup_by(|one, other| one.sense == other.sense && one.place.is(&other.place));
        marks
    }
}

impl ScorePlace {
    /// Upright, level or slanting.
    pub(super) const fn way(&self) -> u8 {
        match self {
            Self::Left(_) => 0,
            Self::Top(_) => 1,
            Self::Slanted(_) => 2,
        }
    }

    /// How far two of one way are apart, mm.
    pub(super) fn apart(&self, other: &Self) -> f64 {
        self.numbers().iter().zip(other.numbers()).map(|(one, other)| (one - other).abs()).sum()
    }

    const fn numbers(&self) -> [f64; 4] {
        match self {
            Self::Left(at) | Self::Top(at) => [*at, 0.0, 0.0, 0.0],
            Self::Slanted(ends) => *ends,
        }
    }

    /// Whether two are one.
    pub(super) fn is(&self, other: &Self) -> bool {
        self.way() == other.way()
            && self.numbers().iter().zip(other.numbers()).all(|(one, other)| (one - other).abs() < SAME)
    }

    fn order(&self, other: &Self) -> Ordering {
        let pairs = self.numbers().into_iter().zip(other.numbers());
        self.way().cmp(&other.way()).then_with(|| {
            pairs.map(|(one, other)| one.total_cmp(&other)).find(|order| order.is_ne()).unwrap_or(Ordering::Equal)
        })
    }
}
