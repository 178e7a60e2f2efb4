// SPDX-License-Identifier: MIT
//! Two editions of an order side by side, kit by kit, and what is cut again over the whole order.
//!
//! Kits are matched by name; what is left, by being made of the same pieces. An album by itself is compared with every kit of the
//! other side: it is what each of them was, or what each becomes.

use super::comparison::{Comparison, compare};
use super::edition::{Edition, EditionSheet};
use super::matching::PartOutcome;
use super::order::{KitEdition, OrderEdition};
use super::recut::Recut;
use crate::album::MoreParts;
use std::collections::BTreeMap;

/// What a new edition of an order has to do with an old one.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct OrderComparison<'e> {
    /// The old edition.
    pub old: &'e OrderEdition,
    /// The new one.
    pub new: &'e OrderEdition,
    /// Every kit of the new edition in its order, and then those of the old one that are gone.
    pub kits: Vec<ComparedKit<'e>>,
    /// What is cut again over the whole order.
    pub again: CutAgain,
}

/// A kit of two editions.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct ComparedKit<'e> {
    /// Its number in the old edition.
    pub old: Option<usize>,
    /// Its number in the new one.
    pub new: Option<usize>,
    /// What became of it.
    pub outcome: KitOutcome,
    /// Its parts; of a kit of one edition alone, all are new or gone.
    pub found: Comparison<'e>,
}

/// What became of a kit.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum KitOutcome {
    /// It is made of the same pieces, page by page.
    Same,
    /// The same under another name.
    Renamed,
    /// It is made of other pieces.
    Changed,
    /// There was none like it.
    New,
    /// There is none any more.
    Gone,
}

impl KitOutcome {
    /// The word in files.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Same => "same",
            Self::Renamed => "renamed",
            Self::Changed => "changed",
            Self::New => "new",
            Self::Gone => "gone",
        }
    }
}

/// What is cut again over a whole order: for each old kit that is there what its owner lacks, kits that are more than before
/// whole, and spare parts of all that.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
#[non_exhaustive]
pub struct CutAgain {
    /// By kit of the new edition, by part of its order: how many are cut for all of this kit.
    pub of_kits: Vec<Vec<u32>>,
    /// The same for one of these kits.
    pub each: Vec<Vec<u32>>,
    /// By kit of the new edition: how many of its blocks are cut, for one kit.
    pub blocks: Vec<Vec<u32>>,
    /// By part of the new order: how many are cut in all, spare parts among them.
    pub count: Vec<u32>,
}

/// What a kit of one edition alone is compared with.
static NOTHING: Edition = Edition {
    title: String::new(),
    head: None,
    units: None,
    copies: 0,
    parts: Vec::new(),
    blocks: Vec::new(),
    sheets: Vec::new(),
    chapters: None,
};

/// Compares a new edition of an order with an old one.
#[must_use]
pub fn compare_orders<'e>(old: &'e OrderEdition, new: &'e OrderEdition) -> OrderComparison<'e> {
    let edition = |order: &'e OrderEdition, kit: Option<usize>| {
        kit.and_then(|kit| order.kits.get(kit)).map_or(&NOTHING, |kit| &kit.edition)
    };
    let one = |(was, is): (Option<usize>, Option<usize>)| {
        let mut found = compare(edition(old, was), edition(new, is));
        found.head &= was.is_some() && is.is_some();
        let outcome = match (was, is) {
            (None, _) => KitOutcome::New,
            (_, None) => KitOutcome::Gone,
            (Some(was), Some(is)) => outcome(&found, &old.kits[was], &new.kits[is]),
        };
        ComparedKit { old: was, new: is, outcome, found }
    };
    let kits: Vec<ComparedKit<'e>> = pairs(old, new).into_iter().map(one).collect();
    let again = CutAgain::of(old, new, &kits);
    OrderComparison { old, new, kits, again }
}

fn outcome(found: &Comparison<'_>, was: &KitEdition, is: &KitEdition) -> KitOutcome {
    let stays = |outcome| matches!(outcome, PartOutcome::Same | PartOutcome::Renamed);
    let parts = found.parts.iter().all(|part| stays(part.outcome));
    if !parts || !found.pages.changed.is_empty() || !found.pages.gone.is_empty() {
        return KitOutcome::Changed;
    }
    let named = was.name.is_some() && is.name.is_some();
    if named && was.name != is.name { KitOutcome::Renamed } else { KitOutcome::Same }
}

/// Which kit of the old edition each of the new one was.
fn pairs(old: &OrderEdition, new: &OrderEdition) -> Vec<(Option<usize>, Option<usize>)> {
    if !old.is_batch() {
        return (0..new.kits.len()).map(|kit| (Some(0), Some(kit))).collect();
    }
    if !new.is_batch() {
        return (0..old.kits.len()).map(|kit| (Some(kit), Some(0))).collect();
    }
    let named = |name: &Option<String>| old.kits.iter().position(|kit| kit.name == *name);
    let mut was: Vec<Option<usize>> = new.kits.iter().map(|kit| named(&kit.name)).collect();
    let free = |was: &[Option<usize>], kit: usize| !was.contains(&Some(kit));
    for (number, kit) in new.kits.iter().enumerate() {
        if was[number].is_none() {
            let like = |other: &usize| free(&was, *other) && pieces(&old.kits[*other]) == pieces(kit);
            was[number] = (0..old.kits.len()).find(like);
        }
    }
    let gone: Vec<usize> = (0..old.kits.len()).filter(|kit| free(&was, *kit)).collect();
    let there = was.into_iter().enumerate().map(|(kit, was)| (was, Some(kit)));
    there.chain(gone.into_iter().map(|kit| (Some(kit), None))).collect()
}

/// What a kit is made of: how many of each piece.
fn pieces(kit: &KitEdition) -> BTreeMap<(&str, &str), u32> {
    let mut pieces: BTreeMap<(&str, &str), u32> = BTreeMap::new();
    for part in &kit.edition.parts {
        *pieces.entry(part.cut()).or_default() += part.count;
    }
    pieces
}

impl CutAgain {
    fn of(old: &OrderEdition, new: &OrderEdition, compared: &[ComparedKit<'_>]) -> Self {
        let nought = vec![vec![0; new.parts.len()]; new.kits.len()];
        let blocks = new.kits.iter().map(|kit| vec![0; kit.edition.blocks.len()]).collect();
        let mut again = Self { of_kits: nought.clone(), each: nought, blocks, count: vec![0; new.parts.len()] };
        for ComparedKit { old: was, new: is, found, .. } in compared {
            let Some(number) = *is else { continue };
            let kit = &new.kits[number];
            // Of an album by itself it is not known how many there are: there is one for every kit.
            let there = was.and_then(|was| old.kits.get(was)).filter(|_| new.is_batch()).map(|kit| kit.made);
            let there = there.filter(|_| old.is_batch()).unwrap_or(kit.made).min(kit.made);
            let more = if was.is_some() { kit.made - there } else { 0 };
            let parts = kit.part_of.iter().zip(&kit.edition.parts).zip(&found.recut.cut);
            for ((part, whole), lacking) in parts {
                let all = lacking.saturating_mul(there).saturating_add(whole.count.saturating_mul(more));
                let each = if more > 0 { whole.count } else { *lacking };
                // What is enough for whichever kit it was.
                again.of_kits[number][*part] = again.of_kits[number][*part].max(all);
                again.each[number][*part] = again.each[number][*part].max(each);
            }
            for (block, (whole, lacking)) in
                again.blocks[number].iter_mut().zip(kit.edition.blocks.iter().zip(&found.recut.blocks))
            {
                *block = (*block).max(if more > 0 { whole.count } else { *lacking });
            }
        }
        for (part, count) in again.count.iter_mut().enumerate() {
            let all = again.of_kits.iter().map(|parts| parts[part]).fold(0, u32::saturating_add);
            let of_kits = new.kits.iter().zip(&again.of_kits).map(|(kit, parts)| (kit.more, parts[part]));
            *count = all.saturating_add(MoreParts::of_all(of_kits));
        }
        again
    }

    /// The same where the new edition is an album by itself: enough for whichever of the old kits it is made from.
    #[must_use]
    pub fn of_album(&self) -> Recut {
        let first = |all: &[Vec<u32>]| all.first().cloned().unwrap_or_default();
        Recut { cut: first(&self.each), blocks: first(&self.blocks), over: Vec::new() }
    }

    /// Whether nothing has to be cut.
    #[must_use]
    pub fn is_nothing(&self) -> bool {
        self.count.iter().all(|count| *count == 0)
    }
}

impl OrderComparison<'_> {
    /// The sheets of the new edition that hold something that is cut again.
    pub fn sheets(&self) -> impl Iterator<Item = &EditionSheet> {
        let is_cut = |part: &usize| self.again.count.get(*part).is_some_and(|count| *count > 0);
        self.new.sheets.iter().filter(move |sheet| sheet.parts.iter().any(is_cut))
    }
}
