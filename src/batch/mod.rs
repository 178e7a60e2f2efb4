// SPDX-License-Identifier: MIT
//! A batch: several kits made as one order, each an album, or an album with changes, so many times.
//!
//! In: a batch file's text and the albums that it names. Out: a [`Batch`]; and of the kits' parts a [`Merged`] list, in which
//! what several kits share stands once. Never: opens a file, lays a sheet.

mod choice;
mod class;
mod file_fields;
mod likeness;
mod lots;
mod merge;
mod mix_table;
mod pack;
mod read;
mod reading;
mod schema;
mod stocks;

pub use choice::{Choice, Mix, named as named_kind};
pub use class::{Class, ClassGroup, GroupSheets};
pub use file_fields::FORMAT;
pub(crate) use file_fields::{CHOICE_FIELDS, CLASS_FIELDS, KIT_FIELDS, MAKER_FIELDS, TOP_FIELDS};
pub use lots::{Lot, again, lots};
pub use merge::{Merged, PartUse};
pub use mix_table::{Chosen, MixRow, MixSheets, MixTable, WorstMix};
pub use pack::MixPack;
pub use read::{read, read_with};
pub use reading::Albums;
pub use schema::schema;
pub(crate) use stocks::base;

use crate::album::{Album, Handed, Language, Spares};
use crate::drawer::NamedDrawer;
use crate::fields::{Node, Source, Tree, of_kind, words};
use crate::length::Units;
use crate::selling::Terms;

/// Whether a file says that it is a batch; what can't be read is none.
#[must_use]
pub fn is_batch(source: &Source) -> bool {
    let format = Node::read(source).ok().and_then(|root| root.get("format").map(|node| node.tree.clone()));
    matches!(format, Some(Tree::Text(format)) if of_kind(&format, FORMAT))
}

/// One order of kits, checked: at least one kit, every name once, every album read.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Batch {
    /// Its name.
    pub title: String,
    /// What lists over all kits are measured in.
    pub units: Units,
    /// The language of what is handed over, where the batch says it.
    pub language: Option<Language>,
    /// The kits, in the file's order; never empty.
    pub kits: Vec<BatchKit>,
    /// What a class has besides its groups, which are the kits; none where it is an order of kits.
    pub class: Option<Class>,
    /// What is laid together.
    pub together: Together,
    /// What lies in the drawer, as the batch names it, else its albums.
    pub drawer: Option<NamedDrawer>,
    /// What the batch says of buying and selling, else its albums.
    pub terms: Terms,
}

/// One kit of a batch.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct BatchKit {
    /// Its name, `[a-z0-9-]{1,32}`.
    pub name: String,
    /// Its album, with the batch's changes; its copies are the batch's. Where pages are chosen, its pages are one of each kind
    /// that there is to choose from.
    pub album: Album,
    /// How pages are chosen, where they are.
    pub choice: Option<Choice>,
    /// What is made of it besides, for what goes wrong: as the batch says, else its album.
    pub spares: Spares,
}

words! {
    /// Which parts share sheets.
    pub enum Together {
        /// Those of all kits.
        Batch = "batch",
        /// Those of one kit of the batch and its copies.
        Kit = "kit",
    }
}

impl Batch {
    /// What stands for an album where the whole order is listed, drawn, printed: its first kit's, with the order's name, units
    /// and stocks. Its pages are nobody's. Where kits hand over a stock in different states, or one does not say in which, nothing
    /// is said of any: whoever makes the order is told all.
    #[must_use]
    pub(crate) fn album(&self, merged: &Merged) -> Option<Album> {
        let first = self.kits.first()?.album.clone();
        let (title, units, stocks) = (self.title.clone(), self.units, merged.stocks.clone());
        let handed_over = (0..stocks.len()).map(|stock| self.handed_over(merged, stock)).collect();
        Some(Album {
            title,
            units,
            stocks,
            copies: 1,
            spares: None,
            handed_over,
            edition: None,
            notes: Vec::new(),
            ..first
        })
    }

    /// In what state all kits that have a stock hand it over.
    fn handed_over(&self, merged: &Merged, stock: usize) -> Option<Handed> {
        let mut all = None;
        for (kit, stock_of) in self.kits.iter().zip(&merged.stock_of) {
            for (own, _) in stock_of.iter().enumerate().filter(|(_, number)| **number == stock) {
                let handed = kit.album.handed_over(own)?;
                if *all.get_or_insert(handed) != handed {
                    return None;
                }
            }
        }
        all
    }

    /// How often a kit is made, its spares counted.
    #[must_use]
    pub fn times(&self, kit: &BatchKit) -> u32 {
        kit.album.copies.saturating_add(kit.spares.kits)
    }
}
