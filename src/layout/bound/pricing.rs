// SPDX-License-Identifier: MIT
//! The most that one sheet can hold, by a given worth of each box.
//!
//! In: boxes, a sheet, what each box is worth in whole numbers. Out: sets of boxes that share a sheet and are worth more
//! than asked for, or the proof that there are none. Never: proves by rounding; a set that it could not settle counts as
//! one that fits.
//!
//! Branch and bound over sets: boxes that cannot share a sheet, sizes by dual functions, then the exact search for one sheet.

use std::collections::BTreeMap;

use crate::layout::bound::dual_feasible::{Pair, Tables, WHOLE};
use crate::layout::bound::relaxation::Boxed;
use crate::layout::exact::one_sheet::{Answer, Batch, MOST_BOXES, lie};
use crate::layout::model::packing::Put;

/// Kinds of boxes, in order, a kind as often as it is there.
pub(crate) type Set = Vec<u8>;

/// No more kinds than this are looked at.
pub(crate) const MOST_KINDS: usize = 128;
/// Rows of sizes that are checked at once.
const ROWS: usize = 8;
/// Rows that those are chosen from.
const SHORTLIST: usize = 48;
/// Pairs of functions that are looked at again.
const CANDIDATES: usize = 300;
/// No set is larger.
const DEEPEST: usize = 40;
/// Sets whose answers are remembered.
const MOST_KNOWN: usize = 200_000;
/// Steps that one set may take.
const EACH_SET: u64 = 40_000;
/// Places that are looked at after a better set has been found.
const GRACE: u64 = 400;

/// Boxes on one size of sheet.
#[derive(Clone, Debug)]
pub(crate) struct Room {
    pub(crate) width: i64,
    pub(crate) height: i64,
    pub(crate) boxes: Vec<Boxed>,
    /// By kind: the kinds that one box of it can share a sheet with, its own among them.
    pub(crate) share: Vec<u128>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Known {
    Fits,
    Never,
    Unsettled,
}

/// Asks for heavy sets again and again.
pub(crate) struct Pricer<'a> {
    room: &'a Room,
    tables: Tables<'a>,
    /// Pairs of functions that were among the best once.
    candidates: Vec<Pair>,
    /// The sizes that the best of them give.
    shortlist: Vec<Vec<u32>>,
    known: BTreeMap<Set, Known>,
    /// Steps that are left.
    pub(crate) steps: u64,
}

/// What came of one question.
#[derive(Clone, Debug)]
pub(crate) struct Heavy {
    /// Sets that are worth more than was asked for, the lightest first.
    pub(crate) sets: Vec<Set>,
    /// No set on one sheet is worth more. None if not all was looked at.
    pub(crate) most: Option<u64>,
}

impl<'a> Pricer<'a> {
    pub(crate) fn new(room: &'a Room, pairs: usize, steps: u64) -> Option<Self> {
        let tables = Tables::new(room.width, room.height, &room.boxes, pairs)?;
        Some(Self { room, tables, candidates: Vec::new(), shortlist: Vec::new(), known: BTreeMap::new(), steps })
    }

    fn spend(&mut self, count: usize) {
        self.steps = self.steps.saturating_sub(u64::try_from(count).unwrap_or(u64::MAX));
    }

    /// Chooses the rows of sizes anew, for boxes of about this worth.
    pub(crate) fn look_round(&mut self, worth: &[u64]) {
        if self.candidates.is_empty() {
            self.candidates = self.tables.pairs().collect();
        }
        self.spend(self.candidates.len() * worth.len() * 12);
        self.candidates = self.tables.strongest(&self.candidates, worth, CANDIDATES);
        let chosen = self.candidates.iter().take(SHORTLIST);
        self.shortlist = chosen.map(|&pair| self.tables.sizes(pair)).collect();
    }

    /// Looks for sets that are worth more than `limit`.
    pub(crate) fn heavy(&mut self, worth: &[u64], limit: u64) -> Heavy {
        let mut order: Vec<usize> = (0..worth.len()).filter(|&kind| worth[kind] > 0).collect();
        order.sort_by_key(|&kind| (std::cmp::Reverse(worth[kind]), kind));
        let rows = self.rows(worth, &order);
        let mut dive = Dive {
            worth: order.iter().map(|&kind| worth[kind]).collect(),
            counts: order.iter().map(|&kind| self.room.boxes[kind].count).collect(),
            share: shares(&self.room.share, &order),
            order,
            rows,
            limit,
            found: Vec::new(),
            grace: u64::MAX,
            whole: true,
            pricer: self,
        };
        let all = (0..dive.order.len()).fold(0_u128, |all, at| all | 1 << at);
        dive.deeper(&mut Vec::new(), 0, &[0; ROWS], all);
        let Dive { found, whole, limit, .. } = dive;
        Heavy { sets: found, most: whole.then_some(limit) }
    }

    /// The rows that hold these boxes to the least worth, each with its own order of kinds by worth for size.
    fn rows(&mut self, worth: &[u64], order: &[usize]) -> Vec<Row> {
        self.spend(self.shortlist.len() * order.len() * 2);
        let mut rows: Vec<(u64, Row)> = Vec::new();
        for sizes in &self.shortlist {
            let sizes: Vec<u64> = order.iter().map(|&kind| u64::from(sizes[kind])).collect();
            let mut by_value: Vec<u8> = (0..=u8::MAX).take(order.len()).collect();
            let at = |place: u8| (worth[order[usize::from(place)]], sizes[usize::from(place)]);
            by_value.sort_by(|&a, &b| {
                let ((worth_a, size_a), (worth_b, size_b)) = (at(a), at(b));
                (worth_b * size_a).cmp(&(worth_a * size_b)).then(a.cmp(&b))
            });
            let row = Row { sizes, by_value };
            let counts = |place: usize| self.room.boxes[order[place]].count;
            rows.push((row.load(0, u128::MAX, &|place| worth[order[place]], &counts), row));
        }
        rows.sort_by_key(|(load, _)| *load);
        rows.truncate(ROWS);
        rows.into_iter().map(|(_, row)| row).collect()
    }

    /// Whether a set fits on one sheet.
    fn fits(&mut self, set: &[u8]) -> Known {
        if let Some(&known) = self.known.get(set) {
            return known;
        }
        if set.len() > MOST_BOXES {
            return Known::Unsettled;
        }
        let batches = self.batches(set);
        let mut steps = EACH_SET.min(self.steps);
        let before = steps;
        let answer = lie(&batches, self.room.width, self.room.height, &mut steps);
        self.steps -= before - steps;
        let known = match answer {
            Answer::Yes(_) => Known::Fits,
            Answer::No => Known::Never,
            Answer::Unknown => Known::Unsettled,
        };
        if self.known.len() < MOST_KNOWN {
            self.known.insert(set.to_vec(), known);
        }
        known
    }

    /// How a set lies on one sheet, where that is certain.
    pub(crate) fn laid(&mut self, set: &[u8]) -> Option<Vec<Put>> {
        let mut steps = EACH_SET.min(self.steps);
        let before = steps;
        let answer = lie(&self.batches(set), self.room.width, self.room.height, &mut steps);
        self.steps -= before - steps;
        if let Answer::Yes(puts) = answer { Some(puts) } else { None }
    }

    fn batches(&self, set: &[u8]) -> Vec<Batch> {
        let mut batches: Vec<Batch> = Vec::new();
        for &kind in set {
            let kind = usize::from(kind);
            match batches.last_mut() {
                Some(last) if last.kind == kind => last.count += 1,
                _ => batches.push(Batch { kind, poses: self.room.boxes[kind].poses.clone(), count: 1 }),
            }
        }
        batches
    }

    /// Adds boxes to a set as long as some fit, the largest first. None if it is not certain that the set itself fits.
    pub(crate) fn filled(&mut self, set: &Set) -> Option<Set> {
        if self.fits(set) != Known::Fits {
            return None;
        }
        let mut set = set.clone();
        let mut kinds: Vec<usize> = (0..self.room.boxes.len()).collect();
        let area = |kind: usize| self.room.boxes[kind].poses.first().map_or(0, |pose| pose.0 * pose.1);
        kinds.sort_by_key(|&kind| (std::cmp::Reverse(area(kind)), kind));
        let mut room =
            self.room.width * self.room.height - set.iter().map(|&kind| area(usize::from(kind))).sum::<i64>();
        for kind in kinds {
            let Ok(number) = u8::try_from(kind) else { continue };
            loop {
                let area = area(kind);
                let held = times(&set, number);
                let more = u64::try_from(held).is_ok_and(|held| held < self.room.boxes[kind].count);
                let shares = set.iter().all(|&other| self.room.share[usize::from(other)] >> kind & 1 == 1);
                if !more || !shares || area > room || set.len() >= MOST_BOXES {
                    break;
                }
                let mut larger = set.clone();
                larger.push(number);
                larger.sort_unstable();
                if self.fits(&larger) != Known::Fits {
                    break;
                }
                set = larger;
                room -= area;
            }
        }
        Some(set)
    }
}

/// How often a kind is in a set, whose equal kinds lie together.
fn times(set: &[u8], kind: u8) -> usize {
    set.partition_point(|&other| other <= kind) - set.partition_point(|&other| other < kind)
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
struct Row {
    sizes: Vec<u64>,
    by_value: Vec<u8>,
}

impl Row {
    /// No sheet on which `used` is taken gets more worth from these places; rounded up.
    fn load(&self, used: u64, places: u128, worth: &dyn Fn(usize) -> u64, counts: &dyn Fn(usize) -> u64) -> u64 {
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
struct Dive<'p, 'a> {
    pricer: &'p mut Pricer<'a>,
    /// Kinds by place, the most worth first.
    order: Vec<usize>,
    worth: Vec<u64>,
    counts: Vec<u64>,
    share: Vec<u128>,
    rows: Vec<Row>,
    limit: u64,
    found: Vec<Set>,
    grace: u64,
    /// Everything has been looked at, or proven too light.
    whole: bool,
}

impl Dive<'_, '_> {
    /// The most that a set can come to with boxes from these places.
    fn most(&mut self, set: &[usize], weight: u64, used: &[u64; ROWS], places: u128) -> u64 {
        self.pricer.spend(8 + self.order.len() / 4);
        let mut least = u64::MAX;
        let counts = |place: usize| {
            let held = set.iter().filter(|&&other| other == place).count();
            self.counts[place].saturating_sub(u64::try_from(held).unwrap_or(0))
        };
        for (row, &used) in self.rows.iter().zip(used) {
            least = least.min(weight.saturating_add(row.load(used, places, &|place| self.worth[place], &counts)));
            if least <= self.limit {
                break;
            }
        }
        least
    }

    fn stopped(&mut self) -> bool {
        if self.pricer.steps == 0 || self.grace == 0 {
            self.whole = false;
        }
        !self.whole
    }

    /// Looks at every set that holds `set` and boxes from these places.
    fn deeper(&mut self, set: &mut Vec<usize>, weight: u64, used: &[u64; ROWS], places: u128) {
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
                if self.joined(set, place) == Known::Never {
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
            for (more, row) in more.iter_mut().zip(&self.rows) {
                *more += row.sizes[place];
            }
            set.push(place);
            let weight = weight + self.worth[place];
            if weight > self.limit {
                self.limit = weight;
                self.found.push(self.named(set));
                self.grace = self.grace.min(GRACE);
            }
            self.deeper(set, weight, &more, rest & self.share[place]);
            set.pop();
        }
    }

    /// The places of which one more box is there and within every row of sizes.
    fn roomy(&self, set: &[usize], used: &[u64; ROWS], places: u128) -> u128 {
        let mut roomy = places;
        for place in bits(places) {
            let held = set.iter().rev().take_while(|&&other| other == place).count();
            let there = u64::try_from(held).is_ok_and(|held| held < self.counts[place]);
            let fits = self.rows.iter().zip(used).all(|(row, used)| used + row.sizes[place] <= WHOLE);
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

    fn joined(&mut self, set: &[usize], place: usize) -> Known {
        let mut named = self.named(set);
        named.extend(u8::try_from(self.order[place]).ok());
        named.sort_unstable();
        self.pricer.spend(4 + named.len());
        self.pricer.fits(&named)
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
