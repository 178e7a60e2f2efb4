// SPDX-License-Identifier: MIT
//! The posture of the base in which an opened album's leaves lie lowest.

use super::section::CrossSection;
use super::sides::Sides;
use super::tried::{COARSE, Tried};
use std::f64::consts::FRAC_PI_2;

/// What share of a posture's energy is lost in rounding: it is no difference.
const LOST: f64 = 1e-9;

/// How often the best of these steps is halved.
const FINE: usize = 17;
impl CrossSection {
    /// The tilt and the height of the base at which the leaves lie lowest; the ones nearest to flat on the table where
    /// several do.
    pub(super) fn posture(&self, between: usize, tried: &mut Tried, sides: &mut Sides) -> (f64, f64) {
        tried.next_opening();
        let (flat, all_flat) = tried.level(self, between);
        // Lower than flat on the table they can't lie.
        if !self.free || self.base <= 0.0 || all_flat {
            return (0.0, 0.0);
        }
        let slack = flat.abs().max(1.0) * LOST;
        let mut found = Found { at: 0.0, least: flat, slack };
        let step = FRAC_PI_2 / f64::from(COARSE);
        for number in 0..tried.tilted.len() {
            let energy = tried.tilted(number, self, between, found.least - slack);
            found.weigh(tried.tilted[number].at, energy);
        }
        found.refine(step, (-FRAC_PI_2, FRAC_PI_2), &mut |tilt, most| {
            tried.lay(self, between, (tilt, 0.0), most, sides)
        });
        let mut best = (found.at, 0.0, found.least);
        let highest = self.highest();
        if tried.raised.is_empty() {
            return (best.0, best.1);
        }
        let step_up = highest / f64::from(COARSE);
        // A level base can lie so that the top pages' gussets just reach, in a window too narrow to be met by chance.
        let (left, right) = self.leaves.split_at(between);
        let just = [left.iter().collect::<Vec<_>>(), right.iter().rev().collect()].map(|side| {
            let all: f64 = side.iter().map(|leaf| leaf.thickness).sum();
            side.last().map_or(0.0, |top| all - top.thickness / 2.0 - top.gusset - top.stands_back).clamp(0.0, highest)
        });
        // Drawn up level, and drawn up as it is tipped; then tipped anew.
        let level = best.0 == 0.0;
        for tilt in [0.0, best.0].into_iter().take(if level { 1 } else { 2 }) {
            let mut raised = Found { at: 0.0, least: if tilt == 0.0 { flat } else { best.2 }, slack };
            for number in 0..tried.raised.len() {
                let (most, at) = (raised.least - slack, tried.raised[number].at);
                let energy = if tilt == 0.0 {
                    tried.raised(number, self, between, most)
                } else {
                    tried.lay(self, between, (tilt, at), most, sides)
                };
                raised.weigh(at, energy);
            }
            raised.search(just.into_iter(), step_up, (0.0, highest), &mut |high, most| {
                let kept = if tilt == 0.0 { tried.high(self, high, between, most) } else { None };
                kept.unwrap_or_else(|| tried.lay(self, between, (tilt, high), most, sides))
            });
            if raised.least < best.2 - slack {
                best = (tilt, raised.at, raised.least);
            }
        }
        if best.1 > 0.0 {
            let mut tipped = Found { at: best.0, least: best.2, slack };
            let height = best.1;
            let tilts: Vec<f64> = tried.tilted.iter().map(|place| place.at).collect();
            tipped.search(tilts.into_iter(), step, (-FRAC_PI_2, FRAC_PI_2), &mut |tilt, most| {
                tried.lay(self, between, (tilt, height), most, sides)
            });
            best = (tipped.at, height, tipped.least);
        }
        (best.0, best.1)
    }
}

/// The best of what was tried along one way in which the base can move.
struct Found {
    at: f64,
    least: f64,
    slack: f64,
}

impl Found {
    /// Tries these places, and then ever finer around the best of them; `energy` may give up above what it is told.
    fn search(
        &mut self,
        places: impl Iterator<Item = f64>,
        step: f64,
        (lowest, highest): (f64, f64),
        energy: &mut dyn FnMut(f64, f64) -> f64,
    ) {
        for place in places {
            self.weigh(place, energy(place, self.least - self.slack));
        }
        self.refine(step, (lowest, highest), energy);
    }

    /// Tries ever finer around the best so far; `energy` may give up above what it is told.
    fn refine(&mut self, step: f64, (lowest, highest): (f64, f64), energy: &mut dyn FnMut(f64, f64) -> f64) {
        // Half as far to either side again and again: from the mirror image this finds the mirror image.
        let mut step = step;
        for _ in 0..FINE {
            step /= 2.0;
            let sides = [self.at - step, self.at + step].map(|place| place.clamp(lowest, highest));
            // What is no better than the best so far is not taken, however much worse it is.
            let again = |place: f64| place.total_cmp(&self.at).is_eq();
            let energies = sides.map(|place| if again(place) { f64::INFINITY } else { energy(place, self.least) });
            // Of two places that are as good, the one nearer to none.
            let tie = (energies[0] - energies[1]).abs() <= self.slack;
            let first = if tie { sides[0].abs() < sides[1].abs() } else { energies[0] < energies[1] };
            let better = usize::from(!first);
            self.weigh(sides[better], energies[better]);
        }
    }

    fn weigh(&mut self, place: f64, energy: f64) {
        if energy < self.least - self.slack {
            (self.at, self.least) = (place, energy);
        }
    }
}
