// SPDX-License-Identifier: MIT
//! Which words a machine draws on parts, on which side, with how broad a pen.

use crate::fields::words;
use crate::length::Length;

words! {
    /// Which words are drawn on each part.
    pub enum DrawnText {
        /// Its name, and the number of the copy.
        Names = "names",
        /// That, and its size below it.
        Sizes = "names-and-sizes",
        /// That, and the title above it.
        All = "titles-names-and-sizes",
        /// None.
        Nothing = "nothing",
    }
}

words! {
    /// On which side of the card words are drawn.
    pub enum TextSide {
        /// On the front, as all marks are.
        Front = "front",
        /// On the back, by a file of its own.
        Back = "back",
    }
}

/// How words are drawn.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Writing {
    /// Which words.
    pub text: DrawnText,
    /// On which side.
    pub side: TextSide,
    /// How broad the pen's line is.
    pub pen: Length,
}

/// The pen of which nothing is said, mm and in: our choice.
pub(super) const USUAL_PEN: (f64, f64) = (0.4, 0.016);

impl Default for Writing {
    fn default() -> Self {
        Self { text: DrawnText::Names, side: TextSide::Front, pen: Length::from_mm(USUAL_PEN.0) }
    }
}
