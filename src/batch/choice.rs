// SPDX-License-Identifier: MIT
//! Pages that each copy of a kit chooses for itself.
//!
//! A *choice* is a number of pages and a list of kinds. A *mix* says how many pages of each kind a copy has; all of them
//! together are as many as the choice says, and a kind may be taken more than once or not at all. Pages of a mix stand in the
//! order of the kinds. Of P pages and K kinds there are C(P + K - 1, K - 1) mixes.
//!
//! Copies choose each for itself, so all of them may choose the same: what the order must hold is what the hungriest mix takes of
//! each part, as often as there are copies. That is no one mix's list; see [`MixPack`](super::MixPack).
//!
//! Up to 64 mixes are all worked out. Of more, some are, and what is said of the others follows from them:
//! each kind alone, and one page of a kind among pages of another, before and behind them. What a page is by itself, it is in
//! the mix of its kind alone; inserts that crowd into few pockets crowd most where one page has pockets and all others have none; and
//! the sum of what pages are thick is greatest in one of these two, for it is a sum over pages and all that goes into pockets.

use super::BatchKit;
use crate::album::{Album, Entry};
use crate::finding::{Arg, Said};

/// Up to so many mixes all are worked out: our choice.
pub(super) const MOST_MIXES: usize = 64;

/// How pages are chosen; the kinds are the pages of the kit's album.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct Choice {
    /// How many pages each copy has.
    pub pages: u32,
}

impl Choice {
    /// So many pages.
    #[must_use]
    pub const fn of(pages: u32) -> Self {
        Self { pages }
    }

    /// How many mixes there are of so many kinds; as many as can be counted where there are more.
    ///
    /// ```
    /// use hingeleaf::batch::Choice;
    /// assert_eq!(Choice::of(4).mixes(2), 5); // 4 + 0, 3 + 1, 2 + 2, 1 + 3, 0 + 4
    /// assert_eq!(Choice::of(24).mixes(6), 118_755);
    /// ```
    #[must_use]
    pub fn mixes(&self, kinds: usize) -> u64 {
        let chosen = u128::try_from(kinds.saturating_sub(1)).unwrap_or(u128::MAX);
        let pages = u128::from(self.pages);
        // C(P + i, i) from C(P + i - 1, i - 1): each is whole.
        let one = |count: u128, kind: u128| Some(count.checked_mul(pages + kind)? / kind);
        let count = (1..=chosen).try_fold(1, one);
        count.and_then(|count| u64::try_from(count).ok()).unwrap_or(u64::MAX)
    }

    /// The mixes that are worked out: all of them where they are few, the most pages of the first kinds first.
    #[must_use]
    pub fn tried(&self, kinds: usize) -> Vec<Mix> {
        if usize::try_from(self.mixes(kinds)).is_ok_and(|all| all <= MOST_MIXES) {
            let mut all = Vec::new();
            every(self.pages, kinds, &mut Vec::new(), &mut all);
            return all;
        }
        let alone = (0..kinds).map(|kind| vec![(kind, self.pages)]);
        let pairs = (0..kinds).flat_map(|one| (0..kinds).map(move |other| (one, other)));
        let among = pairs.filter(|(one, other)| one != other).map(|(most, one)| vec![(most, self.pages - 1), (one, 1)]);
        let mut tried: Vec<Mix> = Vec::new();
        for (number, counts) in alone.chain(among).enumerate() {
            let mut mix = Mix { counts: vec![0; kinds] };
            for (kind, count) in counts {
                mix.counts[kind] += count;
            }
            if number < kinds.max(MOST_MIXES) && !tried.contains(&mix) {
                tried.push(mix);
            }
        }
        tried
    }
}

/// All mixes that begin with these counts.
fn every(left: u32, kinds: usize, begun: &mut Vec<u32>, all: &mut Vec<Mix>) {
    if begun.len() + 1 == kinds {
        let counts = begun.iter().copied().chain([left]).collect();
        all.push(Mix { counts });
        return;
    }
    for count in (0..=left).rev().filter(|_| kinds > 0) {
        begun.push(count);
        every(left - count, kinds, begun, all);
        begun.pop();
    }
}

/// Which pages a copy has.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub struct Mix {
    /// Of each kind of the choice, how many.
    pub counts: Vec<u32>,
}

impl Mix {
    /// The kind of each page, in order.
    pub fn kinds(&self) -> impl Iterator<Item = usize> + '_ {
        let of =
            |(kind, &count): (usize, &u32)| std::iter::repeat_n(kind, usize::try_from(count).unwrap_or(usize::MAX));
        self.counts.iter().enumerate().flat_map(of)
    }

    /// The only kind of its pages; none where there are several.
    #[must_use]
    pub fn alone(&self) -> Option<usize> {
        let mut taken = self.counts.iter().enumerate().filter(|(_, count)| **count > 0).map(|(kind, _)| kind);
        taken.next().filter(|_| taken.next().is_none())
    }

    /// The mix in words: `3 pocket and 1 wallet`.
    #[must_use]
    pub fn said(&self, kinds: &[Entry]) -> Said {
        let taken = self.counts.iter().enumerate().filter(|(_, count)| **count > 0);
        let one = |(kind, count): (usize, &u32)| {
            Arg::Said(Said::new("mix-pages").with("count", *count).with("kind", named(kinds, kind)))
        };
        Said::new("mix").with("pages", Arg::All(taken.map(one).collect()))
    }
}

/// A kind of page as the choice's reader knows it: its name, and its number where the choice has another one of that name.
#[must_use]
pub fn named(kinds: &[Entry], kind: usize) -> Said {
    let name = kinds.get(kind).map_or("", |entry| entry.kind.name);
    let several = kinds.iter().filter(|entry| entry.kind.name == name).count() > 1;
    let said = if several { Said::new("chosen-kind-numbered") } else { Said::new("chosen-kind") };
    said.with("kind", name).with("number", kind + 1)
}

/// The same in files for programs: `pocket`, `pocket-2`.
#[must_use]
pub(super) fn called(kinds: &[Entry], kind: usize) -> String {
    let name = kinds.get(kind).map_or("", |entry| entry.kind.name);
    let several = kinds.iter().filter(|entry| entry.kind.name == name).count() > 1;
    if several { format!("{name}-{}", kind + 1) } else { name.to_owned() }
}

impl BatchKit {
    /// The album of a copy that chooses a mix.
    #[must_use]
    pub fn with_mix(&self, mix: &Mix) -> Album {
        let pages = mix.kinds().filter_map(|kind| self.album.pages.get(kind).cloned()).collect();
        Album { pages, ..self.album.clone() }
    }
}
