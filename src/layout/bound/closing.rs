// SPDX-License-Identifier: MIT
//! Closing: whether the sheets that a layout of so many could have make up one.
//!
//! In: what each box is worth, the most that a sheet holds by it, a number of sheets. Out: the boxes of each sheet, or the proof
//! that so many do not do. Never: says either before every sheet that matters has been looked at.
//!
//! If all boxes together are worth nearly as much as so many sheets hold, each of those sheets must hold nearly all it can. Such
//! sheets are few enough to be listed (as routes are by Baldacci, Christofides and Mingozzi 2008), and what the whole may fall
//! short of cuts the search for a cover short: a sheet is chosen for the box that the fewest hold, again and again.

use crate::layout::bound::fitting::Set;
use crate::layout::bound::pricing::{Pricer, Pricing};

/// No more sheets are listed.
const MOST_SHEETS: usize = 20_000;

/// What came of it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub(crate) enum CoverAnswer {
    /// So many sheets do, with these boxes.
    With(Vec<Set>),
    /// They do not.
    Never,
    Unsettled,
}

/// Whether so many sheets do for these boxes; what is listed and tried takes steps of the pricer's.
pub(crate) fn close(pricer: &mut Pricer, counts: &[u64], worth: &[u64], most: u64, sheets: u64) -> CoverAnswer {
    // Boxes that are worth nothing make many sheets of one, so first they are left out.
    let worthy = |(&count, &worth): (&u64, &u64)| if worth > 0 { count } else { 0 };
    let some: Vec<u64> = counts.iter().zip(worth).map(worthy).collect();
    match closed(pricer, &some, worth, most, sheets) {
        CoverAnswer::With(_) if some != counts => closed(pricer, counts, worth, most, sheets),
        other => other,
    }
}

/// The same for the boxes of which there are any.
fn closed(pricer: &mut Pricer, counts: &[u64], worth: &[u64], most: u64, sheets: u64) -> CoverAnswer {
    let left = Left { counts: counts.to_vec(), sheets };
    let Some(short) = left.short(worth, most) else { return CoverAnswer::Never };
    // Each sheet falls short of the most by no more than all together.
    let least = (most - short.min(most)).saturating_sub(1);
    let Some(listed) = pricer.all_heavy(counts, worth, least, MOST_SHEETS) else { return CoverAnswer::Unsettled };
    let mut search = CoverSearch { listed: &listed, worth, most, pricer, chosen: Vec::new() };
    match search.covered(&left, &(0..listed.len()).collect::<Vec<_>>()) {
        Some(true) => CoverAnswer::With(search.chosen),
        Some(false) => CoverAnswer::Never,
        None => CoverAnswer::Unsettled,
    }
}

/// Boxes that are not covered, and sheets that are not chosen.
#[derive(Clone)]
struct Left {
    counts: Vec<u64>,
    sheets: u64,
}

impl Left {
    /// By so much these sheets hold more than the boxes are worth. None if they hold less.
    fn short(&self, worth: &[u64], most: u64) -> Option<u64> {
        let all = self.counts.iter().zip(worth).map(|(&count, &worth)| u128::from(count) * u128::from(worth)).sum();
        let short = (u128::from(self.sheets) * u128::from(most)).checked_sub(all)?;
        Some(u64::try_from(short).unwrap_or(u64::MAX))
    }

    /// The boxes of a sheet that are not covered yet.
    fn new_of(&self, sheet: &[u8]) -> Set {
        let new = |(at, &kind): (usize, &u8)| {
            let held = sheet[..at].iter().rev().take_while(|&&other| other == kind).count();
            u64::try_from(held).is_ok_and(|held| held < self.counts[usize::from(kind)]).then_some(kind)
        };
        sheet.iter().enumerate().filter_map(new).collect()
    }

    fn without(&self, boxes: &[u8]) -> Self {
        let mut left = self.clone();
        for &kind in boxes {
            left.counts[usize::from(kind)] -= 1;
        }
        left.sheets -= 1;
        left
    }
}

struct CoverSearch<'p, 'a> {
    listed: &'p [Set],
    worth: &'p [u64],
    most: u64,
    pricer: &'p mut Pricer<'a>,
    /// The boxes that each chosen sheet covers.
    chosen: Vec<Set>,
}

impl CoverSearch<'_, '_> {
    /// Whether some of these sheets cover what is left. None: the steps ran out.
    fn covered(&mut self, left: &Left, among: &[usize]) -> Option<bool> {
        let Some(short) = left.short(self.worth, self.most) else { return Some(false) };
        let wanted: Vec<usize> = (0..self.worth.len()).filter(|&kind| left.counts[kind] > 0).collect();
        if wanted.is_empty() {
            return Some(true);
        }
        if left.sheets == 0 {
            return Some(false);
        }
        self.pricer.spend(4 * u64::try_from(among.len()).unwrap_or(u64::MAX));
        if self.pricer.steps() == 0 {
            return None;
        }
        // What each sheet covers and is worth for it; those that leave too little for the others are out.
        let worth = |boxes: &Set| boxes.iter().map(|&kind| self.worth[usize::from(kind)]).sum::<u64>();
        let mut open: Vec<(u64, usize, Set)> = among
            .iter()
            .map(|&sheet| (sheet, left.new_of(&self.listed[sheet])))
            .map(|(sheet, new)| (worth(&new), sheet, new))
            .filter(|(worth, _, _)| worth.saturating_add(short) >= self.most)
            .collect();
        open.sort_by_key(|(worth, sheet, _)| (std::cmp::Reverse(*worth), *sheet));
        let mut holding = vec![0_usize; self.worth.len()];
        for (_, _, new) in &open {
            for (at, &kind) in new.iter().enumerate() {
                holding[usize::from(kind)] += usize::from(at == 0 || new[at - 1] != kind);
            }
        }
        let Some(rarest) = wanted.into_iter().min_by_key(|&kind| holding[kind]) else { return Some(true) };
        let (holders, others): (Vec<_>, Vec<_>) =
            open.into_iter().partition(|(_, _, new)| new.iter().any(|&kind| usize::from(kind) == rarest));
        let among: Vec<usize> = holders.iter().chain(&others).map(|(_, sheet, _)| *sheet).collect();
        for (number, (_, _, new)) in holders.into_iter().enumerate() {
            // What was tried with a sheet is not tried again with another in its place.
            if self.covered(&left.without(&new), &among[number..])? {
                self.chosen.push(new);
                return Some(true);
            }
        }
        Some(false)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::layout::bound::pricing::EACH_HEAVY;
    use crate::layout::exact::slow;
    use crate::layout::random::Random;

    /// 200 random problems: as many sheets as the slow way needs do, one fewer does not, whatever the boxes are worth, a board's
    /// cells or something about that.
    #[test]
    fn as_many_sheets_as_the_slow_way_and_never_one_fewer() {
        let mut random = Random::new(11);
        let mut tried = 0;
        while tried < 200 {
            let problem = slow::problem(&mut random, 5);
            let counts: Vec<u64> = problem.boxes.iter().map(|kind| kind.count).collect();
            let least = if slow::loads(&counts).len() > 300 { 0 } else { slow::least(&problem) };
            if least < 2 {
                continue;
            }
            tried += 1;
            let about = random.below(3);
            let worth: Vec<u64> = problem
                .boxes
                .iter()
                .map(|kind| {
                    let (w, h) = kind.orientations[0];
                    let more = if about == 0 { 0 } else { random.below(4 * about) };
                    u64::try_from(w * h).unwrap_or(0).saturating_sub(1) + u64::try_from(more).unwrap_or(0)
                })
                .collect();
            let mut pricer = Pricer::new(&problem, EACH_HEAVY, 1_000_000_000).unwrap();
            let most = pricer.heavy(&worth, 0).most.unwrap();
            assert_eq!(
                close(&mut pricer, &counts, &worth, most, least - 1),
                CoverAnswer::Never,
                "{problem:?} {worth:?}"
            );
            let CoverAnswer::With(sheets) = close(&mut pricer, &counts, &worth, most, least) else {
                panic!("{least} sheets do: {problem:?} {worth:?}");
            };
            assert!(u64::try_from(sheets.len()).is_ok_and(|number| number <= least));
            let held = |sheet: &Set, kind: usize| {
                u64::try_from(sheet.iter().filter(|&&other| usize::from(other) == kind).count()).unwrap_or(0)
            };
            for sheet in &sheets {
                let load: Vec<u64> = (0..counts.len()).map(|kind| held(sheet, kind)).collect();
                assert!(slow::lie(&problem, &load), "{problem:?} {sheet:?}");
            }
            let all: Vec<u64> =
                (0..counts.len()).map(|kind| sheets.iter().map(|sheet| held(sheet, kind)).sum()).collect();
            assert_eq!(all, counts);
        }
    }
}
