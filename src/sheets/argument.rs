// SPDX-License-Identifier: MIT
//! Why no layout takes fewer sheets of a stock: the argument, about the parts that it speaks of.
//!
//! Never: decides whether it is so, or holds words; these stand in the tables.

use crate::finding::{Arg, Said};
use std::cmp::Reverse;
use std::collections::BTreeMap;

/// So many parts are named in a sentence: our choice.
const MOST_NAMED: usize = 4;

/// Why no layout takes fewer sheets than the bound.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct WhyNoFewer {
    /// So many sheets are sure to be too few; of each kit where each has sheets of its own.
    pub too_few: u64,
    /// Whether each kit has sheets of its own, so that it is said of one kit.
    pub each_kit: bool,
    /// What makes it so.
    pub argument: Argument,
}

/// What makes it so.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Argument {
    /// The parts have more area, half the gap round each, than those sheets.
    Area,
    /// If each of these parts counts so many points, no sheet holds more than `most` of them.
    AtMost {
        /// The parts.
        of: Vec<CountedPart>,
        /// So many points lie on a sheet at most. Where it is one, no two parts share a sheet.
        most: u64,
    },
    /// No sheet holds parts of two of these groups.
    Apart(Vec<PartsApart>),
    /// Nothing that is short: every way to fill a sheet was weighed up.
    Weighed,
}

/// Parts that share no sheet with those of another group.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct PartsApart {
    /// The parts.
    pub of: Vec<CountedPart>,
    /// So many sheets they take at least.
    pub sheets: u64,
    /// One sheet for each, because no two of them share one; else it is their area that takes so many.
    pub each_alone: bool,
}

/// A part, or parts that are cut from one place, and how many there are.
#[derive(Clone, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub struct CountedPart {
    /// The ids of the parts; more than one where a pattern runs on over them.
    pub parts: Vec<String>,
    /// How many there are.
    pub count: u64,
    /// So much each counts, 1 or more.
    pub points: u64,
}

impl WhyNoFewer {
    /// It as a sentence without its full stop, which may follow "because".
    #[must_use]
    pub fn said(&self) -> Said {
        let said = match &self.argument {
            Argument::Area => Said::new("why-area").with("sheets", self.too_few),
            Argument::AtMost { of, most } if of.iter().all(|part| part.points == 1) => {
                Said::new("why-at-most").with("most", *most).with("count", points(of)).with("parts", named(of))
            }
            Argument::AtMost { of, most } => {
                Said::new("why-points").with("most", *most).with("all", points(of)).with("points", by_points(of))
            }
            Argument::Apart(groups) => {
                Said::new("why-apart").with("groups", Arg::All(groups.iter().map(|one| one.said().into()).collect()))
            }
            Argument::Weighed => Said::new("why-weighed").with("sheets", self.too_few),
        };
        if self.each_kit { Said::new("why-each-kit").with("why", said) } else { said }
    }
}

impl PartsApart {
    fn said(&self) -> Said {
        Said::new("why-apart-group").with("parts", named(&self.of)).with("sheets", self.sheets)
    }
}

/// What parts count together.
fn points(parts: &[CountedPart]) -> u64 {
    parts.iter().map(|part| part.count * part.points).sum()
}

/// The parts by what they count, the most first.
fn by_points(parts: &[CountedPart]) -> Said {
    let mut of: BTreeMap<Reverse<u64>, Vec<CountedPart>> = BTreeMap::new();
    for part in parts {
        of.entry(Reverse(part.points)).or_default().push(part.clone());
    }
    let one = |(Reverse(points), parts): (_, Vec<CountedPart>)| {
        Said::new("why-points-of").with("points", points).with("parts", named(&parts))
    };
    let both = |these: Said, this: Said| Said::new("why-points-more").with("these", these).with("this", this);
    of.into_iter().map(one).reduce(both).unwrap_or(Said::NOTHING)
}

/// The parts, the first few by name.
fn named(parts: &[CountedPart]) -> Arg {
    let one = |part: &CountedPart| {
        let ids = part.parts.join(" + ");
        Arg::from(Said::new("why-part").with("count", part.count).with("part", ids))
    };
    let more = parts.len().saturating_sub(MOST_NAMED);
    let more = (more > 0).then(|| Said::new("why-more-parts").with("more", more).into());
    Arg::All(parts.iter().take(MOST_NAMED).map(one).chain(more).collect())
}
