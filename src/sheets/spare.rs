// SPDX-License-Identifier: MIT
//! Inserts that fill what would be waste: as many as come free.
//!
//! In: an album, its kit, its sheets. Out: the same album with a count for each insert that the file wants as many of as come
//! free, and the sheets with them on. Never: takes another sheet, or moves a part of another stock.
//!
//! One insert after the other, in the file's order. For each the count of a kit is doubled as long as all goes onto the
//! sheets that are there, then the gap is closed by halves. Every count that is taken was laid; a larger one may be possible.

use super::stock_parts::StockParts;
use super::strips::laid_alike;
use super::{Search, StockSheets};
use crate::album::{Album, COUNT, MOST_INSERTS};
use crate::cutter::Cutter;
use crate::finding::{Arg, Finding, Level, Said, stops};
use crate::layout::{Effort, Layout, Watch};
use crate::length::tolerance::WHOLE;
use crate::parts::Kit;
use crate::trial::Trial;

/// So many of one insert are tried at most, as many as a file may ask for.
const MOST: u32 = 1000;

/// So many counts of one insert get as long a look as the sheets did: our choice.
const LONG_LOOKS: u32 = 2;

/// With more pieces than this, long looks take too long to be repeated: our choice.
const MOST_PIECES: usize = 500;

/// An album whose spare inserts are counted, and its sheets.
#[derive(Debug)]
#[non_exhaustive]
pub struct Filled {
    /// The album, with numbers where it said "spare".
    pub album: Album,
    /// Its sheets, as many as before.
    pub stocks: Vec<StockSheets>,
    /// How many come free.
    pub findings: Vec<Finding>,
}

/// Fills the sheets; nothing where the album wants no insert as often as it comes free.
#[must_use]
pub fn fill(
    album: &Album,
    kit: &Kit,
    cutter: &Cutter,
    laid: &[StockSheets],
    search: Search,
    watch: &dyn Watch,
) -> Option<Filled> {
    let spare: Vec<usize> = (0..album.inserts.len()).filter(|&insert| album.inserts[insert].is_spare()).collect();
    if spare.is_empty() {
        return None;
    }
    let mut now = State { album: album.clone(), kit: kit.clone(), layouts: vec![None; album.stocks.len()] };
    let mut findings = Vec::new();
    for insert in spare {
        let filling = Filling { insert, kit, cutter, laid, search, watch };
        let mut count = 0;
        if let Some((many, state)) = filling.most(&now) {
            count = many;
            now = state;
        } else {
            // Nothing comes free: from now on that is a number as well.
            now.album = now.album.with_count(insert, 0);
        }
        findings.push(said(album, insert, count));
    }
    let stocks = laid.iter().map(|old| moved(old, kit, &now, cutter, search)).collect();
    Some(Filled { album: now.album, stocks, findings })
}

/// The album as filled so far.
struct State {
    album: Album,
    kit: Kit,
    /// The latest layout of each stock that was laid anew.
    layouts: Vec<Option<Layout>>,
}

/// What one insert is filled in with.
struct Filling<'a> {
    insert: usize,
    /// The kit that was laid without it.
    kit: &'a Kit,
    cutter: &'a Cutter,
    laid: &'a [StockSheets],
    search: Search,
    watch: &'a dyn Watch,
}

impl Filling<'_> {
    /// The largest count that was found to come free, and the album with it; nothing where that is none.
    fn most(&self, from: &State) -> Option<(u32, State)> {
        let cap = self.cap(from);
        let warned = Self::warnings(&self.tried(from, 1))?;
        let mut best: Option<(u32, State)> = None;
        // Quick looks first: doubled while all goes on, then halved.
        let mut refused = cap + 1;
        let mut next = 1;
        let quick = Effort::Low;
        while next < refused && !self.watch.stop() {
            match self.with(from, next, warned, quick) {
                Some(state) => best = Some((next, state)),
                None => refused = next,
            }
            let low = best.as_ref().map_or(0, |(count, _)| *count);
            next = if refused > cap { (2 * low).min(cap) } else { u32::midpoint(low, refused) };
            if next <= low {
                break;
            }
        }
        // Then some as long as was asked for, a tenth more at a time.
        let mut refused = cap + 1;
        let copies = usize::try_from(from.album.made()).unwrap_or(usize::MAX);
        let few = from.kit.pieces.len().saturating_mul(copies) <= MOST_PIECES;
        for _ in 0..if self.search.effort > quick && few { LONG_LOOKS } else { 0 } {
            let low = best.as_ref().map_or(0, |(count, _)| *count);
            let next = (low + (low / 10).max(1)).min(u32::midpoint(low, refused));
            if next <= low || self.watch.stop() {
                break;
            }
            match self.with(from, next, warned, self.search.effort) {
                Some(state) => best = Some((next, state)),
                None => refused = next,
            }
        }
        best
    }

    /// No more than this have room, by their area.
    fn cap(&self, from: &State) -> u32 {
        let stock = from.album.inserts[self.insert].stock;
        let Some(laid) = self.laid.iter().find(|laid| laid.stock == stock) else { return 0 };
        let (_, one) = self.tried(from, 1).into_parts();
        let area = |kit: &Kit| {
            let parts = kit.parts.iter().filter(|part| part.stock == stock);
            parts.map(|part| part.flat.area() * f64::from(part.count)).sum::<f64>() * f64::from(from.album.made())
        };
        let sheets: f64 = laid.sheets.iter().map(|sheet| sheet.width * sheet.height * f64::from(sheet.times)).sum();
        let used = area(&from.kit);
        let each = area(&one) - used;
        let others: u64 = from.album.inserts.iter().map(|insert| u64::from(insert.count())).sum();
        let left = u32::try_from(MOST_INSERTS.saturating_sub(others)).unwrap_or(MOST);
        #[allow(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a float-to-integer cast saturates, and what it makes is capped"
        )]
        let room = if each > 0.0 { ((sheets - used) / each + WHOLE).floor().max(0.0) as u32 } else { 0 };
        room.min(MOST).min(left)
    }

    /// The album with so many of the insert.
    fn tried(&self, from: &State, count: u32) -> Trial<'_> {
        Trial::of(from.album.with_count(self.insert, count), self.cutter)
    }

    /// How many warnings there are about an album; nothing where it does not go together.
    fn warnings(tried: &Trial<'_>) -> Option<usize> {
        let findings = tried.fit().findings;
        let warnings = findings.iter().filter(|finding| finding.level == Level::Warn).count();
        (!stops(&findings)).then_some(warnings)
    }

    /// The album with so many in every kit, if they go onto the sheets that are there, and into their pockets with no more
    /// warnings than one.
    fn with(&self, from: &State, count: u32, warned: usize, effort: Effort) -> Option<State> {
        let tried = self.tried(from, count);
        if Self::warnings(&tried)? > warned {
            return None;
        }
        let (album, kit) = tried.into_parts();
        let stock = album.inserts[self.insert].stock;
        let laid = self.laid.iter().find(|laid| laid.stock == stock)?;
        let mut parts = StockParts::new(album.order(), &kit, self.cutter, stock, Search { effort, ..self.search })?;
        parts.supply = parts.usable.sheets.iter().map(|sheet| Some(used(laid, sheet.size) / parts.times)).collect();
        if parts.too_many().is_some() {
            return None;
        }
        parts.alike = laid_alike(self.kit, laid);
        let layout = parts.lay(true, self.watch).ok()?;
        let mut layouts = from.layouts.clone();
        layouts[stock] = Some(layout);
        Some(State { album, kit, layouts })
    }
}

/// How many sheets of a size there are.
fn used(laid: &StockSheets, size: usize) -> u32 {
    laid.sheets.iter().filter(|sheet| sheet.size == size).map(|sheet| sheet.times).fold(0, u32::saturating_add)
}

/// The sheets of one stock with the filled album's parts.
fn moved(old: &StockSheets, kit: &Kit, now: &State, cutter: &Cutter, search: Search) -> StockSheets {
    let layout = now.layouts.get(old.stock).and_then(Option::as_ref);
    let parts = StockParts::new(now.album.order(), &now.kit, cutter, old.stock, search);
    if let Some((parts, layout)) = parts.zip(layout) {
        let mut sheets = parts.sheets(layout);
        // What is sure is said of the sheets that had to be: what fills them does not count.
        (sheets.lower_bound, sheets.proven_least, sheets.savable) = (old.lower_bound, old.proven_least, old.savable);
        sheets.why.clone_from(&old.why);
        sheets.cut_short |= old.cut_short;
        return sheets;
    }
    // Its parts are the same in the same order, but other stocks' parts may have come between them.
    let of_stock =
        |kit: &Kit| -> Vec<usize> { (0..kit.parts.len()).filter(|&part| kit.parts[part].stock == old.stock).collect() };
    let (before, after) = (of_stock(kit), of_stock(&now.kit));
    let mut sheets = old.clone();
    for placed in sheets.sheets.iter_mut().flat_map(|sheet| &mut sheet.placements) {
        let place = before.iter().position(|&part| part == placed.part);
        if let Some(&part) = place.and_then(|place| after.get(place)) {
            placed.part = part;
        }
    }
    sheets
}

fn said(album: &Album, insert: usize, count: u32) -> Finding {
    let entry = &album.inserts[insert];
    let about = Said::new("about-insert").with("kind", Arg::term(entry.kind.name)).with("number", insert + 1);
    let stock = album.stock_name(entry.stock);
    let finding = Finding::note("spare", about, Said::new("spare").with("count", count).with("stock", stock));
    let finding = if count == 0 {
        finding.help(Said::new("spare-help").with("field", Arg::field(COUNT.name())))
    } else {
        finding
    };
    finding.at(entry.values.place(COUNT))
}
