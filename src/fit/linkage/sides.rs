// SPDX-License-Identifier: MIT
//! Both sides of an album, laid in one posture of its base.

use super::section::{CrossSection, Leaf};
use super::side::{LaidSide, SLACK};

/// The two sides of an album, used again for every tilt.
pub(super) struct Sides(pub(super) [LaidSide; 2]);

impl CrossSection {
    pub(super) fn sides(&self) -> Sides {
        Sides([LaidSide::new(self.leaves.len()), LaidSide::new(self.leaves.len())])
    }

    /// The energy that no opening can have less of in this posture: a leaf's spine edge hangs no deeper under its root than
    /// its gusset is long, and its fore-edge is not under the table.
    pub(super) fn at_least(&self, (sine, cosine): (f64, f64), high: f64) -> f64 {
        let low = (-self.base * sine).max(0.0) + high - SLACK;
        let hangs = |leaf: &Leaf| low + leaf.root * sine + leaf.stands_back * cosine - leaf.gusset;
        self.leaves.iter().map(|leaf| leaf.weight * (hangs(leaf) / 2.0).max(0.0)).sum()
    }

    /// Lays all leaves with the base at this tilt, its lower end this high. Gives up as soon as the energy is over `most`;
    /// then it is endless.
    pub(super) fn lay(
        &self,
        between: usize,
        (tilt, high): (f64, f64),
        most: f64,
        Sides([left, right]): &mut Sides,
    ) -> f64 {
        let (sine, cosine) = tilt.sin_cos();
        if most.is_finite() && self.at_least((sine, cosine), high) > most {
            return f64::INFINITY;
        }
        let (on_left, on_right) = self.leaves.split_at(between);
        let solid = (self.base, self.depth());
        left.clear(solid, high, (sine, cosine));
        right.clear(solid, high, (-sine, cosine));
        for leaf in on_left {
            left.lay(leaf, leaf.root);
            if left.energy > most {
                return f64::INFINITY;
            }
        }
        for leaf in on_right.iter().rev() {
            right.lay(leaf, self.base - leaf.root);
            if left.energy + right.energy > most {
                return f64::INFINITY;
            }
        }
        left.energy + right.energy
    }
}
