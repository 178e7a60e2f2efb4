// SPDX-License-Identifier: MIT
//! Paper for a home or office printer.

use crate::fields::words;

words! {
    /// Paper that home and office printers take.
    #[non_exhaustive]
    pub enum Paper {
        /// 8 1/2 x 11 in (ASME Y14.1).
        Letter = "letter",
        /// 11 x 17 in (ASME Y14.1).
        Tabloid = "tabloid",
        /// 210 x 297 mm (ISO 216).
        A4 = "A4",
        /// 297 x 420 mm (ISO 216).
        A3 = "A3",
    }
}

impl Paper {
    /// The paper of this name, in any mixture of small and capital letters.
    ///
    /// ```
    /// use hingeleaf::paper::Paper;
    /// assert_eq!(Paper::named("Letter"), Some(Paper::Letter));
    /// assert_eq!(Paper::named("A7"), None);
    /// ```
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|paper| paper.word().eq_ignore_ascii_case(name))
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
}
