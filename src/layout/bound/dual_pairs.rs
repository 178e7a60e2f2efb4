// SPDX-License-Identifier: MIT
//! The bound by pairs of dual feasible functions, one for the sheet's width and one for its height.
//!
//! In: boxes and a sheet. Out: a number of sheets that they need at least. Never: looks at a layout.
//!
//! Of two such functions f and g, boxes of `f(w)` by `g(h)` never cover more than the sheet's `f(W)` by `g(H)`. A box that may
//! turn counts with the smaller of its two areas. On a square sheet the mean of (f, g) and (g, f) is the same for both turns
//! and loses nothing.

use crate::layout::bound::dual_feasible::{Dual, SideAlong, functions, own};
use crate::layout::model::one_size::{BoxType, OneSizeProblem};
use crate::layout::numbers::{SHEETS_ROUNDING, nearly};

/// The best bound of at most about `pairs` pairs of functions.
pub(crate) fn bound(width: i64, height: i64, boxes: &[BoxType], pairs: usize) -> u64 {
    let Some(dual) = DualPairs::new(width, height, boxes, pairs) else { return 0 };
    let mut best = 0;
    for (f, g, mean) in dual.pairs() {
        if dual.estimate(f, g, mean) > nearly(best) + SHEETS_ROUNDING {
            best = best.max(dual.proof(f, g, mean));
        }
    }
    best
}

/// By box, the part of a sheet that it takes by the pair of functions which proves so many sheets, of [`WHOLE`]; none where no
/// pair does.
pub(crate) fn proving(problem: &OneSizeProblem, pairs: usize, sheets: u64) -> Option<Vec<u32>> {
    let dual = DualPairs::new(problem.width, problem.height, &problem.boxes, pairs)?;
    let proves = |&(f, g, mean): &Pair| {
        dual.estimate(f, g, mean) > nearly(sheets - 1) + SHEETS_ROUNDING && dual.proof(f, g, mean) >= sheets
    };
    let pair = dual.pairs().find(proves)?;
    Some(dual.sizes(pair))
}

/// All functions of one side on all orientations of all boxes.
struct DualValues {
    /// What the sheet's side becomes, by function.
    whole: Vec<i64>,
    /// By function, then by box: both orientations (the same one twice where there is one).
    lengths: Vec<Vec<[i64; 2]>>,
    /// The same as shares of the sheet's side.
    shares: Vec<Vec<[f64; 2]>>,
}

impl DualValues {
    fn new(functions: &[Dual], whole: i64, boxes: &[BoxType], along: SideAlong) -> Self {
        let both = |box_type: &BoxType| {
            let first = box_type.orientations.first().map_or(0, along);
            [first, box_type.orientations.get(1).map_or(first, along)]
        };
        let lengths: Vec<Vec<[i64; 2]>> = functions
            .iter()
            .map(|function| {
                boxes.iter().map(|box_type| both(box_type).map(|length| function.of(length, whole))).collect()
            })
            .collect();
        let wholes: Vec<i64> = functions.iter().map(|function| function.whole(whole)).collect();
        let shares = lengths
            .iter()
            .zip(&wholes)
            .map(|(row, &whole)| {
                let share = |value: i64| nearly(value.unsigned_abs()) / nearly(whole.unsigned_abs());
                row.iter().map(|pair| pair.map(share)).collect()
            })
            .collect();
        Self { whole: wholes, lengths, shares }
    }
}

/// Both sides. With `mean`, (f, g) and (g, f) are taken together, which needs a square sheet.
pub(crate) struct DualPairs<'a> {
    across: DualValues,
    upward: DualValues,
    boxes: &'a [BoxType],
    square: bool,
    all_turn: bool,
    /// So many functions hold along both sides of a square sheet.
    common: usize,
}

/// Two functions, and whether both their products are taken together.
pub(crate) type Pair = (usize, usize, bool);

/// What a sheet holds of the sizes that any pair gives.
pub(crate) const WHOLE: u64 = 1 << 20;

impl<'a> DualPairs<'a> {
    /// Functions for about so many pairs. None where there is nothing to lay or nothing to lay it on.
    pub(crate) fn new(width: i64, height: i64, boxes: &'a [BoxType], pairs: usize) -> Option<Self> {
        if width < 1 || height < 1 || boxes.is_empty() {
            return None;
        }
        let most = pairs.isqrt().max(1);
        let square = width == height;
        let all_turn = boxes.iter().all(|box_type| {
            box_type.orientations.len() > 1
                || box_type.orientations.iter().all(|orientation| orientation.0 == orientation.1)
        });
        let [across, upward]: [SideAlong; 2] = [|orientation| orientation.0, |orientation| orientation.1];
        let (mut f, mut g) = if square {
            let common = functions(width, boxes, &[across, upward], most);
            (common.clone(), common)
        } else {
            (functions(width, boxes, &[across], most), functions(height, boxes, &[upward], most))
        };
        let common = f.len();
        f.extend(own(width, boxes, across, most / 4));
        g.extend(own(height, boxes, upward, most / 4));
        let (across, upward) = (DualValues::new(&f, width, boxes, across), DualValues::new(&g, height, boxes, upward));
        Some(Self { across, upward, boxes, square, all_turn, common })
    }

    /// All pairs that make sense.
    pub(crate) fn pairs(&self) -> impl Iterator<Item = Pair> {
        let (fs, gs) = (self.across.whole.len(), self.upward.whole.len());
        let (square, all_turn, common) = (self.square, self.all_turn, self.common);
        (0..fs).flat_map(move |f| (0..gs).map(move |g| (f, g))).flat_map(move |(f, g)| {
            // The mean needs functions that hold along both sides. The problem's own boxes make such where all may turn, and
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
            for (number, (&worth, box_type)) in
                worth.iter().zip(self.boxes).enumerate().filter(|(_, (worth, _))| **worth > 0)
            {
                // A function of which the whole sheet is nothing says nothing.
                let share = self.share(number, f, g, mean);
                sizes.push((if share.is_finite() { share } else { 0.0 }, nearly(worth), nearly(box_type.count)));
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
        let pair = |f: usize, g: usize, orientation: usize| {
            self.across.shares[f][number][orientation] * self.upward.shares[g][number][orientation]
        };
        let area = |orientation: usize| {
            if mean { f64::midpoint(pair(f, g, orientation), pair(g, f, orientation)) } else { pair(f, g, orientation) }
        };
        area(0).min(area(1))
    }

    fn sheet(&self, f: usize, g: usize, mean: bool) -> u128 {
        // (f, g) and (g, f) make the same area of a square sheet; together, twice that.
        product(self.across.whole[f], self.upward.whole[g]).saturating_mul(if mean { 2 } else { 1 })
    }

    fn area(&self, number: usize, f: usize, g: usize, mean: bool) -> u128 {
        let pair = |f: usize, g: usize, orientation: usize| {
            product(self.across.lengths[f][number][orientation], self.upward.lengths[g][number][orientation])
        };
        let area = |orientation: usize| {
            if mean { pair(f, g, orientation).saturating_add(pair(g, f, orientation)) } else { pair(f, g, orientation) }
        };
        area(0).min(area(1))
    }

    /// About how many sheets a pair of functions proves.
    fn estimate(&self, f: usize, g: usize, mean: bool) -> f64 {
        let smaller = |area: [f64; 2]| if area[0] < area[1] { area[0] } else { area[1] };
        let counts = self.boxes.iter().map(|box_type| nearly(box_type.count));
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
        for (number, box_type) in self.boxes.iter().enumerate() {
            let area = self.area(number, f, g, mean);
            let Some(more) = area.checked_mul(u128::from(box_type.count)).and_then(|area| sum.checked_add(area)) else {
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
