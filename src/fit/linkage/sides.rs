// SPDX-License-Identifier: MIT
//! Both sides of an album, laid in one posture of its base.

use super::section::CrossSection;
use super::side::LaidSide;

/// The two sides of an album, used again for every tilt.
pub(super) struct Sides(pub(super) [LaidSide; 2]);

impl CrossSection {
    pub(super) fn sides(&self) -> Sides {
        Sides([LaidSide::new(self.leaves.len()), LaidSide::new(self.leaves.len())])
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
        let (on_left, on_right) = self.leaves.split_at(between);
        left.clear((self.base, self.depth()), high, (sine, cosine));
        right.clear((self.base, self.depth()), high, (-sine, cosine));
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
