// SPDX-License-Identifier: MIT
//! What the names in formulas stand for, once a kind is made.

use super::symbol::Symbol;

/// What a size of a kind holds, once one of it is made.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SizeValue {
    /// A length in mm, or a number.
    Value(f64),
    /// A word, by its place among those that the size takes.
    Word(usize),
}

/// What names stand for, mm.
#[derive(Clone)]
pub struct Scope<'a> {
    /// Width of the page, or of the insert.
    pub width: f64,
    /// Height of the page, or of the insert.
    pub height: f64,
    /// The strip that takes tape or glue.
    pub seam: f64,
    /// How much of a page the spine's tab takes.
    pub tab: f64,
    /// Thickness of the card.
    pub caliper: f64,
    /// Which of several equal panels it is, from 1.
    pub nth: f64,
    /// What each size holds, in the order of the file.
    pub sizes: Vec<SizeValue>,
    /// Rounds a length in mm down to what a ruler has.
    pub ruler: &'a dyn Fn(f64) -> f64,
}

impl Scope<'_> {
    /// One in which nothing is known.
    pub(super) fn none() -> Self {
        let (width, height, seam, tab, caliper, nth) = (0.0, 0.0, 0.0, 0.0, 0.0, 1.0);
        Self { width, height, seam, tab, caliper, nth, sizes: Vec::new(), ruler: &|mm| mm }
    }

    pub(super) fn of(&self, symbol: Symbol) -> f64 {
        match symbol {
            Symbol::Width => self.width,
            Symbol::Height => self.height,
            Symbol::Seam => self.seam,
            Symbol::Tab => self.tab,
            Symbol::Caliper => self.caliper,
            Symbol::Nth => self.nth,
            // What is not known yet is no number; whatever uses it is told.
            Symbol::Size(size) => match self.sizes.get(size) {
                Some(SizeValue::Value(value)) => *value,
                _ => f64::NAN,
            },
        }
    }

    pub(super) fn word(&self, size: usize) -> Option<usize> {
        match self.sizes.get(size) {
            Some(SizeValue::Word(word)) => Some(*word),
            _ => None,
        }
    }

    pub(super) fn on_ruler(&self, mm: f64) -> f64 {
        if mm.is_finite() { (self.ruler)(mm) } else { mm }
    }
}

impl std::fmt::Debug for Scope<'_> {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.debug_struct("Scope").field("width", &self.width).field("height", &self.height).finish_non_exhaustive()
    }
}
