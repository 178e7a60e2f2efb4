// SPDX-License-Identifier: MIT
//! A line of words in which every number still knows where it comes from.
//!
//! In: words, numbers, marks of parts. Out: a [`Line`]. Never: turns a number into words on its own; that is done
//! once, in `measure`.

/// What a number of the guide measures.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum What {
    /// Width of a part, mm.
    Width,
    /// Height of a part, mm.
    Height,
    /// Distance of a score from the left edge of a part, mm.
    FromLeft,
    /// Distance of a score from the top edge of a part, mm.
    FromTop,
    /// Distance of a score from the right edge of a part, mm.
    FromRight,
    /// Distance of a score from the bottom edge of a part, mm.
    FromBottom,
    /// How many of a part are cut.
    Count,
    /// How many of a part are in the bag of one kit.
    InBag,
    /// How many whole sheets are in the bag of one kit.
    SheetsInBag,
    /// How many kits are made.
    Kits,
    /// Where the trimmer's stop stands, mm.
    Stop,
    /// Width of a sheet, or of a piece of it, mm.
    SheetWidth,
    /// Height of a sheet, or of a piece of it, mm.
    SheetHeight,
    /// How many times a sheet is cut, or how many sheets there are.
    Sheets,
    /// Length of tape, mm.
    Tape,
    /// Width of tape, mm.
    TapeWidth,
    /// Money.
    Price,
    /// Weight, g.
    Weight,
    /// Time, minutes.
    Time,
    /// Number of a page, or how many there are.
    Page,
    /// Another length of the album, mm.
    Length,
    /// How many of something else.
    Many,
}

impl What {
    /// The word in the file's data.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Width => "width",
            Self::Height => "height",
            Self::FromLeft => "from-left",
            Self::FromTop => "from-top",
            Self::FromRight => "from-right",
            Self::FromBottom => "from-bottom",
            Self::Count => "count",
            Self::InBag => "in-bag",
            Self::SheetsInBag => "sheets-in-bag",
            Self::Kits => "kits",
            Self::Stop => "stop",
            Self::SheetWidth => "sheet-width",
            Self::SheetHeight => "sheet-height",
            Self::Sheets => "sheets",
            Self::Tape => "tape",
            Self::TapeWidth => "tape-width",
            Self::Price => "price",
            Self::Weight => "weight",
            Self::Time => "time",
            Self::Page => "page",
            Self::Length => "length",
            Self::Many => "many",
        }
    }
}

/// A number as it is read, and what it is.
#[derive(Clone, Debug, PartialEq)]
pub struct Number {
    /// As it is read: `6¼ in`.
    pub shown: String,
    /// Its value in mm, g, minutes, or plainly.
    pub value: f64,
    /// What it measures.
    pub what: What,
    /// What it is a size or count of: the id of a part, a sheet's name, a stock's; empty for the album.
    pub of: String,
}

/// A bit of a line.
#[derive(Clone, Debug, PartialEq)]
pub enum Bit {
    /// Words.
    Text(String),
    /// A number.
    Number(Number),
    /// The letter that stands for a part.
    Mark(String),
}

/// A line of words.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Line(pub Vec<Bit>);

impl Line {
    /// A line of words alone, such as the maker's own.
    #[must_use]
    pub fn text(text: impl Into<String>) -> Self {
        Self(vec![Bit::Text(text.into())])
    }

    /// The letter of a part.
    #[must_use]
    pub fn mark(mark: impl Into<String>) -> Self {
        Self(vec![Bit::Mark(mark.into())])
    }

    /// As plain words.
    #[must_use]
    pub fn plain(&self) -> String {
        let bit = |bit: &Bit| match bit {
            Bit::Text(text) | Bit::Mark(text) => text.clone(),
            Bit::Number(number) => number.shown.clone(),
        };
        self.0.iter().map(bit).collect()
    }

    /// This sentence, and then another one.
    #[must_use]
    pub fn then(mut self, next: &Self) -> Self {
        self.0.push(Bit::Text(" ".into()));
        self.0.extend(next.0.iter().cloned());
        self
    }

    /// Whether there is nothing to read.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// The numbers in it.
    pub fn numbers(&self) -> impl Iterator<Item = &Number> {
        self.0.iter().filter_map(|bit| match bit {
            Bit::Number(number) => Some(number),
            Bit::Text(_) | Bit::Mark(_) => None,
        })
    }
}

impl From<Number> for Line {
    fn from(number: Number) -> Self {
        Self(vec![Bit::Number(number)])
    }
}

impl From<String> for Line {
    fn from(text: String) -> Self {
        Self::text(text)
    }
}

impl From<&str> for Line {
    fn from(text: &str) -> Self {
        Self::text(text)
    }
}
