// SPDX-License-Identifier: MIT
//! What one buys: card, paper and board.
//!
//! In: an entry of the album file's `stocks`. Out: a [`Stock`] with its sheet sizes, caliper, grain and
//! pattern. Never: knows what is cut from it.

mod pictures;
mod read;

pub use pictures::{PictureFile, StockPictures};
pub(crate) use read::{STOCK_FIELDS, own_schema, read_own};
pub use read::{read, schema};

use crate::cutter::Cutter;
use crate::exact::Exact;
use crate::fields::words;
use crate::finding::Place;
use crate::length::Length;
use std::sync::LazyLock;

/// One stock of the album file.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Stock {
    /// Its name in the file, `[a-z0-9-]{1,32}`; with how it is cut, `card.machine`, where the file has parts of a stock cut
    /// otherwise than the rest of it.
    pub name: String,
    /// The name of that stock in the file, whose sheets it shares.
    pub shares: Option<String>,
    /// The sheets that it comes in; none only where it is ready.
    pub sheets: Vec<SheetSize>,
    /// Thickness of one sheet.
    pub caliper: Length,
    /// Where the caliper comes from.
    pub caliper_from: CaliperFrom,
    /// Grams per square metre, where known.
    pub grammage: Option<f64>,
    /// Which way the fibres run, where stated.
    pub grain: Option<Grain>,
    /// Whether it has a pattern.
    pub pattern: Pattern,
    /// Its colour as pictures show it: red, green, blue; where the maker says it.
    pub colour: Option<[u8; 3]>,
    /// Pictures of it.
    pub pictures: StockPictures,
    /// Whether what is of it is bought or made before: it has no sheets, and nothing is cut from it.
    pub ready: bool,
    /// What it is cut by.
    pub by: By,
    /// What it is cut with, where that is not what other stocks are cut with.
    pub own: Option<OwnCutter>,
    /// Where the file names it.
    pub place: Option<Place>,
}

/// A cutter of a stock's own.
#[derive(Clone, Debug)]
#[allow(clippy::large_enum_variant, reason = "there are a few of them, one a stock")]
pub enum OwnCutter {
    /// As a file has it that was not read yet.
    File {
        /// The file's name, as the album says it.
        name: String,
        /// Where it is said.
        place: Place,
    },
    /// Its settings.
    Settings(Cutter),
}

impl PartialEq for OwnCutter {
    /// Where it is said does not matter.
    fn eq(&self, other: &Self) -> bool {
        match (self, other) {
            (Self::File { name, .. }, Self::File { name: other, .. }) => name == other,
            (Self::Settings(cutter), Self::Settings(other)) => cutter == other,
            _ => false,
        }
    }
}

/// One size of sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct SheetSize {
    /// What the file calls it.
    pub name: String,
    /// Width as named.
    pub width: Length,
    /// Height as named.
    pub height: Length,
    /// How many there are, where that is limited.
    pub count: Option<u32>,
    /// Price of one.
    pub price: Option<f64>,
    /// The packs that it is sold in, where it is: their price beats that of one.
    pub pack: Option<Pack>,
    /// What the drawer calls the stock that it is of, where it lies in a drawer already: that is used first, and costs nothing.
    pub lies: Option<String>,
}

/// What is sold so many at a time.
#[derive(Clone, Debug, PartialEq)]
pub struct Pack {
    /// How many there are in it; at least one.
    pub of: u32,
    /// What it costs.
    pub price: Exact,
}

impl SheetSize {
    /// What a price is for so many sheets of: a pack, else one sheet.
    #[must_use]
    pub fn sold(&self) -> Option<Pack> {
        self.pack.clone().or_else(|| Some(Pack { of: 1, price: Exact::written(self.price?)? }))
    }

    /// What one costs, near enough to choose by and to show: its share of a pack, else its own price; nought where it lies there.
    #[must_use]
    pub fn each(&self) -> Option<f64> {
        if self.lies.is_some() {
            return Some(0.0);
        }
        self.pack.as_ref().map_or(self.price, |pack| Some(pack.price.near() / f64::from(pack.of)))
    }
}

/// A sheet as it stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stood {
    /// Width.
    pub width: Length,
    /// Height.
    pub height: Length,
    /// Whether the grain runs upright, where it is stated.
    pub grain_upright: Option<bool>,
}

/// Where a caliper comes from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum CaliperFrom {
    /// The file says it.
    Measured,
    /// Worked out from the grammage: 15 % either way.
    Grammage,
    /// Nothing is known; 0.3 mm is our choice.
    Guess,
}

words! {
    /// Direction of the fibres on a sheet.
    pub enum Grain {
        /// Along the long side; on a square sheet, its height.
        Long = "long",
        /// Along the short side; on a square sheet, its width.
        Short = "short",
        /// Along the width as named.
        Width = "width",
        /// Along the height as named.
        Height = "height",
    }
}

words! {
    /// Whether a stock looks the same whichever way it lies.
    pub enum Pattern {
        /// Plain.
        None = "none",
        /// Patterned, but without an up and a down.
        AllOver = "all-over",
        /// With an up and a down: parts are never turned.
        OneWay = "one-way",
    }
}

words! {
    /// What a stock is cut by.
    pub enum By {
        /// By a machine, from its files.
        Machine = "machine",
        /// By hand on a trimmer, from edge to edge.
        Trimmer = "trimmer",
    }
}

/// A trimmer takes nothing away and reaches every edge.
static TRIMMER: LazyLock<Cutter> = LazyLock::new(Cutter::default);

impl Stock {
    /// What it is cut with: its own cutter, else a bare trimmer where it is trimmed, else what all is cut with. A cutter file
    /// that was not read says nothing.
    #[must_use]
    pub fn cutter<'a>(&'a self, usual: &'a Cutter) -> &'a Cutter {
        match (&self.own, self.by) {
            (Some(OwnCutter::Settings(own)), _) => own,
            (_, By::Trimmer) => &TRIMMER,
            (_, By::Machine) => usual,
        }
    }

    /// Whether it stands in the file under its name: neither is cut otherwise than the rest of one that does, nor ready-made.
    #[must_use]
    pub const fn is_named(&self) -> bool {
        self.shares.is_none() && !self.ready
    }

    /// What it is called in the file.
    #[must_use]
    pub fn bought(&self) -> &str {
        self.shares.as_deref().unwrap_or(&self.name)
    }

    /// What of its sheets is cut otherwise than the rest, as a stock beside it: a cutter of its own is of its own way.
    #[must_use]
    pub(crate) fn cut_by(&self, by: By) -> Self {
        let bought = self.bought().to_owned();
        Self { name: format!("{bought}.{}", by.word()), shares: Some(bought), by, own: None, ..self.clone() }
    }

    /// Whether another one is the same to buy and to cut: equal in all but where it stands in a file.
    #[must_use]
    pub fn is_same(&self, other: &Self) -> bool {
        let Self {
            name,
            shares,
            sheets,
            caliper,
            caliper_from,
            grammage,
            grain,
            pattern,
            colour,
            pictures,
            ready,
            by,
            own,
            place: _,
        } = self;
        let of =
            (&other.name, &other.sheets, other.caliper, other.caliper_from, other.grammage, other.grain, other.pattern);
        (name, sheets, *caliper, *caliper_from, *grammage, *grain, *pattern) == of
            && (shares, by, own, ready) == (&other.shares, &other.by, &other.own, &other.ready)
            && (colour, pictures) == (&other.colour, &other.pictures)
    }

    /// The card that holds where a file names no stock: A4, 0.3 mm (our choice).
    #[must_use]
    pub(crate) fn a4_card() -> Self {
        Self {
            name: "card".into(),
            shares: None,
            sheets: vec![SheetSize {
                name: "A4".into(),
                width: Length::from_mm(210.0),
                height: Length::from_mm(297.0),
                count: None,
                price: None,
                pack: None,
                lies: None,
            }],
            caliper: Length::from_mm(0.3),
            caliper_from: CaliperFrom::Guess,
            grammage: None,
            grain: None,
            pattern: Pattern::None,
            colour: None,
            pictures: StockPictures::default(),
            ready: false,
            by: By::Machine,
            own: None,
            place: None,
        }
    }

    /// What something ready-made is of, as thick as it says. No stock of a file has a space in its name.
    #[must_use]
    pub(crate) fn ready_made(what: &str, caliper: Length, place: Option<&Place>) -> Self {
        Self {
            name: format!("ready-made {what}"),
            sheets: Vec::new(),
            caliper,
            caliper_from: CaliperFrom::Measured,
            ready: true,
            place: place.cloned(),
            ..Self::a4_card()
        }
    }

    /// A sheet of this size as it stands before the parts are laid on it: its grain upright, unless a
    /// pattern with an up and a down says how it must stand.
    #[must_use]
    pub fn stood(&self, size: &SheetSize) -> Stood {
        let upright = self.grain_upright(size);
        if self.is_turned(size) {
            Stood { width: size.height, height: size.width, grain_upright: Some(true) }
        } else {
            Stood { width: size.width, height: size.height, grain_upright: upright }
        }
    }

    /// Whether a sheet of this size stands a quarter turned, counter-clockwise, from how it is named.
    #[must_use]
    pub(crate) fn is_turned(&self, size: &SheetSize) -> bool {
        self.grain_upright(size) == Some(false) && self.pattern != Pattern::OneWay
    }

    /// Whether the grain of a sheet of this size runs along its height; nothing where no grain is stated.
    #[must_use]
    pub(crate) fn grain_upright(&self, size: &SheetSize) -> Option<bool> {
        let sold = |own: &&SheetSize| own.lies.is_none();
        let same = |own: &SheetSize| (own.width, own.height) == (size.width, size.height);
        if size.lies.is_some() && !self.sheets.iter().filter(sold).any(same) {
            // An offcut is written as it lies.
            let first = self.sheets.iter().find(sold).filter(|_| self.pattern == Pattern::OneWay);
            return first.map_or(self.grain.map(|_| true), |first| self.grain_upright(first));
        }
        let tall = size.height >= size.width;
        self.grain.map(|grain| match grain {
            Grain::Long => tall,
            Grain::Short => !tall,
            Grain::Width => false,
            Grain::Height => true,
        })
    }
}

/// The names of stocks in the file.
pub fn names(stocks: &[Stock]) -> impl Iterator<Item = &str> + Clone {
    stocks.iter().filter(|stock| stock.is_named()).map(|stock| stock.name.as_str())
}

/// Whether a name is fit for files: 1 to 32 small letters, digits and hyphens, the first no hyphen (a file of that name
/// would be taken for an option, a cell for a formula).
#[must_use]
pub(crate) fn is_name(name: &str) -> bool {
    (1..=32).contains(&name.len())
        && !name.starts_with('-')
        && name.bytes().all(|byte| matches!(byte, b'a'..=b'z' | b'0'..=b'9' | b'-'))
}
