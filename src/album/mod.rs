// SPDX-License-Identifier: MIT
//! The album file: its checked model.
//!
//! In: a file's text, and the kinds that there are. Out: an [`Album`] with every default filled in, or
//! findings for all that is wrong with the file. Never: works out a part.

mod edges;
mod file_fields;
mod hand_over;
mod kind;
mod label_grid;
mod named_kinds;
mod offcut;
mod order;
mod paper;
mod read;
mod schema;
mod sizes;
mod spares;
mod starter;

pub use edges::{AskedEdge, CornerWord, EdgeDone, FinishWord};
pub(crate) use edges::{EDGE_DEPTH, EDGE_FIELDS, EDGE_SIZE, EDGES};
pub use file_fields::{FORMAT, REVEAL, WIDTH};
pub(crate) use file_fields::{HANDED_OVER, ON, PAGE_FIELDS, PANEL_FIELDS, RUNS_ON, SEAM, TAPE, TOP_FIELDS};
pub use hand_over::Handed;
pub(crate) use hand_over::{read as read_handed_over, schema as handed_over_schema};
pub use kind::{COUNT, EntryGrain, GRAIN, Kind, Role, STOCK};
pub(crate) use kind::{INSERT_PAGES, KIND};
pub use label_grid::LabelGrid;
pub(crate) use offcut::FOLLOWS;
pub use order::Order;
pub(crate) use read::MOST_INSERTS;
pub use read::{read, read_changed, read_choice};
pub(crate) use schema::entry_schema;
pub use schema::schema;
pub use sizes::left_out;
pub use spares::{MoreParts, Spares};
pub(crate) use spares::{SPARE_FIELDS, SPARES, read as read_spares, schema as spares_schema};
pub use starter::starter;

use crate::drawer::NamedDrawer;
use crate::fields::{Held, Key, Values, words};
use crate::finding::{Arg, Finding, Place};
use crate::length::{Length, Ruler, Units};
use crate::outline::Outlined;
use crate::selling::Terms;
use crate::stock::Stock;

/// One album, checked: every stock number is in range, and every value within its field's range.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Album {
    /// Its name.
    pub title: String,
    /// Who designed it, where the file says so.
    pub maker: Option<String>,
    /// Its edition, where the file says so.
    pub edition: Option<String>,
    /// What the maker tells those who put it together.
    pub notes: Vec<String>,
    /// What its entries may be of: the built-in kinds, and its own.
    pub kinds: Vec<&'static Kind>,
    /// What the maker measures in.
    pub units: Units,
    /// How many kits to make.
    pub copies: u32,
    /// What is made besides, for what goes wrong, where the file says so.
    pub spares: Option<Spares>,
    /// In what state they are handed over, stock by stock, where the file says it of any.
    pub handed_over: Option<Vec<Handed>>,
    /// Where it is bound, seen from its front.
    pub bound: Bound,
    /// The language of what is handed over.
    pub language: Language,
    /// The stocks, in the file's order; never empty.
    pub stocks: Vec<Stock>,
    /// The size of a page.
    pub page: PageSize,
    /// The pages in order; never empty.
    pub pages: Vec<Entry>,
    /// What carries them.
    pub spine: Entry,
    /// What goes round them.
    pub cover: Option<Entry>,
    /// Decorative panels, if there are any.
    pub panels: Option<Panels>,
    /// What goes into the pockets.
    pub inserts: Vec<Entry>,
    /// The sheets of labels, where the file says how they are.
    pub labels: Option<LabelGrid>,
    /// What lies in the drawer, where the file names one.
    pub drawer: Option<NamedDrawer>,
    /// What the file says of buying and selling.
    pub terms: Terms,
    /// How far off a cut or score may be when it is made by hand.
    pub tolerance: Length,
    /// What sizes were rounded to, where they were: sizes that are worked out are then multiples of it too.
    pub step: Option<Length>,
    /// What its cover goes round at least, where it is made for other pages as well; no file says it.
    pub cover_room: Option<CoverRoom>,
}

/// What a cover has to go round, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
#[non_exhaustive]
pub struct CoverRoom {
    /// From the foot of the pages to the fore-edge of the cover.
    pub reach: f64,
    /// Its spine.
    pub spine: f64,
}

impl CoverRoom {
    /// So much of both.
    #[must_use]
    pub(crate) const fn new(reach: f64, spine: f64) -> Self {
        Self { reach, spine }
    }

    /// What is enough for either.
    #[must_use]
    pub(crate) const fn or(self, other: Self) -> Self {
        Self { reach: self.reach.max(other.reach), spine: self.spine.max(other.spine) }
    }
}

words! {
    /// The edge at which an album is bound, seen from its front, its head up.
    pub enum Bound {
        /// As most are: read from left to right.
        Left = "left",
        /// Read from right to left.
        Right = "right",
        /// Its pages turn over the top. It is described, made and checked as if it were bound at the left, and a quarter turned
        /// then: widths run from the spine down, and what stands upright has its up towards the left of its part. It is read
        /// laid open, the back of a page above and the front of the next one below.
        Top = "top",
    }
}

words! {
    /// A language in which what is handed over is written; its word is its tag (BCP 47).
    pub enum Language {
        /// English.
        English = "en",
        /// German.
        German = "de",
    }
}

/// The size of every page.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct PageSize {
    /// From spine to fore-edge.
    pub width: Length,
    /// From tail to head.
    pub height: Length,
    /// The strip that takes tape or glue.
    pub seam: Length,
    /// Width of the tape that sticks it, where that is known.
    pub tape: Option<Length>,
    /// Number of its stock.
    pub stock: usize,
    /// Where the file says so.
    pub values: Values,
}

/// Panels of patterned paper on the faces.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Panels {
    /// The border of card left showing.
    pub reveal: Length,
    /// Numbers of their stocks in the order in which they take turns; never empty. One that stands in it twice has two turns.
    pub stocks: Vec<usize>,
    /// What they are on.
    pub on: Decorated,
    /// Whether the pattern runs on over the pieces of a page's side.
    pub runs_on: bool,
    /// Where the file says so.
    pub values: Values,
}

words! {
    /// What panels are stuck on.
    pub enum Decorated {
        /// The pages and the cover.
        Everything = "everything",
        /// The pages alone.
        Pages = "pages",
        /// The cover alone.
        Cover = "cover",
    }
}

impl Panels {
    /// Whether the pages have panels.
    #[must_use]
    pub(crate) fn on_pages(&self) -> bool {
        self.on != Decorated::Cover
    }

    /// Whether the cover has panels.
    #[must_use]
    pub(crate) fn on_cover(&self) -> bool {
        self.on != Decorated::Pages
    }
}

/// A page, spine, cover or insert.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Entry {
    /// Which kind.
    pub kind: &'static Kind,
    /// Its fields.
    pub values: Values,
    /// Number of its stock.
    pub stock: usize,
    /// Whether its grain must run along the spine: as the file says, if it does.
    pub grain_along_spine: Option<bool>,
    /// Its outline, where a drawing shows it.
    pub outline: Option<Outlined>,
    /// What is done to its edges and corners.
    pub edges: Vec<AskedEdge>,
}

impl Entry {
    /// A length in mm, as geometry wants it.
    #[must_use]
    pub fn mm(&self, key: Key<Length>) -> f64 {
        self.get(key).mm()
    }

    /// What one of its fields holds.
    #[must_use]
    pub fn get<T: Held>(&self, key: Key<T>) -> T::Read<'_> {
        self.values.get(key)
    }

    /// How many of an insert a kit has; none as long as it is not known how many, or how large ones, come free.
    #[must_use]
    pub fn count(&self) -> u32 {
        if self.follows_offcuts() { 0 } else { self.get(COUNT).unwrap_or(0) }
    }

    /// Whether there are to be as many as come free.
    #[must_use]
    pub(crate) fn is_spare(&self) -> bool {
        self.get(COUNT).is_none()
    }

    /// Where the entry stands.
    #[must_use]
    pub const fn place(&self) -> Option<&Place> {
        self.values.whole()
    }
}

impl Album {
    /// The outlines of all entries that have one.
    pub fn outlines(&mut self) -> impl Iterator<Item = &mut Outlined> {
        self.inserts.iter_mut().filter_map(|entry| entry.outline.as_mut())
    }

    /// Draws its outlines from the drawings that are known of `before`, whatever size is asked of them by now; all that there is to
    /// say of that comes back.
    pub fn draw_like(&mut self, before: &Self) -> Vec<Finding> {
        let known: Vec<&Outlined> = before.inserts.iter().filter_map(|entry| entry.outline.as_ref()).collect();
        let mut findings = Vec::new();
        for outlined in self.outlines() {
            let same = known.iter().find(|known| known.asked.file == outlined.asked.file);
            if let Some(drawing) = same.and_then(|known| known.drawing.clone()) {
                findings.extend(outlined.draw(drawing));
            }
        }
        findings
    }

    /// The name of a stock; empty where there is no such number.
    #[must_use]
    pub fn stock_name(&self, number: usize) -> &str {
        self.stocks.get(number).map_or("", |stock| stock.name.as_str())
    }

    /// Whether a part of a stock serves as well upside down: not where its pattern has an up and a down.
    #[must_use]
    pub fn serves_turned(&self, stock: usize) -> bool {
        self.order().serves_turned(stock)
    }

    /// Whether what is of a stock is bought or made before, so that nothing is cut from it.
    #[must_use]
    pub fn is_ready(&self, stock: usize) -> bool {
        self.stocks.get(stock).is_some_and(|stock| stock.ready)
    }

    /// How thick a stock is, mm, as geometry wants it.
    #[must_use]
    pub fn caliper(&self, number: usize) -> f64 {
        self.stocks.get(number).map_or(0.0, |stock| stock.caliper.mm())
    }

    /// A length, mm, as findings say it: in the maker's units.
    #[must_use]
    pub fn length(&self, mm: f64) -> Arg {
        Arg::Length(Length::from_mm(mm), self.units)
    }

    /// A length that was measured rather than chosen, mm, as findings say it.
    #[must_use]
    pub fn rough(&self, mm: f64) -> Arg {
        Arg::Roughly(Length::from_mm(mm), self.units)
    }

    /// A length in the maker's units, to the nearest 1/64 in.
    #[must_use]
    pub fn show(&self, mm: f64) -> String {
        Length::from_mm(mm).show(self.units, Ruler::SixtyFourth)
    }

    /// A length that was measured rather than chosen, in the maker's units: to 0.1 mm or 1/64 in.
    #[must_use]
    pub fn roughly(&self, mm: f64) -> String {
        self.show(Length::from_mm(mm).read_off(self.units).mm())
    }
}
