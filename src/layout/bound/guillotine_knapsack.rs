// SPDX-License-Identifier: MIT
//! The guillotine knapsack: the boxes that are worth most on one sheet which edge-to-edge cuts take apart in any number of
//! stages.
//!
//! In: boxes, a sheet, what each box is worth. Out: the most that a sheet can hold, or sheets that are worth much, with
//! everything in its place. Never: counts how many boxes there are of a kind; a sheet may hold more of them, which keeps a
//! bound true.
//!
//! Dynamic programming over the lengths and heights that pieces can have (Gilmore and Gomory 1966; Beasley 1985; Cintra and
//! others 2008). Where these are too many, close ones count as one (`raster`): rounded up, the most is no less than the
//! truth; rounded down, every sheet found can be cut.

use std::cmp::Reverse;
use std::collections::BTreeMap;

use crate::layout::bound::raster::{Raster, RasterRounding, reduced, sums};
use crate::layout::model::one_size::OneSizeProblem;
use crate::layout::model::packing::PlacedBox;

/// Where sums of lengths are too many to be listed, lengths are counted in this part of the side.
const GRID: i64 = 600;
/// Worths have no more bits than this, and fewer where a sheet holds many boxes.
const MOST_BITS: u32 = 24;
/// What a sheet holds has no more bits than this; rounded lengths make it up to 16 times as much, which [`u32`] takes.
const SHEET_BITS: u32 = 27;

/// One box in one orientation.
#[derive(Clone, Copy, Debug)]
struct LaidBox {
    kind: usize,
    size: (i64, i64),
    /// The piece that it takes.
    piece: (usize, usize),
}

/// What can be asked again and again with other worths.
#[derive(Clone, Debug)]
pub(crate) struct GuillotineKnapsack {
    across: Raster,
    upward: Raster,
    boxes: Vec<LaidBox>,
    /// Counted lengths are this much of real ones.
    scale: (i64, i64),
    /// Bits by which worths are cut down so that they fit.
    shift: u32,
    exact: bool,
    rounding: RasterRounding,
    /// By length, then by height: the most that such a piece holds.
    most: Vec<u32>,
    worth: Vec<u32>,
}

/// A kind in an orientation that goes onto the sheet, and how many there are.
type FittingBox = (usize, (i64, i64), u64);

/// A piece that waits to be taken apart: what it counts as, and where it lies.
type OpenPiece = ((usize, usize), (i64, i64));

impl GuillotineKnapsack {
    /// For all questions about one sheet, each of about `looks` at two pieces at most. None where this cannot be had.
    pub(crate) fn new(problem: &OneSizeProblem, rounding: RasterRounding, looks: usize) -> Option<Self> {
        let fits = |&(width, height): &(i64, i64)| width <= problem.width && height <= problem.height;
        let all = problem.boxes.iter().enumerate().flat_map(|(kind, one)| {
            one.orientations.iter().filter(|size| fits(size)).map(move |&size| (kind, size, one.count))
        });
        let all: Vec<FittingBox> = all.collect();
        let least = all.iter().map(|(_, size, _)| size.0 * size.1).min()?;
        let fitting = u32::try_from(problem.width * problem.height / least.max(1)).ok()?;
        let bits = SHEET_BITS.checked_sub(u32::BITS - fitting.leading_zeros())?.min(MOST_BITS);
        let sides: Vec<CountedSide> = [(0, problem.width), (1, problem.height)]
            .into_iter()
            .map(|(way, side)| CountedSide::new(lengths(&all, way), side, rounding))
            .collect::<Option<_>>()?;
        let (mut rasters, told_apart) = thinned(&sides, rounding, looks)?;
        let exact = told_apart && sides.iter().all(|side| side.scale == 1);
        let scale = [sides[0].scale, sides[1].scale];
        let (upward, across) = (rasters.pop()?, rasters.pop()?);
        let boxes = all.iter().filter_map(|&(kind, size, _)| {
            let counted = [scaled(size.0, scale[0], rounding), scaled(size.1, scale[1], rounding)];
            Some(LaidBox { kind, size, piece: (across.at(counted[0])?, upward.at(counted[1])?) })
        });
        let boxes = boxes.collect();
        let most = vec![0; across.len() * upward.len()];
        let (scale, shift) = ((scale[0], scale[1]), 30_u32.saturating_sub(bits));
        Some(Self { across, upward, boxes, scale, shift, exact, rounding, most, worth: Vec::new() })
    }

    /// Whether no length is rounded: what it finds is the best and can be cut.
    pub(crate) fn exact(&self) -> bool {
        self.exact
    }

    /// Steps that one question takes.
    pub(crate) fn steps(&self) -> u64 {
        let looks = self.across.all_cuts() * self.upward.len() + self.across.len() * self.upward.all_cuts();
        u64::try_from(looks / 8 + self.across.len() * self.upward.len()).unwrap_or(u64::MAX)
    }

    /// The most that one sheet holds: rounded up where lengths are.
    pub(crate) fn ask(&mut self, worth: &[u64]) -> u64 {
        let up = self.rounding == RasterRounding::Up;
        let cut_down = |&worth: &u64| {
            let whole = if up { worth.div_ceil(1 << self.shift) } else { worth >> self.shift };
            u32::try_from(whole).unwrap_or(u32::MAX >> 8)
        };
        self.worth = worth.iter().map(cut_down).collect();
        let height = self.upward.len();
        for column in 0..self.across.len() {
            let (before, rest) = self.most.split_at_mut(column * height);
            let row = &mut rest[..height];
            match column.checked_sub(1) {
                Some(narrower) => row.copy_from_slice(&before[narrower * height..]),
                None => row.fill(0),
            }
            for one in self.boxes.iter().filter(|one| one.piece.0 == column) {
                row[one.piece.1] = row[one.piece.1].max(self.worth[one.kind]);
            }
            for &(first, second) in self.across.cuts(column) {
                let [first, second] = [first, second].map(|piece| &before[usize::from(piece) * height..][..height]);
                for ((most, first), second) in row.iter_mut().zip(first).zip(second) {
                    *most = (*most).max(first + second);
                }
            }
            let mut lower = 0;
            for at in 0..height {
                let mut most = row[at].max(lower);
                for &(first, second) in self.upward.cuts(at) {
                    most = most.max(row[usize::from(first)] + row[usize::from(second)]);
                }
                row[at] = most;
                lower = most;
            }
        }
        self.most.last().map_or(0, |&most| u64::from(most) << self.shift)
    }

    /// Up to so many sheets worth more than `limit` by the last question, the best first; each begins with another cut. Boxes
    /// lie where they can be cut, unless lengths are rounded up.
    pub(crate) fn sheets(&self, limit: u64, number: usize) -> Vec<Vec<PlacedBox>> {
        let whole = (self.across.len() - 1, self.upward.len() - 1);
        let mut begins: Vec<(u32, [OpenPiece; 2])> = self.cuts(whole, (0, 0)).collect();
        begins.sort_by_key(|&(most, _)| Reverse(most));
        let mut sheets: Vec<Vec<PlacedBox>> = Vec::new();
        let mut known: Vec<Vec<usize>> = Vec::new();
        if begins.iter().all(|&(most, _)| most < self.at(whole)) {
            begins.insert(0, (self.at(whole), [(whole, (0, 0)); 2]));
        }
        for (most, pieces) in begins {
            if u64::from(most) << self.shift <= limit || sheets.len() >= number {
                break;
            }
            let open = if pieces[0].0 == whole { vec![pieces[0]] } else { pieces.to_vec() };
            let placed = self.taken_apart(open);
            let mut kinds: Vec<usize> = placed.iter().map(|put| put.kind).collect();
            kinds.sort_unstable();
            if !known.contains(&kinds) {
                known.push(kinds);
                sheets.push(placed);
            }
        }
        sheets
    }

    fn at(&self, piece: (usize, usize)) -> u32 {
        self.most[piece.0 * self.upward.len() + piece.1]
    }

    /// Every way to cut a piece in two: what the two hold, and what and where they are.
    fn cuts(&self, piece: (usize, usize), at: (i64, i64)) -> impl Iterator<Item = (u32, [OpenPiece; 2])> {
        let (x, y) = at;
        let upright = self.across.cuts(piece.0).iter().map(move |&(first, second)| {
            let further = x + self.across.offset(first) * self.scale.0;
            [((usize::from(first), piece.1), at), ((usize::from(second), piece.1), (further, y))]
        });
        let level = self.upward.cuts(piece.1).iter().map(move |&(first, second)| {
            let further = y + self.upward.offset(first) * self.scale.1;
            [((piece.0, usize::from(first)), at), ((piece.0, usize::from(second)), (x, further))]
        });
        upright.chain(level).map(|pieces| (self.at(pieces[0].0) + self.at(pieces[1].0), pieces))
    }

    /// The boxes of these pieces.
    fn taken_apart(&self, mut open: Vec<OpenPiece>) -> Vec<PlacedBox> {
        let mut placed = Vec::new();
        while let Some((mut piece, at)) = open.pop() {
            let most = self.at(piece);
            if most == 0 {
                continue;
            }
            while piece.0 > 0 && self.at((piece.0 - 1, piece.1)) == most {
                piece.0 -= 1;
            }
            while piece.1 > 0 && self.at((piece.0, piece.1 - 1)) == most {
                piece.1 -= 1;
            }
            let alone = self.boxes.iter().find(|one| one.piece == piece && self.worth[one.kind] == most);
            if let Some(one) = alone {
                let (width, height) = one.size;
                placed.push(PlacedBox { kind: one.kind, x: at.0, y: at.1, width, height });
            } else if let Some((_, pieces)) = self.cuts(piece, at).find(|&(sum, _)| sum == most) {
                open.extend(pieces);
            }
        }
        placed
    }
}

/// One side of the sheet, in the unit that its lengths are counted in.
struct CountedSide {
    /// So much of a real length is one counted.
    scale: i64,
    side: i64,
    lengths: Vec<(i64, u64)>,
    sums: Vec<i64>,
    /// Those that are met by cutting; none where lengths count as shorter.
    reduced: Vec<i64>,
}

impl CountedSide {
    fn new(lengths: Vec<(i64, u64)>, side: i64, rounding: RasterRounding) -> Option<Self> {
        let mut counted = Self { scale: 1, side, lengths, sums: Vec::new(), reduced: Vec::new() };
        counted.sums = if let Some(sums) = sums(&counted.lengths, side) {
            sums
        } else {
            counted.scale = (side / GRID).max(1);
            counted.side = side / counted.scale;
            for (length, _) in &mut counted.lengths {
                *length = scaled(*length, counted.scale, rounding);
            }
            sums(&counted.lengths, counted.side)?
        };
        if rounding == RasterRounding::Up {
            counted.reduced = reduced(&counted.sums);
        }
        (counted.shortest() > 0 && !counted.sums.is_empty()).then_some(counted)
    }

    fn shortest(&self) -> i64 {
        self.lengths.iter().map(|&(length, _)| length).min().unwrap_or(0)
    }
}

/// The different lengths one way, and how many boxes may have each.
fn lengths(boxes: &[FittingBox], way: usize) -> Vec<(i64, u64)> {
    let mut lengths: BTreeMap<i64, u64> = BTreeMap::new();
    for &(_, size, count) in boxes {
        let more = lengths.entry([size.0, size.1][way]).or_default();
        *more = more.saturating_add(count);
    }
    lengths.into_iter().collect()
}

/// Rasters that are thinner and thinner, until a question costs no more looks than it may; and whether none was thinned.
fn thinned(sides: &[CountedSide], rounding: RasterRounding, looks: usize) -> Option<(Vec<Raster>, bool)> {
    const MOST_PARTS: i64 = 4000;
    const LEAST_PARTS: i64 = 20;
    let mut parts = MOST_PARTS;
    while parts >= LEAST_PARTS {
        let whole = parts == MOST_PARTS;
        let raster = |side: &CountedSide| {
            let apart = if whole { 1 } else { side.side / parts };
            Raster::new(&side.sums, &side.reduced, &side.lengths, apart.clamp(1, side.shortest()), rounding)
        };
        let rasters: Vec<Raster> = sides.iter().map(raster).collect();
        let cost = |one: &Raster, other: &Raster| one.all_cuts().saturating_mul(other.len());
        if cost(&rasters[0], &rasters[1]).saturating_add(cost(&rasters[1], &rasters[0])) <= looks {
            return Some((rasters, whole));
        }
        parts = parts * 3 / 4;
    }
    None
}

fn scaled(length: i64, scale: i64, rounding: RasterRounding) -> i64 {
    match rounding {
        RasterRounding::Up => length / scale,
        RasterRounding::Down => (length + scale - 1) / scale,
    }
}
