// SPDX-License-Identifier: MIT
//! Lengths as people read them.
//!
//! In: a length, a unit, and how finely the reader's ruler is divided. Out: text. Never: `-0`, a rounding of inches
//! passed over in silence by [`Length::show`], a panic, whatever the number.

use super::{Length, Units};

/// How finely a reader's inch ruler is divided.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Default)]
pub enum Ruler {
    /// Sixteenths of an inch.
    #[default]
    Sixteenth,
    /// Thirty-seconds of an inch.
    ThirtySecond,
    /// Sixty-fourths of an inch.
    SixtyFourth,
}

impl Ruler {
    /// Divisions to the inch.
    const fn divisions(self) -> u32 {
        match self {
            Self::Sixteenth => 16,
            Self::ThirtySecond => 32,
            Self::SixtyFourth => 64,
        }
    }
}

/// A fraction that is less than this off, in, is the length itself: lengths are kept to an eighth of a micrometre.
const EXACT: f64 = 1e-6;

/// Less is not seen in three decimals, mm.
const HALF_A_MICROMETRE: f64 = 0.0005;

/// Where whole 64ths of an inch no longer count exactly; beyond it inches are printed as decimals.
const MOST_INCHES: f64 = 1e12;

/// What stands for a number that is none.
const NO_LENGTH: &str = "no length";

impl Length {
    /// This length for a person, with its unit.
    ///
    /// Millimetres have at most three decimals, centimetres four. Inches are a reduced fraction, to the nearest
    /// mark of the ruler; where that is not the true length, a remark says by how many millimetres the printed size
    /// is over or under the true one (of a negative length: its size without the sign). Differences under 0.0005 mm
    /// are not spoken of. What is too small for the ruler's first mark, a caliper say, is given in decimals of an
    /// inch instead, at most four.
    ///
    /// ```
    /// use hingeleaf::length::{Length, Ruler, Units};
    /// let width = Length::from_mm(148.0);
    /// assert_eq!(width.show(Units::Mm, Ruler::Sixteenth), "148 mm");
    /// assert_eq!(width.show(Units::Cm, Ruler::Sixteenth), "14.8 cm");
    /// assert_eq!(width.show(Units::In, Ruler::Sixteenth), "5 13/16 in (0.36 mm under)");
    /// assert_eq!(Length::from_inches(8.5).show(Units::In, Ruler::Sixteenth), "8 1/2 in");
    /// assert_eq!(Length::from_mm(0.35).show(Units::In, Ruler::Sixteenth), "0.0138 in");
    /// ```
    #[must_use]
    pub fn show(self, units: Units, ruler: Ruler) -> String {
        if !self.mm().is_finite() {
            return NO_LENGTH.into();
        }
        let den = ruler.divisions();
        let count = match units {
            Units::Mm | Units::Cm => None,
            Units::In => divisions(self, den),
        };
        let Some(count) = count else {
            return format!("{} {}", self.plain(units), units.name());
        };
        let over = inches_of(count, den).abs() - self.abs();
        if count == 0 && over.abs().mm() >= HALF_A_MICROMETRE {
            return format!("{} in", decimals(self.inches(), 4));
        }
        let size = over.abs().mm();
        let side = if over > Self::ZERO { "over" } else { "under" };
        let fraction = fraction(count, den);
        if size < HALF_A_MICROMETRE {
            format!("{fraction} in")
        } else {
            let places = if size < 0.005 { 3 } else { 2 };
            format!("{fraction} in ({} mm {side})", decimals(size, places))
        }
    }

    /// This length for a table: a number or a fraction with neither unit nor remark.
    ///
    /// Millimetres have at most three decimals, centimetres four. Inches are a fraction of the smallest denominator
    /// from 1, 2, 4 to 64 that is true within a millionth of an inch, else the nearest 64th.
    ///
    /// ```
    /// use hingeleaf::length::{Length, Units};
    /// assert_eq!(Length::from_mm(0.35).plain(Units::Mm), "0.35");
    /// assert_eq!(Length::from_inches(8.5).plain(Units::In), "8 1/2");
    /// assert_eq!(Length::from_mm(148.0).plain(Units::In), "5 53/64");
    /// ```
    #[must_use]
    pub fn plain(self, units: Units) -> String {
        if !self.mm().is_finite() {
            return NO_LENGTH.into();
        }
        match units {
            Units::Mm => decimals(self.mm(), 3),
            Units::Cm => decimals(self.mm() / 10.0, 4),
            Units::In => {
                let exact = [1, 2, 4, 8, 16, 32].into_iter().find_map(|den| {
                    let count = divisions(self, den)?;
                    ((inches_of(count, den) - self).abs().inches() <= EXACT).then(|| fraction(count, den))
                });
                exact.or_else(|| Some(fraction(divisions(self, 64)?, 64))).unwrap_or_else(|| decimals(self.inches(), 4))
            }
        }
    }
}

/// At most so many decimals, no trailing zeros, never `-0`.
fn decimals(number: f64, places: usize) -> String {
    let text = format!("{number:.places$}");
    let short = if text.contains('.') { text.trim_end_matches('0').trim_end_matches('.') } else { &text };
    if short == "-0" { "0".into() } else { short.into() }
}

/// The nearest whole number of `den`-ths of an inch, or none where they no longer count exactly.
#[allow(clippy::cast_possible_truncation, reason = "at most 64e12 in size")]
fn divisions(length: Length, den: u32) -> Option<i64> {
    let inches = length.inches();
    (inches.abs() <= MOST_INCHES).then(|| (inches * f64::from(den)).round() as i64)
}

/// The length of `count` `den`-ths of an inch.
#[allow(clippy::cast_precision_loss, reason = "at most 64e12 in size, which f64 holds exactly")]
fn inches_of(count: i64, den: u32) -> Length {
    Length::from_inches(count as f64 / f64::from(den))
}

/// `count / den` as a whole number and a reduced fraction: `-8 1/2`, `5/16`, `0`.
fn fraction(count: i64, den: u32) -> String {
    let sign = if count < 0 { "-" } else { "" };
    let (count, den) = (count.unsigned_abs(), u64::from(den));
    let (whole, num) = (count / den, count % den);
    // A power of two, so the common factor is the lower of the two counts of trailing zeros.
    let shift = num.trailing_zeros().min(den.trailing_zeros());
    match (whole, num) {
        (whole, 0) => format!("{sign}{whole}"),
        (0, num) => format!("{sign}{}/{}", num >> shift, den >> shift),
        (whole, num) => format!("{sign}{whole} {}/{}", num >> shift, den >> shift),
    }
}
