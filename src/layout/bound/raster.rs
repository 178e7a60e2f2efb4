// SPDX-License-Identifier: MIT
//! Raster points: where edge-to-edge cuts across one side of a sheet need to lie, and which lengths the pieces have.
//!
//! In: lengths of boxes with their counts, the sheet's side. Out: the lengths that are told apart and, for each, the ways to
//! cut it in two. Never: tells a piece to be shorter than it is where a bound hangs on it, or longer where a layout does.
//!
//! Pushed together, every piece is as long as a sum of boxes (Herz 1972), and what a cut leaves is rounded down to such a sum
//! (the reduced raster points of Scheithauer and Terno 1996). Where there are too many of them, neighbours closer than some
//! length count as one: as the longest of them where nothing may be missed, as the shortest where all must fit.

/// More sums than this are not listed.
const MOST_SUMS: usize = 3_000;
/// Nor are more looked at for one length.
const MOST_TRIED: i64 = 400_000;

/// One side of the sheet.
#[derive(Clone, Debug)]
pub(crate) struct Raster {
    /// The lengths that are told apart, the sheet's own last.
    points: Vec<i64>,
    /// By length: the ways to cut it in two, and what each piece is.
    cuts: Vec<Vec<(u16, u16)>>,
    /// By length: how far the second piece is from the first one's beginning.
    offsets: Vec<i64>,
    /// Lengths between two points count as the longer one.
    up: bool,
}

/// What becomes of lengths that are not told apart.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum RasterRounding {
    /// They count as longer: no pattern is missed.
    Up,
    /// They count as shorter: every pattern can be cut.
    Down,
}

/// Every sum of lengths, each used no more often than it is there, up to `side`; ascending, without 0. None if there are too
/// many.
pub(crate) fn sums(lengths: &[(i64, u64)], side: i64) -> Option<Vec<i64>> {
    let mut sums = vec![0];
    for &(length, count) in lengths.iter().filter(|&&(length, _)| length > 0 && length <= side) {
        let often = i64::try_from(count).unwrap_or(i64::MAX).min(side / length);
        if (often + 1).saturating_mul(i64::try_from(sums.len()).ok()?) > MOST_TRIED {
            return None;
        }
        let more = |&sum: &i64| (0..=often).map(move |times| sum + times * length).take_while(|&sum| sum <= side);
        sums = sums.iter().flat_map(more).collect();
        sums.sort_unstable();
        sums.dedup();
        if sums.len() > MOST_SUMS {
            return None;
        }
    }
    sums.remove(0);
    Some(sums)
}

impl Raster {
    /// Tells lengths apart that are no closer than `apart`; `sums` are all there are, `reduced` those met by cutting, `lengths`
    /// those of boxes.
    pub(crate) fn new(
        sums: &[i64],
        reduced: &[i64],
        lengths: &[(i64, u64)],
        apart: i64,
        rounding: RasterRounding,
    ) -> Self {
        let up = rounding == RasterRounding::Up;
        let points = if up { thinned_down(reduced, apart) } else { thinned_up(sums, lengths, apart) };
        let mut raster = Self { points, cuts: Vec::new(), offsets: Vec::new(), up };
        raster.offsets = raster.points.clone();
        if up {
            // The shortest piece that counts as each length leaves the most.
            for &sum in sums.iter().rev() {
                if let Some(point) = raster.at(sum) {
                    raster.offsets[point] = sum;
                }
            }
        }
        let cuts = |&point: &i64| {
            let halves = raster.offsets.iter().enumerate().take_while(|&(_, &offset)| 2 * offset <= point);
            let mut cuts: Vec<(u16, u16)> = halves
                .filter_map(|(first, &offset)| {
                    let rest = sums[..sums.partition_point(|&sum| sum <= point - offset)].last()?;
                    Some((u16::try_from(first).ok()?, u16::try_from(raster.at(*rest)?).ok()?))
                })
                .collect();
            // Of pieces that leave the same, the longest.
            cuts.dedup_by(|later, earlier| {
                let same = later.1 == earlier.1;
                if same {
                    earlier.0 = later.0;
                }
                same
            });
            cuts
        };
        raster.cuts = raster.points.iter().map(cuts).collect();
        raster
    }

    /// As which of the points a length counts.
    pub(crate) fn at(&self, length: i64) -> Option<usize> {
        let shorter = self.points.partition_point(|&point| point < length);
        let exact = self.points.get(shorter) == Some(&length);
        let at = if self.up || exact { shorter } else { shorter.checked_sub(1)? };
        (at < self.points.len()).then_some(at)
    }

    /// How many lengths are told apart.
    pub(crate) fn len(&self) -> usize {
        self.points.len()
    }

    /// All ways to cut all lengths.
    pub(crate) fn all_cuts(&self) -> usize {
        self.cuts.iter().map(Vec::len).sum()
    }

    /// The ways to cut one of the lengths in two.
    pub(crate) fn cuts(&self, point: usize) -> &[(u16, u16)] {
        &self.cuts[point]
    }

    /// How far the second piece is from the first one's beginning.
    pub(crate) fn offset(&self, first: u16) -> i64 {
        self.offsets[usize::from(first)]
    }
}

/// The sums that are met when the longest is cut again and again.
pub(crate) fn reduced(sums: &[i64]) -> Vec<i64> {
    let Some(&longest) = sums.last() else { return Vec::new() };
    let mut met = vec![false; sums.len()];
    met[sums.len() - 1] = true;
    for at in (0..sums.len()).rev() {
        met[at] |= 2 * sums[at] <= longest;
        if !met[at] {
            continue;
        }
        for &first in sums.iter().take_while(|&&first| 2 * first <= sums[at]) {
            if let Some(rest) = sums.partition_point(|&sum| sum <= sums[at] - first).checked_sub(1) {
                met[rest] = true;
            }
        }
    }
    sums.iter().zip(met).filter(|(_, met)| *met).map(|(&sum, _)| sum).collect()
}

/// Leaves out what lies less than `apart` below a point that is kept.
fn thinned_down(points: &[i64], apart: i64) -> Vec<i64> {
    let mut kept: Vec<i64> = Vec::new();
    for &point in points.iter().rev() {
        if kept.last().is_none_or(|&above| above - point >= apart) {
            kept.push(point);
        }
    }
    kept.reverse();
    kept
}

/// Leaves out what lies less than `apart` above a point that is kept, but for single boxes and the sheet.
fn thinned_up(points: &[i64], lengths: &[(i64, u64)], apart: i64) -> Vec<i64> {
    let last = points.last().copied();
    let mut kept: Vec<i64> = Vec::new();
    for &point in points {
        let single = || lengths.iter().any(|&(length, _)| length == point);
        if kept.last().is_none_or(|&below| point - below >= apart) || Some(point) == last || single() {
            kept.push(point);
        }
    }
    kept
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Worked by hand: 3 and 4 into 10, the 4 once.
    #[test]
    fn sums_and_what_is_met_of_them() {
        let lengths = [(3, 9), (4, 1)];
        let sums = sums(&lengths, 10).unwrap();
        assert_eq!(sums, [3, 4, 6, 7, 9, 10]);
        // 9 is met by no cut of 10: what is left beside a 3 is 7, beside a 4 it is 6.
        assert_eq!(reduced(&sums), [3, 4, 6, 7, 10]);
        let raster = Raster::new(&sums, &reduced(&sums), &lengths, 1, RasterRounding::Up);
        assert_eq!(raster.cuts(4), [(0, 3), (1, 2)]);
        assert_eq!((raster.at(5), raster.at(9), raster.at(11)), (Some(2), Some(4), None));
        let raster = Raster::new(&sums, &[], &lengths, 2, RasterRounding::Down);
        assert_eq!(raster.points, [3, 4, 6, 9, 10]);
        assert_eq!((raster.at(2), raster.at(7), raster.at(11)), (None, Some(2), Some(4)));
    }
}
