// SPDX-License-Identifier: MIT
//! Trimmer layouts: every sheet can be taken apart by cuts from edge to edge, in any number of stages.
//!
//! In: what the free layouts are made from. Out: the same drafts, in which every sheet can be cut like that, and the cuts
//! of each sheet. Never: gives a layout that needs a blade to stop inside a piece.

mod apart;
mod cuts;
mod neat;
mod open;
mod pursue;
mod tree;

pub use cuts::{Cut, Piece, Way};
pub(super) use cuts::{cuts, largest_offcut};
pub(super) use open::OpenTree;
