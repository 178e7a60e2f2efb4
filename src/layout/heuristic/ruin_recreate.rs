// SPDX-License-Identifier: MIT
//! Ruin and recreate towards one sheet fewer: takes boxes off a few sheets and lays them and what is left over again,
//! many times, until nothing is left over.
//!
//! In: sheets, and boxes that have no place on them. Out: the same sheets with as little as possible left over; nothing
//! left is the goal. This is ruin and recreate (Schrimpf and others 2000) towards a goal, with blinks (Gardeyn and Wauters
//! 2022) where the layout is for a trimmer. A change is dropped as soon as more is left over than it may leave, which is most of
//! them, so as many steps look at more. Never: opens a sheet.

use std::cmp::Reverse;

use crate::layout::heuristic::column_pool::ColumnPool;
use crate::layout::heuristic::late_acceptance::{self, Limits, Neighbourhood};
use crate::layout::heuristic::partial_packing::{PartialPacking, SingleSheet};
use crate::layout::heuristic::rule::Rule;
use crate::layout::heuristic::sheet_builder::SheetBuilder;
use crate::layout::heuristic::sort_key::{SortKey, overrated};
use crate::layout::model::instance::{BinType, Instance, ItemType, Orientation};
use crate::layout::model::packing::PlacedBox;
use crate::layout::random::Random;

/// No more sheets are taken apart at once.
const MOST_RUINED: usize = 3;
/// In percent, how much boxes are overrated at most when they are ordered; one of these each time.
const OVERRATED: [usize; 4] = [5, 20, 60, 100];
/// The sheets of one change in so many are kept: those between differ little.
const KEPT: u64 = 16;
/// In percent, how often a box gets the first place that will do, not the best on all ruined sheets.
const FIRST_FIT: usize = 50;

/// A sheet of which boxes can be taken off and laid again.
pub(crate) trait Ruin: SheetBuilder {
    /// What is held of one sheet between changes.
    type Content: Clone;
    /// What of a sheet is not taken off.
    type Spared: Default;
    /// A place for one more box.
    type Spot;

    /// A change is taken if it is no worse than what was held this many changes ago.
    const MEMORY: usize;
    /// Steps that a change costs beside those that the builders count.
    const TURN_STEPS: u64;
    /// In percent, how often boxes that have waited go first.
    const WAITED_FIRST: usize;
    /// In percent, how often the second best place is taken.
    const BLINKS: usize;

    /// A sheet with boxes on it, and the kinds of those that it cannot hold.
    fn content(size: &BinType, placed: Vec<PlacedBox>) -> (Self::Content, Vec<usize>);

    /// Where the boxes of a sheet lie.
    fn boxes(content: Self::Content) -> Vec<PlacedBox>;

    /// Chooses what is spared; the kinds of the other boxes are added to `loose`.
    fn ruin(
        content: &Self::Content,
        size: &BinType,
        random: &mut Random,
        spared: &mut Self::Spared,
        loose: &mut Vec<usize>,
    );

    /// Starts with what is spared of a sheet of this size, for boxes no smaller than `least` either way.
    fn reopen(&mut self, content: &Self::Content, on: (&Instance, usize), spared: &Self::Spared, least: Orientation);

    /// Exchanges the open sheet for the one held.
    fn exchange(&mut self, content: &mut Self::Content);

    /// The best place for one more of a kind, `not` this one; the first of equals.
    fn best_spot(&mut self, kind: &ItemType, rule: Rule, not: Option<&Self::Spot>) -> Option<Self::Spot>;

    /// How good a place is: the smaller the better.
    fn worth(spot: &Self::Spot) -> (i64, i64);

    /// Lays one box.
    fn lay_one(&mut self, kind: usize, spot: &Self::Spot);
}

/// What a search came to.
pub(crate) struct Ruined {
    /// The best packing found.
    pub(crate) state: PartialPacking,
    pub(crate) steps: u64,
    /// Sheets that it held on its way, where they are kept.
    pub(crate) met: ColumnPool,
}

/// The best packing found from this one on by the search of this number; the sheets it meets are kept where that is asked for.
pub(crate) fn run<B: Ruin>(
    instance: &Instance,
    from: PartialPacking,
    (number, keeps): (u64, bool),
    limits: &Limits,
) -> Ruined {
    let mut sizes = Vec::new();
    let mut held = RuinState::<B> { sheets: Vec::new(), unplaced: from.unplaced };
    for SingleSheet { size, placed } in from.sheets {
        let (content, lost) = B::content(&instance.sizes[size], placed);
        sizes.push(size);
        held.sheets.push(content);
        held.unplaced.extend(lost);
    }
    let mut ruined = RuinRecreate::<B> {
        instance,
        sizes: &sizes,
        builders: Default::default(),
        spared: Default::default(),
        ruined: Vec::new(),
        unplaced: Vec::new(),
        taken: 0,
        met: keeps.then(ColumnPool::default),
    };
    let missing = missing(instance, &held.unplaced);
    // Without a sheet there is nothing to ruin.
    let budget = if sizes.is_empty() { 0 } else { limits.budget };
    let limits = Limits { budget, ..*limits };
    let mut random = Random::new(number);
    let (best, steps) = late_acceptance::search(&mut ruined, B::MEMORY, &limits, (held, missing), &mut random);
    let sheets = sizes.iter().zip(best.sheets).map(|(&size, sheet)| SingleSheet { size, placed: B::boxes(sheet) });
    let state = PartialPacking { sheets: sheets.collect(), unplaced: best.unplaced };
    Ruined { state, steps, met: ruined.met.unwrap_or_default() }
}

/// Area of these boxes.
fn missing(instance: &Instance, kinds: &[usize]) -> u128 {
    kinds.iter().map(|&kind| u128::from(instance.kinds[kind].area().unsigned_abs())).sum()
}

/// Sheets and the kinds of the boxes without a place.
struct RuinState<B: Ruin> {
    sheets: Vec<B::Content>,
    unplaced: Vec<usize>,
}

impl<B: Ruin> Clone for RuinState<B> {
    fn clone(&self) -> Self {
        Self { sheets: self.sheets.clone(), unplaced: self.unplaced.clone() }
    }
}

/// One change: which sheets are ruined, and what they become.
struct RuinRecreate<'a, B: Ruin> {
    instance: &'a Instance,
    /// By sheet, the number of its size.
    sizes: &'a [usize],
    ruined: Vec<usize>,
    builders: [B; MOST_RUINED],
    spared: [B::Spared; MOST_RUINED],
    unplaced: Vec<usize>,
    /// Changes taken.
    taken: u64,
    met: Option<ColumnPool>,
}

impl<B: Ruin> Neighbourhood for RuinRecreate<'_, B> {
    type State = RuinState<B>;

    fn change(&mut self, held: &RuinState<B>, most: u128, random: &mut Random) -> Option<u128> {
        self.ruined = pick(held.sheets.len(), random);
        let (loose, from_sheets) = self.ruin(held, random);
        let order = self.order(&loose, from_sheets, random);
        self.unplaced.clear();
        self.recreate(order, most, random)
    }

    fn take(&mut self, held: &mut RuinState<B>) {
        self.taken += 1;
        if let Some(met) = self.met.as_mut().filter(|_| self.taken.is_multiple_of(KEPT)) {
            for builder in &self.builders[..self.ruined.len()] {
                met.keep(&builder.placed());
            }
        }
        for (&sheet, builder) in self.ruined.iter().zip(&mut self.builders) {
            builder.exchange(&mut held.sheets[sheet]);
        }
        held.unplaced = std::mem::take(&mut self.unplaced);
    }

    fn steps(&mut self) -> u64 {
        B::TURN_STEPS + self.builders.iter_mut().map(B::steps).sum::<u64>()
    }
}

impl<B: Ruin> RuinRecreate<'_, B> {
    /// Opens the ruined sheets with what is spared of them. All other boxes, and how many of them come from the sheets.
    fn ruin(&mut self, held: &RuinState<B>, random: &mut Random) -> (Vec<usize>, usize) {
        let size = |sheet: usize| &self.instance.sizes[self.sizes[sheet]];
        let mut loose: Vec<usize> = Vec::with_capacity(held.unplaced.len() + 16);
        for (&sheet, spared) in self.ruined.iter().zip(&mut self.spared) {
            B::ruin(&held.sheets[sheet], size(sheet), random, spared, &mut loose);
        }
        let from_sheets = loose.len();
        loose.extend(&held.unplaced);
        // Only now is it known which empty rectangles are of any use.
        let least = self.instance.least(&loose);
        for ((&sheet, builder), spared) in self.ruined.iter().zip(&mut self.builders).zip(&self.spared) {
            builder.reopen(&held.sheets[sheet], (self.instance, self.sizes[sheet]), spared, least);
        }
        (loose, from_sheets)
    }

    /// The boxes in the order in which they are laid: large ones first, each judged a little wrong.
    fn order(&self, loose: &[usize], from_sheets: usize, random: &mut Random) -> Vec<usize> {
        let key = SortKey::ALL[random.below(SortKey::ALL.len())];
        let percent = OVERRATED[random.below(OVERRATED.len())];
        let eager = random.chance(B::WAITED_FIRST);
        let mut keyed: Vec<(Reverse<i64>, usize)> = loose
            .iter()
            .enumerate()
            .map(|(number, &kind)| {
                let size = overrated(key.of(self.instance.kinds[kind].orientation()).0, percent, random);
                // Boxes that have waited may go first.
                let size = if eager && number >= from_sheets { size.saturating_mul(2) } else { size };
                (Reverse(size), kind)
            })
            .collect();
        keyed.sort_unstable();
        keyed.into_iter().map(|(_, kind)| kind).collect()
    }

    /// Lays the boxes on the open sheets as far as they go; the area of those that found no place, unless that is more than
    /// `most`.
    fn recreate(&mut self, order: Vec<usize>, most: u128, random: &mut Random) -> Option<u128> {
        let rule = Rule::ALL[random.below(Rule::ALL.len())];
        let first_fit = random.chance(FIRST_FIT);
        let mut missing = 0;
        for kind in order {
            let shape = &self.instance.kinds[kind];
            let blink = B::BLINKS > 0 && random.chance(B::BLINKS);
            let choose = |builder: &mut B| {
                let best = builder.best_spot(shape, rule, None)?;
                if blink { builder.best_spot(shape, rule, Some(&best)).or(Some(best)) } else { Some(best) }
            };
            let mut spots = self.builders[..self.ruined.len()]
                .iter_mut()
                .enumerate()
                .filter_map(|(number, builder)| Some((number, choose(builder)?)));
            let found = if first_fit { spots.next() } else { spots.min_by_key(|(_, spot)| B::worth(spot)) };
            if let Some((number, spot)) = found {
                self.builders[number].lay_one(kind, &spot);
                continue;
            }
            self.unplaced.push(kind);
            missing += u128::from(shape.area().unsigned_abs());
            if missing > most {
                return None;
            }
        }
        Some(missing)
    }
}

/// One to three different sheets.
fn pick(sheets: usize, random: &mut Random) -> Vec<usize> {
    let wanted = match random.below(10) {
        0..3 => 1,
        3..8 => 2,
        _ => MOST_RUINED,
    };
    let mut picked: Vec<usize> = (0..wanted).map(|_| random.below(sheets)).collect();
    picked.sort_unstable();
    picked.dedup();
    picked
}
