// SPDX-License-Identifier: MIT
//! `"kinds"`: the kinds that an album brings along. Whoever says which kinds there are has read them; here is seen to their form.

use crate::fields::{Node, Reader, Tree};
use crate::finding::{Arg, Said};

/// Reports what is neither a file's name nor a kind.
pub(super) fn checked(reader: &mut Reader<'_>, node: &Node) {
    let one = std::slice::from_ref(node);
    let items = if matches!(node.tree, Tree::Text(_)) { one } else { reader.list(node, "kinds", "kinds") };
    for (number, item) in items.iter().enumerate() {
        if !matches!(item.tree, Tree::Text(_) | Tree::Object(_)) {
            let place = reader.place(&item.range, &format!("kinds[{number}]"));
            reader.wrong_type("kinds", Arg::term("a kind file's name, or a kind"), &item.tree, Said::NOTHING, &place);
        }
    }
}
