// SPDX-License-Identifier: MIT
//! Paper for a home printer, and how much of it a printer reaches.

use crate::album::Album;
use crate::guide;
use crate::length::Length;

/// Paper that home and office printers take.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Paper {
    /// 8 1/2 x 11 in (ASME Y14.1).
    Letter,
    /// 11 x 17 in (ASME Y14.1).
    Tabloid,
    /// 210 x 297 mm (ISO 216).
    A4,
    /// 297 x 420 mm (ISO 216).
    A3,
}

impl Paper {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::Letter, Self::Tabloid, Self::A4, Self::A3];

    /// Its name, as stocks write it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Letter => "letter",
            Self::Tabloid => "tabloid",
            Self::A4 => "A4",
            Self::A3 => "A3",
        }
    }

    /// The paper of this name, in any mixture of small and capital letters.
    ///
    /// ```
    /// use hingeleaf::templates::Paper;
    /// assert_eq!(Paper::named("Letter"), Some(Paper::Letter));
    /// assert_eq!(Paper::named("A7"), None);
    /// ```
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|paper| paper.name().eq_ignore_ascii_case(name))
    }

    /// Width and height, mm.
    #[must_use]
    pub const fn size(self) -> (f64, f64) {
        match self {
            Self::Letter => (215.9, 279.4),
            Self::Tabloid => (279.4, 431.8),
            Self::A4 => (210.0, 297.0),
            Self::A3 => (297.0, 420.0),
        }
    }

    /// What an album is printed on unless it is said: letter where its guide is, else A4.
    #[must_use]
    pub fn of(album: &Album) -> Self {
        if guide::on_letter(album) { Self::Letter } else { Self::A4 }
    }
}

/// What templates are printed on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PrinterPaper {
    /// The paper.
    pub paper: Paper,
    /// What the printer leaves blank along every edge.
    pub margin: Length,
}

impl PrinterPaper {
    /// What an album's templates are printed on unless it is said: 1/4 in along every edge is what most printers need at
    /// most (common practice, no source).
    #[must_use]
    pub fn of(album: &Album) -> Self {
        Self { paper: Paper::of(album), margin: Length::from_mm(6.35) }
    }

    /// The largest margin that leaves anything to print on, mm: our choice.
    pub const MOST_MARGIN: f64 = 15.0;
}
