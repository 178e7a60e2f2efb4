// SPDX-License-Identifier: MIT
//! What two parts have in common that can be cut as one.
//!
//! In: parts. Out: [`Likeness`]. Never: says what is made of them.

use crate::parts::{Kit, PatternBlock};

/// What two parts have in common that can be cut as one.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Likeness {
    stock: usize,
    kind: &'static str,
    along_grain: bool,
    sideways: bool,
    pub(super) flat: Vec<i64>,
    /// The block that it is cut in, as numbers: its parts are of no other. Nothing where it is cut by itself.
    pub(super) block: Vec<i64>,
}

impl Likeness {
    /// That of a part; `stock` is what its stock is called by.
    pub(super) fn of(kit: &Kit, number: usize, stock: usize) -> Self {
        let part = &kit.parts[number];
        Self {
            stock,
            kind: part.kind,
            along_grain: part.along_grain,
            sideways: part.sideways,
            flat: part.flat.likeness(),
            block: block_of(kit, number),
        }
    }
}

/// The block that a part is cut in, as numbers.
fn block_of(kit: &Kit, part: usize) -> Vec<i64> {
    let at = |block: &PatternBlock| block.parts.iter().position(|member| member.part == part);
    let Some((block, at)) = kit.blocks.iter().find_map(|block| Some((block, at(block)?))) else { return Vec::new() };
    #[allow(clippy::cast_possible_truncation, reason = "a float-to-integer cast saturates")]
    let micrometres = |mm: f64| (mm * 1e3).round() as i64;
    let mut all = vec![i64::from(block.upright), i64::try_from(at).unwrap_or(i64::MAX)];
    for member in &block.parts {
        all.push(micrometres(member.behind));
        all.extend(kit.parts.get(member.part).map(|part| part.flat.likeness()).unwrap_or_default());
    }
    all
}
