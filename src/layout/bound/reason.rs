// SPDX-License-Identifier: MIT
//! The shortest argument for a lower bound that is known already.
//!
//! In: items, one size of sheet, how it is cut, the bound. Out: a [`Reason`]. Never: gives an argument that it has not proven
//! in full, or has a say in the bound.
//!
//! The searches prove by numbers that nobody wants to read. So what they proved is proven once more, by the first of these that
//! does: the area; items of which no two share a sheet; groups that share none; items that are counted, of which no sheet holds
//! more than so much.

use crate::layout::bound::counting::{Counting, counted};
use crate::layout::bound::exclusive::{self, CountedItems, ExclusiveGroup};
use crate::layout::bound::fitting::Set;
use crate::layout::bound::guillotine_pricing::GuillotinePricer;
use crate::layout::bound::pricing::{EACH_HEAVY, Pricer};
use crate::layout::bound::relaxation::Relaxation;
use crate::layout::model::instance::{Instance, ItemType};
use crate::layout::model::one_size::MOST_KINDS;
use crate::layout::model::problem::{Cuts, Effort, Item, Problem};
use crate::layout::model::reason::{ApartGroup, CountedItem, Reason};
use crate::layout::model::solution::LaidSheet;

/// Why no layout of these items takes fewer sheets than `bound`, which is known to be true; they are all of the first size. None
/// where it takes no reason: it takes one sheet to lay anything.
pub(crate) fn reason(problem: &Problem, cuts: Cuts, (bound, known): (u64, &[LaidSheet])) -> Option<Reason> {
    let sheet = problem.sheets.first().filter(|_| bound > 1)?;
    let filled: Vec<Item> = problem.items.iter().map(|item| Item { holes: Vec::new(), ..item.clone() }).collect();
    let items = if cuts == Cuts::Trimmer { &filled } else { problem.items };
    let relaxation = Relaxation::new(items, sheet.width, sheet.height, problem.gap);
    if relaxation.by_area() >= bound {
        return Some(Reason::Area);
    }
    let relaxation = relaxation.without_nested(items);
    // A step takes some seven nanoseconds.
    let steps = if problem.effort == Effort::Low { 300_000 } else { 2_000_000 };
    let reason = apart(&relaxation, bound).or_else(|| at_most(&relaxation, steps, (bound, known)));
    let trimmed = || (cuts == Cuts::Trimmer).then(|| at_most_trimmed(problem, steps, (bound, known))).flatten();
    reason.or_else(trimmed).or(Some(Reason::Weighed))
}

/// Items or groups of which no two share a sheet, if there are enough.
fn apart(relaxation: &Relaxation, bound: u64) -> Option<Reason> {
    let alone = exclusive::alone(relaxation);
    if exclusive::number(&alone) >= bound {
        return Some(Reason::AtMost { of: each_one(alone), most: 1 });
    }
    let groups = exclusive::groups(relaxation);
    if exclusive::sheets(&groups) < bound {
        return None;
    }
    if groups.iter().all(|group| group.alone) {
        let of = groups.into_iter().flat_map(|group| each_one(group.items)).collect();
        return Some(Reason::AtMost { of, most: 1 });
    }
    let group = |one: ExclusiveGroup| ApartGroup { of: each_one(one.items), sheets: one.sheets, each_alone: one.alone };
    Some(Reason::Apart(groups.into_iter().map(group).collect()))
}

fn each_one(items: CountedItems) -> Vec<CountedItem> {
    items.into_iter().map(|(item, count)| CountedItem { item, count, points: 1 }).collect()
}

/// Items that are counted, of which no sheet holds more than so much.
fn at_most(relaxation: &Relaxation, steps: u64, (bound, known): (u64, &[LaidSheet])) -> Option<Reason> {
    let (problem, of_items) = relaxation.one_size_problem()?;
    let pricer = || Pricer::new(&problem, EACH_HEAVY, steps);
    let seeds = sets(known, |item| of_items.get(&item).copied());
    let found = counted(&problem, [&mut pricer()?, &mut pricer()?], &seeds, bound)?;
    let of_item = |item: usize, count| found.of(item, of_items.get(&item).copied()?.into(), count);
    Some(found.reason(relaxation.kinds().filter_map(|(item, one)| of_item(item, one.count)).collect()))
}

/// The same for what a trimmer can cut.
fn at_most_trimmed(problem: &Problem, steps: u64, (bound, known): (u64, &[LaidSheet])) -> Option<Reason> {
    let instance = Instance::new(problem, Cuts::Trimmer).ok()?;
    let boxes = instance.one_size_problem().filter(|boxes| boxes.boxes.len() <= MOST_KINDS)?;
    let pricer = || GuillotinePricer::new(&boxes, steps);
    let holds = |one: &ItemType, item| one.members().iter().any(|&(member, _)| member == item);
    let kind = |item| instance.kinds.iter().position(|one| holds(one, item)).and_then(|kind| u8::try_from(kind).ok());
    let found = counted(&boxes, [&mut pricer()?, &mut pricer()?], &sets(known, kind), bound)?;
    let members = |(kind, one): (usize, &ItemType)| -> Vec<CountedItem> {
        one.members().iter().filter_map(|&(item, count)| found.of(item, kind, count.into())).collect()
    };
    Some(found.reason(instance.kinds.iter().enumerate().flat_map(members).collect()))
}

/// The boxes on each of these sheets, by kind.
fn sets(known: &[LaidSheet], kind: impl Fn(usize) -> Option<u8>) -> Vec<Set> {
    let set = |laid: &LaidSheet| {
        let mut set: Set = laid.placements.iter().filter_map(|put| kind(put.item)).collect();
        set.sort_unstable();
        set
    };
    known.iter().map(set).collect()
}

impl Counting {
    /// An item of a kind that counts.
    fn of(&self, item: usize, kind: usize, count: u64) -> Option<CountedItem> {
        let points = self.points[kind];
        (points > 0).then_some(CountedItem { item, count, points })
    }

    fn reason(&self, of: Vec<CountedItem>) -> Reason {
        Reason::AtMost { of, most: self.most }
    }
}
