// SPDX-License-Identifier: MIT
//! The sheets that are worth most, whatever it takes: for long runs, where a better sheet is cut a hundred times.
//!
//! In: what each kind is worth. Out: sheets that are worth more than asked for, with everything in its place. Never: guesses;
//! that is quicker, and done before.
//!
//! The columns of Gilmore and Gomory (1961), by the same branch and bound that proves the least number of sheets, but for the
//! boxes as they are laid: with the gap, and no smaller than they are.

use crate::layout::bound::pricing::{MOST_KINDS, Pricer, Room};
use crate::layout::bound::relaxation::Boxed;
use crate::layout::model::instance::Frame;
use crate::layout::model::packing::Put;

/// Pairs of dual functions that the rows of sizes are chosen from.
const PAIRS: usize = 1000;
/// Questions after which they are chosen anew.
const LOOK_ROUND: usize = 12;
/// Sets of one answer that are laid, the heaviest first.
const MOST_LAID: usize = 6;

/// Asks for sheets again and again.
pub(crate) struct Worthy<'a> {
    pricer: Pricer<'a>,
    questions: usize,
}

/// The frame's boxes on its first sheet; none for a trimmer, or where there are too many kinds.
pub(crate) fn room(frame: &Frame) -> Option<Room> {
    let size = frame.sizes.first().filter(|_| !frame.trimmer && frame.kinds.len() <= MOST_KINDS)?;
    let boxed = |kind: &crate::layout::model::instance::Kind| Boxed {
        poses: kind.poses().iter().map(|pose| (pose.width, pose.height)).collect(),
        count: kind.count,
    };
    Some(Room {
        width: size.width,
        height: size.height,
        boxes: frame.kinds.iter().map(boxed).collect(),
        share: vec![u128::MAX; frame.kinds.len()],
    })
}

impl<'a> Worthy<'a> {
    /// Looks in a room, for so many steps in all.
    pub(crate) fn new(room: &'a Room, steps: u64) -> Option<Self> {
        Some(Self { pricer: Pricer::new(room, PAIRS, steps)?, questions: 0 })
    }

    /// Sheets that are worth more than `limit`, and the steps it took; none where there are none, or no steps are left.
    pub(crate) fn sheets(&mut self, worth: &[u64], limit: u64) -> (Vec<Vec<Put>>, u64) {
        let before = self.pricer.steps;
        if self.questions.is_multiple_of(LOOK_ROUND) {
            self.pricer.look_round(worth);
        }
        self.questions += 1;
        let sets = self.pricer.heavy(worth, limit).sets;
        let sheets = sets
            .iter()
            .rev()
            .take(MOST_LAID)
            .filter_map(|set| {
                let set = self.pricer.filled(set)?;
                self.pricer.laid(&set)
            })
            .collect();
        (sheets, before - self.pricer.steps)
    }
}
