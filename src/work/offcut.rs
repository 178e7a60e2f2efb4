// SPDX-License-Identifier: MIT
//! Inserts whose size follows what the sheets leave over: the largest that costs no sheet, one size for all kits.
//!
//! In: albums, their sheets without these inserts. Out: the albums with a plain size for each of them, in the file's order.
//! Never: takes another sheet.
//!
//! A size is its kind's usual proportion on the marks of a ruler, or one side alone where the file says the other. It is bounded
//! above by what its pockets take, below by what is still of use. Every size that is taken was laid on the sheets that are there,
//! and the next larger one was tried and refused: what lies between them may have been missed, never the step above.

use super::filled::FilledSheets;
use super::{BatchWork, Work};
use crate::album::{Album, Entry, FOLLOWS, Order};
use crate::batch::{Lot, lots};
use crate::cutter::Cutter;
use crate::fields::Value;
use crate::finding::{Arg, Finding, Level, Said, stops};
use crate::layout::{Effort, Watch};
use crate::length::Length;
use crate::length::tolerance::WHOLE;
use crate::parts::usual_size;
use crate::sheets::{self, Search, StockSheets};
use crate::stock::Stock;
use crate::toolpath::Labels;
use crate::trial::Trial;

/// A shorter side than this is of no use, mm: our choice.
const LEAST: f64 = 30.0;

/// The same of a band, whose other side goes round a bundle: our choice.
const LEAST_BAND: f64 = 15.0;

/// So many sizes are tried at most: our choice, and more than any page has on a ruler.
const MOST: i64 = 4000;

/// The inserts that are to have one size: the number of each among its album's, by the number of the album.
struct Follower {
    of: Vec<(usize, usize)>,
}

/// Those of several albums: the first of a kind in one album goes with the first of that kind in every other, and so on.
fn followers(albums: &[&Album]) -> Vec<Follower> {
    let mut known: Vec<((&str, usize), Follower)> = Vec::new();
    for (number, album) in albums.iter().enumerate() {
        let mut met: Vec<&str> = Vec::new();
        for (insert, entry) in album.inserts.iter().enumerate().filter(|(_, entry)| entry.follows_offcuts()) {
            let name = entry.kind.name;
            let key = (name, met.iter().filter(|known| **known == name).count());
            met.push(name);
            match known.iter_mut().find(|(known, _)| *known == key) {
                Some((_, follower)) => follower.of.push((number, insert)),
                None => known.push((key, Follower { of: vec![(number, insert)] })),
            }
        }
    }
    known.into_iter().map(|(_, follower)| follower).collect()
}

impl Follower {
    /// The sizes that it may have, the smallest first; none where there is no telling, or no room for the least.
    fn sizes(&self, albums: &[&Album], cutter: &Cutter) -> Vec<[Length; 2]> {
        let Some(&(first, insert)) = self.of.first() else { return Vec::new() };
        let entry = &albums[first].inserts[insert];
        let rooms = self.of.iter().map(|&(album, insert)| room(albums[album], insert, cutter));
        let room = rooms.reduce(|one, other| [one[0].min(other[0]), one[1].min(other[1])]).unwrap_or_default();
        let step = albums[first].ruler_step();
        let marks = |mm: f64| whole((mm / step.mm() + WHOLE).floor());
        let [wide, tall] = room.map(marks);
        let at_least = |mm: f64| whole((mm / step.mm() - WHOLE).ceil()).max(1);
        let length = |marks: i64| Length::from_eighths(step.eighths().saturating_mul(marks));
        let usual = usual_size(entry.kind).map(|size| if turned(entry) { [size[1], size[0]] } else { size });
        let sizes: Vec<[Length; 2]> = match (entry.sides(), usual) {
            ([Some(width), _], usual) => {
                let least = at_least(if usual.is_some() { LEAST } else { LEAST_BAND });
                (least..=tall.min(MOST)).map(|height| [width, length(height)]).collect()
            }
            ([None, Some(height)], _) => {
                (at_least(LEAST)..=wide.min(MOST)).map(|width| [length(width), height]).collect()
            }
            ([None, None], Some([across, up])) => {
                let of = |marks: i64, side: f64| whole((near(marks) * side / across.max(up) + WHOLE).floor());
                let sides = (1..=wide.max(tall).min(MOST)).map(|marks| [of(marks, across), of(marks, up)]);
                let fits = |[width, height]: &[i64; 2]| *width <= wide && *height <= tall;
                let serves = |sides: &[i64; 2]| sides[0].min(sides[1]) >= at_least(LEAST);
                sides.filter(serves).take_while(fits).map(|sides| sides.map(length)).collect()
            }
            ([None, None], None) => Vec::new(),
        };
        sizes
    }

    /// What is said of it: its size, or that none comes free.
    fn said(&self, albums: &[&Album], settled: Option<[Length; 2]>, least: Option<[Length; 2]>) -> Finding {
        let (first, insert) = self.of[0];
        let (album, entry) = (albums[first], &albums[first].inserts[insert]);
        let kind = Arg::term(entry.kind.name.replace('-', " "));
        let about = Said::new("about-insert").with("kind", kind).with("number", insert + 1);
        let stock = album.stock_name(entry.stock);
        let sized = |key: &'static str, size: [Length; 2]| {
            let [width, height] = size.map(|side| album.length(side.mm()));
            Said::new(key).with("width", width).with("height", height).with("stock", stock)
        };
        let help =
            Said::new("offcut-none-help").with("width", Arg::field("width")).with("height", Arg::field("height"));
        let finding = match (settled, least) {
            (Some(size), _) => Finding::note("offcut-size", about, sized("offcut-size", size)),
            (None, Some(least)) => Finding::warn("offcut-size", about, sized("offcut-none", least)).help(help),
            (None, None) => {
                Finding::warn("offcut-size", about, Said::new("offcut-no-room").with("stock", stock)).help(help)
            }
        };
        finding.at(entry.values.place(FOLLOWS))
    }
}

/// Whether a named size would be turned on its side.
fn turned(entry: &Entry) -> bool {
    matches!(entry.values.value("across"), Some(Value::Flag(true)))
}

/// What its pockets take, else what the page is, mm.
fn room(album: &Album, insert: usize, cutter: &Cutter) -> [f64; 2] {
    let page = [album.page.width.mm(), album.page.height.mm()];
    let largest = Trial::of(album.with_size(insert, [None; 2]), cutter);
    let path = format!("inserts[{insert}]");
    let mine = largest.kit().map(|kit| kit.inserts.iter().filter(|one| one.path == path).collect::<Vec<_>>());
    let boxes = mine.unwrap_or_default().into_iter().map(|one| [one.width, one.height]);
    boxes.reduce(|one, other| [one[0].min(other[0]), one[1].min(other[1])]).unwrap_or(page)
}

/// The largest size that goes: its number among all, and what was made with it. Of two neighbours the smaller one went, the larger
/// one did not, or there is no larger one. `made` is asked quickly first, and then as hard as sheets are looked for.
fn largest<T>(count: usize, search: Search, made: &dyn Fn(usize, Search) -> Option<T>) -> Option<(usize, T)> {
    let quick = Search { effort: Effort::Low, ..search };
    let goes = |size: usize, search: Search| made(size, search).map(|made| (size, made));
    // Halving, between a size that goes and one that does not.
    let between = |mut best: Option<(usize, T)>, mut refused: usize, search: Search| {
        loop {
            let next = best.as_ref().map_or(0, |(size, _)| size + 1);
            if next >= refused {
                return best;
            }
            let middle = usize::midpoint(next, refused);
            // Without any that goes, the least is tried first: where it does not, no other is likely to.
            let middle = if best.is_none() { next } else { middle.min(refused - 1) };
            match goes(middle, search) {
                Some(found) => best = Some(found),
                None => refused = middle,
            }
        }
    };
    let found = between(None, count, quick);
    if search.effort == quick.effort {
        return found;
    }
    // As hard as the sheets were looked for: first whether that size goes, then the next larger one, then those beyond.
    let (mut size, mut best) = (found.as_ref().map_or(0, |(size, _)| *size), None);
    if count > 0 {
        best = goes(size, search);
        while best.is_none() && size > 0 {
            size -= 1;
            best = goes(size, search);
        }
    }
    let next = best.as_ref().map(|(size, _)| size + 1).filter(|next| *next < count);
    match next.and_then(|next| goes(next, search)) {
        Some(larger) => between(Some(larger), count, search),
        None => best,
    }
}

/// How many warnings there are; none where something stops the work.
fn warnings(findings: &[Finding]) -> Option<usize> {
    let warned = findings.iter().filter(|finding| finding.level == Level::Warn).count();
    (!stops(findings)).then_some(warned)
}

impl Work {
    /// Gives every insert that follows what its sheets leave over the largest size that comes free, and lays these sheets with it.
    pub(super) fn follow(&mut self, laid: &mut Vec<StockSheets>, search: Search, watch: &dyn Watch) -> Vec<Finding> {
        let mut said = Vec::new();
        for follower in followers(&[&self.album]) {
            let sizes = follower.sizes(&[&self.album], &self.cutter);
            let filled = FilledSheets::of(&self.album.stocks, laid);
            let sized = |size: usize| {
                let album = follower
                    .of
                    .iter()
                    .fold(self.album.clone(), |album, &(_, insert)| album.with_size(insert, sizes[size].map(Some)));
                let work = Self::fit(album, self.cutter.clone());
                warnings(&work.findings).map(|warned| (work, warned))
            };
            let least = sizes.first().and_then(|_| sized(0)).map(|(_, warned)| warned);
            let made = |size: usize, search: Search| {
                let (work, _) = sized(size).filter(|(_, warned)| Some(*warned) <= least)?;
                let lay = |stocks: &[Stock]| {
                    let order = Order { stocks, ..work.album.order() };
                    let (laid, findings) = sheets::lay(order, &work.kit, &work.cutter, search, watch);
                    (!stops(&findings)).then_some(laid)
                };
                let all = lay(&work.album.stocks).filter(|laid| filled.holds(&work.album.stocks, laid));
                let laid = all.or_else(|| {
                    let mut stocks = work.album.stocks.clone();
                    filled.limit(&mut stocks);
                    lay(&stocks)
                })?;
                Some((work, laid))
            };
            let found = least.and_then(|_| largest(sizes.len(), search, &made));
            let size = found.as_ref().map(|(size, _)| sizes[*size]);
            said.push(follower.said(&[&self.album], size, sizes.first().copied()));
            if let Some((_, (work, mut stocks))) = found {
                filled.is_as_sure(&mut stocks);
                *laid = stocks;
                *self = work;
            }
        }
        said
    }
}

impl BatchWork {
    /// The sheets of every lot: no more than are filled, where that is said.
    pub(super) fn laid_on(
        &self,
        lots: &[Lot],
        filled: Option<&FilledSheets>,
        search: Search,
        watch: &dyn Watch,
    ) -> (Option<Vec<Vec<StockSheets>>>, Vec<Finding>) {
        let (laid, findings) = self.laid(lots, None, search, watch);
        let holds = |filled: &&FilledSheets| {
            let joined = laid.as_ref().map(|laid| StockSheets::joined(laid.clone()));
            joined.is_none_or(|joined| !filled.holds(&self.merged.stocks, &joined))
        };
        match filled.filter(holds) {
            Some(filled) => self.laid(lots, Some(filled), search, watch),
            None => (laid, findings),
        }
    }

    /// The same on the sheets of the whole order.
    pub(super) fn follow(&mut self, (labels, search): (Labels, Search), watch: &dyn Watch) {
        let of_kits = |work: &Self| work.batch.kits.iter().map(|kit| kit.album.clone()).collect::<Vec<Album>>();
        let albums = of_kits(self);
        let all = followers(&albums.iter().collect::<Vec<_>>());
        if all.is_empty() {
            return;
        }
        let (laid, _) = self.laid(&lots(&self.batch, &self.merged, self.batch.together), None, search, watch);
        let Some(laid) = laid else { return };
        let filled = FilledSheets::of(&self.merged.stocks, &StockSheets::joined(laid));
        let mut said = Vec::new();
        for follower in all {
            let albums = of_kits(self);
            let albums: Vec<&Album> = albums.iter().collect();
            let sizes = follower.sizes(&albums, &self.cutter);
            let sized = |size: usize| {
                let mut batch = self.batch.clone();
                for &(kit, insert) in &follower.of {
                    batch.kits[kit].album = albums[kit].with_size(insert, sizes[size].map(Some));
                }
                let work = Self::begun(batch, self.cutter.clone(), (labels, search), watch);
                warnings(&work.findings).map(|warned| (work, warned))
            };
            let least = sizes.first().and_then(|_| sized(0)).map(|(_, warned)| warned);
            let made = |size: usize, search: Search| {
                let (work, _) = sized(size).filter(|(_, warned)| Some(*warned) <= least)?;
                let lots = lots(&work.batch, &work.merged, work.batch.together);
                let laid = work.laid_on(&lots, Some(&filled), search, watch).0;
                laid.map(|_| work)
            };
            let found = least.and_then(|_| largest(sizes.len(), search, &made));
            let size = found.as_ref().map(|(size, _)| sizes[*size]);
            said.push(follower.said(&albums, size, sizes.first().copied()));
            if let Some((_, work)) = found {
                *self = Self { filled: Some(filled.clone()), ..work };
            }
        }
        self.findings.extend(said);
    }
}

#[allow(clippy::cast_possible_truncation, reason = "a float-to-integer cast saturates")]
fn whole(count: f64) -> i64 {
    count as i64
}

#[allow(clippy::cast_precision_loss, reason = "a few thousand marks of a ruler")]
fn near(marks: i64) -> f64 {
    marks as f64
}
