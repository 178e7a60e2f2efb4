// SPDX-License-Identifier: MIT
//! What lies in the drawer is used first: offcuts, then whole sheets, then what is bought.
//!
//! In: a stock's parts, its sheets, what of them lies in the drawer. Out: a layout. Never: takes more than lies there, or buys a
//! sheet more because something lies there.
//!
//! The layout engine fills counted sheets first. Where a stock is sold in one size, whole sheets in the drawer are the same as
//! bought ones to it, so that it counts offcuts alone; which of the sheets that it fills come from the drawer is said afterwards.

use super::stock_parts::StockParts;
use crate::layout::{Item, Layout, NoLayout, SheetType, Watch};

impl StockParts<'_> {
    /// Lays items where some of the sheets lie in the drawer; these stand behind all others.
    pub(super) fn lay_from_drawer(
        &self,
        items: &[Item],
        sheets: &[SheetType],
        watch: &dyn Watch,
    ) -> Result<Layout, NoLayout> {
        let sold = (0..sheets.len()).take_while(|size| !self.lies(*size)).count();
        let whole: Vec<usize> = (sold..sheets.len()).filter(|size| sold == 1 && self.is_whole(*size)).collect();
        let offered: Vec<usize> = (0..sheets.len()).filter(|size| !whole.contains(size)).collect();
        let lying: u32 = whole.iter().filter_map(|size| sheets[*size].count).fold(0, u32::saturating_add);
        let mut given: Vec<SheetType> = offered.iter().map(|size| sheets[*size]).collect();
        for sheet in &mut given[..sold] {
            sheet.count = sheet.count.map(|count| count.saturating_add(lying));
        }
        // What there is only so much of is used first as well; the drawer comes before it, where that does.
        let mut open = given.clone();
        for sheet in &mut open[..sold] {
            sheet.count = sheet.count.filter(|count| *count == 0);
        }
        let first = self.lay_on(items, &open, watch).ok().filter(|layout| self.is_within(layout, &given));
        let first = first.map_or_else(|| self.lay_on(items, &given, watch), Ok);
        let used = |layout: &Layout| -> u64 {
            layout.sheets.iter().filter(|sheet| sheet.sheet < sold).map(|sheet| u64::from(sheet.times)).sum()
        };
        let several = offered.len() > sold;
        // Many sizes are harder to lay on than few; what lies there must not cost a sheet for that.
        let without = several.then(|| self.lay_on(items, &given[..sold], watch).ok()).flatten();
        // What is sure of one size is not sure where there are others.
        let unsure = |layout: Layout| Layout { lower_bound: 0, proven_least: false, savable: None, ..layout };
        let mut layout = match (first, without) {
            (Ok(first), Some(without)) if used(&without) < used(&first) => {
                Layout { lower_bound: first.lower_bound, ..unsure(without) }
            }
            (Err(_), Some(without)) => unsure(without),
            (first, _) => first?,
        };
        let whole_sheets = used(&layout);
        layout.sheets.iter_mut().for_each(|sheet| sheet.sheet = offered[sheet.sheet]);
        self.take_whole(&mut layout, &whole, sheets);
        let bought = used(&layout);
        // It is a part of what is bought; whole sheets out of the drawer are not.
        layout.savable = layout.savable.map(|part| part_of(part, whole_sheets, bought));
        Ok(layout)
    }

    /// Whether what lies there is a sheet as it is sold.
    fn is_whole(&self, usable: usize) -> bool {
        let [one, other] = [0, usable].map(|at| &self.stock.sheets[self.usable.sheets[at].size]);
        (one.width, one.height) == (other.width, other.height)
    }

    fn is_within(&self, layout: &Layout, sheets: &[SheetType]) -> bool {
        sheets.iter().enumerate().all(|(size, sheet)| {
            let of_size = layout.sheets.iter().filter(|laid| laid.sheet == size);
            let times: u64 = of_size.map(|laid| u64::from(laid.times)).sum();
            sheet.count.is_none_or(|count| times <= u64::from(count) * u64::from(self.times))
        })
    }

    /// Takes sheets of the first size from the drawer, as long as some lie there; each kit's own are of one place.
    fn take_whole(&self, layout: &mut Layout, whole: &[usize], sheets: &[SheetType]) {
        for &size in whole {
            let mut lying = sheets[size].count.unwrap_or(0).saturating_mul(self.times);
            let mut split = Vec::with_capacity(layout.sheets.len());
            for laid in layout.sheets.drain(..) {
                let taken = if laid.sheet == 0 { laid.times.min(lying) } else { 0 };
                lying -= taken;
                for (sheet, times) in [(size, taken), (laid.sheet, laid.times - taken)] {
                    if times > 0 {
                        let mut part = laid.clone();
                        (part.sheet, part.times) = (sheet, times);
                        split.push(part);
                    }
                }
            }
            layout.sheets = split;
        }
    }
}

/// A part of so many sheets, as a part of fewer.
fn part_of(part: f64, all: u64, fewer: u64) -> f64 {
    #[allow(clippy::cast_precision_loss, reason = "a count of sheets")]
    let more = if fewer == 0 { 0.0 } else { all as f64 / fewer as f64 };
    (part * more).min(1.0)
}
