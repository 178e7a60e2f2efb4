// SPDX-License-Identifier: MIT
//! An edition of an order: several kits whose parts are laid together, or one kit by itself.
//!
//! A part of the order stands once, whichever kits take it, and may be called by one of them. In a kit's own edition it is on the
//! stock that the kit's album names: `paper`, whatever the order calls it.

use super::chapters::chapters;
use super::edition::{Edition, EditionBlock, EditionPart, EditionSheet};
use crate::album::{MoreParts, Order};
use crate::batch::{Batch, Merged, base};
use crate::guide::{Guide, GuideJob};
use crate::parts::Kit;
use crate::sheets::StockSheets;
use std::collections::BTreeSet;

/// What a file holds: one kit, or an order of several.
#[derive(Clone, Debug)]
pub enum AnyEdition {
    /// One kit.
    Kit(Edition),
    /// A batch.
    Order(OrderEdition),
}

/// An edition of an order.
#[derive(Clone, Debug, Default)]
pub struct OrderEdition {
    /// Its title.
    pub title: String,
    /// Its kits, in order; one without a name where it is no batch.
    pub kits: Vec<KitEdition>,
    /// The parts of all kits, each once; counts are those of the whole order, spares among them.
    pub parts: Vec<EditionPart>,
    /// The sheets, in the order of their names.
    pub sheets: Vec<EditionSheet>,
}

/// A kit of an order.
#[derive(Clone, Debug, Default)]
pub struct KitEdition {
    /// Its name; none where it is an album by itself.
    pub name: Option<String>,
    /// How many are ordered.
    pub copies: u32,
    /// How many are made, spare ones among them.
    pub made: u32,
    /// How many more of each of its parts are made, where that is known.
    pub more: MoreParts,
    /// The kit by itself.
    pub edition: Edition,
    /// For each of its parts, its number in the order.
    pub part_of: Vec<usize>,
}

/// What a kit has of a part of the order.
#[derive(Clone, Debug, Default)]
pub(super) struct PartInKit {
    pub count: u32,
    pub used_in: Vec<String>,
    pub pages: Vec<usize>,
}

impl KitEdition {
    /// A kit with what it has of each part of its order; its blocks' parts have the numbers of the order.
    pub(super) fn with_parts(mut self, parts: &[EditionPart], of: &[PartInKit], blocks: Vec<EditionBlock>) -> Self {
        let own = |(part, of): (&EditionPart, &PartInKit)| EditionPart {
            count: of.count,
            stock: base(&part.stock).to_owned(),
            used_in: of.used_in.clone(),
            pages: of.pages.clone(),
            ..part.clone()
        };
        let taken = parts.iter().zip(of).enumerate().filter(|(_, (_, of))| of.count > 0);
        (self.part_of, self.edition.parts) = taken.map(|(number, part)| (number, own(part))).unzip();
        let number = |part: usize| self.part_of.iter().position(|one| *one == part);
        self.edition.blocks = blocks;
        for block in &mut self.edition.blocks {
            block.parts = block.parts.iter().filter_map(|(part, behind)| Some((number(*part)?, *behind))).collect();
        }
        self
    }
}

impl From<AnyEdition> for OrderEdition {
    /// An album by itself is an order of one kit without a name.
    fn from(any: AnyEdition) -> Self {
        let edition = match any {
            AnyEdition::Order(order) => return order,
            AnyEdition::Kit(edition) => edition,
        };
        let Edition { title, copies, parts, sheets, .. } = edition.clone();
        let part_of = (0..parts.len()).collect();
        let kit = KitEdition { name: None, copies, made: copies, more: MoreParts::default(), edition, part_of };
        Self { title, kits: vec![kit], parts, sheets }
    }
}

impl OrderEdition {
    /// The edition of a batch that was worked out: its kits' parts with the counts of the whole order, its sheets.
    #[must_use]
    pub fn of(batch: &Batch, merged: &Merged, (order, kit, stocks): (Order<'_>, &Kit, &[StockSheets])) -> Self {
        let parts: Vec<EditionPart> =
            kit.parts.iter().zip(kit.pages()).map(|(part, pages)| EditionPart::of(order, part, pages)).collect();
        let in_kit = |number: usize, part: usize| {
            let part_use = &merged.uses[part][number];
            PartInKit {
                count: merged.each[part][number],
                used_in: part_use.used_in.iter().map(ToString::to_string).collect(),
                pages: part_use.pages.clone(),
            }
        };
        let kits = batch.kits.iter().enumerate().map(|(number, kit)| {
            let edition = Edition { units: Some(kit.album.units), ..Edition::headed(&kit.album) };
            let one = KitEdition {
                name: Some(kit.name.clone()),
                copies: kit.album.copies,
                made: batch.times(kit),
                more: kit.spares.parts,
                edition,
                part_of: Vec::new(),
            };
            let of: Vec<PartInKit> = (0..parts.len()).map(|part| in_kit(number, part)).collect();
            one.with_parts(&parts, &of, merged.blocks[number].iter().map(EditionBlock::of).collect())
        });
        Self {
            title: batch.title.clone(),
            kits: kits.collect(),
            sheets: EditionSheet::all(order, stocks).collect(),
            parts,
        }
    }

    /// The same with the chapters of a kit's guide; `part_of` has the number in the order of each part that the guide knows.
    #[must_use]
    pub fn with_guide(mut self, kit: usize, (guide, job): (&Guide, &GuideJob<'_>), part_of: &[usize]) -> Self {
        if let Some(kit) = self.kits.get_mut(kit) {
            let mut chapters = chapters(guide, job);
            for chapter in &mut chapters {
                let of_order = |part: &usize| kit.part_of.iter().position(|one| Some(one) == part_of.get(*part));
                chapter.parts = chapter.parts.iter().filter_map(of_order).collect::<BTreeSet<usize>>();
            }
            kit.edition.chapters = Some(chapters);
        }
        self
    }

    /// Whether its kits have names.
    #[must_use]
    pub fn is_batch(&self) -> bool {
        self.kits.iter().all(|kit| kit.name.is_some())
    }
}
