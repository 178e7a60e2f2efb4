// SPDX-License-Identifier: MIT
//! Pages that are a single leaf with something on one of their faces.
//!
//! The leaf is drawn as its worked face is seen, which is its front face. Where that is the page's front the spine is at the
//! left, where it is the page's back at the right. The hinge's tab is stuck on the leaf, on whichever face is turned to it.

use crate::album::Entry;
use crate::fields::{Field, Key, rule, usual, words};
use crate::finding::{Arg, Finding, Said};
use crate::length::Length;
use crate::parts::bond::{Face, Hold, Side};
use crate::parts::build::builder::{Builder, side};
use crate::parts::pages::page::NewPage;
use crate::parts::spines::carry::Carry;

words! {
    /// The face of the page that carries it.
    pub(in crate::parts) enum Faces { Front = "front", Back = "back" }
}

/// The face of the page that is worked on.
pub(in crate::parts) const FACES: Key<Faces> =
    Key::choice("faces", Faces::Front.usual(), "the face of the page that carries it");

/// What is stuck on the page.
pub const CONTENT: Key<Length> =
    Key::length("content", usual(0.0, 0.0), "thickness of what will be stuck on it, both faces together").unmeasured();

/// The same of a page that is made for a print.
pub(in crate::parts) const PRINT_AND_CONTENT: Key<Option<Length>> = Key::length(
    CONTENT.name(),
    rule("its print, 0.23 mm, unless an insert lies in its place"),
    "thickness of its print and of what else will be stuck on it, both faces together",
)
.unmeasured();

/// Two scores instead of one where something folds over.
pub(crate) const DEPTH: Key<Length> = Key::length(
    "depth",
    usual(0.0, 0.0),
    "how far apart the two scores of its fold are, for what is thick; 0 for one score",
);

/// The panel between two such scores.
pub(in crate::parts) const RISER: &str = "riser";

/// The leaf's worked face, mm.
#[derive(Clone, Copy, Debug)]
pub(in crate::parts) struct LeafFace {
    /// From spine to fore-edge.
    pub width: f64,
    /// Whether the worked face is the page's back.
    pub on_back: bool,
}

impl LeafFace {
    pub(in crate::parts) fn new(page: &NewPage<'_>) -> Self {
        Self { width: page.width, on_back: page.entry.get(FACES) == Faces::Back }
    }

    /// Where something `width` wide that begins `from_spine` away from the spine begins, as the face is seen.
    pub(in crate::parts) fn x(self, from_spine: f64, width: f64) -> f64 {
        if self.on_back { self.width - from_spine - width } else { from_spine }
    }

    /// The worked face, and the other one.
    pub(in crate::parts) const fn faces(self) -> [Face; 2] {
        if self.on_back { [Face::Back, Face::Front] } else { [Face::Front, Face::Back] }
    }

    /// Says how the page is carried: the tab is stuck on panel 0 of a piece, whose tail is at `y`.
    pub(in crate::parts) fn carried(self, builder: &mut Builder<'_>, piece: usize, (left, y): (f64, f64)) {
        let spine = left + self.x(0.0, 0.0);
        let at = |face| side(piece, 0, face, (spine, y), (0.0, 1.0));
        let (worked, other) = (at(Face::Front), at(Face::Back));
        // What looks to the page's back lies before the tab, what looks to its front behind it.
        let (to_front, to_back) = if self.on_back { (worked, other) } else { (other, worked) };
        builder.carried(Hold::Stuck, to_front, to_back);
    }

    /// The edge nearest the spine of something that lies from `left` to `right`.
    pub(in crate::parts) const fn near_spine(self, left: f64, right: f64) -> f64 {
        if self.on_back { right } else { left }
    }
}

/// How much of a leaf the hinge's tab covers, mm.
pub(in crate::parts) fn tab(builder: &Builder<'_>) -> f64 {
    Carry::tab_of(builder.album)
}

/// A length of an entry, mm; `otherwise` where it is left out.
pub(in crate::parts) fn given(entry: &Entry, key: Key<Option<Length>>, otherwise: f64) -> f64 {
    entry.get(key).map_or(otherwise, Length::mm)
}

/// A side on the front of a panel, from its lower left corner as it is seen when the part lies flat, to the right.
pub(in crate::parts) const fn front(piece: usize, panel: usize, at: (f64, f64)) -> Side {
    side(piece, panel, Face::Front, at, (1.0, 0.0))
}

/// A side on the back of a panel, from its lower left corner as it is seen from behind: to the left as the part is drawn.
pub(in crate::parts) const fn back(piece: usize, panel: usize, at: (f64, f64)) -> Side {
    side(piece, panel, Face::Back, at, (-1.0, 0.0))
}

/// What is wrong with a page's sizes.
#[derive(Clone, Debug)]
pub(in crate::parts) struct Wrong {
    /// `pocket-too-wide`.
    pub id: &'static str,
    /// What is wrong; it is given `measured` and `allowed`.
    pub text: Said,
    pub measured: f64,
    pub allowed: f64,
    /// What to do; it is given the `field`.
    pub help: Said,
    /// The field at which it can be mended.
    pub field: Field,
}

impl Wrong {
    /// Says it, at the field or else at the page.
    pub(in crate::parts) fn say(self, builder: &mut Builder<'_>, page: &NewPage<'_>) {
        let [measured, allowed] = [self.measured, self.allowed].map(|mm| builder.album.length(mm));
        let text = self.text.with("measured", measured).with("allowed", allowed);
        builder.find(
            Finding::stop(self.id, page.about(), text)
                .measured(Length::from_mm(self.measured), Length::from_mm(self.allowed))
                .help(self.help.with("field", Arg::field(self.field.name)))
                .at(page.entry.values.place(self.field)),
        );
    }
}
