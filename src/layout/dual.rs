// SPDX-License-Identifier: MIT
//! Bounds from dual feasible functions.
//!
//! In: boxes and a sheet. Out: a number of sheets that they need at least. Never: looks at a layout.
//!
//! A dual feasible function replaces lengths by other lengths such that what fitted in a row still fits. If `f` is one for
//! the sheet's width and `g` one for its height, boxes of `f(w)` by `g(h)` never cover more than the sheet's `f(W)` by
//! `g(H)` (Fekete and Schepers 2004; Carlier, Clautiaux and Moukrim 2007). A box that may turn counts with the smaller of
//! its two areas. On a square sheet the mean of (f, g) and (g, f) is the same for both turns and loses nothing.

use super::bound::Boxed;
use super::exact::nearly;

/// A function on lengths from 0 to `whole`, in whole numbers.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Dual {
    /// What is under the threshold vanishes, what leaves less than it counts as everything. Threshold 1 changes nothing.
    Threshold(i64),
    /// How many pieces of this length fit (Carlier, Clautiaux and Moukrim's f1).
    Pieces(i64),
    /// Rounds down to so many parts of the whole, unless exact (Fekete and Schepers' u).
    Parts(i64),
}

impl Dual {
    fn of(self, length: i64, whole: i64) -> i64 {
        match self {
            Self::Threshold(least) => {
                if length > whole - least {
                    whole
                } else if length < least {
                    0
                } else {
                    length
                }
            }
            Self::Pieces(piece) => match (2 * length).cmp(&whole) {
                std::cmp::Ordering::Greater => 2 * (whole / piece - (whole - length) / piece),
                std::cmp::Ordering::Equal => whole / piece,
                std::cmp::Ordering::Less => 2 * (length / piece),
            },
            Self::Parts(parts) => {
                let scaled = (parts + 1) * length;
                if scaled % whole == 0 { length * parts } else { scaled / whole * whole }
            }
        }
    }

    /// What the whole length becomes.
    fn whole(self, whole: i64) -> i64 {
        match self {
            Self::Threshold(_) => whole,
            Self::Pieces(piece) => 2 * (whole / piece),
            Self::Parts(parts) => whole * parts,
        }
    }
}

/// Rounding to more parts than this is as good as no rounding.
const MOST_PARTS: i64 = 24;

/// The best bound of at most about `pairs` pairs of functions.
pub(super) fn bound(width: i64, height: i64, boxes: &[Boxed], pairs: usize) -> u64 {
    if width < 1 || height < 1 || boxes.is_empty() {
        return 0;
    }
    let side = pairs.isqrt().max(1);
    let square = width == height;
    let across = functions(width, boxes.iter().flat_map(|b| b.poses.iter().map(|pose| pose.0)), side);
    let upward = functions(height, boxes.iter().flat_map(|b| b.poses.iter().map(|pose| pose.1)), side);
    let across = Table::new(&across, width, boxes, |pose| pose.0);
    let upward = Table::new(&upward, height, boxes, |pose| pose.1);
    let mut best = 0;
    for f in 0..across.functions.len() {
        for g in 0..upward.functions.len() {
            // On a square sheet both tables hold the same functions, and (f, g) with (g, f) covers them pair by pair.
            if square && f > g && across.same(&upward) {
                continue;
            }
            let mirrored = square && f != g && across.same(&upward);
            if guess(&across, &upward, f, g, mirrored, boxes) > nearly(best) + 1e-6 {
                best = best.max(proof(&across, &upward, f, g, mirrored, boxes));
            }
        }
    }
    best
}

/// Thresholds at which some box appears, vanishes or becomes everything; thinned evenly to `most`.
fn functions(whole: i64, lengths: impl Iterator<Item = i64>, most: usize) -> Vec<Dual> {
    let mut steps: Vec<i64> = vec![1];
    let mut pieces = Vec::new();
    for length in lengths {
        steps.extend([length, length + 1, whole - length + 1]);
        pieces.extend([length, whole - length]);
    }
    let useful = |list: &mut Vec<i64>| {
        list.retain(|&length| (1..=whole / 2).contains(&length));
        list.sort_unstable();
        list.dedup();
    };
    useful(&mut steps);
    useful(&mut pieces);
    let share = most.saturating_sub(usize::try_from(MOST_PARTS).unwrap_or(0) / 2).max(3) / 2;
    let mut functions = vec![Dual::Threshold(1)];
    functions.extend(thinned(&steps, share).map(Dual::Threshold));
    functions.extend(thinned(&pieces, share).map(Dual::Pieces));
    functions.extend((1..=MOST_PARTS).map(Dual::Parts));
    functions.dedup();
    functions
}

fn thinned(list: &[i64], most: usize) -> impl Iterator<Item = i64> {
    let step = list.len().div_ceil(most.max(1)).max(1);
    list.iter().copied().step_by(step)
}

/// All functions on all poses of all boxes.
struct Table {
    functions: Vec<Dual>,
    /// What the sheet's side becomes, by function.
    whole: Vec<i64>,
    /// By function, then by box: both poses (the same one twice where there is one).
    values: Vec<Vec<[i64; 2]>>,
    shares: Vec<Vec<[f64; 2]>>,
}

impl Table {
    fn new(functions: &[Dual], whole: i64, boxes: &[Boxed], side: fn(&(i64, i64)) -> i64) -> Self {
        let values: Vec<Vec<[i64; 2]>> = functions
            .iter()
            .map(|function| boxes.iter().map(|b| both(b, side).map(|length| function.of(length, whole))).collect())
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
        Self { functions: functions.to_vec(), whole: wholes, values, shares }
    }

    fn same(&self, other: &Self) -> bool {
        self.functions == other.functions
    }
}

fn both(boxed: &Boxed, side: fn(&(i64, i64)) -> i64) -> [i64; 2] {
    let first = boxed.poses.first().map_or(0, side);
    [first, boxed.poses.get(1).map_or(first, side)]
}

/// About how many sheets a pair of functions proves.
fn guess(across: &Table, upward: &Table, f: usize, g: usize, mirrored: bool, boxes: &[Boxed]) -> f64 {
    let mut sum = 0.0;
    for (number, boxed) in boxes.iter().enumerate() {
        let mut area = [0, 1].map(|pose| across.shares[f][number][pose] * upward.shares[g][number][pose]);
        if mirrored {
            let swapped = [0, 1].map(|pose| across.shares[g][number][pose] * upward.shares[f][number][pose]);
            area = [area[0].midpoint(swapped[0]), area[1].midpoint(swapped[1])];
        }
        sum += area[0].min(area[1]) * nearly(boxed.count);
    }
    sum
}

/// How many sheets a pair of functions proves, in whole numbers. Saturates to nothing proven.
fn proof(across: &Table, upward: &Table, f: usize, g: usize, mirrored: bool, boxes: &[Boxed]) -> u64 {
    let product = |a: i64, b: i64| u128::from(a.unsigned_abs()) * u128::from(b.unsigned_abs());
    // (f, g) and (g, f) share the sheet's area f(W) g(W), so the mean is a sum over twice that area.
    let mut sheet = product(across.whole[f], upward.whole[g]);
    if mirrored {
        sheet = sheet.saturating_mul(2);
    }
    let mut sum: u128 = 0;
    for (number, boxed) in boxes.iter().enumerate() {
        let area = |pose: usize| {
            let straight = product(across.values[f][number][pose], upward.values[g][number][pose]);
            let swapped = product(across.values[g][number][pose], upward.values[f][number][pose]);
            if mirrored { straight + swapped } else { straight }
        };
        let Some(more) = area(0).min(area(1)).checked_mul(u128::from(boxed.count)).and_then(|a| sum.checked_add(a))
        else {
            return 0;
        };
        sum = more;
    }
    u64::try_from(sum.div_ceil(sheet.max(1))).unwrap_or(0)
}
