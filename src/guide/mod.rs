// SPDX-License-Identifier: MIT
//! The guide: what the maker hands to the next pair of hands.
//!
//! In: an album, its kit, how it goes together, its sheets. Out: a [`Guide`]: sections of words, tables, steps, pictures, every
//! number in them still knowing what it is. Never: a file format, a word of its own (those are in `words/en.ftl`).

mod assembly;
mod bits;
mod cautions;
mod cutting;
mod desk;
mod draw;
mod folding;
mod given;
pub mod joints;
mod line;
pub mod list;
pub mod measure;
mod need;
mod pictures;
pub mod scoring;
mod shaping;
pub mod trimmer;
mod words;

pub use bits::{Block, Figure, Guide, Section, Step, Table};
pub use line::{Bit, Line, Number, What};
pub use words::Words;

use crate::album::Album;
use crate::fit::Fit;
use crate::parts::Kit;
use crate::sheets::StockSheets;
use desk::Desk;
pub(crate) use desk::is_letter as on_letter;

/// What a guide is made from.
#[derive(Clone, Copy, Debug)]
pub struct Job<'a> {
    /// The album.
    pub album: &'a Album,
    /// Its parts.
    pub kit: &'a Kit,
    /// How it goes together.
    pub fit: &'a Fit,
    /// Its sheets.
    pub stocks: &'a [StockSheets],
    /// Whether lengths stand in both systems.
    pub both_units: bool,
}

/// The guide of a kit.
#[must_use]
pub fn guide(job: &Job<'_>) -> Guide {
    let desk = Desk::new(job);
    let mut sections = vec![given::section(&desk), need::section(&desk), cutting::section(&desk)];
    sections.extend(shaping::section(&desk));
    sections.extend(scoring_section(&desk));
    sections.extend(folding::section(&desk));
    sections.extend(assembly::sections(&desk));
    sections.push(cautions::last(&desk));
    desk.guide(sections)
}

/// What a person who has made one before keeps at hand: the list, the scores, the order, on one page.
#[must_use]
pub fn card(job: &Job<'_>) -> Guide {
    let desk = Desk::new(job);
    let sections = vec![need::short(&desk), cutting::short(&desk), assembly::short(&desk), cautions::last(&desk)];
    desk.guide(sections)
}

fn scoring_section(desk: &Desk<'_>) -> Option<Section> {
    folding::scoring(desk)
}
