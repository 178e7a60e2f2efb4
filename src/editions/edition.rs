// SPDX-License-Identifier: MIT
//! An edition: what is known of a kit, whether its album is at hand or only a report of it.

use super::chapters::{EditionChapter, chapters};
use super::measured_score::MeasuredScore;
use crate::album::Album;
use crate::guide::{Guide, GuideJob};
use crate::length::Units;
use crate::net::Score;
use crate::parts::{Kit, Part, PatternBlock};
use crate::sheets::{Sheet, StockSheets};
use std::collections::BTreeSet;

/// An edition of a kit.
#[derive(Clone, Debug, Default)]
pub struct Edition {
    /// Its title.
    pub title: String,
    /// What stands at the head of its guide besides: its maker, the edition's name, notes; none where that is not known.
    pub head: Option<Vec<String>>,
    /// What its maker measures in, where that is known.
    pub units: Option<Units>,
    /// How many kits its sheets are for.
    pub copies: u32,
    /// The distinct parts.
    pub parts: Vec<EditionPart>,
    /// Parts that are cut as one block, because a pattern runs on over them.
    pub blocks: Vec<EditionBlock>,
    /// The sheets, in the order of their names.
    pub sheets: Vec<EditionSheet>,
    /// The chapters of its guide; none where the guide is not at hand.
    pub chapters: Option<Vec<EditionChapter>>,
}

/// A distinct part of an edition.
#[derive(Clone, Debug)]
pub struct EditionPart {
    /// Its id.
    pub id: String,
    /// What it is: `pocket front`.
    pub kind: String,
    /// The name of its stock.
    pub stock: String,
    /// How many a kit needs.
    pub count: u32,
    /// Its width, mm.
    pub width: f64,
    /// Its height, mm.
    pub height: f64,
    /// Its area, mm².
    pub area: f64,
    /// Its scores, those from the left first.
    pub scores: Vec<MeasuredScore>,
    /// What it is used for: `page 1 front`.
    pub used_in: Vec<String>,
    /// The page of each of its pieces that belongs to one.
    pub pages: Vec<usize>,
    /// The digest of what is cut and scored: [`Flat::digest`](crate::net::Flat::digest).
    pub digest: String,
    /// The same of it upside down; none where that makes it another piece, because its stock's pattern has an up and a down.
    pub turned: Option<String>,
}

impl EditionPart {
    /// What it can be cut in place of: the same outline and scores on the same stock, upside down or not.
    #[must_use]
    pub fn cut(&self) -> (&str, &str) {
        let turned = self.turned.as_ref().unwrap_or(&self.digest);
        (turned.min(&self.digest), &self.stock)
    }

    /// Its scores upside down; none where that makes it another piece.
    pub(super) fn turned_scores(&self) -> Option<Vec<MeasuredScore>> {
        self.turned.as_ref()?;
        Some(MeasuredScore::in_order(self.scores.iter().map(|mark| mark.turned(self.width, self.height)).collect()))
    }
}

/// A block of an edition.
#[derive(Clone, Debug)]
pub struct EditionBlock {
    /// What it is for: `page 2 front`.
    pub name: String,
    /// How many a kit needs.
    pub count: u32,
    /// Whether its parts stand one above the other; else side by side.
    pub upright: bool,
    /// Its parts: their numbers, and how far each starts behind the one before it, mm.
    pub parts: Vec<(usize, f64)>,
}

/// A sheet of an edition.
#[derive(Clone, Debug)]
pub struct EditionSheet {
    /// Its name: `card-01`.
    pub name: String,
    /// The name of its stock.
    pub stock: String,
    /// How many times it is cut.
    pub times: u32,
    /// Numbers of the parts on it.
    pub parts: BTreeSet<usize>,
}

impl Edition {
    /// The same with the chapters of its guide.
    #[must_use]
    pub fn with_guide(mut self, guide: &Guide, job: &GuideJob<'_>) -> Self {
        self.chapters = Some(chapters(guide, job));
        self
    }

    /// The edition of an album that was worked out.
    #[must_use]
    pub fn of(album: &Album, kit: &Kit, stocks: &[StockSheets]) -> Self {
        let part = |(part, pages): (&Part, Vec<usize>)| {
            let flat = &part.flat;
            let mark = |score: &Score| {
                let ends = [score.from, score.to].map(|end| [end.x, end.y]);
                MeasuredScore::of(ends, score.sense, flat.height)
            };
            EditionPart {
                id: part.id.clone(),
                kind: part.kind.to_owned(),
                stock: album.order().bought(part.stock).to_owned(),
                count: part.count,
                width: flat.width,
                height: flat.height,
                area: flat.area(),
                scores: MeasuredScore::in_order(flat.scores.iter().map(mark).collect()),
                used_in: part.used_in.iter().map(ToString::to_string).collect(),
                pages,
                digest: flat.digest(),
                turned: album.serves_turned(part.stock).then(|| flat.turned(2).digest()),
            }
        };
        let block = |block: &PatternBlock| EditionBlock {
            name: block.name.to_string(),
            count: block.count,
            upright: block.upright,
            parts: block.parts.iter().map(|member| (member.part, member.behind)).collect(),
        };
        let sheet = |(stock, sheet): (usize, &Sheet)| EditionSheet {
            name: sheet.name.clone(),
            stock: album.order().bought(stock).to_owned(),
            times: sheet.times,
            parts: sheet.placements.iter().map(|placed| placed.part).collect(),
        };
        let sheets = stocks.iter().flat_map(|laid| laid.sheets.iter().map(|sheet| (laid.stock, sheet)));
        let head = album.maker.iter().chain(&album.edition).chain(&album.notes);
        Self {
            title: album.title.clone(),
            head: Some(head.cloned().collect()),
            units: Some(album.units),
            copies: album.made(),
            parts: kit.parts.iter().zip(kit.pages()).map(part).collect(),
            blocks: kit.blocks.iter().map(block).collect(),
            sheets: sheets.map(sheet).collect(),
            chapters: None,
        }
    }
}
