// SPDX-License-Identifier: MIT
//! From what the layout engine proved to what it says of a stock's parts.

use super::argument::{Argument, CountedPart, PartsApart, WhyNoFewer};
use super::stock_parts::StockParts;
use crate::layout::{self, ApartGroup, CountedItem, Layout, Reason};

impl StockParts<'_> {
    /// Why this layout's bound holds; nothing where no reason is needed, or sizes are mixed.
    pub(super) fn why(&self, layout: &Layout) -> Option<WhyNoFewer> {
        let times = u64::from(self.times.max(1));
        let bound = layout.lower_bound / times;
        let items = self.items(true);
        let reason = layout::reason(&self.problem(&items, &self.laid_on()), self.cuts(), bound, &layout.sheets)?;
        let counted = |of: Vec<CountedItem>| of.into_iter().map(|one| self.counted(one)).collect();
        let group =
            |one: ApartGroup| PartsApart { of: counted(one.of), sheets: one.sheets, each_alone: one.each_alone };
        let argument = match reason {
            Reason::Area => Argument::Area,
            Reason::AtMost { of, most } => Argument::AtMost { of: counted(of), most },
            Reason::Apart(groups) => Argument::Apart(groups.into_iter().map(group).collect()),
            Reason::Weighed => Argument::Weighed,
        };
        Some(WhyNoFewer { too_few: bound - 1, each_kit: times > 1, argument })
    }

    fn counted(&self, CountedItem { item, count, points, .. }: CountedItem) -> CountedPart {
        let part = self.parts[item];
        let spread = part.checked_sub(self.first_spread).and_then(|block| self.spreads.get(block));
        let parts = spread.map_or_else(|| vec![part], |spread| spread.parts().collect());
        CountedPart { parts: parts.into_iter().map(|part| self.kit.parts[part].id.clone()).collect(), count, points }
    }
}
