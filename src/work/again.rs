// SPDX-License-Identifier: MIT
//! What of a batch is made again for a new edition: what others are compared with, and the sheets of what changed.
//!
//! In: a batch worked out; what is cut again. Out: its edition; sheets of that alone. Never: compares.

use super::texts::ReaderText;
use super::{BatchWork, Work};
use crate::batch::again;
use crate::editions::{CutAgain, OrderEdition};
use crate::finding::gravest_first;
use crate::guide;
use crate::layout::Watch;
use crate::sheets::{self, Search};
use crate::toolpath::{self, Labels};
use std::sync::OnceLock;

impl BatchWork {
    /// What other editions are compared with.
    #[must_use]
    pub fn edition(&self) -> OrderEdition {
        let order = OrderEdition::of(&self.batch, &self.merged, (self.order(), &self.kit, &self.stocks));
        let others = self.others();
        let kits = self.kits.iter().zip(&others).zip(&self.merged.part_of).enumerate();
        kits.fold(order, |order, (number, ((work, others), part_of)): (_, ((&Work, _), _))| {
            let job = guide::GuideJob { others, ..work.guide_job(false) };
            let guide = self.text(number, ReaderText::Guide, job);
            order.with_guide(number, (&guide, &job), part_of)
        })
    }

    /// The sheets of what is cut again of the order, laid together, and of nothing else. It says only what there is to say of these
    /// sheets.
    #[must_use]
    pub fn recut(mut self, cut: &CutAgain, labels: Labels, search: Search, watch: &dyn Watch) -> Self {
        let lot = again(&self.batch, &self.merged, &cut.of_kits);
        for (part, each) in self.merged.each.iter_mut().enumerate() {
            *each = cut.each.iter().map(|kit| kit.get(part).copied().unwrap_or_default()).collect();
        }
        for (blocks, counts) in self.merged.blocks.iter_mut().zip(&cut.blocks) {
            blocks.iter_mut().zip(counts).for_each(|(block, count)| block.count = *count);
        }
        (self.kit, self.recut, self.cost) = (lot.kit, true, OnceLock::new());
        (self.stocks, self.findings) = sheets::lay(self.order(), &self.kit, &self.cutter, search, watch);
        self.paths = Vec::new();
        if !self.stopped() {
            let paths = toolpath::paths(&self.kit, self.order(), &self.stocks, &self.cutter, (labels, search.effort));
            self.findings.extend(paths.findings);
            self.paths = paths.value.unwrap_or_default();
        }
        gravest_first(&mut self.findings);
        self
    }
}
