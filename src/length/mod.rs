// SPDX-License-Identifier: MIT
//! A length that carries its unit, for everything the outside world sees.
//!
//! In: millimetres, inches, eighths of a micrometre, or text such as `8 1/2 in` and `21.6 cm`. Out: the same
//! length in any of them, and text a person with a ruler can use. Never: panics, rounds what is kept (only what is
//! printed is rounded), guesses at a unit it does not know, or reads a comma as a decimal point.

mod arithmetic;
mod parse;
mod print;
mod ruler_marks;
pub mod tolerance;

pub(crate) use parse::excerpt;
pub use parse::parse;
pub use print::Ruler;

/// Eighths of a micrometre in a millimetre. With them 1/64 in is a whole number, 3175.
pub const EIGHTHS_PER_MM: f64 = 8000.0;

/// The international inch of 1959, exactly.
pub const MM_PER_INCH: f64 = 25.4;

/// Anything longer is a slip of the pen: 100 m, in millimetres. Our choice.
const LONGEST_MM: f64 = 100_000.0;

/// A distance in millimetres; may be negative.
///
/// What comes from [`Length::parse`] and [`Length::from_number`] is finite and at most 100 m. Arithmetic is plain
/// `f64` arithmetic and is not checked again.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd, Default)]
pub struct Length(f64);

impl Length {
    /// No length at all.
    pub const ZERO: Self = Self(0.0);

    /// A length given in millimetres.
    #[must_use]
    pub const fn from_mm(mm: f64) -> Self {
        Self(mm)
    }

    /// A length given in inches of exactly 25.4 mm (the international inch, 1959).
    ///
    /// ```
    /// use hingeleaf::length::Length;
    /// assert_eq!(Length::from_inches(8.5), Length::from_mm(215.9));
    /// ```
    #[must_use]
    pub fn from_inches(inches: f64) -> Self {
        Self::from_ratio(inches, 1.0, INCH)
    }

    /// `num / den` of a unit that is `unit.0 / unit.1` mm. Everything but the one division is exact for the numbers
    /// people write, so equal lengths get equal bits however they were written.
    fn from_ratio(num: f64, den: f64, unit: (f64, f64)) -> Self {
        Self(num * unit.0 / (den * unit.1))
    }

    /// This length in millimetres.
    #[must_use]
    pub const fn mm(self) -> f64 {
        self.0
    }

    /// This length in inches of exactly 25.4 mm.
    ///
    /// ```
    /// use hingeleaf::length::Length;
    /// let pixels = Length::from_mm(304.8).inches() * 96.0; // 96 to the inch in SVG
    /// assert!((pixels - 1152.0).abs() < 1e-9);
    /// ```
    #[must_use]
    pub fn inches(self) -> f64 {
        self.0 / MM_PER_INCH
    }

    /// This length in whole eighths of a micrometre, rounded to the nearest. What does not fit becomes the largest
    /// or smallest number that does.
    ///
    /// ```
    /// use hingeleaf::length::Length;
    /// assert_eq!(Length::from_inches(1.0 / 64.0).eighths(), 3175);
    /// assert_eq!(Length::from_mm(210.0).eighths(), 1_680_000);
    /// ```
    #[must_use]
    #[allow(clippy::cast_possible_truncation, reason = "`as` saturates, which is what is promised")]
    pub fn eighths(self) -> i64 {
        (self.0 * EIGHTHS_PER_MM).round() as i64
    }

    /// A length given in whole eighths of a micrometre.
    ///
    /// ```
    /// use hingeleaf::length::Length;
    /// assert_eq!(Length::from_eighths(3175 * 64), Length::from_mm(25.4));
    /// ```
    #[must_use]
    #[allow(clippy::cast_precision_loss, reason = "exact up to 2^53 eighths, which is more than 1000 km")]
    pub fn from_eighths(eighths: i64) -> Self {
        Self(eighths as f64 / EIGHTHS_PER_MM)
    }

    /// A bare number, such as one in an album file, in the unit `bare`.
    ///
    /// # Errors
    /// [`LengthError::NotFinite`] and [`LengthError::TooLong`].
    ///
    /// ```
    /// use hingeleaf::length::{Length, Units};
    /// assert_eq!(Length::from_number(21.6, Units::Cm)?, Length::from_mm(216.0));
    /// assert!(Length::from_number(f64::NAN, Units::Mm).is_err());
    /// # Ok::<(), hingeleaf::length::LengthError>(())
    /// ```
    pub fn from_number(value: f64, bare: Units) -> Result<Self, LengthError> {
        if !value.is_finite() {
            return Err(LengthError::NotFinite { found: value.to_string() });
        }
        let length = Self::from_ratio(value, 1.0, bare.ratio());
        if length.0.abs() <= LONGEST_MM {
            Ok(length)
        } else {
            Err(LengthError::TooLong { found: excerpt(&format!("{value} {}", bare.name())) })
        }
    }

    /// Reads a length a person wrote; the same as [`parse()`].
    ///
    /// # Errors
    /// See [`LengthError`].
    ///
    /// ```
    /// use hingeleaf::length::{Allow, Length, Units};
    /// assert_eq!(Length::parse("8 1/2 in", Units::Mm, Allow::Plain)?, Length::from_mm(215.9));
    /// # Ok::<(), hingeleaf::length::LengthError>(())
    /// ```
    pub fn parse(text: &str, bare: Units, allow: Allow) -> Result<Self, LengthError> {
        parse(text, bare, allow)
    }

    /// The larger of two lengths.
    #[must_use]
    pub const fn max(self, other: Self) -> Self {
        Self(self.0.max(other.0))
    }

    /// The smaller of two lengths.
    #[must_use]
    pub const fn min(self, other: Self) -> Self {
        Self(self.0.min(other.0))
    }

    /// This length without its sign.
    #[must_use]
    pub const fn abs(self) -> Self {
        Self(self.0.abs())
    }
}

/// Millimetres in an inch, as a ratio of whole numbers.
const INCH: (f64, f64) = (127.0, 5.0);

/// The unit of bare numbers in a file, and the one a person wants to read.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum Units {
    /// Millimetres.
    #[default]
    Mm,
    /// Centimetres.
    Cm,
    /// Inches.
    In,
}

impl Units {
    /// All of them, in the order they are listed to people.
    pub const ALL: [Self; 3] = [Self::Mm, Self::Cm, Self::In];

    /// The unit of this name: `mm`, `cm` or `in`, and nothing else.
    ///
    /// ```
    /// use hingeleaf::length::Units;
    /// assert_eq!(Units::parse("in"), Some(Units::In));
    /// assert_eq!(Units::parse("inch"), None);
    /// ```
    #[must_use]
    pub fn parse(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|unit| unit.name() == name)
    }

    /// Its name, as in `216 mm`.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Mm => "mm",
            Self::Cm => "cm",
            Self::In => "in",
        }
    }

    /// Millimetres in this unit, as a ratio of whole numbers.
    const fn ratio(self) -> (f64, f64) {
        match self {
            Self::Mm => (1.0, 1.0),
            Self::Cm => (10.0, 1.0),
            Self::In => INCH,
        }
    }
}

/// Which units a text may use beside `mm`, `cm` and `in`.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum Allow {
    /// None.
    #[default]
    Plain,
    /// Points of caliper: `12 pt` is 0.012 in (the paper trade's definition: 0.001 in each, not the 1/72 in of type).
    Caliper,
}

/// Why a text or number is no length. `found` is what was written, shortened where it is long.
///
/// Displayed, it says what was found and then how to write it, in the words that `words` has for it.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum LengthError {
    /// Nothing but spaces.
    Empty,
    /// Does not begin with a number.
    NoNumber {
        /// What was written.
        found: String,
    },
    /// Infinite, or not a number.
    NotFinite {
        /// What was written.
        found: String,
    },
    /// A fraction of no parts, such as 1/0.
    ZeroDenominator {
        /// What was written.
        found: String,
    },
    /// A fraction that is not two whole numbers, or one that is not less than 1 after a whole number.
    BadFraction {
        /// What was written.
        found: String,
    },
    /// A comma in the number.
    Comma {
        /// What was written.
        found: String,
        /// The number with a point.
        pointed: String,
        /// The number with no comma, where the comma may have parted thousands.
        joined: Option<String>,
    },
    /// A unit that is not `mm`, `cm` or `in`.
    UnknownUnit {
        /// What was written.
        found: String,
        /// The unit in it.
        unit: String,
        /// The same length written with the nearest known unit.
        instead: Option<String>,
    },
    /// Points, where a caliper is not asked for.
    Point {
        /// What was written.
        found: String,
    },
    /// Feet.
    Feet {
        /// What was written.
        found: String,
    },
    /// More than one unit.
    TwoUnits {
        /// What was written.
        found: String,
    },
    /// More than one number.
    TwoNumbers {
        /// What was written.
        found: String,
    },
    /// More than 100 m.
    TooLong {
        /// What was written.
        found: String,
    },
}
