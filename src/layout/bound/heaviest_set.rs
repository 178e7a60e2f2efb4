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
use crate::layout::bound::knapsack::Knapsack;
use crate::layout::exact::answer::Feasibility;
use crate::layout::model::one_size::{BoxType, OneSizeProblem};

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
    let mut search = SetSearch::new(oracle, worth, order, knapsacks, limit);
    let bigger = &search.bigger;
    let no_worthier = |kind: usize| bits(bigger[kind]).filter(move |&other| worth[other] <= worth[kind]);
    search.worse = (0..worth.len()).map(|kind| no_worthier(kind).fold(0, |row, other| row | 1 << other)).collect();
    let SetSearch { found, whole, limit, .. } = search.looked();
    Heavy { sets: found, most: whole.then_some(limit) }
}

/// All sets that are worth more than `limit`, no more than so many. None if not all was looked at.
pub(crate) fn all_heavy(
    oracle: &mut FitOracle,
    worth: &[u64],
    order: Vec<usize>,
    knapsacks: Vec<Knapsack>,
    (limit, most): (u64, usize),
) -> Option<Vec<Set>> {
    let mut search = SetSearch::new(oracle, worth, order, knapsacks, limit);
    search.all = Some(most);
    let SetSearch { found, whole, .. } = search.looked();
    Some(found).filter(|_| whole)
}

/// By kind, the kinds in whose place one of it always goes.
fn bigger(problem: &OneSizeProblem) -> Vec<u128> {
    let within = |small: &BoxType, large: &BoxType| {
        let goes = |large: &(i64, i64)| small.orientations.iter().any(|way| way.0 <= large.0 && way.1 <= large.1);
        large.orientations.iter().all(goes)
    };
    let row = |(number, small): (usize, &BoxType)| {
        let others = problem.boxes.iter().enumerate().filter(|&(other, large)| other != number && within(small, large));
        others.fold(0, |row, (other, _)| row | 1 << other)
    };
    problem.boxes.iter().enumerate().map(row).collect()
}

/// One question, on its way through the sets.
struct SetSearch<'p, 'a> {
    oracle: &'p mut FitOracle<'a>,
    problem: &'a OneSizeProblem,
    /// Kinds that are worth anything, the most worth first.
    order: Vec<usize>,
    /// The same, the smallest first.
    by_size: Vec<usize>,
    /// By kind, the kinds that it goes in place of; and those of them that are worth no more, if the heaviest set is looked for.
    bigger: Vec<u128>,
    worse: Vec<u128>,
    worth: &'p [u64],
    knapsacks: Vec<Knapsack>,
    limit: u64,
    found: Vec<Set>,
    grace: u64,
    /// Everything has been looked at, or proven too light.
    whole: bool,
    /// By kind, the boxes that are not in the set.
    left: Vec<u64>,
    /// The knapsack that said no the last time.
    tightest: usize,
    /// All sets above the limit are looked for, no more than so many.
    all: Option<usize>,
}

impl<'p, 'a> SetSearch<'p, 'a> {
    fn new(
        oracle: &'p mut FitOracle<'a>,
        worth: &'p [u64],
        order: Vec<usize>,
        knapsacks: Vec<Knapsack>,
        limit: u64,
    ) -> Self {
        let problem = oracle.problem();
        let mut by_size = order.clone();
        let area = |kind: usize| problem.boxes[kind].orientations.first().map_or(0, |way| way.0 * way.1);
        by_size.sort_by_key(|&kind| (area(kind), kind));
        Self {
            oracle,
            problem,
            order,
            by_size,
            bigger: bigger(problem),
            worse: vec![0; worth.len()],
            worth,
            knapsacks,
            limit,
            found: Vec::new(),
            grace: u64::MAX,
            whole: true,
            left: problem.boxes.iter().map(|box_type| box_type.count).collect(),
            tightest: 0,
            all: None,
        }
    }

    fn looked(mut self) -> Self {
        let all = self.order.iter().fold(0, |all, &kind| all | 1 << kind);
        self.deeper(&mut Vec::new(), 0, &[0; KNAPSACKS], all);
        self
    }

    /// Whether a set of this weight may come to more than the limit with boxes of these kinds.
    fn may_do(&mut self, weight: u64, used: &[u64; KNAPSACKS], kinds: u128) -> bool {
        self.oracle.spend_many(6 + self.order.len() / 2);
        let Some(than) = self.limit.checked_sub(weight) else { return true };
        let too_light = |number: usize| {
            let row = self.knapsacks.get(number)?;
            Some(number).filter(|_| !row.holds_more(used[number], kinds, self.worth, &self.left, than))
        };
        // What said no the last time is asked first.
        let tight = self.tightest;
        let Some(tightest) = too_light(tight).or_else(|| (0..KNAPSACKS).filter(|&n| n != tight).find_map(too_light))
        else {
            return true;
        };
        self.tightest = tightest;
        false
    }

    fn stopped(&mut self) -> bool {
        if self.oracle.steps() == 0 || self.grace == 0 {
            self.whole = false;
        }
        !self.whole
    }

    /// Looks at every set that holds `set` and boxes of these kinds.
    fn deeper(&mut self, set: &mut Vec<usize>, weight: u64, used: &[u64; KNAPSACKS], kinds: u128) {
        if self.stopped() {
            return;
        }
        self.grace = self.grace.saturating_sub(1);
        let kinds = self.roomy(used, kinds);
        if kinds == 0 || !self.may_do(weight, used, kinds) {
            return;
        }
        if set.len() >= DEEPEST {
            self.whole = false;
            return;
        }
        let mut rest = if set.len() > 1 { self.fitting(set, weight, used, kinds) } else { kinds };
        for at in 0..self.order.len() {
            let kind = self.order[at];
            if rest >> kind & 1 == 0 {
                continue;
            }
            if self.stopped() || !self.may_do(weight, used, rest) {
                return;
            }
            let (heavier, beside) = (weight + self.worth[kind], self.beside(set, kind, rest));
            set.push(kind);
            self.left[kind] -= 1;
            if self.counts(set, heavier) {
                self.deeper(set, heavier, &self.with(used, kind), beside);
            }
            self.left[kind] += 1;
            set.pop();
            // What holds a worse kind and not this one would be worth no less with this one.
            rest &= !(1 << kind) & !self.worse[kind];
        }
    }

    /// Takes a set down if it is worth enough. False if it fits on no sheet: before it counts it is looked at for longer.
    fn counts(&mut self, set: &[usize], weight: u64) -> bool {
        if weight <= self.limit {
            return true;
        }
        let named = named(set);
        if self.oracle.settled(&named) == Feasibility::Never {
            return false;
        }
        self.found.push(named);
        match self.all {
            None => {
                self.limit = weight;
                self.grace = self.grace.min(GRACE);
            }
            // More than may be are not all.
            Some(most) if self.found.len() > most => self.whole = false,
            Some(_) => {}
        }
        true
    }

    /// The kinds of which one more box fits, as far as is known, and leaves a set that may be worth enough. That is asked by
    /// numbers first: whether boxes fit takes longer to say.
    fn fitting(&mut self, set: &[usize], weight: u64, used: &[u64; KNAPSACKS], mut kinds: u128) -> u128 {
        for at in 0..self.order.len() {
            let kind = self.order[at];
            if kinds >> kind & 1 == 0 {
                continue;
            }
            let beside = self.beside(set, kind, kinds);
            self.left[kind] -= 1;
            if !self.may_do(weight + self.worth[kind], &self.with(used, kind), beside) {
                kinds &= !(1 << kind) & !self.worse[kind];
            }
            self.left[kind] += 1;
        }
        for at in 0..self.by_size.len() {
            let kind = self.by_size[at];
            if kinds >> kind & 1 == 1 && self.joined(set, kind) == Feasibility::Never {
                kinds &= !(1 << kind) & !self.bigger[kind];
            }
            if self.stopped() {
                return 0;
            }
        }
        kinds
    }

    /// Those kinds that share a sheet with one more box and any of a set.
    fn beside(&mut self, set: &[usize], kind: usize, kinds: u128) -> u128 {
        set.iter().fold(kinds & self.problem.share[kind], |kinds, &other| {
            if kinds == 0 { 0 } else { kinds & self.oracle.thirds(other, kind) }
        })
    }

    /// What is taken of each knapsack with one more box.
    fn with(&self, used: &[u64; KNAPSACKS], kind: usize) -> [u64; KNAPSACKS] {
        let mut more = *used;
        for (more, row) in more.iter_mut().zip(&self.knapsacks) {
            *more += row.sizes[kind];
        }
        more
    }

    /// The kinds of which one more box is there and within every knapsack.
    fn roomy(&self, used: &[u64; KNAPSACKS], kinds: u128) -> u128 {
        let roomy = |kind: &usize| {
            self.left[*kind] > 0 && self.knapsacks.iter().zip(used).all(|(row, used)| used + row.sizes[*kind] <= WHOLE)
        };
        bits(kinds).filter(roomy).fold(0, |row, kind| row | 1 << kind)
    }

    fn joined(&mut self, set: &[usize], kind: usize) -> Feasibility {
        let mut named = named(set);
        named.extend(u8::try_from(kind).ok());
        named.sort_unstable();
        self.oracle.spend_many(4 + named.len());
        self.oracle.fits(&named)
    }
}

fn named(set: &[usize]) -> Set {
    let mut named: Set = set.iter().filter_map(|&kind| u8::try_from(kind).ok()).collect();
    named.sort_unstable();
    named
}

/// The numbers in a set of bits, in order.
fn bits(mut bits: u128) -> impl Iterator<Item = usize> {
    std::iter::from_fn(move || {
        let bit = usize::try_from(bits.trailing_zeros()).ok().filter(|&bit| bit < 128)?;
        bits &= bits - 1;
        Some(bit)
    })
}

#[cfg(test)]
mod tests {
    use crate::layout::bound::pricing::{EACH_HEAVY, Pricer, Pricing};
    use crate::layout::exact::slow;
    use crate::layout::model::one_size::OneSizeProblem;
    use crate::layout::random::Random;

    fn worth_of(load: &[u64], worth: &[u64]) -> u64 {
        load.iter().zip(worth).map(|(count, worth)| count * worth).sum()
    }

    /// Those that lie on a board; none where there are too many to be looked at.
    fn loads(problem: &OneSizeProblem) -> Option<Vec<Vec<u64>>> {
        let counts: Vec<u64> = problem.boxes.iter().map(|kind| kind.count).collect();
        let loads = Some(slow::loads(&counts)).filter(|loads| loads.len() <= 600)?;
        Some(loads.into_iter().filter(|load| slow::lie(problem, load)).collect())
    }

    /// The heaviest of all loads that lie on a board, of 600 random problems with random worths, some of them nothing; and all
    /// those above a limit, each once.
    #[test]
    fn no_load_is_heavier_and_none_is_missed() {
        let mut random = Random::new(7);
        for _ in 0..600 {
            let problem = slow::problem(&mut random, 7);
            let worth: Vec<u64> =
                problem.boxes.iter().map(|_| u64::try_from(random.below(9) * 1000).unwrap_or(0)).collect();
            let Some(loads) = loads(&problem) else { continue };
            let heaviest = loads.iter().map(|load| worth_of(load, &worth)).max().unwrap_or(0);
            let mut pricer = Pricer::new(&problem, EACH_HEAVY, 100_000_000).unwrap();
            assert_eq!(pricer.heavy(&worth, 0).most, Some(heaviest), "{problem:?} {worth:?}");
            assert_eq!(pricer.heavy(&worth, heaviest).sets, Vec::<Vec<u8>>::new());

            let counts: Vec<u64> = problem.boxes.iter().map(|kind| kind.count).collect();
            let limit = heaviest / 2;
            let mut all: Vec<Vec<u64>> = pricer
                .all_heavy(&counts, &worth, limit, 10_000)
                .unwrap()
                .iter()
                .map(|set| {
                    let held = |kind: usize| set.iter().filter(|&&other| usize::from(other) == kind).count();
                    (0..counts.len()).map(|kind| u64::try_from(held(kind)).unwrap_or(0)).collect()
                })
                .collect();
            all.sort();
            let heavy: Vec<Vec<u64>> = loads.into_iter().filter(|load| worth_of(load, &worth) > limit).collect();
            assert_eq!(all, heavy, "{problem:?} {worth:?}");
            if heavy.len() > 1 {
                assert_eq!(pricer.all_heavy(&counts, &worth, limit, heavy.len() - 1), None);
            }
        }
    }
}
