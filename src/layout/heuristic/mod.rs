// SPDX-License-Identifier: MIT
//! Heuristics: layouts that are good, in the order in which they are tried.
//!
//! Constructive rules, set covering over the sheets met with columns generated on the way, ruin and recreate.

pub(crate) mod column_generation;
pub(crate) mod column_pool;
pub(crate) mod constructive;
pub(crate) mod descent;
pub(crate) mod equal_sheets;
pub(crate) mod greedy_columns;
pub(crate) mod largest_offcut;
pub(crate) mod late_acceptance;
pub(crate) mod leftover;
pub(crate) mod max_rects;
pub(crate) mod mixed_plan;
pub(crate) mod multi_start;
pub(crate) mod objective;
pub(crate) mod one_fewer;
pub(crate) mod open_sheet;
pub(crate) mod openings;
pub(crate) mod pairs;
pub(crate) mod partial_packing;
pub(crate) mod ruin_free;
pub(crate) mod ruin_recreate;
pub(crate) mod rule;
pub(crate) mod set_covering;
pub(crate) mod sheet_builder;
pub(crate) mod sort_key;
