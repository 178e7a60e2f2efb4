// SPDX-License-Identifier: MIT
//! The names that formulas may use.

/// A name in a formula.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Symbol {
    /// Width of the page, or of the insert.
    Width,
    /// Height of the page, or of the insert.
    Height,
    /// The strip that takes tape or glue.
    Seam,
    /// How much of a page the spine's tab takes.
    Tab,
    /// Thickness of the card.
    Caliper,
    /// Which of several equal panels it is, from 1.
    Nth,
    /// A size of the kind, by its place among them.
    Size(usize),
}
