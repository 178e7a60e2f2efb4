// SPDX-License-Identifier: MIT
//! A part as panels joined by folds.
//!
//! In: panels with their outlines, the folds between them, holes. Out: the [`Flat`] part: one outline,
//! its holes, its scores, its area; and every panel's place once it is folded. Never: knows which part of an
//! album it is.
//!
//! Everything about a part derives from its net; nothing is written twice. Panels lie in the part's frame
//! as it lies flat, front face towards you: millimetres, origin at the lower left, y up.
//!
//! One piece of a page of 6 1/4 × 8 1/2 in with a seam of 1/2 in (sizes: common practice, no source):
//!
//! ```
//! use hingeleaf::net::{Along, RowPanel, Net, Sense, Use};
//!
//! let inch = 25.4;
//! let seam = RowPanel::new("seam", Use::Seam, 0.5 * inch);
//! let page = RowPanel::new("page", Use::Plain, 8.5 * inch).folded(Sense::Mountain, 180.0);
//! let flat = Net::row(Along::Up, 6.25 * inch, &[seam, page], 1).flat().map_err(|problem| format!("{problem:?}"))?;
//! assert!((flat.height - 9.0 * inch).abs() < 1e-9);
//! assert!((flat.scores[0].from.y - 0.5 * inch).abs() < 1e-9);
//! assert_eq!(flat.scores[0].sense, Sense::Mountain);
//! # Ok::<(), String>(())
//! ```

pub mod bend;
mod digest;
mod edges;
mod flat;
mod row;
mod scored;
mod space;

pub use edges::{CornerForm, EdgeCut, FreeCorner, FreeSide, SideName};
pub use flat::{Flat, NetProblem, Score};
pub use row::{Along, RowPanel};
pub use space::{Stand, lifted};

use crate::contour::{Contour, Point};

/// What a panel is there for; pictures and labels go by it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[non_exhaustive]
pub enum Use {
    /// Shows on the finished album.
    Plain,
    /// Takes tape or glue.
    Seam,
    /// Folds over another panel.
    Flap,
    /// Slides into a page.
    Tab,
    /// The free flexible panel of a hinge.
    Gusset,
    /// The middle of a hinge strip, glued down.
    Base,
    /// The end of a hinge strip, glued to a cover where there is one.
    End,
}

impl Use {
    /// Whether it is what a hinge strip is glued down by.
    #[must_use]
    pub(crate) const fn is_base(self) -> bool {
        matches!(self, Self::Base | Self::End)
    }
}

/// A flat region between folds.
#[derive(Clone, Debug)]
pub struct Panel {
    /// Its name within the part: `seam`, `left tab`.
    pub name: &'static str,
    /// What it is there for.
    pub purpose: Use,
    /// Its outline in the flat part, counter-clockwise.
    pub outline: Contour,
}

/// Which way a fold goes, seen from the front face.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Sense {
    /// The panels rise towards you.
    Valley,
    /// The panels fall away from you.
    Mountain,
    /// Works both ways, as a hinge's outer fold does.
    Both,
    /// Never scored: paper bent round an edge by hand, or panels that stay one. A positive angle rises towards you, a
    /// negative one falls away.
    Bent,
}

impl Sense {
    /// The word in files and lists.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Valley => "valley",
            Self::Mountain => "mountain",
            Self::Both => "both",
            Self::Bent => "bent",
        }
    }
}

/// Where two panels meet.
#[derive(Clone, Copy, Debug)]
pub struct Fold {
    /// The panel nearer the root, and the one that hangs on it.
    pub between: [usize; 2],
    /// One end.
    pub from: Point,
    /// The other end.
    pub to: Point,
    /// Which way it goes.
    pub sense: Sense,
    /// How far it is folded on the finished album, degrees from flat: 180 lies back on its neighbour.
    pub angle: f64,
}

/// Panels joined by folds; panel 0 is the root.
#[derive(Clone, Debug)]
pub struct Net {
    /// The panels.
    pub panels: Vec<Panel>,
    /// The folds; every panel but the root hangs on exactly one.
    pub folds: Vec<Fold>,
    /// Windows and punched holes.
    pub holes: Vec<Contour>,
    /// Lines that are drawn on it to place or glue by.
    pub marks: Vec<[Point; 2]>,
}

impl Net {
    /// A part of one panel.
    #[must_use]
    pub fn single(name: &'static str, outline: Contour) -> Self {
        let panels = vec![Panel { name, purpose: Use::Plain, outline }];
        Self { panels, folds: Vec::new(), holes: Vec::new(), marks: Vec::new() }
    }

    /// The same net with a hole more.
    #[must_use]
    pub fn with_hole(mut self, hole: Contour) -> Self {
        self.holes.push(hole);
        self
    }

    /// Whether something folds over the front of its root.
    #[must_use]
    pub(crate) fn folds_over_front(&self) -> bool {
        self.folds.iter().any(|fold| fold.between[0] == 0 && fold.sense == Sense::Valley && fold.angle > 0.0)
    }

    /// The number of the panel with this name.
    #[must_use]
    pub fn panel(&self, name: &str) -> Option<usize> {
        self.panels.iter().position(|panel| panel.name == name)
    }
}
