// SPDX-License-Identifier: MIT
//! How a machine goes about its strokes: how often, from where, which way round, what it leaves uncut.
//!
//! All of it left out, each stroke is made once, begins where the head travels least, and closes on its start.

use crate::fields::words;
use crate::length::Length;

/// How the strokes are made.
#[derive(Clone, Debug, PartialEq)]
pub struct Manner {
    /// How often each layer's strokes are made.
    pub passes: Passes,
    /// What is left uncut, so that parts stay in their sheet.
    pub nicks: Option<Nicks>,
    /// How far a closed cut runs on past its start.
    pub overrun: Length,
    /// How far a swivelling blade's tip trails behind its axis.
    pub trail: Length,
    /// Whether cuts are drawn for that blade, its axis led round the corners.
    pub corner_help: bool,
    /// Where closed cuts begin.
    pub start: Start,
    /// In which order parts are cut out.
    pub order: CutOrder,
    /// Which way round closed cuts run.
    pub direction: Direction,
    /// What curves are written as.
    pub curves: Curves,
    /// How far the short lines of a curve may stand off it.
    pub curve_tolerance: Length,
    /// A hole or notch narrower than this is told.
    pub smallest_inner: Length,
}

/// How often the strokes of each layer are made; never nought.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Passes {
    /// Cuts.
    pub cut: u32,
    /// Scores.
    pub score: u32,
    /// Marks.
    pub draw: u32,
}

/// Uncut bits that hold a part in its sheet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Nicks {
    /// How long each is on the finished edge.
    pub length: Length,
    /// How many a part has.
    pub count: u32,
    /// How many a small part has.
    pub small_count: u32,
    /// A part is small whose longer side is under this.
    pub small_under: Length,
}

words! {
    /// Where closed cuts begin.
    pub enum Start {
        /// Where the head travels least.
        Nearest = "nearest",
        /// At a corner that is hidden once all is glued, where the part has one.
        Hidden = "hidden",
    }
}

words! {
    /// In which order holes, and then parts, are cut out.
    pub enum CutOrder {
        /// So that the head travels little.
        Travel = "travel",
        /// The smallest first; those of one size so that the head travels little.
        SmallFirst = "small-first",
    }
}

words! {
    /// Which way round closed cuts run.
    pub enum Direction {
        /// With the part at the tool's left: outlines against the clock, holes with it.
        PartLeft = "part-left",
        /// With the part at the tool's right.
        PartRight = "part-right",
        /// All with the clock.
        Clockwise = "clockwise",
        /// All against it.
        CounterClockwise = "counter-clockwise",
    }
}

words! {
    /// What curves are written as.
    pub enum Curves {
        /// True arcs.
        Arcs = "arcs",
        /// Cubic curves; short lines in DXF R12, which knows none.
        Cubics = "cubics",
        /// Short lines.
        Lines = "lines",
    }
}

impl Default for Manner {
    fn default() -> Self {
        Self {
            passes: Passes { cut: 1, score: 1, draw: 1 },
            nicks: None,
            overrun: Length::ZERO,
            trail: Length::ZERO,
            corner_help: false,
            start: Start::Nearest,
            order: CutOrder::Travel,
            direction: Direction::PartLeft,
            curves: Curves::Arcs,
            curve_tolerance: Length::from_mm(USUAL_TOLERANCE),
            smallest_inner: Length::ZERO,
        }
    }
}

/// How far short lines stand off their curve, mm, unless said: our choice, a fifth of the finest kerf of a laser.
pub(super) const USUAL_TOLERANCE: f64 = 0.02;

impl Nicks {
    /// How many nicks a part of these sides has, mm.
    #[must_use]
    pub fn of(&self, width: f64, height: f64) -> u32 {
        if width.max(height) < self.small_under.mm() { self.small_count } else { self.count }
    }
}
