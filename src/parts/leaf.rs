// SPDX-License-Identifier: MIT
//! Pages that are a single leaf with something on one of their faces.
//!
//! The leaf is drawn as its worked face is seen, which is its front face. Where that is the page's front the spine is at the
//! left, where it is the page's back at the right. The hinge's tab is stuck on the leaf, on whichever face is turned to it.

use super::build::{Builder, side};
use super::page::Page;
use super::{Face, Hold, Side};
use crate::album::Entry;
use crate::fields::{Fallback, Field, Takes};
use crate::finding::Finding;
use crate::length::Length;

/// The face of the page that is worked on.
pub(super) const FACES: Field = Field::new(
    "faces",
    Takes::Choice(&["front", "back"]),
    Fallback::Choice("front"),
    "the face of the page that carries it",
);

/// What is stuck on the page.
pub(super) const CONTENT: Field = Field::length(
    "content",
    Fallback::Length { mm: 0.0, inch: 0.0 },
    "thickness of what will be stuck on it, both faces together",
)
.unmeasured();

/// The leaf's worked face, mm.
#[derive(Clone, Copy, Debug)]
pub(super) struct Leaf {
    /// From spine to fore-edge.
    pub width: f64,
    /// Whether the worked face is the page's back.
    pub on_back: bool,
}

impl Leaf {
    pub(super) fn new(page: &Page<'_>) -> Self {
        Self { width: page.width, on_back: page.entry.values.text("faces") == Some("back") }
    }

    /// Where something `width` wide that begins `from_spine` away from the spine begins, as the face is seen.
    pub(super) fn x(self, from_spine: f64, width: f64) -> f64 {
        if self.on_back { self.width - from_spine - width } else { from_spine }
    }

    /// The name of the worked face, and of the other one.
    pub(super) const fn names(self) -> [&'static str; 2] {
        if self.on_back { ["back", "front"] } else { ["front", "back"] }
    }

    /// Says how the page is carried: the tab is stuck on panel 0 of a piece, whose tail is at `y`.
    pub(super) fn carried(self, builder: &mut Builder<'_>, piece: usize, (left, y): (f64, f64)) {
        let spine = left + self.x(0.0, 0.0);
        let at = |face| side(piece, 0, face, (spine, y), (0.0, 1.0));
        let (worked, other) = (at(Face::Front), at(Face::Back));
        // What looks to the page's back lies before the tab, what looks to its front behind it.
        let (to_front, to_back) = if self.on_back { (worked, other) } else { (other, worked) };
        builder.carried(Hold::Stuck, to_front, to_back);
    }

    /// The edge nearest the spine of something that lies from `left` to `right`.
    pub(super) const fn near_spine(self, left: f64, right: f64) -> f64 {
        if self.on_back { right } else { left }
    }
}

/// How much of a leaf the hinge's tab covers, mm.
pub(super) fn tab(builder: &Builder<'_>) -> f64 {
    builder.kit().carry.tab
}

/// A length of an entry, mm; `otherwise` where it is left out.
pub(super) fn given(entry: &Entry, field: &str, otherwise: f64) -> f64 {
    entry.values.maybe_length(field).map_or(otherwise, Length::mm)
}

/// A side on the front of a panel, from its lower left corner as it is seen when the part lies flat, to the right.
pub(super) const fn front(piece: usize, panel: usize, at: (f64, f64)) -> Side {
    side(piece, panel, Face::Front, at, (1.0, 0.0))
}

/// A side on the back of a panel, from its lower left corner as it is seen from behind: to the left as the part is drawn.
pub(super) const fn back(piece: usize, panel: usize, at: (f64, f64)) -> Side {
    side(piece, panel, Face::Back, at, (-1.0, 0.0))
}

/// What is wrong with a page's sizes.
#[derive(Clone, Copy, Debug)]
pub(super) struct Wrong<'a> {
    /// `pocket-too-wide`.
    pub id: &'static str,
    /// What is wrong; `{}` and `{}` stand for what was measured and what is allowed.
    pub text: &'a str,
    pub measured: f64,
    pub allowed: f64,
    pub help: &'a str,
    /// The field at which it can be mended.
    pub field: &'a str,
}

impl Wrong<'_> {
    /// Says it, at the field or else at the page.
    pub(super) fn say(self, builder: &mut Builder<'_>, page: &Page<'_>) {
        let [measured, allowed] = [self.measured, self.allowed].map(|mm| builder.album.show(mm));
        let text = self.text.replacen("{}", &measured, 1).replacen("{}", &allowed, 1);
        builder.find(
            Finding::stop(self.id, page.name(), text)
                .measured(Length::from_mm(self.measured), Length::from_mm(self.allowed))
                .help(self.help)
                .at(page.entry.values.place(self.field)),
        );
    }
}
