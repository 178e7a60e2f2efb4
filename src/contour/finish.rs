// SPDX-License-Identifier: MIT
//! Edges that are cut in a pattern instead of straight: scallop, wave, zigzag, deckle, thumb notch.
//!
//! ```text
//!   scallop  --.    .--.    .--     arcs; two meet in a cusp     p = length / n, n the whole number of repeats nearest
//!               `--'    `--'        (drawn upside down here)     to length / size
//!   wave     --.      .----.      .--   arcs that run into each other
//!               `.__.'      `.__.'
//!   zigzag   -.  .  .-     lines; a quarter of a repeat stays straight at either end
//!              \/ \/
//!   deckle   short lines to places drawn at random: the same seed, the same edge
//!   notch    ----.    .----   half a disc or less of one, deeper than that with straight sides
//!                 `--'
//! ```
//!
//! Every pattern is cut into the card by its depth and begins and ends where the straight edge did, so a corner stays where it
//! is whatever its two edges are like. No pattern falls away from a corner faster than 45 degrees of it, on the whole: where
//! two meet at a right angle they keep apart (derived: each stays on its side of the corner's diagonal while its depth
//! is below half a repeat).

use super::{Edge, Vec2};

/// The pattern of an edge.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EdgePattern {
    /// Half-round tongues side by side.
    Scallop,
    /// Arcs that run into each other.
    Wave,
    /// Teeth.
    Zigzag,
    /// As if torn; equal seeds give equal edges.
    Deckle(u64),
    /// One notch in the middle.
    Notch,
}

/// How an edge is finished, mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EdgeFinish {
    /// In which pattern.
    pub pattern: EdgePattern,
    /// Length of a repeat, before it is fitted; width of a notch.
    pub size: f64,
    /// How far it is cut into the card.
    pub depth: f64,
}

/// Patterns are no deeper than this share of a repeat: cusps stay open to a tool, and corners whole (our choice).
const DEEPEST: f64 = 0.4;

/// A zigzag leaves this share of a tooth straight at either end.
const FLAT: f64 = 0.25;

impl EdgePattern {
    /// How deep it may be, mm, on an edge `length` long.
    ///
    /// ```
    /// use hingeleaf::contour::EdgePattern;
    /// assert_eq!(EdgePattern::Scallop.deepest(100.0, 10.0), 4.0);
    /// assert_eq!(EdgePattern::Notch.deepest(100.0, 20.0), 20.0); // as deep as it is wide
    /// ```
    #[must_use]
    pub fn deepest(self, length: f64, size: f64) -> f64 {
        if self == Self::Notch { size } else { DEEPEST * self.repeats(length, size).1 }
    }

    /// How deep it usually is on such an edge, mm: our choice.
    #[must_use]
    pub fn usual_depth(self, length: f64, size: f64) -> f64 {
        let share = match self {
            Self::Scallop => 0.35,
            Self::Wave | Self::Deckle(_) => 0.25,
            Self::Zigzag => 0.4,
            Self::Notch => return size / 2.0,
        };
        share * self.repeats(length, size).1
    }

    /// How many repeats go onto such an edge, and how long each is then, mm.
    #[must_use]
    pub fn repeats(self, length: f64, size: f64) -> (u32, f64) {
        if self == Self::Notch {
            return (1, size);
        }
        let flat = if self == Self::Zigzag { 2.0 * FLAT } else { 0.0 };
        let fewest = if matches!(self, Self::Deckle(_)) { 3.0 } else { 1.0 };
        #[allow(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "a float-to-integer cast saturates, and an edge has few repeats"
        )]
        let count = (length / size - flat).round().clamp(fewest, 10_000.0) as u32;
        (count, length / (f64::from(count) + flat))
    }
}

impl EdgeFinish {
    /// The corners of a straight edge that is finished so, each with the bulge of what leaves it; its end is left out. The card
    /// lies at the left of the edge.
    ///
    /// ```
    /// use hingeleaf::contour::{Contour, Edge, EdgeFinish, EdgePattern, Point};
    /// let foot = Edge { from: Point::new(0.0, 0.0), to: Point::new(100.0, 0.0), bulge: 0.0 };
    /// let notch = EdgeFinish { pattern: EdgePattern::Notch, size: 20.0, depth: 10.0 };
    /// let corners = notch.corners(foot).into_iter().chain([(100.0, 0.0, 0.0), (100.0, 50.0, 0.0), (0.0, 50.0, 0.0)]);
    /// let card = Contour::new(corners);
    /// assert!((card.area() - (5000.0 - std::f64::consts::PI * 50.0)).abs() < 1e-9); // half a disc of radius 10
    /// ```
    #[must_use]
    pub fn corners(self, edge: Edge) -> Vec<(f64, f64, f64)> {
        let length = edge.from.distance(edge.to);
        let along = (edge.to - edge.from) / length;
        let into = Vec2::new(-along.y, along.x);
        let place = |(at, deep, bulge): (f64, f64, f64)| {
            // The end points themselves, so that no digit is lost.
            let point = if at == 0.0 && deep == 0.0 { edge.from } else { edge.from + along * at + into * deep };
            (point.x, point.y, bulge)
        };
        self.walk(length).into_iter().map(place).collect()
    }

    /// The same along a level edge that begins at 0: how far along, how far into the card, the bulge that leaves.
    fn walk(self, length: f64) -> Vec<(f64, f64, f64)> {
        let Self { pattern, size, depth } = self;
        let (count, repeat) = pattern.repeats(length, size);
        let steps = || (0..count).map(f64::from);
        match pattern {
            EdgePattern::Scallop => {
                // An arc's bulge is its rise over half its chord; half an arc turns half as far.
                let whole = depth / (repeat / 2.0);
                let half = (whole.atan() / 2.0).tan();
                let cusps = steps().map(|step| {
                    let last = step + 1.5 > f64::from(count);
                    ((step + 0.5) * repeat, depth, if last { half } else { whole })
                });
                std::iter::once((0.0, 0.0, half)).chain(cusps).collect()
            }
            EdgePattern::Wave => {
                // A quarter of a wave leans by twice the angle of its chord where it is steepest.
                let lean = (depth / 2.0).atan2(repeat / 4.0);
                let (whole, half) = (lean.tan(), (lean / 2.0).tan());
                let troughs = steps().flat_map(|step| {
                    let last = step + 1.5 > f64::from(count);
                    let (start, end) = ((step + 0.25) * repeat, (step + 0.75) * repeat);
                    [(start, depth / 2.0, -whole), (end, depth / 2.0, if last { half } else { whole })]
                });
                std::iter::once((0.0, 0.0, half)).chain(troughs).collect()
            }
            EdgePattern::Zigzag => {
                let teeth = steps().flat_map(|step| {
                    let start = (step + FLAT) * repeat;
                    [(start, 0.0, 0.0), (start + repeat / 2.0, depth, 0.0)]
                });
                let end = (f64::from(count) + FLAT) * repeat;
                std::iter::once((0.0, 0.0, 0.0)).chain(teeth).chain([(end, 0.0, 0.0)]).collect()
            }
            EdgePattern::Deckle(seed) => {
                let mut draws = Draws(seed);
                let mut walk = vec![(0.0, 0.0, 0.0)];
                walk.extend((1..count).map(f64::from).map(|step| {
                    let (off, deep) = (draws.next() - 0.5, draws.next());
                    (0.5f64.mul_add(off, step) * repeat, deep * depth, 0.0)
                }));
                walk
            }
            EdgePattern::Notch => {
                let (start, end) = ((length - size) / 2.0, f64::midpoint(length, size));
                let straight = (depth - size / 2.0).max(0.0);
                let bulge = -(depth - straight) / (size / 2.0);
                let mut walk = vec![(0.0, 0.0, 0.0), (start, 0.0, 0.0)];
                if straight > 0.0 {
                    walk.push((start, straight, bulge));
                    walk.push((end, straight, 0.0));
                } else {
                    walk[1].2 = bulge;
                }
                walk.push((end, 0.0, 0.0));
                walk
            }
        }
    }
}

/// Numbers from 0 to 1 that look drawn at random (splitmix64: Steele, Lea and Flood 2014).
struct Draws(u64);

impl Draws {
    #[allow(clippy::cast_precision_loss, reason = "53 bits are what a float holds")]
    fn next(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        mixed ^= mixed >> 31;
        (mixed >> 11) as f64 / (1u64 << 53) as f64
    }
}
