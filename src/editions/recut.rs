// SPDX-License-Identifier: MIT
//! What the owner of an old kit must cut to have a new one, and what is left over of the old.
//!
//! A piece of the old kit serves wherever the same outline and scores are wanted of the same stock, under whatever name. A block
//! that is cut from one place, so that its pattern runs on, serves as a whole or in pieces by themselves; a new block is
//! cut as a whole.

use super::edition::{Edition, EditionBlock};
use crate::length::EIGHTHS_PER_MM;
use std::collections::BTreeMap;

/// What to cut for each kit, and what is left over of an old one.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Recut {
    /// For each part of the new edition, how many of it are cut; those of its blocks too.
    pub cut: Vec<u32>,
    /// For each block of the new edition, how many of it are cut.
    pub blocks: Vec<u32>,
    /// For each part of the old edition, how many are left over.
    pub over: Vec<u32>,
}

/// What is cut alike.
type LikeCut<'e> = (&'e str, &'e str);

/// A block as its parts are cut and lie: upright or not, the digest of each, how far it starts behind the one before it.
type LikeBlock<'e> = (bool, Vec<(LikeCut<'e>, &'e str, i64)>);

impl Recut {
    pub(super) fn of(old: &Edition, new: &Edition) -> Self {
        let mut whole = Stack::default();
        for block in &old.blocks {
            whole.add(spread(old, block), block.count);
        }
        let blocks: Vec<u32> = new.blocks.iter().map(|block| whole.lacks(&spread(new, block), block.count)).collect();
        let mut loose = Stack::default();
        for (part, count) in old.parts.iter().zip(by_itself(old)) {
            loose.add(part.cut(), count);
        }
        // A block that no new one needs serves in pieces.
        for ((_, members), count) in whole.0 {
            for (cut, ..) in members {
                loose.add(cut, count);
            }
        }
        let alone = new.parts.iter().zip(by_itself(new));
        let mut cut: Vec<u32> = alone.map(|(part, count)| loose.lacks(&part.cut(), count)).collect();
        for (block, count) in new.blocks.iter().zip(&blocks) {
            for (part, _) in &block.parts {
                if let Some(cut) = cut.get_mut(*part) {
                    *cut = cut.saturating_add(*count);
                }
            }
        }
        let over = old.parts.iter().map(|part| part.count - loose.lacks(&part.cut(), part.count)).collect();
        Self { cut, blocks, over }
    }

    /// Whether nothing has to be cut.
    #[must_use]
    pub fn is_nothing(&self) -> bool {
        self.cut.iter().all(|count| *count == 0)
    }
}

/// How many there are of each.
struct Stack<K>(BTreeMap<K, u32>);

impl<K> Default for Stack<K> {
    fn default() -> Self {
        Self(BTreeMap::new())
    }
}

impl<K: Ord> Stack<K> {
    fn add(&mut self, key: K, count: u32) {
        let have = self.0.entry(key).or_default();
        *have = have.saturating_add(count);
    }

    /// Takes as many as there are, and gives how many are lacking.
    fn lacks(&mut self, key: &K, count: u32) -> u32 {
        let Some(have) = self.0.get_mut(key) else { return count };
        let taken = count.min(*have);
        *have -= taken;
        count - taken
    }
}

fn spread<'e>(edition: &'e Edition, block: &EditionBlock) -> LikeBlock<'e> {
    #[allow(clippy::cast_possible_truncation, reason = "a float-to-integer cast saturates")]
    let eighths = |mm: f64| (mm * EIGHTHS_PER_MM).round() as i64;
    let parts = block.parts.iter().filter_map(|(part, behind)| Some((edition.parts.get(*part)?, *behind)));
    (block.upright, parts.map(|(part, behind)| (part.cut(), part.digest.as_str(), eighths(behind))).collect())
}

/// How many of each part are in no block.
fn by_itself(edition: &Edition) -> Vec<u32> {
    let mut counts: Vec<u32> = edition.parts.iter().map(|part| part.count).collect();
    for block in &edition.blocks {
        for (part, _) in &block.parts {
            if let Some(count) = counts.get_mut(*part) {
                *count = count.saturating_sub(block.count);
            }
        }
    }
    counts
}
