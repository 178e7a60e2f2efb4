// SPDX-License-Identifier: MIT
//! The parts of several kits as one list: what several kits share stands once.
//!
//! In: the kits and their parts. Out: [`Merged`]. Never: counts how many are made, lays a sheet.

use super::likeness::Likeness;
use super::stocks::{MergedStocks, base};
use super::{Batch, BatchKit, Chosen};
use crate::drawer::NamedDrawer;
use crate::finding::Finding;
use crate::parts::{Bond, Kit, Part, PatternBlock, Piece};
use crate::stock::Stock;
use std::collections::BTreeMap;

/// The parts of all kits of a batch.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Merged {
    /// The stocks of all kits, each once; those of one name that differ are called by their first kit as well.
    pub stocks: Vec<Stock>,
    /// Every part once, with every kit's pieces and bonds once; counts are left at nought.
    pub kit: Kit,
    /// By kit, by the number of a part in it: its number here.
    pub part_of: Vec<Vec<usize>>,
    /// By kit, by the number of a stock in its album: its number here.
    pub stock_of: Vec<Vec<usize>>,
    /// By part, by kit: how many a kit takes.
    pub each: Vec<Vec<u32>>,
    /// By kit: what of it is cut from one place, with how often a kit takes it.
    pub blocks: Vec<Vec<PatternBlock>>,
    /// By kit: what its mixes take, where its pages are chosen.
    pub chosen: Vec<Option<Chosen>>,
    /// What of the drawer can't be used.
    pub unused: Vec<Finding>,
}

impl Merged {
    /// Merges the parts of a batch's kits, which come in the batch's order.
    #[must_use]
    pub fn of(batch: &Batch, kits: &[&Kit]) -> Self {
        let MergedStocks { all: mut stocks, of: stock_of } = MergedStocks::of(&batch.kits);
        for stock in &mut stocks {
            let name = stock.name.clone();
            batch.terms.packs.put(stock, &[&name, base(&name)]);
        }
        let drawer = batch.drawer.as_ref().and_then(NamedDrawer::known);
        let unused = drawer.map(|drawer| drawer.offer(&mut stocks)).unwrap_or_default();
        let mut merged = Self {
            stocks,
            kit: Kit::default(),
            part_of: Vec::new(),
            stock_of,
            each: Vec::new(),
            blocks: Vec::new(),
            chosen: vec![None; kits.len()],
            unused,
        };
        let mut known: BTreeMap<Likeness, usize> = BTreeMap::new();
        for (number, (of, kit)) in batch.kits.iter().zip(kits).enumerate() {
            let part_of = (0..kit.parts.len()).map(|part| merged.part(&mut known, (number, of), (kit, part))).collect();
            merged.part_of.push(part_of);
            merged.pieces(number, kit);
        }
        for each in &mut merged.each {
            each.resize(batch.kits.len(), 0);
        }
        merged
    }

    /// For which pages of which kits with a choice a part is: the kit's name, the kind's, how many a page takes of it.
    pub fn kinds_with<'b>(&'b self, batch: &'b Batch, part: usize) -> impl Iterator<Item = (&'b str, String, u32)> {
        let kits = batch.kits.iter().zip(&self.part_of).zip(&self.chosen);
        kits.filter_map(|((kit, of), chosen)| Some((kit, of, chosen.as_ref()?))).flat_map(move |(kit, of, chosen)| {
            let own = of.iter().enumerate().filter(move |(_, merged)| **merged == part).map(|(own, _)| own);
            own.flat_map(move |own| chosen.packed.each[own].iter().enumerate())
                .filter(|(_, each)| **each > 0)
                .map(move |(kind, each)| (kit.name.as_str(), chosen.table.called(kind), *each))
        })
    }

    fn part(
        &mut self,
        known: &mut BTreeMap<Likeness, usize>,
        (kit, of): (usize, &BatchKit),
        (own, at): (&Kit, usize),
    ) -> usize {
        let part = &own.parts[at];
        let stock = self.stock_of[kit].get(part.stock).copied().unwrap_or_default();
        let likeness = Likeness::of(own, at, stock);
        let number = *known.entry(likeness).or_insert_with(|| {
            let taken = self.kit.parts.iter().any(|other| other.id == part.id);
            let id = if taken { format!("{}.{}", of.name, part.id) } else { part.id.clone() };
            self.kit.parts.push(Part { id, stock, count: 0, used_in: Vec::new(), ..part.clone() });
            self.each.push(Vec::new());
            self.kit.parts.len() - 1
        });
        let used_in = &mut self.kit.parts[number].used_in;
        for name in &part.used_in {
            if !used_in.contains(name) {
                used_in.push(name.clone());
            }
        }
        let each = &mut self.each[number];
        each.resize(kit + 1, 0);
        each[kit] = each[kit].saturating_add(part.count);
        number
    }

    /// One kit's pieces, with the bonds between them, and its blocks.
    fn pieces(&mut self, number: usize, kit: &Kit) {
        let (before, part_of) = (self.kit.pieces.len(), &self.part_of[number]);
        self.kit.pieces.extend(kit.pieces.iter().map(|piece| Piece { part: part_of[piece.part], ..piece.clone() }));
        let moved = |bond: &Bond| {
            let mut bond = *bond;
            bond.one.piece += before;
            bond.other.piece += before;
            bond
        };
        self.kit.bonds.extend(kit.bonds.iter().map(moved));
        let block = |block: &PatternBlock| {
            let mut block = block.clone();
            block.parts.iter_mut().for_each(|member| member.part = part_of[member.part]);
            block
        };
        self.blocks.push(kit.blocks.iter().map(block).collect());
    }
}
