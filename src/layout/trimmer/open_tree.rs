// SPDX-License-Identifier: MIT
//! Open sheet of a trimmer layout, while it is being laid: where in the slicing tree is the next box inserted?
//!
//! In: boxes in the order in which somebody wants them laid, and a rule. Out: the sheet's tree. Never: moves a box from
//! one part of the tree to another.

use crate::layout::heuristic::rule::Rule;
use crate::layout::heuristic::sheet_builder::SheetBuilder;
use crate::layout::model::cut_tree::CutTree;
use crate::layout::model::instance::{Instance, ItemType, Orientation};
use crate::layout::model::packing::{PackedSheet, Packing, PlacedBox};
use crate::layout::model::problem::Effort;

use super::insertion::Insertion;
use super::slicing_tree::{SimpleBlock, SlicingTree};
use super::{cut_plan, fewer_cuts};

/// A place for a box, and how good it is: the smaller the better.
#[derive(Clone, Copy, Debug)]
pub(crate) struct TreeSpot {
    pub(crate) worth: (i64, i64),
    number: usize,
    orientation: Orientation,
}

/// The sheet being laid.
#[derive(Clone, Debug, Default)]
pub(crate) struct OpenTree {
    pub(crate) tree: SlicingTree,
    insertions: Vec<Insertion>,
    least: (i64, i64),
    boxes: usize,
    steps: usize,
}

/// Of more copies than this a whole block is laid at once.
const SINGLES: u64 = 12;

impl OpenTree {
    /// Starts with a sheet as it is, for boxes no smaller than `least` either way.
    pub(crate) fn take_up(&mut self, tree: &SlicingTree, kept: &dyn Fn(usize) -> bool, least: Orientation) {
        self.tree.keep(tree, kept);
        self.least = (least.width, least.height);
        self.ready();
    }

    fn ready(&mut self) {
        self.tree.insertions(self.least.0, self.least.1, &mut self.insertions);
        self.steps += 4 + 4 * self.tree.len();
    }

    /// The best place for one more of a kind, `not` this one; the first of equals.
    pub(crate) fn choose(&mut self, kind: &ItemType, rule: Rule, not: Option<&TreeSpot>) -> Option<TreeSpot> {
        let mut best: Option<TreeSpot> = None;
        for &orientation in kind.orientations() {
            for (number, room) in self.insertions.iter().enumerate() {
                if orientation.width > room.width || orientation.height > room.height {
                    continue;
                }
                if not.is_some_and(|not| not.number == number && not.orientation == orientation) {
                    continue;
                }
                let worth = worth(rule, orientation, room);
                if best.is_none_or(|best| worth < best.worth) {
                    best = Some(TreeSpot { worth, number, orientation });
                }
            }
            self.steps += self.insertions.len();
        }
        best
    }

    pub(crate) fn lay(&mut self, kind: usize, choice: &TreeSpot, across: i64, up: i64) {
        let Orientation { width, height } = choice.orientation;
        let room = self.insertions[choice.number];
        self.tree.add(&room, SimpleBlock { kind, width, height, across, up });
        self.ready();
    }

    /// The counted steps since this was last asked.
    fn spent(&mut self) -> u64 {
        u64::try_from(std::mem::take(&mut self.steps)).unwrap_or(u64::MAX)
    }
}

impl SheetBuilder for OpenTree {
    fn open(&mut self, instance: &Instance, size: usize, least: Orientation) {
        let size = &instance.sizes[size];
        self.tree.reset(size.width, size.height);
        self.least = (least.width, least.height);
        self.boxes = 0;
        self.ready();
    }

    fn offer(&mut self, number: usize, kind: &ItemType, copies: u64, rule: Rule, most: usize) {
        self.steps += 1;
        let mut left = copies;
        while left > 0 && self.boxes < most {
            let Some(choice) = self.choose(kind, rule, None) else { return };
            let (mut across, mut up) = (1, 1);
            if left > SINGLES {
                let room = self.insertions[choice.number];
                let may = i64::try_from(left.min(u64::try_from(most - self.boxes).unwrap_or(1))).unwrap_or(1);
                across = (room.width / choice.orientation.width).min(may);
                up = (room.height / choice.orientation.height).min(may / across);
            }
            self.lay(number, &choice, across, up);
            let laid = across * up;
            left -= laid.unsigned_abs();
            self.boxes += usize::try_from(laid).unwrap_or(most);
        }
    }

    fn placed(&self) -> Vec<PlacedBox> {
        self.tree.placed()
    }

    fn laid(&self) -> usize {
        self.boxes
    }

    fn steps(&mut self) -> u64 {
        self.spent()
    }

    fn largest_offcut(instance: &Instance, sheet: &PackedSheet) -> i64 {
        cut_plan::largest_offcut(instance, sheet).map_or(0, |rect| rect.area())
    }

    fn finish(instance: &Instance, packing: Packing, effort: Effort) -> Packing {
        let rules: &[Rule] = if effort == Effort::Low { &[Rule::Left] } else { &Rule::ALL };
        fewer_cuts::with_fewer_cuts::<Self>(instance, packing, rules, Self::largest_offcut)
    }

    fn cut_tree(instance: &Instance, sheet: &PackedSheet) -> Option<(CutTree, Vec<PlacedBox>)> {
        cut_plan::cuts(instance, sheet)
    }
}

/// The rules of free layouts, as far as they mean anything here.
fn worth(rule: Rule, orientation: Orientation, room: &Insertion) -> (i64, i64) {
    let beside = room.width - orientation.width;
    let above = room.height - orientation.height;
    let (short, long) = (beside.min(above), beside.max(above));
    let spare = room.width * room.height - orientation.width * orientation.height;
    // What is closed off beside the box or its neighbour, and by how much their edges miss each other.
    let (over, lengths) = if room.beside {
        (orientation.height - room.by.1, (orientation.width, room.by.0))
    } else {
        (orientation.width - room.by.0, (orientation.height, room.by.1))
    };
    let miss = over.abs();
    let waste = miss * if over < 0 { lengths.0 } else { lengths.1 };
    match rule {
        Rule::ShortSide => (short, long),
        Rule::LongSide => (long, short),
        Rule::Area => (spare, short),
        Rule::Low => (waste, spare),
        Rule::Left => (miss, short),
        Rule::Touch => (waste.saturating_add(spare), short),
    }
}
