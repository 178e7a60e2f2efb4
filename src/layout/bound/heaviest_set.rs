// SPDX-License-Identifier: MIT
//! The heaviest set of boxes on one sheet: branch and bound over sets.
//!
//! In: what each box is worth, knapsacks that any sheet keeps within. Out: sets that share a sheet and are worth more than
//! asked for, or the proof that there are none. Never: proves by rounding.
//!
//! Boxes that cannot share a sheet and the knapsacks' own bounds cut branches off; what is left is asked of the exact search
//! for one sheet.

use crate::layout::bound::dual_pairs::WHOLE;
use crate::layout::bound::fitting::{FitOracle, Set};
use crate::layout::exact::one_sheet::Feasibility;

/// Knapsacks that are checked at once.
pub(crate) const KNAPSACKS: usize = 8;
/// No set is larger.
const DEEPEST: usize = 40;
/// Places that are looked at after a better set has been found.
const GRACE: u64 = 400;

/// What came of one question.
#[derive(Clone, Debug)]
pub(crate) struct Heavy {
    /// Sets that are worth more than was asked for, the lightest first.
    pub(crate) sets: Vec<Set>,
    /// No set on one sheet is worth more. None if not all was looked at.
    pub(crate) most: Option<u64>,
}

/// Looks for sets that are worth more than `limit`. `order` has the kinds that are worth anything, the most first.
pub(crate) fn heaviest(
    oracle: &mut FitOracle,
    worth: &[u64],
    order: Vec<usize>,
    knapsacks: Vec<Knapsack>,
    limit: u64,
) -> Heavy {
    let problem = oracle.problem();
    let mut search = SetSearch {
        worth: order.iter().map(|&kind| worth[kind]).collect(),
        counts: order.iter().map(|&kind| problem.boxes[kind].count).collect(),
        share: shares(&problem.share, &order),
        order,
        knapsacks,
        limit,
        found: Vec::new(),
        grace: u64::MAX,
        whole: true,
        oracle,
    };
    let all = (0..search.order.len()).fold(0_u128, |all, at| all | 1 << at);
    search.deeper(&mut Vec::new(), 0, &[0; KNAPSACKS], all);
    let SetSearch { found, whole, limit, .. } = search;
    Heavy { sets: found, most: whole.then_some(limit) }
}

/// Which kinds may share a sheet, by their places in an order.
fn shares(share: &[u128], order: &[usize]) -> Vec<u128> {
    let row = |&kind: &usize| {
        let bits = order.iter().enumerate().map(|(place, &other)| (share[kind] >> other & 1) << place);
        bits.fold(0, |row, bit| row | bit)
    };
    order.iter().map(row).collect()
}

/// Sizes of which a sheet holds [`WHOLE`], by place in the order.
pub(crate) struct Knapsack {
    sizes: Vec<u64>,
    /// Places by worth for size, the most first.
    by_value: Vec<u8>,
}

impl Knapsack {
    /// From the size of each kind; the places are those of `order`.
    pub(crate) fn new(sizes: &[u32], worth: &[u64], order: &[usize]) -> Self {
        let sizes: Vec<u64> = order.iter().map(|&kind| u64::from(sizes[kind])).collect();
        let mut by_value: Vec<u8> = (0..=u8::MAX).take(order.len()).collect();
        let at = |place: u8| (worth[order[usize::from(place)]], sizes[usize::from(place)]);
        by_value.sort_by(|&a, &b| {
            let ((worth_a, size_a), (worth_b, size_b)) = (at(a), at(b));
            (worth_b * size_a).cmp(&(worth_a * size_b)).then(a.cmp(&b))
        });
        Self { sizes, by_value }
    }

    /// No sheet on which `used` is taken gets more worth from these places; rounded up.
    pub(crate) fn load(
        &self,
        used: u64,
        places: u128,
        worth: &dyn Fn(usize) -> u64,
        counts: &dyn Fn(usize) -> u64,
    ) -> u64 {
        let (mut room, mut load) = (WHOLE.saturating_sub(used), 0_u64);
        for &place in &self.by_value {
            let place = usize::from(place);
            if places >> place & 1 == 0 {
                continue;
            }
            let (size, count) = (self.sizes[place], counts(place));
            let all = size.saturating_mul(count);
            if all <= room {
                load = load.saturating_add(worth(place).saturating_mul(count));
                room -= all;
            } else {
                return load.saturating_add((worth(place) * room).div_ceil(size));
            }
        }
        load
    }
}

/// One question, on its way through the sets.
struct SetSearch<'p, 'a> {
    oracle: &'p mut FitOracle<'a>,
    /// Kinds by place, the most worth first.
    order: Vec<usize>,
    worth: Vec<u64>,
    counts: Vec<u64>,
    share: Vec<u128>,
    knapsacks: Vec<Knapsack>,
    limit: u64,
    found: Vec<Set>,
    grace: u64,
    /// Everything has been looked at, or proven too light.
    whole: bool,
}

impl SetSearch<'_, '_> {
    /// The most that a set can come to with boxes from these places.
    fn most(&mut self, set: &[usize], weight: u64, used: &[u64; KNAPSACKS], places: u128) -> u64 {
        self.oracle.spend_many(8 + self.order.len() / 4);
        let mut least = u64::MAX;
        let counts = |place: usize| {
            let held = set.iter().filter(|&&other| other == place).count();
            self.counts[place].saturating_sub(u64::try_from(held).unwrap_or(0))
        };
        for (row, &used) in self.knapsacks.iter().zip(used) {
            least = least.min(weight.saturating_add(row.load(used, places, &|place| self.worth[place], &counts)));
            if least <= self.limit {
                break;
            }
        }
        least
    }

    fn stopped(&mut self) -> bool {
        if self.oracle.steps() == 0 || self.grace == 0 {
            self.whole = false;
        }
        !self.whole
    }

    /// Looks at every set that holds `set` and boxes from these places.
    fn deeper(&mut self, set: &mut Vec<usize>, weight: u64, used: &[u64; KNAPSACKS], places: u128) {
        if self.stopped() {
            return;
        }
        self.grace = self.grace.saturating_sub(1);
        let mut places = self.roomy(set, used, places);
        if places == 0 || self.most(set, weight, used, places) <= self.limit {
            return;
        }
        if set.len() >= DEEPEST {
            self.whole = false;
            return;
        }
        if set.len() > 1 {
            for place in bits(places) {
                if self.joined(set, place) == Feasibility::Never {
                    places &= !(1 << place);
                }
                if self.stopped() {
                    return;
                }
            }
        }
        for place in bits(places) {
            let rest = places & (u128::MAX << place);
            if self.stopped() || self.most(set, weight, used, rest) <= self.limit {
                return;
            }
            let mut more = *used;
            for (more, row) in more.iter_mut().zip(&self.knapsacks) {
                *more += row.sizes[place];
            }
            set.push(place);
            let weight = weight + self.worth[place];
            if weight > self.limit {
                // Before it counts it is looked at for longer.
                if self.oracle.settled(&self.named(set)) == Feasibility::Never {
                    set.pop();
                    continue;
                }
                self.limit = weight;
                self.found.push(self.named(set));
                self.grace = self.grace.min(GRACE);
            }
            self.deeper(set, weight, &more, rest & self.share[place]);
            set.pop();
        }
    }

    /// The places of which one more box is there and within every knapsack.
    fn roomy(&self, set: &[usize], used: &[u64; KNAPSACKS], places: u128) -> u128 {
        let mut roomy = places;
        for place in bits(places) {
            let held = set.iter().rev().take_while(|&&other| other == place).count();
            let there = u64::try_from(held).is_ok_and(|held| held < self.counts[place]);
            let fits = self.knapsacks.iter().zip(used).all(|(row, used)| used + row.sizes[place] <= WHOLE);
            if !there || !fits {
                roomy &= !(1 << place);
            }
        }
        roomy
    }

    fn named(&self, set: &[usize]) -> Set {
        let mut named: Set = set.iter().filter_map(|&place| u8::try_from(self.order[place]).ok()).collect();
        named.sort_unstable();
        named
    }

    fn joined(&mut self, set: &[usize], place: usize) -> Feasibility {
        let mut named = self.named(set);
        named.extend(u8::try_from(self.order[place]).ok());
        named.sort_unstable();
        self.oracle.spend_many(4 + named.len());
        self.oracle.fits(&named)
    }
}

/// The places in a set of bits, in order.
fn bits(mut places: u128) -> impl Iterator<Item = usize> {
    std::iter::from_fn(move || {
        let place = usize::try_from(places.trailing_zeros()).ok().filter(|&place| place < 128)?;
        places &= places - 1;
        Some(place)
    })
}
