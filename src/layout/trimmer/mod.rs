// SPDX-License-Identifier: MIT
//! Guillotine (trimmer) layouts: every sheet can be taken apart by cuts from edge to edge, in any number of stages.
//!
//! In: what the free layouts are made from. Out: the same packings, in which every sheet can be cut like that, and the cuts
//! of each sheet. Never: gives a layout that needs a blade to stop inside a piece.

pub(crate) mod cut_plan;
pub(crate) mod fewer_cuts;
mod insertion;
pub(crate) mod open_tree;
mod ruin;
mod separate;
mod slicing_tree;
