// SPDX-License-Identifier: MIT
//! Numbers as a person at the worktable reads them.
//!
//! In: millimetres, counts, money, grams. Out: [`Number`]s. Never: a decimal inch, a tenth of a millimetre more than a
//! ruler has, but for a machine's settings.

use super::line::{Line, Number, What};
use crate::length::tolerance::SAME;
use crate::length::{Length, Units};
use crate::picture::set;

/// The thin space before a unit.
pub(super) const THIN: char = '\u{2009}';

/// Sizes nearer than this to a mark of the ruler lie on it, mm: our choice.
const ON_MARK: f64 = 0.02;

/// Millimetres to an inch.
const INCH: f64 = 25.4;

/// How a language writes numbers and units, where that differs from one to the next; the usual is English.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct NumberSigns {
    /// Between whole and decimals.
    pub decimal: String,
    /// An inch.
    pub inch: String,
    /// A foot.
    pub foot: String,
    /// An hour.
    pub hour: String,
}

impl Default for NumberSigns {
    fn default() -> Self {
        Self { decimal: ".".into(), inch: "in".into(), foot: "ft".into(), hour: "h".into() }
    }
}

impl NumberSigns {
    /// A number, or a length that [`set`] set, as the language writes it.
    #[must_use]
    pub fn write(&self, shown: &str) -> String {
        let inches = shown.strip_suffix("in").filter(|number| number.ends_with([THIN, ' ']));
        let shown = inches.map_or_else(|| shown.to_owned(), |number| format!("{number}{}", self.inch));
        shown.replace('.', &self.decimal)
    }
}

/// How lengths are shown.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Measure {
    /// The maker's units.
    pub units: Units,
    /// Whether the other system stands beside them.
    pub both: bool,
    /// How the language writes them.
    pub notation: NumberSigns,
}

impl Measure {
    /// A length with its unit: `147.6 mm`, `6¼ in`, `7 5/16 in`.
    #[must_use]
    pub fn show(&self, mm: f64) -> String {
        let own = self.own(mm);
        if !self.both {
            return own;
        }
        format!("{own} ({})", self.other().own(mm))
    }

    /// The same in the maker's units alone.
    #[must_use]
    pub fn alone(&self) -> Self {
        Self { both: false, ..self.clone() }
    }

    /// The same in the other system alone.
    #[must_use]
    pub fn other(&self) -> Self {
        let units = if self.units == Units::In { Units::Mm } else { Units::In };
        Self { units, ..self.alone() }
    }

    /// The same without the other system, for pictures.
    #[must_use]
    pub fn own(&self, mm: f64) -> String {
        self.notation.write(&one(mm, self.units))
    }

    /// The same in both systems, for what is sold in either.
    #[must_use]
    pub fn show_both(&self, mm: f64) -> String {
        Self { both: true, ..self.clone() }.show(mm)
    }

    /// A length as a number of the guide.
    #[must_use]
    pub fn length(&self, mm: f64, what: What, of: &str) -> Line {
        number(self.show(mm), mm, what, of)
    }

    /// A small length of a machine, to a hundredth of a millimetre. Where an inch ruler has no such mark, it stands in millimetres: nobody sets a
    /// machine to the nearest 64th.
    #[must_use]
    pub fn fine(&self, mm: f64, what: What, of: &str) -> Line {
        let exact = |own: &Self| match own.units {
            Units::Mm => Some(set(&format!("{} mm", rounded(mm, 100.0)))),
            Units::Cm => Some(set(&format!("{} cm", rounded(mm / 10.0, 1000.0)))),
            Units::In => is_64th(mm).then(|| own.own(mm)),
        };
        let mm_only = Self { units: Units::Mm, ..self.alone() };
        let own = exact(self).or_else(|| exact(&mm_only)).unwrap_or_default();
        let other = self.both.then(|| exact(&self.other())).flatten().filter(|other| *other != own);
        let shown = other.map_or_else(|| own.clone(), |other| format!("{own} ({other})"));
        number(self.notation.write(&shown), mm, what, of)
    }

    /// A length of tape: whole centimetres or inches up to a metre or a yard, then metres or feet to one decimal.
    #[must_use]
    pub fn run(&self, mm: f64, of: &str) -> Line {
        let (length, unit) = if self.units == Units::In {
            ((mm / INCH / 12.0 * 10.0).ceil() / 10.0, self.notation.foot.as_str())
        } else {
            ((mm / 100.0).ceil() / 10.0, "m")
        };
        number(self.with_unit(length, unit), mm, What::Tape, of)
    }

    /// Money, in the maker's own.
    #[must_use]
    pub fn price(&self, amount: f64) -> Line {
        number(self.notation.write(&format!("{amount:.2}")), amount, What::Price, "")
    }

    /// A weight: grams, to the nearest; from a kilogram on to a tenth of that.
    #[must_use]
    pub fn weight(&self, grams: f64) -> Line {
        let rounded = grams.round();
        let shown = if rounded < 1000.0 {
            self.with_unit(rounded, "g")
        } else {
            self.with_unit((grams / 100.0).round() / 10.0, "kg")
        };
        number(shown, grams, What::Weight, "")
    }

    /// Hours, as they are counted: `1½ h`.
    #[must_use]
    pub fn hours(&self, count: &str) -> String {
        format!("{count}{THIN}{}", self.notation.hour)
    }

    fn with_unit(&self, number: f64, unit: &str) -> String {
        format!("{}{THIN}{unit}", self.notation.write(&number.to_string()))
    }
}

/// Whether an inch ruler has a mark for a length, at sixteenths.
#[must_use]
pub fn on_ruler(mm: f64) -> bool {
    let sixteenths = mm / INCH * 16.0;
    (sixteenths - sixteenths.round()).abs() * INCH / 16.0 <= ON_MARK
}

/// Whether a length is a whole number of 64ths, as near as a hundredth of a millimetre shows.
fn is_64th(mm: f64) -> bool {
    let parts = mm / INCH * 64.0;
    (parts - parts.round()).abs() * INCH / 64.0 < 0.005 && parts.round() >= 1.0
}

/// A plain count.
#[must_use]
pub fn count(many: u64, what: What, of: &str) -> Line {
    #[allow(clippy::cast_precision_loss, reason = "a count of pieces is far below 2^52")]
    let value = many as f64;
    number(many.to_string(), value, what, of)
}

/// A number of the guide.
#[must_use]
pub fn number(shown: String, value: f64, what: What, of: &str) -> Line {
    Number { shown, value, what, of: of.to_owned() }.into()
}

fn one(mm: f64, units: Units) -> String {
    let plain = match units {
        Units::Mm => rounded(mm, 10.0).to_string(),
        Units::Cm => rounded(mm / 10.0, 100.0).to_string(),
        // The coarsest fraction that is the length, else the nearest 64th.
        Units::In => Length::from_mm(mm).plain(Units::In),
    };
    set(&format!("{plain} {}", units.name()))
}

fn rounded(value: f64, parts: f64) -> f64 {
    // Arithmetic may leave a half a hair short; halves go up.
    (value * parts + SAME).round() / parts + 0.0
}
