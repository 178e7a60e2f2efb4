// SPDX-License-Identifier: MIT
//! The fields of a cutter file that say which words are drawn.

use super::writing::{DrawnText, TextSide, USUAL_PEN, Writing};
use crate::fields::{Key, Values, usual};
use crate::length::Length;

pub(super) const TEXT: Key<DrawnText> =
    Key::choice("text", DrawnText::Names.usual(), "which words are drawn on each part, in single strokes");
pub(super) const TEXT_SIDE: Key<TextSide> =
    Key::choice("text_side", TextSide::Front.usual(), "on which side of the card words are drawn");
pub(super) const PEN: Key<Length> = Key::length(
    "pen",
    usual(USUAL_PEN.0, USUAL_PEN.1),
    "how broad the pen's line is; words keep so far from scores and cuts",
)
.within(0.05, 5.0)
.unmeasured();

/// How words are drawn, as the cutter file says it.
pub(super) fn writing(values: &Values) -> Writing {
    Writing { text: values.get(TEXT), side: values.get(TEXT_SIDE), pen: values.get(PEN) }
}
