// SPDX-License-Identifier: MIT
//! What every section of the guide is written at: the job, the words, the list with its letters.

use super::Job;
use super::bits::{Guide, Section};
use super::line::{Line, What};
use super::list::{self, Row};
use super::measure::{self, Measure};
use super::trimmer::{self, Plan};
use super::words::Words;
use crate::album::Album;
use crate::folded::{self, Folded};
use crate::length::Units;
use crate::parts::{Kit, Owner, Part};
use crate::stock::Stock;

/// Words of the page itself, looked up once.
const PAGE: [&str; 6] = ["page-contents", "page-caution", "page-maker", "page-done", "page-notes", "page-again"];

/// What the sections share.
pub(super) struct Desk<'a> {
    pub job: &'a Job<'a>,
    pub words: Words,
    pub measure: Measure,
    pub rows: Vec<Row>,
    pub folded: Folded,
    pub plans: Vec<Plan>,
}

impl<'a> Desk<'a> {
    pub(super) fn new(job: &'a Job<'a>) -> Self {
        let calipers: Vec<f64> = job.album.stocks.iter().map(|stock| stock.caliper.mm()).collect();
        Self {
            job,
            words: Words::new("en"),
            measure: Measure { units: job.album.units, both: job.both_units },
            rows: list::list(job.album, job.kit),
            folded: folded::fold(job.kit, &calipers),
            plans: trimmer::plans(job.kit, job.stocks),
        }
    }

    pub(super) fn guide(&self, sections: Vec<Section>) -> Guide {
        let album = self.job.album;
        Guide {
            title: album.title.clone(),
            maker: album.maker.clone(),
            edition: album.edition.clone(),
            notes: album.notes.clone(),
            language: self.words.language(),
            letter: is_letter(album),
            page: PAGE.into_iter().map(|name| (name, self.words.text(name))).collect(),
            sections,
        }
    }

    /// A sentence.
    pub(super) fn say(&self, key: &str, places: Vec<(&str, Line)>) -> Line {
        self.words.line(key, places)
    }

    /// A sentence without places.
    pub(super) fn tell(&self, key: &str) -> Line {
        self.words.line(key, Vec::new())
    }

    /// A length.
    pub(super) fn length(&self, mm: f64, what: What, of: &str) -> Line {
        self.measure.length(mm, what, of)
    }

    pub(super) fn kit(&self) -> &'a Kit {
        self.job.kit
    }

    pub(super) fn part(&self, number: usize) -> Option<&'a Part> {
        self.job.kit.parts.get(number)
    }

    pub(super) fn id(&self, number: usize) -> &'a str {
        self.part(number).map_or("", |part| part.id.as_str())
    }

    pub(super) fn stock(&self, number: usize) -> Option<&'a Stock> {
        self.job.album.stocks.get(number)
    }

    /// The letter of a part.
    pub(super) fn mark(&self, part: usize) -> Line {
        Line::mark(list::mark(&self.rows, part))
    }

    /// `A (pocket front)`.
    pub(super) fn named(&self, part: usize) -> Line {
        let kind = self.part(part).map_or("", |part| part.kind);
        self.say("part-named", vec![("mark", self.mark(part)), ("kind", Line::text(self.words.term(kind)))])
    }

    /// A piece by its part's letter and what it is of its page: `A (front)`.
    pub(super) fn piece(&self, number: usize) -> Line {
        let Some(piece) = self.kit().pieces.get(number) else { return Line::default() };
        let of_page = match piece.owner {
            Owner::Page(page) => format!("page {page} "),
            Owner::Spine | Owner::Cover | Owner::Insert(_) => String::new(),
        };
        let name = if of_page.is_empty() { piece.name.clone() } else { piece.name.replace(&of_page, "") };
        let places = vec![("mark", self.mark(piece.part)), ("kind", Line::text(self.words.term(&name)))];
        self.say("part-named", places)
    }

    /// The plan for a sheet, where it is cut on a trimmer.
    pub(super) fn plan(&self, sheet: &str) -> Option<&Plan> {
        self.plans.iter().find(|plan| plan.sheet == sheet)
    }

    /// `page 1`, `pages 1, 2 and 4`; the spine and the cover have no number.
    pub(super) fn pages(&self, owners: &[Owner]) -> Line {
        let mut numbers: Vec<u64> = owners
            .iter()
            .filter_map(|owner| match owner {
                Owner::Page(page) | Owner::Insert(page) => u64::try_from(*page).ok(),
                Owner::Spine | Owner::Cover => None,
            })
            .collect();
        numbers.sort_unstable();
        let list = self.words.list(numbers.iter().map(|page| measure::count(*page, What::Page, "")).collect());
        let key = if numbers.len() == 1 { "page-one" } else { "page-several" };
        self.say(key, vec![("pages", list)])
    }
}

/// Whether it prints on letter paper: where the pages' own card comes in inches it does, or else where the maker measures so.
pub(crate) fn is_letter(album: &Album) -> bool {
    let sheet = album.stocks.get(album.page.stock).and_then(|stock| stock.sheets.first());
    match sheet.map(|sheet| sheet.name.as_str()) {
        Some("letter" | "legal" | "tabloid") => true,
        Some(name) if name.starts_with(['A', 'B', 'R', 'S']) => false,
        _ => album.units == Units::In,
    }
}
