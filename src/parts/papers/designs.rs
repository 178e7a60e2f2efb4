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
//! is an estimate: each panel counts as its share of a sheet cut in a plain grid, as if a machine left 5 mm of every edge. If
//! no design has enough the turn stands, and laying the sheets says how many are missing (our choice).

use crate::album::{Album, Bound, Panels};
use crate::parts::build::face::{Looks, Plain};
use crate::parts::build::joined::EDGE;
use crate::stock::{Pattern, Stock};
use std::collections::BTreeMap;

/// Which stock each face gets.
#[derive(Clone, Debug)]
pub(in crate::parts) struct Designs {
    dealt: BTreeMap<Looks, usize>,
    first: usize,
}

impl Designs {
    /// Number of the stock for what is looked at together.
    pub(in crate::parts) fn stock(&self, looks: Looks) -> usize {
        self.dealt.get(&looks).copied().unwrap_or(self.first)
    }

    /// Deals the designs out to the faces of the pages; those of a cover, which come later, count as a page's face each.
    pub(in crate::parts) fn deal(album: &Album, panels: &Panels, plains: &[Plain]) -> Self {
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
        let mut turn = 0;
        for (looks, sizes) in sizes {
            let wants = |stock: usize| {
                let share = |size: &(f64, f64)| album.stocks.get(stock).map_or(0.0, |stock| share(album, stock, *size));
                sizes.iter().map(share).sum::<f64>() * f64::from(album.copies)
            };
            let in_turn = (0..panels.stocks.len()).map(|ahead| (turn + ahead) % panels.stocks.len());
            let enough = |&at: &usize| {
                let stock = panels.stocks[at];
                left.get(&stock).is_some_and(|left| wants(stock) <= left + 1e-9)
            };
            let at = in_turn.clone().find(enough).or_else(|| in_turn.clone().next()).unwrap_or(0);
            let Some(&stock) = panels.stocks.get(at) else { break };
            if let Some(left) = left.get_mut(&stock) {
                *left -= wants(stock);
            }
            dealt.insert(looks, stock);
            turn = at + 1;
        }
        Self { dealt, first: panels.stocks.first().copied().unwrap_or(0) }
    }
}

/// How many sheets of a stock there are.
fn supply(stock: &Stock) -> f64 {
    stock.sheets.iter().map(|size| size.count.map_or(f64::INFINITY, f64::from)).sum()
}

/// What a panel takes of a stock's largest sheet, all panels of its size side by side.
fn share(album: &Album, stock: &Stock, (width, height): (f64, f64)) -> f64 {
    let grid = |across: f64, up: f64| ((across / width).floor() * (up / height).floor()).max(0.0);
    let on = |size: &crate::stock::SheetSize| {
        let stood = stock.stood(size);
        let (across, up) = (stood.width.mm() - 2.0 * EDGE, stood.height.mm() - 2.0 * EDGE);
        let (as_drawn, turned) = (grid(across, up), grid(up, across));
        match (stock.pattern, album.bound) {
            (Pattern::OneWay, Bound::Top) => turned,
            (Pattern::OneWay, _) => as_drawn,
            _ => as_drawn.max(turned),
        }
    };
    1.0 / stock.sheets.iter().map(on).fold(1.0, f64::max)
}
