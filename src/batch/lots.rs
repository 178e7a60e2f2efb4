// SPDX-License-Identifier: MIT
//! Which parts of a batch share sheets, and how many there are of each: spares among them.
//!
//! In: a batch, its merged parts. Out: [`Lot`]s, each to be laid by itself. Never: lays them.
//!
//! Sheets that are handed over whole are each kit's own, whatever the batch says of the rest.

use super::{Batch, Merged, Together};
use crate::album::{MoreParts, Spares};
use crate::parts::{Kit, PatternBlock};
use crate::stock::Stock;

/// Parts that share sheets.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Lot {
    /// Number of its kit; none where it is of all kits.
    pub of: Option<usize>,
    /// Whether its sheets are handed over whole: then they are the kit's own.
    pub whole: bool,
    /// All parts of the batch; those that are not in the lot have a count of nought.
    pub kit: Kit,
    /// How often its counts are made, each time on sheets of their own.
    pub times: u32,
    /// The same two without what is spare; nothing where nothing is.
    pub bare: Option<(u32, Kit)>,
    /// The stocks of the batch, as the lot's sheets are called: `card.grey`.
    pub stocks: Vec<Stock>,
}

/// The lots of a batch, what is laid together as it says, or as the other way of the two would have it.
#[must_use]
pub fn lots(batch: &Batch, merged: &Merged, together: Together) -> Vec<Lot> {
    let each = |kit: usize, part: usize| merged.each[part].get(kit).copied().unwrap_or_default();
    let is_whole = |kit: usize, part: usize| merged.is_whole(batch, kit, merged.kit.parts[part].stock);
    let made = |kit: usize, part: usize, times: u32| {
        if is_whole(kit, part) { 0 } else { each(kit, part).saturating_mul(times) }
    };
    let rest = |kit: usize, part: usize| made(kit, part, batch.times(&batch.kits[kit]));
    let bare = |kit: usize, part: usize| made(kit, part, batch.kits[kit].album.copies);
    let of_rest = |of: Option<usize>| Lot {
        bare: Some((1, merged.lot(batch, of, &bare).kit)),
        ..merged.lot(batch, of, &rest).with_spares(batch, merged)
    };
    let mut lots = Vec::new();
    for (number, kit) in batch.kits.iter().enumerate() {
        let own = |kit: usize, part: usize| if is_whole(kit, part) { each(kit, part) } else { 0 };
        let whole = Lot { times: batch.times(kit), whole: true, ..merged.lot(batch, Some(number), &own) };
        lots.push(Lot { bare: Some((kit.album.copies, whole.kit.clone())), ..whole });
        if together == Together::Kit {
            lots.push(of_rest(Some(number)));
        }
    }
    if together == Together::Batch {
        lots.push(of_rest(None));
    }
    lots.retain(|lot| lot.kit.parts.iter().any(|part| part.count > 0));
    name(batch, &mut lots);
    if batch.kits.iter().all(|kit| kit.spares == Spares::default()) {
        for lot in &mut lots {
            lot.bare = None;
        }
    }
    lots
}

impl Merged {
    /// How many of a part are made over the whole batch, spares among them.
    #[must_use]
    pub fn count(&self, batch: &Batch, part: usize) -> u32 {
        let made = self.made(batch, part);
        made.saturating_add(self.besides(batch, part))
    }

    /// How many of a part are made besides what the kits take. Kits that want as many in a hundred want them of all that they
    /// take together.
    #[must_use]
    pub fn besides(&self, batch: &Batch, part: usize) -> u32 {
        let mut wanted: Vec<(MoreParts, u32)> = Vec::new();
        for (kit, each) in batch.kits.iter().zip(&self.each[part]) {
            let own = each.saturating_mul(batch.times(kit));
            match wanted.iter_mut().find(|(more, _)| *more == kit.spares.parts) {
                Some((_, all)) => *all = all.saturating_add(own),
                None => wanted.push((kit.spares.parts, own)),
            }
        }
        wanted.into_iter().map(|(more, all)| more.of(all)).fold(0, u32::saturating_add)
    }

    /// The kits that take a part, and how many each does.
    pub fn kits_with<'b>(&'b self, batch: &'b Batch, part: usize) -> impl Iterator<Item = (&'b str, u32)> {
        let each = self.each.get(part).map_or(&[][..], Vec::as_slice);
        batch.kits.iter().zip(each).filter(|(_, each)| **each > 0).map(|(kit, each)| (kit.name.as_str(), *each))
    }

    /// How much of all pieces of a part are one kit's, as a part of one; spare parts are borne by the kits that take it.
    #[must_use]
    pub fn part_of_all(&self, batch: &Batch, kit: usize, part: usize) -> f64 {
        let each = self.each[part].get(kit).copied().unwrap_or_default();
        let own = batch.kits.get(kit).map_or(0, |kit| each.saturating_mul(batch.times(kit)));
        f64::from(own) / f64::from(self.made(batch, part).max(1))
    }

    /// How many the kits take, spare kits among them.
    fn made(&self, batch: &Batch, part: usize) -> u32 {
        let of = |(kit, each): (&super::BatchKit, &u32)| each.saturating_mul(batch.times(kit));
        batch.kits.iter().zip(&self.each[part]).map(of).fold(0, u32::saturating_add)
    }

    /// Whether a kit's sheets of a stock are handed over whole.
    fn is_whole(&self, batch: &Batch, kit: usize, stock: usize) -> bool {
        let own = self.stock_of[kit].iter().enumerate().filter(|(_, number)| **number == stock);
        own.into_iter().any(|(own, _)| batch.kits[kit].album.is_handed_whole(own))
    }

    /// The lot of one kit or of all, with so many of each part for each kit.
    fn lot(&self, batch: &Batch, of: Option<usize>, own: &dyn Fn(usize, usize) -> u32) -> Lot {
        let kits: Vec<usize> = (0..batch.kits.len()).filter(|kit| of.is_none_or(|of| of == *kit)).collect();
        let mut kit = self.kit.clone();
        for (number, part) in kit.parts.iter_mut().enumerate() {
            part.count = kits.iter().map(|kit| own(*kit, number)).fold(0, u32::saturating_add);
        }
        for &number in &kits {
            for block in &self.blocks[number] {
                // The parts of a block are of no other: it is in the lot as often as they are.
                let count = block.parts.iter().map(|member| own(number, member.part)).min().unwrap_or_default();
                match kit.blocks.iter_mut().find(|known| known.upright == block.upright && known.parts == block.parts) {
                    Some(known) => known.count = known.count.saturating_add(count),
                    None => kit.blocks.push(PatternBlock { count, ..block.clone() }),
                }
            }
        }
        kit.blocks.retain(|block| block.count > 0);
        Lot { of, whole: false, times: 1, bare: None, stocks: self.stocks.clone(), kit }
    }
}

impl Lot {
    /// The same with the spare parts of the order: all of a part with the first kit that takes it.
    fn with_spares(mut self, batch: &Batch, merged: &Merged) -> Self {
        for (number, part) in self.kit.parts.iter_mut().enumerate() {
            let first = merged.each[number].iter().position(|each| *each > 0);
            if first.is_some() && (self.of.is_none() || self.of == first) {
                part.count = part.count.saturating_add(merged.besides(batch, number));
            }
        }
        self
    }

    fn takes(&self, stock: usize) -> bool {
        self.kit.parts.iter().any(|part| part.stock == stock && part.count > 0)
    }
}

/// Calls the sheets of each lot by its stocks and its kit, no two lots alike.
fn name(batch: &Batch, lots: &mut [Lot]) {
    let mut known: Vec<String> = Vec::new();
    for lot in lots {
        for stock in 0..lot.stocks.len() {
            if !lot.takes(stock) {
                continue;
            }
            let kit = lot.of.and_then(|of| batch.kits.get(of)).map(|kit| format!(".{}", kit.name));
            let before = lot.stocks[stock].name.clone();
            let name = &mut lot.stocks[stock].name;
            // It may be called by its kit already.
            name.push_str(kit.as_deref().filter(|kit| !name.ends_with(kit)).unwrap_or_default());
            while known.contains(name) {
                name.push_str(".more");
            }
            let name = name.clone();
            for other in lot.stocks.iter_mut().filter(|other| other.shares.as_ref() == Some(&before)) {
                other.shares = Some(name.clone());
            }
            known.push(name);
        }
    }
}
