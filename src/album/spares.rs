// SPDX-License-Identifier: MIT
//! `"spares"` of an album file or a batch file: what is made besides, for what goes wrong.
//!
//! ```json
//! "spares": { "kits": 1, "parts": "2 %" }
//! ```

use super::Album;
use crate::fields::{Amount, AmountOrText, Fallback, Field, Key, Nested, Node, Reader, number, object_schema, rule};
use crate::finding::{Arg, Said};
use crate::length::excerpt;
use serde_json::Value;

/// What is made besides, for what goes wrong.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
#[non_exhaustive]
pub struct Spares {
    /// So many more of each kit.
    pub kits: u32,
    /// So many more of each part over the whole order.
    pub parts: MoreParts,
}

/// More of each part.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MoreParts {
    /// So many.
    Count(u32),
    /// So many in a hundred, rounded up to a part; in thousandths of a per cent.
    Share(u32),
}

impl Default for MoreParts {
    fn default() -> Self {
        Self::Count(0)
    }
}

impl MoreParts {
    /// How many more than so many.
    ///
    /// ```
    /// use hingeleaf::album::MoreParts;
    /// assert_eq!(MoreParts::Share(2_000).of(50), 1); // 2 %
    /// assert_eq!(MoreParts::Share(2_000).of(51), 2); // rounded up to a part
    /// assert_eq!(MoreParts::Count(3).of(0), 0); // none of what is not made at all
    /// ```
    #[must_use]
    pub fn of(self, count: u32) -> u32 {
        match self {
            _ if count == 0 => 0,
            Self::Count(more) => more,
            Self::Share(thousandths) => {
                let more = (u64::from(count) * u64::from(thousandths)).div_ceil(100_000);
                u32::try_from(more).unwrap_or(u32::MAX)
            }
        }
    }

    /// How many more of a part that several have, by what each wants and how many it has: those that want as many in a hundred want
    /// them of all that they have together.
    #[must_use]
    pub fn of_all(all: impl IntoIterator<Item = (Self, u32)>) -> u32 {
        let mut wanted: Vec<(Self, u32)> = Vec::new();
        for (more, count) in all {
            match wanted.iter_mut().find(|(known, _)| *known == more) {
                Some((_, sum)) => *sum = sum.saturating_add(count),
                None => wanted.push((more, count)),
            }
        }
        wanted.into_iter().map(|(more, sum)| more.of(sum)).fold(0, u32::saturating_add)
    }
}

impl Album {
    /// How many kits are made, spare ones among them.
    #[must_use]
    pub fn made(&self) -> u32 {
        self.copies.saturating_add(self.spares.map_or(0, |spares| spares.kits))
    }
}

/// What is made besides.
pub(crate) const SPARES: Key<Nested> = Key::nested(
    "spares",
    "{ … } with kits or parts",
    Fallback::Rule("none"),
    "what is made besides, for what goes wrong",
);

const SPARE_KITS: Key<u32> = Key::count("kits", (0, 1000), number(0), "how many more of each kit");
const SPARE_PARTS: Key<Option<AmountOrText>> = Key::amount_or_text(
    "parts",
    "a whole number, or a share: \"2 %\"",
    rule("none"),
    "how many more of each part over the whole order, rounded up to a part",
);

/// The fields of `spares`.
pub(crate) const SPARE_FIELDS: &[Field] = &[SPARE_KITS.field, SPARE_PARTS.field];

/// What `spares.parts` may say at most, per cent and parts: our choice.
const MOST_SHARE: f64 = 100.0;
const MOST_MORE: f64 = 1000.0;

/// Reads it.
pub(crate) fn read(reader: &mut Reader<'_>, node: &Node) -> Option<Spares> {
    let name = SPARES.name();
    let values = reader.object(node, name, Arg::field(name), &[SPARE_FIELDS])?;
    let parts = values.get(SPARE_PARTS).and_then(|said| {
        let more = more_parts(said);
        if let (None, Some(place)) = (more, values.place(SPARE_PARTS).cloned()) {
            let said = match said {
                Amount::Number(number) => Arg::from(number.to_string()),
                Amount::Text(text) => Arg::quoted(excerpt(text)),
            };
            let text = Said::new("bad-spares").with("said", said);
            reader.problem("out-of-range", text, Said::new("bad-spares-help"), &place);
        }
        more
    });
    Some(Spares { kits: values.get(SPARE_KITS), parts: parts.unwrap_or_default() })
}

/// So many more of each part, in what the field says; nothing where it is no such thing.
fn more_parts(said: Amount<'_>) -> Option<MoreParts> {
    let whole = |value: f64, most: f64| (0.0..=most).contains(&value).then_some(value);
    #[allow(clippy::cast_possible_truncation, clippy::cast_sign_loss, reason = "from nought to a hundred thousand")]
    match said {
        Amount::Number(count) => {
            whole(count, MOST_MORE).filter(|count| count.fract() == 0.0).map(|count| MoreParts::Count(count as u32))
        }
        Amount::Text(text) => {
            let share: f64 = text.trim().strip_suffix('%')?.trim().parse().ok()?;
            whole(share, MOST_SHARE).map(|share| MoreParts::Share((share * 1000.0).round() as u32))
        }
    }
}

/// What a file may say, as a JSON Schema.
pub(crate) fn schema() -> Value {
    object_schema(&[SPARE_FIELDS], &[])
}
