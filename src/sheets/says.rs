// SPDX-License-Identifier: MIT
//! What laying a stock's parts has to say: why they can not be laid, what the grain costs, where a pattern jumps.

use super::stock_parts::StockParts;
use crate::finding::{Arg, Finding, Said};
use crate::layout::{Layout, NoLayout, Watch};
use crate::length::tolerance::SAME;
use crate::usable::Lie;

/// More pieces than this of one stock are a mistake: our choice.
const MOST_PIECES: u64 = 1_000_000;

impl StockParts<'_> {
    /// Says so where there are more pieces than can be laid at once.
    pub(super) fn too_many(&self) -> Option<Finding> {
        let count = |&part: &usize| u64::from(self.kit.parts[part].count) * u64::from(self.order.copies);
        let pieces: u64 = self.parts.iter().map(count).sum();
        (pieces > MOST_PIECES).then(|| {
            let text = Said::new("too-many-pieces").with("pieces", pieces).with("most", MOST_PIECES);
            Finding::stop("too-many-pieces", self.about(), text)
                .help(Said::new("too-many-pieces-help"))
                .at(self.stock.place.as_ref())
        })
    }

    /// Says where a pattern that runs on jumps, because the machine can't cut its pieces as near as they lie.
    pub(super) fn jumps(&self) -> Option<Finding> {
        let spread = self.spreads.iter().filter(|spread| spread.jump > SAME);
        let worst = spread.clone().max_by(|one, two| one.jump.total_cmp(&two.jump))?;
        let more = spread.count() - 1;
        let about = Said::new("about-more").with("first", Arg::term(&worst.name)).with("more", more);
        let text = Said::new("pattern-jumps").with("jump", self.order.length(worst.jump));
        let help = Said::new("pattern-jumps-help").with("field", Arg::field("panels.reveal"));
        Some(Finding::note("pattern-jumps", about, text).help(help).at(self.stock.place.as_ref()))
    }

    /// Says what honouring the grain costs, where it costs anything.
    pub(super) fn price_of_grain(&self, layout: &Layout, watch: &dyn Watch) -> Option<Finding> {
        let bound_by_grain =
            |&part: &usize| self.kit.parts[part].along_grain && self.lie(&self.kit.parts[part]) == Lie::Upright;
        let count = |layout: &Layout| layout.sheets.iter().map(|sheet| u64::from(sheet.times)).sum::<u64>();
        if count(layout) < 2 || !self.parts.iter().any(bound_by_grain) {
            return None;
        }
        let free = self.lay(false, watch).ok()?;
        let more = count(layout).checked_sub(count(&free)).filter(|&more| more > 0)?;
        let text = Said::new("price-of-grain").with("sheets", more);
        Some(Finding::note("price-of-grain", self.about(), text).help(Said::new("price-of-grain-help")))
    }

    /// Says what it costs that each kit has sheets of its own.
    pub(super) fn price_of_apart(&self, layout: &Layout, watch: &dyn Watch) -> Option<Finding> {
        if self.times < 2 {
            return None;
        }
        let supply = self.usable.sheets.iter().map(|sheet| self.stock.sheets[sheet.size].count).collect();
        let across = Self { times: 1, supply, ..self.clone() }.lay(true, watch).ok()?;
        let count = |layout: &Layout| layout.sheets.iter().map(|sheet| u64::from(sheet.times)).sum::<u64>();
        let more = count(layout).checked_sub(count(&across)).filter(|more| *more > 0)?;
        let text = Said::new("price-of-apart").with("sheets", more).with("field", Arg::field("handed_over"));
        Some(Finding::note("price-of-apart", self.about(), text).help(Said::new("price-of-apart-help")))
    }

    /// How many sheets more it takes than there are, where it comes in one size alone.
    fn missing(&self, watch: &dyn Watch) -> Option<(u64, u64)> {
        let [Some(count)] = self.supply.as_slice() else { return None };
        let plenty = Self { supply: vec![None], ..self.clone() };
        let layout = plenty.lay(true, watch).ok()?;
        let needed = layout.sheets.iter().map(|sheet| u64::from(sheet.times)).sum::<u64>();
        // Of these each kit has its share, so the share is no measure of how many there are.
        let size = self.usable.sheets.first().map(|sheet| &self.stock.sheets[sheet.size]);
        let count = size.and_then(|size| size.count).filter(|_| self.times > 1).unwrap_or(*count);
        Some((needed, u64::from(count))).filter(|(needed, count)| needed > count)
    }

    /// What a stock without a layout has to say.
    pub(super) fn trouble(&self, trouble: &NoLayout, watch: &dyn Watch) -> Vec<Finding> {
        let name = |item: usize| {
            let part = &self.kit.parts[self.parts[item]];
            part.called()
        };
        match trouble {
            NoLayout::TooBig { items } => items
                .iter()
                .map(|&item| {
                    let text = Said::new("too-big-for-all").with("stock", &self.stock.name);
                    Finding::stop("too-big", Said::named(name(item)), text).help(Said::new("too-big-for-all-help"))
                })
                .collect(),
            NoLayout::OutOfSheets { left } => {
                let pieces: u64 = left.iter().map(|&(_, count)| u64::from(count)).sum();
                let one = |&(item, count): &(usize, u32)| {
                    Said::new("out-of-sheets-part").with("count", count).with("part", Arg::term(name(item))).into()
                };
                let rest = (left.len() > 3).then(|| Arg::from("…"));
                let (needed, count) = self.missing(watch).unwrap_or_default();
                let text = Said::new("out-of-sheets")
                    .with("needed", needed)
                    .with("more", needed - count)
                    .with("pieces", pieces)
                    .with("parts", Arg::Row(left.iter().take(3).map(one).chain(rest).collect()));
                vec![
                    Finding::stop("out-of-sheets", self.about(), text)
                        .help(Said::new("out-of-sheets-help").with("field", Arg::field("count")))
                        .at(self.stock.place.as_ref()),
                ]
            }
        }
    }
}
