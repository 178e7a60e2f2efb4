// SPDX-License-Identifier: MIT
//! The least gusset with which an album lies as flat as is wanted.

use super::CrossSection;
use super::sides::Sides;
use super::tried::{SpareBuffers, Tried};
use crate::length::tolerance::SAME;
use std::collections::BTreeMap;

/// The longest gussets tried, in steps.
const MOST_STEPS: u32 = 4096;

impl CrossSection {
    /// The least gusset, alike for all pages and a whole number of steps, with which no opening's top leaf slopes more
    /// than `limit` radians.
    ///
    /// None if no gusset up to a leaf's width, or up to 4096 steps, does. What is given was tried on all openings; that it is
    /// the least takes it that a longer gusset never makes the worst opening worse, which on stubs need not be so.
    #[must_use]
    pub fn gusset_for(&self, limit: f64, step: f64) -> Option<f64> {
        self.gusset_beyond(0, limit, step)
    }

    /// The same, longer than the gussets that there are. A short gusset may happen to do where longer ones do not yet: pages
    /// on stubs then lean on one another.
    #[must_use]
    pub(crate) fn longer_gusset_for(&self, limit: f64, step: f64) -> Option<f64> {
        let longest = self.tamed().leaves.iter().map(|leaf| leaf.gusset).fold(0.0, f64::max);
        // The most steps that are no longer than what does not do.
        let there = (1..MOST_STEPS).take_while(|steps| f64::from(*steps) * step <= longest + SAME).last().unwrap_or(0);
        self.gusset_beyond(there, limit, step)
    }

    /// The least gusset of more than so many steps, or of none where even that does.
    fn gusset_beyond(&self, there: u32, limit: f64, step: f64) -> Option<f64> {
        if !(step.is_finite() && step > 0.0) {
            return None;
        }
        let section = self.tamed();
        let mut lengths = Lengths {
            section: &section,
            limit,
            step,
            sides: section.sides(),
            known: BTreeMap::new(),
            spare: SpareBuffers::new(),
        };
        let mut steep = |steps: u32, openings: &[usize]| lengths.steep(steps, openings);
        // Lengths are looked for with the openings that were too steep before; what does for these is tried on all.
        let all: Vec<usize> = section.looked_at().collect();
        let mut hard: Vec<usize> = steep(there, &all).into_iter().collect();
        if there == 0 && hard.is_empty() {
            return Some(0.0);
        }
        let doubled =
            (1..).map(|power| 1 << power).take_while(|steps| *steps < MOST_STEPS).filter(|steps| *steps > there);
        let thickness: f64 = section.leaves.iter().map(|leaf| leaf.thickness).sum();
        let enough = doubled.take_while(|steps| f64::from(*steps / 2) * step <= thickness + section.base);
        let widest = section.leaves.iter().map(|leaf| leaf.width).fold(0.0, f64::max);
        #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "at least 1, at most 4096")]
        let longest = (widest / step).clamp(1.0, f64::from(MOST_STEPS)) as u32;
        let mut longer =
            enough.take_while(|steps| *steps < longest).chain([longest].into_iter().filter(|steps| *steps > there));
        let (mut least, mut most) = (there, longer.next()?);
        loop {
            while steep(most, &hard).is_some() {
                (least, most) = (most, longer.next()?);
            }
            let mut does = most;
            while does - least > 1 {
                let middle = u32::midpoint(least, does);
                if steep(middle, &hard).is_some() { least = middle } else { does = middle }
            }
            let Some(another) = steep(does, &all) else { return Some(f64::from(does) * step) };
            // The one found last is the most likely to be too steep again.
            hard.insert(0, another);
            least = does;
            if does == most {
                most = longer.next()?;
            }
        }
    }
}

/// The lengths tried so far, so that none is tried twice.
struct Lengths<'a> {
    section: &'a CrossSection,
    limit: f64,
    step: f64,
    sides: Sides,
    /// By steps and opening: whether a page is too steep.
    known: BTreeMap<(u32, usize), bool>,
    /// What the length before was laid in.
    spare: SpareBuffers,
}

impl Lengths<'_> {
    /// The first of these openings that has a page too steep with gussets of so many steps.
    fn steep(&mut self, steps: u32, openings: &[usize]) -> Option<usize> {
        let Self { section, limit, step, sides, known, spare } = self;
        let with = section.with_gussets(f64::from(steps) * *step);
        let mut tried = None;
        let mut too_steep = |between: usize, sides: &mut Sides| {
            let tried = tried.get_or_insert_with(|| Tried::new(&with, std::mem::take(spare)));
            with.at_rest(between, tried, sides).slope.abs() > *limit
        };
        let mut steep = |between: &usize| *known.entry((steps, *between)).or_insert_with(|| too_steep(*between, sides));
        let first = openings.iter().copied().find(|between| steep(between));
        if let Some(tried) = tried {
            *spare = tried.into_spare();
        }
        first
    }
}
