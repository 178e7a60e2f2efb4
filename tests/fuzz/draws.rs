// SPDX-License-Identifier: MIT
//! Draws that depend on a seed and a case alone.

/// A row of draws.
#[derive(Debug)]
pub(crate) struct Draws(u64);

impl Draws {
    pub(crate) fn of(seed: u64, case: u64) -> Self {
        let mut draws = Self(seed ^ case.wrapping_mul(0xd134_2543_de82_ef95));
        draws.next();
        draws
    }

    /// The next 64 bits: `SplitMix64` (Steele, Lea and Flood 2014).
    pub(crate) fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// A number below `most`; 0 where that is 0.
    pub(crate) fn below(&mut self, most: usize) -> usize {
        if most == 0 { 0 } else { usize::try_from(self.next() % most as u64).unwrap_or(0) }
    }

    /// One of several; there must be one.
    pub(crate) fn pick<T: Clone>(&mut self, of: &[T]) -> T {
        of[self.below(of.len())].clone()
    }

    /// Once in so many times.
    pub(crate) fn once_in(&mut self, times: usize) -> bool {
        self.below(times) == 0
    }
}
