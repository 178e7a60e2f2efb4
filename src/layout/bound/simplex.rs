// SPDX-License-Identifier: MIT
//! The simplex method for the restricted master programme: the fewest sheets if a sheet could be used in part, the demands
//! being covered by patterns.
//!
//! In: how many of each kind are wanted, and patterns, one after the other. Out: the least sum, and what one box of each
//! kind is worth in it. Never: decides; its floating numbers only say where to look.
//!
//! The revised simplex method with the inverse of the basis kept in full (Gilmore and Gomory 1961 for this programme).

/// A pattern: kinds, and how many of each.
pub(crate) type CuttingPattern = Vec<(usize, f64)>;

/// The programme and its present basis.
#[derive(Clone, Debug)]
pub(crate) struct Programme {
    demand: Vec<f64>,
    patterns: Vec<CuttingPattern>,
    /// Entries of all patterns.
    entries: usize,
    /// What stands in each row: a pattern, or the excess of a kind.
    basis: Vec<Column>,
    /// Row by row.
    inverse: Vec<Vec<f64>>,
    amounts: Vec<f64>,
    pivots: usize,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Column {
    Pattern(usize),
    Excess(usize),
}

/// In sheets. Ratios that differ by less than this count as equal, so that the larger entry may leave.
const TINY: f64 = 1e-9;
/// In sheets. A column that gains less than this does not enter: it may be no more than rounding.
const LEAST_GAIN: f64 = TINY * 100.0;
/// A column leaves only by an entry above this: dividing by smaller ones makes large numbers of rounding.
const LEAST_PIVOT: f64 = 1e-7;
/// Below this a basis worked out anew counts as singular.
const SINGULAR: f64 = 1e-8;
/// Entries of the inverse that are smaller than this are what rounding left of nothing.
const NOTHING: f64 = 1e-13;
/// After so many exchanges the inverse is worked out anew.
const FRESH: usize = 150;

impl Programme {
    /// Starts with one pattern a kind, which holds one box.
    pub(crate) fn new(demand: Vec<f64>) -> Self {
        let kinds = demand.len();
        let row = |kind: usize| {
            let mut row = vec![0.0; kinds];
            row[kind] = 1.0;
            row
        };
        Self {
            entries: kinds,
            patterns: (0..kinds).map(|kind| vec![(kind, 1.0)]).collect(),
            basis: (0..kinds).map(Column::Pattern).collect(),
            inverse: (0..kinds).map(row).collect(),
            amounts: demand.clone(),
            demand,
            pivots: 0,
        }
    }

    pub(crate) fn add(&mut self, pattern: CuttingPattern) {
        self.entries += pattern.len();
        self.patterns.push(pattern);
    }

    /// Steps that one exchange costs.
    pub(crate) fn exchange_steps(&self) -> u64 {
        let size = self.demand.len() * self.demand.len() + self.entries;
        u64::try_from(size).unwrap_or(u64::MAX) / 8 + 1
    }

    /// The least sum and the worth of each kind, after at most `most` exchanges; and how many there were.
    pub(crate) fn solve(&mut self, most: usize) -> (f64, Vec<f64>, usize) {
        let mut exchanges = 0;
        loop {
            let worth = self.worth();
            let entering = self.entering(&worth);
            let Some(entering) = entering.filter(|_| exchanges < most) else {
                let patterns = self.basis.iter().zip(&self.amounts);
                let sum = patterns.filter(|(column, _)| matches!(column, Column::Pattern(_))).map(|(_, x)| x).sum();
                return (sum, worth, exchanges);
            };
            if !self.exchange(entering) {
                exchanges = most;
            }
            exchanges += 1;
        }
    }

    /// How much of each pattern the solution takes.
    pub(crate) fn amounts(&self) -> Vec<f64> {
        let mut amounts = vec![0.0; self.patterns.len()];
        for (column, amount) in self.basis.iter().zip(&self.amounts) {
            if let Column::Pattern(number) = *column {
                amounts[number] = *amount;
            }
        }
        amounts
    }

    fn worth(&self) -> Vec<f64> {
        let mut worth = vec![0.0; self.demand.len()];
        for (column, row) in self.basis.iter().zip(&self.inverse) {
            if matches!(column, Column::Pattern(_)) {
                for (worth, entry) in worth.iter_mut().zip(row) {
                    *worth += entry;
                }
            }
        }
        worth
    }

    /// The column that promises most; the first of equals.
    fn entering(&self, worth: &[f64]) -> Option<Column> {
        let mut best = (LEAST_GAIN, None);
        for (number, pattern) in self.patterns.iter().enumerate() {
            let gain = pattern.iter().map(|&(kind, count)| worth[kind] * count).sum::<f64>() - 1.0;
            if gain > best.0 {
                best = (gain, Some(Column::Pattern(number)));
            }
        }
        for (kind, &worth) in worth.iter().enumerate() {
            if -worth > best.0 {
                best = (-worth, Some(Column::Excess(kind)));
            }
        }
        best.1
    }

    /// A column in terms of the basis.
    fn direction(&self, column: Column) -> Vec<f64> {
        let times = |row: &Vec<f64>| match column {
            Column::Pattern(number) => self.patterns[number].iter().map(|&(kind, count)| row[kind] * count).sum(),
            Column::Excess(kind) => -row[kind],
        };
        self.inverse.iter().map(times).collect()
    }

    /// False if nothing leaves, which rounding alone could bring about.
    fn exchange(&mut self, entering: Column) -> bool {
        let direction = self.direction(entering);
        let mut leaving: Option<(usize, f64)> = None;
        for (row, (&step, &amount)) in direction.iter().zip(&self.amounts).enumerate() {
            if step > LEAST_PIVOT {
                let ratio = amount.max(0.0) / step;
                let better = leaving.is_none_or(|(other, least)| {
                    ratio < least - TINY || (ratio < least + TINY && step > direction[other])
                });
                if better {
                    leaving = Some((row, ratio));
                }
            }
        }
        let Some((leaving, ratio)) = leaving else { return false };
        self.basis[leaving] = entering;
        self.pivots += 1;
        if self.pivots.is_multiple_of(FRESH) && self.refresh() {
            return true;
        }
        let pivot: Vec<f64> = self.inverse[leaving].iter().map(|entry| entry / direction[leaving]).collect();
        for (row, &step) in direction.iter().enumerate() {
            if row != leaving && step.abs() > NOTHING {
                for (entry, pivot) in self.inverse[row].iter_mut().zip(&pivot) {
                    *entry -= step * pivot;
                }
                self.amounts[row] -= step * ratio;
            }
        }
        self.inverse[leaving] = pivot;
        self.amounts[leaving] = ratio;
        true
    }

    /// Works the inverse out from the basis itself (Gauss and Jordan). False if the basis has become singular.
    fn refresh(&mut self) -> bool {
        let kinds = self.demand.len();
        let mut left = vec![vec![0.0; kinds]; kinds];
        for (column, number) in self.basis.iter().zip(0..) {
            match *column {
                Column::Pattern(pattern) => {
                    self.patterns[pattern].iter().for_each(|&(kind, count)| left[kind][number] = count);
                }
                Column::Excess(kind) => left[kind][number] = -1.0,
            }
        }
        let mut right: Vec<Vec<f64>> = (0..kinds)
            .map(|kind| {
                let mut row = vec![0.0; kinds];
                row[kind] = 1.0;
                row
            })
            .collect();
        for at in 0..kinds {
            let largest = (at..kinds).max_by(|&a, &b| left[a][at].abs().total_cmp(&left[b][at].abs()));
            let Some(largest) = largest.filter(|&row| left[row][at].abs() > SINGULAR) else { return false };
            left.swap(at, largest);
            right.swap(at, largest);
            let scale = left[at][at];
            left[at].iter_mut().chain(&mut right[at]).for_each(|entry| *entry /= scale);
            let (left_row, right_row) = (left[at].clone(), right[at].clone());
            for row in (0..kinds).filter(|&row| row != at) {
                let factor = left[row][at];
                if factor.abs() > NOTHING {
                    let pairs = left[row].iter_mut().zip(&left_row).chain(right[row].iter_mut().zip(&right_row));
                    pairs.for_each(|(entry, pivot)| *entry -= factor * pivot);
                }
            }
        }
        self.inverse = right;
        self.amounts = self.inverse.iter().map(|row| row.iter().zip(&self.demand).map(|(a, b)| a * b).sum()).collect();
        true
    }
}
