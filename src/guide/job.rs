// SPDX-License-Identifier: MIT
//! What a guide is made from.

use crate::album::{Album, Language};
use crate::cost::Cost;
use crate::cutter::Cutter;
use crate::fit::Fit;
use crate::parts::Kit;
use crate::sheets::StockSheets;
use crate::toolpath::SheetPaths;

/// What a guide is made from.
#[derive(Clone, Copy, Debug)]
pub struct GuideJob<'a> {
    /// The album.
    pub album: &'a Album,
    /// The language that it speaks: the album's, unless somebody else reads it.
    pub language: Language,
    /// Its parts.
    pub kit: &'a Kit,
    /// How it goes together.
    pub fit: &'a Fit,
    /// Its sheets.
    pub stocks: &'a [StockSheets],
    /// The machine.
    pub cutter: &'a Cutter,
    /// What it does on each sheet; empty where that is not worked out.
    pub paths: &'a [SheetPaths],
    /// What stands for each part, where that is settled by an order of several kits.
    pub letters: Option<&'a [String]>,
    /// Whether lengths stand in both systems.
    pub both_units: bool,
    /// What it may be made as instead, where its pages are chosen: tape is enough for any of these.
    pub others: &'a [(&'a Album, &'a Kit)],
    /// What it costs, for the job sheet.
    pub cost: Option<&'a Cost>,
}
