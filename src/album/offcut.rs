// SPDX-License-Identifier: MIT
//! `"size": "offcut"`: an insert as large as comes free on what the sheets leave over.
//!
//! Until that is settled nobody knows its size, so there are none of it; then both its sides are plain lengths.

use super::{Album, Entry};
use crate::fields::{Fallback, Field, Reader, Takes, Value};
use crate::finding::{Arg, Said};
use crate::length::Length;

/// The word that says so.
const OFFCUT: &str = "offcut";

/// The field of an insert whose size may follow what the sheets leave over.
pub(crate) const FOLLOWS: Field = Field::new(
    "size",
    Takes::Choice(&[OFFCUT]),
    Fallback::Rule("its width and height"),
    "offcut is the largest that comes free on what the sheets leave over, in the kind's usual proportion",
);

/// The names of its sides.
const SIDES: [&str; 2] = ["width", "height"];

impl Entry {
    /// Whether its size is still to be found on what the sheets leave over.
    #[must_use]
    pub(crate) fn follows_offcuts(&self) -> bool {
        match self.values.value(FOLLOWS.name) {
            Some(Value::Choice(word)) => *word == OFFCUT,
            Some(Value::Text(text)) => text.trim() == OFFCUT,
            _ => false,
        }
    }

    /// Its width and its height, where the file says them.
    #[must_use]
    pub(crate) fn sides(&self) -> [Option<Length>; 2] {
        SIDES.map(|side| self.values.length_of(side).filter(|_| self.says(side)))
    }

    fn says(&self, side: &str) -> bool {
        self.values.place_of(side) != self.values.whole()
    }
}

impl Album {
    /// The same album with an insert of this size; what is left out is as the kind has it.
    #[must_use]
    pub(crate) fn with_size(&self, insert: usize, sides: [Option<Length>; 2]) -> Self {
        let mut other = self.clone();
        if let Some(entry) = other.inserts.get_mut(insert) {
            entry.values.unset(FOLLOWS.name);
            for (side, length) in SIDES.into_iter().zip(sides) {
                if let Some(length) = length {
                    entry.values.set_length(side, length);
                }
            }
        }
        other
    }

    /// From one size to the next that a ruler has: 0.5 mm, in inch files 1/32 in, or what sizes were rounded to.
    #[must_use]
    pub fn ruler_step(&self) -> Length {
        self.step.unwrap_or_else(|| self.units.half_step())
    }
}

/// Says so where an insert that follows what is left over has nothing to follow with: both its sides, or an open count.
pub(super) fn checked(reader: &mut Reader<'_>, insert: &Entry) {
    if !insert.follows_offcuts() {
        return;
    }
    let field = || Arg::field(FOLLOWS.name);
    let has = |side: &str| insert.kind.fields.iter().any(|field| field.name == side);
    let open = SIDES.iter().zip(insert.sides()).any(|(side, said)| has(side) && said.is_none());
    let text = match (insert.is_spare(), open) {
        (true, _) => "offcut-and-spare",
        (false, false) => "offcut-and-sides",
        (false, true) => return,
    };
    if let Some(place) = insert.values.place(FOLLOWS).cloned() {
        let help = Said::new("offcut-and-help").with("field", field());
        reader.problem("offcut-size", Said::new(text).with("field", field()), help, &place);
    }
}
