// SPDX-License-Identifier: MIT
//! What is packed of a kit whose pages are chosen, so that every mix can be made of it.
//!
//! In: the parts of the mixes that are worked out. Out: [`MixPack`]. Never: lays a sheet, judges whether a mix goes together.
//!
//! What a page takes is taken to depend on its kind and on its place alone (papers that take turns go by places). Then the
//! most that any mix takes of a part, in whatever order its pages stand, is the sum over places of the most that a kind takes there:
//! put the hungriest kind on each place, and that is a mix. So no mix need be tried for it. Whether the mixes that are worked out
//! bear that out is looked at; where they do not, or where what is no page's differs from mix to mix and not all are worked out,
//! the list is no proof ([`MixPack::proven`]).

use super::likeness::Likeness;
use super::{BatchKit, Mix, choice};
use crate::parts::{Kit, Owner, Part, PatternBlock, Piece, PieceName, is_sized};
use std::collections::BTreeMap;

/// What is packed for one copy.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct MixPack {
    /// Every part of any mix once, with as many as the hungriest mix takes. Pieces, bonds and the like are those of one mix, and a
    /// piece for every part that it has not.
    pub kit: Kit,
    /// By mix, by the number of a part in its kit: its number here.
    pub part_of: Vec<Vec<usize>>,
    /// By part, by kind: how many a page takes of it, at the place where that is most.
    pub each: Vec<Vec<u32>>,
    /// By part: how many are taken of it besides pages, in the mix where that is most.
    pub besides: Vec<u32>,
    /// Whether more is never taken, and all of it is.
    pub proven: bool,
    /// Whether a page takes other parts at other places.
    pub by_place: bool,
    /// By part, by kind, by place: how many.
    taken: Vec<Vec<Vec<u32>>>,
}

impl MixPack {
    /// Packs for the mixes of a kit; `shown` is the number of the one whose pieces stand for all. `all` says whether there are
    /// no others.
    #[must_use]
    pub fn of(kit: &BatchKit, mixes: &[(&Mix, &Kit)], shown: usize, all: bool) -> Self {
        let mut gathered = Gathered { kit: Some(kit), mixes: mixes.len(), ..Gathered::default() };
        // Each kind by itself first: it names what its pages are made of.
        let mut order: Vec<usize> = (0..mixes.len()).collect();
        order.sort_by_key(|mix| mixes[*mix].0.alone().unwrap_or(usize::MAX));
        let mut part_of = vec![Vec::new(); mixes.len()];
        for mix in order {
            part_of[mix] = gathered.take(mix, mixes[mix]);
        }
        let Gathered { mut parts, mut blocks, taken, besides, strays, .. } = gathered;
        let separate = mixes.iter().zip(&part_of).all(|((mix, kit), of)| bears_out(mix, kit, of, &taken));
        let steady = besides.iter().all(|mixes| mixes.iter().all(|one| *one == mixes[0]));
        let asks = mixes.iter().any(|(_, kit)| !kit.carry.thick.is_empty());
        let sized = kit.album.inserts.iter().all(is_sized);
        let besides: Vec<u32> = besides.iter().map(|mixes| most(mixes)).collect();
        for (number, part) in parts.iter_mut().enumerate() {
            let seen = mixes.iter().zip(&part_of).map(|((_, kit), of)| count_in(kit, of, number)).max().unwrap_or(0);
            let of_pages: u32 = at_most(&taken[number]);
            part.count = match (separate && steady, all) {
                (true, _) | (_, false) => seen.max(of_pages + besides[number]),
                (false, true) => seen.max(of_pages),
            };
        }
        for block in &mut blocks {
            block.count = block.parts.iter().map(|member| parts[member.part].count).min().unwrap_or(0);
        }
        let each = taken.iter().map(|kinds| kinds.iter().map(|at| most(at)).collect()).collect();
        let by_place = taken.iter().flatten().any(|at| at.iter().any(|one| *one != at[0]));
        let proven = separate && (all || (steady && !asks && sized));
        let kit = mixes
            .get(shown)
            .map_or_else(Kit::default, |(_, kit)| shown_kit(kit, (parts, blocks), &part_of[shown], strays));
        Self { kit, part_of, each, besides, proven, by_place, taken }
    }

    /// At most so many of a part are in so many pages of a kind, wherever these stand.
    #[must_use]
    pub fn in_pages(&self, part: usize, kind: usize, pages: u32) -> u32 {
        let Some(at) = self.taken.get(part).and_then(|kinds| kinds.get(kind)) else { return 0 };
        let mut at = at.clone();
        at.sort_unstable_by(|one, two| two.cmp(one));
        at.iter().take(usize::try_from(pages).unwrap_or(usize::MAX)).sum()
    }
}

/// All parts of all mixes, as they are met.
#[derive(Default)]
struct Gathered<'k> {
    kit: Option<&'k BatchKit>,
    mixes: usize,
    known: BTreeMap<Likeness, usize>,
    parts: Vec<Part>,
    blocks: Vec<PatternBlock>,
    taken: Vec<Vec<Vec<u32>>>,
    /// By part, by mix.
    besides: Vec<Vec<u32>>,
    /// By part: a piece of it.
    strays: Vec<Option<Piece>>,
}

impl Gathered<'_> {
    /// Takes the parts of one mix and gives their numbers.
    fn take(&mut self, number: usize, (mix, kit): (&Mix, &Kit)) -> Vec<usize> {
        let kinds: Vec<usize> = mix.kinds().collect();
        let part_of: Vec<usize> = (0..kit.parts.len()).map(|part| self.part(kit, part, &kinds)).collect();
        let alone = mix.alone();
        for block in &kit.blocks {
            let mut block = block.clone();
            block.parts.iter_mut().for_each(|member| member.part = part_of[member.part]);
            if self.blocks.iter().all(|known| known.upright != block.upright || known.parts != block.parts) {
                self.blocks.push(block);
            }
        }
        for piece in &kit.pieces {
            let part = part_of[piece.part];
            match piece.owner {
                Owner::Page(page) => {
                    // What a page takes is what it takes among its like.
                    let at = alone.and_then(|kind| self.taken[part].get_mut(kind)?.get_mut(page.checked_sub(1)?));
                    if let Some(count) = at {
                        *count += 1;
                    }
                }
                Owner::Spine | Owner::Cover | Owner::Insert(_) => self.besides[part][number] += 1,
            }
            self.strays[part].get_or_insert_with(|| Piece { part, ..piece.clone() });
            let page = page_of(piece, &kinds);
            let name = piece.name.clone();
            let name = if let Some((_, kind)) = page { name.of_kind(kind + 1) } else { name };
            self.used(part, name);
        }
        part_of
    }

    fn part(&mut self, kit: &Kit, number: usize, kinds: &[usize]) -> usize {
        let part = &kit.parts[number];
        let of_album = self.kit.map(|kit| &kit.album);
        let mut likeness = Likeness::of(kit, number, part.stock);
        // What serves upside down is the same part that way round.
        if likeness.block.is_empty() && of_album.is_some_and(|album| album.serves_turned(part.stock)) {
            likeness.flat = likeness.flat.min(part.flat.turned(2).likeness());
        }
        if let Some(known) = self.known.get(&likeness) {
            return *known;
        }
        let page = kit.pieces.iter().find(|piece| piece.part == number).and_then(|piece| page_of(piece, kinds));
        let id = page.map_or_else(|| part.id.clone(), |(page, kind)| self.id_of(&part.id, page, kind));
        let is_free = |id: &str| self.parts.iter().all(|part| part.id != id);
        let others = (2..).map(|other| format!("{id}-{other}"));
        let id = std::iter::once(id.clone()).chain(others).find(|id| is_free(id)).unwrap_or(id);
        let new = self.parts.len();
        let (kinds_of, places) = (of_album.map_or(0, |album| album.pages.len()), kinds.len());
        self.parts.push(Part { id, count: 0, used_in: Vec::new(), ..part.clone() });
        self.taken.push(vec![vec![0; places]; kinds_of]);
        self.besides.push(vec![0; self.mixes]);
        self.strays.push(None);
        self.known.insert(likeness, new);
        new
    }

    fn used(&mut self, part: usize, name: PieceName) {
        let used_in = &mut self.parts[part].used_in;
        if !used_in.contains(&name) {
            used_in.push(name);
        }
    }

    /// `page-3-front` as it is of any page of its kind: `wallet-front`.
    fn id_of(&self, id: &str, page: usize, kind: usize) -> String {
        let called = self.kit.map(|kit| choice::called(&kit.album.pages, kind)).unwrap_or_default();
        id.replacen(&format!("page-{page}"), &called, 1)
    }
}

/// The page that a piece belongs to, and the kind of that.
fn page_of(piece: &Piece, kinds: &[usize]) -> Option<(usize, usize)> {
    let Owner::Page(page) = piece.owner else { return None };
    Some((page, *kinds.get(page.checked_sub(1)?)?))
}

/// Whether the pages of a mix take what each takes among its like.
fn bears_out(mix: &Mix, kit: &Kit, part_of: &[usize], taken: &[Vec<Vec<u32>>]) -> bool {
    let mut left: BTreeMap<usize, i64> = BTreeMap::new();
    for piece in kit.pieces.iter().filter(|piece| matches!(piece.owner, Owner::Page(_))) {
        *left.entry(part_of[piece.part]).or_default() += 1;
    }
    for (part, kinds) in taken.iter().enumerate() {
        let expected: u32 = mix.kinds().enumerate().filter_map(|(place, kind)| kinds.get(kind)?.get(place)).sum();
        *left.entry(part).or_default() -= i64::from(expected);
    }
    left.values().all(|left| *left == 0)
}

fn count_in(kit: &Kit, part_of: &[usize], part: usize) -> u32 {
    kit.parts.iter().zip(part_of).filter(|(_, of)| **of == part).map(|(part, _)| part.count).sum()
}

fn most(counts: &[u32]) -> u32 {
    counts.iter().copied().max().unwrap_or(0)
}

/// The sum over places of the most that a kind takes there.
fn at_most(kinds: &[Vec<u32>]) -> u32 {
    let places = kinds.first().map_or(0, Vec::len);
    (0..places).map(|place| kinds.iter().map(|at| at[place]).max().unwrap_or(0)).sum()
}

/// The kit of one mix with the parts of all.
fn shown_kit(
    kit: &Kit,
    (parts, blocks): (Vec<Part>, Vec<PatternBlock>),
    part_of: &[usize],
    strays: Vec<Option<Piece>>,
) -> Kit {
    let mut shown = kit.clone();
    for piece in &mut shown.pieces {
        let upside_down = kit.parts[piece.part].flat.likeness() != parts[part_of[piece.part]].flat.likeness();
        piece.turned ^= upside_down;
        piece.part = part_of[piece.part];
    }
    let has = |part: &usize| shown.pieces.iter().any(|piece| piece.part == *part);
    let missing: Vec<Piece> = strays.into_iter().flatten().filter(|piece| !has(&piece.part)).collect();
    shown.pieces.extend(missing);
    (shown.parts, shown.blocks) = (parts, blocks);
    shown
}
