// SPDX-License-Identifier: MIT
//! Which pages of the album are made of other pieces than before.

use super::edition::Edition;
use std::collections::{BTreeMap, BTreeSet};

/// Pages by their numbers.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ChangedPages {
    /// Those of the new edition that are made of other pieces than the old one's page of that number; new ones too.
    pub changed: Vec<usize>,
    /// Those of the old edition that the new one does not have.
    pub gone: Vec<usize>,
}

/// What the pieces of a page are cut like, and how many there are of each.
type Pieces<'e> = BTreeMap<(&'e str, &'e str), usize>;

impl ChangedPages {
    pub(super) fn of(old: &Edition, new: &Edition) -> Self {
        let (was, is) = (by_page(old), by_page(new));
        let all: BTreeSet<usize> = was.keys().chain(is.keys()).copied().collect();
        let (there, gone): (Vec<usize>, Vec<usize>) = all.into_iter().partition(|page| is.contains_key(page));
        Self { changed: there.into_iter().filter(|page| was.get(page) != is.get(page)).collect(), gone }
    }
}

fn by_page(edition: &Edition) -> BTreeMap<usize, Pieces<'_>> {
    let mut pages: BTreeMap<usize, Pieces<'_>> = BTreeMap::new();
    for part in &edition.parts {
        for page in &part.pages {
            *pages.entry(*page).or_default().entry(part.cut()).or_default() += 1;
        }
    }
    pages
}
