// SPDX-License-Identifier: MIT
//! Greedy columns: fills single sheets with what is worth most for its area.
//!
//! In: what each kind is worth, how many of it there are. Out: some sheets, filled by all rules. Never: looks for the best.

use std::cmp::Reverse;

use crate::layout::heuristic::constructive::fill;
use crate::layout::heuristic::rule::Rule;
use crate::layout::heuristic::sheet_builder::SheetBuilder;
use crate::layout::model::instance::Instance;
use crate::layout::model::packing::PlacedBox;
use crate::layout::random::Random;

/// In percent, how much kinds are overrated beyond the first round.
const OVERRATED: usize = 40;

/// One sheet that is filled again and again; each call has random numbers of its own.
pub(crate) struct GreedyFiller<'a, B> {
    instance: &'a Instance,
    builder: B,
    turn: u64,
}

impl<'a, B: SheetBuilder> GreedyFiller<'a, B> {
    pub(crate) fn new(instance: &'a Instance) -> Self {
        Self { instance, builder: B::default(), turn: 0 }
    }

    /// So many sheets of the first size, and the steps they took.
    pub(crate) fn sheets(&mut self, worth: &[u64], counts: &[u64], tries: usize) -> (Vec<Vec<PlacedBox>>, u64) {
        self.turn += 1;
        let mut random = Random::new(self.turn);
        let mut sheets = Vec::new();
        for number in 0..tries {
            let percent = if number < Rule::ALL.len() { 0 } else { OVERRATED };
            let mut order: Vec<(Reverse<u128>, usize)> = (0..worth.len())
                .filter(|&kind| counts[kind] > 0)
                .map(|kind| {
                    let area = self.instance.kinds[kind].area().unsigned_abs();
                    let value = (u128::from(worth[kind]) << 64) / u128::from(area.max(1));
                    let more = u128::try_from(random.below(percent * 10 + 1)).unwrap_or(0);
                    (Reverse(value * (1000 + more)), kind)
                })
                .collect();
            order.sort_unstable();
            let order: Vec<usize> = order.into_iter().map(|(_, kind)| kind).collect();
            self.builder.open(self.instance, 0, self.instance.least(&order));
            fill(self.instance, &order, counts, Rule::ALL[number % Rule::ALL.len()], &mut self.builder);
            sheets.push(self.builder.placed());
        }
        (sheets, self.builder.steps())
    }
}
