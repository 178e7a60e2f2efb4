// SPDX-License-Identifier: MIT
//! Nets whose panels stand in a row, as most of an album's do: strips, pages with a seam.

use super::{Fold, Net, Panel, Sense, Use};
use crate::contour::{Contour, Point};

/// Which way a row runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Along {
    /// From left to right; folds are upright.
    Across,
    /// From the bottom up; folds are level.
    Up,
}

/// One panel of a row.
#[derive(Clone, Copy, Debug)]
pub struct RowPanel {
    name: &'static str,
    purpose: Use,
    depth: f64,
    /// How far the panel's edge stands back from the row's, at its start and its end.
    back: (f64, f64),
    /// The fold to the panel before it: which way and how far.
    fold: (Sense, f64),
}

impl RowPanel {
    /// A panel `depth` millimetres deep along the row, folded flat against nothing.
    #[must_use]
    pub const fn new(name: &'static str, purpose: Use, depth: f64) -> Self {
        Self { name, purpose, depth, back: (0.0, 0.0), fold: (Sense::Both, 0.0) }
    }

    /// Sets the fold to the panel before it.
    #[must_use]
    pub const fn folded(mut self, sense: Sense, degrees: f64) -> Self {
        self.fold = (sense, degrees);
        self
    }

    /// Its name.
    #[must_use]
    pub const fn name(&self) -> &'static str {
        self.name
    }

    /// Whether it takes tape or glue.
    #[must_use]
    pub(crate) fn is_seam(&self) -> bool {
        self.purpose == Use::Seam
    }

    /// How deep it is along the row, mm.
    #[must_use]
    pub const fn depth(&self) -> f64 {
        self.depth
    }

    /// The fold to the panel before it.
    #[must_use]
    pub const fn fold(&self) -> (Sense, f64) {
        self.fold
    }

    /// Whether its edges run along the row.
    #[must_use]
    pub(crate) fn is_straight(&self) -> bool {
        self.back.0.abs() + self.back.1.abs() <= 0.0
    }

    /// The same panel, so deep.
    #[must_use]
    pub const fn so_deep(mut self, depth: f64) -> Self {
        self.depth = depth;
        self
    }

    /// Tapers it: its edges stand back by this much on either side where it starts and where it ends.
    #[must_use]
    pub const fn tapered(mut self, start: f64, end: f64) -> Self {
        self.back = (start, end);
        self
    }
}

impl Net {
    /// A row of panels, each `breadth` millimetres broad before tapering, from the origin on. `root` is the
    /// panel that stays put when the part is folded.
    #[must_use]
    pub fn row(along: Along, breadth: f64, leaves: &[RowPanel], root: usize) -> Self {
        let place = |run: f64, side: f64| match along {
            Along::Across => Point::new(run, side),
            Along::Up => Point::new(side, run),
        };
        let mut at = 0.0;
        let mut panels = Vec::new();
        let mut folds = Vec::new();
        for (index, leaf) in leaves.iter().enumerate() {
            let end = at + leaf.depth;
            let corners = [
                place(at, leaf.back.0),
                place(end, leaf.back.1),
                place(end, breadth - leaf.back.1),
                place(at, breadth - leaf.back.0),
            ];
            let outline = Contour::polygon(corners.map(|corner| (corner.x, corner.y))).counter_clockwise();
            panels.push(Panel { name: leaf.name, purpose: leaf.purpose, outline });
            if index > 0 {
                let between = if index <= root { [index, index - 1] } else { [index - 1, index] };
                let (from, to) = (place(at, leaf.back.0), place(at, breadth - leaf.back.0));
                folds.push(Fold { between, from, to, sense: leaf.fold.0, angle: leaf.fold.1 });
            }
            at = end;
        }
        // The root comes first: panels and folds are renumbered, nothing moves.
        if root > 0 && root < panels.len() {
            panels.swap(0, root);
            let renumber = |index: usize| {
                if index == 0 {
                    root
                } else if index == root {
                    0
                } else {
                    index
                }
            };
            for fold in &mut folds {
                fold.between = fold.between.map(renumber);
            }
        }
        Self { panels, folds, holes: Vec::new(), marks: Vec::new() }
    }
}
