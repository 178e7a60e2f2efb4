// SPDX-License-Identifier: MIT
//! What several lists of a report have: a stock, a count, numbers of any size.

use crate::fields::{Fallback, Key, Node, Reader, Text, Texts, Tree, needed, number};
use crate::finding::Said;

/// More of a part, of a sheet, of kits than this are none of ours.
pub(super) const MOST: u32 = 100_000_000;

pub(super) const STOCK: Key<Text> = Key::text("stock", needed(), "the name of its stock");
pub(super) const COUNT: Key<u32> = Key::count("count", (0, MOST), needed(), "how many a kit needs");

pub(super) const COPIES: Key<u32> = Key::count("copies", (1, MOST), number(1), "how many kits it is of");
pub(super) const USED_IN: Key<Texts> =
    Key::texts("used_in", "a list of texts", Fallback::Rule("none"), "what it is used for");

/// A number of the report, whatever its size.
pub(super) fn number_in(reader: &mut Reader<'_>, node: &Node, path: &str, name: &str) -> Option<f64> {
    if let Tree::Number(number) = node.tree {
        return Some(number);
    }
    let place = reader.place(&node.range, path);
    reader.wrong_type(name, Said::new("form-amount"), &node.tree, Said::new("made-again-help"), &place);
    None
}
