// SPDX-License-Identifier: MIT
//! Skyline: how high a sheet is laid at every place, and how much of what is above can be used.
//!
//! In: boxes as they are laid from below, the sums that lengths can make. Out: an area that no further boxes exceed. Never: knows
//! a box that is still to come but by its height.
//!
//! Every line across the sheet meets boxes whose lengths add up to one of the sums; what is between that and the line's length
//! stays empty.

/// The sums that lengths can make.
pub(crate) struct Sums(Option<Vec<i64>>);

impl Sums {
    /// None: every length counts as one.
    pub(crate) fn new(sums: Option<Vec<i64>>) -> Self {
        Self(sums)
    }

    /// Those that are no more than a length, in order.
    pub(crate) fn up_to(&self, length: i64) -> &[i64] {
        let sums = self.0.as_deref().unwrap_or_default();
        &sums[..sums.partition_point(|&sum| sum <= length)]
    }

    /// Left edges on a sheet of this width, in order: of boxes pushed to the left as far as they go, and beyond a middle, which is
    /// told as well, to the right.
    pub(crate) fn edges(&self, width: i64) -> (Vec<i64>, i64) {
        let from_left = self.up_to(width);
        let from_right: Vec<i64> = from_left.iter().rev().map(|sum| width - sum).collect();
        let count = |middle: i64| {
            let left = from_left.partition_point(|&edge| edge < middle);
            left + from_right.len() - from_right.partition_point(|&edge| edge < middle)
        };
        let middles = from_left.iter().map(|edge| edge + 1).chain([width + 1]);
        let middle = middles.min_by_key(|&middle| count(middle)).unwrap_or(0);
        let left = from_left.iter().copied().filter(|&edge| edge < middle);
        (left.chain(from_right.iter().copied().filter(|&edge| edge >= middle)).collect(), middle)
    }

    /// The largest that is no more than a length.
    fn within(&self, length: i64) -> i64 {
        if self.0.is_none() { length.max(0) } else { self.up_to(length).last().copied().unwrap_or(0) }
    }
}

/// From left to right: where a step begins, and how high it is; up to the sheet's right edge.
pub(crate) struct Skyline {
    steps: Vec<(i64, i64)>,
    right: i64,
}

impl Skyline {
    pub(crate) fn new(right: i64) -> Self {
        Self { steps: vec![(0, 0)], right }
    }

    pub(crate) fn len(&self) -> usize {
        self.steps.len()
    }

    /// Where each step begins and ends, and how high it is.
    fn each(&self) -> impl Iterator<Item = (i64, i64, i64)> {
        let ends = self.steps.iter().skip(1).map(|step| step.0).chain([self.right]);
        self.steps.iter().zip(ends).map(|(&(from, top), to)| (from, to, top))
    }

    /// The highest step between two places.
    pub(crate) fn top(&self, from: i64, to: i64) -> i64 {
        let under = self.each().skip_while(|step| step.1 <= from).take_while(|step| step.0 < to);
        under.map(|step| step.2).max().unwrap_or(0)
    }

    /// The same with everything between two places as high as this.
    pub(crate) fn with(&self, from: i64, to: i64, top: i64) -> Self {
        let mut steps = Vec::with_capacity(self.steps.len() + 2);
        steps.extend(self.steps.iter().take_while(|step| step.0 < from));
        steps.push((from, top));
        if to < self.right {
            let at = self.steps.partition_point(|step| step.0 <= to);
            steps.push((to, self.steps[at - 1].1));
            steps.extend(&self.steps[at..]);
        }
        steps.dedup_by(|next, step| next.1 == step.1);
        Self { steps, right: self.right }
    }

    /// What of it a box can still stand on that stands no lower than this.
    pub(crate) fn above(&self, floor: i64) -> Vec<i64> {
        let mut steps: Vec<(i64, i64)> = self.steps.iter().map(|&(from, top)| (from, top.max(floor - 1))).collect();
        steps.dedup_by(|next, step| next.1 == step.1);
        steps.into_iter().flat_map(|(from, top)| [from, top]).collect()
    }

    /// The most area that boxes take which stand no lower than `floor`, by the lines across.
    pub(crate) fn rows(&self, floor: i64, height: i64, across: &Sums) -> i64 {
        let mut levels: Vec<i64> = self.steps.iter().map(|step| step.1.max(floor)).collect();
        levels.sort_unstable();
        levels.dedup();
        levels.push(height);
        let mut room = 0;
        for level in levels.windows(2) {
            let (mut row, mut line) = (0, 0);
            for (from, to, top) in self.each() {
                if top <= level[0] {
                    row += to - from;
                } else {
                    line += across.within(row);
                    row = 0;
                }
            }
            room += (line + across.within(row)) * (level[1] - level[0]);
        }
        room
    }

    /// The most area that boxes take which come after one at `last` (lower edge, left edge), from below and then from the left, none
    /// lower than `lowest`. They stand on one another or on a step.
    pub(crate) fn room(&self, last: (i64, i64), lowest: i64, height: i64, across: &Sums, upward: &Sums) -> i64 {
        let (floor, x) = last;
        let next = self.steps.iter().map(|step| step.1).filter(|&top| top > floor).min();
        let next = next.map_or(floor + lowest, |top| top.min(floor + lowest));
        let (on_floor, later) = (upward.within(height - floor), upward.within(height - next));
        let mut room = 0;
        // How long a row on the floor may be here.
        let mut row = 0;
        for (from, to, top) in self.each() {
            if top <= floor && from > x {
                row += to - from;
                continue;
            }
            if row > 0 {
                let laid = across.within(row);
                room += laid * on_floor + (row - laid) * later;
                row = 0;
            }
            room += (to - from) * if top <= floor { later } else { upward.within(height - top) };
        }
        let laid = across.within(row);
        room + laid * on_floor + (row - laid) * later
    }
}
