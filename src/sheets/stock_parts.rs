// SPDX-License-Identifier: MIT
//! One stock and the parts that are cut from it, as a problem for the layout engine: items, sheets, gap.
//!
//! In: an order, its parts, the cutter, a stock's number. Out: a layout. Never: decides which stocks are laid, or how often.

use super::Search;
use super::alike::{Alike, is_strip};
use super::blocks::{self, Spread};
use crate::album::Order;
use crate::cutter::Cutter;
use crate::finding::Said;
use crate::layout::{self, Cuts, Item, Layout, NoLayout, Problem, Turns, Watch};
use crate::length::tolerance::WHOLE;
use crate::parts::{Kit, Part};
use crate::stock::{By, SheetSize, Stock};
use crate::usable::{self, Lie, Usable};
use std::borrow::Cow;

/// Quarter turns, counter-clockwise, that bring a part's left up.
pub(super) const SIDEWAYS: u8 = 3;

/// One stock and the parts that are cut from it.
#[derive(Clone)]
pub(super) struct StockParts<'a> {
    pub(super) order: Order<'a>,
    /// The kit as it is laid: each block as one part.
    pub(super) kit: Cow<'a, Kit>,
    pub(super) cutter: &'a Cutter,
    pub(super) number: usize,
    pub(super) stock: &'a Stock,
    /// The sheets that parts are laid on.
    pub(super) usable: Usable,
    /// How many there are of each of these sizes, where they are limited.
    pub(super) supply: Vec<Option<u32>>,
    /// Numbers of its parts.
    pub(super) parts: Vec<usize>,
    /// How many of each part of the kit are made besides what the kits take.
    pub(super) besides: Vec<u32>,
    /// The blocks, which are parts behind all others, and the number of the first one.
    pub(super) spreads: Vec<Spread>,
    pub(super) first_spread: usize,
    pub(super) search: Search,
    /// How often what is laid is cut.
    pub(super) times: u32,
    /// Which way strips lie that must lie alike.
    pub(super) alike: Option<Alike>,
}

impl<'a> StockParts<'a> {
    /// Sets out one stock; nothing where no part is cut from it.
    pub(super) fn new(
        order: Order<'a>,
        kit: &'a Kit,
        cutter: &'a Cutter,
        number: usize,
        search: Search,
    ) -> Option<Self> {
        let stock = order.stocks.get(number).filter(|stock| !stock.ready)?;
        let search = Search { trimmer: search.trimmer || stock.by == By::Trimmer, ..search };
        let first_spread = kit.parts.len();
        let usable = kit.usable_with_drawer(number, stock, cutter);
        // Sheets that are handed over whole hold what one kit takes.
        let apart = order.is_apart(number);
        let besides: Vec<u32> =
            kit.parts.iter().map(|part| if apart { 0 } else { order.besides(part.count) }).collect();
        let (kit, spreads) = blocks::gathered(kit, number, &usable, search.trimmer);
        let spare = |part: usize| besides.get(part).is_some_and(|besides| *besides > 0);
        let mine = |part: &usize| kit.parts[*part].stock == number && (kit.parts[*part].count > 0 || spare(*part));
        let parts: Vec<usize> = (0..kit.parts.len()).filter(mine).collect();
        if parts.is_empty() {
            return None;
        }
        // Sheets that are handed over whole are each kit's own: one kit is laid, and so many times over.
        let times = if apart { order.copies.max(1) } else { 1 };
        let supply = usable.sheets.iter().map(|sheet| Some(stock.sheets[sheet.size].count? / times)).collect();
        Some(Self {
            order,
            kit,
            cutter: stock.cutter(cutter),
            number,
            stock,
            usable,
            supply,
            parts,
            besides,
            spreads,
            first_spread,
            search,
            times,
            alike: None,
        })
    }

    /// What findings about it are about.
    pub(super) fn about(&self) -> Said {
        Said::new("about-stock").with("stock", &self.stock.name)
    }

    /// The area of all parts needs so many sheets at least, of the first size.
    pub(super) fn least_by_area(&self) -> u64 {
        let Some(first) = self.usable.sheets.first() else { return 0 };
        let sheet = &self.stock.sheets[first.size];
        let parts = self.parts.iter().map(|&part| &self.kit.parts[part]);
        let area: f64 = parts.map(|part| part.flat.area() * f64::from(part.count)).sum();
        let sheets = area * f64::from(self.order.copies) / (sheet.width.mm() * sheet.height.mm());
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "a float-to-integer cast saturates")]
        let least = (sheets - WHOLE).ceil().max(0.0) as u64;
        least
    }

    /// The sheets as the layout sees them.
    pub(super) fn laid_on(&self) -> Vec<layout::SheetType> {
        let one = |(sheet, &count): (&usable::UsableSheet, &Option<u32>)| layout::SheetType {
            width: sheet.width.max(0),
            height: sheet.height.max(0),
            count,
            price: self.price(&self.stock.sheets[sheet.size]),
        };
        self.usable.sheets.iter().zip(&self.supply).map(one).collect()
    }

    /// What a sheet is reckoned with; what lies there already as its share of one that is bought, so that small ones are used first.
    fn price(&self, size: &SheetSize) -> Option<f64> {
        let area = |size: &SheetSize| size.width.mm() * size.height.mm();
        let sold = self.stock.sheets.iter().filter(|size| size.lies.is_none());
        match size.lies {
            None => size.each(),
            Some(_) => sold.map(|sold| Some(sold.each()? / area(sold) * area(size))).next().flatten(),
        }
    }

    /// Whether a size lies in the drawer.
    pub(super) fn lies(&self, usable: usize) -> bool {
        self.usable.sheets.get(usable).is_some_and(|sheet| self.stock.sheets[sheet.size].lies.is_some())
    }

    /// How a part lies: all sheets that are left stand the same way with respect to grain and pattern.
    pub(super) fn lie(&self, part: &Part) -> Lie {
        self.usable.sheets.first().map_or(Lie::Any, |sheet| self.usable.lie(sheet, part.keeps()))
    }

    /// The parts, each with its count for the whole batch.
    pub(super) fn items(&self, honour_grain: bool) -> Vec<Item> {
        let one = |&number: &usize| {
            let part = &self.kit.parts[number];
            let lie = self.lie(part);
            let lie = if lie == Lie::Upright && !honour_grain { Lie::Any } else { lie };
            let item = self.item(number, lie);
            match self.alike.filter(|_| item.turns == Turns::ANY && is_strip(&self.kit, number)) {
                Some(alike) => Item { turns: alike.turns(), ..item },
                None => item,
            }
        };
        self.parts.iter().map(one).collect()
    }

    /// Lays them, in as cheap packs as can be; the same parts give the same layout.
    pub(super) fn lay(&self, honour_grain: bool, watch: &dyn Watch) -> Result<Layout, NoLayout> {
        let layout = self.lay_items(&self.items(honour_grain), watch)?;
        Ok(self.in_whole_packs(honour_grain, layout, watch))
    }

    /// Lays these items instead of its own: on what lies in the drawer first.
    pub(super) fn lay_items(&self, items: &[Item], watch: &dyn Watch) -> Result<Layout, NoLayout> {
        let sheets = self.laid_on();
        if (0..sheets.len()).any(|size| self.lies(size)) {
            self.lay_from_drawer(items, &sheets, watch)
        } else {
            self.lay_on(items, &sheets, watch)
        }
    }

    pub(super) fn lay_on(
        &self,
        items: &[Item],
        sheets: &[layout::SheetType],
        watch: &dyn Watch,
    ) -> Result<Layout, NoLayout> {
        let mut layout = layout::lay_out_for(&self.problem(items, sheets), self.cuts(), watch)?;
        for sheet in &mut layout.sheets {
            sheet.times = sheet.times.saturating_mul(self.times);
        }
        layout.lower_bound = layout.lower_bound.saturating_mul(u64::from(self.times));
        Ok(layout)
    }

    /// Items and sheets as what the layout engine is asked.
    pub(super) fn problem<'p>(&self, items: &'p [Item], sheets: &'p [layout::SheetType]) -> Problem<'p> {
        let Search { effort, threads, .. } = self.search;
        Problem { items, sheets, gap: self.cutter.gap.eighths(), effort, threads }
    }

    pub(super) fn cuts(&self) -> Cuts {
        if self.search.trimmer { Cuts::Trimmer } else { Cuts::Free }
    }

    /// Whether a part always lies with its left up.
    pub(super) fn is_sideways(&self, part: &Part) -> bool {
        self.lie(part) == Lie::Sideways
    }

    fn item(&self, number: usize, lie: Lie) -> Item {
        let part = &self.kit.parts[number];
        // A part that lies sideways is laid as it lies then.
        let flat = if lie == Lie::Sideways { part.flat.turned(SIDEWAYS) } else { part.flat.clone() };
        // Where the outline is the box itself, the box says it all.
        let boxed = flat.outline.is_box();
        Item {
            width: self.usable.path(flat.width),
            height: self.usable.path(flat.height),
            contour: (!boxed || !flat.holes.is_empty()).then(|| flat.outline.clone()),
            holes: flat.holes.clone(),
            turns: match lie {
                Lie::Any => Turns::ANY,
                Lie::Upright => Turns::HALF,
                Lie::AsDrawn | Lie::Sideways | Lie::NoWay => Turns::NONE,
            },
            count: part
                .count
                .saturating_mul(self.order.copies / self.times)
                .saturating_add(self.besides.get(number).copied().unwrap_or(0)),
        }
    }
}
