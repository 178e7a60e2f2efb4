// SPDX-License-Identifier: MIT
//! Fills single sheets with what is worth most for its area.
//!
//! In: what each kind is worth, how many of it there are. Out: some sheets, filled by all rules. Never: looks for the best.

use std::cmp::Reverse;

use crate::layout::heuristic::builder::Bench;
use crate::layout::heuristic::constructive::fill;
use crate::layout::heuristic::open_sheet::Rule;
use crate::layout::model::instance::Frame;
use crate::layout::model::packing::Put;
use crate::layout::random::Dice;

/// In percent, how much kinds are overrated beyond the first round.
const OVERRATED: usize = 40;

/// A bench and a stream of dice.
pub(crate) struct Guesser<'a, B> {
    frame: &'a Frame,
    bench: B,
    turn: u64,
}

impl<'a, B: Bench> Guesser<'a, B> {
    pub(crate) fn new(frame: &'a Frame) -> Self {
        Self { frame, bench: B::default(), turn: 0 }
    }

    /// So many sheets of the first size, and the steps they took.
    pub(crate) fn sheets(&mut self, worth: &[u64], counts: &[u64], tries: usize) -> (Vec<Vec<Put>>, u64) {
        self.turn += 1;
        let mut dice = Dice::new(self.turn);
        let mut sheets = Vec::new();
        for number in 0..tries {
            let percent = if number < Rule::ALL.len() { 0 } else { OVERRATED };
            let mut order: Vec<(Reverse<u128>, usize)> = (0..worth.len())
                .filter(|&kind| counts[kind] > 0)
                .map(|kind| {
                    let area = self.frame.kinds[kind].area().unsigned_abs();
                    let value = (u128::from(worth[kind]) << 64) / u128::from(area.max(1));
                    let more = u128::try_from(dice.below(percent * 10 + 1)).unwrap_or(0);
                    (Reverse(value * (1000 + more)), kind)
                })
                .collect();
            order.sort_unstable();
            let order: Vec<usize> = order.into_iter().map(|(_, kind)| kind).collect();
            self.bench.open(&self.frame.sizes[0], self.frame.least(&order));
            fill(self.frame, &order, counts, Rule::ALL[number % Rule::ALL.len()], &mut self.bench);
            sheets.push(self.bench.puts());
        }
        (sheets, self.bench.steps())
    }
}
