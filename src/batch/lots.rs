// SPDX-License-Identifier: MIT
//! Which parts of a batch share sheets, and how many there are of each: spares among them.
//!
//! In: a batch, its merged parts. Out: [`Lot`]s, each to be laid by itself. Never: lays them.
//!
//! Sheets that are handed over whole are each kit's own, whatever the batch says of the rest.

use super::{Batch, Merged, Together};
use crate::parts::Kit;
use crate::stock::Stock;

/// Parts that share sheets.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Lot {
    /// Number of its kit; none where it is of all kits.
    pub of: Option<usize>,
    /// All parts of the batch; those that are not in the lot have a count of nought.
    pub kit: Kit,
    /// How often its counts are made, each time on sheets of their own.
    pub times: u32,
    /// The stocks of the batch, as the lot's sheets are called: `card.grey`.
    pub stocks: Vec<Stock>,
}

/// The lots of a batch, what is laid together as it says, or as the other way of the two would have it.
#[must_use]
pub fn lots(batch: &Batch, merged: &Merged, together: Together) -> Vec<Lot> {
    let mut lots = Vec::new();
    let mut rest = Vec::new();
    let whole = |kit: usize, stock: usize| {
        let numbers = merged.stock_of[kit].iter().enumerate();
        numbers.filter(|(_, number)| **number == stock).any(|(own, _)| batch.kits[kit].album.is_handed_whole(own))
    };
    for (number, kit) in batch.kits.iter().enumerate() {
        let each = |part: usize| merged.each[part].get(number).copied().unwrap_or_default();
        let is_whole = |part: usize| whole(number, merged.kit.parts[part].stock);
        let times = batch.times(kit);
        lots.push(merged.lot(batch, Some(number), times, &|part| if is_whole(part) { each(part) } else { 0 }));
        let own = |part: usize| if is_whole(part) { 0 } else { each(part).saturating_mul(times) };
        if together == Together::Kit {
            lots.push(
                merged.lot(batch, Some(number), 1, &|part| own(part).saturating_add(merged.more(batch, number, part))),
            );
        } else {
            let own: Vec<u32> = (0..merged.kit.parts.len())
                .map(|part| own(part).saturating_add(merged.more(batch, number, part)))
                .collect();
            rest.push(own);
        }
    }
    if !rest.is_empty() {
        let sum = |part: usize| rest.iter().fold(0_u32, |sum, own| sum.saturating_add(own[part]));
        lots.push(merged.lot(batch, None, 1, &sum));
    }
    lots.retain(|lot| lot.kit.parts.iter().any(|part| part.count > 0));
    lots
}

impl Merged {
    /// How many of a part are made over the whole batch, spares among them.
    #[must_use]
    pub fn count(&self, batch: &Batch, part: usize) -> u32 {
        let made = self.made(batch, part);
        made.saturating_add(batch.spares.parts.of(made))
    }

    /// The kits that take a part, and how many each does.
    pub fn kits_with<'b>(&'b self, batch: &'b Batch, part: usize) -> impl Iterator<Item = (&'b str, u32)> {
        let each = self.each.get(part).map_or(&[][..], Vec::as_slice);
        batch.kits.iter().zip(each).filter(|(_, each)| **each > 0).map(|(kit, each)| (kit.name.as_str(), *each))
    }

    /// How many the kits take, spare kits among them.
    fn made(&self, batch: &Batch, part: usize) -> u32 {
        let of = |(kit, each): (&super::BatchKit, &u32)| each.saturating_mul(batch.times(kit));
        batch.kits.iter().zip(&self.each[part]).map(of).fold(0, u32::saturating_add)
    }

    /// Spare parts that are laid with a kit: all of them with the first that takes the part.
    fn more(&self, batch: &Batch, kit: usize, part: usize) -> u32 {
        let first = self.each[part].iter().position(|each| *each > 0);
        if first == Some(kit) { batch.spares.parts.of(self.made(batch, part)) } else { 0 }
    }

    fn lot(&self, batch: &Batch, of: Option<usize>, times: u32, count: &dyn Fn(usize) -> u32) -> Lot {
        let mut kit = self.kit.clone();
        for (number, part) in kit.parts.iter_mut().enumerate() {
            part.count = count(number);
        }
        for (number, blocks) in self.blocks.iter().enumerate().filter(|(number, _)| of.is_none_or(|of| of == *number)) {
            // Times that the lot makes by itself are not its counts'.
            let often = batch.times(&batch.kits[number]) / times.max(1);
            for block in blocks {
                let mut block = block.clone();
                block.count = block.count.saturating_mul(often);
                let least = block.parts.iter().map(|member| kit.parts[member.part].count).min().unwrap_or_default();
                if least < block.count {
                    // Its parts are not in this lot.
                    continue;
                }
                match kit.blocks.iter_mut().find(|known| known.upright == block.upright && known.parts == block.parts) {
                    Some(known) => known.count += block.count,
                    None => kit.blocks.push(block),
                }
            }
        }
        let stocks = self.stocks.iter().map(|stock| Stock { name: sheet_name(batch, of, stock), ..stock.clone() });
        Lot { of, times, stocks: stocks.collect(), kit }
    }
}

/// What sheets of a lot are called by.
fn sheet_name(batch: &Batch, of: Option<usize>, stock: &Stock) -> String {
    let kit = of.and_then(|of| batch.kits.get(of));
    match kit {
        // It is called by its kit already.
        Some(kit) if !stock.name.ends_with(&format!(".{}", kit.name)) => format!("{}.{}", stock.name, kit.name),
        _ => stock.name.clone(),
    }
}
