// SPDX-License-Identifier: MIT
//! Kinds of page, one file a kind, and what they share: a `page` with its faces, a single `leaf`.

pub(in crate::parts) mod corner;
pub(in crate::parts) mod divider;
pub(in crate::parts) mod fold_out;
pub(in crate::parts) mod frame;
pub(in crate::parts) mod gate;
pub(in crate::parts) mod leaf;
pub(in crate::parts) mod library_card;
pub(in crate::parts) mod notched;
pub(in crate::parts) mod page;
pub(in crate::parts) mod side;
pub(in crate::parts) mod sleeve;
pub(in crate::parts) mod tuck;
pub(in crate::parts) mod two_pieces;
pub(in crate::parts) mod waterfall;
