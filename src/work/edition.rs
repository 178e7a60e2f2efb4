// SPDX-License-Identifier: MIT
//! An album or a batch worked out, as an edition that others are compared with and whose sheets are cut again.
//!
//! In: the work; what is cut again. Out: its edition; the sheets of that alone. Never: compares.

use super::{BatchWork, Files, Work};
use crate::album::Order;
use crate::cutter::Cutter;
use crate::editions::{Again, AnyEdition};
use crate::finding::Finding;
use crate::layout::Watch;
use crate::sheets::{Search, StockSheets};
use crate::toolpath::Labels;
use crate::write::{Sink, WriteProblem};

/// The kinds of file that speak of sheets alone; others speak of a whole kit.
pub const OF_SHEETS: [&str; 4] = ["svg", "dxf", "png", "csv"];

/// What sheets can be made of.
#[derive(Debug)]
pub enum MadeEdition {
    /// An album.
    Kit(Box<Work>),
    /// A batch.
    Order(Box<BatchWork>),
}

impl MadeEdition {
    /// Everything that the maker should hear.
    #[must_use]
    pub fn findings(&self) -> &[Finding] {
        match self {
            Self::Kit(work) => &work.findings,
            Self::Order(work) => &work.findings,
        }
    }

    /// What others are compared with.
    #[must_use]
    pub fn edition(&self) -> AnyEdition {
        match self {
            Self::Kit(work) => AnyEdition::Kit(work.edition()),
            Self::Order(work) => AnyEdition::Order(work.edition()),
        }
    }

    /// Its sheets, what they are laid for, what they are cut with.
    #[must_use]
    pub fn laid(&self) -> (Order<'_>, &[StockSheets], &Cutter) {
        match self {
            Self::Kit(work) => (work.album.order(), &work.stocks, &work.cutter),
            Self::Order(work) => (work.order(), &work.stocks, &work.cutter),
        }
    }

    /// The sheets of what is cut again, and of nothing else.
    #[must_use]
    pub fn recut(self, again: Again<'_>, labels: Labels, search: Search, watch: &dyn Watch) -> Self {
        match (again, self) {
            (Again::Kit(cut), Self::Kit(work)) => Self::Kit(Box::new(work.recut(cut, labels, search, watch))),
            // An album that kits of a batch become.
            (Again::Order(cut), Self::Kit(work)) => {
                Self::Kit(Box::new(work.recut(&cut.of_album(), labels, search, watch)))
            }
            (Again::Order(cut), Self::Order(work)) => Self::Order(Box::new(work.recut(cut, labels, search, watch))),
            (Again::Kit(_), made @ Self::Order(_)) => made,
        }
    }

    /// Writes its files.
    ///
    /// # Errors
    /// The sink's, or a file that read back is not what was meant.
    pub fn write(&self, files: &Files<'_>, sink: &mut dyn Sink) -> Result<(), WriteProblem> {
        match self {
            Self::Kit(work) => work.write(files, sink),
            Self::Order(work) => work.write(files, sink),
        }
    }
}
