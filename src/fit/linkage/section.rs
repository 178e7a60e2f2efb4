// SPDX-License-Identifier: MIT
//! An album's cross-section, and how its leaves lie.

use crate::contour::Point;

/// Larger sizes are taken for this one, mm or times: no number gets out of hand.
const LARGEST: f64 = 1e6;

/// One leaf of the album: a page or a cover.
#[derive(Clone, Debug, PartialEq)]
pub struct Leaf {
    /// Where its gusset is rooted, mm from the left end of the base.
    pub root: f64,
    /// Longest distance from the root to its spine edge, mm.
    pub gusset: f64,
    /// From spine edge to fore-edge, mm.
    pub width: f64,
    /// How thick it lies in the stack, mm.
    pub thickness: f64,
    /// What it weighs, in any unit that is the same for all leaves.
    pub weight: f64,
    /// How much higher than the base its root stands, mm: strips glued one on another raise the inner roots.
    pub stands_back: f64,
    /// A cover keeps its joint whatever the pages' gussets are.
    pub cover: bool,
}

/// The album's cross-section.
#[derive(Clone, Debug, PartialEq)]
pub struct CrossSection {
    /// Width of the base, mm.
    pub base: f64,
    /// The leaves from left to right.
    pub leaves: Vec<Leaf>,
    /// Whether the base tips as it likes; otherwise it is held flat on the table.
    pub free: bool,
    /// Whether a free base may also be drawn up off the table by its gussets, as one without a cover is.
    pub loose: bool,
}

/// A leaf as it lies.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Bar {
    /// Middle of its spine edge.
    pub from: Point,
    /// Middle of its fore-edge.
    pub to: Point,
    /// Thickness, mm.
    pub thickness: f64,
    /// Where its gusset is rooted.
    pub root: Point,
    /// Length of its gusset, mm.
    pub gusset: f64,
    /// Whether it is a cover.
    pub cover: bool,
}

/// An album laid open.
#[derive(Clone, Debug, PartialEq)]
pub struct Opening {
    /// Leaves that lie to the left.
    pub between: usize,
    /// Tilt of the base, radians; positive where its right end is up.
    pub tilt: f64,
    /// Both ends of the base, the left one first.
    pub base: [Point; 2],
    /// Every leaf, in the section's order; the table is at y = 0.
    pub bars: Vec<Bar>,
    /// The leaf of the two on top whose fore-edge differs more in height from its spine edge.
    pub leaf: usize,
    /// That difference, mm.
    pub lift: f64,
    /// The slope of that leaf, radians; positive where its fore-edge is the higher.
    pub slope: f64,
}

impl CrossSection {
    /// The same album with one score where each page has its gusset: it turns right at its root.
    #[must_use]
    pub fn one_score(&self) -> Self {
        self.with_gussets(0.0)
    }

    /// The same album with all pages' gussets this long, mm.
    #[must_use]
    pub fn with_gussets(&self, gusset: f64) -> Self {
        let leaf = |leaf: &Leaf| Leaf { gusset: if leaf.cover { leaf.gusset } else { gusset }, ..leaf.clone() };
        Self { leaves: self.leaves.iter().map(leaf).collect(), ..*self }
    }

    /// The same with every number finite and of a size that can be reckoned with.
    pub(super) fn tamed(&self) -> Self {
        // Noughts are alike, whatever their sign.
        let size = |number: f64| if number.is_finite() { number.clamp(0.0, LARGEST) + 0.0 } else { 0.0 };
        let base = size(self.base);
        let leaf = |leaf: &Leaf| Leaf {
            root: size(leaf.root).min(base),
            gusset: size(leaf.gusset),
            width: size(leaf.width),
            thickness: size(leaf.thickness),
            weight: size(leaf.weight),
            stands_back: size(leaf.stands_back),
            cover: leaf.cover,
        };
        Self { base, leaves: self.leaves.iter().map(leaf).collect(), ..*self }
    }

    /// How deep the solid is that all roots stand on, as on guards and stubs that are stuck face to face, mm.
    pub(super) fn depth(&self) -> f64 {
        let least = self.leaves.iter().map(|leaf| leaf.stands_back).fold(f64::INFINITY, f64::min);
        if least.is_finite() { least } else { 0.0 }
    }

    /// How thick all leaves are together: a base is drawn up no higher.
    pub(super) fn highest(&self) -> f64 {
        self.leaves.iter().map(|leaf| leaf.thickness).sum()
    }
}

impl Leaf {
    pub(super) const fn bar(&self, root: Point, from: Point, to: Point) -> Bar {
        Bar { from, to, thickness: self.thickness, root, gusset: self.gusset, cover: self.cover }
    }
}
