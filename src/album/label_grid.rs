// SPDX-License-Identifier: MIT
//! Sheets of labels as the maker has them: `"labels"` of an album file.
//!
//! ```text
//!   left   width
//!  |<--->|<------>|<->| gap_x
//!  +-----------------------------+  ---
//!  |                             |   top
//!  |     +--------+   +--------+ |  ---
//!  |     |        |   |        | |   height
//!  |     +--------+   +--------+ |  ---
//!  |                             |   gap_y
//! ```

use crate::fields::{Field, Key, Reader, Values, needed, number, rule, usual};
use crate::finding::{Arg, Said};
use crate::length::Length;
use crate::length::tolerance::SAME;
use crate::paper::Paper;

const PAPER: Key<Option<Paper>> = Key::choice("paper", rule("the guide's"), "the paper that the labels come on");
const ACROSS: Key<u32> = Key::count("across", (1, 20), number(2), "how many labels stand side by side");
const DOWN: Key<u32> = Key::count("down", (1, 60), number(4), "how many labels stand one above the other");
const LABEL_WIDTH: Key<Length> = Key::length("width", needed(), "width of a label").within(30.0, 420.0).unmeasured();
const LABEL_HEIGHT: Key<Length> = Key::length("height", needed(), "height of a label").within(12.0, 420.0).unmeasured();
const LEFT: Key<Length> = Key::length("left", usual(0.0, 0.0), "from the paper's left edge to the first label")
    .within(0.0, 200.0)
    .unmeasured();
const TOP: Key<Length> = Key::length("top", usual(0.0, 0.0), "from the paper's upper edge to the first label")
    .within(0.0, 200.0)
    .unmeasured();
const GAP_X: Key<Length> =
    Key::length("gap_x", usual(0.0, 0.0), "between two labels side by side").within(0.0, 100.0).unmeasured();
const GAP_Y: Key<Length> =
    Key::length("gap_y", usual(0.0, 0.0), "between two labels one above the other").within(0.0, 100.0).unmeasured();

/// The fields of `labels`.
pub(super) const LABEL_FIELDS: &[Field] = &[
    PAPER.field,
    ACROSS.field,
    DOWN.field,
    LABEL_WIDTH.field,
    LABEL_HEIGHT.field,
    LEFT.field,
    TOP.field,
    GAP_X.field,
    GAP_Y.field,
];

/// A sheet of labels, lengths in mm.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LabelGrid {
    /// The paper.
    pub paper: Paper,
    /// How many labels stand side by side, and one above the other.
    pub count: [u32; 2],
    /// Width and height of a label.
    pub size: [f64; 2],
    /// From the paper's left and upper edge to the first label.
    pub start: [f64; 2],
    /// Between two labels, across and down.
    pub gap: [f64; 2],
}

impl LabelGrid {
    /// How much paper the labels take from its left and upper edge on.
    #[must_use]
    pub fn takes(&self) -> [f64; 2] {
        [0, 1].map(|way| {
            let count = f64::from(self.count[way]);
            self.start[way] + count.mul_add(self.size[way], (count - 1.0) * self.gap[way])
        })
    }

    /// The upper left corner of a label, from the paper's, by its column and row.
    #[must_use]
    pub fn corner(&self, place: [u32; 2]) -> [f64; 2] {
        [0, 1].map(|way| f64::from(place[way]).mul_add(self.size[way] + self.gap[way], self.start[way]))
    }
}

/// Reads it, on the album's usual paper unless it says another one; labels that stand over the paper's edge are refused.
pub(super) fn read(reader: &mut Reader<'_>, values: &Values, paper: Paper) -> LabelGrid {
    let mm = |key: Key<Length>| values.get(key).mm();
    let grid = LabelGrid {
        paper: values.get(PAPER).unwrap_or(paper),
        count: [values.get(ACROSS), values.get(DOWN)],
        size: [mm(LABEL_WIDTH), mm(LABEL_HEIGHT)],
        start: [mm(LEFT), mm(TOP)],
        gap: [mm(GAP_X), mm(GAP_Y)],
    };
    let Some(place) = values.whole() else { return grid };
    let (wide, high) = grid.paper.size();
    let units = reader.units;
    for (way, room, key) in [(0, wide, "labels-too-wide"), (1, high, "labels-too-tall")] {
        let takes = grid.takes()[way];
        if takes > room + SAME {
            let length = |mm: f64| Arg::Length(Length::from_mm(mm), units);
            let text = Said::new(key).with("takes", length(takes)).with("room", length(room));
            reader.problem("labels-too-large", text, Said::new("labels-too-large-help"), &place.clone());
        }
    }
    grid
}
