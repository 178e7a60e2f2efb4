// SPDX-License-Identifier: MIT
//! How many sheets any mix takes at most, where there are too many mixes to lay each.
//!
//! In: what is packed. Out: a number. Never: lays a mix.
//!
//! Two plans are good for every mix. What is packed holds the parts of each mix, so that no mix takes more sheets than all that is
//! packed. And pages of each kind may be laid by themselves, on sheets of their own, and what is no page's beside them: over all
//! mixes the sum of that is greatest for one that is found kind after kind, by how many pages are left. Fewer pages never take
//! more sheets, so some numbers of pages are laid, and the others count as the next higher one that is.

use crate::batch::MixPack;
use crate::finding::stops;
use crate::layout::Watch;
use crate::parts::Kit;
use crate::sheets::{self, Search, StockSheets};
use crate::work::Work;

/// The lesser of the two, for so many pages in albums like that of the work; none where neither can be laid, or where what is
/// packed is not known to be all.
pub(super) fn at_most(packed: &MixPack, (like, pages): (&Work, u32), search: Search, watch: &dyn Watch) -> Option<u64> {
    if !packed.proven {
        return None;
    }
    let laid = |count: &dyn Fn(usize) -> u32| laid(packed, count, like, (search, watch));
    let whole = laid(&|part| packed.kit.parts[part].count);
    let apart = laid(&|part| packed.besides[part]).and_then(|besides| {
        let of_kind = |kind| of_kind(pages, &|count| laid(&|part| packed.in_pages(part, kind, count)));
        let kinds = packed.each.first().map_or(0, Vec::len);
        Some(besides + most(pages, &(0..kinds).map(of_kind).collect::<Option<Vec<_>>>()?))
    });
    [whole, apart].into_iter().flatten().min()
}

/// Sheets of so many of each part, and nothing else.
fn laid(
    packed: &MixPack,
    count: &dyn Fn(usize) -> u32,
    like: &Work,
    (search, watch): (Search, &dyn Watch),
) -> Option<u64> {
    let mut kit: Kit = packed.kit.clone();
    for (number, part) in kit.parts.iter_mut().enumerate() {
        part.count = count(number);
    }
    for number in 0..kit.blocks.len() {
        let members = kit.blocks[number].parts.iter().map(|member| kit.parts[member.part].count);
        kit.blocks[number].count = members.min().unwrap_or(0);
    }
    kit.blocks.retain(|block| block.count > 0);
    let (stocks, findings) = sheets::lay(like.album.order(), &kit, &like.cutter, search, watch);
    (!stops(&findings)).then(|| stocks.iter().map(StockSheets::count).sum())
}

/// So many numbers of pages of each kind are laid at most, and one page: our choice.
const STEPS: u32 = 12;

/// By number of pages, from none: sheets of so many pages of a kind, at most.
fn of_kind(pages: u32, laid: &dyn Fn(u32) -> Option<u64>) -> Option<Vec<u64>> {
    let mut steps: Vec<u32> = (1..=STEPS).map(|step| (pages * step).div_ceil(STEPS)).chain([1]).collect();
    steps.sort_unstable();
    steps.dedup();
    let mut sheets = vec![0];
    let mut before = 0;
    for step in steps {
        let count = laid(step)?;
        sheets.extend((before..step).map(|_| count));
        before = step;
    }
    Some(sheets)
}

/// The greatest sum over all mixes, the sheets of each kind given by its number of pages.
fn most(pages: u32, kinds: &[Vec<u64>]) -> u64 {
    let pages = usize::try_from(pages).unwrap_or(0);
    // By pages that are taken so far; none where so many can't be.
    let mut sums: Vec<Option<u64>> = vec![None; pages + 1];
    sums[0] = Some(0);
    for sheets in kinds {
        let best = |all: usize| (0..=all).filter_map(|own| Some(sums[all - own]? + sheets.get(own)?)).max();
        sums = (0..=pages).map(best).collect();
    }
    sums[pages].unwrap_or(0)
}
