// SPDX-License-Identifier: MIT
//! `"supplies"`: what is bought besides sheets.
//!
//! ```json
//! "supplies": { "tape 6 mm": { "of": "25 m", "price": 3.2 }, "glue": { "of": "100 ml", "price": 4 }, "corners": { "of": 250, "price": 2 } }
//! ```

use super::file_fields::{MOST_DECIMALS, SUPPLIES, SUPPLY_FIELDS, SUPPLY_OF};
use super::packs::price;
use crate::exact::Exact;
use crate::fields::{Amount, Node, Reader, Tree, nearest};
use crate::finding::{Arg, Place, Said};
use crate::length::{Allow, Length, Units, excerpt};

/// Something that is bought besides sheets; a width is in mm.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub enum Supplied {
    /// Double-sided tape, of a width where that is said.
    Tape(Option<f64>),
    /// Ribbon, of a width where that is said.
    Ribbon(Option<f64>),
    /// White glue.
    Glue,
    /// Thread for sewing.
    Thread,
    /// Photo corners.
    Corners,
    /// A ready-made cover.
    Cover,
}

/// What something is sold in.
#[derive(Clone, Debug)]
#[non_exhaustive]
pub struct Supply {
    /// What it is called in the file.
    pub name: String,
    /// What it is.
    pub what: Supplied,
    /// How much is sold together: mm, ml or pieces, as [`Supplied::unit`] says.
    pub of: Exact,
    /// What that costs.
    pub price: Exact,
}

/// Tape and ribbon are sold in whole millimetres of what is made in inches: so far off they are the same still, mm: our choice.
const SAME_WIDTH: f64 = 0.5;

/// The names without a width.
const NAMES: [&str; 6] = ["tape", "ribbon", "glue", "thread", "corners", "cover"];

/// Units that amounts may be in, how many of our own they are, and what they measure.
const UNITS: [(&str, &str, &str); 8] = [
    ("mm", "1", "mm"),
    ("cm", "10", "mm"),
    ("m", "1000", "mm"),
    ("in", "25.4", "mm"),
    ("ft", "304.8", "mm"),
    ("yd", "914.4", "mm"),
    ("ml", "1", "ml"),
    ("l", "1000", "ml"),
];

impl Supplied {
    /// What it is by its name in the file: `tape 6 mm`, `glue`.
    #[must_use]
    pub fn parse(name: &str, units: Units) -> Option<Self> {
        let (word, width) = name.trim().split_once(' ').unwrap_or((name.trim(), ""));
        let width = match width.trim() {
            "" => None,
            width => Some(Length::parse(width, units, Allow::Plain).ok().map(Length::mm).filter(|mm| *mm > 0.0)?),
        };
        match (word, width) {
            ("tape", width) => Some(Self::Tape(width)),
            ("ribbon", width) => Some(Self::Ribbon(width)),
            ("glue", None) => Some(Self::Glue),
            ("thread", None) => Some(Self::Thread),
            ("corners", None) => Some(Self::Corners),
            ("cover", None) => Some(Self::Cover),
            _ => None,
        }
    }

    /// What it is counted in.
    #[must_use]
    pub const fn unit(self) -> &'static str {
        match self {
            Self::Tape(_) | Self::Ribbon(_) | Self::Thread => "mm",
            Self::Glue => "ml",
            Self::Corners | Self::Cover => "pieces",
        }
    }

    /// Whether it serves where another is needed: it is the same, and where both have widths, these are.
    #[must_use]
    pub fn serves(self, needed: Self) -> bool {
        let wide = |one: Option<f64>, other: Option<f64>| {
            one.is_none_or(|one| other.is_some_and(|other| (one - other).abs() <= SAME_WIDTH))
        };
        match (self, needed) {
            (Self::Tape(one), Self::Tape(other)) | (Self::Ribbon(one), Self::Ribbon(other)) => wide(one, other),
            (one, other) => one == other,
        }
    }
}

/// Which of several serves best: one of the width, else one of no width.
#[must_use]
pub(crate) fn serving(supplies: &[(Supply, Place)], needed: Supplied) -> Option<usize> {
    let off = |supply: &Supply| match (supply.what, needed) {
        (Supplied::Tape(Some(one)), Supplied::Tape(Some(other)))
        | (Supplied::Ribbon(Some(one)), Supplied::Ribbon(Some(other))) => (one - other).abs(),
        _ => SAME_WIDTH * 2.0,
    };
    let serve = supplies.iter().enumerate().filter(|(_, (supply, _))| supply.what.serves(needed));
    serve.min_by(|(_, (one, _)), (_, (other, _))| off(one).total_cmp(&off(other))).map(|(number, _)| number)
}

/// Reads them.
pub(super) fn read(reader: &mut Reader<'_>, node: &Node) -> Vec<(Supply, Place)> {
    let name = SUPPLIES.name();
    let mut supplies: Vec<(Supply, Place)> = Vec::new();
    let Tree::Object(entries) = &node.tree else {
        let place = reader.place(&node.range, name);
        reader.wrong_type(name, Said::new("form-supplies"), &node.tree, Said::new("supplies-help"), &place);
        return supplies;
    };
    for (called, range, value) in entries {
        let path = format!("{name}.{}", excerpt(called));
        let place = reader.place(range, &path);
        let Some(what) = Supplied::parse(called, reader.units) else {
            let text = Said::new("unknown-supply").with("name", Arg::quoted(excerpt(called)));
            reader.problem("unknown-supply", text, meant(called), &place);
            continue;
        };
        if supplies.iter().any(|(supply, _)| supply.what == what) {
            let text = Said::new("twice").with("name", Arg::quoted(excerpt(called)));
            reader.problem("twice", text, Said::new("twice-help"), &place);
            continue;
        }
        let Some(values) = reader.object(value, &path, Said::new("a-supply"), &[SUPPLY_FIELDS]) else { continue };
        let price = price(reader, &values);
        let Some(at) = values.says(SUPPLY_OF).then(|| values.place(SUPPLY_OF)).flatten().cloned() else { continue };
        if let Some(of) = amount(values.get(SUPPLY_OF), what.unit()) {
            supplies.push((Supply { name: called.clone(), what, of, price }, place));
            continue;
        }
        let key = match what.unit() {
            "mm" => "bad-supply-length",
            "ml" => "bad-supply-volume",
            _ => "bad-supply-count",
        };
        let text = Said::new(key).with("name", Arg::quoted(excerpt(called)));
        reader.problem("bad-supply", text, Said::new("bad-supply-help"), &at);
    }
    supplies
}

/// What a misspelt name was meant to be; a width that can't be read is told of.
fn meant(called: &str) -> Said {
    let (word, rest) = called.split_once(' ').unwrap_or((called, ""));
    let with_width = ["tape", "ribbon"].contains(&word) && !rest.is_empty();
    match nearest(word, NAMES).filter(|_| !with_width) {
        Some(near) if rest.is_empty() || !["tape", "ribbon"].contains(&near) => {
            Said::new("did-you-mean").with("name", Arg::quoted(near))
        }
        Some(near) => Said::new("did-you-mean").with("name", Arg::quoted(excerpt(&format!("{near} {rest}")))),
        None => Said::new("unknown-supply-help"),
    }
}

/// How much, in the unit of its own; nothing where that is none of it, or another measure.
fn amount(said: Amount<'_>, unit: &str) -> Option<Exact> {
    let some = |amount: Exact| (!amount.is_zero() && amount.has_at_most(MOST_DECIMALS)).then_some(amount);
    match said {
        Amount::Number(count) if unit == "pieces" => some(Exact::written(count)?),
        Amount::Number(_) => None,
        Amount::Text(text) => {
            let text = text.trim();
            let digits = text.find(|letter: char| !letter.is_ascii_digit() && letter != '.')?;
            let (number, of) = text.split_at(digits);
            let (_, times, _) = UNITS.iter().find(|(name, _, measures)| *name == of.trim() && *measures == unit)?;
            // As many digits as a person writes.
            some(Exact::parse(number).filter(|_| number.len() <= 12)?)
                .map(|own| own.times(&Exact::parse(times).unwrap_or_else(Exact::zero)))
        }
    }
}
