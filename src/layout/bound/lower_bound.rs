// SPDX-License-Identifier: MIT
//! How much is known about the least number of sheets, and ways to know more.
//!
//! In: the job. Out: the best bound so far. Never: works out a dear bound before it is asked to, or one twice.

use crate::layout::bound::pricing::{Room, Set};
use crate::layout::bound::relaxation::Need;
use crate::layout::exact::few_boxes::Few;
use crate::layout::model::instance::Frame;
use crate::layout::model::problem::{Effort, Job};

/// What is known.
pub(crate) struct Proof {
    need: Option<Need>,
    room: Option<Room>,
    /// By kind of the frame, the kind of the room that stands for it.
    kinds: Vec<Option<u8>>,
    pairs: usize,
    thorough: bool,
    known: u64,
}

impl Proof {
    pub(crate) fn new(job: &Job, frame: &Frame) -> Self {
        let need = job
            .sheets
            .first()
            .filter(|_| frame.one_size())
            .map(|sheet| Need::new(job.items, sheet.width, sheet.height, job.gap));
        let known = need.as_ref().map_or(1, Need::quick);
        let pairs = match job.effort {
            Effort::Low => 3_000,
            Effort::Normal => 40_000,
            Effort::High => 400_000,
        };
        let of_items = need.as_ref().and_then(Need::room);
        let kind = |members: &[(usize, u32)]| {
            let (_, of_items) = of_items.as_ref()?;
            members.iter().find_map(|(item, _)| of_items.get(item).copied())
        };
        let kinds = frame.kinds.iter().map(|one| kind(one.members())).collect();
        Self { kinds, room: of_items.map(|(room, _)| room), need, pairs, thorough: false, known }
    }

    /// Whether there is anything to be known: sheets are of one size.
    pub(crate) fn possible(&self) -> bool {
        self.need.is_some()
    }

    /// The best bound so far.
    pub(crate) fn known(&self) -> u64 {
        self.known
    }

    /// The best bound that dual functions give, if those that cost nothing leave a doubt about `sheets`.
    pub(crate) fn reach(&mut self, sheets: u64) -> u64 {
        if let Some(need) = self.need.as_ref().filter(|_| self.known < sheets && !self.thorough) {
            self.known = self.known.max(need.thorough(self.pairs));
            self.thorough = true;
        }
        self.known
    }

    /// No layout takes fewer than this.
    pub(crate) fn learn(&mut self, bound: u64) {
        self.known = self.known.max(bound);
    }

    /// The boxes as they are to be proven with, where that is possible.
    pub(crate) fn room(&self) -> Option<&Room> {
        self.room.as_ref()
    }

    /// The boxes as few boxes for the exact search, where that is possible.
    pub(crate) fn few(&self) -> Option<Few> {
        let room = self.room.as_ref()?;
        Some(Few {
            width: room.width,
            height: room.height,
            kinds: room.boxes.clone(),
            share: room.share.clone(),
            trimmer: false,
        })
    }

    /// Whether the bound sees the same boxes as the searches: none could nest, and there is no gap.
    pub(crate) fn same(&self, frame: &Frame) -> bool {
        frame.gap == 0 && self.need.as_ref().is_some_and(|need| !need.shaped())
    }

    /// Kinds on a sheet as kinds of the room.
    pub(crate) fn set(&self, kinds: impl Iterator<Item = usize>) -> Set {
        let mut set: Set = kinds.filter_map(|kind| self.kinds[kind]).collect();
        set.sort_unstable();
        set
    }

    /// What each kind of the frame is worth, from the worth of the room's.
    pub(crate) fn worth(&self, worth: &[u64]) -> Vec<u64> {
        self.kinds.iter().map(|kind| kind.map_or(0, |kind| worth[usize::from(kind)])).collect()
    }
}
