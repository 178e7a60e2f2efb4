// SPDX-License-Identifier: MIT
//! Bounds from dual feasible functions.
//!
//! In: boxes and a sheet. Out: a number of sheets that they need at least. Never: looks at a layout.
//!
//! A dual feasible function replaces lengths by other lengths such that what fitted in a row still fits. If `f` is one for
//! the sheet's width and `g` one for its height, boxes of `f(w)` by `g(h)` never cover more than the sheet's `f(W)` by
//! `g(H)` (Fekete and Schepers 2004; Carlier, Clautiaux and Moukrim 2007). A box that may turn counts with the smaller of
//! its two areas. On a square sheet the mean of (f, g) and (g, f) is the same for both turns and loses nothing.

use std::cmp::Ordering;

use crate::layout::bound::relaxation::Boxed;
use crate::layout::numbers::nearly;

/// A function on lengths from 0 to the sheet's side, in whole numbers.
#[derive(Clone, Debug, PartialEq, Eq)]
enum Dual {
    /// What is under the threshold vanishes, what leaves less than it counts as everything. Threshold 1 changes nothing.
    Threshold(i64),
    /// How many pieces of this length fit (Carlier, Clautiaux and Moukrim's f1).
    Pieces(i64),
    /// Rounds down to so many parts of the whole, unless exact (Fekete and Schepers' u).
    Parts(i64),
    /// How many of the job's own boxes up to half the side fit; a longer box counts as those that it keeps out (Carlier,
    /// Clautiaux and Moukrim's data-dependent f).
    Own(Row),
}

impl Dual {
    fn of(&self, length: i64, whole: i64) -> i64 {
        match self {
            Self::Threshold(least) => {
                if length > whole - least {
                    whole
                } else if length < *least {
                    0
                } else {
                    length
                }
            }
            Self::Pieces(piece) => match (2 * length).cmp(&whole) {
                Ordering::Greater => 2 * (whole / piece - (whole - length) / piece),
                Ordering::Equal => whole / piece,
                Ordering::Less => 2 * (length / piece),
            },
            Self::Parts(parts) => {
                let scaled = (parts + 1) * length;
                if scaled % whole == 0 { length * parts } else { scaled / whole * whole }
            }
            Self::Own(row) if 2 * length > whole => row.most(whole) - row.most(whole - length),
            Self::Own(row) => i64::from(length >= row.least),
        }
    }

    /// What the whole side becomes.
    fn whole(&self, whole: i64) -> i64 {
        match self {
            Self::Threshold(_) => whole,
            Self::Pieces(piece) => 2 * (whole / piece),
            Self::Parts(parts) => whole * parts,
            Self::Own(row) => row.most(whole),
        }
    }
}

/// The job's boxes that are no shorter than `least` and no longer than half the side, the shortest first.
#[derive(Clone, Debug, PartialEq, Eq)]
struct Row {
    least: i64,
    /// A length, and how many boxes of what length all together lie before it.
    steps: Vec<(i64, i64, i64)>,
    end: (i64, i64),
}

impl Row {
    /// A box that may turn can be in a row once only: it counts with the shorter of its lengths that count at all.
    fn new(least: i64, whole: i64, boxes: &[Boxed], along: Along) -> Self {
        let length = |boxed: &Boxed| boxed.poses.iter().map(along).filter(|l| (least..=whole / 2).contains(l)).min();
        let count = |boxed: &Boxed| i64::try_from(boxed.count).unwrap_or(i64::MAX);
        let mut sorted: Vec<(i64, i64)> = boxes.iter().filter_map(|b| Some((length(b)?, count(b)))).collect();
        sorted.sort_unstable();
        let mut end = (0_i64, 0_i64);
        let steps = sorted.into_iter().map(|(length, count)| {
            let step = (length, end.0, end.1);
            end = (end.0.saturating_add(count), end.1.saturating_add(length.saturating_mul(count)));
            step
        });
        Self { least, steps: steps.collect(), end }
    }

    /// The most boxes that fit into `room`.
    fn most(&self, room: i64) -> i64 {
        let from = self.steps.partition_point(|&(_, _, before)| before <= room);
        match from.checked_sub(1).and_then(|last| self.steps.get(last)) {
            None => 0,
            Some(_) if self.end.1 <= room => self.end.0,
            Some(&(length, count, before)) => count + (room - before) / length.max(1),
        }
    }
}

/// Which side of a pose runs along the sheet's side in question.
type Along = fn(&(i64, i64)) -> i64;

/// Rounding to more parts than this is as good as no rounding.
const MOST_PARTS: i64 = 24;

/// The best bound of at most about `pairs` pairs of functions.
pub(crate) fn bound(width: i64, height: i64, boxes: &[Boxed], pairs: usize) -> u64 {
    let Some(tables) = Tables::new(width, height, boxes, pairs) else { return 0 };
    let mut best = 0;
    for (f, g, mean) in tables.pairs() {
        if tables.guess(f, g, mean) > nearly(best) + 1e-6 {
            best = best.max(tables.proof(f, g, mean));
        }
    }
    best
}

/// Thresholds at which some box appears, vanishes or becomes everything; thinned evenly to `most`.
fn functions(whole: i64, boxes: &[Boxed], along: &[Along], most: usize) -> Vec<Dual> {
    let lengths = || boxes.iter().flat_map(|boxed| &boxed.poses).flat_map(|pose| along.iter().map(move |of| of(pose)));
    let steps = useful(lengths().flat_map(|length| [length, length + 1, whole - length + 1]).chain([1]), whole);
    let pieces = useful(lengths().flat_map(|length| [length, whole - length]), whole);
    let share = most.saturating_sub(usize::try_from(MOST_PARTS).unwrap_or(0) / 2).max(3) / 2;
    let mut functions = vec![Dual::Threshold(1)];
    functions.extend(thinned(&steps, share).map(Dual::Threshold));
    functions.extend(thinned(&pieces, share).map(Dual::Pieces));
    functions.extend((1..=MOST_PARTS).map(Dual::Parts));
    functions
}

/// Functions that count the job's own boxes, from every length up; thinned evenly to `most`.
fn own(whole: i64, boxes: &[Boxed], along: Along, most: usize) -> impl Iterator<Item = Dual> {
    let least = useful(boxes.iter().flat_map(|boxed| boxed.poses.iter().map(along)), whole);
    let least: Vec<i64> = thinned(&least, most).collect();
    least.into_iter().map(move |least| Dual::Own(Row::new(least, whole, boxes, along)))
}

/// The lengths that can be thresholds, in order.
fn useful(lengths: impl Iterator<Item = i64>, whole: i64) -> Vec<i64> {
    let mut useful: Vec<i64> = lengths.filter(|length| (1..=whole / 2).contains(length)).collect();
    useful.sort_unstable();
    useful.dedup();
    useful
}

fn thinned(list: &[i64], most: usize) -> impl Iterator<Item = i64> {
    let step = list.len().div_ceil(most.max(1)).max(1);
    list.iter().copied().step_by(step)
}

/// All functions of one side on all poses of all boxes.
struct Table {
    /// What the sheet's side becomes, by function.
    whole: Vec<i64>,
    /// By function, then by box: both poses (the same one twice where there is one).
    values: Vec<Vec<[i64; 2]>>,
    /// The same as shares of the sheet's side.
    shares: Vec<Vec<[f64; 2]>>,
}

impl Table {
    fn new(functions: &[Dual], whole: i64, boxes: &[Boxed], along: Along) -> Self {
        let both = |boxed: &Boxed| {
            let first = boxed.poses.first().map_or(0, along);
            [first, boxed.poses.get(1).map_or(first, along)]
        };
        let values: Vec<Vec<[i64; 2]>> = functions
            .iter()
            .map(|function| boxes.iter().map(|boxed| both(boxed).map(|length| function.of(length, whole))).collect())
            .collect();
        let wholes: Vec<i64> = functions.iter().map(|function| function.whole(whole)).collect();
        let shares = values
            .iter()
            .zip(&wholes)
            .map(|(row, &whole)| {
                let share = |value: i64| nearly(value.unsigned_abs()) / nearly(whole.unsigned_abs());
                row.iter().map(|pair| pair.map(share)).collect()
            })
            .collect();
        Self { whole: wholes, values, shares }
    }
}

/// Both sides. With `mean`, (f, g) and (g, f) are taken together, which needs a square sheet.
pub(crate) struct Tables<'a> {
    across: Table,
    upward: Table,
    boxes: &'a [Boxed],
    square: bool,
    all_turn: bool,
    /// So many functions hold along both sides of a square sheet.
    common: usize,
}

/// Two functions, and whether both their products are taken together.
pub(crate) type Pair = (usize, usize, bool);

/// What a sheet holds of any row of sizes.
pub(crate) const WHOLE: u64 = 1 << 20;

impl<'a> Tables<'a> {
    /// Functions for about so many pairs. None where there is nothing to lay or nothing to lay it on.
    pub(crate) fn new(width: i64, height: i64, boxes: &'a [Boxed], pairs: usize) -> Option<Self> {
        if width < 1 || height < 1 || boxes.is_empty() {
            return None;
        }
        let most = pairs.isqrt().max(1);
        let square = width == height;
        let all_turn =
            boxes.iter().all(|boxed| boxed.poses.len() > 1 || boxed.poses.iter().all(|pose| pose.0 == pose.1));
        let [across, upward]: [Along; 2] = [|pose| pose.0, |pose| pose.1];
        let (mut f, mut g) = if square {
            let common = functions(width, boxes, &[across, upward], most);
            (common.clone(), common)
        } else {
            (functions(width, boxes, &[across], most), functions(height, boxes, &[upward], most))
        };
        let common = f.len();
        f.extend(own(width, boxes, across, most / 4));
        g.extend(own(height, boxes, upward, most / 4));
        let (across, upward) = (Table::new(&f, width, boxes, across), Table::new(&g, height, boxes, upward));
        Some(Self { across, upward, boxes, square, all_turn, common })
    }

    /// All pairs that make sense.
    pub(crate) fn pairs(&self) -> impl Iterator<Item = Pair> {
        let (fs, gs) = (self.across.whole.len(), self.upward.whole.len());
        let (square, all_turn, common) = (self.square, self.all_turn, self.common);
        (0..fs).flat_map(move |f| (0..gs).map(move |g| (f, g))).flat_map(move |(f, g)| {
            // The mean needs functions that hold along both sides. The job's own boxes make such where all may turn, and
            // there the mean is never less than the smaller of two areas.
            let mean = square && f <= g && (g < common || all_turn);
            let straight = !(square && all_turn);
            [straight.then_some((f, g, false)), mean.then_some((f, g, true))].into_iter().flatten()
        })
    }

    /// The pairs whose sizes hold one sheet's load of boxes to the least worth, the best first.
    pub(crate) fn strongest(&self, among: &[Pair], worth: &[u64], most: usize) -> Vec<Pair> {
        let mut sizes = Vec::with_capacity(self.boxes.len());
        let mut best: Vec<(f64, Pair)> = Vec::new();
        for &(f, g, mean) in among {
            sizes.clear();
            for (number, (&worth, boxed)) in
                worth.iter().zip(self.boxes).enumerate().filter(|(_, (worth, _))| **worth > 0)
            {
                // A function of which the whole sheet is nothing says nothing.
                let share = self.share(number, f, g, mean);
                sizes.push((if share.is_finite() { share } else { 0.0 }, nearly(worth), nearly(boxed.count)));
            }
            sizes.sort_by(|a, b| (a.0 / a.1).total_cmp(&(b.0 / b.1)));
            let (mut room, mut load) = (1.0, 0.0);
            for &(size, worth, count) in &sizes {
                let copies = if size * count > room { room / size } else { count };
                load += worth * copies;
                room -= size * copies;
                if room <= 0.0 {
                    break;
                }
            }
            best.push((load, (f, g, mean)));
        }
        best.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
        best.truncate(most);
        best.into_iter().map(|(_, pair)| pair).collect()
    }

    /// By box, the least that it takes of a sheet's [`WHOLE`]; rounded down.
    pub(crate) fn sizes(&self, (f, g, mean): Pair) -> Vec<u32> {
        let sheet = self.sheet(f, g, mean).max(1);
        let size = |number: usize| {
            let area = self.area(number, f, g, mean);
            let size = area.checked_mul(u128::from(WHOLE)).map_or(0, |scaled| scaled / sheet);
            u32::try_from(size).unwrap_or(u32::MAX)
        };
        (0..self.boxes.len()).map(size).collect()
    }

    /// The part of a sheet that a box takes, about.
    fn share(&self, number: usize, f: usize, g: usize, mean: bool) -> f64 {
        let pair =
            |f: usize, g: usize, pose: usize| self.across.shares[f][number][pose] * self.upward.shares[g][number][pose];
        let area =
            |pose: usize| if mean { f64::midpoint(pair(f, g, pose), pair(g, f, pose)) } else { pair(f, g, pose) };
        area(0).min(area(1))
    }

    fn sheet(&self, f: usize, g: usize, mean: bool) -> u128 {
        // (f, g) and (g, f) make the same area of a square sheet; together, twice that.
        product(self.across.whole[f], self.upward.whole[g]).saturating_mul(if mean { 2 } else { 1 })
    }

    fn area(&self, number: usize, f: usize, g: usize, mean: bool) -> u128 {
        let pair = |f: usize, g: usize, pose: usize| {
            product(self.across.values[f][number][pose], self.upward.values[g][number][pose])
        };
        let area =
            |pose: usize| if mean { pair(f, g, pose).saturating_add(pair(g, f, pose)) } else { pair(f, g, pose) };
        area(0).min(area(1))
    }

    /// About how many sheets a pair of functions proves.
    fn guess(&self, f: usize, g: usize, mean: bool) -> f64 {
        let smaller = |area: [f64; 2]| if area[0] < area[1] { area[0] } else { area[1] };
        let counts = self.boxes.iter().map(|boxed| nearly(boxed.count));
        let areas = self.across.shares[f].iter().zip(&self.upward.shares[g]);
        if !mean {
            return areas.zip(counts).map(|((x, y), count)| smaller([x[0] * y[0], x[1] * y[1]]) * count).sum();
        }
        let swapped = self.across.shares[g].iter().zip(&self.upward.shares[f]);
        let twice: f64 = areas
            .zip(swapped)
            .zip(counts)
            .map(|(((x, y), (u, v)), count)| smaller([x[0] * y[0] + u[0] * v[0], x[1] * y[1] + u[1] * v[1]]) * count)
            .sum();
        twice / 2.0
    }

    /// How many sheets a pair of functions proves, in whole numbers. What is too large to add up proves nothing.
    fn proof(&self, f: usize, g: usize, mean: bool) -> u64 {
        let mut sum: u128 = 0;
        for (number, boxed) in self.boxes.iter().enumerate() {
            let area = self.area(number, f, g, mean);
            let Some(more) = area.checked_mul(u128::from(boxed.count)).and_then(|area| sum.checked_add(area)) else {
                return 0;
            };
            sum = more;
        }
        u64::try_from(sum.div_ceil(self.sheet(f, g, mean).max(1))).unwrap_or(0)
    }
}

fn product(a: i64, b: i64) -> u128 {
    u128::from(a.unsigned_abs()) * u128::from(b.unsigned_abs())
}
