// SPDX-License-Identifier: MIT
//! Which design of patterned paper goes where, where a pad has several.
//!
//! ```text
//!   page 1 back | page 2 front        Everything that is looked at together is of one design: the back of a page and
//!   +---------+ | +---------+         the front of the next one, with their pockets and flaps; the inside of a cover
//!   | dots    | | | dots    |         and the page beside it; the outside of a cover.
//!   +---------+ | +---------+
//! ```
//!
//! The designs take turns in the order in which the file lists them, from the first opening of the album to the last; the
//! outside of the cover comes at the end. Where a stock says how many sheets there are, it is passed over when they are used up. That
//! is an estimate: each panel counts as its share of a sheet cut in a plain grid. If
//! no design has enough the turn stands, and laying the sheets says how many are missing (our choice).

use crate::album::{Album, Bound, Panels};
use crate::cutter::Cutter;
use crate::length::tolerance::WHOLE;
use crate::parts::build::face::{Looks, Plain};
use crate::stock::Stock;
use crate::usable::{Keeps, Usable};
use std::collections::BTreeMap;

/// Which stock each face gets.
#[derive(Clone, Debug)]
pub(in crate::parts) struct Designs {
    dealt: BTreeMap<Looks, usize>,
    first: usize,
    /// Designs that were passed over because their sheets are used up: of how many turns each had how many.
    pub(in crate::parts) short: BTreeMap<usize, DesignTurns>,
}

/// How often it was a design's turn, and how often it was passed over.
#[derive(Clone, Copy, Debug, Default)]
pub(in crate::parts) struct DesignTurns {
    pub had: u32,
    pub passed: u32,
}

impl Designs {
    /// Number of the stock for what is looked at together.
    pub(in crate::parts) fn stock(&self, looks: Looks) -> usize {
        self.dealt.get(&looks).copied().unwrap_or(self.first)
    }

    /// Deals the designs out to the faces of the pages; those of a cover, which come later, count as a page's face each.
    pub(in crate::parts) fn deal(album: &Album, cutter: &Cutter, panels: &Panels, plains: &[Plain]) -> Self {
        let reveal = panels.reveal.mm();
        let inset = |(width, height): (f64, f64)| (2.0f64.mul_add(-reveal, width), 2.0f64.mul_add(-reveal, height));
        let mut sizes: BTreeMap<Looks, Vec<(f64, f64)>> = BTreeMap::new();
        if panels.on_pages() {
            for plain in plains {
                sizes.entry(plain.looks).or_default().push(inset((plain.width, plain.height)));
            }
        }
        if panels.on_cover() && album.cover.is_some() {
            let face = inset((album.page.width.mm(), album.page.height.mm()));
            for looks in [Looks::Opening(0), Looks::Opening(album.pages.len()), Looks::Outside, Looks::Outside] {
                sizes.entry(looks).or_default().push(face);
            }
        }
        let mut left: BTreeMap<usize, f64> = BTreeMap::new();
        for &stock in &panels.stocks {
            left.insert(stock, album.stocks.get(stock).map_or(f64::INFINITY, supply));
        }
        let mut dealt = BTreeMap::new();
        let mut turns: BTreeMap<usize, DesignTurns> = BTreeMap::new();
        let mut turn = 0;
        for (looks, sizes) in sizes {
            let wants = |stock: usize| {
                let usable = album.stocks.get(stock).map(|stock| Usable::of(stock, cutter));
                let sideways = album.bound == Bound::Top;
                let share = |size: &(f64, f64)| usable.as_ref().map_or(0.0, |usable| share(usable, *size, sideways));
                sizes.iter().map(share).sum::<f64>() * f64::from(album.made())
            };
            let in_turn = (0..panels.stocks.len()).map(|ahead| (turn + ahead) % panels.stocks.len());
            let enough = |&at: &usize| {
                let stock = panels.stocks[at];
                left.get(&stock).is_some_and(|left| wants(stock) <= left + WHOLE)
            };
            let at = in_turn.clone().find(enough).or_else(|| in_turn.clone().next()).unwrap_or(0);
            let Some(&stock) = panels.stocks.get(at) else { break };
            if let Some(left) = left.get_mut(&stock) {
                *left -= wants(stock);
            }
            dealt.insert(looks, stock);
            turns.entry(stock).or_default().had += 1;
            // From the one whose turn it was up to the one that took it.
            for ahead in 0..panels.stocks.len() {
                let passed = (turn + ahead) % panels.stocks.len();
                if passed == at {
                    break;
                }
                turns.entry(panels.stocks[passed]).or_default().passed += 1;
            }
            turn = at + 1;
        }
        turns.retain(|_, turns| turns.passed > 0);
        Self { dealt, first: panels.stocks.first().copied().unwrap_or(0), short: turns }
    }
}

/// How many sheets of a stock there are.
fn supply(stock: &Stock) -> f64 {
    let sold = stock.sheets.iter().filter(|size| size.lies.is_none());
    sold.map(|size| size.count.map_or(f64::INFINITY, f64::from)).sum()
}

/// What a panel takes of the sheet that takes the most of them, all panels of its size side by side.
fn share(usable: &Usable, size: (f64, f64), sideways: bool) -> f64 {
    let most = usable.grid(size, Keeps { along_grain: false, sideways }).max(1);
    #[allow(clippy::cast_precision_loss, reason = "far fewer than 2^53 panels lie on a sheet")]
    let share = 1.0 / most as f64;
    share
}
