// SPDX-License-Identifier: MIT
//! One sheet of a trimmer layout while it is being laid: which room does the next box get?
//!
//! In: boxes in the order in which somebody wants them laid, and a rule. Out: the sheet's tree. Never: moves a box from
//! one part of the tree to another.

use crate::layout::heuristic::builder::Bench;
use crate::layout::heuristic::open_sheet::Rule;
use crate::layout::heuristic::ruin_recreate::{Pursuit, State};
use crate::layout::model::instance::{Frame, Kind, Pose, Size};
use crate::layout::model::packing::{Draft, Put};
use crate::layout::model::problem::Effort;

use super::slicing_tree::{Block, Room, Tree};

/// A room for a box, and how good it is: the smaller the better.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Choice {
    pub(crate) worth: (i64, i64),
    number: usize,
    pose: Pose,
}

/// The sheet on the bench.
#[derive(Clone, Debug, Default)]
pub(crate) struct OpenTree {
    pub(crate) tree: Tree,
    rooms: Vec<Room>,
    least: (i64, i64),
    boxes: usize,
    steps: usize,
}

/// Of more copies than this a whole block is laid at once.
const SINGLES: u64 = 12;

impl OpenTree {
    /// Starts with a sheet as it is, for boxes no smaller than `least` either way.
    pub(crate) fn take_up(&mut self, tree: &Tree, kept: &dyn Fn(usize) -> bool, least: Pose) {
        self.tree.keep(tree, kept);
        self.least = (least.width, least.height);
        self.ready();
    }

    fn ready(&mut self) {
        self.tree.rooms(self.least.0, self.least.1, &mut self.rooms);
        self.steps += 4 + 4 * self.tree.len();
    }

    /// The best room for one more of a kind, `not` this one; the first of equals.
    pub(crate) fn choose(&mut self, kind: &Kind, rule: Rule, not: Option<&Choice>) -> Option<Choice> {
        let mut best: Option<Choice> = None;
        for &pose in kind.poses() {
            for (number, room) in self.rooms.iter().enumerate() {
                if pose.width > room.width || pose.height > room.height {
                    continue;
                }
                if not.is_some_and(|not| not.number == number && not.pose == pose) {
                    continue;
                }
                let worth = worth(rule, pose, room);
                if best.is_none_or(|best| worth < best.worth) {
                    best = Some(Choice { worth, number, pose });
                }
            }
            self.steps += self.rooms.len();
        }
        best
    }

    pub(crate) fn lay(&mut self, kind: usize, choice: &Choice, across: i64, up: i64) {
        let Pose { width, height } = choice.pose;
        let room = self.rooms[choice.number];
        self.tree.add(&room, Block { kind, width, height, across, up });
        self.ready();
    }

    /// The counted steps since this was last asked.
    pub(crate) fn spent(&mut self) -> u64 {
        u64::try_from(std::mem::take(&mut self.steps)).unwrap_or(u64::MAX)
    }
}

impl Bench for OpenTree {
    fn open(&mut self, size: &Size, least: Pose) {
        self.tree.reset(size.width, size.height);
        self.least = (least.width, least.height);
        self.boxes = 0;
        self.ready();
    }

    fn offer(&mut self, number: usize, kind: &Kind, copies: u64, rule: Rule, most: usize) {
        self.steps += 1;
        let mut left = copies;
        while left > 0 && self.boxes < most {
            let Some(choice) = self.choose(kind, rule, None) else { return };
            let (mut across, mut up) = (1, 1);
            if left > SINGLES {
                let room = self.rooms[choice.number];
                let may = i64::try_from(left.min(u64::try_from(most - self.boxes).unwrap_or(1))).unwrap_or(1);
                across = (room.width / choice.pose.width).min(may);
                up = (room.height / choice.pose.height).min(may / across);
            }
            self.lay(number, &choice, across, up);
            let laid = across * up;
            left -= laid.unsigned_abs();
            self.boxes += usize::try_from(laid).unwrap_or(most);
        }
    }

    fn puts(&self) -> Vec<Put> {
        self.tree.puts()
    }

    fn laid(&self) -> usize {
        self.boxes
    }

    fn steps(&mut self) -> u64 {
        self.spent()
    }

    fn pursue(pursuit: &Pursuit, state: State, number: u64) -> (State, u64) {
        super::ruin::run(pursuit, state, number)
    }

    fn finish(frame: &Frame, draft: Draft, effort: Effort) -> Draft {
        let rules: &[Rule] = if effort == Effort::Low { &[Rule::Left] } else { &Rule::ALL };
        super::fewer_cuts::neater(frame, draft, rules)
    }
}

/// The rules of free layouts, as far as they mean anything here.
fn worth(rule: Rule, pose: Pose, room: &Room) -> (i64, i64) {
    let beside = room.width - pose.width;
    let above = room.height - pose.height;
    let (short, long) = (beside.min(above), beside.max(above));
    let spare = room.width * room.height - pose.width * pose.height;
    // What is closed off beside the box or its neighbour, and by how much their edges miss each other.
    let (over, lengths) = if room.beside {
        (pose.height - room.by.1, (pose.width, room.by.0))
    } else {
        (pose.width - room.by.0, (pose.height, room.by.1))
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
