// SPDX-License-Identifier: MIT
//! Pairs on the sheets: the same problem with pairs that lie head to tail for items, and the way back.
//!
//! In: the problem. Out: other problems that lay the same parts; their sheets with every part by itself. Never: decides whether
//! pairs are worth it: they are laid beside the plain layout.
//!
//! A pair is a box of its own, so every search takes it as it takes any box. Only for a machine: no cut from edge to edge
//! parts two that lie in each other's boxes.

use crate::layout::heuristic::openings::opened;
use crate::layout::model::assignment::deal;
use crate::layout::model::instance::{Instance, trim};
use crate::layout::model::packing::{PackedSheet, Packing, PlacedBox};
use crate::layout::model::pair::{HeadToTail, head_to_tail, turns_of_pair};
use crate::layout::model::problem::{Cuts, Effort, Item, Problem, SheetType, Turn};
use crate::layout::model::rect::Rect;
use crate::layout::model::solution::{LaidSheet, Placement};

/// The problem with pairs for as many of some items as there are twos of them.
pub(crate) struct PairedItems {
    /// The problem's own, less what is in pairs; behind them the pairs.
    items: Vec<Item>,
    /// Of which item each pair is.
    pairs: Vec<(usize, HeadToTail)>,
    own: usize,
}

/// What to try, the most promising first.
pub(crate) fn attempts(problem: &Problem) -> Vec<PairedItems> {
    let found = |(number, item): (usize, &Item)| {
        let fits = |pair: &HeadToTail| problem.sheets.iter().any(|sheet| goes(pair, item, sheet));
        let pairs: Vec<HeadToTail> = head_to_tail(item, problem.gap).into_iter().filter(fits).collect();
        (!pairs.is_empty()).then_some((number, pairs))
    };
    let mut found: Vec<(usize, Vec<HeadToTail>)> = problem.items.iter().enumerate().filter_map(found).collect();
    let saved = |(number, pairs): &(usize, Vec<HeadToTail>)| {
        let item = &problem.items[*number];
        i128::from(pairs[0].saved(item, problem.gap)) * i128::from(item.count / 2)
    };
    found.sort_by_key(|one| (std::cmp::Reverse(saved(one)), one.0));
    let most = match problem.effort {
        Effort::Low => 2,
        Effort::Normal => 4,
        Effort::High => 12,
    };
    let ways = found.iter().map(|(_, pairs)| pairs.len()).max().unwrap_or(0);
    let of_all = |way: usize| -> Vec<(usize, HeadToTail)> {
        found.iter().map(|(number, pairs)| (*number, pairs[way.min(pairs.len() - 1)])).collect()
    };
    let single = |(number, pairs): &(usize, Vec<HeadToTail>)| pairs.iter().map(|pair| vec![(*number, *pair)]).collect();
    let singles: Vec<Vec<Vec<(usize, HeadToTail)>>> =
        if found.len() > 1 { found.iter().map(single).collect() } else { Vec::new() };
    let all = (0..ways).map(of_all).chain(singles.into_iter().flatten()).take(most);
    all.map(|pairs| PairedItems::new(problem.items, pairs)).collect()
}

/// Whether a pair goes onto a sheet.
fn goes(pair: &HeadToTail, item: &Item, sheet: &SheetType) -> bool {
    turns_of_pair(item.turns).is_some_and(|turns| {
        (turns.upright() && pair.width <= sheet.width && pair.height <= sheet.height)
            || (turns.sideways() && pair.height <= sheet.width && pair.width <= sheet.height)
    })
}

impl PairedItems {
    fn new(items: &[Item], pairs: Vec<(usize, HeadToTail)>) -> Self {
        let own = items.len();
        let mut items = items.to_vec();
        for (number, pair) in &pairs {
            let item = &mut items[*number];
            let (count, turns) = (item.count / 2, item.turns);
            item.count -= 2 * count;
            let turns = turns_of_pair(turns).unwrap_or(turns);
            let (width, height) = (pair.width, pair.height);
            items.push(Item { width, height, contour: None, holes: Vec::new(), turns, count });
        }
        Self { items, pairs, own }
    }

    /// The instance that is searched: windows of other parts are as open as they are without pairs.
    pub(crate) fn instance(&self, problem: &Problem) -> Option<Instance> {
        let paired = Problem { items: &self.items, ..*problem };
        opened(&paired).or_else(|| Instance::new(&paired, Cuts::Free).ok())
    }

    /// The sheets of a packing of that instance, every part by itself.
    pub(crate) fn sheets(&self, instance: &Instance, packing: &Packing) -> Vec<LaidSheet> {
        let mut sheets = deal(instance, packing, &self.items, |_, _| None);
        for sheet in &mut sheets {
            let placements = std::mem::take(&mut sheet.placements);
            sheet.placements = placements.into_iter().flat_map(|put| self.apart(put)).collect();
            sheet.placements.sort_by_key(|put| (put.y, put.x, put.item));
        }
        sheets
    }

    /// A placement, or the two that it stands for.
    fn apart(&self, put: Placement) -> Vec<Placement> {
        let pair = put.item.checked_sub(self.own).and_then(|pair| self.pairs.get(pair));
        let Some((number, pair)) = pair else { return vec![put] };
        let item = &self.items[*number];
        let one = |((x, y), turn): ((i64, i64), Turn)| {
            let own = Rect::new(x, y, trim(item.width, 1), trim(item.height, 1));
            let own = own.turned(put.turn, (pair.width, pair.height));
            Placement { item: *number, x: put.x + own.left, y: put.y + own.bottom, turn }
        };
        let turns =
            if put.turn == Turn::Quarter { [Turn::Quarter, Turn::ThreeQuarter] } else { [Turn::None, Turn::Half] };
        pair.at.into_iter().zip(turns).map(one).collect()
    }
}

/// Laid sheets as a packing of the problem's own instance, to be compared with another.
pub(crate) fn repacked(sheets: &[LaidSheet], items: &[Item], instance: &Instance) -> Packing {
    let kind = |item: usize| instance.kinds.iter().position(|kind| kind.members().iter().any(|one| one.0 == item));
    let kinds: Vec<Option<usize>> = (0..items.len()).map(kind).collect();
    let put = |placement: &Placement| {
        let item = items.get(placement.item)?;
        let (width, height) = placement.turn.turned(trim(item.width, 1), trim(item.height, 1));
        let (width, height) = (width + instance.gap, height + instance.gap);
        Some(PlacedBox { kind: kinds[placement.item]?, x: placement.x, y: placement.y, width, height })
    };
    let sheet = |sheet: &LaidSheet| PackedSheet {
        size: sheet.sheet,
        times: u64::from(sheet.times),
        placed: sheet.placements.iter().filter_map(put).collect(),
    };
    Packing { laid: sheets.iter().map(sheet).collect(), left: vec![0; instance.kinds.len()] }
}
