// SPDX-License-Identifier: MIT
//! Random numbers: they look random and are the same on every run.
//!
//! In: the number of a search. Out: a stream of numbers that belongs to it. Never: the clock, the system, a secret.

/// The `SplitMix64` generator (Steele, Lea and Flood 2014): one addition and two multiplications a number.
#[derive(Clone, Debug)]
pub(crate) struct Random(u64);

impl Random {
    pub(crate) fn new(number: u64) -> Self {
        let mut random = Self(number.wrapping_mul(0x9e37_79b9_7f4a_7c15));
        random.roll();
        random
    }

    fn roll(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// A number from 0 to `sides` - 1; 0 where `sides` is 0.
    pub(crate) fn below(&mut self, sides: usize) -> usize {
        let sides = u128::try_from(sides).unwrap_or(0);
        usize::try_from((u128::from(self.roll()) * sides) >> 64).unwrap_or(0)
    }

    /// True `percent` times in a hundred.
    pub(crate) fn chance(&mut self, percent: usize) -> bool {
        self.below(100) < percent
    }
}
