// SPDX-License-Identifier: MIT
//! The cutting list: every part by stock, then by size, with the letter that stands for it in the guide.
//!
//! In: an order, its parts. Out: [`Row`]s. Never: words.

use crate::album::Order;
use crate::length::tolerance::READ;
use crate::parts::Kit;
use crate::stock::Pattern;

/// A trimmer of the usual size cuts this far, mm: 12 in (common practice, no source).
pub const TRIMMER: f64 = 304.8;

/// One distinct part.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Its letter: `A`.
    pub mark: String,
    /// Number of the part.
    pub part: usize,
    /// How many for all these kits.
    pub count: u64,
    /// Which way it lies on its stock.
    pub lies: Lies,
    /// Whether one of its sides is longer than a usual trimmer cuts.
    pub long: bool,
    /// Whether it is more than a rectangle: corners clipped or rounded, holes.
    pub shaped: bool,
}

/// Which way a part lies on its stock.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Lies {
    /// Any way.
    Any,
    /// Its grain upright.
    Grain,
    /// The pattern the right way up.
    Pattern,
    /// The pattern's top at the left: the part is made for an album bound at the top.
    Sideways,
}

/// The list of so many kits, stock by stock in the file's order, the largest part first.
#[must_use]
pub fn list(order: Order<'_>, kit: &Kit, kits: u32) -> Vec<Row> {
    let mut numbers: Vec<usize> = (0..kit.parts.len()).collect();
    let area = |number: usize| kit.parts[number].flat.width * kit.parts[number].flat.height;
    numbers.sort_by(|&one, &two| {
        kit.parts[one].stock.cmp(&kit.parts[two].stock).then(area(two).total_cmp(&area(one))).then(one.cmp(&two))
    });
    let row = |(index, number): (usize, usize)| {
        let part = &kit.parts[number];
        let stock = order.stocks.get(part.stock);
        let lies = match stock.map(|stock| (stock.pattern, stock.grain.is_some())) {
            Some((Pattern::OneWay, _)) if part.sideways => Lies::Sideways,
            Some((Pattern::OneWay, _)) => Lies::Pattern,
            Some((_, true)) if part.along_grain => Lies::Grain,
            _ => Lies::Any,
        };
        let boxed = part.flat.width * part.flat.height;
        Row {
            mark: letters(index),
            part: number,
            // Spare parts are of the whole order, and no kit's.
            count: if kits == order.copies {
                order.pieces(part.count)
            } else {
                u64::from(part.count) * u64::from(kits)
            },
            lies,
            long: part.flat.width.max(part.flat.height) > TRIMMER + 0.05,
            shaped: (boxed - part.flat.area()).abs() > READ,
        }
    };
    numbers.into_iter().enumerate().map(row).collect()
}

/// `A` to `Z`, then `AA`; I and O are left out, for they look like figures.
fn letters(index: usize) -> String {
    const ALL: &[u8] = b"ABCDEFGHJKLMNPQRSTUVWXYZ";
    let mut rest = index;
    let mut out = Vec::new();
    loop {
        out.push(char::from(ALL[rest % ALL.len()]));
        rest /= ALL.len();
        if rest == 0 {
            break;
        }
        rest -= 1;
    }
    out.iter().rev().collect()
}

/// The letter of a part.
#[must_use]
pub fn mark(rows: &[Row], part: usize) -> &str {
    rows.iter().find(|row| row.part == part).map_or("", |row| &row.mark)
}
