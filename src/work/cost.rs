// SPDX-License-Identifier: MIT
//! What an album or a batch costs: what its stages found, put together for `cost`.
//!
//! In: a job worked out. Out: a [`Cost`], its file. Never: a price, an amount.

use super::{BatchWork, Files, Work};
use crate::cost::{Cost, KitNeeds, OrderNeeds, machine_time};
use crate::guide::{Audience, hand_time, taken};
use crate::parts::Part;
use crate::sheets::StockSheets;
use crate::toolpath::Stroke;
use crate::write::{self, Sink, WriteProblem};

impl Work {
    /// What it costs; nothing where the album says nothing of buying and selling, or is not laid.
    #[must_use]
    pub fn cost(&self) -> Option<&Cost> {
        self.cost.get_or_init(|| self.worked_cost()).as_ref()
    }

    fn worked_cost(&self) -> Option<Cost> {
        let Self { album, kit, stocks, paths, cutter, .. } = self;
        if !Cost::is_asked(&album.terms, &album.stocks) || stocks.is_empty() || self.recut {
            return None;
        }
        let audience = if album.has_shop() { Audience::Shop } else { Audience::Kit };
        let machine = |stock: usize| is_by_machine(stocks, stock);
        let job = self.guide_job(false);
        let hands = hand_time(&job, audience, &machine);
        // Who cuts runs the files, and so makes all that is in them.
        let wanted = |stroke: &Stroke| {
            let stock = kit.parts.get(stroke.part).map(|part| part.stock).filter(|stock| machine(*stock));
            stock.is_some_and(|stock| audience.cuts(album, stock))
        };
        let areas = (0..album.stocks.len()).map(|stock| {
            let parts = kit.parts.iter().filter(|part| part.stock == stock);
            #[allow(clippy::cast_precision_loss, reason = "a count of pieces")]
            let pieces = |part: &Part| album.order().pieces(part.count) as f64;
            whole(parts.map(|part| part.flat.area() * pieces(part)).sum())
        });
        let needs = KitNeeds {
            name: None,
            made: album.made(),
            sold: album.copies,
            areas: areas.collect(),
            supplies: taken(&job),
            hands: hands.each,
            machine: machine_time(paths, (&album.stocks, cutter), &vec![1.0; kit.parts.len()], &wanted),
        };
        let (terms, stocks, laid) = (&album.terms, album.stocks.as_slice(), stocks.as_slice());
        Cost::of(&OrderNeeds { terms, stocks, laid, kits: vec![needs], once: hands.once })
    }

    pub(super) fn put_cost(&self, files: &Files<'_>, sink: &mut dyn Sink) -> Result<(), WriteProblem> {
        put(self.cost(), files, sink)
    }
}

impl BatchWork {
    /// What the order costs; nothing where nobody says anything of buying and selling, or it is not laid.
    #[must_use]
    pub fn cost(&self) -> Option<&Cost> {
        self.cost.get_or_init(|| self.worked_cost()).as_ref()
    }

    fn worked_cost(&self) -> Option<Cost> {
        let Self { batch, merged, stocks, .. } = self;
        if !Cost::is_asked(&batch.terms, &merged.stocks) || stocks.is_empty() || self.recut {
            return None;
        }
        let machine = |stock: usize| is_by_machine(stocks, stock);
        let once = hand_time(&self.whole_job(false)?, Audience::Shop, &machine).once;
        let kits = (0..batch.kits.len()).map(|kit| self.needs(kit)).collect();
        let (terms, all, laid) = (&batch.terms, merged.stocks.as_slice(), stocks.as_slice());
        Cost::of(&OrderNeeds { terms, stocks: all, laid, kits, once })
    }

    /// What a kit takes.
    fn needs(&self, number: usize) -> KitNeeds {
        let Self { batch, merged, stocks, paths, cutter, .. } = self;
        let (kit, work) = (&batch.kits[number], &self.kits[number]);
        let made = batch.times(kit);
        // Spare parts are borne by the kits that take the part.
        let pieces: Vec<f64> =
            (0..merged.kit.parts.len()).map(|part| merged.part_of_all(batch, number, part)).collect();
        let own = |stock: usize| merged.stock_of[number].iter().position(|known| *known == stock);
        let wanted = |stroke: &Stroke| {
            let stock = merged.kit.parts.get(stroke.part).map(|part| part.stock);
            let stock = stock.filter(|stock| is_by_machine(stocks, *stock)).and_then(own);
            stock.is_some_and(|stock| Audience::Shop.cuts(&kit.album, stock))
        };
        let areas = (0..merged.stocks.len()).map(|stock| {
            let parts = self.kit.parts.iter().zip(&pieces).filter(|(part, _)| part.stock == stock);
            whole(parts.map(|(part, of)| part.flat.area() * f64::from(part.count) * of).sum())
        });
        let by_machine =
            |stock: usize| merged.stock_of[number].get(stock).is_some_and(|merged| is_by_machine(stocks, *merged));
        let job = work.guide_job(false);
        KitNeeds {
            name: Some(kit.name.clone()),
            made,
            sold: kit.album.copies,
            areas: areas.collect(),
            supplies: taken(&job),
            hands: hand_time(&job, Audience::Shop, &by_machine).each,
            machine: machine_time(paths, (&merged.stocks, cutter), &pieces, &wanted),
        }
    }

    pub(super) fn put_cost(&self, files: &Files<'_>, sink: &mut dyn Sink) -> Result<(), WriteProblem> {
        put(self.cost(), files, sink)
    }
}

fn put(cost: Option<&Cost>, files: &Files<'_>, sink: &mut dyn Sink) -> Result<(), WriteProblem> {
    match cost.filter(|_| files.formats.contains(&"csv")) {
        Some(cost) => Ok(sink.put("cost.csv", write::cost(cost).as_bytes())?),
        None => Ok(()),
    }
}

/// Whether the machine cuts a stock's sheets, and no trimmer.
fn is_by_machine(laid: &[StockSheets], stock: usize) -> bool {
    laid.iter().any(|laid| laid.stock == stock && laid.sheets.iter().all(|sheet| sheet.cuts.is_none()))
}

/// The nearest whole number.
fn whole(area: f64) -> u64 {
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "an area, far below 2^52")]
    let whole = area.round() as u64;
    whole
}
