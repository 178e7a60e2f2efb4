// SPDX-License-Identifier: MIT
//! Which part of the old edition each part of the new one was.
//!
//! Parts are matched by what is cut: the same outline and scores on the same stock. What is left is matched by name: its id,
//! else what it is used for. Part of the old pieces of a name may have gone to another part by then (the same piece on
//! another page); the name leads back as long as any are left.

use super::edition::{Edition, EditionPart};
use std::collections::{BTreeMap, BTreeSet, VecDeque};

/// What became of a part.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum PartOutcome {
    /// It is as it was.
    Same,
    /// It is as it was, and a kit has another number of it.
    Counted,
    /// The same piece has another name.
    Renamed,
    /// It is cut or scored another way, or from another stock.
    Changed,
    /// There was none like it.
    New,
    /// There is none any more.
    Gone,
}

impl PartOutcome {
    /// The word in files.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Same => "same",
            Self::Counted => "count",
            Self::Renamed => "renamed",
            Self::Changed => "changed",
            Self::New => "new",
            Self::Gone => "gone",
        }
    }

    /// Whether it is another piece than before: it changed, came or went.
    #[must_use]
    pub const fn is_another(self) -> bool {
        matches!(self, Self::Changed | Self::New | Self::Gone)
    }
}

/// For each new part, the old one that it was and whether it is still cut like that.
pub(super) struct Matches {
    pub by_cut: Vec<Option<usize>>,
    pub by_name: Vec<Option<usize>>,
    /// Numbers of old parts that no new one was.
    pub gone: Vec<usize>,
}

pub(super) fn matches(old: &Edition, new: &Edition) -> Matches {
    let by_cut = by_cut(old, new);
    // Pieces that are still cut as they were, under whatever name.
    let mut left: Vec<u64> = old.parts.iter().map(|part| u64::from(part.count)).collect();
    for (part, was) in new.parts.iter().zip(&by_cut) {
        if let Some(left) = was.and_then(|was| left.get_mut(was)) {
            *left = left.saturating_sub(u64::from(part.count));
        }
    }
    let by_name = by_name(old, new, &by_cut, &left);
    let known: BTreeSet<usize> = by_cut.iter().chain(&by_name).flatten().copied().collect();
    let gone = (0..old.parts.len()).filter(|part| !known.contains(part)).collect();
    Matches { by_cut, by_name, gone }
}

/// By what is cut; where several are cut alike, those of one name first, then in order.
fn by_cut(old: &Edition, new: &Edition) -> Vec<Option<usize>> {
    let mut named: BTreeMap<(&str, &str, &str), usize> = BTreeMap::new();
    for (number, part) in old.parts.iter().enumerate() {
        let (digest, stock) = part.cut();
        named.insert((digest, stock, part.own_id()), number);
    }
    let of_its_name = |part: &EditionPart| {
        let (digest, stock) = part.cut();
        named.get(&(digest, stock, part.own_id())).copied()
    };
    let mut found: Vec<Option<usize>> = new.parts.iter().map(of_its_name).collect();
    let taken: BTreeSet<usize> = found.iter().flatten().copied().collect();
    let mut free: BTreeMap<(&str, &str), VecDeque<usize>> = BTreeMap::new();
    for (number, part) in old.parts.iter().enumerate().filter(|(number, _)| !taken.contains(number)) {
        free.entry(part.cut()).or_default().push_back(number);
    }
    for (part, found) in new.parts.iter().zip(&mut found).filter(|(_, found)| found.is_none()) {
        *found = free.get_mut(&part.cut()).and_then(VecDeque::pop_front);
    }
    found
}

fn by_name(old: &Edition, new: &Edition, by_cut: &[Option<usize>], left: &[u64]) -> Vec<Option<usize>> {
    let has_left = |was: &usize| left.get(*was).is_some_and(|left| *left > 0);
    let mut ids: BTreeMap<&str, usize> = BTreeMap::new();
    let mut uses: BTreeMap<&str, usize> = BTreeMap::new();
    for (number, part) in old.parts.iter().enumerate() {
        ids.insert(part.own_id(), number);
        uses.extend(part.used_in.iter().map(|used| (used.as_str(), number)));
    }
    let one = |(part, cut): (&EditionPart, &Option<usize>)| {
        if cut.is_some() {
            return None;
        }
        let by_id = ids.get(part.own_id()).copied().filter(has_left);
        by_id.or_else(|| part.used_in.iter().filter_map(|used| uses.get(used.as_str()).copied()).find(has_left))
    };
    new.parts.iter().zip(by_cut).map(one).collect()
}
